"""What takes a toy's kickback: chosen, or taken as stated."""

from dataclasses import dataclass, replace
from math import inf, isinf
from typing import Any

from guide_gen.formulas import diode as formulas
from guide_gen.formulas import kickback
from guide_gen.formulas.choice import first_that_fits, reaches
from guide_gen.model.fields import SuppressorFields
from guide_gen.model.loads import over_rated
from guide_gen.model.plan import Load, Suppression
from guide_gen.planning import freewheel
from guide_gen.planning.freewheel import Chop
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.worked import Candidate, Shape, Worked, work

# What a multimeter's diode range shows at its small current. Common practice, no source.
METER_V = {"schottky": (0.10, 0.45), "standard": (0.40, 0.80), "": (0.10, 0.80)}
# Steps in which fast diodes are sold, for a need that no registered class meets. Common practice, no source.
REVERSE_STEPS_V = (50.0, 100.0, 200.0, 400.0)
CURRENT_STEPS_A = (1.0, 3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 60.0)
# Steps in which zener diodes are sold by power. Common practice, no source.
POWER_STEPS_W = (0.5, 1.0, 3.0, 5.0, 10.0, 50.0)
# Classes of transient-voltage-suppressor diodes by pulse power at 10/1000 μs (IEC 61643-321). From memory.
PULSE_STEPS_W = (400.0, 600.0, 1500.0, 3000.0, 5000.0)
# Film capacitors without polarity: up to which capacitance, and for which voltages they are sold. Common practice, no
# source. Their values are of series E6 (IEC 60063).
LARGEST_FILM_F = 10e-6
FILM_STEPS_V = (63.0, 100.0, 250.0, 400.0, 630.0)
LEAST_ZENER_V = 3.3  # below this a zener hardly does more than its diode; this project
CLAMPED_SHARE = 0.8  # of a port's voltage at most, when a switch-off drives it up; this project
# What the supply and a clamp together may reach, by what switches the load; this project.
ALLOWED = {
    "port": f"{CLAMPED_SHARE:g} of the port's voltage",
    "contact": "the contact's DC voltage, less what the diode drops",
}
SLOWEST_DROP_V = {
    "schottky": rule("Schottky diode drop").low or 0.0,
    "standard": rule("silicon diode drop").low or 0.0,
    "": rule("Schottky diode drop").low or 0.0,
}


@dataclass(frozen=True)
class Kick:
    """What a suppressor has to take.

    current_A: at the moment of switching off, at its own voltage. highest_V: of the supply. chop: what PWM does to it;
    None without PWM.
    allowed_V: what the switch may see; None when nothing bounds it. load: None when nothing more is known.
    at: what switches it, ``port`` or ``contact``.
    """

    current_A: float
    highest_V: float
    chop: Chop | None
    allowed_V: float | None = None
    load: Load | None = None
    at: str = "port"

    @property
    def chopped(self) -> bool:
        """Whether PWM drives the load."""
        return self.chop is not None

    @property
    def highest_A(self) -> float:
        """At the moment of switching off, the supply at its highest: what drives the switch highest."""
        return self.current_A * (over_rated(self.load.voltage_V, self.highest_V) if self.load else 1.0)

    @property
    def release_A(self) -> float | None:
        """Below this current it lets go of what it holds; None: it holds nothing, or not known."""
        if self.load is None or self.load.release_A is None:
            return None
        return min(self.load.release_A, self.current_A)

    @property
    def coil(self) -> tuple[float, float] | None:
        """Inductance at its high end and resistance at its low end, which make it slow; None when not known."""
        if self.load is None or self.load.inductance_H is None or self.load.resistance_ohm is None:
            return None
        return self.load.inductance_H[1], self.load.resistance_ohm[0]

    def release(self, clamp_V: float) -> Worked | None:
        """From switching off until the coil lets go, against a constant voltage."""
        if self.coil is None or self.release_A is None:
            return None
        inductance, resistance = self.coil
        return work(
            kickback.decay_time_s,
            "suppressor.release",
            "Time until it lets go",
            sentence=f"It lets go at {show.amps(self.release_A)} at the latest.",
            inductance_H=inductance,
            resistance_ohm=resistance,
            start_A=self.current_A,
            release_A=self.release_A,
            clamp_V=clamp_V,
        )


def needs(current_A: float, highest_V: float, chop: Chop | None) -> tuple[float, float, float, tuple[Worked, ...]]:
    """Reverse voltage, mean current and surge that a diode across the load needs. chop: what PWM does to the load."""
    reverse = work(
        formulas.reverse_voltage_V, "suppressor.reverse", "Reverse voltage of the diode", voltage_V=highest_V
    )
    mean = (
        chop.mean()
        if chop
        else work(
            formulas.mean_current_single_shots_A, "suppressor.mean", "Mean current of the diode", current_A=current_A
        )
    )
    surge_A, surge = chop.surge() if chop else (current_A, ())
    return float(reverse.result), float(mean.result), surge_A, (reverse, mean, *surge)


def chosen_diode(current_A: float, highest_V: float, chop: Chop | None) -> tuple[Suppression, tuple[Worked, ...]]:
    """The smallest registered class that fits; of one current class the highest voltage, since it costs the same."""
    reverse_V, mean_A, surge_A, working = needs(current_A, highest_V, chop)
    technology = "schottky" if chop else "standard"
    classes = sorted(
        (one for one in tables.diodes() if one.technology == technology), key=lambda one: (one.if_av_A, -one.vrrm_V)
    )

    def rejected(one: tables.Diode) -> str:
        if not reaches(one.if_av_A, mean_A):
            return f"carries {show.amps(one.if_av_A)}"
        if not reaches(one.vrrm_V, reverse_V):
            return f"blocks {show.volts(one.vrrm_V)}"
        if not reaches(one.ifsm_A, surge_A):
            return f"stands a surge of {show.amps(one.ifsm_A)}"
        if chop is None:
            return ""
        junction = freewheel.class_degC(one, mean_A, chop.air_degC)
        fits = reaches(freewheel.LIMIT_DEGC, junction)
        return "" if fits else f"its junction would reach {show.with_unit(f'{junction:.0f}', '°C')}"

    fitting = first_that_fits(classes, rejected, lambda one: one.name)
    taken, candidates = fitting
    low, high = METER_V[technology if taken else ""]
    if taken:
        word = "Schottky diode" if chop else "diode"
        plan = Suppression(
            "diode",
            f"{word} {show.volts(taken.vrrm_V)} {show.amps(taken.if_av_A)}",
            taken.name,
            technology,
            taken.vrrm_V,
            taken.if_av_A,
            taken.ifsm_A,
            low,
            high,
        )
    else:
        volts = next((step for step in REVERSE_STEPS_V if reaches(step, reverse_V)), reverse_V)
        amps = next((step for step in CURRENT_STEPS_A if reaches(step, mean_A)), mean_A)
        word = "fast or Schottky diode" if chop else "diode"
        plan = Suppression(
            "diode", f"{word} {show.volts(volts)} {show.amps(amps)} or more", "", "", volts, amps, None, low, high
        )
    shown = candidates if len(candidates) <= 4 else (candidates[0], *candidates[-3:])
    choice = Worked(
        "suppressor.diode",
        "Diode",
        Shape.CHOICE,
        "D",
        plan.part,
        "",
        "smallest current class that fits, in it the highest voltage"
        if taken
        else "no registered class fits: bought by its values",
        "JEDEC registered types; PWM needs a fast one" if chop else "JEDEC registered types",
        f"For example class {taken.name}." if taken else "",
        candidates=shown,
    )
    return plan, (*working, choice)


def with_release(plan: Suppression, working: tuple[Worked, ...], kick: Kick) -> tuple[Suppression, tuple[Worked, ...]]:
    """A plain diode's release time, where a coil holds something."""
    release = kick.release(SLOWEST_DROP_V[plan.technology])
    if release is None:
        return plan, working
    return replace(plan, release_s=float(release.result)), (*working, release)


# ---- diode and zener ------------------------------------------------------------------------------------------------


def zener_V(kick: Kick) -> tuple[float | None, Worked]:
    """The highest standard zener that keeps the switch below its share; at most twice the supply, more gains little."""
    most = 2 * kick.highest_V
    bound = "" if kick.allowed_V is None else f" and, together with that voltage, below {ALLOWED[kick.at]}"
    room = most if kick.allowed_V is None else min(most, kick.allowed_V - kick.highest_V)
    values = [step * decade for decade in (1, 10) for step in tables.e24_decade()]
    fitting = [value for value in values if LEAST_ZENER_V <= value < room * (1 - 1e-9)]
    taken = max(fitting, default=None)
    above = next((value for value in values if value > (taken or 0.0) and value >= LEAST_ZENER_V), None)
    candidates: tuple[Candidate, ...] = (Candidate(show.volts(taken), ""),) if taken else ()
    if above is not None:
        candidates += (Candidate(show.volts(above), f"not below {show.volts(room)}"),)
    return taken, Worked(
        "suppressor.zener",
        "Zener diode",
        Shape.CHOICE,
        "V_z",
        taken if taken is not None else "none fits",
        "V" if taken is not None else "",
        f"highest standard value below twice the highest voltage of the supply{bound}",
        "IEC 60063, series E24; both bounds are of this project",
        "The higher it is, the faster the coil lets go; beyond twice the supply that gains little. Of a suppressor "
        "diode its breakdown voltage counts; at its full pulse current it rises to about 1.4 times that (common "
        "practice, no source), for which the share of the port leaves room.",
        candidates=candidates,
    )


def diode_and_zener(fields: SuppressorFields | None, kick: Kick) -> tuple[Suppression, tuple[Worked, ...]]:
    """A diode with a zener in series, band to band from outside: both chosen, or checked as stated."""
    diode, working = chosen_diode(kick.current_A, kick.highest_V, None)
    stated = fields.zener_voltage.high if fields and fields.zener_voltage else None
    volts, choice = zener_V(kick)
    working = (*working[:2], choice, *working[2:]) if stated is None else working
    volts = stated if stated is not None else volts
    reverse, forward, surge = values_of(fields)
    plan = replace(
        diode,
        type="diode and zener",
        reverse_V=reverse if reverse is not None else diode.reverse_V,
        forward_A=forward if forward is not None else diode.forward_A,
        surge_A=surge if surge is not None else diode.surge_A,
        zener_V=volts,
    )
    if volts is None:
        return replace(plan, part="diode and zener"), working
    slow, fast = volts + SLOWEST_DROP_V["standard"], volts + (rule("silicon diode drop").high or 0.0)
    peak = work(
        kickback.clamped_peak_V,
        "suppressor.peak",
        "Highest voltage at the switch",
        voltage_V=kick.highest_V,
        clamp_V=fast,
    )
    power, energy = zener_power(volts, slow, kick)
    release = kick.release(slow)
    rated = next((step for step in POWER_STEPS_W if power is not None and reaches(step, 2 * power)), None)
    plan, pulse = with_pulse(replace(plan, zener_V=volts, zener_W=rated), slow, kick)
    plan = replace(
        plan,
        part=f"{diode.part}, in series with a zener diode {show.volts(volts)}: {zener_words(plan)}",
        peak_V=float(peak.result),
        release_s=float(release.result) if release else None,
    )
    return plan, (*working, peak, *pulse, *energy, *((release,) if release else ()))


def with_pulse(plan: Suppression, clamp_V: float, kick: Kick) -> tuple[Suppression, tuple[Worked, ...]]:
    """What the zener takes at each switching off, the supply at its highest, and the class that stands it."""
    assert plan.zener_V is not None
    amps = kick.highest_A
    peak = work(
        kickback.clamp_peak_W,
        "suppressor.pulse",
        "Power in the zener at the moment of switching off",
        sentence="An ordinary zener diode fails as a short circuit above the surge that its data sheet lists.",
        part_V=plan.zener_V,
        start_A=amps,
    )
    plan = replace(plan, pulse_A=amps, pulse_W=float(peak.result))
    if kick.coil is None:
        return plan, (peak,)
    inductance, resistance = kick.coil
    fall = work(
        kickback.decay_time_s,
        "suppressor.fall",
        "Time until the zener's current is gone",
        inductance_H=inductance,
        resistance_ohm=resistance,
        start_A=amps,
        release_A=0.0,
        clamp_V=clamp_V,
    )
    needed = work(
        kickback.class_pulse_W,
        "suppressor.class",
        "Pulse power that the zener must be rated for, 10/1000 μs",
        sentence="What it stands falls about with the square root of the time. Sold in classes of 400 W, 600 W, "
        "1500 W, 3000 W and 5000 W.",
        peak_W=float(peak.result),
        fall_s=float(fall.result),
    )
    sold = next((step for step in PULSE_STEPS_W if reaches(step, float(needed.result))), inf)
    return replace(plan, pulse_s=float(fall.result), pulse_class_W=sold), (peak, fall, needed)


def zener_words(plan: Suppression) -> str:
    """Which part it is to be: of which class, or a zener that lists the surge; and for its mean heat."""
    assert plan.pulse_A is not None
    assert plan.pulse_W is not None
    surge = show.amps(show.rounded_up(plan.pulse_A))
    heat = f"; {show.watts(plan.zener_W)} or more for ever" if plan.zener_W else ""
    if plan.pulse_class_W is None:
        return f"one whose data sheet lists a surge of {surge} or more (its time is not known without the coil){heat}"
    assert plan.pulse_s is not None
    if isinf(plan.pulse_class_W):
        return f"none that is sold stands {show.watts(plan.pulse_W)} for {show.seconds(plan.pulse_s)}"
    return (
        f"a one-way transient-voltage-suppressor diode {show.count(plan.pulse_class_W)} W or more (10/1000 μs), or a "
        f"zener diode whose data sheet lists a surge of {surge} or more for {show.seconds(plan.pulse_s)}{heat}"
    )


def zener_power(volts: float, clamp_V: float, kick: Kick) -> tuple[float | None, tuple[Worked, ...]]:
    """Mean heat in the zener, where coil and repetition are known; else None."""
    if kick.coil is None:
        return None, ()
    inductance, resistance = kick.coil
    energy = work(
        kickback.clamp_energy_J,
        "suppressor.energy",
        "Energy in the zener at each switching off",
        part_V=volts,
        clamp_V=clamp_V,
        inductance_H=inductance,
        resistance_ohm=resistance,
        start_A=kick.current_A,
    )
    if kick.load is None or kick.load.switches_per_s is None:
        return None, (energy,)
    power = work(
        kickback.repeated_power_W,
        "suppressor.power",
        "Mean heat in the zener",
        frequency_Hz=kick.load.switches_per_s,
        energy_J=float(energy.result),
    )
    return float(power.result), (energy, power)


# ---- resistor and capacitor -----------------------------------------------------------------------------------------


def rc(fields: SuppressorFields | None, kick: Kick) -> tuple[Suppression, tuple[Worked, ...]]:
    """A resistor and a capacitor in series: as stated, or designed from the coil; without either only named."""
    capacitance = fields.capacitance.low if fields and fields.capacitance else None
    resistance = fields.resistance.high if fields and fields.resistance else None
    working: tuple[Worked, ...] = ()
    if capacitance is None or resistance is None:
        design = rc_design(kick, capacitance, resistance)
        if design is None:
            return Suppression("rc", "rc"), ()
        capacitance, resistance, working = design
    plan = Suppression(
        "rc",
        f"{show.ohms(resistance)} and {show.figure(1e6 * capacitance)} {show.MICRO}F in series",
        capacitance_F=capacitance,
        resistance_ohm=resistance,
    )
    if kick.coil is None:
        return plan, working
    inductance, winding = kick.coil
    known: dict[str, Any] = {
        "voltage_V": kick.highest_V,
        "inductance_H": inductance,
        "resistance_ohm": winding,
        "capacitance_F": capacitance,
        "series_ohm": resistance,
    }
    peak = work(
        kickback.rc_peak_V,
        "suppressor.peak",
        "Highest voltage at the switch",
        sentence="With the supply at its highest, which drives more current through the coil.",
        start_A=kick.highest_A,
        **known,
    )
    plan, working = replace(plan, peak_V=float(peak.result)), (*working, peak)
    if kick.release_A is None:
        return plan, working
    release = work(
        kickback.rc_release_s,
        "suppressor.release",
        "Time until it lets go",
        start_A=kick.current_A,
        release_A=kick.release_A,
        **known,
    )
    seconds = release.result
    return replace(plan, release_s=seconds if isinstance(seconds, float) else None), (*working, release)


def rc_design(
    kick: Kick, capacitance_F: float | None, series_ohm: float | None
) -> tuple[float, float, tuple[Worked, ...]] | None:
    """The smallest film capacitor that keeps the switch below what it may see; None when none that is sold does."""
    allowed = rc_allowed_V(kick)
    if kick.coil is None or allowed <= 2 * kick.highest_V:
        return None
    inductance, winding = kick.coil
    least = work(
        kickback.rc_least_capacitance_F,
        "suppressor.capacitance",
        "Capacitance needed",
        voltage_V=kick.highest_V,
        allowed_V=allowed,
        start_A=kick.highest_A,
        inductance_H=inductance,
    )
    largest = work(
        kickback.rc_largest_resistance_ohm,
        "suppressor.resistance",
        "Resistor at most",
        sentence="Half of it, or the next lower standard value, leaves room for the capacitor.",
        voltage_V=kick.highest_V,
        allowed_V=allowed,
        start_A=kick.highest_A,
    )
    resistors = [step * 10.0**power for power in range(-1, 5) for step in tables.e24_decade()]
    half = float(largest.result) / 2
    series = series_ohm if series_ohm is not None else max((one for one in resistors if one <= half), default=half)
    steps = [step * 10.0**power for power in range(-9, -4) for step in tables.e24_decade()[::4]]
    enough = [one for one in steps if reaches(one, float(least.result)) and reaches(LARGEST_FILM_F, one)]

    def peak_V(capacitance: float) -> float:
        return kickback.rc_peak_V(
            voltage_V=kick.highest_V,
            start_A=kick.highest_A,
            inductance_H=inductance,
            resistance_ohm=winding,
            capacitance_F=capacitance,
            series_ohm=series,
        )

    chosen = capacitance_F or next((one for one in enough if reaches(allowed, peak_V(one))), None)
    return None if chosen is None else (chosen, series, (least, largest))


def rc_allowed_V(kick: Kick) -> float:
    """What the switch may see of a resistor and capacitor; three times the supply where nothing bounds it."""
    return kick.allowed_V if kick.allowed_V is not None else 3 * kick.highest_V


def unsold_words(kick: Kick) -> str:
    """Why no capacitor that is sold does it: what it takes, and what there is. The coil is known."""
    assert kick.coil is not None
    least_F = kickback.rc_least_capacitance_F(
        voltage_V=kick.highest_V, allowed_V=rc_allowed_V(kick), start_A=kick.highest_A, inductance_H=kick.coil[0]
    )
    needed, sold = (show.figure(1e6 * farad) for farad in (show.rounded_up(least_F), LARGEST_FILM_F))
    return (
        f"it takes {show.with_unit(needed, f'{show.MICRO}F')} or more, and film capacitors end near "
        f"{show.with_unit(sold, f'{show.MICRO}F')}"
    )


def film_V(peak_V: float) -> float:
    """The voltage of the film capacitor to buy: the next step that is sold, or the peak itself beyond them."""
    return next((step for step in FILM_STEPS_V if reaches(step, peak_V)), peak_V)


# ---- any suppressor -------------------------------------------------------------------------------------------------


def suppression(
    stated: SuppressorFields | str | None,
    *,
    kickback: bool,
    chop: Chop | None,
    inside_controller: bool,
    current_A: float,
    highest_V: float,
    allowed_V: float | None = None,
    load: Load | None = None,
    at: str = "port",
) -> tuple[Suppression, tuple[Worked, ...]]:
    """The suppressor of a toy: stated, or chosen by kind and control. chop, allowed_V, load, at: as in `Kick`."""
    kick = Kick(current_A, highest_V, chop, allowed_V, load, at)
    if stated is None:
        if not kickback:
            return Suppression("not needed", "no winding of it kicks back"), ()
        if inside_controller:
            return Suppression("in the controller", "inside the speed controller"), ()
        return plain_diode(None, kick)
    fields = stated if isinstance(stated, SuppressorFields) else None
    kind = fields.type if fields else str(stated)
    if kind == "diode and zener":
        return diode_and_zener(fields, kick)
    if kind == "rc":
        return rc(fields, kick)
    reverse_V, forward_A, surge_A = values_of(fields)
    if reverse_V is None and forward_A is None and surge_A is None:
        return plain_diode(fields, kick) if kind == "diode" else (Suppression(kind, kind), ())
    low, high = METER_V[""]
    values = [show.volts(reverse_V)] if reverse_V is not None else []
    values += [show.amps(forward_A)] if forward_A is not None else []
    *_, working = needs(current_A, highest_V, chop)
    plan = Suppression(kind, " ".join([kind, *values]), "", "", reverse_V, forward_A, surge_A, low, high)
    return working_diode(plan, working, fields, kick) if kind == "diode" else (plan, working)


def plain_diode(fields: SuppressorFields | None, kick: Kick) -> tuple[Suppression, tuple[Worked, ...]]:
    """A diode whose class is chosen. fields: what else is stated of it."""
    return working_diode(*chosen_diode(kick.current_A, kick.highest_V, kick.chop), fields, kick)


def working_diode(
    plan: Suppression, working: tuple[Worked, ...], fields: SuppressorFields | None, kick: Kick
) -> tuple[Suppression, tuple[Worked, ...]]:
    """A diode in use: hot under PWM, slow to let a coil go without."""
    if kick.chop is None:
        return with_release(plan, working, kick)
    return with_release(*freewheel.with_heat(plan, working, kick.chop, fields), kick)


def values_of(fields: SuppressorFields | None) -> tuple[float | None, float | None, float | None]:
    """Reverse voltage, forward current and surge current as stated; None for what is not."""
    if fields is None:
        return None, None, None
    stated = (fields.reverse_voltage, fields.forward_current, fields.surge_current)
    reverse, forward, surge = (None if one is None else one.low for one in stated)
    return reverse, forward, surge

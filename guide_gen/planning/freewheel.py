"""A load that PWM switches off many times a second: what its diode carries and how hot that makes it."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

from guide_gen.description.build import Build
from guide_gen.formulas import diode as formulas
from guide_gen.formulas import freewheel, kickback
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.switch import largest_thermal_K_per_W
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import SuppressorFields
from guide_gen.model.plan import Load, Suppression
from guide_gen.planning.drafts import Draft, voltage_ends
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.worked import Worked, default, work

Pair = tuple[float, float]
LIMIT_DEGC = rule("junction limit").value
LEAST_DROP_V = rule("Schottky diode drop").low or 0.0  # the least that any diode drops: then most current flows on
LEAST_SILICON_V = 50.0  # registered silicon rectifiers begin here, registered Schottky diodes end below; JEDEC classes
MACHINES = (PartKind.MOTOR, PartKind.FAN)


@dataclass(frozen=True)
class Winding:
    """A winding under PWM, each value at its low and high end. friction_share: of the torque at full voltage."""

    resistance_ohm: Pair
    inductance_H: Pair
    friction_share: float


@dataclass(frozen=True)
class Chop:
    """PWM on a load that kicks back. voltage_V: of the supply, highest. full_A: the load's at full_V.

    winding: None when it is not known; then a usual one serves for rough figures. machine: it turns.
    """

    frequency_Hz: float
    voltage_V: float
    air_degC: float
    full_V: float
    full_A: float
    winding: Winding | None
    machine: bool

    def largest(self, function: Callable[..., float], id: str, name: str, diode_V: float, winding: Winding) -> Worked:
        """The largest of a result over all ends of the winding. diode_V: what takes the current in each pause."""
        corners = product(dict.fromkeys(winding.resistance_ohm), dict.fromkeys(winding.inductance_H))
        cases: list[dict[str, Any]] = [
            {
                "voltage_V": self.voltage_V,
                "frequency_Hz": self.frequency_Hz,
                "resistance_ohm": ohm,
                "inductance_H": henry,
                "diode_V": diode_V,
                "full_V": self.full_V,
                "full_A": self.full_A if self.machine else self.full_V / ohm,
                "friction_share": winding.friction_share,
            }
            for ohm, henry in corners
        ]
        worst = max(cases, key=lambda case: function(**case))
        friction = f", up to {show.percent(winding.friction_share)} of its torque friction" if self.machine else ""
        sentence = (
            f"Winding {show.ohms(worst['resistance_ohm'])} and {show.show(worst['inductance_H'], 'mH')}{friction}; "
            f"{show.volts(self.voltage_V)}, {show.hertz(self.frequency_Hz)}. Leads left out: the safe side."
        )
        return work(function, id, name, sentence=sentence, **worst)

    def mean(self) -> Worked:
        """The mean current of the diode at its worst."""
        id, name = "suppressor.mean", "Mean current of the diode"
        if self.winding is None:
            return work(formulas.mean_current_under_pwm_A, id, name, current_A=self.full_A)
        return self.largest(freewheel.largest_diode_mean_A, id, name, LEAST_DROP_V, self.winding)

    def peak_A(self) -> float:
        """The peak at the end of a pulse; of an unknown winding the current at full voltage."""
        if self.winding is None:
            return self.full_A
        peak = self.largest(freewheel.largest_peak_A, "", "", LEAST_DROP_V, self.winding)
        return max(self.full_A, float(peak.result))

    def surge(self) -> tuple[float, tuple[Worked, ...]]:
        """The surge class that the diode needs: for the known peaks that repeat, else for one switch-off."""
        if self.winding is None:
            return self.full_A, ()
        needed = work(
            formulas.surge_for_repeated_A, "suppressor.surge", "Surge that the diode must stand", peak_A=self.peak_A()
        )
        return float(needed.result), (needed,)

    def rough(self) -> Winding | None:
        """The winding, or what is usual for a motor of this current; None for a coil that is not known."""
        if self.winding is not None or not self.machine:
            return self.winding
        ohm = rule("winding share of the voltage").value * self.full_V / self.full_A
        henry = rule("inductance over resistance of a motor").value * ohm
        return Winding((ohm, ohm), (henry, henry), rule("friction share of a brushed motor").value)


def chop_of(build: Build, one: Draft) -> Chop | None:
    """What PWM does to a toy; None where nothing chops it or nothing kicks back."""
    frequency = pwm_Hz(build, one)
    if not one.kickback or not one.chopped or frequency is None:
        return None
    _, high_V = voltage_ends(build.supplies[one.supply_slug])
    machine = one.kind.part in MACHINES
    load = one.load
    return Chop(
        frequency,
        high_V,
        build.wiring.inside_temperature.high,
        load.voltage_V,
        load.design_current_A,
        winding_of(load, machine),
        machine,
    )


def pwm_Hz(build: Build, one: Draft) -> float | None:
    """The frequency at which the load is chopped: the controller's own, else the board's."""
    controller = getattr(one.toy.control, "controller", None)
    if controller is not None:
        return float(controller.pwm_frequency.middle)
    board = build.boards[one.board_slug] if one.board_slug else None
    return board.pwm_frequency.middle if board and board.pwm_frequency else None


def winding_of(load: Load, machine: bool) -> Winding | None:
    """What is known of the winding; None where its resistance is not, or contradicts the current at full voltage.

    A motor's inductance follows from what is usual, a coil's must be known.
    """
    ohm, henry = load.resistance_ohm, load.inductance_H
    if ohm is None or (machine and not reaches(load.voltage_V, load.design_current_A * ohm[1])):
        return None
    if henry is None:
        if not machine:
            return None
        usual = rule("inductance over resistance of a motor")
        henry = ohm[0] * (usual.low or usual.value), ohm[1] * (usual.high or usual.value)
    share = rule("friction share of a brushed motor")
    return Winding(ohm, henry, load.friction_share[1] if load.friction_share else share.high or share.value)


# ---- the diode's heat -----------------------------------------------------------------------------------------------


def drop_V(technology: str, reverse_V: float | None) -> Pair:
    """What a diode drops, low and high end: a reverse voltage below that of any silicon rectifier means Schottky."""
    schottky, silicon = rule("Schottky diode drop"), rule("silicon diode drop")
    if technology == "schottky" or (not technology and reverse_V is not None and reverse_V < LEAST_SILICON_V):
        return schottky.low or 0.0, schottky.high or 0.0
    low = silicon.low if technology == "standard" else schottky.low
    return low or 0.0, silicon.high or 0.0


def usual_thermal(forward_A: float) -> tables.Rule:
    """From junction to air, by the size of the part that its current class asks for."""
    if forward_A <= 1:
        return rule("thermal resistance of a 1 A diode")
    return rule("thermal resistance of a 3 A diode" if forward_A <= 3 else "thermal resistance of a larger diode")


def class_degC(one: tables.Diode, mean_A: float, air_degC: float) -> float:
    """Where a Schottky class settles in the warmest place: by its largest drop, on its leads."""
    thermal = usual_thermal(one.if_av_A)
    heat = formulas.power_W(one.vf_V, mean_A, 0.0, 0.0, 0.0, 0.0)
    return formulas.junction_degC(air_degC, heat, thermal.high or thermal.value)


def with_heat(
    plan: Suppression, working: tuple[Worked, ...], chop: Chop, fields: SuppressorFields | None
) -> tuple[Suppression, tuple[Worked, ...]]:
    """A diode with its heat under PWM; one that is bought by its values with the cooling that it needs."""
    mean_A = next(float(one.result) for one in working if one.id == "suppressor.mean")
    chosen = fields is None or not any((fields.reverse_voltage, fields.forward_current, fields.surge_current))
    low_V, high_V = drop_V(plan.technology, None if chosen else plan.reverse_V)
    if chosen and plan.class_name:
        high_V = next(one.vf_V for one in tables.diodes() if one.name == plan.class_name)
    taken: list[Worked] = []
    if fields and fields.forward_voltage:
        low_V, high_V = fields.forward_voltage.low, fields.forward_voltage.high
    elif not plan.class_name:
        taken.append(
            default(
                "default.suppressor.drop", "Drop of the diode", show.span(low_V, high_V, "V"), "this project: estimate"
            )
        )
    recovery_s = fields.recovery_time.high if fields and fields.recovery_time else 0.0
    if not recovery_s and chosen and not plan.class_name:
        recovery_s = rule("recovery of a fast diode").value
    usual = usual_thermal(plan.forward_A or mean_A)
    low_K, high_K = usual.low or usual.value, usual.high or usual.value
    if fields and fields.thermal_resistance:
        low_K, high_K = fields.thermal_resistance.low, fields.thermal_resistance.high
    else:
        taken.append(
            default(
                "default.suppressor.thermal",
                "Thermal resistance of the diode, from its junction to the air",
                show.span(low_K, high_K, "K/W"),
                f"{usual.source} ({usual.how_known})",
            )
        )
    heat = work(
        formulas.power_W,
        "suppressor.heat",
        "Heat in the diode",
        sentence="At the setting where it is hottest.",
        forward_V=high_V,
        mean_A=mean_A,
        recovery_s=recovery_s,
        peak_A=chop.peak_A() if recovery_s else 0.0,
        voltage_V=chop.voltage_V,
        frequency_Hz=chop.frequency_Hz,
    )
    watts = float(heat.result)
    needed = work(
        largest_thermal_K_per_W,
        "suppressor.cooling",
        "Thermal resistance of the diode at most, from its junction to the air",
        limit_degC=LIMIT_DEGC,
        ambient_degC=chop.air_degC,
        power_W=watts,
    )
    most_K = float(needed.result)
    if chosen and not plan.class_name and not reaches(most_K, high_K):
        cooled = f"{plan.part}, with a tab and a heat sink: at most {show.show(most_K, 'K/W')} from junction to air"
        plan = replace(plan, part=cooled, mean_A=mean_A, heat_W=watts, cooling_K_per_W=most_K)
        return plan, (*working, *taken, heat, needed)
    junction = work(
        formulas.junction_degC,
        "suppressor.junction",
        "Junction of the diode",
        sentence=f"At most {LIMIT_DEGC:g} °C.",
        ambient_degC=chop.air_degC,
        power_W=watts,
        thermal_K_per_W=high_K,
    )
    coolest = chop.air_degC + low_V * mean_A * low_K
    plan = replace(plan, mean_A=mean_A, heat_W=watts, junction_degC=(coolest, float(junction.result)))
    return plan, (*working, *taken, heat, junction)


# ---- what else PWM makes of a kickback ------------------------------------------------------------------------------


def zener_W(chop: Chop, zener_V: float) -> float | None:
    """Heat in a zener in series with the diode, at its worst; None when nothing is known of the coil."""
    winding = chop.rough()
    if winding is None:
        return None
    clamp_V = zener_V + (rule("silicon diode drop").low or 0.0)
    mean = chop.largest(freewheel.largest_diode_mean_A, "", "", clamp_V, winding)
    return zener_V * float(mean.result)


def rc_W(chop: Chop, capacitance_F: float) -> float | None:
    """Heat in a resistor and capacitor and the coil under them; None when nothing is known of the coil."""
    winding = chop.rough()
    if winding is None:
        return None
    energy = kickback.rc_cycle_energy_J(capacitance_F, chop.voltage_V, winding.inductance_H[1], chop.full_A)
    return kickback.repeated_power_W(chop.frequency_Hz, energy)


def bare_W(chop: Chop, breaks_V: float) -> float | None:
    """Heat in a switch without any suppressor that breaks through at a voltage; None when it is not to be told."""
    winding = chop.rough()
    if winding is None or breaks_V <= chop.voltage_V * 1.001:
        return None
    mean = chop.largest(freewheel.largest_diode_mean_A, "", "", breaks_V - chop.voltage_V, winding)
    return breaks_V * float(mean.result)


def notes(plan: Suppression, diode: str | None, air_degC: float, units: str) -> Iterable[str]:
    """A line for the circuit in words."""
    if diode is None or plan.mean_A is None or plan.heat_W is None:
        return
    hot = (
        f" In air of {show.celsius(air_degC, units)} its junction reaches up to "
        f"{show.celsius(plan.junction_degC[1], units)} (estimate); its limit is {show.celsius(LIMIT_DEGC, units)}."
        if plan.junction_degC
        else " It needs a heat sink."
    )
    yield (
        f"{diode} carries up to {show.amps(plan.mean_A)} on average while PWM switches, and turns up to "
        f"{show.watts(plan.heat_W)} into heat.{hot}"
    )

"""What readers ask of a coil: how long it may be on, how hot is normal, whether less power would hold it."""

from math import isinf
from typing import Any, cast

from guide_gen.formulas import coil as formulas
from guide_gen.formulas.motor import winding_at_ohm
from guide_gen.model import coil as coils
from guide_gen.model.coil import Coil, CoilToy
from guide_gen.model.fields import ToyFields
from guide_gen.model.plan import Question, Sized
from guide_gen.model.pulse_coil import Pulses, pulses_of
from guide_gen.published.tables import rule, touch_levels
from guide_gen.values import show
from guide_gen.values.quantity import Basis
from guide_gen.values.worked import Worked, work

CAUTION_DEGC = {level.level: level.from_degC for level in touch_levels()}["caution"]
DROP_V = rule("silicon diode drop").low or 0.0  # the low end: then the least share of the voltage is told


def hold_worked(toy: CoilToy, coil: Coil) -> tuple[Worked, ...]:
    """When enough current flows to pull in, and how much of the full voltage a coil stands for ever."""
    return (*pull_in(toy), *held(coil))


def pull_in(toy: CoilToy, *, pulsed: bool = False) -> tuple[Worked, ...]:
    """The electrical part of pulling in; the travel of what it moves comes on top. pulsed: no contactor."""
    inductance, resistance = coils.inductance_H(toy), coils.resistance_ohm(toy)[0]
    if inductance is None:
        return ()
    full_A = formulas.steady_current_A(voltage_V=toy.voltage.middle, resistance_ohm=resistance)
    return (
        work(
            formulas.time_to_current_s,
            "coil.pull-in",
            "Time until enough current flows to pull in",
            sentence="Until 85 % of its full current flows, as for a contactor: an estimate. The plunger's or "
            "clapper's travel comes on top and is not worked out."
            if pulsed
            else "A contactor pulls in at 85 % of its voltage at the latest (IEC 60947-4-1, from memory). The "
            "travel of the armature comes on top and is not worked out.",
            voltage_V=toy.voltage.middle,
            resistance_ohm=resistance,
            inductance_H=inductance[0],
            current_A=rule("pull-in share of a coil").value * full_A,
        ),
    )


def held(coil: Coil) -> tuple[Worked, ...]:
    """The current that a coil carries for ever, and the share of PWM that gives it; nothing where full voltage does."""
    if coil.thermal_K_per_W is None or coil.may_stay_on or coil.limit_degC <= coil.air_degC:
        return ()
    hot_ohm = winding_at_ohm(resistance_20_ohm=coil.cold_ohm[0], temperature_degC=coil.limit_degC)
    current = work(
        formulas.hold_current_A,
        "coil.hold-current",
        "Current that the coil carries for ever",
        sentence="By its heat alone; the force that it holds with is not worked out.",
        allowed_K=coil.limit_degC - coil.air_degC,
        thermal_K_per_W=coil.thermal_K_per_W,
        hot_ohm=hot_ohm,
    )
    known: dict[str, Any] = {
        "current_A": float(current.result),
        "hot_ohm": hot_ohm,
        "diode_V": DROP_V,
        "voltage_V": coil.high_V,
    }
    return current, work(formulas.hold_duty, "coil.hold-duty", "Setting of PWM that gives it", **known)


def pulse_worked(toy: ToyFields, sized: Sized) -> tuple[Worked, ...]:
    """Results of a coil that is made for pulses, and what of full strength it would stand for ever."""
    found = pulses_of(toy, sized)
    return (*found.worked, *pull_in(cast(CoilToy, toy), pulsed=True), *held(found.coil))


def hold_share(coil: Coil) -> float | None:
    """How much of full strength a coil stands for ever, by its heat; None when its surface is not known."""
    if coil.may_stay_on:
        return 1.0
    found = held(coil)
    return float(found[1].result) if found else None


# ---- answers --------------------------------------------------------------------------------------------------------


def of_pulses(toy: ToyFields, sized: Sized, found: Pulses) -> tuple[Question, ...]:
    """What is asked of a coil that is made for pulses."""
    return (pulses_question(found), hot_pulses_question(sized, found), *hold_pulses_question(toy, found))


def pulses_question(found: Pulses) -> Question:
    """Longest on, shortest off."""
    told = [f"It is made for pulses: while it is on its coil takes {show.watts(found.coil.power_W)}"]
    if found.on_s is not None and found.off_s is not None:
        mean_W = found.coil.power_W * found.on_s / (found.on_s + found.off_s)
        told[0] += f", with the pulses of this build {show.watts(mean_W)} on average"
    longest, pause = found.longest_on_s, found.pause_s
    if longest is None:
        told.append("How long it stands that is not worked out: its wire_diameter is not described")
    else:
        told.append(
            "It never gets too hot, however long"
            if isinf(longest)
            else f"Longest on: {show.seconds(longest)}, once"
            if longest > 0
            else "No pulse at this repetition: it is at its limit already"
        )
    if pause is not None and found.on_s is not None:
        told.append(
            f"With pulses of {show.seconds(found.on_s)} "
            + (
                "no pause is long enough"
                if isinf(pause)
                else f"pause {show.seconds(pause)} or more"
                if pause > 0
                else "its heat asks for no pause"
            )
        )
    return Question("coil-pulses", "Why would its coil overheat?", ". ".join(told) + ".", "w-coil.longest-on")


def hot_pulses_question(sized: Sized, found: Pulses) -> Question:
    """The settled temperature, and what a hot coil draws."""
    where = (
        f"With the pulses of this build its coil settles at {show.celsius(found.peak_degC, sized.units)} (estimate)."
        if found.peak_degC is not None
        else "How warm it gets is not worked out: its size, wire or pulses are not described. Measure it."
    )
    return Question("coil-hot", "How hot is normal?", f"{where} {falls(sized, found.coil)} {guard(sized)}", "play")


def hold_pulses_question(toy: ToyFields, found: Pulses) -> tuple[Question, ...]:
    """A share of full voltage that its heat allows for ever; only where it is known."""
    share = hold_share(found.coil)
    if share is None:
        return ()
    allowed = "full voltage" if share >= 1 else f"{show.percent(share)} of full strength by PWM"
    return (
        Question(
            "coil-hold",
            "Can it be held with less power?",
            f"{rise_words(toy)}By its heat it stands {allowed} for ever. Whether that holds what it pulled in is not "
            "worked out: the force hangs on the gap. It is made for strokes, not for holding.",
            "w-coil.hold-duty" if share < 1 else "",
        ),
    )


def of_held(
    toy: CoilToy, sized: Sized, coil: Coil, surface_degC: float | None, written: Basis | None
) -> tuple[Question, ...]:
    """What is asked of a coil that is held.

    surface_degC: held for long; None: not known. written: its basis where it is described, not worked out.
    """
    if surface_degC is None:
        where = "How warm it gets is not worked out: measure its surface after half an hour held."
    else:
        how = written or f"{Basis.ESTIMATE}, by its size"
        where = f"Held for long its surface reaches about {show.celsius(surface_degC, sized.units)} ({how})."
    fine = written is not None and surface_degC is not None and surface_degC <= coil.limit_degC
    return (
        Question("coil-hot", "How hot is normal?", f"{where} {falls(sized, coil)} {guard(sized)}", "checks"),
        Question(
            "coil-hold",
            "Can it be held with less power?",
            f"{pull_words(toy)} {share_words(coil, fine)} Between "
            f"{show.percent(rule('release share of a coil').high or 0.0)} and "
            f"{show.percent(rule('release share of a coil').low or 0.0)} of its voltage a contactor may let go: try "
            f"less only while the cabinet shakes; its force is not worked out.{port_words(sized)}",
            "w-coil.pull-in",
        ),
    )


def rise_words(toy: ToyFields) -> str:
    """When a coil that is made for pulses has its current; "" when its inductance is not known."""
    found = pull_in(cast(CoilToy, toy), pulsed=True)
    if not found:
        return ""
    return (
        f"It wants full voltage to pull in: 85 % of its current flows after {show.seconds(float(found[0].result))}, "
        "then it travels. "
    )


def pull_words(toy: CoilToy) -> str:
    """Pulling in."""
    found = pull_in(toy)
    if not found:
        return "It wants full voltage for the first 0.1 s, to pull in; its inductance is not described."
    return (
        f"It wants full voltage to pull in: enough current flows after {show.seconds(float(found[0].result))}, then "
        "the armature travels."
    )


def share_words(coil: Coil, fine: bool) -> str:
    """What its heat allows. fine: its surface was measured while it was held, and its insulation stands that."""
    share = hold_share(coil)
    if share is None:
        return (
            "By its heat full voltage is right, as measured."
            if fine
            else "How much its heat allows for ever is not known: its size is not described."
        )
    return (
        "By its heat full voltage is right for ever."
        if share >= 1
        else f"By its heat it stands {show.percent(share)} of full strength for ever."
    )


def port_words(sized: Sized) -> str:
    """Whether this control could."""
    return "" if sized.control == "pwm port" else " This control gives full strength or nothing."


def falls(sized: Sized, coil: Coil) -> str:
    """How the current falls while the coil warms."""
    return (
        f"While it warms its current falls from {show.amps(coil.cold_A)} to no less than "
        f"{show.amps(coil.least_A(coil.limit_degC))} at {show.celsius(coil.limit_degC, sized.units)}, its limit."
    )


def guard(sized: Sized) -> str:
    """From where on it is guarded."""
    return f"From {show.celsius(CAUTION_DEGC, sized.units)} outside guard it."

"""What takes a toy's kickback: chosen, or taken as stated."""

from guide_gen.formulas import diode as formulas
from guide_gen.formulas.choice import first_that_fits, reaches
from guide_gen.model.fields import SuppressorFields
from guide_gen.model.plan import Suppression
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.worked import Shape, Worked, work

# What a multimeter's diode range shows at its small current. Common practice, no source.
METER_V = {"schottky": (0.10, 0.45), "standard": (0.40, 0.80), "": (0.10, 0.80)}
# Steps in which fast diodes are sold, for a need that no registered class meets. Common practice, no source.
REVERSE_STEPS_V = (50.0, 100.0, 200.0, 400.0)
CURRENT_STEPS_A = (1.0, 3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 60.0)


def needs(current_A: float, highest_V: float, chopped: bool) -> tuple[float, float, tuple[Worked, ...]]:
    """Reverse voltage and mean current that a diode across the load needs. chopped: PWM drives the load."""
    reverse = work(
        formulas.reverse_voltage_V, "suppressor.reverse", "Reverse voltage of the diode", voltage_V=highest_V
    )
    rule = formulas.mean_current_under_pwm_A if chopped else formulas.mean_current_single_shots_A
    mean = work(rule, "suppressor.mean", "Mean current of the diode", current_A=current_A)
    return float(reverse.result), float(mean.result), (reverse, mean)


def chosen_diode(current_A: float, highest_V: float, chopped: bool) -> tuple[Suppression, tuple[Worked, ...]]:
    """The smallest registered class that fits; of one current class the highest voltage, since it costs the same."""
    reverse_V, mean_A, working = needs(current_A, highest_V, chopped)
    technology = "schottky" if chopped else "standard"
    classes = sorted(
        (one for one in tables.diodes() if one.technology == technology), key=lambda one: (one.if_av_A, -one.vrrm_V)
    )

    def rejected(one: tables.Diode) -> str:
        if not reaches(one.if_av_A, mean_A):
            return f"carries {show.amps(one.if_av_A)}"
        if not reaches(one.vrrm_V, reverse_V):
            return f"blocks {show.volts(one.vrrm_V)}"
        return "" if chopped or reaches(one.ifsm_A, current_A) else f"stands a surge of {show.amps(one.ifsm_A)}"

    fitting = first_that_fits(classes, rejected, lambda one: one.name)
    taken, candidates = fitting
    low, high = METER_V[technology if taken else ""]
    if taken:
        word = "Schottky diode" if chopped else "diode"
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
        word = "fast or Schottky diode" if chopped else "diode"
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
        "JEDEC registered types; PWM needs a fast one" if chopped else "JEDEC registered types",
        f"For example class {taken.name}." if taken else "",
        candidates=shown,
    )
    return plan, (*working, choice)


def suppression(
    stated: SuppressorFields | str | None,
    *,
    kickback: bool,
    chopped: bool,
    inside_controller: bool,
    current_A: float,
    highest_V: float,
) -> tuple[Suppression, tuple[Worked, ...]]:
    """The suppressor of a toy: stated, or chosen by kind and control."""
    if stated is None:
        if not kickback:
            return Suppression("not needed", "its own electronics take care of it"), ()
        if inside_controller:
            return Suppression("in the controller", "inside the speed controller"), ()
        return chosen_diode(current_A, highest_V, chopped)
    fields = stated if isinstance(stated, SuppressorFields) else None
    kind = fields.type if fields else str(stated)
    reverse_V, forward_A, surge_A = values_of(fields)
    if reverse_V is None and forward_A is None and surge_A is None:
        return chosen_diode(current_A, highest_V, chopped) if kind == "diode" else (Suppression(kind, kind), ())
    low, high = METER_V[""]
    values = [show.volts(reverse_V)] if reverse_V is not None else []
    values += [show.amps(forward_A)] if forward_A is not None else []
    _, _, working = needs(current_A, highest_V, chopped)
    return Suppression(kind, " ".join([kind, *values]), "", "", reverse_V, forward_A, surge_A, low, high), working


def values_of(fields: SuppressorFields | None) -> tuple[float | None, float | None, float | None]:
    """Reverse voltage, forward current and surge current as stated; None for what is not."""
    if fields is None:
        return None, None, None
    stated = (fields.reverse_voltage, fields.forward_current, fields.surge_current)
    reverse, forward, surge = (None if one is None else one.low for one in stated)
    return reverse, forward, surge

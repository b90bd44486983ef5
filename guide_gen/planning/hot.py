"""Checks of what gets too hot under PWM and in a port's switch, and of a diode that is too slow for it."""

from math import inf

from guide_gen.description.build import Board, Build
from guide_gen.formulas import diode as diode_formulas
from guide_gen.formulas import switch
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import PortPlan, Sized
from guide_gen.planning import cooler, switching
from guide_gen.planning.drafts import Draft
from guide_gen.planning.freewheel import LIMIT_DEGC, Chop
from guide_gen.published.tables import rule
from guide_gen.values import show

Path = tuple[str, ...]


def switch_findings(build: Build, one: Draft, sized: Sized) -> list[Finding]:
    """Does the switch of the port stay cool enough? What rests on usual values alone is only asked about."""
    port = sized.port
    assert port is not None
    if reaches(LIMIT_DEGC, port.junction_degC[1]) or not reaches(port.limit_A, port.load_A):  # told with its rating
        return []
    board, sure = build.boards[port.board], not reaches(LIMIT_DEGC, port.junction_degC[0])
    usual = switching.usual_values(board, port)
    limit, most_A = show.celsius(LIMIT_DEGC, sized.units), cooler.largest_A(build, one)
    through = f", {show.amps(most_A)} through this port" if most_A else ""
    return [
        Finding(
            "port-overloaded",
            Level.MUST if sure or not usual else Level.SHOULD,
            f"The junction of port {port.number}'s switch {would(port, sized.units)}, with up to "
            f"{show.amps(port.load_A)} of {sized.name} in air of {show.celsius(sized.inside_degC, sized.units)}; it "
            f"stands {limit}.{edges_words(board, port)}{usual_words(usual)}",
            f"at most {limit} in the switch{through}",
            f"{cooled_words(build, one, usual)} Or {instead(one)}, or take a toy that draws less.".strip(),
            (*one.path, "control", "port"),
            sized.slug,
        )
    ]


def heat_beside(build: Build, one: Draft, sized: Sized) -> tuple[float, str]:
    """What the heat of its switch lets through a port that is asked for more than its rating, and what to add then.

    A larger rating alone keeps no switch cool. Infinity and nothing: it is cool enough.
    """
    port = sized.port
    if port is None or reaches(LIMIT_DEGC, port.junction_degC[1]):
        return inf, ""
    usual = switching.usual_values(build.boards[port.board], port)
    return (
        cooler.largest_A(build, one),
        f" A higher rating alone is not enough: with the switch as it is worked out here its junction "
        f"{would(port, sized.units)}.{usual_words(usual)} {cooled_words(build, one, usual)}".rstrip(),
    )


def would(port: PortPlan, units: str) -> str:
    """Where the junction of a switch would end."""
    hot = port.junction_degC[1]
    if hot == inf:
        return "heats itself without end: each kelvin makes more heat than it gives off"
    return f"would reach {switching.shown_degC(hot, units)} from {show.watts(port.switch_W or 0.0)} of heat"


def edges_words(board: Board, port: PortPlan) -> str:
    """How much of the heat comes from turning on and off, and by what."""
    if not port.switching_W or port.pwm_frequency_Hz is None:
        return ""
    most = "Most of it, " if port.switching_W > 0.5 * (port.switch_W or inf) else ""
    guessed = "" if switching.EDGE_VALUE in board.model_fields_set else ", an estimate"
    return (
        f" {most}{show.watts(port.switching_W)}{',' if most else ' of it'} comes from turning on and off: "
        f"{show.hertz(port.pwm_frequency_Hz)}, each time {show.short_seconds(board.switching_time.high)}{guessed}."
    )


def usual_words(usual: list[str]) -> str:
    """On which usual values the heat of a switch rests."""
    if not usual:
        return ""
    return f" That is by usual values of {listed(usual)}, since the board's own {are(usual)} not described."


def cooled_words(build: Build, one: Draft, usual: list[str]) -> str:
    """What of the board's own keeps the switch cool, each alone, and what to look up first."""
    ways, told = list(cooler.cures(build, one)), []
    if ways:
        told.append(f"Enough alone is {ways[0]}." if len(ways) == 1 else f"Each is enough alone: {', or '.join(ways)}.")
    if usual:
        told.append(f"Look up {listed(usual)} of the board first, and write {'it' if len(usual) == 1 else 'them'}.")
    return " ".join(told)


def instead(one: Draft) -> str:
    """What the port may switch in place of the load; a relay cannot follow PWM."""
    pwm = one.control.set_to(one.toy.control) == "pwm"
    return f"let the port switch a {'speed controller' if pwm else 'relay'}"


def listed(keys: list[str]) -> str:
    """Keys in words: ``a``, ``a and b``, ``a, b and c``."""
    return keys[0] if len(keys) == 1 else f"{', '.join(keys[:-1])} and {keys[-1]}"


def are(keys: list[str]) -> str:
    """One is, several are."""
    return "is" if len(keys) == 1 else "are"


def diode_findings(toy: ToyFields, sized: Sized, chop: Chop | None, path: Path) -> list[Finding]:
    """Does a stated diode stay cool enough under PWM, and does it stop in time?"""
    plan, stated = sized.suppression, toy.suppressor
    if chop is None or not isinstance(stated, SuppressorFields) or plan.type != "diode":
        return []
    return [*hot_diode(stated, sized, chop, path), *slow_diode(stated, sized, chop, path)]


def hot_diode(stated: SuppressorFields, sized: Sized, chop: Chop, path: Path) -> list[Finding]:
    """A diode whose junction passes its limit at the setting where it carries most."""
    plan = sized.suppression
    if plan.junction_degC is None or plan.heat_W is None or reaches(LIMIT_DEGC, plan.junction_degC[1]):
        return []
    cool, hot = plan.junction_degC
    known = stated.forward_voltage is not None and stated.thermal_resistance is not None
    limit = show.celsius(LIMIT_DEGC, sized.units)
    cooled = show.show(show.rounded_down(switch.largest_thermal_K_per_W(LIMIT_DEGC, chop.air_degC, plan.heat_W)), "K/W")
    usual = "" if known else " That is by usual values of such a diode, since its own are not all described."
    ask = "" if known else " Or look up its forward_voltage and thermal_resistance, and write them."
    return [
        Finding(
            "suppressor-too-small",
            Level.MUST if known or not reaches(LIMIT_DEGC, cool) else Level.SHOULD,
            f"The diode of {sized.name} carries up to {show.amps(plan.mean_A or 0.0)} on average under PWM, and its "
            f"junction would reach {switching.shown_degC(hot, sized.units)} from {show.watts(plan.heat_W)} of heat; "
            f"it stands {limit}.{usual}",
            f"at most {limit} in the diode",
            f"Take a larger one or cool it (at most {cooled} from junction to air), or leave its values "
            f"out: then it is chosen.{ask}",
            (*path, "suppressor"),
            sized.slug,
        )
    ]


def slow_diode(stated: SuppressorFields, sized: Sized, chop: Chop, path: Path) -> list[Finding]:
    """A diode that still lets current pass backwards for more than a hundredth of the period."""
    if stated.recovery_time is None:
        return []
    most_s = rule("recovery share of a period").value / chop.frequency_Hz
    slow_s = stated.recovery_time.high
    if reaches(most_s, slow_s):
        return []
    lost_W = diode_formulas.power_W(0.0, 0.0, slow_s, chop.peak_A(), chop.voltage_V, chop.frequency_Hz)
    return [
        Finding(
            "suppressor-too-slow",
            Level.SHOULD,
            f"The diode of {sized.name} takes {show.short_seconds(slow_s)} to stop, "
            f"{show.percent(slow_s * chop.frequency_Hz)} of a period of {show.hertz(chop.frequency_Hz)}: until then "
            f"each turn-on is a short circuit, with up to {show.watts(lost_W)} of heat in the diode and a surge in the "
            "switch.",
            f"a recovery time of at most {show.short_seconds(most_s)}",
            "Take a fast or Schottky diode, or leave suppressor out: then it is chosen.",
            (*path, "suppressor", "recovery_time"),
            sized.slug,
        )
    ]

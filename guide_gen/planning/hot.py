"""Checks of what gets too hot under PWM and in a port's switch, and of a diode that is too slow for it."""

from math import ceil, floor, inf, log10

from guide_gen.description.build import Board, Build
from guide_gen.formulas import diode as diode_formulas
from guide_gen.formulas import switch
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import PortPlan, Sized
from guide_gen.planning import switching
from guide_gen.planning.drafts import Draft
from guide_gen.planning.freewheel import LIMIT_DEGC, Chop
from guide_gen.published.tables import rule
from guide_gen.values import show

Path = tuple[str, ...]
DESTROYED_DEGC = 200.0  # no common silicon part lasts there; common practice, no source


def switch_findings(build: Build, one: Draft, sized: Sized) -> list[Finding]:
    """Does the switch of the port stay cool enough? What rests on usual values alone is only asked about."""
    port = sized.port
    assert port is not None
    cool, hot = port.junction_degC
    if reaches(LIMIT_DEGC, hot) or not reaches(port.limit_A, port.load_A):  # the latter is told already
        return []
    board, sure = build.boards[port.board], not reaches(LIMIT_DEGC, cool)
    known = switching.stated(board)
    limit = show.celsius(LIMIT_DEGC, sized.units)
    would = (
        "heats itself without end: each kelvin makes more heat than it gives off"
        if hot == inf
        else f"would {reach(hot, sized.units)} from {show.watts(port.switch_W or 0.0)} of heat"
    )
    usual = "" if known else " That is by usual values of such a switch, since the board's own are not all described."
    ask = "" if known else f" Or look up {' and '.join(switching.OWN_VALUES)} of the board, and write them."
    most_A, cooling = bounds(build, one, board, port)
    cooled = show.show(rounded_down(cooling), "K/W")
    return [
        Finding(
            "port-overloaded",
            Level.MUST if known or sure else Level.SHOULD,
            f"The junction of port {port.number}'s switch {would}, with up to {show.amps(port.load_A)} of {sized.name} "
            f"in air of {show.celsius(sized.inside_degC, sized.units)}; it stands {limit}.{usual}",
            f"at most {limit} in the switch, {show.amps(rounded_down(most_A))} through this port",
            f"Take a port whose switch has less resistance, cool it (at most {cooled} from junction to air), or "
            f"let the port switch a relay.{ask}",
            (*one.path, "control", "port"),
            sized.slug,
        )
    ]


def reach(hot_degC: float, units: str) -> str:
    """Where a junction would settle; far above its limit the figure means nothing, since the part is gone before."""
    if hot_degC > DESTROYED_DEGC:
        return f"pass {show.celsius(DESTROYED_DEGC, units)}"
    return f"reach {show.celsius(ceil(hot_degC - 1e-9), units)}"


def rounded_down(value: float) -> float:
    """A bound in three digits that is still kept."""
    if value <= 0:
        return 0.0
    step = 10.0 ** (floor(log10(value)) - 2)
    return floor(value / step + 1e-9) * step


def bounds(build: Build, one: Draft, board: Board, port: PortPlan) -> tuple[float, float]:
    """The current that would just do, rounded down, and the thermal resistance that would just do."""
    _, _, working = switching.switch_heat(build, one)
    edges_W = next((float(each.result) for each in working if each.id == "port.switching"), 0.0)
    rms_A, _, _ = switching.currents(build, one)
    cold = switch.cold_ohm(board.switch_resistance.high, board.switch_resistance_at.low)
    air = build.wiring.inside_temperature.high
    most_A = switch.largest_rms_A(LIMIT_DEGC, air, board.switch_thermal_resistance.high, edges_W, cold)
    at_limit_W = edges_W + switch.conduction_W(rms_A, cold, LIMIT_DEGC)
    return most_A * port.load_A / rms_A, switch.largest_thermal_K_per_W(LIMIT_DEGC, air, at_limit_W)


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
    cooled = show.show(rounded_down(switch.largest_thermal_K_per_W(LIMIT_DEGC, chop.air_degC, plan.heat_W)), "K/W")
    usual = "" if known else " That is by usual values of such a diode, since its own are not all described."
    ask = "" if known else " Or look up its forward_voltage and thermal_resistance, and write them."
    return [
        Finding(
            "suppressor-too-small",
            Level.MUST if known or not reaches(LIMIT_DEGC, cool) else Level.SHOULD,
            f"The diode of {sized.name} carries up to {show.amps(plan.mean_A or 0.0)} on average under PWM, and its "
            f"junction would {reach(hot, sized.units)} from {show.watts(plan.heat_W)} of heat; it stands "
            f"{limit}.{usual}",
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

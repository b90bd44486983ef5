"""The switch of a port: how hot it gets at its worst setting."""

from collections.abc import Iterable, Mapping
from math import ceil, inf

from guide_gen.description.build import Board, Build
from guide_gen.formulas import freewheel, switch
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.plan import PortPlan
from guide_gen.planning.drafts import Draft, voltage_ends
from guide_gen.planning.freewheel import LEAST_DROP_V, LIMIT_DEGC, chop_of
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.worked import Shape, Worked, work

WORTH_TELLING_K = 1.0  # a switch that is warmer than the air by less stays cold for any purpose; this project
OWN_VALUES = ("switch_resistance", "switch_thermal_resistance")
"""The board's keys that decide how hot a switch gets while it is on."""
EDGE_VALUE = "switching_time"
"""The board's key that decides how much turning on and off adds under PWM."""
DESTROYED_DEGC = 200.0  # no common silicon part lasts there; common practice, no source


def switch_heat(build: Build, one: Draft) -> tuple[float | None, tuple[float, float], tuple[Worked, ...]]:
    """Heat in the switch of a toy's port, its junction at the low and high end, and the working.

    Heat None and junction infinite: it heats itself without end.
    """
    assert one.port is not None
    board, air = build.boards[one.port.board], build.wiring.inside_temperature.high
    _, high_V = voltage_ends(build.supplies[one.supply_slug])
    rms_A, peak_A, working = currents(build, one)
    cold = work(
        switch.cold_ohm,
        "port.cold",
        "Resistance of the switch at 25 °C",
        resistance_ohm=board.switch_resistance.high,
        junction_degC=board.switch_resistance_at.low,
    )
    switching_W = 0.0
    if one.control.set_to(one.toy.control) == "pwm" and board.pwm_frequency:
        edges = work(
            switch.switching_W,
            "port.switching",
            "Heat in the port's switch from turning on and off",
            voltage_V=high_V,
            turn_on_A=one.through_port_A,
            turn_off_A=peak_A,
            rise_s=board.switching_time.high,
            fall_s=board.switching_time.high,
            frequency_Hz=board.pwm_frequency.middle,
        )
        working, switching_W = (*working, edges), float(edges.result)
    cold_ohm = float(cold.result)
    if board.switch_resistance_at.low != 25:
        working = (*working, cold)
    least_A = min(rms_A, one.load.lowest_current_A) if one.control.port_carries_load else one.through_port_A
    coolest = settled_degC(
        air,
        board.switch_thermal_resistance.low,
        0.0,
        least_A,
        switch.cold_ohm(least_ohm(board), board.switch_resistance_at.high),
    )
    try:
        junction = work(
            switch.junction_degC,
            "port.junction",
            "Junction of the port's switch",
            sentence=f"At most {LIMIT_DEGC:g} °C, in the warmest air of the cabinet.",
            ambient_degC=air,
            thermal_K_per_W=board.switch_thermal_resistance.high,
            switching_W=switching_W,
            rms_A=rms_A,
            cold_ohm=cold_ohm,
        )
    except OutsideValidity:
        return None, (coolest, inf), working
    hot = float(junction.result)
    on = work(
        switch.conduction_W,
        "port.conduction" if switching_W else "port.heat",
        "Heat in the port's switch while it is on" if switching_W else "Heat in the port's switch",
        rms_A=rms_A,
        cold_ohm=cold_ohm,
        junction_degC=hot,
    )
    total = float(on.result) + switching_W
    return total, (coolest, hot), (*working, junction, on, *(summed(float(on.result), switching_W)))


def summed(conduction_W: float, switching_W: float) -> tuple[Worked, ...]:
    """Both sorts of heat together; nothing without PWM."""
    if not switching_W:
        return ()
    letters: Mapping[str, float] = {"P_c": conduction_W, "P_s": switching_W}
    return (
        Worked(
            "port.heat",
            "Heat in the port's switch",
            Shape.FORMULA,
            "P",
            conduction_W + switching_W,
            "W",
            " + ".join(letters),
            "this project: the sum of both",
            "",
            letters,
            dict.fromkeys(letters, "W"),
        ),
    )


def currents(build: Build, one: Draft) -> tuple[float, float, tuple[Worked, ...]]:
    """Rms and peak current of the switch at the worst setting: of known pulses or a known winding, else all of it."""
    full_A, load = one.through_port_A, one.load
    pulsed = one.control.port_carries_load and one.control.set_to(one.toy.control) != "pwm"
    if pulsed and load.pulse_A2s is not None and load.switches_per_s is not None:
        rms = work(
            switch.pulse_rms_A,
            "port.rms",
            "Rms current of the port's switch",
            sentence="Pulse after pulse, as fast as they are described.",
            pulse_A2s=load.pulse_A2s,
            frequency_Hz=load.switches_per_s,
        )
        return min(full_A, float(rms.result)), full_A, (rms,)
    chop = chop_of(build, one) if one.control.port_carries_load else None
    if chop is None or chop.winding is None:
        return full_A, full_A, ()
    rms = chop.largest(
        freewheel.largest_switch_rms_A, "port.rms", "Rms current of the port's switch", LEAST_DROP_V, chop.winding
    )
    peak = chop.largest(
        freewheel.largest_peak_A, "port.peak", "Peak current of the port's switch", LEAST_DROP_V, chop.winding
    )
    return max(full_A, float(rms.result)), max(full_A, float(peak.result)), (rms, peak)


def settled_degC(air_degC: float, thermal_K_per_W: float, switching_W: float, rms_A: float, cold_ohm: float) -> float:
    """Where a switch settles; infinity when it heats itself without end."""
    try:
        return switch.junction_degC(air_degC, thermal_K_per_W, switching_W, rms_A, cold_ohm)
    except OutsideValidity:
        return inf


def least_ohm(board: Board) -> float:
    """The least that the switch may have: as described, else of usual ones."""
    usual = rule("switch resistance").low
    return board.switch_resistance.low if "switch_resistance" in board.model_fields_set or usual is None else usual


def usual_values(board: Board, port: PortPlan) -> list[str]:
    """The board's keys that the heat of this switch rests on and that are not described: usual ones stand for them."""
    asked = (*OWN_VALUES, EDGE_VALUE) if port.switching_W else OWN_VALUES
    return [key for key in asked if key not in board.model_fields_set]


def shown_degC(hot_degC: float, units: str) -> str:
    """Where a junction settles, alike everywhere: rounded up where it would read as its limit that it passes.

    Far above its limit the figure means nothing, since the part is gone before.
    """
    if hot_degC > DESTROYED_DEGC:
        return f"more than {show.celsius(DESTROYED_DEGC, units)}"
    past = hot_degC > LIMIT_DEGC and round(hot_degC) <= LIMIT_DEGC
    return show.celsius(ceil(hot_degC - 1e-9) if past else hot_degC, units)


def notes(port: PortPlan | None, switch_id: str | None, air_degC: float, units: str) -> Iterable[str]:
    """A line for the circuit in words, where the port carries the load itself."""
    if port is None or port.signal or switch_id is None or port.switch_W is None:
        return
    if port.junction_degC[1] < air_degC + WORTH_TELLING_K:
        return
    yield (
        f"{switch_id} turns up to {show.watts(port.switch_W)} into heat. In air of {show.celsius(air_degC, units)} its "
        f"junction reaches up to {shown_degC(port.junction_degC[1], units)} (estimate); its limit is "
        f"{show.celsius(LIMIT_DEGC, units)}."
    )

"""What would keep the switch of a port cool enough: each value worked out so that it alone is enough."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guide_gen.description.build import Board, Build
from guide_gen.formulas import switch
from guide_gen.formulas.choice import reaches
from guide_gen.planning import switching
from guide_gen.planning.drafts import Draft
from guide_gen.planning.freewheel import LIMIT_DEGC, chop_of
from guide_gen.values import show
from guide_gen.values.halving import last

LEAST_OHM = 1e-3  # no common switch of a port has less; common practice, no source
LEAST_S = 20e-9  # nor switches faster; common practice, no source
LEAST_HZ = 50.0  # slower PWM is felt as jerks; common practice, no source
HALVINGS = 20


@dataclass(frozen=True)
class Balance:
    """The heat of a switch against what it may give off at its limit.

    room_W: that. edges_W: from turning on and off. kept_W: while it is on, at its limit.
    """

    board: Board
    air_degC: float
    rms_A: float
    room_W: float
    edges_W: float
    kept_W: float


def balance(build: Build, one: Draft) -> Balance:
    """The switch of a toy's port at its worst setting."""
    board, air = build.boards[one.board_slug], build.wiring.inside_temperature.high
    _, _, working = switching.switch_heat(build, one)
    edges_W = next((float(each.result) for each in working if each.id == "port.switching"), 0.0)
    rms_A, _, _ = switching.currents(build, one)
    cold = switch.cold_ohm(board.switch_resistance.high, board.switch_resistance_at.low)
    return Balance(
        board,
        air,
        rms_A,
        max(0.0, LIMIT_DEGC - air) / board.switch_thermal_resistance.high,
        edges_W,
        switch.conduction_W(rms_A, cold, LIMIT_DEGC),
    )


def stays_cool(build: Build, one: Draft) -> bool:
    """Whether the switch of a toy's port keeps its limit."""
    return reaches(LIMIT_DEGC, switching.switch_heat(build, one)[1][1])


def largest_A(build: Build, one: Draft) -> float:
    """The current through the port at which its switch is just at its limit, rounded down; 0: none.

    Where the winding is known its ripple stays whatever the load draws, so that the current is searched for.
    """
    asked_A = one.through_port_A
    chop = chop_of(build, one) if one.control.port_carries_load else None
    if chop is None or chop.winding is None:
        now = balance(build, one)
        return show.rounded_down(asked_A * switch.largest_share(now.room_W, now.edges_W, now.kept_W))

    def fits(amps: float) -> bool:
        lowest = min(amps, one.load.lowest_current_A)
        return stays_cool(build, replace(one, load=replace(one.load, design_current_A=amps, lowest_current_A=lowest)))

    most_A = last(fits, 0.0, asked_A, HALVINGS)
    return show.rounded_down(most_A) if most_A > asked_A / 2 ** (HALVINGS - 1) else 0.0


def cures(build: Build, one: Draft) -> Iterable[str]:
    """What of the board's own values would do, each alone: ``a switching_time of at most 0.43 μs``."""
    now = balance(build, one)
    if now.room_W <= 0:
        return
    thermal = switch.largest_thermal_K_per_W(LIMIT_DEGC, now.air_degC, now.edges_W + now.kept_W)
    yield f"a switch_thermal_resistance of at most {show.show(show.rounded_down(thermal), 'K/W')}"
    cold = switch.largest_cold_ohm(
        LIMIT_DEGC, now.air_degC, now.board.switch_thermal_resistance.high, now.edges_W, now.rms_A
    )
    at_degC = now.board.switch_resistance_at.low
    ohm = show.rounded_down(switch.conduction_W(1.0, cold, at_degC))
    if ohm >= LEAST_OHM:
        yield f"a switch_resistance of at most {show.ohms(ohm)}"
    if not now.edges_W or now.room_W <= now.kept_W:
        return
    time_s = show.rounded_down(now.board.switching_time.high * (now.room_W - now.kept_W) / now.edges_W)
    if time_s >= LEAST_S:
        yield f"a switching_time of at most {show.short_seconds(time_s)}"
    slower = slower_Hz(build, one, now)
    if slower:
        yield f"a pwm_frequency of at most {show.hertz(slower)}"


def slower_Hz(build: Build, one: Draft, now: Balance) -> float | None:
    """A PWM frequency at which the switch keeps its limit; None where none does, since slow PWM has a larger ripple."""
    frequency = now.board.pwm_frequency
    assert frequency is not None
    hertz = show.rounded_down(frequency.middle * (now.room_W - now.kept_W) / now.edges_W)
    while hertz >= LEAST_HZ:
        slow = now.board.model_copy(update={"pwm_frequency": replace(frequency, low=hertz, high=hertz)})
        if stays_cool(build.model_copy(update={"boards": build.boards | {one.board_slug: slow}}), one):
            return hertz
        hertz = show.rounded_down(hertz / 1.5)
    return None

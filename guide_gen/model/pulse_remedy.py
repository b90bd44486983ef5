"""A coil that gets too hot if pulsed as described: which pause, pulse, voltage or resistor meets all rules at once.

The rules: its winding stays within its limit, its surface below the burn threshold, and from its hottest start it
stands being stuck on until something ends that.
"""

from dataclasses import dataclass
from math import ceil, floor
from typing import Any

from guide_gen.formulas import coil as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.led import next_e24_ohm
from guide_gen.formulas.motor import winding_at_ohm
from guide_gen.model.coil import HOT, Coil
from guide_gen.published.tables import touch_levels
from guide_gen.values import show
from guide_gen.values.halving import last
from guide_gen.values.worked import Worked, work

SPARE = 2.0  # times a pulse that a coil is to stand from its hottest start, so that a limit can be set; this project
SPARE_K = 0.5  # below each threshold, so that a rounded value is not just past it; this project
SET_S = 0.2  # a limit worth proposing: long enough for any stroke; this project
LONGEST_PAUSE_S = 3600.0  # no game waits longer; this project
TOUCH_DEGC = next(level.from_degC for level in touch_levels() if level.level == HOT)


@dataclass(frozen=True)
class Remedy:
    """Each alone lets a coil be pulsed as described.

    voltage_V: the highest that its supply may reach. series_ohm, series_W: a resistor before it at the voltage that
    there is, and its heat while the coil is on. pull_share: of the force that is left with either, by the square of the
    current. pause: between pulses, all else as it is; None where no pause is long enough.
    """

    voltage_V: float
    series_ohm: float
    series_W: float
    pull_share: float
    pause: "Pause | None"


@dataclass(frozen=True)
class Pause:
    """The shortest pause that meets all rules, rounded up.

    stays_s: how long the coil then stands being stuck on from its hottest start, at the least. limited: an
    on-time limit of `stays_s` belongs to this pause, in place of what ends a pulse now.
    """

    off_s: float
    stays_s: float
    limited: bool


# ---- all rules at once ----------------------------------------------------------------------------------------------


def bound_degC(coil: Coil) -> float:
    """How warm its pulses may bring it: within its limit, and below the burn threshold where the air is."""
    cool = TOUCH_DEGC - SPARE_K
    return min(coil.limit_degC - SPARE_K, cool) if coil.air_degC < cool else coil.limit_degC - SPARE_K


def start_degC(coil: Coil, voltage_V: float, stays_s: float) -> float:
    """The hottest that a pulse may end, so that it stands being stuck on that long from there."""
    if coil.capacity_J_per_K is None or coil.may_stay_on:
        return bound_degC(coil)
    return min(bound_degC(coil), formulas.hottest_start_degC(**_start_arguments(coil, voltage_V, stays_s)))


def _start_arguments(coil: Coil, voltage_V: float, stays_s: float) -> dict[str, Any]:
    return {
        "voltage_V": voltage_V,
        "resistance_20_ohm": coil.cold_ohm[0],
        "capacity_J_per_K": coil.capacity_J_per_K,
        "limit_degC": coil.limit_degC,
        "time_s": stays_s,
    }


def _pause_arguments(coil: Coil, on_s: float, stays_s: float) -> dict[str, Any] | None:
    """Of `formulas.shortest_off_s`; None where its size is not known, or the air leaves no room."""
    allowed_K = start_degC(coil, coil.high_V, stays_s) - coil.air_degC
    if coil.thermal_K_per_W is None or coil.capacity_J_per_K is None or allowed_K <= 0:
        return None
    return {
        "power_W": coil.power_W,
        "thermal_K_per_W": coil.thermal_K_per_W,
        "constant_s": coil.thermal_K_per_W * coil.capacity_J_per_K,
        "allowed_K": allowed_K,
        "on_s": on_s,
    }


def pause_s(coil: Coil, on_s: float, stays_s: float) -> float | None:
    """The shortest pause after which it stands being stuck on for a time; None where none within an hour does."""
    arguments = _pause_arguments(coil, on_s, stays_s)
    off_s = formulas.shortest_off_s(**arguments) if arguments else LONGEST_PAUSE_S * 2
    if off_s > LONGEST_PAUSE_S:
        return None
    return up_s(off_s) if off_s > 0 else 0.0


def up_s(time_s: float) -> float:
    """A time rounded up to what `show.seconds` tells."""
    return 60.0 * ceil(time_s / 60 - 1e-9) if time_s >= 300 else show.rounded_up(time_s)


def down_s(time_s: float) -> float:
    """A time rounded down to what `show.seconds` tells."""
    return 60.0 * floor(time_s / 60 + 1e-9) if time_s >= 300 else show.rounded_down(time_s)


def whole_pause(coil: Coil, on_s: float, ends_s: float | None) -> Pause | None:
    """The shortest pause that meets all rules; None where none is known or none is long enough.

    ends_s: by when something ends a pulse that does not; None: nothing does yet, and a limit is to be proposed.
    """
    spare_s = down_s(SPARE * on_s)
    wished_s = max(SET_S, spare_s) if ends_s is None else ends_s
    for stays_s, limited in ((wished_s, False), (spare_s, ends_s is not None)):
        found = pause_s(coil, on_s, stays_s)
        if found is not None:
            return Pause(found, stays_s, limited)
    return None


def pause_worked(coil: Coil, on_s: float, pause: Pause) -> tuple[Worked, ...]:
    """The working of that pause."""
    arguments = _pause_arguments(coil, on_s, pause.stays_s)
    if arguments is None:
        return ()
    shortest = work(
        formulas.shortest_off_s,
        "coil.pause",
        "Shortest pause that meets every rule",
        sentence="Its pulses then bring it neither to its limit, nor to what burns the skin, nor above the start from "
        "which it stands being stuck on. Rounded up where it is told.",
        **arguments,
    )
    if coil.may_stay_on or pause.stays_s <= 0:
        return (shortest,)
    start = work(
        formulas.hottest_start_degC,
        "coil.hottest-start",
        f"Hottest start from which it stands being stuck on for {show.seconds(pause.stays_s)}",
        **_start_arguments(coil, coil.high_V, pause.stays_s),
    )
    return start, shortest


def longest_pulse_s(coil: Coil, off_s: float | None, ends_s: float | None, most_s: float) -> float | None:
    """The longest pulse that meets all rules with a pause, rounded down; None where none that can be set does.

    ends_s: as in `whole_pause`. most_s: no longer than that.
    """
    if coil.capacity_J_per_K is None:
        return None

    def fits(on_s: float) -> bool:
        stays_s = SPARE * on_s if ends_s is None else ends_s
        if off_s is None or coil.thermal_K_per_W is None:
            alone_s = coil.time_to_limit_s(coil.air_degC)
            return alone_s is not None and reaches(alone_s, stays_s)
        pause = pause_s(coil, on_s, stays_s)
        return pause is not None and reaches(off_s, pause)

    longest = down_s(most_s if fits(most_s) else last(fits, 0.0, most_s))
    return longest or None


# ---- less voltage ---------------------------------------------------------------------------------------------------


def remedy(coil: Coil, on_s: float, off_s: float | None, ends_s: float | None = None) -> Remedy | None:
    """What would let it stand twice a pulse from its hottest start; None where it does, or nothing is known to help.

    on_s, off_s: of the pulses; off_s None: single ones. ends_s: as in `whole_pause`, for the pause alone. The resistor
    is sized so that the coil never gets more than that voltage, hot as it may be: then its resistance is largest.
    Source: this project; the closed forms of the coil's heating, by halving.
    """
    if coil.capacity_J_per_K is None or coil.air_degC >= coil.limit_degC - SPARE_K:
        return None
    if stands(coil, coil.high_V, on_s, off_s):
        return None
    voltage_V = show.rounded_down(last(lambda volts: stands(coil, volts, on_s, off_s), 0.0, coil.high_V))
    hot_ohm = winding_at_ohm(resistance_20_ohm=coil.cold_ohm[1], temperature_degC=coil.limit_degC)
    series_ohm = next_e24_ohm(resistance_ohm=hot_ohm * (coil.high_V / voltage_V - 1))
    current_A = coil.high_V / (series_ohm + coil.cold_ohm[0])
    return Remedy(
        voltage_V,
        series_ohm,
        current_A**2 * series_ohm,
        (voltage_V / coil.high_V) ** 2,
        whole_pause(coil, on_s, ends_s) if off_s is not None else None,
    )


def stands(coil: Coil, voltage_V: float, on_s: float, off_s: float | None) -> bool:
    """Whether all rules hold at a voltage, with twice a pulse from where its pulses bring it."""
    assert coil.capacity_J_per_K is not None
    degC = coil.air_degC
    if off_s is not None and coil.thermal_K_per_W is not None:
        degC = formulas.settled_peak_degC(
            ambient_degC=coil.air_degC,
            power_W=formulas.power_W(voltage_V=voltage_V, resistance_ohm=coil.cold_ohm[0]),
            thermal_K_per_W=coil.thermal_K_per_W,
            constant_s=coil.thermal_K_per_W * coil.capacity_J_per_K,
            on_s=on_s,
            off_s=off_s,
        )
    return degC <= start_degC(coil, voltage_V, SPARE * on_s)


def remedy_words(coil: Coil, on_s: float, off_s: float | None, ends_s: float | None = None) -> str:
    """What to change, computed; what is known to help where nothing is to be computed.

    Less voltage comes with the on-time limit that the coil then stands, where what ends a pulse now comes later.
    """
    if coil.air_degC >= coil.limit_degC - SPARE_K:
        return (
            "No voltage helps, since the air alone brings it to its limit: mount it where it is cooler, or take a coil "
            "of a higher insulation class."
        )
    found = remedy(coil, on_s, off_s, ends_s)
    if found is None:
        return "Take a coil with more copper."
    wait = f" Or {wait_words(found.pause)}." if found.pause is not None else ""
    limit_s = down_s(SPARE * on_s)
    limit = f" With either write {limit_yaml(limit_s)}." if ends_s is None or ends_s > limit_s else ""
    return (
        f"Feed it from a supply that never gives more than {show.volts(found.voltage_V)}, or through a resistor of "
        f"{show.ohms(found.series_ohm)} in series, which takes {show.watts(found.series_W)} while the coil is on; "
        f"either leaves it about {show.percent(found.pull_share)} of its force.{limit}{wait} If that is too weak, "
        "take a coil with more copper."
    )


def wait_words(pause: Pause) -> str:
    """What the game is to do, and what is to be written where the on-time limit has to come down with it."""
    limit = f", and write {limit_yaml(pause.stays_s)}" if pause.limited else ""
    return f"let the game wait {show.seconds(pause.off_s)} or more between pulses{limit}"


def limit_yaml(limit_s: float) -> str:
    """An on-time limit as it is written."""
    return f"time_limit: {{by: board, after: {show.plain_spaces(show.seconds(limit_s))}}}"

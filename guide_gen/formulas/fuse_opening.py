"""Fuse: when it opens at a current, and what pulses it stands.

A standard gives gates: at a multiple of the rating a fuse may not open before a shortest time and must have opened by
a longest. Between gates both run straight on logarithmic scales, above the last one with the square of the current.
Below the lowest multiple with a longest time nothing is promised: it may open, or never.
"""

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import exp, inf, isclose, log, sqrt

from guide_gen.formulas.choice import reaches
from guide_gen.formulas.coil import settled, time_constant_s
from guide_gen.formulas.validity import above_zero, at_least, not_negative, share
from guide_gen.published.tables import FuseSeries, Gate, fuse_pulse_points
from guide_gen.values.worked import procedure, worked

_PULSE_POINTS = fuse_pulse_points()
_TIRED = "published fuse selection guides"
_SHAPES = "this project, by integration; the same shapes stand in published fuse selection guides"
_SHORT_S = 0.1
"""Gates up to this time tell of the melting element itself; at longer ones its surroundings help to cool it."""

# Opening ------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Opening:
    """When a fuse opens: not before shortest_s, by longest_s for certain. Infinite: never."""

    shortest_s: float
    longest_s: float


class Outcome(StrEnum):
    """Whether a fuse opens in a given time."""

    OPENS = "opens"
    MAYBE = "maybe"
    NEVER = "never"


@dataclass(frozen=True)
class FuseCurve:
    """The band in which one fuse opens. gates: lowest multiple first, one tuple for each character it may have.

    Where its character is not known the band is the widest of all that it may be.
    """

    rating_A: float
    gates: tuple[tuple[Gate, ...], ...]

    def opening(self, current_A: float) -> Opening:
        """The band at a current. Raises OutsideValidity. Source: the gates of the fuse's own standard."""
        not_negative(current_A=current_A)
        multiple = current_A / self.rating_A
        return Opening(
            min(_shortest(gates, multiple) for gates in self.gates),
            max(_longest(gates, multiple) for gates in self.gates),
        )

    def outcome(self, current_A: float, within_s: float) -> Outcome:
        """Whether it opens in a time at a current; never means that it may carry this current for ever."""
        above_zero(within_s=within_s)
        band = self.opening(current_A)
        if reaches(within_s, band.longest_s):
            return Outcome.OPENS
        return Outcome.NEVER if band.shortest_s == inf else Outcome.MAYBE

    def current_to_open_A(self, within_s: float) -> float:
        """The least current that opens it for certain in a time."""
        above_zero(within_s=within_s)
        return self.rating_A * max(_least_multiple(gates, within_s) for gates in self.gates)

    @property
    def melting_A2s(self) -> float | None:
        """A floor under its melting I2t: the least that its gates at short times allow.

        None where its standard has no such gate: a data sheet must say. A data sheet's figure replaces the floor.
        """
        floors = [_melting(gates) for gates in self.gates]
        if any(floor is None for floor in floors):
            return None
        return self.rating_A**2 * min(floor for floor in floors if floor is not None)


def curve(series: FuseSeries, rating_A: float, speed: str = "") -> FuseCurve:
    """The curve of a fuse. speed: ``fast`` or ``time-lag`` as printed, "" when not known.

    NotInTable for a rating without gates. Source: ISO 8820-3, IEC 60127-2 or UL 248-14, by the series.
    """
    return FuseCurve(rating_A, series.gates_of(rating_A, speed))


def _logarithmic(points: list[tuple[float, float]], x: float) -> float:
    """Straight between points on logarithmic scales, exact at each; x within them."""
    for point, value in points:
        if isclose(x, point):
            return value
    for (left, before), (right, after) in pairwise(points):
        if x <= right:
            return exp(log(before) + log(after / before) * log(x / left) / log(right / left))
    raise AssertionError("x lies within the points")


def _opening_gates(gates: tuple[Gate, ...]) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Shortest and longest times by multiple, from the multiple on that opens the fuse at all."""
    longest = [(gate.multiple, gate.longest_s) for gate in gates if gate.longest_s is not None]
    first = longest[0][0]
    shortest = [
        (gate.multiple, gate.shortest_s) for gate in gates if gate.shortest_s is not None and gate.multiple >= first
    ]
    return shortest, longest


def _beyond(points: list[tuple[float, float]], multiple: float) -> float:
    """Within the points by logarithms; above the last one the same heat, so time falls with the square."""
    last, seconds = points[-1]
    return seconds * (last / multiple) ** 2 if multiple >= last else _logarithmic(points, multiple)


def _longest(gates: tuple[Gate, ...], multiple: float) -> float:
    _, longest = _opening_gates(gates)
    first = longest[0]
    if not reaches(multiple, first[0]):
        return inf
    return _beyond(longest, max(multiple, first[0]))


def _shortest(gates: tuple[Gate, ...], multiple: float) -> float:
    """Below its first gate it never opens; from there to the first sure opening it may at any time from the next on."""
    if not reaches(multiple, gates[0].multiple):
        return inf
    shortest, longest = _opening_gates(gates)
    holding = [gate for gate in gates if gate.multiple < longest[0][0]]
    for gate in holding:
        if isclose(multiple, gate.multiple):
            return inf if gate.shortest_s is None else gate.shortest_s
        if multiple < gate.multiple and gate.shortest_s is not None:
            return gate.shortest_s
    last = shortest[-1] if shortest else (0.0, 0.0)
    # The same heat melts it above its last gate only where that gate leaves no time to lose heat.
    if (multiple > last[0] and last[1] > _SHORT_S) or not shortest:
        return 0.0
    return _beyond(shortest, max(multiple, shortest[0][0]))


def _least_multiple(gates: tuple[Gate, ...], within_s: float) -> float:
    """The inverse of `_longest`."""
    _, longest = _opening_gates(gates)
    if within_s >= longest[0][1]:
        return longest[0][0]
    last, seconds = longest[-1]
    if within_s <= seconds:
        return last * sqrt(seconds / within_s)
    return _logarithmic([(time, multiple) for multiple, time in reversed(longest)], within_s)


def _melting(gates: tuple[Gate, ...]) -> float | None:
    """Least I2t of a fuse of 1 A, by the gates at short times."""
    shortest, _ = _opening_gates(gates)
    return min((multiple**2 * seconds for multiple, seconds in shortest if seconds <= _SHORT_S), default=None)


# Pulses -------------------------------------------------------------------------------------------------------------


@procedure(
    "k_p",
    "",
    "published share of the melting I2t by number of pulses, straight between its rows on logarithmic scales",
    {"n": ("pulses", "")},
    _TIRED,
)
def pulse_share(pulses: float) -> float:
    """The share of its melting I2t that a fuse may be asked for so many times, 10 s and more apart.

    pulses: 1 or more; beyond 100 000 the share stays.
    Raises OutsideValidity. Source: published fuse selection guides.
    """
    at_least(1, pulses=pulses)
    return _logarithmic(list(_PULSE_POINTS), min(pulses, _PULSE_POINTS[-1][0]))


@procedure(
    "n",
    "",
    "number of pulses whose published share of the melting I2t is that of the pulse",
    {"W": ("pulse_A2s", "A²s"), "W_m": ("melting_A2s", "A²s")},
    _TIRED,
    never_means="without end",
)
def pulses_stood(pulse_A2s: float, melting_A2s: float) -> float:
    """How many times a fuse stands a pulse: 0 when one may melt it, infinite when it never tires.

    Raises OutsideValidity. Source: published fuse selection guides.
    """
    above_zero(pulse_A2s=pulse_A2s, melting_A2s=melting_A2s)
    asked = pulse_A2s / melting_A2s
    if not reaches(1, asked):
        return 0.0
    if reaches(_PULSE_POINTS[-1][1], asked):
        return inf
    return _logarithmic([(part, pulses) for pulses, part in reversed(_PULSE_POINTS)], min(1.0, asked))


@worked(
    "I_p",
    "A",
    "sqrt(W / (k_p * w))",
    {"W": ("pulse_A2s", "A²s"), "k_p": ("pulse_share", ""), "w": ("melting_at_1_A_A2s", "A²s")},
    _TIRED,
)
def needed_by_pulses_A(pulse_A2s: float, pulse_share: float, melting_at_1_A_A2s: float) -> float:
    """The rating that repeated pulses ask for.

    melting_at_1_A_A2s: melting I2t over the square of the rating, 0.49 for a blade by its gates.
    Raises OutsideValidity. Source: published fuse selection guides.
    """
    above_zero(pulse_A2s=pulse_A2s, melting_at_1_A_A2s=melting_at_1_A_A2s)
    share(pulse_share=pulse_share)
    return sqrt(pulse_A2s / (pulse_share * melting_at_1_A_A2s))


@worked(
    "I_p",
    "A",
    "min(sqrt(W / (k_p * w)), I_e)",
    {
        "W": ("pulse_A2s", "A²s"),
        "k_p": ("pulse_share", ""),
        "w": ("melting_at_1_A_A2s", "A²s"),
        "I_e": ("for_ever_A", "A"),
    },
    f"{_TIRED}; this project: bounded by the same current for ever",
)
def needed_by_pulse_A(pulse_A2s: float, pulse_share: float, melting_at_1_A_A2s: float, for_ever_A: float) -> float:
    """The rating that repeated pulses ask for, however long each lasts.

    for_ever_A: the rating by the continuous rule, were the pulse's highest current to flow for ever. Heat in I2t melts
    an element only while it is short against the time in which its surroundings take the heat away: for a blade
    0.15 s, the least at twice its rating. Beyond that I2t asks for ever more, and wrongly: by its gates a fuse carries
    1.1 times its rating for 100 h (ISO 8820-3), 1.5 times for an hour (IEC 60127-2) and its rating for ever
    (UL 248-14), and the continuous rule loads it with 0.75 of it. So no pulse asks for more than its own current would.
    Raises OutsideValidity. Source: published fuse selection guides; the bound is of this project.
    """
    above_zero(for_ever_A=for_ever_A)
    return min(needed_by_pulses_A(pulse_A2s, pulse_share, melting_at_1_A_A2s), for_ever_A)


@worked("W", "A²s", "I ** 2 * t", {"I": ("current_A", "A"), "t": ("time_s", "s")}, _SHAPES)
def rectangle_A2s(current_A: float, time_s: float) -> float:
    """I2t of a constant current. Raises OutsideValidity. Source: this project; integral of the square."""
    not_negative(current_A=current_A, time_s=time_s)
    return current_A**2 * time_s


@worked(
    "W",
    "A²s",
    "(I_a ** 2 + I_a * I_b + I_b ** 2) * t / 3",
    {"I_a": ("first_A", "A"), "I_b": ("last_A", "A"), "t": ("time_s", "s")},
    _SHAPES,
)
def ramp_A2s(first_A: float, last_A: float, time_s: float) -> float:
    """I2t of a straight rise or fall. Raises OutsideValidity. Source: this project; integral of the square."""
    not_negative(first_A=first_A, last_A=last_A, time_s=time_s)
    return (first_A**2 + first_A * last_A + last_A**2) * time_s / 3


@worked("W", "A²s", "I ** 2 * t / 2", {"I": ("peak_A", "A"), "t": ("time_s", "s")}, _SHAPES)
def half_sine_A2s(peak_A: float, time_s: float) -> float:
    """I2t of half a wave of a sine. Raises OutsideValidity. Source: this project; integral of the square."""
    not_negative(peak_A=peak_A, time_s=time_s)
    return peak_A**2 * time_s / 2


@worked("W", "A²s", "I ** 2 * tau / 2", {"I": ("peak_A", "A"), "tau": ("constant_s", "s")}, _SHAPES)
def decay_A2s(peak_A: float, constant_s: float) -> float:
    """I2t of a current that dies away exponentially. Raises OutsideValidity. Source: this project; integral."""
    not_negative(peak_A=peak_A)
    above_zero(constant_s=constant_s)
    return peak_A**2 * constant_s / 2


@worked(
    "W",
    "A²s",
    "max(0, (V / R) ** 2 * (t - 2 * L / R * (1 - exp(-t * R / L)) + L / R * (1 - exp(-2 * t * R / L)) / 2))",
    {"V": ("voltage_V", "V"), "R": ("resistance_ohm", "Ω"), "L": ("inductance_H", "H"), "t": ("time_s", "s")},
    _SHAPES,
)
def coil_pulse_A2s(voltage_V: float, resistance_ohm: float, inductance_H: float, time_s: float) -> float:
    """I2t of a coil that is switched on for a time.

    Raises OutsideValidity. Source: this project; integral of the square of an exponential rise.
    """
    not_negative(voltage_V=voltage_V, time_s=time_s)
    constant = time_constant_s(inductance_H, resistance_ohm)
    once, twice = settled(time_s, constant), settled(2 * time_s, constant)
    square = (voltage_V / resistance_ohm) ** 2
    return max(0.0, square * (time_s - 2 * constant * once + constant * twice / 2))


@worked(
    "W",
    "A²s",
    "(V / R) ** 2 / 2 * J * R / K_e ** 2",
    {
        "V": ("voltage_V", "V"),
        "R": ("loop_ohm", "Ω"),
        "J": ("inertia_kg_m2", "kg m²"),
        "K_e": ("constant_V_s_per_rad", "V s/rad"),
    },
    "this project: a motor's start dies away with J R / Ke²",
)
def motor_start_A2s(voltage_V: float, loop_ohm: float, inertia_kg_m2: float, constant_V_s_per_rad: float) -> float:
    """I2t of one start of a motor at full voltage, over what it draws once it runs.

    inertia_kg_m2: of rotor and all that turns with it. Raises OutsideValidity.
    Source: this project; J dw/dt = Ke i with friction left out.
    """
    above_zero(
        voltage_V=voltage_V,
        loop_ohm=loop_ohm,
        inertia_kg_m2=inertia_kg_m2,
        constant_V_s_per_rad=constant_V_s_per_rad,
    )
    return (voltage_V / loop_ohm) ** 2 / 2 * inertia_kg_m2 * loop_ohm / constant_V_s_per_rad**2


@worked(
    "W",
    "A²s",
    "C * V ** 2 / (2 * R)",
    {"C": ("capacitance_F", "F"), "V": ("voltage_V", "V"), "R": ("loop_ohm", "Ω")},
    "OpenStax University Physics volume 2, energy in a capacitor",
)
def capacitor_A2s(capacitance_F: float, voltage_V: float, loop_ohm: float) -> float:
    """I2t that a supply's output capacitor adds to the first moments of a fault: its energy over the resistance.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, energy in a capacitor.
    """
    above_zero(capacitance_F=capacitance_F, voltage_V=voltage_V, loop_ohm=loop_ohm)
    return capacitance_F * voltage_V**2 / (2 * loop_ohm)


# A coil that stays on -----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class StuckOn:
    """One rating before a coil that is made for pulses. saves: it opens before a stuck coil is too hot.

    stands: it never tires of the pulses; None where its melting I2t is not known.
    """

    rating_A: float
    multiple: float
    opening: Opening
    saves: Outcome
    room_A2s: float | None
    stands: bool | None


def stuck_on(fuse: FuseCurve, on_A: float, coil_s: float, pulse_A2s: float, pulses: float) -> StuckOn:
    """Whether a fuse can do both: let the pulses of a life pass, and open when the coil simply stays on.

    on_A: at the hottest start. coil_s: until the winding reaches its limit. Above 0.67 of its rating a fuse of
    1.5 times the current is never loaded, so by the rule of thumb alone no fuse saves a coil.
    Raises OutsideValidity. Source: this project; the fuse's gates and published shares of its melting I2t.
    """
    above_zero(on_A=on_A, coil_s=coil_s, pulse_A2s=pulse_A2s)
    melting = fuse.melting_A2s
    room = None if melting is None else pulse_share(pulses) * melting
    return StuckOn(
        fuse.rating_A,
        on_A / fuse.rating_A,
        fuse.opening(on_A),
        fuse.outcome(on_A, coil_s),
        room,
        None if room is None else reaches(room, pulse_A2s),
    )

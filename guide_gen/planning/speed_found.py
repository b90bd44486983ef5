"""What was found on a gear motor or a blower: against what was worked out, and the ranges narrowed by it."""

from collections.abc import Callable
from dataclasses import dataclass
from math import isfinite, pi

from guide_gen.formulas.spread import Spread
from guide_gen.formulas.turned import AtSetting, Turned, at_settings, centred, narrowed, start_of
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Compared, Sized, SpeedPlan
from guide_gen.planning.motion_readings import share_of
from guide_gen.planning.motion_words import share
from guide_gen.planning.speed_case import Case
from guide_gen.values import show
from guide_gen.values.quantity import Quantity

RAISED_BY = 0.02  # a setting that was found by raising it by this much at a time
COUNTED_OFF = 0.03  # what counted turns may be off; this project, as for a shaker's log
METER_OFF = 0.05  # what a multimeter's amperes may be off; this project, as for a shaker
METER_FIGURE_A = 0.01  # and the last figure of its 10 A range
BEGINS = "begins to turn"


@dataclass(frozen=True)
class Reading:
    """One reading with what it may be off. centre: the value that is most likely wrong where it differs.

    shown, worked: the reading in words, and how a predicted range is put into words.
    """

    what: str
    low: float
    high: float
    shown: str
    worked: Callable[[float, float], str]
    foretell: Callable[[Turned], Spread]
    centre: str


@dataclass(frozen=True)
class Learnt:
    """A motor narrowed by what was found; each reading against what was worked out; which of them narrowed it."""

    turned: Turned
    compared: tuple[Compared, ...]
    narrowed: tuple[str, ...]


def learnt(case: Case, turned: Turned) -> Learnt:
    """The motor narrowed by one reading after the other.

    A reading that contradicts the ranges, or what the readings before it left of them, narrows nothing.
    """
    whole, compared, cuts = turned, [], []
    for one in readings(case):
        foretold = one.foretell(whole)
        fits = all(meets(one, ranges) for ranges in (foretold, one.foretell(turned)))
        if fits:
            before = turned
            turned = narrowed(turned, one.foretell, one.low, one.high)
            if narrower(before, turned) or one.what == BEGINS:
                cuts.append(one.what)
            turned = centred(turned, one.centre, one.foretell, (one.low + one.high) / 2)
        compared.append(Compared(one.what, one.shown, one.worked(foretold.low, foretold.high), fits))
    return Learnt(turned, tuple(compared), tuple(cuts))


def narrower(before: Turned, after: Turned) -> bool:
    """Whether any range has become narrower."""
    pairs = [(one, getattr(after, name)) for name, one in vars(before).items() if isinstance(one, Spread)]
    return any(new.high - new.low < 0.999 * (old.high - old.low) for old, new in pairs)


def meets(one: Reading, told: Spread) -> bool:
    """Whether a reading can lie in a range; a start may also be one step beside it."""
    give = RAISED_BY + 1e-9 if one.what == BEGINS else 0.0
    return told.low - give <= one.high and one.low <= told.high


def readings(case: Case) -> list[Reading]:
    """What was found of it; a speed or current where its setting is known, which is the full one without a setting."""
    found = case.toy.found
    if found is None:
        return []
    read = []
    at = share_of(found.setting, case.sized.supply_V) if found.setting else None if case.settable else 1.0
    if at is not None and (case.settable or at >= 1):
        if found.current:
            read.append(drawn(found.current, at))
        if found.turning and case.turns != "motor":
            read.append(turned_at(case, found.turning, at))
    if found.start and case.settable:
        start = share_of(found.start, case.sized.supply_V)
        read.append(Reading(BEGINS, start - RAISED_BY, start, share(start), told, start_of, "friction_share"))
    return read


def drawn(current: Quantity, at: float) -> Reading:
    """Amperes in the supply lead."""
    return Reading(
        "running current",
        (1 - METER_OFF) * current.low - METER_FIGURE_A,
        (1 + METER_OFF) * current.high + METER_FIGURE_A,
        show.amps(current.middle),
        lambda low, high: show.span(low, high, "A"),
        lambda ranges: running(ranges, at).drawn_A,
        "current_A",
    )


def turned_at(case: Case, turning: Quantity, at: float) -> Reading:
    """Turns of the output or the fan, in a second."""
    turn = 2 * pi * case.ratio
    return Reading(
        "turning frequency",
        (1 - COUNTED_OFF) * turning.low,
        (1 + COUNTED_OFF) * turning.high,
        show.hertz(turning.middle),
        lambda low, high: show.span(low, high, "Hz"),
        lambda ranges: Spread(*(speed / turn for speed in running(ranges, at).speed_rad_s)),
        "speed_rad_s",
    )


def running(turned: Turned, at: float) -> AtSetting:
    """What it does at one setting."""
    return at_settings(turned, [at])[0]


def left_at(as_left: float, keeps: Spread) -> Compared:
    """The setting as left: where it keeps turning."""
    return Compared("as-left setting", share(as_left), told(keeps.low, 1.0), as_left >= keeps.low - 1e-9)


def told(low: float, high: float) -> str:
    """Two settings in a table."""
    return f"{share(low)} to {share(high)}"


def speed_findings(plan: SpeedPlan | None, sized: Sized, path: tuple[str, ...]) -> list[Finding]:
    """A limit below where it begins to turn, and readings that contradict the plan."""
    if plan is None:
        return []
    return low_limit(plan, sized, path) + [
        Finding(
            "reading-outside",
            Level.NOTE,
            f"{sized.name}, {one.what}: {one.found} was found, {one.predicted} was worked out.",
            f"{one.what} {one.predicted}",
            "Measure again; if it stays, one of the values of the motor or its current is wrong, or it rubs.",
            (*path, "found"),
            sized.slug,
        )
        for one in plan.compared
        if not one.fits
    ]


def low_limit(plan: SpeedPlan, sized: Sized, path: tuple[str, ...]) -> list[Finding]:
    """A port's limit below where it may begin to turn; a limit of nothing is told by its port."""
    if not plan.limit or plan.start is None or plan.limit >= plan.start[0] - 1e-9:
        return []
    least = share(plan.start[0]) if isfinite(plan.start[0]) else ""
    return [
        Finding(
            "not-worked-out",
            Level.NOTE,
            f"The tuning of {sized.name} is not worked out: with the port's limit of {share(plan.limit)} it cannot "
            f"begin to turn, which it does {f'from {least} on' if least else 'at no setting'}.",
            f"a limit of {least} or more" if least else "a motor that turns",
            "Raise the limit, or lighten what it turns." if least else "Measure its motor again.",
            (*path, "control", "limit"),
            sized.slug,
        )
    ]

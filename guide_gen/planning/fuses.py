"""The fuse of a feed: the rating that the load needs, chosen from the holder's series or checked."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from guide_gen.description.build import Wiring
from guide_gen.formulas import fuse as formulas
from guide_gen.formulas import fuse_opening as pulses
from guide_gen.formulas.choice import reaches, smallest_at_or_above
from guide_gen.model.fields import FuseFields
from guide_gen.model.plan import FusePlan, Load
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.worked import Candidate, Shape, Worked, work

AT, AT_BLOCK, AT_PORT = "supply plus", "block plus", "switched return"
SMALL_A = 1.0  # below it no source here tells what a cartridge drops
BEHIND = "fuse behind"  # the rule that a block's fuse is larger than every fuse behind it


@dataclass(frozen=True)
class Needed:
    """The rating needed, which rule governs it, the smallest rating of the series that is enough, and the working."""

    rating_A: float
    governs: str
    smallest_A: float | None
    worked: tuple[Worked, ...]
    candidates: tuple[Candidate, ...]


def needed(
    load: Load,
    wiring: Wiring,
    series: tables.FuseSeries,
    speed: str = "",
    stated_A: float | None = None,
    behind: Sequence[FusePlan] = (),
    beside_A: float = 0.0,
) -> Needed:
    """What a load asks of a fuse of this series.

    How much heat melts a fuse depends on its rating: what pulses ask for is told for the rating that is judged, the
    stated one or the smallest that stands them. behind: fuses that stand behind this one. beside_A: of a relay's coil
    that the same fuse feeds; it is steady and has no start, so that only the continuous rule counts it: the margin is
    for what is not known of the load.
    """
    air, current_A = wiring.inside_temperature.high, load.design_current_A
    factor = formulas.temperature_factor(temperature_degC=air)
    by_margin = work(
        formulas.needed_by_margin_A,
        "fuse.margin",
        "Rating by the margin",
        current_A=current_A,
        margin=wiring.fuse_margin,
    )
    by_heat = work(formulas.temperature_factor, "fuse.temperature", "Factor for a warm fuse", temperature_degC=air)
    by_rule = work(
        formulas.needed_by_continuous_A,
        "fuse.continuous",
        "Rating by the continuous rule",
        sentence=beside_words(current_A, beside_A),
        current_A=current_A + beside_A,
        temperature_factor=factor,
    )
    rules = {"margin": ("I_m", by_margin), "continuous": ("I_c", by_rule)}
    by_order = largest_behind(behind)
    least_A = max(float(worked.result) for _, worked in rules.values())
    above_A = next_above(series, max((fuse.rating_A or 0.0 for fuse in behind), default=0.0))
    fitting = [one for one in series.ratings_A if reaches(one, pulses_ask_A(load, series, speed, one, factor))]
    smallest, _ = smallest_at_or_above(fitting, max(least_A, above_A), "A")
    judged_A = stated_A if stated_A is not None else smallest if smallest is not None else series.ratings_A[-1]
    by_pulses = pulse_rule(load, melting_at_1_A_A2s(series, speed, judged_A), factor)
    if by_pulses:
        rules["pulse"] = ("I_p", by_pulses[-1])
    if by_order:
        rules[BEHIND] = ("I_b", by_order[0])
    ratings = {name: float(worked.result) for name, (_, worked) in rules.items()}
    letters = {letter: ratings[name] for name, (letter, _) in rules.items()}
    governs = max(ratings, key=lambda name: ratings[name])
    largest = Worked(
        "fuse.needed",
        "Rating needed",
        Shape.FORMULA,
        "I_needed",
        ratings[governs],
        "A",
        f"max({', '.join(letters)})",
        "common practice, no source",
        "The largest of them; a switch that fails gives full current, so no limit and no trimmer lowers it.",
        letters,
        dict.fromkeys(letters, "A"),
    )
    need_A = ratings[governs]
    tried = [one for one in series.ratings_A if one in fitting or not reaches(one, need_A)]
    _, candidates = smallest_at_or_above(tried, max(need_A, above_A), "A")
    working = (by_margin, by_heat, by_rule, *by_pulses, *by_order, largest)
    return Needed(need_A, governs, smallest, working, candidates)


def beside_words(load_A: float, beside_A: float) -> str:
    """What flows besides the load, if anything does."""
    if not beside_A:
        return ""
    return f"{show.amps(load_A)} of the load and {show.amps(beside_A)} of the relay's coil, which the same fuse feeds."


def largest_behind(behind: Sequence[FusePlan]) -> tuple[Worked, ...]:
    """The largest of the fuses behind a block's fuse; nothing without any."""
    rated = {fuse.id: fuse.rating_A for fuse in behind if fuse.rating_A is not None}
    if not rated:
        return ()
    first = max(rated, key=lambda id: rated[id])
    others = tuple(Candidate(f"{id}, {show.amps(rating)}", "no larger") for id, rating in rated.items() if id != first)
    return (
        Worked(
            "fuse.behind",
            "Largest fuse behind it",
            Shape.CHOICE,
            "I_b",
            rated[first],
            "A",
            "largest rating of the fuses behind it",
            "common practice, no source",
            "The smaller of two fuses in series is to open first, so that one toy stops and not all.",
            candidates=(Candidate(f"{first}, {show.amps(rated[first])}", ""), *others),
        ),
    )


def pulse_rule(load: Load, melting_at_1_A_A2s: float | None, factor: float) -> tuple[Worked, ...]:
    """The rating that the pulses of a life ask for, last; nothing for a load without pulses. factor: of warm air."""
    if load.pulse_A2s is None or melting_at_1_A_A2s is None:
        return ()
    for_ever = work(
        formulas.needed_by_continuous_A,
        "fuse.pulse-for-ever",
        "Rating for the pulse's highest current, were it to last for ever",
        sentence="No pulse asks for more, however long it lasts.",
        current_A=highest_A(load),
        temperature_factor=factor,
    )
    share = work(
        pulses.pulse_share,
        "fuse.pulse-share",
        "Share of the melting heat that repeated pulses may use",
        pulses=load.pulses,
    )
    rating = work(
        pulses.needed_by_pulse_A,
        "fuse.pulse",
        "Rating by the pulse rule",
        sentence=f"{show.count(load.pulses)} pulses in its life, 10 s and more apart.",
        pulse_A2s=load.pulse_A2s,
        pulse_share=float(share.result),
        melting_at_1_A_A2s=melting_at_1_A_A2s,
        for_ever_A=float(for_ever.result),
    )
    return share, for_ever, rating


def highest_A(load: Load) -> float:
    """The highest current of its pulses: a cold filament's at its start, a coil's in use."""
    return max(load.design_current_A, load.start_A or 0.0)


def pulses_ask_A(load: Load, series: tables.FuseSeries, speed: str, rating_A: float, factor: float) -> float:
    """The rating that pulses ask for where a fuse melts as this rating does; 0 where they ask for nothing.

    factor: of warm air.
    """
    melting = None if load.pulse_A2s is None else melting_at_1_A_A2s(series, speed, rating_A)
    if load.pulse_A2s is None or melting is None:
        return 0.0
    share = pulses.pulse_share(load.pulses)
    for_ever_A = formulas.needed_by_continuous_A(current_A=highest_A(load), temperature_factor=factor)
    return pulses.needed_by_pulse_A(load.pulse_A2s, share, melting, for_ever_A)


def melting_at_1_A_A2s(series: tables.FuseSeries, speed: str, rating_A: float) -> float | None:
    """A floor under the melting heat of a fuse, over the square of its rating; None where no gate tells it.

    A rating for which the series has no gates has the least of the others.
    """
    own = melting_A2s(series, speed, rating_A)
    if own is not None:
        return own / rating_A**2
    floors = [(melting_A2s(series, speed, one), one) for one in series.ratings_A]
    return min((melting / one**2 for melting, one in floors if melting is not None), default=None)


def melting_A2s(series: tables.FuseSeries, speed: str, rating_A: float) -> float | None:
    """A floor under the melting heat of one rating, by its own gates; None where none of them tells it."""
    try:
        return pulses.curve(series, rating_A, speed).melting_A2s
    except tables.NotInTable:
        return None


def fuse_of(
    number: int | str,
    fields: FuseFields | str,
    load: Load,
    wiring: Wiring,
    at: str = AT,
    behind: Sequence[FusePlan] = (),
    beside_A: float = 0.0,
) -> tuple[FusePlan, tuple[Worked, ...]]:
    """The fuse plan of one feed. number: what follows the letter of its designator.

    fields: ``none`` when there is no fuse. behind: fuses that must open before it. beside_A: of a coil beside the load.
    """
    holder, speed = ("blade", "") if isinstance(fields, str) else (fields.holder, fields.speed or "")
    stated = None if isinstance(fields, str) or fields.rating is None else fields.rating.low
    asked = needed(load, wiring, tables.fuse_series(holder), speed, stated, behind, beside_A)
    need_A, governs, working = asked.rating_A, asked.governs, asked.worked
    id = f"F{number}"
    if isinstance(fields, str):
        return FusePlan(id, None, "", "", at, need_A, governs, None, "", 0.0, True), working
    series = tables.fuse_series(fields.holder)
    rating = stated if stated is not None else asked.smallest_A
    choice = Worked(
        "fuse.rating",
        "Fuse",
        Shape.CHOICE,
        "I_n",
        rating if rating is not None else "none fits",
        "A",
        "stated, checked against needed_A"
        if stated is not None
        else "smallest rating at or above needed_A"
        + (", and above every fuse behind it" if any(fuse.rating_A for fuse in behind) else ""),
        f"{series.standard}, ratings",
        f"Holder: {fields.holder}.",
        candidates=asked.candidates,
    )
    working += (choice,)
    if rating is None:
        return FusePlan(id, None, fields.holder, series.standard, at, need_A, governs, None, "", 0.0, False), working
    resistance = work(
        resistance_of(series),
        "fuse.resistance",
        "Resistance of the fuse",
        sentence=small_words(series, rating),
        rating_A=rating,
    )
    melting = melting_at_1_A_A2s(series, speed, rating)
    plan = FusePlan(
        id,
        rating,
        fields.holder,
        series.standard,
        at,
        need_A,
        "stated" if stated is not None else governs,
        fields.dc_voltage.low if fields.dc_voltage else series.dc_voltage_V,
        fields.speed or "",
        float(resistance.result),
        stated is not None,
        asked.smallest_A,
        None if melting is None else melting * rating**2,
    )
    return plan, (*working, resistance)


def resistance_of(series: tables.FuseSeries) -> Callable[..., float]:
    """The formula of the resistance of a fuse of this series, by its rating_A."""
    return formulas.blade_resistance_ohm if series.body == "blade" else formulas.cartridge_resistance_ohm


def small_words(series: tables.FuseSeries, rating_A: float) -> str:
    """What the figure does not cover: the thin elements of small cartridges."""
    if series.body == "blade" or reaches(rating_A, SMALL_A):
        return ""
    return (
        f"The figure is for {show.amps(SMALL_A)} and more. A smaller cartridge drops more, up to some volts: look for "
        "the voltage drop in its data sheet."
    )


def next_above(series: tables.FuseSeries, rating_A: float) -> float:
    """The smallest rating of a series above one; one beyond its end where the series ends before it; 0 above none."""
    if not rating_A:
        return 0.0
    return min((one for one in series.ratings_A if one > rating_A * (1 + 1e-9)), default=2 * rating_A)


def drop_range_V(series: str) -> tuple[float, float]:
    """What a fuse of this series drops at its rating, low and high."""
    figure = tables.rule(f"{tables.fuse_series(series).body} fuse drop")
    assert figure.low is not None
    assert figure.high is not None
    return figure.low, figure.high

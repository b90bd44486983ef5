"""The fuse of a feed: the rating that the load needs, chosen from the holder's series or checked."""

from guide_gen.description.build import Wiring
from guide_gen.formulas import fuse as formulas
from guide_gen.formulas import fuse_opening as pulses
from guide_gen.formulas.choice import smallest_at_or_above
from guide_gen.model.fields import FuseFields
from guide_gen.model.plan import FusePlan, Load
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.worked import Shape, Worked, work

AT = "supply plus"


def needed(
    load: Load, wiring: Wiring, melting_at_1_A_A2s: float | None = None
) -> tuple[float, str, tuple[Worked, ...]]:
    """The rating needed, which rule governs it, and the working.

    melting_at_1_A_A2s: of the holder's series; None: not known, then pulses ask for nothing.
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
        current_A=current_A,
        temperature_factor=factor,
    )
    by_pulses = pulse_rule(load, melting_at_1_A_A2s)
    rules = {"margin": ("I_m", by_margin), "continuous": ("I_c", by_rule)}
    if by_pulses:
        rules["pulse"] = ("I_p", by_pulses[-1])
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
    return ratings[governs], governs, (by_margin, by_heat, by_rule, *by_pulses, largest)


def pulse_rule(load: Load, melting_at_1_A_A2s: float | None) -> tuple[Worked, ...]:
    """The rating that the pulses of a life ask for, last; nothing for a load without pulses."""
    if load.pulse_A2s is None or melting_at_1_A_A2s is None:
        return ()
    share = work(
        pulses.pulse_share,
        "fuse.pulse-share",
        "Share of the melting heat that repeated pulses may use",
        pulses=load.pulses,
    )
    rating = work(
        pulses.needed_by_pulses_A,
        "fuse.pulse",
        "Rating by the pulse rule",
        sentence=f"{show.count(load.pulses)} pulses in its life, 10 s and more apart.",
        pulse_A2s=load.pulse_A2s,
        pulse_share=float(share.result),
        melting_at_1_A_A2s=melting_at_1_A_A2s,
    )
    return share, rating


def melting_at_1_A_A2s(series: tables.FuseSeries, speed: str) -> float | None:
    """A floor under the melting heat of a fuse of 1 A, the least of the series; None where no gate tells it."""
    floors = []
    for rating in series.ratings_A:
        try:
            melting = pulses.curve(series, rating, speed).melting_A2s
        except tables.NotInTable:
            continue
        if melting is not None:
            floors.append(melting / rating**2)
    return min(floors, default=None)


def fuse_of(number: int, fields: FuseFields | str, load: Load, wiring: Wiring) -> tuple[FusePlan, tuple[Worked, ...]]:
    """The fuse plan of one feed. fields: ``none`` when there is no fuse."""
    holder, speed = ("blade", "") if isinstance(fields, str) else (fields.holder, fields.speed or "")
    need_A, governs, working = needed(load, wiring, melting_at_1_A_A2s(tables.fuse_series(holder), speed))
    id = f"F{number}"
    if isinstance(fields, str):
        return FusePlan(id, None, "", "", AT, need_A, governs, None, "", 0.0, True), working
    series = tables.fuse_series(fields.holder)
    stated = fields.rating.low if fields.rating else None
    taken, candidates = smallest_at_or_above(series.ratings_A, need_A, "A")
    rating = stated if stated is not None else taken
    choice = Worked(
        "fuse.rating",
        "Fuse",
        Shape.CHOICE,
        "I_n",
        rating if rating is not None else "none fits",
        "A",
        "stated, checked against needed_A" if stated is not None else "smallest rating at or above needed_A",
        f"{series.standard}, ratings",
        f"Holder: {fields.holder}.",
        candidates=candidates,
    )
    working += (choice,)
    if rating is None:
        return FusePlan(id, None, fields.holder, series.standard, AT, need_A, governs, None, "", 0.0, False), working
    resistance = work(
        formulas.blade_resistance_ohm if series.body == "blade" else formulas.cartridge_resistance_ohm,
        "fuse.resistance",
        "Resistance of the fuse",
        rating_A=rating,
    )
    plan = FusePlan(
        id,
        rating,
        fields.holder,
        series.standard,
        AT,
        need_A,
        "stated" if stated is not None else governs,
        fields.dc_voltage.low if fields.dc_voltage else series.dc_voltage_V,
        fields.speed or "",
        float(resistance.result),
        stated is not None,
    )
    return plan, (*working, resistance)


def drop_range_V(series: str) -> tuple[float, float]:
    """What a fuse of this series drops at its rating, low and high."""
    figure = tables.rule(f"{tables.fuse_series(series).body} fuse drop")
    assert figure.low is not None
    assert figure.high is not None
    return figure.low, figure.high

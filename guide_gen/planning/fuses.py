"""The fuse of a feed: the rating that the load needs, chosen from the holder's series or checked."""

from guide_gen.description.build import Wiring
from guide_gen.formulas import fuse as formulas
from guide_gen.formulas.choice import smallest_at_or_above
from guide_gen.model.fields import FuseFields
from guide_gen.model.plan import FusePlan
from guide_gen.published import tables
from guide_gen.values.worked import Shape, Worked, work

AT = "supply plus"


def needed(current_A: float, wiring: Wiring) -> tuple[float, str, tuple[Worked, ...]]:
    """The rating needed, which rule governs it, and the working."""
    air = wiring.inside_temperature.high
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
    margin, continuous = float(by_margin.result), float(by_rule.result)
    larger = Worked(
        "fuse.needed",
        "Rating needed",
        Shape.FORMULA,
        "I_needed",
        max(margin, continuous),
        "A",
        "max(I_m, I_c)",
        "common practice, no source",
        "The larger of the two; a switch that fails gives full current, so no limit and no trimmer lowers it.",
        {"I_m": margin, "I_c": continuous},
        {"I_m": "A", "I_c": "A"},
    )
    governs = "margin" if margin >= continuous else "continuous"
    return float(larger.result), governs, (by_margin, by_heat, by_rule, larger)


def fuse_of(
    number: int, fields: FuseFields | str, current_A: float, wiring: Wiring
) -> tuple[FusePlan, tuple[Worked, ...]]:
    """The fuse plan of one feed. fields: ``none`` when there is no fuse."""
    need_A, governs, working = needed(current_A, wiring)
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


def opens_A(plan: FusePlan) -> float:
    """The current that opens the fuse for certain."""
    assert plan.rating_A is not None
    return plan.rating_A * tables.fuse_series(plan.series).opens_at


def drop_range_V(series: str) -> tuple[float, float]:
    """What a fuse of this series drops at its rating, low and high."""
    figure = tables.rule(f"{tables.fuse_series(series).body} fuse drop")
    assert figure.low is not None
    assert figure.high is not None
    return figure.low, figure.high

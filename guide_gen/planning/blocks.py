"""Distribution blocks: rows of fused positions, each fed by one lead that is fused and sized like any run."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from guide_gen.description.build import Build, DistributionBlock, Supply
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.supply import demand
from guide_gen.model.circuit import LETTERS, PartKind, Wire
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Need, Reading
from guide_gen.model.plan import BlockPlan, FusePlan, Load, WirePlan
from guide_gen.planning import faults, fuse_checks, fuses, protection, steps, wire_checks, wires
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drafts import Draft, drawn_by_letter, drop_share, limit_A, limit_to_carry_A, voltage_ends
from guide_gen.planning.loops import Loop, Run
from guide_gen.planning.needs import beside_supply
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.worked import Worked, default

_WEAKEST_LAST = (Basis.MEASURED, Basis.DATASHEET, Basis.ESTIMATE)


@dataclass(frozen=True)
class BlockDraft:
    """A block before its leads are sized. place: in the build, from 1. toys: all that are fed from it.

    load: all its toys together at full voltage, with what their controls take.
    """

    place: int
    slug: str
    fields: DistributionBlock
    supply_slug: str
    toys: tuple[Draft, ...]
    load: Load
    fuse: FusePlan
    worked: tuple[Worked, ...]

    @property
    def id(self) -> str:
        """Its designator."""
        return f"{LETTERS[PartKind.BLOCK]}{self.place}"

    @property
    def name(self) -> str:
        """Its name on the pages."""
        return f"block {self.slug}"

    @property
    def path(self) -> tuple[str, ...]:
        """The keys that lead to it."""
        return ("blocks", self.slug)

    @property
    def zero_A(self) -> float:
        """What returns to it: the toys that no port switches directly."""
        return sum(one.load.design_current_A for one in self.toys if not one.control.port_carries_load)


@dataclass(frozen=True)
class SizedBlock:
    """A block with its leads. slug: "", since what its feed's checks find concerns no single toy."""

    draft: BlockDraft
    loop: Loop
    choice: wires.Choice
    fault: faults.Fault | None
    feed: Wire
    back: Wire
    supply_id: str
    supply_high_V: float
    units: str
    slug: str = ""

    @property
    def name(self) -> str:
        """Its name on the pages."""
        return self.draft.name

    @property
    def supply_slug(self) -> str:
        """The supply that feeds it."""
        return self.draft.supply_slug

    @property
    def load(self) -> Load:
        """All its toys together."""
        return self.draft.load

    @property
    def fuse(self) -> FusePlan:
        """Its own fuse, at the supply."""
        return self.draft.fuse

    @property
    def wire(self) -> WirePlan:
        """The size of its two leads."""
        return self.choice.plan


# ---- what is fed from it, and its fuse ------------------------------------------------------------------------------


def drafts_of(build: Build, drafts: Sequence[Draft]) -> dict[str, BlockDraft]:
    """The blocks that feed something, by slug."""
    found = {}
    for place, (slug, fields) in enumerate(build.blocks.items(), start=1):
        toys = tuple(one for one in drafts if one.block_slug == slug)
        if not toys:
            continue
        supply_slug = toys[0].supply_slug
        load = load_of(build.supplies[supply_slug], toys)
        fuse, working = fuses.fuse_of(
            len(build.toys) + place,
            fields.feed.fuse,
            load,
            build.wiring,
            fuses.AT,
            [fuse for one in toys for fuse in one.source_fuses],
        )
        together = demand(
            "load.current", "Design current of all toys behind it, with their controls", drawn_by_letter(toys)
        )
        found[slug] = BlockDraft(place, slug, fields, supply_slug, toys, load, fuse, (together, *working))
    return found


def load_of(supply: Supply, toys: Sequence[Draft]) -> Load:
    """All toys behind a block at once with their controls, at full voltage; its basis is the weakest of theirs."""
    low, high = (sum(ends) for ends in zip(*(one.drawn_A for one in toys), strict=True))
    basis = max((one.load.basis for one in toys), key=_WEAKEST_LAST.index)
    return Load(high, low, supply.voltage.middle, basis, Quantity(low, high, show.amps(high), "A", basis), False)


def fuses_before(drafts: Sequence[Draft], blocks: Mapping[str, BlockDraft]) -> list[FusePlan]:
    """The fuses of several toys as seen from a lead before them: a block's fuse stands for all fuses at it."""
    found = [one.fuse for one in drafts if one.block_slug not in blocks]
    used = {one.block_slug for one in drafts} & blocks.keys()
    return [*found, *(blocks[slug].fuse for slug in blocks if slug in used)]


def on_lead(one: Draft, blocks: Mapping[str, BlockDraft]) -> bool:
    """Whether a toy is fed through its supply's lead to the fuses: what has no fuse there starts at the supply."""
    first = blocks[one.block_slug].fuse if one.block_slug in blocks else one.fuse
    return first.rating_A is not None


def fuses_returning(drafts: Sequence[Draft], blocks: Mapping[str, BlockDraft]) -> list[FusePlan]:
    """The fuses that bound what returns from these toys: of a block, its own or those at it, whichever is less."""
    found = [one.returns_by for one in drafts if one.block_slug not in blocks]
    for slug, block in blocks.items():
        own = [one.returns_by for one in drafts if one.block_slug == slug]
        whole = all(fuse.rating_A is not None for fuse in own)
        if block.fuse.rating_A is None or (whole and opening_A(own) <= opening_A([block.fuse])):
            found += own
        elif own:
            found.append(block.fuse)
    return found


def opening_A(several: Sequence[FusePlan]) -> float:
    """The sum of the currents that open some fuses for certain."""
    return sum(fuse.rating_A * tables.fuse_series(fuse.series).opens_at for fuse in several if fuse.rating_A)


# ---- its leads ------------------------------------------------------------------------------------------------------


def sized(
    build: Build, draft: BlockDraft, cabling: Cabling, supply_id: str, lead: wires.SharedLead, lead_id: str
) -> SizedBlock:
    """Its plus and 0 V lead: of one size, which leaves half of the drop limit to the toys behind it.

    Where its fuse and contacts take most of the other half, it may lose the whole limit, with all its toys on.
    """
    supply, fields = build.supplies[draft.supply_slug], draft.fields.feed
    low_V, high_V = voltage_ends(supply)
    feed, back = wires_of(build, draft, supply_id)
    fused = draft.fuse.rating_A is not None
    runs: tuple[Run, ...] = (Run(lead.length_m, lead.size, lead_id),) if fused else ()
    runs += (Run(feed.length_m, None, feed.id), Run(back.length_m, None, back.id))
    loop = Loop(
        runs=runs,
        contacts=2 * len(runs),
        switch_ohm=0.0,
        switch_low_ohm=0.0,
        current_A=draft.load.design_current_A,
        lowest_A=draft.load.lowest_current_A,
        voltage_V=supply.voltage.middle,
        limit_share=min(drop_share(build, one.kind) for one in draft.toys),
        low_V=low_V,
        high_V=high_V,
        limit_low_A=limit_A(supply),
        limit_high_A=limit_to_carry_A(supply),
        overload=supply.overload,
    )
    half = replace(loop, limit_share=rule("block drop share").value * loop.limit_share)
    choice = wires.choose(cabling, draft.fuse, half, fields.wire, feed.length_m)
    if not choice.drop_counts:
        choice = wires.choose(cabling, draft.fuse, loop, fields.wire, feed.length_m)
    size = choice.plan.size
    return SizedBlock(
        draft,
        loop,
        choice,
        faults.fault_of(cabling, size, draft.fuse, loop),
        wires.resized(feed, size),
        wires.resized(back, size),
        supply_id,
        high_V,
        build.units,
    )


def wires_of(build: Build, draft: BlockDraft, supply_id: str) -> tuple[Wire, Wire]:
    """Its two leads, numbered behind those of supplies and boards."""
    number = len(build.supplies) + len(build.boards) + 2 * draft.place - 1
    fields, fuse, colours = draft.fields.feed, draft.fuse, build.wiring.colours
    fused = fuse.rating_A is not None
    start, guard = (f"{fuse.id}:2", fuse.id) if fused else (f"{supply_id}:+", "nothing: fit a fuse")
    feed = Wire(
        f"W{number}",
        start,
        f"{draft.id}:+",
        colours.plus,
        fields.run.high,
        "",
        draft.load.design_current_A,
        guard,
        "block feed",
    )
    back = Wire(
        f"W{number + 1}",
        f"{draft.id}:0V",
        f"{supply_id}:0V",
        colours.zero,
        (fields.return_run or fields.run).high,
        "",
        draft.zero_A,
        guard,
        "block return",
    )
    return feed, back


# ---- what its page and the JSON say ---------------------------------------------------------------------------------


def plan_of(build: Build, block: SizedBlock, cabling: Cabling) -> BlockPlan:
    """All that the build's page says about a block."""
    draft, supply = block.draft, build.supplies[block.supply_slug]
    guard = protection.of_feed(
        protection.Guarded(
            draft.id, (block.feed.id, block.back.id), block.supply_id, block.load, block.fuse, block.wire
        ),
        block.loop,
        cabling,
        supply.overload,
    )
    working = (*draft.worked, *block.choice.worked, *(block.fault.worked if block.fault else ()))
    share = rule("block drop share")
    half = default("default.block_drop_share", "Share of the drop limit that its leads may lose",
                   show.percent(share.value), share.source)  # fmt: skip
    return BlockPlan(
        slug=draft.slug,
        id=draft.id,
        supply_slug=draft.supply_slug,
        supply_id=block.supply_id,
        load=block.load,
        fuse=block.fuse,
        wire=block.wire,
        wires=(block.feed, block.back),
        toys=tuple(one.slug for one in draft.toys),
        protection=guard,
        says=tuple(says(block)),
        readings=tuple(readings(block)),
        worked=tuple(_of_block(draft.slug, one) for one in (*working, half)),
    )


def _of_block(slug: str, one: Worked) -> Worked:
    """The same result with an id of its own on the build's page."""
    return replace(one, id=f"block.{slug}.{one.id}", name=one.name.replace("at the toy", "at the block"))


def says(block: SizedBlock) -> Iterator[str]:
    """Which fuse opens first, and where what returns."""
    fuse, id = block.fuse, block.draft.id
    rated = {one.fuse.id: one.fuse.rating_A for one in block.draft.toys if one.fuse.rating_A is not None}
    if fuse.rating_A is not None and rated:
        first = max(rated, key=lambda name: rated[name])
        ratio, usual = fuse.rating_A / rated[first], rule("fuses in series").value
        lead = (
            f"{fuse.id}, {show.amps(fuse.rating_A)}, stands before {first}, {show.amps(rated[first])}: "
            f"{show.figure(ratio, digits=2)} to 1. On an overload behind {first} the smaller one opens first."
        )
        yield (
            f"{lead} In a short circuit it usually does too, from {usual:g} to 1 on; only the curves of both makers "
            "can promise it."
            if reaches(ratio, usual)
            else f"{lead} In a short circuit both may open, and all toys on {id} stop: the ratings are nearer to each "
            f"other than {usual:g} to 1."
        )
    yield (
        f"{id} has a 0 V of its own. Toys that no port switches directly return there; what a port switches goes back "
        "to its board."
    )


def readings(block: SizedBlock) -> Iterator[Reading]:
    """What a meter shows of its leads before any power."""
    ends = f"{block.feed.start} and {block.feed.end}, then {block.back.start} and {block.back.end}"
    computed = tables.resistance_ohm_per_m(block.wire.size) * max(block.feed.length_m, block.back.length_m)
    yield Reading(
        f"Resistance of the leads of {block.draft.id}, less the meter's own",
        ends,
        0.0,
        max(steps.CONTINUITY_OHM, 1.5 * computed),
        "Ω",
        "A loose crimp or the wrong wire: mend it and measure again.",
        f"ohms range; computed for the longer one: {show.ohms(computed)}",
    )
    yield Reading(
        "Resistance from plus to 0 V",
        f"{block.draft.id}:+ and {block.draft.id}:0V",
        steps.NO_SHORT_OHM,
        None,
        "Ω",
        f"Find the short before anything else: a pinched wire or a stray strand at {block.draft.id}.",
        "ohms range; its own fuse and every fuse at it out",
    )


def needs(blocks: Sequence[SizedBlock], beside: Mapping[str, int]) -> tuple[Need, ...]:
    """The blocks themselves with their fuses; their wire stands with that of the other shared leads.

    beside: how many fuses sit at each supply's plus.
    """
    found = []
    for block in blocks:
        fuse, positions = block.fuse, sum(len(one.source_fuses) for one in block.draft.toys)
        found.append(
            Need(
                "Distribution block",
                f"{positions} fused position{'s' if positions > 1 else ''} and 0 V",
                "1",
                f"carries {show.amps(fuse.rating_A or block.load.design_current_A)} or more",
                block.draft.id,
            )
        )
        if fuse.rating_A is not None:
            speed = f", {fuse.speed}" if fuse.speed else ""
            where = beside_supply(block.supply_id, beside[block.supply_slug])
            found += [
                Need("Fuse holder", f"for {fuse.series} fuses", "1", where, fuse.id),
                Need("Fuse", f"{show.amps(fuse.rating_A)}, {fuse.series}{speed}", "2", "one is the spare", fuse.id),
            ]
    return tuple(found)


# ---- what is wrong with it ------------------------------------------------------------------------------------------


def findings(build: Build, blocks: Mapping[str, SizedBlock], cabling: Cabling) -> Iterator[Finding]:
    """Everything the checks say about the blocks' own feeds."""
    for slug in build.blocks:
        if slug in blocks:
            yield from block_findings(build, blocks[slug], cabling)
        else:
            yield Finding(
                "not-worked-out",
                Level.NOTE,
                f"Fuse and leads of block {slug} are not worked out: no toy is fed from it.",
                f"a toy with feed: {{from: {slug}}}",
                f"Write from: {slug} under the feed of its toys, or take the block away.",
                ("blocks", slug),
            )


def block_findings(build: Build, block: SizedBlock, cabling: Cabling) -> Iterator[Finding]:
    """The checks of any feed, on the feed of a block."""
    path, overload = block.draft.path, build.supplies[block.supply_slug].overload
    yield from fuse_findings(block)
    yield from wire_checks.wire_findings(block, block.choice, cabling, block.loop, path)
    yield from drop_finding(block, cabling)
    yield from wire_checks.fault_findings(block, block.fault, overload, block.loop, cabling, path)


def fuse_findings(block: SizedBlock) -> Iterator[Finding]:
    """Is there a fuse at the source, large enough for all toys together, and larger than every fuse behind it?"""
    fuse, load, here = block.fuse, block.load, (*block.draft.path, "feed", "fuse")
    if fuse.rating_A is None:
        yield missing(block, here)
        return
    worked = {one.id: one.result for one in block.draft.worked}
    by_load = max(float(worked["fuse.margin"]), float(worked["fuse.continuous"]))
    fit = "Take a holder whose series goes that high, or feed some of its toys straight from the supply."
    rating = (*here, "rating")
    if not reaches(fuse.rating_A, by_load):
        must = not reaches(fuse.rating_A, float(worked["fuse.continuous"]))
        yield Finding(
            "fuse-below-load",
            Level.MUST if must else Level.SHOULD,
            f"{fuse.id} is {show.amps(fuse.rating_A)}; all toys on {block.name} together draw up to "
            f"{show.amps(load.design_current_A)} and need {show.amps(by_load)}: "
            + (
                "it would open in normal use." if must else "it has less than the usual margin and may open at a start."
            ),
            f"{show.amps(by_load)} or more",
            fit,
            rating,
        )
    rated = {one.fuse.id: one.fuse.rating_A for one in block.draft.toys if one.fuse.rating_A is not None}
    first = max(rated, key=lambda name: rated[name], default="")
    if first and reaches(rated[first], fuse.rating_A):
        yield Finding(
            "fuse-below-load",
            Level.SHOULD,
            f"{fuse.id} is {show.amps(fuse.rating_A)} and stands before {first}, {show.amps(rated[first])}: it may "
            f"open first, and then every toy on {block.name} stops.",
            f"more than {show.amps(rated[first])}",
            fit,
            rating,
        )
    yield from fuse_checks.fuse_in_series(block, here)
    yield from fuse_checks.fuse_voltage(block, here)


def missing(block: SizedBlock, here: tuple[str, ...]) -> Finding:
    """No fuse at the source of its lead; or all toys together are beyond the holder's series."""
    needed, fields = show.amps(block.fuse.needed_A), block.draft.fields.feed
    if isinstance(fields.fuse, str):
        return Finding(
            "fuse-missing",
            Level.MUST,
            f"The lead to {block.name} has no fuse at its source: a short circuit heats it until it burns.",
            f"a fuse of {needed} or more at the supply's plus",
            "Feed some of its toys from another block: no fuse of the usual holder is large enough for all.",
            here,
        )
    return Finding(
        "fuse-missing",
        Level.MUST,
        f"All toys on {block.name} need a fuse of {needed} or the next larger one, and the series of the holder "
        f"{fields.fuse.holder} does not go that high.",
        "a holder whose series has such a rating",
        "Take another holder, or feed some of its toys from another block or straight from the supply.",
        (*here, "holder"),
    )


def drop_finding(block: SizedBlock, cabling: Cabling) -> Iterator[Finding]:
    """Does it leave anything of the drop limit to its toys, all of them on?"""
    limit_V, plan = block.loop.limit_V(), block.wire
    if reaches(limit_V, plan.drop_V):
        return
    elsewhere = (
        ""
        if block.choice.drop_counts
        else " More than half of that is lost in its fuse and contacts, where no thicker wire helps."
    )
    yield Finding(
        "drop-too-high",
        Level.SHOULD,
        f"With all its toys on, {show.volts(plan.drop_V)} ({plan.drop_percent:.1f} %) is lost on the way to "
        f"{block.name}; that is more than the {show.volts(limit_V)} of the whole way to a toy." + elsewhere,
        f"at most {show.volts(limit_V)}",
        f"{shorter_words(block, cabling) or 'Take'} a blade fuse, fewer toys on it or a higher voltage.",
        (*block.draft.path, "feed", "wire" if plan.stated else "run"),
    )


def shorter_words(block: SizedBlock, cabling: Cabling) -> str:
    """How short its lead has to be with the thickest wire, before what else helps; "" where no lead is short enough."""
    run_m, thickest = wire_checks.longest_run_m(block, block.loop, cabling), cabling.sizes()[-1]
    if run_m is None or not block.choice.drop_counts:
        return ""
    lead = f"Shorten its lead to {show.metres(run_m, block.units)} or less"
    return f"{lead}{f', of {thickest.shown}' if block.wire.size != thickest else ''}. Or take"

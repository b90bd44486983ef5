"""A build whose wrong fuses and wires are left open, step by step, until no fuse or wire of another size mends more.

What is stated and right stays as it is. The plan of that build has one fuse and one wire for every feed; its mends name
those.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import FuseFields, Section
from guide_gen.model.finding import Finding
from guide_gen.model.plan import FusePlan
from guide_gen.planning import faults, fuses
from guide_gen.planning.checks import Fed, Path
from guide_gen.planning.feed_checks import feed_findings
from guide_gen.planning.fuse_checks import HIGHER_BLADE_V
from guide_gen.planning.loops import Loop
from guide_gen.planning.sizing import Sizing, sizing
from guide_gen.planning.wires import Choice, SharedLead
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.quantity import Quantity, WireSize

USUAL = "blade"  # the holder with the largest fuses of all, taken where none is described
WRONG_FUSE = {"fuse-missing", "fuse-below-load", "fuse-not-in-series", "fuse-in-return-only", "fuse-misses-the-motor"}
WRONG_WIRE = {"fuse-above-wire", "wire-too-thin", "drop-too-high"}
CODES = WRONG_FUSE | WRONG_WIRE | {"fuse-above-port", "fuse-cannot-open"}

Changes = dict[Path, Any]


@dataclass(frozen=True)
class Feed:
    """The feed of a toy or a block. fuse, wire: as described. port_A: what the port may switch that carries its load.

    behind, beside_A: as `fuses.needed` asks for them.
    """

    path: Path
    fed: Fed
    fuse: FuseFields | str
    wire: WireSize | None
    choice: Choice
    fault: faults.Fault | None
    loop: Loop
    port_A: float | None = None
    behind: Sequence[FusePlan] = ()
    beside_A: float = 0.0


def feeds(whole: Sizing) -> Iterator[Feed]:
    """Every feed of a build: of its toys, then of its blocks."""
    for one in whole.toys.values():
        draft, port = one.draft, one.sized.port
        feed, port_A = draft.toy.feed, port.rated_A if port and draft.control.port_carries_load else None
        yield Feed(
            draft.path, one.sized, feed.fuse, feed.wire, one.choice, one.fault, one.loop, port_A, (), draft.beside_A
        )
    for row in whole.shared.blocks.values():
        fields, toys = row.draft.fields.feed, row.draft.toys
        behind = [fuse for one in toys for fuse in one.source_fuses]
        yield Feed(row.draft.path, row, fields.fuse, fields.wire, row.choice, row.fault, row.loop, None, behind)


def element(finding: Finding) -> Path:
    """The feed or shared lead that a finding is about, whose fuse or wire may mend it; () for any other finding."""
    path = finding.path
    if finding.code not in CODES:
        return ()
    if path[0] in ("toys", "blocks"):
        return path[:2]
    return path[:3] if path[2:3] in (("fuse_block",), ("return",)) else ()


def about(findings: Iterable[Finding], path: Path) -> set[str]:
    """The codes of what is found about one feed or lead."""
    return {finding.code for finding in findings if element(finding) == path}


def freed(whole: Sizing, found: Sequence[Finding]) -> tuple[Sizing, Sequence[Finding]]:
    """The build with nothing stated that a fuse or wire of another size mends; and what is still found there."""
    while changes := next(filter(None, (step(whole, found) for step in STEPS)), None):
        build = whole.build
        for path, value in changes.items():
            build = written(build, path, value)
        whole = sizing(build)
        found = feed_findings(whole)
    return whole, found


def written(section: Any, path: Path, value: Any) -> Any:
    """A part of a description with another value under a key; None leaves it open."""
    if not path:
        return value
    first, *rest = path
    if not isinstance(section, Section):
        return {**section, first: written(section[first], tuple(rest), value)}
    name = next(name for name, field in type(section).model_fields.items() if first in (name, field.alias))
    return section.model_copy(update={name: written(getattr(section, name), tuple(rest), value)})


# ---- the steps, in their order: what comes before decides what comes behind ------------------------------------------


def fuses_of_toys(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """Fuses of toys that are wrong by themselves, or larger than need be and too large for wire or port."""
    return fuse_changes(whole, found, "toys")


def fuses_of_blocks(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """The same of blocks, whose fuses depend on those behind them."""
    return fuse_changes(whole, found, "blocks")


def shared_leads(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """Leads before the fuses and 0 V leads of boards, where some size carries what can flow."""
    changes: Changes = {}
    for path, leads in leads_of(whole).items():
        if about(found, path) and any(lead.stated and mended_by_size(lead) for lead in leads):
            changes[*path, "wire"] = None
    return changes


def wires_of_blocks(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """Leads of blocks that a thicker wire mends."""
    return wire_changes(whole, found, "blocks")


def wires_of_toys(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """The same of toys, whose drop and short circuit depend on the leads before them."""
    return wire_changes(whole, found, "toys")


def fuses_that_cannot_open(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """Fuses larger than need be that too little flows to open."""
    stuck = [feed for feed in feeds(whole) if "fuse-cannot-open" in about(found, feed.path)]
    return {(*feed.path, "feed", "fuse"): open_rating(feed.fuse) for feed in stuck if larger(feed)}


def wires_that_let_fuses_open(whole: Sizing, found: Sequence[Finding]) -> Changes:
    """Wire so thick that a short circuit at its end opens the fuse."""
    stuck = [feed for feed in feeds(whole) if "fuse-cannot-open" in about(found, feed.path)]
    return {
        (*feed.path, "feed", "wire"): feed.fault.remedy.size
        for feed in stuck
        if feed.fault and feed.fault.remedy and feed.fault.remedy.size
    }


STEPS = (
    fuses_of_toys,
    fuses_of_blocks,
    shared_leads,
    wires_of_blocks,
    wires_of_toys,
    fuses_that_cannot_open,
    wires_that_let_fuses_open,
)


# ---- one feed, one lead ----------------------------------------------------------------------------------------------


def leads_of(whole: Sizing) -> dict[Path, list[SharedLead]]:
    """The shared leads by the keys under which their size is written: a board's to all supplies are of one size."""
    found: dict[Path, list[SharedLead]] = {
        ("supplies", slug, "fuse_block"): [lead] for slug, lead in whole.shared.leads.items()
    }
    for (slug, _), lead in whole.shared.returns.items():
        found.setdefault(("boards", slug, "return"), []).append(lead)
    return found


def mended_by_size(lead: SharedLead) -> bool:
    """Whether a shared lead is too thin, and some size is not."""
    return lead.smallest is not None or (not lead.fits and lead.least is not None)


def fuse_changes(whole: Sizing, found: Sequence[Finding], room: str) -> Changes:
    """What to write for the fuses of all toys or of all blocks."""
    pairs = [(feed, fuse_of(whole, feed, about(found, feed.path))) for feed in feeds(whole) if feed.path[0] == room]
    return {(*feed.path, "feed", "fuse"): fuse for feed, fuse in pairs if fuse is not None}


def fuse_of(whole: Sizing, feed: Feed, codes: set[str]) -> FuseFields | None:
    """The fuse of a feed as it should be described; None where that changes nothing."""
    wrong, fuse = bool(codes & WRONG_FUSE), feed.fed.fuse
    if isinstance(feed.fuse, str):
        return usual(feed) if fits_usual(whole, feed) else None
    if wrong and fuse.smallest_A is None:
        voltage = reaches(HIGHER_BLADE_V, feed.fed.supply_high_V)
        return usual(feed) if feed.fuse.holder != USUAL and voltage and fits_usual(whole, feed) else None
    if feed.fuse.rating is None or not (wrong or too_large(whole, feed, codes)):
        return None
    return open_rating(feed.fuse)


def usual(feed: Feed) -> FuseFields:
    """A fuse of the usual holder; above its usual voltage of the kind that is made for more."""
    usual_V, high_V = tables.fuse_series(USUAL).dc_voltage_V or 0.0, feed.fed.supply_high_V
    if reaches(usual_V, high_V) or not reaches(HIGHER_BLADE_V, high_V):
        return FuseFields(holder=USUAL)
    made_for = Quantity(HIGHER_BLADE_V, HIGHER_BLADE_V, show.volts(HIGHER_BLADE_V), "V")
    return FuseFields(holder=USUAL).model_copy(update={"dc_voltage": made_for})


def fits_usual(whole: Sizing, feed: Feed) -> bool:
    """Whether the usual holder has a fuse that is large enough."""
    series = tables.fuse_series(USUAL)
    asked = fuses.needed(feed.fed.load, whole.build.wiring, series, behind=feed.behind, beside_A=feed.beside_A)
    return asked.smallest_A is not None


def open_rating(fuse: FuseFields | str) -> FuseFields:
    """The same fuse, its rating to be chosen."""
    assert isinstance(fuse, FuseFields)
    return fuse.model_copy(update={"rating": None})


def larger(feed: Feed) -> bool:
    """Whether a fuse is stated larger than the load asks for."""
    fuse = feed.fed.fuse
    return fuse.stated and fuse.smallest_A is not None and (fuse.rating_A or 0.0) > fuse.smallest_A * (1 + 1e-9)


def too_large(whole: Sizing, feed: Feed, codes: set[str]) -> bool:
    """Whether a fuse is larger than the load asks for, and a smaller one would be right for its wire or its port."""
    if not larger(feed):
        return False
    by_port = "fuse-above-port" in codes and reaches(feed.port_A or 0.0, feed.fed.fuse.smallest_A or 0.0)
    burns = not faults.stands(whole.cabling, feed.fed.wire.size, feed.fed.fuse, feed.loop)
    return by_port or burns or "fuse-above-wire" in codes


def wire_changes(whole: Sizing, found: Sequence[Finding], room: str) -> Changes:
    """The wires of all toys or of all blocks that are stated and that a thicker one mends."""
    thin = [feed for feed in feeds(whole) if feed.path[0] == room and about(found, feed.path) & WRONG_WIRE]
    return {(*feed.path, "feed", "wire"): None for feed in thin if feed.wire and mended_by_wire(feed)}


def mended_by_wire(feed: Feed) -> bool:
    """Whether some rule asks for a thicker wire than is stated, and some size meets it."""
    stated_mm2 = feed.fed.wire.area_mm2
    return any(size is not None and tables.area_mm2(size) > stated_mm2 for size in feed.choice.least.values())

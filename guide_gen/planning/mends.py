"""The mends of fuses, wires and shared leads: one fuse and one wire for a feed, whichever of its findings is read."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from guide_gen.description.build import Build
from guide_gen.model.finding import Finding, Level
from guide_gen.planning.checks import Path
from guide_gen.planning.drafts import board_returns, returns_to, supply_of
from guide_gen.planning.feed_checks import feed_findings
from guide_gen.planning.freed import WRONG_FUSE, WRONG_WIRE, Feed, about, element, feeds, freed, larger, leads_of
from guide_gen.planning.sizing import LONGEST_BARE_M, Sizing
from guide_gen.planning.wire_checks import bare_words, shorter_run
from guide_gen.published import tables
from guide_gen.values import show

FUSE, WIRE = "fuse", "wire"
ORDERS = {
    "fuse-in-return-only": "Keep the fuse in the return if you like, and add one of {} at the source",
    "fuse-misses-the-motor": "Give the feed a fuse of {}: leave out fuse: none",
    "fuse-not-in-series": "Read the number printed on the fuse again; if it is right, fit {}, or leave rating out: "
    "then it is chosen",
}
"""How a fuse is ordered where the finding itself asks for other words."""


@dataclass(frozen=True)
class Change:
    """A fuse or a wire to change. size: as shown. do: as an order, without its stop.

    noun: named beside others of the same feed; far: beside those of another.
    """

    what: str
    size: str
    do: str
    noun: str
    far: str


@dataclass(frozen=True)
class Mended:
    """A build with what is found there; with its wrong fuses and wires left open; and what is still found then."""

    before: Sizing
    found: Sequence[Finding]
    after: Sizing
    left: Sequence[Finding]
    changes: Mapping[Path, Sequence[Change]]


def findings(whole: Sizing) -> list[Finding]:
    """All that is found about fuses, wires and shared leads, each with what mends it together with all others."""
    found = feed_findings(whole)
    if not any(map(element, found)):
        return found
    after, left = freed(whole, found)
    mended = Mended(whole, found, after, left, changes(whole, after))
    return [replace(one, mend=mend_of(mended, one)) if element(one) else one for one in found]


# ---- what changes ----------------------------------------------------------------------------------------------------


def changes(before: Sizing, after: Sizing) -> dict[Path, list[Change]]:
    """What differs between two plans of a build, by feed and shared lead; only what its description states."""
    pairs = zip(feeds(before), feeds(after), strict=True)
    found = {was.path: [*fuse_change(was, now), *wire_change(was, now)] for was, now in pairs}
    for path, leads in leads_of(before).items():
        now = max(leads_of(after)[path], key=lambda lead: tables.area_mm2(lead.size))
        if any(lead.stated and tables.area_mm2(lead.size) < tables.area_mm2(now.size) for lead in leads):
            thicker, shared = f"{now.size.shown} or thicker", before.shared
            noun = (
                f"a lead of {thicker} from {shared.supply_ids[path[1]]} to the fuses"
                if path[0] == "supplies"
                else f"a 0 V lead of {thicker} from {shared.board_ids[path[1]]}"
            )
            found[path] = [Change(WIRE, now.size.shown, f"Take {thicker}", noun, noun)]
    return {path: several for path, several in found.items() if several}


def fuse_change(was: Feed, now: Feed) -> Iterator[Change]:
    """Another rating, another holder, or a fuse where there was none."""
    fuse, fields = now.fed.fuse, now.fuse
    if was.fuse == fields or isinstance(fields, str) or fuse.rating_A is None:
        return
    size = show.amps(fuse.rating_A)
    stated_V = fields.dc_voltage if fields.dc_voltage != getattr(was.fuse, "dc_voltage", None) else None
    made = f" made for {show.volts(stated_V.low)} DC" if stated_V else ""
    do, noun = f"Fit {size}", f"{fuse.id} of {size}{made}"
    if isinstance(was.fuse, str):
        key = f"{{holder: {fields.holder}{f', dc_voltage: {stated_V.text}' if stated_V else ''}}}"
        do = f"{'Write' if made else 'Leave the key fuse out, or write'} fuse: {key}: {size}{made} is chosen"
    elif was.fuse.holder != fields.holder:
        do = f"Take a holder for {fields.holder} fuses and fit {size}{made}"
        noun = f"{noun} in a holder for {fields.holder} fuses"
    yield Change(FUSE, f"{size}{made}", do, noun, noun)


def wire_change(was: Feed, now: Feed) -> Iterator[Change]:
    """A thicker wire than is stated; or one that has to be stated, since the plan would choose a thinner one."""
    size = now.fed.wire.size
    stays = was.wire is not None and tables.area_mm2(size) <= was.fed.wire.area_mm2
    if was.wire == now.wire or stays:
        return
    noun = f"{'wire' if was.fed.slug else 'leads'} of {size.shown} or thicker"
    yield Change(WIRE, size.shown, f"Take {size.shown} or thicker", noun, f"{noun} for {was.fed.name}")


# ---- in words --------------------------------------------------------------------------------------------------------


def mend_of(mended: Mended, finding: Finding) -> str:
    """What mends one finding; where no fuse and no wire does, what else helps beside those that go with it."""
    path = element(finding)
    first = FUSE if finding.code in WRONG_FUSE | {"fuse-above-port"} else WIRE
    own = sorted(mended.changes.get(path, ()), key=lambda change: change.what != first)
    beside = caused(mended, path, own)
    if (twin := still(mended, finding)) is not None:
        return with_changes([*(one.noun for one in own), *(one.far for one in beside)], twin.mend)
    own = own or near(mended, path)
    if not own:
        return finding.mend
    nouns = [*(one.noun for one in own[1:]), *(one.far for one in beside)]
    worded = ORDERS.get(finding.code) if own[0].what == FUSE else None
    order = worded.format(own[0].size) if worded else own[0].do
    ways = [order + (f", together with {' and '.join(nouns)}" if nouns else ""), *other_ways(mended, finding)]
    rest = [f"{one.mend[0].lower()}{one.mend[1:]}" for one in new(mended, path)]
    return " Then ".join([f"{'; or '.join(ways)}.", *rest])


def with_changes(nouns: Sequence[str], mend: str) -> str:
    """Something else that helps, with what changes anyway."""
    return f"With {' and '.join(nouns)}, {mend[0].lower()}{mend[1:]}" if nouns else mend


def identity(finding: Finding) -> tuple[str, Path, str]:
    """What makes two findings of two plans the same."""
    return finding.code, element(finding) or finding.path[:2], finding.toy


def still(mended: Mended, finding: Finding) -> Finding | None:
    """The same finding where it stands in the mended build too; for a wrong fuse any other that says it is wrong."""
    same = {finding.code} | (WRONG_FUSE if finding.code in WRONG_FUSE else set())
    path = element(finding)
    return next((one for one in mended.left if element(one) == path and one.code in same), None)


def caused(mended: Mended, path: Path, own: Sequence[Change]) -> list[Change]:
    """What is right now, and is so no more once this fuse or shared lead has changed."""
    if path[0] == "toys" and not any(change.what == FUSE for change in own):
        return []
    quiet = [other for other in mended.changes if not about(mended.found, other)]
    return [one for other in quiet if related(mended.before.build, other, path) for one in mended.changes[other]]


def near(mended: Mended, path: Path) -> list[Change]:
    """Changes of what lies before a feed, or on the same supply as a shared lead, that mend it as it is."""
    build = mended.before.build
    others = [other for other in mended.changes if related(build, other, path) and {other[0], path[0]} != {"toys"}]
    several = [one for other in others for one in mended.changes[other]]
    return [replace(one, do=f"{'Fit' if one.what == FUSE else 'Take'} {one.far}", noun=one.far) for one in several]


def new(mended: Mended, path: Path) -> list[Finding]:
    """What must or should be mended once this is, and no fuse and no wire mends it."""
    told, build = {identity(finding) for finding in mended.found}, mended.before.build
    fresh = [one for one in mended.left if one.level is not Level.NOTE and identity(one) not in told]
    places = [(one, element(one) or one.path[:2]) for one in fresh]
    return [one for one, at in places if at == path or (at[0] != "toys" and related(build, at, path))]


def related(build: Build, one: Path, other: Path) -> bool:
    """Whether two feeds or shared leads have a supply in common."""
    return one == other or bool(supplies_of(build, one) & supplies_of(build, other))


def supplies_of(build: Build, path: Path) -> set[str]:
    """The supplies whose current flows in a feed or shared lead."""
    room, slug = path[:2]
    if room == "toys":
        toy, supply = build.toys[slug], supply_of(build, build.toys[slug])
        board = getattr(toy.control, "board", None)
        return {supply, returns_to(build, board, supply)} if board else {supply}
    if room == "blocks":
        return {supply_of(build, toy) for toy in build.toys.values() if toy.feed.block == slug}
    return {slug} if room == "supplies" else {supply for board, supply in board_returns(build) if board == slug}


# ---- other ways, each enough alone -----------------------------------------------------------------------------------


def other_ways(mended: Mended, finding: Finding) -> Iterable[str]:
    """A shorter lead or run, a stronger port, a thicker wire in place of a smaller fuse: what is true of each alone."""
    path = element(finding)
    if path[0] == "supplies":
        was, now = leads_of(mended.before)[path][0], leads_of(mended.after)[path][0]
        long = was.length_m > LONGEST_BARE_M * (1 + 1e-9)
        if long and now.short is not None and tables.area_mm2(now.short) <= tables.area_mm2(was.size):
            yield f"keep it within {bare_words(LONGEST_BARE_M)}"
    feed = next((feed for feed in feeds(mended.before) if feed.path == path), None)
    if feed is None:
        return
    codes = about(mended.found, path)
    if codes == {"fuse-above-port"}:
        yield f"{finding.mend[0].lower()}{finding.mend[1:-1]}"
    if finding.code not in WRONG_FUSE | {"fuse-above-port"}:
        yield from thicker_wire(mended, feed, codes)
    if codes == {"fuse-cannot-open"} and feed.fault and feed.fault.remedy:
        yield from filter(None, [shorter_run(feed.fed.wire.run_m, feed.fault.remedy, feed.fed.units)])


def thicker_wire(mended: Mended, feed: Feed, codes: set[str]) -> Iterable[str]:
    """The stated fuse kept, where it is larger than the load asks for and nothing else is wrong with it."""
    lowered = any(change.what == FUSE for change in mended.changes.get(feed.path, ()))
    alone = not any(other != feed.path and related(mended.before.build, other, feed.path) for other in mended.changes)
    if not (lowered and alone and larger(feed) and codes <= WRONG_WIRE | {"fuse-cannot-open"}):
        return
    sizes = list(feed.choice.least.values())
    if "fuse-cannot-open" in codes:
        sizes.append(feed.fault.remedy.size if feed.fault and feed.fault.remedy else None)
    known = [size for size in sizes if size is not None]
    if len(known) == len(sizes):
        size = max(known, key=tables.area_mm2)
        fuse = feed.fed.fuse
        yield f"keep {fuse.id} of {show.amps(fuse.rating_A or 0.0)} and take {size.shown} or thicker"

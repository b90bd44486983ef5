"""What is found about fuses, wires and shared leads: of every toy, of every block, and of the leads before them."""

from collections.abc import Iterator
from dataclasses import replace

from guide_gen.model.finding import Finding
from guide_gen.planning import blocks, fuse_checks, wire_checks
from guide_gen.planning.drafts import Draft, home_of
from guide_gen.planning.loops import Loop
from guide_gen.planning.sizing import LONGEST_BARE_M, FedToy, Sizing
from guide_gen.published.tables import rule


def feed_findings(whole: Sizing) -> list[Finding]:
    """All of them; each `mend` says what helps where no fuse and no wire of another size does."""
    found = [finding for toy in whole.toys.values() for finding in toy_findings(whole, toy)]
    found += blocks.findings(whole.build, whole.shared.blocks, whole.cabling)
    return [*found, *lead_findings(whole)]


def toy_findings(whole: Sizing, fed: FedToy) -> Iterator[Finding]:
    """Of one toy's own feed."""
    build, one, sized, loop = whole.build, fed.draft, fed.sized, fed.loop
    board = build.boards[one.board_slug] if one.board_slug else None
    continuous_A = next(float(value.result) for value in one.worked if value.id == "fuse.continuous")
    yield from fuse_checks.fuse_findings(one.toy, sized, continuous_A, board, one.path)
    yield from fuse_checks.pulse_findings(sized, one.path)
    yield from wire_checks.wire_findings(sized, fed.choice, whole.cabling, loop, one.path)
    yield from wire_checks.drop_findings(sized, fed.choice, loop, one.path, biggest_other(one, loop), whole.cabling)
    overload = build.supplies[one.supply_slug].overload
    found = wire_checks.fault_findings(sized, fed.fault, overload, loop, whole.cabling, one.path)
    yield from found or coil_findings(whole, fed, overload)


def coil_findings(whole: Sizing, fed: FedToy, overload: str) -> list[Finding]:
    """Of the leads of a relay's coil: told only where the feed's own fuse opens, since one mend helps both."""
    signal = fed.signal
    if signal is None or fed.sized.coil is None:
        return []
    path = fed.draft.path
    found = wire_checks.fault_findings(signal, signal.fault, overload, signal.loop, whole.cabling, path)
    return [replace(one, path=(*path, "feed", "run")) for one in found]


def biggest_other(one: Draft, loop: Loop) -> str:
    """What loses most besides the wire."""
    parts = {
        "the fuse": one.fuse.resistance_ohm,
        "the fuse in the switched return": loop.return_ohm,
        "the contacts": loop.contacts * rule("contact resistance").value,
        "the switch": loop.switch_ohm,
    }
    if loop.row:
        parts[f"the fuse of {loop.row}"] = loop.row_ohm
    return max(parts, key=lambda name: parts[name])


def lead_findings(whole: Sizing) -> Iterator[Finding]:
    """Of the leads before the fuses, and of the boards' 0 V leads."""
    build, shared = whole.build, whole.shared
    for slug, lead in shared.leads.items():
        what = f"lead of {shared.supply_ids[slug]} before the fuses"
        yield from wire_checks.lead_finding(lead, what, ("supplies", slug, "fuse_block"), LONGEST_BARE_M)
    for (slug, supply_slug), lead in shared.returns.items():
        home = home_of(build, build.boards[slug]) == supply_slug
        to = "" if home else f" to {shared.supply_ids[supply_slug]}"
        what = f"0 V lead of {shared.board_ids[slug]}{to}"
        yield from wire_checks.lead_finding(lead, what, ("boards", slug, "return"), None)

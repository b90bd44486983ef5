"""A circuit, drawn: data in, SVG out, in a wide and a narrow lay-out.

Conventions (IEC 60617 symbols, IEC 61082-1 lay-out, both from memory): the supply's plus at the top and 0 V at the
bottom, the fuse nearest to the supply, the suppressor across its load with the band to plus, boards dashed, dots where
three lines meet, rings at terminals.
"""

from guide_gen.drawings.chain import NARROW, WIDE, chain_narrow, chain_wide
from guide_gen.drawings.controlled import WIDE as CONTROLLED_WIDE
from guide_gen.drawings.controlled import controlled_narrow, controlled_wide
from guide_gen.drawings.plot import Plot
from guide_gen.drawings.relayed import WIDE as RELAYED_WIDE
from guide_gen.drawings.relayed import relayed_narrow, relayed_wide
from guide_gen.drawings.sheet import Sheet
from guide_gen.model.circuit import Circuit, PartKind


def circuit_svg(circuit: Circuit, *, name: str, title: str, desc: str, narrow: bool, units: str = "metric") -> str:
    """The drawing of a circuit as an SVG that needs nothing else: text as text, lines in the page's own colour.

    name: begins its ids. title, desc: short and long text for those who hear the page. narrow: for a phone.
    units: ``metric`` or ``US``, for lengths. ValueError: a circuit that no lay-out knows.
    """
    return draw(circuit, narrow=narrow, units=units).svg(name, title, desc)


def draw(circuit: Circuit, *, narrow: bool, units: str = "metric") -> Sheet:
    """The sheet with everything on it. ValueError: a circuit that no lay-out knows, or knows only in part."""
    if circuit.of(PartKind.RELAY):
        width, lay_out = (NARROW, relayed_narrow) if narrow else (RELAYED_WIDE, relayed_wide)
    elif circuit.of(PartKind.CONTROLLER):
        width, lay_out = (NARROW, controlled_narrow) if narrow else (CONTROLLED_WIDE, controlled_wide)
    else:
        width, lay_out = (NARROW, chain_narrow) if narrow else (WIDE, chain_wide)
    plot = Plot(circuit, Sheet(width, units))
    lay_out(plot)
    _check(circuit, plot.sheet)
    return plot.sheet


def _check(circuit: Circuit, sheet: Sheet) -> None:
    """A drawing that leaves something out, or joins what is not joined, must not reach a reader."""
    drawn = {terminal for net in sheet.nets() for terminal in net}
    undrawn = [[terminal] for net in circuit.nodes() for terminal in net if len(net) == 1 and terminal not in drawn]
    missing = {part.id for part in circuit.parts} - set(sheet.parts)
    if missing or sorted([*sheet.nets(), *undrawn]) != circuit.nodes():
        raise ValueError(f"no lay-out draws this circuit truthfully; left out: {sorted(missing) or 'some joints'}")

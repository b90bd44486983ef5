"""What every chart over a setting shares: its marks, the frame of a panel, what ranges allow, and the legend."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from guide_gen.drawings.axes import HAIR, PAPER, THIN, Chart, Scale, pieces
from guide_gen.drawings.lettering import width
from guide_gen.values import show

WIDE, NARROW = 720, 350
BEGIN, LEFT, LIMIT = "2 3", "", "9 3 2 3"
"""Dashes of the three marks, the same in every panel."""


class Mark(NamedTuple):
    """A setting to look up. line: the width of its line."""

    setting: float
    dash: str
    line: float
    words: str


def marks(begin: float | None, as_left: float | None, limit: float | None, shown: Callable[[float], str]) -> list[Mark]:
    """The marks of a plan, those that it has. shown: a setting in words."""
    found = []
    if begin is not None:
        found.append(Mark(begin, BEGIN, 1.6, f"begin at {shown(begin)}"))
    if as_left is not None:
        found.append(Mark(as_left, LEFT, 2.0, f"as left {shown(as_left)}"))
    if limit is not None:
        found.append(Mark(limit, LIMIT, 1.6, f"limit in the port {shown(limit)}"))
    return found


def frame(chart: Chart, name: str, x: Scale, y: Scale, marked: Sequence[Mark]) -> None:
    """A panel's axes with their ticks, the marks through it, and its name above it."""
    top, bottom = y.end, y.start
    chart.line([(x.start, top), (x.start, bottom), (x.end, bottom)], THIN, covered=True)
    for tick in y.ticks(5):
        chart.line([(x.start - 5, y.at(tick)), (x.start, y.at(tick))], THIN, covered=True)
        if tick:
            chart.line([(x.start, y.at(tick)), (x.end, y.at(tick))], HAIR, faint=True)
        chart.text(show.figure(tick), x.start - 8, y.at(tick) + 4, "end")
    for tick in x.ticks(10):
        chart.line([(x.at(tick), bottom), (x.at(tick), bottom + 5)], THIN, covered=True)
    for mark in marked:
        if x.holds(mark.setting):
            chart.line([(x.at(mark.setting), top - 6), (x.at(mark.setting), bottom)], mark.line, mark.dash)
    chart.text(name, x.start + 6, top - 10, bold=True, halo=True)


def room(x: Scale, y: Scale) -> tuple[float, float, float, float]:
    """Where labels of a panel may stand."""
    return x.start + 2, y.end - 16, x.end - 2, y.start - 2


def allowed(chart: Chart, key: str, ends: Sequence[tuple[float, float, float]], x: Scale, y: Scale) -> None:
    """What the ranges of the inputs allow, hatched between its two edges. ends: setting, low and high."""
    if len(ends) < 2:
        return
    lower = [(setting, low) for setting, low, _ in ends]
    upper = [(setting, high) for setting, _, high in ends]
    outline = [(x.at(setting), y.at(value)) for setting, value in (*upper, *reversed(lower))]
    chart.area(outline, PAPER)
    chart.area(outline, chart.hatch(f"range-{key}", 3.5, 90, 0.9, 0.5))
    for edge in (upper, lower):
        for piece in pieces(edge, x, y):
            chart.line(piece, 0.9, covered=True)


def as_left(chart: Chart, setting: float, value: float, unit: str, x: Scale, y: Scale) -> None:
    """A ring where it is now, with its value."""
    at, level = x.at(setting), y.at(value)
    chart.ring(at, level)
    spots: list[tuple[float, float, str]] = [
        (at + side * gap, level + drop, anchor)
        for gap in (11, 18, 30)
        for drop in (-12, 18, 4, -26, 32)
        for side, anchor in ((1, "start"), (-1, "end"))
    ]
    words = show.figure(value)
    chart.label([show.with_unit(words, unit) if unit else words], spots, room(x, y))


def legend(chart: Chart, marked: Sequence[Mark], x: Scale, top: float, narrow: bool) -> None:
    """The marks named under the chart, each with the line that it has in the panels."""
    at, row = x.start, top
    for place, mark in enumerate(marked):
        if narrow:
            at, row = x.start, top + 18 * place
        bold = not mark.dash
        chart.line([(at, row), (at + 26, row)], mark.line, mark.dash)
        chart.text(mark.words, at + 33, row + 4, bold=bold)
        at += 33 + width(mark.words, 12, bold=bold) + 24

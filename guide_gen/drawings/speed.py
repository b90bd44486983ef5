"""The speed chart: what a gear motor or a blower does at each setting, with begin, as-left and limit marked."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from guide_gen.drawings import settings
from guide_gen.drawings.axes import INK, THIN, Chart, Scale, pieces, whole
from guide_gen.drawings.lettering import width
from guide_gen.drawings.settings import NARROW, WIDE, Mark
from guide_gen.model.plan import Ends, SpeedPlan, SpeedPoint
from guide_gen.values import show

_STRIP, _FIRST, _SECOND = (28.0, 50.0), (84.0, 224.0), (264.0, 404.0)
_AIR_POWER = "power of the air"


@dataclass(frozen=True)
class Panel:
    """One quantity over the settings. value: its range and the likeliest; also: a second line, with its name."""

    name: str
    unit: str
    value: Callable[[SpeedPoint], Ends | None]
    also: Callable[[SpeedPoint], float | None] = lambda one: None
    also_name: str = ""


def speed_svg(plan: SpeedPlan, *, name: str, title: str, narrow: bool) -> str:
    """The speed chart as an SVG. name: begins its ids."""
    return draw_speed(plan, name=name, narrow=narrow).svg(title, " ".join([plan.short, *plan.says]))


def draw_speed(plan: SpeedPlan, *, name: str, narrow: bool) -> Chart:
    """Two panels over one scale of settings: how fast it turns, and what that moves or pushes with."""
    marks = settings.marks(plan.begin, plan.as_left, plan.limit, show.percent)
    chart = Chart(name, NARROW if narrow else WIDE, 468 + 18 * len(marks) if narrow else 480)
    panels = panels_of(plan)
    numbers = max(width(show.figure(_highest(plan, panel)), 12) for panel in panels)
    x = Scale(0.0, 1.0, max(44.0 if narrow else 52.0, numbers + 12), chart.width - 12.0)
    _bands(chart, plan, x)
    for panel, (top, bottom) in zip(panels, (_FIRST, _SECOND), strict=True):
        _panel(chart, plan, panel, x, top, bottom, marks)
    for value in x.ticks(5 if narrow else 10):
        chart.text(show.figure(100 * value), x.at(value), _SECOND[1] + 18, "middle")
    chart.text(f"{plan.axis}, %", x.end, _SECOND[1] + 36, "end", bold=True)
    settings.legend(chart, marks, x, _SECOND[1] + (56 if narrow else 64), narrow)
    return chart


def panels_of(plan: SpeedPlan) -> tuple[Panel, Panel]:
    """Speed, then air or the strongest thing known of it when it is held fast."""
    turning = Panel(f"{plan.turns}, turns a minute", "", lambda one: _times(one.turning_Hz, 60.0))
    full = plan.full
    if full is not None and full.air is not None:
        flow = Panel(
            "flow, % of full",
            "%",
            lambda one: _times(one.air.flow, 100.0) if one.air else None,
            lambda one: 100 * one.air.power[1] if one.air else None,
            _AIR_POWER,
        )
        return turning, flow
    if full is not None and full.force_N is not None:
        return turning, Panel("held fast, at the arm, N", "N", lambda one: one.force_N)
    if full is not None and full.torque_Nm is not None:
        return turning, Panel("held fast, N m", "N m", lambda one: one.torque_Nm)
    return turning, Panel("held fast, A", "A", lambda one: one.stall_A)


def _times(ends: Ends | None, factor: float) -> Ends | None:
    return None if ends is None else (factor * ends[0], factor * ends[1], factor * ends[2])


def _bands(chart: Chart, plan: SpeedPlan, x: Scale) -> None:
    """Where it stays still, where it may begin to turn and where it turns: a texture and a word each."""
    low, high = (min(one, 1.0) for one in (plan.start or (0.0, 0.0, 0.0))[::2])
    top, bottom = _STRIP
    may = chart.hatch("may", 7, 45, 1.0, 0.34)
    turns = chart.dots("turns", 5.5, 1.1, 0.5)
    chart.box(x.at(low), top, x.at(high), _SECOND[1], may)
    chart.box(x.at(high), top, x.end, bottom, turns)
    for edge in (low, high):
        chart.line([(x.at(edge), top), (x.at(edge), _SECOND[1])], 1, covered=True)
    chart.box(x.start, top, x.end, bottom, line=1)
    above: list[tuple[str, float]] = []
    for word, left, right in (("still", 0.0, low), ("may begin", low, high), ("turns", high, 1.0)):
        middle = (x.at(left) + x.at(right)) / 2
        if right > left and x.at(right) - x.at(left) >= width(word, 12, bold=True) + 4:
            chart.text(word, middle, bottom - 7, "middle", bold=True, halo=True)
        elif right > left:
            above.append((word, middle))
    _above(chart, above)


def _above(chart: Chart, words: Sequence[tuple[str, float]]) -> None:
    """Words that have no room in their band stand in a row above it, side by side, each with a leader."""
    starts: list[float] = []
    edge = 2.0
    for word, middle in words:
        starts.append(max(middle - width(word, 12) / 2, edge))
        edge = starts[-1] + width(word, 12) + 8
    edge = chart.width - 2
    for place in reversed(range(len(words))):
        word, middle = words[place]
        start = min(starts[place], edge - width(word, 12))
        edge = start - 8
        chart.line(
            [(middle, _STRIP[0]), (min(max(middle, start + 2), start + width(word, 12) - 2), 19.0)], 1, covered=True
        )
        chart.text(word, start, 16.0)


def _known(plan: SpeedPlan, panel: Panel) -> list[tuple[float, Ends]]:
    """A panel's quantity at each setting, where it is known."""
    return [(one.setting, value) for one in plan.points if (value := panel.value(one)) is not None]


def _highest(plan: SpeedPlan, panel: Panel) -> float:
    """The end of a panel's scale."""
    return whole(max([value[2] for _, value in _known(plan, panel)] + [1e-3]))


def _panel(
    chart: Chart, plan: SpeedPlan, panel: Panel, x: Scale, top: float, bottom: float, marks: Sequence[Mark]
) -> None:
    """One quantity: its axis, its range, its line, and the marks."""
    known = _known(plan, panel)
    y = Scale(0.0, _highest(plan, panel), bottom, top)
    key = panel.name.split(",")[0].replace(" ", "-")
    settings.allowed(chart, key, [(setting, low, high) for setting, (low, _, high) in known], x, y)
    settings.frame(chart, panel.name, x, y, marks)
    _likeliest(chart, plan, [(setting, value[1]) for setting, value in known], x, y)
    _also(chart, plan, panel, x, y)
    _as_left(chart, plan, panel, x, y)


def _likeliest(chart: Chart, plan: SpeedPlan, line: Sequence[tuple[float, float]], x: Scale, y: Scale) -> None:
    """Solid where it starts by itself; dotted where it only keeps turning once it turns."""
    start = plan.start[1] if plan.start else 0.0
    for dash, ink, part in (
        ("2 4", 2.2, [point for point in line if point[0] <= start and point[1] > 0]),
        ("", INK + 0.4, [point for point in line if point[0] >= start]),
    ):
        for piece in pieces(part, x, y):
            chart.line(piece, ink, dash)


def _also(chart: Chart, plan: SpeedPlan, panel: Panel, x: Scale, y: Scale) -> None:
    """The panel's second line, dashed, with its name."""
    line = [(one.setting, value) for one in plan.points if (value := panel.also(one)) is not None]
    if len(line) < 2:
        return
    for piece in pieces(line, x, y):
        chart.line(piece, THIN, "7 4")
    places: list[tuple[float, float, str]] = []
    for share in (0.75, 0.6, 0.85, 0.45):
        setting, value = min(line, key=lambda one: abs(one[0] - share))
        at, level = x.at(setting), y.at(value)
        places += [(at + 8, level + 18, "start"), (at + 8, level + 30, "start"), (at - 8, level - 8, "end")]
    chart.label([panel.also_name], places, settings.room(x, y))


def _as_left(chart: Chart, plan: SpeedPlan, panel: Panel, x: Scale, y: Scale) -> None:
    """Where it is now, with its likeliest value."""
    here = next((one for one in plan.points if one.setting == plan.as_left), None)
    value = panel.value(here) if here else None
    if here is not None and value is not None and math.isfinite(value[1]) and value[1] > 0:
        settings.as_left(chart, here.setting, value[1], panel.unit, x, y)

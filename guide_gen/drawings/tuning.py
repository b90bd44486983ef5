"""The tuning chart and the setting scale: what a shaker does at each setting, with begin, as-left and limit marked."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from guide_gen.drawings import settings
from guide_gen.drawings.axes import INK, THIN, Chart, Scale, Word, pieces, whole
from guide_gen.drawings.bands import draw_bands, name_bands, reach
from guide_gen.drawings.settings import LEFT, NARROW, WIDE, Mark
from guide_gen.model.plan import Motion, MotionPoint
from guide_gen.values import show

_TURNS = "turns"
_NEAR = 1.8  # times the largest acceleration shown: a limit that lies higher is only named


@dataclass(frozen=True)
class Panel:
    """One quantity over the settings: its likeliest value, and its range where that is known."""

    name: str
    unit: str
    value: Callable[[MotionPoint], float]
    low: Callable[[MotionPoint], float | None]
    high: Callable[[MotionPoint], float | None]


TURNING = Panel(
    "turns, Hz",
    "Hz",
    lambda one: one.turning_Hz,
    lambda one: one.turning_low_Hz,
    lambda one: one.turning_high_Hz,
)
SIDEWAYS = Panel(
    "sideways, m/s²",
    "m/s²",
    lambda one: one.accel_m_s2,
    lambda one: one.accel_low_m_s2,
    lambda one: one.accel_high_m_s2,
)


def tuning_svg(motion: Motion, *, name: str, title: str, narrow: bool) -> str:
    """The tuning chart as an SVG. name: begins its ids."""
    return draw_tuning(motion, name=name, narrow=narrow).svg(title, " ".join([motion.short, *motion.says]))


def scale_svg(motion: Motion, *, name: str, title: str, narrow: bool) -> str:
    """The setting scale as an SVG. name: begins its ids."""
    return draw_scale(motion, name=name, narrow=narrow).svg(title, motion.short)


# ---- the chart ------------------------------------------------------------------------------------------------------


def draw_tuning(motion: Motion, *, name: str, narrow: bool) -> Chart:
    """Two panels over one scale of settings, the bands behind both."""
    marks = marks_of(motion)
    chart = Chart(name, NARROW if narrow else WIDE, 500 + 18 * len(marks) if narrow else 500)
    x = Scale(0.0, reach(motion), 40.0 if narrow else 48.0, chart.width - 12.0)
    strip, first, second = (28.0, 50.0), (84.0, 244.0), (284.0, 424.0)
    draw_bands(chart, motion, x, strip[0], second[1])
    chart.box(x.start, strip[0], x.end, strip[1], line=1)
    name_bands(chart, motion, x, strip[1] - 7, 16.0)
    for panel, (top, bottom) in ((TURNING, first), (SIDEWAYS, second)):
        _panel(chart, motion, panel, x, top, bottom, marks)
    for value in x.ticks(6 if narrow else 10):
        chart.text(show.figure(100 * value), x.at(value), second[1] + 18, "middle")
    if x.high < motion.ceiling < 1:
        above = Word(f"too much from {show.setting(motion.ceiling)}", x.end, strip[0] - 9, "end")
        chart.texts.append(above if chart.free(above) else replace(above, x=x.start, y=second[1] + 36, anchor="start"))
    chart.text(f"{motion.what}, %", x.end, second[1] + 36, "end", bold=True)
    settings.legend(chart, marks, x, second[1] + (56 if narrow else 64), narrow)
    return chart


def marks_of(motion: Motion) -> list[Mark]:
    """Marks that the plan has."""
    begin = motion.begin if math.isfinite(motion.begin) else None
    return settings.marks(begin, motion.as_left, motion.limit, show.setting)


def _panel(
    chart: Chart, motion: Motion, panel: Panel, x: Scale, top: float, bottom: float, marks: Sequence[Mark]
) -> None:
    """One quantity: its axis, its range, its curve, the limit, and the marks."""
    inside = upto(motion.curve, x.high)
    y = Scale(0.0, highest(panel, motion, inside), bottom, top)
    settings.allowed(chart, "turning" if panel is TURNING else "sideways", ends_of(panel, inside), x, y)
    settings.frame(chart, panel.name, x, y, marks)
    _limit(chart, panel, inside, x, y)
    for state, line, dash in (("needs kick", 2.2, "2 4"), (_TURNS, INK + 0.4, "")):
        piece = [(one.setting, panel.value(one)) for one in inside if one.state == state]
        for inside_y in pieces(piece, x, y):
            chart.line(inside_y, line, dash)
    _as_left(chart, panel, motion, inside, x, y)


def ends_of(panel: Panel, inside: Sequence[MotionPoint]) -> list[tuple[float, float, float]]:
    """Setting, low and high end of a panel's quantity, where they are known."""
    return [
        (one.setting, low, high)
        for one in inside
        if (low := panel.low(one)) is not None and (high := panel.high(one)) is not None and high > 0
    ]


def upto(curve: Sequence[MotionPoint], end: float) -> list[MotionPoint]:
    """The points up to a setting, with one just there where the curve goes on."""
    inside = [one for one in curve if one.setting <= end]
    beyond = next((one for one in curve if one.setting > end), None)
    if not inside or beyond is None or inside[-1].setting == end:
        return inside
    last = inside[-1]
    part = (end - last.setting) / (beyond.setting - last.setting)

    def mixed(one: float | None, other: float | None) -> float | None:
        return None if one is None or other is None else one + part * (other - one)

    names = ("turning_Hz", "turning_low_Hz", "turning_high_Hz", "accel_m_s2", "accel_low_m_s2", "accel_high_m_s2")
    values = {name: mixed(getattr(last, name), getattr(beyond, name)) for name in names}
    return [*inside, replace(last, setting=end, **values)]  # type: ignore[arg-type]


def highest(panel: Panel, motion: Motion, inside: Sequence[MotionPoint]) -> float:
    """The end of a panel's scale: what the page talks about, not what full power would give."""
    upto = min([one for one in (motion.ceiling, inside[-1].setting if inside else 1.0) if math.isfinite(one)])
    begins = next((one.setting for one in inside if one.state == _TURNS), 0.0)  # may lie above the ceiling
    shown = 1.15 * max(upto, begins)
    values = [panel.value(one) for one in inside if one.setting <= shown and one.state != "still"]
    values += [high for one in inside if one.setting <= upto and (high := panel.high(one)) is not None]
    if panel is SIDEWAYS:
        near = _NEAR * max([*values, 1e-3])
        limits = [one.limit_m_s2 for one in inside if one.limit_m_s2 is not None and one.state == _TURNS]
        values.append(1.1 * max([one for one in limits if one < near], default=0.0))
    return whole(max([*values, 1e-3]))


def _limit(chart: Chart, panel: Panel, inside: Sequence[MotionPoint], x: Scale, y: Scale) -> None:
    """What the contents stand, where it lies on the panel."""
    if panel is not SIDEWAYS:
        return
    known = [(one.setting, one.limit_m_s2) for one in inside if one.limit_m_s2 is not None and one.state == _TURNS]
    found = pieces([(setting, value) for setting, value in known if value is not None], x, y)
    for piece in found:
        chart.line(piece, THIN, "7 4")
    longest = max(found, key=lambda piece: piece[-1][0] - piece[0][0], default=[])
    if longest:
        ends: list[tuple[float, float, str]] = []
        for at, level in (longest[-1], longest[len(longest) // 2], longest[0]):
            ends += [(at - 4, level - 6, "end"), (at - 4, level + 16, "end"), (at + 4, level - 6, "start")]
        chart.label(["limit of the contents"], ends, settings.room(x, y))
    elif known:
        corner = [(x.end - 6, y.end + down, "end") for down in (-4, 12, 28)]
        chart.label(["limit of the contents lies higher"], corner, settings.room(x, y))


def _as_left(chart: Chart, panel: Panel, motion: Motion, inside: Sequence[MotionPoint], x: Scale, y: Scale) -> None:
    """Where it is now, with its value, if it moves there."""
    if motion.as_left is None or not inside:
        return
    here = min(inside, key=lambda one: abs(one.setting - (motion.as_left or 0.0)))
    value = panel.value(here)
    if here.state in (_TURNS, "needs kick") and y.holds(value):
        settings.as_left(chart, here.setting, value, panel.unit, x, y)


# ---- the scale ------------------------------------------------------------------------------------------------------


def draw_scale(motion: Motion, *, name: str, narrow: bool) -> Chart:
    """One ruled line of settings with its bands and its marks."""
    chart = Chart(name, NARROW if narrow else WIDE, 114)
    x = Scale(0.0, reach(motion), 12.0, chart.width - 12.0)
    top, bottom = 60.0, 82.0
    draw_bands(chart, motion, x, top, bottom)
    if math.isfinite(motion.start[0]) and motion.start[1] > motion.start[0]:
        left, right = x.at(motion.start[0]), x.at(min(motion.start[1], x.high))
        chart.line([(left, top - 1), (left, top + 5)], THIN, covered=True)
        chart.box(left, top, max(right, left + 1), top + 5, chart.hatch("start", 3.5, 0, 1.2, 0.9), line=1)
        if motion.start_likely and math.isfinite(motion.start_likely[0]):
            within = [x.at(one) for one in motion.start_likely]
            chart.box(within[0], top, max(within[1], within[0] + 1), top + 5, "currentColor")
    chart.box(x.start, top, x.end, bottom, line=1)
    ticks = x.ticks(6 if narrow else 10)
    for value in ticks:
        chart.line([(x.at(value), bottom), (x.at(value), bottom + 8)], 1.5, covered=True)
        last = value == ticks[-1]
        chart.text(
            show.figure(100 * value) + ("\u00a0%" if last else ""),
            min(x.at(value), x.end if last else x.at(value)),
            bottom + 23,
            "start" if value == 0 else "end" if last else "middle",
        )
    name_bands(chart, motion, x, bottom - 7, 12.0)
    for setting, dash, _, _ in marks_of(motion):
        if x.holds(setting):
            chart.pointer(x.at(setting), top - 1, full=not dash)
    _name_marks(chart, motion, x, top)
    return chart


def _name_marks(chart: Chart, motion: Motion, x: Scale, top: float) -> None:
    """Words over the pointers, the as-left one first; one that has no room on its row goes to the next."""
    marks = sorted(marks_of(motion), key=lambda one: one[1] != LEFT)
    for setting, _, _, words in marks:
        if not x.holds(setting):
            continue
        at, short = x.at(setting), words.replace(" in the port", "").replace("begin at", "begin")
        chart.label(
            [short],
            [(at, top - 18, "middle"), (at + 9, top - 3, "start"), (at - 9, top - 3, "end"), (at, top - 33, "middle"),
             (at + 4, top - 33, "start"), (at - 4, top - 33, "end"), (at + 4, top - 18, "start"),
             (at - 4, top - 18, "end")],
            (0.0, 14.0, chart.width, top),
        )  # fmt: skip

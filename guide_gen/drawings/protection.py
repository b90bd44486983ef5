"""The protection chart: load, fuse, wire and supply of one feed in time and current, both logarithmic."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from guide_gen.drawings.axes import HAIR, INK, THIN, Chart, Point, Scale, clipped, round_down, round_up
from guide_gen.model.plan import Protection
from guide_gen.planning.protection import seconds
from guide_gen.values import show

WIDE, NARROW = 720, 350
_FROM_S, _TO_S = 0.01, 1000.0
DOWN = tuple(0.03 + 0.05 * step for step in range(18))  # places for names, from the top
UP = tuple(reversed(DOWN))
_SUPPLY, _WIRE, _MAYBE = "12 3 2 3", "10 4", "2 4"


def protection_svg(found: Protection, *, name: str, title: str, narrow: bool) -> str:
    """The chart as an SVG. name: begins its ids."""
    return draw(found, name=name, narrow=narrow).svg(title, " ".join([found.short, *found.says]))


def draw(found: Protection, *, name: str, narrow: bool) -> Chart:
    """The chart with everything on it."""
    chart = Chart(name, NARROW if narrow else WIDE, 500 if narrow else 450)
    left, right, top, bottom = (42.0 if narrow else 52.0), chart.width - 20.0, 30.0, chart.height - 50.0
    low, high = span(found)
    x = Scale(low, high, left, right, log=True)
    y = Scale(_FROM_S, _TO_S, bottom, top, log=True)
    room = (left + 3, top + 3, right - 3, bottom - 3)
    _grid(chart, x, y, narrow)
    _wire(chart, found, x, y)
    _fuse(chart, found, x, y)
    _load(chart, found, x, y)
    _fault(chart, found, x, y)
    chart.box(left, top, right, bottom, line=1)
    _names(chart, found, x, y, room)
    return chart


def span(found: Protection) -> tuple[float, float]:
    """Currents that hold everything that is drawn, from and to round values."""
    least = [found.running_A[1], *(found.fuse_A for _ in [0] if found.fuse_A)]
    most = [found.fault_A, found.limit_A, 1.6 * found.stands[0][0], *(8 * rating for rating in least[1:])]
    most += [found.start_A] if found.start_A else []
    return round_down(0.55 * min(value for value in least if value)), round_up(max(most))


def _grid(chart: Chart, x: Scale, y: Scale, narrow: bool) -> None:
    for value in x.ticks(7 if narrow else 12):
        chart.line([(x.at(value), y.start), (x.at(value), y.end)], HAIR, faint=True)
        chart.text(show.figure(value), x.at(value), y.start + 17, "middle")
    for value in y.ticks(6):
        chart.line([(x.start, y.at(value)), (x.end, y.at(value))], HAIR, faint=True)
        chart.text(show.figure(value), x.start - 7, y.at(value) + 4, "end")
    chart.text("time, s", x.start, y.end - 11, bold=True)
    chart.text("current, A", x.end, y.start + 35, "end", bold=True)


def _wire(chart: Chart, found: Protection, x: Scale, y: Scale) -> None:
    """What harms the wire: within 5 s by its own heat; what it carries for ever."""
    first, slowest = found.stands[0]
    harmed = clipped(found.stands, x, y)
    if harmed:
        top, last = x.at(first), harmed[-1]
        corner = [] if last[0] >= x.end - 0.5 else [(x.end, y.start)]
        chart.area([(top, y.end), *harmed, *corner, (x.end, y.end)], chart.hatch("harm", 6, -45, 1.3, 0.5))
        chart.line(harmed, INK, _WIRE)
        chart.line([(top, y.at(slowest)), (top, y.end)], 1, "2 3", covered=True)
    if x.holds(found.ampacity_A):
        at = x.at(found.ampacity_A)
        chart.line([(at, y.at(slowest)), (at, y.end)], THIN, _WIRE)


def _fuse(chart: Chart, found: Protection, x: Scale, y: Scale) -> None:
    """The band in which it opens; left of it, where it may or may not."""
    if not found.longest or found.never_A is None or found.sure_A is None:
        return
    sure, never = x.at(found.sure_A), x.at(found.never_A)
    slow = [(sure, y.end), *clipped(found.longest, x, y)]
    fast = clipped(found.shortest, x, y) or [(sure, y.start)]
    maybe = [(never, y.end), (never, fast[0][1]), fast[0]]
    chart.area([*maybe, (sure, y.end)], chart.dots("maybe", 9, 0.9, 0.5))
    chart.line(maybe, THIN, _MAYBE)
    ends = [(x.end, y.start)] if slow[-1][0] >= x.end - 0.5 and fast[-1][1] >= y.start - 0.5 else []
    chart.area([*slow, *ends, *reversed(fast)], chart.dots("opens", 5, 1.15, 0.7))
    chart.line(fast, THIN)
    chart.line(slow, INK)


def _load(chart: Chart, found: Protection, x: Scale, y: Scale) -> None:
    """What the toy draws: from its start to for ever, or for one pulse."""
    run = x.at(found.running_A[1])
    if found.pulse_s is not None:
        chart.line([(run, y.start), (run, y.at(found.pulse_s))], INK)
        chart.line([(run - 6, y.at(found.pulse_s)), (run + 6, y.at(found.pulse_s))], INK)
        return
    if found.running_A[0] < found.running_A[1] and x.holds(found.running_A[0]):
        least = x.at(found.running_A[0])
        chart.area(
            [(least, y.end), (run, y.end), (run, y.start), (least, y.start)], chart.hatch("load", 4, 90, 1, 0.55)
        )
    start = x.at(found.start_A) if found.start_A else run
    lasts = found.start_s or None
    if found.start_A and start > run + 4:
        until = y.at(lasts) if lasts else y.at(0.05)
        chart.line([(start, y.start), (start, until)], INK)
        chart.line([(start, until), (run, until)], THIN, "3 3")
    chart.line([(run, y.end), (run, y.start)], INK)


def _fault(chart: Chart, found: Protection, x: Scale, y: Scale) -> None:
    """What a short circuit draws, and where the fuse has opened it."""
    at = x.at(found.fault_A)
    chart.line([(at, y.end), (at, y.start)], 2, _SUPPLY)
    if found.opened_s is not None and y.holds(found.opened_s):
        chart.ring(at, y.at(found.opened_s))


def _names(chart: Chart, found: Protection, x: Scale, y: Scale, room: Sequence[float]) -> None:
    """A name at each line."""
    limited = found.fault_A >= found.limit_A * (1 - 1e-9)
    fault = ["supply limit" if limited else "short circuit", f"{found.supply_id}, {show.amps(found.fault_A)}"]
    if not limited:
        fault[1] = f"{show.amps(found.fault_A)} or more"
    if found.opened_s is not None:
        fault.append(f"{found.fuse_id} open in {seconds(found.opened_s)}")
    chart.label(fault, beside(x.at(found.fault_A), y, DOWN, rightwards=True), room)
    run = x.at(found.running_A[1])
    load = [found.load_id, "draws " + show.amps(found.running_A[1])]
    heights = DOWN if found.pulse_s is None else UP
    left = x.at(found.running_A[0]) - 7 if found.running_A[0] > 0 else run - 7
    chart.label(load, [*places(left, y, heights, "end"), *beside(run, y, heights, rightwards=True)], room)
    if found.start_A and x.at(found.start_A) > run + 4:
        chart.label(
            ["start asks", f"{show.amps(found.start_A)}"],
            beside(x.at(found.start_A), y, start_places(found, y), rightwards=True),
            room,
        )
    if found.longest and found.fuse_A is not None:
        chart.label(
            [f"fuse {found.fuse_id} {show.amps(found.fuse_A)}", "opens in this band"],
            along_band(clipped(found.shortest, x, y), clipped(found.longest, x, y), y),
            room,
        )
    first = found.stands[0][0]
    harm = x.at(first)
    chart.label(
        [f"wire {found.wire}", "is harmed"],
        [(x.end - 6, y.end + share * (y.start - y.end), "end") for share in DOWN[:7]]
        + places(harm + 8, y, DOWN[:7], "start"),
        room,
    )
    if x.holds(found.ampacity_A):
        chart.label(
            ["wire carries", f"{show.amps(found.ampacity_A)} for ever"],
            beside(x.at(found.ampacity_A), y, DOWN[:9], rightwards=True),
            room,
        )


def along_band(fast: Sequence[Point], slow: Sequence[Point], y: Scale) -> Iterator[tuple[float, float, str]]:
    """Places close to the band of a fuse: under its fast edge, on it, and over its slow edge, from below upwards."""
    for _, base, _ in places(0.0, y, UP, "end"):
        for edge, gap, anchor, row in ((fast, -7.0, "end", base - 10), (slow, 7.0, "start", base + 18)):
            at = crossing(edge, row)
            if at is not None:
                yield at + gap, base, anchor
        left, right = crossing(fast, base + 4), crossing(slow, base + 4)
        if left is not None and right is not None:
            yield (left + right) / 2, base, "middle"


def crossing(edge: Sequence[Point], height: float) -> float | None:
    """Where a falling line passes a height; None where it does not."""
    for (x0, y0), (x1, y1) in pairwise(edge):
        if y0 <= height <= y1 and y1 > y0:
            return x0 + (x1 - x0) * (height - y0) / (y1 - y0)
    return None


def start_places(found: Protection, y: Scale) -> list[float]:
    """Places along the line of the start; over it where it is too short for words beside it."""
    top = (y.at(found.start_s or 0.05) - y.end) / (y.start - y.end)
    if top > 0.85:
        return [top - 0.12, top - 0.17, top - 0.24]
    return [top + part * (0.93 - top) for part in (0.2, 0.0, 0.4, 0.6, 0.8)]


def places(at: float, y: Scale, shares: Sequence[float], anchor: str) -> list[tuple[float, float, str]]:
    """Places down a vertical line, by shares of its height."""
    return [(at, y.end + 12 + share * (y.start - y.end), anchor) for share in shares]


def beside(at: float, y: Scale, shares: Sequence[float], *, rightwards: bool) -> Iterator[tuple[float, float, str]]:
    """Places at both sides of a vertical line, the liked side first."""
    sides = [(8, "start"), (-8, "end")]
    for gap, anchor in sides if rightwards else reversed(sides):
        yield from places(at + gap, y, shares, anchor)

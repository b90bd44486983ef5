"""An accelerometer log, drawn: the sideways signal over time, and below it how strong each frequency is.

The drawing is a file of its own: it has a light ground and an ink, and needs no page round it.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import exp, pi

import numpy as np

from guide_gen.drawings.axes import HAIR, INK, PAPER, THIN, Chart, Scale, round_down, round_up
from guide_gen.formulas.cabinet import CROSSING_Hz
from guide_gen.formulas.drive import Floats
from guide_gen.formulas.log_reading import lateral, spectrum
from guide_gen.planning.shaken import Push, ReadNudge, ReadRunning, Shaken, accel, damping_percent, hertz, percent
from guide_gen.published.vibration import VibrationClass
from guide_gen.values import show

WIDTH, HEIGHT = 720, 560
_LEFT, _RIGHT = 58.0, WIDTH - 18.0
_SIGNAL = (34.0, 190.0)  # top and bottom of the upper panel
_SPECTRUM = (276.0, 508.0)
_GROUND, _INK = "#fff", "#16211f"
_LIMIT, _DECAY = "10 4", "4 3"
_SHOWN = 5.5  # times the turning frequency: lines 1 to 5
_DECADES = 1e4


def shaken_svg(read: Shaken, name: str = "log") -> str:
    """The chart as an SVG file that can be opened alone. name: begins its ids."""
    svg = draw(read, name).svg(*_said(read)).replace(PAPER, _GROUND)
    return svg.replace("<svg ", f'<svg color="{_INK}" ', 1)


def _said(read: Shaken) -> tuple[str, str]:
    """Title and description for those who hear it."""
    found, careful = read.found, "".join(f" Careful: {warning}" for warning in read.warnings)
    if isinstance(found, ReadRunning):
        least = "at least " * found.at_least
        lines = "; ".join(
            f"line {line.number} at {hertz(line.frequency_Hz)}, {accel(line.accel_m_s2)}, "
            f"{least}{percent(line.limit_share)} of the limit"
            for line in found.running.lines
            if not found.in_noise(line)
        )
        return (
            f"Running shaker, turning at {hertz(found.running.turning_Hz)}",
            f"Sideways acceleration over time, and strength over frequency with the limit {found.limit.name}: {lines}. "
            f"{found.verdict}{careful}",
        )
    return (
        f"Pushed cabinet, swaying at {hertz(found.natural_Hz.value)}",
        f"Sideways acceleration over time, dying away after each of {len(found.pushes)} pushes, and strength over "
        f"frequency with its peak at {hertz(found.natural_Hz.value)}. {found.verdict}{careful}",
    )


def draw(read: Shaken, name: str) -> Chart:
    """The chart with everything on it."""
    chart = Chart(name, WIDTH, HEIGHT)
    chart.box(0, 0, WIDTH, HEIGHT, PAPER)
    _signal(chart, read, lateral(read.samples))
    if isinstance(read.found, ReadRunning):
        used = read.found.used
        _lines(chart, read.found, *spectrum(used.time_s, lateral(used), used.rate_Hz))
    else:
        _peak(chart, read.found)
    return chart


# The signal ---------------------------------------------------------------------------------------------------------


def _signal(chart: Chart, read: Shaken, signal: Floats) -> None:
    time = read.samples.time_s
    x = Scale(0.0, float(time[-1]), _LEFT, _RIGHT)
    reach = round_up(float(np.abs(signal).max()))
    y = Scale(-reach, reach, _SIGNAL[1], _SIGNAL[0])
    for value in x.ticks(12):
        _upright(chart, x.at(value), y, show.figure(value))
    for value in (-reach, 0.0, reach):
        _level(chart, x, y.at(value), show.figure(value))
    for low, high in _runs(time):
        chart.line([(x.at(at), y.at(height)) for at, height in _outline(time[low:high], signal[low:high], x)], 1.0)
    if isinstance(read.found, ReadNudge):
        for push in read.found.pushes:
            _envelope(chart, push, signal, time, x, y)
    else:
        _used(chart, read.found, float(time[-1]), x, y)
    _frame(chart, x, y, "sideways acceleration, m/s²", "time, s")


def _used(chart: Chart, found: ReadRunning, end_s: float, x: Scale, y: Scale) -> None:
    """From where to where the record was used, where that is not all of it."""
    first, last = float(found.used.time_s[0]), float(found.used.time_s[-1])
    if first <= 0 and last >= end_s:
        return
    for at in (first, last):
        chart.line([(x.at(at), y.start), (x.at(at), y.end)], THIN, _DECAY)
    chart.label(
        ["used"], [(x.at(first) + 5, y.end + 13, "start"), (x.at(first) + 5, y.start - 6, "start")], _room(x, y)
    )


def _runs(time: Floats) -> list[tuple[int, int]]:
    """Stretches without a gap: what was not recorded is not drawn."""
    steps = np.diff(time)
    breaks = np.flatnonzero(steps > max(5 * float(np.median(steps)), 0.1)) + 1
    edges = [0, *map(int, breaks), len(time)]
    return [(low, high) for low, high in pairwise(edges) if high - low > 1]


def _outline(time: Floats, signal: Floats, x: Scale) -> list[tuple[float, float]]:
    """The signal with at most its lowest and highest sample of each pixel, in the order of time."""
    pixel = np.floor((x.end - x.start) * (time - x.low) / (x.high - x.low)).astype(int)
    points = []
    for part in np.split(np.arange(len(time)), np.flatnonzero(np.diff(pixel)) + 1):
        ends = {int(part[signal[part].argmin()]), int(part[signal[part].argmax()])}
        points += [(float(time[place]), float(signal[place])) for place in sorted(ends)]
    return points


def _envelope(chart: Chart, push: Push, signal: Floats, time: Floats, x: Scale, y: Scale) -> None:
    """How the swings fade by the damping found, from the first swing behind the push on."""
    nudge, begin, end = push.nudge, push.samples.time_s[0], push.samples.time_s[-1]
    inside = np.flatnonzero((time >= begin) & (time <= end))
    if nudge.damping is None:
        return
    top = float(time[inside[np.abs(signal[inside]).argmax()]])
    cycle = inside[(time[inside] >= top + 0.5 / nudge.natural_Hz) & (time[inside] <= top + 1.5 / nudge.natural_Hz)]
    if not len(cycle):
        return
    first = cycle[np.abs(signal[cycle]).argmax()]
    height, since, rate = abs(float(signal[first])), float(time[first]), 2 * pi * nudge.natural_Hz * nudge.damping
    fades = min(4 / rate, float(end) - since)
    steps = [fades * step / 40 for step in range(41)]
    for side in (1, -1):
        chart.line([(x.at(since + step), y.at(side * height * exp(-rate * step))) for step in steps], INK * 0.8, _DECAY)
    middle = 1 / rate
    at = x.at(since + middle), y.at(height * exp(-1)) - 10
    chart.label([f"{damping_percent(nudge.damping)} damping"], [(at[0] + 8, at[1], "start")], _room(x, y))


# The spectrum -------------------------------------------------------------------------------------------------------


def _lines(chart: Chart, found: ReadRunning, frequencies: Floats, strengths: Floats) -> None:
    """Spectrum, the lines named, and the limit as an acceleration at each frequency."""
    running, limit, least = found.running, found.limit, "at least " * found.at_least
    high = min(float(frequencies[-1]), max(_SHOWN * running.turning_Hz, running.lines[-1].frequency_Hz * 1.05))
    x = Scale(0.0, high, _LEFT, _RIGHT)
    heights = [line.accel_m_s2 for line in running.lines]
    top = round_up(1.3 * max(*heights, float(strengths.max()), _allowed(limit, high)))
    y = _strength_scale(top, running.noise_m_s2)
    _grid(chart, x, y)
    _curve(chart, frequencies, strengths, x, y)
    edge = [0.02 * high * step for step in range(1, 51)]
    allowed = [
        (x.at(at), y.at(_allowed(limit, at)))
        for at in sorted({*edge, min(CROSSING_Hz, high)})
        if y.holds(_allowed(limit, at))
    ]
    chart.line(allowed, INK, _LIMIT)
    for line in running.lines:
        if not found.in_noise(line):
            chart.ring(x.at(line.frequency_Hz), y.at(line.accel_m_s2), full=line is running.strongest)
    _frame(chart, x, y, "strength of each frequency, m/s²", "frequency, Hz")
    for line in running.lines:
        at = x.at(line.frequency_Hz), y.at(line.accel_m_s2)
        rows = [f"line {line.number}, {hertz(line.frequency_Hz)}", f"{least}{percent(line.limit_share)} of the limit"]
        if found.in_noise(line):
            continue
        chart.label(rows, _beside(*at), _room(x, y))
    words = f"limit {limit.name}"
    over = [(at, height - 8, "middle") for at, height in reversed(allowed[len(allowed) // 4 :: 6])]
    under = [(at, height + 18, "middle") for at, height in reversed(allowed[len(allowed) // 4 :: 6])]
    chart.label([words], [*over, *under], _room(x, y))


def _allowed(limit: VibrationClass, frequency_Hz: float) -> float:
    """The limit as a peak acceleration: a shift below 9 Hz, an acceleration from there on."""
    if frequency_Hz < CROSSING_Hz:
        return limit.shift_m * (2 * pi * frequency_Hz) ** 2
    return limit.acceleration_m_s2


def _peak(chart: Chart, found: ReadNudge) -> None:
    """Spectrum of the strongest push, the natural frequency marked: several at once would blot each other out."""
    natural = found.natural_Hz.value
    piece = max((push.samples for push in found.pushes), key=lambda one: float(np.abs(lateral(one)).max()))
    frequencies, strengths = spectrum(piece.time_s, lateral(piece), piece.rate_Hz)
    x = Scale(0.0, min(float(frequencies[-1]), 5 * natural), _LEFT, _RIGHT)
    y = _strength_scale(round_up(1.3 * float(strengths.max())), float(np.median(strengths)))
    _grid(chart, x, y)
    _curve(chart, frequencies, strengths, x, y)
    at = x.at(natural), y.at(float(np.interp(natural, frequencies, strengths)))
    chart.line([(at[0], y.start), at], THIN, _DECAY)
    chart.ring(*at, full=True)
    _frame(chart, x, y, "strength of each frequency in the strongest push, m/s²", "frequency, Hz")
    chart.label([f"natural frequency, {hertz(natural)}"], _beside(*at), _room(x, y))


def _strength_scale(top: float, noise: float) -> Scale:
    """Logarithmic, down to the noise or by four decades."""
    return Scale(round_down(max(noise / 2, top / _DECADES)), top, _SPECTRUM[1], _SPECTRUM[0], log=True)


def _grid(chart: Chart, x: Scale, y: Scale) -> None:
    for value in x.ticks(12):
        _upright(chart, x.at(value), y, show.figure(value))
    for value in y.ticks(7):
        _level(chart, x, y.at(value), show.figure(value))


def _curve(chart: Chart, frequencies: Floats, strengths: Floats, x: Scale, y: Scale) -> None:
    """The highest strength of each pixel, so that no line is lost."""
    inside = (frequencies >= x.low) & (frequencies <= x.high)
    seen, tall = frequencies[inside], strengths[inside]
    pixel = np.floor((x.end - x.start) * (seen - x.low) / (x.high - x.low)).astype(int)
    points = []
    for part in np.split(np.arange(len(seen)), np.flatnonzero(np.diff(pixel)) + 1):
        place = part[tall[part].argmax()]
        points.append((x.at(float(seen[place])), y.at(float(tall[place]))))
    chart.line(points, 1.0)


def _beside(x: float, y: float) -> Sequence[tuple[float, float, str]]:
    """Places round a mark: above it, right, left, below."""
    rows = [(x, y - 26, "middle")]
    for down in (-10, 10, 26):
        rows += [(x + 12, y + down, "start"), (x - 12, y + down, "end")]
    return rows


def _room(x: Scale, y: Scale) -> tuple[float, float, float, float]:
    return x.start + 3, y.end + 2, x.end - 3, y.start - 2


def _upright(chart: Chart, at: float, y: Scale, words: str) -> None:
    chart.line([(at, y.start), (at, y.end)], HAIR, faint=True)
    chart.text(words, at, y.start + 17, "middle")


def _level(chart: Chart, x: Scale, at: float, words: str) -> None:
    chart.line([(x.start, at), (x.end, at)], HAIR, faint=True)
    chart.text(words, x.start - 7, at + 4, "end")


def _frame(chart: Chart, x: Scale, y: Scale, above: str, below: str) -> None:
    chart.box(x.start, y.end, x.end, y.start, line=1)
    chart.text(above, x.start, y.end - 11, bold=True)
    chart.text(below, x.end, y.start + 35, "end", bold=True)

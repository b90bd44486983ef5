"""Bands of settings: each has its own texture and its own word, on the tuning chart as on the setting scale."""

import math
from collections.abc import Sequence

from guide_gen.drawings.axes import Chart, Scale
from guide_gen.drawings.lettering import width
from guide_gen.model.plan import Motion, MotionBand

_LEAST = 0.1  # the shortest scale, so that its numbers stay round
_NEAR = 2.5  # how many times the highest setting named the ceiling may lie away to be shown


def textures(chart: Chart) -> dict[str, str]:
    """A fill for each band that has one: the stronger the motion, the denser."""
    return {
        "buzz": chart.hatch("buzz", 8, 0, 1.2, 0.32),
        "faint": chart.dots("faint", 11, 1.0, 0.45),
        "sway": chart.dots("sway", 5.5, 1.1, 0.5),
        "vibration": chart.hatch("vibration", 7, 45, 1.0, 0.34),
        "too much": chart.hatch("much", 4.5, -45, 1.5, 0.55),
    }


def reach(motion: Motion) -> float:
    """The highest setting worth showing: all that the tuning plan names; what is too much only where it is near."""
    named = [*motion.start, motion.begin, motion.limit, motion.as_left]
    named += [band.low for band in motion.bands if band.name == "vibration"][:1]
    most = max([one for one in named if one is not None and math.isfinite(one)], default=0.0)
    if motion.ceiling <= _NEAR * max(most, _LEAST):
        most = max(most, motion.ceiling)
    return min(1.0, math.ceil(20 * max(1.35 * most, _LEAST) - 1e-9) / 20)


def shown(bands: Sequence[MotionBand], highest: float) -> list[MotionBand]:
    """Bands that lie on the scale, cut off at its end."""
    return [
        MotionBand(band.name, band.low, min(band.high, highest))
        for band in bands
        if band.low < highest and band.high > band.low
    ]


def draw_bands(chart: Chart, motion: Motion, x: Scale, top: float, bottom: float) -> None:
    """Every band from top to bottom."""
    fills = textures(chart)
    for band in shown(motion.bands, x.high):
        if band.name in fills:
            chart.box(x.at(band.low), top, x.at(band.high), bottom, fills[band.name])
        if band.low > 0:
            chart.line([(x.at(band.low), top), (x.at(band.low), bottom)], 1, covered=True)


def name_bands(chart: Chart, motion: Motion, x: Scale, base: float, above: float) -> None:
    """The words of the bands on one line; a word that fits into none of its bands stands above, with a leader."""
    edge = -math.inf
    bands = shown(motion.bands, x.high)
    roomy = {band: x.at(band.high) - x.at(band.low) >= width(band.name, 12, bold=True) + 4 for band in bands}
    named = {band.name for band, fits in roomy.items() if fits}
    for band, fits in roomy.items():
        wide = width(band.name, 12, bold=True)
        middle = (x.at(band.low) + x.at(band.high)) / 2
        if fits:
            chart.text(band.name, middle, base, "middle", bold=True, halo=True)
            continue
        if band.name in named:
            continue
        named.add(band.name)
        start = max(middle + 10, edge + 8)
        if start + wide > chart.width - 4:
            continue
        edge = start + wide
        # A word that had to move gets its leader from below, so that no leader runs through another word.
        moved = start > middle + 10
        leader = (
            [(middle, base - 13), (middle, above + 5), (start + 8, above + 5), (start + 8, above + 3)]
            if moved
            else [(middle, base - 13), (middle, above - 4), (start - 3, above - 4)]
        )
        chart.line(leader, 1, covered=True)
        chart.text(band.name, start, above)

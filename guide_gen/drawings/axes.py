"""Charts: scales, lines, textures and names on one sheet of SVG, in the page's own colour.

One user unit is one CSS pixel. Every band has a texture and a word, every line a dash and a name that stands beside it
with a halo in the paper's colour: nothing is told by colour, and there is no legend to look up. Names look for the
place where they cover least.
"""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from xml.sax.saxutils import escape

from guide_gen.drawings.lettering import plain, width

Point = tuple[float, float]

SIZE, ROW = 12.0, 15.0  # of letters; from row to row
INK, THIN, HAIR = 2.4, 1.4, 0.8
PAPER = "var(--gg-paper, #fff)"
_SANS = "'Atkinson Hyperlegible Next','Atkinson Hyperlegible','Liberation Sans',Arial,Helvetica,sans-serif"
_STEP = 6.0  # between the points at which a line counts as covered
_GRID = (1.0, 2.0, 5.0)


@dataclass(frozen=True)
class Scale:
    """Values from low to high along pixels from start to end, straight or logarithmic."""

    low: float
    high: float
    start: float
    end: float
    log: bool = False

    def at(self, value: float) -> float:
        """The pixel of a value; beyond an end, that end."""
        return self.beyond(min(max(value, self.low), self.high))

    def beyond(self, value: float) -> float:
        """The pixel of a value, beyond the ends too; 0 of a logarithmic scale lies far below them."""
        if self.log:
            value = max(value, self.low * 1e-6)
            share = math.log(value / self.low) / math.log(self.high / self.low)
        else:
            share = (value - self.low) / (self.high - self.low)
        return self.start + (self.end - self.start) * share

    def holds(self, value: float) -> bool:
        """Whether a value lies on the scale."""
        return self.low <= value <= self.high

    def ticks(self, most: int) -> list[float]:
        """Round values to write, at most so many."""
        if self.log:
            return _decades(self.low, self.high, most)
        step = round_up((self.high - self.low) / most)
        first = math.ceil(self.low / step - 1e-9)
        return [step * number for number in range(first, math.floor(self.high / step + 1e-9) + 1)]


def _decades(low: float, high: float, most: int) -> list[float]:
    """1, 2, 5, 10 ... between two values; only the powers of ten where that is too many."""
    powers = range(math.floor(math.log10(low)) - 1, math.ceil(math.log10(high)) + 1)
    for steps in (_GRID, (1.0, 3.0), (1.0,)):
        found = [
            value
            for power in powers
            for step in steps
            if low * (1 - 1e-9) <= (value := step * 10.0**power) <= high * (1 + 1e-9)
        ]
        if len(found) <= most:
            return found
    return found


def round_up(value: float) -> float:
    """The next of 1, 2, 5, 10 ... at or above a value."""
    power = 10.0 ** math.floor(math.log10(value))
    return next(step * power for step in (*_GRID, 10.0) if step * power >= value * (1 - 1e-9))


def whole(value: float) -> float:
    """A round end for a straight scale, at or a little above a value."""
    power = 10.0 ** math.floor(math.log10(value))
    ends = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
    return next(end * power for end in ends if end * power >= value * (1 - 1e-9))


def round_down(value: float) -> float:
    """The next of 1, 2, 5, 10 ... at or below a value."""
    power = 10.0 ** math.floor(math.log10(value))
    return next(step * power for step in reversed((*_GRID, 10.0)) if step * power <= value * (1 + 1e-9))


def pieces(points: Sequence[Point], x: Scale, y: Scale) -> list[list[Point]]:
    """The pixels of those parts of a curve which lie between the ends of both scales."""
    left, right = sorted((x.start, x.end))
    top, bottom = sorted((y.start, y.end))
    pixels = [(x.beyond(one), y.beyond(other)) for one, other in points]
    found: list[list[Point]] = []
    for start, end in pairwise(pixels):
        piece = _inside(start, end, (left, top, right, bottom))
        if piece is None:
            continue
        if found and math.dist(found[-1][-1], piece[0]) < 1e-6:
            found[-1].append(piece[1])
        else:
            found.append(list(piece))
    return found


def clipped(points: Sequence[Point], x: Scale, y: Scale) -> list[Point]:
    """The same of a curve that enters and leaves once: one line, empty where nothing of it is inside."""
    return [point for piece in pieces(points, x, y) for point in piece]


def _inside(start: Point, stop: Point, room: tuple[float, float, float, float]) -> tuple[Point, Point] | None:
    """The part of a straight line that lies in a rectangle."""
    (x0, y0), (x1, y1) = start, stop
    first, last = 0.0, 1.0
    for at, way, low, high in ((x0, x1 - x0, room[0], room[2]), (y0, y1 - y0, room[1], room[3])):
        if way == 0:
            if not low <= at <= high:
                return None
            continue
        enters, leaves = sorted(((low - at) / way, (high - at) / way))
        first, last = max(first, enters), min(last, leaves)
    if first > last:
        return None
    begin, end = ((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share) for share in (first, last))
    return begin, end


@dataclass(frozen=True)
class Word:
    """One row of text. anchor: ``start``, ``middle`` or ``end`` of it stands at x; y: its base line."""

    words: str
    x: float
    y: float
    anchor: str = "start"
    bold: bool = False
    halo: bool = False

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom, at most a little too large."""
        wide = width(self.words, SIZE, bold=self.bold)
        left = self.x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        return left, self.y - 0.76 * SIZE, left + wide, self.y + 0.24 * SIZE


def overlap(one: tuple[float, float, float, float], other: tuple[float, float, float, float], gap: float = 0) -> bool:
    """Whether two boxes meet, or come nearer than a gap."""
    return one[0] < other[2] + gap and other[0] < one[2] + gap and one[1] < other[3] + gap and other[1] < one[3] + gap


@dataclass
class Chart:
    """A sheet with scales on it. name: begins its ids."""

    name: str
    width: float
    height: float
    texts: list[Word] = field(default_factory=list)
    _shapes: list[str] = field(default_factory=list)
    _defs: list[str] = field(default_factory=list)
    _lines: list[Point] = field(default_factory=list)
    _marks: list[tuple[float, float, float, float]] = field(default_factory=list)

    @property
    def prefix(self) -> str:
        """The name as ids may begin."""
        return re.sub(r"[^A-Za-z0-9_-]", "-", self.name)

    # ---- shapes -----------------------------------------------------------------------

    def line(
        self, points: Sequence[Point], line: float = THIN, dash: str = "", *, faint: bool = False, covered: bool = False
    ) -> None:
        """A line along points. faint: of the grid. Names keep off it unless it is faint or may be `covered`."""
        if len(points) < 2:
            return
        more = f' stroke-dasharray="{dash}"' if dash else ""
        more += ' opacity="0.3"' if faint else ""
        self._shapes.append(
            f'<path d="{_path(points)}" fill="none" stroke="currentColor" stroke-width="{line:g}" '
            f'stroke-linejoin="round"{more}/>'
        )
        if not (faint or covered):
            self._lines += _along(points)

    def area(self, points: Sequence[Point], fill: str) -> None:
        """A filled outline."""
        self._shapes.append(f'<path d="{_path(points)}Z" fill="{fill}" stroke="none"/>')

    def box(self, left: float, top: float, right: float, bottom: float, fill: str = "none", line: float = 0) -> None:
        """A rectangle."""
        edge = f' stroke="currentColor" stroke-width="{line:g}"' if line else ""
        self._shapes.append(
            f'<rect x="{_n(left)}" y="{_n(top)}" width="{_n(right - left)}" height="{_n(bottom - top)}" '
            f'fill="{fill}"{edge}/>'
        )

    def ring(self, x: float, y: float, *, full: bool = False) -> None:
        """A mark on a line."""
        fill = "currentColor" if full else PAPER
        self._shapes.append(
            f'<circle cx="{_n(x)}" cy="{_n(y)}" r="5" fill="{fill}" stroke="currentColor" stroke-width="2.4"/>'
        )
        self._marks.append((x - 7, y - 7, x + 7, y + 7))

    def pointer(self, x: float, tip: float, *, full: bool = False) -> None:
        """A triangle that points down at (x, tip)."""
        fill = "currentColor" if full else PAPER
        self._shapes.append(
            f'<path d="M{_n(x)} {_n(tip)}l-5.5 -9h11z" fill="{fill}" stroke="currentColor" stroke-width="1.4" '
            'stroke-linejoin="round"/>'
        )
        self._marks.append((x - 6, tip - 10, x + 6, tip))

    # ---- textures ---------------------------------------------------------------------

    def hatch(self, key: str, gap: float, angle: float, line: float = 1.0, strength: float = 0.5) -> str:
        """Parallel lines as a fill."""
        return self._pattern(
            key,
            gap,
            f' patternTransform="rotate({angle:g})"',
            f'<path d="M0 0V{gap:g}" stroke="currentColor" stroke-width="{line:g}" opacity="{strength:g}"/>',
        )

    def dots(self, key: str, gap: float, radius: float, strength: float = 0.6) -> str:
        """Dots as a fill."""
        half = gap / 2
        return self._pattern(
            key,
            gap,
            ' patternTransform="rotate(45)"',
            f'<circle cx="{half:g}" cy="{half:g}" r="{radius:g}" fill="currentColor" opacity="{strength:g}"/>',
        )

    def _pattern(self, key: str, gap: float, turn: str, inside: str) -> str:
        ident = f"{self.prefix}-{key}"
        self._defs.append(
            f'<pattern id="{ident}" width="{gap:g}" height="{gap:g}" patternUnits="userSpaceOnUse"{turn}>'
            f"{inside}</pattern>"
        )
        return f"url(#{ident})"

    # ---- names ------------------------------------------------------------------------

    def text(
        self, words: str, x: float, y: float, anchor: str = "start", *, bold: bool = False, halo: bool = False
    ) -> None:
        """One row of text on the base line y, just there."""
        if plain(words):
            self.texts.append(Word(plain(words), x, y, anchor, bold, halo))

    def free(self, word: Word) -> bool:
        """Whether a row stands clear of all other text and inside the sheet."""
        left, _, right, _ = word.box
        return left >= 0 and right <= self.width and not any(overlap(word.box, one.box, 2) for one in self.texts)

    def label(self, rows: Sequence[str], places: Iterable[tuple[float, float, str]], room: Sequence[float]) -> None:
        """Rows that name something, the first one bold, where they cover least.

        places: x, y of the first row's base line, anchor; the best liked first. room: left, top, right, bottom that
        they must keep inside.
        """
        best: tuple[float, list[Word]] | None = None
        for liked, (x, y, anchor) in enumerate(places):
            laid = [
                Word(plain(row), x, y + place * ROW, anchor, bold=place == 0, halo=True)
                for place, row in enumerate(rows)
                if plain(row)
            ]
            cost = liked * 0.2 + sum(self._covers(word, room) for word in laid)
            if best is None or cost < best[0]:
                best = cost, laid
        if best:
            self.texts += best[1]

    def _covers(self, word: Word, room: Sequence[float]) -> float:
        """How much a row would cover: text and the edge weigh most, then marks, then lines."""
        left, top, right, bottom = word.box
        outside = left < room[0] or top < room[1] or right > room[2] or bottom > room[3]
        texts = sum(overlap(word.box, one.box, 2) for one in self.texts)
        marks = sum(overlap(word.box, one) for one in self._marks)
        lines = sum(left - 2 < x < right + 2 and top - 1 < y < bottom + 1 for x, y in self._lines)
        return 1000 * outside + 400 * texts + 60 * marks + 5 * lines

    # ---- what came of it --------------------------------------------------------------

    def svg(self, title: str, desc: str) -> str:
        """The chart as an SVG that may stand in a page. title, desc: for those who hear it."""
        size = f"{self.width:g} {self.height:g}"
        defs = f"<defs>{''.join(self._defs)}</defs>" if self._defs else ""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{self.prefix}-t {self.prefix}-d" '
            f'viewBox="0 0 {size}" width="{self.width:g}" height="{self.height:g}" class="drawing chart">'
            f'<title id="{self.prefix}-t">{escape(plain(title))}</title>'
            f'<desc id="{self.prefix}-d">{escape(plain(desc))}</desc>{defs}'
            f'<g font-family="{_SANS}" font-size="{SIZE:g}">{"".join(self._shapes)}'
            f"{''.join(map(_text, self.texts))}</g></svg>\n"
        )


def _text(word: Word) -> str:
    anchor = "" if word.anchor == "start" else f' text-anchor="{word.anchor}"'
    weight = ' font-weight="700"' if word.bold else ""
    halo = (
        f' class="halo" stroke="{PAPER}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"'
        if word.halo
        else ' class="s"'
    )
    return (
        f'<text x="{_n(word.x)}" y="{_n(word.y)}" font-size="{SIZE:g}"{anchor}{weight}{halo} fill="currentColor">'
        f"{escape(word.words)}</text>"
    )


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points)


def _along(points: Sequence[Point]) -> Iterable[Point]:
    """Points close together along a line."""
    for (x0, y0), (x1, y1) in pairwise(points):
        steps = max(1, math.ceil(math.dist((x0, y0), (x1, y1)) / _STEP))
        for step in range(steps + 1):
            yield x0 + (x1 - x0) * step / steps, y0 + (y1 - y0) * step / steps


def _n(number: float) -> str:
    return f"{number:.1f}".removesuffix(".0").replace("-0", "0" if -0.05 < number <= 0 else "-0")

"""A sheet to draw a circuit on: thinks in CSS pixels with y downwards, draws with schemdraw, keeps what it joined.

What is joined follows from where lines end, not from what the layout meant: `Sheet.nets` can be held against
`Circuit.nodes`. Lines that cross without ending on each other are not joined.
"""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from xml.etree import ElementTree
from xml.sax.saxutils import escape, quoteattr

import schemdraw
import schemdraw.elements as elm
from schemdraw.segments import Segment, SegmentCircle, SegmentText

from guide_gen.drawings.lettering import MONO_ADVANCE, capped, length, plain, rows, width
from guide_gen.model.circuit import Part, Wire

schemdraw.use("svg")
schemdraw.svgconfig.text = "text"

Point = tuple[float, float]

_PX = 36.0  # schemdraw's unit is 36 user units of its SVG
LINE, HAIR = 1.7, 1.1  # conductors and symbols; outlines
_RING_LINE = 1.4
RING = 3.5
HEAD, VALUE, SMALL, LABEL = 14, 13, 12, 12  # designators, values, further lines and terminals, wire labels
PITCH = 16  # from row to row
_SANS = "'Atkinson Hyperlegible Next','Atkinson Hyperlegible','Liberation Sans',Arial,Helvetica,sans-serif"
_MONO = "'Atkinson Hyperlegible Mono','Liberation Mono','DejaVu Sans Mono',monospace"
_GAP = 6  # between the parts of a wire's label
_STYLE = {
    "stroke": "currentColor", "fill": "none", "stroke-width": f"{LINE:g}",
    "stroke-linecap": "round", "stroke-linejoin": "round",
}  # fmt: skip


@dataclass(frozen=True)
class Text:
    """One row of text. anchor: ``start``, ``middle`` or ``end`` of it stands at x; y: its middle."""

    words: str
    x: float
    y: float
    size: float = SMALL
    anchor: str = "start"
    mono: bool = False
    bold: bool = False

    @property
    def width(self) -> float:
        """Estimated width in user units."""
        return width(self.words, self.size, mono=self.mono, bold=self.bold)


@dataclass(frozen=True)
class Line:
    """A conductor along points. wire: the designator of the wire that it is, or "" for a direct joint.

    backwards: the wire's end, not its start, is at the first point.
    """

    points: tuple[Point, ...]
    wire: str = ""
    backwards: bool = False


@dataclass
class Sheet:
    """One drawing. width, height: in user units, one of which is one CSS pixel."""

    width: float
    units: str = "metric"
    height: float = 0.0
    texts: list[Text] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    pins: list[tuple[str, Point]] = field(default_factory=list)
    parts: list[str] = field(default_factory=list)
    _rings: set[Point] = field(default_factory=set)
    _elements: list[elm.Element] = field(default_factory=list)

    # ---- lines ------------------------------------------------------------------------

    def stroke(self, *points: Point, line: float = LINE, dashed: bool = False) -> None:
        """A line that joins nothing: an outline, a symbol."""
        element = elm.Element()
        element.segments.append(Segment([_at(*point) for point in points], lw=line, ls="--" if dashed else "-"))
        self._place(element, (0, 0))

    def box(
        self, left: float, top: float, right: float, bottom: float, *, line: float = HAIR, dashed: bool = False
    ) -> None:
        """A rectangle."""
        self.stroke((left, top), (right, top), (right, bottom), (left, bottom), (left, top), line=line, dashed=dashed)

    def joint(self, *points: Point) -> None:
        """A conductor that makes one point of its ends."""
        self.lines.append(Line(_tidy(points)))

    def wire(self, wire: Wire, *points: Point, backwards: bool = False) -> None:
        """A wire of the list, from its start to its end; `backwards` when the points lead from its end to its start."""
        self.lines.append(Line(_tidy(points), wire.id, backwards))

    def dot(self, x: float, y: float) -> None:
        """Where three conductors meet."""
        self._place(elm.Dot(radius=0.085), _at(x, y))

    def terminal(self, name: str, x: float, y: float) -> None:
        """A terminal that wires are fixed to; name: ``F1:2``."""
        self.pin(name, x, y)
        self._rings.add(_rounded((x, y)))
        self.circle(x, y, RING, _RING_LINE)

    def pin(self, name: str, x: float, y: float) -> None:
        """A terminal inside a symbol: nothing is drawn."""
        self.pins.append((name, _rounded((x, y))))

    def circle(self, x: float, y: float, radius: float, line: float = LINE) -> None:
        """A circle that joins nothing."""
        element = elm.Element()
        element.segments.append(SegmentCircle((0, 0), radius / _PX, lw=line))
        self._place(element, _at(x, y))

    def _place(self, element: elm.Element, where: Point) -> None:
        element.elmparams.setdefault("theta", 0)
        self._elements.append(element.at(where))

    # ---- text -------------------------------------------------------------------------

    def text(self, words: str, x: float, y: float, size: float = SMALL, anchor: str = "start", *,
             mono: bool = False, bold: bool = False) -> None:  # fmt: skip
        """One row of text whose middle is at y."""
        if not words:
            return
        text = Text(words, x, y, size, anchor, mono, bold)
        element = elm.Element()
        # schemdraw reads markup in text: it gets a number instead, and the finishing pass puts the words there.
        element.segments.append(SegmentText((0, 0), f"t{len(self.texts)}", fontsize=size, font="f", rotation=0))
        self._place(element, _at(x, y))
        self.texts.append(text)

    def block(self, block: "Block", x: float, y: float, side: str = "start") -> None:
        """A part's text; x: its left edge (``start``), middle or right edge (``end``); y: middle of the first row."""
        self.parts.append(block.id)
        for place, row in enumerate(block.rows):
            at = y + place * PITCH
            if place:
                self.text(row, x, at, SMALL, side)
                continue
            head, beside = width(block.id, HEAD, bold=True), width(row, block.size)
            whole = head + (_GAP + beside if row else 0)
            left = {"start": x, "middle": x - whole / 2, "end": x - whole}[side]
            self.text(block.id, left, at, HEAD, bold=True)
            self.text(row, left + head + _GAP, at, block.size)

    def label(self, wire: Wire, x: float, y: float, limit: float, side: str = "start", *, up: bool = False) -> None:
        """A wire's label ``W3 [RD] 1.5 mm² 1.8 m``, broken into rows no wider than `limit`.

        y: middle of the first row, or of the last one when it grows `up`.
        """
        laid = self.label_rows(wire, limit)
        top = y - (len(laid) - 1) * PITCH if up else y
        for place, row in enumerate(laid):
            whole = _row_width(row)
            left = {"start": x, "middle": x - whole / 2, "end": x - whole}[side]
            for word, sleeve in row:
                at, half = top + place * PITCH, _word_width(word, sleeve) / 2
                if sleeve:
                    self.box(left, at - 7.5, left + 2 * half, at + 7.5, line=1)
                    self.text(word, left + half, at, LABEL, "middle", mono=True)
                else:
                    self.text(word, left, at, LABEL, mono=True, bold=word == wire.id)
                left += 2 * half + _GAP

    def label_rows(self, wire: Wire, limit: float) -> list[list[tuple[str, bool]]]:
        """The words of a wire's label by row; True marks the colour letters, which stay in the first row."""
        head = [(wire.id, False), (wire.colour, True)] if wire.colour else [(wire.id, False)]
        tail = [(word, False) for word in (wire.size, length(wire.length_m, self.units)) if word]
        for laid in ([head + tail], [head, tail]):
            if all(_row_width(row) <= limit for row in laid):
                return laid
        return [head, *([word] for word in tail)]

    # ---- parts ------------------------------------------------------------------------

    def fuse(self, part: Part, start: Point, end: Point) -> None:
        """IEC 60617: a rectangle with the conductor running through it, between two terminals."""
        (x0, y0), (x1, y1) = start, end
        upright = x0 == x1
        half_x, half_y = (8, 19) if upright else (19, 8)
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        self.terminal(f"{part.id}:1", x0, y0)
        self.terminal(f"{part.id}:2", x1, y1)
        gap = (0, math.copysign(RING, y1 - y0)) if upright else (math.copysign(RING, x1 - x0), 0)
        self.stroke((x0 + gap[0], y0 + gap[1]), (x1 - gap[0], y1 - gap[1]))
        self.box(x - half_x, y - half_y, x + half_x, y + half_y, line=LINE)

    def element(self, element: elm.Element2Term, start: Point, end: Point) -> None:
        """An element of the drawing library between two points."""
        self._elements.append(element.at(_at(*start)).to(_at(*end)))

    def switch(self, part: Part, x: float, y: float) -> tuple[Point, Point]:
        """A port's switch, an N-channel MOSFET with its drain at (x, y); gives back source and gate."""
        self.pin(f"{part.id}:D", x, y)
        self.pin(f"{part.id}:S", x, y + 60)
        self._place(elm.NMos().theta(0), _at(x, y))
        return (x, y + 60), (x - 30, y + 42)

    def arrow_in(self, x: float, end: Point) -> None:
        """A signal that comes from x to `end`."""
        self.stroke((x, end[1]), end)
        self.stroke((x, end[1] - 5), (x + 8, end[1]), (x, end[1] + 5), line=1.3)

    def trimmer(self, x: float, y: float) -> None:
        """A resistor adjusted by a screw."""
        self.stroke((x - 24, y), (x + 24, y))
        self.box(x - 15, y - 6.5, x + 15, y + 6.5, line=1.5)
        self.stroke((x - 13, y + 15), (x + 13, y - 15), line=1.4)
        self.stroke((x + 8.5, y - 17.5), (x + 17, y - 12), line=1.4)

    def plug(self, x: float, y: float) -> None:
        """A mains plug: nothing of the mains side is drawn further."""
        self.stroke((x - 14, y), (x - 4, y), line=1.3)
        self.box(x - 4, y - 6, x + 3, y + 6, line=1.3)
        self.stroke((x + 3, y - 3), (x + 10, y - 3), line=1.3)
        self.stroke((x + 3, y + 3), (x + 10, y + 3), line=1.3)

    # ---- what came of it --------------------------------------------------------------

    def nets(self) -> list[list[str]]:
        """Terminals and wire ends that the drawn lines make one point, as `Circuit.nodes` gives them."""
        home: dict[Point, Point] = {}

        def root(point: Point) -> Point:
            while home.setdefault(point, point) != point:
                point = home[point]
            return point

        names = list(self.pins)
        for line in self.lines:
            if line.wire:
                ends = ("b", "a") if line.backwards else ("a", "b")
                names += [(f"{line.wire}:{ends[0]}", line.points[0]), (f"{line.wire}:{ends[1]}", line.points[-1])]
            else:
                home[root(line.points[0])] = root(line.points[-1])
        nets: dict[Point, set[str]] = {}
        for name, point in names:
            nets.setdefault(root(point), set()).add(name)
        return sorted(sorted(net) for net in nets.values())

    def svg(self, name: str, title: str, desc: str) -> str:
        """The drawing as an SVG that may stand in a page. name: begins its ids. title, desc: for those who hear it."""
        drawing = schemdraw.Drawing(show=False, color="currentColor", lw=LINE)
        conductors = Sheet(self.width)
        for line in self.lines:
            conductors.stroke(*self._trimmed(line.points))
        for element in conductors._elements + self._elements:
            drawing.add(element)
        raw = ElementTree.fromstring(drawing.get_imagedata("svg"))
        # Rings over the lines that they end, text over all.
        body = "".join(sorted(map(self._finished, raw), key=lambda done: ("<text" in done, 'class="terminal"' in done)))
        prefix = re.sub(r"[^A-Za-z0-9_-]", "-", name)
        style = " ".join(f'{key}="{value}"' for key, value in _STYLE.items())
        size = f"{self.width:g} {self.height:g}"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{prefix}-t {prefix}-d" '
            f'viewBox="0 0 {size}" width="{self.width:g}" height="{self.height:g}" class="drawing">'
            f'<title id="{prefix}-t">{escape(plain(title))}</title><desc id="{prefix}-d">{escape(plain(desc))}</desc>'
            f'<g class="drawing-ink" {style} font-family="{_SANS}">{body}</g></svg>\n'
        )

    def _trimmed(self, points: Sequence[Point]) -> list[Point]:
        """A line that ends at the edge of a terminal's ring, not in its middle."""
        trimmed = list(points)
        for end, beside in ((0, 1), (-1, -2)):
            (x, y), (next_x, next_y) = points[end], points[beside]
            if (x, y) in self._rings:
                reach = math.dist((x, y), (next_x, next_y))
                trimmed[end] = (x + (next_x - x) * RING / reach, y + (next_y - y) * RING / reach)
        return trimmed

    def _finished(self, element: ElementTree.Element) -> str:
        """One element of schemdraw's SVG: attributes in place of styles, the words in place of their number."""
        tag = element.tag.split("}")[-1]
        if tag == "text":
            return _text(self.texts[int("".join(element.itertext()).strip()[1:])])
        styles = dict(re.findall(r"([a-z-]+):([^;]*);", element.attrib.pop("style", "")))
        if styles.get("stroke-dasharray") == "-":
            del styles["stroke-dasharray"]
        if styles.get("fill") == "currentcolor":
            styles["fill"] = "currentColor"
        if tag == "circle" and styles.get("stroke-width") == f"{_RING_LINE:g}":
            styles["class"] = "terminal"
        shape = {key: re.sub(r"-?\d+\.\d+", _short, value).strip() for key, value in element.attrib.items()}
        kept = {key: value for key, value in styles.items() if _STYLE.get(key) != value}
        return f"<{tag} {' '.join(f'{key}={quoteattr(value)}' for key, value in (shape | kept).items())}/>"


@dataclass(frozen=True)
class Block:
    """A part's text: its designator, what stands beside it (of this size), and further rows."""

    id: str
    rows: tuple[str, ...]
    size: float = SMALL

    @property
    def height(self) -> float:
        """From the top of the first row to the bottom of the last one."""
        return len(self.rows) * PITCH


def block_of(
    part: Part, limit: float, *, beside: str = "", size: float = SMALL, below: Sequence[str] = (), most: int = 99
) -> Block:
    """A part's designator with one text beside it and others below, none wider than `limit`, in `most` rows at most."""
    first = limit - width(part.id, HEAD, bold=True) - _GAP
    laid = rows(beside, limit, size, first=first) if plain(beside) else [""]
    for text in below:
        laid += rows(text, limit, SMALL) if plain(text) else []
    return Block(part.id, tuple(capped(laid, most, limit, SMALL)), size)


def _at(x: float, y: float) -> Point:
    """Pixels, y down, to schemdraw's units, y up."""
    return x / _PX, -y / _PX


def _rounded(point: Point) -> Point:
    """So that points which are the same by different sums are the same."""
    return round(point[0], 2), round(point[1], 2)


def _tidy(points: Sequence[Point]) -> tuple[Point, ...]:
    """Points without the ones that repeat the point before."""
    rounded = [_rounded(point) for point in points]
    return tuple(point for place, point in enumerate(rounded) if place == 0 or point != rounded[place - 1])


def _word_width(word: str, sleeve: bool) -> float:
    return len(word) * MONO_ADVANCE * LABEL + (6 if sleeve else 0)


def _row_width(row: Sequence[tuple[str, bool]]) -> float:
    return sum(_word_width(*word) for word in row) + _GAP * (len(row) - 1)


def _short(number: re.Match[str]) -> str:
    return f"{float(number[0]):.2f}".rstrip("0").rstrip(".").replace("-0", "0" if float(number[0]) > -0.005 else "-0")


def _text(text: Text) -> str:
    face = f' class="m" font-family="{_MONO}"' if text.mono else ' class="s"'
    anchor = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
    weight = ' font-weight="700"' if text.bold else ""
    x, y = (f"{value:.1f}".removesuffix(".0") for value in (text.x, text.y + 0.35 * text.size))
    return (
        f'<text x="{x}" y="{y}"{face} font-size="{text.size:g}"{anchor}{weight} fill="currentColor" stroke="none">'
        f"{escape(text.words)}</text>"
    )

"""Symbols of machines, lamps and small parts, in shapes like those of IEC 60617 (from memory), drawn by ourselves."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import schemdraw.elements as elm

from guide_gen.drawings.sheet import RING, Point, Sheet
from guide_gen.model.circuit import Part, PartKind

RADIUS = 21
"""Half of the square that a machine's symbol fills."""
_FINE = 1.4


@dataclass(frozen=True)
class Axis:
    """The line from a part's first terminal to its second; places are told along it and across it, from its middle."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """From terminal to terminal."""
        return math.dist(self.start, self.end)

    def at(self, along: float, across: float = 0.0) -> Point:
        """A place on the sheet."""
        (x0, y0), (x1, y1) = self.start, self.end
        ux, uy = (x1 - x0) / self.length, (y1 - y0) / self.length
        return (x0 + x1) / 2 + along * ux - across * uy, (y0 + y1) / 2 + along * uy + across * ux


def machine(sheet: Sheet, part: Part, start: Point, end: Point) -> None:
    """A load between its terminals 1 and 2."""
    axis = Axis(start, end)
    sheet.terminal(f"{part.id}:1", *start)
    sheet.terminal(f"{part.id}:2", *end)
    reach = _REACH.get(part.what, RADIUS)
    half = axis.length / 2 - RING
    sheet.stroke(axis.at(-half), axis.at(-reach))
    sheet.stroke(axis.at(reach), axis.at(half))
    _SHAPES[part.what](sheet, axis)


def _motor(sheet: Sheet, axis: Axis) -> None:
    x, y = axis.at(0)
    sheet.circle(x, y, RADIUS)
    sheet.text("M", x, y - 3, 17, "middle")
    sheet.stroke((x - 7, y + 10), (x + 7, y + 10), line=1.3)  # direct current


def _fan(sheet: Sheet, axis: Axis) -> None:
    x, y = axis.at(0)
    sheet.circle(x, y, RADIUS)
    turns = [2 * math.pi * step / 60 for step in range(61)]
    petals = [(16 * math.cos(1.5 * turn) ** 2, turn - math.pi / 2) for turn in turns]
    sheet.stroke(*((x + reach * math.cos(turn), y + reach * math.sin(turn)) for reach, turn in petals), line=_FINE)


def _lamp(sheet: Sheet, axis: Axis) -> None:
    x, y = axis.at(0)
    sheet.circle(x, y, RADIUS)
    reach = RADIUS * math.sqrt(0.5)
    sheet.stroke((x - reach, y - reach), (x + reach, y + reach))
    sheet.stroke((x - reach, y + reach), (x + reach, y - reach))


def _solenoid(sheet: Sheet, axis: Axis) -> None:
    """A winding with a plunger beside it."""
    arcs: list[Point] = []
    for place in range(4):
        middle = -15 + 10 * place
        turns = [math.pi * step / 10 for step in range(11)]
        arcs += [axis.at(middle - 5 * math.cos(turn), 8 * math.sin(turn)) for turn in turns]
    sheet.stroke(*arcs)
    sheet.stroke(axis.at(-19, 13), axis.at(19, 13))
    sheet.stroke(axis.at(12, 9), axis.at(19, 13), axis.at(12, 17), line=1.3)


def _coil(sheet: Sheet, axis: Axis) -> None:
    """An operating coil: a rectangle across the line."""
    corners = [axis.at(-11, -20), axis.at(11, -20), axis.at(11, 20), axis.at(-11, 20), axis.at(-11, -20)]
    sheet.stroke(*corners)


def _bell(sheet: Sheet, axis: Axis) -> None:
    """A dome over its flat side, fed by two legs."""
    for side in (-1, 1):
        sheet.stroke(axis.at(side * RADIUS), axis.at(side * 7), axis.at(side * 7, 6))
    turns = [math.pi * step / 20 for step in range(21)]
    dome = [axis.at(-15 * math.cos(turn), 6 + 15 * math.sin(turn)) for turn in turns]
    sheet.stroke(*dome, dome[0])


_SHAPES: dict[PartKind, Callable[[Sheet, Axis], None]] = {
    PartKind.MOTOR: _motor,
    PartKind.FAN: _fan,
    PartKind.SOLENOID: _solenoid,
    PartKind.CONTACTOR: _coil,
    PartKind.BELL: _bell,
    PartKind.LAMP: _lamp,
}
_REACH = {PartKind.SOLENOID: 20, PartKind.CONTACTOR: 11}
LOADS = tuple(_SHAPES)
"""The sorts of part that can be a load."""


def small(sheet: Sheet, part: Part, plus: str, start: Point, end: Point) -> None:
    """A diode, zener, resistor or capacitor from `start` to `end`; plus: its terminal at `start`."""
    first, second = part.terminals
    at = {plus: start, second if plus == first else first: end}
    for name, point in at.items():
        sheet.pin(f"{part.id}:{name}", *point)
    if part.what in (PartKind.DIODE, PartKind.ZENER):
        sheet.element(_diode(part), at["A"], at["K"])
        return
    axis = Axis(start, end)
    half = axis.length / 2
    if part.what is PartKind.RESISTOR:
        body = min(15.0, half - 4)
        sheet.stroke(axis.at(-half), axis.at(-body))
        sheet.stroke(axis.at(body), axis.at(half))
        corners = [axis.at(-body, -6), axis.at(body, -6), axis.at(body, 6), axis.at(-body, 6), axis.at(-body, -6)]
        sheet.stroke(*corners)
        return
    for side in (-1, 1):
        sheet.stroke(axis.at(side * half), axis.at(side * 3))
        sheet.stroke(axis.at(side * 3, -11), axis.at(side * 3, 11), line=2)


def _diode(part: Part) -> elm.Element2Term:
    """A diode, a Schottky or a zener."""
    named = "schottky" in f"{part.value} {' '.join(part.notes)}".lower()
    kind: type[elm.Element2Term] = elm.Schottky if named else elm.Diode
    return (elm.Zener if part.what is PartKind.ZENER else kind)()


def make_contact(sheet: Sheet, x: float, top: float, middle: float, low: float) -> Point:
    """A contact that is open at rest, upright from `top` to `low`; gives back the middle of its blade."""
    sheet.stroke((x, top), (x, middle - 14))
    sheet.stroke((x - 12, middle - 11), (x, middle + 14), (x, low))
    return x - 6, middle


def relay_coil(sheet: Sheet, x: float, top: float, low: float) -> Point:
    """A coil upright from `top` to `low`; gives back the middle of its right side."""
    middle = (top + low) / 2
    sheet.stroke((x, top), (x, middle - 11))
    sheet.stroke((x, middle + 11), (x, low))
    sheet.box(x - 16, middle - 11, x + 16, middle + 11, line=1.7)
    return x + 16, middle

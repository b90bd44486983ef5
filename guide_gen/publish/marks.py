"""Designators and wire colours in running text, set apart as on the drawing."""

import re

from markupsafe import Markup

from guide_gen.model.circuit import Circuit
from guide_gen.publish.plain import plain, tidy

_DESIGNATOR = re.compile(r"\b([A-Z]{1,2}\d+[A-Z]?)((?::(?:0V|\d+|[A-Z]+\d*[+-]?|[+-]))?)(?:,? ([A-Z]{2})\b,?)?")


def sleeve(letters: str) -> Markup:
    """A wire's colour: a swatch, and the letters of IEC 60757, which are the information."""
    return Markup('<span class="gg-wire gg-wire--{0}"><span>{0}</span></span>').format(plain(letters))


def tag(designator: str) -> Markup:
    """A designator or a terminal, in the letters of the drawing."""
    return Markup('<b class="gg-tag">{}</b>').format(plain(designator))


def marked(text: str, circuit: Circuit) -> Markup:
    """`text`, escaped, with the circuit's own designators set apart and a colour behind a wire shown as its sleeve."""
    colours = {wire.id: wire.colour for wire in circuit.wires}
    known = colours.keys() | {part.id for part in circuit.parts}
    out = Markup("")
    done = 0
    line = tidy(text)
    for match in _DESIGNATOR.finditer(line):
        name, terminal, letters = match.groups()
        if name not in known:
            continue
        own_colour = letters is not None and letters == colours.get(name)
        out += plain_part(line[done : match.start()]) + tag(name + terminal)
        if own_colour:
            out += Markup(" ") + sleeve(letters)
        done = match.end() if own_colour else match.end(2)
    return out + plain_part(line[done:])


def plain_part(text: str) -> Markup:
    """A stretch of a line, escaped, with the spaces at its ends kept."""
    before = " " if text[:1] == " " else ""
    after = " " if text[-1:] == " " and text.strip() else ""
    return Markup(before) + plain(text) + Markup(after)

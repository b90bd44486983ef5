"""How wide text comes out, and how it is broken into rows: drawings must know before a browser draws them."""

import re
import unicodedata
from collections.abc import Iterable

from guide_gen.values import show

# Advance widths in hundredths of an em, from the space to the tilde: for each sign the wider one of the page's face
# (Atkinson Hyperlegible Next) and of the usual substitute (Liberation Sans), measured. A drawing has room for both.
_SANS = (
    28, 29, 35, 65, 59, 92, 73, 19, 33, 33, 48, 61, 28, 37, 28, 39, 65, 56, 56, 58, 61, 59, 60, 56, 61, 59, 28, 28, 58,
    63, 58, 56, 102, 67, 67, 72, 72, 67, 61, 78, 72, 39, 51, 67, 56, 83, 72, 78, 67, 78, 72, 67, 61, 72, 67, 94, 67, 67,
    61, 32, 39, 34, 55, 56, 33, 56, 56, 50, 56, 56, 35, 56, 56, 25, 24, 50, 26, 84, 56, 56, 57, 57, 35, 50, 35, 56, 50,
    72, 50, 50, 50, 34, 26, 34, 58,
)  # fmt: skip
_BOLD = 1.12
MONO_ADVANCE = 0.632
"""Width of every letter of the mono face (Atkinson Hyperlegible Mono), in em; its substitutes are narrower."""

_BARE = {letter: width / 100 for letter, width in zip(map(chr, range(32, 127)), _SANS, strict=True)}
_OTHERS = {"°": 0.4, "²": 0.38, "×": 0.58, "±": 0.58, "µ": 0.58, "μ": 0.58, "−": 0.61, "–": 0.56, "’": 0.24, "·": 0.28,
           "…": 1.0, "Ω": 0.77, "\u00a0": 0.28}  # fmt: skip
_WIDE = 1.3  # signs that take a whole square, with what emoji add to it
_UNKNOWN = 1.0


def width(text: str, size: float, *, mono: bool = False, bold: bool = False) -> float:
    """Width of one row of text in user units, at most a little too large. size: font size in user units."""
    advance = MONO_ADVANCE * len(text) if mono else sum(map(_advance, text))
    return advance * size * (_BOLD if bold else 1)


def _advance(sign: str) -> float:
    if sign in _BARE or sign in _OTHERS:
        return _BARE.get(sign) or _OTHERS[sign]
    if unicodedata.combining(sign):
        return 0.0
    base = unicodedata.normalize("NFD", sign)[0]
    if base in _BARE:
        return _BARE[base]
    return _WIDE if unicodedata.east_asian_width(sign) in "WF" else _UNKNOWN


def plain(text: str) -> str:
    """One row of text without what XML forbids or a drawing cannot show: control characters, runs of space."""
    kept = "".join(" " if sign in "\t\n\r" else sign for sign in text if _shown(sign))
    return re.sub(" +", " ", kept).strip(" ")


def _shown(sign: str) -> bool:
    return sign in "\t\n\r" or (unicodedata.category(sign) not in {"Cc", "Cf", "Cs", "Cn", "Co"})


def rows(text: str, limit: float, size: float, *, most: int = 4, first: float | None = None) -> list[str]:
    """Text broken into rows no wider than `limit`; what does not fit into `most` rows ends in "…".

    first: the limit of the first row where it is another one; a first row that holds nothing comes back as "".
    A number stays with its unit. A word wider than a row is broken behind its hyphens, else cut with "…".
    """
    pieces = [piece for word in _words(plain(text)) for piece in _pieces(word, limit, size)]
    done: list[str] = []
    row = ""
    for glue, piece in pieces:
        longer = f"{row}{glue}{piece}" if row else piece
        room = first if first is not None and not done else limit
        if width(longer, size) <= room:
            row = longer
            continue
        if row or not done:
            done.append(row)
        row = piece
    done.append(row)
    if not done[0] and first is None:
        del done[0]
    return capped(done, most, limit, size)


def capped(laid: list[str], most: int, limit: float, size: float) -> list[str]:
    """The first `most` rows; what is left of the others is "…" at the end of the last one."""
    if len(laid) <= most:
        return laid
    return [*laid[: most - 1], shortened(f"{laid[most - 1]} {laid[most]}", limit, size, cut=True)]


def shortened(text: str, limit: float, size: float, *, cut: bool = False) -> str:
    """One row no wider than `limit`: the text, or its beginning and "…". cut: more follows, so "…" always ends it."""
    if not cut and width(text, size) <= limit:
        return text
    end = len(text)
    while end and width(text[:end].rstrip() + "…", size) > limit:
        end -= 1
    return text[:end].rstrip() + "…"


def _words(text: str) -> Iterable[str]:
    """Words, a number together with the unit behind it: ``32 V DC``."""
    return re.findall(r"[\d.,]+[ \u00a0](?:[^\W\d_]{1,3}|[°%Ω][^ ]*)(?![^ ,;])(?: [AD]C\b)?[,;]?|[^ ]+", text)


def _pieces(word: str, limit: float, size: float) -> Iterable[tuple[str, str]]:
    """A word as (what joins it to the row before, piece): whole, or broken behind its hyphens where it is too wide."""
    if width(word, size) <= limit:
        return [(" ", word)]
    parts = [part for part in re.split(r"(?<=[-/ ])", word) if part]
    return [(" " if place == 0 else "", shortened(part.rstrip(" "), limit, size)) for place, part in enumerate(parts)]


def length(length_m: float, units: str) -> str:
    """A length of wire as it stands on a label, in one system of units: ``1.8 m``; ``6 ft``, below one foot ``6 in``.

    units: ``metric`` or ``US``.
    """
    return show.metres(length_m, units).partition(" (")[0]

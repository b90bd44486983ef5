"""Text from a description as it may stand on a page: never markup, never Markdown, always one line."""

import re
import unicodedata

from markupsafe import Markup

# What HTML, an attribute or Markdown could read; as numeric references nobody reads it but the browser.
_SIGNS = {ord(sign): f"&#{ord(sign)};" for sign in "&<>\"'\\`*_{}[]#!~^|=$"}
_JOINERS = {"\u200c", "\u200d"}  # needed inside words of some scripts
_UNITS = "V|mV|A|mA|W|Ω|mΩ|kΩ|mm²|mm|cm|m|km|in|ft|AWG|Hz|kHz|%|°C|°F|N m|N|kg|g|s|ms|min|h|rpm|lbf in|lb|oz"
_NUMBER_AND_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w²]))")
_EMPTY_LINE = re.compile(r"\n[^\S\n]*\n\s*")


def tidy(value: object) -> str:
    """The text of `value` on one line, still unescaped.

    Controls and line ends become spaces, signs that turn the direction of writing go, a number keeps its unit.
    """
    line = " ".join("".join(map(_harmless, str(value))).split())
    return _NUMBER_AND_UNIT.sub("\u00a0", line)


def plain(value: object) -> Markup:
    """The text of `value` on one line, escaped for HTML, for attributes and for Markdown; markup of ours passes."""
    if isinstance(value, Markup):
        return value
    return Markup(tidy(value).translate(_SIGNS))


def paragraphs(text: str) -> list[str]:
    """The paragraphs of a free text; an empty line begins one."""
    return [part.strip() for part in _EMPTY_LINE.split(text) if part.strip()]


def preformatted(text: str) -> Markup:
    """Lines that keep their breaks and their indentation."""
    return Markup("\n").join(
        Markup("&#32;") * (len(line) - len(line.lstrip(" "))) + plain(line) for line in text.rstrip().split("\n")
    )


def breakable(path: str) -> Markup:
    """A path of keys that may break behind its points."""
    return Markup(".<wbr>").join(plain(part) for part in path.split("."))


def css_string(text: str) -> str:
    """`text` as a quoted string of CSS, every sign that is not a plain letter or digit as its number."""
    return '"' + "".join(sign if _is_simple(sign) else f"\\{ord(sign):06x}" for sign in tidy(text)) + '"'


def _is_simple(sign: str) -> bool:
    return sign.isascii() and (sign.isalnum() or sign in " .,-")


def _harmless(sign: str) -> str:
    category = unicodedata.category(sign)
    if category in {"Cc", "Zl", "Zp"}:
        return " "
    if category == "Cs":
        return "\ufffd"
    return "" if category == "Cf" and sign not in _JOINERS else sign

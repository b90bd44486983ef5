"""The usual cause of a text that is no YAML, in a sentence of its own instead of the parser's."""

import re
from collections.abc import Sequence

from guide_gen.description.nodes import BrokenError, Mark
from guide_gen.description.wording import problem, shown
from guide_gen.model.finding import Finding, Place

_KEY = re.compile(r"\s*(?:- )?([A-Za-z0-9_-]+)\s*:\s")
_CLOSER = {"{": "}", "[": "]"}


def yaml_broken(error: BrokenError, lines: Sequence[str], file: str) -> Finding:
    """The one problem that is told about a file whose YAML is broken."""
    at, wrong, expected, mend = _cause(error, lines)
    return problem("yaml-broken", (), wrong, expected, mend, Place(file, at.line + 1, at.column + 1))


def _cause(error: BrokenError, lines: Sequence[str]) -> tuple[Mark, str, str, str]:
    """Place, what is wrong, what was expected, how to mend it."""
    for look in (
        _tab,
        _text_block,
        _quote,
        _bracket,
        _first_sign,
        _line_start,
        _colon,
        _no_colon,
        _dash,
        _whole_file,
        _line_up,
    ):
        if found := look(error, lines):
            return found
    return (
        error.at,
        "from here on this cannot be read as YAML",
        "lines of key: value",
        "compare this line and the one above with the examples: colon and space behind the key, same indentation "
        "as its neighbours",
    )


_Cause = tuple[Mark, str, str, str] | None


def _line(lines: Sequence[str], number: int) -> str:
    return lines[number] if 0 <= number < len(lines) else ""


def _rest(mark: Mark, lines: Sequence[str]) -> str:
    return _line(lines, mark.line)[mark.column :]


def _without_comment(text: str) -> str:
    return re.sub(r"(^|\s)#.*", "", text).rstrip()


def _above(line: int, lines: Sequence[str]) -> int:
    """The nearest line above that holds something; -1 when there is none."""
    return next((number for number in range(line - 1, -1, -1) if _without_comment(_line(lines, number))), -1)


def _indent(text: str) -> int:
    return len(text) - len(text.lstrip(" "))


def _quoted(text: str) -> str:
    """The text as it is to be written in quotes, shortened."""
    sign = "'" if '"' in text else '"'
    return f"{sign}{shown(text)}{sign}"


def _tab(error: BrokenError, lines: Sequence[str]) -> _Cause:
    indent = re.match(r"\s*", _line(lines, error.at.line))
    if not indent or "\t" not in indent[0]:
        return None
    return (
        Mark(error.at.line, indent[0].index("\t")),
        "this line is indented with a tab",
        "spaces, two for each step",
        "put spaces in place of each tab; editors can do that by themselves",
    )


def _text_block(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if "block scalar" not in error.context or not error.opened:
        return None
    sign, rest = _rest(error.opened, lines)[:1], _without_comment(_rest(error.opened, lines))
    bound = rest.lstrip(">|+- ")
    return (
        error.opened,
        f'a value cannot begin with "{sign}"',
        "the value itself",
        f'write "{shown(bound)}" for a value, or {_quoted(rest)} in quotes for text',
    )


def _quote(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if "escape" in error.what and error.opened:
        return (
            error.at,
            "a backslash inside double quotes has a meaning of its own",
            "text without a backslash",
            "use single quotes, or leave the backslash away",
        )
    opened = None
    if "quoted scalar" in error.context:
        opened = error.opened
    elif error.quoted and error.opened != error.at:
        opened = error.quoted
    if opened:
        sign = _rest(opened, lines)[:1]
        return (
            opened,
            f"the quote {sign} that opens here is not closed on its line",
            f"a second {sign} behind the text",
            f"write {sign} at the end of the text, or no quotes at all",
        )
    before = _line(lines, error.at.line)[: error.at.column].rstrip()
    if before.endswith(('"', "'")) and _rest(error.at, lines)[:1] not in {"}", "]"}:
        whole = re.sub(r"^.*?:\s+", "", _without_comment(_line(lines, error.at.line)))
        return (
            error.at,
            f'"{shown(_rest(error.at, lines), 30)}" stands behind the closing quote',
            "nothing behind a closing quote",
            f"leave the quotes away, or write {_outer(whole)}",
        )
    return None


def _outer(text: str) -> str:
    """Text that has double quotes inside, in single ones."""
    return f"'{shown(text)}'" if "'" not in text else "them round the whole text"


def _bracket(error: BrokenError, lines: Sequence[str]) -> _Cause:
    sign = _rest(error.at, lines)[:1]
    if error.context.startswith("while parsing a flow") and error.opened:
        opener = _rest(error.opened, lines)[:1]
        closer = _CLOSER.get(opener, "}")
        inside = _line(lines, error.at.line)[error.opened.column + 1 : error.at.column]
        if error.at.line == error.opened.line and sign in {"}", "]"}:
            return (
                error.opened,
                f"the {opener} that opens here is closed by {sign}",
                f"a {closer}",
                f"close it with {closer}",
            )
        if error.at.line == error.opened.line and sign == ":" and closer in _rest(error.at, lines):
            key = re.search(r"([\w-]+)$", inside)
            hint = f' before "{key[1]}"' if key else ""
            return (
                error.at,
                f"a second colon inside {opener} {closer}, with no comma before its key",
                "a comma between two keys, and no text with a colon in it",
                f"put the comma{hint}, or take the text out of {opener} {closer} to a line of its own, in quotes",
            )
        return (
            error.opened,
            f"the {opener} that opens here is not closed",
            f"a {closer} behind the last value",
            f"write {closer} where it ends",
        )
    if sign in {"}", "]"} and "start any token" not in error.what:
        opener = "{" if sign == "}" else "["
        return (error.at, f"this {sign} closes nothing", f"one {sign} for each {opener}", f"take the {sign} away")
    before = _line(lines, error.at.line)[: error.at.column].rstrip()
    if before.endswith(("}", "]")) and "block mapping" in error.context:
        return (
            error.at,
            f'"{shown(_without_comment(_rest(error.at, lines)) or sign, 30)}" stands behind the closing {before[-1]}',
            f"nothing behind {before[-1]}",
            f"take it away, or move it in front of the {before[-1]}",
        )
    return None


def _first_sign(error: BrokenError, lines: Sequence[str]) -> _Cause:
    """A value that begins with a sign of YAML's own."""
    where, before = error.at, _line(lines, error.at.line)[: error.at.column]
    if "alias" in error.context or "anchor" in error.context:
        where = error.opened or error.at
    elif starred := re.search(r"[*!&]\S*\s+$", before):
        where = Mark(error.at.line, starred.start())
    elif not any(words in error.what for words in ("start any token", "node content", "mapping keys")):
        return None
    return _cannot_begin(where, "a value", lines)


def _line_start(error: BrokenError, lines: Sequence[str]) -> _Cause:
    """A line that begins with a sign of YAML's own where a key belongs."""
    number = error.at.line
    if "simple key" in error.context and error.opened:
        number = error.opened.line
    elif "directive" not in error.context:
        return None
    line = _line(lines, number)
    where = Mark(number, _indent(line))
    return None if re.match(r"\s*([\w:#]|$)", line) else _cannot_begin(where, "a line", lines)


def _cannot_begin(where: Mark, what: str, lines: Sequence[str]) -> _Cause:
    rest = _without_comment(_rest(where, lines))
    sign, bare = rest[:1], rest.lstrip(rest[:1] + " ").rstrip("}] ,")
    if sign == "%" and re.fullmatch(r"[\d.]+", bare):
        mend = f'write "{bare} %"'
    elif sign == "@":
        mend = f'write {_quoted(rest)} in quotes, or "{shown(bare)}"'
    elif what == "a line":
        mend = f'take the "{sign}" away'
    else:
        mend = f"write {_quoted(rest)} in quotes, or begin with a letter or a digit"
    return where, f'{what} cannot begin with "{sign}"', "a letter or a digit, or quotes round the text", mend


def _colon(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if "mapping values" not in error.what:
        return None
    line = _line(lines, error.at.line)
    first = _KEY.match(line)
    if first and first.end() <= error.at.column:
        text = _without_comment(line[first.end() :]).strip()
        return (
            error.at,
            f'a colon with a space behind it stands inside the value of "{first[1]}"',
            "quotes round such a text",
            f"write {first[1]}: {_quoted(text)}",
        )
    above = _above(error.at.line, lines)
    if bare := re.match(r"\s*([a-z_]+):? ?([{\[].*)", line):
        return (
            Mark(error.at.line, bare.end(1)),
            f'no colon and space stand behind "{bare[1]}"',
            "key, colon, space, value",
            f'write "{shown(f"{bare[1]}: {_without_comment(bare[2])}")}"',
        )
    return _unfinished(above, lines) or _too_far_in(error.at.line, above, lines)


def _unfinished(number: int, lines: Sequence[str]) -> _Cause:
    """A line that should be a key and has no colon, or no space behind it."""
    line = _line(lines, number)
    text, at = _without_comment(line).strip(), Mark(number, _indent(line))
    if glued := re.fullmatch(r"([A-Za-z_]+):(\S.*)", text):
        return (
            Mark(number, at.column + len(glued[1])),
            f'no space stands behind the colon of "{shown(glued[1])}"',
            "key, colon, space, value",
            f'write "{shown(f"{glued[1]}: {glued[2]}")}"',
        )
    if number >= 0 and not re.search(r":(\s|$)", text):
        key, _, value = text.partition(" ")
        mended = f"{key}: {value}".strip() if re.fullmatch(r"[A-Za-z0-9_-]+", key) else "key: value"
        return (at, f'this line has no colon: "{shown(text)}"', "key, colon, space, value", f'write "{shown(mended)}"')
    return None


def _too_far_in(number: int, above: int, lines: Sequence[str]) -> _Cause:
    line = _line(lines, number)
    at = Mark(number, _indent(line))
    if _indent(line) > _indent(_line(lines, above)):
        return (
            at,
            f"this line stands further in than line {above + 1} above it, which already has its value",
            "the same indentation for keys of the same map",
            "move it left, under the key above",
        )
    return None


def _no_colon(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if "':'" not in error.what or not error.opened:
        return None
    return _unfinished(error.opened.line, lines)


def _dash(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if "sequence entries" not in error.what:
        return None
    bare = _without_comment(_rest(error.at, lines)).lstrip("- ")
    return (
        error.at,
        'a value cannot begin with "- ": that begins a list',
        "the value itself",
        f'write "{shown(bare)}"',
    )


def _whole_file(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if error.what == "second document":
        return (
            error.at,
            "a line of three hyphens begins a second description",
            "one description in a file",
            "take that line away, or put the second one into a folder of its own",
        )
    if error.what == "too deep" or "nesting" in error.what:
        return (
            error.at,
            "brackets or maps stand more than twenty deep inside each other",
            "seven levels at most",
            "look for brackets that were opened by mistake",
        )
    return None


def _line_up(error: BrokenError, lines: Sequence[str]) -> _Cause:
    if "block mapping" not in error.context and "block collection" not in error.context:
        return None
    line = _line(lines, error.at.line)
    if error.at.column > _indent(line):
        return None
    return (
        error.at,
        "this line lines up with no key above it",
        "the same indentation for keys of the same map",
        "give it exactly as many spaces as the keys that it belongs to",
    )

"""Problems and findings for a terminal, for annotations in a forge, and as JSON entries."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from guide_gen.model.finding import Finding, Level
from guide_gen.values.show import plain_spaces

_ANNOTATION = {Level.MUST: "error", Level.SHOULD: "warning", Level.NOTE: "notice"}
_WIDEST = 160


def sentence(finding: Finding) -> str:
    """What is wrong, what was expected and how to mend it, in one line."""
    parts = [finding.message.rstrip("."), f"expected {finding.expected}" if finding.expected else ""]
    said = "; ".join(part for part in parts if part)
    joint = ". " if finding.mend[:1].isupper() else "; "
    return plain_spaces(joint.join(part.rstrip(".") for part in (said, finding.mend) if part) + ".")


def as_text(finding: Finding, source_lines: Sequence[str] | None = None) -> str:
    """One line that stands alone; with the file's lines also the line it is about, marked below."""
    head = _visible(f"{finding.where}: {finding.level} [{finding.code}] {sentence(finding)}")
    if source_lines is None or not 0 < finding.where.line <= len(source_lines):
        return head
    line = _visible(source_lines[finding.where.line - 1])
    if not line.strip() or finding.where.column > _WIDEST:
        return head
    start = finding.where.column - 1
    blank = "".join("\t" if sign == "\t" else " " for sign in line[:start])
    number = str(finding.where.line)
    shown = line[:_WIDEST]
    carets = "^" * max(1, min(_length(line, start), _WIDEST - start))
    return f"{head}\n   {number} | {shown}\n   {' ' * len(number)} | {blank}{carets}"


def as_github(finding: Finding) -> str:
    """An annotation that forges with workflow commands show beside the line."""
    where = finding.where
    title = _property(f"{finding.level} [{finding.code}]")
    return (
        f"::{_ANNOTATION[finding.level]} file={_property(where.file)},line={where.line},col={where.column},"
        f"title={title}::{_data(sentence(finding))}"
    )


def as_json(finding: Finding) -> Mapping[str, Any]:
    """One entry of ``findings``."""
    where = finding.where
    entry = {
        "code": finding.code,
        "level": finding.level.value,
        "message": plain_spaces(finding.message),
        "expected": plain_spaces(finding.expected),
        "mend": plain_spaces(finding.mend),
        "where": {"file": where.file, "line": where.line, "column": where.column},
    }
    return entry | ({"toy": finding.toy} if finding.toy else {})


def _visible(text: str) -> str:
    """Text of a stranger for a terminal: signs that would steer it are shown as a replacement."""
    return "".join(sign if sign.isprintable() or sign == "\t" else "\ufffd" for sign in text)


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def _length(line: str, start: int) -> int:
    """How many signs the marked thing has: a key, a quoted text, something in brackets, tabs, or a value."""
    rest = line[start:]
    if blank := re.match(r"\s+", rest):
        return len(blank[0])
    if key := re.match(r"[\w-]+(?=\s*:(\s|$))", rest):
        return len(key[0])
    if quoted := re.match(r"\"[^\"]*\"|'[^']*'", rest):
        return len(quoted[0])
    if rest[:1] in {"{", "["}:
        return 1
    ends = r"\s+#|\s*$"
    if line[:start].count("{") > line[:start].count("}") or line[:start].count("[") > line[:start].count("]"):
        ends += r"|\s*,(?!\d)|\s*[}\]]"
    end = re.search(ends, rest)
    return max(1, end.start()) if end else len(rest)

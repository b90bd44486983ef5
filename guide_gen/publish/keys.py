"""The keys of a description as rows of a table, asked of the model itself."""

import types
import typing
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Any, Literal

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from guide_gen.controls import controls
from guide_gen.description.build import Build
from guide_gen.model.fields import ControlFields, ToyFields
from guide_gen.toys import kinds
from guide_gen.values.reading import QuantityReading, Scalar


class Left(StrEnum):
    """What happens when a key is left out."""

    ASKED = "asked for"
    CHOSEN = "chosen"
    DEFAULT = "default"
    OFF = "left off"


@dataclass(frozen=True)
class KeyRow:
    """One key. path: the keys that lead to it, from the head of its group. group: the table that it stands in.

    unit: units that it takes, words to choose from, or what sort of text. left: what happens when it is left out;
    detail: what to look at, by which rule it is chosen, or the default with its source.
    """

    group: str
    path: str
    meaning: str
    unit: str
    left: Left
    detail: str
    example: str


# The smallest description that passes; the page of keys shows it.
SMALLEST = """\
build: Tidepool
wiring: {ampacity_table: IEC 60204-1}
supplies: {brick: {voltage: 12 V, current: 8 A, overload: restarts}}
toys:
  bump:
    kind: shaker motor
    voltage: 12 V
    current: 1.9 A (measured)
    cover: yes
    control: {type: always on}
    feed: {run: 0.9 m}
"""

_GROUPS = {
    "wiring": "wiring",
    "cabinet": "cabinet",
    "supplies": "supplies: a supply",
    "boards": "boards: a board",
    "blocks": "blocks: a distribution block",
    "toys": "toys: every toy",
}


def key_rows() -> tuple[KeyRow, ...]:
    """Every key of a description: the build, every toy, then what each kind and each control adds."""
    rows = list(_rows(Build, "the build", ""))
    rows.append(_choice("kind", kinds(), "what it is", "shaker motor"))
    rows.append(_choice("control.type", controls(), "how it is driven", "pwm port"))
    for word, kind in kinds().items():
        own = _own(kind.fields, ToyFields)
        rows += _rows(kind.fields, f"toys: what a {word} adds", "toys.<toy>.", own)
    for word, control in controls().items():
        own = _own(control.fields, ControlFields)
        rows += _rows(control.fields, f"control: {word}", "toys.<toy>.control.", own)
    return tuple(rows)


def _choice(name: str, words: Iterable[str], meaning: str, example: str) -> KeyRow:
    """The key that says which kind or which control; what it is decides which keys stand beside it."""
    path = f"toys.<toy>.{name}"
    return KeyRow(_GROUPS["toys"], path, meaning, ", ".join(words), Left.ASKED, "choose one of the words", example)


def _own(fields: type[BaseModel], common: type[BaseModel]) -> set[str]:
    return set(fields.model_fields) - set(common.model_fields) - {"type", "kind"}


def _rows(section: type[BaseModel], group: str, before: str, only: set[str] | None = None) -> Iterator[KeyRow]:
    for name, field in section.model_fields.items():
        if only is not None and name not in only:
            continue
        written = field.alias or name
        within = group if before else _GROUPS.get(written, group)
        inner = _sections(field.annotation)
        step = f"{written}.<{_one_of(written)}>" if _is_map(field.annotation) else written
        if field.json_schema_extra is not None:
            yield _row(field, within, before + written)
        for fields in inner:
            if fields is not ControlFields:
                yield from _rows(fields, within, f"{before}{step}.")


def _one_of(plural: str) -> str:
    return {"supplies": "supply", "boards": "board", "blocks": "block", "toys": "toy"}.get(plural, "name")


def _is_map(annotation: Any) -> bool:
    return typing.get_origin(annotation) in {dict, Mapping}


def _sections(annotation: Any) -> list[type[BaseModel]]:
    """The maps of keys that a key may hold."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    if typing.get_origin(annotation) in {typing.Union, types.UnionType, dict}:
        return [section for part in typing.get_args(annotation) for section in _sections(part)]
    return []


def _row(field: FieldInfo, group: str, path: str) -> KeyRow:
    extra = field.json_schema_extra
    assert isinstance(extra, dict)
    left, detail = _left_out(field, extra)
    return KeyRow(group, path, field.description or "", _takes(field), left, detail, str(extra["example"]))


def _left_out(field: FieldInfo, extra: Mapping[str, Any]) -> tuple[Left, str]:
    if "ask" in extra:
        return Left.ASKED, str(extra["ask"])
    if "chosen" in extra:
        return Left.CHOSEN, str(extra["chosen"])
    if "default_source" in extra and field.default == {}:
        return Left.DEFAULT, "the keys in it take their defaults"
    if "default_source" in extra:
        return Left.DEFAULT, f"{_default(field.default)} ({extra['default_source']})"
    return Left.OFF, ""


def _default(value: Any) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{name}: {part}" for name, part in value.items())
    if isinstance(value, tuple):
        return ", ".join(map(str, value)) or "none"
    return str(value)


def _takes(field: FieldInfo) -> str:
    """Units, words or sort of text that a key takes."""
    forms = list(dict.fromkeys([*map(_reading, field.metadata), *_forms(field.annotation)]))
    return ", or ".join(form for form in forms if form)


def _forms(annotation: Any) -> Iterator[str]:
    """What each part of an annotation takes, in words."""
    origin = typing.get_origin(annotation)
    if origin is Literal:
        yield ", ".join(map(str, typing.get_args(annotation)))
    elif origin is Annotated:
        yield from filter(None, map(_reading, annotation.__metadata__))
        yield from _forms(typing.get_args(annotation)[0])
    elif origin in {typing.Union, types.UnionType}:
        for part in typing.get_args(annotation):
            yield from _forms(part)
    elif origin is tuple:
        yield "a list"
    elif _is_map(annotation) or _sections(annotation):
        yield "a map"


def _reading(reader: object) -> str:
    """The units of a quantity, or what sort of value stands there."""
    if isinstance(reader, QuantityReading):
        return reader.wanted.units
    return reader.expected.partition(", such as")[0] if isinstance(reader, Scalar) else ""

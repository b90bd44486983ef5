"""What the model wants at each place: looked up in its annotations, for messages, schema, key table and defaults."""

import types
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from guide_gen.description.build import Choice, build_model
from guide_gen.description.tree import Keys
from guide_gen.description.wording import Path
from guide_gen.model.fields import Section
from guide_gen.values.reading import QuantityReading, Scalar, read_plain_text


@dataclass(frozen=True)
class Words:
    """One of these words."""

    words: tuple[str, ...]


@dataclass(frozen=True)
class MapOf:
    """A map from slugs to things that a person describes."""

    inner: Any


@dataclass(frozen=True)
class ListOf:
    """A list of things."""

    inner: Any


Shape = type[Section] | Choice | MapOf | ListOf | Words | Scalar | QuantityReading


def shapes(annotation: Any, metadata: Any = ()) -> Iterator[Shape]:
    """The shapes that a value of this annotation may have."""
    marked = next((mark for mark in metadata if isinstance(mark, Choice | Scalar | QuantityReading)), None)
    origin, args = get_origin(annotation), get_args(annotation)
    if marked:
        yield marked
    elif origin is Annotated:
        yield from shapes(args[0], args[1:])
    elif origin in {Union, types.UnionType}:
        for each in args:
            yield from shapes(each)
    elif origin is Literal:
        yield Words(args)
    elif origin is dict:
        yield MapOf(args[1])
    elif origin is tuple:
        yield ListOf(args[0])
    elif isinstance(annotation, type) and issubclass(annotation, Section):
        yield annotation


def shapes_of(field: FieldInfo) -> list[Shape]:
    """The shapes that the value of a key may have."""
    return list(shapes(field.annotation, field.metadata))


def keys_of(model: type[Section]) -> dict[str, FieldInfo]:
    """The keys of a map as they are written, in the order of the model."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def said(field: FieldInfo, what: str) -> Any:
    """What a key says of itself: ``example``, ``ask``, ``chosen``, ``default_source``."""
    extra = field.json_schema_extra
    return extra.get(what, "") if isinstance(extra, dict) else ""


def _models_of(shape: Shape) -> list[type[Section]]:
    if isinstance(shape, Choice):
        return list(shape.models.values())
    return [shape] if isinstance(shape, type) else []


def _chosen(shape: Shape, value: Any) -> list[type[Section]]:
    """The maps that a value may be, narrowed by the word that chooses."""
    if isinstance(shape, Choice) and isinstance(value, Mapping):
        word = str(value.get(shape.by))
        return [shape.models[word]] if word in shape.models else list(shape.models.values())
    return _models_of(shape)


def at(data: Any, path: Path) -> list[Shape]:
    """The shapes that may stand at a path of this description; none when the path leads nowhere."""
    here: list[Shape] = [build_model()]
    value = data
    for step in path:
        here = list(into(here, value, step))
        value = value.get(step) if isinstance(value, Mapping) else None
    return here


def into(here: list[Shape], value: Any, step: str) -> Iterator[Shape]:
    """The shapes behind one key of a value that may have the shapes `here`."""
    for shape in here:
        if isinstance(shape, MapOf | ListOf):
            yield from shapes(shape.inner)
        for model in _chosen(shape, value):
            if step in keys_of(model):
                yield from shapes_of(keys_of(model)[step])


def field_at(data: Any, path: Path) -> FieldInfo | None:
    """The key at a path of this description, if the model has it."""
    value = data
    for step in path[:-1]:
        value = value.get(step) if isinstance(value, Mapping) else None
    for shape in at(data, path[:-1]):
        for model in _chosen(shape, value):
            if path[-1] in keys_of(model):
                return keys_of(model)[path[-1]]
    return None


def known_at(data: Any, path: Path) -> list[str]:
    """The keys that a map at this path may have."""
    value = data
    for step in path:
        value = value.get(step) if isinstance(value, Mapping) else None
    known: dict[str, None] = {}
    for shape in at(data, path):
        if isinstance(shape, QuantityReading):
            known |= dict.fromkeys(["value", "basis", "how", "by", "date"])
        for model in _chosen(shape, value):
            known |= dict.fromkeys(keys_of(model))
    return list(known)


def owners(data: Any, path: Path) -> tuple[str, str, list[str]] | None:
    """Of a key that the map's chosen word does not have: by which key the word is chosen, the word, and those that do.

    None where nothing is chosen, or no other word has it.
    """
    value = data
    for step in path[:-1]:
        value = value.get(step) if isinstance(value, Mapping) else None
    for shape in at(data, path[:-1]):
        if not isinstance(shape, Choice) or not isinstance(value, Mapping):
            continue
        word = str(value.get(shape.by))
        if word in shape.models:
            having = [other for other, model in shape.models.items() if path[-1] in keys_of(model)]
            if having and word not in having:
                return shape.by, word, having
    return None


def every_key() -> Iterator[tuple[Path, FieldInfo]]:
    """Every key of the model with its path; things that have a slug stand as ``<slug>``, choices as ``<word>``."""
    yield from _keys_under(build_model(), ())


def _keys_under(model: type[Section], path: Path) -> Iterator[tuple[Path, FieldInfo]]:
    for key, field in keys_of(model).items():
        here = (*path, key)
        yield here, field
        for shape in shapes_of(field):
            if isinstance(shape, MapOf):
                here, inner = (*here, "<slug>"), list(shapes(shape.inner))
            else:
                inner = [shape]
            for each in inner:
                if isinstance(each, Choice):
                    for word, chosen in each.models.items():
                        yield from _keys_under(chosen, (*here, f"<{word}>"))
                elif isinstance(each, type):
                    yield from _keys_under(each, here)


@cache
def all_keys() -> Keys:
    """All keys that there are, and those that hold free text."""
    known, texts = {"value", "basis", "how", "by", "date"}, {"how", "by", "date"}
    for path, field in every_key():
        known.add(path[-1])
        if any(isinstance(shape, Scalar) and shape.read is read_plain_text for shape in shapes_of(field)):
            texts.add(path[-1])
    return Keys(frozenset(known), frozenset(texts))


@cache
def homes() -> Mapping[str, tuple[str, ...]]:
    """key -> the keys under which it belongs, for keys that somebody has put elsewhere."""
    found: dict[str, dict[str, None]] = {}
    for path, _ in every_key():
        above = [step for step in path[:-1] if not step.startswith("<")]
        found.setdefault(path[-1], {})[above[-1] if above else ""] = None
    return {key: tuple(above) for key, above in found.items()}

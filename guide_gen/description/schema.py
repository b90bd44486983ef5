"""JSON Schema of a description, for editors, from the same model that reads it."""

from typing import Any

from pydantic.fields import FieldInfo

from guide_gen.description import shape
from guide_gen.description.build import Choice, build_model
from guide_gen.description.read import default_text
from guide_gen.model.fields import Section
from guide_gen.values.reading import LONGEST_SLUG, SLUG, JsonSchema, QuantityReading

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> JsonSchema:
    """The schema of a whole description (JSON Schema 2020-12).

    An editor reads ``port: 2`` as a number and ``cover: yes`` as text or as true: such scalars may be either.
    """
    definitions: dict[str, JsonSchema] = {}
    whole = _map(build_model(), definitions)
    return (
        {"$schema": DIALECT, "description": (build_model().__doc__ or "").strip()}
        | whole
        | {"$defs": dict(sorted(definitions.items()))}
    )


def _map(model: type[Section], definitions: dict[str, JsonSchema], only: tuple[str, str] | None = None) -> JsonSchema:
    """A map with its keys; `only` is the key that chooses it, and its word."""
    properties, required = {}, []
    for key, field in shape.keys_of(model).items():
        properties[key] = _key(field, definitions)
        if only and key == only[0]:
            properties[key] |= {"enum": [only[1]]}
        if field.is_required():
            required.append(key)
    wanted: JsonSchema = {"required": required} if required else {}
    return {"type": "object", "additionalProperties": False} | wanted | {"properties": properties}


def _key(field: FieldInfo, definitions: dict[str, JsonSchema]) -> JsonSchema:
    """One key: what may stand there, and what it means."""
    values = [_value(each, definitions) for each in shape.shapes_of(field)]
    value = values[0] if len(values) == 1 else {"anyOf": values}
    said: JsonSchema = {"description": meaning(field), "examples": [shape.said(field, "example")]}
    if shape.said(field, "default_source") and not field.is_required() and field.default not in ({}, (), None):
        said["default"] = field.default if isinstance(field.default, dict) else default_text(field.default)
    return value | said


def meaning(field: FieldInfo) -> str:
    """What a key means, and what happens when it is left out, in one line."""
    text = (field.description or "").rstrip(".")
    if ask := shape.said(field, "ask"):
        return f"{text}. Asked for: {ask}."
    if chosen := shape.said(field, "chosen"):
        return f"{text}. Left out: {chosen}."
    if shape.said(field, "default_source") and field.default not in ({}, ()):
        return f"{text}. Left out: {default_text(field.default)}."
    return f"{text}."


def _value(here: shape.Shape, definitions: dict[str, JsonSchema]) -> JsonSchema:
    if isinstance(here, shape.Words):
        return {"type": "string", "enum": list(here.words)}
    if isinstance(here, shape.MapOf):
        return {
            "type": "object",
            "propertyNames": {"pattern": f"^{SLUG}$", "maxLength": LONGEST_SLUG},
            "additionalProperties": _one_of(list(shape.shapes(here.inner)), definitions),
        }
    if isinstance(here, shape.ListOf):
        return {"type": "array", "items": _one_of(list(shape.shapes(here.inner)), definitions)}
    if isinstance(here, Choice):
        return _choice(here, definitions)
    if isinstance(here, type):
        return _reference(here.__name__, here, None, definitions)
    if isinstance(here, QuantityReading):
        name = here.wanted.dimension + ("-or-range" if here.wanted.ranged else "")
        if other := here.wanted.instead:
            name += f"-or-{other.dimension}"
        definitions.setdefault(name, here.json_schema())
        return {"$ref": f"#/$defs/{name}"}
    return here.json_schema()


def _one_of(shapes: list[shape.Shape], definitions: dict[str, JsonSchema]) -> JsonSchema:
    values = [_value(each, definitions) for each in shapes]
    return values[0] if len(values) == 1 else {"anyOf": values}


def _choice(choice: Choice, definitions: dict[str, JsonSchema]) -> JsonSchema:
    """A map whose keys follow from one word: told by word, so that an editor names the key that is wrong."""
    branches: list[Any] = []
    for word, model in choice.models.items():
        branches.append(
            {
                "if": {"properties": {choice.by: {"const": word}}, "required": [choice.by]},
                "then": _reference(f"{choice.by} {word}", model, (choice.by, word), definitions),
            }
        )
    return {
        "type": "object",
        "required": [choice.by],
        "properties": {choice.by: {"enum": list(choice.models)}},
        "allOf": branches,
    }


def _reference(
    name: str, model: type[Section], only: tuple[str, str] | None, definitions: dict[str, JsonSchema]
) -> JsonSchema:
    """A reference to the definition of a map, which is made at its first use."""
    plain = "".join(sign if sign.isalnum() else "-" for sign in name)
    if plain not in definitions:
        definitions[plain] = {}
        definitions[plain] = _map(model, definitions, only)
    return {"$ref": f"#/$defs/{plain}"}

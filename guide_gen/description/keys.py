"""The table of keys for the site, from the model."""

from dataclasses import dataclass

from pydantic.fields import FieldInfo

from guide_gen.description import shape
from guide_gen.description.build import Choice
from guide_gen.description.read import default_text
from guide_gen.values.grammar import either
from guide_gen.values.reading import QuantityReading, Scalar, read_slug, read_wire_size, read_yes_no
from guide_gen.values.units import DIMENSIONS


@dataclass(frozen=True)
class KeyRow:
    """One row of the table.

    path: as in ``toys.<slug>.feed.run``; ``<shaker motor>`` stands where the key is one of that kind or control alone.
    unit: units or words that may stand. left_out: ``asked for``, ``chosen``, ``default`` or ``left off``.
    says: what to measure, the rule that chooses, or the default.
    """

    path: str
    meaning: str
    unit: str
    left_out: str
    says: str
    example: str


def key_rows() -> list[KeyRow]:
    """Every key of a description once, in the order of the model.

    What all kinds of toy share stands once, under ``toys.<slug>``; what all controls share, under ``control``.
    """
    paths = dict(shape.every_key())
    fields: dict[str, list[FieldInfo]] = {}
    for path, field in paths.items():
        fields.setdefault(".".join(_shared(path, paths)), []).append(field)
    return [_row(shown, same) for shown, same in fields.items()]


def _shared(path: tuple[str, ...], paths: dict[tuple[str, ...], FieldInfo]) -> list[str]:
    """The path without the words of choices that all have this key."""
    kept = []
    for index, step in enumerate(path):
        if step.startswith("<") and step != "<slug>" and index < len(path) - 1 and _in_all(path, index, paths):
            continue
        kept.append(step)
    return kept


def _in_all(path: tuple[str, ...], index: int, paths: dict[tuple[str, ...], FieldInfo]) -> bool:
    before, key = path[:index], path[index + 1]
    words = {
        other[index]
        for other in paths
        if len(other) > index + 1 and other[:index] == before and other[index].startswith("<")
    }
    return all((*before, word, key) in paths for word in words)


def _row(shown: str, same: list[FieldInfo]) -> KeyRow:
    """The row of a key, or of the same key of several kinds: its words are those of all of them."""
    field, left_out, says = same[0], "left off", ""
    if ask := shape.said(field, "ask"):
        left_out, says = "asked for", str(ask)
    elif chosen := shape.said(field, "chosen"):
        left_out, says = "chosen", str(chosen)
    elif shape.said(field, "default_source"):
        says = default_text(field.default) if field.default else "none" if field.default == () else "as its keys say"
        left_out = "default"
    units = either(list(dict.fromkeys(_unit(each) for one in same for each in shape.shapes_of(one))))
    return KeyRow(shown, field.description or "", units, left_out, says, str(shape.said(field, "example")))


def _unit(here: shape.Shape) -> str:
    """What may stand there, in a few words."""
    if isinstance(here, QuantityReading):
        other = here.wanted.instead
        return ", ".join(
            [*DIMENSIONS[here.wanted.dimension].units, *(DIMENSIONS[other.dimension].units if other else ())]
        )
    if isinstance(here, shape.Words):
        return ", ".join(here.words)
    if isinstance(here, Choice):
        return f"a map, by its {here.by}"
    if isinstance(here, Scalar):
        return _SCALARS.get(here.expected, "a number" if here.expected.startswith("a number") else "text")
    return "a list" if isinstance(here, shape.ListOf) else "a map"


_SCALARS = {read_yes_no().expected: "yes, no", read_wire_size().expected: "mm2, AWG", read_slug().expected: "a name"}

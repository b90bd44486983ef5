"""The first description of a cabinet: a few questions, and a commented text that passes."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pydantic.fields import FieldInfo

from guide_gen.controls import controls
from guide_gen.description import shape
from guide_gen.description.build import Choice, build_model
from guide_gen.description.problems import near
from guide_gen.description.wording import Path
from guide_gen.model.fields import Section
from guide_gen.published.tables import families
from guide_gen.toys import kinds
from guide_gen.values.grammar import UnreadableError, either, parse_quantity
from guide_gen.values.reading import QuantityReading, Scalar, slug_like

_WIDTH = 38  # column of the comments


@dataclass(frozen=True)
class Question:
    """One thing to ask: the answer stands at `path`, where ``*`` is the thing that is described.

    text: the question, with what to look at. default: taken on an empty answer. choices: words, or none for free text.
    """

    path: Path
    text: str
    default: str
    choices: tuple[str, ...] = ()

    def wrong(self, answer: str) -> str:
        """What is wrong with an answer, in a sentence; "" when nothing is."""
        if self.choices:
            guess = near(answer, self.choices)
            hint = f'; did you mean "{guess}"?' if guess else ""
            return "" if answer in self.choices else f"Choose {either(list(self.choices))}{hint}"
        for reading in shape.shapes_of(_field(self.path)):
            try:
                if isinstance(reading, QuantityReading):
                    parse_quantity(answer, reading.wanted)
                elif isinstance(reading, Scalar):
                    reading.read(answer)
            except UnreadableError as error:
                return f"{error.wrong[:1].upper()}{error.wrong[1:]}: {error.mend}."
        return ""


def questions() -> list[Question]:
    """What ``guide-gen start`` asks, in order."""
    kind_words, control_words = tuple(kinds()), tuple(controls())
    return [
        _question(("build",), "What is the cabinet called?", "My cabinet"),
        _question(
            ("wiring", "ampacity_table"),
            "Which family of wire tables holds where you are? IEC 60204-1 for wire in mm2, 33 CFR 183.425 for AWG.",
            "IEC 60204-1",
        ),
        _question(("supplies", "*", "voltage"), "Voltage on the power supply's label, DC?", "12 V"),
        _question(("supplies", "*", "current"), "Current on the power supply's label?", "10 A"),
        _question(("supplies", "*", "overload"), "What does the supply do when asked for too much?", "not known"),
        Question(("toys", "*", "kind"), "What is the first toy?", _preferred("shaker motor", kind_words), kind_words),
        Question(
            ("toys", "*", "control", "type"), "How is it driven?", _preferred("pwm port", control_words), control_words
        ),
        _question(("toys", "*", "voltage"), "Its own rated voltage?", "12 V"),
        _question(
            ("toys", "*", "current"),
            "Current at full voltage, loaded as in use (measured, or an estimate)?",
            "2 A (estimate)",
        ),
        _question(("toys", "*", "feed", "run"), "Length of wire from the fuse to the toy, one way?", "1.5 m"),
    ]


def starting_text(answers: Mapping[Path, str]) -> str:
    """A commented description from answers by the paths of `questions`; what was not answered takes its default.

    Keys that are asked for and that no question covers stand with an example, marked to be looked at.
    """
    given = {question.path: answers.get(question.path, question.default) for question in questions()}
    kind, control = given["toys", "*", "kind"], given["toys", "*", "control", "type"]
    family = families()[given["wiring", "ampacity_table"]]
    ported = "board" in shape.keys_of(controls()[control].fields)
    if family.sizes_system == "AWG":
        given["units",] = "US"
    if ported:
        given["toys", "*", "control", "board"] = "board"
        given["toys", "*", "control", "port"] = "1"
    if control == "pwm port":
        given["boards", "*", "pwm_frequency"] = "200 Hz"
    names = {"supplies": "main", "boards": "board", "toys": slug_like(kind)}
    head = [
        "# yaml-language-server: $schema=../../build.schema.json",
        "# Change the values to yours. What each key means, and which more there are, stands on the page",
        '# "Describe your own build". Behind "# " stands a comment: keep the space.',
    ]
    skip: set[Path] = set() if ported else {("boards",)}
    return "\n".join([*head, *_lines(build_model(), (), given, names, skip)]) + "\n"


def _preferred(word: str, words: tuple[str, ...]) -> str:
    return word if word in words else words[0]


def _question(path: Path, text: str, default: str) -> Question:
    words = [word for each in shape.shapes_of(_field(path)) if isinstance(each, shape.Words) for word in each.words]
    return Question(path, text, default, tuple(words))


def _field(path: Path) -> FieldInfo:
    field = shape.field_at({}, path)
    assert field is not None
    return field


def _lines(
    model: type[Section], path: Path, given: Mapping[Path, str], names: Mapping[str, str], skip: set[Path]
) -> Iterator[str]:
    """The lines of a map: every key that is asked for or answered, or that a first description has."""
    indent = "  " * len(path)
    for key, field in shape.keys_of(model).items():
        here = (*path, key)
        below = any(other[: len(here)] == here for other in given)
        wanted = field.is_required() or shape.said(field, "starts")
        if here in skip or not (wanted or below or here == ("boards",)):
            continue
        shapes = shape.shapes_of(field)
        if here in given or not any(isinstance(each, shape.MapOf | Choice | type) for each in shapes):
            yield _line(indent, key, given.get(here, ""), field)
            continue
        if not path:
            yield ""
        yield f"{indent}{key}:"
        if isinstance(shapes[0], shape.MapOf):
            yield f"{indent}  {names[key]}:"
            inner, within = next(shape.shapes(shapes[0].inner)), (*here, "*")
        else:
            inner, within = shapes[0], here
        yield from _lines(_model_of(inner, within, given), within, given, names, skip)


def _model_of(inner: shape.Shape, path: Path, given: Mapping[Path, str]) -> type[Section]:
    if isinstance(inner, Choice):
        return inner.models[given[*path, inner.by]]
    assert isinstance(inner, type)
    return inner


def _line(indent: str, key: str, answer: str, field: FieldInfo) -> str:
    value = answer or str(shape.said(field, "example"))
    meaning = field.description or ""
    if not answer:
        meaning += f"; {shape.said(field, 'ask')}" if shape.said(field, "ask") else ""
    return f"{indent}{key}: {_scalar(value)}".ljust(_WIDTH - 1) + f" # {meaning}"


def _scalar(text: str) -> str:
    """Text as it may stand behind a colon."""
    if re.fullmatch(r"[A-Za-z0-9][^:#\"'\\{}\[\],&*!|>%@`\n\r\t]*(%| \([a-z]+\))?", text) and text == text.strip():
        return text
    return "'" + " ".join(text.split()).replace("'", "''") + "'"

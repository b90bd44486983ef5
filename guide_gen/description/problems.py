"""All problems of a description at once, each in a sentence with its place.

What only follows from another problem is not told.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import islice
from typing import Any

from pydantic import ValidationError

from guide_gen.description import shape
from guide_gen.description.build import Build, Choice, build_model
from guide_gen.description.references import reference_problems
from guide_gen.description.tree import Written
from guide_gen.description.wording import Path, problem, shown, these
from guide_gen.model.fields import Section
from guide_gen.model.finding import Finding
from guide_gen.values.grammar import either
from guide_gen.values.reading import BRANCH, QuantityReading, shape_of

MOST = 200  # problems told of one file; mending these comes first anyway
_CODES = {
    "unit-missing",
    "unit-unknown",
    "unit-wrong",
    "number-wrong",
    "implausible",
    "above-extra-low-voltage",
    "word-unknown",
    "value-shape",
    "key-missing",
}
_CHOICE_ERRORS = {"union_tag_invalid", "union_tag_not_found"}


@dataclass(frozen=True)
class _Error:
    """An error of pydantic with the path of the description that it concerns."""

    kind: str
    path: Path
    given: Any
    context: Mapping[str, Any]


def judge(written: Written) -> tuple[Build | None, tuple[Finding, ...]]:
    """The build, if nothing keeps it from being read, and every problem by place."""
    if not isinstance(written.data, Mapping):
        return None, _sorted([*written.problems, *_no_map(written)])
    errors = _errors(build_model(), written.data, ())
    meant = {
        (*error.path[:-1], _meant(error.path, written)) for error in errors[:MOST] if error.kind == "extra_forbidden"
    }
    found = [
        each
        for error in errors[:MOST]
        if (each := _finding(error, written)) and not (error.kind == "missing" and error.path in meant)
    ]
    found += islice(reference_problems(written), MOST)
    problems = _sorted([*(_asking(each, written) for each in written.problems), *_first_of_each(found, written)])
    return (None if problems else build_model().model_validate(written.data)), problems


def _sorted(problems: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(problems, key=lambda each: each.where))[:MOST]


def _first_of_each(found: list[Finding], written: Written) -> Iterator[Finding]:
    """One problem for each path; a name that is not described says more than its form."""
    unknown_names = {each.path for each in found if each.code == "name-unknown"}
    seen: set[Path] = set()
    for each in found:
        follows = each.path in written.told or each.path in seen
        if follows or (each.path in unknown_names and each.code != "name-unknown"):
            continue
        seen.add(each.path)
        yield each


def _no_map(written: Written) -> Iterator[Finding]:
    """A file whose top is no map: empty, prose, a list."""
    where = written.place(())
    asked = [key for key, field in shape.keys_of(build_model()).items() if shape.said(field, "ask")]
    expected = f"the keys {these(asked)}"
    mend = "begin with the smallest description that passes, and change its values"
    if () in written.told:
        return
    if written.data is None:
        yield problem("key-missing", (), "nothing is written in this file", expected, mend, where)
    else:
        yield problem(
            "value-shape", (), f"{shape_of(written.data)} stands where a map of keys belongs", expected, mend, where
        )


def _errors(model: type[Section], data: Any, at: Path) -> list[_Error]:
    """All errors of a map. Where the word that chooses is wrong, what is wrong whatever it should be is added."""
    try:
        model.model_validate(data)
    except ValidationError as invalid:
        errors = []
        for each in invalid.errors(include_url=False):
            steps = [str(step) for step in each["loc"] if not str(step).startswith(BRANCH)]
            is_key = steps[-1:] == ["[key]"] and each["type"] in _CODES
            relative = tuple(steps[:-1] if is_key else steps)
            kind = "[key]" if is_key else each["type"]
            error = _Error(kind, at + relative, each["input"], each.get("ctx", {}))
            errors.append(error)
            if kind in _CHOICE_ERRORS and isinstance(error.given, Mapping) and len(errors) < MOST:
                errors += _whatever_it_is(_choice(model, data, relative), error.given, error.path)
        return errors
    return []


def _choice(model: type[Section], data: Any, relative: Path) -> Choice:
    """The choice that stands at a path below a map."""
    here: list[shape.Shape] = [model]
    for step in relative:
        here = list(shape.into(here, data, step))
        data = data.get(step) if isinstance(data, Mapping) else None
    return next(each for each in here if isinstance(each, Choice))


def _whatever_it_is(choice: Choice, value: Mapping[str, Any], at: Path) -> list[_Error]:
    """The errors of a map that every choice finds which knows the key."""
    by_word = {
        word: {(error.kind, error.path): error for error in _errors(model, {**value, choice.by: word}, at)}
        for word, model in choice.models.items()
    }
    told = {}
    for errors in by_word.values():
        for (kind, path), error in errors.items():
            step = path[len(at)] if len(path) > len(at) else ""
            direct = len(path) == len(at) + 1 and kind in {"missing", "extra_forbidden"}
            knowing = [word for word, model in choice.models.items() if direct or step in shape.keys_of(model)]
            if step != choice.by and all((kind, path) in by_word[word] for word in knowing):
                told[kind, path] = error
    return list(told.values())


def _finding(error: _Error, written: Written) -> Finding | None:
    """The problem that an error of pydantic stands for."""
    where = written.place(error.path)
    if error.kind in _CODES or error.kind == "[key]":
        code = error.kind if error.kind in _CODES else "value-shape"
        at_key = error.kind == "[key]"
        context = error.context
        return problem(
            code,
            error.path,
            context["wrong"],
            context["expected"],
            context["mend"],
            written.key_place(error.path) if at_key else where,
            about=error.path[:-1] if at_key else None,
        )
    if error.kind == "missing":
        return missing(error.path, written)
    if error.kind == "extra_forbidden":
        return _unknown_key(error.path, written)
    if error.kind in _CHOICE_ERRORS:
        return _wrong_choice(error, written)
    if error.kind == "literal_error" and isinstance(error.given, str):
        return _wrong_word(error.path, error.given, _words(shape.at(written.data, error.path)), written)
    return _wrong_shape(error, written)


def missing(path: Path, written: Written, words: list[str] | None = None) -> Finding:
    """A key that is asked for and left out: the place of the map that lacks it, and how to find its value.

    words: the choices, where they are more than the key itself says.
    """
    field = shape.field_at(written.data, path)
    key, outer = path[-1], path[:-1]
    expected, mend = f'"{key}"', f'write "{key}:" and its value'
    quantity = next((each for each in shape.at(written.data, outer) if isinstance(each, QuantityReading)), None)
    if quantity:
        expected, mend = quantity.wanted.sentence, f'write "{key}: {quantity.wanted.example}"'
    if field:
        example = shape.said(field, "example")
        words = words or _words(shape.shapes_of(field))
        expected = f'{field.description}, such as "{key}: {example}"'
        if words:
            expected = f"{field.description}: {either(words)}"
        mend = str(shape.said(field, "ask")) or f'write "{key}: {example}"'
    return problem("key-missing", path, f'"{key}" is missing', expected, mend, written.place(outer), about=outer)


def _asking(found: Finding, written: Written) -> Finding:
    """A key with nothing behind it: say what is asked for, as for a key that is missing."""
    if found.code != "key-missing" or not shape.field_at(written.data, found.path):
        return found
    asked = missing(found.path, written)
    return replace(found, expected=asked.expected, mend=f"{asked.mend}; or take the key away if it is not asked for")


def _words(shapes: Iterable[shape.Shape]) -> list[str]:
    """The words that may stand where one of these shapes is wanted."""
    return [word for each in shapes if isinstance(each, shape.Words) for word in each.words]


def near(word: str, words: Iterable[str]) -> str:
    """The word that was probably meant, or ""."""
    if len(word) > 60:
        return ""
    plain, by_plain = _plain(word), {_plain(each): each for each in words}
    longer = [each for each in by_plain if plain and each.startswith(f"{plain} ")]
    shorter = [each for each in by_plain if each and plain.startswith(f"{each} ")]
    sure = next((each for each in (longer, shorter) if len(each) == 1), [])
    found = sure or get_close_matches(plain, list(by_plain), 1, 0.6)
    return by_plain[found[0]] if found else ""


def _plain(word: str) -> str:
    """Without the differences that people do not see: capitals, hyphens, underscores, the cross between lengths."""
    return word.lower().replace("_", " ").replace("-", " ").replace("×", "x").strip()


def _meant(path: Path, written: Written) -> str:
    """The key that an unknown one was probably meant to be, one that is not written yet first; or ""."""
    known, outer = shape.known_at(written.data, path[:-1]), path[:-1]
    return near(path[-1], [key for key in known if (*outer, key) not in written.keys]) or near(path[-1], known)


def _unknown_key(path: Path, written: Written) -> Finding:
    key, outer = path[-1], path[:-1]
    known, guess = shape.known_at(written.data, outer), _meant(path, written)
    homes = [home for home in shape.homes().get(key, ()) if home]
    near_homes = [home for home in homes if home in known] or homes
    other = shape.owners(written.data, path)
    if guess:
        mend = f'write "{guess}"'
    elif other:
        by, chosen, having = other
        mend = f'"{key}" goes with {by}: {either(having[:3])}; with {by}: {chosen} nothing is set by it: take it away'
    elif near_homes:
        mend = f'"{key}" belongs under {either(near_homes[:3])}'
    else:
        mend = 'take it away, or make it a comment with "# " in front'
    expected = f"one of {', '.join(known)}" if known else "no keys here"
    return problem(
        "key-unknown",
        path,
        f'"{shown(key)}" is not a key that is known here',
        expected,
        mend,
        written.key_place(path),
        about=outer,
    )


def _wrong_word(path: Path, given: str, words: list[str], written: Written) -> Finding:
    guess = near(given, words)
    mend = f'write "{guess}"' if guess else "choose one of them" if len(words) > 1 else f'write "{words[0]}"'
    wrong = f'"{shown(given)}" is not a word that is known here'
    field = shape.field_at(written.data, path)
    also = field is not None and any(isinstance(each, type) for each in shape.shapes_of(field))
    example = str(shape.said(field, "example")) if field else ""
    a_map = f"a map such as {example}" if example.startswith("{") else "a map of keys"
    expected = either(words) + (f", or {a_map}" if also else "")
    return problem("word-unknown", path, wrong, expected, mend, written.place(path))


def _wrong_choice(error: _Error, written: Written) -> Finding | None:
    """A toy whose kind, or a control whose type, is missing or unknown."""
    choice = next((each for each in shape.at(written.data, error.path) if isinstance(each, Choice)), None)
    if choice is None or not isinstance(error.given, Mapping):
        return _wrong_shape(error, written)
    path = (*error.path, choice.by)
    word = error.given.get(choice.by)
    if path in written.told:
        return None
    if word is None:
        return missing(path, written, list(choice.models))
    if not isinstance(word, str):
        return _wrong_shape(_Error("value-shape", path, word, {}), written)
    return _wrong_word(path, word, list(choice.models), written)


def _wrong_shape(error: _Error, written: Written) -> Finding:
    """A list where a map belongs, one value where a list belongs, and so on."""
    here = shape.at(written.data, error.path)
    field = shape.field_at(written.data, error.path) if error.path else None
    example = str(shape.said(field, "example")) if field else ""
    words = _words(here)
    key = error.path[-1] if error.path else ""
    if any(isinstance(each, shape.ListOf) for each in here):
        wanted, given = "a list", shown(error.given) if isinstance(error.given, str) else ""
        mend = f'write "{key}: [{given}]"' if given else f'write "{key}: {example}"'
    elif words and not any(isinstance(each, type) for each in here):
        wanted, mend = "one word", f'write "{key}: {example}"' if example else f"choose {either(words)}"
    else:
        wanted, mend = "a map of keys", "write its keys below it, each on its own line and indented"
        mend += f', such as "{example.strip("{}")}"' if example else ""
    expected = either(words) if words else f"{wanted}, such as {example}" if example else wanted
    wrong = f"{shape_of(error.given)} stands where {wanted} belongs"
    return problem("value-shape", error.path, wrong, expected, mend, written.place(error.path))

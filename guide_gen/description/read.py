"""Reading a description: text in, build and problems out. No text of a stranger raises."""

import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

from guide_gen.description import shape
from guide_gen.description.broken import yaml_broken
from guide_gen.description.build import Build
from guide_gen.description.nodes import BrokenError, nodes_of
from guide_gen.description.problems import judge
from guide_gen.description.tree import Written, written
from guide_gen.description.wording import Path, problem
from guide_gen.model.fields import Section
from guide_gen.model.finding import Finding, Place
from guide_gen.values.reading import LONGEST_SLUG, SLUG, slug_like

LARGEST = 256 * 1024  # bytes of a description
FILE_NAME = "build.yaml"
CONTENT = "content"
_REFUSED_SIGNS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff\ud800-\udfff]")


@dataclass(frozen=True)
class Default:
    """A key that was left out and has a default: what it means, the text taken, and where that is from."""

    path: Path
    meaning: str
    text: str
    source: str


@dataclass(frozen=True)
class Description:
    """What a person wrote, and where.

    build: None when a problem keeps it from being read. problems: by place. file: from the root.
    slug: the name of its folder. lines: of the file, for messages.
    """

    build: Build | None
    problems: tuple[Finding, ...]
    slug: str
    file: str
    lines: tuple[str, ...] = ()
    _written: Written = field(default_factory=lambda: Written(""), repr=False, compare=False)

    def place(self, path: Path) -> Place:
        """The place of the value at a path, or of the nearest map round it that is written."""
        return self._written.place(path)

    def defaults(self) -> list[Default]:
        """Every default that was taken, in the order of the model."""
        return list(_defaults(self.build, ())) if self.build else []


def read_text(text: str, file: str) -> Description:
    """Read a description from its text; `file` is its path from the root."""
    slug = slug_of(file)
    if len(text.encode("utf-8", "surrogatepass")) > LARGEST:
        return _refused(slug, file, _too_large(file))
    text = text.removeprefix("\ufeff")
    lines = tuple(re.split(r"\r\n|\r|\n", text))
    if sign := _REFUSED_SIGNS.search(text):
        return _refused(slug, file, _hidden_sign(text, sign.start(), file), lines)
    try:
        root = nodes_of(text)
    except BrokenError as error:
        return _refused(slug, file, yaml_broken(error, lines, file), lines)
    what = written(root, lines, file, shape.all_keys())
    build, problems = judge(what)
    return Description(build, problems, slug, file, lines, what)


def read(path: FilePath, root: FilePath) -> Description:
    """Read a description from its folder or its file, which lies below the content folder of `root`.

    A wrong path, file or encoding is a problem like any other.
    """
    file = FilePath(os.path.abspath(path))  # not resolved yet: messages name the path as it was given
    if file.is_dir():
        file = file / FILE_NAME
    named = _from_root(file, root)
    slug = slug_of(named)
    content = root.resolve() / CONTENT
    real = file.resolve()
    if not real.is_relative_to(content):
        return _refused(
            slug,
            named,
            problem(
                "path-outside",
                (),
                f"{named} lies outside {CONTENT}/" + (", where it links to" if file != real else ""),
                f"a description below {CONTENT}/builds/",
                f"put it into {CONTENT}/builds/<name>/{FILE_NAME}, as a file of its own",
                Place(named, 1, 1),
            ),
        )
    if not real.is_file():
        return _refused(
            slug,
            named,
            problem(
                "file-missing",
                (),
                f"there is no file {named}",
                f"{FILE_NAME} in the folder of a build",
                "look at the name of the folder, or begin one with guide-gen start",
                Place(named, 1, 1),
            ),
        )
    if not re.fullmatch(SLUG, slug) or len(slug) > LONGEST_SLUG:
        return _refused(
            slug,
            named,
            problem(
                "value-shape",
                (),
                f'the folder\'s name "{slug}" cannot become an address',
                "small letters, digits and single hyphens",
                f'name it "{slug_like(slug) or "my-build"}"',
                Place(named, 1, 1),
            ),
        )
    with real.open("rb") as stream:
        content_bytes = stream.read(LARGEST + 1)
    if len(content_bytes) > LARGEST:
        return _refused(slug, named, _too_large(named))
    try:
        return read_text(content_bytes.decode("utf-8"), named)
    except UnicodeDecodeError as error:
        return _refused(slug, named, _wrong_encoding(content_bytes, error.start, named))


def slug_of(file: str) -> str:
    """The name of a build: of its folder, or of its file where that is called otherwise."""
    path = FilePath(file)
    return path.parent.name if path.name == FILE_NAME and path.parent.name else path.stem


def _refused(slug: str, file: str, why: Finding, lines: tuple[str, ...] = ()) -> Description:
    return Description(None, (why,), slug, file, lines, Written(file))


def _from_root(file: FilePath, root: FilePath) -> str:
    for base in (FilePath(os.path.abspath(root)), root.resolve()):
        if file.is_relative_to(base):
            return file.relative_to(base).as_posix()
    return file.as_posix()


def _too_large(file: str) -> Finding:
    return problem(
        "file-too-large",
        (),
        f"the file is larger than {LARGEST // 1024} KB",
        "a few KB of text",
        "look whether something else was put into it; a large build is far smaller",
        Place(file, 1, 1),
    )


def _hidden_sign(text: str, at: int, file: str) -> Finding:
    before = re.split(r"\r\n|\r|\n", text[:at])
    return problem(
        "yaml-broken",
        (),
        f"a sign that cannot be seen stands here (U+{ord(text[at]):04X})",
        "plain text",
        "delete it and type the place again",
        Place(file, len(before), len(before[-1]) + 1),
    )


def _wrong_encoding(content: bytes, at: int, file: str) -> Finding:
    before = content[:at].decode("utf-8", "replace").split("\n")
    what = "UTF-16" if content[:2] in {b"\xff\xfe", b"\xfe\xff"} else "another encoding than UTF-8"
    return problem(
        "encoding-wrong",
        (),
        f"the file is saved in {what}",
        "text saved as UTF-8",
        "in the editor, save it again with encoding UTF-8",
        Place(file, len(before), len(before[-1]) + 1),
    )


def _defaults(section: Section, path: Path) -> Iterator[Default]:
    """The defaults of a map, and of the maps in it."""
    for name, info in type(section).model_fields.items():
        here = (*path, info.alias or name)
        source = str(shape.said(info, "default_source"))
        left_out = name not in section.model_fields_set
        if left_out and source and info.default:
            yield Default(here, info.description or "", default_text(info.default), source)
        value: Any = getattr(section, name)
        if isinstance(value, Section):
            yield from _defaults(value, here)
        elif isinstance(value, Mapping):
            for slug, each in value.items():
                yield from _defaults(each, (*here, slug))


def default_text(default: Any) -> str:
    """A default as a person would write it."""
    if isinstance(default, Mapping):
        return "{" + ", ".join(f"{key}: {value}" for key, value in default.items()) + "}"
    return str(default)

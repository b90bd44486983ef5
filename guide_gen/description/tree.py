"""From nodes to plain data, with the place of each key and value, and the traps of YAML told on the way."""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import Any

from guide_gen.description.nodes import ListNode, MapNode, Mark, Node, ScalarNode
from guide_gen.description.wording import Path, problem, shown
from guide_gen.model.finding import Finding, Place


@dataclass
class Written:
    """What stands in a file.

    data: maps, lists and text; what cannot be taken is left out of it. keys, values: path -> place.
    told: paths whose problem is told already, so that nothing more is said about them.
    """

    file: str
    data: Any = None
    keys: dict[Path, Place] = field(default_factory=dict)
    values: dict[Path, Place] = field(default_factory=dict)
    told: set[Path] = field(default_factory=set)
    problems: list[Finding] = field(default_factory=list)

    def place(self, path: Path) -> Place:
        """The place of the value at this path, or of the nearest map round it that is written."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.values:
                return self.values[path[:length]]
        return self.values.get((), Place(self.file, 1, 1))

    def key_place(self, path: Path) -> Place:
        """The place of the key itself."""
        return self.keys.get(path) or self.place(path)


@dataclass(frozen=True)
class Keys:
    """All keys that there are, and those of them that hold free text."""

    known: Collection[str]
    texts: Collection[str]


_LOST = object()


class _Reader:
    """Walks the nodes of one file."""

    def __init__(self, file: str, lines: Sequence[str], keys: Keys) -> None:
        self.lines = lines
        self.keys = keys
        self.written = Written(file)
        self.scalars: dict[int, list[tuple[int, int]]] = {}

    def where(self, mark: Mark) -> Place:
        return Place(self.written.file, mark.line + 1, mark.column + 1)

    def tell(self, code: str, path: Path, wrong: str, expected: str, mend: str, where: Place) -> None:
        self.written.told.add(path)
        self.written.problems.append(problem(code, path, wrong, expected, mend, where))

    def value(self, node: Node, path: Path, key: Place | None) -> Any:
        """The plain value of a node, or `_LOST` when a problem was told in its place."""
        block = isinstance(node, MapNode | ListNode) and not node.flow
        self.written.values[path] = key if key and block else self.where(node.start)
        if node.alias or node.anchor or node.tag:
            return self.marked(node, path)
        if isinstance(node, MapNode):
            return self.map(node, path)
        if isinstance(node, ListNode):
            items = [self.value(item, (*path, str(number)), None) for number, item in enumerate(node.items)]
            return [item for item in items if item is not _LOST]
        assert isinstance(node, ScalarNode)
        self.cover(node)
        if not node.text:
            self.written.values[path] = key or self.where(node.start)
            return self.nothing(node, path)
        return node.text

    def marked(self, node: Node, path: Path) -> Any:
        """An anchor, an alias or a tag: told, and the value is not taken."""
        text = node.text if isinstance(node, ScalarNode) else ""
        if isinstance(node, ScalarNode):
            self.cover(node)
        where = self.where(node.start)
        if node.tag:
            tag = self.rest(node.start).split()[0]
            mend = "write the value alone; nothing in a description is ever run"
            if text and re.fullmatch(r"![\w.]+", tag):
                mend = f'write "{shown(f"{tag[1:]} {text}")}"'
            self.tell(
                "tag-refused",
                path,
                f'"{shown(tag)}" is a tag of YAML, and tags are not taken',
                "the value alone",
                mend,
                where,
            )
        elif node.alias:
            self.tell(
                "alias-refused",
                path,
                f'"*{shown(node.alias)}" repeats something by an alias of YAML, and aliases are not taken',
                "the value itself",
                "write the value out again",
                where,
            )
        else:
            rest = f'write "{shown(f"{node.anchor} {text}".strip())}"' if text else f'take "&{shown(node.anchor)}" away'
            self.tell(
                "alias-refused",
                path,
                f'"&{shown(node.anchor)}" names an anchor of YAML, and anchors are not taken',
                "the value itself",
                rest,
                where,
            )
        return _LOST

    def rest(self, mark: Mark) -> str:
        """The next signs of the line."""
        return self.lines[mark.line][mark.column : mark.column + 100] if mark.line < len(self.lines) else ""

    def cover(self, node: ScalarNode) -> None:
        """Remember where text stands, so that a # in it is not taken for a comment."""
        for line in range(node.start.line, node.end.line + 1):
            begin = node.start.column if line == node.start.line else 0
            end = node.end.column if line == node.end.line else 1_000_000
            self.scalars.setdefault(line, []).append((begin, end))

    def nothing(self, node: ScalarNode, path: Path) -> Any:
        """A key with nothing behind it, or with a value that became a comment."""
        key = self.written.keys.get(path, self.where(node.start))
        line = self.lines[key.line - 1] if key.line <= len(self.lines) else ""
        if node.plain and re.match(r"[^#]*:\s+#\w", line[key.column - 1 :]):
            self.written.told.add(path)  # told with the comments
            return _LOST
        if path in self.written.told:
            return _LOST
        self.tell(
            "key-missing",
            path,
            "nothing stands behind this key",
            "a value",
            "write its value, or take the key away",
            key,
        )
        return _LOST

    def map(self, node: MapNode, path: Path) -> dict[str, Any]:
        """A map: keys once each, in text; the traps of braces."""
        data: dict[str, Any] = {}
        before: Path | None = None
        for key_node, value_node in node.pairs:
            key = self.key(key_node, path)
            if key is None:
                continue
            inner = (*path, key)
            if node.flow and self.bare(key_node, value_node):
                self.comma(key, key_node, inner, before, data)
                continue
            if inner in self.written.keys:
                first = self.written.keys[inner]
                where = self.where(key_node.start)
                self.written.problems.append(
                    problem(
                        "key-twice",
                        inner,
                        f"this key stands here a second time; it stands in line {first.line} already",
                        "each key once in its map",
                        f"keep one of lines {first.line} and {where.line}",
                        where,
                    )
                )
                continue
            self.written.keys[inner] = self.where(key_node.start)
            value = self.value(value_node, inner, self.written.keys[inner])
            if value is not _LOST:
                data[key] = value
            before = inner
        return data

    def key(self, node: Node, path: Path) -> str | None:
        """The text of a key; None, and told, when it is none."""
        if isinstance(node, ScalarNode) and not (node.anchor or node.tag) and node.text and node.text.isprintable():
            self.cover(node)
            return node.text
        self.tell(
            "value-shape",
            path,
            "this is not a word that can be a key",
            "a word, a colon and a value",
            "write a key of the list, in plain letters",
            self.where(node.start),
        )
        return None

    def bare(self, key: Node, value: Node) -> bool:
        """Whether an entry in braces has no colon: a comma inside a value has begun it."""
        return (
            isinstance(value, ScalarNode)
            and value.plain
            and not value.text
            and not value.anchor
            and (not value.tag and not re.match(r"\s*:", self.rest(key.end)))
        )

    def comma(self, key: str, node: Node, inner: Path, before: Path | None, data: dict[str, Any]) -> None:
        """Tell what a comma inside { } did: it cut a number or a text, or a key has lost its colon."""
        self.written.told.add(inner)
        previous = data.get(before[-1]) if before else None
        first, _, rest = re.sub(r":(?=\S)", " ", key).partition(" ")
        text_before = before is not None and before[-1] in self.keys.texts
        if (first in self.keys.known and not text_before) or not before or not isinstance(previous, str):
            self.tell(
                "value-shape",
                inner,
                "this has no colon and space behind its key",
                "key, colon, space, value",
                f'write "{shown(f"{first}: {rest.strip()}")}"',
                self.where(node.start),
            )
            return
        if before in self.written.told:
            return
        where = self.written.values[before]
        if re.search(r"\d$", previous) and re.match(r"\d", key):
            self.tell(
                "number-wrong",
                before,
                f'"{shown(f"{previous},{key}")}" has a comma, and a comma inside {{ }} begins a new key',
                "a number with a point",
                f'write "{shown(f"{previous}.{key}")}"',
                where,
            )
            return
        self.tell(
            "value-shape",
            before,
            f'the text is cut off before "{shown(key)}": a comma inside {{ }} begins a new key',
            "text on a line of its own",
            f'write "{before[-1]}: {shown(f"{previous}, {key}")}" on a line of its own, without {{ }}',
            where,
        )

    def comments(self) -> None:
        """A # with a letter or digit directly behind it has cut a value off."""
        by_line = {place.line: path for path, place in self.written.values.items()}
        for number, line in enumerate(self.lines):
            signs = list(line)
            for begin, end in self.scalars.get(number, ()):
                signs[begin:end] = "x" * len(signs[begin:end])
            match = re.search(r"(?<=\s)#", "".join(signs))
            cut = match.start() if match else 0
            if match and line[:cut].strip() and re.match(r"\w", line[cut + 1 : cut + 2]):
                self.comment(
                    line[:cut],
                    line[cut:].rstrip(),
                    by_line.get(number + 1, ()),
                    Place(self.written.file, number + 1, cut + 1),
                )

    def comment(self, before: str, lost: str, path: Path, where: Place) -> None:
        kept = re.sub(r"^\s*(?:- )?[\w-]+\s*:\s*", "", before).strip()
        whole = f"{kept} {lost}".strip()
        number = lost[1:].split()[0]
        mend = f"write '{shown(whole)}' in quotes if it belongs to the value"
        if not kept and re.match(r"\d+-\d+", number):
            mend = f'write "{shown(number)}", or the whole in quotes'
        self.tell(
            "comment-in-value",
            path,
            f'"{shown(lost)}" is taken for a comment and is lost',
            'a space behind "#" in a comment',
            f'{mend}, or put a space behind "#" if it is a comment',
            where,
        )


def written(root: Node | None, lines: Sequence[str], file: str, keys: Keys) -> Written:
    """Data, places and the problems of a file's nodes; `keys` help to tell a key from text behind a comma."""
    reader = _Reader(file, lines, keys)
    if root is not None:
        data = reader.value(root, (), None)
        reader.written.data = None if data is _LOST else data
    reader.comments()
    return reader.written

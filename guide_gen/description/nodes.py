"""From YAML text to nodes that know their place.

Every scalar stays text; anchors, aliases and tags are kept, to be told.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

# The C parser where the wheel has it; the other one reads the same.
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

DEEPEST = 20


@dataclass(frozen=True)
class Mark:
    """Line and column, both from 0."""

    line: int
    column: int


@dataclass
class Node:
    """A scalar, a map or a list.

    start: where it begins. anchor, tag: as written, "" without. alias: the name behind ``*``, "" when it is none.
    """

    start: Mark
    end: Mark
    anchor: str = ""
    tag: str = ""
    alias: str = ""


@dataclass
class ScalarNode(Node):
    """Text. plain: without quotes and no block of text."""

    text: str = ""
    plain: bool = True


@dataclass
class MapNode(Node):
    """Pairs of key and value. flow: in braces."""

    flow: bool = False
    pairs: list[tuple[Node, Node]] = field(default_factory=list)


@dataclass
class ListNode(Node):
    """Items. flow: in square brackets."""

    flow: bool = False
    items: list[Node] = field(default_factory=list)


@dataclass
class BrokenError(Exception):
    """Text that is no YAML.

    what, context: in the parser's words, for telling the cause. at, opened: where it was noticed, where it began.
    quoted: the last scalar in quotes that went over several lines.
    """

    what: str
    at: Mark
    context: str = ""
    opened: Mark | None = None
    quoted: Mark | None = None


def nodes_of(text: str) -> Node | None:
    """The tree of a text; None when nothing is written.

    Raises: BrokenError.
    """
    watch = _Watch()
    try:
        events = watch.seen(yaml.parse(text, Loader=_Loader))
        root = None
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if root is not None:
                    raise BrokenError("second document", _mark(event.start_mark))
                root = _node(next(events), events, 0)
    except yaml.MarkedYAMLError as error:
        opened = _mark(error.context_mark) if error.context_mark else None
        at = _mark(error.problem_mark) if error.problem_mark else opened or Mark(0, 0)
        raise BrokenError(error.problem or "", at, error.context or "", opened, watch.quoted) from None
    except (yaml.YAMLError, ValueError, UnicodeError) as error:
        raise BrokenError(str(error), Mark(0, 0)) from None
    return None if isinstance(root, ScalarNode) and root.plain and not root.text and not root.tag else root


class _Watch:
    """Remembers the last scalar in quotes that went over several lines: a quote left open ends at the next one."""

    quoted: Mark | None = None

    def seen(self, events: Any) -> Iterator[Any]:
        for event in events:
            if isinstance(event, yaml.ScalarEvent) and event.style in {"'", '"'}:
                start, end = _mark(event.start_mark), _mark(event.end_mark)
                self.quoted = start if start.line < end.line else self.quoted
            yield event


def _mark(mark: Any) -> Mark:
    return Mark(mark.line, mark.column)


def _node(event: Any, events: Iterator[Any], depth: int) -> Node:
    """The node that begins with this event."""
    start, end, anchor = _mark(event.start_mark), _mark(event.end_mark), event.anchor or ""
    if depth > DEEPEST:
        raise BrokenError("too deep", start)
    if isinstance(event, yaml.AliasEvent):
        return Node(start, end, alias=anchor)
    tag = event.tag or ""
    if isinstance(event, yaml.ScalarEvent):
        return ScalarNode(start, end, anchor, tag, text=event.value, plain=not event.style)
    flow = bool(event.flow_style)
    if isinstance(event, yaml.MappingStartEvent):
        pairs = []
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key = _node(event, events, depth + 1)
            pairs.append((key, _node(next(events), events, depth + 1)))
        return MapNode(start, _mark(event.end_mark), anchor, tag, flow=flow, pairs=pairs)
    items = []
    while not isinstance(event := next(events), yaml.SequenceEndEvent):
        items.append(_node(event, events, depth + 1))
    return ListNode(start, _mark(event.end_mark), anchor, tag, flow=flow, items=items)

"""How a problem is put in words: who and which key, what is wrong, what was expected, how to mend it."""

from guide_gen.model.finding import Finding, Level, Place

Path = tuple[str, ...]

# How a person calls the things that are described by slug.
_NAMED = {"supplies": "supply ", "boards": "board ", "toys": ""}


def label(path: Path) -> str:
    """Who and which key, for the beginning of a message: ``bow shaker, feed, run``."""
    if len(path) >= 2 and path[0] in _NAMED:
        who = _NAMED[path[0]] + (path[1].replace("-", " ") if path[0] == "toys" else path[1])
        return ", ".join(shown(step) for step in (who, *path[2:]))
    return ", ".join(shown(step) for step in path)


def shown(text: str, longest: int = 40) -> str:
    """A key or a word for a message: on one line and not without end."""
    line = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    return line if len(line) <= longest else line[: longest - 1] + "…"


def problem(
    code: str, path: Path, wrong: str, expected: str, mend: str, where: Place, *, about: Path | None = None
) -> Finding:
    """A problem of reading; `wrong` is told behind who and which key.

    about: what the message begins with, where that is not the path itself: the map that lacks a key.
    """
    who = label(path if about is None else about)
    toy = path[1] if len(path) >= 2 and path[0] == "toys" else ""
    return Finding(code, Level.MUST, f"{who}: {wrong}" if who else wrong, expected, mend, path, toy, where)


def these(words: list[str]) -> str:
    """``a, b and c``."""
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]])) if words else ""

"""The text of an accelerometer log of unknown make as a table: separator, columns, ways to write a time, unit.

Source: clock times as in ISO 8601-1:2019; standard gravity 9.80665 m/s² of the 3rd CGPM (1901); the rest is derived
here.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum, StrEnum

import numpy as np

from guide_gen.formulas.drive import Floats

G = 9.80665
_SEPARATORS = (";", "\t", ",", " ")
_COMMENTS = ("#", "%", "//")
GRAVITY_M_S2 = (7.8, 11.8)  # a phone's own error of some percent, and a tilt that changes
# Parts of a column's name, in the languages that phones are set to; the shortest names only as a whole.
_ACCELERATION = ("acc", "acel", "aksel", "beschl", "przysp", "versnel", "zrych", "linear", "gforce")
_ACCELERATION_WHOLE = ("a", "la", "lin", "gf")
_OTHER = ("gyr", "giro", "rot", "omega", "angul", "winkel", "dreh", "magn", "orient", "attitude", "euler", "quat",
          "tilt", "inclin", "veloc")  # fmt: skip
_OTHER_FIRST = ("mag", "gra", "ori")
_OTHER_WHOLE = ("w", "m", "r", "b", "h", "q", "v")
_DOUBTFUL_WHOLE = ("g",)  # turning by a gyroscope, or acceleration in g
_TRIED = 400  # lines that decide on the separator
_ABOVE = 50  # lines above the numbers in which the header may stand
_LONGEST_ROW = 5000  # characters; a phone writes far less
_LARGEST = 1e20  # nanoseconds since 1970 have nineteen digits
_DAY_S = 86_400.0
_UNITS = {"m": 1.0, "cm": 1e-2, "mm": 1e-3, "g": G, "mg": G / 1000}

# A clock time, a date before it or not; the date may be left out, since no record lasts a day.
_CLOCK = re.compile(
    r"(?:[\d./-]{8,10}[T ])?(\d{1,2}):(\d\d):(\d\d(?:\.\d*)?) ?(?:Z|UTC|[+-]\d\d(?::?\d\d)?)?", re.ASCII | re.IGNORECASE
)
_DATE_APART = re.compile(r"(\d[\d./-]{7,9}) (?=\d{1,2}:\d\d)", re.ASCII)
_GROUPED = re.compile(
    r"[-+]?\d{1,3}(?:(?:[ '’\u00a0\u202f]\d{3})+(?:[.,]\d*)?"
    r"|(?:,\d{3})+\.\d*|(?:\.\d{3})+,\d*|(?:,\d{3}){2,}|(?:\.\d{3}){2,})",
    re.ASCII,
)
_PERHAPS_GROUPED = re.compile(r"[-+]?\d{1,3}(?:[.,]\d{3})?", re.ASCII)
_UNIT = re.compile(
    r"(?<![a-z])(?:([cm]?m)(?:/s(?:\^?2|\*\*2|²|\ufffd|/s)|[ ·.*]?s(?:\^?-2|⁻²))|(?:(?<=[(\[_ ])|^)(m?g)(?=[)\]]|$))"
)  # a ² in an encoding that was not understood is \ufffd
_OTHER_UNIT = re.compile(r"(?:(?:rad|deg|grad|°)(?:/s| s)|(?:(?<=[(\[_ ])|^)(?:[uµμn]t|dps|gauss|rpm)(?=[)\]]|$))")


class Trouble(StrEnum):
    """Why a log cannot be read; the value is stable."""

    NO_NUMBERS = "no-numbers"
    TOO_SHORT = "too-short"
    TOO_FEW = "too-few"
    TOO_SLOW = "too-slow"
    TOO_FAST = "too-fast"
    TOO_LARGE = "too-large"
    MOSTLY_GAPS = "mostly-gaps"
    NO_MOTION = "no-motion"
    NO_DECAY = "no-decay"
    NO_UNIT = "no-unit"
    COLUMNS = "columns"
    ALIASED = "aliased"


class LogProblem(ValueError):  # noqa: N818 - the name says what is wrong
    """A log that cannot be read: its code, and one sentence on what is wrong and what to do."""

    def __init__(self, trouble: Trouble, sentence: str) -> None:
        super().__init__(sentence)
        self.trouble = trouble


@dataclass(frozen=True)
class Table:
    """Time and three axes as the file has them, rows by four.

    clock: the time was written as a clock time and is in seconds. unit_m_s2: m/s² in one unit of the axes, as the
    header says; None where it says none. doubtful: the names of the axes where these may tell turning instead, so that
    gravity alone proves that they are acceleration.
    """

    rows: Floats
    clock: bool
    unit_m_s2: float | None
    doubtful: tuple[str, ...] = ()


# Cells --------------------------------------------------------------------------------------------------------------


def _number(cell: str) -> float:
    """A cell as a number, NaN when it is none, or none that a phone writes."""
    try:
        value = float(cell.strip().replace(",", "."))
    except ValueError:
        return float("nan")
    return value if abs(value) < _LARGEST else float("nan")


def _clock(cell: str) -> float:
    """Seconds of the day of a clock time, NaN when it is none."""
    found = _CLOCK.fullmatch(cell.strip().replace(",", "."))
    return 3600 * int(found[1]) + 60 * int(found[2]) + float(found[3]) if found else float("nan")


def _is_number(cell: str) -> bool:
    """Whether a cell is meant as a number: a clock time, or one with thousands separators, is too."""
    value = _number(cell)
    return (
        value == value
        or _CLOCK.fullmatch(cell.strip().replace(",", ".")) is not None
        or _GROUPED.fullmatch(cell.strip()) is not None
    )


def _split(line: str, separator: str) -> list[str]:
    """The cells of a row; what stands in quotes is one cell, and so are a date and its clock time."""
    if separator == " ":
        return _DATE_APART.sub(r"\1T", line).split()
    if '"' not in line:
        return line.split(separator)
    try:
        return next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])
    except csv.Error:
        return []


def _is_data(cells: Sequence[str]) -> bool:
    return sum(_is_number(cell) for cell in cells) >= 4


def _separator(lines: Sequence[str]) -> str:
    """The separator that makes the most lines into rows of numbers."""
    return max(_SEPARATORS, key=lambda separator: sum(_is_data(_split(line, separator)) for line in lines[-_TRIED:]))


# The header ---------------------------------------------------------------------------------------------------------


def _names(line: str, separator: str) -> list[str]:
    """The cells of a line above the numbers, which may be written as a comment."""
    bare = line.lstrip("#%/ ")
    if separator != " ":
        return _split(bare, separator)
    return re.split(r"[,;\s]+", re.sub(r"\s*([(\[].*?[)\]])", r"\1", bare))


class _Meaning(Enum):
    """What three columns tell."""

    ACCELERATION = "acceleration"
    OPEN = "open"
    DOUBTFUL = "doubtful"
    OTHER = "other"


@dataclass(frozen=True)
class _Triple:
    """The columns of three axes that share their name but for x, y and z."""

    places: tuple[int, int, int]
    names: tuple[str, ...]
    meaning: _Meaning


def _bare(name: str) -> str:
    """A column's name without its unit, in small letters and digits."""
    return re.sub(r"[^a-z0-9]", "", _UNIT.sub("", re.sub(r"[(\[].*?[)\]]", "", name.strip('" ').lower())))


def _triples(names: Sequence[str], below: Sequence[Sequence[str]] = ()) -> tuple[_Triple, ...]:
    """The sets of three axes, from left to right. below: rows between names and numbers, of which one may be units.

    The axis stands at the end or the beginning of a name: ``acc_x``, ``X acceleration``.
    """
    places: dict[tuple[str, str], list[int]] = {}
    for place, name in enumerate(names):
        bare = _bare(name)
        for stem, axis in {(bare[:-1], bare[-1:]), (bare[1:], bare[:1])}:
            places.setdefault((stem, axis), []).append(place)
    found = []
    for stem in {stem for stem, _ in places}:
        for three in zip(*(places.get((stem, axis), []) for axis in "xyz"), strict=False):
            words = [cells[place] for cells in (names, *below) for place in three if place < len(cells)]
            found.append(_Triple(three, tuple(_shown(names[place]) for place in three), _meaning(stem, words)))
    return tuple(sorted(found, key=lambda triple: triple.places))


def _meaning(stem: str, words: Sequence[str]) -> _Meaning:
    """What axes of this name tell, with the words that may hold their unit."""
    turns = any(_OTHER_UNIT.search(word.strip('" ').lower()) for word in words)
    if turns or stem.startswith(_OTHER_FIRST) or stem in _OTHER_WHOLE or any(part in stem for part in _OTHER):
        return _Meaning.OTHER
    named = stem in _ACCELERATION_WHOLE or any(part in stem for part in _ACCELERATION)
    if named or any(_unit(word) is not None for word in words):
        return _Meaning.ACCELERATION
    return _Meaning.DOUBTFUL if stem in _DOUBTFUL_WHOLE else _Meaning.OPEN


def _shown(name: str) -> str:
    """A column's name as a message may repeat it."""
    return re.sub(r"[^\w ()/²°.-]", "", name).strip()[:30]


def _axes(triples: Sequence[_Triple]) -> _Triple | None:
    """The acceleration among several sets of axes; None where there are none. Raises LogProblem where none tells."""
    for meaning in (_Meaning.ACCELERATION, _Meaning.OPEN, _Meaning.DOUBTFUL):
        fits = [triple for triple in triples if triple.meaning is meaning]
        if len(fits) > 1 and meaning is not _Meaning.ACCELERATION:
            sets = "; ".join(", ".join(triple.names) for triple in fits)
            raise LogProblem(
                Trouble.COLUMNS,
                f"The log has several sets of three axes ({sets}) and does not say which is the acceleration: name "
                "those columns ax, ay and az in its first line.",
            )
        if fits:
            return fits[0]
    if triples:
        raise LogProblem(
            Trouble.COLUMNS,
            f"The columns {', '.join(triples[0].names)} tell turning, magnetism or position by their names, not "
            "acceleration: record the accelerometer, or name its columns ax, ay and az in the first line.",
        )
    return None


def not_acceleration(names: Sequence[str]) -> LogProblem:
    """Columns that may tell turning, and show no gravity."""
    return LogProblem(
        Trouble.COLUMNS,
        f"The columns {', '.join(names)} may tell turning by a gyroscope, for they hold no gravity: record the "
        "accelerometer, or, if this is its record, name its columns ax, ay and az in the first line.",
    )


def _columns(
    names: Sequence[str], axes: _Triple | None, triples: Sequence[_Triple], row: Sequence[str]
) -> tuple[int, int, int, int]:
    """Time and three axes; the first four numbers of a row when no names tell.

    A time in another language is the nearest column beside the axes that is no axis itself, to the left where there is
    one.
    """
    plain = [place for place, cell in enumerate(row) if _is_number(cell)]
    if axes is None:
        return plain[0], plain[1], plain[2], plain[3]
    taken = {place for triple in triples for place in triple.places}
    free = [place for place in range(len(names)) if place not in taken]
    named = [place for place in free if _bare(names[place]).startswith(("t", "elapsed", "sec"))]
    left = [place for place in free if place < min(axes.places)]
    right = [place for place in free if place > max(axes.places)]
    if not free:
        raise missing_time()
    return ([*named, *reversed(left), *right, *free][0], *axes.places)


def _refuse_gravity_elsewhere(rows: Sequence[Sequence[str]]) -> None:
    """Six columns or more behind the time without names: the acceleration is not the second set of three."""
    sets = [[_number(cell) for cell in row[:7]] for row in rows[:_TRIED] if len(row) >= 7]
    values = np.array(sets, float).reshape(-1, 7)
    values = values[np.isfinite(values).all(axis=1)]
    if not len(values):
        return
    first, second = (float(np.linalg.norm(values[:, low : low + 3].mean(axis=0))) for low in (1, 4))
    if like_gravity(second) and not like_gravity(first):
        raise LogProblem(
            Trouble.COLUMNS,
            "The columns have no names, and gravity is not in the first three behind the time but in the next three: "
            "write a first line with the names of the columns, ax, ay and az for the acceleration.",
        )


def like_gravity(length: float) -> bool:
    """Whether a mean vector of this length is gravity, in m/s², g or thousandths of g."""
    return any(GRAVITY_M_S2[0] <= unit * length <= GRAVITY_M_S2[1] for unit in (1.0, G, G / 1000))


def _unit(name: str) -> float | None:
    """m/s² in one unit of a column, as its name or a row of units says."""
    found = _UNIT.search(name.strip('" ').lower())
    return _UNITS[found[1] or found[2]] if found else None


def _unit_of_axes(above: Sequence[Sequence[str]], axes: Sequence[int]) -> float | None:
    """The unit that one of the lines above the numbers gives to all three axes."""
    for names in above:
        units = {_unit(names[place]) if place < len(names) else None for place in axes}
        if len(units) == 1 and None not in units:
            return units.pop()
    return None


# The table ----------------------------------------------------------------------------------------------------------


def log_table(text: str) -> Table:
    """Time and three axes of a log: the numbers of its rows, picked by the header's names.

    Lines that begin with # are comments, of which one may be the header; a row of units may stand below it. Raises
    LogProblem where there are no rows of numbers, or where they can be read in two ways.
    """
    lines = [line for line in text.lstrip("\ufeff").splitlines() if len(line) <= _LONGEST_ROW and line.strip()]
    bodies = [line for line in lines if not line.lstrip().startswith(_COMMENTS)]
    separator = _separator(bodies)
    first = next((line for line in bodies if _is_data(_split(line, separator))), None)
    if first is None:
        raise _no_rows(bodies, separator)
    begin = lines.index(first)
    above = [_names(line, separator) for line in reversed(lines[max(begin - _ABOVE, 0) : begin])]
    place = next((place for place, names in enumerate(above) if _triples(names)), 0)
    names = above[place] if above else []
    rows = [_split(line, separator) for line in lines[begin:] if not line.lstrip().startswith(_COMMENTS)]
    if separator == " " and len(names) > len(rows[0]):  # names of several words
        names = []
    triples = _triples(names, above[:place])
    _refuse_more_cells_than_names(rows, names, separator, named=bool(triples))
    axes = _axes(triples)
    if axes is None:
        _refuse_gravity_elsewhere(rows)
    columns = _columns(names, axes, triples, rows[0])
    picked = [[row[column] for column in columns] for row in rows if len(row) > max(columns)]
    table = _table(picked, _unit_of_axes(above[: place + 1], columns[1:]))
    return replace(table, doubtful=axes.names) if axes and axes.meaning is _Meaning.DOUBTFUL else table


def _table(picked: Sequence[Sequence[str]], unit_m_s2: float | None) -> Table:
    clock = sum(":" in row[0] for row in picked) > len(picked) / 2
    time = _clock if clock else _number
    rows = np.array([[time(row[0]), *map(_number, row[1:])] for row in picked], float).reshape(-1, 4)
    whole = np.isfinite(rows).all(axis=1)
    lost = [row for row, kept in zip(picked, whole, strict=True) if not kept]
    if _perhaps_grouped([row[0] for row in picked]) or any(map(_has_grouped, lost)):
        raise _grouped()
    if np.isnan(rows[:, 0]).sum() > len(rows) / 2:
        raise _no_time()
    result: Floats = rows[whole]
    if clock and len(result) and np.ptp(result[:, 0]) > _DAY_S / 2:  # past midnight
        result[result[:, 0] < _DAY_S / 2, 0] += _DAY_S
    return Table(result, clock, unit_m_s2)


def _has_grouped(cells: Sequence[str]) -> bool:
    return any(_GROUPED.fullmatch(cell.strip()) for cell in cells)


def _perhaps_grouped(times: Sequence[str]) -> bool:
    """Whether whole numbers below a thousand go on as 1,000: none has any other decimals than three."""
    if not all(_PERHAPS_GROUPED.fullmatch(time.strip()) for time in times):
        return False
    whole = sum(time.strip().lstrip("+-").isdigit() for time in times)
    return min(whole, len(times) - whole) > 10


def _refuse_more_cells_than_names(
    rows: Sequence[Sequence[str]], names: Sequence[str], separator: str, *, named: bool
) -> None:
    if separator not in {",", " "}:
        return
    due = len(names) if named or len(rows[0]) == 2 * len(names) else len(rows[0])
    longer = sum(any(cell.strip() for cell in row[due:]) for row in rows)
    if longer > 0.01 * len(rows):
        mark = "comma" if separator == "," else "space"
        raise LogProblem(
            Trouble.NO_NUMBERS,
            f"Rows have more values than the header has names, as if a {mark} stood both between the numbers and "
            "inside them: export the record with a decimal point and without thousands separators, or with semicolons "
            "between the numbers.",
        )


def _no_rows(lines: Sequence[str], separator: str) -> LogProblem:
    """Why no line is a row of four numbers."""
    rows = [[cell for cell in _split(line, separator) if cell.strip()] for line in lines[:_TRIED]]
    near = [row for row in rows if len(row) > 3 and sum(_is_number(cell) for cell in row) == 3]
    if near and len(near) >= len(rows) / 2:
        return _no_time()
    if any(_are_three(lines[:_TRIED], other) for other in _SEPARATORS):
        return missing_time()
    return LogProblem(
        Trouble.NO_NUMBERS,
        "No rows of numbers were found: a log has a time and three accelerations in each row, separated by comma, "
        "semicolon, tab or space. Export the record as CSV and try again.",
    )


def _are_three(lines: Sequence[str], separator: str) -> bool:
    """Whether most lines are three numbers."""
    rows = [_split(line, separator) for line in lines]
    return bool(rows) and sum(len(row) == 3 and all(map(_is_number, row)) for row in rows) > len(rows) / 2


def missing_time() -> LogProblem:
    """Rows of accelerations alone."""
    return LogProblem(
        Trouble.NO_NUMBERS,
        "The column of times is missing: a log has a time and three accelerations in each row, so export the record "
        "with the time of each sample.",
    )


def _grouped() -> LogProblem:
    return LogProblem(
        Trouble.NO_NUMBERS,
        "The numbers have thousands separators, such as 1,234.5: export the record without them, as 1234.5.",
    )


def _no_time() -> LogProblem:
    return LogProblem(
        Trouble.NO_NUMBERS,
        "The times are neither numbers nor clock times such as 10:00:00.123 or 2026-11-02T10:00:00.123: export the "
        "record with its time in seconds.",
    )

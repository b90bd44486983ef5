"""The text of an accelerometer log of unknown make as a table: separator, columns, ways to write a time, unit.

Source: clock times as in ISO 8601-1:2019; standard gravity 9.80665 m/s² of the 3rd CGPM (1901); the rest is derived
here.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from guide_gen.formulas.drive import Floats

G = 9.80665
_SEPARATORS = (";", "\t", ",", " ")
_COMMENTS = ("#", "%", "//")
_NO_AXES = ("gyr", "rot", "mag", "omega", "ori", "gra", "ind", "t")
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
    header says; None where it says none.
    """

    rows: Floats
    clock: bool
    unit_m_s2: float | None


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


def _bare(name: str) -> str:
    """A column's name without its unit, in small letters and digits."""
    return re.sub(r"[^a-z0-9]", "", re.sub(r"[(\[].*?[)\]]", "", name.lower()))


def _axes(names: Sequence[str]) -> tuple[int, ...]:
    """The three axes by their names; empty when one has none."""
    bare = [_bare(_without_unit(name)) for name in names]
    axes = []
    for axis in "xyz":
        fits = (place for place, name in enumerate(bare) if name.endswith(axis) and not name.startswith(_NO_AXES))
        axes.append(next(fits, -1))
    return () if -1 in axes else tuple(axes)


def _without_unit(name: str) -> str:
    """A name without a unit that stands behind an underscore: ``ax_mg``."""
    return re.sub(r"_m?g$", "", name.strip().lower())


def _columns(names: Sequence[str], row: Sequence[str]) -> tuple[int, int, int, int]:
    """Time and three axes by their names; the first four numbers of a row when an axis has none.

    A time in another language is the column beside the axes, to the left where there is one.
    """
    plain = [place for place, cell in enumerate(row) if _is_number(cell)]
    first = plain[0], plain[1], plain[2], plain[3]
    axes = _axes(names)
    if not axes:
        return first
    bare = [_bare(name) for name in names]
    time = next((place for place, name in enumerate(bare) if name.startswith(("t", "elapsed", "sec"))), None)
    if time is None:
        time = min(axes) - 1 if min(axes) else max(axes) + 1
    return (time, axes[0], axes[1], axes[2]) if time < len(names) else first


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
    place = next((place for place, names in enumerate(above) if _axes(names)), 0)
    names = above[place] if above else []
    rows = [_split(line, separator) for line in lines[begin:] if not line.lstrip().startswith(_COMMENTS)]
    if separator == " " and len(names) > len(rows[0]):  # names of several words
        names = []
    _refuse_more_cells_than_names(rows, names, separator)
    columns = _columns(names, rows[0])
    picked = [[row[column] for column in columns] for row in rows if len(row) > max(columns)]
    return _table(picked, _unit_of_axes(above[: place + 1], columns[1:]))


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


def _refuse_more_cells_than_names(rows: Sequence[Sequence[str]], names: Sequence[str], separator: str) -> None:
    if separator not in {",", " "}:
        return
    due = len(names) if _axes(names) or len(rows[0]) == 2 * len(names) else len(rows[0])
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
    return LogProblem(
        Trouble.NO_NUMBERS,
        "No rows of numbers were found: a log has a time and three accelerations in each row, separated by comma, "
        "semicolon, tab or space. Export the record as CSV and try again.",
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

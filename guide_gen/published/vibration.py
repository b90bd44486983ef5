"""Published limits and usual values that the motion of a cabinet is compared with; read once from their CSV files."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from guide_gen.published.tables import NotInTable, Rule, _number, _rows


@dataclass(frozen=True)
class VibrationClass:
    """Peaks of a sinusoid that equipment of this class stands: shift from 2 to 9 Hz, acceleration from 9 Hz."""

    name: str
    shift_m: float
    acceleration_m_s2: float


@dataclass(frozen=True)
class Comfort:
    """How a weighted rms acceleration is felt; neighbours overlap."""

    words: str
    low_m_s2: float
    high_m_s2: float


@cache
def vibration_classes() -> Mapping[str, VibrationClass]:
    """The mechanical classes of IEC 60721-3-3 as labelled in 1994, by name."""
    return {
        row["class"]: VibrationClass(row["class"], float(row["shift_mm"]) / 1000, float(row["acceleration_m_s2"]))
        for row in _rows("vibration")
    }


def vibration_class(name: str) -> VibrationClass:
    """The class of this name, such as ``3M2``; NotInTable when there is none."""
    known = vibration_classes()
    if name not in known:
        raise NotInTable("vibration class", repr(name), known)
    return known[name]


@cache
def comfort_bands() -> tuple[Comfort, ...]:
    """The bands of ISO 2631-1, from gentle to strong."""
    return tuple(Comfort(row["words"], float(row["low_m_s2"]), float(row["high_m_s2"])) for row in _rows("comfort"))


@cache
def motion_values() -> Mapping[str, Rule]:
    """What is taken when nothing is known, with its range, by name."""
    return {
        row["name"]: Rule(
            row["name"],
            float(row["value"]),
            _number(row["low"]),
            _number(row["high"]),
            row["unit"],
            row["source"],
            row["how_known"],
        )
        for row in _rows("motion")
    }


def motion_value(name: str) -> Rule:
    """The usual value of this name, such as ``damping ratio``; NotInTable when there is none."""
    known = motion_values()
    if name not in known:
        raise NotInTable("motion value", repr(name), known)
    return known[name]

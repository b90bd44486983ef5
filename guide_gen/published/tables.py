"""The published tables, read once from the CSV files beside this module and given as typed data.

Each CSV names its source and how it is known in its head lines: looked-up, memory or computed.
What a table does not hold is refused with `NotInTable`, never interpolated.
"""

import csv
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from math import pi
from typing import TypeVar

from guide_gen.values.quantity import WireSize

T = TypeVar("T")


class NotInTable(LookupError):  # noqa: N818 - the name says what is wrong
    """A size, column or name that a table does not have; the message says what it has."""

    def __init__(self, what: str, given: object, known: Iterable[object]) -> None:
        super().__init__(f"there is no {what} {given}; the table has {', '.join(str(one) for one in known)}")


@cache
def _rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of one CSV, its head lines left out."""
    text = (files("guide_gen.published") / f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def _number(cell: str) -> float | None:
    """A cell as a number; None when it is empty."""
    return float(cell) if cell else None


def _named(table: Mapping[str, T], name: str, what: str) -> T:
    if name not in table:
        raise NotInTable(what, repr(name), table)
    return table[name]


# Single figures -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Rule:
    """A single published or customary figure. low, high: the range it may have, None where it has none."""

    name: str
    value: float
    low: float | None
    high: float | None
    unit: str
    source: str
    how_known: str


@cache
def rules() -> Mapping[str, Rule]:
    """All single figures that tie fuse, wire, port and supply together, by name."""
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
        for row in _rows("rules")
    }


def rule(name: str) -> Rule:
    """The figure of this name, such as ``fuse margin``; NotInTable when there is none."""
    return _named(rules(), name, "rule")


# Ampacity -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Family:
    """One family of ampacity tables; families are never mixed.

    sizes_system: ``mm2`` or ``AWG``. sizes: numbers as text, thinnest first. smallest: the thinnest to choose.
    insulation_degC: the columns. ambient_degC: the air that the table is for.
    bundle_counts: ``circuits`` or ``conductors`` (two to a circuit).
    fuse_caps_A: largest fuse by size where the family has such a rule, whatever the ampacity.
    """

    name: str
    sizes_system: str
    sizes: tuple[str, ...]
    insulation_degC: tuple[float, ...]
    ambient_degC: float
    smallest: str
    bundle_counts: str
    source: str
    bundle_source: str
    how_known: str
    fuse_caps_A: Mapping[str, float]
    _ampacity_A: Mapping[tuple[str, float], float]
    _bundle: tuple[tuple[float, float], ...]

    def column_for(self, insulation_degC: float) -> float:
        """The highest column that is not above the insulation's temperature; NotInTable below the lowest."""
        fitting = [column for column in self.insulation_degC if column <= insulation_degC]
        if not fitting:
            columns = [f"{column:g} °C" for column in self.insulation_degC]
            raise NotInTable("insulation column for", f"{insulation_degC:g} °C", columns)
        return max(fitting)

    def sizes_in(self, column_degC: float) -> tuple[str, ...]:
        """The sizes to choose from in one column: from the smallest on, thinnest first."""
        from_smallest = self.sizes[self.sizes.index(self.smallest) :]
        return tuple(size for size in from_smallest if (size, column_degC) in self._ampacity_A)

    def ampacity_A(self, size: str, column_degC: float) -> float:
        """The table's current for a size in one column; NotInTable where the table has no figure."""
        if (size, column_degC) not in self._ampacity_A:
            known = [f"{size} at {column:g} °C" for size, column in self._ampacity_A]
            raise NotInTable("ampacity for", f"{size} at {column_degC:g} °C", known)
        return self._ampacity_A[size, column_degC]

    def bundle_factor(self, circuits: int) -> tuple[float, str]:
        """The factor for circuits that are tied together and loaded at once, and the row it stands in.

        A count between two rows takes the next, worse one; NotInTable beyond the last or below one circuit.
        """
        count = circuits if self.bundle_counts == "circuits" else 2 * circuits
        before = 0.0
        for up_to, factor in self._bundle:
            if before < count <= up_to:
                counted = self.bundle_counts if count > 1 else self.bundle_counts.removesuffix("s")
                return factor, f"{count} {counted}: {_span(before + 1, up_to)}"
            before = up_to
        known = f"1 to {before:g} {self.bundle_counts}"
        raise NotInTable("bundle factor for", f"{count} {self.bundle_counts}", (known,))


def _span(first: float, last: float) -> str:
    """A table row that holds for a span of counts, in words."""
    if last == float("inf"):
        return f"row {first:g} and more"
    return f"row {last:g}" if first == last else f"row {first:g} to {last:g}"


def _unique(cells: Iterable[T]) -> tuple[T, ...]:
    return tuple(dict.fromkeys(cells))


def _family(row: dict[str, str]) -> Family:
    cells = [cell for cell in _rows("ampacity") if cell["family"] == row["name"]]
    caps = {cap["size"]: float(cap["largest_A"]) for cap in _rows("fuse_caps")}
    return Family(
        name=row["name"],
        sizes_system=row["sizes_system"],
        sizes=_unique(cell["size"] for cell in cells),
        insulation_degC=tuple(sorted({float(cell["insulation_degC"]) for cell in cells})),
        ambient_degC=float(row["ambient_degC"]),
        smallest=row["smallest"],
        bundle_counts=row["counts"],
        source=row["source"],
        bundle_source=row["bundle_source"],
        how_known=row["how_known"],
        fuse_caps_A=caps if row["fuse_caps"] == "yes" else {},
        _ampacity_A={(cell["size"], float(cell["insulation_degC"])): float(cell["ampacity_A"]) for cell in cells},
        _bundle=tuple(
            (float(step["up_to"] or "inf"), float(step["factor"]))
            for step in _rows("bundle")
            if step["table"] == row["bundle_table"]
        ),
    )


@cache
def families() -> Mapping[str, Family]:
    """All families of ampacity tables by name."""
    return {row["name"]: _family(row) for row in _rows("families")}


def family(name: str) -> Family:
    """The family of this name, such as ``IEC 60204-1``; NotInTable when there is none."""
    return _named(families(), name, "family of tables")


# Fuses --------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class FuseRating:
    """One fuse of a series. voltage_V: as printed on it, for ``DC`` or ``AC``. colour: of its body, "" without one."""

    rating_A: float
    colour: str
    voltage_V: float
    voltage_kind: str
    how_known: str


@dataclass(frozen=True)
class Gate:
    """At `multiple` times its rating a fuse must not open before shortest_s and must have opened by longest_s.

    None: no limit. character: fast, time-lag or any. from_A, to_A: the ratings it holds for.
    """

    multiple: float
    shortest_s: float | None
    longest_s: float | None
    character: str
    from_A: float
    to_A: float
    how_known: str


@dataclass(frozen=True)
class FuseSeries:
    """The fuses that fit one holder. body: ``blade`` or ``cartridge``. ratings: smallest first."""

    holder: str
    body: str
    standard: str
    ratings: tuple[FuseRating, ...]
    gates: tuple[Gate, ...]

    @property
    def ratings_A(self) -> tuple[float, ...]:
        """The ratings alone, smallest first."""
        return tuple(fuse.rating_A for fuse in self.ratings)

    @property
    def opens_at(self) -> float:
        """The conventional opening current as a multiple of the rating: the lowest that must open it at all."""
        return min(gate.multiple for gate in self.gates if gate.longest_s is not None)

    @property
    def dc_voltage_V(self) -> float | None:
        """The DC voltage that every fuse of the series is made for; None when only AC ratings are printed."""
        if any(fuse.voltage_kind != "DC" for fuse in self.ratings):
            return None
        return min(fuse.voltage_V for fuse in self.ratings)

    def fuse(self, rating_A: float) -> FuseRating:
        """The fuse of this rating; NotInTable when the series has none."""
        for fuse in self.ratings:
            if fuse.rating_A == rating_A:
                return fuse
        raise NotInTable(f"{self.holder} fuse of", f"{rating_A:g} A", (f"{rating:g} A" for rating in self.ratings_A))

    def gates_of(self, rating_A: float, speed: str = "") -> tuple[tuple[Gate, ...], ...]:
        """The gates of one rating, lowest multiple first: one tuple for each character that it may have.

        speed: ``fast`` or ``time-lag`` as printed; "" when not known, or when the series has one character only.
        NotInTable when no gate holds for it.
        """
        gates = [gate for gate in self.gates if gate.from_A <= rating_A <= gate.to_A]
        general = [gate for gate in gates if gate.character == "any"]
        characters = [one for one in _unique(gate.character for gate in gates) if one != "any"]
        fitting = [one for one in characters if not speed or _fuse_speeds().get(one, speed) == speed]
        sets = [[*general, *(gate for gate in gates if gate.character == one)] for one in fitting] or [general]
        if not any(sets):
            raise NotInTable("opening times for", f"{rating_A:g} A", (f"{gate.from_A:g} A" for gate in self.gates))
        return tuple(tuple(sorted(one, key=lambda gate: gate.multiple)) for one in sets)


@cache
def _fuse_speeds() -> Mapping[str, str]:
    return {row["character"]: row["speed"] for row in _rows("fuse_speeds")}


def _fuse_rating(row: dict[str, str]) -> FuseRating:
    return FuseRating(
        float(row["rating_A"]), row["colour"], float(row["voltage_V"]), row["voltage_kind"], row["how_known"]
    )


def _gate(row: dict[str, str]) -> Gate:
    return Gate(
        float(row["multiple"]),
        _number(row["shortest_s"]),
        _number(row["longest_s"]),
        row["character"],
        float(row["from_A"]),
        float(row["to_A"]),
        row["how_known"],
    )


@cache
def all_fuse_series() -> Mapping[str, FuseSeries]:
    """All fuse series by the word for their holder."""
    return {
        row["holder"]: FuseSeries(
            row["holder"],
            row["body"],
            row["standard"],
            tuple(_fuse_rating(fuse) for fuse in _rows("fuse_ratings") if fuse["holder"] == row["holder"]),
            tuple(_gate(gate) for gate in _rows("fuse_gates") if gate["standard"] == row["standard"]),
        )
        for row in _rows("fuse_series")
    }


def fuse_series(holder: str) -> FuseSeries:
    """The fuses for a holder, such as ``blade``; NotInTable when there is none."""
    return _named(all_fuse_series(), holder, "fuse holder")


@cache
def fuse_temperature_points() -> tuple[tuple[float, float], ...]:
    """Air temperature in °C and the share of its rating that a fuse carries there, coolest first."""
    return tuple((float(row["ambient_degC"]), float(row["factor"])) for row in _rows("fuse_temperature"))


@cache
def fuse_pulse_points() -> tuple[tuple[float, float], ...]:
    """Number of pulses in a fuse's life and the share of its melting I2t it stands each time, fewest first."""
    return tuple((float(row["pulses"]), float(row["share"])) for row in _rows("fuse_pulses"))


# Wire ---------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Copper:
    """Annealed copper at 20 °C. stranding: how much more a stranded wire has than a solid one of the same size."""

    resistivity_ohm_m: float
    coefficient_per_K: float
    stranding: float
    density_kg_per_m3: float
    specific_heat_J_per_kg_K: float


@cache
def copper() -> Copper:
    """The constants of copper, IEC 60028 and handbook values."""
    values = {row["name"]: float(row["value"]) for row in _rows("copper")}
    return Copper(
        values["resistivity"],
        values["temperature coefficient"],
        values["stranding"],
        values["density"],
        values["specific heat"],
    )


def awg_diameter_mm(gauge: int) -> float:
    """Diameter of a solid wire by its American gauge, ASTM B258; NotInTable outside 0 to 40."""
    if not 0 <= gauge <= 40:
        raise NotInTable("gauge", f"{gauge} AWG", ("0 AWG to 40 AWG",))
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def _gauge(size: WireSize) -> int:
    if not size.number.isdecimal():
        raise NotInTable("gauge", size.text, ("0 AWG to 40 AWG",))
    return int(size.number)


@cache
def _class_5_ohm_per_m() -> Mapping[str, float]:
    return {row["size"]: float(row["resistance_ohm_per_km"]) / 1000 for row in _rows("iec60228")}


def area_mm2(size: WireSize) -> float:
    """Copper area of a size: the nominal one in mm², ASTM B258 for AWG; NotInTable for a size that is not standard."""
    if size.system == "AWG":
        return pi / 4 * awg_diameter_mm(_gauge(size)) ** 2
    _named(_class_5_ohm_per_m(), size.number, "conductor of mm²")
    return float(size.number)


def resistance_ohm_per_m(size: WireSize) -> float:
    """Resistance of one conductor at 20 °C; NotInTable for a size that is not standard.

    mm²: the largest that IEC 60228 allows a class 5 conductor. AWG: stranded copper of the area of ASTM B258.
    """
    if size.system == "mm2":
        return _named(_class_5_ohm_per_m(), size.number, "conductor of mm²")
    return copper().stranding * copper().resistivity_ohm_m / (area_mm2(size) * 1e-6)


@dataclass(frozen=True)
class Withstand:
    """What short heat a copper wire stands: I2t = (k S)² with S in mm², k in A s^0.5/mm², up to 5 s.

    start_degC: the conductor's temperature before, that of the insulation. end_degC: where the material fails.
    """

    material: str
    start_degC: float
    end_degC: float
    k: float
    how_known: str


@cache
def withstands() -> tuple[Withstand, ...]:
    """All materials, IEC 60364-4-43 table 43A and what its formula adds."""
    return tuple(_withstand(row) for row in _rows("withstand"))


def _withstand(row: Mapping[str, str]) -> Withstand:
    return Withstand(
        row["material"], float(row["start_degC"]), float(row["end_degC"]), float(row["k"]), row["how_known"]
    )


def withstand_for(insulation_degC: float) -> Withstand:
    """The cautious row for insulation of unknown material: the next hotter start; NotInTable above the hottest."""
    rows = [_withstand(row) for row in _rows("withstand") if row["cautious"] == "yes"]
    fitting = [row for row in rows if row.start_degC >= insulation_degC]
    if not fitting:
        raise NotInTable(
            "short-circuit constant for", f"{insulation_degC:g} °C", (f"{row.start_degC:g} °C" for row in rows)
        )
    return min(fitting, key=lambda row: row.start_degC)


# Diodes -------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Diode:
    """A registered diode class. technology: ``standard`` or ``schottky``.

    vrrm_V: repetitive reverse voltage. if_av_A: mean forward current. ifsm_A: one half wave of 8.3 ms.
    vf_V: largest drop at vf_at_A, 25 °C.
    """

    name: str
    technology: str
    vrrm_V: float
    if_av_A: float
    ifsm_A: float
    vf_V: float
    vf_at_A: float
    how_known: str


@cache
def diodes() -> tuple[Diode, ...]:
    """The registered diode classes, JEDEC; within a family the lowest voltage first."""
    return tuple(
        Diode(
            row["name"],
            row["technology"],
            float(row["vrrm_V"]),
            float(row["if_av_A"]),
            float(row["ifsm_A"]),
            float(row["vf_V"]),
            float(row["vf_at_A"]),
            row["how_known"],
        )
        for row in _rows("diodes")
    )


# Screws -------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Screw:
    """A machine screw. hole_mm: normal clearance hole. lock_nut_mm, washer_mm: greatest height and thickness.

    size: as written in a description, ``M5`` or ``10-32``. system: ``metric`` or ``inch``.
    """

    size: str
    system: str
    diameter_mm: float
    pitch_mm: float
    stress_area_mm2: float
    hole_mm: float
    lock_nut_mm: float
    washer_mm: float
    how_known: str

    @property
    def shown(self) -> str:
        """As it is shown on a page: number sizes with their sign, ``#10-32``."""
        numbered = self.system == "inch" and "/" not in self.size
        return f"#{self.size}" if numbered else self.size


@dataclass(frozen=True)
class ScrewLength:
    """A length that is easy to buy, and how it is shown: ``35 mm``, ``1 1/2 in``."""

    length_mm: float
    shown: str


@cache
def screws() -> Mapping[str, Screw]:
    """All screws by their size."""
    return {
        row["size"]: Screw(
            row["size"],
            row["system"],
            float(row["diameter_mm"]),
            float(row["pitch_mm"]),
            float(row["stress_area_mm2"]),
            float(row["hole_mm"]),
            float(row["lock_nut_mm"]),
            float(row["washer_mm"]),
            row["how_known"],
        )
        for row in _rows("screws")
    }


def screw(size: str) -> Screw:
    """The screw of this size, ``M5``, ``10-32`` or ``#10-32``; NotInTable when there is none."""
    return _named(screws(), size.removeprefix("#"), "screw")


@cache
def screw_strengths() -> Mapping[str, float]:
    """Proof stress in MPa of each class of screw, by its name."""
    return {row["name"]: float(row["proof_MPa"]) for row in _rows("screw_strength")}


@cache
def screw_lengths(system: str) -> tuple[ScrewLength, ...]:
    """The lengths of ``metric`` or ``inch`` screws, shortest first."""
    return tuple(
        ScrewLength(float(row["length_mm"]), row["shown"]) for row in _rows("screw_lengths") if row["system"] == system
    )


# Heat ---------------------------------------------------------------------------------------------------------------


@cache
def _winding_limits() -> Mapping[str, float]:
    named = {}
    for row in _rows("winding_classes"):
        named[row["letter"]] = named[row["number"]] = float(row["limit_degC"])
    return named


def winding_limit_degC(name: str) -> float:
    """The highest temperature of a winding's hottest spot by its class, ``A`` or ``105``; NotInTable for others."""
    return _named(_winding_limits(), name, "class of winding insulation")


@dataclass(frozen=True)
class Touch:
    """What is said of a surface from a temperature on. level: note, warm, caution or must fix."""

    from_degC: float
    level: str
    reason: str
    how_known: str


@cache
def touch_levels() -> tuple[Touch, ...]:
    """The levels for surfaces that can be touched, coolest first."""
    return tuple(
        Touch(float(row["from_degC"]), row["level"], row["reason"], row["how_known"]) for row in _rows("touch")
    )


# Values to buy ------------------------------------------------------------------------------------------------------


@cache
def e24_decade() -> tuple[float, ...]:
    """One decade of preferred resistor values, 1.0 to 9.1; IEC 60063."""
    return tuple(float(row["value"]) for row in _rows("e24"))


@cache
def supply_ratings_A() -> tuple[float, ...]:
    """The currents of supplies that are easy to buy, smallest first."""
    return tuple(float(row["rating_A"]) for row in _rows("supply_ratings"))

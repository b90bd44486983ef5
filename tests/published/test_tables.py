"""The published tables: whole, ordered, each with its source, and refusing what they do not have."""

import csv
import re
from importlib.resources import files
from itertools import pairwise

import pytest

from guide_gen.published import tables
from guide_gen.published.tables import NotInTable
from guide_gen.values.quantity import WireSize

CSV_FILES = sorted(file.name for file in files("guide_gen.published").iterdir() if file.name.endswith(".csv"))
FAMILIES = sorted(tables.families())
HOLDERS = sorted(tables.all_fuse_series())
HOW_KNOWN = {"looked-up", "memory", "computed", "estimate"}


def _text(name):
    return (files("guide_gen.published") / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", CSV_FILES)
def test_every_table_names_its_source_in_its_head(name):
    head = [line for line in _text(name).splitlines() if line.startswith("#")]
    assert re.search(r"# Sources?: ", "\n".join(head))
    assert "How known: " in "\n".join(head)


@pytest.mark.parametrize("name", CSV_FILES)
def test_no_table_names_a_page_of_the_web(name):
    assert not re.search(r"https?:|www\.|\.(com|org|net|edu)\b", _text(name))


@pytest.mark.parametrize("name", CSV_FILES)
def test_every_row_is_whole_and_says_how_it_is_known(name):
    rows = list(csv.DictReader(line for line in _text(name).splitlines() if not line.startswith("#")))
    assert rows
    for row in rows:
        assert None not in row
        assert None not in row.values()
        assert row.get("how_known", "looked-up").partition(";")[0] in HOW_KNOWN


# Single figures


def test_every_rule_stands_inside_its_own_range():
    for rule in tables.rules().values():
        assert rule.source
        assert (rule.low or rule.value) <= rule.value <= (rule.high or rule.value), rule.name


def test_an_unknown_rule_is_refused_with_the_known_ones():
    with pytest.raises(NotInTable, match="no rule 'fuse margn'; the table has fuse margin, "):
        tables.rule("fuse margn")


# Ampacity


@pytest.fixture(params=FAMILIES, name="family")
def _family(request):
    return tables.family(request.param)


def test_the_families_are_those_a_description_may_name():
    assert FAMILIES == ["33 CFR 183.425", "IEC 60204-1", "IEC 60364-5-52", "NFPA 70 310.16", "NFPA 70 310.17"]


def test_sizes_rise_in_area_and_all_have_a_resistance(family):
    sizes = [WireSize(family.sizes_system, number) for number in family.sizes]
    areas = [tables.area_mm2(size) for size in sizes]
    ohms = [tables.resistance_ohm_per_m(size) for size in sizes]
    assert areas == sorted(areas)
    assert ohms == sorted(ohms, reverse=True)


def test_thicker_wire_carries_more_in_every_column(family):
    for column in family.insulation_degC:
        currents = [family.ampacity_A(size, column) for size in family.sizes_in(column)]
        assert all(thin < thick for thin, thick in pairwise(currents))


def test_better_insulation_never_carries_less(family):
    for size in family.sizes:
        currents = [
            family.ampacity_A(size, column) for column in family.insulation_degC if size in family.sizes_in(column)
        ]
        assert currents == sorted(currents)


def test_choosing_begins_at_the_smallest_size(family):
    hottest = family.insulation_degC[-1]
    assert family.sizes_in(hottest)[0] == family.smallest


def test_the_column_is_the_highest_not_above_the_insulation(family):
    lowest, highest = family.insulation_degC[0], family.insulation_degC[-1]
    assert family.column_for(lowest) == lowest
    assert family.column_for(highest + 50) == highest
    assert family.column_for(lowest + 0.5) == lowest


def test_insulation_below_the_lowest_column_is_refused(family):
    with pytest.raises(NotInTable, match=r"no insulation column for 59 °C; the table has \d+ °C"):
        family.column_for(59)


def test_insulation_between_two_columns_takes_the_cooler():
    assert tables.family("33 CFR 183.425").column_for(89) == 80


def test_a_size_that_the_table_lacks_is_refused():
    with pytest.raises(NotInTable, match=r"no ampacity for 3 at 70 °C"):
        tables.family("IEC 60204-1").ampacity_A("3", 70)


def test_a_column_without_a_thin_size_leaves_it_out():
    family = tables.family("NFPA 70 310.16")
    assert family.sizes_in(60)[0] == "14"
    with pytest.raises(NotInTable):
        family.ampacity_A("18", 60)


def test_more_circuits_never_raise_the_bundle_factor(family):
    factors = [family.bundle_factor(circuits)[0] for circuits in range(1, 21)]
    assert factors[0] == 1
    assert factors == sorted(factors, reverse=True)


def test_the_bundle_row_is_said_in_words():
    assert tables.family("IEC 60204-1").bundle_factor(1) == (1.0, "1 circuit: row 1")
    assert tables.family("IEC 60204-1").bundle_factor(10) == (0.45, "10 circuits: row 10 to 12")
    assert tables.family("NFPA 70 310.16").bundle_factor(2) == (0.8, "4 conductors: row 4 to 6")
    assert tables.family("33 CFR 183.425").bundle_factor(13) == (0.4, "26 conductors: row 25 and more")


@pytest.mark.parametrize("circuits", [0, -1, 21])
def test_a_bundle_beyond_the_table_is_refused(circuits):
    with pytest.raises(NotInTable, match="the table has 1 to 20 circuits"):
        tables.family("IEC 60364-5-52").bundle_factor(circuits)


def test_only_one_family_caps_the_fuse_by_size():
    capped = [name for name in FAMILIES if tables.family(name).fuse_caps_A]
    assert capped == ["NFPA 70 310.16", "NFPA 70 310.17"]


def test_an_unknown_family_is_refused_with_the_known_ones():
    with pytest.raises(NotInTable, match="no family of tables 'IEC 60204'; the table has IEC 60204-1, "):
        tables.family("IEC 60204")


# Fuses


@pytest.fixture(params=HOLDERS, name="series")
def _series(request):
    return tables.fuse_series(request.param)


def test_ratings_rise_without_repeats(series):
    assert list(series.ratings_A) == sorted(set(series.ratings_A))


def test_a_larger_overload_never_opens_a_fuse_later(series):
    for rating in series.ratings_A:
        for character in {gate.character for gate in series.gates}:
            gates = sorted(
                (gate for gate in series.gates if gate.character == character and gate.from_A <= rating <= gate.to_A),
                key=lambda gate: gate.multiple,
            )
            longest = [gate.longest_s for gate in gates if gate.longest_s is not None]
            assert longest == sorted(longest, reverse=True)


def test_no_gate_asks_for_opening_before_it_allows_it(series):
    for gate in series.gates:
        assert (gate.shortest_s or 0) < (gate.longest_s or float("inf"))


def test_a_fuse_is_found_by_its_rating_and_else_refused():
    assert tables.fuse_series("blade").fuse(10).colour == "red"
    with pytest.raises(NotInTable, match=r"no blade fuse of 8 A; the table has 1 A, 2 A"):
        tables.fuse_series("blade").fuse(8)


def test_an_unknown_holder_is_refused():
    with pytest.raises(NotInTable, match="no fuse holder 'midi'"):
        tables.fuse_series("midi")


def test_a_warmer_fuse_never_carries_more():
    degC, factors = zip(*tables.fuse_temperature_points(), strict=True)
    assert list(degC) == sorted(degC)
    assert list(factors) == sorted(factors, reverse=True)
    assert factors[0] == 1


# Wire


@pytest.mark.parametrize("size", [WireSize("mm2", "3"), WireSize("AWG", "41"), WireSize("AWG", "1/0")])
def test_a_size_that_is_not_standard_is_refused(size):
    with pytest.raises(NotInTable):
        tables.resistance_ohm_per_m(size)
    with pytest.raises(NotInTable):
        tables.area_mm2(size)


# Screws and diodes


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_screw_lengths_rise(system):
    lengths = [length.length_mm for length in tables.screw_lengths(system)]
    assert lengths == sorted(set(lengths))
    assert len(lengths) > 10


def test_inch_lengths_are_shown_as_they_are_sold():
    assert [length.shown for length in tables.screw_lengths("inch") if 25 < length.length_mm < 45] == [
        "1 in",
        "1 1/4 in",
        "1 1/2 in",
        "1 3/4 in",
    ]


@pytest.mark.parametrize("size", sorted(tables.screws()))
def test_a_screw_fits_its_hole_and_its_thread_its_nut(size):
    screw = tables.screw(size)
    assert screw.diameter_mm < screw.hole_mm < 1.3 * screw.diameter_mm
    assert screw.pitch_mm < screw.diameter_mm < 2 * screw.lock_nut_mm


def test_a_number_size_is_found_with_and_without_its_sign():
    assert tables.screw("#10-32") == tables.screw("10-32")
    assert tables.screw("10-32").shown == "#10-32"
    assert tables.screw("1/4-20").shown == "1/4-20"
    assert tables.screw("M5").shown == "M5"


def test_an_unknown_screw_is_refused():
    with pytest.raises(NotInTable, match="no screw 'M7'; the table has M3, M4, "):
        tables.screw("M7")


def test_diodes_of_both_technologies_are_there():
    assert {diode.technology for diode in tables.diodes()} == {"standard", "schottky"}
    assert all(diode.ifsm_A > diode.if_av_A for diode in tables.diodes())

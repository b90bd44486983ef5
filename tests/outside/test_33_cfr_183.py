"""33 CFR 183.425 table 5 with its notes, and 183.455(b). Looked-up; note 1 from memory but for its 105 °C column."""

import pytest

from guide_gen.formulas.wire import ambient_factor, derated_ampacity_A
from guide_gen.published.tables import family, rule

BOAT = family("33 CFR 183.425")
COLUMNS = (60, 75, 80, 90, 105, 125, 200)


@pytest.mark.parametrize(
    ("size", "amperes"),
    [
        ("18", (10, 10, 15, 20, 20, 25, 25)),
        ("16", (15, 15, 20, 25, 25, 30, 35)),
        ("14", (20, 20, 25, 30, 35, 40, 45)),
        ("12", (25, 25, 35, 40, 45, 50, 55)),
        ("10", (40, 40, 50, 55, 60, 70, 70)),
        ("8", (55, 65, 70, 70, 80, 90, 100)),
        ("6", (80, 95, 100, 100, 120, 125, 135)),
    ],
)
def test_table_5(size, amperes):
    assert tuple(BOAT.ampacity_A(size, column) for column in COLUMNS) == amperes


def test_conditions():
    assert BOAT.insulation_degC == COLUMNS
    assert BOAT.ambient_degC == 30


def test_the_smallest_single_wire_is_16_AWG():
    """183.425(d) and (e): 18 AWG only inside a sheath."""
    assert BOAT.smallest == "16"


@pytest.mark.parametrize(
    ("column", "factor"),
    [
        (60, 0.58),
        (75, 0.75),
        (80, 0.78),
        (90, 0.82),
        (105, 0.85),
        (125, 0.89),
    ],
)
def test_note_1_engine_space(column, factor):
    """At 50 °C; the square root meets the printed factor to 0.007. The 200 °C column's 1.00 it does not: 0.94."""
    assert ambient_factor(column, 50, 30) == pytest.approx(factor, abs=0.007)


@pytest.mark.parametrize(("circuits", "factor"), [(1, 1), (2, 0.60), (3, 0.60), (4, 0.50), (12, 0.50), (13, 0.40)])
def test_note_2_bundles(circuits, factor):
    """It counts conductors: 3 take 0.70, 4 to 6 take 0.60, 7 to 24 take 0.50, from 25 on 0.40."""
    assert BOAT.bundle_factor(circuits)[0] == factor


@pytest.mark.parametrize(
    ("size", "outside", "inside"),
    [
        ("18", ("20", "12", "10"), ("17", "10.2", "8.5")),
        ("16", ("25", "15.0", "12.5"), ("21.3", "12.8", "10.6")),
        ("10", ("60", "36", "30"), ("51", "30.6", "25.5")),
    ],
)
def test_boat_wire_in_bundles_of_105_degC(size, outside, inside, printed):
    """Printed products of table 5 with both notes: alone, 4 to 6 conductors, 7 to 24; engine space 0.85. Looked-up."""
    for circuits, out, hot in zip((1, 2, 4), outside, inside, strict=True):
        bundle = BOAT.bundle_factor(circuits)[0]
        assert derated_ampacity_A(BOAT.ampacity_A(size, 105), 1, bundle) == printed(out)
        assert derated_ampacity_A(BOAT.ampacity_A(size, 105), 0.85, bundle) == printed(hot)


def test_the_fuse_stands_within_seven_inches_of_its_source():
    """183.455(b)(1): 7 in, 177.8 mm."""
    assert rule("lead before the fuse").value == pytest.approx(7 * 0.0254)

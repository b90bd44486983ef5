"""NFPA 70-2023 article 310 and 240.4(D): ampacity, its corrections, fuse caps. Looked-up."""

import pytest

from guide_gen.formulas.wire import ambient_factor, derated_ampacity_A
from guide_gen.published.tables import family

RACEWAY = family("NFPA 70 310.16")
FREE_AIR = family("NFPA 70 310.17")
COLUMNS = (60, 75, 90)


@pytest.mark.parametrize(
    ("size", "amperes"),
    [
        ("18", (None, None, 14)),
        ("16", (None, None, 18)),
        ("14", (15, 20, 25)),
        ("12", (20, 25, 30)),
        ("10", (30, 35, 40)),
        ("8", (40, 50, 55)),
        ("6", (55, 65, 75)),
    ],
)
def test_table_310_16(size, amperes):
    for column, ampere in zip(COLUMNS, amperes, strict=True):
        assert (size in RACEWAY.sizes_in(column)) is (ampere is not None)
        assert ampere is None or RACEWAY.ampacity_A(size, column) == ampere


@pytest.mark.parametrize(
    ("size", "amperes"),
    [
        ("18", (None, None, 18)),
        ("16", (None, None, 24)),
        ("14", (25, 30, 35)),
        ("12", (30, 35, 40)),
        ("10", (40, 50, 55)),
        ("8", (60, 70, 80)),
        ("6", (80, 95, 105)),
    ],
)
def test_table_310_17(size, amperes):
    for column, ampere in zip(COLUMNS, amperes, strict=True):
        assert ampere is None or FREE_AIR.ampacity_A(size, column) == ampere


@pytest.mark.parametrize(
    ("hottest_degC", "factors"),
    [
        (10, (1.29, 1.20, 1.15)),
        (15, (1.22, 1.15, 1.12)),
        (20, (1.15, 1.11, 1.08)),
        (25, (1.08, 1.05, 1.04)),
        (30, (1.00, 1.00, 1.00)),
        (35, (0.91, 0.94, 0.96)),
        (40, (0.82, 0.88, 0.91)),
        (45, (0.71, 0.82, 0.87)),
        (50, (0.58, 0.75, 0.82)),
        (55, (0.41, 0.67, 0.76)),
        (60, (None, 0.58, 0.71)),
        (65, (None, 0.47, 0.65)),
        (70, (None, 0.33, 0.58)),
        (75, (None, None, 0.50)),
        (80, (None, None, 0.41)),
        (85, (None, None, 0.29)),
    ],
)
def test_ambient_factors_of_table_310_15_b_1(hottest_degC, factors):
    """At the hot end of each band the square root meets the printed factor to 0.006."""
    for column, factor in zip(COLUMNS, factors, strict=True):
        assert factor is None or ambient_factor(column, hottest_degC, 30) == pytest.approx(factor, abs=0.006)


@pytest.mark.parametrize(
    ("circuits", "factor"),
    [
        (1, 1),
        (2, 0.80),
        (3, 0.80),
        (4, 0.70),
        (5, 0.50),
        (10, 0.50),
        (11, 0.45),
        (15, 0.45),
        (16, 0.40),
        (21, 0.35),
    ],
)
def test_bundle_factors_of_table_310_15_c_1(circuits, factor):
    """It counts conductors, two to a circuit: up to 3, 6, 9, 20, 30, 40, more."""
    assert RACEWAY.bundle_factor(circuits)[0] == factor
    assert FREE_AIR.bundle_factor(circuits)[0] == factor


@pytest.mark.parametrize(("size", "ampere"), [("18", 7), ("16", 10), ("14", 15), ("12", 20), ("10", 30)])
def test_fuse_caps_of_240_4_d(size, ampere):
    assert RACEWAY.fuse_caps_A[size] == ampere


def test_nine_conductors_of_12_AWG(printed):
    """Worked example of a trade journal's code column, looked-up: nine of 90 °C in one raceway carry 21 A."""
    bundle, row = RACEWAY.bundle_factor(4)
    assert row == "8 conductors: row 7 to 9"
    assert derated_ampacity_A(RACEWAY.ampacity_A("12", 90), 1, bundle) == printed("21")


def test_the_ambient_factor_belongs_to_the_tables_own_air(printed):
    """12 AWG, 90 °C, at 55 °C: 0.76 x 30 A = 22.8 A; the 0.84 of tables with a 40 °C base would give 25.2 A."""
    right = derated_ampacity_A(RACEWAY.ampacity_A("12", 90), ambient_factor(90, 55, RACEWAY.ambient_degC), 1)
    assert right == pytest.approx(22.8, rel=0.01)
    assert ambient_factor(90, 55, 40) == printed("0.84")


def test_a_published_mistake_is_shown_different():
    """A published example takes nine 12 AWG of 90 °C at 45 °C with the 75 °C column's 0.82: 17.22 A. It is 18.27 A."""
    ampacity = derated_ampacity_A(30, ambient_factor(90, 45, 30), RACEWAY.bundle_factor(4)[0])
    assert ampacity == pytest.approx(18.27, rel=0.01)
    assert ampacity != pytest.approx(17.22, rel=0.01)

"""JEDEC type registrations of rectifier and Schottky diodes: reverse voltage, mean and surge current. Looked-up."""

import pytest

from guide_gen.published.tables import diodes

CLASSES = {diode.name: diode for diode in diodes()}


@pytest.mark.parametrize(
    ("name", "volt", "ampere", "surge"),
    [
        ("1N4001", 50, 1, 30),
        ("1N4004", 400, 1, 30),
        ("1N4007", 1000, 1, 30),
        ("1N5400", 50, 3, 200),
        ("1N5404", 400, 3, 200),
        ("1N5408", 1000, 3, 200),
        ("1N5817", 20, 1, 25),
        ("1N5818", 30, 1, 25),
        ("1N5819", 40, 1, 25),
        ("1N5820", 20, 3, 80),
        ("1N5821", 30, 3, 80),
        ("1N5822", 40, 3, 80),
    ],
)
def test_class(name, volt, ampere, surge):
    diode = CLASSES[name]
    assert (diode.vrrm_V, diode.if_av_A, diode.ifsm_A) == (volt, ampere, surge)


@pytest.mark.parametrize(("name", "volt"), [("1N5817", 0.45), ("1N5820", 0.475), ("1N5822", 0.525)])
def test_schottky_drop(name, volt):
    assert CLASSES[name].vf_V == volt


def test_no_schottky_class_stands_more_than_40_V():
    assert max(diode.vrrm_V for diode in diodes() if diode.technology == "schottky") == 40

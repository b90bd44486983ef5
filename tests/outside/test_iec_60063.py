"""IEC 60063, preferred values of resistors. Looked-up."""

import pytest

from guide_gen.formulas.led import next_e24_ohm
from guide_gen.published.tables import e24_decade

E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
DEVIATE = {2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2}


def test_e24_has_24_values_and_every_second_one_is_e12():
    assert len(e24_decade()) == 24
    assert e24_decade()[::2] == E12


def test_all_but_eight_are_the_rounded_parts_of_a_decade():
    rounded = [round(10 ** (n / 24), 1) for n in range(24)]
    assert {value for value, part in zip(e24_decade(), rounded, strict=True) if value != part} == DEVIATE


@pytest.mark.parametrize("ohm", [0.47, 1.0, 27, 330, 4700, 82000, 1e6])
def test_a_preferred_value_stays_itself(ohm):
    assert next_e24_ohm(ohm) == ohm

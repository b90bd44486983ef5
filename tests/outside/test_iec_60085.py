"""IEC 60085, thermal classes of electrical insulation. From memory."""

import pytest

from guide_gen.published.tables import NotInTable, winding_limit_degC


@pytest.mark.parametrize(("letter", "number"), [("Y", 90), ("A", 105), ("E", 120), ("B", 130), ("F", 155), ("H", 180)])
def test_a_class_is_called_by_its_letter_or_its_temperature(letter, number):
    assert winding_limit_degC(letter) == winding_limit_degC(str(number)) == number


def test_another_class_is_refused():
    with pytest.raises(NotInTable, match="no class of winding insulation 'C'"):
        winding_limit_degC("C")

"""What is refused, and in which words."""

from math import inf, nan

import pytest

from guide_gen.formulas.validity import OutsideValidity, above_zero, at_least, share, temperature, within


@pytest.mark.parametrize(
    ("check", "value", "message"),
    [
        (lambda value: above_zero(current_A=value), 0, "current_A is 0, it must be above 0"),
        (lambda value: above_zero(current_A=value), nan, "current_A is nan, it must be above 0"),
        (lambda value: at_least(1, margin=value), 0.5, "margin is 0.5, it must be 1 or more"),
        (lambda value: within(0, 40, gauge=value), 41, "gauge is 41, it must be from 0 to 40"),
        (lambda value: share(bundle_factor=value), 1.5, "bundle_factor is 1.5, it must be above 0 and at most 1"),
        (lambda value: temperature(ambient_degC=value), -300, "ambient_degC is -300, it must be -273.15 or more"),
        (lambda value: temperature(ambient_degC=value), inf, "ambient_degC is inf, it must be -273.15 or more"),
    ],
)
def test_refusal_names_argument_value_and_range(check, value, message):
    with pytest.raises(OutsideValidity) as refusal:
        check(value)
    assert str(refusal.value) == message


def test_a_refusal_is_a_value_error():
    assert issubclass(OutsideValidity, ValueError)

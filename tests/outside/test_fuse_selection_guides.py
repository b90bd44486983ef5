"""Published fuse selection guides: pulses by their I2t. Shares looked-up, shapes from memory."""

import pytest

from guide_gen.formulas import fuse_opening


@pytest.mark.parametrize(("pulses", "percent"), [(100, 48), (1000, 38), (10000, 29), (100000, 22)])
def test_the_share_of_the_melting_i2t_by_pulses(pulses, percent):
    assert fuse_opening.pulse_share(pulses) * 100 == pytest.approx(percent)


@pytest.mark.parametrize(
    ("shape", "factor"),
    [
        (fuse_opening.rectangle_A2s(10, 1), 1),
        (fuse_opening.half_sine_A2s(10, 1), 1 / 2),
        (fuse_opening.ramp_A2s(0, 10, 1), 1 / 3),
        (fuse_opening.decay_A2s(10, 1), 1 / 2),
    ],
)
def test_the_factor_of_each_shape(shape, factor):
    """Times peak squared and time, or time constant."""
    assert shape == pytest.approx(100 * factor)

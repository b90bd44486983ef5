"""ISO 2631-1:1997, annex C: how an overall weighted acceleration is felt. From memory."""

import pytest

from guide_gen.published.vibration import comfort_bands


@pytest.mark.parametrize(("words", "low", "high"), [
    ("not uncomfortable", 0, 0.315), ("a little uncomfortable", 0.315, 0.63), ("fairly uncomfortable", 0.5, 1.0),
    ("uncomfortable", 0.8, 1.6),
])  # fmt: skip
def test_bands_stand_as_in_the_annex(words, low, high):
    found = next(band for band in comfort_bands() if band.words == words)
    assert (found.low_m_s2, found.high_m_s2) == (low, high)

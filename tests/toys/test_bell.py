"""The bell: a pulse coil like the knocker's, with a clapper instead of a plunger."""

import pytest

from guide_gen.model.finding import Level

SAFE = {"toys.bump.time_limit": {"by": "board", "after": "150 ms"}}


@pytest.fixture(name="bell", scope="module")
def _bell(any_toy):
    return lambda changes=None, control="on/off port": any_toy("bell", control, SAFE | (changes or {}))


def test_bell_without_a_time_limit_is_unprotected(bell):
    """As any coil that is made for pulses."""
    assert bell({"toys.bump.time_limit": None}).finding("stuck-on-unprotected").level is Level.MUST
    assert "stuck-on-unprotected" not in bell().codes


def test_bell_rings_and_its_clapper_falls_back(bell):
    """Its own words, not those of a knocker."""
    steps = bell().toy.steps
    assert any("falls back" in step.text for step in steps)
    assert not any("knocks" in step.text or "plunger moves" in step.text for step in steps)
    assert all(step.id.split(".")[0] != "knocker" for step in steps)


def test_bell_needs_no_end_stop_key_and_is_told_to_have_one(bell):
    """The stop is a step."""
    toy = bell().toy
    assert "bell.mount.stop" in {step.id for step in toy.steps}
    assert not hasattr(toy, "end_stop")


def test_pulses_are_judged_with_the_coil(bell):
    """12.6 V over 6 ohm into 0.2 mm wire: it stands seconds, not a minute."""
    thin = {"toys.bump.coil": {"resistance": "6 ohm (measured)", "wire_diameter": "0.20 mm"}}
    long = bell(thin | {"toys.bump.pulse": {"on_time": "5 s", "off_time": "10 s"}})
    short = bell(thin | {"toys.bump.pulse": {"on_time": "30 ms", "off_time": "10 s"}})
    assert "pulse-too-long" in long.codes
    assert "pulse-too-long" not in short.codes

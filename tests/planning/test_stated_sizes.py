"""Stated sizes that are not to be had, or not for this place: a fuse between two ratings, a wire below the smallest."""

import pytest

from guide_gen.model.finding import Level

BOAT = {
    "wiring": {"ampacity_table": "33 CFR 183.425", "insulation": "105 °C", "bundled_circuits": "1"},
    "toys.bump.current": "1 A (measured)",
    "toys.bump.control": {"type": "always on"},
}


# 33 CFR 183.425(d) and (e): 16 AWG is the smallest single wire; its table has 18 AWG too.
@pytest.mark.parametrize(("size", "told"), [("16 AWG", False), ("18 AWG", True)])
def test_feed_below_the_smallest_wire_is_too_thin_whatever_it_carries(plan_of, size, told):
    case = plan_of(BOAT | {"toys.bump.feed.wire": size})
    assert ("wire-too-thin" in case.codes) == told
    if told:
        finding = case.finding("wire-too-thin")
        assert finding.level is Level.MUST
        assert "16 AWG" in finding.mend
        assert case.at(finding).startswith("18 AWG")
        assert finding.toy == "bump"


@pytest.mark.parametrize(("size", "told"), [("16 AWG", False), ("18 AWG", True)])
def test_shared_lead_below_the_smallest_wire_is_too_thin(plan_of, size, told):
    case = plan_of(BOAT | {"supplies.main.fuse_block": {"run": "0.1 m", "wire": size}})
    assert ("wire-too-thin" in case.codes) == told
    if told:
        assert case.above(case.finding("wire-too-thin")) == ["supplies", "main", "fuse_block", "wire"]


# ISO 8820-3 type C: 1 2 3 4 5 7.5 10 15 20 25 30 35 40 A; IEC 60127-2: R10 of ISO 3, 6.3 A among them.
@pytest.mark.parametrize(
    ("holder", "rating", "near"),
    [
        ("blade", "7.5 A", ""),
        ("blade", "6.3 A", "5 A or 7.5 A"),
        ("5 x 20 mm", "6.3 A", ""),
        ("5 x 20 mm", "7.5 A", "6.3 A or 8 A"),
        ("mini blade", "40 A", "30 A"),
        ("mini blade", "1 A", "2 A"),
    ],
)
def test_rating_that_the_series_does_not_have_is_told_with_its_neighbours(plan_of, holder, rating, near):
    case = plan_of({"toys.bump.feed.fuse": {"holder": holder, "rating": rating, "dc_voltage": "32 V"}})
    assert ("fuse-not-in-series" in case.codes) == bool(near)
    if near:
        finding = case.finding("fuse-not-in-series")
        assert finding.level is Level.SHOULD
        assert finding.expected.replace("\u00a0", " ").startswith(f"{near}, the nearest")
        assert case.at(finding).startswith(rating)

"""The contactor: the coil's kind, its contacts, how fast it lets go and how warm it gets."""

from math import log

import pytest

from guide_gen.model.finding import Level

# 60 mH, 20 ohm, 0.6 A released at 0.1 A: 4.6 ms with a plain diode, 1.0 ms with 24 V more (worked by L/R ln).
COIL = {
    "resistance": "20 ohm (measured)",
    "inductance": "60 mH (datasheet)",
    "release_current": "100 mA (measured)",
}
BUMP = {
    "toys.bump.current": "0.6 A (measured)",
    "toys.bump.coil": COIL,
    "toys.bump.surface_temperature": "50 °C (measured)",
    "boards.quay.port_voltage": "60 V",
}


@pytest.fixture(name="slam", scope="module")
def _slam(any_toy):
    def make(changes=None, control="on/off port"):
        return any_toy("contactor", control, BUMP | {f"toys.bump.{key}": each for key, each in (changes or {}).items()})

    return make


def test_release_times_of_the_worked_example(slam):
    """4.6 ms with a diode of 0.7 V, 1.0 ms with a zener of 24 V in series."""
    plain = slam().toy.sized.suppression
    pair = slam({"suppressor": {"type": "diode and zener", "zener_voltage": "24 V"}}).toy.sized.suppression
    assert plain.release_s == pytest.approx(0.06 / 20 * log((0.6 * 20 + 0.7) / (0.1 * 20 + 0.7)))
    assert plain.release_s == pytest.approx(0.0046, abs=5e-5)
    assert pair.release_s == pytest.approx(0.0010, abs=5e-5)


@pytest.mark.parametrize(("inductance", "told"), [("129 mH", False), ("130 mH", True)])
def test_a_release_above_ten_milliseconds_is_slow(slam, inductance, told):
    """L/20 ln(12.7/2.7) is 10 ms at 129.2 mH; 10 ms is an estimate of the trade."""
    case = slam({"coil.inductance": f"{inductance} (datasheet)"})
    assert ("suppressor-too-slow" in case.codes) == told
    if told:
        finding = case.finding("suppressor-too-slow")
        assert finding.level is Level.SHOULD
        assert "diode and a zener of 24" in finding.mend
        assert "2.1\u00a0ms" in finding.mend or "2.07\u00a0ms" in finding.mend
        assert "10.1\u00a0ms" in finding.message


def test_contacts_under_load_want_a_quick_release_in_any_case(slam):
    """A plain diode opens them slowly; diode and zener do not."""
    used = {"contacts": "used", "contact_voltage": "30 V", "contact_current": "10 A",
            "switched": {"voltage": "24 V", "current": "4 A (measured)"}}  # fmt: skip
    assert slam(used).finding("suppressor-too-slow").level is Level.SHOULD
    assert slam(used | {"suppressor": "diode and zener"}).codes == []


def test_slow_release_is_no_matter_under_pwm(slam):
    """A zener would burn there."""
    assert "suppressor-too-slow" not in slam({"coil.inductance": "1 H (datasheet)"}, "pwm port").codes


def test_ac_coil_on_dc_is_refused(slam):
    """Only its copper limits the current."""
    finding = slam({"coil_type": "AC"}).finding("coil-kind")
    assert finding.level is Level.MUST
    assert "coil-kind" not in slam().codes


USED = {"contacts": "used", "suppressor": "diode and zener", "contact_voltage": "30 V", "contact_current": "10 A"}


@pytest.mark.parametrize(
    ("switched", "at"),
    [
        ({"voltage": "30 V", "current": "10 A (measured)"}, None),
        ({"voltage": "30.5 V", "current": "10 A (measured)"}, "30 V"),
        ({"voltage": "30 V", "current": "10.1 A (measured)"}, "10 A"),
    ],
)
def test_contacts_are_held_against_their_dc_rating(slam, switched, at):
    """Just at it, and just past it in voltage and in current; it points at the rating."""
    case = slam(USED | {"switched": switched})
    assert ("contacts-rating" in case.codes) == (at is not None)
    if at:
        assert case.finding("contacts-rating").level is Level.MUST
        assert case.at(case.finding("contacts-rating")) == at


def test_contacts_without_a_dc_rating_are_refused(slam):
    """The AC figure never counts; and what they switch has to be known."""
    bare = slam(USED | {"contact_voltage": None, "contact_current": None})
    assert "AC rating never counts" in bare.finding("contacts-rating").message
    assert "what they switch" in slam(USED).finding("not-worked-out").message


@pytest.mark.parametrize(
    ("surface", "level"),
    [("59 °C", None), ("60 °C", Level.SHOULD), ("84 °C", Level.SHOULD), ("85 °C", Level.MUST)],
)
def test_held_surface_is_told_by_degree(slam, surface, level):
    """60 and 85 °C (ISO 13732-1 as a basis, from memory); a measured value stands for the computed one."""
    case = slam({"surface_temperature": f"{surface} (measured)"})
    assert [one.level for one in case.plan.findings if one.code == "surface-hot"] == ([level] if level else [])
    assert ("coil-warm" in {caution.id for caution in case.toy.cautions}) == (level is not None)


def test_held_coil_above_its_insulation_must_be_mended(slam):
    """Class Y stands 90 °C, 80 on average: burnt long before 85."""
    case = slam({"surface_temperature": "81 °C (measured)", "coil.insulation_class": "Y"})
    assert case.finding("surface-hot").level is Level.MUST
    assert "insulation" in case.finding("surface-hot").message


def test_surface_may_be_worked_out_from_the_coils_size(slam):
    """V²/R = 7.9 W at 12.6 V through the mantle of 60 x 80 mm: hot enough to be told."""
    case = slam({"surface_temperature": None, "coil.outer_diameter": "60 mm", "coil.length": "80 mm"})
    assert "surface-hot" in case.codes
    unknown = slam({"surface_temperature": None})
    assert "surface_temperature" in unknown.finding("not-worked-out").expected


def test_unknown_inductance_says_what_to_look_up(slam):
    """Then no release time is told."""
    case = slam({"coil.inductance": None})
    assert case.toy.sized.suppression.release_s is None
    assert "release time" in case.finding("not-worked-out").message


def test_contacts_stay_unwired_and_covered(slam):
    """A warning at the head, a step, and a check before power."""
    toy = slam().toy
    assert "contacts-unused" in {caution.id for caution in toy.cautions if caution.grouped}
    assert any("No wire is on the main contacts" in step.text for step in toy.steps)


@pytest.mark.parametrize("basis", ["measured", "estimate"])
def test_surface_is_told_by_how_it_is_known(slam, basis):
    """A measured temperature is no estimate, in the finding, the caution and the answer."""
    case = slam({"surface_temperature": f"90 °C ({basis})"})
    other = {"measured": "estimate", "estimate": "measured"}[basis]
    said = [
        case.finding("surface-hot").message,
        next(one.reason for one in case.toy.cautions if one.id == "coil-warm"),
        next(one.answer for one in case.toy.questions if one.id == "coil-hot"),
    ]
    assert all(f"({basis}" in text for text in said)
    assert not any(f"({other}" in text for text in said)

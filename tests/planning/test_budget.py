"""A supply as a whole."""

import pytest

from guide_gen.planning.budget import listed

STRONG = {"supplies.main.overload": "limits", "supplies.main.current_limit": "24 A (datasheet)"}
KNOWN = {"toys.bump.motor": {"resistance": "0.5 ohm (measured)"}}


def budget(plan_of, changes=None):
    return plan_of(changes or {}).plan.supplies["main"].budget


def test_running_currents_add_up(plan_of):
    """OpenStax College Physics 2e, parallel circuits: currents of branches add."""
    other = {"kind": "blower fan", "voltage": "12 V", "current": "1.4 A (measured)", "motor_type": "brushed",
             "control": {"type": "on/off port", "board": "quay", "port": "5"}, "feed": {"run": "1 m"}}  # fmt: skip
    found = budget(plan_of, {"toys.vent": other})
    assert found.running_A == pytest.approx(sum(one.running_A[1] for one in found.branches)) == pytest.approx(3.4)
    assert found.used_share == pytest.approx(3.4 / 20)
    assert found.usable_A == pytest.approx(16)


def test_limit_below_the_rated_current_is_what_the_supply_gives(plan_of):
    """0.8 of the smaller of rated 20 A and limit 10 A; 2 A of 10 A leave 80 % (this project: a ratio)."""
    supply = plan_of({"supplies.main.current_limit": "10 A (datasheet)"}).plan.supplies["main"]
    assert supply.budget.usable_A == pytest.approx(8)
    assert supply.budget.used_share == pytest.approx(0.2)
    assert supply.headroom_percent == pytest.approx(80)
    assert supply.rated_A == 20


def test_start_counts_the_heaviest_starter_and_all_others_running(plan_of):
    """12 V over 0.5 ohm is 24 A while it stands (Ohm's law, OpenStax College Physics 2e); its 2 A are in the sum."""
    found = budget(plan_of, STRONG | KNOWN)
    assert found.started_by == "Bump"
    assert found.start_A >= 20
    assert found.unmeasured == ()


def test_until_a_fuse_opens_the_supply_is_down_for_all(plan_of):
    """A supply that limits gives no more than its limit, so its voltage is gone for every toy meanwhile."""
    for overload, words in (("limits", "then they go on"), ("restarts", "try again"), ("switches off", "plug")):
        said = " ".join(budget(plan_of, {"supplies.main.overload": overload}).overload)
        assert "the other toys go on" not in said
        assert "Until then, for up to" not in said or words in said


def test_start_says_what_it_assumes(plan_of):
    """At the port's limit PWM asks for its share of the start."""
    limited = KNOWN | {"toys.bump.control.limit": "12 %"}
    (one,) = budget(plan_of, STRONG | limited).branches
    assert "12" in one.start_note
    (one,) = budget(plan_of, STRONG | KNOWN).branches
    assert one.start_note == ""


def test_an_unknown_start_says_what_to_measure(plan_of):
    found = budget(plan_of, STRONG)
    assert found.started_by == ""
    assert found.unmeasured == ("Bump",)
    assert "winding's resistance" in " ".join(found.start)


@pytest.mark.parametrize(("kind", "changes", "words", "never"), [
    ("gear motor", {}, "hold the shaft", "clamp meter"),
    ("blower fan", {"toys.bump.motor_type": "brushed"}, "hold the shaft", "clamp meter"),
    ("blower fan", {"toys.bump.motor_type": "brushless"}, "clamp meter", "hold the shaft"),
    ("lamp", {"toys.bump.lamp_type": "LED module"}, "clamp meter", "hold the shaft"),
])  # fmt: skip
def test_only_a_motor_is_held_to_know_its_start(any_toy, kind, changes, words, never):
    """Electronics set the start of a module and of a brushless fan; a winding's resistance sets that of a motor."""
    said = " ".join(any_toy(kind, "on/off port", changes).plan.supplies["main"].budget.start)
    assert words in said
    assert never not in said


def test_leds_behind_a_resistor_start_with_what_they_draw(any_toy):
    """Ohm's law: nothing in them stores anything, so that nothing more flows at first."""
    case = any_toy("lamp", "on/off port", {"toys.bump.lamp_type": "LEDs with resistor"})
    found = case.plan.supplies["main"].budget
    assert found.unmeasured == ()
    assert found.start_A == pytest.approx(found.running_A)
    assert "not known" not in " ".join(found.start)


def test_a_supply_that_is_short_gets_a_rating_to_buy(plan_of):
    """Common practice, no source: four fifths of a supply may be used; 9 A need 11.25 A, the next usual one is 12 A."""
    found = budget(plan_of, {"supplies.main.current": "10 A", "toys.bump.current": "9 A (measured)"})
    assert found.short
    assert found.needed_A == pytest.approx(11.25)
    assert found.buy_A == 12
    assert not budget(plan_of).short


@pytest.mark.parametrize(
    ("overload", "words"),
    [("limits", "lowers its voltage"), ("restarts", "tries again"), ("switches off", "stays off"),
     ("not known", "not known")],
)  # fmt: skip
def test_what_the_supply_does_on_overload_is_said(plan_of, overload, words):
    assert words in budget(plan_of, {"supplies.main.overload": overload}).overload[0]


def test_two_supplies_at_one_board_join_their_returns_and_never_their_plus(plan_of):
    high = {"voltage": "12 V", "current": "10 A", "overload": "restarts"}
    changes = {
        "supplies.high": high,
        "boards.quay.supply": "main",
        "boards.quay.common_return": ["main", "high"],
        "toys.bump.supply": "high",
    }
    plan = plan_of(changes).plan
    for slug in ("main", "high"):
        said = " ".join(plan.supplies[slug].budget.shared)
        assert "0 V are joined" in said
        assert "Never join the plus" in said


def test_a_supply_without_toys_is_whole(plan_of):
    plan = plan_of({"supplies.spare": {"voltage": "12 V", "current": "5 A", "overload": "restarts"},
                    "boards.quay.supply": "main", "toys.bump.supply": "main"}).plan  # fmt: skip
    found = plan.supplies["spare"].budget
    assert (found.branches, found.running_A, found.short) == ((), 0, False)


def test_names_are_listed_as_people_do():
    assert (listed(["F1"]), listed(["F1", "F2"]), listed(["F1", "F2", "F3"])) == ("F1", "F1 and F2", "F1, F2 and F3")


def test_shared_leads_of_a_toy_carry_what_all_toys_draw(plan_of):
    """Currents of branches add (OpenStax College Physics 2e): a toy's page and the build's name the same current."""
    other = {"kind": "blower fan", "voltage": "12 V", "current": "1.4 A (measured)", "motor_type": "brushed",
             "control": {"type": "on/off port", "board": "quay", "port": "5"}, "feed": {"run": "1 m"}}  # fmt: skip
    plan = plan_of({"toys.vent": other}).plan
    (lead,) = plan.supplies["main"].wires
    assert lead.carries_A == pytest.approx(3.4)
    for toy in plan.toys.values():
        assert {wire.carries_A for wire in toy.sized.circuit.wires if wire.id == lead.id} == {lead.carries_A}
        assert lead.id not in {wire.id for wire in toy.wires}
    assert "common plus, 2 positions" in {need.value for need in plan.needs}
    assert "Fuse block" not in {need.what for need in plan_of().plan.needs}

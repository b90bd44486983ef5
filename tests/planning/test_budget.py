"""A supply as a whole."""

import re

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


# ---- what controls take besides --------------------------------------------------------------------------------------

FAN = {"kind": "blower fan", "voltage": "12 V", "current": "1.4 A (measured)", "motor_type": "brushed",
       "control": {"type": "on/off port", "board": "quay", "port": "5"}, "feed": {"run": "1 m"}}  # fmt: skip
ROW = {"blocks": {"wharf": {"supply": "main", "feed": {"run": "1 m"}}}, "toys.bump.feed.from": "wharf"}


def relayed(coil_ohm):
    """The toy on a relay whose coil is for 12 V."""
    relay = {"coil_voltage": "12 V", "coil_resistance": f"{coil_ohm} ohm (datasheet)", "contact_current": "10 A",
             "contact_voltage": "30 V"}  # fmt: skip
    return {"toys.bump.control": {"type": "relay", "board": "quay", "port": "2", "relay": relay}}


@pytest.mark.parametrize("behind", [{}, ROW])
@pytest.mark.parametrize("coil_ohm", [12, 150, 1000])
def test_coil_is_asked_of_the_supply_whether_a_margin_covers_it_or_not(plan_of, coil_ohm, behind):
    """Kirchhoff: 2 A of the load, 12 V over the coil, 1.4 A of the fan; one current in lead, block and sum."""
    plan = plan_of({"toys.vent": FAN} | relayed(coil_ohm) | behind).plan
    supply = plan.supplies["main"]
    with_coil = pytest.approx(2 + 12 / coil_ohm)
    assert supply.demand_A == supply.budget.running_A == pytest.approx(3.4 + 12 / coil_ohm)
    assert supply.wires[0].carries_A == pytest.approx(supply.demand_A)
    assert next(one for one in supply.budget.branches if one.toy == "bump").running_A[1] == with_coil
    for row in plan.blocks.values():
        assert row.load.design_current_A == row.wires[0].carries_A == with_coil
    (worked,) = (one for one in supply.worked if one.id == "supply.demand")
    assert worked.formula == "I_1 + I_1B + I_2"


@pytest.mark.parametrize("place", ["behind the fuse", "before the fuse"])
def test_input_of_a_controller_is_asked_of_the_supply_wherever_its_plus_comes_from(plan_of, with_controller, place):
    """Kirchhoff: 2 A of the motor, 0.5 A of the input."""
    case = plan_of(with_controller(controller__input_current="0.5 A", controller__input_from=place))
    supply = case.plan.supplies["main"]
    assert supply.demand_A == supply.wires[0].carries_A == pytest.approx(2.5)


def test_start_of_a_motor_on_a_relay_is_asked_besides_the_coil(plan_of):
    """The coil is on while the motor starts: it is in the worst moment once."""
    case = plan_of(STRONG | KNOWN | relayed(12))
    supply = case.plan.supplies["main"]
    assert supply.worst_A == supply.budget.start_A == pytest.approx(case.toy.sized.load.start_A + 1)


@pytest.mark.parametrize(
    ("rated", "code"),
    [("3.75 A", None), ("3.74 A", "supply-headroom"), ("3 A", "supply-headroom"), ("2.99 A", "supply-overloaded")],
)
def test_coil_counts_where_a_supply_is_judged(plan_of, rated, code):
    """2 A and 12 V / 12 ohm = 1 A are 3 A: four fifths of 3.75 A (common practice, no source)."""
    case = plan_of({"supplies.main.current": rated} | relayed(12))
    found = [one for one in case.plan.findings if one.code.startswith("supply-")]
    assert [one.code for one in found] == ([code] if code else [])
    assert all("1\u00a0A of it for coils" in one.message for one in found)


# ---- its rating, its limit, its start --------------------------------------------------------------------------------


@pytest.mark.parametrize(("limit", "told"), [("19.9 A", True), ("20 A", False), (None, False)])
def test_limit_below_what_it_gives_for_ever_is_a_contradiction(plan_of, limit, told):
    """What a supply gives for ever it also gives at most (this project)."""
    case = plan_of({"supplies.main.current_limit": limit and f"{limit} (datasheet)"})
    assert ("implausible" in case.codes) == told
    assert "supply-overloaded" not in case.codes


def test_overload_by_a_contradicted_limit_has_the_same_mend(plan_of):
    """Another supply does not mend a wrong entry: 6 A of a limit of 5 A, beside 20 A on the label."""
    draws = {"toys.bump.current": "6 A (measured)", "supplies.main.current_limit": "5 A (datasheet)"}
    case = plan_of(draws)
    wrong, over = case.finding("implausible"), case.finding("supply-overloaded")
    assert wrong.mend == over.mend
    assert "Take a supply" not in over.mend
    assert case.plan.supplies["main"].budget.contradicted
    again = plan_of(draws | {"supplies.main.current_limit": "20 A (datasheet)"})
    assert not {"implausible", "supply-overloaded", "supply-headroom"} & set(again.codes)


def test_overload_beyond_the_rated_current_asks_for_another_supply_all_the_same(plan_of):
    draws = {"toys.bump.current": "6 A (measured)", "supplies.main": {"current": "6 A", "current_limit": "5 A"}}
    assert "Take a supply for 7.5" in plan_of(draws).finding("supply-overloaded").mend


def test_peak_has_one_value_in_all_its_working(plan_of):
    """A rating for what runs has no peak in it; the peak is that of the worst start."""
    found = budget(plan_of, STRONG | KNOWN)
    peaks = {one.result if one.symbol == "I_peak" else one.numbers["I_peak"] for one in found.worked
             if "I_peak" in (one.symbol, *one.numbers)}  # fmt: skip
    assert peaks == {found.start_A}
    assert found.start_A > found.running_A


def weak(limit_A, ohm, **more):
    return {"supplies.main": {"current": f"{limit_A} A", "current_limit": f"{limit_A} A (datasheet)"},
            "toys.bump.motor": {"resistance": f"{ohm} ohm (measured)"}} | more  # fmt: skip


@pytest.mark.parametrize(
    ("limit_A", "ohm", "run"),
    [(24, "0.32", "0.05 m"), (32, "0.295", "0.05 m"), (20, "0.32", "1 m"), (8, "1.1", "1 m"), (10, "0.4", "3 m")],
)
def test_followed_mend_of_a_start_clears_it(plan_of, limit_A, ohm, run):
    """A stronger supply has a thicker lead, so that more flows at the start: the figure counts that."""
    lead = {"supplies.main.fuse_block.run": run}
    case = plan_of(weak(limit_A, ohm) | lead)
    mend = case.finding("supply-start").mend.replace("\u00a0", " ")
    take_A = re.match(r"Take a supply of ([0-9.]+) A", mend)[1]
    assert float(take_A) > case.plan.supplies["main"].budget.start_A
    assert "supply-start" not in plan_of(weak(take_A, ohm) | lead).codes


def test_figures_of_a_start_that_is_just_too_much_are_told_apart(plan_of):
    least = budget(plan_of, weak(24, "0.32")).start_A
    message = plan_of(weak(f"{least - 0.004:.4f}", "0.32")).finding("supply-start").message
    asked, given = re.search(r"run, ([0-9.]+)\u00a0A .* gives ([0-9.]+)\u00a0A", message).groups()
    assert float(asked) > float(given)


@pytest.mark.parametrize(("kind", "control", "changes", "words", "never"), [
    ("shaker motor", "pwm port", {}, "raise the strength of Bump in small steps", "soft start"),
    ("shaker motor", "on/off port", {}, "drive Bump by a speed controller or a PWM port", "soft start"),
    ("lamp", "on/off port", {"toys.bump.lamp_type": "filament", "toys.bump.motor": None}, "inrush limiter", "strength"),
])  # fmt: skip
def test_start_is_mended_by_what_the_control_can_do(any_toy, kind, control, changes, words, never):
    """Common practice, no source: steps where a strength can be set, a limiter before a cold filament."""
    small = weak(3, "0.5") | {"toys.bump.current": "2 A (measured)"}
    mend = any_toy(kind, control, small | changes).finding("supply-start").mend
    assert words in mend
    assert never not in mend
    assert "others" not in mend


@pytest.mark.parametrize(("limit_A", "offered"), [(23, True), (20, False)])
def test_start_alone_is_offered_where_it_helps(plan_of, limit_A, offered):
    """The start alone takes 20 to 23 A, with the 4 A of the fan more."""
    case = plan_of({"toys.vent": FAN | {"current": "4 A (measured)"}} | weak(limit_A, "0.5"))
    assert 20 < case.toy.sized.load.start_A < 23 < case.plan.supplies["main"].budget.start_A
    assert ("while all others on main are off" in case.finding("supply-start").mend) == offered


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

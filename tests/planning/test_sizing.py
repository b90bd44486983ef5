"""Fuse, wire and shared leads together, against the same sums done here by hand in SI."""

from math import pi
from pathlib import Path

import pytest

BUILDS = Path(__file__).parents[2] / "content" / "builds"
PRINTED = Path(__file__).parents[1] / "description" / "night_ferry.yaml"  # the example as printed: two toys

# Figures written here again, so that a slip in a table shows.
CLASS_5_OHM_PER_KM = {"0.75": 26.0, "1": 19.5, "1.5": 13.3, "2.5": 7.98, "16": 1.21}  # IEC 60228 class 5
METHOD_B2_A = {
    "0.75": 8.5,
    "1": 10.1,
    "1.5": 13.1,
    "2.5": 17.4,
    "4": 23.0,
}  # IEC 60204-1:2016 table 6, PVC, 40 °C, from memory
COPPER_PER_K = 0.00393  # IEC 60028, from memory
CONTACT_OHM = 0.002  # common practice, no source: an estimate
SWITCH_OHM = 0.010  # common practice, no source: an estimate


def metre_ohm(size, current_A, bundle, air_degC=40.0, column_degC=70.0):
    """A metre of class 5 copper, as warm as the current makes it in a duct (IEC 60228, IEC 60204-1)."""
    warm = air_degC + (column_degC - 40.0) * (current_A / (METHOD_B2_A[size] * bundle)) ** 2
    return CLASS_5_OHM_PER_KM[size] / 1000 * (1 + COPPER_PER_K * (warm - 20.0))


@pytest.fixture(scope="module", name="night_ferry")
def _night_ferry(plan_of):
    return plan_of(PRINTED.read_text(encoding="utf-8")).plan


@pytest.fixture(scope="module", name="salt_shed")
def _salt_shed(plan_of):
    return plan_of((BUILDS / "salt-shed" / "build.yaml").read_text(encoding="utf-8")).plan


# ---- the printed examples -------------------------------------------------------------------------------------------


def test_shaker_of_the_demo_needs_nine_amperes_by_the_margin(night_ferry):
    """6 A at the high end x 1.5 = 9.0 A: a 10 A blade (common practice, no source)."""
    fuse = night_ferry.toys["bow-shaker"].sized.fuse
    assert fuse.needed_A == pytest.approx(6.0 * 1.5)
    assert (fuse.rating_A, fuse.governed_by, fuse.at) == (10.0, "margin", "supply plus")


def test_wire_of_the_shaker_is_asked_for_by_its_fuse(night_ferry):
    """10 A behind two bundled circuits, 0.80: 1 mm2 carries 8.1 A, 1.5 mm2 10.5 A (IEC 60204-1, tables 6 and D.2)."""
    wire = night_ferry.toys["bow-shaker"].sized.wire
    assert 10.1 * 0.80 < 10.0 <= 13.1 * 0.80
    assert (wire.size.text, wire.governed_by) == ("1.5 mm2", "fuse")
    assert wire.ampacity_A == pytest.approx(13.1 * 0.80)


def test_shaker_loses_nearly_five_percent(night_ferry):
    """Four runs, eight contacts, fuse and switch, at 6 A: 0.58 V of 12 V."""
    shared = metre_ohm("2.5", 6.0, 0.80) * (0.15 + 0.6)
    own = metre_ohm("1.5", 6.0, 0.80) * (1.8 + 1.8)
    fuse = 0.1 / 10.0
    drop = 6.0 * (shared + own + fuse + 8 * CONTACT_OHM + SWITCH_OHM)
    wire = night_ferry.toys["bow-shaker"].sized.wire
    assert wire.drop_V == pytest.approx(drop, rel=1e-6)
    assert wire.drop_percent == pytest.approx(100 * drop / 12.0, rel=1e-6)
    assert wire.drop_percent == pytest.approx(4.8, abs=0.05)


def test_fan_of_the_demo_gets_the_smallest_wire(night_ferry):
    """1.4 A x 1.5 = 2.1 A: a 3 A blade, and the smallest size of the table meets every rule."""
    sized = night_ferry.toys["vent"].sized
    assert sized.fuse.needed_A == pytest.approx(2.1)
    assert sized.fuse.rating_A == 3.0
    assert (sized.wire.size.text, sized.wire.governed_by) == ("0.75 mm2", "smallest size")


def test_shared_leads_of_the_demo_carry_both_fuses(night_ferry):
    """10 A + 3 A = 13 A, below the supply's 24 A; here 1.5 mm2 carries 10.5 A, 2.5 mm2 13.9 A (IEC 60364-4-43)."""
    for one in (night_ferry.supplies["main"], night_ferry.boards["quay"]):
        assert [wire.size for wire in one.wires] == ["2.5 mm²"]


def test_demo_in_us_units_needs_exactly_its_fuse(salt_shed):
    """5 A x 1.5 = 7.5 A, and blades have 7.5 A: not the next larger one (common practice, no source)."""
    fuse = salt_shed.toys["keel-shaker"].sized.fuse
    assert fuse.needed_A == pytest.approx(7.5)
    assert fuse.rating_A == 7.5


def test_demo_in_us_units_gets_the_smallest_single_wire(salt_shed):
    """33 CFR 183.425(d): no single wire thinner than 16 AWG."""
    wire = salt_shed.toys["keel-shaker"].sized.wire
    assert (wire.size.text, wire.governed_by) == ("16 AWG", "smallest size")
    assert wire.area_mm2 == pytest.approx(1.31, abs=0.01)  # ASTM B258


def test_demo_in_us_units_loses_about_four_percent(salt_shed):
    """6.5 in of lead, 4 ft there, 2 ft on to the motor, and back: 16 AWG stranded is 4.1 ohm in 1000 ft when warm."""
    area_mm2 = pi / 4 * (0.127 * 92 ** (20 / 39)) ** 2  # ASTM B258
    cold = 1.02 * 1.72414e-8 / (area_mm2 * 1e-6)  # IEC 60028; stranding by NFPA 70 chapter 9 table 8
    warm_degC = 40.0 + (105.0 - 30.0) * (5.0 / 25.0) ** 2  # 33 CFR 183.425 table 5: 25 A, 105 °C, two conductors
    metre = cold * (1 + COPPER_PER_K * (warm_degC - 20.0))
    length_m = 0.0254 * 6 + 2 * 0.3048 * (4 + 2)
    drop = 5.0 * (metre * length_m + 0.1 / 7.5 + 10 * CONTACT_OHM + 0.010)
    wire = salt_shed.toys["keel-shaker"].sized.wire
    assert wire.drop_V == pytest.approx(drop, rel=1e-4)
    assert wire.drop_percent == pytest.approx(4.0, abs=0.3)


# ---- the rating needed ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("current", "holder", "rating_A"),
    [
        ("5 A", "blade", 7.5),  # ISO 8820-3 has 7.5 A
        ("5 A", "5 x 20 mm UL", 8.0),  # a series without 7.5 A goes to 8 A
        ("5 A", "5 x 20 mm", 8.0),  # IEC 60127-2: 6.3, 8
        ("5.01 A", "blade", 10.0),
        ("1.9 A", "blade", 3.0),
        ("1.9 A", "mini blade", 3.0),
        ("0.1 A", "mini blade", 2.0),  # the smallest of its series
    ],
)
def test_smallest_rating_at_or_above_the_need(plan_of, current, holder, rating_A):
    """Common practice, no source: margin 1.5, next rating of the holder's own series."""
    case = plan_of({"toys.bump.current": f"{current} (measured)", "toys.bump.feed.fuse": {"holder": holder}})
    assert case.toy.sized.fuse.rating_A == rating_A


def test_safe_end_of_a_range_decides(plan_of):
    """A motor that draws 5 to 6 A is a 6 A motor."""
    case = plan_of({"toys.bump.current": "5 A to 6 A (measured)"})
    assert case.toy.sized.load.design_current_A == 6.0
    assert case.toy.sized.fuse.needed_A == pytest.approx(9.0)


def test_continuous_rule_governs_in_a_hot_cabinet(plan_of):
    """At 65 °C a fuse carries 0.85 of its rating, three quarters of that for long: I / 0.6375 (from memory)."""
    case = plan_of({"wiring.inside_temperature": "65 °C"})
    assert case.toy.sized.fuse.governed_by == "continuous"
    assert case.toy.sized.fuse.needed_A == pytest.approx(2.0 / (0.75 * 0.85))


def test_margin_governs_in_a_warm_cabinet(plan_of):
    """0.75 x 0.89 at 53 °C is 0.6675, just above 1 / 1.5; at 54 °C it is 0.665 (points from memory)."""
    governs = {air: plan_of({"wiring.inside_temperature": f"{air} °C"}).toy.sized.fuse.governed_by for air in (53, 54)}
    assert governs == {53: "margin", 54: "continuous"}


def test_neither_limit_nor_trimmer_lowers_the_fuse(plan_of, with_controller):
    """A switch that fails gives full current."""
    free = plan_of({"toys.bump.current": "6 A (measured)"})
    limited = plan_of({"toys.bump.current": "6 A (measured)", "toys.bump.control.limit": "10 %"})
    trimmed = plan_of({"toys.bump.current": "6 A (measured)"} | with_controller())
    assert {case.toy.sized.fuse.rating_A for case in (free, limited, trimmed)} == {10.0}


def test_fuse_stated_is_kept_and_its_need_still_told(plan_of):
    """Stated instead of chosen: checked, not replaced."""
    fuse = plan_of({"toys.bump.feed.fuse": {"rating": "4 A"}}).toy.sized.fuse
    assert (fuse.rating_A, fuse.governed_by, fuse.stated) == (4.0, "stated", True)
    assert fuse.needed_A == pytest.approx(3.0)


# ---- each rule of the wire alone ------------------------------------------------------------------------------------


def _wire(case):
    return case.toy.sized.wire.size.text, case.toy.sized.wire.governed_by


def test_fuse_alone_governs(plan_of):
    """6 A and 0.5 m ask for no more than 0.75 mm2 (8.5 A), the 10 A fuse for 1 mm2 (10.1 A)."""
    assert _wire(plan_of({"toys.bump.current": "6 A (measured)"})) == ("1 mm2", "fuse")


def test_ampacity_alone_governs(plan_of):
    """Without a fuse 12 A ask for 1.5 mm2 (13.1 A) and a short run for less."""
    case = plan_of({"toys.bump.current": "12 A (measured)", "toys.bump.feed": {"fuse": "none", "run": "0.2 m"}})
    assert _wire(case) == ("1.5 mm2", "ampacity")


def test_drop_alone_governs(plan_of):
    """2 A and 3 A are far below 8.5 A; over 8 m there and back 0.75 mm2 loses 0.98 V of the 0.6 V allowed."""
    case = plan_of({"toys.bump.feed.run": "8 m"})
    assert 2.0 * 2 * 8.0 * 0.026 > 0.05 * 12.0
    size, governed = _wire(case)
    assert governed == "drop"
    assert case.toy.sized.wire.drop_V <= 0.05 * 12.0
    assert CLASS_5_OHM_PER_KM[size.removesuffix(" mm2")] < 19.5


def test_drop_is_kept_by_the_smallest_size_that_can(plan_of):
    """At the chosen size the drop is within the limit, at the size below it is not."""
    chosen = plan_of({"toys.bump.feed.run": "5 m"})
    assert _wire(chosen) == ("1 mm2", "drop")
    thinner = plan_of({"toys.bump.feed.run": "5 m", "toys.bump.feed.wire": "0.75 mm2"})
    limit_V = 0.05 * 12.0
    assert chosen.toy.sized.wire.drop_V <= limit_V < thinner.toy.sized.wire.drop_V


def test_smallest_size_when_it_meets_every_rule(plan_of):
    """Nothing asks for more than the table's thinnest wire."""
    assert _wire(plan_of()) == ("0.75 mm2", "smallest size")


def test_slow_fuse_of_iec_60127_asks_for_more_wire(plan_of):
    """It need not open below 2.1 x 6.3 A: the wire has to carry 2.1 x 6.3 / 1.45 = 9.1 A (IEC 60364-4-43 433.1)."""
    changes = {
        "toys.bump.current": "4 A (measured)",
        "toys.bump.feed.fuse": {"holder": "5 x 20 mm", "dc_voltage": "60 V"},
    }
    case = plan_of(changes)
    assert case.toy.sized.fuse.rating_A == 6.3
    assert 8.5 < 2.1 * 6.3 / 1.45 <= 10.1
    assert _wire(case) == ("1 mm2", "fuse")


def test_code_limits_the_fuse_before_thin_wire(plan_of):
    """NFPA 70 240.4(D): no more than 10 A before 16 AWG, although the table gives it 18 A."""
    case = plan_of(
        {
            "wiring": {"ampacity_table": "NFPA 70 310.16", "insulation": "90 °C", "inside_temperature": "30 °C"},
            "toys.bump.current": "8 A (measured)",
        }
    )
    assert case.toy.sized.fuse.rating_A == 15.0
    assert _wire(case) == ("14 AWG", "fuse")


def test_code_limits_the_fuses_behind_a_shared_lead_too(plan_of):
    """The same 240.4(D): 7.5 A ask for 16 AWG, although 18 AWG carries 14 A."""
    wiring = {"ampacity_table": "NFPA 70 310.16", "insulation": "90 °C", "inside_temperature": "30 °C"}
    case = plan_of({"wiring": wiring, "toys.bump.current": "5 A (measured)"})
    assert case.toy.sized.fuse.rating_A == 7.5
    assert _lead(case) == "16 AWG"
    assert case.plan.boards["quay"].wires[0].size == "16 AWG"


def test_wire_stated_is_kept_with_its_own_figures(plan_of):
    """A thicker wire than need be is no fault; drop and ampacity are its own."""
    wire = plan_of({"toys.bump.feed.wire": "2.5 mm2"}).toy.sized.wire
    assert (wire.size.text, wire.governed_by, wire.stated) == ("2.5 mm2", "stated", True)
    assert wire.ampacity_A == pytest.approx(17.4)


def test_way_back_counts_with_its_own_length(plan_of):
    """return_run where it differs."""
    same, longer = (
        plan_of({"toys.bump.feed.run": "1 m"}),
        plan_of({"toys.bump.feed": {"run": "1 m", "return_run": "2 m"}}),
    )
    more_V = longer.toy.sized.wire.drop_V - same.toy.sized.wire.drop_V
    assert more_V == pytest.approx(2.0 * metre_ohm("0.75", 2.0, 1.0) * 1.0, rel=1e-6)


def test_bundle_left_out_is_the_number_of_feeds(plan_of, small_build):
    """Two toys, two circuits: 0.80 (IEC 60204-1 table D.2)."""
    second = small_build["toys"]["bump"] | {"control": {"type": "always on"}}
    case = plan_of({"wiring.bundled_circuits": None, "toys.second": second})
    assert case.toy.sized.wire.ampacity_A == pytest.approx(8.5 * 0.80)


def test_feed_without_a_fuse_is_still_a_feed(plan_of, small_build):
    """A missing fuse does not cool the bundle."""
    second = small_build["toys"]["bump"] | {"control": {"type": "always on"}, "feed": {"run": "1 m", "fuse": "none"}}
    case = plan_of({"wiring.bundled_circuits": None, "toys.second": second})
    assert case.toy.sized.wire.ampacity_A == pytest.approx(8.5 * 0.80)


def test_hot_air_leaves_less_for_the_wire(plan_of):
    """sqrt((70 - 55) / (70 - 40)) = 0.71, the factor that IEC 60204-1 prints for 55 °C (from memory)."""
    case = plan_of({"wiring.inside_temperature": "55 °C"})
    assert case.toy.sized.wire.ampacity_A == pytest.approx(8.5 * 0.707, rel=0.01)


# ---- loops ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("control", "contacts", "switch_ohm", "length_m"),
    [
        ("pwm port", 8, 0.010, 0.15 + 1 + 1 + 0.5),
        ("on/off port", 8, 0.010, 0.15 + 1 + 1 + 0.5),
        ("always on", 6, 0.0, 0.15 + 1 + 1),
        ("speed controller", 10, 0.010, 0.15 + 1 + 1 + 0.5 + 0.5),
    ],
)
def test_drop_counts_every_run_and_joint_of_the_loop(plan_of, with_controller, control, contacts, switch_ohm, length_m):
    """Two contacts for each run; a controller's own resistance; nothing where nothing switches."""
    changes = (
        with_controller()
        if control == "speed controller"
        else {
            "toys.bump.control": {"type": control} | ({} if control == "always on" else {"board": "quay", "port": "2"})
        }
    )
    case = plan_of(changes | {"toys.bump.feed.run": "1 m"})
    sized = case.toy.sized
    assert sized.wire.size.text == "0.75 mm2"
    loop = metre_ohm("0.75", 2.0, 1.0) * length_m + 0.1 / 3.0 + contacts * CONTACT_OHM + switch_ohm
    assert sized.wire.drop_V == pytest.approx(2.0 * loop, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "percent"),
    [
        ("lamp", 3),
        ("contactor", 3),
        ("knocker", 3),
        ("bell", 3),
        ("shaker motor", 5),
        ("gear motor", 5),
        ("blower fan", 5),
    ],
)
def test_usual_drop_limit_is_three_percent_and_five_for_motors(any_toy, kind, percent):
    """ABYC E-11 for critical circuits; for motors common practice, no source: they start all the same."""
    toy = any_toy(kind, "always on").toy
    limit = next(one for one in toy.worked if one.id == "default.wiring.drop_limit")
    assert limit.result == f"{percent}\u00a0%"
    assert f"Limit {percent}\u00a0%." in next(one for one in toy.worked if one.id == "drop.percent").sentence


def test_stated_drop_limit_holds_for_every_kind(any_toy):
    """This project: what is written holds."""
    for kind in ("lamp", "shaker motor"):
        toy = any_toy(kind, "always on", {"wiring.drop_limit": "4 %"}).toy
        assert "Limit 4\u00a0%." in next(one for one in toy.worked if one.id == "drop.percent").sentence
        assert not [one for one in toy.worked if one.id == "default.wiring.drop_limit"]


def test_drop_is_told_of_the_nominal_voltage(plan_of):
    """Never of the ends of what a trimmer allows."""
    wide, plain = plan_of({"supplies.main.voltage_range": "10.8 V to 13.2 V"}), plan_of()
    assert wide.toy.sized.wire.drop_percent == pytest.approx(plain.toy.sized.wire.drop_percent)
    assert plain.toy.sized.wire.drop_percent == pytest.approx(100 * plain.toy.sized.wire.drop_V / 12.0)


# ---- shared leads ---------------------------------------------------------------------------------------------------


def _lead(case):
    return case.plan.supplies["main"].wires[0].size


def test_short_lead_carries_what_the_fuses_let_pass(plan_of):
    """One 15 A fuse (10 A x 1.5): 2.5 mm2 carries 17.4 A, 1.5 mm2 13.1 A."""
    assert (
        _lead(plan_of({"toys.bump.current": "9.5 A (measured)", "toys.bump.control": {"type": "always on"}}))
        == "2.5 mm²"
    )


def test_short_lead_carries_no_more_than_the_supply_gives(plan_of):
    """A 15 A fuse behind a supply that stops at 12 A: 1.5 mm2 (13.1 A) is enough."""
    case = plan_of(
        {
            "toys.bump.current": "9.5 A (measured)",
            "toys.bump.control": {"type": "always on"},
            "supplies.main": {"current": "11 A", "current_limit": "12 A (datasheet)"},
        }
    )
    assert case.toy.sized.fuse.rating_A == 15.0
    assert _lead(case) == "1.5 mm²"


@pytest.mark.parametrize(("run", "size"), [("0.175 m", "0.75 mm²"), ("7 in", "0.75 mm²"), ("0.2 m", "6 mm²")])
def test_lead_beyond_seven_inches_carries_the_supply_for_ever(plan_of, run, size):
    """33 CFR 183.455(b)(1): beyond 7 in 1.5 x 20 A, which 6 mm2 just carries; within, the 3 A fuse bounds it."""
    assert _lead(plan_of({"supplies.main.fuse_block": {"run": run}})) == size


def test_input_fed_before_the_fuse_counts_in_the_lead(plan_of, with_controller):
    """Its own fuse, 1 A at least, stands behind the same lead."""
    changes = {"toys.bump.current": "6.6 A (measured)", "supplies.main.fuse_block": {"wire": "1 mm2"}}
    behind = plan_of(changes | with_controller())
    before = plan_of(changes | with_controller(controller__input_from="before the fuse"))
    needed = [
        next(float(value.result) for value in case.plan.supplies["main"].worked if value.id.endswith("needed"))
        for case in (behind, before)
    ]
    assert needed == pytest.approx([10.0, 11.0])


def test_board_lead_carries_the_feeds_that_return_there(plan_of, small_build):
    """One of two toys is always on: its fuse does not count at the board, but counts at the supply."""
    bump = small_build["toys"]["bump"] | {"current": "6 A (measured)"}
    case = plan_of({"toys.bump": bump, "toys.second": bump | {"control": {"type": "always on"}}})
    assert case.plan.boards["quay"].wires[0].size == "1 mm²"  # 10 A
    assert _lead(case) == "4 mm²"  # 20 A


def test_lead_stated_is_kept(plan_of):
    """A thicker one than need be."""
    assert _lead(plan_of({"supplies.main.fuse_block": {"wire": "2.5 mm2"}})) == "2.5 mm²"
    assert plan_of({"boards.quay.return": {"wire": "4 mm2"}}).plan.boards["quay"].wires[0].size == "4 mm²"


# ---- suppressor -----------------------------------------------------------------------------------------------------


def test_six_amperes_under_pwm_get_a_fast_diode_of_three(plan_of):
    """Half of 6 A in the mean, twice 12.6 V: a 3 A, 40 V Schottky diode (JEDEC class)."""
    chosen = plan_of({"toys.bump.current": "6 A (measured)"}).toy.sized.suppression
    assert (chosen.technology, chosen.forward_A, chosen.reverse_V) == ("schottky", 3.0, 40.0)


def test_twenty_four_volts_under_pwm_go_beyond_the_registered_schottkys(plan_of):
    """2 x 25.2 V is above 40 V: bought by its values."""
    case = plan_of(
        {"supplies.main.voltage": "24 V", "toys.bump.voltage": "24 V", "toys.bump.current": "6 A (measured)"}
    )
    chosen = case.toy.sized.suppression
    assert chosen.class_name == ""
    assert chosen.reverse_V >= 2 * 25.2
    assert chosen.forward_A >= 3.0


def test_single_shots_are_content_with_a_plain_diode(plan_of):
    """A tenth of 2 A in the mean, and a surge of 2 A: the 1 A class."""
    chosen = plan_of({"toys.bump.control.type": "on/off port"}).toy.sized.suppression
    assert (chosen.technology, chosen.forward_A) == ("standard", 1.0)


def test_fan_with_electronics_needs_no_suppressor(any_toy):
    """Its own electronics take care of it."""
    assert (
        any_toy("blower fan", "on/off port", {"toys.bump.motor_type": "brushless"}).toy.sized.suppression.type
        == "not needed"
    )


def test_controller_with_its_own_diode_needs_no_other(plan_of, with_controller):
    """Inside the controller."""
    assert plan_of(with_controller(controller__suppressor="yes")).toy.sized.suppression.type == "in the controller"
    assert plan_of(with_controller()).toy.sized.suppression.type == "diode"


def test_diode_stated_keeps_its_values(plan_of):
    """Whichever of them are written."""
    stated = {"type": "diode", "forward_current": "5 A"}
    kept = plan_of({"toys.bump.suppressor": stated}).toy.sized.suppression
    assert (kept.forward_A, kept.reverse_V) == (5.0, None)


# ---- mounting -------------------------------------------------------------------------------------------------------


def test_screw_of_the_demo_goes_through_its_stack(night_ferry):
    """18.5 + 3 + 2 x 1.4 washers + 6.8 nut + 2 x 0.8 threads = 32.7 mm: 35 mm (ISO 7040, ISO 7089, ISO 888)."""
    screws = night_ferry.toys["bow-shaker"].sized.mounting
    assert screws.stack_mm == pytest.approx(24.3)
    assert screws.length_mm == 35.0


def test_screw_in_us_units_agrees_with_the_trade(salt_shed):
    """3/4 in floor and 1/8 in frame with 10-32: 1 1/2 in (common practice, no source)."""
    assert salt_shed.toys["keel-shaker"].sized.mounting.length_shown == "1 1/2 in"

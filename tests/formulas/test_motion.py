"""The whole plan of a shaker: ranges hold what they promise, readings narrow them, gaps are told."""

from dataclasses import replace
from itertools import pairwise, product
from math import inf, isfinite, pi

import numpy as np
import pytest

from guide_gen.formulas.bands import Band, BandInterval, without_slivers
from guide_gen.formulas.cabinet import shift
from guide_gen.formulas.drive import supply_current
from guide_gen.formulas.motion import Doubt, Measurement, Remedy, motion_plan
from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.motion_inputs import (
    START_WAYS,
    Drive,
    Found,
    nominal_of,
    shakers_of,
    speed_corners,
    spreads_of,
)
from guide_gen.formulas.motion_states import State
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.swing import over_the_top_s, swing_threshold, thresholds, turning
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.published.tables import NotInTable


def test_exact_inputs_leave_no_range(example_inputs):
    plan = motion_plan(example_inputs(1000))
    assert plan.start[0] == plan.start[1] == plan.start_nominal == pytest.approx(0.109, abs=5e-4)
    assert plan.bands == plan.sure_bands
    assert plan.helps_start is None
    assert [one.band for one in plan.bands] == [Band.NO_MOTION, Band.BUZZ, Band.SWAY, Band.VIBRATION]
    assert plan.sway[0] == pytest.approx((0.109, 0.154), abs=5e-4)


@pytest.mark.parametrize("pwm_Hz", [200, 1000, 20000])
def test_corners_hold_for_seeded_random_machines(example_inputs, pwm_Hz):
    """Monte Carlo only tests the corners: start, sustain, move, speed at full power, share of the limit."""
    wide = example_inputs(pwm_Hz, give=0.1)
    plan = motion_plan(wide)
    chance = np.random.default_rng(3)
    for _ in range(10):
        one = replace(wide, **{
            name: Spread.exactly(chance.uniform(spread.low, spread.high)) for name, spread in spreads_of(wide).items()
        })  # fmt: skip
        drawn = motion_plan(one)
        for name in ("move", "sustain", "start", "static_lift"):
            low, high = getattr(plan, name)
            assert low - 2e-4 <= getattr(drawn, name)[0] <= high + 2e-4, name
        last = plan.curve[-1]
        assert last.slow_Hz * 0.999 <= drawn.curve[-1].turning_Hz <= last.fast_Hz * 1.001
        assert drawn.curve[-1].limit_share <= last.limit_share_high * 1.001
        assert drawn.ceiling >= plan.ceiling - 1e-9


def test_sure_bands_lie_inside_what_the_likeliest_machine_does(example_inputs):
    plan = motion_plan(example_inputs(1000, give=0.05))
    for sure in plan.sure_bands:
        assert any(
            one.band is sure.band and one.low <= sure.low + 1e-6 and sure.high <= one.high + 0.0026
            for one in plan.bands
        ), sure


def test_wider_ranges_give_wider_results(example_inputs):
    narrow, wide = (motion_plan(example_inputs(1000, give=give)) for give in (0.03, 0.1))
    assert wide.start[0] < narrow.start[0] < narrow.start[1] < wide.start[1]
    assert wide.ceiling <= narrow.ceiling
    assert wide.begin <= narrow.begin


def test_measured_to_a_few_percent_the_start_spans_less_than_1_7_to_1(example_inputs):
    """Each to 5 %, friction to 20 %, inductance to 30 %."""
    inputs = replace(
        example_inputs(200, give=0.05),
        friction_N_m=Spread.about(0.022, 0.2), inductance_H=Spread.about(0.55e-3, 0.3),
    )  # fmt: skip
    low, high = motion_plan(inputs).start
    assert 1.3 < high / low < 1.75


def _nothing_known(example_inputs):
    usual = Spread.usual
    return replace(
        example_inputs(),
        resistance_ohm=usual("winding resistance"), emf_V_s=usual("back emf constant"), diode_V=usual("Schottky drop"),
        inductance_H=Spread(0.18 * 0.6e-3, 0.45e-3, 0.6 * 2.5e-3), friction_N_m=usual("friction torque"),
        unbalance_kg_m=usual("unbalance"), mass_kg=usual("cabinet mass"), damping=usual("damping ratio"),
        natural_Hz=usual("natural frequency on legs"), pwm_Hz=Spread.between(50, 1000),
    )  # fmt: skip


def test_with_nothing_known_the_plan_says_that_it_is_of_no_use_and_what_to_measure(example_inputs):
    plan = motion_plan(_nothing_known(example_inputs))
    assert plan.start[0] < 0.03
    assert 0.25 < plan.start[1] < 0.45
    assert Doubt.START_TOO_WIDE in plan.doubts
    assert Doubt.CEILING_BELOW_START in plan.doubts
    assert plan.helps_start is Measurement.SCALE
    assert plan.helps_ceiling in set(Measurement)


def test_a_slow_pwm_leaves_no_sway_and_the_remedies_stand_in_their_order(example_inputs):
    """The weight starts straight into vibration at 200 Hz; each remedy's own plan has a sway band."""
    plan = motion_plan(example_inputs(200))
    assert plan.sway == ()
    assert Doubt.SWAY_EMPTY in plan.doubts
    assert [one.remedy for one in plan.remedies] == list(Remedy)[:4]
    faster, kick, lighter, trimmer = plan.remedies
    assert motion_plan(example_inputs(faster.value)).sway[0] == pytest.approx(faster.sway, abs=3e-3)
    part = lighter.value / plan.inputs.unbalance_kg_m.nominal
    small = replace(
        example_inputs(200), unbalance_kg_m=Spread.exactly(lighter.value),
        inertia_kg_m2=Spread.exactly(plan.inputs.inertia_kg_m2.nominal * part),
    )  # fmt: skip
    assert motion_plan(small).sway[0] == pytest.approx(lighter.sway, abs=3e-3)
    assert motion_plan(example_inputs(200, drive=Drive.VOLTAGE)).sway[0] == pytest.approx(trimmer.sway, abs=3e-3)
    assert kick.sway == pytest.approx((0.043, 0.079), abs=5e-4)


def test_a_kick_is_advised_where_sustain_lies_well_under_start(example_inputs):
    """A quarter above the highest start."""
    assert motion_plan(example_inputs(1000)).kick.kick == pytest.approx(1.25 * 0.109, abs=1e-3)
    assert motion_plan(example_inputs(20000)).kick is None
    ranged = motion_plan(example_inputs(200, give=0.05)).kick
    assert ranged.hold[0] < ranged.hold_sure[0] < ranged.hold_sure[1] < ranged.hold[1]


@pytest.mark.parametrize("pwm_Hz", [200, 1000])
def test_a_kick_lasts_until_every_machine_of_the_ranges_is_over_the_top(example_inputs, pwm_Hz):
    """Seeded machines: none takes longer, and the slowest of them not much less."""
    wide = example_inputs(pwm_Hz, give=0.08)
    kick = motion_plan(wide).kick
    chance = np.random.default_rng(2)
    drawn = {name: chance.uniform(one.low, one.high, 200) for name, one in spreads_of(wide).items()}
    taken_s = over_the_top_s(shakers_of(wide, nominal_of(wide) | drawn), np.full(200, kick.kick))
    assert 0.5 * kick.seconds < taken_s.max() <= kick.seconds


def test_ranges_of_a_swing_hold_every_machine_and_no_other(example_inputs):
    """Inertia follows from unbalance and period: all four corners of those, with both ends of the rest, give the range.

    Both thresholds at once; given apart, unbalance and inertia would make sustain up to 9 % too wide at its low end.
    """
    apart = example_inputs(200, give=0.1)
    swing_s, unbalance = Spread.about(0.47, 0.05), Spread.about(0.009, 0.25)
    tied = replace(apart, inertia_kg_m2=None, swing_s=swing_s, unbalance_kg_m=unbalance)
    inertia = Spread(*(pull * 9.80665 * (one / (2 * pi)) ** 2 for pull, one in zip(unbalance, swing_s, strict=True)))
    plan, loose = motion_plan(tied), motion_plan(replace(apart, inertia_kg_m2=inertia, unbalance_kg_m=unbalance))
    ranged = {name: one for name, one in spreads_of(tied).items() if name in START_WAYS and one.high > one.low}
    ends = np.array(list(product(*((one.low, one.high) for one in ranged.values()))))
    corners = dict(zip(ranged, ends.T, strict=True))
    pull = corners.pop("unbalance_kg_m")
    corners |= {
        "unbalance_kg_m": pull, "inertia_kg_m2": pull * 9.80665 * (corners.pop("swing_s") / (2 * pi)) ** 2
    }  # fmt: skip
    found = thresholds(shakers_of(replace(apart, inertia_kg_m2=inertia), nominal_of(apart) | corners))
    assert plan.sustain == pytest.approx((found.sustain.min(), found.sustain.max()), rel=2e-3)
    assert plan.start == pytest.approx((found.start.min(), found.start.max()), rel=5e-3)
    assert loose.sustain[0] < 0.95 * plan.sustain[0] < plan.sustain[1] < 0.95 * loose.sustain[1]


def test_a_plan_needs_inertia_or_swing(example_inputs):
    with pytest.raises(OutsideValidity, match="inertia_kg_m2 is 0, it must be given where swing_s is not"):
        motion_plan(example_inputs(inertia_kg_m2=None))


def test_between_sustain_and_start_the_curve_says_that_it_needs_a_kick(example_inputs):
    plan = motion_plan(example_inputs(200))
    order = [one.state for one in plan.curve]
    assert list(dict.fromkeys(order)) == [State.STILL, State.ROCKS, State.NEEDS_KICK, State.TURNS]
    rising = [one.turning_Hz for one in plan.curve]
    assert all(one <= other + 1e-9 for one, other in pairwise(rising))


def test_a_slow_turn_shakes_the_cabinet_through_its_second_line(example_inputs):
    """20 kHz, just above start: 2.4 Hz of turning, the cabinet at 4.5 Hz answers twice that."""
    plan = motion_plan(example_inputs(20000))
    point = next(one for one in plan.curve if one.setting >= 0.112)
    assert point.line == 2
    assert point.uneven
    assert point.shift_m == pytest.approx(0.15e-3, rel=0.1)


def test_accel_shift_and_frequency_agree(example_inputs):
    for point in motion_plan(example_inputs(1000)).curve[50::40]:
        pace = 2 * pi * point.turning_Hz * point.line
        assert point.accel_m_s2 == pytest.approx(point.shift_m * pace**2)


def test_a_port_of_few_steps_begins_and_steps_on_its_own_settings(example_inputs):
    plan = motion_plan(example_inputs(1000, port_steps=48))
    assert plan.begin * 48 == pytest.approx(5)
    assert plan.step == pytest.approx(1 / 48)


def test_a_stricter_limit_lowers_the_ceiling(example_inputs):
    ceilings = [
        motion_plan(example_inputs(1000, give=0.05, limit_class=name)).ceiling for name in ("3M1", "3M2", "3M4")
    ]
    assert ceilings[0] < ceilings[1] < ceilings[2] or ceilings[2] == inf


def test_a_weight_too_heavy_for_its_motor_never_starts(example_inputs):
    plan = motion_plan(example_inputs(unbalance_kg_m=Spread.exactly(0.5), inertia_kg_m2=Spread.exactly(0.03)))
    assert plan.doubts[0] is Doubt.NEVER_STARTS
    assert plan.start == (inf, inf)
    assert plan.sway == ()
    assert {one.band for one in plan.bands} == {Band.NO_MOTION, Band.BUZZ}


def test_a_found_start_narrows_the_plan(example_inputs):
    before = motion_plan(example_inputs(1000, give=0.2))
    after = motion_plan(example_inputs(1000, give=0.2, found=Found(start=0.1, start_step=0.01)))
    assert after.start == pytest.approx((0.09, 0.1))
    assert before.start[0] < after.start[0] < after.start[1] < before.start[1]
    assert after.start[0] <= after.start_nominal <= after.start[1]
    assert after.compared[0].check is Check.START
    assert after.compared[0].predicted == pytest.approx(before.start)
    assert not after.compared[0].outside


def test_a_found_speed_narrows_back_emf_and_is_given_back(example_inputs):
    found = Found(turning_Hz=34.0)
    before, after = (motion_plan(example_inputs(1000, give=0.15, found=one)) for one in (Found(), found))
    spread, learnt = before.inputs.emf_V_s, after.inputs.emf_V_s
    assert learnt.high - learnt.low < 0.95 * (spread.high - spread.low)
    assert after.curve[-1].turning_Hz == pytest.approx(34.0, rel=0.01)


def test_narrowing_never_loses_the_true_machine(example_inputs):
    """Seeded machines measured without error stay inside what is learnt from them."""
    chance = np.random.default_rng(11)
    wide = example_inputs(500, give=0.15)
    for _ in range(4):
        truth = {name: float(chance.uniform(one.low, one.high)) for name, one in spreads_of(wide).items()}
        real = motion_plan(replace(wide, **{name: Spread.exactly(value) for name, value in truth.items()}))
        if not isfinite(real.start[0]):
            continue
        found = Found(start=real.start[0] + 0.003, start_step=0.01, turning_Hz=real.curve[-1].turning_Hz,
                      natural_Hz=truth["natural_Hz"])  # fmt: skip
        learnt = motion_plan(replace(wide, found=found))
        assert not any(one.outside for one in learnt.compared)
        for name, spread in spreads_of(learnt.inputs).items():
            assert spread.low - 1e-12 <= truth[name] <= spread.high + 1e-12, name
        assert learnt.start[0] <= real.start[0] <= learnt.start[1]


def test_a_contradiction_is_told_and_narrows_nothing(example_inputs):
    found = Found(start=0.4, turning_Hz=90.0, current_A=40.0, natural_Hz=20.0, damping=0.2, as_left=0.01)
    before, after = (motion_plan(example_inputs(1000, give=0.05, found=one)) for one in (Found(), found))
    assert {one.check for one in after.compared if one.outside} == set(Check)
    assert after.start == before.start
    assert after.inputs.natural_Hz == before.inputs.natural_Hz
    assert after.inputs.damping == before.inputs.damping
    assert not any(one.narrows for one in after.compared)
    assert after.start_before is None


def test_the_setting_in_use_is_a_point_of_the_curve(example_inputs):
    plan = motion_plan(example_inputs(1000, found=Found(as_left=0.1234)))
    assert plan.as_left.setting == 0.1234
    assert plan.as_left.state is State.TURNS
    assert plan.as_left in plan.curve


@pytest.mark.parametrize(("changes", "named"), [
    ({"supply_V": Spread.exactly(-12.0)}, "supply_V is -12, it must be above 0"),
    ({"natural_Hz": Spread(1, 5, 3)}, "natural_Hz is 5, it must be from 1 to 3"),
    ({"damping": Spread.exactly(1.5)}, "damping is 1.5, it must be from"),
    ({"brush_V": Spread.exactly(13.0)}, "brush_V is 13, it must be below supply_V, 12"),
    ({"mass_kg": Spread.exactly(float("nan"))}, "mass_kg is nan, it must be above 0"),
    ({"found": Found(as_left=1.2)}, "as_left is 1.2, it must be above 0 and at most 1"),
])  # fmt: skip
def test_what_cannot_be_is_refused_by_name(example_inputs, changes, named):
    with pytest.raises(OutsideValidity, match=named):
        motion_plan(example_inputs(**changes))


def test_a_pwm_drive_needs_its_frequency(example_inputs):
    with pytest.raises(OutsideValidity, match="pwm_Hz is 0, it must be given for a PWM drive"):
        motion_plan(replace(example_inputs(), pwm_Hz=None))


def test_a_smooth_voltage_needs_no_pwm_frequency(example_inputs):
    plan = motion_plan(replace(example_inputs(), pwm_Hz=None, drive=Drive.VOLTAGE))
    assert plan.sway[0] == pytest.approx((0.0771, 0.2123), abs=1e-3)


def test_an_unknown_limit_class_is_refused(example_inputs):
    with pytest.raises(NotInTable, match="no vibration class '3M9'"):
        motion_plan(example_inputs(limit_class="3M9"))


def test_the_same_inputs_give_the_same_plan(example_inputs):
    assert motion_plan(example_inputs(1000, give=0.05)) == motion_plan(example_inputs(1000, give=0.05))


@pytest.mark.parametrize("pwm_Hz", [200, 1000])
def test_speed_and_acceleration_of_random_machines_lie_in_their_ranges(example_inputs, pwm_Hz):
    """Monte Carlo tests the corners at all settings at which every machine turns evenly."""
    wide = example_inputs(pwm_Hz, give=0.1)
    plan = motion_plan(wide)
    own_Hz = 13.3 / (2 * pi)
    points = [one for one in plan.curve if one.slow_Hz > 3.2 * own_Hz]
    assert len(points) > 100
    settings = np.array([one.setting for one in points])
    low, high, least, most = (
        np.array([getattr(one, name) for one in points])
        for name in ("slow_Hz", "fast_Hz", "accel_low_m_s2", "accel_high_m_s2")
    )
    chance = np.random.default_rng(8)
    drawn = {name: chance.uniform(one.low, one.high, 60) for name, one in spreads_of(wide).items()}
    shakers = shakers_of(wide, nominal_of(wide) | drawn)
    speed = turning(shakers, settings).speed_rad_s
    each = shakers.with_axes(1)
    moved = shift(each.unbalance_kg_m, each.mass_kg, 2 * pi * each.natural_Hz, each.damping_share, speed)
    assert (speed / (2 * pi) >= low * 0.999).all()
    assert (speed / (2 * pi) <= high * 1.001).all()
    assert (moved * speed**2 >= least * 0.995).all()
    assert (moved * speed**2 <= most * 1.005).all()


def test_ranges_hold_the_likeliest_and_grow_with_doubt(example_inputs):
    narrow, wide = (motion_plan(example_inputs(1000, give=give)) for give in (0.03, 0.1))
    for plan in (narrow, wide):
        for one in plan.curve:
            if one.turning_Hz and one.setting >= plan.sustain[1]:
                assert one.slow_Hz <= one.turning_Hz * (1 + 1e-9) <= one.fast_Hz * (1 + 2e-9)
                assert one.accel_low_m_s2 <= one.accel_m_s2 <= one.accel_high_m_s2
    ends = [plan.curve[-1] for plan in (narrow, wide)]
    assert ends[1].accel_low_m_s2 < ends[0].accel_low_m_s2 < ends[0].accel_high_m_s2 < ends[1].accel_high_m_s2


def test_resonance_in_reach_caps_the_range_at_the_envelope(example_inputs):
    """me w² / (2 z M sqrt(1 - z²)) with M and z low and me high, where the speed may be that of the peak."""
    wide = example_inputs(1000, give=0.1)
    peak = max(motion_plan(wide).curve, key=lambda one: one.accel_high_m_s2 if one.fast_Hz < 6 else 0)
    w = 2 * pi * 4.5 * 1.1 / np.sqrt(1 - 2 * 0.054**2)
    assert peak.accel_high_m_s2 == pytest.approx(
        0.088 / 9.80665 * 1.1 * w**2 / (2 * 0.054 * 95 * 0.9 * np.sqrt(1 - 0.054**2)), rel=0.01
    )


def test_below_what_keeps_turning_there_is_no_range(example_inputs):
    plan = motion_plan(example_inputs(1000, give=0.1))
    below = [one for one in plan.curve if one.setting < plan.sustain[0]]
    between = [one for one in plan.curve if plan.sustain[0] <= one.setting < plan.sustain[1]]
    assert all(one.fast_Hz == one.accel_high_m_s2 == 0 for one in below)
    assert all(one.slow_Hz == one.accel_low_m_s2 == 0 for one in between)


def test_found_current_narrows_and_is_given_back(example_inputs):
    """A meter in the supply lead at full power: 5.4 A."""
    before, after = (motion_plan(example_inputs(1000, give=0.15, found=one)) for one in (Found(), Found(current_A=5.4)))
    assert after.compared[0].narrows
    assert after.start[1] - after.start[0] < before.start[1] - before.start[0]
    assert after.start_before == before.start
    speed = after.curve[-1].turning_Hz * 2 * pi
    supply, emf, ohm = after.inputs.supply_V, after.inputs.emf_V_s, after.inputs.resistance_ohm
    assert (supply.nominal - emf.nominal * speed) / (ohm.nominal + 0.06) == pytest.approx(5.4, rel=0.02)


def test_found_speed_alone_narrows_the_start(example_inputs):
    """It tells the back emf constant, and the start depends on that."""
    before, after = (motion_plan(example_inputs(1000, give=0.15, found=one)) for one in (Found(), Found(turning_Hz=31)))
    assert after.start[1] / after.start[0] < 0.97 * before.start[1] / before.start[0]
    assert [one.narrows for one in after.compared] == [True]


def test_a_reading_that_fits_everything_narrows_nothing(example_inputs):
    """What the plan knows exactly cannot be known better."""
    plan = motion_plan(example_inputs(1000, found=Found(turning_Hz=35.1)))
    assert [(one.outside, one.narrows) for one in plan.compared] == [(False, False)]
    assert plan.start_before is None


def test_currents_of_random_machines_at_a_low_setting_lie_where_foretold(example_inputs):
    """The ways are found by trying; 9 machines measured without error are never called a contradiction."""
    chance = np.random.default_rng(6)
    for pwm_Hz, setting in ((200, 0.12), (1000, 0.2), (20000, 0.3)):
        wide = example_inputs(pwm_Hz, give=0.1)
        for _ in range(3):
            truth = {name: float(chance.uniform(one.low, one.high)) for name, one in spreads_of(wide).items()}
            shaker = shakers_of(wide, truth)
            speed = turning(shaker, np.array([setting])).speed_rad_s[0]
            drawn = float(supply_current(shaker, np.array([setting]), speed)[0])
            plan = motion_plan(replace(wide, found=Found(current_A=drawn, current_at=setting)))
            assert not plan.compared[0].outside
            assert plan.compared[0].predicted[0] * 0.999 <= drawn <= plan.compared[0].predicted[1] * 1.001
            for name, spread in spreads_of(plan.inputs).items():
                assert spread.low - 1e-12 <= truth[name] <= spread.high + 1e-12, name


def test_two_readings_that_contradict_each_other_are_told(example_inputs):
    """Each alone fits the ranges: a fast motor that draws little, but also starts as late as a weak one."""
    wide = example_inputs(1000, give=0.15)
    fast = motion_plan(replace(wide, found=Found(turning_Hz=35))).compared[0].predicted[1]
    alone = motion_plan(replace(wide, found=Found(current_A=4.3)))
    both = motion_plan(replace(wide, found=Found(current_A=4.3, turning_Hz=0.97 * fast)))
    assert not alone.compared[0].outside
    assert not motion_plan(replace(wide, found=Found(turning_Hz=0.97 * fast))).compared[0].outside
    assert [one.outside for one in both.compared] == [False, True]


def test_found_damping_takes_the_place_of_a_wide_range(example_inputs):
    wide = example_inputs(1000, give=0.05, damping=Spread(0.03, 0.05, 0.10))
    plan = motion_plan(replace(wide, found=Found(damping=0.06)))
    assert plan.inputs.damping == pytest.approx((0.048, 0.06, 0.072))
    assert plan.compared[0].check is Check.DAMPING
    assert plan.compared[0].narrows
    before = max(one.accel_high_m_s2 for one in motion_plan(wide).curve if one.fast_Hz < 6)
    assert max(one.accel_high_m_s2 for one in plan.curve if one.fast_Hz < 6) < before


def test_an_uneven_turn_may_be_read_off_by_more(example_inputs):
    """At 5 Hz the smooth balance is up to 8 % off: a reading 6 % off the exact plan is no contradiction, 15 % is."""
    inputs = example_inputs(1000)
    there = next(one for one in motion_plan(inputs).curve if one.setting >= 0.1155)
    outside = [
        motion_plan(replace(inputs, found=Found(turning_Hz=there.turning_Hz * off, turning_at=there.setting)))
        .compared[0].outside
        for off in (1.06, 1.15)
    ]  # fmt: skip
    assert outside == [False, True]


def test_several_steady_speeds_are_reported_with_the_jump(example_inputs):
    """A light cabinet with little damping, on a smooth voltage: it hangs near 4.5 Hz, then jumps."""
    plan = motion_plan(example_inputs(
        drive=Drive.VOLTAGE, mass_kg=Spread.exactly(20), damping=Spread.exactly(0.02),
        unbalance_kg_m=Spread.exactly(0.015), inertia_kg_m2=Spread.exactly(8e-4),
    ))  # fmt: skip
    assert Doubt.SEVERAL_SPEEDS in plan.doubts
    assert plan.hang.likeliest
    assert plan.hang.slow_Hz == pytest.approx(4.5, rel=0.02)
    assert plan.hang.fast_Hz > plan.hang.slow_Hz + 1
    after = next(one for one in plan.curve if one.setting > plan.hang.high)
    assert after.turning_Hz == pytest.approx(plan.hang.fast_Hz, rel=0.03)


def test_a_heavy_damped_cabinet_never_hangs(example_inputs):
    plan = motion_plan(example_inputs(1000))
    assert plan.hang is None
    assert Doubt.SEVERAL_SPEEDS not in plan.doubts


def test_the_top_of_the_cabinet_reaches_its_limit_sooner(example_inputs):
    """1.5 times as far: over the limit where two thirds of it may be taken at the shaker."""
    plan = motion_plan(example_inputs(1000, give=0.05))
    over = {one.setting for one in plan.curve if one.setting >= plan.start[0] and one.limit_share_high * 1.5 > 1}
    assert over
    assert min(low for low, _ in plan.over_top) == min(over)
    assert plan.over_top[0][0] <= plan.ceiling
    assert all(any(low <= one <= high for low, high in plan.over_top) for one in over)


def test_creeping_and_hopping_are_told_at_their_thresholds(example_inputs):
    """me w² sqrt(1 + mu²) over mu M g with mu 0.3 creeps; me w² over M g hops. 436 N at 35 Hz."""
    expected = {95.0: {Doubt.MAY_CREEP}, 200.0: set(), 40.0: {Doubt.MAY_CREEP, Doubt.MAY_HOP}}
    for mass, doubts in expected.items():
        plan = motion_plan(example_inputs(1000, mass_kg=Spread.exactly(mass)))
        assert set(plan.doubts) & {Doubt.MAY_CREEP, Doubt.MAY_HOP} == doubts, mass


def _running(example_inputs, pwm_Hz, **changes):
    """An invented shaker known by its running point at 12 V, widely: as one reads it off labels."""
    values = {
        "emf_V_s": None, "friction_N_m": None, "drag_N_m_s2": None, "running_V": 12.0, "running_A": Spread(4, 5.3, 7),
        "running_rad_s": Spread(199, 219, 241), "friction_share": Spread(0.1, 0.2, 0.6),
        "resistance_ohm": Spread(0.25, 0.32, 0.40), "unbalance_kg_m": Spread(0.006, 0.008, 0.011),
        "inertia_kg_m2": Spread.exactly(4.5e-4), "supply_V": Spread(11, 12, 13),
    }  # fmt: skip
    return example_inputs(pwm_Hz, **values | changes)


def _by_hand(inputs, example, drawn):
    """Machines from their running points: Ke = (V - I R) / w; the loss Ke I there, a share of it at every speed."""
    volts = 12 - drawn["running_A"] * drawn["resistance_ohm"]
    emf = volts / drawn["running_rad_s"]
    loss = emf * drawn["running_A"]
    return example(
        supply_V=drawn["supply_V"], loop_on_ohm=drawn["resistance_ohm"] + 0.06,
        loop_off_ohm=drawn["resistance_ohm"] + 0.03, pwm_Hz=inputs.pwm_Hz.nominal, emf_V_s=emf,
        friction_N_m=drawn["friction_share"] * loss,
        drag_N_m_s2=(1 - drawn["friction_share"]) * loss / drawn["running_rad_s"] ** 2,
        unbalance_kg_m=drawn["unbalance_kg_m"], inertia_kg_m2=4.5e-4,
    )  # fmt: skip


@pytest.mark.parametrize("pwm_Hz", [200.0, 20000.0])
def test_ranges_of_a_running_point_hold_every_machine_and_not_much_more(example_inputs, example, pwm_Hz):
    """All 64 corners of what was read, and 100 seeded machines between, each worked out by hand: none lies outside, and
    the ranges are at most 5 % wider than the outermost."""
    inputs = _running(example_inputs, pwm_Hz)
    plan = motion_plan(inputs)
    ranged = {name: one for name, one in spreads_of(inputs).items() if one.high > one.low}
    assert len(ranged) == 6
    ends = np.array(list(product(*((one.low, one.high) for one in ranged.values()))))
    chance = np.random.default_rng(4)
    inside = np.array([chance.uniform(one.low, one.high, 100) for one in ranged.values()]).T
    corners, between = (
        _by_hand(inputs, example, dict(zip(ranged, rows.T, strict=True))) for rows in (ends, inside)
    )  # fmt: skip
    starts = swing_threshold(corners, from_top=False)
    assert plan.start[0] == pytest.approx(starts.min(), rel=0.05)
    assert plan.start[1] == pytest.approx(starts.max(), rel=0.05)
    for machines in (corners, between):
        starts = swing_threshold(machines, from_top=False)
        assert plan.start[0] - 1e-4 <= starts.min()
        assert starts.max() <= plan.start[1] + 1e-4
        points = [one for one in plan.curve if one.setting >= plan.sustain[1]][::20]
        for point in points:
            speed = turning(machines, np.array([point.setting])).speed_rad_s[:, 0] / (2 * pi)
            assert point.slow_Hz * 0.995 <= speed.min(), point
            assert speed.max() <= point.fast_Hz * 1.005, point
    at = [one for one in plan.curve if one.setting >= plan.sustain[1]][::20]
    for point in at:
        fastest = turning(corners, np.array([point.setting])).speed_rad_s.max() / (2 * pi)
        assert point.fast_Hz <= 1.05 * fastest


def test_friction_and_drag_are_never_both_small(example_inputs):
    """At its running point every machine of the ranges takes the current that was read there."""
    inputs = _running(example_inputs, 200.0, supply_V=Spread.exactly(12.0), path_on_ohm=Spread.exactly(0.0))
    for sign in (-1, 1):
        for case in speed_corners(inputs, sign):
            one = shakers_of(inputs, case)
            loss = one.friction_N_m + one.drag_N_m_s2 * case["running_rad_s"] ** 2
            assert loss / one.emf_V_s == pytest.approx(case["running_A"])


def test_a_winding_that_takes_the_whole_voltage_is_refused(example_inputs):
    """5.71 A through 2.5 ohm is 14.3 V."""
    with pytest.raises(OutsideValidity, match=r"resistance_ohm is 2\.5, it must be below 2\.1"):
        motion_plan(_running(example_inputs, 200.0, running_A=Spread.exactly(5.71), resistance_ohm=Spread.exactly(2.5)))


@pytest.mark.parametrize("lacks", ["running_rad_s", "friction_share"])
def test_a_running_point_needs_its_speed_and_its_friction(example_inputs, lacks):
    with pytest.raises(OutsideValidity, match=lacks):
        motion_plan(_running(example_inputs, 200.0, **{lacks: None}))


def test_readings_narrow_a_running_point_and_never_lose_the_true_machine(example_inputs):
    """Seeded machines measured without error."""
    wide = _running(example_inputs, 500.0)
    chance = np.random.default_rng(5)
    for _ in range(3):
        truth = {name: float(chance.uniform(one.low, one.high)) for name, one in spreads_of(wide).items()}
        real = motion_plan(replace(wide, **{name: Spread.exactly(value) for name, value in truth.items()}))
        found = Found(start=real.start[0] + 0.003, start_step=0.01, turning_Hz=real.curve[-1].turning_Hz)
        learnt = motion_plan(replace(wide, found=found))
        assert not any(one.outside for one in learnt.compared)
        for name, spread in spreads_of(learnt.inputs).items():
            assert spread.low - 1e-12 <= truth[name] <= spread.high + 1e-12, name


def test_no_stop_is_said_where_it_would_lie_below_the_beginning(example_inputs):
    """A spinning disk on a light cabinet: too much as soon as it turns."""
    plan = motion_plan(example_inputs(200, give=0.1, limit_class="3M1", mass_kg=Spread.exactly(40.0)))
    assert plan.ceiling < plan.start[1]
    assert plan.stop == inf


def test_before_the_start_a_meter_at_the_motor_shows_the_winding_times_its_current(example_inputs):
    """Steady torque at the start: between friction alone and what holds the arm level, by hand, times R / Ke."""
    for plan in (motion_plan(example_inputs(1000)), motion_plan(example_inputs(drive=Drive.VOLTAGE))):
        most = (0.022 + 0.088) / 0.045 * 0.32
        assert 0.022 / 0.045 * 0.32 < plan.start_V[0] == plan.start_V[1] < most * 1.01
    assert motion_plan(example_inputs(drive=Drive.VOLTAGE)).start_V[0] == pytest.approx(
        plan.start[0] * 12 * 0.32 / 0.38
    )


def test_no_kick_or_hold_passes_the_ceiling(example_inputs):
    """Over all ranges nothing between hold and kick is too much for the contents."""
    for wide in (0.0, 0.05, 0.15, 0.3):
        for number in (1, 3, 8):
            given = example_inputs(200, give=wide)
            heavy = Spread(*(number * value for value in given.unbalance_kg_m))
            plan = motion_plan(replace(given, unbalance_kg_m=heavy))
            if plan.kick:
                inside = [one for one in plan.curve if plan.kick.hold[0] <= one.setting <= plan.kick.kick]
                assert plan.kick.kick < plan.ceiling
                assert all(one.limit_share_high <= 1 for one in inside if one.setting >= plan.sustain[0])


def test_slivers_join_the_worse_neighbour():
    bands = tuple(
        BandInterval(band, low, high)
        for band, low, high in (
            (Band.BUZZ, 0.0, 0.09), (Band.SWAY, 0.09, 0.092), (Band.VIBRATION, 0.092, 0.2), (Band.TOO_MUCH, 0.2, 0.201),
            (Band.SWAY, 0.201, 0.203), (Band.VIBRATION, 0.203, 1.0),
        )
    )  # fmt: skip
    assert [(one.band, one.low) for one in without_slivers(bands, None)] == [
        (Band.BUZZ, 0.0), (Band.VIBRATION, 0.09), (Band.TOO_MUCH, 0.2), (Band.VIBRATION, 0.203)
    ]  # fmt: skip

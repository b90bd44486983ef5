"""Mounts: screws that reach, nuts that stay, a panel that bears, a grip that holds; each just past and just before.

Clamp and torque: Shigley, Mechanical Engineering Design, bolted joints (T = K F d, three quarters of the proof load),
from memory. Bearing of plywood, friction of wood, what creep leaves of a clamp: common practice, no source, estimates.
"""

from math import pi, sqrt
from pathlib import Path

import pytest

from guide_gen.formulas.fasteners import clamp_N, slip_safety, tightening_N_m
from guide_gen.model.finding import Level
from guide_gen.planning.as_json import plan_json

ROOT = Path(__file__).parents[2]
FERRY = (ROOT / "content" / "builds" / "night-ferry" / "build.yaml").read_text(encoding="utf-8")
SHAKER, PWM = "shaker motor", "pwm port"
PULLS = {
    "toys.bump.current": "5.5 A (measured)",
    "toys.bump.motor": {"resistance": "0.32 ohm (measured)", "speed": "2100 rpm (measured)"},
    "toys.bump.weight": {"unbalance": "8 g m (datasheet)", "swing": "0.47 s (measured)"},
    "supplies.main.voltage_range": "12 V to 12 V",
}


# 8 g m give or take 10 %, 2100 rpm give or take 5 %, all at the high end; the leads take a little of the 12 V.
MOST_N = 0.0088 * (1.05 * 2100 * 2 * pi / 60) ** 2


def plain(text):
    return text.replace("\u00a0", " ")


@pytest.fixture(name="shaken", scope="module")
def _shaken(any_toy):
    return lambda mount, more=None, control=PWM: any_toy(
        SHAKER, control, PULLS | {"toys.bump.mount": mount, "cabinet.floor.thickness": "18 mm"} | (more or {})
    )


def codes(case):
    return {one.code for one in case.toy.findings}


def test_washer_decides_on_plywood_and_not_the_screw():
    """Four M5 with washers of 15 mm grip 271 N, with 25 mm 817 N: a worked figure of the trade, from memory."""
    for washer_mm, grips_N in ((15, 271), (25, 817)):
        clamp = clamp_N(proof_MPa=225, stress_area_mm2=14.2, bearing_MPa=2.5, washer_mm=washer_mm, hole_mm=5.3)
        assert 4 * 0.35 * 0.5 * clamp == pytest.approx(grips_N, rel=0.03)
    small = clamp_N(proof_MPa=225, stress_area_mm2=5.03, bearing_MPa=10, washer_mm=40, hole_mm=3.4)
    assert small == pytest.approx(0.75 * 225 * 5.03)


def test_torque_of_a_bolt_as_printed():
    """Shigley, example of bolt torque: 25 kip, 3/4 in, K 0.20 give 3750 lbf in; from memory."""
    kip, inch, lbf = 4448.2216, 25.4, 4.4482216
    assert tightening_N_m(nut_factor=0.20, clamp_N=25 * kip, diameter_mm=0.75 * inch) == pytest.approx(
        3750 * lbf * inch / 1000, rel=1e-6
    )


def test_clamp_torque_and_grip_are_in_the_document(shaken):
    """Named with their units; the working beside them."""
    case = shaken({"washer": "25 mm"})
    mounting = plan_json(case.plan)["toys"]["bump"]["mounting"]
    clamp = 2.5 * pi / 4 * (25**2 - 5.5**2)
    assert mounting["clamp_N"] == pytest.approx(clamp)
    assert mounting["torque_Nm"] == pytest.approx(0.2 * clamp * 5 / 1000)
    assert MOST_N * 0.9 < mounting["pull_N"] < MOST_N
    assert mounting["slip_safety"] == pytest.approx(4 * 0.35 * 0.5 * clamp / mounting["pull_N"])
    assert {"mount.clamp", "mount.torque", "mount.grip"} <= {one.id for one in case.toy.worked}


def test_grip_is_not_worked_out_where_the_pull_is_not_known(any_toy):
    case = any_toy(SHAKER, PWM)
    assert case.toy.sized.mounting.slip_safety is None
    assert "grip-too-weak" not in codes(case)


@pytest.mark.parametrize(
    ("times", "wider_mm", "level"),
    [(2, 0.1, None), (2, -0.1, Level.SHOULD), (1, 0.1, Level.SHOULD), (1, -0.1, Level.MUST)],
)
def test_grip_is_told_by_degree(shaken, times, wider_mm, level):
    """Below 1 at full strength it slides; below 2 in use, with on/off the same, too little is left.

    Each of 4 screws holds 0.35 x 0.5 of its clamp, and plywood bears 2.5 MPa under a washer with a hole of 5.5 mm.
    """
    pull_N = shaken({"washer": "25 mm"}, control="on/off port").toy.sized.mounting.pull_N
    just, right = (sqrt(one * pull_N / (4 * 0.35 * 0.5) / 2.5 * 4 / pi + 5.5**2) for one in (times, 2))
    case = shaken({"washer": f"{just + wider_mm:.3f} mm"}, control="on/off port")
    assert [one.level for one in case.toy.findings if one.code == "grip-too-weak"] == ([level] if level else [])
    if level:
        finding = case.finding("grip-too-weak")
        assert f"{pull_N:.0f} N" in plain(finding.message)
        assert f"{right:.1f}" in finding.mend
        assert case.above(finding)[-1] == "washer"


def test_grip_footing_and_cautions_are_told_by_one_force(plan_of):
    """Of the printed example: the mount holds what the page says that the weight pulls with at worst."""
    toy = plan_of(FERRY).plan.toys["bow-shaker"]
    assert toy.sized.mounting.pull_N == toy.motion.pull_N
    newtons = f"{toy.motion.pull_N:.0f} N"
    assert newtons in plain(next(one for one in toy.motion.doubts if "creep" in one))
    assert newtons in plain(next(one.reason for one in toy.cautions if one.id == "weight-flies"))
    grip = next(one for one in toy.worked if one.id == "mount.grip")
    assert toy.motion.pull_N in grip.numbers.values()


def test_grip_is_held_against_the_highest_setting_in_use(shaken):
    """A limit lets the same mount hold: the pull goes with the square of the speed (OpenStax College Physics 2e)."""
    assert "grip-too-weak" in codes(shaken({"washer": "20 mm"}, control="on/off port"))
    assert "grip-too-weak" not in codes(shaken({"washer": "20 mm"}, {"toys.bump.control.limit": "12 %"}))


@pytest.mark.parametrize(("length", "told"), [("32.7 mm", False), ("32.6 mm", True)])
def test_stated_screw_must_reach_through_its_nut(shaken, length, told):
    """18 + 0.5 + 3 + 2 x 1.4 (ISO 7089) + 6.8 (ISO 7040) + 2 x 0.8 (ISO 261) = 32.7 mm."""
    case = shaken({"length": length})
    assert ("fastener-short" in codes(case)) is told
    if told:
        finding = case.finding("fastener-short")
        assert finding.level is Level.MUST
        assert "Take 35 mm" in plain(finding.mend)
        assert case.at(finding) == length


@pytest.mark.parametrize(
    ("locking", "told"),
    [
        ("nylon-insert nut", False),
        ("thread-locking", False),
        ("two nuts", False),
        ("spring washer", True),
        ("none", True),
    ],
)
def test_nuts_that_nothing_keeps_are_told(shaken, locking, told):
    """Izumi and others, Engineering Failure Analysis 16 (2009): spring washers do not hold against shaking."""
    case = shaken({"locking": locking})
    assert ("fastener-unlocked" in codes(case)) is told
    if told:
        assert case.finding("fastener-unlocked").level is Level.MUST


@pytest.mark.parametrize(("torque", "told"), [("1.16 N m", False), ("1.17 N m", True)])
def test_torque_that_crushes_the_panel_is_told(shaken, torque, told):
    """T = K F d with the 1168 N that plywood bears under a washer of 25 mm: 0.2 x 1168 x 5 = 1.168 N m."""
    case = shaken({"washer": "25 mm", "torque": torque})
    assert ("panel-crushed" in codes(case)) is told
    if told:
        finding = case.finding("panel-crushed")
        assert finding.level is Level.MUST
        assert "1.17 N m" in plain(finding.mend)


def test_washer_that_its_hole_swallows_is_told(shaken):
    """5.5 mm is the clearance hole of M5 (ISO 273)."""
    assert "panel-crushed" in codes(shaken({"washer": "5.5 mm"}))
    assert "panel-crushed" not in codes(shaken({"washer": "24 mm"}))


def test_lower_torque_grips_less(shaken):
    """In proportion: T = K F d."""
    full, half = (shaken({"torque": torque}).toy.sized.mounting.slip_safety for torque in ("1.1 N m", "0.55 N m"))
    assert full == pytest.approx(2 * half)


def test_more_screws_grip_more():
    assert slip_safety(screws=6, friction=0.35, kept=0.5, clamp_N=1000, side_N=400) == pytest.approx(
        1.5 * slip_safety(screws=4, friction=0.35, kept=0.5, clamp_N=1000, side_N=400)
    )


@pytest.mark.parametrize(
    ("locking", "part", "count"),
    [("nylon-insert nut", "Locking nut", "4"), ("two nuts", "Nut", "8"), ("thread-locking", "Nut", "4")],
)
def test_nuts_of_the_steps_and_of_the_list_are_those_described(shaken, locking, part, count):
    toy = shaken({"locking": locking}).toy
    assert next(one.count for one in toy.needs if one.what == part) == count
    word = {"nylon-insert nut": "nylon-insert", "two nuts": "two nuts", "thread-locking": "thread-locking"}[locking]
    step = next(one for one in toy.steps if one.id == "shaker.mount.bolt")
    assert word in step.text
    assert "N m" in plain(step.more)

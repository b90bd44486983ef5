"""What a shaker's steps say by its plan: what to look for, where to stop, what to pass quickly, what to expect.

The machine is that of the design's example; its thresholds are held in tests/formulas and tests/outside.
"""

from pathlib import Path

import pytest

from guide_gen.formulas.log_reading import read_log
from guide_gen.formulas.log_text import LogProblem
from guide_gen.toys import kinds

ROOT = Path(__file__).parents[2]
FERRY = (ROOT / "content" / "builds" / "night-ferry" / "build.yaml").read_text(encoding="utf-8")
SHED = (ROOT / "content" / "builds" / "salt-shed" / "build.yaml").read_text(encoding="utf-8")
RAISING = ("first", "turns", "sway", "repeat")


@pytest.fixture(name="shaker", scope="module")
def _shaker(plan_of):
    def planned(*changes, text=FERRY, slug="bow-shaker"):
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        return plan_of(text).plan.toys[slug]

    return planned


def step(toy, id):
    return next(one for one in toy.steps if one.id == f"shaker.{id}")


def said(toy, id):
    one = step(toy, id)
    return f"{one.text} {one.more}".replace("\u00a0", " ")


DISK = ("cabinet:\n", "cabinet:\n  contents: spinning disk\n")
FAST = ("pwm_frequency: 200 Hz\n", "pwm_frequency: 5 kHz\n")


def test_no_step_looks_for_a_sway_that_the_plan_does_not_have(shaker):
    toy = shaker()
    assert not [one for one in toy.motion.bands if one.name == "sway"]
    assert "trembles as strongly as you like" in said(toy, "tune.sway")
    assert "sway" not in said(toy, "play.sway")
    assert "sways" not in toy.introduction.sentence
    assert not any("What you look for is a sideways sway" in note for note in toy.tuning_notes)


def test_a_sway_of_the_plan_is_looked_for(shaker):
    toy = shaker(text=SHED, slug="keel-shaker")
    assert any(one.name == "sway" for one in toy.motion.bands)
    assert "sways sideways" in said(toy, "tune.sway")
    assert "sway" in said(toy, "play.sway")


def test_no_sway_is_promised_without_a_setting(any_toy):
    toy = any_toy("shaker motor", "always on").toy
    assert "sideways" not in said(toy, "tune.sway")
    assert "sway in the palms" not in said(toy, "play.sway")


def test_setting_at_which_it_turns_over_is_the_plans_range_below_its_stop(shaker):
    toy = shaker()
    reading = step(toy, "tune.turns").record
    low, high = toy.motion.start
    assert (reading.low, reading.high) == pytest.approx((100 * low, 100 * min(high, 0.12, toy.motion.stop)))
    assert "Below" in reading.if_not
    assert "Above" in reading.if_not


@pytest.mark.parametrize("limit", ["2 %", "5 %", "6 %"])
def test_no_reading_lies_above_the_limit(shaker, limit):
    toy = shaker(("limit: 12 %", f"limit: {limit}"))
    reading = step(toy, "tune.turns").record
    assert reading.high <= float(limit.split()[0])
    assert reading.low is None or reading.low <= reading.high


@pytest.mark.parametrize("changes", [(), (("mass: 95 kg", "mass: 90 kg"),)])
def test_every_raising_step_names_where_to_stop(shaker, changes):
    """The stop of the plan, or the build's limit below it."""
    toy = shaker(*changes, ("limit: 12 %", "limit: 90 %"))
    for id in RAISING:
        text = said(toy, f"tune.{id}")
        assert "at the latest" in text or "go no further" in text or "Never go above" in text


@pytest.mark.parametrize("changes", [(DISK,), (("mass: 95 kg", "mass: 8 kg"),), (DISK, ("mass: 95 kg", "mass: 20 kg"))])
def test_steps_that_cannot_succeed_are_not_printed(shaker, changes):
    """Too much before it most likely turns over: the tuning ends with what comes first, and nothing is logged."""
    toy = shaker(*changes, ("limit: 12 %", "limit: 90 %"))
    motion = toy.motion
    assert motion.ceiling < motion.start_nominal
    tuning = [one for one in toy.steps if one.id.startswith("shaker.tune") and "nudge" not in one.id]
    assert [one.id for one in tuning][:-1] == ["shaker.tune.lowest"]
    assert tuning[-1].id in ("shaker.tune.measure", "shaker.tune.weight")
    assert "Go no further" in tuning[-1].text
    assert not [one for one in toy.steps if one.id.startswith("shaker.play")]
    assert any("cannot be tuned yet" in note for note in toy.tuning_notes)
    assert motion.helps in tuning[-1].text if motion.helps else "smaller weight" in tuning[-1].text


def test_the_cabinets_own_sway_is_not_waited_in(shaker):
    toy = shaker()
    low = f"{100 * max(toy.motion.harmful[0], toy.motion.start[0]):.3g} %"
    assert f"but from {low}" in said(toy, "tune.turns")
    assert "in one go" in said(toy, "tune.sway")
    assert "in one go" in said(toy, "tune.turns")


def test_a_harmless_sway_is_not_forbidden(shaker):
    """Rugged contents stand the cabinet's own sway, the top included: no step passes it, and nothing else is said."""
    toy = shaker(("cabinet:\n", "cabinet:\n  contents: rugged\n"))
    assert toy.motion.resonance is not None
    assert toy.motion.harmful is None
    for id in RAISING:
        assert "in one go" not in said(toy, f"tune.{id}")
        assert "Stay below" not in said(toy, f"tune.{id}")
    assert not any("pass that quickly" in sentence for sentence in toy.motion.says)


def test_what_is_left_of_the_sway_beside_the_cabinets_own_is_said_in_volts_behind_a_trimmer(shaker):
    """Salt Shed: its sway begins below the cabinet's own and ends in it. Volts: shares of its 12 V."""
    toy = shaker(text=SHED, slug="keel-shaker")
    (band,) = [one for one in toy.motion.bands if one.name == "sway"]
    low, high = toy.motion.harmful
    assert band.low < low < band.high < high
    assert f"Of the sway, {12 * band.low:.3g} to {12 * low:.3g} V at the motor" in said(toy, "tune.sway")
    assert " % " not in said(toy, "tune.sway")


@pytest.mark.parametrize("setting", ["8 %", None])
def test_what_is_expected_as_left_is_what_the_check_holds_a_reading_against(shaker, setting):
    """Frequency and current at the setting that is left, not at all settings; the cabinet's as it is described."""
    toy = shaker(*(() if setting else (("found: {setting: 8 %, date", "found: {date"),)))
    names = {"tune.log": "turning frequency", "tune.current": "current", "tune.nudge-log": "natural frequency"}
    for id, what in names.items():
        record = step(toy, id).record
        if what in toy.sized.foretold:
            assert (record.low, record.high) == toy.sized.foretold[what]
    assert step(toy, "tune.nudge-log").record.low > 3.5
    if setting:
        assert step(toy, "tune.current").record.high < 0.3 * toy.sized.load.design_current_A
        here = min(toy.motion.curve, key=lambda one: abs(one.setting - 0.08))
        log = step(toy, "tune.log").record
        assert log.low <= here.turning_low_Hz * 1.01
        assert log.high >= here.turning_high_Hz * 0.99


def test_bench_voltage_is_current_of_the_start_times_winding(shaker, plan_of):
    """By hand for the example: 9 g m and 15 mN m at 46.6 mV s and 0.32 ohm; (0.7246 m g e + T) R / K to all of m g e.

    0.7246: largest (1 - cos x) / x, from a pendulum's energy under a steady torque.
    """
    reading = step(shaker(), "bench.turns").record
    lift, friction = 0.009 * 9.80665, 0.0147
    low, high = ((share * lift + friction) / 0.0466 * 0.32 for share in (0.7246, 1.0))
    assert reading.low < low < high * 1.02
    assert low < reading.high < 1.3 * high
    bare = plan_of({}).toy
    reading = step(bare, "bench.turns").record
    assert 0 < reading.low < reading.high <= 12
    assert "usual" in reading.how


def test_a_low_winding_is_measured_by_volts_and_amperes(shaker):
    """Below about 3 ohm leads and brushes spoil an ohms range; common practice, no source."""
    toy = shaker()
    dead = step(toy, "dead.winding")
    assert "divide volts by amperes" in dead.text
    assert "ohms range" not in dead.record.how
    weaker = next(one for one in toy.troubles if one.symptom.startswith("Turns, but weaker"))
    assert "volts and amperes" in weaker.measure


def test_the_phone_is_told_of_before_and_after_tuning(shaker):
    toy = shaker()
    ids = [one.id for one in toy.steps]
    assert ids.index("shaker.tune.nudge-log") < ids.index("shaker.tune.lowest")
    assert ids.index("shaker.tune.left") < ids.index("shaker.tune.log")
    assert "guide-gen shake LOG.csv" in said(toy, "tune.log")
    reading = step(toy, "tune.log").record
    assert 0 < reading.low < reading.high
    assert step(toy, "tune.current").record.unit == "A"
    assert {"shaker.tune.nudge-damping"} <= set(ids)


def test_full_strength_is_logged_where_there_is_no_setting(shaker, any_toy):
    """At what the plan foretells; where nothing is worked out, at what the log reader looks for."""
    toy = shaker(("      type: pwm port\n      board: quay\n      port: 2\n      limit: 12 %", "      type: always on"))
    ids = [one.id for one in toy.steps]
    assert ids.index("shaker.tune.sway") < ids.index("shaker.tune.log")
    for one in ("tune.log", "tune.current"):
        assert "at full strength" in said(toy, one)
        assert "setting" not in said(toy, one)
    log = step(toy, "tune.log").record
    assert (log.low, log.high) == pytest.approx((toy.at_full.turning_low_Hz, toy.at_full.turning_high_Hz), rel=1e-6)
    unknown = step(any_toy("shaker motor", "on/off port").toy, "tune.log").record
    assert (unknown.low, unknown.high) == (0.5, 60.0)


def test_pulls_of_one_page_agree_and_say_what_differs(shaker):
    toy = shaker()
    worst = f"{toy.motion.pull_N:.0f}"
    reason = next(one.reason for one in toy.cautions if one.id == "weight-flies")
    footing = next(one for one in toy.motion.doubts if "creep" in one)
    assert worst in reason
    assert worst in footing
    assert "unfavourable" in reason
    assert "unfavourable" in footing


def test_inductance_says_its_instrument():
    """An LCR meter at a low frequency: the key, the question of what to measure better."""
    toy = kinds()["shaker motor"]
    assert "LCR meter" in toy.fields.model_fields["motor"].annotation.__args__[0].model_fields["inductance"].description


def test_one_length_of_a_log_is_asked_for_everywhere(shaker):
    """20 s: twice 1 / 20 Hz apart two frequencies are told apart behind a Hann window (Harris, 1978, from memory)."""
    text = said(shaker(), "tune.log")
    assert "run the shaker for 20 seconds" in text
    assert "frequencies 0.1 Hz apart" in text
    assert "20 seconds of the **shaker running**" in (ROOT / "README.md").read_text(encoding="utf-8")
    with pytest.raises(LogProblem, match="record for 20 seconds or more"):
        read_log("t,ax,ay,az\n" + "".join(f"{0.01 * place},0,0,9.8\n" for place in range(300)))

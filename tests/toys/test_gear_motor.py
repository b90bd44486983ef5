"""A gear motor: how hard it pinches, what it holds, where it stops."""

import math

import pytest

GEAR = {
    "gearbox": "spur",
    "reduction": "60",
    "arm_radius": "45 mm",
    "motor": {"resistance": "4 ohm (measured)", "speed": "4800 rpm (measured)"},
}


@pytest.fixture(name="gear", scope="module")
def _gear(any_toy):
    def make(changes=None, control="on/off port"):
        base = {f"toys.bump.{key}": value for key, value in (GEAR | (changes or {})).items()}
        return any_toy("gear motor", control, base | {"toys.bump.current": "0.5 A (measured)"})

    return make


def worked(case):
    return {one.id: one.result for one in case.toy.worked}


def caution(case, id):
    return next(one for one in case.toy.cautions if one.id == id)


def at_stall_N(stall_A, ratio, share, radius_m):
    """Torque per ampere from V = R I + K w, times the stall current, times the gearbox, over the arm: any text."""
    constant = (12 - 0.5 * 4) / (4800 * 2 * math.pi / 60)
    return constant * stall_A * ratio * share / radius_m


def test_stall_current_is_the_highest_voltage_over_winding_and_path(gear):
    """Ohm's law: 12.6 V across 4 ohm and the way there, which is a few tenths of an ohm; its start is the same."""
    case = gear()
    assert 12.6 / 4.4 < worked(case)["gear.stall"] < 12.6 / 4
    assert worked(case)["gear.stall"] == pytest.approx(case.toy.sized.load.start_A)


def test_output_is_slower_and_stronger_by_the_reduction(gear):
    """80 turns a minute of 4800; the torque of a lossless gearbox would be 60 times as high."""
    found = worked(gear())
    assert found["gear.speed"] == pytest.approx(80 * 2 * math.pi / 60)
    assert found["gear.torque"] == pytest.approx(60 * 0.95 * found["gear.torque.motor"])


def test_force_is_torque_over_the_arm(gear):
    """With the gearbox at its best, which pinches hardest: 0.95 for spur wheels, 0.70 for a worm (estimates)."""
    stall_A = worked(gear())["gear.stall"]
    assert worked(gear())["gear.force"] == pytest.approx(at_stall_N(stall_A, 60, 0.95, 0.045))
    assert worked(gear({"gearbox": "worm"}))["gear.force"] == pytest.approx(at_stall_N(stall_A, 60, 0.70, 0.045))


@pytest.mark.parametrize(("share", "told"), [(0.999, False), (1.001, True)])
def test_pinch_is_told_from_150_newtons_on(gear, share, told):
    """EN 12453 limits the static closing force of powered doors to 150 N, from memory: a yardstick."""
    radius_m = at_stall_N(worked(gear())["gear.stall"], 60, 0.95, 1.0) / (150 * share)
    case = gear({"arm_radius": f"{1000 * radius_m:.4f} mm"})
    assert ("pinch-force" in case.codes) is told
    assert caution(case, "draw-in").word == ("WARNING" if told else "CAUTION")
    if told:
        finding = case.finding("pinch-force")
        assert finding.level == "should fix"
        assert "150\u00a0N" in finding.expected


def test_longer_arm_that_the_finding_proposes_mends_it(gear):
    """The force goes with one over the arm."""
    mend = gear({"arm_radius": "12 mm"}).finding("pinch-force").mend.replace("\u00a0", " ")
    proposed = float(mend.split("longer arm than ")[1].split(" mm")[0])
    assert "pinch-force" not in gear({"arm_radius": f"{proposed + 0.1:.2f} mm"}).codes


def test_reason_prints_the_force(gear):
    """Beside the caution."""
    assert "N." in caution(gear(), "draw-in").reason
    assert caution(gear({"reduction": None}), "draw-in").reason == ""


@pytest.mark.parametrize("missing", ["motor", "reduction", "arm_radius"])
def test_what_is_missing_for_the_force_is_named(gear, missing):
    """And nothing is guessed."""
    case = gear({missing: None})
    assert missing in case.finding("not-worked-out").message
    assert "gear.force" not in worked(case)


def test_measurements_that_do_not_belong_together_are_told(gear):
    """0.5 A through 40 ohm would take 20 V of 12 V."""
    case = gear({"motor": {"resistance": "40 ohm (measured)", "speed": "4800 rpm"}})
    assert "could not draw" in case.finding("not-worked-out").message


def test_gear_that_holds_is_warned_of_unless_it_can_be_turned_back(gear):
    """Worm or not known."""

    def ids(gearbox):
        return {one.id for one in gear({"gearbox": gearbox}).toy.cautions}

    assert "no-backdrive" in ids("worm")
    assert "no-backdrive" in ids(None)
    assert "no-backdrive" not in ids("spur")


def test_limited_travel_without_a_stop_device_is_warned_of(gear):
    """Limit switches or a time-out end it; without limits there is nothing to end."""

    def ids(limited, device):
        return {one.id for one in gear({"travel_limited": limited, "stop_device": device}).toy.cautions}

    assert "end-stop" in ids("yes", "none")
    assert "end-stop" in ids("yes", None)
    assert "end-stop" not in ids("yes", "limit switches")
    assert "end-stop" not in ids("yes", "time-out")
    assert "end-stop" not in ids("no", "none")


def test_coupling_is_always_warned_of_and_looked_at_after_an_hour(gear):
    """A set screw slips."""
    case = gear()
    assert "gear.after.look" in caution(case, "coupling-loose").before
    assert any("1 h" in step.text for step in case.toy.steps if step.id == "gear.after.look")


def test_stall_is_compared_with_the_fuse(gear):
    """The fuse protects the wire, not the motor: about 3 A against 1 A."""
    said = caution(gear(), "stall").reason.replace("\u00a0", " ")
    assert "asks for up to 2.97 A; F1 is rated 1 A" in said


def test_winding_is_measured_against_its_resistance_or_only_bounded(gear):
    """Known: 20 % each way; else below V / I."""

    def reading(case):
        return next(one for one in case.toy.readings if one.what.startswith("Resistance of the winding"))

    assert (reading(gear()).low, reading(gear()).high) == pytest.approx((3.2, 4.8))
    assert reading(gear({"motor": None})).high == pytest.approx(24.0)


def test_dial_is_raised_from_its_lowest_end(gear):
    """On a port that is only on or off the first run is full strength, for two seconds."""
    dialled, plain = ({step.id for step in gear(control=one).toy.steps} for one in ("pwm port", "on/off port"))
    assert "gear.tune.lowest" in dialled
    assert "gear.first.run" not in dialled
    assert "gear.first.run" in plain

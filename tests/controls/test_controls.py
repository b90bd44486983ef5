"""What each control says: where the strength is set, what is entered, what its reader must know."""

import pytest


def _texts(toy, stage):
    return [step.text for step in toy.steps if step.stage == stage]


@pytest.fixture(name="on_pwm", scope="module")
def _on_pwm(plan_of):
    return plan_of({"toys.bump.control.limit": "12 %", "toys.bump.current": "6 A (measured)"}).toy


@pytest.fixture(name="trimmed", scope="module")
def _trimmed(plan_of, with_controller):
    return plan_of(with_controller(controller__lowest="fully clockwise")).toy


def test_pwm_port_begins_at_zero_and_never_goes_above_its_limit(on_pwm):
    """Both stand where they are entered."""
    entered = {setting.what: setting.value.replace("\u00a0", " ") for setting in on_pwm.settings}
    assert entered["highest value of the port, before tuning"] == "0 %"
    assert entered["highest value of the port, never above"] == "12 %"
    assert entered["PWM frequency"] == "200 Hz"
    assert any("0 %" in text for text in _texts(on_pwm, "settings"))


def test_pwm_port_says_that_a_limit_can_be_lost(on_pwm):
    """So fuse and wire are for the full current."""
    assert any("6\u00a0A" in note and "limit in software can be lost" in note for note in on_pwm.wiring_notes)


def test_manual_test_of_an_output_may_ignore_the_limit(on_pwm):
    """Said where the port is set up, and again while tuning."""
    said = [step.stage for step in on_pwm.steps if "manual test" in step.more]
    assert {"settings", "tune"} <= set(said)


def test_trimmer_stands_at_the_end_that_its_maker_marks(trimmed):
    """Not at a fixed one."""
    assert any("fully clockwise" in text for text in _texts(trimmed, "before-supply"))
    assert any("fully clockwise" in text for text in _texts(trimmed, "tune"))
    assert "fully counter-clockwise" not in " ".join(step.text for step in trimmed.steps)


def test_controller_says_that_the_ports_fuse_is_not_the_motors(trimmed):
    """The port carries milliamperes; the feed has its own fuse."""
    assert any("8\u00a0mA" in note and "F1" in note and "of its own" in note for note in trimmed.wiring_notes)
    assert trimmed.sized.port.load_A == pytest.approx(0.008)


def test_controller_is_mounted_within_reach_of_its_trimmer(trimmed, on_pwm):
    """From the service door, with the guard shut."""
    assert any("trimmer" in advice.what for advice in trimmed.mounting_advice.advice)
    assert not any("trimmer" in advice.what for advice in on_pwm.mounting_advice.advice)


def test_input_takes_its_plus_where_the_description_says(plan_of, with_controller):
    """Behind the feed's fuse, or before it with a fuse of its own."""
    behind = plan_of(with_controller()).toy.sized.circuit
    before = plan_of(with_controller(controller__input_from="before the fuse")).toy.sized.circuit
    assert next(wire.start for wire in behind.wires if wire.role == "input plus") == "F1:2"
    assert next(wire.start for wire in before.wires if wire.role == "input plus") == "F1B:2"
    assert frozenset({"F1:1", "F1B:1"}) in {frozenset(joint) for joint in before.joints}
    assert next(wire.protected_by for wire in before.wires if wire.role == "input plus") == "F1B"
    assert before.part("F1B").value == "1\u00a0A"  # the smallest blade


def test_motor_current_never_flows_through_the_port(trimmed):
    """Nor through the board's own lead."""
    assert "A1" not in trimmed.sized.circuit.main
    assert "A1" in trimmed.sized.circuit.control


def test_always_on_says_that_it_starts_with_the_supply(any_toy):
    """Before the plug goes in."""
    toy = any_toy("shaker motor", "always on").toy
    assert any("start at once, at full strength" in text for text in _texts(toy, "first-power"))
    assert toy.sized.port is None


def test_port_switches_the_return(on_pwm):
    """Low-side: plus is always at the toy, through its fuse."""
    circuit = on_pwm.sized.circuit
    assert circuit.main == ("T1", "W1", "F1", "W11", "M1", "W12", "A1", "W2", "T1")
    assert circuit.wire("W12").end == "A1:P2"


def test_fuse_of_a_port_stands_in_the_return(plan_of):
    """Drawn inside the board, beside the feed's own."""
    circuit = plan_of({"boards.quay.port_fuse": "5 x 20 mm"}).toy.sized.circuit
    inside = [part.id for part in circuit.parts if part.inside == "A1"]
    assert set(inside) == {"F1C", "Q1"}


def test_two_supplies_meet_at_the_board(plan_of):
    """Where their 0 V are joined the current goes straight back to the toy's own, by a lead of the board's own."""
    two = {
        "supplies.high": {"voltage": "12 V", "current": "9 A", "overload": "limits"},
        "boards.quay": {"supply": "high", "common_return": ["main", "high"]},
        "toys.bump.supply": "main",
    }
    circuit = plan_of(two).toy.sized.circuit
    assert circuit.main == ("T1", "W1", "F1", "W11", "M1", "W12", "A1", "W4", "T1")
    assert (circuit.wire("W4").start, circuit.wire("W4").end) == ("A1:0V", "T1:0V")
    apart = plan_of(two | {"boards.quay": {"supply": "high"}}).toy.sized.circuit
    assert (apart.main[0], apart.main[-1]) == ("T1", "T2")
    assert not any({"T1:0V", "T2:0V"} <= set(node) for node in apart.nodes())


def test_limit_of_nothing_is_told_once(plan_of):
    """At 0 % nothing ever happens, so that there is nothing to tune; 1 % may be enough for something."""
    finding = plan_of({"toys.bump.control.limit": "0 %"}).finding("implausible")
    assert finding.level == "must fix"
    assert "not-worked-out" not in plan_of(KNOWN | {"toys.bump.control.limit": "0 %"}).codes
    assert "implausible" not in plan_of({"toys.bump.control.limit": "1 %"}).codes


KNOWN = {
    "toys.bump.motor": {"resistance": "1 ohm (measured)", "speed": "2000 rpm (measured)"},
    "toys.bump.weight": {"unbalance": "4 g m (datasheet)", "swing": "0.5 s (measured)"},
    "cabinet.mass": "95 kg (measured)",
}


def test_limit_below_where_a_gear_motor_begins_is_noted(any_toy):
    """A geared motor of 2 A whose current may all be friction begins at a few percent at least."""
    motor = {"toys.bump.motor": {"resistance": "1.5 ohm (measured)", "speed": "4000 rpm (measured)"}}
    told = any_toy("gear motor", "pwm port", motor | {"toys.bump.control.limit": "1 %"})
    assert any("cannot begin to turn" in one.message for one in told.plan.findings)
    enough = any_toy("gear motor", "pwm port", motor | {"toys.bump.control.limit": "60 %"})
    assert not any("cannot begin to turn" in one.message for one in enough.plan.findings)


@pytest.mark.parametrize(
    ("kind", "word"), [("shaker motor", "speed"), ("gear motor", "speed"), ("contactor", "pull"), ("lamp", "light")]
)
def test_frequency_is_explained_by_what_is_driven(any_toy, kind, word):
    case = any_toy(kind, "pwm port")
    setting = next(one for one in case.toy.settings if one.what == "PWM frequency")
    assert word in setting.why


def test_two_ways_to_set_the_speed_are_mended_by_either(plan_of, with_controller):
    """Both that the mend names can be written, and clear it."""
    both = with_controller(controller__input="pwm", port_set_to="pwm")
    told = plan_of(both).finding("two-speed-methods")
    assert "input: on/off" in told.mend
    assert "type: pwm port" in told.mend
    assert "two-speed-methods" not in plan_of(with_controller(controller__input="on/off")).codes
    assert "two-speed-methods" not in plan_of().codes

"""What a key that is left out would give: one note a toy, with the key, what it gives and how to know it."""

import pytest

from guide_gen.controls import controls
from guide_gen.model.finding import Level
from guide_gen.toys import kinds

ON_OFF = "on/off port"
EXACT = {"supplies.main.voltage_range": "12 V to 12 V"}


def plain(text):
    """A text with ordinary spaces."""
    return text.replace("\u00a0", " ")


def notes(case):
    """All notes of a toy that begin with what is not worked out."""
    return [one for one in case.plan.findings if one.code == "not-worked-out"]


@pytest.mark.parametrize("control", sorted(controls()))
@pytest.mark.parametrize("kind", sorted(kinds()))
def test_a_toy_by_the_least_that_is_asked_for_has_one_such_note_and_no_more(any_toy, kind, control):
    """Every kind on every control; no key is named twice."""
    case = any_toy(kind, control, {"cabinet": {"floor": {"thickness": None}}})
    (note,) = notes(case)
    assert note.level is Level.NOTE
    assert note.toy == "bump"
    keys = note.expected.split(" and ")
    assert len(keys) == len(set(keys))
    assert "cabinet: {floor: {thickness: ..}}" in keys


# ---- motors ---------------------------------------------------------------------------------------------------------

MOTORS = {
    "shaker motor": {},
    "gear motor": {"toys.bump.motor.speed": "4800 rpm", "toys.bump.reduction": "60", "toys.bump.arm_radius": "60 mm"},
    "blower fan": {"toys.bump.motor_type": "brushed"},
}


@pytest.mark.parametrize("kind", MOTORS)
def test_motor_without_its_winding_names_key_gain_and_instrument(any_toy, kind):
    """Volts and amperes together, shaft held: a multimeter's ohms range does not do below about 3 ohm."""
    (note,) = notes(any_toy(kind, ON_OFF, MOTORS[kind]))
    assert "motor: {resistance: ..}" in note.expected.split(" and ")
    assert "start and stall current" in note.message
    assert "volts and amperes together on a bench supply, shaft held" in note.mend


@pytest.mark.parametrize("kind", MOTORS)
def test_motor_whose_winding_is_known_has_no_such_note(any_toy, kind):
    """Its start is worked out."""
    case = any_toy(kind, ON_OFF, MOTORS[kind] | {"toys.bump.motor.resistance": "3 ohm (measured)"})
    assert not any("resistance" in one.expected for one in notes(case))
    assert case.toy.sized.load.start_A is not None


def test_fan_with_electronics_asks_for_the_current_at_its_start(any_toy):
    """A meter sees nothing of its winding: the capacitor of its electronics fills at the start."""
    brushless = {"toys.bump.motor_type": "brushless"}
    (note,) = notes(any_toy("blower fan", ON_OFF, brushless))
    assert note.expected == "start_current: .."
    assert "capacitor" in note.message
    assert "clamp meter" in note.mend
    known = any_toy("blower fan", ON_OFF, brushless | {"toys.bump.start_current": "6 A (datasheet)"})
    assert notes(known) == []
    assert known.toy.sized.load.start_A == 6


# ---- coils ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["knocker", "bell", "contactor"])
def test_coil_without_its_inductance_names_key_gain_and_instrument(any_toy, kind):
    """Release time and kickback rest on it."""
    (note,) = notes(any_toy(kind, ON_OFF))
    assert "coil: {inductance: ..}" in note.expected
    assert "the release time and the energy of its kickback" in note.message
    assert "inductance meter" in note.mend
    known = any_toy(kind, ON_OFF, {"toys.bump.coil.inductance": "60 mH (datasheet)"})
    assert not any("inductance" in one.expected for one in notes(known))


def test_relay_without_its_inductance_names_it_beside_the_motors_winding(any_toy):
    """Both in one note; what they give is told of each."""
    (note,) = notes(any_toy("shaker motor", "relay"))
    assert {"motor: {resistance: ..}", "relay: {coil_inductance: ..}"} <= set(note.expected.split(" and "))
    assert "when the relay lets go" in note.message


# ---- the start against what switches it -----------------------------------------------------------------------------

LAMP = EXACT | {"toys.bump.lamp_type": "filament", "toys.bump.control.relay.coil_inductance": "0.5 H (datasheet)"}
# 2 A of filament take 20 A cold (ten times, common practice, no source).


@pytest.mark.parametrize(
    ("rated", "making", "code"),
    [
        ("10 A", None, "not-worked-out"),
        ("20 A", None, None),
        ("19.9 A", None, "not-worked-out"),
        ("10 A", "20 A", None),
        ("10 A", "19.9 A", "contacts-rating"),
        ("20 A", "10 A", None),
    ],
)
def test_relays_contact_is_held_against_the_rush_of_a_cold_filament(any_toy, rated, making, code):
    """What it may make, else what it may switch: at 20 A nothing is told, just below it is."""
    case = any_toy(
        "lamp",
        "relay",
        LAMP | {"toys.bump.control.relay.contact_current": rated, "toys.bump.control.relay.making_current": making},
    )
    assert case.codes == ([code] if code else [])
    if code:
        told = case.finding(code)
        assert told.level is (Level.NOTE if code == "not-worked-out" else Level.MUST)
        assert "20 A" in plain(told.message)
        assert "20 A" in plain(told.mend)
    if code == "not-worked-out":
        assert told.expected == "relay: {making_current: ..}"
        assert "data sheet" in told.mend


def test_contact_is_held_against_the_start_of_a_motor(any_toy):
    """12 V over 0.6 ohm and the way is about 16 A; the winding unknown, it names the winding."""
    winding = EXACT | {"toys.bump.motor.resistance": "0.6 ohm (measured)"}
    case = any_toy("shaker motor", "relay", winding)
    start = case.toy.sized.load.start_A
    assert "making_current" in notes(case)[0].expected
    assert 15 < start < 17
    enough = any_toy("shaker motor", "relay", winding | {"toys.bump.control.relay.making_current": "20 A"})
    assert "contacts-rating" not in enough.codes
    short = any_toy("shaker motor", "relay", winding | {"toys.bump.control.relay.making_current": "15 A"})
    assert short.finding("contacts-rating").level is Level.MUST


def test_contact_is_held_against_the_capacitor_of_a_fan(any_toy):
    """15 A of inrush on a contact for 10 A."""
    fan = {"toys.bump.motor_type": "brushless", "toys.bump.start_current": "15 A (datasheet)"}
    (note,) = notes(any_toy("blower fan", "relay", fan))
    assert "making_current" in note.expected
    assert "15 A" in plain(note.message)


@pytest.mark.parametrize(
    ("rated", "peak", "code"),
    [
        ("10 A", None, "not-worked-out"),
        ("20 A", None, None),
        ("10 A", "20 A", None),
        ("10 A", "19.9 A", "port-overloaded"),
    ],
)
@pytest.mark.parametrize("control", [ON_OFF, "pwm port"])
def test_port_is_held_against_the_rush_of_a_cold_filament(any_toy, control, rated, peak, code):
    """What its switch stands for a moment, else what it carries for ever; under PWM the rush is the same."""
    stated = {"boards.quay.port_current": rated, "boards.quay.port_peak_current": peak}
    lamp = EXACT | {"toys.bump.lamp_type": "filament"}
    case = any_toy("lamp", control, lamp | stated)
    assert [one for one in case.codes if one in ("not-worked-out", "port-overloaded")] == ([code] if code else [])
    if code:
        assert "20 A" in plain(case.finding(code).message)


def test_motor_on_a_pwm_port_starts_low_and_is_not_held_against_it(any_toy):
    """On an on/off port it starts at full strength."""
    winding = EXACT | {"toys.bump.motor.resistance": "0.6 ohm (measured)"}
    assert not any("port_peak" in one.expected for one in notes(any_toy("shaker motor", "pwm port", winding)))
    assert any("port_peak" in one.expected for one in notes(any_toy("shaker motor", ON_OFF, winding)))

"""The band in which a fuse opens, pulses, and a coil that stays on."""

from math import exp, inf, isinf, pi, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide_gen.formulas import coil
from guide_gen.formulas import fuse_opening as fuse
from guide_gen.formulas.fuse_opening import Outcome
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.published.tables import NotInTable, all_fuse_series, fuse_pulse_points, fuse_series

SPEEDS = ("", "fast", "time-lag")
BLADE = fuse.curve(fuse_series("blade"), 10)
series_names = st.sampled_from(sorted(all_fuse_series()))


@st.composite
def curves(draw):
    series = fuse_series(draw(series_names))
    return fuse.curve(series, draw(st.sampled_from(series.ratings_A)), draw(st.sampled_from(SPEEDS)))


@pytest.mark.parametrize("holder", sorted(all_fuse_series()))
@pytest.mark.parametrize("speed", SPEEDS)
def test_every_gate_gives_itself_back(holder, speed):
    """A band of one character has its gates' own times; of several the widest."""
    series = fuse_series(holder)
    for rating in series.ratings_A:
        curve = fuse.curve(series, rating, speed)
        for gates in curve.gates:
            alone = fuse.FuseCurve(rating, (gates,))
            for gate in gates:
                found, widest = alone.opening(gate.multiple * rating), curve.opening(gate.multiple * rating)
                assert widest.shortest_s <= found.shortest_s
                assert widest.longest_s >= found.longest_s
                if gate.shortest_s is not None:
                    assert found.shortest_s == pytest.approx(gate.shortest_s)
                assert found.longest_s == pytest.approx(gate.longest_s or inf)


@given(curve=curves(), low=st.floats(0.2, 30), more=st.floats(1, 3))
def test_more_current_never_opens_a_fuse_later(curve, low, more):
    less_current, more_current = (curve.opening(x * curve.rating_A) for x in (low, low * more))
    assert more_current.longest_s <= less_current.longest_s * (1 + 1e-9)
    assert more_current.shortest_s <= less_current.shortest_s * (1 + 1e-9)


@given(curve=curves(), multiple=st.floats(0.01, 50))
def test_the_shortest_time_is_never_above_the_longest(curve, multiple):
    band = curve.opening(multiple * curve.rating_A)
    assert 0 <= band.shortest_s <= band.longest_s


@given(curve=curves(), multiple=st.floats(0.01, 0.999))
def test_a_fuse_never_opens_below_its_rating(curve, multiple):
    assert curve.opening(multiple * curve.rating_A) == fuse.Opening(inf, inf)
    assert curve.outcome(multiple * curve.rating_A, 1e6) is Outcome.NEVER


@given(multiple=st.floats(1.101, 1.349))
def test_between_110_and_135_percent_a_blade_may_open_but_need_not(multiple):
    """The upper curve is never drawn into this gap: a stuck coil would look protected."""
    assert BLADE.opening(10 * multiple) == fuse.Opening(0.75, inf)
    assert BLADE.outcome(10 * multiple, 1e9) is Outcome.MAYBE


def test_above_its_last_gate_the_heat_stays_the_same():
    ten, twenty = BLADE.opening(100), BLADE.opening(200)
    assert (ten.shortest_s, ten.longest_s) == pytest.approx((0.02 * 0.36, 0.1 * 0.36))
    assert ten.longest_s == pytest.approx(4 * twenty.longest_s)


def test_a_slow_gate_promises_nothing_above_itself():
    """A time-delay fuse that stands twice its rating for 12 s may yet open at once at ten times."""
    slow = fuse.curve(fuse_series("5 x 20 mm UL"), 5, "time-lag")
    assert slow.opening(10).shortest_s == 12
    assert slow.opening(50).shortest_s == 0


def test_an_unknown_speed_takes_the_widest_band():
    series = fuse_series("5 x 20 mm")
    fast, slow, either = (fuse.curve(series, 5, speed).opening(15) for speed in ("fast", "time-lag", ""))
    assert either.shortest_s == fast.shortest_s < slow.shortest_s
    assert either.longest_s == slow.longest_s > fast.longest_s


def test_a_rating_without_gates_is_refused():
    with pytest.raises(NotInTable, match="no opening times for 50 A"):
        fuse.curve(fuse_series("blade"), 50)


@given(curve=curves(), seconds=st.floats(0.005, 2000))
def test_the_least_current_to_open_opens_it_just_in_time(curve, seconds):
    current = curve.current_to_open_A(seconds)
    assert curve.outcome(current * 1.0001, seconds) is Outcome.OPENS
    assert curve.outcome(current * 0.999, seconds) is not Outcome.OPENS


@pytest.mark.parametrize(("seconds", "multiple"), [(5, 2.0), (0.5, 3.5)])
def test_a_supply_must_give_twice_a_blade_to_open_it_in_5_s_and_three_and_a_half_times_in_half_a_second(
    seconds, multiple
):
    assert BLADE.current_to_open_A(seconds) == pytest.approx(10 * multiple)


# Pulses


def test_the_floor_of_a_blade_is_set_by_its_gate_at_350_percent():
    assert BLADE.melting_A2s == pytest.approx(0.49 * 10**2)


def test_a_series_without_short_gates_has_no_floor():
    assert fuse.curve(fuse_series("6.3 x 32 mm UL"), 5).melting_A2s is None


@given(pulses=st.floats(1, 1e5))
def test_the_share_and_the_number_of_pulses_are_inverses(pulses):
    assert fuse.pulses_stood(fuse.pulse_share(pulses), 1) == pytest.approx(pulses, rel=1e-6) or pulses == pytest.approx(
        1e5
    )


def test_the_rows_of_the_share_give_themselves_back():
    for pulses, share in fuse_pulse_points():
        assert fuse.pulse_share(pulses) == pytest.approx(share)
    assert fuse.pulse_share(1e7) == pytest.approx(0.22)


def test_a_pulse_that_may_melt_it_is_stood_not_once_and_a_small_one_for_ever():
    assert fuse.pulses_stood(1.01, 1) == 0
    assert fuse.pulses_stood(1, 1) == 1
    assert isinf(fuse.pulses_stood(0.2, 1))


@given(rating=st.floats(1, 40), pulses=st.floats(1, 1e6))
def test_the_rating_that_pulses_ask_for_stands_them(rating, pulses):
    pulse = fuse.pulse_share(pulses) * 0.49 * rating**2
    assert fuse.needed_by_pulses_A(pulse, fuse.pulse_share(pulses), 0.49) == pytest.approx(rating)


# 2 A: by heat sqrt(4 t / (0.22 x 0.49)), for ever 2 / 0.75 = 2.667 A; both are the same at 0.1078 / 0.75² = 0.1916 s.


@pytest.mark.parametrize(
    ("on_s", "rating_A"), [(0.04, 1.218), (0.15, 2.359), (0.191, 2.662), (0.192, 2.667), (10, 2.667), (3600, 2.667)]
)
def test_a_pulse_asks_for_no_more_than_its_current_for_ever(on_s, rating_A):
    """ISO 8820-3: 10 s of 2 A would ask for 19 A by its heat, and 3 A carry 2 A for ever."""
    heat = fuse.rectangle_A2s(2, on_s)
    assert fuse.needed_by_pulse_A(heat, 0.22, 0.49, 2 / 0.75) == pytest.approx(rating_A, abs=1e-3)


@pytest.mark.parametrize("holder", sorted(all_fuse_series()))
@pytest.mark.parametrize("speed", SPEEDS)
def test_a_fuse_at_that_bound_never_opens_however_long_the_pulse(holder, speed):
    """0.75 of its rating lies below every gate: 1.1 (ISO 8820-3), 1.5 (IEC 60127-2), 1 (UL 248-14)."""
    series = fuse_series(holder)
    for rating in series.ratings_A:
        curve = fuse.curve(series, rating, speed)
        assert curve.outcome(0.75 * rating, 360000) is Outcome.NEVER
        assert isinf(curve.opening(0.75 * rating).shortest_s)


@pytest.mark.parametrize("multiple", [1.1, 1.35, 1.6, 2.0, 3.5, 6.0])
def test_heat_alone_is_a_floor_at_every_gate_of_a_blade(multiple):
    """ISO 8820-3: no gate lets a blade open with less than 0.49 x rating² (3.5² x 0.04 s); the slow ones with more."""
    assert multiple**2 * BLADE.opening(10 * multiple).shortest_s >= 0.49 * (1 - 1e-9)


def _square(current, second, steps=2000):
    """I2t by Simpson's rule."""
    step = second / steps
    values = [current(n * step) ** 2 for n in range(steps + 1)]
    return (values[0] + values[-1] + 4 * sum(values[1:-1:2]) + 2 * sum(values[2:-1:2])) * step / 3


SHAPES = {
    "rectangle": (fuse.rectangle_A2s(7, 0.03), lambda t: 7),
    "ramp": (fuse.ramp_A2s(2, 9, 0.03), lambda t: 2 + 7 * t / 0.03),
    "half sine": (fuse.half_sine_A2s(9, 0.03), lambda t: 9 * sin(pi * t / 0.03)),
    "decay": (fuse.decay_A2s(9, 0.001), lambda t: 9 * exp(-t / 0.001)),
    "coil": (fuse.coil_pulse_A2s(30, 6.5, 0.03, 0.03), lambda t: coil.current_A(30, 6.5, 0.03, t, 0)),
    "capacitor": (fuse.capacitor_A2s(0.01, 24, 0.1), lambda t: 240 * exp(-t / 0.001)),
}


@pytest.mark.parametrize("shape", SHAPES)
def test_each_shape_is_the_integral_of_its_square(shape):
    closed, current = SHAPES[shape]
    assert closed == pytest.approx(_square(current, 0.03), rel=1e-6)


def test_a_motor_start_is_the_integral_of_its_decay():
    """(V/R) exp(-t Ke²/(J R)): the rotor takes the current down."""
    assert fuse.motor_start_A2s(12, 0.38, 5e-4, 0.045) == pytest.approx(
        fuse.decay_A2s(12 / 0.38, 5e-4 * 0.38 / 0.045**2)
    )


def test_the_worked_shaker_wears_its_fuse_out_at_full_power_starts():
    """0.088 N m that would swing at 13.3 rad/s: 47 A²s, for 1e5 starts more than 20 A though 10 A carries it."""
    start = fuse.motor_start_A2s(12, 0.38, 0.088 / 13.3**2, 0.045)
    assert start == pytest.approx(47, abs=0.5)
    assert fuse.needed_by_pulses_A(start, fuse.pulse_share(1e5), 0.49) > 20
    assert fuse.pulses_stood(start, BLADE.melting_A2s) < 2


# A coil that stays on


def _stuck(rating):
    capacity = coil.heat_capacity_J_per_K(coil.copper_mass_by_wire_kg(6.5, 0.45))
    coil_s = coil.adiabatic_time_s(30, 6.5, capacity, 30, 120)
    return fuse.stuck_on(fuse.curve(fuse_series("blade"), rating), 30 / 6.5, coil_s, 0.70, 1e5)


@pytest.mark.parametrize(
    ("rating", "multiple", "saves", "room", "stands"),
    [
        (7.5, 0.62, Outcome.NEVER, 6.1, True),
        (5, 0.92, Outcome.NEVER, 2.7, True),
        (4, 1.15, Outcome.MAYBE, 1.7, True),
        (3, 1.54, Outcome.MAYBE, 0.97, True),
        (2, 2.3, Outcome.OPENS, 0.43, False),
    ],
)
def test_no_fuse_both_lets_the_pulses_pass_and_saves_the_coil(rating, multiple, saves, room, stands):
    """30 V, 6.5 ohm, wire of 0.45 mm, 1e5 pulses of 40 ms with 0.70 A²s each."""
    found = _stuck(rating)
    assert found.multiple == pytest.approx(multiple, abs=0.011)
    assert (found.saves, found.stands) == (saves, stands)
    assert found.room_A2s == pytest.approx(room, abs=0.05)


@pytest.mark.parametrize(("rating", "shortest", "longest"), [(3, 0.3, 89), (2, 0.1, 2.8)])
def test_the_bands_of_the_two_smallest(rating, shortest, longest):
    band = _stuck(rating).opening
    assert band.shortest_s == pytest.approx(shortest, abs=0.05)
    assert band.longest_s == pytest.approx(longest, rel=0.02)


@given(curve=curves(), margin=st.floats(1.5, 5))
def test_by_the_rule_of_thumb_no_fuse_saves_a_coil_that_stays_on(curve, margin):
    found = fuse.stuck_on(curve, curve.rating_A / margin, 1e9, 1e-6, 1e5)
    assert found.saves is Outcome.NEVER


def test_a_pulse_of_no_current_is_refused():
    with pytest.raises(OutsideValidity, match="on_A is 0, it must be above 0"):
        fuse.stuck_on(BLADE, 0, 10, 1, 1e5)


@given(current=st.floats(1, 100), seconds=st.floats(1e-3, 1), henry=st.floats(1e-3, 1))
def test_a_coil_never_asks_more_of_a_fuse_than_its_full_current_would(current, seconds, henry):
    volt, ohm = current * 5, 5
    asked = fuse.coil_pulse_A2s(volt, ohm, henry, seconds)
    assume(asked > 0)
    assert asked <= fuse.rectangle_A2s(current, seconds) * (1 + 1e-9)

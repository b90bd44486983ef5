"""Choosing: the smallest that does, and why the others were passed over."""

from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas.choice import first_that_fits, reaches, smallest_at_or_above
from guide_gen.values.worked import Candidate

series = st.lists(st.floats(0.01, 100), min_size=1, max_size=20, unique=True)


@given(series=series, needed=st.floats(0.01, 120))
def test_nothing_smaller_would_do(series, needed):
    taken, _ = smallest_at_or_above(series, needed, "A")
    enough = [value for value in series if reaches(value, needed)]
    assert taken == min(enough, default=None)


@given(series=series, needed=st.floats(0.01, 120))
def test_exactly_the_taken_one_has_nothing_against_it(series, needed):
    taken, candidates = smallest_at_or_above(series, needed, "A")
    fitting = [candidate.value for candidate in candidates if not candidate.rejected]
    assert fitting == ([] if taken is None else [f"{taken:g} A"])


def test_candidates_say_why_they_were_passed_over():
    taken, candidates = smallest_at_or_above((1, 2, 3, 5, 7.5, 10, 15), 6.3, "A")
    assert taken == 7.5
    assert candidates == (
        Candidate("3 A", "below the 6.3 A needed"),
        Candidate("5 A", "below the 6.3 A needed"),
        Candidate("7.5 A", ""),
        Candidate("10 A", "larger than it need be"),
    )


def test_a_series_that_ends_too_soon_takes_none():
    taken, candidates = smallest_at_or_above((1, 2, 3), 4, "A")
    assert taken is None
    assert candidates == (Candidate("2 A", "below the 4 A needed"), Candidate("3 A", "below the 4 A needed"))


def test_binary_fractions_do_not_push_a_choice_one_up():
    """3 x 0.7 A is 2.0999999999999996 A to a computer and 3 x 1.1 A is 3.3000000000000003 A."""
    assert smallest_at_or_above((3.3, 5), 3 * 1.1, "A")[0] == 3.3
    assert not reaches(3.3, 3.3001)


def test_looking_stops_at_the_first_that_fits():
    taken, looked_at = first_that_fits("abcd", lambda one: "" if one == "b" else "not b", str)
    assert taken == "b"
    assert looked_at == (Candidate("a", "not b"), Candidate("b", ""))

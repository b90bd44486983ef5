"""Rows of text in a drawing: what fits stays whole, what does not is broken or cut by rule."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.drawings.lettering import length, plain, rows, shortened, width

TEXTS = st.text(max_size=60)
LIMITS = st.floats(20, 300)


@given(TEXTS, LIMITS, st.integers(1, 4))
def test_no_row_is_wider_than_its_limit(text: str, limit: float, most: int) -> None:
    laid = rows(text, limit, 12, most=most)
    assert len(laid) <= max(most, 1)
    assert all(width(row, 12) <= limit for row in laid)


@given(TEXTS, st.floats(40, 300), st.floats(0, 40))
def test_a_first_row_keeps_to_its_own_limit(text: str, limit: float, first: float) -> None:
    laid = rows(text, limit, 12, first=first)
    assert width(laid[0], 12) <= first


@given(st.lists(st.text("abcdefgh", min_size=1, max_size=5), min_size=1, max_size=8))
def test_words_that_fit_come_back_whole_and_in_order(words: list[str]) -> None:
    assert " ".join(rows(" ".join(words), 60, 12, most=99)).split() == words


def test_what_does_not_fit_ends_in_an_ellipsis() -> None:
    assert rows("one two three four five six", 40, 12, most=2)[-1].endswith("…")
    assert shortened("Starboardengineroomshaker", 60, 12).endswith("…")


@pytest.mark.parametrize(
    "value",
    ["60 V", "10 A", "105 °C", "16 AWG", "6.6 ft", "12 %", "200 Hz", "0.3 Ω", "32 V DC", "32\u00a0V DC"],
)
def test_a_number_stays_with_its_unit(value: str) -> None:
    laid = rows(f"Schottky rated {value} and more {value}, {value}", 62, 12, most=9)
    assert " ".join(laid).count(value) == 3
    assert sum(row.count(value) for row in laid) == 3


def test_a_word_too_wide_for_a_row_is_broken_behind_its_hyphen() -> None:
    assert rows("engine-room", 45, 12) == ["engine-", "room"]


def test_signs_that_xml_forbids_are_left_out() -> None:
    assert plain("a\x00b\x1b \ufffe\n c\u202e") == "ab c"


@pytest.mark.parametrize(
    ("metres", "units", "shown"),
    # 1 ft = 0.3048 m and 1 in = 25.4 mm exactly: NIST Special Publication 811 (2008), B.6.
    [
        (1.8, "metric", "1.8 m"),
        (0.15, "metric", "0.15 m"),
        (2.0, "metric", "2 m"),
        (1.8288, "US", "6 ft"),
        (2.0, "US", "6.6 ft"),
        (0.1524, "US", "6 in"),
        (30.48, "US", "100 ft"),
    ],
)
def test_lengths_stand_in_the_units_of_the_page(metres: float, units: str, shown: str) -> None:
    assert length(metres, units).replace("\u00a0", " ") == shown

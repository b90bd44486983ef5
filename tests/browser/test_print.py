"""A toy's page as it prints: empty boxes, lines to write on, nothing that only a screen needs."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

TOY = "builds/night-ferry/bow-shaker.html"
MM = 96 / 25.4  # pixels of a style sheet in a millimetre (CSS Values and Units, absolute lengths)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_sheet_says_which_page_of_what(site: Path, window: Callable, paper: str) -> None:
    page = window(1280).open(site / TOY)
    page.locator("input[data-step]").first.check()
    reader = PdfReader(BytesIO(page.pdf(format=paper, tagged=True)))
    texts = [sheet.extract_text() for sheet in reader.pages]
    for number, text in enumerate(texts, 1):
        assert f"page {number} of {len(texts)}" in text
        assert "Night Ferry, Bow shaker, revision 3" in text
    whole = "\n".join(texts)
    for step in page.locator("input[data-step]").all():
        assert str(step.get_attribute("data-no")) in whole
    for missing in ("All builds", "On this page", "Go there", "Save as a file", "I take responsibility"):
        assert missing not in whole


def test_boxes_and_lines_are_large_and_empty(site: Path, window: Callable) -> None:
    page = window(1280).open(site / TOY)
    page.locator("input[data-step]").first.check()
    page.locator("input[data-reading]:not(:disabled)").first.fill("0.2")
    page.emulate_media(media="print")
    box = page.locator("input[data-step]").first
    assert box.bounding_box()["width"] >= 6 * MM - 0.5  # type: ignore[index]
    assert box.evaluate("one => getComputedStyle(one, '::before').display") == "none"
    field = page.locator("input[data-reading]").first
    assert field.bounding_box()["width"] >= 25 * MM - 0.5  # type: ignore[index]
    assert field.bounding_box()["height"] >= 8 * MM - 0.5  # type: ignore[index]
    assert field.evaluate("one => getComputedStyle(one).color") == "rgba(0, 0, 0, 0)"


def test_no_step_and_no_hold_is_split(site: Path, window: Callable) -> None:
    page = window(1280).open(site / TOY)
    page.emulate_media(media="print")
    breaks = page.eval_on_selector_all(
        ".step, .gg-hold, .gg-signal, .gg-sheet", "all => all.map(one => getComputedStyle(one).breakInside)"
    )
    assert set(breaks) == {"avoid"}


def test_print_is_black_on_white_in_the_dark_scheme_too(site: Path, window: Callable) -> None:
    page = window(1280, color_scheme="dark").open(site / TOY)
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.querySelector('.drawing')).color") == "rgb(0, 0, 0)"
    panels = page.eval_on_selector_all(
        ".gg-signal__word", "all => all.map(one => getComputedStyle(one).backgroundColor)"
    )
    assert set(panels) == {"rgba(0, 0, 0, 0)"}

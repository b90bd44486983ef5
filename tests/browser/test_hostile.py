"""Text from a description never becomes markup or script, in any place where it shows."""

from collections.abc import Callable
from pathlib import Path

import pytest

PAGES = ["index.html", "builds/wreck/index.html", "builds/wreck/bump.html"]


@pytest.mark.parametrize("path", PAGES)
def test_hostile_text_is_inert(hostile_site: Path, window: Callable, path: str) -> None:
    watched = window()
    page = watched.open(hostile_site / path)
    assert page.evaluate("window.hit") is None
    assert watched.messages == []
    assert watched.foreign == []
    assert page.evaluate("document.querySelectorAll('.md-container :is(iframe, img)').length") == 0
    assert "<script>window.hit=1</script>" in page.inner_text("body")


@pytest.mark.parametrize("path", PAGES)
def test_hostile_text_does_not_break_the_layout(hostile_site: Path, window: Callable, path: str) -> None:
    page = window(320).open(hostile_site / path)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert page.locator("footer.gg-foot").count() == 1
    assert page.locator("h1").count() == 1
    assert page.locator(".gg-scope").count() == 1


def test_hostile_text_is_inert_in_search_results(hostile_site: Path, window: Callable) -> None:
    watched = window(1280)
    page = watched.open(hostile_site / "index.html")
    page.locator(".md-search__input").click()
    page.keyboard.type("script window", delay=5)
    page.locator(".md-search-result__link").first.wait_for(timeout=10000)
    page.wait_for_timeout(200)
    assert page.evaluate("window.hit") is None
    assert page.locator(".md-search-result img, .md-search-result script").count() == 0


def test_hostile_record_file_is_inert(hostile_site: Path, window: Callable, tmp_path: Path) -> None:
    file = tmp_path / "record.json"
    file.write_text(
        '{"guide_gen_record": 1, "build": "other", "toy": "<img src=x onerror=window.hit=1>", '
        '"name": "<img src=x onerror=window.hit=1>"}'
    )
    page = window().open(hostile_site / PAGES[2])
    page.locator("[data-load-file]").set_input_files(file)
    page.locator("[data-said]", has_text="belongs to another list").wait_for()
    assert page.evaluate("window.hit") is None

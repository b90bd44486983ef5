"""Charts, look-up table and budget in a browser: one lay-out at a time, named, nothing on top of anything."""

from collections.abc import Callable
from pathlib import Path

import pytest

TOYS = ["builds/night-ferry/bow-shaker.html", "builds/night-ferry/vent.html", "builds/salt-shed/keel-shaker.html"]
OVERLAPS = """() => [...document.querySelectorAll('svg.chart')].filter(one => one.checkVisibility()).flatMap(chart => {
    const texts = [...chart.querySelectorAll('text')].map(one => [one.textContent, one.getBoundingClientRect()])
    const frame = chart.getBoundingClientRect()
    const out = texts.filter(([, a]) => a.left < frame.left - 1 || a.right > frame.right + 1).map(([words]) => words)
    const hit = (a, b) => a.left < b.right && b.left < a.right && a.top + 3 < b.bottom - 3 && b.top + 3 < a.bottom - 3
    texts.forEach(([one, a], place) => texts.slice(place + 1)
        .forEach(([other, b]) => { if (hit(a, b)) out.push(one + ' / ' + other) }))
    return out
})"""


@pytest.mark.parametrize("path", TOYS)
@pytest.mark.parametrize("width", [390, 1280])
def test_no_text_of_a_chart_covers_another_or_leaves_it(site: Path, window: Callable, path: str, width: int) -> None:
    assert window(width).open(site / path).evaluate(OVERLAPS) == []


@pytest.mark.parametrize("path", TOYS)
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_pages_with_charts_and_tables_do_not_scroll_sideways(
    site: Path, window: Callable, path: str, width: int
) -> None:
    page = window(width).open(site / path)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate(
        "width => [...document.querySelectorAll('.gg-table--lookup')]"
        ".every(one => one.getBoundingClientRect().right <= width)",
        width,
    )


@pytest.mark.parametrize(("width", "shown"), [(390, "gg-narrow"), (1280, "gg-wide")])
def test_one_layout_of_a_chart_is_shown_with_a_name_that_is_heard(
    site: Path, window: Callable, width: int, shown: str
) -> None:
    page = window(width).open(site / TOYS[0])
    found = page.eval_on_selector_all(
        "svg.chart",
        """all => all.filter(one => one.checkVisibility()).map(one => [one.parentElement.className,
             one.getAttribute('role'), one.getAttribute('aria-labelledby').split(' ').every(id =>
             (document.getElementById(id)?.textContent ?? '') !== '')])""",
    )
    assert found
    assert all(shown in classes and role == "img" and named for classes, role, named in found)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_charts_are_drawn_in_the_ink_of_the_page(site: Path, window: Callable, scheme: str) -> None:
    page = window(1280, color_scheme=scheme).open(site / TOYS[0])
    ink = page.evaluate("getComputedStyle(document.querySelector('.gg-sheet svg.chart')).color")
    halo = page.evaluate("getComputedStyle(document.querySelector('svg.chart text.halo')).stroke")
    text = page.evaluate("getComputedStyle(document.querySelector('h1')).color")
    paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert (ink, halo) == (text, paper)

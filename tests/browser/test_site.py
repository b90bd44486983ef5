"""The demo opened from the disk: whole, alone, findable, and fit for a phone."""

import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import unquote, urldefrag, urljoin

import pytest

PAGES = [
    "index.html",
    "legend.html",
    "describe.html",
    "builds/night-ferry/index.html",
    "builds/night-ferry/bow-shaker.html",
    "builds/salt-shed/keel-shaker.html",
]
TOY = "builds/night-ferry/bow-shaker.html"


@pytest.mark.parametrize("path", PAGES)
def test_page_loads_nothing_from_elsewhere_and_complains_of_nothing(site: Path, window: Callable, path: str) -> None:
    watched = window()
    watched.open(site / path)
    assert watched.messages == []
    assert watched.foreign == []
    assert any("guide.css" in url for url in watched.requests)


def test_styles_and_fonts_come_along(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    assert page.evaluate("document.fonts.check('16px \"Atkinson Hyperlegible Next\"')")
    assert "Atkinson" in page.evaluate("getComputedStyle(document.body).fontFamily")


def test_search_finds_a_toy_from_the_disk(site: Path, window: Callable) -> None:
    watched = window(1280)
    page = watched.open(site / "index.html")
    page.locator(".md-search__input").click()
    page.keyboard.type("unbalance eccentric weight shaker", delay=5)
    hit = page.locator(".md-search-result__link", has_text="shaker").first
    hit.wait_for(timeout=10000)
    assert "builds/" in (hit.get_attribute("href") or "")
    assert watched.foreign == []


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_page_does_not_scroll_sideways(site: Path, window: Callable, path: str, width: int) -> None:
    page = window(width).open(site / path)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_everything_to_touch_is_large_enough(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    small = page.evaluate(
        """() => [...document.querySelectorAll(
             '.step__tick, .step__field input, .gg-button, .gg-next__all, .gg-turn a, .gg-record input, textarea')]
           .filter(one => one.type !== 'file' && (one.offsetParent !== null || one.closest('.gg-next')))
           .filter(one => one.getBoundingClientRect().height < 44 || one.getBoundingClientRect().width < 44)
           .map(one => one.outerHTML.slice(0, 80))"""
    )
    assert small == []


def test_drawer_links_are_large_enough(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    page.locator("label.md-header__button[for=__drawer]").click()
    heights = page.eval_on_selector_all(
        ".gg-nav__list a", "links => links.map(link => link.getBoundingClientRect().height)"
    )
    assert heights
    assert min(heights) >= 44


def test_navigation_stays_in_its_build(site: Path) -> None:
    nav = re.search(r'<nav class="md-nav md-nav--primary.*?</nav>', (site / TOY).read_text(encoding="utf-8"), re.DOTALL)
    assert nav
    assert "bow-shaker.html" in nav[0]
    assert "salt-shed" not in nav[0]


def test_no_link_and_no_anchor_is_dead(site: Path) -> None:
    ids: dict[str, set[str]] = {}
    for file in site.rglob("*.html"):
        ids[file.as_uri()] = set(re.findall(r'\sid="?([^"\s>]+)"?', file.read_text(encoding="utf-8")))
    dead = []
    for file in site.rglob("*.html"):
        if file.name == "404.html":
            continue  # its addresses begin at the root of a server
        for link in re.findall(
            r'<(?:a|link|script|img)[^>]*?\s(?:href|src)="([^"]+)"', file.read_text(encoding="utf-8")
        ):
            target, anchor = urldefrag(urljoin(file.as_uri(), link))
            if not target.startswith("file:") or link.startswith("javascript:"):
                continue
            there = Path(unquote(target.removeprefix("file://")))
            if not there.exists() or (anchor and target in ids and unquote(anchor) not in ids[target] | {"__comments"}):
                dead.append((file.name, link))
    assert dead == []


def test_no_description_is_published(site: Path) -> None:
    assert not [
        path for path in site.rglob("*") if path.suffix in {".yaml", ".yml"} or path.name == "build.schema.json"
    ]


def test_every_vendored_file_has_its_licence_beside_it(site: Path) -> None:
    assets = site / "assets"
    fonts = [path.name.split("-latin")[0].split("-math")[0] for path in (assets / "fonts").glob("*.woff2")]
    assert len(fonts) == 3
    assert all((assets / "fonts" / f"{font}.OFL.txt").is_file() for font in fonts)
    assert (assets / "vendor" / "iframe-worker.LICENSE.txt").is_file()


def test_drawing_is_shown_in_one_layout_at_a_time(site: Path, window: Callable) -> None:
    for width, shown in ((390, ".gg-narrow"), (1280, ".gg-wide")):
        page = window(width).open(site / TOY)
        visible = page.eval_on_selector_all(
            "#fig-circuit .gg-sheet", "all => all.filter(one => one.offsetParent).map(one => one.className)"
        )
        assert len(visible) == 1
        assert shown.removeprefix(".") in visible[0]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_of_steps_has_contrast_of_seven(site: Path, window: Callable, scheme: str) -> None:
    """WCAG 2.2, 1.4.6: the contrast ratio (L1 + 0.05) / (L2 + 0.05) with relative luminance."""
    page = window(390, color_scheme=scheme).open(site / TOY)
    colour, ground = page.evaluate(
        """() => [getComputedStyle(document.querySelector('.step__text')).color,
                  getComputedStyle(document.body).getPropertyValue('--gg-paper')]"""
    )
    first, second = sorted((luminance(channels(colour)), luminance(channels(ground))), reverse=True)
    assert (first + 0.05) / (second + 0.05) >= 7


def channels(colour: str) -> list[int]:
    if colour.strip().startswith("#"):
        digits = colour.strip()[1:]
        digits = "".join(digit * 2 for digit in digits) if len(digits) == 3 else digits
        return [int(digits[at : at + 2], 16) for at in (0, 2, 4)]
    return [int(part) for part in re.findall(r"\d+", colour)[:3]]


def luminance(parts: list[int]) -> float:
    linear = [part / 255 / 12.92 if part / 255 <= 0.04045 else ((part / 255 + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

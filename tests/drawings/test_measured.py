"""The estimated widths held against those of a browser, with whatever faces the machine has."""

import sys
from itertools import combinations
from pathlib import Path

from playwright.sync_api import Browser

from guide_gen.drawings.circuit import circuit_svg

sys.path.insert(0, str(Path(__file__).parent))
from circuit_samples import SAMPLES

MEASURE = """() => [...document.querySelectorAll('svg')].map(svg => {
  const box = svg.getBoundingClientRect();
  return {wide: box.width, high: box.height, texts: [...svg.querySelectorAll('text')].map(text => {
    const it = text.getBoundingClientRect(), size = parseFloat(text.getAttribute('font-size'));
    const base = parseFloat(text.getAttribute('y'));
    return [text.textContent, it.left - box.left, base - 0.75 * size, it.right - box.left, base];
  })};
})"""


def test_no_text_overlaps_another_or_leaves_its_drawing_in_a_browser(browser: Browser) -> None:
    drawings = [
        circuit_svg(it.circuit(), name=f"{name}-{narrow}", title=name, desc=name, narrow=narrow)
        for name, it in SAMPLES.items()
        for narrow in (False, True)
    ]
    page = browser.new_page()
    page.set_content("".join(drawings))
    measured = page.evaluate(MEASURE)
    page.close()
    assert len(measured) == len(drawings)
    for drawing in measured:
        for words, left, top, right, bottom in drawing["texts"]:
            assert left >= 0, words
            assert top >= 0, words
            assert right <= drawing["wide"], words
            assert bottom <= drawing["high"], words
        for one, other in combinations(drawing["texts"], 2):
            apart = one[3] <= other[1] or other[3] <= one[1] or one[4] <= other[2] or other[4] <= one[2]
            assert apart, (one, other)

"""The drawing of a log: whole, legible, readable when it is opened alone."""

import re
import sys
from math import pi
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from guide_gen.drawings.axes import overlap
from guide_gen.drawings.shaken import HEIGHT, WIDTH, draw, shaken_svg
from guide_gen.planning.shaken import shaken
from guide_gen.published.vibration import vibration_class

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import log, push, pushed, rubbing, tone

SVG = "{http://www.w3.org/2000/svg}"
LINES = [(6.02, 1.0), (12.04, 0.3), (18.06, 0.05)]
RECORDS = {
    "running": log(lambda time: sum(a * np.sin(2 * pi * f * time) for f, a in LINES)),
    "slow": log(tone(1.2, 0.5)),
    "over": log(tone(30, 6), rate=200),
    "strong": log(tone(6, 15)),
    "clipped": log(tone(30, 60), clip=19.6),
    "gaps": log(tone(), drop=(6.0, 7.5)),
    "second line": log(lambda time: 0.25 * np.sin(2 * pi * 2.4 * time) + 0.9 * np.sin(2 * pi * 4.8 * time + 1)),
    "still before and after": log(lambda time: tone()(time) * (abs(time - 10) < 5)),
    "push": log(push()),
    "pushes": log(pushed(3, 8, 14)),
    "friction": log(rubbing()),
    "hardly damped": log(push(3.1, 0.01)),
}


@pytest.fixture(params=RECORDS, scope="module")
def read(request):
    """Each record, read."""
    return shaken(RECORDS[request.param], vibration_class("3M2"))


def test_it_is_well_formed_and_says_what_it_shows(read):
    root = ElementTree.fromstring(shaken_svg(read))
    assert root.get("role") == "img"
    named = {element.get("id"): element.text for element in root if element.get("id")}
    title, desc = (named[ident] for ident in root.get("aria-labelledby").split())
    assert re.search(r"\d Hz", title.replace("\u00a0", " "))
    assert read.found.verdict.replace("\u00a0", " ") in desc.replace("\u00a0", " ")


def test_it_is_readable_alone(read):
    """A light ground first, one ink, nothing that only a page's style sheet knows."""
    svg = shaken_svg(read)
    root = ElementTree.fromstring(svg)
    first = next(element for element in root.iter() if element.tag in {f"{SVG}rect", f"{SVG}path"})
    assert (first.get("width"), first.get("height"), first.get("fill")) == (str(WIDTH), str(HEIGHT), "#fff")
    assert root.get("color")
    assert "var(" not in svg
    assert not re.search(r"https?://(?!www\.w3\.org)", svg)
    assert "<script" not in svg


def test_no_text_stands_on_another_or_leaves_the_sheet(read):
    texts = draw(read, "log").texts
    for place, one in enumerate(texts):
        left, top, right, bottom = one.box
        assert min(left, top) >= 0, one
        assert right <= WIDTH, one
        assert bottom <= HEIGHT, one
        assert not any(overlap(one.box, other.box) for other in texts[place + 1 :]), one


def test_nothing_is_drawn_beyond_the_sheet(read):
    for path in ElementTree.fromstring(shaken_svg(read)).iter(f"{SVG}path"):
        numbers = [float(number) for number in re.findall(r"-?[\d.]+", path.get("d"))]
        assert all(0 <= x <= WIDTH for x in numbers[::2])
        assert all(0 <= y <= HEIGHT for y in numbers[1::2])


def words(case):
    """All rows of text of a record's drawing."""
    return {
        one.words.replace("\u00a0", " ") for one in draw(shaken(RECORDS[case], vibration_class("3M2")), "log").texts
    }


def test_lines_limit_and_shares_are_named():
    found = words("running")
    assert {"line 1, 6.02 Hz", "line 2, 12 Hz", "line 3, 18.1 Hz", "limit 3M2", "47 % of the limit"} <= found
    assert not any(row.startswith("line 4") for row in found)


def test_a_clipped_record_shows_its_strength_as_the_least():
    """As the verdict and the table say it; what is doubtful stands in the description."""
    assert any(row.startswith("at least ") and row.endswith(" % of the limit") for row in words("clipped"))
    assert not any(row.startswith("at least ") for row in words("running"))
    assert "Careful: The strongest samples all have the same value" in shaken_svg(
        shaken(RECORDS["clipped"], vibration_class("3M2"))
    )


def test_the_part_that_was_used_is_marked():
    assert "used" in words("still before and after")
    assert "used" not in words("running")


def test_a_push_shows_its_frequency_and_how_it_fades():
    assert {"natural frequency, 4.7 Hz", "4.5 % damping"} <= words("push")
    assert not any("damping" in row for row in words("friction"))


def test_a_name_becomes_part_of_the_ids():
    svg = shaken_svg(shaken(RECORDS["push"], vibration_class("3M2")), name="bow")
    assert 'id="bow-t"' in svg

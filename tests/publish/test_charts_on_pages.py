"""Charts, look-up table, questions and the supply's budget on the pages: there when there is something to show."""

import re
from dataclasses import replace
from html import unescape

import markdown
import pytest

from guide_gen.model.plan import (
    Branch,
    Budget,
    Compared,
    Lookup,
    LookupRow,
    Motion,
    MotionBand,
    MotionPoint,
    Protection,
    Question,
)
from guide_gen.publish import pages as writer
from guide_gen.publish.pages import pages

TOY, BUILD = "builds/night-ferry/bow-shaker.md", "builds/night-ferry/index.md"
FEED = Protection(
    "M1", "F1", ("W11", "W12"), "T1", (5.0, 6.0), None, 0.0, None, 10.0, 11.0, 13.5, ((13.5, 0.75), (60.0, 0.02)),
    ((13.5, 600.0), (60.0, 0.1)), "1.5 mm²", 10.5, ((77.0, 5.0), (172.0, 1.0)), 24.0, 24.0, 2.4, True, "fuse",
    "F1 opens in time.", ("The 6 A of M1 never open F1.",),
)  # fmt: skip
TABLE = Lookup(
    "blade",
    (1.0, 2.0),
    (
        LookupRow(5.0, 7.5, ("1 mm²", "1.5 mm²")),
        LookupRow(6.0, 10.0, ("1.5 mm²", "2.5 mm²"), here=True),
        LookupRow(20.0, 30.0, ("10 mm²", ""), beyond=("above this port",)),
    ),
)
MOTION = Motion(
    (0.01, 0.02), (0.054, 0.078), 0.065, (0.04, 0.05), 0.05, 0.004, 0.25, 0.24,
    (MotionBand("buzz", 0.0, 0.065), MotionBand("sway", 0.065, 1.0)),
    (MotionPoint(0.065, "turns", 4.0, 3.0, 5.0, 0.1, 1e-4, 0.1),
     MotionPoint(0.2, "turns", 9.0, 8.0, 11.0, 0.4, 1e-4, 0.4)),
    "Turns over between 5.4 % and 7.8 %.", ("Nothing moves below 1 %.",),
    helps="the winding's resistance", compared=(Compared("turning frequency", "5 Hz", "4 to 6 Hz", True),),
)  # fmt: skip
ASKED = (
    Question("fuse-size", "Why 10 A?", "M1 needs 9 A.", "w-fuse"),
    Question("drop", "How much is lost?", "0.57 V."),
)


@pytest.fixture(autouse=True)
def drawing(monkeypatch: pytest.MonkeyPatch) -> None:
    """The circuit is not what is looked at here."""
    monkeypatch.setattr(writer, "circuit_svg", lambda circuit, *, narrow, **rest: '<svg class="drawing"></svg>')


def html_of(site: dict[str, str], path: str) -> str:
    return markdown.markdown(site[path].split("\n---\n", 1)[1], extensions=["attr_list", "tables", "toc"])


def text_of(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).replace("\u00a0", " ").split())


@pytest.fixture
def full(with_toy):
    """The page of a toy that has everything."""
    return html_of(pages([with_toy(protection=FEED, lookup=TABLE, motion=MOTION, questions=ASKED)]), TOY)


def test_without_data_nothing_of_it_is_shown(plan):
    html = html_of(pages([plan]), TOY)
    for ident in ("fig-protection", "fig-tuning", "fig-scale", "look-up", "questions"):
        assert f'id="{ident}"' not in html


def test_protection_stands_in_section_12_with_its_sentences(full):
    section = full.split('id="worked"')[1]
    assert 'id="fig-protection"' in section
    assert "F1 opens in time. The 6 A of M1 never open F1 ." in text_of(section)
    assert section.count('class="drawing chart"') == 2


def test_tuning_chart_stands_before_the_tuning_steps(full):
    section = full.split('id="tuning"')[1].split('id="play"')[0]
    assert section.index('id="fig-tuning"') < section.index("data-step=")
    said = text_of(section)
    assert "Nothing moves below 1 %." in said
    assert "Would narrow it most" in said
    assert "4 to 6 Hz" in said


def test_setting_scale_stands_under_the_values(full):
    assert full.index("gg-values") < full.index('id="fig-scale"') < full.index('id="cautions"')


def test_tuning_chart_is_held_back_with_the_steps(with_toy, must_fix):
    html = html_of(pages([with_toy(motion=MOTION, findings=(must_fix,))]), TOY)
    assert 'id="fig-tuning"' not in html
    assert 'href="#fig-tuning"' not in html


def test_look_up_table_stands_with_what_is_needed(full):
    table = full.split('id="look-up"')[1].split("</table>")[0]
    assert full.index('id="needed"') < full.index('id="look-up"') < full.index('id="mounting"')
    rows = [text_of(row) for row in re.findall(r"<tr.*?</tr>", table, re.DOTALL)]
    assert rows[1:] == [
        "1 m 2 m",
        "5 A 7.5 A 1 1.5",
        "6 A this toy 10 A 1.5 2.5",
        "20 A above this port 30 A 10 –",
    ]


def test_a_question_links_only_to_what_is_on_the_page(full):
    section = full.split('id="questions"')[1]
    assert "M1 needs 9 A." in text_of(section)
    links = re.findall(r'href="#([^"]+)"', section.split("</dl>")[0])
    assert links == ["w-fuse"]
    assert all(f'id="{link}"' in full for link in links)


def test_no_id_stands_twice_and_all_charts_have_names(full):
    ids = re.findall(r'\bid="([^"]+)"', full)
    assert len(ids) == len(set(ids))
    for charts in re.findall(r"<svg[^>]*class=\"drawing chart\"[^>]*>", full):
        assert 'role="img"' in charts
        assert all(ident in ids for ident in re.search(r'aria-labelledby="([^"]+)"', charts)[1].split())


@pytest.mark.parametrize(("headroom", "said"), [(35.54, "35.5 % of 20 A"), (0.0, "0 % of 20 A"),
                                                (-4.2, "none: overloaded")])  # fmt: skip
def test_what_a_supply_keeps_free_says_of_what_or_that_there_is_none(plan, headroom, said):
    supplies = {"main": replace(plan.supplies["main"], headroom_percent=headroom)}
    text = text_of(html_of(pages([replace(plan, supplies=supplies)]), BUILD))
    assert f"Kept free {said}" in text
    assert "\u22124" not in text


def test_supply_as_a_whole_stands_on_the_page_of_the_build(plan):
    budget = Budget(
        (Branch("bow-shaker", "Bow shaker", "F1", 10.0, "1.5 mm²", 10.5, (5.0, 6.0), None, "supply"),),
        17.0, 16.0, 0.85, 17.0, "", ("Bow shaker",), 21.25, 25.0, True, ("It restarts.",), ("Measure it.",), (), (),
        gives_A=20.0,
    )  # fmt: skip
    supplies = {"main": replace(plan.supplies["main"], budget=budget)}
    text = text_of(html_of(pages([replace(plan, supplies=supplies)]), BUILD))
    for words in (
        "Bow shaker F1 10 A",
        "not known",
        "the supply",
        "85 % of 20 A used",
        "buy 25 A",
        "It restarts.",
        "Measure it.",
    ):
        assert words in text

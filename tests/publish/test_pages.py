"""What every page must hold, whatever the build."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser

import markdown
import pytest
import yaml

from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Caution, Word
from guide_gen.model.plan import Plan
from guide_gen.planning.cautions import SCOPE
from guide_gen.publish import pages as writer
from guide_gen.publish.keys import KeyRow, Left
from guide_gen.publish.pages import navigation, pages, running_feet, step_revision

TOY = "builds/night-ferry/bow-shaker.md"
HOSTILE = (
    "</p></div><script>alert(1)</script>\n\n## x \"' onload=alert(1) [a](javascript:alert(1)) {{7*7}} "
    "<img src=x onerror=alert(1)>"
)


@pytest.fixture(autouse=True)
def drawing(monkeypatch: pytest.MonkeyPatch) -> None:
    """A drawing is not what is looked at here."""
    monkeypatch.setattr(
        writer, "circuit_svg", lambda circuit, *, narrow, **rest: f'<svg class="drawing {narrow}"></svg>'
    )


class Outline(HTMLParser):
    """Tags in order, and whether they close as they opened."""

    VOID = frozenset({"input", "br", "img", "meta", "link", "wbr"})

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)


def html_of(page: str) -> str:
    body = page.split("\n---\n", 1)[1]
    return markdown.markdown(body, extensions=["attr_list", "tables", "toc"])


def outline(html: str) -> Outline:
    parsed = Outline()
    parsed.feed(html)
    parsed.close()
    return parsed


def text_of(html: str) -> str:
    """What is read, with plain spaces."""
    return unescape(re.sub(r"<[^>]+>", " ", html)).replace("\u00a0", " ")


def toy_page(plan: Plan) -> str:
    return html_of(pages([plan])[TOY])


def test_sections_stand_in_their_order(plan: Plan) -> None:
    headings = re.findall(r'<h2 id="([a-z]+)">', toy_page(plan))
    assert headings == [
        "cautions",
        "circuit",
        "needed",
        "mounting",
        "wiring",
        "checks",
        "tuning",
        "play",
        "wrong",
        "after",
        "worked",
        "record",
    ]


@pytest.mark.parametrize("path", ["index.md", "legend.md", "describe.md", "builds/night-ferry/index.md", TOY])
def test_every_tag_is_closed_where_it_opened(plan: Plan, path: str) -> None:
    parsed = outline(html_of(pages([plan])[path]))
    assert (parsed.wrong, parsed.open) == ([], [])


@pytest.mark.parametrize("path", ["index.md", "legend.md", "describe.md", "builds/night-ferry/index.md", TOY])
def test_no_id_stands_twice(plan: Plan, path: str) -> None:
    ids = [attributes["id"] for _, attributes in outline(html_of(pages([plan])[path])).tags if "id" in attributes]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("path", ["index.md", "legend.md", "builds/night-ferry/index.md", TOY])
def test_scope_and_deference_stand_on_every_page_of_a_build(plan: Plan, path: str) -> None:
    assert SCOPE in text_of(html_of(pages([plan])[path]))


def test_scope_stands_on_a_toy_that_must_be_fixed(with_toy: Callable[..., Plan], must_fix: Finding) -> None:
    assert SCOPE in text_of(toy_page(with_toy(findings=(must_fix,))))


def test_grouped_cautions_stand_before_the_circuit_worst_first(plan: Plan) -> None:
    head = toy_page(plan).split('id="circuit"')[0]
    words = re.findall(r"<span>(DANGER|WARNING|CAUTION|NOTICE)</span>", head)
    assert words == sorted(words, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)
    assert words[0] == "DANGER"


def test_embedded_caution_stands_before_its_step(plan: Plan) -> None:
    html = toy_page(plan)
    step = html.index('data-step="shaker.mount.screws"')
    caution = html.index('data-caution="bolts-walk-out"')
    assert html.index('id="s-shaker.mount.screws"') < caution < step


def test_caution_that_no_step_carries_stands_at_the_head(with_toy: Callable[..., Plan]) -> None:
    lost = Caution(
        "lost", Word.CAUTION, "Nobody carries this.", "It would be lost.", ("Look.",), before=("no.such.step",)
    )
    assert 'data-caution="lost"' in toy_page(with_toy(cautions=(lost,))).split('id="circuit"')[0]


def test_caution_of_a_hidden_step_stands_at_the_head(with_toy: Callable[..., Plan], must_fix: Finding) -> None:
    hidden = Caution(
        "hidden", Word.WARNING, "Before a hidden step.", "Still true.", ("Look.",), before=("toy.first.spin",)
    )
    html = toy_page(with_toy(cautions=(hidden,), findings=(must_fix,)))
    assert 'data-caution="hidden"' in html.split('id="circuit"')[0]


def test_triangle_stands_only_beside_words_of_injury(plan: Plan) -> None:
    html = toy_page(plan) + html_of(pages([plan])["legend.md"])
    for message in re.findall(r'<p class="gg-signal__word".*?</p>', html, re.DOTALL):
        assert ("<svg" in message) == ("NOTICE" not in message)


def test_must_fix_opens_the_page_and_holds_steps_back(with_toy: Callable[..., Plan], must_fix: Finding) -> None:
    html = toy_page(with_toy(findings=(must_fix,)))
    assert text_of(html).index(must_fix.mend) < text_of(html).index("Something goes wrong now?")
    assert html.index("gg-finding--must") < html.index("gg-values")
    shown = set(re.findall(r'data-step="([a-z.-]+)"', html))
    assert {step.split(".")[1] for step in shown} == {"mount", "after", "yearly"}
    assert html.count("These steps appear when it is mended") == 4


def test_no_finding_hides_the_emergency_block(with_toy: Callable[..., Plan], must_fix: Finding) -> None:
    assert "Pull the plug." in text_of(toy_page(with_toy(findings=(must_fix,))).split('id="wrong"')[1])


def test_should_fix_stands_at_the_head_and_beside_the_circuit(plan: Plan) -> None:
    head, circuit = toy_page(plan).split('id="circuit"')
    assert "The drop is 5.2" in head
    assert "The drop is 5.2" in circuit.split('id="needed"')[0]


def test_every_step_is_shown_once_with_its_revision(plan: Plan) -> None:
    steps = re.findall(r'data-step="([a-z0-9.-]+)"[^>]*data-revision="([0-9a-f]{10})"', toy_page(plan))
    toy = plan.toys["bow-shaker"]
    assert sorted(steps) == sorted((step.id, step_revision(step)) for step in toy.steps)


def test_revision_follows_what_is_asked_for_only(plan: Plan) -> None:
    step = plan.toys["bow-shaker"].steps[0]
    assert step_revision(step) == step_revision(replace(step, short="other", killer=True))
    assert step_revision(step) != step_revision(replace(step, text="Something else."))


def test_revision_follows_the_expected_reading(plan: Plan) -> None:
    step = next(step for step in plan.toys["bow-shaker"].steps if step.record)
    assert step.record is not None
    assert step_revision(step) != step_revision(replace(step, record=replace(step.record, high=99.0)))


def test_every_reading_has_a_label_and_its_verdict(plan: Plan) -> None:
    tags = outline(toy_page(plan)).tags
    labelled = {attributes.get("for") for tag, attributes in tags if tag == "label"}
    ids = {attributes.get("id") for _, attributes in tags}
    fields = [attributes for tag, attributes in tags if tag == "input" and "data-reading" in attributes]
    assert len(fields) == 5
    assert all(field["id"] in labelled and field["aria-describedby"] in ids for field in fields)


def test_every_worked_value_is_shown_with_its_source(plan: Plan) -> None:
    worked = text_of(toy_page(plan).split('id="worked"')[1]).replace("\u00a0", " ")
    for item in plan.toys["bow-shaker"].worked:
        assert item.name in worked
        assert item.source in worked
    assert "10 A" in worked


def test_wire_list_has_every_wire_with_both_ends(plan: Plan) -> None:
    table = text_of(toy_page(plan).split("Wire list")[1].split("</table>")[0])
    for wire in plan.toys["bow-shaker"].sized.circuit.wires:
        assert all(part in table for part in (wire.id, wire.start, wire.end, wire.colour))


def test_home_and_overview_list_builds_and_toys(plan: Plan) -> None:
    site = pages([plan])
    assert 'href="builds/night-ferry/index.html"' in site["index.md"]
    assert 'href="bow-shaker.html"' in site["builds/night-ferry/index.md"]


def test_site_without_builds_is_whole() -> None:
    assert set(pages([])) == {"index.md", "legend.md", "describe.md"}


def test_problems_stand_on_the_home_page(must_fix: Finding) -> None:
    assert must_fix.message in text_of(html_of(pages([], problems=[must_fix])["index.md"]))


def test_keys_stand_in_tables_of_their_group() -> None:
    row = KeyRow("wiring", "wiring.drop_limit", "largest drop", "%", Left.DEFAULT, "5 % (estimate)", "5 %")
    text = text_of(html_of(pages([], [row])["describe.md"]).replace("<wbr>", ""))
    assert "wiring.drop_limit" in text
    assert "5 % (estimate)" in text


def test_smallest_file_keeps_its_lines(plan: Plan) -> None:
    block = html_of(pages([plan])["describe.md"]).split("<pre")[1].split("</pre>")[0]
    assert "\n  bump:\n    kind: shaker motor\n" in unescape(block)


def test_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    assert pages([plan]) == pages([plan])


def test_navigation_names_only_its_own_build(plan: Plan) -> None:
    other = replace(plan, slug="other", name="Other")
    assert "other" not in json.dumps(navigation([plan, other])["night-ferry"])


def hostile(plan: Plan) -> Plan:
    toy = plan.toys["bow-shaker"]
    sized = replace(toy.sized, name=HOSTILE)
    toy = replace(
        toy,
        name=HOSTILE,
        sized=sized,
        findings=tuple(replace(f, message=HOSTILE, mend=HOSTILE) for f in toy.findings),
        disposal=HOSTILE,
        play_notes=(HOSTILE,),
        needs=(replace(toy.needs[0], what=HOSTILE, note=HOSTILE),),
        values=tuple(replace(v, note=HOSTILE) for v in toy.values),
    )
    return replace(
        plan,
        name=HOSTILE,
        summary=HOSTILE,
        revision=HOSTILE,
        date=HOSTILE,
        author=HOSTILE,
        licence=HOSTILE,
        toys={"bow-shaker": toy},
    )


@pytest.mark.parametrize("path", ["index.md", "builds/night-ferry/index.md", TOY])
def test_hostile_text_adds_no_tag_and_no_handler(plan: Plan, path: str) -> None:
    page = pages([hostile(plan)])[path]
    parsed = outline(html_of(page))
    assert (parsed.wrong, parsed.open) == ([], [])
    assert not {tag for tag, _ in parsed.tags} & {"script", "img", "iframe", "style"}
    assert not any(name.startswith("on") for _, attributes in parsed.tags for name in attributes)
    assert not any("javascript" in (attributes.get("href") or "") for _, attributes in parsed.tags)
    assert "alert(1)" in text_of(html_of(page))


def test_hostile_text_leaves_the_headings_alone(plan: Plan) -> None:
    assert re.findall(r"<h2[^>]*>", toy_page(hostile(plan))) == re.findall(r"<h2[^>]*>", toy_page(plan))


def test_hostile_title_stays_one_line_of_front_matter(plan: Plan) -> None:
    head = pages([hostile(plan)])[TOY].split("\n---\n", 1)[0].removeprefix("---\n")
    meta = yaml.safe_load(head)
    assert set(meta) == {"title", "build", "toy"}
    assert "<" not in meta["title"]


def test_hostile_name_cannot_leave_the_style_sheet(plan: Plan) -> None:
    sheet = running_feet(hostile(plan))
    assert sheet.count("@page") == 2
    assert sheet.count("{") == sheet.count("}") == 6
    assert "<" not in sheet


def test_levels_are_told_apart_by_word(with_toy: Callable[..., Plan], must_fix: Finding) -> None:
    html = toy_page(with_toy(findings=tuple(replace(must_fix, level=level) for level in Level)))
    for level in Level:
        assert f'<p class="gg-finding__level">{level.value}</p>' in html


def test_finding_of_a_supply_stands_beside_that_supply(plan_of):
    """Once at the top of the build's page, once where the supply is told of."""
    plan = plan_of({"supplies.main.current": "2.4 A"}).plan
    page = next(text for path, text in pages([plan]).items() if path.endswith("tidepool/index.md"))
    supplies = page.split("{#supplies}")[1].split("{#boards}")[0]
    assert "gg-finding--again" in supplies
    assert "less than a fifth" in supplies

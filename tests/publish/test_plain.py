"""Text from strangers never becomes markup: checked with Python's own HTML parser and with Python-Markdown."""

from html.parser import HTMLParser

import markdown
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from guide_gen.publish.plain import css_string, paragraphs, plain, preformatted

HOSTILE = [
    "<script>alert(1)</script>",
    '" onmouseover="alert(1)',
    "' onload='x",
    "</p></div><h1>Big</h1>",
    "[a](javascript:alert(1))",
    "![x](https://example.org/x.png)",
    "# heading",
    "**bold** _it_ `code`",
    "{{ 7 * 7 }} {% raw %}",
    "&lt;b&gt;",
    "--> <!-- x",
    "line\n\n<b>two</b>",
    "line\r\n---\r\nnext",
    "{: onclick=alert(1) }",
    "\\<b>",
    "]]>",
    "\x00\x1b[31m",
    "1\u202egpj.exe",
]


class Words(HTMLParser):
    """What a browser would show, and the tags it would see."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


def read(html: str) -> Words:
    words = Words()
    words.feed(html)
    words.close()
    return words


@given(st.text())
def test_any_text_stays_text_in_html(text: str) -> None:
    words = read(f"<p>{plain(text)}</p>")
    assert words.tags == ["p"]


@given(st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z"))))
def test_visible_signs_all_arrive(text: str) -> None:
    assert read(f"<p>{plain(text)}</p>").text == text


@given(st.one_of(st.sampled_from(HOSTILE), st.text()))
def test_any_text_stays_text_in_an_attribute(text: str) -> None:
    words = read(f'<i title="{plain(text)}">x</i>')
    assert (words.tags, words.text) == (["i"], "x")


@given(st.one_of(st.sampled_from(HOSTILE), st.text()))
def test_no_text_begins_a_line_of_its_own(text: str) -> None:
    assert len(str(plain(text)).splitlines()) <= 1


@given(st.sampled_from(HOSTILE))
def test_markdown_leaves_hostile_text_alone(text: str) -> None:
    html = markdown.markdown(f"before {plain(text)} after", extensions=["attr_list", "tables", "toc"])
    assert read(html).tags == ["p"]


def test_our_own_markup_passes() -> None:
    assert plain(Markup("<b>x</b>")) == "<b>x</b>"


def test_number_keeps_its_unit_beside_it() -> None:
    assert plain("run 1.8 m of 1.5 mm² at 12 V") == "run 1.8\u00a0m of 1.5\u00a0mm² at 12\u00a0V"


def test_signs_that_turn_the_reading_direction_go() -> None:
    assert plain("a\u202eb\u2066c") == "abc"


def test_empty_line_begins_a_paragraph() -> None:
    assert paragraphs("one\nstill one\n \n\ntwo") == ["one\nstill one", "two"]


def test_lines_keep_their_indentation() -> None:
    assert preformatted("a:\n  b: 1\n") == "a:\n&#32;&#32;b: 1"


@given(st.text())
def test_css_string_cannot_be_left(text: str) -> None:
    inside = css_string(text)[1:-1]
    assert not set(inside) & set("\"'\n;{}<>/*")

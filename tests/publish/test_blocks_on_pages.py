"""A distribution block on the page of its build, and on those of the toys behind it."""

import pytest

from guide_gen.publish.keys import key_rows
from guide_gen.publish.pages import pages

CHANGES = {
    "blocks": {"wharf": {"feed": {"run": "2 m"}}},
    "toys.bump.feed.from": "wharf",
    "toys.fan": {
        "kind": "blower fan",
        "voltage": "12 V",
        "current": "1.4 A (measured)",
        "motor_type": "brushless",
        "control": {"type": "always on"},
        "feed": {"run": "0.5 m", "from": "wharf"},
    },
}


@pytest.fixture(scope="module", name="site")
def _site(plan_of):
    return pages([plan_of(CHANGES).plan])


def test_page_of_the_build_shows_the_block_with_its_fuse_leads_and_toys(site):
    """In a section of its own, and in the table of its supply."""
    page = site["builds/tidepool/index.md"].replace("\u00a0", " ")
    section = page.split("## Distribution blocks", 1)[1].split("\n## ", 1)[0]
    for shown in ("X1", "F3", "7.5 A", "W3", "W4", "1.5 mm²", "F1</b> 3 A", "F2</b> 3 A", "fig-block-wharf"):
        assert shown in section
    assert "Block wharf" in page.split("## Distribution blocks", 1)[0]


def test_page_of_a_toy_shows_where_its_fuse_sits(site):
    """Drawing, words and list lead through the block."""
    page = site["builds/tidepool/fan.md"].replace("\u00a0", " ")
    assert "a position of X1" in page
    assert "Why a fuse at the block, and another one at the supply?" in page
    drawing = page.split('id="fig-circuit"', 1)[1].split("</figure>", 1)[0]
    assert all(f">{name}<" in drawing for name in ("X1", "F3", "F2", "W3", "W4"))


def test_keys_of_a_block_stand_in_a_table_of_their_own():
    """With what happens when each is left out."""
    rows = {row.path: row for row in key_rows() if row.group == "blocks: a distribution block"}
    assert rows["blocks.<block>.feed.run"].left == "asked for"
    assert rows["blocks.<block>.feed.wire"].left == "chosen"

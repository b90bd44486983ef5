"""What a gear motor or a blower does stands in its tuning section: a chart where there is something to set."""

import re
from html import unescape

import markdown
import pytest

from guide_gen.publish.pages import pages

GEAR = {
    "reduction": "60",
    "arm_radius": "45 mm",
    "current": "0.5 A to 0.7 A (measured)",
    "motor": {"resistance": "4.2 ohm (measured)", "speed": "4800 rpm (measured)"},
}
FAN = {"current": "1.4 A (measured)", "motor_type": "brushed"}


@pytest.fixture(name="tuning", scope="module")
def _tuning(any_toy):
    """The section on tuning as HTML."""

    def make(kind, control, values):
        case = any_toy(kind, control, {f"toys.bump.{key}": value for key, value in values.items()})
        page = pages([case.plan])["builds/tidepool/bump.md"].split("\n---\n", 1)[1]
        html = markdown.markdown(page, extensions=["attr_list", "tables", "toc"])
        return html.split('id="tuning"')[1].split('id="play"')[0]

    return make


def text_of(html):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).replace("\u00a0", " ").split())


def test_chart_stands_before_the_steps_in_both_layouts(tuning):
    section = tuning("gear motor", "pwm port", GEAR)
    assert section.count('class="drawing chart"') == 2
    assert section.index('id="fig-speed"') < section.index("data-step=")
    said = text_of(section)
    assert "begins to turn between" in said
    assert "Held fast at full strength it draws" in said
    assert "At each setting" in said
    assert "Measure this first" in said
    assert "Would narrow it most" in text_of(tuning("gear motor", "pwm port", GEAR | {"free_current": "0.1 A"}))


def test_no_chart_where_there_is_nothing_to_set(tuning):
    """The supply's ends are told instead."""
    section = tuning("blower fan", "on/off port", FAN)
    assert "fig-speed" not in section
    said = text_of(section)
    assert "At each voltage of the supply" in said
    assert "11.4 V" in said


def test_what_was_found_stands_beside_what_was_predicted(tuning):
    section = tuning("gear motor", "pwm port", GEAR | {"found": {"start": "24 %", "setting": "40 %"}})
    said = text_of(section)
    assert "Predicted and found" in said
    assert "24 %" in said
    assert "as left 40 %" in said


def test_what_was_found_at_full_strength_stands_there_too(tuning):
    said = text_of(tuning("gear motor", "on/off port", GEAR | {"found": {"turning": "0.5 Hz (measured)"}}))
    assert "Predicted and found" in said
    assert "no: see the findings" in said
    shaken = {
        "current": "5 A to 6 A (measured)",
        "motor": {"resistance": "0.32 ohm (measured)", "speed": "2100 rpm (measured)"},
        "found": {"turning": "20 Hz (measured)"},
    }
    said = text_of(tuning("shaker motor", "on/off port", shaken))
    assert "Predicted and found" in said
    assert "no: see the findings" in said


def test_missing_values_leave_a_sentence_and_a_measurement(tuning):
    section = tuning("blower fan", "pwm port", FAN)
    assert "fig-speed" not in section
    said = text_of(section)
    assert "cannot be worked out" in said
    assert "with a multimeter" in said


def test_chopped_electronics_hold_everything_back(tuning):
    """Must be fixed first: nothing of a setting is shown."""
    section = tuning("blower fan", "pwm port", FAN | {"motor_type": "brushless"})
    assert "fig-speed" not in section
    assert "must be fixed" in text_of(section)

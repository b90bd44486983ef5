"""The checklist: what is ticked and written stays, in this browser and in a file; holds hold; changes are told."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

TOY = "builds/night-ferry/bow-shaker.html"


def tick(page: Page, number: int = 0) -> str:
    box = page.locator("input[data-step]:not(:disabled)").nth(number)
    box.check()
    return str(box.get_attribute("data-step"))


def reading(page: Page, number: int = 0) -> str:
    return str(page.locator("input[data-reading]:not(:disabled)").nth(number).get_attribute("id"))


def write(page: Page, field: str, text: str) -> str:
    page.fill(f"[id='{field}']", text)
    page.press(f"[id='{field}']", "Tab")
    return page.inner_text(f"[id='{field}-says']")


def test_tick_and_reading_survive_a_reload(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    step, field = tick(page), reading(page)
    write(page, field, "0,2")
    page.reload()
    assert page.is_checked(f"input[data-step='{step}']")
    assert page.input_value(f"[id='{field}']") == "0,2"
    assert "saved" in page.inner_text("[data-said]")


def test_tick_belongs_to_its_toy(site: Path, window: Callable) -> None:
    watched = window()
    step = tick(watched.open(site / TOY))
    other = watched.open(site / "builds/salt-shed/keel-shaker.html")
    assert not other.is_checked(f"input[data-step='{step}']")


def test_second_window_follows(site: Path, window: Callable) -> None:
    watched = window()
    first, second = watched.open(site / TOY), watched.open(site / TOY)
    step = tick(first)
    second.wait_for_function(f"document.querySelector(\"input[data-step='{step}']\").checked")


def test_step_that_changed_says_so_and_shows_the_old_reading(site: Path, window: Callable, tmp_path: Path) -> None:
    watched = window()
    page = watched.open(site / TOY)
    field = reading(page)
    write(page, field, "0.2")
    step = field.removeprefix("r-")
    page.check(f"input[data-step='{step}']")
    page.route(
        re.compile(r"bow-shaker\.html"),
        lambda route: route.fulfill(
            body=re.sub(
                rf'(data-step="{re.escape(step)}"[^>]*data-revision=")[0-9a-f]+',
                r"\1ffffffffff",
                (site / TOY).read_text(encoding="utf-8"),
            ),
            content_type="text/html",
        ),
    )
    page.reload()
    assert not page.is_checked(f"input[data-step='{step}']")
    note = page.inner_text(f"[id='s-{step}'] .step__changed")
    assert "Changed since you ticked it on 20" in note
    assert "0.2" in note
    assert page.input_value(f"[id='{field}']") == ""


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("0.2", "As expected."),
        ("0,2", "As expected."),
        ("9,5", "Above"),
        ("\u22125", "Below"),
        ("two", "Write one number"),
        ("1.2.3", "Write one number"),
        ("", ""),
    ],
)
def test_reading_is_judged_in_words(site: Path, window: Callable, written: str, says: str) -> None:
    page = window().open(site / TOY)
    field = reading(page)
    verdict = write(page, field, written)
    assert verdict.startswith(says)
    assert ("stop" in verdict) == (says in {"Above", "Below"})
    assert page.get_attribute(f"[id='{field}']", "aria-invalid") == (
        "false" if says in {"", "As expected."} else "true"
    )


def pass_hold(page: Page, hold: str) -> None:
    for box in page.locator(f"[data-hold='{hold}'] input[data-step]").all():
        box.check()


def test_steps_behind_a_hold_open_when_all_of_it_is_confirmed(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    behind = page.locator("[data-hold='dead-checks'] ~ ol.gg-steps input[data-step]").first
    assert behind.is_disabled()
    pass_hold(page, "dead-checks")
    assert behind.is_enabled()


def test_reading_outside_keeps_a_hold_closed(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    pass_hold(page, "dead-checks")
    field = page.locator("[data-hold='dead-checks'] input[data-high]:not([data-high=''])").first
    field.fill("1000000")
    field.press("Tab")
    behind = page.locator("[data-hold='dead-checks'] ~ ol.gg-steps input[data-step]").first
    assert behind.is_disabled()
    assert "A reading there is outside" in page.inner_text(".gg-gate >> nth=0")


def test_who_takes_responsibility_opens_the_steps_and_it_is_written_down(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    page.get_by_role("button", name="I take responsibility").first.click()
    behind = page.locator("[data-hold='dead-checks'] ~ ol.gg-steps input[data-step]").first
    assert behind.is_enabled()
    page.reload()
    assert behind.is_enabled()
    assert "without being confirmed" in page.inner_text("[data-hold='dead-checks']")


def test_start_again_asks_before_it_forgets(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    step = tick(page)
    page.once("dialog", lambda dialog: dialog.dismiss())
    page.click("[data-clear]")
    assert page.is_checked(f"input[data-step='{step}']")
    page.once("dialog", lambda dialog: dialog.accept())
    page.click("[data-clear]")
    page.reload()
    assert not page.is_checked(f"input[data-step='{step}']")


def test_record_goes_into_a_file_and_comes_back(site: Path, window: Callable, tmp_path: Path) -> None:
    page = window().open(site / TOY)
    step, field = tick(page), reading(page)
    write(page, field, "0,2")
    page.fill("#record-by", "tidewatch")
    page.press("#record-by", "Tab")
    with page.expect_download() as download:
        page.click("[data-save-file]")
    file = tmp_path / download.value.suggested_filename
    download.value.save_as(file)
    record = json.loads(file.read_text(encoding="utf-8"))
    assert (record["build"], record["toy"], record["by"]) == ("night-ferry", "bow-shaker", "tidewatch")
    assert [entry["value"] for entry in record["readings"]] == [0.2]
    assert [entry["id"] for entry in record["steps"] if entry["done"]] == [step]

    other = window().open(site / TOY)
    other.locator("[data-load-file]").set_input_files(file)
    other.locator("[data-said]", has_text="File loaded").wait_for()
    other.reload()
    assert other.is_checked(f"input[data-step='{step}']")
    assert other.input_value(f"[id='{field}']") == "0,2"
    assert other.input_value("#record-by") == "tidewatch"


def test_file_that_is_no_record_is_refused_in_words(site: Path, window: Callable, tmp_path: Path) -> None:
    file = tmp_path / "x.json"
    file.write_text("not a record")
    page = window().open(site / TOY)
    page.locator("[data-load-file]").set_input_files(file)
    page.locator("[data-said]", has_text="cannot be read").wait_for()


def test_browser_that_keeps_nothing_is_told(site: Path, window: Callable) -> None:
    watched = window()
    watched.context.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); }")
    page = watched.open(site / TOY)
    tick(page)
    assert "Not saved" in page.inner_text("[data-said]")
    assert "not saved" in page.inner_text(".gg-next")


def test_bar_leads_to_the_next_step(site: Path, window: Callable) -> None:
    page = window().open(site / TOY)
    tick(page)
    second = page.locator("input[data-step]").nth(1)
    page.click(".gg-next__all")
    page.wait_for_function("document.activeElement.matches('input[data-step]')")
    assert page.evaluate("document.activeElement.dataset.step") == second.get_attribute("data-step")
    box = second.bounding_box()
    bar = page.locator(".gg-next").bounding_box()
    assert box
    assert bar
    assert box["y"] + box["height"] <= bar["y"]
    assert bar["y"] > 844 * 2 / 3


def test_list_can_be_ticked_without_script(site: Path, window: Callable) -> None:
    page = window(java_script_enabled=False).open(site / TOY)
    box = page.locator("input[data-step]").last
    box.check()
    assert box.is_checked()
    assert page.locator(".gg-signal").count() > 3

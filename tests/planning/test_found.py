"""The as-left record of a shaker: volts behind a trimmer, settings that cannot be, and the port's limit."""

from math import inf
from pathlib import Path

import pytest

from guide_gen.description.read import read_text
from guide_gen.planning.as_json import motion_json
from guide_gen.publish.pages import pages

ROOT = Path(__file__).parents[2]
BUILDS = ROOT / "content" / "builds"
SHED = (BUILDS / "salt-shed" / "build.yaml").read_text(encoding="utf-8")
FERRY = (BUILDS / "night-ferry" / "build.yaml").read_text(encoding="utf-8")
SET = "found: {setting: 8 %"


def plain(text):
    return text.replace("\u00a0", " ")


@pytest.fixture(name="trimmed", scope="module")
def _trimmed(plan_of):
    """The Salt Shed's shaker behind its trimmer, with what was found of it."""
    head, rest = SHED.split("\n  keel-shaker:\n")

    def planned(found):
        case = plan_of(f"{head}\n  keel-shaker:\n    found: {{{found}}}\n{rest}" if found else SHED)
        return case, case.plan.toys["keel-shaker"]

    return planned


@pytest.fixture(name="ferry", scope="module")
def _ferry(plan_of):
    def planned(found, limit="12 %"):
        text = FERRY.replace(SET, f"found: {{{found}", 1).replace("limit: 12 %", f"limit: {limit}", 1)
        case = plan_of(text)
        return case, case.plan.toys["bow-shaker"]

    return planned


def rows(toy):
    return {one.what: one for one in toy.motion.compared}


def outside(toy):
    return [one for one in toy.findings if one.code == "reading-outside"]


def test_volts_at_the_motor_narrow_the_start_behind_a_trimmer(trimmed):
    """The step records them in V; both ends of the foretold volts belong to both ends of the foretold start."""
    _, before = trimmed("")
    low_V, high_V = before.motion.start_V
    middle_V = (low_V + high_V) / 2
    case, toy = trimmed(f"start: {middle_V:.4f} V")
    row = rows(toy)["begins to turn"]
    assert row.fits
    assert row.found.endswith("V")
    assert row.predicted.endswith("V")
    assert before.motion.start[0] <= toy.motion.start[0] < toy.motion.start[1] <= before.motion.start[1]
    assert toy.motion.start[1] == pytest.approx(sum(before.motion.start) / 2, rel=0.01)
    assert "begins to turn" in toy.motion.narrowed
    assert motion_json(toy.motion)["found"][0]["found"].endswith("V")
    assert case.description.problems == ()


@pytest.mark.parametrize(("times", "fits"), [(0.5, False), (0.999, True), (1.5, False)])
def test_volts_beside_the_foretold_are_told_in_volts(trimmed, times, fits):
    low_V, high_V = trimmed("")[1].motion.start_V
    _, toy = trimmed(f"start: {times * (low_V if times < 0.9 else high_V):.4f} V")
    assert rows(toy)["begins to turn"].fits is fits
    assert bool(outside(toy)) is not fits
    assert all(one.message.count("V ") for one in outside(toy))


def test_volts_while_it_runs_are_the_setting_of_a_turning_frequency(trimmed):
    """A share of the supply's 12 V; the curve then passes through the reading."""
    _, before = trimmed("setting: 6 V")
    point = min(before.motion.curve, key=lambda one: abs(one.setting - 0.5))
    assert before.motion.as_left == pytest.approx(0.5)
    assert plain(rows(before)["as-left setting"].found) == "6 V"
    _, toy = trimmed(f"setting: 6 V, turning: {1.01 * point.turning_Hz:.3f} Hz")
    here = next(one for one in toy.motion.curve if one.setting == pytest.approx(0.5))
    assert rows(toy)["turning frequency"].fits
    assert here.turning_Hz == pytest.approx(1.01 * point.turning_Hz, rel=0.01)
    assert here.turning_low_Hz > point.turning_low_Hz


def test_as_left_volts_stand_on_the_page(trimmed):
    case, _ = trimmed("setting: 6 V, start: 0.9 V")
    text = plain("\n".join(str(page) for name, page in pages([case.plan]).items() if "keel-shaker" in name))
    assert "6 V" in text
    assert "0.9 V" in text or "900 mV" in text


def test_a_frequency_without_setting_asks_for_volts_behind_a_trimmer_and_for_a_setting_elsewhere(trimmed, ferry):
    _, toy = trimmed("trimmer: a quarter turn, turning: 14 Hz")
    assert "voltage at the motor while it runs" in toy.motion.narrowed
    _, port = ferry("turning: 9.5 Hz")
    assert "give that as well." in port.motion.narrowed
    assert "voltage" not in port.motion.narrowed


@pytest.mark.parametrize("key", ["start", "setting"])
@pytest.mark.parametrize("line", ["0.8 V", "{value: 0.8 V, how: by meter}"])
def test_volts_on_a_port_are_refused_at_their_place(key, line):
    text = FERRY.replace(SET, f"found: {{{key}: {line}", 1)
    (problem,) = read_text(text, "content/builds/night-ferry/build.yaml").problems
    assert problem.code == "unit-wrong"
    assert problem.path[-2:] == ("found", key)
    assert "trimmer behind a speed controller" in problem.message
    assert "%" in problem.expected


def test_other_units_name_both_that_may_stand():
    text = FERRY.replace(SET, "found: {start: 3 A", 1)
    (problem,) = read_text(text, "content/builds/night-ferry/build.yaml").problems
    assert problem.code == "unit-wrong"
    assert "%, V or mV" in problem.expected


def test_a_start_at_nothing_is_named_in_percent_and_the_plan_stays(ferry):
    _, without = ferry("sideways_frequency: 4.5 Hz")
    _, toy = ferry("start: 0 %, setting: 0 %, sideways_frequency: 4.5 Hz")
    assert toy.motion.start == without.motion.start
    assert not rows(toy)["begins to turn"].fits
    assert not rows(toy)["as-left setting"].fits
    told = [plain(one.message) for one in outside(toy)]
    assert any("begins to turn: 0 % was found" in one for one in told)
    assert all(one.path[-1] == "found" for one in outside(toy))
    assert not [one for one in toy.findings if "contradict" in one.message]


def test_more_volts_than_the_supply_has_are_named_and_left_aside(trimmed):
    _, toy = trimmed("setting: 20 V")
    assert toy.motion.as_left is None
    assert not rows(toy)["as-left setting"].fits


def test_a_setting_in_use_above_the_port_s_limit_is_told(ferry):
    _, toy = ferry("setting: 40 %")
    (told,) = [one for one in outside(toy) if "was left at" in one.message]
    assert "40 %" in plain(told.message)
    assert "12 %" in plain(told.message)
    assert told.path[-1] == "setting"
    assert not rows(toy)["as-left setting"].fits
    assert not [one for one in outside(ferry("setting: 12 %")[1]) if "was left at" in one.message]


def test_the_row_of_the_setting_in_use_says_begin_to_stop(ferry):
    _, toy = ferry("setting: 9 %", limit="100 %")
    row = rows(toy)["as-left setting"]
    assert "begin to stop" in row.predicted
    assert plain(row.predicted).startswith(f"{100 * toy.motion.begin:g} %")
    assert toy.motion.stop < inf
    assert row.fits
    high = toy.motion.over_top[-1][0] + 0.01
    _, there = ferry(f"setting: {100 * high:.2f} %", limit="100 %")
    assert "top of the cabinet may be over its limit there" in rows(there)["as-left setting"].predicted

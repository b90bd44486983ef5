"""Charts: legible, inside their sheet, told without colour, and true to their data."""

import math
import re
from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.controls import controls
from guide_gen.drawings.axes import Chart, Scale, clipped, overlap, pieces
from guide_gen.drawings.protection import draw as draw_protection
from guide_gen.drawings.protection import protection_svg
from guide_gen.drawings.speed import draw_speed, speed_svg
from guide_gen.drawings.tuning import draw_scale, draw_tuning, scale_svg, tuning_svg
from guide_gen.model.plan import Air, Motion, MotionBand, MotionPoint, Protection, SpeedPlan, SpeedPoint
from guide_gen.toys import kinds

SVG = "{http://www.w3.org/2000/svg}"
LAYOUTS = pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])

# An invented feed: 6 A behind a blade of 10 A, gates of ISO 8820-3; wire of 1.5 mm², 115 A√s/mm² to 5 s.
FEED = Protection(
    load_id="M1",
    fuse_id="F1",
    wire_ids=("W11", "W12"),
    supply_id="T1",
    running_A=(5.0, 6.0),
    start_A=37.5,
    start_s=0.2,
    pulse_s=None,
    fuse_A=10.0,
    never_A=11.0,
    sure_A=13.5,
    shortest=((13.5, 0.75), (16.0, 0.25), (20.0, 0.15), (35.0, 0.04), (60.0, 0.02), (120.0, 0.005)),
    longest=((13.5, 600.0), (16.0, 50.0), (20.0, 5.0), (35.0, 0.5), (60.0, 0.1), (270.0, 0.005)),
    wire="1.5 mm²",
    ampacity_A=10.5,
    stands=((77.1, 5.0), (172.5, 1.0), (545.0, 0.1), (2440.0, 0.005)),
    limit_A=24.0,
    fault_A=24.0,
    opened_s=2.4,
    in_time=True,
    by="fuse",
    short="F1 opens in time: before 1.5 mm² is harmed.",
    says=("The 6 A of M1 never open F1.",),
)
FEEDS = {
    "usual": FEED,
    "no fuse": replace(FEED, fuse_id="", fuse_A=None, never_A=None, sure_A=None, shortest=(), longest=()),
    "start not known": replace(FEED, start_A=None, start_s=0.0),
    "start for an unknown time": replace(FEED, start_s=0.0),
    "never opens": replace(FEED, limit_A=8.0, fault_A=8.0, opened_s=None, by="wire"),
    "short circuit beyond the supply's worry": replace(FEED, limit_A=90.0, fault_A=62.0, opened_s=0.1),
    "pulse": replace(FEED, running_A=(4.6, 4.6), start_A=None, pulse_s=0.04),
    "small load": replace(FEED, running_A=(0.1, 0.1), fuse_A=1.0, never_A=1.1, sure_A=1.35,
        shortest=tuple((a / 10, s) for a, s in FEED.shortest), longest=tuple((a / 10, s) for a, s in FEED.longest)),
    "large load": replace(FEED, running_A=(25.0, 25.0), fuse_A=40.0, never_A=44.0, sure_A=54.0, ampacity_A=52.0,
        limit_A=60.0, fault_A=60.0, start_A=120.0, stands=tuple((a * 6, s) for a, s in FEED.stands),
        shortest=tuple((a * 4, s) for a, s in FEED.shortest), longest=tuple((a * 4, s) for a, s in FEED.longest)),
}  # fmt: skip


def point(setting: float) -> MotionPoint:
    """An invented machine that rocks below 6.5 % and turns above, faster with the setting."""
    turns = setting >= 0.065
    hertz = 4 + 80 * (setting - 0.065) if setting >= 0.045 else 0.0
    accel = 0.12 + 3 * max(0.0, setting - 0.065)
    state = "turns" if turns else "needs kick" if setting >= 0.045 else "rocks" if setting >= 0.015 else "still"
    return MotionPoint(setting, state, hertz, 0.9 * hertz, 1.15 * hertz, accel, 1e-4, accel / 1.0, 1.0)


MOTION = Motion(
    move=(0.01, 0.02),
    start=(0.054, 0.078),
    start_nominal=0.065,
    sustain=(0.04, 0.05),
    begin=0.05,
    step=0.004,
    ceiling=0.25,
    stop=0.24,
    bands=(
        MotionBand("no motion", 0.0, 0.015),
        MotionBand("buzz", 0.015, 0.065),
        MotionBand("sway", 0.065, 0.115),
        MotionBand("vibration", 0.115, 0.25),
        MotionBand("too much", 0.25, 1.0),
    ),
    curve=tuple(point(step / 200) for step in range(201)),
    short="Turns over between 5.4 % and 7.8 %; sway 6.5 % to 11.5 %.",
    says=("Nothing moves below 1 %.",),
    limit=0.12,
    as_left=0.08,
)
NARROW_BANDS = tuple(
    MotionBand(name, low / 100, (low + 1.5) / 100)
    for name, low in (("no motion", 0.0), ("buzz", 1.5), ("faint", 3.0), ("sway", 4.5), ("vibration", 6.0))
)
RANGED = replace(
    MOTION,
    curve=tuple(
        replace(one, accel_low_m_s2=0.5 * one.accel_m_s2, accel_high_m_s2=2.2 * one.accel_m_s2) for one in MOTION.curve
    ),
    start_likely=(0.06, 0.07),
)
MOTIONS = {
    "usual": MOTION,
    "ranges in both panels": RANGED,
    "ranges and a low end": replace(RANGED, as_left=0.15, ceiling=0.12),
    "no marks": replace(MOTION, limit=None, as_left=None),
    "never starts": replace(MOTION, start=(math.inf, math.inf), begin=math.inf, ceiling=math.inf, stop=math.inf),
    "marks close together": replace(MOTION, as_left=0.052, limit=0.056),
    "narrow bands": replace(MOTION, bands=(*NARROW_BANDS, MotionBand("too much", 0.075, 1.0))),
    "narrow bands, far ceiling": replace(
        MOTION, bands=(*NARROW_BANDS[:4], MotionBand("vibration", 0.06, 1.0)), ceiling=0.945
    ),
    "no sway": replace(MOTION, bands=(*MOTION.bands[:2], MotionBand("vibration", 0.065, 1.0)), ceiling=0.9),
    "two intervals too much": replace(MOTION, bands=(*MOTION.bands[:3], MotionBand("too much", 0.115, 0.13),
        MotionBand("vibration", 0.13, 0.25), MotionBand("too much", 0.25, 1.0))),
}  # fmt: skip


def gear(setting: float) -> SpeedPoint:
    """An invented gear motor that begins at a quarter and pushes as hard as the setting is high."""
    turns = max(0.0, 1.6 * (setting - 0.25))
    ends = (max(0.0, turns - 0.3), turns, turns + 0.2 if setting > 0.2 else 0.0)
    return SpeedPoint(setting, 12.0, ends, (2 * setting, 2.5 * setting, 3 * setting), (0.5 * setting, setting,
        2 * setting), (10 * setting, 20 * setting, 55 * setting))  # fmt: skip


def fan(setting: float) -> SpeedPoint:
    """An invented blower, whose flow goes with the root of the setting."""
    flow = (0.8 * setting, setting**0.5, min(1.0, 1.2 * setting**0.5))
    power = (flow[0] ** 3, flow[1] ** 3, flow[2] ** 3)
    air = Air(flow, (flow[0] ** 2, flow[1] ** 2, flow[2] ** 2), power, (-20.0, -10.0, 0.0))
    return SpeedPoint(setting, 12.0, (40 * flow[0], 50 * flow[1], 55 * flow[2]), air=air)


SETTINGS = [step / 40 for step in range(41)]
GEARED = SpeedPlan(
    "output", "setting", tuple(map(gear, SETTINGS)), gear(1.0), (0.17, 0.25, 0.32), (0.17, 0.25, 0.32), 0.17, 0.03,
    short="Begins to turn between 17 % and 32 %.", says=("Held fast it draws 3 A.",), limit=0.6, as_left=0.4,
)  # fmt: skip
BLOWN = replace(GEARED, turns="fan", points=tuple(map(fan, SETTINGS)), full=fan(1.0), start=(0.04, 0.09, 0.28))
SPEEDS = {
    "gear": GEARED,
    "gear, no marks": replace(GEARED, limit=None, as_left=None, begin=None),
    "gear, arm not known": replace(GEARED, full=replace(gear(1.0), force_N=None),
        points=tuple(replace(one, force_N=None) for one in GEARED.points)),
    "gear, reduction not known": replace(GEARED, turns="motor", full=replace(gear(1.0), force_N=None, torque_Nm=None)),
    "fan": BLOWN,
    "fan behind a trimmer": replace(BLOWN, axis="share of full voltage", limit=None),
    "starts at once": replace(BLOWN, start=(0.01, 0.012, 0.02), begin=0.01),
    "hardly starts": replace(GEARED, start=(0.9, 0.97, math.inf), begin=0.9, as_left=0.975),
    "never starts": replace(GEARED, start=(math.inf, math.inf, math.inf), begin=None, as_left=None),
    "marks close together": replace(GEARED, as_left=0.175, limit=0.18),
}  # fmt: skip


def charts(narrow: bool) -> dict[str, Chart]:
    found = {f"protection, {key}": draw_protection(one, name="bow", narrow=narrow) for key, one in FEEDS.items()}
    found |= {f"tuning, {key}": draw_tuning(one, name="bow", narrow=narrow) for key, one in MOTIONS.items()}
    found |= {f"speed, {key}": draw_speed(one, name="bow", narrow=narrow) for key, one in SPEEDS.items()}
    return found | {f"scale, {key}": draw_scale(one, name="bow", narrow=narrow) for key, one in MOTIONS.items()}


@LAYOUTS
def test_range_of_the_sideways_motion_is_a_hatched_band_with_edges_round_the_line(narrow: bool) -> None:
    """Told without colour and in print: a pattern of its own, two thin edges, and the likeliest line thicker."""
    without, ranged = (draw_tuning(one, name="bow", narrow=narrow).svg("x", "y") for one in (MOTION, RANGED))
    assert "bow-range-sideways" in ranged
    assert "bow-range-sideways" not in without
    assert ranged.count('stroke-width="0.9"') >= without.count('stroke-width="0.9"') + 2
    assert ranged.count('stroke-width="2.8"') == without.count('stroke-width="2.8"') == 2


@LAYOUTS
def test_curves_and_ranges_reach_the_end_of_the_axis(narrow: bool) -> None:
    """With points on either side of it, not just up to the last one before."""
    svg = draw_tuning(replace(RANGED, curve=RANGED.curve[::7]), name="bow", narrow=narrow).svg("", "")
    lines = re.findall(r'<path d="([^"]+)" fill="none" stroke="currentColor" stroke-width="(2.8|0.9)"', svg)
    end = f"{(350 if narrow else 720) - 12:g}"
    assert {line for path, line in lines if path.rpartition("L")[2].split()[0] == end} == {"2.8", "0.9"}


def test_curve_is_shown_where_the_ceiling_lies_below_the_start() -> None:
    """Else the plan that promises nothing would show nothing: the line needs room from where it turns."""
    low = replace(MOTION, ceiling=0.03, begin=0.03, bands=(*MOTION.bands[:2], MotionBand("too much", 0.065, 1.0)))
    assert draw_tuning(low, name="bow", narrow=False).svg("x", "y").count('stroke-width="2.8"') == 2


def test_likely_start_is_a_filled_bar_in_the_hatched_one() -> None:
    with_it, without = (draw_scale(one, name="bow", narrow=False).svg("x", "y") for one in (RANGED, MOTION))
    assert with_it.count("<rect") == without.count("<rect") + 1


@LAYOUTS
def test_no_text_covers_another(narrow: bool) -> None:
    for key, chart in charts(narrow).items():
        for one, other in combinations(chart.texts, 2):
            assert not overlap(one.box, other.box), (key, one.words, other.words)


@LAYOUTS
def test_all_text_stays_on_the_sheet(narrow: bool) -> None:
    for key, chart in charts(narrow).items():
        for word in chart.texts:
            left, top, right, bottom = word.box
            assert (left >= 0, top >= 0, right <= chart.width, bottom <= chart.height) == (True,) * 4, (key, word)


@LAYOUTS
def test_chart_says_what_it_shows_to_those_who_hear_it(narrow: bool) -> None:
    for svg, words in (
        (protection_svg(FEED, name="bow-p", title="What protects", narrow=narrow), FEED.short),
        (tuning_svg(MOTION, name="bow-t", title="Settings", narrow=narrow), MOTION.short),
        (scale_svg(MOTION, name="bow-s", title="Settings", narrow=narrow), MOTION.short),
        (speed_svg(BLOWN, name="bow-v", title="Speeds", narrow=narrow), BLOWN.short),
    ):
        root = ElementTree.fromstring(svg)
        named = [root.find(f".//*[@id='{ident}']") for ident in root.attrib["aria-labelledby"].split()]
        assert root.attrib["role"] == "img"
        assert [one is not None and bool(one.text) for one in named] == [True, True]
        assert words in (named[1].text or "")  # type: ignore[union-attr]


@LAYOUTS
def test_ids_begin_with_the_name_of_the_chart(narrow: bool) -> None:
    for svg in (
        protection_svg(FEED, name="bow-p", title="x", narrow=narrow),
        tuning_svg(MOTION, name="bow-p", title="x", narrow=narrow),
        scale_svg(MOTION, name="bow-p", title="x", narrow=narrow),
        speed_svg(GEARED, name="bow-p", title="x", narrow=narrow),
        speed_svg(BLOWN, name="bow-p", title="x", narrow=narrow),
    ):
        ids = re.findall(r'\bid="([^"]+)"', svg)
        assert len(ids) == len(set(ids))
        assert all(one.startswith("bow-p") for one in ids)
        assert set(re.findall(r"url\(#([^)]+)\)", svg)) <= set(ids)


def test_nothing_is_told_by_colour() -> None:
    """Ink and paper only: a black and white print loses nothing."""
    for svg in (
        protection_svg(FEED, name="p", title="x", narrow=False),
        tuning_svg(MOTION, name="t", title="x", narrow=False),
        scale_svg(MOTION, name="s", title="x", narrow=False),
        speed_svg(BLOWN, name="v", title="x", narrow=False),
    ):
        paints = set(re.findall(r'(?:fill|stroke)="([^"]+)"', svg))
        assert {one for one in paints if not one.startswith("url(#")} <= {
            "none",
            "currentColor",
            "var(--gg-paper, #fff)",
        }


def test_bands_differ_by_texture_and_by_word() -> None:
    chart = draw_tuning(MOTION, name="t", narrow=False)
    svg = chart.svg("x", "y")
    fills = re.findall(r'<rect [^>]*fill="(url\(#t-[a-z]+\))"', svg)
    assert len(set(fills)) == 4
    assert {band.name for band in MOTION.bands} <= {word.words for word in chart.texts}


def test_speed_chart_names_what_it_shows_and_marks_the_setting_as_left() -> None:
    """The ring stands at 40 % on both panels; still, may begin and turns have a word each."""
    svg = speed_svg(GEARED, name="v", title="x", narrow=False)
    rings = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="5"', svg)
    assert [float(at) for at, _ in rings] == pytest.approx([52 + 0.4 * (708 - 52)] * 2, abs=0.1)
    words = {word.words for word in draw_speed(GEARED, name="v", narrow=False).texts}
    assert {"still", "may begin", "turns", "output, turns a minute", "held fast, at the arm, N"} <= words
    assert {"flow, % of full", "power of the air"} <= {
        word.words for word in draw_speed(BLOWN, name="v", narrow=True).texts
    }


def test_hostile_words_stay_words() -> None:
    svg = protection_svg(
        replace(FEED, short="</desc><script>", wire="<b>&"), name='"><script>', title="</title><script>", narrow=False
    )
    assert "<script" not in svg
    ElementTree.fromstring(svg)


def test_fuse_is_marked_open_where_its_curve_meets_the_short_circuit() -> None:
    """The ring stands on both lines: 24 A and 2.4 s on scales of 2 to 200 A and 0.01 to 1000 s."""
    svg = protection_svg(FEED, name="p", title="x", narrow=False)
    ring = re.search(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="5"', svg)
    assert ring
    left, right, top, bottom = 52.0, 700.0, 30.0, 400.0
    assert float(ring[1]) == pytest.approx(left + (right - left) * math.log10(24 / 2) / 2, abs=0.1)
    assert float(ring[2]) == pytest.approx(bottom - (bottom - top) * math.log10(2.4 / 0.01) / 5, abs=0.1)


@given(st.floats(0.001, 1e4), st.floats(0.001, 1e4))
def test_a_logarithmic_scale_gives_equal_ratios_equal_lengths(value: float, ratio: float) -> None:
    scale = Scale(0.01, 100, 0, 400, log=True)
    assert scale.beyond(value * ratio) - scale.beyond(value) == pytest.approx(100 * math.log10(ratio), abs=1e-6) or (
        value < 1e-7 or value * ratio < 1e-7
    )


@given(st.floats(0.001, 500), st.floats(1.5, 1e5), st.integers(3, 12))
def test_ticks_are_round_few_and_on_the_scale(low: float, ratio: float, most: int) -> None:
    scale = Scale(low, low * ratio, 0, 600, log=True)
    found = scale.ticks(most)
    assert all(scale.low * (1 - 1e-9) <= one <= scale.high * (1 + 1e-9) for one in found)
    assert all(f"{one:e}"[0] in "1235" for one in found)


@given(st.lists(st.tuples(st.floats(-50, 150), st.floats(-50, 150)), min_size=2, max_size=8))
def test_clipped_lines_stay_between_the_ends(points: list[tuple[float, float]]) -> None:
    scale = Scale(0, 100, 0, 100)
    for piece in pieces(points, scale, scale):
        assert all(-1e-6 <= x <= 100 + 1e-6 and -1e-6 <= y <= 100 + 1e-6 for x, y in piece)


def test_a_line_that_is_inside_comes_back_whole() -> None:
    scale = Scale(0, 100, 0, 100)
    assert clipped([(0, 0), (50, 20), (100, 100)], scale, scale) == [(0, 0), (50, 20), (100, 100)]


@pytest.mark.parametrize("control", sorted(controls()))
@pytest.mark.parametrize("kind", sorted(kinds()))
def test_every_kind_on_every_control_has_a_legible_protection_chart(any_toy, kind, control):
    found = any_toy(kind, control).toy.protection
    for narrow in (False, True):
        chart = draw_protection(found, name="bow", narrow=narrow)
        for one, other in combinations(chart.texts, 2):
            assert not overlap(one.box, other.box), (one.words, other.words)
        assert all(word.box[0] >= 0 and word.box[2] <= chart.width for word in chart.texts)

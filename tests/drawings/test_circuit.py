"""Drawn circuits: complete, true to their data, legible, harmless."""

import os
import re
import subprocess
import sys
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide_gen.controls import controls
from guide_gen.drawings.circuit import circuit_svg, draw
from guide_gen.drawings.lettering import width
from guide_gen.drawings.symbols import LOADS
from guide_gen.model.circuit import Circuit, Part, PartKind
from guide_gen.toys import kinds

sys.path.insert(0, str(Path(__file__).parent))
from circuit_samples import SAMPLES, Variant

SVG = "{http://www.w3.org/2000/svg}"
LAYOUTS = pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
EACH = pytest.mark.parametrize("sample", SAMPLES)
NAMES = st.text("abcdefghijklmnoprstuvwxyz -ABCDEGHMWÄé", max_size=28)
VARIANTS = st.builds(
    Variant,
    control=st.sampled_from(["port", "direct", "controller", "relay"]),
    fused=st.booleans(),
    across=st.sampled_from(["none", "diode", "zener", "rc"]),
    coil_across=st.sampled_from(["none", "diode", "zener", "rc"]),
    load=st.sampled_from(LOADS),
    series=st.booleans(),
    port_fuse=st.booleans(),
    own_signal_fuse=st.booleans(),
    second_supply=st.booleans(),
    row=st.booleans(),
    row_fused=st.booleans(),
    name=NAMES,
    long=st.booleans(),
    schottky=st.booleans(),
    us=st.booleans(),
)


@cache
def svg_of(variant: Variant, narrow: bool) -> str:
    return circuit_svg(
        variant.circuit(),
        name="bow",
        title="Bow",
        desc="A circuit",
        narrow=narrow,
        units="US" if variant.us else "metric",
    )


def texts_of(svg: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(svg.replace("\u00a0", " ")).iter(f"{SVG}text"))


@dataclass(frozen=True)
class Box:
    """A row of text as it comes out: estimated from advance widths, three quarters of its size high."""

    words: str
    left: float
    top: float
    right: float
    bottom: float


def box_of(text: ElementTree.Element) -> Box:
    words, size = text.text or "", float(text.attrib["font-size"])
    wide = width(words, size, mono=text.attrib["class"] == "m", bold=text.get("font-weight") == "700")
    x, base = float(text.attrib["x"]), float(text.attrib["y"])
    left = x - wide * {"start": 0, "middle": 0.5, "end": 1}[text.get("text-anchor", "start")]
    return Box(words, left, base - 0.75 * size, left + wide, base)


def meet(one: Box, other: Box) -> bool:
    return (
        one.left < other.right and other.left < one.right and one.top < other.bottom and other.top < one.bottom
    )  # fmt: skip


def segments_of(svg: str) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Every straight line that is drawn."""
    found = []
    for path in ElementTree.fromstring(svg).iter(f"{SVG}path"):
        for stroke in path.attrib["d"].replace("Z", "").split("M")[1:]:
            numbers = [float(number) for number in re.findall(r"-?[\d.]+", stroke)]
            found += list(pairwise(zip(numbers[::2], numbers[1::2], strict=True)))
    return found


def runs_through(box: Box, segment: tuple[tuple[float, float], tuple[float, float]]) -> bool:
    """Whether a level or upright line crosses a text (slanted ones belong to small symbols: taken by their box)."""
    (x0, y0), (x1, y1) = segment
    return (
        min(x0, x1) < box.right - 0.5
        and max(x0, x1) > box.left + 0.5
        and min(y0, y1) < box.bottom - 0.5
        and max(y0, y1) > box.top + 0.5
    )


def assert_legible(variant: Variant, narrow: bool) -> None:
    assert_clear(svg_of(variant, narrow))


def assert_clear(svg: str) -> None:
    boxes = [box_of(text) for text in texts_of(svg)]
    root = ElementTree.fromstring(svg)
    _, _, wide, high = (float(number) for number in root.attrib["viewBox"].split())
    for box in boxes:
        assert box.left >= 0, box
        assert box.top >= 0, box
        assert box.right <= wide, box
        assert box.bottom <= high, box
    for one, other in combinations(boxes, 2):
        assert not meet(one, other), (one, other)
    for segment in segments_of(svg):
        for x, y in segment:
            assert 0 <= x <= wide
            assert 0 <= y <= high
        for box in boxes:
            assert not runs_through(box, segment), (box, segment)


def assert_complete(variant: Variant, narrow: bool) -> None:
    assert_all_there(variant.circuit(), svg_of(variant, narrow))


def assert_all_there(circuit: Circuit, svg: str) -> None:
    bold = [text.text or "" for text in texts_of(svg) if text.get("font-weight") == "700"]
    designators = sorted(words for words in bold if re.fullmatch(r"[A-Z]\d+[A-Z]{0,2}", words))
    assert designators == sorted([part.id for part in circuit.parts] + [wire.id for wire in circuit.wires])


@settings(max_examples=60, deadline=None)
@given(VARIANTS, st.booleans())
def test_every_part_and_wire_stands_in_its_drawing_once_and_nothing_else(variant: Variant, narrow: bool) -> None:
    assert_complete(variant, narrow)


@settings(max_examples=60, deadline=None)
@given(VARIANTS, st.booleans())
def test_no_text_overlaps_another_a_line_or_the_edge(variant: Variant, narrow: bool) -> None:
    assert_legible(variant, narrow)


@LAYOUTS
@EACH
def test_each_sample_is_complete_and_legible(sample: str, narrow: bool) -> None:
    assert_complete(SAMPLES[sample], narrow)
    assert_legible(SAMPLES[sample], narrow)


@LAYOUTS
@EACH
def test_what_the_lines_join_is_what_the_circuit_joins(sample: str, narrow: bool) -> None:
    circuit = SAMPLES[sample].circuit()
    assert draw(circuit, narrow=narrow).nets() == circuit.nodes()


@LAYOUTS
@EACH
def test_lines_touch_only_where_they_are_joined(sample: str, narrow: bool) -> None:
    """An end of a line that lies on another line would read as a joint."""
    lines = draw(SAMPLES[sample].circuit(), narrow=narrow).lines
    for one in lines:
        for other in lines:
            if one is other:
                continue
            for x, y in one.points:
                for (x0, y0), (x1, y1) in pairwise(other.points):
                    inside = min(x0, x1) <= x <= max(x0, x1) and min(y0, y1) <= y <= max(y0, y1)
                    at_end = (x, y) in (other.points[0], other.points[-1]) and (x, y) in (one.points[0], one.points[-1])
                    assert not inside or at_end, (one, other)


@LAYOUTS
@EACH
def test_every_place_where_three_lines_meet_has_a_dot(sample: str, narrow: bool) -> None:
    sheet = draw(SAMPLES[sample].circuit(), narrow=narrow)
    ends = [end for line in sheet.lines for end in (line.points[0], line.points[-1])]
    meetings = {end for end in ends if ends.count(end) > 2}
    root = ElementTree.fromstring(sheet.svg("x", "x", "x"))
    circles = [circle.attrib for circle in root.iter(f"{SVG}circle")]
    dots = {(float(it["cx"]), float(it["cy"])) for it in circles if it.get("fill") == "currentColor"}
    diode_corners = {point for name, point in sheet.pins if name[0] in "DRC"}
    assert meetings - diode_corners <= dots
    assert all(ends.count(end) <= 3 for end in ends), "a four-way joint"


@LAYOUTS
@pytest.mark.parametrize(
    "sample", [name for name, it in SAMPLES.items() if it.across == "diode" and it.control != "relay"]
)
def test_the_band_of_a_suppressor_points_to_plus(sample: str, narrow: bool) -> None:
    sheet = draw(SAMPLES[sample].circuit(), narrow=narrow)
    pins = dict(sheet.pins)
    band, other = pins["D1:K"], pins["D1:A"]
    triangle = ElementTree.fromstring(sheet.svg("x", "x", "x")).find(f".//{SVG}polygon")
    assert triangle is not None
    numbers = [float(number) for number in re.findall(r"-?[\d.]+", triangle.attrib["points"])]
    corners = list(zip(numbers[::2], numbers[1::2], strict=True))
    far = [abs(x - band[0]) + abs(y - band[1]) - abs(x - other[0]) - abs(y - other[1]) for x, y in corners]
    nearest = far.index(min(far))
    # The triangle's tip stands alone nearest to the band, on the line between the two ends.
    tip = corners[nearest]
    assert tip[0] == pytest.approx(band[0], abs=0.1) or tip[1] == pytest.approx(band[1], abs=0.1)
    assert sum(value == pytest.approx(min(far), abs=0.1) for value in far) == 1
    plus = next(net for net in sheet.nets() if "D1:K" in net)
    assert {"M1:1", "E1:1", "K1:1", "P1:1", "R1S:1"} & set(plus)


@LAYOUTS
@EACH
def test_everything_said_about_a_part_can_be_read(sample: str, narrow: bool) -> None:
    shown = " ".join(text.text or "" for text in texts_of(svg_of(SAMPLES[sample], narrow)))
    assert "…" not in shown
    for part in SAMPLES[sample].circuit().parts:
        for word in f"{part.name} {part.value} {' '.join(part.notes)}".replace("-", "- ").split():
            assert word in shown


@LAYOUTS
def test_a_wire_is_labelled_with_designator_colour_size_and_length(narrow: bool) -> None:
    shown = [text.text or "" for text in texts_of(svg_of(SAMPLES["port"], narrow))]
    at = shown.index("W11")
    assert shown[at : at + 4] == ["W11", "RD", "1.5 mm²", "1.8 m"]


@LAYOUTS
def test_lengths_stand_in_feet_on_a_us_page(narrow: bool) -> None:
    shown = [text.text or "" for text in texts_of(svg_of(SAMPLES["port-us"], narrow))]
    at = shown.index("W11")
    assert shown[at : at + 4] == ["W11", "RD", "16 AWG", "5.9 ft"]


@LAYOUTS
def test_a_wire_without_a_size_yet_is_drawn_without_one(narrow: bool) -> None:
    circuit = SAMPLES["port"].circuit()
    bare = circuit.with_wires([replace(wire, size="") for wire in circuit.wires])
    shown = [text.text or "" for text in texts_of(circuit_svg(bare, name="x", title="x", desc="x", narrow=narrow))]
    at = shown.index("W11")
    assert shown[at : at + 3] == ["W11", "RD", "1.8 m"]


@LAYOUTS
def test_a_fan_is_not_drawn_as_a_motor(narrow: bool) -> None:
    assert "M" in [text.text for text in texts_of(svg_of(SAMPLES["port"], narrow))]
    assert "M" not in [text.text for text in texts_of(svg_of(SAMPLES["port-fan"], narrow))]


@LAYOUTS
@pytest.mark.parametrize("sample", ["port", "controller-own-input-fuse", "controller-two-supplies"])
def test_the_same_circuit_gives_the_same_bytes_in_every_process(sample: str, narrow: bool) -> None:
    svg_of.cache_clear()
    first = svg_of(SAMPLES[sample], narrow)
    svg_of.cache_clear()
    assert svg_of(SAMPLES[sample], narrow) == first


def test_bytes_do_not_depend_on_the_hash_seed() -> None:
    code = (
        f"import sys; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
        "from circuit_samples import SAMPLES\n"
        "from guide_gen.drawings.circuit import circuit_svg\n"
        "svg = circuit_svg(SAMPLES['controller'].circuit(), name='bow', title='Bow', desc='A circuit', narrow=True)\n"
        "sys.stdout.buffer.write(svg.encode())"
    )
    drawn = [
        subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "2")
    ]
    assert drawn[0] == drawn[1] == svg_of(SAMPLES["controller"], True).encode()


HOSTILE = ["<script>alert(1)</script>", "\"><b onload='x'>", "a & b &amp; c", "]]><!--", "$\\mu$ ${x}",
           "\x00\x1b\ud83d",
           "漢字" * 7, "🎉" * 14, "W" * 28, "\u202eabc", "t3", "{{ x }} {% y %}", "  ", "F9 W99 A7"]  # fmt: skip


def hostile(circuit: Circuit, words: str) -> Circuit:
    return replace(
        circuit, parts=tuple(replace(part, name=words, value=words, notes=(words, words)) for part in circuit.parts)
    )


@LAYOUTS
@pytest.mark.parametrize("words", HOSTILE)
@pytest.mark.parametrize("sample", ["port-fused-return", "controller-own-input-fuse"])
def test_no_text_of_a_description_becomes_markup(sample: str, words: str, narrow: bool) -> None:
    circuit = hostile(SAMPLES[sample].circuit(), words)
    svg = circuit_svg(circuit, name=f"bow {words}", title=words, desc=words, narrow=narrow)
    root = ElementTree.fromstring(svg.encode())
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags <= {"svg", "title", "desc", "g", "path", "circle", "polygon", "text"}
    allowed = {"d", "points", "cx", "cy", "r", "x", "y", "class", "id", "role", "viewBox", "width", "height", "fill",
               "stroke", "aria-labelledby", "font-family", "font-size", "font-weight", "text-anchor"}  # fmt: skip
    for element in root.iter():
        assert {key for key in element.attrib if not key.startswith("stroke-")} <= allowed


@LAYOUTS
@pytest.mark.parametrize("words", ["W" * 28, "漢字" * 7, "Starboard engine-room shaker"])
@pytest.mark.parametrize(
    "sample", ["port-fused-return", "direct", "controller-own-input-fuse", "controller-fused-return"]
)
def test_long_words_are_cut_and_never_overlap(sample: str, words: str, narrow: bool) -> None:
    svg = circuit_svg(hostile(SAMPLES[sample].circuit(), words), name="x", title="x", desc="x", narrow=narrow)
    boxes = [box_of(text) for text in texts_of(svg)]
    assert not [(one, other) for one, other in combinations(boxes, 2) if meet(one, other)]
    assert not [(box, line) for box in boxes for line in segments_of(svg) if runs_through(box, line)]


@LAYOUTS
@EACH
def test_a_drawing_needs_nothing_from_elsewhere(sample: str, narrow: bool) -> None:
    svg = svg_of(SAMPLES[sample], narrow)
    assert svg.count("http") == 1, "the name of the SVG namespace alone"
    for word in ("<script", "href", "url(", "<style", "style=", "<image", "@import", "currentcolor"):
        assert word not in svg


@LAYOUTS
def test_ids_carry_the_drawing_s_name_and_the_title_is_announced(narrow: bool) -> None:
    svg = circuit_svg(
        SAMPLES["port"].circuit(), name="bow-wide", title="Circuit of <Bow>", desc="T1 to M1 & back", narrow=narrow
    )
    root = ElementTree.fromstring(svg)
    ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
    assert ids == ["bow-wide-t", "bow-wide-d"]
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"].split() == ids
    assert [root.findtext(f"{SVG}title"), root.findtext(f"{SVG}desc")] == ["Circuit of <Bow>", "T1 to M1 & back"]


@EACH
def test_wide_drawings_fill_a_page_and_narrow_ones_a_phone(sample: str) -> None:
    for narrow, low, high in ((False, 690, 740), (True, 350, 350)):
        wide = float(ElementTree.fromstring(svg_of(SAMPLES[sample], narrow)).attrib["width"])
        assert low <= wide <= high
        assert min(float(text.attrib["font-size"]) for text in texts_of(svg_of(SAMPLES[sample], narrow))) >= 12


@LAYOUTS
@pytest.mark.parametrize("control", sorted(controls()))
@pytest.mark.parametrize("kind", sorted(kinds()))
def test_every_kind_of_toy_can_be_drawn_on_every_control(kind: str, control: str, narrow: bool, any_toy: Any) -> None:
    toy = any_toy(kind, control).toy
    circuit = toy.sized.circuit
    svg = circuit_svg(circuit, name="x", title="x", desc="x", narrow=narrow)
    assert_all_there(circuit, svg)
    assert_clear(svg)


@LAYOUTS
def test_a_circuit_that_no_lay_out_knows_is_refused_instead_of_drawn_in_part(narrow: bool) -> None:
    circuit = SAMPLES["port"].circuit()
    stray = Part("F9", PartKind.FUSE, "5 A", ("1", "2"))
    with pytest.raises(ValueError, match="F9"):
        draw(replace(circuit, parts=(*circuit.parts, stray)), narrow=narrow)
    with pytest.raises(ValueError, match="truthfully"):
        draw(replace(circuit, joints=(*circuit.joints, ("M1:1", "M1:2"))), narrow=narrow)

"""Laws of every description that can be read: random builds of one to three toys, both units, every control."""

import json
import math
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from guide_gen.controls import controls
from guide_gen.model.fields import ToyFields
from guide_gen.model.finding import Level
from guide_gen.model.guide import STAGES
from guide_gen.planning.as_json import plan_json
from guide_gen.planning.as_text import plan_text
from guide_gen.planning.drafts import draft
from guide_gen.planning.sizing import sizing
from guide_gen.planning.wires import TIES
from guide_gen.published.tables import all_fuse_series, families, screws
from guide_gen.toys import kinds

METRIC = [name for name, family in families().items() if family.sizes_system == "mm2"]
AMERICAN = [name for name, family in families().items() if family.sizes_system == "AWG"]
WORDS = {"min": min, "max": max, "sqrt": math.sqrt, "exp": math.exp, "log": math.log}
UNITS = (
    "_A", "_V", "_W", "_ohm", "_H", "_s", "_Hz", "_m", "_mm", "_mm2", "_kg", "_N", "_Nm", "_degC", "_percent", "_m_s2",
    "_rpm", "_F",
)  # fmt: skip
FUSE_OPENS_AT = {"blade": 1.35, "mini blade": 1.35, "5 x 20 mm": 2.1, "5 x 20 mm UL": 1.35, "6.3 x 32 mm UL": 1.35}
"""I2/In by ISO 8820-3, IEC 60127-2 and UL 248-14."""

quick = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def _number(low, high):
    return st.floats(low, high).map(lambda value: f"{value:.3g}")


def _maybe(strategy):
    return st.none() | strategy


@st.composite
def control_maps(draw, word):
    """A control of one sort; its port may be taken or missing."""
    if not controls()[word].ported:
        return {"type": word}
    control = {"type": word, "board": "quay", "port": str(draw(st.integers(1, 9)))}
    if word == "pwm port":
        control["limit"] = draw(_maybe(st.integers(0, 100).map("{} %".format)))
    if word == "speed controller":
        control["port_set_to"] = draw(st.sampled_from([None, "on/off", "pwm"]))
        control["limit"] = draw(_maybe(st.integers(1, 100).map("{} %".format)))
        control["controller"] = {
            "current": draw(_number(0.5, 30)) + " A", "pwm_frequency": "15 kHz", "run": draw(_number(0.1, 5)) + " m",
            "input": draw(st.sampled_from(["on/off", "pwm"])), "input_voltage": draw(_number(3, 30)) + " V",
            "input_current": draw(_number(1, 900)) + " mA",
            "input_from": draw(st.sampled_from(["behind the fuse", "before the fuse"])),
            "lowest": "fully clockwise", "suppressor": draw(st.sampled_from(["yes", "no"])),
            "reverses": draw(st.sampled_from(["yes", "no"])),
            "resistance": draw(_maybe(st.just("12 mohm (datasheet)"))),
        }  # fmt: skip
    if word == "relay":
        control["relay"] = {
            "coil_voltage": draw(_number(3, 50)) + " V", "coil_resistance": draw(_number(2, 2000)) + " ohm",
            "contact_current": draw(_number(0.5, 40)) + " A", "contact_voltage": draw(_number(5, 80)) + " V",
            "run": draw(_maybe(_number(0.1, 5).map("{} m".format))),
            "coil_inductance": draw(_maybe(_number(5, 900).map("{} mH".format))),
            "release_current": draw(_maybe(_number(1, 90).map("{} mA".format))),
            "suppressor": draw(st.sampled_from([None, "none", "diode", "diode and zener", "rc", "on the board"])),
        }  # fmt: skip
    return control


@st.composite
def motors(draw):
    """A shaker's motor by what was measured."""
    return {
        "resistance": draw(_maybe(_number(0.05, 20).map("{} ohm (measured)".format))),
        "speed": draw(_maybe(_number(100, 9000).map("{} rpm".format))),
    }


@st.composite
def weights(draw):
    """An eccentric weight by one or more of the ways to know it; a scale may be read the wrong way round."""
    scale = {"lever": "50 mm", "raising": draw(_number(1, 900)) + " g", "lowering": draw(_number(1, 900)) + " g"}
    shape = {"form": "half disc", "radius": "52 mm", "thickness": "12 mm", "material": "brass"}
    return {
        "scale": draw(_maybe(st.just(scale))), "shape": draw(_maybe(st.just(shape))),
        "unbalance": draw(_maybe(st.just("8 g m"))), "swing": draw(_maybe(st.just("0.5 s"))),
    }  # fmt: skip


@st.composite
def gears(draw):
    """A gear motor, much or little of it known."""
    return {
        "gearbox": draw(st.sampled_from([None, "worm", "spur"])),
        "reduction": draw(_maybe(_number(1, 900))), "arm_radius": draw(_maybe(_number(10, 200).map("{} mm".format))),
        "travel_limited": draw(st.sampled_from(["yes", "no"])), "motor": draw(_maybe(motors())),
    }  # fmt: skip


@st.composite
def lamps(draw):
    """A group of lamps of any type; its LEDs may take more than the supply gives."""
    led = {
        "forward_voltage": draw(_number(1, 12)) + " V", "current": draw(_number(1, 900)) + " mA",
        "in_a_row": draw(_maybe(st.integers(1, 6).map(str))),
        "highest_current": draw(_maybe(_number(1, 900).map("{} mA".format))),
    }  # fmt: skip
    return {
        "lamp_type": draw(st.sampled_from(["LEDs with resistor", "LED module", "filament"])),
        "count": draw(_maybe(st.integers(1, 30).map(str))), "led": draw(_maybe(st.just(led))),
        "flash": draw(_maybe(_number(0.1, 90).map(lambda rate: {"rate": f"{rate} Hz"}))),
        "cold_resistance": draw(_maybe(_number(0.01, 20).map("{} ohm (measured)".format))),
        "surface": draw(_maybe(st.integers(20, 120).map("{} °C".format))),
    }  # fmt: skip


def asked(kind):
    """What a kind asks for besides what every toy is asked, by the examples of its keys."""
    fields = kinds()[kind].fields.model_fields
    return {
        name: field.json_schema_extra["example"]
        for name, field in fields.items()
        if name not in ToyFields.model_fields and "ask" in (field.json_schema_extra or {})
    }


@st.composite
def toys(draw):
    """A toy of any kind on any control, most of its keys left out or stated at random."""
    low = draw(st.floats(0.05, 30))
    current = f"{low:.3g} A to {low * draw(st.floats(1.01, 1.5)):.3g} A"
    fuse = draw(st.sampled_from(["chosen", "stated", "none"]))
    holder = draw(st.sampled_from(sorted(all_fuse_series())))
    kind = draw(st.sampled_from(sorted(kinds())))
    own = {"shaker motor": {"cover": draw(st.sampled_from(["yes", "no"])), "motor": draw(_maybe(motors())),
                            "weight": draw(_maybe(weights()))},
           "blower fan": {"motor_type": draw(st.sampled_from(["brushed", "brushless"]))},
           "gear motor": draw(gears()), "lamp": draw(lamps())}  # fmt: skip
    stated = {"holder": holder, "dc_voltage": draw(_maybe(_number(10, 80).map("{} V".format)))}
    if fuse == "stated":
        stated["rating"] = f"{draw(st.sampled_from(all_fuse_series()[holder].ratings_A)):g} A"
    suppressors = [
        None, "none", "diode", "diode and zener", "rc", "on the board", "in the controller", "not needed",
        {"type": "diode", "reverse_voltage": "40 V", "forward_current": "3 A", "surge_current": "80 A"},
        {"type": "diode", "surge_current": "1 A"}, {"type": "rc", "forward_current": "2 A"},
    ]  # fmt: skip
    return {
        "kind": kind, **asked(kind), **own.get(kind, {}),
        "supply": "main",
        "voltage": draw(_number(4, 50)) + " V",
        "current": current + draw(st.sampled_from(["", " (measured)", " (datasheet)", " (estimate)"])),
        "control": draw(control_maps(draw(st.sampled_from(sorted(controls()))))),
        "feed": {
            "run": draw(_number(0.1, 25)) + " m",
            "return_run": draw(_maybe(_number(0.1, 25).map("{} m".format))),
            "fuse": "none" if fuse == "none" else stated,
        },
        "suppressor": draw(st.sampled_from(suppressors)),
        "mount": {"screw": draw(st.sampled_from([*screws(), "thumb screw"]))},
        "play": {"loud": "yes", "effect": draw(st.sampled_from(["real", "sound", "both"]))},
    }  # fmt: skip


@st.composite
def blocks(draw):
    """A distribution block; its own fuse chosen, stated or left out."""
    holder = draw(st.sampled_from(sorted(all_fuse_series())))
    ratings = st.sampled_from([f"{rating:g} A" for rating in all_fuse_series()[holder].ratings_A])
    fuse = {"holder": holder, "dc_voltage": draw(_maybe(st.just("60 V"))), "rating": draw(_maybe(ratings))}
    return {
        "supply": "main",
        "feed": {
            "run": draw(_number(0.1, 20)) + " m", "return_run": draw(_maybe(_number(0.1, 20).map("{} m".format))),
            "fuse": draw(st.sampled_from([fuse, {"holder": "blade"}, "none"])),
        },
    }  # fmt: skip


@st.composite
def builds(draw, most=3):
    """A build in metric or US units; some of its toys may be fed from a distribution block."""
    american = draw(st.booleans())
    volts = draw(st.floats(4, 50))
    fed = {f"toy-{place}": draw(toys()) for place in range(draw(st.integers(1, most)))}
    rows = {"wharf": draw(blocks())} if draw(st.booleans()) else {}
    for toy in fed.values() if rows else ():
        toy["feed"]["from"] = draw(st.sampled_from([None, "wharf"]))
    return {
        "build": "Any", "units": "US" if american else "metric",
        "wiring": {
            "ampacity_table": draw(st.sampled_from(AMERICAN if american else METRIC)),
            "insulation": draw(st.sampled_from(["90 °C", "105 °C"])) if american else "70 °C",
            "inside_temperature": f"{draw(st.integers(0, 75))} °C",
            "bundled_circuits": draw(_maybe(st.integers(1, 20).map(str))),
            "drop_limit": f"{draw(st.integers(0, 20))} %", "fuse_margin": f"{draw(st.floats(1, 3)):.2f}",
        },
        "cabinet": {"floor": {"thickness": draw(_maybe(_number(3, 150).map("{} mm".format)))}},
        "supplies": {
            "main": {
                "voltage": f"{volts:.3g} V", "current": draw(_number(1, 60)) + " A",
                "voltage_range": draw(_maybe(st.just(f"{0.9 * volts:.3g} V to {1.1 * volts:.3g} V"))),
                "current_limit": draw(_maybe(_number(60, 90).map("{} A (datasheet)".format))),
                "overload": draw(st.sampled_from(["limits", "restarts", "switches off", "not known"])),
                "earth_pin": draw(st.sampled_from([None, "yes", "no"])),
                "fuse_block": {"run": draw(_maybe(_number(0.05, 2).map("{} m".format)))},
            }
        } | ({"spare": {"voltage": "24 V", "current": "5 A", "overload": "limits"}} if draw(st.booleans()) else {}),
        "boards": {
            "quay": {
                "supply": "main", "ports": "8", "port_current": draw(_number(0.1, 20)) + " A",
                "board_current": draw(_number(0.5, 60)) + " A", "port_voltage": draw(_number(5, 60)) + " V",
                "pwm_frequency": "200 Hz", "port_fuse": draw(_maybe(st.sampled_from(sorted(all_fuse_series())))),
                "switch_resistance": draw(_maybe(st.just("20 mohm (measured)"))),
            }
        },
        "blocks": rows, "toys": fed,
    }  # fmt: skip


def without_nothing(data):
    """A map without the keys that were left out."""
    return {key: without_nothing(value) if isinstance(value, dict) else value
            for key, value in data.items() if value is not None}  # fmt: skip


@pytest.fixture(scope="module", name="planned")
def _planned(plan_of):
    return lambda data: plan_of({}, without_nothing(data))


def levels(toy):
    """Codes of a toy's findings."""
    return {finding.code for finding in toy.findings}


# ---- protection -----------------------------------------------------------------------------------------------------


@quick
@given(data=builds())
def test_fuse_is_above_the_load_and_within_the_wire(planned, data):
    """Load <= fuse <= what the wire may carry, or a finding says so (IEC 60364-4-43 433.1)."""
    for toy in planned(data).plan.toys.values():
        sized, found = toy.sized, levels(toy)
        rating_A = sized.fuse.rating_A
        if rating_A is None:
            assert "fuse-missing" in found
            continue
        if rating_A < sized.load.design_current_A * (1 - 1e-9):
            assert "fuse-below-load" in found
        needed_A = max(rating_A, FUSE_OPENS_AT[sized.fuse.series] * rating_A / 1.45)
        if sized.wire.ampacity_A < needed_A * (1 - 1e-9):
            assert "fuse-above-wire" in found
        if sized.wire.ampacity_A < sized.load.design_current_A * (1 - 1e-9):
            assert "wire-too-thin" in found


def relayed(current_A, coil_ohm, port_A, run_m, table, holder):
    """A lamp behind a relay."""
    relay = {
        "coil_voltage": "12 V", "coil_resistance": f"{coil_ohm} ohm (measured)", "contact_current": "60 A",
        "contact_voltage": "60 V",
    }  # fmt: skip
    return {
        "wiring.ampacity_table": table,
        "boards.quay.port_current": f"{port_A} A",
        "supplies.main.current": "100 A",
        "toys.bump.current": f"{current_A} A (measured)",
        "toys.bump.control": {"type": "relay", "board": "quay", "port": "2", "relay": relay},
        "toys.bump.feed": {"run": f"{run_m} m", "fuse": {"holder": holder}},
    }


@quick
@given(
    current_A=_number(0.1, 40),
    coil_ohm=_number(2, 900),
    port_A=_number(0.3, 20),
    run_m=_number(0.1, 20),
    table=st.sampled_from(sorted(families())),
    holder=st.sampled_from(sorted(all_fuse_series())),
)
def test_coil_is_below_its_fuse_and_its_fuse_within_the_thin_leads(
    plan_of, current_A, coil_ohm, port_A, run_m, table, holder
):
    """Coil <= its fuse <= what its leads carry (IEC 60364-4-43 433.1); its own is smaller than one that it shared."""
    case = plan_of(relayed(current_A, coil_ohm, port_A, run_m, table, holder))
    whole = sizing(case.description.build)
    fed, sized, circuit = whole.toys["bump"], case.toy.sized, case.toy.sized.circuit
    signal, own, smallest = fed.signal, sized.signal_fuse, whole.cabling.sizes()[0]
    guard = own or sized.fuse
    if guard.rating_A is None:
        return
    coil_A = 12 / float(coil_ohm)
    assert signal.load.design_current_A == pytest.approx(coil_A)
    assert guard.rating_A >= max(guard.needed_A, 1.5 * coil_A) * (1 - 1e-9)
    opens_at = FUSE_OPENS_AT[guard.series]
    assert signal.wire.ampacity_A >= max(guard.rating_A, opens_at * guard.rating_A / 1.45) * (1 - 1e-9)
    leads = [wire for wire in circuit.wires if wire.role.startswith("coil")]
    assert {wire.protected_by for wire in leads} == {guard.id}
    assert {wire.size for wire in leads} == {signal.wire.size.shown}
    if own is None:
        asked_A = max(1.5 * float(current_A), (float(current_A) + coil_A) / 0.75)
        assert sized.fuse.needed_A >= asked_A * (1 - 1e-9)
        return
    shared = draft(case.description.build, 1, "bump").fuse
    assert own.rating_A < shared.rating_A
    assert sized.fuse.rating_A <= shared.rating_A
    if own.rating_A <= 1:
        assert signal.wire.size == smallest


@quick
@given(data=builds())
def test_fuse_of_a_block_is_above_its_load_and_within_its_leads(planned, data):
    """Load <= fuse <= wire on the block's own feed, its fuse above every fuse behind it, or a finding says so."""
    plan = planned(data).plan
    for block in plan.blocks.values():
        found = {finding.code for finding in plan.findings if finding.path[:2] == ("blocks", block.slug)}
        toys = [plan.toys[slug].sized for slug in block.toys]
        load_A, rating_A = sum(toy.drawn_A[1] for toy in toys), block.fuse.rating_A
        assert math.isclose(block.load.design_current_A, load_A)
        if rating_A is None:
            assert "fuse-missing" in found
            continue
        largest = max((toy.fuse.rating_A or 0 for toy in toys), default=0)
        if rating_A < load_A * (1 - 1e-9) or rating_A <= largest:
            assert "fuse-below-load" in found
        if block.wire.ampacity_A < max(rating_A, FUSE_OPENS_AT[block.fuse.series] * rating_A / 1.45) * (1 - 1e-9):
            assert "fuse-above-wire" in found
        if not block.fuse.stated:
            assert rating_A >= load_A * (1 - 1e-9)
            assert rating_A > largest


@quick
@given(data=builds())
def test_supply_is_asked_for_what_its_lead_and_its_bare_feeds_carry(planned, data):
    """Kirchhoff's law of currents: what the toys, coils and inputs draw leaves the supply at its plus."""
    plan = planned(data).plan
    supply = plan.supplies["main"]
    fed = {slug: toy.sized for slug, toy in plan.toys.items() if toy.sized.supply_slug == "main"}
    first = {slug: plan.blocks[one.block_slug].fuse if one.block_slug else one.fuse for slug, one in fed.items()}
    lead_A = sum(one.drawn_A[1] for slug, one in fed.items() if first[slug].rating_A is not None)
    bare_A = sum(one.drawn_A[1] for slug, one in fed.items() if first[slug].rating_A is None)
    assert math.isclose(supply.wires[0].carries_A, lead_A, abs_tol=1e-9)
    assert math.isclose(supply.demand_A, lead_A + bare_A)
    assert math.isclose(supply.demand_A, sum(one.running_A[1] for one in supply.budget.branches))
    for one in fed.values():
        signals = [wire for wire in one.circuit.wires if wire.role in ("coil plus", "input plus")]
        loads = one.load.design_current_A
        assert math.isclose(one.drawn_A[1], loads + sum(wire.carries_A for wire in signals))
    assert supply.worst_A >= supply.demand_A * (1 - 1e-9)


@quick
@given(data=builds(most=1))
def test_block_never_lowers_the_drop(planned, data):
    """The same toy on wires of the same size loses more behind a fused block than straight from the supply."""
    size = "12 AWG" if data["units"] == "US" else "2.5 mm2"
    data["wiring"]["bundled_circuits"] = "2"
    data["supplies"]["main"]["fuse_block"]["wire"] = size
    data["boards"]["quay"]["return"] = {"wire": size}
    row = {"blocks": {"wharf": {"supply": "main", "feed": {"run": "1 m"}}}}
    straight, behind = (changed_feed(data, {"wire": size, "from": block}) | row for block in (None, "wharf"))
    plan = planned(behind).plan
    assume(plan.blocks["wharf"].fuse.rating_A is not None)
    through, direct = plan.toys["toy-0"].sized, planned(straight).toy.sized
    assert through.wire.drop_V > direct.wire.drop_V
    assert through.fuse.rating_A == direct.fuse.rating_A


def changed_feed(data, changes):
    """The same build with other keys in the feed of its only toy."""
    toy = data["toys"]["toy-0"]
    return data | {"toys": {"toy-0": toy | {"feed": toy["feed"] | changes}}}


@quick
@given(data=builds())
def test_drop_is_within_its_limit_or_told(planned, data):
    """By the figures of the plan itself."""
    plan = planned(data).plan
    limit = float(data["wiring"]["drop_limit"].removesuffix(" %"))
    for toy in plan.toys.values():
        if toy.sized.wire.drop_percent > limit * (1 + 1e-6):
            assert "drop-too-high" in levels(toy)


def coil_apart(sized):
    """Whether a relay's coil has left the load's fuse for one of its own: then the load's no longer feeds it."""
    return sized.coil is not None and sized.signal_fuse is not None


@quick
@given(data=builds(most=1), longer=st.floats(1.05, 4))
def test_longer_run_never_has_thinner_wire(planned, data, longer):
    """Up to the thickest there is."""
    toy = data["toys"]["toy-0"]
    run_m = float(toy["feed"]["run"].removesuffix(" m"))
    far = data | {"toys": {"toy-0": toy | {"feed": toy["feed"] | {"run": f"{min(30.0, run_m * longer):.4g} m"}}}}
    near_toy, far_toy = (planned(each).toy.sized for each in (data, far))
    assume(coil_apart(near_toy) == coil_apart(far_toy))
    near_wire, far_wire = near_toy.wire, far_toy.wire
    assert far_wire.area_mm2 >= near_wire.area_mm2
    assert far_wire.size != near_wire.size or far_wire.drop_V > near_wire.drop_V


@quick
@given(data=builds(most=1), more=st.floats(1.01, 3))
def test_more_current_never_has_a_smaller_fuse(planned, data, more):
    """Nor needs less."""
    toy = data["toys"]["toy-0"]
    toy["feed"]["fuse"] = {"holder": "blade"}
    high_A = float(re.search(r"to ([0-9.]+) A", toy["current"])[1])
    heavy = data | {"toys": {"toy-0": toy | {"current": f"{min(100.0, high_A * more):.4g} A (measured)"}}}
    light_toy, heavy_toy = (planned(each).toy.sized for each in (data, heavy))
    assume(coil_apart(light_toy) == coil_apart(heavy_toy))
    light_fuse, heavy_fuse = light_toy.fuse, heavy_toy.fuse
    assert heavy_fuse.needed_A >= light_fuse.needed_A * (1 - 1e-9)
    assert heavy_fuse.rating_A is None or heavy_fuse.rating_A >= light_fuse.rating_A


@quick
@given(data=builds(most=1))
def test_hotter_cabinet_never_has_thinner_wire_or_a_smaller_fuse(planned, data):
    """Both only lose by warm air."""
    found = [planned(data | {"wiring": data["wiring"] | {"inside_temperature": f"{air} °C"}}).toy.sized
             for air in (20, 40, 60)]  # fmt: skip
    for cool, warm in pairwise(found):
        assume(coil_apart(cool) == coil_apart(warm))
        assert warm.fuse.needed_A >= cool.fuse.needed_A
        assert warm.wire.ampacity_A <= cool.wire.ampacity_A or warm.wire.area_mm2 > cool.wire.area_mm2


@quick
@given(data=builds(most=1))
def test_thicker_wire_that_a_finding_proposes_mends_it(planned, data):
    """What is to be taken, and nothing together with it, is enough for the rule that was broken."""
    data["toys"]["toy-0"]["feed"]["wire"] = "14 AWG" if data["units"] == "US" else "1.5 mm2"
    for finding in planned(data).toy.findings:
        size = re.fullmatch(r"Take ([0-9.]+) (mm²|AWG) or thicker\.", finding.mend.replace("\u00a0", " "))
        if size:
            mended = {"wire": f"{size[1]} {size[2].replace('²', '2')}"}
            toy = data["toys"]["toy-0"]
            again = planned(data | {"toys": {"toy-0": toy | {"feed": toy["feed"] | mended}}})
            assert finding.code not in levels(again.toy)


# ---- circuit --------------------------------------------------------------------------------------------------------


@quick
@given(data=builds())
def test_wire_list_and_circuit_have_the_same_wires(planned, data):
    """Every wire of the circuit is listed, with the toy or as a shared lead, and the reverse."""
    plan = planned(data).plan
    leads = (*plan.supplies.values(), *plan.boards.values(), *plan.blocks.values())
    shared = {wire.id for one in leads for wire in one.wires}
    assert len(shared) == len(plan.supplies) + len(plan.boards) + 2 * len(plan.blocks)
    document = plan_json(plan)
    for slug, toy in document["toys"].items():
        drawn = {part["id"] for part in toy["circuit"]["parts"] if part["what"] == "wire"}
        own = {wire["id"] for wire in toy["wires"]}
        assert own <= drawn
        assert drawn - own <= shared
        assert {wire.id for wire in plan.toys[slug].sized.circuit.wires} == drawn


@quick
@given(data=builds())
def test_wire_ids_are_unique_in_a_build(planned, data):
    """A designator names one wire."""
    plan = planned(data).plan
    own = [wire.id for toy in plan.toys.values() for wire in toy.wires]
    leads = (*plan.supplies.values(), *plan.boards.values(), *plan.blocks.values())
    shared = [wire.id for one in leads for wire in one.wires]
    assert len(own + shared) == len(set(own + shared))


@quick
@given(data=builds())
def test_every_wire_end_stands_in_one_node(planned, data):
    """Nothing hangs in the air: each terminal and each end is in exactly one node, and no end is alone."""
    for toy in plan_json(planned(data).plan)["toys"].values():
        nodes = toy["circuit"]["nodes"]
        terminals = [terminal for node in nodes for terminal in node]
        assert len(terminals) == len(set(terminals))
        for wire in toy["wires"]:
            ends = {f"{wire['id']}:a": wire["from"], f"{wire['id']}:b": wire["to"]}
            for end, terminal in ends.items():
                assert terminal in next(node for node in nodes if end in node)


@quick
@given(data=builds())
def test_every_wire_is_sized_and_says_what_protects_it(planned, data):
    """Size, length, current and protection, never empty."""
    plan = planned(data).plan
    for toy in plan.toys.values():
        for wire in toy.sized.circuit.wires:
            assert wire.size
            assert wire.protected_by
            assert wire.length_m > 0
            assert wire.carries_A > 0


# ---- JSON -----------------------------------------------------------------------------------------------------------


def numbers(value, way=()):
    """Every number of a document with the keys that lead to it; a list has no keys of its own."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from numbers(inner, (*way, key))
    elif isinstance(value, list):
        for inner in value:
            yield from numbers(inner, way)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield way


def tells_its_unit(way):
    """By its key, by that of the range it ends, by the key `unit` beside it, or since it counts something."""
    key, above = way[-1], way[-2]
    counts = {"number", "count", "line", "column", "limit_share", "slip_safety"}
    beside = {"readings", "record", "worked"}  # these have a key `unit`
    return (
        key.endswith(UNITS) or key in counts or (key in {"low", "high"} and above.endswith(UNITS))
        or above in beside or "with" in way
    )  # fmt: skip


@quick
@given(data=builds())
def test_every_number_tells_its_unit(planned, data):
    """In its key, as the contract lists them."""
    document = plan_json(planned(data).plan)
    assert [way for way in numbers(document) if not tells_its_unit(way)] == []


@quick
@given(data=builds())
def test_document_is_strict_json(planned, data):
    """No NaN, no infinity; nothing is lost on the way; null stands nowhere, since what does not apply is absent."""
    document = plan_json(planned(data).plan)
    text = json.dumps(document, allow_nan=False)
    assert json.loads(text) == document
    assert ": null" not in text


@quick
@given(data=builds())
def test_every_worked_value_can_be_traced(planned, data):
    """Source, formula and unit; its candidates where it was chosen, its row where it was looked up."""
    document = plan_json(planned(data).plan)
    maps = [*document["toys"].values(), *document["supplies"].values(), *document["boards"].values(), document]
    for each in maps:
        ids = [worked["id"] for worked in each["worked"]]
        assert len(ids) == len(set(ids))
        for worked in each["worked"]:
            assert worked["source"]
            assert worked["formula"]
            assert worked["name"]
            if worked["shape"] == "table":
                assert worked["table"]
                assert worked["row"]
                assert worked["value"] == worked["result"]
            if worked["shape"] == "choice":
                assert isinstance(worked["candidates"], list)
            if worked["shape"] == "default":
                assert worked["formula"] == "default"


@quick
@given(data=builds())
def test_formula_evaluates_to_its_result(planned, data):
    """With the letters given beside it, and nothing else."""
    document = plan_json(planned(data).plan)
    maps = [*document["toys"].values(), *document["supplies"].values(), *document["boards"].values(), document]
    formulas = [worked for each in maps for worked in each["worked"] if worked["shape"] == "formula"]
    assert formulas
    for worked in formulas:
        shown = eval(worked["formula"], {"__builtins__": {}}, WORDS | worked["with"])
        assert shown == pytest.approx(worked["result"], rel=1e-5, abs=1e-9), worked
        assert set(worked["units"]) == set(worked["with"])


@quick
@given(data=builds())
def test_findings_stand_at_the_top_and_with_their_toy(planned, data):
    """Once at the top, as the same objects with the toy."""
    document = plan_json(planned(data).plan)
    for slug, toy in document["toys"].items():
        own = [finding for finding in document["findings"] if finding.get("toy") == slug]
        assert sorted(map(json.dumps, own)) == sorted(map(json.dumps, toy["findings"]))
    for finding in document["findings"]:
        assert finding["level"] in {level.value for level in Level}
        assert finding["message"].endswith(".")
        assert finding["expected"]
        assert finding["mend"]
        assert finding["where"]["line"] >= 1
        assert finding["where"]["column"] >= 1


@quick
@given(data=builds())
def test_lists_are_always_there(planned, data):
    """If empty, as []."""
    document = plan_json(planned(data).plan)
    for toy in document["toys"].values():
        for key in ("wires", "needs", "cautions", "readings", "steps", "worked", "findings"):
            assert isinstance(toy[key], list)
        assert toy["fuse"]["at"] == ("block plus" if "block" in toy else "supply plus") if "fuse" in toy else True
        assert toy["wire"]["governed_by"] in {*TIES, "smallest size", "stated"}


@quick
@given(data=builds())
def test_text_names_every_toy(planned, data):
    """For a terminal: plain spaces, one line a wire."""
    plan = planned(data).plan
    text = plan_text(plan)
    assert "\u00a0" not in text
    assert all(toy.name in text for toy in plan.toys.values())


# ---- steps ----------------------------------------------------------------------------------------------------------


@quick
@given(data=builds())
def test_steps_are_in_the_order_of_their_stages(planned, data):
    """Known stages, ids once, a hold of at most seven items."""
    order = {stage.id: place for place, stage in enumerate(STAGES)}
    holds = {stage.id for stage in STAGES if stage.hold}
    for toy in planned(data).plan.toys.values():
        places = [order[step.stage] for step in toy.steps]
        assert places == sorted(places)
        ids = [step.id for step in toy.steps]
        assert len(ids) == len(set(ids))
        for hold in holds:
            assert 0 < sum(step.stage == hold for step in toy.steps) <= 7


@quick
@given(data=builds())
def test_the_lead_at_the_supply_is_the_last_wire(planned, data):
    """Nothing is live while it is wired: after it only the ties are left."""
    for toy in planned(data).plan.toys.values():
        wiring = [step for step in toy.steps if step.stage == "wire"]
        assert "It is the last wire." in wiring[-2].text
        assert wiring[-1].id == "toy.wire.tidy"


@quick
@given(data=builds(), chance=st.randoms(use_true_random=False))
def test_step_ids_outlive_reordering_and_renaming(planned, data, chance):
    """Ticks and readings survive a rebuild."""
    before = {slug: [step.id for step in toy.steps] for slug, toy in planned(data).plan.toys.items()}
    slugs = list(data["toys"])
    chance.shuffle(slugs)
    renamed = data | {"toys": {slug: data["toys"][slug] | {"name": f"Another {slug}"} for slug in slugs}}
    after = {slug: [step.id for step in toy.steps] for slug, toy in planned(renamed).plan.toys.items()}
    assert before == after


@quick
@given(data=builds())
def test_readings_are_ranges_that_a_meter_can_show(planned, data):
    """Low below high, finite, not negative, with a unit and what to do outside."""
    for toy in planned(data).plan.toys.values():
        for reading in toy.readings:
            ends = [end for end in (reading.low, reading.high) if end is not None]
            assert ends or reading.unit in {"°", "μF"}  # a trimmer's place, a bought capacitor: only written down
            assert all(math.isfinite(end) and end >= 0 for end in ends)
            assert ends == sorted(ends)
            assert reading.unit
            assert reading.if_not


@quick
@given(data=builds())
def test_feed_with_a_fault_of_its_protection_holds_steps_back(planned, data):
    """A toy with a *must fix* says so, and so does the whole build."""
    plan = planned(data).plan
    for toy in plan.toys.values():
        assert toy.must_fix == any(finding.level is Level.MUST for finding in toy.findings)


@quick
@given(data=builds(), prefix=st.sampled_from(["Bow", "Ürsel", "C of", "unfused"]), length=st.integers(1, 200))
def test_short_text_of_a_circuit_stays_short(planned, data, prefix, length):
    """A text alternative of at most 120 characters, whatever the name."""
    data["toys"]["toy-0"]["name"] = (prefix + " long" * 50)[:length].strip()
    toy = planned(data).plan.toys["toy-0"]
    assert len(toy.words.short) <= 120
    assert length >= 20 or toy.name in toy.words.short


@quick
@given(data=builds())
def test_same_text_gives_the_same_plan(planned, data):
    """The middle is a function of data."""
    first, second = planned(data), planned(data)
    assert first.text == second.text
    assert replace(first.plan) == second.plan

"""Distribution blocks: their fuse, their leads and the toys behind them, against sums done here by hand in SI.

Ratings of blade fuses: ISO 8820-3. In <= Iz and I2 <= 1.45 Iz: IEC 60364-4-43 433.1. Resistances: IEC 60228 table 3.
Ampacity: IEC 60204-1 table 6, method B2. Margin 1.5, 2 mohm a contact, 0.1 V a blade fuse: common practice, no source.
"""

import re

import pytest

from guide_gen.controls import controls
from guide_gen.model.finding import Level
from guide_gen.planning.as_json import plan_json
from guide_gen.toys import kinds

WHARF = {"blocks": {"wharf": {"feed": {"run": "2 m"}}}}
BEHIND = WHARF | {"toys.bump.feed.from": "wharf"}
FAN = {
    "kind": "blower fan",
    "voltage": "12 V",
    "current": "1.4 A (measured)",
    "motor_type": "brushless",
    "control": {"type": "always on"},
    "feed": {"run": "0.5 m", "from": "wharf"},
}
BOTH = BEHIND | {"toys.fan": FAN}
OHM_PER_M = {"0.75 mm²": 26.0e-3, "1 mm²": 19.5e-3, "1.5 mm²": 13.3e-3, "2.5 mm²": 7.98e-3, "4 mm²": 4.95e-3}
TABLE_A = {"0.75 mm²": 8.5, "1 mm²": 10.1, "1.5 mm²": 13.1, "2.5 mm²": 17.4, "4 mm²": 23.0}


def run_ohm(size, length_m, current_A):
    """A run at the temperature that its current gives it: 30 K above air of 40 °C at its whole ampacity."""
    warm = 40 + 30 * (current_A / TABLE_A[size]) ** 2
    return OHM_PER_M[size] * (1 + 0.00393 * (warm - 20)) * length_m


@pytest.fixture(scope="module", name="both")
def _both(plan_of):
    return plan_of(BOTH)


# ---- its fuse -------------------------------------------------------------------------------------------------------


def test_fuse_of_a_block_is_sized_for_the_sum_behind_it(both):
    """2 A + 1.4 A, times 1.5: 5.1 A needed, so 7.5 A; it sits at the supply."""
    block = both.plan.blocks["wharf"]
    assert block.load.design_current_A == pytest.approx(3.4)
    assert block.fuse.needed_A == pytest.approx(5.1)
    assert (block.fuse.rating_A, block.fuse.governed_by, block.fuse.at) == (7.5, "margin", "supply plus")


def test_toys_behind_it_keep_a_fuse_each_at_the_block(both):
    """2 A needs 3 A, 1.4 A needs 2.1 A: 3 A."""
    found = {slug: (toy.sized.fuse.rating_A, toy.sized.fuse.at) for slug, toy in both.plan.toys.items()}
    assert found == {"bump": (3.0, "block plus"), "fan": (3.0, "block plus")}


def test_continuous_rule_holds_for_a_block_too(plan_of):
    """At 70 °C k_T is 0.825: 3.4 A / (0.75 x 0.825) = 5.49 A, above the margin's 5.1 A."""
    block = plan_of(BOTH | {"wiring.inside_temperature": "70 °C", "wiring.insulation": "90 °C",
                            "wiring.ampacity_table": "NFPA 70 310.16"}).plan.blocks["wharf"]  # fmt: skip
    assert block.fuse.governed_by == "continuous"
    assert block.fuse.needed_A == pytest.approx(3.4 / (0.75 * 0.825))


def test_fuse_of_a_block_is_larger_than_every_fuse_behind_it(plan_of):
    """One toy of 2 A has 3 A; the block needs no more by its load, and gets 4 A so that the smaller opens first."""
    block = plan_of(BEHIND).plan.blocks["wharf"]
    assert (block.fuse.rating_A, block.fuse.needed_A) == (4.0, pytest.approx(3.0))
    stated = plan_of(BEHIND | {"toys.bump.feed.fuse": {"rating": "7.5 A"}}).plan.blocks["wharf"]
    assert (stated.fuse.rating_A, stated.fuse.governed_by) == (10.0, "fuse behind")


@pytest.mark.parametrize(
    ("behind", "own", "words"),
    [
        # 7.5 to 4 is 1.9, 7.5 to 5 is 1.5; 1.6 to 1 is common practice, no source
        ("4 A", "7.5 A", "usually does too"),
        ("5 A", "7.5 A", "both may open"),
    ],
)
def test_page_says_whether_two_fuses_in_series_may_both_open(plan_of, behind, own, words):
    """Honest words: nothing but the makers' curves can promise it."""
    changes = {"toys.bump.feed.fuse": {"rating": behind}, "blocks.wharf.feed.fuse": {"rating": own}}
    says = " ".join(plan_of(BEHIND | changes).plan.blocks["wharf"].says)
    assert words in says


# ---- its leads ------------------------------------------------------------------------------------------------------


def test_leads_of_a_block_may_lose_half_of_the_drop_limit(both):
    """All its toys on: 3.4 A through 4 m of lead, 0.15 m of the supply's, six contacts and 7.5 A of fuse; 0.3 V."""
    plan = both.plan
    lead, block = plan.supplies["main"].wires[0], plan.blocks["wharf"]

    def drop_V(size):
        wire = run_ohm(lead.size, 0.15, 3.4) + run_ohm(size, 4.0, 3.4)
        return 3.4 * (wire + 6 * 0.002 + 0.1 / 7.5)

    assert drop_V("1 mm²") > 0.5 * 0.05 * 12
    assert drop_V("1.5 mm²") < 0.5 * 0.05 * 12
    assert block.wire.size.shown == "1.5 mm²"
    assert block.wire.governed_by == "drop"
    assert block.wire.drop_V == pytest.approx(drop_V("1.5 mm²"), rel=1e-3)
    assert [wire.size for wire in block.wires] == ["1.5 mm²", "1.5 mm²"]
    assert [wire.protected_by for wire in block.wires] == [block.fuse.id] * 2


def test_fuse_governs_the_leads_of_a_short_block(plan_of):
    """20 A x 1.5 = 30 A is the fuse behind it; 35 A before it asks for Iz >= 35 A: 10 mm2 (6 mm2: 30 A)."""
    block = plan_of(
        BEHIND
        | {
            "toys.bump.current": "20 A (measured)",
            "blocks.wharf.feed.run": "0.2 m",
            "supplies.main.current": "60 A",
        }
    ).plan.blocks["wharf"]
    assert (block.fuse.rating_A, block.wire.size.text, block.wire.governed_by) == (35.0, "10 mm2", "fuse")


def test_plus_lead_carries_the_sum_and_the_other_what_returns(both):
    """What the port switches goes back to its board: only the fan's 1.4 A come back to the block."""
    feed, back = both.plan.blocks["wharf"].wires
    assert (feed.start, feed.end, feed.carries_A) == ("F3:2", "X1:+", pytest.approx(3.4))
    assert (back.start, back.end, back.carries_A) == ("X1:0V", "T1:0V", pytest.approx(1.4))


def test_own_length_of_the_return_counts(plan_of):
    """4 m back instead of 2 m lose more."""
    near, far = (
        plan_of(BOTH | {"blocks.wharf.feed": {"run": "2 m", "wire": "2.5 mm2"} | back}).plan
        for back in ({}, {"return_run": "4 m"})
    )
    assert far.blocks["wharf"].wire.drop_V > near.blocks["wharf"].wire.drop_V
    assert far.toys["fan"].sized.wire.drop_V > near.toys["fan"].sized.wire.drop_V
    assert far.toys["bump"].sized.wire.drop_V == near.toys["bump"].sized.wire.drop_V


# ---- what is shared with others -------------------------------------------------------------------------------------


def test_lead_before_the_fuses_counts_the_fuse_of_the_block(plan_of):
    """7.5 A of the block instead of 3 A + 3 A behind it, and 3 A of a toy that is fed straight."""
    plan = plan_of(BOTH | {"toys.other": FAN | {"feed": {"run": "1 m"}}}).plan
    needed = next(one for one in plan.supplies["main"].worked if one.id == "lead.main.needed")
    assert needed.numbers["I_n"] == pytest.approx(7.5 + 3.0)


def test_return_of_a_board_counts_what_bounds_it(plan_of):
    """One toy of three behind the block returns to the board: its own 3 A. All of them: never more than the block's."""
    one = plan_of(BOTH).plan
    needed = next(each for each in one.boards["quay"].worked if each.id == "return.quay.needed")
    assert needed.numbers["I_n"] == pytest.approx(3.0)
    ports = {f"toys.more{port}": FAN | {"current": "1.4 A (measured)", "control":
             {"type": "on/off port", "board": "quay", "port": str(port)}} for port in (3, 4, 5)}  # fmt: skip
    many = plan_of(BEHIND | ports).plan  # 2 A + 3 x 1.4 A = 6.2 A: 10 A; behind it four times 3 A
    needed = next(each for each in many.boards["quay"].worked if each.id == "return.quay.needed")
    assert many.blocks["wharf"].fuse.rating_A == 10.0
    assert needed.numbers["I_n"] == pytest.approx(10.0)


def test_supply_lists_the_block_before_its_toys(plan_of):
    """Its fuse, its leads, the sum."""
    plan = plan_of(BOTH | {"toys.other": FAN | {"feed": {"run": "1 m"}}}).plan
    rows = plan.supplies["main"].budget.rows
    assert [one.name for one in rows] == ["Other", "Block wharf", "Bump", "Fan"]
    assert rows[1].running_A[1] == pytest.approx(3.4)
    assert plan.supplies["main"].demand_A == pytest.approx(3.4 + 1.4)


def test_feed_of_a_block_is_one_of_the_bundled_circuits(plan_of):
    """Two toys and the block's lead: three circuits, factor 0.70 (IEC 60204-1)."""
    wire = plan_of(BOTH | {"wiring.bundled_circuits": None}).plan.toys["fan"].sized.wire
    assert wire.ampacity_A == pytest.approx(8.5 * 0.70)


# ---- a toy behind it ------------------------------------------------------------------------------------------------


def test_drop_of_a_toy_counts_the_leads_and_the_fuse_of_its_block(both):
    """Always on, 1.4 A: supply lead, 2 m there, 0.5 m, 0.5 m, 2 m back; ten contacts; both fuses."""
    plan = both.plan
    lead = plan.supplies["main"].wires[0]
    wire = run_ohm(lead.size, 0.15, 1.4) + run_ohm("1.5 mm²", 4.0, 1.4) + run_ohm("0.75 mm²", 1.0, 1.4)
    ohm = wire + 10 * 0.002 + 0.1 / 3 + 0.1 / 7.5
    assert plan.toys["fan"].sized.wire.drop_V == pytest.approx(1.4 * ohm, rel=1e-3)


def test_return_of_a_port_does_not_pass_the_block(both):
    """It goes to the board, as without a block."""
    main = both.plan.toys["bump"].sized.circuit.main
    assert main == ("T1", "W1", "F3", "W3", "X1", "F1", "W11", "M1", "W12", "A1", "W2", "T1")


def test_return_of_a_toy_that_is_always_on_passes_the_block(both):
    """And from there the block's own 0 V lead."""
    main = both.plan.toys["fan"].sized.circuit.main
    assert main == ("T1", "W1", "F3", "W3", "X1", "F2", "W21", "M2", "W22", "X1", "W4", "T1")


def test_short_circuit_behind_a_block_is_weaker(plan_of):
    """By its leads: 12 V less 5 % over the loop, with the high end of the contacts, 5 mohm each."""
    weak = {"supplies.main.current": "90 A", "supplies.main.current_limit": "900 A (datasheet)"}
    plan = plan_of(BOTH | weak | {"blocks.wharf.feed.wire": "1.5 mm2"}).plan
    lead = plan.supplies["main"].wires[0]
    wire = run_ohm(lead.size, 0.15, 1.4) + run_ohm("1.5 mm²", 4.0, 1.4) + run_ohm("0.75 mm²", 1.0, 1.4)
    ohm = wire + 10 * 0.005 + 0.1 / 3 + 0.1 / 7.5
    found = plan.toys["fan"].protection.fault_A
    assert found == pytest.approx(11.4 / ohm, rel=1e-3)
    assert plan.toys["fan"].protection.wire == "0.75 mm²"


def test_step_fits_both_fuses_and_measures_the_block(both):
    """Its lead too is free of shorts before any power."""
    steps = {step.id: step.text.replace("\u00a0", " ") for step in both.plan.toys["bump"].steps}
    assert "F3, 7.5 A, and F1, 3 A" in steps["toy.first.fuse"]
    assert "X1:+ to T1:0V" in steps["toy.dead.short"]
    assert "holder of F3 beside the supply" in steps["toy.wire.holder"]
    assert steps["toy.wire.block-feed"].startswith("Run W3, RD, 1.5 mm², 2 m")


def test_step_and_parts_list_agree_on_what_holds_a_fuse_at_the_supply(plan_of):
    """One fuse there has a holder; several share a fuse block, a distribution block's own among them."""

    def told(case, id):
        steps = [step.text for toy in case.plan.toys.values() for step in toy.steps if step.id == "toy.wire.holder"]
        needs = [*case.plan.needs, *(one for toy in case.plan.toys.values() for one in toy.needs)]
        holder = next(one.note for one in needs if (one.what, one.used_for) == ("Fuse holder", id))
        return holder, next(text for text in steps if id in text), [one.what for one in needs]

    holder, step, needs = told(plan_of(), "F1")
    assert holder == "beside the supply"
    assert "the holder of F1 beside the supply" in step
    assert "Fuse block" not in needs
    other = {"toys.other": FAN | {"feed": {"run": "1 m"}}}
    for changes, id in ((other, "F1"), (BOTH | other, "F4")):
        holder, step, needs = told(plan_of(changes), id)
        assert holder == "a position of the fuse block beside T1"
        assert f"the fuse block beside T1, where {id} sits" in step
        assert "Fuse block" in needs


@pytest.mark.parametrize("control", sorted(controls()))
@pytest.mark.parametrize("kind", sorted(kinds()))
def test_hold_behind_a_block_has_at_most_seven_items(any_toy, kind, control):
    """For every kind on every control; a hold that is longer is not read."""
    toy = any_toy(kind, control, BEHIND).toy
    assert sum(step.stage == "dead-checks" for step in toy.steps) <= 7


def test_words_lead_through_the_block(both):
    """From + to 0 V."""
    words = both.plan.toys["fan"].words
    assert "feeds the distribution block X1 through the fuse F3, and X1 feeds the fan M2" in words.sentence
    stops = [text for sort, text, _ in words.chain if sort == "stop"]
    assert stops == ["T1:+", "F3:1 to F3:2", "X1:+", "F2:1 to F2:2", "M2:1 to M2:2", "X1:0V", "T1:0V"]


def test_needs_hold_the_block_once_for_the_build(both):
    """Block, holder and fuses of its own; a toy's fuse takes one of its positions."""
    shared = [(need.what, need.used_for) for need in both.plan.needs[:3]]
    assert shared == [("Distribution block", "X1"), ("Fuse holder", "F3"), ("Fuse", "F3")]
    own = {need.used_for: need.note for need in both.plan.toys["fan"].needs if need.what == "Fuse holder"}
    assert own == {"F2": "a position of X1"}


def test_supply_of_a_toy_is_that_of_its_block(plan_of):
    """With several supplies, the block says which."""
    changes = BEHIND | {
        "supplies.high": {"voltage": "12 V", "current": "10 A", "overload": "restarts"},
        "boards.quay.supply": "main",
        "blocks.wharf.supply": "high",
        "boards.quay.common_return": ["main", "high"],
    }
    assert plan_of(changes).toy.sized.supply_slug == "high"


def test_document_has_the_block(both):
    """For other programs."""
    document = plan_json(both.plan)
    wharf = document["blocks"]["wharf"]
    assert wharf["load_A"] == pytest.approx(3.4)
    assert wharf["fuse"]["rating_A"] == 7.5
    assert wharf["wire"]["size"] == "1.5 mm2"
    assert [wire["id"] for wire in wharf["wires"]] == ["W3", "W4"]
    assert document["toys"]["fan"]["block"] == "wharf"
    assert plan_json(both.plan)["toys"]["bump"]["wires"][0]["protected_by"] == "F1"


# ---- what is wrong with it ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("feed", "code", "level", "key"),
    [
        ({"fuse": "none"}, "fuse-missing", Level.MUST, "fuse"),
        # 3.4 A: continuous 4.9 A, margin 5.1 A; fuses of 3 A behind it
        ({"fuse": {"rating": "4 A"}}, "fuse-below-load", Level.MUST, "rating"),
        ({"fuse": {"rating": "5 A"}}, "fuse-below-load", Level.SHOULD, "rating"),
        ({"fuse": {"rating": "7.5 A"}}, None, None, None),
        # 10 A behind 0.75 mm2, which carries 8.5 A; 1 mm2 carries 10.1 A
        ({"run": "0.5 m", "fuse": {"rating": "10 A"}, "wire": "0.75 mm2"}, "fuse-above-wire", Level.MUST, "wire"),
        ({"run": "0.5 m", "fuse": {"rating": "10 A"}, "wire": "1 mm2"}, None, None, None),
        # 5 % of 12 V is 0.6 V; 3.4 A x 8 m x 26 mohm/m is 0.71 V, with 13.3 mohm/m 0.36 V; fuse and contacts 0.09 V
        ({"run": "4 m", "wire": "0.75 mm2"}, "drop-too-high", Level.SHOULD, "wire"),
        ({"run": "4 m", "wire": "1.5 mm2"}, None, None, None),
        # a cartridge loses 3.4 A x 0.2 V / 6 A = 0.11 V, with six contacts half of the half: then all of it may be lost
        ({"fuse": {"holder": "5 x 20 mm UL", "dc_voltage": "60 V"}}, None, None, None),
        # a cartridge shows its AC voltage only
        ({"run": "0.2 m", "fuse": {"holder": "5 x 20 mm"}}, "fuse-voltage", Level.SHOULD, "fuse"),
    ],
)
def test_finding_of_the_feed_of_a_block(plan_of, feed, code, level, key):
    """What its fuse and leads must be; it concerns no single toy."""
    found = plan_of(BOTH | {"blocks.wharf.feed": {"run": "2 m"} | feed}).plan.findings
    told = [(one.code, one.level, one.toy) for one in found if one.path[:2] == ("blocks", "wharf")]
    assert told == ([(code, level, "")] if code else [])
    if code:
        assert any(key in one.path for one in found if one.code == code)


def test_lead_as_short_as_the_drop_of_a_block_asks_for_keeps_it(plan_of):
    """With the thickest wire; a longer one by more than a fiftieth does not."""
    far = BOTH | {"toys.bump.current": "8 A (measured)"}

    def told(run):
        found = plan_of(far | {"blocks.wharf.feed": {"run": run}}).plan.findings
        return [one.mend for one in found if one.code == "drop-too-high" and one.path[0] == "blocks"]

    run_m = float(re.search(r"Shorten its lead to ([\d.]+)\sm ", told("30 m")[0])[1])
    assert not told(f"{run_m} m")
    assert told(f"{1.02 * run_m} m")


def test_fuse_that_is_no_larger_than_one_behind_it_is_told(plan_of):
    """7.5 A before 7.5 A: either may open."""
    changes = {"toys.fan.feed.fuse": {"rating": "7.5 A"}, "blocks.wharf.feed.fuse": {"rating": "7.5 A"}}
    finding = plan_of(BOTH | changes).finding("fuse-below-load")
    assert (finding.level, finding.path) == (Level.SHOULD, ("blocks", "wharf", "feed", "fuse", "rating"))
    assert "Fit 10" in finding.mend


def test_supply_that_cannot_open_the_fuse_of_a_block_is_told(plan_of):
    """It limits at 12 A; 7.5 A opens within 5 s from 15 A on (ISO 8820-3, 2.0 x), and 1.5 mm2 carries 13.1 A."""
    supply = {"supplies.main": {"current_limit": "12 A (datasheet)", "overload": "limits"}}
    finding = next(one for one in plan_of(BOTH | supply).plan.findings if one.path[0] == "blocks")
    assert (finding.code, finding.level) == ("fuse-cannot-open", Level.SHOULD)
    assert "15" in finding.expected
    strong = {"supplies.main": {"current_limit": "16 A (datasheet)", "overload": "limits"}}
    assert [one for one in plan_of(BOTH | strong).plan.findings if one.path[0] == "blocks"] == []


def test_toy_without_a_fuse_behind_a_block_is_told(plan_of):
    """The block's fuse is made for all its toys, not for this toy's wire."""
    finding = plan_of(BOTH | {"toys.fan.feed.fuse": "none"}).finding("fuse-missing")
    assert (finding.level, finding.toy) == (Level.MUST, "fan")
    assert "F3" in finding.message
    assert finding.expected.endswith("at X1")


def test_block_that_feeds_nothing_is_left_out_with_a_note(plan_of):
    """What cannot be worked out is absent, and a finding says which key would give it."""
    case = plan_of(WHARF)
    (finding,) = [each for each in case.plan.findings if each.code == "not-worked-out" and not each.toy]
    assert (finding.level, finding.path) == (Level.NOTE, ("blocks", "wharf"))
    assert case.plan.blocks == {}


def test_series_that_is_too_small_for_all_toys_is_told(plan_of):
    """16 A + 1.4 A need 26 A; the holder's series ends at 10 A."""
    changes = {
        "toys.bump.current": "16 A (measured)",
        "toys.bump.feed.fuse": {"holder": "blade"},
        "blocks.wharf.feed.fuse": {"holder": "5 x 20 mm", "dc_voltage": "60 V"},
    }
    found = plan_of(BOTH | changes).plan.findings
    assert [one.path[-1] for one in found if one.code == "fuse-missing"] == ["holder"]

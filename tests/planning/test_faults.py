"""Short circuits: can the supply open the fuse, and does the wire stand it until then.

Gates of blade fuses: ISO 8820-3 (from memory): at 2.0 times its rating a fuse has opened within 5 s. Heat of the wire:
IEC 60364-4-43 434.5.2, k = 115 for PVC from 70 to 160 °C (looked-up). A supply's limit: IEC 60364-4-43 432.
"""

import re

import pytest

from guide_gen.model.finding import Level

LIMITS = {"supplies.main.overload": "limits"}


def limited(limit, **more):
    """A supply that limits its current, before a 10 A blade fuse (6 A x 1.5 = 9 A)."""
    return LIMITS | {
        "supplies.main.current_limit": limit,
        "toys.bump.current": "6 A (measured)",
        "toys.bump.feed.run": "1.8 m",
    } | more  # fmt: skip


def test_supply_that_gives_twice_the_rating_opens_the_fuse(plan_of):
    """2.0 x 10 A within 5 s: nothing to say; a tenth of an ampere less: the fuse may stay whole."""
    assert "fuse-cannot-open" not in plan_of(limited("20.1 A (datasheet)")).codes
    assert "fuse-cannot-open" in plan_of(limited("19.8 A (datasheet)")).codes


def test_wire_that_burns_behind_a_fuse_that_stays_whole_must_be_mended(plan_of):
    """1.5 mm² carries 13.1 A at 40 °C (IEC 60204-1 table 6), the supply gives 18 A for ever."""
    case = plan_of(limited("18 A (datasheet)", **{"toys.bump.feed.wire": "1.5 mm2"}))
    finding = case.finding("fuse-cannot-open")
    assert finding.level is Level.MUST
    assert "18\u00a0A" in finding.message
    assert "20\u00a0A" in finding.mend
    assert case.above(finding)[-1] == "feed"


@pytest.mark.parametrize(
    ("limit", "size", "governed"),
    [("20.1 A", "1 mm2", "fuse"), ("17.3 A", "2.5 mm2", "supply limit"), ("17.6 A", "4 mm2", "supply limit")],
)
def test_wire_left_open_carries_for_ever_what_opens_no_fuse(plan_of, limit, size, governed):
    """IEC 60204-1 table 6 at 40 °C, one circuit: 2.5 mm² carries 17.4 A. The fuse of 10 A needs 20 A."""
    case = plan_of(limited(f"{limit} (datasheet)", **{"toys.bump.feed.run": "1 m"}))
    assert (case.toy.sized.wire.size.text, case.toy.sized.wire.governed_by) == (size, governed)
    assert all(finding.level is Level.SHOULD for finding in case.plan.findings if finding.code == "fuse-cannot-open")


@pytest.mark.parametrize("overload", ["restarts", "switches off", "not known"])
def test_supply_that_is_not_known_to_limit_asks_for_no_thicker_wire(plan_of, overload):
    """One that stops by itself protects the wire; what another does is asked for."""
    wire = plan_of(limited("18 A (datasheet)", **{"supplies.main.overload": overload, "toys.bump.feed.run": "1 m"}))
    assert wire.toy.sized.wire.governed_by == "fuse"


def test_wire_that_carries_the_supplys_limit_is_protected_by_the_supply(plan_of):
    """4 mm² carries 23 A at 40 °C (IEC 60204-1 table 6): the supply protects it, which is worth knowing."""
    finding = plan_of(limited("18 A (datasheet)", **{"toys.bump.feed.wire": "4 mm2"})).finding("fuse-cannot-open")
    assert finding.level is Level.SHOULD
    assert "the supply protects it" in finding.message


def test_unknown_overload_is_asked_for(plan_of):
    """Not known is an answer that has to be looked up."""
    case = plan_of({"supplies.main.overload": "not known"})
    finding = case.finding("fuse-cannot-open")
    assert finding.level is Level.SHOULD
    assert "data sheet" in finding.mend
    assert case.at(finding) == "not known"


@pytest.mark.parametrize("overload", ["restarts", "switches off"])
def test_supply_that_stops_by_itself_protects_the_wire(plan_of, overload):
    """Nothing to mend: all toys on it stop."""
    changes = limited("12 A (datasheet)") | {"supplies.main.overload": overload}
    assert "fuse-cannot-open" not in plan_of(changes).codes


def test_long_thin_wire_keeps_the_fault_below_what_opens_the_fuse(plan_of):
    """Lessons In Electric Circuits volume I, conductors: a long thin wire bounds even a short circuit."""
    finding = plan_of(far()).finding("fuse-cannot-open")
    assert "the resistance of the run bounds it, not main" in finding.message
    assert "supply" not in finding.mend
    assert finding.level is Level.SHOULD
    assert "The wire carries that current" in finding.message


LOSSY = {"wiring.drop_limit": "30 %"}


def far(run="25 m", wire="0.75 mm2", rating="5 A", **more):
    """A strong supply before a long thin run and a 5 A blade fuse."""
    return LIMITS | {
        "supplies.main.current": "80 A",
        "toys.bump.feed": {"run": run, "wire": wire, "fuse": {"rating": rating}},
    } | more  # fmt: skip


def test_long_run_is_mended_by_each_way_that_is_told(plan_of):
    """2.0 x 5 A must flow (ISO 8820-3, from memory): a smaller fuse, a thicker wire or a shorter run, each alone."""
    mend = plan_of(far(**LOSSY)).finding("fuse-cannot-open").mend.replace("\u00a0", " ")
    fuse, size, run = re.fullmatch(
        r"Fit ([\d.]+ A); or keep F1 of 5 A and take ([\d.]+) mm² or thicker; or shorten the run to ([\d.]+ m) .*\.",
        mend,
    ).groups()
    thinner = {"1.5": "1", "1": "0.75"}[size]
    for enough in (far(run=run, **LOSSY), far(wire=f"{size} mm2", **LOSSY), far(rating=fuse, **LOSSY)):
        assert "fuse-cannot-open" not in plan_of(enough).codes
    longer = f"{1.03 * float(run.removesuffix(' m')):.2f} m"
    for short in (far(run=longer), far(wire=f"{thinner} mm2"), far(rating="4 A")):
        assert "fuse-cannot-open" in plan_of(short).codes


def test_long_run_that_loses_too_much_is_mended_by_the_wire_that_its_drop_asks_for(plan_of):
    """One wire for both: it lets enough flow for the fuse as it is."""
    plan = plan_of(far()).plan
    mends = {one.code: one.mend for one in plan.findings if one.level is not Level.NOTE}
    assert set(mends) == {"fuse-cannot-open", "drop-too-high"}
    assert len(set(mends.values())) == 1


def test_long_run_that_carries_less_than_its_short_circuit_must_be_mended(plan_of):
    """0.75 mm² carries 8.5 A at 40 °C (IEC 60204-1 table 6); 12 V across some 16 m of it give more."""
    changes = far(run="16 m", rating="7.5 A")
    finding = plan_of(changes).finding("fuse-cannot-open")
    assert finding.level is Level.MUST
    assert "8.5\u00a0A: it overheats" in finding.message


def test_long_run_behind_a_weak_supply_is_told_of_the_supply_first(plan_of):
    """Where the supply gives less still, it is what bounds the current (this project)."""
    weak = {"supplies.main.current": "5 A", "supplies.main.current_limit": "6 A (datasheet)"}
    assert "main limits its current" in plan_of(far(**weak)).finding("fuse-cannot-open").message


def test_working_of_a_short_circuit_is_shown(plan_of):
    """Current, heat that passes and heat that the wire stands, (115 x 0.75)² = 7439 A²s."""
    case = plan_of(LIMITS)
    working = {worked.id: worked for worked in case.toy.worked}
    assert float(working["fault.withstand"].result) == pytest.approx((115 * 0.75) ** 2, rel=1e-6)
    assert float(working["fault.current"].result) > 0
    assert float(working["fault.let-through"].result) < float(working["fault.withstand"].result)


def test_wire_that_melts_before_the_fuse_opens_is_too_thin(plan_of):
    """A 40 A fuse lets (2 x 40)² x 5 = 32000 A²s pass; 0.75 mm² stands 7439 A²s."""
    changes = LIMITS | {
        "supplies.main.current": "90 A",
        "supplies.main.current_limit": "95 A (datasheet)",
        "toys.bump.feed": {"run": "0.5 m", "wire": "0.75 mm2", "fuse": {"rating": "40 A"}},
    }
    messages = [each.message for each in plan_of(changes).plan.findings if each.code == "wire-too-thin"]
    assert any("short circuit" in message for message in messages)


# ---- too much voltage lost -------------------------------------------------------------------------------------------


def lossy(run, **more):
    """A toy of 6 A at the end of a run that no wire of IEC 60204-1 table 6 bridges within 5 % of 12 V."""
    return LIMITS | {"toys.bump.current": "6 A (measured)", "toys.bump.feed": {"run": run} | more}


@pytest.mark.parametrize("wire", ["2.5 mm2", "16 mm2", None])
def test_run_that_a_mend_of_the_drop_names_is_short_enough_and_not_much_too_short(plan_of, wire):
    """Ohm's law: with the thickest wire, at that run and up to a fiftieth more, and no further."""
    mend = (
        plan_of(lossy("30 m", **({"wire": wire} if wire else {}))).finding("drop-too-high").mend.replace("\u00a0", " ")
    )
    run_m = float(re.search(r"horten the run to ([\d.]+) m ", mend)[1])
    assert ("16 mm² and shorten" in mend) == (wire == "2.5 mm2")
    assert "drop-too-high" not in plan_of(lossy(f"{run_m} m")).codes
    assert "drop-too-high" in plan_of(lossy(f"{1.02 * run_m} m")).codes


def test_voltage_that_a_mend_of_the_drop_names_keeps_it(plan_of):
    """As much power at 24 V draws half the current, and loses a quarter as large a share of it."""
    mend = plan_of(lossy("30 m")).finding("drop-too-high").mend.replace("\u00a0", " ")
    assert "a toy and a supply of 24 V: as much power then draws 3 A, and 16 mm² loses about" in mend
    higher = {"supplies.main.voltage": "24 V", "toys.bump.voltage": "24 V", "toys.bump.current": "3 A (measured)"}
    plan = plan_of(lossy("30 m", wire="16 mm2") | higher)
    assert "drop-too-high" not in plan.codes
    told_V = float(re.search(r"loses about ([\d.]+) V", mend)[1])
    assert plan.toy.sized.wire.drop_V == pytest.approx(told_V, rel=0.05)


def test_thicker_wire_that_keeps_the_drop_is_named_alone(plan_of):
    mend = plan_of(lossy("5 m", wire="1.5 mm2")).finding("drop-too-high").mend
    assert mend == "Take 6 mm² or thicker."
    assert "drop-too-high" not in plan_of(lossy("5 m", wire="6 mm2")).codes
    assert "drop-too-high" in plan_of(lossy("5 m", wire="4 mm2")).codes

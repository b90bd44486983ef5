"""Builds written from the printed language alone, as by a new user: they pass, and their headline values stay."""

from pathlib import Path

import pytest

from guide_gen.model.finding import Level

FOLDER = Path(__file__).parent
WINDING = {"not-worked-out"}  # the printed language does not ask for the winding of a motor

# Fuse needed and rating in A, size of wire and what governs it, drop in percent, codes that are told.
# Worked out by hand beside each: margin x current; tables of the family; the drop within its limit.
HEADLINES = {
    "smallest": {
        # 1.9 x 1.5 = 2.85; 1.95 m at 28 mohm/m, fuse 33 mohm, six contacts: 0.10 ohm x 1.9 A = 0.19 V
        "bump": (2.85, 3.0, "0.75 mm2", "smallest size", 1.6, WINDING),
    },
    "small-12-v": {
        # 2.6 x 1.5 = 3.9; two circuits: 0.75 mm2 carries 8.5 x 0.80 x sqrt(35/30) = 7.3 A; 0.147 ohm x 2.6 A = 0.38 V
        "nose-shaker": (3.9, 4.0, "0.75 mm2", "smallest size", 3.2, WINDING),
        # 0.9 x 1.5 = 1.35
        "head-fan": (1.35, 2.0, "0.75 mm2", "smallest size", 1.6, WINDING),
    },
    "everything-stated": {
        # 3.5 x 1.6 = 5.6; stated 6.3 A before 2.5 mm2, which carries 20 x 0.70 x sqrt(25/40) = 11.1 A;
        # 3.5 A lose 0.11 V more in the cartridge of the return, 0.2 V / 6.3 A
        "keel": (5.6, 6.3, "2.5 mm2", "stated", 1.9, {"estimate-used"}),
        # 1.2 x 1.6 = 1.92; stated 2 A before 1.5 mm2, which carries 15 x 0.70 x sqrt(25/40) = 8.3 A
        "gale": (1.92, 2.0, "1.5 mm2", "stated", 0.5, WINDING),
    },
    "row-of-fuses": {
        # 1.0 x 1.5; block's lead 5.0 m of 0.75 mm2 and 2.5 m of its own: with both fuses and the port 0.27 ohm
        "draught": (1.5, 2.0, "0.75 mm2", "smallest size", 1.1, WINDING),
        # 0.5 x 1.5 = 0.75; always on, 5.8 m of 0.75 mm2 and ten contacts: 0.32 ohm x 0.5 A = 0.16 V
        "stove": (0.75, 1.0, "0.75 mm2", "smallest size", 0.7, set()),
        # 0.6 x 1.5 = 0.9; straight from the supply
        "wash": (0.9, 1.0, "0.75 mm2", "smallest size", 0.6, WINDING),
    },
    "behind-relays": {
        # 20 x 1.5, the coil behind 1 A of its own; 6 mm2 carries 30 A; 37 mohm in wire, fuse, contacts x 20 A = 0.73 V
        "gale": (30.0, 30.0, "6 mm2", "fuse", 3.1, WINDING),
        # 6 x 1.5; 10 A is too large for the 0.75 mm2 of the coil, which has 1 A of its own
        "glow": (9.0, 10.0, "1 mm2", "fuse", 2.4, set()),
        # 1 x 1.5: the coil shares it, and three quarters for ever, (1 + 0.04) / 0.75, ask for less
        "glint": (1.5, 2.0, "0.75 mm2", "smallest size", 0.6, set()),
    },
    "us-units": {
        # 4.4 x 1.5 = 6.6; 7.5 A asks for 16 AWG, since NFPA 70 240.4(D) allows 7 A before 18 AWG
        "thumper": (6.6, 7.5, "16 AWG", "fuse", 3.6, WINDING),
        # 0.8 x 1.5 = 1.2
        "breeze": (1.2, 2.0, "18 AWG", "smallest size", 0.7, WINDING),
    },
}


@pytest.fixture(name="built", params=HEADLINES, scope="module")
def _built(request, plan_of):
    text = (FOLDER / request.param / "build.yaml").read_text(encoding="utf-8")
    return request.param, plan_of(text).plan


def test_every_build_here_is_checked():
    """None lies here unread."""
    assert {path.parent.name for path in FOLDER.glob("*/build.yaml")} == set(HEADLINES)


def test_build_has_nothing_that_must_or_should_be_fixed(built):
    """Only notes."""
    _, plan = built
    assert [finding for finding in plan.findings if finding.level is not Level.NOTE] == []


def test_headline_values_stay(built):
    """Fuse, wire and drop of each toy."""
    name, plan = built
    assert list(plan.toys) == list(HEADLINES[name])
    for slug, (needed_A, rating_A, size, governed, drop_percent, codes) in HEADLINES[name].items():
        sized = plan.toys[slug].sized
        assert sized.fuse.needed_A == pytest.approx(needed_A)
        assert sized.fuse.rating_A == rating_A
        assert (sized.wire.size.text, sized.wire.governed_by) == (size, governed)
        assert sized.wire.drop_percent == pytest.approx(drop_percent, abs=0.15)
        assert {finding.code for finding in plan.toys[slug].findings} == codes


def test_block_of_a_build_is_fused_for_all_its_toys(plan_of):
    """(1.0 A + 0.5 A) x 1.5 = 2.25 A: 3 A, above the 2 A behind it; 5 m of 0.75 mm2 carry 8.5 A x 0.80."""
    block = plan_of((FOLDER / "row-of-fuses" / "build.yaml").read_text(encoding="utf-8")).plan.blocks["galley"]
    assert (block.fuse.needed_A, block.fuse.rating_A) == (pytest.approx(2.25), 3.0)
    assert (block.wire.size.text, block.wire.ampacity_A) == ("0.75 mm2", pytest.approx(6.8))
    assert [wire.length_m for wire in block.wires] == [2.4, 2.6]


def test_coils_behind_large_fuses_have_small_ones_of_their_own(plan_of):
    """24 V / 96 ohm = 0.25 A and 24 V / 600 ohm = 40 mA: 1 A each, and 0.75 mm2 to the ports and back to 0 V."""
    plan = plan_of((FOLDER / "behind-relays" / "build.yaml").read_text(encoding="utf-8")).plan
    own = {slug: toy.sized.signal_fuse for slug, toy in plan.toys.items()}
    assert {slug: fuse and (fuse.id, fuse.rating_A) for slug, fuse in own.items()} == {
        "gale": ("F1B", 1.0),
        "glow": ("F2B", 1.0),
        "glint": None,
    }
    thin = [wire for toy in plan.toys.values() for wire in toy.wires if wire.role.startswith("coil")]
    assert {wire.size.replace("\u00a0", " ") for wire in (*thin, *plan.boards["mole"].wires)} == {"0.75 mm²"}


UNSAID_OF_MOTION = {
    "motion.friction-of-the-feet",
    "motion.shift-at-the-top",
    "motion.felt-acceleration",
    "motion.sway-frequency",
}
"""Taken for every shaker: no key asks for them."""


def test_all_that_is_stated_is_kept(plan_of):
    """Nothing is chosen: no choice shows candidates beside what was written, and no default of a key is listed."""
    plan = plan_of((FOLDER / "everything-stated" / "build.yaml").read_text(encoding="utf-8")).plan
    keel, gale = plan.toys["keel"].sized, plan.toys["gale"].sized
    assert (keel.fuse.series, keel.fuse.speed, keel.fuse.voltage_V) == ("5 x 20 mm", "time-lag", 60.0)
    assert (keel.suppression.reverse_V, keel.suppression.forward_A, keel.suppression.surge_A) == (100.0, 3.0, 80.0)
    assert gale.suppression.type == "in the controller"
    assert plan.supplies["high"].wires[0].size == "2.5 mm²"
    assert plan.boards["mole"].wires[0].size == "4 mm²"
    defaults = {worked.id for toy in plan.toys.values() for worked in toy.worked if worked.shape == "default"}
    unasked = {each for each in defaults if not each.startswith("motion.")}
    assert unasked == {"default.contact_resistance"}  # no key says what a crimp has
    assert defaults - unasked <= UNSAID_OF_MOTION
    assert {wire.colour for wire in keel.circuit.wires} == {"RD", "VT", "BK"}


def test_smallest_file_lists_its_defaults_with_their_sources(plan_of):
    """Everything not asked for stands among the worked values."""
    toy = plan_of((FOLDER / "smallest" / "build.yaml").read_text(encoding="utf-8")).toy
    defaults = {worked.id: worked for worked in toy.worked if worked.shape == "default"}
    for key in ("wiring.insulation", "wiring.inside_temperature", "wiring.drop_limit", "wiring.fuse_margin",
                "supplies.brick.fuse_block.run", "toys.bump.feed.fuse.holder"):  # fmt: skip
        assert f"default.{key}" in defaults
    assert all(worked.source for worked in defaults.values())


@pytest.mark.parametrize(
    "key", ["build", "wiring", "supplies", "toys", "kind", "voltage", "current", "cover", "control", "feed"]
)
def test_smallest_file_cannot_lose_a_key(key, small_problems):
    """It is the smallest: each line it has is asked for."""
    assert small_problems(key)


@pytest.fixture(name="small_problems", scope="module")
def _small_problems():
    from guide_gen.description.read import read_text

    lines = (FOLDER / "smallest" / "build.yaml").read_text(encoding="utf-8").splitlines()

    def without(key):
        place = next(place for place, line in enumerate(lines) if line.strip().startswith(f"{key}:"))
        left = lines[:place] if key == "toys" else lines[:place] + lines[place + 1 :]
        return read_text("\n".join(left), "content/builds/smallest/build.yaml").problems

    return without

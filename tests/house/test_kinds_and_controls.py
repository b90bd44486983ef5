"""Every kind of toy and every control is whole, on each other; kinds are found, not listed."""

import re
from itertools import product

import pytest

from guide_gen.controls import controls
from guide_gen.description.build import Build
from guide_gen.model.circuit import LETTERS, PartKind
from guide_gen.model.fields import Section
from guide_gen.model.guide import STAGES, Word
from guide_gen.planning import cautions as whole_build
from guide_gen.planning.cautions import CALCULATED, GROUPED_AT_MOST, SCOPE
from guide_gen.toys import kinds

PAIRS = list(product(sorted(kinds()), sorted(controls())))
STAGE_IDS = {stage.id for stage in STAGES}
POWERED = ("bench", "first-power", "tune")
LEVELS = re.compile(r"\b(DANGER|WARNING|CAUTION|NOTICE)\b")
EARTH = {"GN", "YE", "GNYE"}


@pytest.fixture(name="toy", params=PAIRS, ids=lambda pair: f"{pair[0]}, {pair[1]}", scope="module")
def _toy(request, any_toy):
    return any_toy(*request.param).toy


@pytest.fixture(name="strong", params=PAIRS, ids=lambda pair: f"{pair[0]}, {pair[1]}", scope="module")
def _strong(request, any_toy):
    """The same on a strong supply that can go too high: with every caution that values can raise."""
    return any_toy(
        *request.param,
        {
            "supplies.main": {"voltage": "48 V", "voltage_range": "44 V to 56 V", "current": "20 A", "earth_pin": "no"},
            "toys.bump": {"voltage": "48 V", "feed": {"fuse": {"dc_voltage": "58 V"}}},
            "boards.quay.port_voltage": "60 V",
        },
    )


def kind_of(toy):
    """The kind that a plan was made of."""
    return kinds()[toy.kind]


def prose(toy):
    """Everything that a page says in words."""
    yield from (toy.introduction.sentence, toy.introduction.meant_for, toy.introduction.not_for, toy.introduction.who)
    for step in toy.steps:
        yield from (step.text, step.short, step.more)
    for reading in toy.readings:
        yield from (reading.what, reading.between, reading.if_not, reading.how)
    for caution in toy.cautions:
        yield from (caution.hazard, caution.consequence, *caution.avoid, caution.reason)
    for advice in toy.mounting_advice.advice:
        yield from (advice.what, advice.why)
    for trouble in toy.troubles:
        yield from (trouble.symptom, trouble.cause, trouble.measure, trouble.good)
    for setting in toy.settings:
        yield from (setting.what, setting.value, setting.why)
    for need in toy.needs:
        yield from (need.what, need.value, need.note)
    yield from toy.mounting_advice.paragraphs
    yield from (*toy.wiring_notes, *toy.tuning_notes, *toy.play_notes, *toy.emergency, toy.disposal)
    yield from (toy.words.short, toy.words.sentence, *toy.words.across, *toy.words.control, *toy.words.notes)


# ---- what they are --------------------------------------------------------------------------------------------------


def sections(model):
    """A map and all maps in it."""
    yield model
    for field in model.model_fields.values():
        for inner in _maps_in(field.annotation):
            yield from sections(inner)


def _maps_in(annotation):
    if isinstance(annotation, type) and issubclass(annotation, Section):
        yield annotation
    for inner in getattr(annotation, "__args__", ()):
        yield from _maps_in(inner)


@pytest.mark.parametrize(
    "model",
    [Build, *(kind.fields for kind in kinds().values()), *(each.fields for each in controls().values())],
    ids=lambda model: model.__name__,
)
def test_every_key_has_a_meaning_an_example_and_a_reason_to_be_left_out(model):
    """Asked for, chosen, a default with its source, or without any of them left off the page."""
    for section in sections(model):
        assert section.__doc__
        for name, field in section.model_fields.items():
            extra = field.json_schema_extra
            if name in ("kind", "type", "control") and extra is None:
                continue  # the bare nouns that kinds and controls fill in
            assert field.description, (section, name)
            assert extra["example"], (section, name)
            assert sum(word in extra for word in ("ask", "chosen", "default_source")) <= 1
            if "ask" in extra:
                assert len(extra["ask"]) > 8
                assert field.is_required(), (section, name)
            else:
                assert not field.is_required(), (section, name)


@pytest.mark.parametrize("word", sorted(kinds()))
def test_kind_is_named(word):
    """By its word in a description, as a title, and as the first part of its step ids."""
    kind = kinds()[word]
    assert kind.word == word
    assert kind.title.lower() == word
    assert re.fullmatch("[a-z]+(-[a-z]+)*", kind.slug)
    assert kind.part in LETTERS
    assert len(kind.emergency) >= 2
    assert any("pull the plug" in order.lower() for order in kind.emergency)


def test_slugs_of_kinds_and_controls_are_their_own():
    """Step ids begin with them."""
    slugs = [kind.slug for kind in kinds().values()]
    assert len(slugs) == len(set(slugs))
    assert not {"toy", *STAGE_IDS} & set(slugs)


# ---- what their pages say -------------------------------------------------------------------------------------------


def test_introduction_is_whole(toy):
    """What it is, what for, what not for, who may do it, with what."""
    introduction = toy.introduction
    assert all((introduction.sentence, introduction.meant_for, introduction.tools))
    assert introduction.not_for.startswith("Not for")
    assert "licensed or competent person" in introduction.who


def test_no_block_of_a_page_is_empty(toy):
    """IEC/IEEE 82079-1 in outline, from memory: each has its place."""
    assert toy.values
    assert toy.cautions
    assert toy.mounting_advice.advice
    assert toy.wiring_notes
    assert toy.tuning_notes
    assert toy.play_notes
    assert toy.needs
    assert toy.readings
    assert toy.emergency
    assert toy.troubles
    assert toy.disposal
    assert all(any(step.stage == stage for step in toy.steps) for stage in STAGE_IDS - {"settings"})


def test_steps_belong_to_the_kind_the_control_or_every_toy(toy):
    """Ids: kind, control or "toy", then stage, then what; in a stage that there is."""
    slugs = {"toy", kind_of(toy).slug, re.sub("[^a-z]+", "-", toy.sized.control)}
    for step in toy.steps:
        assert step.stage in STAGE_IDS
        assert step.id.split(".")[0] in slugs
        assert re.fullmatch(r"[a-z-]+\.[a-z-]+\.[a-z0-9-]+", step.id)
        assert step.text.endswith(".")
        assert step.short
        assert not step.short.endswith(".")


def test_a_wire_is_one_step(toy):
    """Every wire of the circuit is run in exactly one step, the supply's lead last."""
    texts = [step.text for step in toy.steps if step.stage == "wire"]
    for wire in toy.sized.circuit.wires:
        runs = [text for text in texts if text.startswith(f"Run {wire.id},")]
        assert len(runs) == 1
        assert wire.size in runs[0]
    runs = [text for text in texts if text.startswith("Run ")]
    assert "It is the last wire." in runs[-1]


def test_records_say_what_is_right_and_what_to_do_otherwise(toy):
    """Unit, range or write-in line, and `if_not`."""
    for step in toy.steps:
        if step.record:
            assert step.record.unit
            assert step.record.if_not
            assert step.record.between
    assert [step.record for step in toy.steps if step.record] == list(toy.readings)


def test_holds_are_short(toy):
    """At most seven items to confirm (guidance on checklists: five to nine)."""
    for stage in STAGES:
        if stage.hold:
            assert 1 <= sum(step.stage == stage.id for step in toy.steps) <= 7
            assert stage.passes
            assert stage.fails


def test_lowest_end_comes_before_any_power_of_the_toy(toy):
    """0 %, or the trimmer's lowest end, is set and confirmed before the supply may drive it."""
    dial = controls()[toy.sized.control].dial
    lowest = [place for place, step in enumerate(toy.steps) if step.id.endswith((".zero", ".before.lowest"))]
    first = next(place for place, step in enumerate(toy.steps) if step.stage == "first-power")
    if toy.sized.control in ("pwm port", "speed controller"):
        assert dial is not None
        assert lowest
        assert max(lowest) < first


def test_a_toy_with_a_dial_is_never_run_before_it_is_tuned_from_zero(toy):
    """Its first run is its lowest setting."""
    running = [step.id for step in toy.steps if step.stage == "first-power" and re.search(r"\b[Rr]un", step.text)]
    if toy.sized.control in ("pwm port", "speed controller"):
        assert running == []


def test_fuse_is_fitted_after_the_supply_alone_and_before_the_toy_may_run(toy):
    """Supply alone, fuse, then whatever may move."""
    order = [step.id for step in toy.steps if step.stage == "first-power"]
    assert order[:2] == ["toy.first.supply", "toy.first.fuse"]


def test_settings_are_entered_where_there_is_a_port(toy):
    """Number, name and mode on the board's side; effect and hours on the game's."""
    where = [setting.where for setting in toy.settings]
    if toy.sized.port is None:
        assert where == []
    else:
        assert where.count("game") == 2
        assert where.count("board") >= 3
        assert toy.name in [setting.value for setting in toy.settings]


def test_signal_words_stand_in_capitals_nowhere_in_prose(toy):
    """In capitals they are labels of cautions and nothing else."""
    assert [text for text in prose(toy) if LEVELS.search(text)] == []


def test_prose_is_made_of_short_plain_sentences(toy):
    """No sentence above forty words, no markup, no doubled space."""
    for text in prose(toy):
        assert "  " not in text, text
        assert not re.search(r"[<>`*_]{1}[a-z]|\bTODO\b", text), text
        for sentence in re.split(r"(?<=[.:;!?])\s", text):
            assert len(sentence.split()) <= 40, sentence


# ---- cautions -------------------------------------------------------------------------------------------------------


def build_cautions(case):
    """The cautions of a whole build and of its toy."""
    return [*case.plan.cautions, *case.toy.cautions]


def test_caution_has_hazard_consequence_and_avoidance(strong):
    """At most 45 words in all, one to three ways to avoid it, each an order of its own."""
    for caution in build_cautions(strong):
        assert caution.hazard.endswith(".")
        assert caution.consequence.endswith(".")
        assert 1 <= len(caution.avoid) <= 3
        assert all(order.endswith(".") for order in caution.avoid)
        assert len(caution.text.split()) <= 45, caution.id


def test_danger_is_kept_for_the_mains_side(strong):
    """For one subject only, and always there."""
    for told in (strong.plan.cautions, strong.toy.cautions):
        assert [caution.id for caution in told if caution.word is Word.DANGER] == ["mains-side"]


def test_at_most_five_cautions_stand_at_the_head(strong):
    """The highest level first, never a notice; the mains side and the fuse are always among them."""
    heads = [caution for caution in strong.toy.cautions if caution.grouped]
    assert len(heads) <= GROUPED_AT_MOST == 5
    assert {"mains-side", "fuse-fire"} <= {caution.id for caution in heads}
    assert Word.NOTICE not in {caution.word for caution in heads}


def test_kind_warns_at_the_head_of_its_page(toy):
    """At least one caution of its own."""
    whole = {"mains-side", "fuse-fire", "energy-short", "guard-50v", "children"}
    assert [caution for caution in toy.cautions if caution.grouped and caution.id not in whole]


def test_caution_stands_before_steps_that_there_are(strong):
    """What it is embedded before exists: on this control, or at least on another of the same kind."""
    toy = strong.toy
    steps = {step.id for step in toy.steps} | STAGE_IDS
    for caution in toy.cautions:
        assert all(name in steps or name.split(".")[0] == kind_of(toy).slug for name in caution.before), caution.id
        if caution.before:
            assert steps & set(caution.before), f"{caution.id} stands nowhere"


def test_every_caution_of_a_kind_names_steps_that_exist_on_some_control(any_toy):
    """A misspelt id would hide the caution for ever."""
    for word in kinds():
        toys = [any_toy(word, control).toy for control in controls()]
        steps = {step.id for toy in toys for step in toy.steps} | STAGE_IDS
        named = {name for toy in toys for caution in toy.cautions for name in caution.before}
        assert named <= steps, word


def test_moving_toy_warns_before_each_stage_with_power(toy):
    """Parts start without warning."""
    before = {name for caution in toy.cautions for name in caution.before}
    stages = {step.id: step.stage for step in toy.steps}
    assert set(POWERED) <= {stages.get(name, name) for name in before}


def test_plug_is_pulled_before_every_stage_inside(toy):
    """Where hands are inside, the plug is out."""
    unplug = next(caution for caution in toy.cautions if caution.id == "unplug-first")
    assert set(unplug.before) == {stage.id for stage in STAGES if stage.opened}
    assert {"mount", "wire", "dead-checks", "after-play"} <= set(unplug.before)


def test_ids_of_cautions_are_unique_on_a_page(strong):
    """One id, one text."""
    for told in (strong.toy.cautions, [one for one in strong.plan.cautions if not one.reason]):
        ids = [caution.id for caution in told]
        assert len(ids) == len(set(ids))


def test_cautions_that_values_raise_print_the_value(strong):
    """The reason stands beside them."""
    raised = {caution.id: caution for caution in build_cautions(strong)}
    assert "56" in raised["guard-50v"].reason
    assert "W" in raised["energy-short"].reason
    assert raised["leakage-tingle"].word is Word.NOTICE


def test_whole_build_always_has_its_fixed_cautions(any_toy):
    """Whatever is described."""
    told = {caution.id for caution in any_toy("shaker motor", "always on").plan.cautions}
    assert {
        "mains-side",
        "fuse-fire",
        "children",
        "unplug-first",
        "auto-start",
        "emergency-off",
        "solder-cut-drill",
    } <= told


@pytest.mark.parametrize(
    ("voltage_V", "limit_A", "word"),
    [(12.0, 20.0, Word.CAUTION), (12.0, 20.1, Word.WARNING), (48.0, 5.0, Word.CAUTION), (48.0, 5.1, Word.WARNING)],
)
def test_supply_above_240_va_is_a_warning(voltage_V, limit_A, word):
    """The hazardous energy level of IEC 60950-1, from memory: 240 VA, not yet at it."""
    told = whole_build.supply_cautions(voltage_V, limit_A, True, "main")
    assert next(caution.word for caution in told if caution.id == "energy-short") is word


@pytest.mark.parametrize(
    ("voltage_V", "limit_A", "ids"),
    [
        (12.0, 8.3, {"energy-short"}),  # 99.6 VA: a limited power source, from memory
        (12.0, 8.4, {"energy-short", "over-100-va"}),
        (12.0, 30.0, {"energy-short"}),  # said once, by the warning
        (30.0, 1.0, {"energy-short"}),
        (30.1, 1.0, {"energy-short", "damp-30v"}),  # IEC 60364-4-41, from memory
        (49.9, 1.0, {"energy-short", "damp-30v"}),
        (50.0, 1.0, {"energy-short", "guard-50v"}),  # 29 CFR 1910.303(g)(2)(i)
    ],
)
def test_supply_warns_by_its_power_and_voltage(voltage_V, limit_A, ids):
    """Just above each threshold, and just below."""
    assert {caution.id for caution in whole_build.supply_cautions(voltage_V, limit_A, True, "main")} == ids


def test_scope_defers_to_the_law_of_the_place():
    """Fixed words that no build can change."""
    assert "at most 60 V" in SCOPE
    assert "they win" in SCOPE
    assert "licensed or competent" in SCOPE
    assert "not a test" in CALCULATED


# ---- circuits -------------------------------------------------------------------------------------------------------


def test_circuit_is_closed(toy):
    """From plus of the supply to 0 V: along `main` every part is met by the wires on both sides."""
    circuit = toy.sized.circuit
    wires = {wire.id: wire for wire in circuit.wires}
    first, *way, last = circuit.main
    assert circuit.part(first).what is PartKind.SUPPLY
    assert circuit.part(last).what is PartKind.SUPPLY
    assert wires[way[0]].start == f"{first}:+"
    assert wires[way[-1]].end == f"{last}:0V"
    assert toy.sized.ids["load"] in way
    for place, name in enumerate(way):
        if name in wires:
            before, after = circuit.main[place], circuit.main[place + 2]
            assert wires[name].start.split(":")[0] == before
            assert wires[name].end.split(":")[0] == after


def test_terminals_are_joined(toy):
    """No terminal is left alone, and no wire ends where there is none."""
    circuit = toy.sized.circuit
    terminals = {f"{part.id}:{name}" for part in circuit.parts for name in part.terminals}
    ends = {end for wire in circuit.wires for end in (wire.start, wire.end)}
    joints = {end for joint in circuit.joints for end in joint}
    assert ends <= terminals
    assert joints <= terminals
    open_ones = terminals - ends - joints
    assert open_ones == set()


def test_plus_and_zero_are_never_joined_directly(toy):
    """No node holds both terminals of a part: nothing is shorted."""
    for node in toy.sized.circuit.nodes():
        for part in toy.sized.circuit.parts:
            own = [terminal for terminal in node if terminal.startswith(f"{part.id}:")]
            assert len(own) <= 1, (part.id, node)


def test_suppressor_lies_with_its_band_at_plus(any_toy):
    """K at the load's plus terminal, or at that of a part before it."""
    for word, control in PAIRS:
        sized = any_toy(word, control, {"toys.bump.suppressor": "diode"}).toy.sized
        joints = {frozenset(joint) for joint in sized.circuit.joints}
        load = sized.ids["load"]
        first = "R1S" if any(part.id == "R1S" for part in sized.circuit.parts) else load
        assert frozenset({"D1:K", f"{first}:1"}) in joints
        assert frozenset({"D1:A", f"{load}:2"}) in joints


def test_designators_begin_with_the_letter_of_their_sort(toy):
    """IEC 81346-2 as known from memory."""
    for part in toy.sized.circuit.parts:
        assert part.id.startswith(LETTERS[part.what])
    assert len({part.id for part in toy.sized.circuit.parts}) == len(toy.sized.circuit.parts)


def test_wires_never_have_the_colour_of_protective_earth(toy):
    """Green and yellow are kept (IEC 60445, from memory)."""
    assert not {wire.colour for wire in toy.sized.circuit.wires} & EARTH


def test_contacts_of_a_control_are_two_for_each_run(toy):
    """What a control says of its joints is what its circuit has."""
    wires = {wire.id for wire in toy.sized.circuit.wires}
    assert controls()[toy.sized.control].contacts == 2 * sum(name in wires for name in toy.sized.circuit.main)


def test_words_follow_the_circuit(toy):
    """Every stop and wire of the path is told, in order."""
    told = [text if what == "wire" else text.split(":")[0] for what, text, _ in toy.words.chain]
    assert told == list(toy.sized.circuit.main)


def test_all_letters_are_known():
    """Every sort of part has its letter."""
    assert set(LETTERS) == set(PartKind)

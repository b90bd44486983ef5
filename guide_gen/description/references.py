"""What one part of a description says about another: names, the only supply, what the chosen table has."""

import re
from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from guide_gen.description import shape
from guide_gen.description.build import VOLTAGE_SPREAD, Supply, build_model
from guide_gen.description.tree import Written
from guide_gen.description.wording import Path, problem, shown
from guide_gen.model.fields import FoundFields, Section, Size, Temperature
from guide_gen.model.finding import Finding
from guide_gen.published.tables import Family, NotInTable, families
from guide_gen.values.grammar import UnreadableError, either, parse_quantity, parse_wire_size
from guide_gen.values.reading import QuantityReading, Scalar, slug_like
from guide_gen.values.units import DIMENSION_OF

EXTRA_LOW_V = 60.0  # IEC 60364-4-41: the end of extra-low voltage for DC, dry (from memory)


def reference_problems(written: Written) -> Iterator[Finding]:
    """The problems of names that lead nowhere, of names left out, and of words that the tables do not have."""
    for look in (
        _names,
        _block_supply,
        _only_supply,
        _nothing_described,
        _same_name,
        _pwm_frequency,
        _found_volts,
        _highest_voltage,
        _table,
    ):
        yield from look(written)


def _maps(written: Written, key: str) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """The things that are described under a key of the top, as far as they are maps."""
    group = written.data.get(key)
    if isinstance(group, Mapping):
        yield from (((key, slug), each) for slug, each in group.items() if isinstance(each, Mapping))


def _described(written: Written, group: str) -> dict[str, None]:
    """The slugs under a key of the top in order, those included whose own description is wrong."""
    return {path[1]: None for path in written.keys if len(path) == 2 and path[0] == group}


def _listed(known: Iterable[str]) -> str:
    """The slugs for a message, a dozen at most."""
    slugs = list(known)
    return either(slugs) if len(slugs) <= 12 else f"{', '.join(slugs[:12])} or another of the {len(slugs)}"


def _names(written: Written) -> Iterator[Finding]:
    """Supplies, boards and distribution blocks that are referred to and described nowhere."""
    supplies, boards = _described(written, "supplies"), _described(written, "boards")
    blocks = _described(written, "blocks")
    for path, toy in _maps(written, "toys"):
        yield from _name(written, (*path, "supply"), toy.get("supply"), supplies, "supply")
        control = toy.get("control")
        if isinstance(control, Mapping):
            yield from _name(written, (*path, "control", "board"), control.get("board"), boards, "board")
        yield from _name(written, (*path, "feed", "from"), _block_of(toy), blocks, "block")
    for path, block in _maps(written, "blocks"):
        yield from _name(written, (*path, "supply"), block.get("supply"), supplies, "supply")
    for path, board in _maps(written, "boards"):
        yield from _name(written, (*path, "supply"), board.get("supply"), supplies, "supply")
        joined = board.get("common_return")
        if not isinstance(joined, list):
            continue
        for number, slug in enumerate(joined):
            here = (*path, "common_return", str(number))
            yield from _name(written, here, slug, supplies, "supply")
            if isinstance(slug, str) and slug in joined[:number]:
                yield problem(
                    "name-twice",
                    here,
                    f'"{shown(slug)}" stands in this list twice',
                    "each supply once",
                    "take one of them away",
                    written.place(here),
                )


def _block_of(toy: Mapping[str, Any]) -> Any:
    """The distribution block that a toy's feed names, if it does."""
    feed = toy.get("feed")
    return feed.get("from") if isinstance(feed, Mapping) else None


def _block_supply(written: Written) -> Iterator[Finding]:
    """A toy that names one supply and a block on another."""
    fed_by = {path[1]: block.get("supply") for path, block in _maps(written, "blocks")}
    for path, toy in _maps(written, "toys"):
        block, supply = _block_of(toy), toy.get("supply")
        there = fed_by.get(block) if isinstance(block, str) else None
        if not isinstance(supply, str) or not isinstance(there, str) or supply == there:
            continue
        if {supply, there} <= _described(written, "supplies").keys():
            here = (*path, "feed", "from")
            yield problem(
                "name-unknown",
                here,
                f'no block "{shown(block)}" is on supply "{shown(supply)}": it is on "{shown(there)}"',
                f'a block on "{shown(supply)}"',
                f'write "supply: {shown(there)}" under this toy or leave its supply out, or name another block',
                written.place(here),
            )


def _highest_voltage(written: Written) -> Iterator[Finding]:
    """A supply whose usual spread, with no voltage_range stated, passes 60 V."""
    for path, supply in _maps(written, "supplies"):
        text = supply.get("voltage")
        if "voltage_range" in supply or not isinstance(text, str) or (*path, "voltage") in written.told:
            continue
        reading = next(
            one for one in shape.shapes_of(Supply.model_fields["voltage"]) if isinstance(one, QuantityReading)
        )
        try:
            highest = parse_quantity(text, reading.wanted).high * (1 + VOLTAGE_SPREAD)
        except UnreadableError:
            continue
        if highest > EXTRA_LOW_V:
            yield problem(
                "above-extra-low-voltage",
                (*path, "voltage"),
                f"this supply can reach {highest:.3g} V: with no voltage_range it counts as 5 % each way",
                "at most 60 V DC at its highest",
                "state what its trimmer allows as voltage_range, if that ends at 60 V or below; above it nothing is "
                "planned",
                written.place((*path, "voltage")),
            )


def _name(written: Written, path: Path, slug: Any, known: Mapping[str, None], noun: str) -> Iterator[Finding]:
    group = "supplies" if noun == "supply" else f"{noun}s"
    if not isinstance(slug, str) or slug in known:
        return
    if group in written.data and not isinstance(written.data[group], Mapping):
        return
    if (group,) in written.told or ((group,) not in written.keys and group == "supplies"):
        return
    near = get_close_matches(slug_like(slug[:60]), list(known)[:200], 1, 0.6)
    if not known:
        expected = f"a {noun} that is described under {group}"
        mend = f"describe it under {group}, with this name as its key"
    else:
        expected = _listed(known)
        mend = f'write "{near[0]}"' if near else f'describe "{shown(slug)}" under {group}, or name one that is there'
    yield problem("name-unknown", path, f'no {noun} "{shown(slug)}" is described', expected, mend, written.place(path))


def _only_supply(written: Written) -> Iterator[Finding]:
    """With several supplies, each toy and board says whose it is."""
    known = _described(written, "supplies")
    if len(known) < 2:
        return
    words_of = {
        "toys": ("this toy", "the supply that feeds it"),
        "boards": ("this board", "the supply that its 0 V belongs to"),
        "blocks": ("this block", "the supply that feeds it"),
    }
    for group, (who, words) in words_of.items():
        for path, each in _maps(written, group):
            from_block = group == "toys" and _block_of(each) is not None
            if (*path, "supply") not in written.keys and each and not from_block:
                yield problem(
                    "key-missing",
                    (*path, "supply"),
                    f'"supply" is missing, and there are {len(known)} supplies',
                    f"{words}: {_listed(known)}",
                    f'write "supply: {next(iter(known))}" under {who}, or another of them',
                    written.place(path),
                    about=path,
                )


def _nothing_described(written: Written) -> Iterator[Finding]:
    """Supplies or toys with nothing under them."""
    for group, noun, example in (("supplies", "supply", "main"), ("toys", "toy", "bow-shaker")):
        if written.data.get(group) == {} and not _described(written, group):
            yield problem(
                "key-missing",
                (group,),
                f"no {noun} is described",
                f"at least one {noun} by its name",
                f'begin with "{example}:" below it, indented',
                written.place((group,)),
            )


def _same_name(written: Written) -> Iterator[Finding]:
    """Two toys that are called the same on the pages."""
    first: dict[str, str] = {}
    for path, toy in _maps(written, "toys"):
        name = toy.get("name")
        if not isinstance(name, str):
            continue
        plain = " ".join(name.lower().split())
        if plain in first:
            here = (*path, "name")
            yield problem(
                "name-twice",
                here,
                f'"{shown(name)}" is the name of {first[plain]} already',
                "a name of its own for each toy",
                "add where it is, such as left or right",
                written.place(here),
            )
        first.setdefault(plain, path[1].replace("-", " "))


def _pwm_frequency(written: Written) -> Iterator[Finding]:
    """A board's PWM frequency, asked for once one of its ports is used with PWM."""
    asked: set[str] = set()
    for path, toy in _maps(written, "toys"):
        control = toy.get("control")
        board = control.get("board") if isinstance(control, Mapping) else None
        if not isinstance(control, Mapping) or not isinstance(board, str):
            continue
        if control.get("type") != "pwm port" and control.get("port_set_to") != "pwm":
            continue
        here = ("boards", board, "pwm_frequency")
        is_map = isinstance(written.data.get("boards"), Mapping) and isinstance(
            written.data["boards"].get(board), Mapping
        )
        if is_map and here not in written.keys and board not in asked:
            asked.add(board)
            outer = here[:-1]
            yield problem(
                "key-missing",
                here,
                f'"pwm_frequency" is missing, and {path[1].replace("-", " ")} uses PWM',
                'frequency of its PWM, such as "pwm_frequency: 200 Hz"',
                "look it up in the board's data sheet or in its software",
                written.place(outer),
                about=outer,
            )


def _found_volts(written: Written) -> Iterator[Finding]:
    """Volts at the motor for a setting as found, where the control has settings of its own, or none."""
    reading = next(
        one for one in shape.shapes_of(FoundFields.model_fields["start"]) if isinstance(one, QuantityReading)
    )
    for path, toy in _maps(written, "toys"):
        control, found = toy.get("control"), toy.get("found")
        kind = control.get("type") if isinstance(control, Mapping) else None
        if not isinstance(found, Mapping) or not isinstance(kind, str) or kind == "speed controller":
            continue
        for key in ("start", "setting"):
            line = found.get(key)
            value = line.get("value") if isinstance(line, Mapping) else line
            try:
                given = parse_quantity(value, reading.wanted) if isinstance(value, str) else None
            except UnreadableError:
                continue
            if given and DIMENSION_OF[given.unit] == "voltage":
                yield problem(
                    "unit-wrong",
                    (*path, "found", key),
                    f'"{shown(given.text)}" is a voltage, which is for a trimmer behind a speed controller; with the '
                    f"control {kind} a share is wanted",
                    "a number and %, such as 8 %",
                    "give the setting in %, or leave it away where the control has none",
                    written.place((*path, "found", key)),
                )


def _table(written: Written) -> Iterator[Finding]:
    """Sizes, insulation and stated wires that the chosen family of tables does not have."""
    wiring = written.data.get("wiring")
    name = wiring.get("ampacity_table") if isinstance(wiring, Mapping) else None
    if not isinstance(wiring, Mapping) or not isinstance(name, str) or name not in families():
        return
    family = families()[name]
    if wiring.get("sizes") in {"mm2", "AWG"} and wiring["sizes"] != family.sizes_system:
        path = ("wiring", "sizes")
        yield problem(
            "word-unknown",
            path,
            f"{name} has no sizes in {wiring['sizes']}",
            family.sizes_system,
            f'write "{family.sizes_system}", or choose another ampacity_table',
            written.place(path),
        )
    yield from _bundle(written, wiring, family)
    insulation = _insulation_degC(wiring)
    if insulation is None:
        return
    try:
        column = family.column_for(insulation)
    except NotInTable:
        path = ("wiring", "insulation")
        yield problem(
            "word-unknown",
            path,
            f'{name} has no column for insulation of "{shown(_text(wiring))}"',
            f"{min(family.insulation_degC):g} °C or more",
            "read the temperature printed on the wire; take better wire or another table",
            written.place(path),
        )
        return
    for where, text in _wire_sizes(written.data, [build_model()], ()):
        yield from _wire_size(written, where, text, family, column)


def _bundle(written: Written, wiring: Mapping[str, Any], family: Family) -> Iterator[Finding]:
    """More circuits in a bundle than the chosen family has a factor for."""
    stated = wiring.get("bundled_circuits")
    if stated is not None and not (isinstance(stated, str) and re.fullmatch("[0-9]{1,3}", stated)):
        return
    feeds = len(_described(written, "toys")) + len(_described(written, "blocks"))
    circuits = int(stated) if stated is not None else feeds
    try:
        family.bundle_factor(max(1, circuits))
    except NotInTable:
        path = ("wiring", "bundled_circuits")
        wrong = f"{family.name} has no factor for {circuits} bundled circuits"
        if stated is None:
            yield problem(
                "key-missing",
                path,
                wrong + ", one for each toy and each block",
                "bundled_circuits, at most 20",
                "write how many circuits are tied together in the largest bundle",
                written.place(path[:-1]),
                about=path[:-1],
            )
        else:
            yield problem(
                "word-unknown",
                path,
                wrong,
                "at most 20",
                "tie them in smaller bundles, apart from each other",
                written.place(path),
            )


def _text(wiring: Mapping[str, Any]) -> str:
    """The insulation as it stands, or what is taken when it is left out."""
    value = wiring.get("insulation", shape.keys_of(_wiring_model())["insulation"].default)
    value = value.get("value", "") if isinstance(value, Mapping) else value
    return value if isinstance(value, str) else ""


def _wiring_model() -> type[Section]:
    return next(each for each in shape.at({}, ("wiring",)) if isinstance(each, type))


def _insulation_degC(wiring: Mapping[str, Any]) -> float | None:
    """The insulation's temperature, None when it cannot be read."""
    reading: QuantityReading = Temperature.__metadata__[0]  # type: ignore[attr-defined]
    try:
        return parse_quantity(_text(wiring), reading.wanted).low
    except UnreadableError:
        return None


def _wire_sizes(value: Any, here: list[shape.Shape], path: Path) -> Iterator[tuple[Path, str]]:
    """Every wire size that is written, with its path."""
    reading: Scalar = Size.__metadata__[0]  # type: ignore[attr-defined]
    if isinstance(value, str) and reading in here:
        yield path, value
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _wire_sizes(inner, list(shape.into(here, value, key)), (*path, key))


def _wire_size(written: Written, path: Path, text: str, family: Family, column: float) -> Iterator[Finding]:
    try:
        size = parse_wire_size(text)
    except UnreadableError:
        return
    sizes = [each for each in family.sizes if _has(family, each, column)]
    if size.system == family.sizes_system and size.number in sizes:
        return
    system = family.sizes_system
    wrong = f'{family.name} has no wire of "{shown(text)}"'
    if size.system == system and size.number in family.sizes:
        wrong += f" with insulation for {column:g} °C"
    yield problem(
        "word-unknown",
        path,
        wrong,
        f"{either(sizes)} {system}",
        "write the size that is there, leave it out to have it chosen, or choose another ampacity_table",
        written.place(path),
    )


def _has(family: Family, size: str, column: float) -> bool:
    try:
        family.ampacity_A(size, column)
    except NotInTable:
        return False
    return True

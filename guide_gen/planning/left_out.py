"""What is not worked out because a key is left out: one note a toy, what each key would give, how to know it."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import groupby

from guide_gen.description.build import Board
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import FloorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Kind, Missing
from guide_gen.model.plan import Sized
from guide_gen.planning.checks import Path, control_of
from guide_gen.planning.suppression import Kick
from guide_gen.values import show


def left_out(
    kind: Kind,
    toy: ToyFields,
    sized: Sized,
    kick: Kick | None,
    board: Board | None,
    floor: FloorFields,
    path: Path,
    moves: Iterable[Missing] = (),
) -> list[Finding]:
    """One note of all that is missing for one toy; none where nothing is. kick: None for a load without kickback.

    moves: what is missing for its motion, with whole paths.
    """
    control = control_of(sized)
    missing = [replace(one, path=(*path, *one.path)) for one in kind.missing(toy, sized)]
    missing += [replace(one, path=(*path, "control", *one.path)) for one in control.missing(toy.control, sized)]
    missing += [*of_rc(sized, kick, path), *of_port(sized, board), *of_screws(sized, floor, path), *moves]
    if not missing:
        return []
    told = []
    for gives, keys in groupby(missing, key=lambda one: one.gives):
        told.append(f"{gives} (left out: {listed([one.key.split(': ..')[0].replace('{', '') for one in keys])})")
    return [
        Finding(
            "not-worked-out",
            Level.NOTE,
            f"Not worked out for {sized.name}: {'; '.join(told)}.",
            " and ".join(one.key for one in missing),
            " ".join(one.how for one in missing),
            missing[0].path,
            sized.slug,
        )
    ]


def listed(words: list[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def of_rc(sized: Sized, kick: Kick | None, path: Path) -> list[Missing]:
    """Resistor and capacitor that are neither stated nor to be designed, since the winding is not known."""
    plan = sized.suppression
    if plan.type != "rc" or plan.capacitance_F is not None or kick is None or kick.chopped or kick.coil is not None:
        return []
    return [
        Missing(
            "suppressor: {type: rc, capacitance: .., resistance: ..}",
            "resistor and capacitor across it",
            "Read both on the parts that are there; with the winding's resistance and inductance they are worked out. "
            "Else take a diode.",
            (*path, "suppressor"),
        )
    ]


def port_start_A(sized: Sized) -> float | None:
    """What the port's switch sees at the start, beyond what it carries in use; None where that is not known or no more.

    A motor is started by PWM at a low setting, so that only what rushes in at any setting counts there.
    """
    load, control = sized.load, control_of(sized)
    if not control.port_carries_load or load.momentary or load.start_A is None:
        return None
    if control.chops and load.pulse_A2s is None:
        return None
    return None if reaches(load.design_current_A, load.start_A) else load.start_A


def of_port(sized: Sized, board: Board | None) -> list[Missing]:
    """What a port's switch stands for a moment, where the start asks for more than it carries for ever."""
    start_A = port_start_A(sized)
    if board is None or sized.port is None or start_A is None or board.port_peak_current is not None:
        return []
    if reaches(sized.port.rated_A, start_A):
        return []
    moment = f" for about {show.seconds(sized.load.start_s)}" if sized.load.start_s else ""
    return [
        Missing(
            "port_peak_current: ..",
            f"whether port {sized.port.number} stands its start, up to {show.amps(start_A)}{moment}, more than "
            f"{show.amps(sized.port.rated_A)}",
            f"Look in the data sheet of {sized.port.board} or of its switches for the pulsed or peak current, and "
            "write it as port_peak_current of the board.",
            ("boards", sized.port.board),
        )
    ]


def of_screws(sized: Sized, floor: FloorFields, path: Path) -> list[Missing]:
    """The floor, for the length of its screws."""
    if sized.mounting is None or floor.thickness is not None:
        return []
    return [
        Missing(
            "cabinet: {floor: {thickness: ..}}",
            "the length of the screws, since the floor's thickness is not known",
            "Measure the floor with a ruler and write its thickness under cabinet.",
            path,
        )
    ]

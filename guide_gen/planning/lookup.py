"""If yours draws another current: fuse and wire by current and run, by the same rules as the plan itself."""

from dataclasses import replace
from math import isclose

from guide_gen.description.build import Wiring
from guide_gen.formulas.choice import reaches
from guide_gen.model.circuit import SHARED_ROLES
from guide_gen.model.fields import FuseFields
from guide_gen.model.plan import FusePlan, Load, Lookup, LookupRow, Sized
from guide_gen.planning import fuses, wires
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.planning.signals import takes
from guide_gen.values import show

CURRENTS_A = (0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0)
RUNS = {"metric": (1.0, 2.0, 3.0, 4.0, 6.0), "US": tuple(0.3048 * feet for feet in (3.0, 6.0, 10.0, 15.0, 20.0))}
AROUND = 4.0  # from a quarter of the toy's current to four times it
LEAST = 4  # rows, however far the toy's current lies from the list


def lookup(
    sized: Sized, fields: FuseFields | str, back: FusePlan | None, wiring: Wiring, loop: Loop, cabling: Cabling
) -> Lookup:
    """Fuse and wire for other currents of a toy like this one: same holder, control, voltage and drop limit.

    fields: the feed's fuse as written; without one the holder is the usual one. A stated rating and a stated wire are
    left out of it, except in the row of the toy itself, which has its fuse as planned. back: in its switched return.
    """
    holder = FuseFields() if isinstance(fields, str) else fields
    chosen = holder.model_copy(update={"rating": None})
    runs = RUNS[sized.units]
    own = sized.load.design_current_A
    currents = sorted({own, *(one for one in around(own) if not isclose(one, own, rel_tol=1e-9))})
    rows = tuple(
        row(sized, chosen, back, wiring, loop, cabling, current, runs, here=current == own) for current in currents
    )
    return Lookup(chosen.holder, runs, rows, note_of(sized, back))


def note_of(sized: Sized, back: FusePlan | None) -> str:
    """What else is fused: what switches it, whatever it draws; and its switched return, by what it draws."""
    fuse = sized.signal_fuse
    if back is not None:
        return f"Its switched return has a fuse too, {back.id}: a {back.series} fuse of the rating after the plus sign."
    if fuse is None or fuse.rating_A is None or sized.port is None:
        return ""
    return f"{fuse.id}, {show.amps(fuse.rating_A)}, feeds only {sized.port.signal}: it stays whatever the toy draws."


def around(current_A: float) -> tuple[float, ...]:
    """The currents of the list that make sense round a toy's own."""
    near = [one for one in CURRENTS_A if current_A / AROUND <= one <= current_A * AROUND]
    if len(near) < LEAST:
        nearest = sorted(CURRENTS_A, key=lambda one: abs(one - current_A))
        near = sorted(nearest[:LEAST])
    return tuple(near)


def row(
    sized: Sized,
    fields: FuseFields,
    back: FusePlan | None,
    wiring: Wiring,
    loop: Loop,
    cabling: Cabling,
    current_A: float,
    runs: tuple[float, ...],
    *,
    here: bool,
) -> LookupRow:
    """Fuse and wires for one current."""
    fuse, load = planned(sized) if here else None, load_of(sized.load, current_A)
    fuse = fuse or fuse_for(sized, fields, wiring, cabling, load)
    if back is not None:
        back, _ = fuses.fuse_of(f"{sized.number}C", FuseFields(holder=back.series), load, wiring, fuses.AT_PORT)
        loop = replace(loop, return_ohm=back.resistance_ohm)
    found = [wire_for(fuse, scaled(loop, sized, current_A, run), cabling, run) for run in runs]
    beyond = []
    if sized.port and not sized.port.signal and not reaches(sized.port.limit_A, current_A):
        beyond.append("port")
    if not reaches(min(sized.supply_rated_A, sized.supply_limit_A), current_A):
        beyond.append("supply")
    if back is not None and back.rating_A is None:
        beyond.append("return fuse")
    sizes, lossy = (tuple(side) for side in zip(*found, strict=True))
    return LookupRow(current_A, fuse.rating_A, sizes, lossy, here, tuple(beyond), back.rating_A if back else None)


def fuse_for(sized: Sized, fields: FuseFields, wiring: Wiring, cabling: Cabling, load: Load) -> FusePlan:
    """The fuse for another load; a relay's coil is behind it too where it is small enough for coil leads and port."""
    port = sized.port if sized.coil else None
    fuse, _ = fuses.fuse_of(sized.number, fields, load, wiring, beside_A=port.load_A if port else 0.0)
    if port is None or takes(cabling, fuse, port.rated_A):
        return fuse
    return fuses.fuse_of(sized.number, fields, load, wiring)[0]


def planned(sized: Sized) -> FusePlan | None:
    """The toy's own fuse; None where it has none."""
    return sized.fuse if sized.fuse.rating_A is not None else None


def load_of(load: Load, current_A: float) -> Load:
    """A load of the same sort with another current: its pulses are as long, so their heat goes with the square."""
    pulse = None if load.pulse_A2s is None else load.pulse_A2s * (current_A / load.design_current_A) ** 2
    return replace(load, design_current_A=current_A, lowest_current_A=current_A, pulse_A2s=pulse)


def wire_for(fuse: FusePlan, loop: Loop, cabling: Cabling, run_m: float) -> tuple[str, bool]:
    """The wire behind this fuse for this run, as shown, and whether even so too much voltage is lost.

    "": no size of the table carries it.
    """
    if fuse.rating_A is None:
        return "", False
    choice = wires.choose(cabling, fuse, loop, None, run_m)
    carries = all(size for rule, size in choice.least.items() if rule != "drop")
    if not carries:
        return "", False
    return choice.plan.size.shown, not reaches(loop.limit_V(), choice.plan.drop_V)


def scaled(loop: Loop, sized: Sized, current_A: float, run_m: float) -> Loop:
    """The same loop with this current, the toy's own runs grown or shrunk so that the way there is `run_m`."""
    factor = run_m / way_there_m(sized)
    runs = tuple(one if one.size else replace(one, length_m=factor * one.length_m) for one in loop.runs)
    return replace(loop, runs=runs, current_A=current_A, lowest_A=current_A)


def way_there_m(sized: Sized) -> float:
    """From the fuse to the toy, one way; a controller or a relay may stand on the way."""
    circuit = sized.circuit
    before = circuit.main[: circuit.main.index(sized.ids["load"])]
    return sum(wire.length_m for wire in circuit.wires if wire.id in before and wire.role not in SHARED_ROLES)

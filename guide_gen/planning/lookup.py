"""If yours draws another current: fuse and wire by current and run, by the same rules and checks as the plan itself."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isclose

from guide_gen.formulas.fuse_opening import Outcome
from guide_gen.formulas.port import usable_current_A
from guide_gen.model.circuit import SHARED_ROLES
from guide_gen.model.fields import FuseFields
from guide_gen.model.plan import FusePlan, Load, Lookup, LookupRow, Sized
from guide_gen.planning import cooler, faults, fuse_checks, fuses, supply_checks, wires
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drafts import drawn_by_letter
from guide_gen.planning.loops import Loop
from guide_gen.planning.signals import takes
from guide_gen.planning.sizing import FedToy, Sizing, fuse_returning
from guide_gen.values import show
from guide_gen.values.quantity import WireSize

CURRENTS_A = (0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0)
RUNS = {"metric": (1.0, 2.0, 3.0, 4.0, 6.0), "US": tuple(0.3048 * feet for feet in (3.0, 6.0, 10.0, 15.0, 20.0))}
AROUND = 4.0  # from a quarter of the toy's current to four times it
LEAST = 4  # rows, however far the toy's current lies from the list
TOO_SMALL = {"port-overloaded", "contacts-rating"}  # what port and control say of a load beyond them
SUPPLY = {"supply-overloaded", "supply-headroom"}


@dataclass(frozen=True)
class Asked:
    """A toy with all of its build. fields: its fuse, the rating to be chosen. back: the fuse in its switched return."""

    whole: Sizing
    fed: FedToy
    fields: FuseFields
    back: FusePlan | None

    @property
    def sized(self) -> Sized:
        """The toy as planned."""
        return self.fed.sized

    @property
    def cabling(self) -> Cabling:
        """The conditions of all wires."""
        return self.whole.cabling


def lookup(whole: Sizing, fed: FedToy) -> Lookup:
    """Fuse and wire for other currents of a toy like this one: same holder, control, voltage and drop limit.

    Without a fuse the holder is the usual one. A stated rating and a stated wire are left out, except in the row of the
    toy itself, which has its fuse as planned.
    """
    fuse, back = fed.draft.toy.feed.fuse, fuse_returning(fed.draft)
    holder = FuseFields() if isinstance(fuse, str) else fuse
    asked = Asked(whole, fed, holder.model_copy(update={"rating": None}), back)
    runs = RUNS[fed.sized.units]
    own = fed.sized.load.design_current_A
    currents = sorted({own, *(one for one in around(own) if not isclose(one, own, rel_tol=1e-9))})
    rows: list[LookupRow] = []
    least = [0] * len(runs)
    for current in currents:
        one, places = row(asked, current, runs, least, here=current == own)
        rows.append(one)
        # The toy's own fuse may be stated larger than that of a larger current.
        least = least if one.here and fed.sized.fuse.stated else places
    return Lookup(asked.fields.holder, runs, tuple(rows), note_of(fed.sized, back))


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
    asked: Asked, current_A: float, runs: Sequence[float], least: Sequence[int], *, here: bool
) -> tuple[LookupRow, list[int]]:
    """Fuse and wires for one current; and the place of each wire in the table, at least that of the row before.

    A larger fuse has a smaller resistance, so that by itself a larger current might do with a thinner wire.
    """
    sized, wiring = asked.sized, asked.whole.build.wiring
    fuse, load = planned(sized) if here else None, sized.load if here else load_of(sized.load, current_A)
    fuse = fuse or fuse_for(asked, load)
    back, loop = asked.back, asked.fed.loop
    if back is not None:
        back, _ = fuses.fuse_of(f"{sized.number}C", FuseFields(holder=back.series), load, wiring, fuses.AT_PORT)
        loop = replace(loop, return_ohm=back.resistance_ohm)
    sizes, places = asked.cabling.sizes(), [0]
    for run, floor in zip(runs, least, strict=True):
        way = scaled(loop, sized, current_A, run)
        places.append(place_of(fuse, way, asked.cabling, sizes, max(floor, places[-1])))
    too_small = tuple(dict.fromkeys(beyond(asked, load, fuse, back, loop)))
    shown = tuple(sizes[place].shown if place < len(sizes) else "" for place in places[1:])
    row = LookupRow(current_A, fuse.rating_A, shown, here, too_small, back.rating_A if back else None)
    return row, places[1:]


def place_of(fuse: FusePlan, loop: Loop, cabling: Cabling, sizes: Sequence[WireSize], least: int) -> int:
    """The place of the thinnest wire, from `least` on, that meets every rule; beyond the last where none does."""
    if fuse.rating_A is None:
        return len(sizes)
    meets = (place for place in range(least, len(sizes)) if wires.meets_all(cabling, sizes[place], fuse, loop))
    return next(meets, len(sizes))


# ---- what else is too small ------------------------------------------------------------------------------------------


def beyond(asked: Asked, load: Load, fuse: FusePlan, back: FusePlan | None, loop: Loop) -> Iterator[str]:
    """What the checks of a plan would say of this current, in few words."""
    one, build = asked.fed.draft, asked.whole.build
    drawn = replace(one, load=load)
    port = asked.sized.port and replace(asked.sized.port, load_A=drawn.through_port_A)
    sized = replace(asked.sized, load=load, fuse=fuse, port=port)
    control = one.control
    if port is not None and control.port_carries_load:
        board, taken = build.boards[port.board], {(port.board, port.number): one.slug}
        told = {found.code for found in supply_checks.port_findings(build, sized, board, taken, one.path)}
        if told & TOO_SMALL or not cooler.stays_cool(build, drawn):
            yield "above this port"
        elif fuse.rating_A is not None and fuse_checks.above_port(sized, one.path):
            yield "fuse above this port"
        through_A = sum(each.through_port_A for each in asked.whole.drafts if each.board_slug == port.board)
        through_A += load.design_current_A - one.through_port_A
        if supply_checks.board_finding(board, port.board, through_A, usable_current_A(board.board_current.low)):
            yield "above this board"
    if {found.code for found in control.findings(one.toy.control, sized, one.path)} & TOO_SMALL:
        yield f"above this {control.word}"
    others = [each for each in asked.whole.drafts if each.supply_slug == one.supply_slug and each.slug != one.slug]
    supply = build.supplies[one.supply_slug]
    for beside, words in (([], "above this supply"), (others, "above this supply with all others on")):
        demand_A = sum(drawn_by_letter([drawn, *beside]).values())
        if {found.code for found in supply_checks.supply_findings(supply, one.supply_slug, demand_A)} & SUPPLY:
            yield words
            break
    if back is not None and back.rating_A is None:
        yield "above this return fuse"
    opening = faults.curve_of(fuse)
    if (
        opening is not None
        and loop.overload == "limits"
        and opening.outcome(loop.limit_low_A, faults.IN_TIME_S) is not Outcome.OPENS
    ):
        yield "more than this supply opens"
    if not wires.drop_counts(fuse, replace(loop, current_A=load.design_current_A)):
        yield "much lost in fuse and contacts"


# ---- fuse, load and loop of a row ------------------------------------------------------------------------------------


def fuse_for(asked: Asked, load: Load) -> FusePlan:
    """The fuse for another load; a relay's coil is behind it too where it is small enough for coil leads and port."""
    sized, wiring = asked.sized, asked.whole.build.wiring
    port = sized.port if sized.coil else None
    fuse, _ = fuses.fuse_of(sized.number, asked.fields, load, wiring, beside_A=port.load_A if port else 0.0)
    if port is None or takes(asked.cabling, fuse, port.rated_A):
        return fuse
    return fuses.fuse_of(sized.number, asked.fields, load, wiring)[0]


def planned(sized: Sized) -> FusePlan | None:
    """The toy's own fuse; None where it has none."""
    return sized.fuse if sized.fuse.rating_A is not None else None


def load_of(load: Load, current_A: float) -> Load:
    """A load of the same sort with another current: as long pulses, so that their heat goes with the square.

    Its start grows with its current, since both go with its resistance.
    """
    ratio = current_A / load.design_current_A
    pulse = None if load.pulse_A2s is None else load.pulse_A2s * ratio**2
    start = None if load.start_A is None else load.start_A * ratio
    return replace(load, design_current_A=current_A, lowest_current_A=current_A, pulse_A2s=pulse, start_A=start)


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

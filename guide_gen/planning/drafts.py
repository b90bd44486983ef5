"""A toy before its wires are sized: its fields, its load, its fuse and the places it takes in the build."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guide_gen.controls import controls
from guide_gen.description.build import VOLTAGE_SPREAD, Board, Build, Supply, Wiring
from guide_gen.formulas import supply as supply_formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import FuseFields, PortedFields, ToyFields
from guide_gen.model.kind import Control, Kind
from guide_gen.model.loads import at_highest
from guide_gen.model.plan import FusePlan, Load
from guide_gen.planning import fuses
from guide_gen.published.tables import rule
from guide_gen.toys import kinds
from guide_gen.values import show
from guide_gen.values.quantity import Basis
from guide_gen.values.worked import Candidate, Shape, Worked


@dataclass(frozen=True)
class Draft:
    """One toy on its way to a plan. number: its place in the build, from 1.

    signal_fuse: of its control's signal, a coil or an input, where that has one of its own. port_fuse: in the switched
    return, inside the board.
    """

    number: int
    slug: str
    toy: ToyFields
    kind: Kind
    control: Control
    supply_slug: str
    load: Load
    fuse: FusePlan
    worked: tuple[Worked, ...]
    signal_fuse: FusePlan | None = None
    port_fuse: FusePlan | None = None

    @property
    def path(self) -> tuple[str, ...]:
        """The keys that lead to it."""
        return ("toys", self.slug)

    @property
    def name(self) -> str:
        """Its name on the pages."""
        return self.toy.name or self.slug.replace("-", " ").capitalize()

    @property
    def port(self) -> PortedFields | None:
        """The port that it takes, when its control has one."""
        return self.toy.control if isinstance(self.toy.control, PortedFields) else None

    @property
    def board_slug(self) -> str:
        """The board of its port, or ""."""
        return self.port.board if self.port else ""

    @property
    def block_slug(self) -> str:
        """The distribution block that its fuse sits at, or ""."""
        return self.toy.feed.block or ""

    @property
    def kickback(self) -> bool:
        """Whether it has a winding that kicks back."""
        return self.load.kickback

    @property
    def chopped(self) -> bool:
        """Whether PWM drives it."""
        return self.control.chops

    @property
    def through_port_A(self) -> float:
        """What its port carries: the load, or what switches the load."""
        return self.control.port_current_A(self.toy.control, self.load)

    @property
    def beside_A(self) -> float:
        """What a relay's coil draws through the feed's fuse beside the load."""
        return 0.0 if self.signal_fuse else beside_A(self.control, self.toy)

    @property
    def signal_A(self) -> tuple[float, float]:
        """What its control takes from the supply besides the load, low and high end: a relay's coil, an input."""
        if not self.control.signal:
            return 0.0, 0.0
        taken = through_port(self.control, self.toy, self.load)
        return taken.lowest_current_A, taken.design_current_A

    @property
    def drawn_A(self) -> tuple[float, float]:
        """All that it draws from its supply, low and high end: the load and its control's own, whichever fuse."""
        low, high = self.signal_A
        return self.load.lowest_current_A + low, self.load.design_current_A + high

    @property
    def source_fuses(self) -> list[FusePlan]:
        """The fuses that sit at its source: the feed's, and its signal's own one."""
        return [self.fuse, *([self.signal_fuse] if self.signal_fuse else [])]

    @property
    def returns_by(self) -> FusePlan:
        """The fuse that bounds what returns through its port: its signal's own one, or the feed's."""
        return self.signal_fuse or self.fuse


def supply_of(build: Build, toy: ToyFields) -> str:
    """The supply that feeds a toy: its block's, or the only one, when it is left out."""
    block = build.blocks[toy.feed.block].supply if toy.feed.block else None
    return toy.supply or block or next(iter(build.supplies))


def home_of(build: Build, board: Board) -> str:
    """The supply that a board's 0 V belongs to."""
    return board.supply or next(iter(build.supplies))


def returns_to(build: Build, board_slug: str, supply_slug: str) -> str:
    """The supply that a board's current goes back to: the toy's own where its 0 V has a lead there, else the board's.

    What leaves a supply at its plus comes back to its 0 V, so that each supply at a board needs a lead of its own.
    """
    board = build.boards[board_slug]
    home = home_of(build, board)
    return supply_slug if {home, supply_slug} <= set(board.common_return) else home


def board_returns(build: Build) -> list[tuple[str, str]]:
    """Every 0 V lead of a board, as board and supply: that of its own supply, then those that toys ask for."""
    used = {
        (toy.control.board, returns_to(build, toy.control.board, supply_of(build, toy)))
        for toy in build.toys.values()
        if isinstance(toy.control, PortedFields)
    }
    homes = [(slug, home_of(build, board)) for slug, board in build.boards.items()]
    joined = [(slug, other) for slug in build.boards for other in build.supplies if (slug, other) in used]
    return list(dict.fromkeys([*homes, *joined]))


def draft(build: Build, number: int, slug: str, *, apart: bool = False) -> Draft:
    """Load and fuse of one toy. apart: its signal has a fuse of its own, even where its description asks for none."""
    toy = build.toys[slug]
    kind, control = kinds()[toy.kind], controls()[toy.control.type]
    supply_slug = supply_of(build, toy)
    load = at_highest(kind.load(toy), voltage_ends(build.supplies[supply_slug])[1])
    at = fuses.AT_BLOCK if toy.feed.block else fuses.AT
    apart = apart or control.own_fuse(toy.control)
    beside = 0.0 if apart else beside_A(control, toy)
    fuse, working = fuses.fuse_of(number, toy.feed.fuse, load, build.wiring, at, beside_A=beside)
    through = through_port(control, toy, load)
    own, own_working = signal_fuse_of(number, control, toy, through, build.wiring, at) if apart else (None, ())
    back, back_working = port_fuse_of(build, number, toy, through)
    return Draft(
        number,
        slug,
        toy,
        kind,
        control,
        supply_slug,
        load,
        fuse,
        (design_current(toy, load), *working, *own_working, *back_working),
        own,
        back,
    )


def drawn_by_letter(drafts: Iterable[Draft]) -> dict[str, float]:
    """What several toys draw, as a sum is written: ``I_2`` of the load, ``I_2B`` of what its control takes."""
    found = {}
    for one in drafts:
        found[f"I_{one.number}"] = one.load.design_current_A
        if one.control.signal:
            found[f"I_{one.number}B"] = one.signal_A[1]
    return found


def beside_A(control: Control, toy: ToyFields) -> float:
    """What a relay's coil draws beside the load; a controller's input draws next to nothing."""
    coil = control.coil(toy.control)
    return coil.load.design_current_A if coil else 0.0


def through_port(control: Control, toy: ToyFields, load: Load) -> Load:
    """What a port switches: the load, or in its place a coil or an input."""
    coil = control.coil(toy.control)
    if not control.signal:
        return load
    if coil:
        return coil.load
    current_A = control.port_current_A(toy.control, load)
    return replace(load, design_current_A=current_A, lowest_current_A=current_A, start_A=None, pulse_A2s=None)


def signal_fuse_of(
    number: int, control: Control, toy: ToyFields, through: Load, wiring: Wiring, at: str
) -> tuple[FusePlan, tuple[Worked, ...]]:
    """The own fuse of a control's signal: beside the feed's and of the same sort, its rating chosen."""
    feed = FuseFields() if isinstance(toy.feed.fuse, str) else toy.feed.fuse
    fuse, working = fuses.fuse_of(f"{number}B", feed.model_copy(update={"rating": None}), through, wiring, at)
    what = "coil" if control.coil(toy.control) else "input"
    return fuse, _of_another(working, what, f"of the {what}")


def port_fuse_of(
    build: Build, number: int, toy: ToyFields, through: Load
) -> tuple[FusePlan | None, tuple[Worked, ...]]:
    """The fuse in a toy's switched return, where its board has holders for them."""
    board = build.boards[toy.control.board] if isinstance(toy.control, PortedFields) else None
    if board is None or board.port_fuse is None:
        return None, ()
    fields = FuseFields(holder=board.port_fuse).model_copy(update={"dc_voltage": board.port_fuse_voltage})
    fuse, working = fuses.fuse_of(f"{number}C", fields, through, build.wiring, fuses.AT_PORT)
    return fuse, _of_another(working, "return", "in the switched return")


def _of_another(working: Iterable[Worked], first: str, where: str) -> tuple[Worked, ...]:
    """The working of a fuse that is not the feed's."""
    return tuple(replace(one, id=f"{first}.{one.id}", name=f"{one.name}, {where}") for one in working)


def design_current(toy: ToyFields, load: Load) -> Worked:
    """Which end of the current's range is the safe one; more than it where its own resistance draws more."""
    current, drawn_A = toy.current, load.design_current_A
    ends = [Candidate(show.amps(current.high), "")]
    if drawn_A > current.high:
        ends = [
            Candidate(show.amps(current.high), "as written; its resistance draws more, and one of them is wrong"),
            Candidate(show.amps(drawn_A), ""),
        ]
    if current.is_range:
        ends.insert(0, Candidate(show.amps(current.low), "the low end would make fuse and wire too small"))
    return Worked(
        "load.current",
        "Design current",
        Shape.CHOICE,
        "I",
        drawn_A,
        "A",
        "the highest current at full voltage, whatever limit is set",
        "this project",
        (current.how[0].upper() + current.how[1:] + "." if current.how else "")
        + f" Basis: {(current.basis or Basis.ESTIMATE).value}.",
        bases={"I": current.basis or Basis.ESTIMATE},
        candidates=tuple(ends),
    )


def drop_share(build: Build, kind: Kind) -> float:
    """The largest share of its supply's voltage that may be lost on the way to a toy: as stated, or as usual for it."""
    stated = build.wiring.drop_limit
    return stated.low if stated is not None else rule(kind.drop_rule).value


def voltage_ends(supply: Supply) -> tuple[float, float]:
    """Lowest and highest voltage that a supply can be set to."""
    if supply.voltage_range:
        return supply.voltage_range.low, supply.voltage_range.high
    return supply.voltage.low * (1 - VOLTAGE_SPREAD), supply.voltage.high * (1 + VOLTAGE_SPREAD)


def limit_to_carry_A(supply: Supply) -> float:
    """What a supply may push through a lead for ever."""
    if supply.current_limit:
        return supply.current_limit.high
    return supply_formulas.limit_to_carry_A(rated_A=supply.current.high)


def gives_A(supply: Supply) -> float:
    """What a supply gives for ever: its rated current, or its limit where that is stated lower."""
    limit = supply.current_limit
    return supply.current.low if limit is None else min(supply.current.low, limit.low)


def contradicted(supply: Supply) -> bool:
    """Whether a supply is said to give less at most than it gives for ever: one of the two is wrong."""
    limit = supply.current_limit
    return limit is not None and not reaches(limit.low, supply.current.low)


def limit_A(supply: Supply) -> float:
    """What a supply is sure to give at most."""
    if supply.current_limit:
        return supply.current_limit.low
    return supply_formulas.limit_for_opening_A(rated_A=supply.current.low)

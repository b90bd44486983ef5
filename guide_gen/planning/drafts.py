"""A toy before its wires are sized: its fields, its load, its fuse and the places it takes in the build."""

from dataclasses import dataclass

from guide_gen.controls import controls
from guide_gen.description.build import VOLTAGE_SPREAD, Board, Build, Supply
from guide_gen.formulas import supply as supply_formulas
from guide_gen.model.fields import PortedFields, ToyFields
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
    """One toy on its way to a plan. number: its place in the build, from 1."""

    number: int
    slug: str
    toy: ToyFields
    kind: Kind
    control: Control
    supply_slug: str
    load: Load
    fuse: FusePlan
    worked: tuple[Worked, ...]

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


def supply_of(build: Build, toy: ToyFields) -> str:
    """The supply that feeds a toy: its block's, or the only one, when it is left out."""
    block = build.blocks[toy.feed.block].supply if toy.feed.block else None
    return toy.supply or block or next(iter(build.supplies))


def home_of(build: Build, board: Board) -> str:
    """The supply that a board's 0 V belongs to."""
    return board.supply or next(iter(build.supplies))


def draft(build: Build, number: int, slug: str) -> Draft:
    """Load and fuse of one toy."""
    toy = build.toys[slug]
    kind, control = kinds()[toy.kind], controls()[toy.control.type]
    supply_slug = supply_of(build, toy)
    load = at_highest(kind.load(toy), voltage_ends(build.supplies[supply_slug])[1])
    at = fuses.AT_BLOCK if toy.feed.block else fuses.AT
    fuse, working = fuses.fuse_of(number, toy.feed.fuse, load, build.wiring, at)
    return Draft(number, slug, toy, kind, control, supply_slug, load, fuse, (design_current(toy), *working))


def design_current(toy: ToyFields) -> Worked:
    """Which end of the current's range is the safe one."""
    current = toy.current
    ends = [Candidate(show.amps(current.high), "")]
    if current.is_range:
        ends.insert(0, Candidate(show.amps(current.low), "the low end would make fuse and wire too small"))
    return Worked(
        "load.current",
        "Design current",
        Shape.CHOICE,
        "I",
        current.high,
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


def limit_A(supply: Supply) -> float:
    """What a supply is sure to give at most."""
    if supply.current_limit:
        return supply.current_limit.low
    return supply_formulas.limit_for_opening_A(rated_A=supply.current.low)

"""The way of a load's current, there and back: what it loses, and what a short circuit in it gives."""

from dataclasses import dataclass
from itertools import takewhile

from guide_gen.planning.cabling import Cabling
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values.quantity import WireSize


@dataclass(frozen=True)
class Run:
    """A run in the loop of a load. size None: one of the feed's own runs, whose size is being chosen."""

    length_m: float
    size: WireSize | None = None
    name: str = ""


@dataclass(frozen=True)
class Loop:
    """The way of a load's current, there and back.

    overload: what its supply does when its limit is reached. row: the block that it passes, or ""; row_ohm: resistance
    of the block's fuse. return_ohm: of a fuse in the switched return.
    """

    runs: tuple[Run, ...]
    contacts: int
    switch_ohm: float
    switch_low_ohm: float
    current_A: float
    lowest_A: float
    voltage_V: float
    limit_share: float
    low_V: float
    high_V: float
    limit_low_A: float
    limit_high_A: float
    overload: str = "not known"
    row: str = ""
    row_ohm: float = 0.0
    return_ohm: float = 0.0

    def fault_A(self, cabling: Cabling, size: WireSize, fuse_ohm: float) -> tuple[float, float]:
        """What flows into a short circuit: at least at the toy (warm, low), at most behind the fuse (cold, high).

        The wire can be pinched anywhere: the fault nearest to the fuse is the highest, however long the run is.
        """
        contact = rule("contact resistance")
        assert contact.low is not None
        before = [(run.size, run.length_m) for run in takewhile(lambda run: run.size, self.runs) if run.size]
        lead = sum(tables.resistance_ohm_per_m(size) * length_m for size, length_m in before)
        least = self.low_V / self.fault_ohm(cabling, size, fuse_ohm)
        most = self.high_V / (lead + 2 * max(1, len(before)) * contact.low)
        return min(least, self.limit_low_A), min(most, self.limit_high_A)

    def fault_ohm(self, cabling: Cabling, size: WireSize, fuse_ohm: float) -> float:
        """All that a short circuit at the toy flows through, warm, its contacts at their worst."""
        worst = rule("contact resistance").high
        assert worst is not None
        other = fuse_ohm + self.row_ohm + self.return_ohm + self.contacts * worst + self.switch_ohm
        return self.wire_ohm(cabling, size) + other

    def wire_ohm(self, cabling: Cabling, size: WireSize) -> float:
        """All runs at their own size, length and temperature."""
        return sum(cabling.run_ohm(run.size or size, run.length_m, self.current_A) for run in self.runs)

    def shared_ohm(self, cabling: Cabling, current_A: float) -> float:
        """The leads that other feeds share, with the contact at each of their ends."""
        return sum(lead_ohm(cabling, run, current_A) for run in self.runs if run.size)

    def other_ohm(self, fuse_ohm: float) -> float:
        """Fuses, contacts and switch: what no thicker wire lowers."""
        contacts = self.contacts * rule("contact resistance").value
        return fuse_ohm + self.row_ohm + self.return_ohm + contacts + self.switch_ohm

    def drop_V(self, cabling: Cabling, size: WireSize, fuse_ohm: float) -> float:
        """What is lost from the supply's terminals to the toy's."""
        return self.current_A * (self.wire_ohm(cabling, size) + self.other_ohm(fuse_ohm))

    def limit_V(self) -> float:
        """The largest drop allowed."""
        return self.limit_share * self.voltage_V


def lead_ohm(cabling: Cabling, lead: Run, current_A: float) -> float:
    """A lead whose size is known, with the contact at each of its ends."""
    assert lead.size is not None
    return cabling.run_ohm(lead.size, lead.length_m, current_A) + 2 * rule("contact resistance").value

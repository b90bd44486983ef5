"""What holds for every wire of a build: table, insulation, air, bundle; and what a size carries and loses under it."""

from dataclasses import dataclass

from guide_gen.description.build import Wiring
from guide_gen.formulas import wire
from guide_gen.published import tables
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import Shape, Worked, work

HOTTEST_DEGC = 250.0  # beyond it no wire lasts, and the straight line of copper ends


@dataclass(frozen=True)
class Cabling:
    """The conditions of all wires. column_degC: the table's insulation column. bundled: circuits tied together."""

    family: tables.Family
    column_degC: float
    ambient_degC: float
    bundled: int
    bundle_factor: float
    bundle_row: str
    ambient_factor: float

    def sizes(self) -> tuple[WireSize, ...]:
        """The sizes to choose from, thinnest first."""
        return tuple(WireSize(self.family.sizes_system, number) for number in self.family.sizes_in(self.column_degC))

    def smallest_above(self, size: WireSize) -> WireSize | None:
        """The family's smallest size for such wires, where this one stands in the table below it; else None."""
        return None if size in self.sizes() else self.sizes()[0]

    def table_A(self, size: WireSize) -> float:
        """The table's own figure."""
        return self.family.ampacity_A(size.number, self.column_degC)

    def ampacity_A(self, size: WireSize) -> float:
        """What the size may carry for ever in this cabinet."""
        return wire.derated_ampacity_A(
            table_A=self.table_A(size), ambient_factor=self.ambient_factor, bundle_factor=self.bundle_factor
        )

    def temperature_degC(self, size: WireSize, current_A: float) -> float:
        """Temperature of the conductor under a lasting current."""
        return wire.conductor_temperature_degC(
            ambient_degC=self.ambient_degC,
            insulation_degC=self.column_degC,
            base_ambient_degC=self.family.ambient_degC,
            current_A=current_A,
            table_A=self.table_A(size),
            bundle_factor=self.bundle_factor,
        )

    def run_ohm(self, size: WireSize, length_m: float, current_A: float) -> float:
        """Resistance of one run, at the temperature that the current gives it; at most at its insulation's limit."""
        warm = min(self.temperature_degC(size, current_A), HOTTEST_DEGC)
        per_m = wire.resistance_at_ohm_per_m(
            resistance_20_ohm_per_m=tables.resistance_ohm_per_m(size), temperature_degC=warm
        )
        return wire.run_resistance_ohm(resistance_ohm_per_m=per_m, length_m=length_m)

    def shared_A(self, size: WireSize) -> float:
        """What a lead of several feeds may carry: its ampacity, and no more than the family allows before it."""
        cap = self.fuse_cap_A(size)
        return self.ampacity_A(size) if cap is None else min(cap, self.ampacity_A(size))

    def fuse_cap_A(self, size: WireSize) -> float | None:
        """The largest fuse for this size by the family's own rule, whatever the ampacity."""
        return self.family.fuse_caps_A.get(size.number)

    def worked(self, size: WireSize) -> tuple[Worked, ...]:
        """How the ampacity of a size was found."""
        return (
            Worked(
                "wire.table",
                "Ampacity in the table",
                Shape.TABLE,
                "I_t",
                self.table_A(size),
                "A",
                f"row {size.text}, column {self.column_degC:g} °C",
                f"{self.family.source} ({self.family.how_known})",
                f"Air of {self.family.ambient_degC:g} °C.",
                table=self.family.name,
                row=size.text,
                column=f"{self.column_degC:g} °C",
            ),
            Worked(
                "wire.bundle",
                "Factor for a bundle",
                Shape.TABLE,
                "k_b",
                self.bundle_factor,
                "",
                f"row {self.bundle_row}",
                f"{self.family.bundle_source} ({self.family.how_known})",
                f"{self.bundled} circuit{'s' if self.bundled != 1 else ''} tied together and loaded at once.",
                table=self.family.bundle_source,
                row=self.bundle_row,
                column="factor",
            ),
            work(
                wire.ambient_factor,
                "wire.ambient",
                "Factor for the air in the cabinet",
                insulation_degC=self.column_degC,
                ambient_degC=self.ambient_degC,
                base_ambient_degC=self.family.ambient_degC,
            ),
            work(
                wire.derated_ampacity_A,
                "wire.ampacity",
                "What the wire may carry here",
                table_A=self.table_A(size),
                ambient_factor=self.ambient_factor,
                bundle_factor=self.bundle_factor,
            ),
        )


def cabling_of(wiring: Wiring, feeds: int) -> Cabling:
    """The conditions that a description states; the bundle is the number of feeds when it is left out."""
    family = tables.family(wiring.ampacity_table)
    column = family.column_for(wiring.insulation.low)
    bundled = wiring.bundled_circuits or max(1, feeds)
    factor, row = family.bundle_factor(bundled)
    ambient = wiring.inside_temperature.high
    return Cabling(
        family,
        column,
        ambient,
        bundled,
        factor,
        row,
        wire.ambient_factor(insulation_degC=column, ambient_degC=ambient, base_ambient_degC=family.ambient_degC),
    )

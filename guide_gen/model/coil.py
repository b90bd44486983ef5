"""A coil that pulls: what is known of it, how much copper it has, how it gives off its heat, what a meter shows."""

from dataclasses import dataclass
from math import inf
from typing import Annotated, Literal, cast

from guide_gen.formulas import coil as formulas
from guide_gen.formulas.motor import winding_at_ohm
from guide_gen.model.fields import Current, Resistance, Section, ToyFields, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Reading
from guide_gen.model.kind import Missing, Weighed
from guide_gen.model.plan import Sized
from guide_gen.published.tables import rule, touch_levels, winding_limit_degC
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.reading import read_quantity
from guide_gen.values.worked import Worked, work

Inductance = Annotated[Quantity, read_quantity("inductance", "mH", 1e-6, 100.0, example="30 mH", ranged=True)]
WireDiameter = Annotated[Quantity, read_quantity("length", "mm", 2e-5, 5e-3, example="0.45 mm", ranged=True)]
CoilLength = Annotated[Quantity, read_quantity("length", "mm", 1e-3, 0.3, example="40 mm", ranged=True)]
InsulationClass = Literal["Y", "A", "E", "B", "F", "H", "90", "105", "120", "130", "155", "180"]

MATCH = 0.25  # how far V / R and the current as written may differ before one of them is doubted; this project
METER_SPREAD = 0.10  # of a resistance in the ohms range, leads subtracted; common practice, no source
WARMEST_DEGC = 40.0  # of a coil that has not been on; this project
HOT, MUST = "caution", "must fix"  # levels of published/touch.csv


class CoilFields(Section):
    """A coil by what its data sheet says, or by what a hobbyist can measure."""

    resistance: Resistance | None = key(
        "resistance of the cold coil, leads subtracted",
        example="6.5 ohm (measured)",
        chosen="voltage divided by current",
    )
    inductance: Inductance | None = key(
        "inductance, from the plunger out to the plunger in", example="30 mH to 60 mH (datasheet)"
    )
    wire_diameter: WireDiameter | None = key(
        "diameter of its wire, bare copper: gives the mass of copper", example="0.45 mm (measured)"
    )
    outer_diameter: CoilLength | None = key("outer diameter of the winding", example="32 mm")
    inner_diameter: CoilLength | None = key("inner diameter of the winding", example="14 mm")
    length: CoilLength | None = key("length of the winding", example="40 mm")
    insulation_class: InsulationClass = key(
        "class of its insulation by IEC 60085, letter or number",
        example="B",
        default="A",
        source="this project: the lowest class that an unmarked coil may have (IEC 60085, A is 105 °C)",
    )
    release_current: Current | None = key(
        "current at which it lets go",
        example="60 mA (measured)",
        chosen="a tenth of its current: it lets go at the latest there (IEC 60947-4-1)",
    )


class CoilToy(ToyFields):
    """A toy whose load is one coil."""

    current: Current = key(
        "what the cold coil draws at its voltage",
        example="4.6 A (measured)",
        ask="measure the cold coil on a multimeter's ohms range, subtract what the leads read when touched, and divide "
        "its voltage by that; never keep it on to read a current",
    )
    coil: CoilFields = key(
        "the coil itself",
        example="{resistance: 6.5 ohm, wire_diameter: 0.45 mm, insulation_class: B}",
        default={},
        source="this project",
    )


def weighed(toy: ToyFields) -> tuple[Weighed, ...]:
    """What is known of a coil, and how well: resistance, inductance and copper, and what it needs to let go."""
    coil = cast(CoilToy, toy).coil
    caliper = "a caliper across the winding"
    named = (
        (
            "the coil's resistance",
            coil.resistance,
            "resistance",
            "a multimeter's ohms range, coil cold, leads subtracted",
        ),
        ("the coil's inductance", coil.inductance, "inductance", "an inductance meter, plunger in and plunger out"),
        ("the diameter of the coil's wire", coil.wire_diameter, "wire_diameter", "a caliper on its bare copper"),
        ("the winding's outer_diameter", coil.outer_diameter, "outer_diameter", caliper),
        ("the winding's inner_diameter", coil.inner_diameter, "inner_diameter", caliper),
        ("the winding's length", coil.length, "length", caliper),
        ("the coil's release_current", coil.release_current, "release_current", "a bench supply turned down slowly"),
    )
    return tuple(
        Weighed(name, value, ("coil", place), measure, asked=place in ("resistance", "inductance"))
        for name, value, place, measure in named
        if value is not None
    )


def resistance_ohm(toy: CoilToy) -> tuple[float, float]:
    """Of the cold coil, low and high end: as stated, else from its voltage and current.

    Both where they contradict each other, so that every end is on the safe side.
    """
    by_current = toy.voltage.low / toy.current.high, toy.voltage.high / toy.current.low
    stated = toy.coil.resistance
    if stated is None:
        return by_current
    if contradictory(toy):
        return min(stated.low, by_current[0]), max(stated.high, by_current[1])
    return stated.low, stated.high


def contradictory(toy: CoilToy) -> bool:
    """Whether its stated current and resistance cannot both be right."""
    stated, by_current = toy.coil.resistance, toy.voltage.middle / toy.current.middle
    return stated is not None and abs(by_current - stated.middle) > MATCH * stated.middle * (1 + 1e-9)


def drawn_A(toy: CoilToy) -> float:
    """The current that everything is sized for: as stated, or what its resistance draws where that is more.

    The latter only where they contradict each other: a warm coil draws a little less than a cold one.
    """
    stated = toy.coil.resistance
    if stated is None or not contradictory(toy):
        return toy.current.high
    return max(toy.current.high, toy.voltage.middle / stated.low)


def inductance_H(toy: CoilToy) -> tuple[float, float] | None:
    """Plunger out and plunger in; None when not known."""
    stated = toy.coil.inductance
    return None if stated is None else (stated.low, stated.high)


def release_A(toy: CoilToy) -> float:
    """The current at which it lets go at the latest."""
    stated = toy.coil.release_current
    return stated.low if stated is not None else rule("release share of a coil").value * toy.current.low


def limit_degC(toy: CoilToy) -> float:
    """How warm the winding may be on average."""
    allowance = rule("hot spot allowance").value
    return formulas.mean_limit_degC(class_degC=winding_limit_degC(toy.coil.insulation_class), hot_spot_K=allowance)


@dataclass(frozen=True)
class Coil:
    """A coil in its cabinet, at the ends of all ranges that make it hot.

    high_V, low_V: of its supply. cold_ohm: at 20 °C, low and high end. air_degC: inside the cabinet, at its warmest.
    capacity_J_per_K, thermal_K_per_W: None when not known.
    """

    high_V: float
    low_V: float
    cold_ohm: tuple[float, float]
    air_degC: float
    limit_degC: float
    capacity_J_per_K: float | None
    thermal_K_per_W: float | None
    worked: tuple[Worked, ...]

    @property
    def power_W(self) -> float:
        """Heat at its highest voltage while it is cold."""
        return formulas.power_W(voltage_V=self.high_V, resistance_ohm=self.cold_ohm[0])

    @property
    def cold_A(self) -> float:
        """The most that it draws: cold, at the highest voltage."""
        return formulas.steady_current_A(voltage_V=self.high_V, resistance_ohm=self.cold_ohm[0])

    def least_A(self, degC: float) -> float:
        """The least that it draws at a temperature: at the lowest voltage."""
        hot = winding_at_ohm(resistance_20_ohm=self.cold_ohm[1], temperature_degC=min(degC, 300.0))
        return formulas.steady_current_A(voltage_V=self.low_V, resistance_ohm=hot)

    @property
    def final_degC(self) -> float | None:
        """Where it ends when it stays on for ever; None when its surface is not known."""
        if self.thermal_K_per_W is None:
            return None
        return formulas.final_temperature_degC(
            voltage_V=self.high_V,
            resistance_20_ohm=self.cold_ohm[0],
            thermal_K_per_W=self.thermal_K_per_W,
            ambient_degC=self.air_degC,
        )

    @property
    def may_stay_on(self) -> bool:
        """Whether it never reaches its limit."""
        return self.final_degC is not None and self.final_degC <= self.limit_degC

    def time_to_limit_s(self, start_degC: float) -> float | None:
        """From a start to its limit, no heat given off; infinite when it never gets there, None when not known."""
        if self.may_stay_on:
            return inf
        if self.capacity_J_per_K is None:
            return None
        return formulas.adiabatic_time_s(
            voltage_V=self.high_V,
            resistance_20_ohm=self.cold_ohm[0],
            capacity_J_per_K=self.capacity_J_per_K,
            start_degC=min(start_degC, self.limit_degC),
            limit_degC=self.limit_degC,
        )


def coil_of(toy: CoilToy, sized: Sized) -> Coil:
    """All that follows from what is known of a coil, with its working."""
    cold = resistance_ohm(toy)
    first = work(
        formulas.steady_current_A,
        "coil.cold",
        "Current of the cold coil, at the highest voltage",
        voltage_V=sized.supply_high_V,
        resistance_ohm=cold[0],
    )
    heat = work(
        formulas.power_W,
        "coil.power",
        "Heat in the coil while it is on",
        sentence="Taken at the cold resistance and the highest voltage: the safe side.",
        voltage_V=sized.supply_high_V,
        resistance_ohm=cold[0],
    )
    limit = work(
        formulas.mean_limit_degC,
        "coil.limit",
        "How warm the winding may be on average",
        sentence=f"Insulation class {toy.coil.insulation_class}.",
        class_degC=winding_limit_degC(toy.coil.insulation_class),
        hot_spot_K=rule("hot spot allowance").value,
    )
    hot = work(
        winding_at_ohm,
        "coil.hot-resistance",
        "Resistance of the coil at that limit",
        resistance_20_ohm=cold[1],
        temperature_degC=float(limit.result),
    )
    least = work(
        formulas.steady_current_A,
        "coil.hot",
        "Current of the hot coil, at the lowest voltage",
        sentence="What a warm coil draws and pulls with; a meter shows it fall while the coil warms.",
        voltage_V=sized.supply_low_V,
        resistance_ohm=float(hot.result),
    )
    capacity, mass = _capacity(toy, cold[0])
    thermal, surface = _thermal(toy)
    return Coil(
        sized.supply_high_V,
        sized.supply_low_V,
        cold,
        sized.inside_degC,
        float(limit.result),
        capacity,
        thermal,
        (first, heat, limit, hot, least, *mass, *surface),
    )


def _capacity(toy: CoilToy, cold_ohm: float) -> tuple[float | None, tuple[Worked, ...]]:
    """Heat capacity of the copper: by the wire's diameter, else by the room that the winding fills."""
    coil = toy.coil
    if coil.wire_diameter is not None:
        mass = work(
            formulas.copper_mass_by_wire_kg,
            "coil.copper",
            "Mass of copper in the coil",
            sentence="The diameter counts to the fourth power: 5 % wrong is 22 % of the mass.",
            resistance_20_ohm=cold_ohm,
            wire_mm=1000 * coil.wire_diameter.low,
        )
    elif coil.outer_diameter and coil.inner_diameter and coil.length:
        if coil.inner_diameter.high >= coil.outer_diameter.low:
            return None, ()
        mass = work(
            formulas.copper_mass_by_window_kg,
            "coil.copper",
            "Mass of copper in the coil",
            fill=rule("winding fill").low or 0.0,
            outer_mm=500 * coil.outer_diameter.low,
            inner_mm=500 * coil.inner_diameter.high,
            length_mm=1000 * coil.length.low,
        )
    else:
        return None, ()
    capacity = work(
        formulas.heat_capacity_J_per_K, "coil.capacity", "Heat for each kelvin", copper_kg=float(mass.result)
    )
    return float(capacity.result), (mass, capacity)


def _thermal(toy: CoilToy) -> tuple[float | None, tuple[Worked, ...]]:
    """How much warmer than the air for each watt: through the mantle of the winding."""
    coil = toy.coil
    if coil.outer_diameter is None or coil.length is None:
        return None, ()
    area = work(
        formulas.mantle_m2,
        "coil.surface",
        "Surface of the winding",
        outer_mm=1000 * coil.outer_diameter.low,
        length_mm=1000 * coil.length.low,
    )
    thermal = work(
        formulas.thermal_resistance_K_per_W,
        "coil.thermal",
        "Kelvin above the air for each watt",
        sentence="In still air, 8 to 15 W/(m² K): an estimate.",
        transfer_W_per_m2_K=rule("surface heat transfer").low or 0.0,
        area_m2=float(area.result),
    )
    return float(thermal.result), (area, thermal)


# ---- what is measured, what is missing ------------------------------------------------------------------------------


def resistance_reading(toy: CoilToy, sized: Sized) -> Reading:
    """What a meter shows across the cold coil."""
    held = sized.ids["load"]
    stated = toy.coil.resistance
    low, high = (stated.low, stated.high) if stated else resistance_ohm(toy)
    warm = winding_at_ohm(resistance_20_ohm=high, temperature_degC=WARMEST_DEGC)
    origin = "from its data" if toy.coil.resistance else "from voltage and current"
    return Reading(
        "Resistance of the cold coil, less the leads",
        f"{held}:1 and {held}:2",
        (1 - METER_SPREAD) * low,
        (1 + METER_SPREAD) * warm,
        "Ω",
        "Lower: shorted turns, do not power it. Open: a broken wire or a thermal cut-out that is still hot. Higher: "
        "a warm coil or a bad joint.",
        f"ohms range; subtract what the leads read when touched together. Expected {origin}",
    )


def lacking(key_name: str, gives: str, how: str) -> Missing:
    """A part of the plan that one key of the coil would give."""
    return Missing(f"coil: {{{key_name}: ..}}", gives, how, ("coil",))


def missing_inductance(toy: CoilToy) -> tuple[Missing, ...]:
    """What is not known of a coil without its inductance."""
    if toy.coil.inductance is not None:
        return ()
    return (
        lacking(
            "inductance",
            "the release time and the energy of its kickback",
            "Look its inductance up, or measure it with an inductance meter, plunger or armature in.",
        ),
    )


def data_findings(toy: CoilToy, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """What is written of the coil must fit together."""
    found = []
    stated = toy.coil.resistance
    by_current = toy.voltage.middle / toy.current.middle
    if stated is not None and contradictory(toy):
        found.append(
            Finding(
                "reading-outside",
                Level.NOTE,
                f"{sized.name} has {show.quantity(stated)} and draws {show.quantity(toy.current)}: at "
                f"{show.volts(toy.voltage.middle)} that current would mean {show.ohms(by_current)}. One of them is "
                f"wrong, or was read on a warm coil. Fuse, wire and port are sized for the larger current, "
                f"{show.amps(drawn_A(toy))}, and the coil's heat for the smaller resistance.",
                f"{show.amps(toy.voltage.middle / stated.middle)} for this resistance",
                "Measure the cold coil again, and write the current of the cold coil.",
                (*path, "current"),
                sized.slug,
            )
        )
    return tuple(found)


def surface_findings(
    sized: Sized, degC: float, limit_degC: float, what: str, mend: str, path: tuple[str, ...], basis: Basis
) -> tuple[Finding, ...]:
    """A coil that can be touched, against the burn thresholds and its own insulation.

    what: of which state this is. basis: of the temperature.
    """
    from_degC = {level.level: level.from_degC for level in touch_levels()}
    if degC < from_degC[HOT] and degC <= limit_degC:
        return ()
    must = degC >= from_degC[MUST] or degC > limit_degC
    why = "its insulation does not stand that" if degC > limit_degC else "it burns the skin"
    return (
        Finding(
            "surface-hot",
            Level.MUST if must else Level.SHOULD,
            f"{what}, {sized.name} reaches about {show.celsius(degC, sized.units)} ({basis}): {why}.",
            f"below {show.celsius(min(from_degC[HOT], limit_degC), sized.units)}",
            mend,
            path,
            sized.slug,
        ),
    )

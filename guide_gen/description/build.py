"""The build model: one cabinet as its maker describes it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal

from pydantic import GetCoreSchemaHandler, create_model
from pydantic_core import CoreSchema, core_schema

from guide_gen.controls import controls
from guide_gen.model.fields import (
    CabinetAir,
    ControlFields,
    Count,
    EdgeTime,
    Factor,
    FloorFields,
    Frequency,
    FuseFields,
    Holder,
    Junction,
    LowFrequency,
    MapOrWord,
    Mass,
    Percent,
    Rail,
    RailCapacitance,
    RatedCurrent,
    RatedVoltage,
    Resistance,
    Run,
    Section,
    Size,
    Slug,
    Temperature,
    Text,
    ThermalResistance,
    ToyFields,
    VoltageRange,
    YesNo,
    key,
)
from guide_gen.toys import kinds
from guide_gen.values.reading import BRANCH

VOLTAGE_SPREAD = 0.05  # what a supply's trimmer allows each way when nothing is stated; this project, an estimate
Colour = Literal["BK", "BN", "RD", "OG", "BU", "VT", "GY", "WH", "PK", "TQ"]


class Colours(Section):
    """Wire colours, letters after IEC 60757; green and yellow are kept for protective earth."""

    plus: Colour = key("wires at plus", example="RD", default="RD", source="this project")
    zero: Colour = key("wires at 0 V", example="BK", default="BK", source="this project")
    back: Colour = key(
        "switched returns, from toy to port", example="BN", default="BN", source="this project", alias="return"
    )
    control: Colour = key("wires of a controller's input", example="BU", default="BU", source="this project")


class Wiring(Section):
    """What holds for all wires of the build."""

    ampacity_table: Literal["IEC 60204-1", "IEC 60364-5-52", "NFPA 70 310.16", "NFPA 70 310.17", "33 CFR 183.425"] = (
        key(
            "the one family of tables used for wire",
            example="IEC 60204-1",
            ask="choose the family of the place: IEC 60204-1 for mm2, 33 CFR 183.425 for AWG",
        )
    )
    sizes: Literal["mm2", "AWG"] | None = key("mm2 or AWG", example="mm2", chosen="as the family has them")
    insulation: Temperature = key(
        "temperature rating of the wire's insulation, as printed on it",
        example="70 °C",
        default="70 °C",
        source="common practice, no source: plain PVC wire",
    )
    inside_temperature: CabinetAir = key(
        "temperature inside the closed cabinet", example="40 °C", default="40 °C", source="this project: estimate"
    )
    bundled_circuits: Count | None = key(
        "circuits that are tied together and loaded at once", example="2", chosen="the number of feeds"
    )
    drop_limit: Percent | None = key(
        "largest voltage drop from supply to toy; a stated one holds for all",
        example="5 %",
        chosen="3 % of the supply's voltage, and 5 % for toys with a motor",
    )
    fuse_margin: Factor = key(
        "how many times the current a fuse is rated for",
        example="1.5",
        default="1.5",
        source="common practice, no source",
    )
    colours: Colours = key(
        "colours by use, letters of IEC 60757", example="{plus: RD, zero: BK}", default={}, source="this project"
    )


class Cabinet(Section):
    """The cabinet as a body."""

    mass: Mass | None = key("mass of the whole cabinet", example="95 kg (estimate)")
    sideways_frequency: LowFrequency | None = key(
        "frequency at which it sways when nudged", example="4.5 Hz (measured)"
    )
    damping: Percent | None = key("damping of that sway", example="6 % (measured)")
    contents: Literal["ordinary", "spinning disk", "rugged"] = key(
        "what must not be shaken to death: ordinary electronics, a spinning disk, or rugged parts only",
        example="ordinary",
        default="ordinary",
        source="this project: IEC 60721-3-3 classes 3M2, 3M1, 3M4 of 1994",
    )
    floor: FloorFields = key(
        "the panel that toys are bolted to",
        example="{material: plywood, thickness: 18 mm}",
        default={},
        source="this project",
    )


class FuseBlock(Section):
    """The lead from a supply to its fuses."""

    run: Run = key("length of the lead", example="0.15 m", default="0.15 m", source="this project: estimate")
    wire: Size | None = key("size of the lead", example="2.5 mm2", chosen="smallest size that carries what can flow")


class BoardReturn(Section):
    """A board's own 0 V lead."""

    run: Run = key("length of the lead", example="0.6 m", default="0.5 m", source="this project: estimate")
    wire: Size | None = key("size of the lead", example="2.5 mm2", chosen="smallest size that carries what can flow")


class Supply(Section):
    """A closed, bought DC power supply."""

    voltage: Rail = key("its rated voltage", example="12 V", ask="read it on the supply's label")
    voltage_range: VoltageRange | None = key("what its trimmer allows", example="11 V to 13 V", chosen="5 % each way")
    current: RatedCurrent = key("its rated current, for ever", example="20 A", ask="read it on the supply's label")
    current_limit: RatedCurrent | None = key(
        "what it gives at most",
        example="24 A (datasheet)",
        chosen="1.1 times rated for opening a fuse, 1.5 times for a lead",
    )
    overload: Literal["limits", "restarts", "switches off", "not known"] = key(
        "what it does when asked for too much",
        example="limits",
        ask="look it up in its data sheet under over-current protection; not known is an answer",
    )
    earth_pin: YesNo | None = key("whether it has an earthed, three-wire mains plug", example="yes")
    capacitance: RailCapacitance | None = key(
        "all capacitors on its rail together: its own output, boards and toys", example="4700 uF (datasheet)"
    )
    bleed_resistance: Resistance | None = key(
        "resistance that empties them when the plug is out", example="1 kohm (datasheet)"
    )
    fuse_block: FuseBlock = key(
        "the lead from the supply to the fuses", example="{run: 0.15 m}", default={}, source="this project: estimate"
    )


class BlockFeed(Section):
    """The run that feeds a distribution block, from its fuse at the supply."""

    run: Run = key(
        "length of wire from the fuse at the supply to the block, one way",
        example="2 m",
        ask="lay a string along the way the wire will take, and measure the string with a tape",
    )
    return_run: Run | None = key(
        "length of the block's 0 V lead, where it differs from the way there",
        example="2.2 m",
        chosen="as long as the way there",
    )
    fuse: Annotated[FuseFields | Literal["none"], MapOrWord()] = key(
        "the block's own fuse, at the supply; none: there is no fuse",
        example="{holder: blade}",
        default={},
        source="this project",
    )
    wire: Size | None = key(
        "size of the block's plus and 0 V lead",
        example="2.5 mm2",
        chosen="smallest size that carries the fuse and loses at most half of the drop limit with all its toys on",
    )


class DistributionBlock(Section):
    """A row of fused positions near the toys, fed by one lead from a supply."""

    supply: Slug | None = key("the supply that feeds it", example="main", chosen="the only supply")
    feed: BlockFeed = key(
        "the run that feeds it", example="{run: 2 m}", ask="give at least its run, one way, from its fuse to the block"
    )


class Board(Section):
    """A driver board with low-side switched ports."""

    supply: Slug | None = key("the supply that its 0 V belongs to", example="main", chosen="the only supply")
    ports: Count = key("how many ports it has", example="16", ask="count its output terminals")
    port_current: RatedCurrent = key(
        "current that one port may switch", example="10 A", ask="read it in the board's data sheet"
    )
    board_current: RatedCurrent = key(
        "current of all ports together", example="30 A", ask="read it in the board's data sheet"
    )
    port_peak_current: RatedCurrent | None = key(
        "current that one port's switch stands for a moment, for loads that draw more at their start: lamps, motors",
        example="40 A (datasheet)",
    )
    port_voltage: RatedVoltage = key(
        "voltage that a port may switch", example="30 V", ask="read it in the board's data sheet"
    )
    pwm_frequency: Frequency | None = key(
        "frequency of its PWM; asked for once one of its ports is used with PWM", example="200 Hz"
    )
    switch_resistance: Resistance = key(
        "resistance of one port's switch when on",
        example="10 mohm (datasheet)",
        default="10 mohm (estimate)",
        source="this project: estimate, 5 to 30 mohm",
    )
    switch_resistance_at: Junction = key(
        "junction temperature for which switch_resistance is given; a data sheet's main figure is for 25 °C",
        example="25 °C",
        default="25 °C",
        source="common practice, no source",
    )
    switch_thermal_resistance: ThermalResistance = key(
        "thermal resistance of one port's switch as it is mounted, from its junction to the air",
        example="60 K/W (datasheet)",
        default="50 to 65 K/W (estimate)",
        source="this project: estimate, a through-hole part without heat sink in free air",
    )
    switching_time: EdgeTime = key(
        "how long one port's switch takes to turn on, or off if that is longer",
        example="1 us (estimate)",
        default="1 μs (estimate)",
        source="this project: estimate, 0.1 to 5 μs",
    )
    port_fuse: Holder | None = key("holder in each switched return", example="5 x 20 mm")
    port_fuse_voltage: RatedVoltage | None = key(
        "the DC voltage that the maker of the fuses in its returns allows", example="58 V"
    )
    back: BoardReturn = key(
        "the board's own 0 V lead", example="{run: 0.6 m}", default={}, source="this project: estimate", alias="return"
    )
    common_return: tuple[Slug, ...] = key(
        "supplies whose 0 V are joined at this board", example="[main, high]", default=(), source="this project"
    )


class Build(Section):
    """One cabinet: its supplies, boards and toys."""

    build: Text = key("name of the build", example="Night Ferry", ask="give the cabinet a name")
    summary: Text | None = key("the build in a sentence", example="Full-size harbour-themed cabinet.")
    invented: YesNo = key("marks demo data on every page", example="yes", default="no", source="this project")
    revision: Text | None = key("revision of this description", example="3")
    date: Text | None = key("date of this revision", example="2026-11-02")
    author: Text | None = key("a handle, never a name", example="tidewatch")
    licence: Text | None = key("licence of words and drawings", example="CC BY-SA 4.0")
    units: Literal["metric", "US"] = key(
        "which units stand first on the pages", example="metric", default="metric", source="this project"
    )
    wiring: Wiring = key(
        "what holds for all wires", example="{ampacity_table: IEC 60204-1}", ask="give at least its ampacity_table"
    )
    cabinet: Cabinet = key("the cabinet as a body", example="{mass: 95 kg}", default={}, source="this project")
    supplies: dict[Slug, Supply] = key(
        "the power supplies, by slug", example="main: {voltage: 12 V}", ask="describe at least one supply"
    )
    boards: dict[Slug, Board] = key(
        "the driver boards, by slug", example="quay: {ports: 16}", default={}, source="this project"
    )
    blocks: dict[Slug, DistributionBlock] = key(
        "distribution blocks, by slug: rows of fused positions near the toys, each fed by one lead from a supply",
        example="wharf: {feed: {run: 2 m}}",
        default={},
        source="this project",
    )
    toys: dict[Slug, ToyFields] = key(
        "the toys, by slug", example="bump: {kind: shaker motor}", ask="describe at least one toy"
    )


@dataclass(frozen=True)
class Choice:
    """A map whose shape is chosen by one of its keys: a toy by `kind`, a control by `type`."""

    by: str
    models: Mapping[str, type[Section]]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.tagged_union_schema(
            {BRANCH + word: handler.generate_schema(model) for word, model in self.models.items()},
            discriminator=self._chosen,
        )

    def __hash__(self) -> int:
        return hash((self.by, tuple(self.models)))

    def _chosen(self, value: Any) -> str | None:
        word = value.get(self.by) if isinstance(value, Mapping) else None
        return BRANCH + word if isinstance(word, str) else None


@cache
def build_model() -> type[Build]:
    """The build model with every kind of toy and every control that there is."""
    by_type = Choice("type", {word: each.fields for word, each in controls().items()})
    control: Any = (
        Annotated[ControlFields, by_type],
        key("how it is driven", example="{type: always on}", ask="say at least its type"),
    )
    by_kind = Choice(
        "kind",
        {
            word: create_model(kind.fields.__name__, __base__=kind.fields, control=control)
            for word, kind in kinds().items()
        },
    )
    toys: Any = (dict[Slug, Annotated[ToyFields, by_kind]], Build.model_fields["toys"])
    return create_model("Build", __base__=Build, toys=toys)

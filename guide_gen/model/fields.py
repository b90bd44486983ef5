"""The fields of a description: what a key means, how its value is read, what happens when it is left out.

One declaration serves reader, JSON Schema, the page's table of keys and ``guide-gen start``.
"""

from collections.abc import Mapping
from typing import Annotated, Any, Literal, Union, get_args

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from guide_gen.values.grammar import Expected
from guide_gen.values.quantity import Quantity, WireSize
from guide_gen.values.reading import (
    BRANCH,
    read_number,
    read_quantity,
    read_slug,
    read_text,
    read_wire_size,
    read_yes_no,
)

__all__ = ["Section", "key"]


class Section(BaseModel):
    """A map of the description; unknown keys are problems."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=True)


def key(
    meaning: str,
    *,
    example: str,
    ask: str = "",
    chosen: str = "",
    default: Any = None,
    source: str = "",
    alias: str | None = None,
    starts: bool = False,
) -> Any:
    """Declare one key.

    meaning: one plain sentence fragment. example: a value as a person writes it.
    ask: the key is asked for; says what to look at or to measure, and with what.
    chosen: left out, the program chooses; says by which rule.
    default: the text that is taken when it is left out; source: where that default is from.
    With none of these the key may be left off, and what it gives is left off the page.
    alias: the key as it is written, where that is a word of Python.
    starts: a first description has it although it may be left out.
    """
    extra: dict[str, Any] = {"example": example} | ({"starts": True} if starts else {})
    if ask:
        return Field(description=meaning, alias=alias, json_schema_extra=extra | {"ask": ask})
    if chosen:
        return Field(default, description=meaning, alias=alias, json_schema_extra=extra | {"chosen": chosen})
    if default is not None:
        return Field(default, description=meaning, alias=alias, json_schema_extra=extra | {"default_source": source})
    return Field(None, description=meaning, alias=alias, json_schema_extra=extra)


# Quantities: dimension, SI unit inside, and what such a thing can be (low and high end, plausible in a cabinet).
Rail = Annotated[Quantity, read_quantity("voltage", "V", 1.0, 60.0, example="12 V", extra_low=True)]
RatedVoltage = Annotated[Quantity, read_quantity("voltage", "V", 1.0, 1000.0, example="30 V")]
Current = Annotated[Quantity, read_quantity("current", "A", 0.0005, 100.0, example="5.5 A", ranged=True)]
RatedCurrent = Annotated[Quantity, read_quantity("current", "A", 0.0005, 1000.0, example="10 A")]
VoltageRange = Annotated[
    Quantity, read_quantity("voltage", "V", 1.0, 60.0, example="11 V to 13 V", ranged=True, extra_low=True)
]
PulsePower = Annotated[Quantity, read_quantity("power", "W", 0.1, 1e5, example="600 W")]
Resistance = Annotated[Quantity, read_quantity("resistance", "ohm", 1e-4, 1e5, example="0.30 ohm", ranged=True)]
Capacitance = Annotated[Quantity, read_quantity("capacitance", "uF", 1e-10, 0.1, example="10 uF")]
Frequency = Annotated[Quantity, read_quantity("frequency", "Hz", 1.0, 1e6, example="200 Hz")]
LowFrequency = Annotated[Quantity, read_quantity("frequency", "Hz", 0.3, 60.0, example="4.5 Hz", ranged=True)]
Run = Annotated[Quantity, read_quantity("length", "m", 0.01, 30.48, example="1.8 m")]
Thickness = Annotated[Quantity, read_quantity("length", "mm", 1e-4, 0.2, example="18 mm")]
# All capacitors of a rail together: a supply's own output and those of boards and toys.
RailCapacitance = Annotated[Quantity, read_quantity("capacitance", "uF", 1e-6, 1.0, example="4700 uF")]
Loudness = Annotated[Quantity, read_quantity("sound level", "dB", 20.0, 180.0, example="78 dB")]
Torque = Annotated[Quantity, read_quantity("torque", "N m", 0.01, 100.0, example="1.2 N m")]
Mass = Annotated[Quantity, read_quantity("mass", "kg", 0.001, 1000.0, example="95 kg", ranged=True)]
Temperature = Annotated[Quantity, read_quantity("temperature", "°C", -40.0, 250.0, example="40 °C", zero=True)]
# Up to the last point that is known of a fuse in warm air.
CabinetAir = Annotated[Quantity, read_quantity("temperature", "°C", -40.0, 85.0, example="40 °C", zero=True)]
Junction = Annotated[Quantity, read_quantity("temperature", "°C", 0.0, 200.0, example="25 °C", zero=True)]
ThermalResistance = Annotated[
    Quantity, read_quantity("thermal resistance", "K/W", 0.01, 1000.0, example="60 K/W", ranged=True)
]
EdgeTime = Annotated[Quantity, read_quantity("time", "us", 1e-9, 1e-3, example="1 us", ranged=True)]
SmallVoltage = Annotated[Quantity, read_quantity("voltage", "V", 0.05, 5.0, example="0.5 V", ranged=True)]
Percent = Annotated[Quantity, read_quantity("share", "%", 0.0, 1.0, example="12 %", zero=True)]
# A setting as it was found: behind a trimmer, which has no scale, the voltage at the motor stands for it.
FoundSetting = Annotated[
    Quantity,
    read_quantity(
        "share", "%", 0.0, 1.0, example="8 %", zero=True, instead=Expected("voltage", "V", 1e-3, 60.0, "0.9 V")
    ),
]
Factor = Annotated[float, read_number("1.5", 1.0, 5.0)]
Count = Annotated[int, read_number("16", 1, 512)]
Size = Annotated[WireSize, read_wire_size()]
Slug = Annotated[str, read_slug()]
Text = Annotated[str, read_text()]
YesNo = Annotated[bool, read_yes_no()]

Holder = Literal["blade", "mini blade", "5 x 20 mm", "5 x 20 mm UL", "6.3 x 32 mm UL"]
SuppressorType = Literal["none", "diode", "diode and zener", "rc", "on the board", "in the controller", "not needed"]


class MapOrWord:
    """Marks a value that is either a map or one of some words; what stands there says which, and is judged as that."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        of_maps = [each for each in get_args(source) if isinstance(each, type) and issubclass(each, Section)]
        of_words = tuple(each for each in get_args(source) if each not in of_maps)
        return core_schema.tagged_union_schema(
            {
                BRANCH + "map": handler.generate_schema(of_maps[0]),
                BRANCH + "word": handler.generate_schema(Union[of_words]),  # noqa: UP007 - made at run time
            },
            discriminator=lambda value: BRANCH + ("map" if isinstance(value, Mapping | Section) else "word"),
        )


class FuseFields(Section):
    """The fuse of a feed."""

    holder: Holder = key(
        "which series of fuses the holder takes", example="blade", default="blade", source="common practice, no source"
    )
    rating: RatedCurrent | None = key(
        "the number printed on the fuse",
        example="10 A",
        chosen="smallest rating of the holder's series at or above the needed current",
    )
    speed: Literal["fast", "time-lag"] | None = key("fast or time-lag, as printed", example="time-lag")
    dc_voltage: RatedVoltage | None = key("the DC voltage that its maker allows", example="58 V")


class FeedFields(Section):
    """The run that feeds a toy, from its fuse."""

    run: Run = key(
        "length of wire from the fuse to the toy, one way",
        example="1.8 m",
        ask="lay a string along the way the wire will take, and measure the string with a tape",
    )
    return_run: Run | None = key(
        "length of the way back, where it differs from run; with a relay it counts from the relay, and relay.run, from "
        "there to the toy, is added to it; with a speed controller it begins at the controller",
        example="2.1 m",
        chosen="as long as the way there",
    )
    fuse: Annotated[FuseFields | Literal["none"], MapOrWord()] = key(
        "the fuse at the source of this feed; none: there is no fuse",
        example="{holder: blade}",
        default={},
        source="this project",
    )
    wire: Size | None = key(
        "size of the wire", example="1.5 mm2", chosen="smallest standard size that carries the fuse and keeps the drop"
    )
    block: Slug | None = key(
        "the distribution block that its fuse sits at", example="wharf", chosen="none: at the supply", alias="from"
    )


class SuppressorFields(Section):
    """What takes the kickback, with the values of the part that is there."""

    type: SuppressorType = key(
        "sort of suppressor", example="diode", ask="look at the parts across the toy's terminals"
    )
    reverse_voltage: RatedVoltage | None = key("highest voltage that it blocks", example="40 V")
    forward_current: RatedCurrent | None = key("mean current that it carries for ever", example="3 A")
    surge_current: RatedCurrent | None = key("single surge that it stands", example="80 A")
    forward_voltage: SmallVoltage | None = key("what the diode drops at its mean current", example="0.5 V")
    recovery_time: EdgeTime | None = key(
        "how long the diode still lets current pass backwards: its reverse recovery time", example="35 ns"
    )
    thermal_resistance: ThermalResistance | None = key(
        "of the diode as it is mounted, from its junction to the air", example="40 K/W"
    )
    zener_voltage: RatedVoltage | None = key("voltage of the zener in series with the diode", example="24 V")
    pulse_power: PulsePower | None = key(
        "pulse power of the zener or suppressor diode, at 10/1000 μs as its data sheet lists it", example="600 W"
    )
    capacitance: Capacitance | None = key("capacitor of an rc", example="10 uF")
    resistance: Resistance | None = key("resistor of an rc", example="4.7 ohm")


class FloorFields(Section):
    """The panel that toys are bolted to."""

    material: Text | None = key("what the floor is made of", example="plywood")
    thickness: Thickness | None = key("thickness of the floor", example="18 mm")


class MountFields(Section):
    """How the toy is held."""

    shaft: Literal["front to back", "side to side", "upright"] | None = key(
        "how the shaft lies", example="front to back"
    )
    place: Literal["front half", "middle", "back half"] | None = key("where on the floor", example="front half")
    screw: Text | None = key("screw size", example="M5", chosen="M5; #10-32 in a description with US units")
    screws: Count = key("number of screws", example="4", default="4", source="common practice, no source")
    bracket: Thickness | None = key(
        "thickness of the bracket or frame under the screw's head",
        example="3 mm",
        default="3 mm",
        source="this project",
    )
    washer: Thickness | None = key(
        "outer diameter of the washers", example="25 mm", default="25 mm", source="this project"
    )
    length: Thickness | None = key(
        "length of the screws", example="35 mm", chosen="shortest preferred length that fits floor, bracket and nut"
    )
    locking: Literal["nylon-insert nut", "thread-locking", "two nuts", "spring washer", "none"] = key(
        "what keeps the nuts from walking off",
        example="nylon-insert nut",
        default="nylon-insert nut",
        source="this project",
    )
    strength: Literal["4.6", "8.8", "A2-70", "SAE 2"] = key(
        "class of the screws, as marked on their heads",
        example="8.8",
        default="4.6",
        source="this project: the lowest class that an unmarked screw may have",
    )
    torque: Torque | None = key(
        "torque that they are tightened with, besides that of a locking nut",
        example="1.2 N m",
        chosen="what gives the clamp that screw and panel stand",
    )


class PlayFields(Section):
    """How the game uses the toy."""

    loud: YesNo = key("whether it is silenced after hours", example="yes", default="no", source="this project")
    effect: Literal["real", "sound", "both"] = key(
        "the real effect, a sampled sound or both", example="real", default="real", source="this project"
    )


class FoundFields(Section):
    """What was found when the job was finished: the as-left record."""

    setting: FoundSetting | None = key(
        "setting as left; behind a speed controller's trimmer the voltage at the motor while it runs", example="8 %"
    )
    start: FoundSetting | None = key(
        "setting at which it began to turn, raised in small steps; behind a trimmer the voltage at the motor just "
        "before it turned over",
        example="7 %",
    )
    turning: LowFrequency | None = key(
        "turning frequency at the setting as left, or at full strength where there is no setting",
        example="6 Hz (measured)",
    )
    trimmer: Text | None = key("where the trimmer was left", example="a quarter turn from the lowest end")
    current: Current | None = key(
        "running current at that setting, on a DC meter in the fuse's place", example="0.6 A (measured)"
    )
    sideways_frequency: LowFrequency | None = key(
        "frequency at which the cabinet sways when nudged, found on this date", example="4.6 Hz (measured)"
    )
    damping: Percent | None = key("damping of that sway, found on this date", example="6 % (measured)")
    loudness: Loudness | None = key(
        "A-weighted level at the player's ear while it plays, averaged", example="76 dB (measured)"
    )
    peak: Loudness | None = key("C-weighted peak level at the player's ear", example="118 dB (measured)")
    date: Text | None = key("date of the record", example="2026-10-31")


class ControlFields(Section):
    """What every control has."""

    type: str


class PortedFields(ControlFields):
    """What every control has that takes a port of a board."""

    board: Slug = key("the board whose port drives it", example="quay", ask="name one of the boards described above")
    port: Count = key("the port's number, as printed on the board", example="2", ask="read it beside the terminal")


class ToyFields(Section):
    """What every toy has, whatever its kind."""

    kind: str
    name: Text | None = key("its name on the pages", example="Bow shaker", chosen="its slug, with spaces")
    supply: Slug | None = key("the supply that feeds it", example="main", chosen="the only supply")
    voltage: Rail = key(
        "the toy's own rated voltage", example="12 V", ask="read it on the motor's label or in its data sheet"
    )
    current: Current = key(
        "what it draws at full voltage, loaded as in use",
        example="5 A to 6 A (measured)",
        ask="run it at its full voltage with the load fitted, and read the current on a multimeter's 10 A range "
        "or a bench supply; give the lowest and highest reading",
    )
    control: ControlFields
    feed: FeedFields = key(
        "the run that feeds it", example="{run: 1.8 m}", ask="give at least its run, one way, from fuse to toy"
    )
    suppressor: Annotated[SuppressorFields | SuppressorType, MapOrWord()] | None = key(
        "what takes the kickback", example="diode", chosen="by kind and control"
    )
    mount: MountFields = key("how it is held", example="{screw: M5, screws: 4}", default={}, source="this project")
    play: PlayFields = key(
        "how the game uses it", example="{loud: yes, effect: real}", default={}, source="this project"
    )
    found: FoundFields | None = key("the as-left record", example="{setting: 8 %, date: 2026-10-31}")

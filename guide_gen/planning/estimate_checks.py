"""Which results rest on an estimate, and what to measure instead."""

from dataclasses import replace

from guide_gen.description.build import Build
from guide_gen.model.fields import ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Weighed
from guide_gen.model.plan import Sized
from guide_gen.planning.checks import Path, control_of
from guide_gen.toys import kinds
from guide_gen.values import show
from guide_gen.values.quantity import Basis


def estimates(build: Build, toy: ToyFields, sized: Sized, moves: bool, path: Path) -> list[Finding]:
    """Which values without a firm basis decide this toy's results; told once. moves: its motion is worked out."""
    values = [one for one in weighed(build, toy, sized, path) if moves or not one.moves]
    weak = [one for one in values if one.value.basis is Basis.ESTIMATE or (one.asked and one.value.basis is None)]
    if not weak:
        return []
    named = " and ".join(f"{one.name} ({show.quantity(one.value)})" for one in weak)
    how = " ".join(f"{one.name[0].upper()}{one.name[1:]}: {one.measure}." for one in weak)
    return [
        Finding(
            "estimate-used",
            Level.NOTE,
            f"{sized.name} rests on {'an estimate' if len(weak) == 1 else 'estimates'}: {named}. Results are only as "
            "good as that.",
            "a measured value, or one from a data sheet",
            f"Measure before you buy. {how} Then write (measured) behind the value, or (datasheet).",
            weak[0].path,
            sized.slug,
        )
    ]


def weighed(build: Build, toy: ToyFields, sized: Sized, path: Path) -> list[Weighed]:
    """Every value on which a toy's results rest, with the instrument that tells it better."""
    extra = type(toy).model_fields["current"].json_schema_extra
    assert isinstance(extra, dict)
    values = [Weighed("its current", toy.current, (*path, "current"), str(extra["ask"]))]
    if sized.port and control_of(sized).port_carries_load:
        board, here = build.boards[sized.port.board], ("boards", sized.port.board, "switch_resistance")
        if "switch_resistance" in board.model_fields_set:
            how = "a multimeter's millivolts across the port that is on, over the current through it"
            values.append(Weighed("the port's switch_resistance", board.switch_resistance, here, how))
        if "switch_thermal_resistance" in board.model_fields_set:
            here = (*here[:-1], "switch_thermal_resistance")
            how = "the data sheet of the board or of its switch; it is not measured at home"
            thermal = board.switch_thermal_resistance
            values.append(Weighed("the port's switch_thermal_resistance", thermal, here, how, asked=False))
    values += [replace(one, path=(*path, *one.path)) for one in kinds()[toy.kind].weighed(toy)]
    values += [replace(one, path=(*path, "control", *one.path)) for one in control_of(sized).weighed(toy.control)]
    limit = build.supplies[sized.supply_slug].current_limit
    if limit is not None:
        here = ("supplies", sized.supply_slug, "current_limit")
        how = "its data sheet, under over-current protection; it is not measured at home"
        values.append(Weighed("the supply's current_limit", limit, here, how))
    return [*values, *cabinet_weighed(build)]


def cabinet_weighed(build: Build) -> list[Weighed]:
    """What is known of the cabinet as a body; it counts where a motion is worked out."""
    cabinet, nudge = build.cabinet, "a phone's accelerometer on top of it, nudged and let go"
    named = (
        ("the cabinet's mass", cabinet.mass, "mass", "a bathroom scale, corner by corner", False),
        ("the cabinet's sideways_frequency", cabinet.sideways_frequency, "sideways_frequency", nudge, True),
        ("the cabinet's damping", cabinet.damping, "damping", nudge, False),
    )
    return [
        Weighed(name, value, ("cabinet", place), how, asked, moves=True)
        for name, value, place, how, asked in named
        if value is not None
    ]

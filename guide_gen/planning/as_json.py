"""A plan as JSON: the contract with editors, scripts and checks. Every number carries its unit in its key."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from math import inf, isfinite
from typing import Any

from guide_gen import __version__
from guide_gen.description.report import as_json as finding_as_json
from guide_gen.model.circuit import Circuit, Wire
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Caution, Need, Reading, Step
from guide_gen.model.plan import (
    Air,
    BlockPlan,
    Compared,
    Ends,
    FusePlan,
    Motion,
    MotionPoint,
    Plan,
    PulsePlan,
    Sized,
    SpeedPlan,
    SpeedPoint,
    Suppression,
    ToyPlan,
    WirePlan,
)
from guide_gen.planning.switching import DESTROYED_DEGC
from guide_gen.values.show import plain_spaces
from guide_gen.values.worked import Shape, Worked

Json = dict[str, Any]


def plan_json(plan: Plan) -> Json:
    """The whole plan of one build."""
    return spaced(
        {
            "guide_gen": __version__,
            "build": plan.slug,
            "toys": {slug: toy_json(toy) for slug, toy in plan.toys.items()},
            "supplies": {
                slug: {
                    "id": one.id,
                    "voltage_V": one.voltage_V,
                    "rated_A": one.rated_A,
                    "demand_A": one.demand_A,
                    "worst_A": one.worst_A,
                    "limit_A": one.limit_A,
                    "headroom_percent": one.headroom_percent,
                    "wires": wires_json(one.wires),
                    "worked": worked_json(one.worked),
                }
                for slug, one in plan.supplies.items()
            },
            "boards": {
                slug: {
                    "id": one.id,
                    "load_A": one.load_A,
                    "rated_A": one.rated_A,
                    "limit_A": one.limit_A,
                    "wires": wires_json(one.wires),
                    "ports": {str(number): toy for number, toy in sorted(one.ports.items())},
                    "worked": worked_json(one.worked),
                }
                for slug, one in plan.boards.items()
            },
            "blocks": {slug: block_json(one) for slug, one in plan.blocks.items()},
            "cautions": cautions_json(plan.cautions),
            "needs": needs_json(plan.needs),
            "worked": worked_json(plan.worked),
            "findings": [finding_as_json(finding) for finding in plan.findings],
        }
    )


def spaced(entries: Json) -> Json:
    """The same entries for other programs: plain spaces in all texts, no noise in numbers."""
    return {key: _spaced(value) for key, value in entries.items()}


def _spaced(value: Any) -> Any:
    if isinstance(value, str):
        return plain_spaces(value)
    if isinstance(value, float):
        return float(f"{value:.10g}")  # binary noise behind the tenth digit tells nobody anything
    if isinstance(value, dict):
        return spaced(value)
    return [_spaced(one) for one in value] if isinstance(value, list | tuple) else value


def problems_json(build: str, problems: Iterable[Finding]) -> Json:
    """What stands in place of a plan when the description cannot be read."""
    return {"guide_gen": __version__, "build": build, "findings": [finding_as_json(one) for one in problems]}


def findings_json(findings: Iterable[Finding]) -> Json:
    """Problems and findings of all builds in one list."""
    return {"guide_gen": __version__, "findings": [finding_as_json(one) for one in findings]}


def toy_json(toy: ToyPlan) -> Json:
    """All that follows for one toy."""
    sized = toy.sized
    load = sized.load
    return {
        "kind": toy.kind,
        "control": sized.control,
        "name": toy.name,
        "load": {
            "design_current_A": load.design_current_A,
            "current_A": span(load.lowest_current_A, load.design_current_A),
            "basis": load.basis.value,
            "voltage_V": load.voltage_V,
        },
        **({"block": sized.block_slug} if sized.block_slug else {}),
        "fuse": fuse_json(sized.fuse) | {"basis": load.basis.value},
        **({"signal_fuse": fuse_json(sized.signal_fuse)} if sized.signal_fuse else {}),
        "wire": wire_json(sized.wire) | {"basis": load.basis.value},
        "suppression": suppression_json(sized.suppression),
        **({"coil_suppression": suppression_json(sized.coil)} if sized.coil else {}),
        **({"port": port_json(sized)} if sized.port else {}),
        **({"pulse": pulse_json(toy.pulse)} if toy.pulse else {}),
        **({"motion": motion_json(toy.motion)} if toy.motion else {}),
        **({"motion": full_json(toy)} if toy.at_full or toy.found_at_full else {}),
        **({"motion": speed_json(toy.speed)} if toy.speed else {}),
        **({"mounting": mounting_json(sized)} if sized.mounting else {}),
        "circuit": circuit_json(sized.circuit),
        "wires": wires_json(toy.wires),
        "needs": needs_json(toy.needs),
        "cautions": cautions_json(toy.cautions),
        "readings": [reading_json(one) for one in toy.readings],
        "steps": [step_json(one) for one in toy.steps],
        "worked": worked_json(toy.worked),
        "findings": [finding_as_json(one) for one in toy.findings],
    }


def present(entries: Mapping[str, Any]) -> Json:
    """What does not apply is absent."""
    return {key: value for key, value in entries.items() if value is not None}


def pulse_json(pulse: PulsePlan) -> Json:
    """Times of a pulse coil; a fuse that may stay whole for ever says ``never``."""
    found = present(asdict(pulse))
    return found | ({"fuse_opens_s": "never"} if pulse.fuse_opens_s == inf else {})


def junction(ends: tuple[float, float] | None) -> float | Json | None:
    """Temperature of a part; absent where it heats itself without end, or past what any part lasts."""
    return span(*ends) if ends is not None and ends[1] <= DESTROYED_DEGC else None


def span(low: float, high: float) -> float | Json:
    """A range under one key; a single value as a number."""
    return low if low == high else {"low": low, "high": high}


def suppression_json(plan: Suppression) -> Json:
    """What takes a kickback."""
    return present(
        {
            "type": plan.type,
            "part": plan.part or None,
            "class": plan.class_name or None,
            "reverse_V": plan.reverse_V,
            "forward_A": plan.forward_A,
            "surge_A": plan.surge_A,
            "zener_V": plan.zener_V,
            "zener_W": plan.zener_W,
            "pulse_A": plan.pulse_A,
            "pulse_W": plan.pulse_W,
            "pulse_s": plan.pulse_s,
            "pulse_class_W": plan.pulse_class_W if plan.pulse_class_W and isfinite(plan.pulse_class_W) else None,
            "capacitance_F": plan.capacitance_F,
            "resistance_ohm": plan.resistance_ohm,
            "mean_A": plan.mean_A,
            "heat_W": plan.heat_W,
            "junction_degC": junction(plan.junction_degC),
            "cooling_K_per_W": plan.cooling_K_per_W,
            "peak_V": plan.peak_V,
            "release_s": plan.release_s,
        }
    )


def block_json(block: BlockPlan) -> Json:
    """A distribution block: its feed, and the toys behind it."""
    guard = block.protection
    return {
        "id": block.id,
        "supply": block.supply_slug,
        "load_A": block.load.design_current_A,
        "toys": list(block.toys),
        "fuse": fuse_json(block.fuse),
        "wire": wire_json(block.wire),
        "short_circuit": present(
            {
                "least_A": guard.fault_A,
                "opened_s": guard.opened_s,
                "ended_by": guard.by,
            }
        ),
        "wires": wires_json(block.wires),
        "readings": [reading_json(one) for one in block.readings],
        "worked": worked_json(block.worked),
    }


def wire_json(wire: WirePlan) -> Json:
    """The wire of a feed."""
    return {
        "size": wire.size.text,
        "area_mm2": wire.area_mm2,
        "run_m": wire.run_m,
        "ampacity_A": wire.ampacity_A,
        "drop_V": wire.drop_V,
        "drop_percent": wire.drop_percent,
        "governed_by": wire.governed_by,
    }


def fuse_json(fuse: FusePlan) -> Json:
    """The fuse of a feed; where there is none, what it would have to be."""
    if fuse.rating_A is None:
        return {"needed_A": fuse.needed_A, "governed_by": fuse.governed_by, "at": fuse.at}
    return present(
        {
            "id": fuse.id,
            "rating_A": fuse.rating_A,
            "series": fuse.series,
            "standard": fuse.standard,
            "at": fuse.at,
            "needed_A": fuse.needed_A,
            "governed_by": fuse.governed_by,
            "voltage_V": fuse.voltage_V,
            "speed": fuse.speed or None,
        }
    )


def port_json(sized: Sized) -> Json:
    """The port in use."""
    port = sized.port
    assert port is not None
    return present(
        {
            "board": port.board,
            "number": port.number,
            "load_A": port.load_A,
            "limit_A": port.limit_A,
            "rated_A": port.rated_A,
            "switch_W": port.switch_W,
            "switching_W": port.switching_W,
            "junction_degC": junction(port.junction_degC),
            "set_to": port.set_to,
            "pwm_frequency_Hz": port.pwm_frequency_Hz,
            "limit_percent": None if port.limit_share is None else 100 * port.limit_share,
        }
    )


def motion_json(motion: Motion) -> Json:
    """What it does at each setting; what never happens is absent."""

    def percent(low: float, high: float) -> float | Json | None:
        ends = {"low": 100 * low, "high": 100 * high}
        finite = {name: value for name, value in ends.items() if isfinite(value)}
        return None if not finite else ends["low"] if low == high else finite

    return present(
        {
            "move_percent": percent(*motion.move),
            "sustain_percent": percent(*motion.sustain),
            "start_percent": percent(*motion.start),
            "start_nominal_percent": percent(motion.start_nominal, motion.start_nominal),
            "start_likely_percent": percent(*motion.start_likely) if motion.start_likely else None,
            "begin_percent": percent(motion.begin, motion.begin),
            "step_percent": 100 * motion.step,
            "ceiling_percent": percent(motion.ceiling, motion.ceiling),
            "over_at_top_percent": [percent(*one) for one in motion.over_top],
            "resonance_percent": percent(*motion.resonance) if motion.resonance else None,
            "stop_percent": percent(motion.stop, motion.stop),
            "start_motor_V": ends(*motion.start_V) if motion.start_V and isfinite(motion.start_V[1]) else None,
            "bench_V": ends(*motion.bench_V) if motion.bench_V else None,
            "bench_A": ends(*motion.bench_A) if motion.bench_A else None,
            "pull_N": motion.pull_N,
            "bands": [
                {"name": band.name, "low_percent": 100 * band.low, "high_percent": 100 * band.high}
                for band in motion.bands
            ],
            "curve": [motion_point_json(point) for point in motion.curve],
            "found": found_json(motion.compared),
            "narrowed": motion.narrowed or None,
            "doubts": list(motion.doubts),
            "remedies": list(motion.remedies),
            "kick": motion.kick or None,
            "measure_next": motion.helps or None,
        }
    )


def full_json(toy: ToyPlan) -> Json:
    """What a shaker does that gets full strength or nothing, and what was found of it."""
    curve = [motion_point_json(toy.at_full)] if toy.at_full else None
    return present({"curve": curve, "found": found_json(toy.found_at_full)})


def found_json(compared: Iterable[Compared]) -> list[Json] | None:
    """What was found against what was worked out; None where nothing was."""
    return [
        {"what": one.what, "found": one.found, "predicted": one.predicted, "fits": one.fits} for one in compared
    ] or None


def ends(low: float | None, high: float | None) -> Json | None:
    """A range; None where an end is not known."""
    return None if low is None or high is None else {"low": low, "high": high}


def motion_point_json(point: MotionPoint) -> Json:
    """One setting of a shaker."""
    return present(
        {
            "setting_percent": 100 * point.setting,
            "turning_Hz": point.turning_Hz,
            "turning_range_Hz": ends(point.turning_low_Hz, point.turning_high_Hz),
            "accel_m_s2": point.accel_m_s2,
            "accel_range_m_s2": ends(point.accel_low_m_s2, point.accel_high_m_s2),
            "shift_mm": 1000 * point.shift_m,
            "line": point.line,
            "limit_share": point.limit_share,
        }
    )


def speed_json(plan: SpeedPlan) -> Json:
    """What a gear motor or a blower does at each setting, or at each voltage of its supply."""
    whole = {"points": [{"supply_V": one.supply_V} | speed_point_json(one) for one in plan.points]}
    if plan.axis:
        whole = {"curve": [{"setting_percent": 100 * one.setting} | speed_point_json(one) for one in plan.points]}
    return present(
        {
            "turns": plan.turns,
            **ranged("start", "_percent", plan.start, 100.0),
            **ranged("keeps_turning", "_percent", plan.keeps, 100.0),
            "begin_percent": None if plan.begin is None else 100 * plan.begin,
            "step_percent": 100 * plan.step if plan.axis else None,
            "full": speed_point_json(plan.full) if plan.full else None,
            **ranged("moving_torque", "_Nm", plan.moving_Nm),
            "fuse_held_fast": plan.held_fuse or None,
            "fuse_opens_s": plan.held_opens_s,
            **whole,
            "found": found_json(plan.compared),
            "kick": plan.kick or None,
            "measure_next": plan.helps or None,
        }
    )


def speed_point_json(point: SpeedPoint) -> Json:
    """One setting or voltage."""
    return (
        ranged("turning", "_rpm", point.turning_Hz, 60.0)
        | ranged("stall", "_A", point.stall_A)
        | ranged("torque", "_Nm", point.torque_Nm)
        | ranged("force", "_N", point.force_N)
        | (air_json(point.air) if point.air else {})
    )


def air_json(air: Air) -> Json:
    """What a fan moves, in percent of what it does at full."""
    return (
        ranged("flow", "_percent", air.flow, 100.0)
        | ranged("pressure", "_percent", air.pressure, 100.0)
        | ranged("power", "_percent", air.power, 100.0)
    )


def ranged(name: str, unit: str, ends: Ends | None, times: float = 1.0) -> Json:
    """A range under its key, and the likeliest beside it; what never happens is absent."""
    if ends is None:
        return {}
    low, likeliest, high = (times * one for one in ends)
    whole = {key: value for key, value in (("low", low), ("high", high)) if isfinite(value)}
    found: Json = {f"{name}{unit}": low if low == high else whole} if whole else {}
    return found | ({f"{name}_nominal{unit}": likeliest} if isfinite(likeliest) and low != high else {})


def mounting_json(sized: Sized) -> Json:
    """The screws."""
    screws = sized.mounting
    assert screws is not None
    return present(
        {
            "screw": screws.screw,
            "length_mm": screws.length_mm,
            "count": screws.count,
            "hole_mm": screws.hole_mm,
            "washer_mm": screws.washer_mm,
            "stack_mm": screws.stack_mm,
            "torque_Nm": screws.torque_Nm,
            "clamp_N": screws.clamp_N,
            "slip_safety": screws.slip_safety,
            "pull_N": screws.pull_N,
        }
    )


def circuit_json(circuit: Circuit) -> Json:
    """Parts and the nodes that join them; a wire is a part with the ends a and b."""
    parts = [
        present({"id": part.id, "what": part.what.value, "value": part.value, "inside": part.inside or None})
        for part in circuit.parts
    ]
    parts += [{"id": wire.id, "what": "wire", "value": f"{wire.size} {wire.colour}"} for wire in circuit.wires]
    return {"parts": parts, "nodes": circuit.nodes()}


def wires_json(wires: Iterable[Wire]) -> list[Json]:
    """A wire list."""
    return [
        {
            "id": wire.id,
            "from": wire.start,
            "to": wire.end,
            "colour": wire.colour,
            "size": wire.size.replace("mm²", "mm2"),
            "length_m": wire.length_m,
            "carries_A": wire.carries_A,
            "protected_by": wire.protected_by,
            "role": wire.role,
        }
        for wire in wires
    ]


def needs_json(needs: Iterable[Need]) -> list[Json]:
    """A shopping list."""
    return [
        present(
            {
                "what": need.what,
                "value": need.value,
                "count": need.count,
                "note": need.note or None,
                "for": need.used_for or None,
                "colour": need.colour or None,
            }
        )
        for need in needs
    ]


def cautions_json(cautions: Iterable[Caution]) -> list[Json]:
    """Safety messages with the places where they stand."""
    return [
        {
            "id": one.id,
            "word": one.word.value,
            "place": ", ".join([*(["head"] if one.grouped else []), *(f"before {name}" for name in one.before)])
            or "build",
            "text": one.text,
            "reason": one.reason,
        }
        for one in cautions
    ]


def reading_json(reading: Reading) -> Json:
    """A meter reading to expect."""
    return present(
        {
            "what": reading.what,
            "between": reading.between,
            "low": reading.low,
            "high": reading.high,
            "unit": reading.unit,
            "if_not": reading.if_not,
            "how": reading.how or None,
        }
    )


def step_json(step: Step) -> Json:
    """A step; record: the reading to write down."""
    return present(
        {
            "id": step.id,
            "stage": step.stage,
            "text": step.text,
            "killer": step.killer,
            "record": reading_json(step.record) if step.record else None,
        }
    )


def worked_json(worked: Iterable[Worked]) -> list[Json]:
    """Results with their working."""
    found = []
    for one in worked:
        entry = present(
            {
                "id": one.id,
                "name": one.name,
                "shape": one.shape.value,
                "symbol": one.symbol,
                "result": one.result,
                "unit": one.unit,
                "formula": one.formula,
                "with": dict(one.numbers),
                "source": one.source,
            }
        )
        if one.shape is Shape.FORMULA:
            entry["units"] = dict(one.units)
        if one.bases:
            entry["bases"] = {letter: basis.value for letter, basis in one.bases.items()}
        if one.shape is Shape.TABLE:
            entry |= {"table": one.table, "row": one.row, "column": one.column, "value": one.result}
        if one.shape is Shape.CHOICE:
            entry["candidates"] = [{"value": each.value, "rejected": each.rejected} for each in one.candidates]
        found.append(entry)
    return found

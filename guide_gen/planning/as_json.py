"""A plan as JSON: the contract with editors, scripts and checks. Every number carries its unit in its key."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from math import isfinite
from typing import Any

from guide_gen import __version__
from guide_gen.description.report import as_json as finding_as_json
from guide_gen.model.circuit import Circuit, Wire
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Caution, Need, Reading, Step
from guide_gen.model.plan import Motion, Plan, Sized, Suppression, ToyPlan
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
        **({"fuse": fuse_json(sized)} if sized.fuse.rating_A is not None else {}),
        "wire": {
            "size": sized.wire.size.text,
            "area_mm2": sized.wire.area_mm2,
            "run_m": sized.wire.run_m,
            "ampacity_A": sized.wire.ampacity_A,
            "drop_V": sized.wire.drop_V,
            "drop_percent": sized.wire.drop_percent,
            "governed_by": sized.wire.governed_by,
        },
        "suppression": suppression_json(sized.suppression),
        **({"coil_suppression": suppression_json(sized.coil)} if sized.coil else {}),
        **({"port": port_json(sized)} if sized.port else {}),
        **({"pulse": present(asdict(toy.pulse))} if toy.pulse else {}),
        **({"motion": motion_json(toy.motion)} if toy.motion else {}),
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
            "capacitance_F": plan.capacitance_F,
            "resistance_ohm": plan.resistance_ohm,
            "peak_V": plan.peak_V,
            "release_s": plan.release_s,
        }
    )


def fuse_json(sized: Sized) -> Json:
    """The fuse of the feed."""
    fuse = sized.fuse
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
            "begin_percent": percent(motion.begin, motion.begin),
            "step_percent": 100 * motion.step,
            "ceiling_percent": percent(motion.ceiling, motion.ceiling),
            "stop_percent": percent(motion.stop, motion.stop),
            "bands": [
                {"name": band.name, "low_percent": 100 * band.low, "high_percent": 100 * band.high}
                for band in motion.bands
            ],
            "curve": [
                {
                    "setting_percent": 100 * point.setting,
                    "turning_Hz": point.turning_Hz,
                    "accel_m_s2": point.accel_m_s2,
                    "shift_mm": 1000 * point.shift_m,
                    "limit_share": point.limit_share,
                }
                for point in motion.curve
            ],
            "doubts": list(motion.doubts),
            "remedies": list(motion.remedies),
            "kick": motion.kick or None,
            "measure_next": motion.helps or None,
        }
    )


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

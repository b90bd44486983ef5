"""A netlist from plain numbers, run by ngspice in batch mode: what it measures comes back as numbers.

ngspice is a general-purpose circuit simulator (Debian package ``ngspice``). A diode here is a constant drop with
0.1 milliohm behind it, since the formulas take the drop at the real current and not one registered type's curve.
"""

import re
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path

SWITCH = ".model contact sw(vt=0.5 vh=0.1 ron=1e-4 roff=1e8)"
_MEASURED = re.compile(r"^(\w+)\s*=\s*([-+0-9.eE]+)", re.MULTILINE)


def simulate(
    folder: Path,
    lines: Sequence[str],
    stop_s: float,
    step_s: float,
    measures: Mapping[str, str],
    *,
    from_rest: bool = True,
) -> dict[str, float]:
    """Run a transient and return the measures by name.

    lines: parts, without title. measures: name -> what stands behind ``.meas tran name``.
    from_rest: begin with the start values of coils and capacitors; else with what has settled at time 0.
    """
    path = folder / "circuit.cir"
    text = [
        "* written by a test",
        *lines,
        SWITCH,
        ".options reltol=1e-5 abstol=1e-9 vntol=1e-7 method=gear",
        f".tran {step_s:.9g} {stop_s:.9g} 0 {step_s:.9g}{' uic' if from_rest else ''}",
        *(f".meas tran {name} {how}" for name, how in measures.items()),
        ".end",
        "",
    ]
    path.write_text("\n".join(text), encoding="utf-8")
    run = subprocess.run(
        ["ngspice", "-b", str(path)], capture_output=True, text=True, timeout=60, check=False, cwd=folder
    )
    found = {name: float(value) for name, value in _MEASURED.findall(run.stdout)}
    # ngspice answers in small letters.
    missing = [name for name in measures if name.lower() not in found]
    if missing:
        raise RuntimeError(f"not measured: {', '.join(missing)}\n{run.stdout}\n{run.stderr}")
    return {name: found[name.lower()] for name in measures}


def supply(voltage_V: float) -> list[str]:
    """The supply between ``plus`` and 0."""
    return [f"Vsup plus 0 {voltage_V:.9g}"]


def chopped_switch(frequency_Hz: float, duty: float, node: str = "low") -> list[str]:
    """A switch from a node to 0 V, on for a share of each period from time 0 on."""
    period = 1 / frequency_Hz
    edge = 1e-6 * period
    return [
        f"Vgate gate 0 pulse(0 1 0 {edge:.9g} {edge:.9g} {duty * period - edge:.9g} {period:.9g})",
        f"Sport {node} low0 gate 0 contact",
        "Vport low0 0 0",
    ]


def opening_switch(at_s: float, node: str = "low") -> list[str]:
    """A switch from a node to 0 V that opens at a time and stays open."""
    return [f"Vgate gate 0 pwl(0 1 {at_s:.9g} 1 {at_s * (1 + 1e-6):.9g} 0)", f"Sport {node} 0 gate 0 contact"]


def winding(
    resistance_ohm: float, inductance_H: float, emf_V: float, start_A: float, first: str, last: str
) -> list[str]:
    """Resistance, inductance and back emf in a row; its current flows from first to last."""
    return [
        f"Rwind {first} w1 {resistance_ohm:.9g}",
        f"Lwind w1 w2 {inductance_H:.9g} ic={start_A:.9g}",
        f"Vemf w2 {last} {emf_V:.9g}",
    ]


def clamp(name: str, first: str, last: str, drop_V: float) -> list[str]:
    """A part that lets current pass from first to last above a voltage; its current is that of ``V<name>``."""
    return [f"B{name} {first} {name} i=1e4*max(0,v({first},{name})-{drop_V:.9g})", f"V{name} {name} {last} 0"]

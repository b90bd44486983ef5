"""What was taken for a shaker's motion where the description is silent: listed among the worked values."""

from guide_gen.description.build import Cabinet
from guide_gen.formulas.motion_inputs import MotionInputs
from guide_gen.formulas.spread import Spread
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.machine import Machine
from guide_gen.values import show
from guide_gen.values.worked import Worked, default

SOURCE = "this project: estimate"
# What is always taken: name on the page, name in published/motion.csv, unit.
ALWAYS = (
    ("Turning frequency up to which it is a sway", "sway frequency", "Hz"),
    ("Acceleration from which motion is felt", "felt acceleration", "m/s²"),
    ("How many times as far the top of the cabinet sways", "shift at the top", ""),
    ("Friction of the cabinet's feet", "friction of the feet", ""),
)


def motion_defaults(inputs: MotionInputs, machine: Machine, cabinet: Cabinet, toy: ToyFields) -> tuple[Worked, ...]:
    """One entry each, with its range."""
    drop = isinstance(toy.suppressor, SuppressorFields) and toy.suppressor.forward_voltage
    weighed = "unbalance" in machine.guessed
    taken = (
        ("resistance", "resistance" in machine.guessed, "Resistance of the winding", machine.resistance_ohm, 1.0, "Ω"),
        ("inductance", "inductance" in machine.guessed, "Inductance of the winding", machine.inductance_H, 1e3, "mH"),
        ("emf", "speed" in machine.guessed, "Back emf constant of the motor", machine.emf_V_s, 1e3, "mV s"),
        ("unbalance", weighed, "Unbalance of the weight", machine.unbalance_kg_m, 1e3, "g m"),
        ("inertia", "inertia" in machine.guessed, "Inertia of weight and rotor", machine.inertia_kg_m2, 1e6, "g m²"),
        ("diode", not drop, "What the freewheel diode drops", inputs.diode_V, 1.0, "V"),
        ("mass", cabinet.mass is None, "Mass of the cabinet", inputs.mass_kg, 1.0, "kg"),
        ("sway", cabinet.sideways_frequency is None, "Frequency of the cabinet's sway", inputs.natural_Hz, 1.0, "Hz"),
        ("damping", cabinet.damping is None, "Damping of that sway", inputs.damping, 100.0, "%"),
    )
    always = (
        default(f"motion.{usual.replace(' ', '-')}", name, ranged(Spread.usual(usual), 1.0, unit), SOURCE)
        for name, usual, unit in ALWAYS
    )
    listed = (
        default(f"motion.{slug}", name, ranged(spread, times, unit), SOURCE)
        for slug, left_out, name, spread, times, unit in taken
        if left_out
    )
    return *listed, *always


def ranged(spread: Spread, times: float, unit: str) -> str:
    """The likeliest with its range."""
    nominal, low, high = (show.figure(times * value) for value in (spread.nominal, spread.low, spread.high))
    shown = show.with_unit(nominal, unit) if unit else nominal
    return shown if spread.low == spread.high else f"{shown} ({low} to {high})"

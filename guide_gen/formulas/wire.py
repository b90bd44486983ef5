"""Wire: area, resistance, what it may carry, and what is lost in it."""

from math import sqrt

from guide_gen.formulas.validity import OutsideValidity, above_zero, at_least, not_negative, share, temperature, within
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import worked

_COPPER = tables.copper()
_OVERLOAD = rule("overload share").value
_OHMS_LAW = "OpenStax College Physics 2e, Ohm's law"


@worked(
    "S",
    "mm²",
    "0.785398 * (0.127 * 92 ** ((36 - n) / 39)) ** 2",
    {"n": ("gauge", "")},
    "ASTM B258",
)
def awg_area_mm2(gauge: int) -> float:
    """Copper area of a wire by its American gauge.

    gauge: a whole number, 0 to 40. Raises OutsideValidity. Source: ASTM B258.
    """
    within(0, 40, gauge=gauge)
    if gauge != int(gauge):
        raise OutsideValidity("gauge", gauge, "a whole number")
    return tables.area_mm2(WireSize("AWG", str(int(gauge))))


@worked(
    "R'",
    "Ω/m",
    f"R20 * (1 + {_COPPER.coefficient_per_K:g} * (T - 20))",
    {"R20": ("resistance_20_ohm_per_m", "Ω/m"), "T": ("temperature_degC", "°C")},
    "IEC 60028",
)
def resistance_at_ohm_per_m(resistance_20_ohm_per_m: float, temperature_degC: float) -> float:
    """Resistance of a metre of copper wire at a temperature, from that at 20 °C.

    temperature_degC: -100 to 300, where the straight line holds.
    Raises OutsideValidity. Source: IEC 60028, coefficient from memory.
    """
    above_zero(resistance_20_ohm_per_m=resistance_20_ohm_per_m)
    within(-100, 300, temperature_degC=temperature_degC)
    return resistance_20_ohm_per_m * (1 + _COPPER.coefficient_per_K * (temperature_degC - 20))


@worked(
    "k_a",
    "",
    "sqrt(max(0, (T_i - T_a) / (T_i - T_0)))",
    {
        "T_i": ("insulation_degC", "°C"),
        "T_a": ("ambient_degC", "°C"),
        "T_0": ("base_ambient_degC", "°C"),
    },
    "NFPA 70 310.15(B)(2)",
)
def ambient_factor(insulation_degC: float, ambient_degC: float, base_ambient_degC: float) -> float:
    """Factor on a table's ampacity for air of another temperature than the table is for.

    insulation_degC: temperature of the table's column. Air as hot as the insulation or hotter gives 0.
    Raises OutsideValidity, also when the base ambient reaches the insulation's temperature.
    Source: NFPA 70 310.15(B)(2), from memory; reproduces the printed factors of NFPA 70 and IEC 60204-1 to 1 %.
    """
    temperature(insulation_degC=insulation_degC, ambient_degC=ambient_degC, base_ambient_degC=base_ambient_degC)
    if base_ambient_degC >= insulation_degC:
        raise OutsideValidity("base_ambient_degC", base_ambient_degC, f"below insulation_degC, {insulation_degC:g}")
    return sqrt(max(0.0, (insulation_degC - ambient_degC) / (insulation_degC - base_ambient_degC)))


@worked(
    "I_z",
    "A",
    "I_t * k_a * k_b",
    {"I_t": ("table_A", "A"), "k_a": ("ambient_factor", ""), "k_b": ("bundle_factor", "")},
    "IEC 60364-5-52 and NFPA 70 310.15",
)
def derated_ampacity_A(table_A: float, ambient_factor: float, bundle_factor: float) -> float:
    """What a wire may carry for ever where it lies: the table's current times both factors.

    ambient_factor: 0 when the air is too hot for the insulation. Raises OutsideValidity.
    Source: IEC 60364-5-52 and NFPA 70 310.15, from memory.
    """
    above_zero(table_A=table_A)
    not_negative(ambient_factor=ambient_factor)
    share(bundle_factor=bundle_factor)
    return table_A * ambient_factor * bundle_factor


@worked(
    "T_c",
    "°C",
    "T_a + (T_i - T_0) * (I / (I_t * k_b)) ** 2",
    {
        "T_a": ("ambient_degC", "°C"),
        "T_i": ("insulation_degC", "°C"),
        "T_0": ("base_ambient_degC", "°C"),
        "I": ("current_A", "A"),
        "I_t": ("table_A", "A"),
        "k_b": ("bundle_factor", ""),
    },
    "this project",
)
def conductor_temperature_degC(
    ambient_degC: float,
    insulation_degC: float,
    base_ambient_degC: float,
    current_A: float,
    table_A: float,
    bundle_factor: float,
) -> float:
    """Temperature of a conductor under a lasting current: the table's own rise, times the square of the load.

    At the derated ampacity it is the insulation's temperature.
    Raises OutsideValidity. Source: this project, from the ampacity formula of NFPA 70 310.15(B)(2).
    """
    temperature(ambient_degC=ambient_degC, insulation_degC=insulation_degC, base_ambient_degC=base_ambient_degC)
    not_negative(current_A=current_A)
    above_zero(table_A=table_A)
    share(bundle_factor=bundle_factor)
    if base_ambient_degC >= insulation_degC:
        raise OutsideValidity("base_ambient_degC", base_ambient_degC, f"below insulation_degC, {insulation_degC:g}")
    return ambient_degC + (insulation_degC - base_ambient_degC) * (current_A / (table_A * bundle_factor)) ** 2


@worked(
    "R_W",
    "Ω",
    "R * l",
    {"R": ("resistance_ohm_per_m", "Ω/m"), "l": ("length_m", "m")},
    _OHMS_LAW,
)
def run_resistance_ohm(resistance_ohm_per_m: float, length_m: float) -> float:
    """Resistance of one run of wire, one way. Raises OutsideValidity. Source: OpenStax College Physics 2e."""
    above_zero(resistance_ohm_per_m=resistance_ohm_per_m)
    not_negative(length_m=length_m)
    return resistance_ohm_per_m * length_m


@worked(
    "R",
    "Ω",
    "R_W + R_F + n * R_c + R_s",
    {
        "R_W": ("wire_ohm", "Ω"),
        "R_F": ("fuse_ohm", "Ω"),
        "n": ("contacts", ""),
        "R_c": ("contact_ohm", "Ω"),
        "R_s": ("switch_ohm", "Ω"),
    },
    _OHMS_LAW,
)
def loop_resistance_ohm(
    wire_ohm: float, fuse_ohm: float, contacts: float, contact_ohm: float, switch_ohm: float
) -> float:
    """Resistance of the whole loop from the supply to the toy and back.

    wire_ohm: all runs, there and back. contacts: two for each run. switch_ohm: 0 where nothing switches.
    Raises OutsideValidity. Source: OpenStax College Physics 2e, resistors in series.
    """
    not_negative(
        wire_ohm=wire_ohm, fuse_ohm=fuse_ohm, contacts=contacts, contact_ohm=contact_ohm, switch_ohm=switch_ohm
    )
    return wire_ohm + fuse_ohm + contacts * contact_ohm + switch_ohm


@worked("ΔU", "V", "I * R", {"I": ("current_A", "A"), "R": ("resistance_ohm", "Ω")}, _OHMS_LAW)
def drop_V(current_A: float, resistance_ohm: float) -> float:
    """Voltage lost in a resistance. Raises OutsideValidity. Source: OpenStax College Physics 2e, Ohm's law."""
    not_negative(current_A=current_A, resistance_ohm=resistance_ohm)
    return current_A * resistance_ohm


@worked("Δu", "%", "100 * U / V", {"U": ("drop_V", "V"), "V": ("voltage_V", "V")}, "this project")
def drop_percent(drop_V: float, voltage_V: float) -> float:
    """A drop in percent of the supply's nominal voltage.

    Raises OutsideValidity. Source: this project; a ratio, its base is the nominal voltage, never an end of its range.
    """
    not_negative(drop_V=drop_V)
    above_zero(voltage_V=voltage_V)
    return 100 * drop_V / voltage_V


@worked(
    "I_z,min",
    "A",
    f"max(min(I_s, I_n), min(I_s, I_2) / {_OVERLOAD:g})",
    {
        "I_s": ("supply_limit_A", "A"),
        "I_n": ("fuse_ratings_A", "A"),
        "I_2": ("fuse_openings_A", "A"),
    },
    "IEC 60364-4-43 433.1",
)
def shared_lead_ampacity_A(supply_limit_A: float, fuse_ratings_A: float, fuse_openings_A: float) -> float:
    """The ampacity that a lead shared by several fuses needs: a short lead before them, a board's 0 V lead.

    It carries the smaller of what the supply gives and what the fuses let pass, and stands 1.45 times itself
    until they open. fuse_ratings_A: sum of the ratings. fuse_openings_A: sum of the currents that open them.
    A lead before the fuses that is longer than 33 CFR 183.455(b) allows carries the supply's limit instead.
    Raises OutsideValidity. Source: IEC 60364-4-43 433.1, from memory.
    """
    above_zero(supply_limit_A=supply_limit_A, fuse_ratings_A=fuse_ratings_A)
    at_least(fuse_ratings_A, fuse_openings_A=fuse_openings_A)
    return max(min(supply_limit_A, fuse_ratings_A), min(supply_limit_A, fuse_openings_A) / _OVERLOAD)

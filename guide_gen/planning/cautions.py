"""Cautions of the whole build, and which of a toy's stand at the head of its page."""

from collections.abc import Iterable
from math import ceil

from guide_gen.formulas import supply as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.guide import STAGES, Caution, Word
from guide_gen.values import show

GROUPED_AT_MOST = 5
# IEC 60950-1 called 240 VA at 2 V or more a hazardous energy level; 100 VA bounds a limited power source. From memory.
HAZARDOUS_VA = 240.0
LIMITED_VA = 100.0
# IEC 60364-4-41: 60 V DC dry, 30 V DC otherwise (from memory). 29 CFR 1910.303(g)(2)(i): guarding from 50 V.
GUARD_V = 50.0
DAMP_V = 30.0
# IEC 60950-1 called 20 J a hazardous energy level (from memory); 1 J burns and makes things jump: this project.
STORED_J, HAZARDOUS_J = 1.0, 20.0
EMPTY_V = 5.0  # below this a capacitor does nothing to anybody; this project
# Lower action values of the noise rules of the European Union and the United Kingdom, dB(A) and dB(C); from memory.
NOISE_DB, PEAK_DB = 80.0, 135.0

SCOPE = (
    "This guide covers extra-low-voltage DC wiring, at most 60 V. It is no licence, no inspection, and no substitute "
    "for "
    "the electrical code, the law or the insurance terms of your place. Where they differ from this guide, they win. "
    "Mains wiring, and any change inside a mains-powered device, is for a person licensed or competent under local "
    "rules."
)
CALCULATED = "A calculation is not a test: measure as the steps say."

MAINS = Caution(
    "mains-side",
    Word.DANGER,
    "Live mains at and inside the supply.",
    "Touching it kills.",
    (
        "Never open a supply; use a closed, listed unit with its factory cord.",
        "Leave mains terminals to a licensed or competent person.",
    ),
    grouped=True,
)
CHILDREN = Caution(
    "children",
    Word.WARNING,
    "Children open the cabinet or reach moving or hot parts.",
    "Crushed fingers, burns.",
    ("Lock the door; fit guards before power.", "Show the household where the plug is."),
    grouped=True,
)
EMERGENCY = Caution(
    "emergency-off",
    Word.NOTICE,
    "No quick way to stop lets a fault go on.",
    "Parts burn out.",
    ("Keep the plug, or a switch for all toys, within reach while the door is shut.",),
)


def unplug_first() -> Caution:
    """Before every stage in which hands are inside the cabinet."""
    stages = tuple(stage.id for stage in STAGES if stage.opened)
    return Caution(
        "unplug-first",
        Word.WARNING,
        "A cabinet with power moves without warning.",
        "Caught fingers, burns, mains contact.",
        ("Pull the plug and keep it in sight.", "Prove it dead: meter on a known source, on the cabinet, and again."),
        before=stages,
    )


def fuse_fire(fuse: str) -> Caution:
    """A wire that can carry more than it stands; fuse: words for the fuse of this toy."""
    return Caution(
        "fuse-fire",
        Word.WARNING,
        "A wire without the right fuse can glow.",
        "It sets the cabinet on fire.",
        (f"Fit {fuse} at the source before the feed is connected.", "Never fit a larger one, never foil."),
        grouped=True,
    )


def auto_start() -> Caution:
    """Before every power-on."""
    return Caution(
        "auto-start",
        Word.WARNING,
        "Toys move when power comes, when software starts, when a switch fails.",
        "Caught fingers.",
        ("Hands out and guard shut before the plug goes in.", "Stand clear."),
        before=("first-power", "tune"),
    )


def tools() -> Caution:
    """Before the first hole and cut."""
    return Caution(
        "solder-cut-drill",
        Word.CAUTION,
        "Drilling and cutting throw chips and can meet wires behind the panel.",
        "Eye injury, cut wires.",
        ("Eye protection on.", "Look behind the panel first."),
        before=("mount",),
    )


def supply_cautions(voltage_V: float, limit_A: float, earth_pin: bool | None, name: str) -> tuple[Caution, ...]:
    """What a supply's voltage and power ask for; voltage at its highest end."""
    power = voltage_V * limit_A
    reason = f"{name} can give about {show.watts(power)}."
    found = []
    if power > HAZARDOUS_VA:
        found.append(
            Caution(
                "energy-short",
                Word.WARNING,
                "A ring, bracelet or screwdriver can bridge the terminals.",
                "Flash, deep burn, thrown metal.",
                ("Take metal jewellery off.", "Cover terminals.", "Unplug before any tool comes near."),
                reason,
                True,
            )
        )
    else:
        found.append(
            Caution(
                "energy-short",
                Word.CAUTION,
                "A ring or screwdriver can bridge the terminals.",
                "Burns.",
                ("Take metal jewellery off.", "Unplug before any tool comes near."),
                reason,
            )
        )
        if power > LIMITED_VA:
            found.append(
                Caution(
                    "over-100-va",
                    Word.CAUTION,
                    "The supply gives enough power to ignite something at a fault.",
                    "Fire.",
                    ("Fuse every branch.", "Mount it on something that does not burn, with air round it."),
                    reason,
                )
            )
    if voltage_V >= GUARD_V:
        found.append(
            Caution(
                "guard-50v",
                Word.WARNING,
                "Bare live parts at 50 V or more can give a shock.",
                "A shock can injure.",
                ("Cover all live parts.",),
                f"{name} can reach {show.volts(voltage_V)}.",
                True,
            )
        )
    elif voltage_V > DAMP_V:
        found.append(
            Caution(
                "damp-30v",
                Word.CAUTION,
                "Bare parts above 30 V can give a shock to wet hands or on a wet floor.",
                "A shock can injure.",
                ("Use it dry and indoors only.", "Cover terminals."),
                f"{name} can reach {show.volts(voltage_V)}.",
            )
        )
    if earth_pin is False:
        found.append(
            Caution(
                "leakage-tingle",
                Word.NOTICE,
                "A supply with a two-wire plug lets a little current reach metalwork.",
                "Tingling metal, upset electronics.",
                ("Use a supply with an earthed, three-wire plug.", "Join 0 V and metalwork as its maker says."),
            )
        )
    return tuple(found)


def stored_charge(
    voltage_V: float, capacitance_F: float | None, bleed_ohm: float | None, name: str
) -> tuple[Caution, ...]:
    """What capacitors on a supply's rail still hold when its plug is out; nothing where none are described."""
    if capacitance_F is None:
        return ()
    energy = formulas.capacitor_energy_J(capacitance_F=capacitance_F, voltage_V=voltage_V)
    if not reaches(energy, STORED_J):
        return ()
    if bleed_ohm is None:
        wait = f"Plug out, measure, and touch nothing above {show.volts(EMPTY_V)}."
    else:
        seconds = formulas.discharge_s(
            bleed_ohm=bleed_ohm, capacitance_F=capacitance_F, voltage_V=voltage_V, safe_V=EMPTY_V
        )
        wait = f"Plug out, wait {show.seconds(ceil(seconds))}, then measure: below {show.volts(EMPTY_V)}."
    return (
        Caution(
            "stored-charge",
            Word.WARNING if reaches(energy, HAZARDOUS_J) else Word.CAUTION,
            "Capacitors stay charged when the plug is out.",
            "Spark, burn, a toy that jumps.",
            (wait, "Never short them with a tool."),
            f"Those on {name} hold about {show.with_unit(show.figure(energy), 'J')} at {show.volts(voltage_V)}.",
        ),
    )


def noise(name: str, level_dB: float | None, peak_dB: float | None) -> tuple[Caution, ...]:
    """What was measured at the player's ear. level_dB: A-weighted, lasting; peak_dB: C-weighted; None: not measured."""
    loud = level_dB is not None and reaches(level_dB, NOISE_DB)
    knocks = peak_dB is not None and reaches(peak_dB, PEAK_DB)
    if not (loud or knocks):
        return ()
    found = [f"{show.figure(level_dB)} dB(A) lasting" if loud and level_dB is not None else ""]
    found.append(f"{show.figure(peak_dB)} dB(C) at its peak" if knocks and peak_dB is not None else "")
    return (
        Caution(
            "noise",
            Word.CAUTION,
            "It is loud at the ear.",
            "Hearing strain, in time hearing loss.",
            ("Wear ear protection with the head in the cabinet.", "Limit how loud and how long it plays."),
            f"{name} was measured at {' and '.join(one for one in found if one)}.",
            before=("tune", "play"),
        ),
    )


def resonance(name: str, natural_Hz: tuple[float, float], turning_Hz: tuple[float, float]) -> tuple[Caution, ...]:
    """The cabinet's own sway, where the toy can turn at that frequency. turning_Hz: as it may be set."""
    if not (reaches(natural_Hz[1], turning_Hz[0]) and reaches(turning_Hz[1], natural_Hz[0])):
        return ()
    return (
        Caution(
            "resonance",
            Word.NOTICE,
            "Near one setting the cabinet sways far more than beside it.",
            "Parts hit each other and break.",
            ("Pass that setting quickly.", "Leave it set clear of it, above or below."),
            f"The cabinet's own sway is {between_Hz(natural_Hz)}; {name}, as it may be set, turns at "
            f"{between_Hz(turning_Hz)}.",
            before=("tune",),
        ),
    )


def between_Hz(ends: tuple[float, float]) -> str:
    """A range of frequencies: ``3 to 6 Hz``."""
    return show.span(*ends, "Hz")


def flashing_together(total_Hz: float) -> Caution:
    """Lamps that are not in step add up; none of them alone is too fast."""
    return Caution(
        "seizure",
        Word.WARNING,
        "Lamps out of step flash more than three times a second together.",
        "Seizures, also in people who never had one.",
        (
            "Drive them in step, or slower.",
            "Put a notice on the cabinet.",
            "Fit a switch that stops all flashing.",
        ),
        f"Together they flash {show.figure(total_Hz)} times a second.",
        grouped=True,
    )


def heads(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """At most five at the head of a page, the highest level first; NOTICE is never among them."""
    order = list(Word)
    grouped = [caution for caution in cautions if caution.grouped and caution.word is not Word.NOTICE]
    return tuple(sorted(grouped, key=lambda caution: order.index(caution.word))[:GROUPED_AT_MOST])

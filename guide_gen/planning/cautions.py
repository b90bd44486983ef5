"""Cautions of the whole build, and which of a toy's stand at the head of its page."""

from collections.abc import Iterable

from guide_gen.model.guide import STAGES, Caution, Word
from guide_gen.values import show

GROUPED_AT_MOST = 5
# IEC 60950-1 called 240 VA at 2 V or more a hazardous energy level; 100 VA bounds a limited power source. From memory.
HAZARDOUS_VA = 240.0
LIMITED_VA = 100.0
# IEC 60364-4-41: 60 V DC dry, 30 V DC otherwise (from memory). 29 CFR 1910.303(g)(2)(i): guarding from 50 V.
GUARD_V = 50.0
DAMP_V = 30.0

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


def heads(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """At most five at the head of a page, the highest level first; NOTICE is never among them."""
    order = list(Word)
    grouped = [caution for caution in cautions if caution.grouped and caution.word is not Word.NOTICE]
    return tuple(sorted(grouped, key=lambda caution: order.index(caution.word))[:GROUPED_AT_MOST])

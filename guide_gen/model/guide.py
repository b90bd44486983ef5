"""What a guide says to its reader: cautions, readings, steps, troubles, needs."""

from dataclasses import dataclass, field
from enum import StrEnum


class Word(StrEnum):
    """Signal words after ANSI Z535 and ISO 3864-2 (from memory), the worst first."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


@dataclass(frozen=True)
class Caution:
    """A safety message: hazard, consequence, one to three ways to avoid it; at most 45 words in all.

    reason: the computed value that raised it, or "". grouped: stands at the head of the page.
    before: ids of stages (``wire``) or steps (``shaker.tune.first``) before which it stands again.
    """

    id: str
    word: Word
    hazard: str
    consequence: str
    avoid: tuple[str, ...]
    reason: str = ""
    grouped: bool = False
    before: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The whole message as running text."""
        return " ".join([self.hazard, self.consequence, *self.avoid])


@dataclass(frozen=True)
class Reading:
    """A meter reading to expect, computed.

    what: ``Resistance of the winding``. between: ``M1:1 and M1:2``. low, high: in `unit`, None for no limit.
    if_not: what to do when the reading is outside. how: meter range and conditions.
    """

    what: str
    between: str
    low: float | None
    high: float | None
    unit: str
    if_not: str
    how: str = ""


@dataclass(frozen=True)
class Step:
    """One action. Its id (``kind.stage.slug``) never comes from its text or its position.

    short: a few words for the bar that shows the next step. record: the reading to write down, or None.
    killer: a safety-critical item that is easily skipped. more: a quiet line below it.
    """

    id: str
    stage: str
    text: str
    short: str
    record: Reading | None = None
    killer: bool = False
    more: str = ""


@dataclass(frozen=True)
class Stage:
    """A stage of the work; a hold is a stage where everybody stops and confirms.

    section: the heading of the page that it stands under: mounting, wiring, checks, tuning, play, after.
    opened: hands are inside the cabinet, so that the plug has to be out.
    """

    id: str
    name: str
    section: str
    condition: str
    hold: bool = False
    passes: str = ""
    fails: str = ""
    opened: bool = False


STAGES = (
    Stage("mount", "Mount it", "mounting", "plug out of the wall; read, do, tick", opened=True),
    Stage("wire", "Wire it", "wiring", "plug out of the wall; read, do, tick", opened=True),
    Stage(
        "dead-checks",
        "Hold 1: dead checks",
        "checks",
        "plug out, fuse out; stop, then confirm all",
        True,
        "the one who measured.",
        "mend it, untick, start this hold again.",
        opened=True,
    ),
    Stage(
        "settings",
        "Set up board and game",
        "checks",
        "plug in, all toys' fuses out, hands out; read, do, tick",
    ),
    Stage(
        "bench",
        "First power, current-limited",
        "checks",
        "plug out; a bench supply with a current limit; without one, skip this stage",
        opened=True,
    ),
    Stage(
        "before-supply",
        "Hold 2: before the cabinet's supply",
        "checks",
        "plug out; stop, then confirm all",
        True,
        "the one who will switch on.",
        "mend it, go back to hold 1.",
    ),
    Stage("first-power", "First power on the cabinet's supply", "checks", "hands out, guard shut; read, do, tick"),
    Stage("tune", "Tune from zero upward", "tuning", "read, do, tick"),
    Stage(
        "before-closing",
        "Hold 3: before closing",
        "tuning",
        "plug out; stop, then confirm all",
        True,
        "the one who closes the cabinet.",
        "mend it before the door is shut.",
    ),
    Stage("play", "Try it in play", "play", "door shut, all guards on; play, look, tick"),
    Stage(
        "after-play", "After the first hours", "after", "plug out for every look inside; read, do, tick", opened=True
    ),
    Stage("yearly", "Once a year", "after", "plug out; read, do, tick", opened=True),
)


@dataclass(frozen=True)
class Trouble:
    """A symptom with its likely cause, what to measure and what is good."""

    symptom: str
    cause: str
    measure: str
    good: str


@dataclass(frozen=True)
class Need:
    """One line of what is needed. count: ``2``, ``2.15 m``. used_for: designators or a purpose. colour: of a wire."""

    what: str
    value: str
    count: str
    note: str = ""
    used_for: str = ""
    colour: str = ""


@dataclass(frozen=True)
class Setting:
    """Something to enter on the board's or the game's side, in plain words."""

    where: str
    what: str
    value: str
    why: str = ""


@dataclass(frozen=True)
class Advice:
    """A piece of advice and its reason: ``Shaft front to back`` / ``the weight then throws sideways``."""

    what: str
    why: str


@dataclass(frozen=True)
class Introduction:
    """What it is, what it is for and not for, who may do it, with what at hand."""

    sentence: str
    meant_for: str
    not_for: str
    who: str
    tools: tuple[str, ...] = field(default=())

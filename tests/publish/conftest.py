"""A plan made by hand: an invented build with a shaker motor on a PWM port, whole enough for every part of a page."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from guide_gen.model.circuit import Circuit, Part, PartKind, Wire
from guide_gen.model.finding import Finding, Level, Place
from guide_gen.model.guide import Advice, Caution, Introduction, Need, Reading, Setting, Step, Trouble, Word
from guide_gen.model.plan import (
    BoardPlan,
    FusePlan,
    Load,
    Mounting,
    Plan,
    PortPlan,
    Section,
    Sized,
    SupplyPlan,
    Suppression,
    ToyPlan,
    Value,
    WirePlan,
    Words,
)
from guide_gen.values.quantity import Basis, Quantity, WireSize
from guide_gen.values.worked import Candidate, Shape, Worked

FILE = "content/builds/night-ferry/build.yaml"
LEAD = Wire("W1", "T1:+", "F1:1", "RD", 0.15, "2.5 mm²", 20.0, "nothing: shorter than 0.2 m", "supply lead")
FEED = Wire("W11", "F1:2", "M1:1", "RD", 1.8, "1.5 mm²", 6.0, "F1 10 A", "feed")
BACK = Wire("W12", "M1:2", "A1:P2", "BN", 1.8, "1.5 mm²", 6.0, "F1 10 A", "return")
ZERO = Wire("W2", "A1:0V", "T1:0V", "BK", 0.6, "4 mm²", 7.4, "all toys' fuses", "board return")
CIRCUIT = Circuit(
    parts=(
        Part("T1", PartKind.SUPPLY, "12 V, 20 A", ("+", "0V"), ("limit 24 A",), name="main"),
        Part("F1", PartKind.FUSE, "10 A", ("1", "2"), ("blade, 32 V DC",)),
        Part("M1", PartKind.MOTOR, "12 V, 5 to 6 A", ("1", "2")),
        Part("D1", PartKind.DIODE, "Schottky, 40 V 10 A", ("K", "A")),
        Part("A1", PartKind.BOARD, "", ("P2", "0V"), ("PWM 200 Hz", "limit 12 %"), name="quay"),
        Part("Q1", PartKind.SWITCH, "", ("D", "S"), inside="A1"),
    ),
    wires=(LEAD, FEED, BACK, ZERO),
    joints=(("M1:1", "D1:K"), ("M1:2", "D1:A"), ("A1:P2", "Q1:D"), ("Q1:S", "A1:0V")),
    main=("T1", "W1", "F1", "W11", "M1", "W12", "A1", "W2", "T1"),
)
CURRENT = Quantity(5.0, 6.0, "5 A to 6 A", "A", Basis.MEASURED)
SIZED = Sized(
    slug="bow-shaker",
    name="Bow shaker",
    number=1,
    units="metric",
    load=Load(6.0, 5.0, 12.0, Basis.MEASURED, CURRENT, True),
    supply_id="T1",
    supply_slug="main",
    supply_V=12.0,
    supply_low_V=11.0,
    supply_high_V=13.0,
    supply_rated_A=20.0,
    supply_limit_A=24.0,
    fuse=FusePlan("F1", 10.0, "blade", "ISO 8820-3", "supply plus", 9.0, "margin", 32.0, "", 0.005, False),
    wire=WirePlan(WireSize("mm2", "1.5"), 1.5, 1.8, 10.5, 0.57, 4.8, "fuse", False),
    port=PortPlan("quay", "A1", 2, 6.0, 10.0, 8.0, 0.36, "pwm", 200.0, 0.12, "", (55.0, 66.0)),
    suppression=Suppression("diode", "Schottky diode, 40 V 10 A", "", "Schottky", 40.0, 10.0, None, 0.15, 0.45),
    mounting=Mounting("M5", 35.0, "35 mm", 4, 5.5, 25.0, "25 mm", 21.0, "18 mm plywood"),
    circuit=CIRCUIT,
    control="pwm port",
    ids={"load": "M1", "fuse": "F1", "diode": "D1"},
)
MAINS = Caution(
    "mains-side",
    Word.DANGER,
    "Live mains at and inside the supply.",
    "Touching it kills.",
    ("Never open a supply.", "Leave mains terminals to a licensed or competent person."),
    grouped=True,
)
CAUTIONS = (
    Caution(
        "bolts-walk-out",
        Word.CAUTION,
        "Shaking works the mounting loose.",
        "The motor drops and tears its wires.",
        ("Use locking nuts.", "Look again after 1 h and 10 h of play."),
        before=("shaker.mount.screws",),
    ),
    MAINS,
    Caution(
        "weight-flies",
        Word.WARNING,
        "An eccentric weight can come off its shaft.",
        "Thrown metal can blind.",
        ("Two set screws on a flat, thread-locked.", "Cover on before power. Eye protection at the first spin."),
        grouped=True,
        before=("toy.first.spin",),
    ),
    Caution(
        "fuse-fire",
        Word.WARNING,
        "A wire without the right fuse can glow.",
        "It sets the cabinet on fire.",
        ("Fit F1, 10 A, at the source before W11 is connected.", "Never fit a larger one, never foil."),
        grouped=True,
    ),
    Caution(
        "unplug-first",
        Word.WARNING,
        "A cabinet with power moves without warning.",
        "Caught fingers, burns.",
        ("Pull the plug and keep it in sight.",),
        before=("mount", "wire", "dead-checks"),
    ),
    Caution(
        "vibration-damage",
        Word.NOTICE,
        "Long shaking cracks solder and loosens plugs.",
        "Electronics fail.",
        ("Re-seat and tie every connector.",),
        reason="as-left setting 8 %",
    ),
)
SHORT = Reading(
    "Resistance from plus to 0 V",
    "F1:2 and T1:0V",
    10.0,
    None,
    "Ω",
    "Find the short before anything else.",
    "ohms range",
)
FORWARD = Reading(
    "Forward voltage of D1",
    "M1:2 (red) and M1:1 (black)",
    0.15,
    0.45,
    "V",
    "Open both ways: D1 is missing. A value with red on M1:1: turn it round.",
    "diode range",
)
SUPPLY = Reading(
    "Voltage of the supply, no load",
    "T1:+ (red) and T1:0V (black)",
    11.0,
    13.0,
    "V",
    "A minus sign: leads are swapped. Outside: set the supply's trimmer.",
    "DC volts",
)
RUNNING = Reading(
    "Running current", "in series with F1", 5.0, 6.0, "A", "Above 6.6 A the fuse no longer fits.", "10 A range"
)
LEFT = Reading("As-left setting", "", 0.0, 12.0, "%", "Lower it.")
STEPS = (
    Step(
        "shaker.mount.place",
        "mount",
        "Find a free flat place in the front half, clear of what the weight could hit.",
        "Find the place",
    ),
    Step("shaker.mount.holes", "mount", "Mark the four holes from the frame itself. Drill 5.5 mm.", "Mark and drill"),
    Step(
        "shaker.mount.screws",
        "mount",
        "Tighten the four M5 screws cross-wise, washers below, locking nuts.",
        "Tighten the screws",
        more="Mark each with paint: a moved mark is a loose screw.",
    ),
    Step("shaker.mount.cover", "mount", "Cover on, all its screws tight.", "Cover on", killer=True),
    Step("toy.wire.board-return", "wire", "Run W2, BK, 4 mm², 0.6 m, from A1:0V to T1:0V.", "W2 from A1:0V to T1:0V"),
    Step("toy.wire.return", "wire", "Run W12, BN, 1.5 mm², 1.8 m, from M1:2 to A1:P2.", "W12 from M1:2 to A1:P2"),
    Step(
        "toy.wire.feed",
        "wire",
        "Run W11, RD, 1.5 mm², 1.8 m, from F1:2 to M1:1.",
        "W11 from F1:2 to M1:1",
        more="A ferrule or a crimp at both ends, no solder under a screw.",
    ),
    Step(
        "toy.wire.suppressor",
        "wire",
        "Fit D1 across M1:1 and M1:2, the end with the band to M1:1, the plus side.",
        "Fit D1, band to plus",
        killer=True,
    ),
    Step("toy.settings.port", "settings", "Name port 2 and set it to PWM, limit 12 %.", "Set up port 2"),
    Step("toy.dead.tug", "dead-checks", "Every crimp holds a tug; no stray strand.", "Tug every crimp", killer=True),
    Step(
        "toy.dead.short",
        "dead-checks",
        "Toy unplugged, fuse out: measure F1:2 to T1:0V.",
        "No short circuit",
        record=SHORT,
        killer=True,
    ),
    Step(
        "toy.dead.suppressor",
        "dead-checks",
        "Toy unplugged, diode range: red on M1:2, black on M1:1.",
        "D1 the right way round",
        record=FORWARD,
        killer=True,
    ),
    Step(
        "toy.before.dead", "before-supply", "Plug out. Nothing got warm, nothing smells.", "Nothing warm", killer=True
    ),
    Step(
        "toy.first.supply",
        "first-power",
        "All toys' fuses out. Plug in, and measure T1:+ to T1:0V.",
        "Supply alone",
        record=SUPPLY,
    ),
    Step(
        "toy.first.spin",
        "first-power",
        "Hands out, guard shut. Raise to the smallest step that turns it.",
        "First spin",
        killer=True,
    ),
    Step(
        "toy.first.run", "first-power", "Full strength for 10 s, read the current.", "Running current", record=RUNNING
    ),
    Step("shaker.tune.zero", "tune", "Set the port to 0 %. Power on. It stays still.", "Port at 0 %", killer=True),
    Step(
        "shaker.tune.left", "tune", "Raise by 1 % at a time until the sway feels right.", "Choose the sway", record=LEFT
    ),
    Step("toy.closing.fuse", "before-closing", "The fuse fitted in F1 says 10 A.", "Fuse as stated", killer=True),
    Step(
        "toy.play.games",
        "play",
        "Play three games. The sway is felt in the palms and does not register as a nudge.",
        "Play three games",
    ),
    Step(
        "toy.after.hours",
        "after-play",
        "After 1 h and 10 h: paint marks unmoved, connectors tight. Lower rather than raise.",
        "Look again",
    ),
    Step("toy.yearly.look", "yearly", "Brushes, cover, screws, ties: look at each.", "Yearly look"),
)
WORKED = (
    Worked(
        "fuse-needed",
        "Current that the fuse must carry",
        Shape.FORMULA,
        "I_F",
        9.0,
        "A",
        "max(k_M * I, I / (0.75 * k_T))",
        "common practice, no source",
        "The larger of two rules.",
        {"k_M": 1.5, "I": 6.0, "k_T": 0.95},
        {"I": "A"},
        {"I": Basis.MEASURED},
    ),
    Worked(
        "fuse",
        "Fuse F1",
        Shape.CHOICE,
        "",
        10.0,
        "A",
        "smallest rating of the series at or above I_F",
        "ISO 8820-3",
        candidates=(Candidate("7.5 A", "below 9 A"), Candidate("10 A", ""), Candidate("15 A", "larger than needed")),
    ),
    Worked(
        "resistance",
        "Resistance of the wire",
        Shape.TABLE,
        "R'",
        0.0133,
        "ohm/m",
        "row: size, column: class 5",
        "IEC 60228:2004, table 3",
        table="conductor resistance",
        row="1.5 mm²",
        column="class 5, plain",
    ),
    Worked(
        "insulation", "Insulation of the wire", Shape.DEFAULT, "", "70 °C", "", "default", "common practice, no source"
    ),
)
FINDINGS = (
    Finding(
        "drop-too-high",
        Level.SHOULD,
        "The drop is 5.2 %, above the limit of 5 %.",
        "at most 5 %",
        "Take 2.5 mm² for W11 and W12.",
        ("toys", "bow-shaker", "feed", "wire"),
        "bow-shaker",
        Place(FILE, 41, 7),
    ),
    Finding(
        "estimate-used",
        Level.NOTE,
        "The mass of the cabinet, 95 kg, is an estimate.",
        "a measured mass",
        "Weigh it corner by corner.",
        ("cabinet", "mass"),
        "bow-shaker",
        Place(FILE, 23, 9),
    ),
)
MUST = Finding(
    "fuse-above-wire",
    Level.MUST,
    "F1 is 15 A; W11 may carry 10.5 A.",
    "at most 10.5 A",
    "Fit 10 A.",
    ("toys", "bow-shaker", "feed", "fuse"),
    "bow-shaker",
    Place(FILE, 88, 31),
)
TOY = ToyPlan(
    slug="bow-shaker",
    name="Bow shaker",
    kind="shaker motor",
    kind_title="Shaker motor",
    number=1,
    of=1,
    sized=SIZED,
    introduction=Introduction(
        "A motor with an eccentric weight. Turned slowly, it sways the whole cabinet.",
        "a slow sway of a cabinet at home",
        "shaking for hours, use without its cover",
        "anyone who can crimp and use a multimeter; mains work only by a licensed or competent person",
        ("crimping tool", "multimeter", "drill"),
    ),
    values=(
        Value("Supply", "12", "V DC", "T1, 20 A"),
        Value("Current", "5 to 6", "A", "at 12 V", Basis.MEASURED),
        Value("Fuse F1", "10", "A", "blade, 32 V DC; needed 9.0 A"),
        Value("Wire", "1.5", "mm²", "run 1.8 m; drop 0.57 V"),
        Value("Control", "PWM", "", "200 Hz, low side"),
        Value("Port", "A1:P2", "", "board quay, 8 A"),
        Value("Limit in the port", "12", "%", "highest value entered"),
        Value("As left", "8", "%", "2026-10-31", estimate=True),
    ),
    cautions=CAUTIONS,
    words=Words(
        "Circuit of Bow shaker: fused 12 V feed, port 2 switches it; described below.",
        "Supply T1 feeds the motor M1 through the fuse F1; port P2 of board A1 switches the motor's return to 0 V.",
        (
            ("stop", "T1:+", "supply, 12 V"),
            ("wire", "W1", ""),
            ("stop", "F1:1 to F1:2", "fuse, 10 A"),
            ("wire", "W11", ""),
            ("stop", "M1:1 to M1:2", "motor, 12 V"),
            ("wire", "W12", ""),
            ("stop", "A1:P2 to A1:0V", "port, switch Q1"),
            ("wire", "W2", ""),
            ("stop", "T1:0V", "supply, 0 V"),
        ),
        ("D1, Schottky diode, directly at M1: the end with the band to M1:1, the plus side.",),
        ("The software sets A1:P2 from 0 to 12 %.",),
        ("A fuse in the switched return would not protect the feed.",),
    ),
    mounting_advice=Section(
        ("Where it stands decides what is felt.",),
        (
            Advice("Shaft front to back", "the weight then throws sideways"),
            Advice("In the front half", "nearer to the player's hands"),
        ),
    ),
    wiring_notes=("Wire from the toy back to the source.",),
    tuning_notes=("Small steps, and stop well before it rattles.",),
    play_notes=("Felt in the palms, not heard in the service door.",),
    needs=(
        Need("Blade fuse", "10 A, 32 V DC", "2", "one is the spare", "F1"),
        Need("Wire", "1.5 mm²", "2.15 m", "cut 1.9 m", "W11", "RD"),
    ),
    readings=(SHORT, FORWARD, SUPPLY, RUNNING, LEFT),
    steps=STEPS,
    settings=(
        Setting("Board, port 2", "Output type", "PWM", "its strength is set by the limit"),
        Setting("Game", "Loud toy, silenced after hours", "yes"),
    ),
    emergency=(
        "Pull the plug.",
        "Smoke: leave, and call the fire service.",
        "Do not plug in again before the cause is found.",
    ),
    troubles=(Trouble("Hums, never turns", "setting below the start", "voltage at M1:1", "above 1 V"),),
    pulse=None,
    disposal="Plug out. Take W11 off F1 first, then the motor. Metal and electronics go to the recycling yard.",
    worked=WORKED,
    findings=FINDINGS,
)
PLAN = Plan(
    slug="night-ferry",
    file=FILE,
    name="Night Ferry",
    summary="Full-size harbour-themed cabinet.",
    invented=True,
    revision="3",
    date="2026-11-02",
    author="tidewatch",
    licence="CC BY-SA 4.0",
    units="metric",
    toys={"bow-shaker": TOY},
    supplies={"main": SupplyPlan("main", "T1", 12.0, 20.0, 24.0, 7.4, 9.0, 55.0, "limits", (LEAD,), ())},
    boards={"quay": BoardPlan("quay", "A1", 7.4, 30.0, 24.0, (ZERO,), {2: "bow-shaker"}, 16, ())},
    cautions=(MAINS,),
    needs=(Need("Blade fuse", "10 A", "2"),),
    worked=(),
    findings=FINDINGS,
)


@pytest.fixture
def plan() -> Plan:
    """The plan as it stands."""
    return PLAN


@pytest.fixture
def with_toy() -> Callable[..., Plan]:
    """Makes the plan with some of the toy's fields changed."""
    return lambda **changes: replace(PLAN, toys={"bow-shaker": replace(TOY, **changes)})


@pytest.fixture
def must_fix() -> Finding:
    """A finding that holds the steps back."""
    return MUST

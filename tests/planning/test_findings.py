"""Every finding: what raises it, where it points, what it says; and what just does not raise it."""

import re
from dataclasses import dataclass, field

import pytest

from guide_gen.model.finding import Level
from guide_gen.planning.as_json import plan_json
from guide_gen.planning.as_text import plan_text

MUST, SHOULD, NOTE = Level.MUST, Level.SHOULD, Level.NOTE
ON = {"type": "always on"}
ON_OFF = {"type": "on/off port", "board": "quay", "port": "2"}
IN_THE_DUCT = {"ampacity_table": "NFPA 70 310.16", "insulation": "90 °C", "inside_temperature": "30 °C"}


def controlled(**changes):
    """A trimmer-set speed controller on port 2, with changes of its own keys."""
    own = {
        "current": "10 A",
        "pwm_frequency": "15 kHz",
        "run": "0.5 m",
        "input": "on/off",
        "input_voltage": "12 V",
        "input_current": "8 mA",
        "input_from": "behind the fuse",
        "lowest": "fully counter-clockwise",
    }
    beside = {key: changes.pop(key) for key in ("port_set_to", "limit", "port") if key in changes}
    return {
        "toys.bump.control": {
            "type": "speed controller",
            "board": "quay",
            "port": "2",
            "controller": own | changes,
            **beside,
        }
    }


def draws(amps, **more):
    """The toy's current."""
    return {"toys.bump.current": f"{amps} A (measured)", **more}


SECOND = {
    "kind": "shaker motor",
    "voltage": "12 V",
    "current": "2 A (measured)",
    "cover": "yes",
    "control": ON,
    "feed": {"run": "0.5 m"},
}


@dataclass(frozen=True)
class Told:
    """A finding: what raises it, what it must say, the line that it points at, and what is just right.

    code: its code. above: changes that raise it. at: how the place that it points at begins. under: the keys above it.
    says: what stands in the message. mends: what stands in the mend. right: changes that just do not raise it.
    still: what else must be fixed even then.
    """

    code: str
    level: Level
    above: dict
    at: str
    under: tuple[str, ...]
    says: tuple[str, ...]
    mends: str
    right: dict = field(default_factory=dict)
    still: tuple[str, ...] = ()


BUMP = ("toys", "bump")

FINDINGS = {
    # ---- fuse
    "no fuse": Told(
        "fuse-missing",
        MUST,
        {"toys.bump.feed.fuse": "none"},
        "none",
        (*BUMP, "feed", "fuse"),
        ("Bump", "no fuse at its source"),
        "Leave the key fuse out",
    ),
    "load beyond the series": Told(  # ISO 8820-3 type F ends at 30 A
        "fuse-missing",
        MUST,
        draws(20.1) | {"toys.bump.control": ON, "toys.bump.feed.fuse": {"holder": "mini blade"}},
        "mini blade",
        (*BUMP, "feed", "fuse", "holder"),
        ("30.2 A", "mini blade"),
        "Take a holder for blade fuses and fit 35 A",
        draws(20) | {"toys.bump.control": ON, "toys.bump.feed.fuse": {"holder": "mini blade"}},
    ),
    "long thin lead": Told(  # 33 CFR 183.455(b)(1): beyond 7 in it carries 1.5 x 20 A
        "fuse-missing",
        MUST,
        {"supplies.main.fuse_block": {"run": "0.3 m", "wire": "4 mm2"}},
        "4 mm2",
        ("supplies", "main", "fuse_block", "wire"),
        ("4 mm²", "23 A", "30 A", "longer than 177.8 mm (7 in)"),
        "Take 6 mm² or thicker; or keep it within 177.8 mm (7 in)",
        {"supplies.main.fuse_block": {"run": "0.3 m", "wire": "6 mm2"}},
    ),
    "short thin lead": Told(  # IEC 60204-1 table 6: 0.75 mm2 carries 8.5 A, the fuse lets 10 A pass
        "fuse-missing",
        MUST,
        draws(6) | {"supplies.main.fuse_block": {"run": "0.1 m", "wire": "0.75 mm2"}},
        "0.75 mm2",
        ("supplies", "main", "fuse_block", "wire"),
        ("0.75 mm²", "8.5 A", "10 A"),
        "Take 1 mm² or thicker",
        draws(6) | {"supplies.main.fuse_block": {"run": "0.1 m", "wire": "1 mm2"}},
    ),
    "lead that no wire is thick enough for": Told(  # 1.5 x 40 A is above the 54 A of 16 mm2
        "fuse-missing",
        MUST,
        {"supplies.main": {"current": "40 A", "fuse_block": {"run": "0.3 m"}}},
        "0.3 m",
        ("supplies", "main", "fuse_block", "run"),
        ("16 mm²", "54 A", "60 A"),
        "Shorten it to 177.8 mm (7 in)",
        {"supplies.main": {"current": "36 A", "fuse_block": {"run": "0.3 m"}}},
    ),
    "fuse that opens in normal use": Told(  # 7.1 A / (0.75 x 0.933) = 10.1 A
        "fuse-below-load",
        MUST,
        draws(7.1) | {"toys.bump.feed.fuse": {"rating": "10 A"}},
        "10 A",
        (*BUMP, "feed", "fuse", "rating"),
        ("10 A", "7.1 A", "10.6 A", "open in normal use"),
        "15 A",
    ),
    "five ampere fuse for a five to six ampere motor": Told(  # common practice, no source
        "fuse-below-load",
        MUST,
        {"toys.bump.current": "5 A to 6 A (measured)", "toys.bump.feed.fuse": {"rating": "5 A"}},
        "5 A",
        (*BUMP, "feed", "fuse", "rating"),
        ("5 A", "6 A", "9 A"),
        "10 A",
        {"toys.bump.current": "5 A to 6 A (measured)", "toys.bump.feed.fuse": {"rating": "9 A"}},
    ),
    "fuse with less than the margin": Told(  # 7 A / 0.7 = 10 A is enough for long, 1.5 x 7 A = 10.5 A is not
        "fuse-below-load",
        SHOULD,
        draws(7) | {"toys.bump.feed.fuse": {"rating": "10 A"}},
        "10 A",
        (*BUMP, "feed", "fuse", "rating"),
        ("10 A", "7 A", "10.5 A", "margin"),
        "15 A",
        draws(5) | {"toys.bump.feed.fuse": {"rating": "7.5 A"}},
    ),
    "large fuse before a stated wire": Told(
        "fuse-above-wire",
        MUST,
        draws(6) | {"toys.bump.feed.wire": "0.75 mm2"},
        "0.75 mm2",
        (*BUMP, "feed", "wire"),
        ("F1", "10 A", "0.75 mm²", "8.5 A"),
        "1 mm² or thicker",
        draws(6) | {"toys.bump.feed.wire": "1 mm2"},
    ),
    "slow fuse before a stated wire": Told(  # IEC 60127-2: opens at 2.1 x 6.3 A, over 1.45 = 9.12 A
        "fuse-above-wire",
        MUST,
        {
            "toys.bump.feed": {
                "fuse": {"holder": "5 x 20 mm", "rating": "6.3 A", "dc_voltage": "60 V"},
                "wire": "0.75 mm2",
            }
        },
        "0.75 mm2",
        (*BUMP, "feed", "wire"),
        ("6.3 A", "8.5 A", "9.12 A"),
        "1 mm² or thicker",
        {"toys.bump.feed": {"fuse": {"holder": "5 x 20 mm", "rating": "6.3 A", "dc_voltage": "60 V"}, "wire": "1 mm2"}},
    ),
    "fuse above the code's cap": Told(  # NFPA 70 240.4(D): 10 A before 16 AWG, which carries 18 A
        "fuse-above-wire",
        MUST,
        draws(7) | {"wiring": IN_THE_DUCT, "toys.bump.feed.wire": "16 AWG"},
        "16 AWG",
        (*BUMP, "feed", "wire"),
        ("15 A", "16 AWG", "no fuse above 10 A"),
        "14 AWG or thicker",
        draws(6) | {"wiring": IN_THE_DUCT, "toys.bump.feed.wire": "16 AWG"},
    ),
    "large stated fuse that no wire carries": Told(
        "fuse-above-wire",
        MUST,
        {"toys.bump.feed.fuse": {"rating": "60 A"}, "toys.bump.control": ON},
        "fuse",
        (*BUMP, "feed", "fuse"),
        ("60 A", "16 mm²", "54 A"),
        "Fit 3 A",
        {"toys.bump.feed.fuse": {"rating": "40 A"}, "toys.bump.control": ON},
    ),
    "fuse above its port": Told(
        "fuse-above-port",
        SHOULD,
        {"toys.bump.feed.fuse": {"rating": "15 A"}},
        "'2'",
        (*BUMP, "control", "port"),
        ("F1", "15 A", "port 2", "10 A"),
        "stronger port",
        {"toys.bump.feed.fuse": {"rating": "10 A"}},
    ),
    "fuse in the return only": Told(
        "fuse-in-return-only",
        MUST,
        {"toys.bump.feed.fuse": "none", "boards.quay.port_fuse": "5 x 20 mm"},
        "none",
        (*BUMP, "feed", "fuse"),
        ("Bump", "switched return"),
        "add one of 3 A at the source",
        {"boards.quay.port_fuse": "5 x 20 mm"},
    ),
    "port's fuse misses the motor": Told(
        "fuse-misses-the-motor",
        MUST,
        {"toys.bump.feed.fuse": "none", "boards.quay.port_fuse": "5 x 20 mm"} | controlled(),
        "none",
        (*BUMP, "feed", "fuse"),
        ("8 mA", "2 A", "none"),
        "a fuse of 3 A",
        {"boards.quay.port_fuse": "5 x 20 mm"} | controlled(),
    ),
    "input's fuse misses the motor": Told(
        "fuse-misses-the-motor",
        MUST,
        {"toys.bump.feed.fuse": "none"} | controlled(input_from="before the fuse"),
        "none",
        (*BUMP, "feed", "fuse"),
        ("8 mA", "2 A"),
        "a fuse of 3 A",
        controlled(input_from="before the fuse"),
    ),
    "blade above its voltage": Told(  # ISO 8820-3: 32 V
        "fuse-voltage",
        MUST,
        {
            "supplies.main": {"voltage": "30 V", "voltage_range": "30 V to 32.1 V"},
            "toys.bump.voltage": "30 V",
            "boards.quay.port_voltage": "60 V",
        },
        "feed",
        (*BUMP, "feed"),
        ("F1", "32 V", "32.1 V"),
        "58 V",
        {
            "supplies.main": {"voltage": "30 V", "voltage_range": "30 V to 32 V"},
            "toys.bump.voltage": "30 V",
            "boards.quay.port_voltage": "60 V",
        },
    ),
    "blade stated for more": Told(
        "fuse-voltage",
        MUST,
        {
            "supplies.main.voltage": "48 V",
            "toys.bump.voltage": "48 V",
            "boards.quay.port_voltage": "60 V",
            "toys.bump.feed.fuse": {"dc_voltage": "50 V"},
        },
        "50 V",
        (*BUMP, "feed", "fuse", "dc_voltage"),
        ("50 V", "50.4 V"),
        "higher DC rating",
        {
            "supplies.main.voltage": "48 V",
            "toys.bump.voltage": "48 V",
            "boards.quay.port_voltage": "60 V",
            "toys.bump.feed.fuse": {"dc_voltage": "58 V"},
        },
    ),
    "cartridge without a DC voltage": Told(  # IEC 60127-2 prints 250 V AC
        "fuse-voltage",
        SHOULD,
        {"toys.bump.feed.fuse": {"holder": "5 x 20 mm"}},
        "fuse",
        (*BUMP, "feed", "fuse"),
        ("AC", "12.6 V DC"),
        "dc_voltage",
        {"toys.bump.feed.fuse": {"holder": "5 x 20 mm", "dc_voltage": "12.6 V"}},
    ),
    # ---- wire
    "wire below the current": Told(
        "wire-too-thin",
        MUST,
        draws(8.6) | {"toys.bump.feed.wire": "0.75 mm2", "toys.bump.control": ON},
        "0.75 mm2",
        (*BUMP, "feed", "wire"),
        ("0.75 mm²", "8.5 A", "8.6 A"),
        "2.5 mm² or thicker",
        draws(8.5) | {"toys.bump.feed.wire": "0.75 mm2", "toys.bump.control": ON},
        ("fuse-above-wire",),
    ),
    "board's lead too thin": Told(
        "wire-too-thin",
        MUST,
        draws(6) | {"boards.quay.return": {"wire": "0.75 mm2"}},
        "0.75 mm2",
        ("boards", "quay", "return", "wire"),
        ("0.75 mm²", "8.5 A", "10 A"),
        "Take 1 mm² or thicker",
        draws(6) | {"boards.quay.return": {"wire": "1 mm2"}},
    ),
    "drop in a stated wire": Told(  # 4 m of 0.75 mm2 there and back at 2 A: 0.60 V with the rest
        "drop-too-high",
        SHOULD,
        {"toys.bump.feed": {"run": "4 m", "wire": "0.75 mm2"}},
        "0.75 mm2",
        (*BUMP, "feed", "wire"),
        ("Bump", "the limit is 0.6 V"),
        "1 mm² or thicker",
        {"toys.bump.feed": {"run": "3.9 m", "wire": "0.75 mm2"}},
    ),
    "drop that no wire keeps": Told(
        "drop-too-high",
        SHOULD,
        draws(9) | {"toys.bump.feed.run": "30 m", "toys.bump.control": ON},
        "30 m",
        (*BUMP, "feed", "run"),
        ("Bump", "the limit is 0.6 V"),
        "Shorten the run to",
        draws(9) | {"toys.bump.feed.run": "2 m", "toys.bump.control": ON},
    ),
    "drop in what is not wire": Told(  # 3.2 A x (25 + 16 + 60) mohm = 0.32 V, more than half of 0.6 V
        "drop-too-high",
        SHOULD,
        draws(3.2) | {"boards.quay.switch_resistance": "60 mohm (measured)"},
        "0.5 m",
        (*BUMP, "feed", "run"),
        ("more than half", "the switch"),
        "the switch",
        draws(3.2) | {"boards.quay.switch_resistance": "50 mohm (measured)"},
    ),
    # ---- control
    "pwm into an on/off input": Told(
        "pwm-into-on-off-input",
        MUST,
        controlled(port_set_to="pwm"),
        "pwm",
        (*BUMP, "control", "port_set_to"),
        ("Port 2", "PWM", "on/off"),
        "Set the port to on/off",
        controlled(port_set_to="on/off"),
    ),
    "limit beside a trimmer": Told(
        "two-speed-methods",
        SHOULD,
        controlled(port_set_to="pwm", limit="40 %"),
        "40 %",
        (*BUMP, "control", "limit"),
        ("trimmer", "40 %"),
        "the trimmer alone",
        controlled(port_set_to="on/off", limit="40 %"),
    ),
    "input that takes pwm": Told(
        "two-speed-methods",
        SHOULD,
        controlled(port_set_to="pwm", input="pwm"),
        "pwm",
        (*BUMP, "control", "controller", "input"),
        ("trimmer", "PWM"),
        "Choose one",
        controlled(),
    ),
    "port overloaded": Told(  # 0.8 x 10 A; common practice, no source
        "port-overloaded",
        MUST,
        draws(8.1),
        "'2'",
        (*BUMP, "control", "port"),
        ("8.1 A", "port 2", "10 A", "8 A"),
        "speed controller",
        draws(8),
    ),
    "input overloads the port": Told(
        "port-overloaded",
        MUST,
        controlled() | {"boards.quay.port_current": "9 mA"},
        "'2'",
        (*BUMP, "control", "port"),
        ("8 mA", "9 mA"),
        "stronger port",
        controlled() | {"boards.quay.port_current": "10 mA"},
    ),
    "controller overloaded": Told(
        "port-overloaded",
        MUST,
        draws(5.1) | controlled(current="5 A"),
        "5 A",
        (*BUMP, "control", "controller", "current"),
        ("5 A", "5.1 A"),
        "6.37 A",
        draws(5) | controlled(current="5 A"),
    ),
    "input of another voltage": Told(
        "voltage-mismatch",
        MUST,
        controlled(input_voltage="5 V"),
        "5 V",
        (*BUMP, "control", "controller", "input_voltage"),
        ("5 V", "12 V"),
        "whose input fits",
        controlled(input_voltage="10.8 V"),
    ),
    "port taken": Told(
        "port-taken",
        MUST,
        {"toys.second": SECOND | {"control": ON_OFF}},
        "'2'",
        ("toys", "second", "control", "port"),
        ("Port 2", "quay", "bump"),
        "Port 1 is free",
        {"toys.second": SECOND | {"control": ON_OFF | {"port": "3"}}},
    ),
    "port that is not there": Told(
        "port-unknown",
        MUST,
        {"toys.bump.control.port": "17"},
        "'17'",
        (*BUMP, "control", "port"),
        ("17", "1 to 16"),
        "Port 1 is free",
        {"toys.bump.control.port": "16"},
    ),
    "port for less voltage": Told(
        "port-voltage",
        MUST,
        {"boards.quay.port_voltage": "12.5 V"},
        "'2'",
        (*BUMP, "control", "port"),
        ("12.5 V", "12.6 V"),
        "a board for that voltage",
        {"boards.quay.port_voltage": "12.6 V"},
    ),
    "board overloaded": Told(  # 0.8 x 7 A = 5.6 A
        "board-overloaded",
        MUST,
        draws(5.7) | {"boards.quay.board_current": "7 A"},
        "7 A",
        ("boards", "quay", "board_current"),
        ("quay", "5.7 A", "7 A", "5.6 A"),
        "another board",
        draws(5.6) | {"boards.quay.board_current": "7 A"},
    ),
    # ---- suppressor
    "no suppressor": Told(
        "suppressor-missing",
        MUST,
        {"toys.bump.suppressor": "none"},
        "none",
        (*BUMP, "suppressor"),
        ("Bump", "kickback"),
        "fast or Schottky diode across it, for 25.2 V",
        {"toys.bump.suppressor": "diode"},
    ),
    "suppressor not in this controller": Told(
        "suppressor-missing",
        MUST,
        controlled(suppressor="no") | {"toys.bump.suppressor": "in the controller"},
        "in the controller",
        (*BUMP, "suppressor"),
        ("kickback",),
        "leave suppressor out",
        controlled(suppressor="yes") | {"toys.bump.suppressor": "in the controller"},
    ),
    "suppressor on a board that does not switch it": Told(
        "suppressor-missing",
        MUST,
        {"toys.bump.control": ON, "toys.bump.suppressor": "on the board"},
        "on the board",
        (*BUMP, "suppressor"),
        ("kickback",),
        "leave suppressor out",
        {"toys.bump.suppressor": "on the board"},
    ),
    "diode that blocks too little": Told(  # 2 x 12.6 V
        "suppressor-too-small",
        MUST,
        {"toys.bump.suppressor": {"type": "diode", "reverse_voltage": "25 V"}},
        "suppressor",
        (*BUMP, "suppressor"),
        ("25 V", "25.2 V"),
        "larger one",
        {"toys.bump.suppressor": {"type": "diode", "reverse_voltage": "25.2 V"}},
    ),
    "diode that carries too little": Told(  # half of 2 A under PWM; this project
        "suppressor-too-small",
        MUST,
        {"toys.bump.suppressor": {"type": "diode", "forward_current": "0.9 A"}},
        "suppressor",
        (*BUMP, "suppressor"),
        ("0.9 A", "1 A"),
        "larger one",
        {"toys.bump.suppressor": {"type": "diode", "forward_current": "1 A"}},
    ),
    "diode with a small surge": Told(
        "suppressor-too-small",
        MUST,
        {"toys.bump.suppressor": {"type": "diode", "surge_current": "1.9 A"}},
        "suppressor",
        (*BUMP, "suppressor"),
        ("1.9 A", "2 A"),
        "larger one",
        {"toys.bump.suppressor": {"type": "diode", "surge_current": "2 A"}},
    ),
    "diode across an output that reverses": Told(
        "suppressor-reversed",
        MUST,
        controlled(reverses="yes") | {"toys.bump.suppressor": "diode"},
        "diode",
        (*BUMP, "suppressor"),
        ("reverse", "short circuit"),
        "Take the diode off",
        controlled(reverses="yes", suppressor="yes"),
    ),
    "output that reverses without a suppressor": Told(
        "suppressor-missing",
        MUST,
        controlled(reverses="yes"),
        "bump",
        BUMP,
        ("Bump", "can reverse", "short circuit"),
        "suppressor: yes under controller",
        controlled(reverses="yes", suppressor="yes"),
    ),
    # ---- supply
    "supply overloaded": Told(
        "supply-overloaded",
        MUST,
        draws(2.1) | {"supplies.main.current": "2 A"},
        "2 A",
        ("supplies", "main", "current"),
        ("main", "2.1 A", "2 A"),
        "2.63 A",
    ),
    "supply without headroom": Told(  # 0.8 x 2.5 A = 2 A
        "supply-headroom",
        SHOULD,
        draws(2.01) | {"supplies.main.current": "2.5 A"},
        "2.5 A",
        ("supplies", "main", "current"),
        ("2.01 A", "2.5 A"),
        "2.52 A",
        draws(2) | {"supplies.main.current": "2.5 A"},
    ),
    "supply overloaded by its limit": Told(  # it gives no more than that, whatever its label says (this project)
        "supply-overloaded",
        MUST,
        draws(2.1) | {"supplies.main.current_limit": "2 A (datasheet)"},
        "2 A",
        ("supplies", "main", "current_limit"),
        ("main", "2.1 A", "2 A"),
        "leave it out",
    ),
    "limit without headroom": Told(  # 0.8 x 2.5 A = 2 A
        "supply-headroom",
        SHOULD,
        draws(2.01) | {"supplies.main.current_limit": "2.5 A (datasheet)"},
        "2.5 A",
        ("supplies", "main", "current_limit"),
        ("2.01 A", "2.5 A"),
        "leave it out",
        draws(2) | {"supplies.main.current_limit": "2.5 A (datasheet)"},
        ("implausible",),
    ),
    "limit below the rated current": Told(  # what it gives for ever it also gives at most (this project)
        "implausible",
        MUST,
        {"supplies.main.current_limit": "19.9 A (datasheet)"},
        "19.9 A",
        ("supplies", "main", "current_limit"),
        ("main", "20 A", "19.9 A"),
        "leave it out",
        {"supplies.main.current_limit": "20 A (datasheet)"},
    ),
    "start beyond the supply": Told(  # Ohm's law: 12.6 V / (0.474 + 0.098 of its way) = 22.03 A; 1.1 x 20 A = 22 A
        "supply-start",
        SHOULD,
        {"toys.bump.motor": {"resistance": "0.474 ohm (measured)"}},
        "20 A",
        ("supplies", "main", "current"),
        ("While Bump starts", "22 A at most"),
        "small steps",
        {"toys.bump.motor": {"resistance": "0.475 ohm (measured)"}},
    ),
    "toy of another voltage": Told(  # 10 % of 12 V
        "voltage-mismatch",
        MUST,
        {"toys.bump.voltage": "13.3 V"},
        "13.3 V",
        (*BUMP, "voltage"),
        ("Bump", "13.3 V", "12 V", "main"),
        "another supply",
        {"toys.bump.voltage": "13.2 V"},
    ),
    "rail beyond the toy": Told(  # 1.15 x 11 V = 12.65 V
        "rail-too-high-for-toy",
        MUST,
        {"toys.bump.voltage": "11 V", "supplies.main.voltage_range": "12 V to 12.7 V"},
        "11 V",
        (*BUMP, "voltage"),
        ("main", "12.7 V", "11 V"),
        "Set the supply lower",
        {"toys.bump.voltage": "11 V", "supplies.main.voltage_range": "12 V to 12.65 V"},
    ),
    "supplies apart": Told(
        "return-not-common",
        MUST,
        {
            "supplies.high": {"voltage": "12 V", "current": "9 A", "overload": "limits"},
            "boards.quay.supply": "high",
            "toys.bump.supply": "main",
        },
        "quay",
        ("boards", "quay"),
        ("main", "high"),
        "common_return: [high, main]",
        {
            "supplies.high": {"voltage": "12 V", "current": "9 A", "overload": "limits"},
            "boards.quay.supply": "high",
            "toys.bump.supply": "main",
            "boards.quay.common_return": ["main", "high"],
        },
    ),
    # ---- kinds
    "weight without a cover": Told(
        "cover-missing",
        MUST,
        {"toys.bump.cover": "no"},
        "'no'",
        (*BUMP, "cover"),
        ("Bump", "no cover"),
        "closed cover",
        {"toys.bump.cover": "yes"},
    ),
    # ---- notes
    "estimated current": Told(
        "estimate-used",
        NOTE,
        {"toys.bump.current": "2 A (estimate)"},
        "2 A",
        (*BUMP, "current"),
        ("Bump", "2 A"),
        "Measure before you buy",
        {"toys.bump.current": "2 A (datasheet)"},
    ),
    "current without a basis": Told(
        "estimate-used", NOTE, {"toys.bump.current": "2 A"}, "2 A", (*BUMP, "current"), ("Bump", "2 A"), "(measured)"
    ),
    "estimated switch": Told(
        "estimate-used",
        NOTE,
        {"boards.quay.switch_resistance": "20 mohm (estimate)"},
        "20 mohm",
        ("boards", "quay", "switch_resistance"),
        ("Bump", "switch_resistance (20 mΩ)"),
        "Measure",
        {"boards.quay.switch_resistance": "20 mohm (measured)"},
    ),
    "estimated limit of the supply": Told(
        "estimate-used",
        NOTE,
        {"supplies.main.current_limit": "22 A"},
        "22 A",
        ("supplies", "main", "current_limit"),
        ("current_limit (22 A)",),
        "Measure",
        {"supplies.main.current_limit": "22 A (datasheet)"},
    ),
    "floor of unknown thickness": Told(
        "not-worked-out",
        NOTE,
        {"cabinet": {"floor": {"thickness": None}}},
        "bump",
        BUMP,
        ("length of the screws", "thickness is not known"),
        "Measure the floor",
    ),
    "floor too thick for any screw": Told(
        "not-worked-out", NOTE, {"cabinet.floor.thickness": "100 mm"}, "bump", BUMP, ("No screw", "long enough"), "rod"
    ),
    "screw that no table has": Told(
        "not-worked-out",
        NOTE,
        {"toys.bump.mount": {"screw": "M7"}},
        "M7",
        (*BUMP, "mount", "screw"),
        ("M7",),
        "Write one of them",
    ),
    "scale that reads the wrong way": Told(
        "not-worked-out",
        NOTE,
        {"toys.bump.weight": {"scale": {"lever": "50 mm", "raising": "150 g", "lowering": "151 g"}}},
        "151 g",
        (*BUMP, "weight", "scale", "lowering"),
        ("lowered",),
        "swapped",
        {"toys.bump.weight": {"scale": {"lever": "50 mm", "raising": "150 g", "lowering": "150 g"}}},
    ),
}


def plain(text):
    """A text with ordinary spaces."""
    return text.replace("\u00a0", " ")


@pytest.fixture(name="told", params=FINDINGS)
def _told(request):
    return FINDINGS[request.param]


def of_its_code(told, case):
    """The findings of its code; of what is not worked out, which has more than one cause, those that say why."""
    found = [each for each in case.plan.findings if each.code == told.code]
    return [each for each in found if told.code != "not-worked-out" or told.says[0] in plain(each.message)]


@pytest.fixture(name="raised")
def _raised(told, plan_of):
    case = plan_of(told.above)
    (finding,) = of_its_code(told, case)
    return case, finding


def test_is_raised_at_its_level(told, raised):
    """With the toy that it concerns, if it concerns one."""
    _, finding = raised
    assert finding.level is told.level
    assert finding.toy == (told.under[1] if told.under[0] == "toys" or told.code == "estimate-used" else "") or (
        told.code == "estimate-used" and finding.toy == "bump"
    )


def test_says_what_by_how_much(told, raised):
    """The message stands alone: its key numbers are in it."""
    _, finding = raised
    assert [words for words in told.says if words not in plain(finding.message)] == []


def test_says_how_to_mend_it(told, raised):
    """What was expected, and what to change."""
    _, finding = raised
    assert told.mends in plain(finding.mend)
    assert finding.expected


def test_points_at_the_place(told, raised):
    """Line and column of the value, or of the map that lacks it."""
    case, finding = raised
    assert case.at(finding).startswith(told.at)
    assert case.above(finding) == list(told.under)


def test_is_not_raised_just_at_its_limit(told, plan_of):
    """What is just right is not complained about, and nothing must be fixed in it."""
    case = plan_of(told.right)
    assert of_its_code(told, case) == []
    assert [finding.code for finding in case.plan.findings if finding.level is MUST] == list(told.still)


def test_small_build_has_no_finding_but_its_unknown_winding(plan_of):
    """So that each case above is about its own change."""
    assert plan_of().codes == ["not-worked-out"]
    assert "winding" in plan_of().finding("not-worked-out").mend


def test_fan_with_electronics_is_not_chopped(any_toy):
    """PWM on its supply kills it; on/off does not; a brushed one stands it."""
    for control in ("pwm port", "speed controller"):
        case = any_toy("blower fan", control, {"toys.bump.motor_type": "brushless"})
        finding = case.finding("fan-chopped")
        assert finding.level is MUST
        assert case.above(finding) == ["toys", "bump", "control", "type"]
        assert case.at(finding) == control
        assert "electronics" in finding.message
        assert "on/off port" in finding.mend
        assert "fan-chopped" not in any_toy("blower fan", control, {"toys.bump.motor_type": "brushed"}).codes
    for control in ("on/off port", "always on"):
        assert "fan-chopped" not in any_toy("blower fan", control, {"toys.bump.motor_type": "brushless"}).codes


def test_rail_and_mismatch_are_told_beside_each_other(plan_of):
    """One does not hide the other."""
    assert {"voltage-mismatch", "rail-too-high-for-toy"} <= set(plan_of({"toys.bump.voltage": "5 V"}).codes)


def test_estimates_of_a_toy_are_told_once_together(plan_of):
    """Naming each value."""
    case = plan_of({"toys.bump.current": "2 A", "toys.bump.motor": {"resistance": "0.3 ohm"}})
    message = plain(case.finding("estimate-used").message)
    assert "its current (2 A)" in message
    assert "winding's resistance (0.3 Ω)" in message


@pytest.mark.parametrize(("basis", "marked"), [("estimate", True), ("measured", False)])
def test_size_that_rests_on_an_estimate_is_marked(plan_of, basis, marked):
    """Fuse and wire are only as sure as the current that they are for: on the page, as text and as JSON."""
    case = plan_of({"toys.bump.current": f"2 A ({basis})"})
    sizes = [value for value in case.toy.values if value.label in ("Fuse F1", "Wire")]
    assert [value.estimate for value in sizes] == [marked, marked]
    lines = [line for line in plan_text(case.plan).splitlines() if re.match(r"  (Fuse F1|Wire):", line)]
    assert ["(estimate, " in line for line in lines] == [marked, marked]
    toy = plan_json(case.plan)["toys"]["bump"]
    assert (toy["fuse"]["basis"], toy["wire"]["basis"]) == (basis, basis)


def test_estimate_is_taken_as_written(plan_of):
    """With no surcharge."""
    firm, guessed = plan_of(draws(6)), plan_of({"toys.bump.current": "6 A (estimate)"})
    assert firm.toy.sized.fuse == guessed.toy.sized.fuse
    assert firm.toy.sized.wire == guessed.toy.sized.wire


def test_all_ports_of_a_full_board_are_taken(plan_of):
    """Then there is none to propose."""
    finding = plan_of(
        {
            "boards.quay.ports": "2",
            "toys.second": SECOND | {"control": ON_OFF},
            "toys.third": SECOND | {"control": ON_OFF | {"port": "1"}},
        }
    ).finding("port-taken")
    assert "add a board" in finding.mend


def test_supply_without_toys_has_no_finding_of_its_own(plan_of):
    """Its lead carries nothing, however strong it is and however long the lead."""
    case = plan_of(
        {
            "toys.bump.supply": "main",
            "boards.quay.supply": "main",
            "supplies.spare": {
                "voltage": "24 V",
                "current": "60 A",
                "overload": "limits",
                "fuse_block": {"run": "2 m"},
            },
        }
    )
    assert [each.toy for each in case.plan.findings] == ["bump"]


def test_findings_are_sorted_by_place(plan_of):
    """As an editor lists them."""
    places = [
        finding.where
        for finding in plan_of(
            {"toys.bump.cover": "no", "toys.bump.voltage": "5 V", "supplies.main.current": "1 A"}
        ).plan.findings
    ]
    assert places == sorted(places)
    assert len(places) > 3


def test_findings_of_a_toy_are_the_same_objects(plan_of):
    """Once at the top, again with the toy."""
    plan = plan_of({"toys.bump.cover": "no", "supplies.main.current": "1 A"}).plan
    assert [finding for finding in plan.findings if finding.toy == "bump"] == sorted(
        plan.toys["bump"].findings, key=lambda each: (each.where, each.code)
    )
    assert plan.toys["bump"].must_fix


# ---- estimates: what to measure, with which instrument --------------------------------------------------------------

GUESSED_MOTOR = {"resistance": "0.32 ohm (estimate)", "speed": "2100 rpm (estimate)", "inductance": "0.5 mH (estimate)"}
GUESSED_COIL = {
    "resistance": "6 ohm (estimate)",
    "inductance": "30 mH (estimate)",
    "wire_diameter": "0.5 mm (estimate)",
    "outer_diameter": "34 mm (estimate)",
    "length": "45 mm (estimate)",
    "release_current": "100 mA (estimate)",
}
RULED = {"toys.bump.current": "5.5 A (measured)"}

SHAKER, PWM = "shaker motor", "pwm port"
UNBALANCE = RULED | {"toys.bump.weight": {"unbalance": "8 g m (datasheet)"}}

# kind, control, changes: value named in the message, instrument named in the mend.
INSTRUMENTS = {
    "current of a motor": (SHAKER, PWM, {"toys.bump.current": "2 A (estimate)"}, "its current", "10 A range"),
    "current of a coil": ("knocker", "on/off port", {"toys.bump.current": "2 A"}, "its current", "ohms range"),
    "winding of a shaker": (
        SHAKER,
        PWM,
        RULED | {"toys.bump.motor": GUESSED_MOTOR},
        "winding's resistance",
        "bench supply",
    ),
    "speed of a shaker": (
        SHAKER,
        PWM,
        RULED | {"toys.bump.motor": GUESSED_MOTOR},
        "the motor's speed",
        "accelerometer",
    ),
    "inductance of a shaker": (
        SHAKER,
        PWM,
        RULED | {"toys.bump.motor": GUESSED_MOTOR},
        "winding's inductance",
        "LCR meter",
    ),
    "unbalance": (
        SHAKER,
        PWM,
        RULED | {"toys.bump.weight": {"unbalance": "8 g m (estimate)"}},
        "the unbalance",
        "kitchen scale",
    ),
    "swing": (
        SHAKER,
        PWM,
        RULED | {"toys.bump.weight": {"unbalance": "8 g m (datasheet)", "swing": "0.47 s (estimate)"}},
        "the weight's swing",
        "video",
    ),
    "mass of the cabinet": (
        SHAKER,
        PWM,
        UNBALANCE | {"cabinet.mass": "95 kg (estimate)"},
        "cabinet's mass",
        "bathroom scale",
    ),
    "sway of the cabinet": (
        SHAKER,
        PWM,
        UNBALANCE | {"cabinet.sideways_frequency": "5 Hz"},
        "sideways_frequency",
        "accelerometer",
    ),
    "winding of a gear motor": (
        "gear motor",
        "on/off port",
        {"toys.bump.motor": {"resistance": "1.6 ohm"}},
        "winding's resistance",
        "shaft held",
    ),
    "arm": ("gear motor", "on/off port", {"toys.bump.arm_radius": "60 mm (estimate)"}, "arm_radius", "ruler"),
    "speed of a fan": (
        "blower fan",
        "on/off port",
        {"toys.bump.motor": {"resistance": "2 ohm (measured)", "speed": "3200 rpm (estimate)"}},
        "the motor's speed",
        "tachometer",
    ),
    "coil": ("knocker", "on/off port", {"toys.bump.coil": GUESSED_COIL}, "the coil's resistance", "ohms range"),
    "inductance of a coil": (
        "bell",
        "on/off port",
        {"toys.bump.coil": GUESSED_COIL},
        "the coil's inductance",
        "inductance meter",
    ),
    "copper of a coil": (
        "bell",
        "on/off port",
        {"toys.bump.coil": GUESSED_COIL},
        "diameter of the coil's wire",
        "caliper",
    ),
    "release": ("contactor", "on/off port", {"toys.bump.coil": GUESSED_COIL}, "release_current", "turned down slowly"),
    "held surface": (
        "contactor",
        "on/off port",
        {"toys.bump.surface_temperature": "54 °C (estimate)"},
        "surface_temperature",
        "thermometer",
    ),
    "drop of an LED": (
        "lamp",
        "on/off port",
        {
            "toys.bump.lamp_type": "LEDs with resistor",
            "toys.bump.led": {"forward_voltage": "3.2 V", "current": "20 mA (datasheet)"},
        },
        "forward_voltage",
        "volts range",
    ),
    "cold filament": (
        "lamp",
        "on/off port",
        {"toys.bump.lamp_type": "filament", "toys.bump.cold_resistance": "0.6 ohm"},
        "the cold resistance",
        "ohms range",
    ),
    "surface of a lamp": (
        "lamp",
        "on/off port",
        {"toys.bump.surface": "55 °C (estimate)"},
        "its surface",
        "thermometer",
    ),
    "switch": (SHAKER, PWM, {"boards.quay.switch_resistance": "20 mohm"}, "switch_resistance", "millivolts"),
    "controller": (
        "shaker motor",
        "speed controller",
        {"toys.bump.control.controller.resistance": "20 mohm"},
        "controller's resistance",
        "millivolts",
    ),
    "relay's coil": (
        "shaker motor",
        "relay",
        {"toys.bump.control.relay.coil_resistance": "150 ohm"},
        "relay coil's resistance",
        "ohms range",
    ),
    "relay's contact": (
        "shaker motor",
        "relay",
        {"toys.bump.control.relay.contact_resistance": "9 mohm"},
        "contact's resistance",
        "millivolts",
    ),
    "limit of the supply": (SHAKER, PWM, {"supplies.main.current_limit": "24 A"}, "current_limit", "data sheet"),
}


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_estimate_is_named_with_the_instrument_that_tells_it(any_toy, name):
    """Once a toy, each value with what measures it (what a hobbyist can measure: common practice, no source)."""
    kind, control, changes, value, instrument = INSTRUMENTS[name]
    case = any_toy(kind, control, changes)
    finding = case.finding("estimate-used")
    assert finding.level is NOTE
    assert value in plain(finding.message)
    told = next(part for part in re.split(r"(?<=\.) (?=[A-Z])", finding.mend) if value in part.lower())
    assert instrument in told


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_value_with_a_firm_basis_is_no_estimate(any_toy, name):
    """The same, measured."""
    kind, control, changes, *_ = INSTRUMENTS[name]

    def firm(value):
        if isinstance(value, dict):
            return {key: firm(inner) for key, inner in value.items()}
        bare = value.split(" (")[0]
        return f"{bare} (measured)" if bare[0].isdigit() else value

    assert "estimate-used" not in any_toy(kind, control, firm(changes)).codes


def test_estimate_of_the_cabinet_counts_where_a_motion_is_worked_out(any_toy):
    """On an on/off port it decides nothing."""
    changes = UNBALANCE | {"cabinet.mass": "95 kg (estimate)"}
    assert "estimate-used" not in any_toy("shaker motor", "on/off port", changes).codes


# ---- a start that capacitors carry ----------------------------------------------------------------------------------

FLASHED = {"toys.bump.lamp_type": "filament", "toys.bump.current": "3 A (measured)"}


@pytest.mark.parametrize(
    ("capacitance", "level"),
    [("476000 uF", NOTE), ("474000 uF", SHOULD), (None, SHOULD)],
)
def test_short_start_that_capacitors_carry_is_only_a_note(any_toy, capacitance, level):
    """28.5 A more for 10 ms from 0.475 F at 12 V lose 5 % (OpenStax University Physics volume 2, capacitance)."""
    stored = {"supplies.main.capacitance": capacitance} if capacitance else {}
    finding = any_toy("lamp", "on/off port", FLASHED | stored).finding("supply-start")
    assert finding.level is level
    assert ("its capacitors carry that" in finding.message) is (level is NOTE)


def test_mends_carry_the_value_that_mends(plan_of):
    """Each proposed value, entered, takes its finding away."""
    asked = {
        "port-overloaded": (draws(8.1), "10.2 A"),
        "fuse-above-port": ({"toys.bump.feed.fuse": {"rating": "15 A"}}, "15 A"),
        "board-overloaded": (draws(5.7) | {"boards.quay.board_current": "7 A"}, "7.13 A"),
        "voltage-mismatch": ({"toys.bump.voltage": "13.3 V"}, "13.3 V"),
        "port-voltage": ({"boards.quay.port_voltage": "12.5 V"}, "12.6 V"),
        "rail-too-high-for-toy": (
            {"toys.bump.voltage": "11 V", "supplies.main.voltage_range": "12 V to 12.7 V"},
            "at most",
        ),
    }
    for code, (changes, value) in asked.items():
        assert value in plain(plan_of(changes).finding(code).mend), code
    assert "port-overloaded" not in plan_of(draws(8.1) | {"boards.quay.port_current": "10.2 A"}).codes
    assert "board-overloaded" not in plan_of(draws(5.7) | {"boards.quay.board_current": "7.13 A"}).codes
    assert "fuse-above-port" not in plan_of(asked["fuse-above-port"][0] | {"boards.quay.port_current": "15 A"}).codes


@pytest.mark.parametrize(("degC", "only"), [("70", True), ("60", False)])
def test_air_as_warm_as_the_insulation_is_mended_by_air_or_insulation_alone(plan_of, degC, only):
    """IEC 60204-1 for insulation of 70 °C: at 70 °C of air nothing may flow, and no share of it helps."""
    case = plan_of({"wiring.inside_temperature": f"{degC} °C", "wiring.insulation": "70 °C"})
    thin = [one for one in case.plan.findings if one.code in ("wire-too-thin", "fuse-above-wire", "fuse-missing")]
    assert all(one.mend.startswith("Only cooler air or better insulation") for one in thin)
    assert bool(thin) is only
    told = {"wiring.insulation": "90 °C", "wiring.ampacity_table": "NFPA 70 310.16"}
    better = plan_of(told | {"wiring.inside_temperature": f"{degC} °C"})
    assert not {"wire-too-thin", "fuse-above-wire", "fuse-missing"} & set(better.codes)


def test_kick_of_what_nothing_switches_is_told_by_what_it_hits(plan_of):
    """Always on: no switch is there that could fail; behind a port there is."""
    bare = {"toys.bump.suppressor": "none"}
    always = plan_of(bare | {"toys.bump.control": ON}).finding("suppressor-missing").message
    assert "nothing switches it" in always
    assert "whatever switches it" not in always
    assert "whatever switches it" in plan_of(bare).finding("suppressor-missing").message

"""Circuits of an invented cabinet, one for each arrangement that a drawing must manage."""

from dataclasses import dataclass

from guide_gen.model.circuit import LETTERS, Circuit, Part, PartKind, Wire


@dataclass(frozen=True)
class Variant:
    """What a sample circuit has. control: ``port``, ``direct``, ``controller`` or ``relay``.

    across, coil_across: what lies across the load and a relay's coil: ``none``, ``diode``, ``zener``, ``rc``.
    series: a resistor before the load. own_signal_fuse: of a controller's input or a relay's coil.
    row: its fuse sits at a distribution block, which has a fuse of its own or not.
    """

    control: str = "port"
    fused: bool = True
    across: str = "diode"
    coil_across: str = "diode"
    load: PartKind = PartKind.MOTOR
    series: bool = False
    port_fuse: bool = False
    own_signal_fuse: bool = False
    second_supply: bool = False
    row: bool = False
    row_fused: bool = True
    name: str = "Bow shaker"
    long: bool = False
    schottky: bool = True
    us: bool = False

    def circuit(self) -> Circuit:
        """The circuit as data, joined up here from the rules of the model's docstrings."""
        ported = self.control != "direct"
        size = "16 AWG" if self.us else "0.75 mm²" if self.long else "1.5 mm²"
        thin = "22 AWG" if self.us else "0.5 mm²"
        source = "F1:2" if self.fused else "X1:+" if self.row else "T1:+"
        zero = "X1:0V" if self.row else "T1:0V"
        home = "T2" if self.second_supply and ported else "T1"
        load = f"{LETTERS[self.load]}1"
        plus = "R1S:1" if self.series else f"{load}:1"

        parts = [Part("T1", PartKind.SUPPLY, "12 V DC", ("+", "0V"), ("20 A", "limit 24 A"), name="main")]
        wires: list[Wire] = []
        joints: list[tuple[str, str]] = []
        start: tuple[str, ...] = ("T1",)
        if self.row:
            if self.row_fused:
                parts.append(Part("F3", PartKind.FUSE, "25 A", ("1", "2"), ("blade, 32 V DC",)))
                wires.append(Wire("W1", "T1:+", "F3:1", "RD", 0.15, size))
                start = ("T1", "W1", "F3")
            wires.append(Wire("W3", "F3:2" if self.row_fused else "T1:+", "X1:+", "RD", 2.0, size))
            terminals = ("+",) if self.control == "port" else ("+", "0V")
            parts.append(Part("X1", PartKind.BLOCK, "", terminals, ("block",), name="Wharf"))
            start = (*start, "W3", "X1")
            if self.fused:
                joints.append(("X1:+", "F1:1"))
        if self.fused:
            notes = ("6.3 x 32 mm, time-lag, 60 V DC",) if self.long else ("blade, 32 V DC",)
            parts.append(Part("F1", PartKind.FUSE, "10 A", ("1", "2"), notes))
            if not self.row:
                wires.append(Wire("W1", "T1:+", "F1:1", "RD", 0.15, size))
        if self.series:
            notes = ("one for each row", "0.25 W") if self.long else ()
            parts.append(Part("R1S", PartKind.RESISTOR, "2 × 150 Ω", ("1", "2"), notes))
            joints.append(("R1S:2", f"{load}:1"))
        notes = ("5 to 6 A", "105 °C") if self.long else ("5 to 6 A",)
        parts.append(Part(load, self.load, "12 V", ("1", "2"), notes, name=self.name))
        value = "Schottky 60 V 10 A" if self.schottky else "plain 100 V 12.5 A"
        for part, ends in suppressor(self.across, "1", value, plus, f"{load}:2"):
            parts.append(part)
            joints += ends
        if ported:
            parts.append(Part("A1", PartKind.BOARD, "", ("P12" if self.long else "P2", "0V"), name="driver board Quay"))
            port = f"A1:{parts[-1].terminals[0]}"
            pwm = self.control == "port" and self.load is PartKind.MOTOR
            parts.append(Part("Q1", PartKind.SWITCH, "PWM 200 Hz" if pwm else "on/off", ("D", "S"),
                              ("limit 12 %",) if pwm else (), inside="A1"))  # fmt: skip
            if self.port_fuse:
                parts.append(Part("F1C", PartKind.FUSE, "10 A", ("1", "2"), ("5 x 20 mm",), inside="A1"))
                joints += [(port, "F1C:1"), ("F1C:2", "Q1:D")]
            else:
                joints.append((port, "Q1:D"))
            joints.append(("Q1:S", "A1:0V"))
            wires.append(Wire("W2", "A1:0V", f"{home}:0V", "BK", 0.6, size))
        if home == "T2":
            parts.append(Part("T2", PartKind.SUPPLY, "24 V DC", ("+", "0V"), ("5 A",), name="high"))

        toy = ("R1S", load) if self.series else (load,)
        lead = (*start, *(() if self.row else ("W1",)), "F1") if self.fused else start
        end = ("X1", "W4", "T1") if self.row else ("T1",)
        if self.row and self.control != "port":
            wires.append(Wire("W4", "X1:0V", "T1:0V", "BK", 2.0, size))
        control: tuple[str, ...] = ()
        if self.control == "direct":
            wires += [Wire("W11", source, plus, "RD", 1.8, size), Wire("W12", f"{load}:2", zero, "BK", 1.8, size)]
            main = (*lead, "W11", *toy, "W12", *end)
        elif self.control == "port":
            wires += [Wire("W11", source, plus, "RD", 1.8, size), Wire("W12", f"{load}:2", port, "BN", 1.8, size)]
            main = (*lead, "W11", *toy, "W12", "A1", "W2", home)
        elif self.control == "relay":
            notes = ("coil 12 V, 150 Ω", "contact 10 A, 30 V DC")
            signal_from, first = self.own_fuse(parts, joints, source, start, lead)
            parts.append(Part("K1B", PartKind.RELAY, "relay", ("11", "14", "A1", "A2"), notes))
            for part, ends in suppressor(self.coil_across, "1B", "diode 100 V 1 A", "K1B:A1", "K1B:A2"):
                parts.append(part)
                joints += ends
            wires += [
                Wire("W11", source, "K1B:11", "RD", 1.2, size), Wire("W12", f"{load}:2", zero, "BK", 1.8, size),
                Wire("W13", "K1B:14", plus, "RD", 0.6, size),
                Wire("W14", signal_from, "K1B:A1", "BU", 1.2, thin), Wire("W15", "K1B:A2", port, "BU", 1.2, thin),
            ]  # fmt: skip
            main = (*lead, "W11", "K1B", "W13", *toy, "W12", *end)
            control = (*first, "W14", "K1B", "W15", "A1", "W2", home)
        else:
            parts.append(Part("A2", PartKind.CONTROLLER, "10 A", ("+", "-", "IN+", "IN-", "M+", "M-"),
                              ("PWM 15 kHz",), name="speed controller"))  # fmt: skip
            parts.append(Part("R1", PartKind.TRIMMER, "trimmer", (), inside="A2"))
            signal_from, first = self.own_fuse(parts, joints, source, start, lead)
            wires += [
                Wire("W11", source, "A2:+", "RD", 1.2, size), Wire("W12", "A2:-", zero, "BK", 1.2, size),
                Wire("W13", "A2:M+", plus, "RD", 0.6, size), Wire("W14", f"{load}:2", "A2:M-", "BN", 0.6, size),
                Wire("W15", signal_from, "A2:IN+", "BU", 1.2, thin), Wire("W16", "A2:IN-", port, "BU", 1.2, thin),
            ]  # fmt: skip
            main = (*lead, "W11", "A2", "W13", *toy, "W14", "A2", "W12", *end)
            control = (*first, "W15", "A2", "W16", "A1", "W2", home)
        return Circuit(tuple(parts), tuple(wires), tuple(joints), main, control)

    def own_fuse(
        self,
        parts: list[Part],
        joints: list[tuple[str, str]],
        source: str,
        start: tuple[str, ...],
        lead: tuple[str, ...],
    ) -> tuple[str, tuple[str, ...]]:
        """The terminal behind the fuse of an input or a coil, its own or the feed's, and the way to it from plus."""
        if not self.own_signal_fuse:
            return source, lead
        parts.append(Part("F1B", PartKind.FUSE, "1 A", ("1", "2")))
        joints.append(("F1:1" if self.fused else source, "F1B:1"))
        return "F1B:2", (*start, *(("W1",) if self.fused and not self.row else ()), "F1B")


def suppressor(kind: str, name: str, value: str, plus: str, minus: str) -> list[tuple[Part, list[tuple[str, str]]]]:
    """Parts across a coil with their joints: a diode's band to plus, a zener's to minus."""
    if kind == "none":
        return []
    if kind == "rc":
        resistor, capacitor = f"R{name}C", f"C{name}"
        return [
            (Part(resistor, PartKind.RESISTOR, "22 Ω", ("1", "2")), [(plus, f"{resistor}:1")]),
            (
                Part(capacitor, PartKind.CAPACITOR, "4.7 μF", ("1", "2")),
                [(f"{resistor}:2", f"{capacitor}:1"), (f"{capacitor}:2", minus)],
            ),
        ]
    diode = Part(f"D{name}", PartKind.DIODE, value, ("K", "A"))
    if kind == "diode":
        return [(diode, [(plus, f"{diode.id}:K"), (minus, f"{diode.id}:A")])]
    zener = Part(f"D{name}Z", PartKind.ZENER, "zener", ("K", "A"), ("24 V",))
    return [
        (diode, [(plus, f"{diode.id}:K")]),
        (zener, [(f"{diode.id}:A", f"{zener.id}:A"), (f"{zener.id}:K", minus)]),
    ]


LONG = "Starboard engine-room shaker"

SAMPLES = {
    "port": Variant(),
    "port-no-diode": Variant(across="none"),
    "port-fan": Variant(load=PartKind.FAN, across="none", name="Vent"),
    "port-unfused": Variant(fused=False),
    "port-fused-return": Variant(port_fuse=True),
    "port-two-supplies": Variant(second_supply=True),
    "port-long": Variant(name=LONG, long=True, port_fuse=True, schottky=False),
    "port-us": Variant(us=True),
    "direct": Variant("direct"),
    "direct-unfused": Variant("direct", fused=False, across="none", load=PartKind.FAN),
    "controller": Variant("controller"),
    "controller-no-diode": Variant("controller", across="none"),
    "controller-own-input-fuse": Variant("controller", own_signal_fuse=True),
    "controller-unfused": Variant("controller", fused=False),
    "controller-unfused-own-input-fuse": Variant("controller", fused=False, own_signal_fuse=True),
    "controller-fused-return": Variant("controller", port_fuse=True, us=True),
    "controller-two-supplies": Variant("controller", second_supply=True, own_signal_fuse=True),
    "controller-long": Variant("controller", name=LONG, long=True, own_signal_fuse=True, schottky=False),
    "port-solenoid-zener": Variant(load=PartKind.SOLENOID, across="zener", name="Hull knock"),
    "port-contactor-rc": Variant(load=PartKind.CONTACTOR, across="rc", name="Bollard clack"),
    "port-bell": Variant(load=PartKind.BELL, name="Fog bell"),
    "port-lamp-resistor": Variant(load=PartKind.LAMP, across="none", series=True, name="Pilot lights"),
    "port-resistor-zener-long": Variant(load=PartKind.SOLENOID, across="zener", series=True, long=True, name=LONG),
    "direct-resistor": Variant("direct", load=PartKind.LAMP, across="none", series=True, name="Pilot lights"),
    "controller-lamp-resistor": Variant("controller", load=PartKind.LAMP, across="none", series=True),
    "controller-resistor-zener": Variant("controller", load=PartKind.CONTACTOR, across="zener", series=True),
    "controller-bell-rc": Variant("controller", load=PartKind.BELL, across="rc"),
    "relay": Variant("relay"),
    "relay-lamp": Variant("relay", load=PartKind.LAMP, across="none", name="Masthead light"),
    "relay-zeners": Variant("relay", load=PartKind.CONTACTOR, across="zener", coil_across="zener"),
    "relay-rcs": Variant("relay", load=PartKind.BELL, across="rc", coil_across="rc"),
    "relay-nothing-across": Variant("relay", across="none", coil_across="none", fused=False),
    "relay-unfused": Variant("relay", fused=False, series=True),
    "relay-fused-return": Variant("relay", port_fuse=True, us=True),
    "relay-two-supplies": Variant("relay", second_supply=True),
    "port-row": Variant(row=True),
    "port-row-unfused": Variant(row=True, row_fused=False, fused=False),
    "port-row-two-supplies": Variant(row=True, second_supply=True),
    "port-row-long": Variant(row=True, name=LONG, long=True, port_fuse=True, schottky=False),
    "direct-row": Variant("direct", row=True),
    "direct-row-us": Variant("direct", row=True, us=True, series=True),
    "controller-row": Variant("controller", row=True),
    "controller-row-own-input-fuse": Variant("controller", row=True, own_signal_fuse=True, second_supply=True),
    "controller-row-apart": Variant("controller", row=True, second_supply=True, long=True),
    "relay-row": Variant("relay", row=True),
    "relay-own-fuse": Variant("relay", own_signal_fuse=True),
    "relay-own-fuse-us": Variant("relay", own_signal_fuse=True, us=True, port_fuse=True),
    "relay-own-fuse-two-supplies": Variant("relay", own_signal_fuse=True, second_supply=True, coil_across="zener"),
    "relay-own-fuse-row": Variant("relay", own_signal_fuse=True, row=True, second_supply=True, port_fuse=True),
    "relay-own-fuse-row-bare": Variant("relay", own_signal_fuse=True, row=True, row_fused=False, across="none"),
    "relay-own-fuse-long": Variant(
        "relay", name=LONG, long=True, own_signal_fuse=True, port_fuse=True, across="zener", coil_across="zener"
    ),
    "relay-row-two-supplies": Variant("relay", row=True, second_supply=True, port_fuse=True),
    "relay-long": Variant(
        "relay", name=LONG, long=True, series=True, schottky=False, port_fuse=True, across="zener", coil_across="zener"
    ),
}

"""Circuits of an invented cabinet, one for each arrangement that a drawing must manage."""

from dataclasses import dataclass

from guide_gen.model.circuit import Circuit, Part, PartKind, Wire


@dataclass(frozen=True)
class Variant:
    """What a sample circuit has. control: ``port``, ``direct`` or ``controller``."""

    control: str = "port"
    fused: bool = True
    diode: bool = True
    fan: bool = False
    port_fuse: bool = False
    own_input_fuse: bool = False
    second_supply: bool = False
    common_zero: bool = True
    name: str = "Bow shaker"
    long: bool = False
    schottky: bool = True
    us: bool = False

    def circuit(self) -> Circuit:
        """The circuit as data, joined up here from the rules of the model's docstrings."""
        ported = self.control != "direct"
        size = "16 AWG" if self.us else "0.75 mm²" if self.long else "1.5 mm²"
        thin = "22 AWG" if self.us else "0.5 mm²"
        source = "F1:2" if self.fused else "T1:+"
        home = "T2" if self.second_supply and ported else "T1"
        load = "M1"

        parts = [Part("T1", PartKind.SUPPLY, "12 V DC", ("+", "0V"), ("20 A", "limit 24 A"), name="main")]
        wires: list[Wire] = []
        joints: list[tuple[str, str]] = []
        if self.fused:
            notes = ("6.3 x 32 mm, time-lag, 60 V DC",) if self.long else ("blade, 32 V DC",)
            parts.append(Part("F1", PartKind.FUSE, "10 A", ("1", "2"), notes))
            wires.append(Wire("W1", "T1:+", "F1:1", "RD", 0.15, size))
        what = PartKind.FAN if self.fan else PartKind.MOTOR
        notes = ("5 to 6 A", "105 °C") if self.long else ("5 to 6 A",)
        parts.append(Part(load, what, "12 V", ("1", "2"), notes, name=self.name))
        if self.diode:
            value = "Schottky 60 V 10 A" if self.schottky else "plain 100 V 12.5 A"
            parts.append(Part("D1", PartKind.DIODE, value, ("K", "A")))
            joints += [("M1:1", "D1:K"), ("M1:2", "D1:A")]
        if ported:
            parts.append(Part("A1", PartKind.BOARD, "", ("P12" if self.long else "P2", "0V"), name="driver board Quay"))
            port = f"A1:{parts[-1].terminals[0]}"
            pwm = self.control == "port" and not self.fan
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
            if self.common_zero:
                joints.append(("T2:0V", "T1:0V"))

        lead = ("T1", "W1", "F1") if self.fused else ("T1",)
        control: tuple[str, ...] = ()
        if self.control == "direct":
            wires += [Wire("W11", source, "M1:1", "RD", 1.8, size), Wire("W12", "M1:2", "T1:0V", "BK", 1.8, size)]
            main = (*lead, "W11", "M1", "W12", "T1")
        elif self.control == "port":
            wires += [Wire("W11", source, "M1:1", "RD", 1.8, size), Wire("W12", "M1:2", port, "BN", 1.8, size)]
            main = (*lead, "W11", "M1", "W12", "A1", "W2", home)
        else:
            parts.append(Part("A2", PartKind.CONTROLLER, "10 A", ("+", "-", "IN+", "IN-", "M+", "M-"),
                              ("PWM 15 kHz",), name="speed controller"))  # fmt: skip
            parts.append(Part("R1", PartKind.TRIMMER, "trimmer", (), inside="A2"))
            input_from = source
            if self.own_input_fuse:
                parts.append(Part("F1B", PartKind.FUSE, "1 A", ("1", "2"), ("blade, 32 V DC",)))
                joints.append(("F1:1" if self.fused else "T1:+", "F1B:1"))
                input_from = "F1B:2"
            wires += [
                Wire("W11", source, "A2:+", "RD", 1.2, size), Wire("W12", "A2:-", "T1:0V", "BK", 1.2, size),
                Wire("W13", "A2:M+", "M1:1", "RD", 0.6, size), Wire("W14", "M1:2", "A2:M-", "BN", 0.6, size),
                Wire("W15", input_from, "A2:IN+", "BU", 1.2, thin), Wire("W16", "A2:IN-", port, "BU", 1.2, thin),
            ]  # fmt: skip
            main = (*lead, "W11", "A2", "W13", "M1", "W14", "A2", "W12", "T1")
            first = ("T1", "F1B") if self.own_input_fuse else lead
            control = (*first, "W15", "A2", "W16", "A1", "W2", home)
        return Circuit(tuple(parts), tuple(wires), tuple(joints), main, control)


LONG = "Starboard engine-room shaker"

SAMPLES = {
    "port": Variant(),
    "port-no-diode": Variant(diode=False),
    "port-fan": Variant(fan=True, diode=False, name="Vent"),
    "port-unfused": Variant(fused=False),
    "port-fused-return": Variant(port_fuse=True),
    "port-two-supplies": Variant(second_supply=True),
    "port-two-supplies-apart": Variant(second_supply=True, common_zero=False),
    "port-long": Variant(name=LONG, long=True, port_fuse=True, schottky=False),
    "port-us": Variant(us=True),
    "direct": Variant("direct"),
    "direct-unfused": Variant("direct", fused=False, diode=False, fan=True),
    "controller": Variant("controller"),
    "controller-no-diode": Variant("controller", diode=False),
    "controller-own-input-fuse": Variant("controller", own_input_fuse=True),
    "controller-unfused": Variant("controller", fused=False),
    "controller-unfused-own-input-fuse": Variant("controller", fused=False, own_input_fuse=True),
    "controller-fused-return": Variant("controller", port_fuse=True, us=True),
    "controller-two-supplies": Variant("controller", second_supply=True, own_input_fuse=True),
    "controller-two-supplies-apart": Variant("controller", second_supply=True, common_zero=False),
    "controller-long": Variant("controller", name=LONG, long=True, own_input_fuse=True, schottky=False),
}

"""Checks of suppressors: the part, its side, its strength, and how fast a coil lets go."""

from collections.abc import Iterable

from guide_gen.description.build import Board
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Load, Sized
from guide_gen.planning import freewheel
from guide_gen.planning import suppression as suppressors
from guide_gen.planning.checks import Path, control_of
from guide_gen.values import show

OWN_DIODES = (
    "Look in the controller's data sheet: if its output has diodes inside, write suppressor: yes under controller; "
    "else take one that has, or one that does not reverse, with a diode across the toy."
)


def suppressor_findings(
    toy: ToyFields, sized: Sized, kick: suppressors.Kick, board: Board | None, path: Path
) -> list[Finding]:
    """Is the kickback taken care of, by a part that stands it?"""
    plan, here, found = sized.suppression, (*path, "suppressor"), []
    control = control_of(sized)
    nowhere = (
        plan.type in ("none", "not needed")
        or (plan.type == "in the controller" and not control.suppresses(toy.control))
        or (plan.type == "on the board" and not control.port_carries_load)
    )
    if nowhere and control.reverses(toy.control):
        found.append(bare_reversing(sized, here))
    elif nowhere:
        what = "fast or Schottky diode" if kick.chopped else "diode"
        heat_W = None
        reverse_V, mean_A, _, _ = suppressors.needs(kick.current_A, kick.highest_V, kick.chop)
        if kick.chop and board and control.port_carries_load:
            heat_W = freewheel.bare_W(kick.chop, board.port_voltage.low)
        burns = f", and PWM turns up to about {show.watts(heat_W)} into heat in it" if heat_W else ""
        found.append(
            Finding(
                "suppressor-missing",
                Level.MUST,
                f"Nothing takes the kickback of {sized.name}: each switch-off drives whatever switches it beyond its "
                f"voltage until it fails{burns}.",
                "a diode across the toy, band to plus",
                f"Fit a {what} across it, for {show.volts(reverse_V)} and {show.amps(mean_A)} or more: leave "
                "suppressor out and it is chosen.",
                here,
                sized.slug,
            )
        )
    if plan.type == "diode" and control.reverses(toy.control):
        found.append(
            Finding(
                "suppressor-reversed",
                Level.MUST,
                f"The controller's output can reverse: then the diode across {sized.name} is a short circuit.",
                "no diode across an output that can reverse",
                "Take the diode off: the controller takes the kickback itself."
                if control.suppresses(toy.control)
                else f"Take the diode off. {OWN_DIODES}",
                here,
                sized.slug,
            )
        )
    if isinstance(toy.suppressor, SuppressorFields) and plan.type in ("diode", "diode and zener"):
        found += small_suppressor(toy.suppressor, sized.name, sized.load, sized, kick.chop, here)
    return found


def bare_reversing(sized: Sized, here: Path) -> Finding:
    """A winding on an output that can reverse and has no suppressor of its own: no part across the toy is right."""
    return Finding(
        "suppressor-missing",
        Level.MUST,
        f"Nothing takes the kickback of {sized.name}: its controller has no suppressor of its own, and each "
        "switch-off drives it beyond its voltage until it fails. Its output can reverse, so a diode across the toy "
        "would be a short circuit.",
        "diodes inside the controller",
        OWN_DIODES,
        here,
        sized.slug,
    )


def release_findings(sized: Sized, kick: suppressors.Kick, path: Path) -> list[Finding]:
    """A plain diode lets a coil go late: told where that matters, with what diode and zener would do."""
    slow_s, plan = sized.load.slow_release_s, sized.suppression
    if slow_s is None or plan.type != "diode" or kick.chopped:
        return []
    if plan.release_s is None and slow_s > 0:
        return []
    if plan.release_s is not None and reaches(slow_s, plan.release_s):
        return []
    pair, _ = suppressors.diode_and_zener(None, kick)
    late = f"within {show.seconds(plan.release_s)}" if plan.release_s is not None else "late"
    why = f"{show.seconds(slow_s)} or less is quick" if slow_s else "its contacts are under load and open slowly"
    quick = f", which lets go within {show.seconds(pair.release_s)}" if pair.release_s is not None else ""
    mend = (
        f"Fit a diode and a zener of {show.volts(pair.zener_V)} in series{quick}: write suppressor: diode and zener."
        if pair.zener_V is not None
        else f"Take a {'board whose ports stand' if kick.at == 'port' else 'relay whose contact stands'} a higher "
        "voltage; then a diode and a zener in series fit."
    )
    return [
        Finding(
            "suppressor-too-slow",
            Level.SHOULD,
            f"With a plain diode {sized.name} lets go {late}; {why}.",
            "diode and zener" + (f", {show.seconds(pair.release_s)}" if pair.release_s is not None else ""),
            mend,
            (*path, "suppressor"),
            sized.slug,
        )
    ]


def clamp_findings(sized: Sized, kick: suppressors.Kick, board: Board | None, path: Path) -> list[Finding]:
    """What a diode and zener, or an RC, lets the switch see; and what PWM makes of either."""
    plan, here = sized.suppression, (*path, "suppressor")
    holder = "board" if kick.at == "port" else "relay"
    if plan.type not in ("diode and zener", "rc"):
        return []
    if kick.chop:
        zener = plan.type == "diode and zener"
        heat_W = None
        if zener and plan.zener_V is not None:
            heat_W = freewheel.zener_W(kick.chop, plan.zener_V)
        elif plan.capacitance_F is not None:
            heat_W = freewheel.rc_W(kick.chop, plan.capacitance_F)
        much = f", up to about {show.watts(heat_W)}" if heat_W else ""
        return [
            Finding(
                "suppressor-too-small",
                Level.MUST,
                f"PWM switches {sized.name} {show.count(kick.chop.frequency_Hz)} times a second, and "
                f"{'the zener turns' if zener else 'resistor and capacitor turn'} the energy of each time into "
                f"heat{much}. Parts of a usual size burn out.",
                "a fast or Schottky diode alone",
                "Leave suppressor out: then a diode that stands PWM is chosen.",
                here,
                sized.slug,
            )
        ]
    if plan.type == "diode and zener" and plan.zener_V is None:
        return [
            Finding(
                "suppressor-too-small",
                Level.MUST,
                f"No zener fits for {sized.name}: with {show.volts(sized.supply_high_V)} of the supply the {kick.at} "
                f"may see no more than {show.volts(kick.allowed_V or 0.0)}.",
                f"a {kick.at} for a higher voltage, or a plain diode",
                f"Take a {holder} whose {kick.at}s stand more, or write suppressor: diode.",
                here,
                sized.slug,
            )
        ]
    if plan.type == "rc" and plan.capacitance_F is None:
        return [
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"Resistor and capacitor of {sized.name} are not worked out: {rc_cause(kick)}.",
                "capacitance and resistance under suppressor",
                f"State both, or {rc_mend(kick)}; else take a diode.",
                here,
                sized.slug,
            )
        ]
    if board is None or kick.at != "port" or kick.allowed_V is None or plan.peak_V is None:
        return []
    if reaches(board.port_voltage.low, plan.peak_V):
        return []
    return [
        Finding(
            "port-voltage",
            Level.MUST,
            f"When {sized.name} is switched off, its suppressor lets the port rise to {show.volts(plan.peak_V)}; it "
            f"may switch {show.volts(board.port_voltage.low)}.",
            f"at most {show.volts(kick.allowed_V)}",
            "Take a lower zener or a larger capacitor, or leave its values out: then they are chosen.",
            here,
            sized.slug,
        )
    ]


def rc_cause(kick: suppressors.Kick) -> str:
    """Why no resistor and capacitor were found."""
    if kick.coil is None:
        return "its inductance is not described"
    return (
        f"the {kick.at} may see {show.volts(kick.allowed_V or 0.0)} ({suppressors.ALLOWED[kick.at]}), and an RC needs "
        f"more than {show.volts(2 * kick.highest_V)}, twice the highest voltage of the supply"
    )


def rc_mend(kick: suppressors.Kick) -> str:
    """What would let them be worked out."""
    if kick.coil is None:
        return "measure the coil's inductance and write it under coil"
    share = suppressors.CLAMPED_SHARE if kick.at == "port" else 1.0
    needed_V = 2 * kick.highest_V / share
    return f"take a {kick.at} for more than {show.volts(needed_V)}"


def coil_findings(toy: ToyFields, sized: Sized, path: Path) -> Iterable[Finding]:
    """A stated diode across the control's own coil."""
    coil = control_of(sized).coil(toy.control)
    if coil is None or not isinstance(coil.stated, SuppressorFields) or coil.stated.type != "diode":
        return []
    here = (*path, "control", *coil.path)
    return small_suppressor(coil.stated, f"the relay of {sized.name}", coil.load, sized, None, here)


def small_suppressor(
    stated: SuppressorFields, of: str, load: Load, sized: Sized, chop: freewheel.Chop | None, here: Path
) -> Iterable[Finding]:
    """A stated diode against what it must stand. of: whose it is. chop: what PWM does to the load."""
    reverse_V, mean_A, surge_A, _ = suppressors.needs(load.design_current_A, sized.supply_high_V, chop)
    lacks = []
    if stated.reverse_voltage and not reaches(stated.reverse_voltage.low, reverse_V):
        lacks.append((f"blocks {show.volts(stated.reverse_voltage.low)}", f"{show.volts(reverse_V)}"))
    if stated.forward_current and not reaches(stated.forward_current.low, mean_A):
        lacks.append((f"carries {show.amps(stated.forward_current.low)} for long", f"{show.amps(mean_A)}"))
    if stated.surge_current and not reaches(stated.surge_current.low, surge_A):
        lacks.append((f"stands a surge of {show.amps(stated.surge_current.low)}", f"{show.amps(surge_A)}"))
    if not lacks:
        return []
    return [
        Finding(
            "suppressor-too-small",
            Level.MUST,
            f"The diode of {of} " + " and ".join(f"{has}, needed {need}" for has, need in lacks) + ".",
            " and ".join(need for _, need in lacks),
            "Take a larger one, or leave its values out: then it is chosen.",
            here,
            sized.slug,
        )
    ]

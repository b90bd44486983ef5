"""Checks of suppressors: the part, its side, its strength, and how fast a coil lets go."""

from collections.abc import Iterable
from math import isinf

from guide_gen.description.build import Board
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.kickback import class_pulse_W
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Load, Sized, Suppression
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
                f"Nothing takes the kickback of {sized.name}: {hit(sized)}{burns}.",
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
    if plan.type == "diode and zener" and not kick.chopped:
        found += small_zener(toy.suppressor, plan, sized.name, sized.slug, here)
    return found


def small_zener(
    stated: SuppressorFields | str | None, plan: Suppression, of: str, slug: str, here: Path
) -> Iterable[Finding]:
    """A zener against the pulse that it takes at each switching off; one for which no class is sold."""
    if plan.pulse_class_W is None or plan.pulse_W is None or plan.pulse_s is None or plan.pulse_A is None:
        return []
    power = stated.pulse_power if isinstance(stated, SuppressorFields) else None
    needed_W = class_pulse_W(peak_W=plan.pulse_W, fall_s=plan.pulse_s)
    if reaches(power.low, needed_W) if power else not isinf(plan.pulse_class_W):
        return []
    has = f"It is rated for {show.quantity(power)}" if power else "No class that is sold is rated for so much"
    mend = (
        "Take a zener of less voltage, or write suppressor: diode."
        if isinf(plan.pulse_class_W)
        else f"Take one of {show.count(plan.pulse_class_W)} W or more, or leave pulse_power out: then it is chosen."
    )
    return [
        Finding(
            "suppressor-too-small",
            Level.MUST,
            f"At each switching off the zener of {of} takes {show.amps(plan.pulse_A)} and {show.watts(plan.pulse_W)} "
            f"at first, which is gone after {show.seconds(plan.pulse_s)}: as hard as "
            f"{show.watts(show.rounded_up(needed_W))} at 10/1000 μs. {has}: it fails as a short circuit.",
            f"{show.watts(show.rounded_up(needed_W))} or more at 10/1000 μs",
            mend,
            (*here, "pulse_power") if power else here,
            slug,
        )
    ]


def hit(sized: Sized) -> str:
    """What a kickback that nothing takes goes into."""
    if sized.control == "always on":
        return (
            "nothing switches it, and each time a plug is pulled under load an arc burns its contacts, and the kick "
            "hits whatever else hangs on that supply"
        )
    return "each switch-off drives whatever switches it beyond its voltage until it fails"


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


def clamp_findings(
    sized: Sized, stated: SuppressorFields | str | None, kick: suppressors.Kick, holds_V: float | None, path: Path
) -> list[Finding]:
    """What a diode and zener, or an RC, lets the switch see; and what PWM makes of either.

    stated: as described. holds_V: DC voltage of the port or contact that switches it; None where neither does.
    """
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
        return [] if kick.coil is None else [no_rc(sized, stated, kick, here)]
    if holds_V is None or kick.allowed_V is None or plan.peak_V is None or reaches(holds_V, plan.peak_V):
        return []
    arc = "" if kick.at == "port" else ": its arc may not go out"
    return [
        Finding(
            "port-voltage" if kick.at == "port" else "contacts-rating",
            Level.MUST,
            f"When {sized.name} is switched off, its suppressor lets the {kick.at} see {show.volts(plan.peak_V)}; it "
            f"may switch {show.volts(holds_V)} DC{arc}.",
            f"at most {show.volts(kick.allowed_V)}",
            zener_mend(kick) if plan.type == "diode and zener" else rc_mend(sized, kick),
            here,
            sized.slug,
        )
    ]


def no_rc(sized: Sized, stated: SuppressorFields | str | None, kick: suppressors.Kick, here: Path) -> Finding:
    """Resistor and capacitor that nobody can buy, or that no values make right here."""
    allowed = suppressors.rc_allowed_V(kick)
    if allowed <= 2 * kick.highest_V:
        share = suppressors.CLAMPED_SHARE if kick.at == "port" else 1.0
        cause = (
            f"the {kick.at} may see {show.volts(allowed)} ({suppressors.ALLOWED[kick.at]}), and an RC needs more than "
            f"{show.volts(2 * kick.highest_V)}, twice the highest voltage of the supply"
        )
        other = f" Or take a {kick.at} for more than {show.volts(2 * kick.highest_V / share)}."
    elif isinstance(stated, SuppressorFields) and stated.resistance and suppressors.rc_design(kick, None, None):
        cause = f"with {show.quantity(stated.resistance)} no capacitor keeps the {kick.at} within {show.volts(allowed)}"
        other = " Or leave its resistance out: then it is chosen."
    else:
        cause = f"to keep the {kick.at} within {show.volts(allowed)} {suppressors.unsold_words(kick)}"
        other = ""
    return Finding(
        "suppressor-too-small",
        Level.MUST,
        f"A resistor and a capacitor are no sensible suppressor for {sized.name}: {cause}.",
        "a diode, or a diode and a zener",
        f"{instead_of_rc(sized, kick)}{other}",
        here,
        sized.slug,
    )


def instead_of_rc(sized: Sized, kick: suppressors.Kick) -> str:
    """Which suppressor does it: a plain diode, or where letting go late matters a diode and a zener; computed."""
    plain, _ = suppressors.plain_diode(None, kick)
    slow_s = sized.load.slow_release_s
    late = plain.release_s is not None and slow_s is not None and not reaches(slow_s, plain.release_s)
    pair, _ = suppressors.diode_and_zener(None, kick)
    if late and pair.zener_V is not None and pair.release_s is not None:
        return (
            f"Write suppressor: diode and zener. A {pair.part} lets go within {show.seconds(pair.release_s)}, a plain "
            f"diode within {show.seconds(plain.release_s or 0.0)}."
        )
    within = f", which lets go within {show.seconds(plain.release_s)}" if plain.release_s is not None else ""
    return f"Write suppressor: diode. A {plain.part} takes it{within}."


def zener_mend(kick: suppressors.Kick) -> str:
    """The zener that the switch stands."""
    fits, _ = suppressors.zener_V(kick)
    if fits is None:
        return "No zener fits here: write suppressor: diode."
    return f"Take a zener of {show.volts(fits)} or less, or leave its voltage out: then it is chosen."


def rc_mend(sized: Sized, kick: suppressors.Kick) -> str:
    """Resistor and capacitor that are sold and keep the switch whole; without any, what to take in their place."""
    plan, _ = suppressors.rc(None, kick)
    if plan.capacitance_F is None:
        return f"No resistor and capacitor that are sold keep it lower. {instead_of_rc(sized, kick)}"
    return f"Take {plan.part}, or leave its values out: then they are chosen."


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

"""Checks of fuses: rating, place, series, voltage, and the pulses that they stand."""

from collections.abc import Sequence
from math import isclose

from guide_gen.description.build import Board
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import pulse_share
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import FusePlan, Sized
from guide_gen.planning.checks import Fed, Path, control_of
from guide_gen.published import tables
from guide_gen.values import show

HIGHER_BLADE_V = 58.0  # ISO 8820-3 knows a second voltage class of blade fuses (looked-up)


def fuse_findings(toy: ToyFields, sized: Sized, continuous_A: float, board: Board | None, path: Path) -> list[Finding]:
    """Is there a fuse at the source, and is it large enough, small enough and made for this voltage?"""
    fuse, slug = sized.fuse, sized.slug
    here = (*path, "feed", "fuse")
    if fuse.rating_A is None:
        elsewhere = return_only(toy, sized, board, here) if isinstance(toy.feed.fuse, str) else []
        return [missing_fuse(toy, sized, here), *elsewhere]
    found = []
    rating = fuse.rating_A
    if not reaches(rating, fuse.needed_A):
        must = not reaches(rating, continuous_A)
        found.append(
            Finding(
                "fuse-below-load",
                Level.MUST if must else Level.SHOULD,
                f"{fuse.id} is {show.amps(rating)}; {sized.name} draws up to {show.amps(sized.load.design_current_A)} "
                f"and "
                f"needs "
                f"{show.amps(fuse.needed_A)}: "
                + (
                    "it would open in normal use."
                    if must
                    else "it has less than the usual margin, and an old or a hot fuse opens."
                    if sized.load.momentary
                    else "it has less than the usual margin and may open at a start."
                ),
                f"{show.amps(fuse.needed_A)} or more",
                "Take a holder whose series goes that high, or split the load.",
                (*here, "rating"),
                slug,
            )
        )
    found += above_port(sized, path)
    found += fuse_in_series(sized, here)
    found += fuse_voltage(sized, here)
    return found


def above_port(sized: Sized, path: Path) -> list[Finding]:
    """A fuse that lets more pass than the port may switch: the load's, or that of the coil which the port switches."""
    port, carries_load = sized.port, control_of(sized).port_carries_load
    if port is None or not (carries_load or sized.coil):
        return []
    fuse = sized.signal_fuse or sized.fuse
    rating = fuse.rating_A or 0.0
    if reaches(port.rated_A, rating):
        return []
    weaker = ", a stronger port by way of a relay, or a toy that draws less" if carries_load else ""
    return [
        Finding(
            "fuse-above-port",
            Level.SHOULD,
            f"{fuse.id} is {show.amps(rating)} and port {port.number} may switch {show.amps(port.rated_A)}: at an "
            "overload the port is destroyed before the fuse opens.",
            f"a fuse of at most {show.amps(port.rated_A)}",
            f"Use a port for {show.amps(rating)} or more{weaker}.",
            (*path, "control", "port"),
            sized.slug,
        )
    ]


def fuse_in_series(sized: Fed, here: Path) -> list[Finding]:
    """A stated rating that the series of its holder does not have: misread, or of another holder."""
    fuse = sized.fuse
    if not fuse.stated or fuse.rating_A is None:
        return []
    ratings, rating = tables.fuse_series(fuse.series).ratings_A, fuse.rating_A
    if any(isclose(rating, each, rel_tol=1e-9) for each in ratings):
        return []
    below, above = [each for each in ratings if each < rating][-1:], [each for each in ratings if each > rating][:1]
    near = " or ".join(show.amps(each) for each in (*below, *above))
    return [
        Finding(
            "fuse-not-in-series",
            Level.SHOULD,
            f"{fuse.id} is stated as {show.amps(rating)}, and the tables have no {fuse.series} fuse of that rating: "
            "what is said of when it opens holds for no fuse that fits this holder.",
            f"{near}, the nearest of the series",
            f"Read the number printed on the fuse again: write {near}, or the holder that it fits.",
            (*here, "rating"),
            sized.slug,
        )
    ]


def pulse_findings(sized: Sized, here: Path) -> list[Finding]:
    """Pulses of which nobody can say whether the fuse stands them, since the tables do not tell when it melts.

    A coil's are no higher than the current that its fuse carries for ever, so that they never tire it.
    """
    load, fuse = sized.load, sized.fuse
    if load.pulse_A2s is None or load.momentary or fuse.rating_A is None or fuse.melting_A2s is not None:
        return []
    needed_A2s = load.pulse_A2s / pulse_share(pulses=load.pulses)
    return [
        Finding(
            "not-worked-out",
            Level.NOTE,
            f"Whether {fuse.id} stands {show.count(load.pulses)} cold starts of {sized.name} is not worked out: "
            f"{fuse.standard} does not say with how much heat such a fuse melts.",
            f"a melting I²t of {show.figure(needed_A2s)} A²s or more",
            f"Look for the melting I²t of {show.amps(fuse.rating_A)} in the fuse's data sheet; if it is less, take "
            "a larger rating, or a holder for blade fuses.",
            (*here, "feed", "fuse"),
            sized.slug,
        )
    ]


def missing_fuse(toy: ToyFields, sized: Sized, here: Path) -> Finding:
    """A feed without a fuse at its source; or a load beyond the holder's series."""
    where = sized.ids.get("block", "the supply's plus")
    behind = f", and {sized.ids['block fuse']} is made for all of its block" if "block fuse" in sized.ids else ""
    if isinstance(toy.feed.fuse, str):
        return Finding(
            "fuse-missing",
            Level.MUST,
            f"The feed of {sized.name} has no fuse at its source{behind}: a short circuit heats the wire until it "
            "burns.",
            f"a fuse of {show.amps(sized.fuse.needed_A)} or more at {where}",
            "Split the load: no fuse of the usual holder is large enough.",
            here,
            sized.slug,
        )
    return Finding(
        "fuse-missing",
        Level.MUST,
        f"{sized.name} needs a fuse of {show.amps(sized.fuse.needed_A)}, and the series of the holder "
        f"{toy.feed.fuse.holder} does not go that high.",
        "a holder whose series has such a rating",
        "Take another holder, or split the load.",
        (*here, "holder"),
        sized.slug,
    )


def return_only(toy: ToyFields, sized: Sized, board: Board | None, here: Path) -> list[Finding]:
    """A fuse that stands where it does not protect the feed."""
    own_fuse = any(part.id != sized.ids.get("block fuse") for part in sized.circuit.of(PartKind.FUSE))
    signal = control_of(sized).signal
    if signal and sized.port and (own_fuse or (board and board.port_fuse)):
        return [
            Finding(
                "fuse-misses-the-motor",
                Level.MUST,
                f"The fuse of the port or of the input carries only the {show.amps(sized.port.load_A)} of {signal}; "
                f"the feed of {sized.name}, up to {show.amps(sized.load.design_current_A)}, has none.",
                "a fuse of the feed's own, at the supply's plus",
                f"Give the feed a fuse of {show.amps(sized.fuse.needed_A)} or more: leave out fuse: none.",
                here,
                sized.slug,
            )
        ]
    if board and board.port_fuse and sized.port:
        return [
            Finding(
                "fuse-in-return-only",
                Level.MUST,
                f"The only fuse of {sized.name} is in the switched return: a feed wire that touches 0 V or metal "
                f"bypasses "
                f"it.",
                "a fuse at the supply's plus",
                f"Keep the fuse in the return if you like, and add one at the source, {show.amps(sized.fuse.needed_A)} "
                "or more.",
                here,
                sized.slug,
            )
        ]
    return []


def fuse_voltage(sized: Fed, here: Path) -> list[Finding]:
    """The feed's fuse must be able to break this DC voltage."""
    return breaks_voltage(sized.fuse, sized.fuse.id, sized.supply_high_V, (*here, "dc_voltage"), sized.slug)


def port_fuse_findings(board: str, fuses: Sequence[tuple[FusePlan, float]]) -> list[Finding]:
    """The fuses in a board's switched returns, each with the highest voltage of its supply, told once together."""
    found = []
    none = [fuse for fuse, _ in fuses if fuse.rating_A is None]
    if none:
        needed = show.amps(max(fuse.needed_A for fuse in none))
        found.append(
            Finding(
                "fuse-below-load",
                Level.MUST,
                f"{' and '.join(fuse.id for fuse in none)}, in the switched return of {board}, would have to be "
                f"{needed} or the next larger one, and the series {none[0].series} does not go that high: any that "
                "fits the holder opens in normal use.",
                f"{needed} or more",
                "Take a board without a fuse there, or with holders of another series; or put a relay or a controller "
                "between the port and the toy.",
                ("boards", board, "port_fuse"),
            )
        )
    fitted = [(fuse, high_V) for fuse, high_V in fuses if fuse.rating_A is not None]
    weak = [one for one in fitted if one[0].voltage_V is None or not reaches(one[0].voltage_V, one[1])]
    if weak:
        ids, highest_V = " and ".join(fuse.id for fuse, _ in weak), max(high_V for _, high_V in weak)
        found += breaks_voltage(weak[0][0], ids, highest_V, ("boards", board, "port_fuse_voltage"), "")
    return found


def breaks_voltage(fuse: FusePlan, ids: str, high_V: float, here: Path, slug: str) -> list[Finding]:
    """A fuse must be able to break this DC voltage. ids: of all fuses of its sort, in words; here: its key."""
    has, are = ("has", "is") if ids == fuse.id else ("have", "are")
    if fuse.voltage_V is None:
        return [
            Finding(
                "fuse-voltage",
                Level.SHOULD,
                f"Only an AC voltage is printed on {fuse.series} fuses; {ids} {has} to break "
                f"{show.volts(high_V)} "
                "DC, where an arc does not go out by itself.",
                f"a fuse whose maker states {show.volts(high_V)} DC or more",
                f"Look up the DC rating and write it as {here[-1]}.",
                here,
                slug,
            )
        ]
    if reaches(fuse.voltage_V, high_V):
        return []
    higher = "blade" in fuse.series and reaches(HIGHER_BLADE_V, high_V)
    other = f" Blade fuses are also made for 58 V: then write {here[-1]}: 58 V." if higher else ""
    return [
        Finding(
            "fuse-voltage",
            Level.MUST,
            f"{ids} {are} made for {show.volts(fuse.voltage_V)} DC and the supply can reach "
            f"{show.volts(high_V)}: "
            "its arc may not go out.",
            f"a fuse for {show.volts(high_V)} DC or more",
            f"Take a fuse with a higher DC rating, {show.volts(high_V)} or more.{other}",
            here,
            slug,
        )
    ]

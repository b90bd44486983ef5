"""A coil that is made for pulses: how long it may be on, what saves it when it stays on, and how it is brought up."""

from dataclasses import dataclass
from math import inf, isinf
from typing import Annotated, Any, Literal, cast

from guide_gen.formulas import coil as formulas
from guide_gen.formulas import fuse_opening as fuses
from guide_gen.formulas.choice import reaches
from guide_gen.model import coil as coils
from guide_gen.model.coil import Coil, CoilToy, coil_of
from guide_gen.model.fields import Section, Temperature, ToyFields, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.loads import load_of
from guide_gen.model.plan import Load, PulsePlan, Sized
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.quantity import Quantity
from guide_gen.values.reading import read_quantity
from guide_gen.values.worked import Candidate, Shape, Worked, work

Duration = Annotated[Quantity, read_quantity("time", "ms", 1e-3, 60.0, example="40 ms", ranged=True)]
Pause = Annotated[Quantity, read_quantity("time", "ms", 1e-3, 3600.0, example="300 ms", ranged=True)]

FIRST_ON_S = 0.010  # the first pulse while tuning; this project
STEP_ON_S = 0.005  # by which it is made longer; this project
LONGEST_TRIED_S = 0.100  # a stroke is over by then; this project, an estimate
HAND_S = 0.5  # the shortest pulse that a hand gives on a bench supply; this project
BENCH_SHARE = 0.5  # of its current while it is tried on a bench supply: a quarter of the heat
SET_S = 0.2  # a limit worth proposing: long enough for any stroke; this project


class PulseFields(Section):
    """How the game drives it."""

    on_time: Duration = key(
        "how long one pulse lasts", example="40 ms", ask="look it up in the board's or the game's settings"
    )
    off_time: Pause = key(
        "shortest pause between two pulses", example="300 ms", ask="think of the fastest repetition in a game"
    )


class LimitFields(Section):
    """What ends a pulse that does not end by itself."""

    by: Literal["board", "coil"] = key(
        "board: the driver's own on-time limit; coil: a thermal cut-out fixed to the coil",
        example="board",
        ask="look whether the board limits how long a port stays on, by itself and not by the game",
    )
    after: Duration | None = key("the board's longest on-time", example="200 ms", starts=True)
    opens_at: Temperature | None = key("temperature at which the thermal cut-out opens", example="80 °C")


class PulseCoilToy(CoilToy):
    """A toy whose coil is made for pulses."""

    pulse: PulseFields | None = key("how it is driven", example="{on_time: 40 ms, off_time: 300 ms}", starts=True)
    time_limit: LimitFields | None = key(
        "what ends a pulse that does not end by itself; a fuse cannot",
        example="{by: board, after: 200 ms}",
        starts=True,
    )


@dataclass(frozen=True)
class Noun:
    """How a kind is spoken of. slug: of its steps. does: ``knocks``. mover: what moves."""

    slug: str
    name: str
    does: str
    mover: str


def load(toy: ToyFields) -> Load:
    """A coil: nothing but its winding bounds the current, and its pulses tire the fuse."""
    coil = cast(PulseCoilToy, toy)
    pulse = coil.pulse
    return load_of(
        coil,
        kickback=True,
        start_A=coil.current.high,
        start_s=pulse.on_time.high if pulse else 0.0,
        resistance_ohm=coils.resistance_ohm(coil),
        inductance_H=coils.inductance_H(coil),
        pulse_A2s=float(pulse_heat(coil, pulse, coil.voltage.middle).result) if pulse else None,
        release_A=coils.release_A(coil),
        switches_per_s=1 / (pulse.on_time.low + pulse.off_time.low) if pulse else None,
        momentary=True,
    )


def pulse_heat(toy: PulseCoilToy, pulse: PulseFields, voltage_V: float) -> Worked:
    """Heat of one pulse in the fuse at a voltage: the current's rise counts where the inductance is known.

    At the low ends of resistance and inductance, which give most heat.
    """
    inductance = coils.inductance_H(toy)
    least_ohm = min(coils.resistance_ohm(toy)[0], toy.voltage.middle / toy.current.high)
    name, time = "Heat of one pulse in the fuse", pulse.on_time.high
    if inductance is None:
        return work(
            fuses.rectangle_A2s,
            "coil.pulse-heat",
            name,
            sentence="At the highest voltage of the supply, as if the current rose at once: the inductance is not "
            "known, so this is the safe side.",
            current_A=voltage_V / least_ohm,
            time_s=time,
        )
    return work(
        fuses.coil_pulse_A2s,
        "coil.pulse-heat",
        name,
        sentence="At the highest voltage of the supply.",
        voltage_V=voltage_V,
        resistance_ohm=least_ohm,
        inductance_H=inductance[0],
        time_s=time,
    )


# ---- how long it may be on ------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Pulses:
    """A pulse coil in its cabinet. Times are infinite for "for ever" and "never", None where they are not known.

    peak_degC: settled, of the pulses in use. alone_s: one pulse from the cabinet's warmest air.
    longest_on_s: from the hottest start, which is also how long it stands being stuck on; 0: it is there already.
    """

    coil: Coil
    on_s: float | None
    off_s: float | None
    peak_degC: float | None
    alone_s: float | None
    longest_on_s: float | None
    shortest_off_s: float | None
    fuse_opens_s: float | None
    saved_by: str
    window_A: tuple[float, ...] | None
    worked: tuple[Worked, ...]

    @property
    def stuck_s(self) -> float | None:
        """By when a coil that stays on must be ended: from its hottest start.

        From the air where the pulses alone bring it to its limit: that is told as such, and mended first.
        """
        return stuck_s(self.longest_on_s, self.alone_s)


def stuck_s(longest_on_s: float | None, alone_s: float | None) -> float | None:
    """As `Pulses.stuck_s`."""
    return alone_s if longest_on_s == 0 else longest_on_s


def pulses_of(toy: ToyFields, sized: Sized) -> Pulses:
    """Everything that follows for a pulse coil, with its working."""
    described = cast(PulseCoilToy, toy)
    coil = coil_of(described, sized)
    pulse = described.pulse
    on_s, off_s = (pulse.on_time.high, pulse.off_time.low) if pulse else (None, None)
    peak, shortest, repeated = _repeated(coil, on_s, off_s)
    start = min(max(coil.air_degC, peak or coil.air_degC), coil.limit_degC)
    longest = coil.time_to_limit_s(start)
    opens, opening = _fuse_opens(sized, coil, start)
    alone = coil.time_to_limit_s(coil.air_degC)
    safe = stuck_s(longest, alone)
    window, shown = _window(sized, coil, start, longest)
    highest_V = max(sized.supply_high_V, described.voltage.middle)
    heat = (pulse_heat(described, pulse, highest_V),) if pulse else ()
    working = [*coil.worked, *heat, *repeated]
    if longest is not None and not isinf(longest):
        assert coil.capacity_J_per_K is not None
        working.append(
            work(
                formulas.adiabatic_time_s,
                "coil.longest-on",
                "Longest that it may be on, and stands being stuck on",
                sentence="From the hottest start, by the copper alone: the safe side."
                + (" The pulses alone bring it to its limit: no pulse at this repetition." if longest == 0 else ""),
                voltage_V=coil.high_V,
                resistance_20_ohm=coil.cold_ohm[0],
                capacity_J_per_K=coil.capacity_J_per_K,
                start_degC=start,
                limit_degC=coil.limit_degC,
            )
        )
    return Pulses(
        coil,
        on_s,
        off_s,
        peak,
        alone,
        longest,
        shortest,
        opens,
        _saved_by(described, sized, coil, safe, opens),
        window,
        (*working, *opening, *shown),
    )


def _repeated(
    coil: Coil, on_s: float | None, off_s: float | None
) -> tuple[float | None, float | None, tuple[Worked, ...]]:
    """Settled peak and shortest pause of repeated pulses; None without the coil's surface or its copper."""
    if on_s is None or off_s is None or coil.thermal_K_per_W is None or coil.capacity_J_per_K is None:
        return None, None, ()
    constant = coil.thermal_K_per_W * coil.capacity_J_per_K
    peak = work(
        formulas.settled_peak_degC,
        "coil.peak",
        "Warmest that the coil gets once the pulses have repeated for long",
        ambient_degC=coil.air_degC,
        power_W=coil.power_W,
        thermal_K_per_W=coil.thermal_K_per_W,
        constant_s=constant,
        on_s=on_s,
        off_s=off_s,
    )
    if coil.limit_degC <= coil.air_degC:
        return float(peak.result), inf, (peak,)
    arguments: dict[str, Any] = {
        "power_W": coil.power_W,
        "thermal_K_per_W": coil.thermal_K_per_W,
        "constant_s": constant,
        "allowed_K": coil.limit_degC - coil.air_degC,
        "on_s": on_s,
    }
    pause = work(formulas.shortest_off_s, "coil.shortest-off", "Shortest pause between such pulses", **arguments)
    return float(peak.result), formulas.shortest_off_s(**arguments), (peak, pause)


def _fuse_opens(sized: Sized, coil: Coil, start_degC: float) -> tuple[float | None, tuple[Worked, ...]]:
    """The longest that the fuse may take when the coil stays on; infinite: it may never open."""
    if sized.fuse.rating_A is None:
        return None, ()
    amps = coil.least_A(start_degC)
    series = tables.fuse_series(sized.fuse.series)
    try:
        band = fuses.curve(series, sized.fuse.rating_A, sized.fuse.speed).opening(amps)
    except tables.NotInTable:
        return None, ()
    never = isinf(band.longest_s)
    return band.longest_s, (
        Worked(
            "coil.fuse-opens",
            f"Longest until {sized.fuse.id} opens when the coil stays on",
            Shape.TABLE,
            "t_F",
            "it may never" if never else band.longest_s,
            "" if never else "s",
            f"{amps / sized.fuse.rating_A:.2f} times its rating",
            f"{series.standard}, opening times",
            f"The coil then draws {show.amps(amps)} or more.",
            table=f"{series.standard}, opening times",
            row=f"{amps / sized.fuse.rating_A:.2f} times the rating",
            column="longest",
        ),
    )


def _window(
    sized: Sized, coil: Coil, start_degC: float, safe_s: float | None
) -> tuple[tuple[float, ...] | None, tuple[Worked, ...]]:
    """The ratings of the holder's series that stand the pulses of a life and still open before a stuck coil is too hot.

    None when that is not known.
    """
    heat = sized.load.pulse_A2s
    if heat is None or safe_s is None or isinf(safe_s) or safe_s <= 0 or not sized.fuse.series:
        return None, ()
    series, amps = tables.fuse_series(sized.fuse.series), coil.least_A(start_degC)
    fits, candidates = [], []
    for rating in series.ratings_A:
        try:
            opening = fuses.curve(series, rating, sized.fuse.speed)
        except tables.NotInTable:
            continue
        judged = fuses.stuck_on(opening, amps, safe_s, heat, sized.load.pulses)
        why = _rejected(judged, heat)
        candidates.append(Candidate(show.amps(rating), why))
        if not why:
            fits.append(rating)
    near = [one for one in candidates if not one.rejected or "carries" not in one.rejected][:5] or candidates[:2]
    return tuple(fits), (
        Worked(
            "coil.window",
            "Fuses that stand the pulses and save a stuck coil",
            Shape.CHOICE,
            "I_n",
            " and ".join(show.amps(rating) for rating in fits) if fits else "none",
            "",
            "opens before the coil reaches its limit, and stands the pulses of a life",
            f"{series.standard} and published fuse selection guides",
            f"{show.count(sized.load.pulses)} pulses; the coil stands {show.seconds(safe_s)}.",
            candidates=tuple(near),
        ),
    )


def _rejected(judged: fuses.StuckOn, heat_A2s: float) -> str:
    """Why a rating cannot do both; "" when it can."""
    if judged.saves is fuses.Outcome.NEVER:
        return f"carries {judged.multiple:.2g} times its rating for ever"
    if judged.saves is fuses.Outcome.MAYBE:
        late = judged.opening.longest_s
        return "may never open" if isinf(late) else f"may take {show.seconds(late)}: too late"
    if judged.room_A2s is None:
        return "its melting heat is not known"
    if judged.stands:
        return ""
    return f"tires: each pulse may have {show.figure(judged.room_A2s)} A²s and has {show.figure(heat_A2s)} A²s"


def _saved_by(toy: PulseCoilToy, sized: Sized, coil: Coil, safe_s: float | None, opens_s: float | None) -> str:
    """What ends a pulse that does not end by itself, before the coil is too hot."""
    if coil.may_stay_on:
        return "cool"
    if safe_s is not None and opens_s is not None and not isinf(opens_s) and reaches(safe_s, opens_s):
        return "fuse"
    limit = toy.time_limit
    if limit is not None and limit.by == "coil":
        fits = limit.opens_at is None or limit.opens_at.high <= coil.limit_degC
        return "coil" if fits else "nothing"
    if limit is not None and sized.port is not None and limit.after is not None:
        return "board" if safe_s is None or reaches(safe_s, limit.after.high) else "nothing"
    return "nothing"


def pulse_plan(toy: ToyFields, sized: Sized) -> PulsePlan:
    """For the plan: what is for ever, or never, is None."""
    found = pulses_of(toy, sized)

    def finite(value: float | None) -> float | None:
        return None if value is None or isinf(value) else value

    return PulsePlan(
        finite(found.longest_on_s),
        finite(found.shortest_off_s),
        finite(found.longest_on_s),
        inf if sized.fuse.rating_A is None else found.fuse_opens_s,
        found.peak_degC,
        found.saved_by,
    )


# ---- findings -------------------------------------------------------------------------------------------------------


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Pulses that are too long, a coil that nothing saves, a hot surface, and what is not known."""
    described, found = cast(PulseCoilToy, toy), pulses_of(toy, sized)
    return (
        *(_too_long(sized, found, path) or _cut(described, sized, path)),
        *_stuck_on(described, sized, found, path),
        *_hot(sized, found, path),
        *coils.data_findings(described, sized, path),
        *_unknown(described, sized, found, path),
    )


def _too_long(sized: Sized, found: Pulses, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """One pulse against what the coil stands, then the pause between them."""
    where, message, expected, mend = (*path, "pulse"), "", "", ""
    if sized.port is None and not found.coil.may_stay_on:
        where = (*path, "control", "type")
        message = f"{sized.name} is on for as long as its supply is, and its coil is made for pulses"
        expected, mend = "a port that ends each pulse", "Put it on an on/off port of a board with an on-time limit."
    elif found.on_s is None:
        return ()
    elif found.alone_s is not None and not reaches(found.alone_s, found.on_s):
        where = (*where, "on_time")
        message = (
            f"One pulse of {sized.name} lasts {show.seconds(found.on_s)}; from "
            f"{show.celsius(found.coil.air_degC, sized.units)} its coil reaches its limit of "
            f"{show.celsius(found.coil.limit_degC, sized.units)} after {show.seconds(found.alone_s)}"
        )
        expected = f"at most {show.seconds(found.alone_s)}"
        mend = (
            f"Shorten the pulse to {show.seconds(found.alone_s)} or less; a stroke is over within a tenth of a second."
        )
    elif (
        found.off_s is not None and found.shortest_off_s is not None and found.shortest_off_s > found.off_s * (1 + 1e-9)
    ):
        assert found.peak_degC is not None
        where, never = (*where, "off_time"), isinf(found.shortest_off_s)
        message = (
            f"With pulses of {show.seconds(found.on_s)} every {show.seconds(found.on_s + found.off_s)} the coil of "
            f"{sized.name} settles at {show.celsius(found.peak_degC, sized.units)}; its limit is "
            f"{show.celsius(found.coil.limit_degC, sized.units)}"
        )
        expected = "shorter pulses" if never else f"a pause of {show.seconds(found.shortest_off_s)} or more"
        mend = (
            "No pause is long enough: shorten the pulse."
            if never
            else f"Let the game wait {show.seconds(found.shortest_off_s)} between pulses, or shorten the pulse."
        )
    if not message:
        return ()
    return (Finding("pulse-too-long", Level.MUST, f"{message}: it burns out.", expected, mend, where, sized.slug),)


def cut_after(toy: PulseCoilToy) -> Quantity | None:
    """The board's on-time limit, where it ends a pulse before the game would; else None."""
    limit = toy.time_limit
    after = limit.after if limit is not None and limit.by == "board" else None
    if after is None or toy.pulse is None or reaches(after.low, toy.pulse.on_time.high):
        return None
    return after


def _cut(toy: PulseCoilToy, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """An on-time that the board's own limit never lets happen."""
    after = cut_after(toy)
    if after is None or toy.pulse is None or sized.port is None:
        return ()
    on = show.quantity(toy.pulse.on_time)
    return (
        Finding(
            "pulse-too-long",
            Level.MUST,
            f"One pulse of {sized.name} is to last {on}, and its board ends every pulse after {show.quantity(after)}: "
            "each is cut there, and the stroke may not be over.",
            f"an on-time of at most {show.quantity(after)}",
            f"Raise time_limit to more than {on}, if the coil stands that, or shorten the pulse.",
            (*path, "pulse", "on_time"),
            sized.slug,
        ),
    )


def _stuck_on(toy: PulseCoilToy, sized: Sized, found: Pulses, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A coil that simply stays on must be switched off by something."""
    if found.saved_by != "nothing":
        return ()
    here = (*path, "time_limit") if toy.time_limit else path
    safe = found.stuck_s
    stands = (
        "how long its coil stands it is not known"
        if safe is None
        else "the air alone brings its coil to its limit"
        if safe <= 0
        else "its coil stands nothing more: its pulses alone have brought it to its limit"
        if found.longest_on_s == 0
        else f"its coil stands {show.seconds(safe)}"
    )
    return (
        Finding(
            "stuck-on-unprotected",
            Level.MUST,
            f"If the port of {sized.name} stays on, {stands}; {_why_unsaved(toy, sized, found)} It smokes, then burns.",
            "an on-time limit in the driver, or a thermal cut-out on the coil",
            f"{_limit_mend(sized, found)} {window_words(sized, found)}".strip(),
            here,
            sized.slug,
        ),
    )


def fuse_words(sized: Sized, found: Pulses) -> str:
    """What the fuse does when the coil stays on."""
    if sized.fuse.rating_A is None:
        return "there is no fuse"
    fuse = f"{sized.fuse.id}, {show.amps(sized.fuse.rating_A)},"
    if found.fuse_opens_s is None:
        return f"when {fuse} opens is not known"
    if isinf(found.fuse_opens_s):
        return f"{fuse} may never open"
    return f"{fuse} may take {show.seconds(found.fuse_opens_s)}"


def _why_unsaved(toy: PulseCoilToy, sized: Sized, found: Pulses) -> str:
    """Fuse and time limit, and why neither helps."""
    why, limit = fuse_words(sized, found), toy.time_limit
    if limit is None:
        return f"{why}, and nothing else ends it."
    if limit.by == "coil" and limit.opens_at is not None:
        return (
            f"{why}, and its thermal cut-out opens at {show.quantity(limit.opens_at)}, above the "
            f"{show.celsius(found.coil.limit_degC, sized.units)} that the winding stands."
        )
    if sized.port is None:
        return f"{why}, and no board switches it that could end it."
    if limit.after is None:
        return f"{why}, and the board's on-time limit is not described."
    return f"{why}, and the board ends it only after {show.quantity(limit.after)}."


def proposed_limit_s(found: Pulses) -> float:
    """An on-time limit that lets every pulse pass and leaves half of what the coil stands."""
    wanted = max(SET_S, 2 * (found.on_s or 0.0))
    return wanted if found.longest_on_s is None else min(wanted, found.longest_on_s / 2)


def _limit_mend(sized: Sized, found: Pulses) -> str:
    """What to set, or to fix on the coil."""
    cut_out = f"fix a thermal cut-out on the coil that opens below {show.celsius(found.coil.limit_degC, sized.units)}"
    if found.longest_on_s == 0:
        return (
            f"First mend the pulses, so that the coil stays below its limit; then set an on-time limit, or {cut_out}."
        )
    limit = proposed_limit_s(found)
    if sized.port is None or limit <= 0:
        return f"{cut_out[0].upper()}{cut_out[1:]}."
    after = show.seconds(limit).replace(show.NBSP, " ")
    return f"Set the board's on-time limit, and write time_limit: {{by: board, after: {after}}}; or {cut_out}."


def window_words(sized: Sized, found: Pulses) -> str:
    """Whether any fuse could do both, in a sentence; "" when that is not known."""
    if found.window_A is None:
        return ""
    series = f"{sized.fuse.series} series"
    if not found.window_A:
        return f"No fuse of the {series} both stands the pulses and saves the coil."
    fits = " or ".join(show.amps(rating) for rating in found.window_A)
    return f"Of the {series} only {fits} would stand the pulses and save the coil, below the usual margin."


def _hot(sized: Sized, found: Pulses, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """The settled peak; above the coil's own limit the pause has been told of already."""
    if found.peak_degC is None or found.peak_degC > found.coil.limit_degC:
        return ()
    return coils.surface_findings(
        sized,
        found.peak_degC,
        found.coil.limit_degC,
        "Pulsed as described for long",
        "Let the game wait longer between pulses, shorten them, or guard the coil so that nobody can touch it.",
        (*path, "pulse"),
    )


def _unknown(toy: PulseCoilToy, sized: Sized, found: Pulses, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """What is not worked out, and what to measure."""
    told = []
    if found.longest_on_s is None:
        told.append(
            coils.missing(
                toy,
                sized,
                path,
                "wire_diameter",
                "How long the coil may be on",
                "Measure the bare end of its wire with a caliper, and write it as wire_diameter.",
            )
        )
    if found.coil.thermal_K_per_W is None:
        told.append(
            coils.missing(
                toy,
                sized,
                path,
                "outer_diameter" if toy.coil.outer_diameter is None else "length",
                "The pause between pulses",
                "Measure outer diameter and length of the winding with a ruler.",
            )
        )
    if found.on_s is None:
        told.append(
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"The pulses of {sized.name} are not checked against coil and fuse: they are not described.",
                "pulse: {on_time: 40 ms, off_time: 300 ms}",
                "Look them up in the settings of board or game, and write them as pulse.",
                path,
                sized.slug,
            )
        )
    return tuple(told)

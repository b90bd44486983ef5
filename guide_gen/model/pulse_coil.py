"""A coil that is made for pulses: how long it may be on, what saves it when it stays on, and how it is brought up."""

from dataclasses import dataclass, replace
from math import floor, inf, isinf
from typing import Annotated, Literal, cast

from guide_gen.formulas import coil as formulas
from guide_gen.formulas import fuse_opening as fuses
from guide_gen.formulas.choice import reaches
from guide_gen.model import coil as coils
from guide_gen.model.coil import Coil, CoilToy, coil_of
from guide_gen.model.fields import Section, Temperature, ToyFields, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Missing
from guide_gen.model.loads import load_of
from guide_gen.model.plan import Load, PulsePlan, Sized
from guide_gen.model.pulse_remedy import (
    SET_S,
    SPARE_K,
    TOUCH_DEGC,
    Pause,
    down_s,
    limit_yaml,
    longest_pulse_s,
    pause_worked,
    remedy_words,
    up_s,
    wait_words,
    whole_pause,
)
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.reading import read_quantity
from guide_gen.values.worked import Candidate, Shape, Worked, work

Duration = Annotated[Quantity, read_quantity("time", "ms", 1e-3, 60.0, example="40 ms", ranged=True)]
PauseTime = Annotated[Quantity, read_quantity("time", "ms", 1e-3, 3600.0, example="300 ms", ranged=True)]

FIRST_ON_S = 0.010  # the first pulse while tuning; this project
STEP_ON_S = 0.005  # by which it is made longer; this project
TENTH = "a tenth of a second"
LONGEST_TRIED_S = 0.100  # a stroke is over by then; this project, an estimate
HAND_S = 0.5  # the shortest pulse that a hand gives on a bench supply; this project
BENCH_SHARE = 0.5  # of its current while it is tried on a bench supply: a quarter of the heat
CUT_OUT_BELOW_K = 10.0  # of the winding's limit, since it sits outside on the coil; this project
CUT_OUT_STEP_K = 5.0  # in which thermal cut-outs are sold; common practice, no source


class PulseFields(Section):
    """How the game drives it."""

    on_time: Duration = key(
        "how long one pulse lasts", example="40 ms", ask="look it up in the board's or the game's settings"
    )
    off_time: PauseTime = key(
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
        design_A=coils.drawn_A(coil),
        start_A=coils.drawn_A(coil),
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
    ends_s: by when something ends a stuck pulse, if the coil stands that; None: nothing does yet.
    cut_s: after which the board cuts each pulse short; None: it does not.
    pause: the shortest that meets all rules, None where none is long enough or it is not known.
    """

    coil: Coil
    on_s: float | None
    off_s: float | None
    peak_degC: float | None
    alone_s: float | None
    longest_on_s: float | None
    ends_s: float | None
    cut_s: float | None
    pause: Pause | None
    fuse_opens_s: float | None
    saved_by: str
    window_A: tuple[float, ...] | None
    worked: tuple[Worked, ...]

    @property
    def pause_s(self) -> float | None:
        """The shortest pause that meets all rules; infinite where none is long enough, None where it is not known."""
        if self.pause is None:
            return None if self.peak_degC is None else inf
        return self.pause.off_s

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
    peak, repeated = _repeated(coil, on_s, off_s)
    start = min(max(coil.air_degC, peak or coil.air_degC), coil.limit_degC)
    longest = coil.time_to_limit_s(start)
    opens, opening = _fuse_opens(sized, coil, start)
    alone = coil.time_to_limit_s(coil.air_degC)
    safe = stuck_s(longest, alone)
    window, shown = _window(sized, coil, start, longest)
    highest_V = max(sized.supply_high_V, described.voltage.middle)
    heat = (pulse_heat(described, pulse, highest_V),) if pulse else ()
    ends_s = _ends_s(described, sized, coil, opens)
    pause, cut = (
        whole_pause(coil, on_s, ends_s) if on_s is not None and peak is not None else None,
        cut_after(described),
    )
    if pause is not None and cut is not None:
        pause = replace(pause, limited=True)
    working = [*coil.worked, *heat, *repeated]
    working += pause_worked(coil, on_s, pause) if on_s is not None and pause is not None else ()
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
        ends_s,
        None if cut is None else cut.low,
        pause,
        opens,
        _saved_by(described, sized, coil, safe, opens),
        window,
        (*working, *opening, *shown),
    )


def _repeated(coil: Coil, on_s: float | None, off_s: float | None) -> tuple[float | None, tuple[Worked, ...]]:
    """Settled peak of repeated pulses; None without the coil's surface or its copper."""
    if on_s is None or off_s is None or coil.thermal_K_per_W is None or coil.capacity_J_per_K is None:
        return None, ()
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
    return float(peak.result), (peak,)


def _ends_s(toy: PulseCoilToy, sized: Sized, coil: Coil, opens_s: float | None) -> float | None:
    """By when something ends a stuck pulse; 0: a thermal cut-out does, before it is too hot; None: nothing.

    opens_s: of the fuse, at the hottest start, where it is slowest.
    """
    limit = toy.time_limit
    if limit is not None and limit.by == "coil":
        return 0.0 if limit.opens_at is None or limit.opens_at.high <= coil.limit_degC else None
    ends = [] if opens_s is None or isinf(opens_s) else [opens_s]
    cut = cut_after(toy) is not None
    if limit is not None and limit.after is not None and sized.port is not None and not cut:
        ends.append(limit.after.high)
    return min(ends, default=None)


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
        finite(cooling_s(found.coil, found.on_s)),
        finite(found.longest_on_s),
        inf if sized.fuse.rating_A is None else found.fuse_opens_s,
        found.peak_degC,
        found.saved_by,
        finite(found.pause_s),
    )


def cooling_s(coil: Coil, on_s: float | None) -> float | None:
    """The shortest pause by the limit of the winding alone; None where its surface or its copper is not known."""
    if on_s is None or coil.thermal_K_per_W is None or coil.capacity_J_per_K is None:
        return None
    return formulas.shortest_off_s(
        power_W=coil.power_W,
        thermal_K_per_W=coil.thermal_K_per_W,
        constant_s=coil.thermal_K_per_W * coil.capacity_J_per_K,
        allowed_K=coil.limit_degC - coil.air_degC,
        on_s=on_s,
    )


# ---- findings -------------------------------------------------------------------------------------------------------


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Pulses that are too long, a coil that nothing saves, a hot surface."""
    described, found = cast(PulseCoilToy, toy), pulses_of(toy, sized)
    return (
        *(_too_long(sized, found, path) or _cut(described, sized, found, path)),
        *_stuck_on(described, sized, found, path),
        *_hot(sized, found, path),
        *coils.data_findings(described, sized, path),
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
        shorter = shorter_words(found)
        expected = "a pulse that its coil stands, over and over"
        mend = shorter or f"No pulse that can be set is short enough at this voltage. {change_words(found)}"
    elif found.off_s is not None and found.peak_degC is not None and found.peak_degC > found.coil.limit_degC + 1e-9:
        where = (*where, "off_time")
        message = (
            f"With pulses of {show.seconds(found.on_s)} every {show.seconds(found.on_s + found.off_s)} the coil of "
            f"{sized.name} settles at {show.celsius(found.peak_degC, sized.units)} (estimate); its limit is "
            f"{show.celsius(found.coil.limit_degC, sized.units)}"
        )
        expected = f"a pause of {show.seconds(found.pause.off_s)} or more" if found.pause else "shorter pulses"
        mend = cooler_words(found)
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


def _cut(toy: PulseCoilToy, sized: Sized, found: Pulses, path: tuple[str, ...]) -> tuple[Finding, ...]:
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
            _cut_mend(found, after),
            (*path, "pulse", "on_time"),
            sized.slug,
        ),
    )


def _cut_mend(found: Pulses, after: Quantity) -> str:
    """A longer limit only where the coil stands it."""
    shorten = f"shorten the pulse to {show.quantity(after)} or less"
    limit = proposed_limit_s(found)
    if limit is not None:
        return f"Write {limit_yaml(limit)}, which its coil stands, or {shorten}."
    if found.pause is not None and found.pause.stays_s >= (found.on_s or 0.0):
        wait = f"let the game wait {show.seconds(found.pause.off_s)} or more between pulses"
        return f"{sentence(wait)[:-1]}, and write {limit_yaml(found.pause.stays_s)}; or {shorten}."
    return f"{sentence(shorten)[:-1]}: its coil does not stand a limit that lets this one pass."


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


def proposed_limit_s(found: Pulses) -> float | None:
    """An on-time limit that lets every pulse pass and leaves half of what the coil stands, or as much as it may.

    None where the coil does not stand even one pulse from its hottest start, or less than can be set.
    """
    on_s = found.on_s or 0.0
    wanted = max(SET_S, 2 * on_s)
    if found.longest_on_s is None:
        return wanted
    half = down_s(min(wanted, found.longest_on_s / 2))
    limit = half if half >= on_s else up_s(on_s)
    return limit if found.longest_on_s >= limit and reaches(limit, FIRST_ON_S) else None


def change_words(found: Pulses) -> str:
    """What to change of a coil that no limit saves."""
    return remedy_words(found.coil, max(found.on_s or 0.0, FIRST_ON_S), found.off_s, found.ends_s)


def sentence(words: str) -> str:
    """Words as a sentence."""
    return f"{words[0].upper()}{words[1:]}."


def shorter_words(found: Pulses) -> str:
    """The longest pulse that meets all rules with the pause that there is, else with a longer one; "" where none."""
    coil, on_s = found.coil, found.on_s or 0.0
    most_s = min(on_s, found.cut_s or on_s)
    for ends_s in (found.ends_s, None):
        longest = longest_pulse_s(coil, found.off_s, ends_s, most_s)
        if longest is not None and reaches(longest, FIRST_ON_S):
            limit = f", and write {limit_yaml(down_s(2 * longest))}" if ends_s != found.ends_s else ""
            over = f"; a stroke is over within {TENTH}" if reaches(longest, LONGEST_TRIED_S) else ""
            return f"Shorten the pulse to {show.seconds(longest)} or less{limit}{over}."
    pause = whole_pause(coil, FIRST_ON_S, found.ends_s)
    if pause is None or on_s < FIRST_ON_S:
        return ""
    return f"Shorten the pulse to {show.seconds(FIRST_ON_S)}, and {wait_words(pause)}."


def cooler_words(found: Pulses) -> str:
    """What makes pulses cooler: the pause that meets all rules, else a shorter pulse, else less voltage."""
    shorter = shorter_words(found)
    if found.pause is not None:
        other = f" Or {shorter[0].lower()}{shorter[1:]}" if shorter and " wait " not in shorter else ""
        return f"{sentence(wait_words(found.pause))}{other}"
    return f"No pause is long enough. {shorter or change_words(found)}"


def _limit_mend(sized: Sized, found: Pulses) -> str:
    """What to set, or to fix on the coil."""
    cut_out = cut_out_words(sized, found)
    if sized.port is None:
        return sentence(cut_out)
    pause, limit = found.pause, proposed_limit_s(found)
    if limit is not None:
        return f"Set the board's on-time limit, and write {limit_yaml(limit)}; or {cut_out}."
    first = "First mend the pulses, so that the coil stays below its limit" if found.longest_on_s == 0 else ""
    if pause is not None and pause.off_s > (found.off_s or 0.0):
        wait = f"let the game wait {show.seconds(pause.off_s)} or more between pulses"
        told = f"{first}: {wait}" if first else sentence(wait).rstrip(".")
        limited = pause.limited or found.ends_s is None
        return f"{told}{f', and write {limit_yaml(pause.stays_s)}' if limited else ''}; or {cut_out}."
    change = change_words(found)
    if first:
        return f"{first}, then {cut_out}. {change}"
    change = change if change.startswith("No ") else f"Or {change[0].lower()}{change[1:]}"
    return f"No on-time limit that can be set saves it: {cut_out}. {change}"


def cut_out_words(sized: Sized, found: Pulses) -> str:
    """A thermal cut-out, and how it is written."""
    limit_degC = found.coil.limit_degC
    opens_degC = CUT_OUT_STEP_K * floor((limit_degC - CUT_OUT_BELOW_K) / CUT_OUT_STEP_K)
    return (
        f"fix a thermal cut-out on the coil that opens below {show.celsius(limit_degC, sized.units)}, and write "
        f"time_limit: {{by: coil, opens_at: {opens_degC:g} °C}}"
    )


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
        _hot_mend(found, sized.units),
        (*path, "pulse"),
        Basis.ESTIMATE,
    )


def _hot_mend(found: Pulses, units: str) -> str:
    """Cooler pulses, where the air leaves room for them."""
    guard = "guard the coil so that nobody can touch it."
    if found.coil.air_degC >= TOUCH_DEGC - SPARE_K:
        return (
            f"No pause cools it below the air, {show.celsius(found.coil.air_degC, units)} there: mount it where it is "
            f"cooler, and {guard}"
        )
    return f"{cooler_words(found)} Until then {guard}"


def missing(toy: ToyFields, sized: Sized) -> tuple[Missing, ...]:
    """What is not worked out, and what to measure."""
    described, found = cast(PulseCoilToy, toy), pulses_of(toy, sized)
    told = [*coils.missing_inductance(described)]
    if found.longest_on_s is None:
        told.append(
            coils.lacking(
                "wire_diameter",
                "how long the coil may be on",
                "Measure the bare end of its wire with a caliper.",
            )
        )
    if found.coil.thermal_K_per_W is None:
        told.append(
            coils.lacking(
                "outer_diameter" if described.coil.outer_diameter is None else "length",
                "the pause between pulses",
                "Measure outer diameter and length of the winding with a ruler.",
            )
        )
    if found.on_s is None:
        told.append(
            Missing(
                "pulse: {on_time: .., off_time: ..}",
                "whether coil and fuse stand its pulses",
                "Look its pulses up in the settings of board or game.",
            )
        )
    return tuple(told)

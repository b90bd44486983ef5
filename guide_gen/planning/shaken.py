"""What an accelerometer log means for a cabinet: read as running or as a nudge, judged, put into sentences."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, log, pi
from statistics import median
from typing import Literal

from guide_gen.formulas.cabinet import CROSSING_Hz
from guide_gen.formulas.log_kind import LASTING_S, Stretch, is_nudge, pushes, running_part
from guide_gen.formulas.log_reading import (
    ENOUGH_SAMPLES,
    RECORD_S,
    FASTEST_TURN_Hz,
    Line,
    LogWarning,
    Nudge,
    Running,
    Samples,
    read_log,
    read_nudge,
    read_running,
)
from guide_gen.formulas.log_text import G, LogProblem, Trouble
from guide_gen.published.vibration import VibrationClass, motion_value
from guide_gen.values import show

Kind = Literal["running", "nudge", "auto"]

_IN_NOISE = 3.0  # times the noise: a line below it may be noise alone
_SURE = 2.0  # standard errors each way
_APART = 0.4  # of the larger: two ways to get the damping that differ by more do not describe the same decay
_PUSHES_APART = 1.1
_SLOWEST_STANDARD_Hz = 2.0
_STILL = 0.05  # of the first swing: what is left of it is no matter for the next
_REST_S = 5.0  # where the fading is not known: 5 % is left of 3 Hz with a damping of 3 %

_MISTAKEN = {
    "running": "The record dies away as after a push by hand. If it is one, read it with --kind nudge.",
    "nudge": "The record does not die away as after one push by hand: what is said of it here may mean nothing. "
    "If the shaker was running, read it with --kind running.",
}
_FOLDED = "What the range cuts off comes back as other frequencies: the turning frequency may be wrong too."
_MORE = (LogWarning.CLIPPED, LogWarning.UNSTEADY, LogWarning.VARYING)  # the true strength is larger
_SHORT_RUN = 2.0  # times as strong as what lasts: something ran, but not for long
_LOUDER = 1.4  # times as strong: more than a level varies by itself
_SWELLS = 1.1
_CUT_S = 1.0  # a log that is longer than what is read by less than this is as good as whole
_OF_STRENGTH = (LogWarning.UNIT_ASSUMED, LogWarning.UNIT_BY_GRAVITY, LogWarning.UNIT_DOUBTFUL)  # no matter for a push
_LESS = "The strength is spread over the changing speed: the true one is larger than what is shown here."


@dataclass(frozen=True)
class Spread:
    """A value, and from where to where it may lie."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class Push:
    """One push: its piece of the record, and what it says."""

    samples: Samples
    nudge: Nudge


@dataclass(frozen=True)
class ReadRunning:
    """A running shaker, judged. within: None where it cannot be told. felt: how the strongest line is felt.

    used: the part of the record that this rests on.
    """

    running: Running
    used: Samples
    limit: VibrationClass
    within: bool | None
    verdict: str
    felt: str

    @property
    def at_least(self) -> bool:
        """Whether the true strength is larger than what was read."""
        return any(warning in self.running.warnings for warning in _MORE)

    def in_noise(self, line: Line) -> bool:
        """Whether a line may be noise alone."""
        return line.accel_m_s2 < _IN_NOISE * self.running.noise_m_s2


@dataclass(frozen=True)
class ReadNudge:
    """A pushed cabinet. damping: None where it cannot be told; verdict says why."""

    pushes: tuple[Push, ...]
    natural_Hz: Spread
    damping: Spread | None
    verdict: str


@dataclass(frozen=True)
class Paste:
    """Lines for the description, as they stand under a key: the toy's ``found`` or ``motor``, or ``cabinet``."""

    key: Literal["found", "motor", "cabinet"]
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Shaken:
    """A log, read. chosen: whether running or nudge was decided here, not asked for.

    at_full: what to paste instead where the shaker ran at full voltage, which a log cannot tell.
    """

    samples: Samples
    chosen: bool
    found: ReadRunning | ReadNudge
    warnings: tuple[str, ...]
    paste: Paste | None
    at_full: Paste | None

    @property
    def kind(self) -> Literal["running", "nudge"]:
        """What it was read as."""
        return "running" if isinstance(self.found, ReadRunning) else "nudge"


def shaken(text: str, limit: VibrationClass, kind: Kind = "auto") -> Shaken:
    """A log's text, read and judged. Raises LogProblem, whose sentence says what to record instead."""
    samples = read_log(text)
    told = list(_cut(samples))
    try:
        decays = is_nudge(samples)
        nudge = decays if kind == "auto" else kind == "nudge"
        if nudge != decays:
            told.append(_MISTAKEN["nudge" if nudge else "running"])
        found, warnings, paste = _nudge(samples) if nudge else _running(samples, limit)
    except LogProblem as problem:
        raise LogProblem(problem.trouble, " ".join([str(problem), *told])) from None
    if nudge and not decays:
        paste = None
    at_full = None
    if paste and isinstance(found, ReadRunning):
        rpm = show.figure(60 * found.running.turning_Hz)
        at_full = Paste("motor", (f"speed: {rpm} rpm (measured)",))
    return Shaken(samples, kind == "auto", found, (*told, *warnings), paste, at_full)


def _cut(samples: Samples) -> tuple[str, ...]:
    """That the log is longer than what was read of it."""
    read_s = float(samples.time_s[-1])
    if samples.whole_s - read_s < _CUT_S:
        return ()
    return (
        f"Only the first {read_s:.0f} s of the {samples.whole_s:.0f} s were read: if what you mean comes later, cut "
        "the log to it.",
    )


def hertz(value_Hz: float) -> str:
    """A frequency in two or three digits: ``6.0 Hz``, ``12.1 Hz``."""
    return show.show(value_Hz, "Hz")


def accel(value_m_s2: float) -> str:
    """An acceleration, in the digits of the table of lines: ``1.23 m/s² (0.125 g)``."""
    return f"{_short(value_m_s2, 'm/s²')} ({_short(value_m_s2 / G, 'g')})"


def shift(value_m: float) -> str:
    """A shift: ``0.834 mm (0.0328 in)``."""
    return f"{_short(value_m * 1e3, 'mm')} ({_short(value_m / 0.0254, 'in')})"


def percent(share: float) -> str:
    """A share of the limit, whole percents where it is large, a decimal beside 100 %: ``47 %``, ``6.1 %``."""
    near = 0.99 < share < 1.01
    return show.with_unit(show.figure(100 * share, 4 if near else 3, 1 if near or share < 0.1 else 0), "%")


def damping_percent(share: float) -> str:
    """A damping ratio in two digits: ``4.5 %``, ``6.0 %``."""
    return show.show(float(f"{share:.2g}"), "%")


def _short(value: float, unit: str) -> str:
    return show.with_unit(show.figure(value), unit)


# Running ------------------------------------------------------------------------------------------------------------


def _running(samples: Samples, limit: VibrationClass) -> tuple[ReadRunning, tuple[str, ...], Paste | None]:
    stretch = running_part(samples)
    running = _read_stretch(stretch, limit)
    if LogWarning.ALIASED in running.warnings:
        top = max(running.lines, key=lambda line: line.accel_m_s2)
        raise LogProblem(
            Trouble.ALIASED,
            f"A frequency of {show.plain_spaces(hertz(top.frequency_Hz))} was found in {samples.rate_Hz:.0f} samples a "
            "second: that is too few for it, and the true one may be another. Record again with the phone's fastest "
            "rate, or at a lower setting.",
        )
    within, share = _within(running), running.strongest.limit_share
    swells = running.swell > _SWELLS or (within is True and share * running.swell > 1)
    if within and share * max(running.swell, stretch.louder if stretch.louder > _LOUDER else 1.0) > 1:
        within = None
    at_least = any(warning in running.warnings for warning in _MORE)
    verdict = _verdict(running, limit, within, at_least)
    found = ReadRunning(running, stretch.samples, limit, within, verdict, _felt(running))
    warnings = [*_part_used(samples, stretch), *map(str, running.warnings)]
    if swells and not at_least:
        warnings.append(
            f"The strength changed: in its strongest quarter it was {show.figure(running.swell)} times what is shown "
            "here. Let it run for a while first, and record again if the result matters."
        )
    warnings += [_LESS] * (LogWarning.UNSTEADY in running.warnings)
    warnings += [_FOLDED] * (LogWarning.CLIPPED in running.warnings)
    warnings += _other_speed(running, samples.rate_Hz)
    paste = Paste("found", (f"turning: {_copied(running.turning_Hz)}",))
    return found, tuple(warnings), None if at_least or running.or_turning_Hz else paste


def _copied(frequency_Hz: float) -> str:
    """A frequency as it stands in a description."""
    return f"{show.plain_spaces(hertz(frequency_Hz))} (measured)"


def _read_stretch(stretch: Stretch, limit: VibrationClass) -> Running:
    """The part in which it runs, read; where its strength varies, that is why its speed may seem to."""
    try:
        running = read_running(stretch.samples, limit)
    except LogProblem:
        if stretch.louder < _SHORT_RUN:
            raise
        raise LogProblem(
            Trouble.TOO_SHORT,
            f"It shook for less than {LASTING_S:g} s in a row, too short to tell its speed and strength: let it run "
            f"for {RECORD_S:g} s at one setting and record that.",
        ) from None
    if stretch.steady:
        return running
    kept = (warning for warning in running.warnings if warning is not LogWarning.UNSTEADY)
    return replace(running, warnings=(*kept, LogWarning.VARYING))


def _part_used(samples: Samples, stretch: Stretch) -> list[str]:
    """Which part of the record was used, where that is not all of it, and what stands out of it."""
    whole_s, used = float(samples.time_s[-1]), stretch.samples.time_s
    used_s = float(used[-1] - used[0])
    told = []
    if whole_s - used_s > _CUT_S:
        why, what = f"ran at several strengths in the {whole_s:.0f} s", "was strongest and steady"
        if stretch.still:
            why, what = f"stood still for part of the {whole_s:.0f} s", "ran"
        where = f"from {used[0]:.1f} s to {used[-1]:.1f} s"
        told.append(f"It {why}: only the {used_s:.0f} s in which it {what}, {where}, were used.")
    if stretch.steady and stretch.louder > _LOUDER:
        told.append(
            f"For a moment it shook {show.figure(stretch.louder, digits=2)} times as strongly as in what was used, as "
            "at a start or a stop. If that was a setting of its own, record it for longer."
        )
    return told


def _other_speed(running: Running, rate_Hz: float) -> list[str]:
    """That it may turn at another speed, and how to tell."""
    told, other_Hz, rate = [], running.or_turning_Hz, f"{rate_Hz:.0f} samples a second"
    faster = "choose a faster rate, 100 samples a second or more"
    if running.mirrored and other_Hz:
        told.append(
            f"It may turn at {hertz(other_Hz)} as well as at {hertz(running.turning_Hz)}: in {rate} both look the "
            f"same. To tell, {faster}, and record again."
        )
    elif rate_Hz < ENOUGH_SAMPLES * FASTEST_TURN_Hz:
        told.append(
            f"{rate} show a frequency above {hertz(rate_Hz / ENOUGH_SAMPLES)} as a lower one, and a shaker may turn at "
            f"up to {hertz(FASTEST_TURN_Hz)} (an estimate): {faster}."
        )
    if other_Hz and not running.mirrored:
        part = "half" if 2.5 * other_Hz > running.turning_Hz else "a third"
        told += [
            f"It may turn at {hertz(running.turning_Hz)}, or at {part} of that, {hertz(other_Hz)}: a weight that turns "
            "slowly and unevenly shakes a cabinet at a multiple of its speed.",
            "To tell, film the weight in slow motion through its closed guard and count its turns, or change the "
            "setting until the strongest frequency is a quarter higher (lower, where it shakes too much) and record "
            f"again: if it turned at {part}, a line at {part} stands out there. Then write it under `found` of the "
            f"toy, as turning: {_copied(running.turning_Hz)} or turning: {_copied(other_Hz)}.",
        ]
    return told


def _within(running: Running) -> bool | None:
    """Whether the strongest line is within the limit; None where the log leaves that open."""
    use = running.strongest.limit_share
    if LogWarning.UNIT_DOUBTFUL in running.warnings:
        return None
    if use > 1:
        return False
    if any(warning in running.warnings for warning in _MORE):
        return None
    return None if LogWarning.UNIT_ASSUMED in running.warnings and G * use > 1 else True


def _verdict(running: Running, limit: VibrationClass, within: bool | None, at_least: bool) -> str:
    """The verdict against the limit, in one sentence."""
    line = running.strongest
    if line.frequency_Hz < CROSSING_Hz:
        does, allowed = f"moves by {shift(line.shift_m)} each way", _short(limit.shift_m * 1e3, "mm")
    else:
        does, allowed = f"is shaken with {accel(line.accel_m_s2)}", _short(limit.acceleration_m_s2, "m/s²")
    at = f"at {hertz(line.frequency_Hz)} the cabinet {does}{' or more' * at_least}"
    share = f"{'at least ' * at_least}{percent(line.limit_share)} of the {allowed} that it allows"
    if within:
        return f"Within the limit {limit.name}: {at}, {share}."
    if within is None:
        if_so = ", if the log is in m/s²" * (LogWarning.UNIT_ASSUMED in running.warnings)
        if_so += ", if its unit is right" * (LogWarning.UNIT_DOUBTFUL in running.warnings)
        return f"Not to be judged against the limit {limit.name}: {at}, {share}{if_so}."
    return f"Over the limit {limit.name}: {at}, {share}: lower the setting."


def _felt(running: Running) -> str:
    """How the strongest line is felt, and where it comes from when that is not the turning itself."""
    top = max(running.lines, key=lambda line: line.accel_m_s2)
    if top.accel_m_s2 < motion_value("felt acceleration").value:
        return "A hand hardly feels it."
    edge = motion_value("sway frequency").value
    pace = f"slower than about {edge:g} times a second: felt as a sway"
    if top.frequency_Hz > edge:
        pace = f"faster than about {edge:g} times a second: felt as a vibration"
    if top.number == 1 and running.or_turning_Hz:
        one = "its mirror image" if running.mirrored else "a multiple of it"
        return f"The turning itself, or {one}, is the strongest, {pace}."
    if top.number == 1:
        return f"The turning itself is the strongest, {pace}."
    return (
        f"Line {top.number} is the strongest: the weight turns at {hertz(running.turning_Hz)}, but the cabinet answers "
        f"at {hertz(top.frequency_Hz)}, {pace}."
    )


def below_standard(line: Line) -> bool:
    """Whether a line is slower than the limit's standard goes."""
    return line.frequency_Hz < _SLOWEST_STANDARD_Hz


# A nudge ------------------------------------------------------------------------------------------------------------


def _nudge(samples: Samples) -> tuple[ReadNudge, tuple[str, ...], Paste | None]:
    pieces = pushes(samples)
    read: list[Push] = []
    problem: LogProblem | None = None
    for piece in pieces:
        try:
            read.append(Push(piece, read_nudge(piece, samples)))
        except LogProblem as refused:
            problem = refused
    if not read:
        raise problem or LogProblem(Trouble.NO_DECAY, "No push was found in the record: push harder.")
    natural = _spread([push.nudge.natural_Hz for push in read], read[0].nudge.natural_error_Hz)
    damped = [push.nudge for push in read if push.nudge.damping is not None]
    clipped = LogWarning.CLIPPED in samples.warnings
    damping = None
    if 2 * len(damped) > len(read) and not clipped:
        damping = _spread([nudge.damping or 0.0 for nudge in damped], damped[0].damping_error)
    warnings = [str(warning) for warning in samples.warnings if warning not in _OF_STRENGTH]
    if len(read) < len(pieces):
        warnings.append(f"{len(pieces) - len(read)} of {len(pieces)} pushes could not be read and are left out.")
    warnings += _too_close(read, pieces)
    if natural.high > _PUSHES_APART * natural.low:
        warnings.append("The pushes differ in frequency: let it come to rest between them, and push the same way.")
    if damping and any(_uneven(nudge) for nudge in damped):
        warnings.append(
            "The swings do not die away evenly: something rattles or slips. Tape the phone down and push again."
        )
    found = ReadNudge(tuple(read), natural, damping, _nudge_verdict(natural, damping, clipped))
    lines = [f"sideways_frequency: {show.plain_spaces(hertz(natural.value))} (measured)"]
    if damping:
        lines.append(f"damping: {show.plain_spaces(damping_percent(damping.value))} (measured)")
    return found, tuple(warnings), Paste("cabinet", tuple(lines))


def _too_close(read: Sequence[Push], pieces: Sequence[Samples]) -> list[str]:
    """That a push came while the cabinet still swayed from the one before, and how long to wait."""
    fades = [push.nudge.damping * 2 * pi * push.nudge.natural_Hz for push in read if push.nudge.damping]
    wait_s = log(1 / _STILL) / median(fades) if fades else _REST_S
    if all(float(piece.time_s[-1] - piece.time_s[0]) > wait_s for piece in pieces[:-1]):
        return []
    return [
        f"Some pushes came while it still swayed from the one before: wait until it is still, {ceil(wait_s)} s at "
        "least, and record again if the result matters."
    ]


def _uneven(nudge: Nudge) -> bool:
    fitted, counted = nudge.damping or 0.0, nudge.check_damping
    return abs(fitted - counted) > _APART * max(fitted, counted)


def _spread(values: Sequence[float], error: float) -> Spread:
    """From lowest to highest of several; around a single one, what the fit leaves open."""
    value = median(values)
    if len(values) > 1:
        return Spread(value, min(values), max(values))
    return Spread(value, max(value - _SURE * error, 0.0), value + _SURE * error)


def _nudge_verdict(natural: Spread, damping: Spread | None, clipped: bool) -> str:
    """What it means, in one sentence."""
    meets = f"a weight that turns at {hertz(natural.value)}, or at half of that, shakes this cabinet most"
    if damping:
        at_rest = 1 / (2 * pi * natural.value * damping.value)
        return f"A push fades to a third in about {_short(at_rest, 's')}, and {meets}."
    why = "the record is clipped" if clipped else "friction, not a damper, stops it"
    return f"The damping cannot be told, since {why}; {meets}."

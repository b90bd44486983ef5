"""What an accelerometer log means for a cabinet: read as running or as a nudge, judged, put into sentences."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi
from statistics import median
from typing import Literal

from guide_gen.formulas.cabinet import CROSSING_Hz
from guide_gen.formulas.log_kind import is_nudge, pushes
from guide_gen.formulas.log_reading import (
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

_MISTAKEN = {
    "running": "The record dies away as after a push by hand. If it is one, read it with --kind nudge.",
    "nudge": "The record does not die away as after one push by hand: what is said of it here may mean nothing. "
    "If the shaker was running, read it with --kind running.",
}
_FOLDED = "What the range cuts off comes back as other frequencies: the turning frequency may be wrong too."
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
    """A running shaker, judged. within: None where it cannot be told. felt: how the strongest line is felt."""

    running: Running
    limit: VibrationClass
    within: bool | None
    verdict: str
    felt: str

    @property
    def at_least(self) -> bool:
        """Whether the true strength is larger than what was read."""
        return LogWarning.CLIPPED in self.running.warnings or LogWarning.UNSTEADY in self.running.warnings

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
    """Lines for the description, as they stand under a key: the toy's ``found``, or ``cabinet``."""

    key: Literal["found", "cabinet"]
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Shaken:
    """A log, read. chosen: whether running or nudge was decided here, not asked for."""

    samples: Samples
    chosen: bool
    found: ReadRunning | ReadNudge
    warnings: tuple[str, ...]
    paste: Paste | None

    @property
    def kind(self) -> Literal["running", "nudge"]:
        """What it was read as."""
        return "running" if isinstance(self.found, ReadRunning) else "nudge"


def shaken(text: str, limit: VibrationClass, kind: Kind = "auto") -> Shaken:
    """A log's text, read and judged. Raises LogProblem, whose sentence says what to record instead."""
    samples = read_log(text)
    cut = _cut(samples)
    try:
        decays = is_nudge(samples)
        nudge = decays if kind == "auto" else kind == "nudge"
        found, warnings, paste = _nudge(samples) if nudge else _running(samples, limit)
    except LogProblem as problem:
        raise LogProblem(problem.trouble, " ".join([str(problem), *cut])) from None
    if nudge != decays:
        warnings = (_MISTAKEN["nudge" if nudge else "running"], *warnings)
    return Shaken(samples, kind == "auto", found, (*cut, *warnings), paste)


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
    """An acceleration: ``1.2 m/s² (0.12 g)``."""
    return f"{_short(value_m_s2, 'm/s²')} ({_short(value_m_s2 / G, 'g')})"


def shift(value_m: float) -> str:
    """A shift: ``0.83 mm (0.033 in)``."""
    return f"{_short(value_m * 1e3, 'mm')} ({_short(value_m / 0.0254, 'in')})"


def percent(share: float) -> str:
    """A share of the limit, whole percents where it is large, a decimal beside 100 %: ``47 %``, ``6.1 %``."""
    near = 0.99 < share < 1.01
    return show.with_unit(show.figure(100 * share, 4 if near else 3, 1 if near or share < 0.1 else 0), "%")


def damping_percent(share: float) -> str:
    """A damping ratio in two digits: ``4.5 %``, ``6.0 %``."""
    return show.show(float(f"{share:.2g}"), "%")


def _short(value: float, unit: str) -> str:
    return show.with_unit(show.figure(value, digits=2), unit)


# Running ------------------------------------------------------------------------------------------------------------


def _running(samples: Samples, limit: VibrationClass) -> tuple[ReadRunning, tuple[str, ...], Paste | None]:
    running = read_running(samples, limit)
    if LogWarning.ALIASED in running.warnings:
        top = max(running.lines, key=lambda line: line.accel_m_s2)
        raise LogProblem(
            Trouble.ALIASED,
            f"A frequency of {show.plain_spaces(hertz(top.frequency_Hz))} was found in {samples.rate_Hz:.0f} samples a "
            "second: that is too few for it, and the true one may be another. Record again with the phone's fastest "
            "rate, or at a lower setting.",
        )
    unsteady = LogWarning.UNSTEADY in running.warnings
    clipped = LogWarning.CLIPPED in running.warnings
    verdict = _verdict(running, limit, _within(running), unsteady or clipped)
    found = ReadRunning(running, limit, _within(running), verdict, _felt(running))
    warnings = [str(warning) for warning in running.warnings]
    warnings += [_LESS] * unsteady + [_FOLDED] * clipped
    paste = Paste("found", (f"turning: {show.plain_spaces(hertz(running.turning_Hz))} (measured)",))
    return found, tuple(warnings), None if unsteady or clipped else paste


def _within(running: Running) -> bool | None:
    """Whether the strongest line is within the limit; None where the log leaves that open."""
    use = running.strongest.limit_share
    if LogWarning.UNIT_DOUBTFUL in running.warnings:
        return None
    if use > 1:
        return False
    if LogWarning.CLIPPED in running.warnings or LogWarning.UNSTEADY in running.warnings:
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
            read.append(Push(piece, read_nudge(piece)))
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

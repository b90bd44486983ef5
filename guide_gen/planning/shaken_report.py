"""What a log said, as text for a terminal and as JSON."""

from collections.abc import Sequence
from typing import Any

from guide_gen import __version__
from guide_gen.formulas.log_reading import Line
from guide_gen.formulas.log_text import LogProblem
from guide_gen.planning.shaken import (
    Paste,
    ReadNudge,
    ReadRunning,
    Shaken,
    Spread,
    below_standard,
    damping_percent,
    hertz,
    percent,
)
from guide_gen.published.vibration import VibrationClass, motion_value
from guide_gen.values import show

_STANDARD = "IEC 60721-3-3, classes as labelled in 1994"
_COLUMNS = (7, 12, 16, 13)


def shaken_text(read: Shaken) -> str:
    """Everything in plain sentences, the verdict early, what to copy at the end."""
    found = read.found
    blocks = [[_taken(read)], _running(found) if isinstance(found, ReadRunning) else _nudge(found)]
    blocks += [[f"Careful: {warning}"] for warning in read.warnings]
    if read.paste:
        blocks.append(_paste(read.paste))
    if read.at_full:
        blocks.append(_at_full(read.at_full))
    return show.plain_spaces("\n\n".join("\n".join(block) for block in blocks)) + "\n"


def _taken(read: Shaken) -> str:
    samples = read.samples
    read_s = float(samples.time_s[-1])
    what = "a running shaker" if read.kind == "running" else "a cabinet that was pushed by hand"
    taken = f"taken for {what}" if read.chosen else f"read as {what}"
    other = "nudge" if read.kind == "running" else "running"
    wrong = f" If that is wrong, add --kind {other}." if read.chosen else ""
    return f"{read_s:.1f} s, {samples.rate_Hz:.0f} samples a second, {taken}.{wrong}"


def _running(found: ReadRunning) -> list[str]:
    running, limit, other_Hz = found.running, found.limit, found.running.or_turning_Hz
    top = motion_value("shift at the top").value
    lines = [
        found.verdict,
        found.felt,
        "",
        f"Turning frequency: {hertz(running.turning_Hz)}" + (f", or {hertz(other_Hz)}" if other_Hz else ""),
        "",
        _row(("line", "frequency", "acceleration", "shift", f"share of {limit.name}")),
        *(_line(found, line) for line in running.lines),
        "",
        "Line 2 comes twice a turn, line 3 three times, and so on; acceleration and shift are peaks, each way.",
        f"Limit {limit.name}: {_limit(limit)} ({_STANDARD}).",
    ]
    if below_standard(running.strongest):
        lines.append("The standard begins at 2 Hz; its shift is carried on below that.")
    return [*lines, f"This holds where the phone lay; the top of a cabinet may move {top:g} times as far (estimate)."]


def _limit(limit: VibrationClass) -> str:
    return f"{limit.shift_m * 1e3:g} mm up to 9 Hz, {limit.acceleration_m_s2:g} m/s² from there on"


def _line(found: ReadRunning, line: Line) -> str:
    if found.in_noise(line):
        return _row((str(line.number), hertz(line.frequency_Hz), "lost in the noise"))
    return _row((
        str(line.number),
        hertz(line.frequency_Hz),
        show.with_unit(show.figure(line.accel_m_s2), "m/s²"),
        show.with_unit(show.figure(line.shift_m * 1e3), "mm"),
        "at least " * found.at_least + percent(line.limit_share) + " (decides)" * (line is found.running.strongest),
    ))  # fmt: skip


def _row(cells: Sequence[str]) -> str:
    wide = [cell.ljust(size) for cell, size in zip(cells, _COLUMNS, strict=False)]
    return "  " + "".join([*wide, *cells[len(_COLUMNS) :]]).rstrip()


def _nudge(found: ReadNudge) -> list[str]:
    count, swings = len(found.pushes), sum(push.nudge.extrema for push in found.pushes)
    lines = [
        found.verdict,
        "",
        f"Natural frequency: {hertz(found.natural_Hz.value)} ({_between(found.natural_Hz, 'Hz')})",
    ]
    if found.damping:
        lines.append(f"Damping: {damping_percent(found.damping.value)} ({_between(found.damping, '%', 100)})")
    if count > 1:
        return [*lines, f"The middle of {count} pushes, {swings} swings to one side in all."]
    return [
        *lines,
        f"From one push, {swings} swings to one side. Three pushes in one record, with rest between, show the spread "
        "better.",
    ]


def _between(spread: Spread, unit: str, times: float = 1) -> str:
    low, high = show.ends(times * spread.low, times * spread.high)
    return f"from {low} to {show.with_unit(high, unit)}"


def _paste(paste: Paste) -> list[str]:
    under, deep = ("`found` of the toy", "      ") if paste.key == "found" else ("`cabinet`", "  ")
    return [f"To keep it, copy into the description, under {under}:", *(deep + line for line in paste.lines)]


def _at_full(paste: Paste) -> list[str]:
    lines = ("      " + line for line in paste.lines)
    return ["Only if it ran at the toy's full voltage, at 100 %, copy under `motor` of the toy:", *lines]


# JSON ---------------------------------------------------------------------------------------------------------------


def shaken_json(read: Shaken) -> dict[str, Any]:
    """One document; every number has its unit in its key, what does not apply is absent."""
    samples, found = read.samples, read.found
    document: dict[str, Any] = {
        "guide_gen": __version__,
        "kind": read.kind,
        "record": {
            "samples": len(samples.time_s),
            "length_s": float(samples.time_s[-1]),
            "whole_length_s": samples.whole_s,
            "rate_Hz": samples.rate_Hz,
            "with_gravity": samples.with_gravity,
        },
        "verdict": show.plain_spaces(found.verdict),
        **(_running_json(found) if isinstance(found, ReadRunning) else _nudge_json(found)),
        "warnings": [show.plain_spaces(warning) for warning in read.warnings],
    }
    if read.paste:
        document["paste"] = _paste_json(read.paste)
    if read.at_full:
        document["paste_at_full_voltage"] = _paste_json(read.at_full)
    return document


def _paste_json(paste: Paste) -> dict[str, Any]:
    return {"under": paste.key, "lines": list(paste.lines)}


def _running_json(found: ReadRunning) -> dict[str, Any]:
    limit, running = found.limit, found.running
    judged = {} if found.within is None else {"within": found.within}
    return {
        **judged,
        "limit": {
            "class": limit.name,
            "shift_mm": limit.shift_m * 1e3,
            "accel_m_s2": limit.acceleration_m_s2,
            "source": _STANDARD,
        },
        "turning_Hz": running.turning_Hz,
        **({"or_turning_Hz": running.or_turning_Hz} if running.or_turning_Hz else {}),
        "used_s": {"from": float(found.used.time_s[0]), "to": float(found.used.time_s[-1])},
        "lines": [
            {
                "number": line.number,
                "frequency_Hz": line.frequency_Hz,
                "accel_m_s2": line.accel_m_s2,
                "shift_mm": line.shift_m * 1e3,
                "limit_share": line.limit_share,
                "in_noise": found.in_noise(line),
            }
            for line in running.lines
        ],
        "strongest": running.strongest.number,
        "noise_m_s2": running.noise_m_s2,
    }


def _nudge_json(found: ReadNudge) -> dict[str, Any]:
    document: dict[str, Any] = {
        "natural_Hz": found.natural_Hz.value,
        "natural_spread_Hz": {"low": found.natural_Hz.low, "high": found.natural_Hz.high},
    }
    if found.damping:
        document["damping_percent"] = 100 * found.damping.value
        document["damping_spread_percent"] = {"low": 100 * found.damping.low, "high": 100 * found.damping.high}
    document["pushes"] = [
        {"natural_Hz": push.nudge.natural_Hz, "swings": push.nudge.extrema}
        | ({} if push.nudge.damping is None else {"damping_percent": 100 * push.nudge.damping})
        for push in found.pushes
    ]
    return document


def problem_json(problem: LogProblem) -> dict[str, Any]:
    """A log that cannot be read."""
    return {
        "guide_gen": __version__,
        "problem": {"code": problem.trouble.value, "message": str(problem)},
        "warnings": [],
    }

"""Checks of flashing light, of all lamps together."""

from collections.abc import Iterable

from guide_gen.formulas.choice import reaches
from guide_gen.model.finding import Finding, Level
from guide_gen.published import tables
from guide_gen.values import show


def flashing_Hz(rates: Iterable[tuple[str, float]]) -> float:
    """The sum of the rates of lamps that are not driven together, where only the sum is too fast; else 0."""
    flashing = [rate for _, rate in rates if rate > 0]
    limit, total = tables.rule("flash rate"), sum(flashing)
    alone = any(not reaches(limit.value, rate) for rate in flashing)
    fits = len(flashing) < 2 or alone or reaches(limit.value, total) or total > (limit.high or total)
    return 0.0 if fits else total


def flash_findings(rates: Iterable[tuple[str, float]]) -> list[Finding]:
    """Lamps that are not driven together: the sum of their rates, where none of them alone flashes too fast."""
    flashing = [(name, rate) for name, rate in rates if rate > 0]
    limit, total = tables.rule("flash rate"), flashing_Hz(flashing)
    if not total:
        return []
    named = " and ".join(f"{name} ({show.hertz(rate)})" for name, rate in flashing)
    return [
        Finding(
            "flash-rate",
            Level.SHOULD,
            f"{named} together flash {show.figure(total)} times a second where they are not in step: from three to "
            "sixty that can provoke seizures.",
            f"at most {limit.value:g} Hz together",
            "Drive them from one port so that they flash in step, or set them slower.",
            ("toys",),
        )
    ]

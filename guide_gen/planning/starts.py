"""What starts on a supply: what is asked of it then, and what mends it where that is too much."""

from collections.abc import Sequence
from dataclasses import replace

from guide_gen.formulas import supply as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.loads import held_words
from guide_gen.model.plan import Sized, SupplyPlan
from guide_gen.planning.checks import control_of
from guide_gen.planning.held import on_its_way
from guide_gen.planning.sizing import Sizing, sizing
from guide_gen.published.tables import supply_ratings_A
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity


def start_A(sized: Sized) -> float | None:
    """What a toy asks of the supply at its start: full voltage at once, unless the build sets it lower.

    PWM asks the supply for about the share of its setting; behind a trimmer it starts at the trimmer's setting. What
    its control takes flows besides.
    """
    full, beside_A = sized.load.start_A, sized.signal_A[1]
    if full is None:
        return None
    if sized.control == "speed controller":
        return sized.drawn_A[1]
    limit = sized.port.limit_share if sized.port and sized.control == "pwm port" else None
    return beside_A + (full if limit is None else limit * max(full, sized.load.design_current_A))


def start_note(sized: Sized) -> str:
    """What that start assumes: the port's limit, or the trimmer's setting; "" where it is that at full strength."""
    full = sized.load.start_A
    if full is None:
        return ""
    if sized.control == "speed controller":
        return f"at its trimmer's setting; at full up to {held_words(sized)}"
    limit = sized.port.limit_share if sized.port and sized.control == "pwm port" else None
    return "" if limit is None else f"at {show.percent(limit)}, the port's limit"


def starter(sized: Sized) -> formulas.Starter | None:
    """A toy at its start, by its slug; None: not known."""
    asked, running = start_A(sized), sized.drawn_A[1]
    return None if asked is None else formulas.Starter(sized.slug, max(asked, running), running)


def worst_start(several: Sequence[Sized]) -> formulas.StartBudget:
    """What is asked of a supply while one of its toys starts and all others run: the worst of them, by slug."""
    known = (starter(one) for one in several)
    return formulas.largest_start(
        sum(one.drawn_A[1] for one in several), tuple(one for one in known if one is not None)
    )


# ---- where that is more than the supply gives -----------------------------------------------------------------------


def mend(whole: Sizing, supply: SupplyPlan, first: Sized, asked_A: float) -> str:
    """What helps where a start asks for more than the supply gives, by what the toy's control can do.

    first: the toy that starts. asked_A: while it does and all others run.
    """
    rating_A, name = rating_to_start_A(whole, supply.slug, supply.demand_A, asked_A), first.name
    ways = [f"take a supply of {show.amps(rating_A)}"] if rating_A is not None else []
    gentle, told = gentler(first)
    ways.append(gentle)
    running_A = first.drawn_A[1]
    if not reaches(running_A, supply.demand_A) and reaches(supply.limit_A, asked_A - supply.demand_A + running_A):
        ways.append(f"start {name} while all others on {supply.slug} are off")
    *before, last = ways
    text = f"{', '.join(before)}, or {last}" if before else last
    return f"{text[0].upper()}{text[1:]}.{told}"


def gentler(sized: Sized) -> tuple[str, str]:
    """How this toy starts with less, as an order; and a sentence about that. Source: common practice, no source."""
    control = control_of(sized)
    if control.chops and control.port_carries_load:
        return f"raise the strength of {sized.name} in small steps instead of at once", ""
    if sized.load.held_A is not None:
        return (
            f"drive {sized.name} by a speed controller or a PWM port, and raise its strength in small steps",
            f" Its control now, {sized.control}, gives full strength at once.",
        )
    return (
        f"give {sized.name} a soft start: an inrush limiter (NTC) for {show.amps(sized.load.design_current_A)} or more "
        "in its plus wire",
        " The limiter gets hot, and limits again only once it has cooled.",
    )


def rating_to_start_A(whole: Sizing, slug: str, demand_A: float, asked_A: float) -> float | None:
    """The smallest usual supply that carries such a start; None: none does.

    A stronger supply asks for a thicker lead, which lets more flow at the start, so that the build is sized with it.
    """
    needed_A = formulas.rating_needed_A(demand_A=demand_A, peak_A=asked_A)
    fitting = (one for one in supply_ratings_A() if reaches(one, needed_A))
    return next((one for one in fitting if reaches(one, asked_with_A(whole, slug, one))), None)


def asked_with_A(whole: Sizing, slug: str, rating_A: float) -> float:
    """What the worst start asks of a supply of this rating, which gives just that at most."""
    build = whole.build
    given = Quantity(rating_A, rating_A, f"{rating_A:g} A", "A", Basis.DATASHEET)
    stronger = build.supplies[slug].model_copy(update={"current": given, "current_limit": given})
    after = sizing(build.model_copy(update={"supplies": {**build.supplies, slug: stronger}}))
    here = [one for one in after.toys.values() if one.draft.supply_slug == slug]
    return worst_start(
        [replace(one.sized, load=on_its_way(one.sized, one.loop, after.cabling)) for one in here]
    ).demand_A

"""Questions that readers bring to a supply, answered with its own values."""

from collections.abc import Iterator, Sequence

from guide_gen.description.build import Supply
from guide_gen.model.plan import Branch, Question, SupplyPlan
from guide_gen.planning.cautions import DAMP_V, GUARD_V
from guide_gen.planning.drafts import limit_to_carry_A, voltage_ends
from guide_gen.values import show


def supply_questions(
    supply: SupplyPlan, fields: Supply, branches: Sequence[Branch], usable_A: float, rating: str
) -> tuple[Question, ...]:
    """In the order in which they come up. rating: what to do about its rating."""
    return (
        *one_fuse(branches),
        parallel(supply, usable_A, rating),
        touched(fields),
        tingle(fields),
    )


def one_fuse(branches: Sequence[Branch]) -> Iterator[Question]:
    """One fuse for several toys; asked where there are several."""
    if len(branches) < 2:
        return
    thinnest = min(branches, key=lambda one: one.ampacity_A)
    together = sum(one.running_A[1] for one in branches)
    yield Question(
        "one-fuse",
        "One fuse for several toys?",
        f"No. One for the {show.amps(together)} of all together may still be no larger than the thinnest wire behind "
        f"it stands, the {show.amps(thinnest.ampacity_A)} of {thinnest.wire}; and it cannot tell one stalled toy from "
        "several that run. One fuse for each branch, as in the table.",
    )


def parallel(supply: SupplyPlan, usable_A: float, rating: str) -> Question:
    """Two supplies for more current."""
    here = f"{supply.id} has {show.amps(usable_A)} for long, and {show.amps(supply.demand_A)} are asked of it"
    return Question(
        "parallel",
        "Two supplies in parallel for more current?",
        "Not unless their maker says so: the one that is set a little higher takes the whole load. Never join their "
        f"plus. {here}: {rating}",
    )


def touched(fields: Supply) -> Question:
    """Whether its voltage is safe to touch; what is the greater danger."""
    highest = voltage_ends(fields)[1]
    power = highest * limit_to_carry_A(fields)
    if highest >= GUARD_V:
        felt = "No: a shock can injure, and rules of work guard bare parts from 50 V (29 CFR 1910.303(g)(2)(i)) on."
    elif highest > DAMP_V:
        felt = "Dry skin usually feels little; wet hands can get a shock above 30 V (IEC 60364-4-41, from memory)."
    else:
        felt = "Skin usually feels nothing, dry or damp: it stays at or below 30 V."
    return Question(
        "touched",
        f"Is {show.volts(highest)} safe to touch?",
        f"{felt} The greater danger is a short circuit: this supply can put {show.watts(power)} into a ring or a "
        "screwdriver, enough for a deep burn. Take metal off, cover terminals.",
    )


def tingle(fields: Supply) -> Question:
    """Metal that tingles, by the plug that this supply has."""
    plug = {
        True: "This one has an earthed plug, so it should not: unplug, and have the outlet and the supply checked.",
        False: "This one has a two-wire plug: a little current leaks through its filter. Take one with an earthed "
        "plug.",
        None: "Whether this one has an earthed plug is not described: one with two wires lets a little current leak.",
    }[fields.earth_pin]
    return Question(
        "tingle",
        "Metal of the cabinet tingles. Why?",
        f"{plug} 0 V and metalwork are joined as its maker says. If it is strong, or new: pull the plug before "
        "anything else.",
    )

"""A supply as a whole: what runs on it, what starts, what is left, and what protects when too much is asked."""

from collections.abc import Mapping, Sequence

from guide_gen.description.build import Build, Supply
from guide_gen.formulas import supply as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.plan import BlockPlan, Branch, Budget, SupplyPlan, ToyPlan
from guide_gen.planning import starts
from guide_gen.planning.drafts import contradicted, gives_A, home_of
from guide_gen.planning.protection import seconds
from guide_gen.planning.sizing import Sizing
from guide_gen.planning.supply_questions import supply_questions
from guide_gen.values import show
from guide_gen.values.worked import Shape, Worked, work

OVERLOAD = {
    "limits": "lowers its voltage so that no more than {limit} flows, for as long as the fault lasts",
    "restarts": "switches off, and tries again every few seconds",
    "switches off": "switches off, and stays off until its plug has been out",
    "not known": "is not known: look it up in its data sheet",
}


def budget(whole: Sizing, supply: SupplyPlan, toys: Mapping[str, ToyPlan], blocks: Mapping[str, BlockPlan]) -> Budget:
    """What all toys on one supply ask of it. toys, blocks: all of the build, by slug."""
    build = whole.build
    fields = build.supplies[supply.slug]
    here = [toy for toy in toys.values() if toy.sized.supply_slug == supply.slug]
    rows = tuple(row(one) for one in blocks.values() if one.supply_slug == supply.slug)
    order = {slug: place for place, slug in enumerate(("", *build.blocks))}
    branches = tuple(sorted((branch(toy) for toy in here), key=lambda one: order[one.block]))
    worst = starts.worst_start([one.sized for one in here])
    first = next((one for one in here if one.slug in worst.together), None)
    mend = ""
    if first and not reaches(supply.limit_A, worst.demand_A):
        mend = starts.mend(whole, supply, first.sized, worst.demand_A)
    gives = gives_A(fields)
    usable = formulas.usable_current_A(rated_A=gives)
    worked: list[Worked] = [
        work(formulas.usable_current_A, "supply.usable", "What may be asked of it for long", rated_A=gives)
    ]
    if first and (starting := starts.starter(first.sized)):
        worked.append(
            work(
                formulas.demand_at_start_A,
                "supply.start",
                "While the heaviest starter starts and all others run",
                demand_A=supply.demand_A,
                start_A=starting.start_A,
                running_A=starting.running_A,
            )
        )
    needed, buy = supply.rated_A, None
    if branches:
        # For what runs: a start at full strength is told in words, since a slow rise cures it without another supply.
        rating = work(
            formulas.rating_to_run_A,
            "supply.needed",
            "Rating that the supply needs for what runs",
            demand_A=supply.demand_A,
        )
        needed = float(rating.result)
        buy, candidates = formulas.rating_to_buy(needed)
        worked += [
            rating,
            Worked(
                "supply.buy",
                "Rating to buy",
                Shape.CHOICE,
                "I_r",
                buy if buy is not None else "none",
                "A" if buy is not None else "",
                "smallest usual rating at or above needed_A",
                "common practice, no source",
                candidates=candidates,
            ),
        ]
    short = not reaches(usable, supply.demand_A)
    contradicts = short and contradicted(fields) and reaches(formulas.usable_current_A(supply.rated_A), supply.demand_A)
    return Budget(
        branches=branches,
        running_A=supply.demand_A,
        usable_A=usable,
        used_share=supply.demand_A / gives,
        start_A=worst.demand_A,
        started_by=first.name if first else "",
        unmeasured=tuple(one.name for one in branches if one.start_A is None),
        needed_A=needed,
        buy_A=buy,
        short=short,
        started_s=first.sized.load.start_s if first else 0.0,
        gives_A=gives,
        start_mend=mend,
        contradicted=contradicts,
        overload=tuple(overload_words(supply, fields, (*rows, *branches))),
        start=tuple(start_words(supply, first, worst.demand_A, mend, here)),
        shared=tuple(shared_words(build, supply, toys)),
        worked=tuple(worked),
        questions=supply_questions(supply, fields, branches, usable, rating_words(buy, short, contradicts)),
        blocks=rows,
    )


def rating_words(buy_A: float | None, short: bool, contradicts: bool) -> str:
    """What to do about its rating, for what runs."""
    if not short:
        return "that is enough."
    if contradicts:
        return "that is enough by its rated current, and too much by its limit: see the findings."
    return f"take one of {show.amps(buy_A)}, or split the toys over two." if buy_A else "split the toys over two."


def row(block: BlockPlan) -> Branch:
    """A distribution block's part of the supply's table."""
    return Branch(
        toy="",
        name=f"Block {block.slug}",
        fuse_id=block.fuse.id if block.fuse.rating_A is not None else "",
        fuse_A=block.fuse.rating_A,
        wire=block.wire.size.shown,
        ampacity_A=block.wire.ampacity_A,
        running_A=(block.load.lowest_current_A, block.load.design_current_A),
        start_A=None,
        by=block.protection.by,
        block=block.slug,
        opened_s=block.protection.opened_s,
    )


def branch(toy: ToyPlan) -> Branch:
    """One toy's part of the supply's table."""
    sized = toy.sized
    return Branch(
        toy=toy.slug,
        name=toy.name,
        fuse_id=sized.fuse.id if sized.fuse.rating_A is not None else "",
        fuse_A=sized.fuse.rating_A,
        wire=sized.wire.size.shown,
        ampacity_A=sized.wire.ampacity_A,
        running_A=sized.drawn_A,
        start_A=starts.start_A(sized),
        by=toy.protection.by if toy.protection else "",
        block=sized.block_slug,
        start_note=starts.start_note(sized),
        opened_s=toy.protection.opened_s if toy.protection else None,
    )


def until_open_words(supply: SupplyPlan, opened_s: float) -> str:
    """What the other toys see until a fuse has opened: the supply limits, and its voltage is gone for all."""
    lasts = f"Until then, for up to {seconds(opened_s)}, its voltage collapses for every toy and board on it"
    after = {
        "limits": "then they go on",
        "restarts": "it may also switch off meanwhile and try again by itself",
        "switches off": "it may also switch off before, and stays off until its plug has been out",
    }.get(supply.overload, "whether it comes back by itself is not known")
    return f"{lasts}; {after}."


def overload_words(supply: SupplyPlan, fields: Supply, branches: Sequence[Branch]) -> list[str]:
    """What it does when too much is asked of it, and which thing protects then."""
    does = OVERLOAD[supply.overload].format(limit=show.amps(supply.limit_A))
    stated = "" if fields.current_limit else ", which is an estimate: its data sheet does not say here"
    first = (
        f"On overload what {supply.id} does {does}."
        if supply.overload == "not known"
        else f"On overload {supply.id} {does}. It gives at most {show.amps(supply.limit_A)}{stated}."
    )
    found = [first]
    by_fuse = [one.fuse_id for one in branches if one.by == "fuse"]
    opened_s = max((one.opened_s or 0.0 for one in branches if one.by == "fuse"), default=0.0)
    by_supply = [one.fuse_id or one.name for one in branches if one.by in ("supply", "wire")]
    unsure = [one.fuse_id or one.name for one in branches if one.by == "nothing"]
    if by_fuse:
        found.append(
            f"A short circuit behind {listed(by_fuse)} is ended by that fuse. {until_open_words(supply, opened_s)}"
        )
    if by_supply:
        found.append(
            f"Behind {listed(by_supply)} the supply itself is the protection: the fuse may stay whole, "
            "and every toy on this supply stops or weakens until the fault is gone."
        )
    if unsure:
        found.append(f"Behind {listed(unsure)} nothing is sure to end it: see the findings.")
    return found


def start_words(
    supply: SupplyPlan, first: ToyPlan | None, asked_A: float, mend: str, toys: Sequence[ToyPlan]
) -> list[str]:
    """Whether the heaviest start passes, and what to measure where it is not known. mend: if it does not."""
    found = []
    if first:
        limit, most = show.amps_apart(supply.limit_A, asked_A)
        note = starts.start_note(first.sized)
        start = f"{first.name} starts {note}," if note else f"{first.name} starts at full voltage"
        asked = f"While {start} and all others run, {most} are asked for"
        if not mend:
            found.append(f"{asked}; the supply gives up to {limit}: it starts.")
        else:
            how = {
                "limits": "it starts more slowly, and the voltage of all toys sags meanwhile",
                "restarts": "it may switch off and try again",
                "switches off": "it may switch off",
            }.get(supply.overload, "what happens then is not known")
            found.append(f"{asked}, above the {limit} that the supply gives: {how}. {mend}")
    found += trimmer_words(supply, toys)
    unmeasured = [one for one in toys if one.sized.load.start_A is None]
    motors = [one.name for one in unmeasured if one.sized.load.kickback]
    others = [one.name for one in unmeasured if not one.sized.load.kickback]
    if motors:
        found.append(
            f"The start of {listed(motors)} is not known. To know it, hold the shaft for a second at 1 to 2 V on a "
            "bench supply, read volts and amperes together: their quotient is the winding's resistance, and the "
            f"{show.volts(supply.voltage_V)} of this supply over it is the most that a start draws."
        )
    if others:
        found.append(
            f"The start of {listed(others)} is not known: electronics inside set it. Look for the inrush current in "
            "the data sheet, or read it on a clamp meter for direct current that holds the highest value."
        )
    return found


def trimmer_words(supply: SupplyPlan, toys: Sequence[ToyPlan]) -> list[str]:
    """A start behind a trimmer counts at its setting: what the supply does where the trimmer stands at full."""
    asking = [
        one.name
        for one in toys
        if one.sized.control == "speed controller"
        and one.sized.load.start_A is not None
        and not reaches(supply.limit_A, supply.demand_A - one.sized.load.design_current_A + one.sized.load.start_A)
    ]
    if not asking:
        return []
    does = {
        "limits": "the voltage of all toys sags meanwhile",
        "restarts": f"it trips {supply.id}, which switches off and tries again",
        "switches off": f"it trips {supply.id}, which stays off until its plug has been out",
    }.get(supply.overload, f"what {supply.id} does then is not known")
    return [
        f"A start of {listed(asking)} at full trimmer, while all others run, asks for more than "
        f"{show.amps(supply.limit_A)}: {does}. Start at a low setting."
    ]


def shared_words(build: Build, supply: SupplyPlan, toys: Mapping[str, ToyPlan]) -> list[str]:
    """What several supplies and one board need."""
    found = []
    for slug, board in build.boards.items():
        used = {toy.sized.supply_slug for toy in toys.values() if toy.sized.port and toy.sized.port.board == slug}
        meeting = sorted(used | {home_of(build, board)})
        if supply.slug not in meeting or len(meeting) < 2:
            continue
        joined = set(meeting) <= set(board.common_return)
        others = listed([one for one in meeting if one != supply.slug])
        found.append(
            f"At {slug} this supply meets {others}: their 0 V are joined at the board, at one point, each by a lead of "
            "its own, so that every switched current has its way back. Their plus sides stay apart."
            if joined
            else f"At {slug} this supply meets {others}: join their 0 V at the board, at one point; never their plus."
        )
    if len(build.supplies) > 1:
        found.append(
            "Never join the plus of two supplies for more current: one of them takes the whole load. "
            "Move toys from one to the other."
        )
    return found


def listed(names: Sequence[str]) -> str:
    """F1, F2 and F3."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last

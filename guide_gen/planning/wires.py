"""The wire of a feed: the smallest size that carries the fuse, the current and the drop; and the shared leads."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from guide_gen.formulas import fuse as fuse_formulas
from guide_gen.formulas import wire as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.circuit import Wire
from guide_gen.model.plan import FusePlan, WirePlan
from guide_gen.planning import faults
from guide_gen.planning.cabling import HOTTEST_DEGC, Cabling
from guide_gen.planning.loops import Loop
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import Candidate, Shape, Worked, default, work

TIES = ("fuse", "ampacity", "short circuit", "supply limit", "drop")
"""The rules of a wire; which is named first when several ask for the same size."""


@dataclass(frozen=True)
class Choice:
    """A chosen or checked wire, and the sizes that each rule alone would ask for (None: no size is enough)."""

    plan: WirePlan
    least: dict[str, WireSize | None]
    other_drop_V: float
    drop_counts: bool
    worked: tuple[Worked, ...]


def carries_fuse(cabling: Cabling, size: WireSize, fuse: FusePlan) -> bool:
    """Whether the wire may stand behind this fuse: In <= Iz, I2 <= 1.45 Iz and the family's own cap."""
    if fuse.rating_A is None:
        return True
    cap, ampacity = cabling.fuse_cap_A(size), cabling.ampacity_A(size)
    if cap is not None and not reaches(cap, fuse.rating_A):
        return False
    return reaches(ampacity, least_behind_A(fuse))


def least_behind_A(fuse: FusePlan) -> float:
    """The ampacity that a wire needs behind this fuse."""
    assert fuse.rating_A is not None
    return fuse_formulas.least_ampacity_A(rating_A=fuse.rating_A, opens_at=tables.fuse_series(fuse.series).opens_at)


def choose(cabling: Cabling, fuse: FusePlan, loop: Loop, stated: WireSize | None, run_m: float) -> Choice:
    """The wire of a feed: chosen, or the stated one with the same figures."""
    sizes = cabling.sizes()
    counts = drop_counts(fuse, loop)
    rules = TIES if counts else TIES[:-1]

    def meets(name: str, size: WireSize) -> bool:
        return RULES[name](cabling, size, fuse, loop)

    least = {name: next((size for size in sizes if meets(name, size)), None) for name in rules}
    chosen, governs = governed(sizes, least, meets)
    size = stated or chosen
    drop = loop.drop_V(cabling, size, fuse.resistance_ohm)
    plan = WirePlan(
        size,
        tables.area_mm2(size),
        run_m,
        cabling.ampacity_A(size),
        drop,
        formulas.drop_percent(drop_V=drop, voltage_V=loop.voltage_V),
        "stated" if stated else governs,
        stated is not None,
    )
    return Choice(
        plan,
        least,
        other_V(fuse, loop),
        counts,
        worked(cabling, fuse, loop, plan, chosen, meets_words(meets, rules)),
    )


def other_V(fuse: FusePlan, loop: Loop) -> float:
    """What is lost in fuse, contacts and switch, whatever the wire."""
    return loop.current_A * loop.other_ohm(fuse.resistance_ohm)


def drop_counts(fuse: FusePlan, loop: Loop) -> bool:
    """Whether wire may take half of the drop limit or more; else no thicker wire is asked for to keep it."""
    return other_V(fuse, loop) <= loop.limit_V() / 2


def meets_all(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether a wire meets every rule, the drop among them."""
    return all(RULES[name](cabling, size, fuse, loop) for name in reversed(TIES))  # the drop first: it fails most often


def stands_fault(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether it stands what the fuse ends, and carries for ever what the run itself keeps too small to be ended."""
    lasting_A, limited = faults.lasting_A(cabling, size, fuse, loop)
    carried = limited or reaches(cabling.ampacity_A(size), lasting_A)
    return carried and faults.stands(cabling, size, fuse, loop)


def carries_limit(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether it carries the supply's limit for ever, where that opens no fuse in time."""
    lasting_A, limited = faults.lasting_A(cabling, size, fuse, loop)
    return not limited or reaches(cabling.ampacity_A(size), lasting_A)


def keeps_drop(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether no more voltage is lost than is allowed."""
    return reaches(loop.limit_V(), loop.drop_V(cabling, size, fuse.resistance_ohm))


RULES: dict[str, Callable[[Cabling, WireSize, FusePlan, Loop], bool]] = {
    "fuse": lambda cabling, size, fuse, _: carries_fuse(cabling, size, fuse),
    "ampacity": lambda cabling, size, _, loop: reaches(cabling.ampacity_A(size), loop.current_A),
    "short circuit": stands_fault,
    "supply limit": carries_limit,
    "drop": keeps_drop,
}
"""What a wire has to meet, by the names of `TIES`."""


def governed(
    sizes: Sequence[WireSize], least: Mapping[str, WireSize | None], meets: Callable[[str, WireSize], bool]
) -> tuple[WireSize, str]:
    """The smallest size that meets every rule, and the rule that passes over the one below it; see `TIES`.

    A rule that no size meets is told as a finding. The thickest wire comes nearest to it; but where no wire carries the
    supply's limit only another supply helps, and the other rules choose.
    """
    counts = [name for name, size in least.items() if size is not None or name != "supply limit"]
    chosen = next((size for size in sizes if all(meets(name, size) for name in counts)), sizes[-1])
    unmet = next((name for name in counts if least[name] is None), None)
    if unmet or chosen == sizes[0]:
        return chosen, unmet or "smallest size"
    below = sizes[sizes.index(chosen) - 1]
    return chosen, next(name for name in counts if not meets(name, below))


def meets_words(meets: Callable[[str, WireSize], bool], rules: Sequence[str]) -> Callable[[WireSize], str]:
    """For a size, the first rule that passes it over."""
    words = {
        "fuse": "may not stand behind this fuse",
        "ampacity": "carries less than the current",
        "short circuit": "does not stand a short circuit until the fuse opens",
        "supply limit": "does not carry for ever what the supply gives, which may not open the fuse",
        "drop": "loses more than the limit",
    }
    return lambda size: next((words[name] for name in rules if not meets(name, size)), "")


def worked(
    cabling: Cabling, fuse: FusePlan, loop: Loop, plan: WirePlan, chosen: WireSize, why: Callable[[WireSize], str]
) -> tuple[Worked, ...]:
    """How wire and drop were found."""
    sizes = cabling.sizes()
    upto = sizes[: sizes.index(chosen) + 1][-3:]
    candidates = tuple(Candidate(size.shown, why(size)) for size in upto)
    stated = plan.stated
    size = plan.size
    letters = {
        f"R_{place}": cabling.run_ohm(run.size or size, run.length_m, loop.current_A)
        for place, run in enumerate(loop.runs, start=1)
    }
    wire_ohm = sum(letters.values())
    contact = rule("contact resistance").value
    total = work(
        formulas.loop_resistance_ohm,
        "drop.loop",
        "Resistance of the whole loop",
        wire_ohm=wire_ohm,
        sentence=fuses_counted(loop),
        fuse_ohm=fuse.resistance_ohm + loop.row_ohm + loop.return_ohm,
        contacts=loop.contacts,
        contact_ohm=contact,
        switch_ohm=loop.switch_ohm,
    )
    behind = (
        ()
        if fuse.rating_A is None
        else (
            work(
                fuse_formulas.least_ampacity_A,
                "wire.behind-fuse",
                "Ampacity needed behind the fuse",
                rating_A=fuse.rating_A,
                opens_at=tables.fuse_series(fuse.series).opens_at,
            ),
        )
    )
    return (
        *behind,
        *cabling.worked(size),
        Worked(
            "wire.size",
            "Wire",
            Shape.CHOICE,
            "S",
            size.shown,
            "",
            "stated, checked against every rule"
            if stated
            else "smallest size that carries the fuse and the current and keeps the drop",
            cabling.family.source,
            "" if stated else f"Governed by: {plan.governed_by}.",
            candidates=candidates,
        ),
        work(
            formulas.conductor_temperature_degC,
            "drop.temperature",
            "Temperature of the wire under load",
            ambient_degC=cabling.ambient_degC,
            insulation_degC=cabling.column_degC,
            base_ambient_degC=cabling.family.ambient_degC,
            current_A=loop.current_A,
            table_A=cabling.table_A(size),
            bundle_factor=cabling.bundle_factor,
        ),
        *(resistance_worked(one) for one in dict.fromkeys(run.size or size for run in loop.runs)),
        *runs_worked(cabling, loop, size, letters),
        Worked(
            "drop.wire",
            "Resistance of all runs",
            Shape.FORMULA,
            "R_W",
            wire_ohm,
            "Ω",
            " + ".join(letters),
            "OpenStax College Physics 2e, resistors in series",
            "Each run at its own length, size and temperature, there and back.",
            letters,
            dict.fromkeys(letters, "Ω"),
        ),
        default(
            "default.contact_resistance",
            "Resistance of each end of a run",
            show.ohms(contact),
            rule("contact resistance").source,
        ),
        total,
        work(
            formulas.drop_V, "drop.volts", "Voltage drop", current_A=loop.current_A, resistance_ohm=float(total.result)
        ),
        work(
            formulas.drop_percent,
            "drop.percent",
            "Voltage drop, share of the supply",
            sentence=f"Limit {show.percent(loop.limit_share)}.",
            drop_V=plan.drop_V,
            voltage_V=loop.voltage_V,
        ),
    )


def fuses_counted(loop: Loop) -> str:
    """Which fuses count besides the feed's own."""
    others = [f"that of {loop.row} before it"] if loop.row else []
    others += ["that in the switched return"] if loop.return_ohm else []
    return f"The fuse, with {' and '.join(others)}." if others else ""


def resistance_worked(size: WireSize) -> Worked:
    """Resistance of a metre at 20 °C: from the table of flexible conductors, or from the area of its gauge."""
    value = tables.resistance_ohm_per_m(size)
    where, name = f"drop.r20.{size.number}", f"Resistance of a metre of {size.shown} at 20 °C"
    if size.system == "mm2":
        return Worked(
            where, name, Shape.TABLE, "R20", value, "Ω/m", f"row {size.text}, column class 5, plain", "IEC 60228:2004 "
                                                            "table 3",
            "The largest that the standard allows a flexible conductor.", table="IEC 60228", row=size.text,
            column="class 5, plain",
        )  # fmt: skip
    copper = tables.copper()
    numbers = {"k": copper.stranding, "rho": copper.resistivity_ohm_m, "S": tables.area_mm2(size)}
    return Worked(
        where, name, Shape.FORMULA, "R20", value, "Ω/m", "k * rho / (S * 1e-6)", "ASTM B258 and IEC 60028",
        "k: stranded over solid wire of the same gauge.", numbers, {"k": "", "rho": "Ω m", "S": "mm²"},
    )  # fmt: skip


def runs_worked(cabling: Cabling, loop: Loop, size: WireSize, letters: Mapping[str, float]) -> list[Worked]:
    """Each run at its own length, size and temperature."""
    coefficient = tables.copper().coefficient_per_K
    found = []
    for (letter, value), run in zip(letters.items(), loop.runs, strict=True):
        own = run.size or size
        warm = min(cabling.temperature_degC(own, loop.current_A), HOTTEST_DEGC)
        numbers = {"R20": tables.resistance_ohm_per_m(own), "T": warm, "l": run.length_m}
        found.append(
            Worked(
                f"drop.run.{letter}",
                f"Resistance of {run.name or 'a run'}, {own.shown}, warm",
                Shape.FORMULA,
                letter,
                value,
                "Ω",
                f"R20 * (1 + {coefficient:g} * (T - 20)) * l",
                "IEC 60028",
                "",
                numbers,
                {"R20": "Ω/m", "T": "°C", "l": "m"},
            )
        )
    return found


def voltage_at_toy(
    loop: Loop, cabling: Cabling, size: WireSize, fuse_low_ohm: float, fuse_high_ohm: float, low_V: float, high_V: float
) -> tuple[float, float]:
    """The voltage that a meter shows at the toy while it runs at full strength: the widest range."""
    contact = rule("contact resistance")
    assert contact.low is not None
    assert contact.high is not None
    wire_ohm = loop.wire_ohm(cabling, size)
    most = wire_ohm + fuse_high_ohm + loop.contacts * contact.high + loop.switch_ohm
    least = wire_ohm + fuse_low_ohm + loop.contacts * contact.low + loop.switch_low_ohm
    return max(0.0, low_V - loop.current_A * most), max(0.0, high_V - loop.lowest_A * least)


def resized(wire: Wire, size: WireSize) -> Wire:
    """The same run in this size."""
    return replace(wire, size=size.shown)


@dataclass(frozen=True)
class SharedLead:
    """A lead that several feeds share. needed_A: the ampacity it needs. fits: whether its size has that.

    smallest: of the family, where the stated size is below it; else None. least: the least size that is enough; short:
    were it so short that the supply's limit need not flow in it for ever. Each None: no size is.
    """

    size: WireSize
    length_m: float
    needed_A: float
    ampacity_A: float
    fits: bool
    stated: bool
    worked: tuple[Worked, ...]
    smallest: WireSize | None = None
    least: WireSize | None = None
    short: WireSize | None = None


def shared_lead(
    cabling: Cabling,
    name: str,
    id: str,
    length_m: float,
    stated: WireSize | None,
    fuses: Sequence[FusePlan],
    limit_A: float,
    bare: bool,
) -> SharedLead:
    """A lead before the fuses or a board's 0 V lead. bare: it must carry the supply's limit for ever.

    fuses: of the feeds that share it; without any and not bare, nothing is connected to it: a feed without a fuse
    starts at the supply itself.
    """
    rated = [fuse for fuse in fuses if fuse.rating_A is not None]
    passed_A = sum(fuse.rating_A or 0.0 for fuse in rated)
    opening_A = sum((fuse.rating_A or 0.0) * tables.fuse_series(fuse.series).opens_at for fuse in rated)
    if not bare and not rated:
        working = Worked(
            f"{id}.needed",
            f"Ampacity that the {name} needs",
            Shape.CHOICE,
            "I_z",
            0.0,
            "A",
            "no fuse is connected to it",
            "this project",
        )
    elif bare:
        working = Worked(
            f"{id}.needed",
            f"Ampacity that the {name} needs",
            Shape.CHOICE,
            "I_z",
            limit_A,
            "A",
            "the supply's limit, for ever",
            "33 CFR 183.455(b) and this project",
            "Nothing else bounds the current in it.",
        )
    else:
        working = work(
            formulas.shared_lead_ampacity_A,
            f"{id}.needed",
            f"Ampacity that the {name} needs",
            supply_limit_A=limit_A,
            fuse_ratings_A=passed_A,
            fuse_openings_A=opening_A,
        )
    need_A = float(working.result)
    sizes = cabling.sizes()

    def enough(needed_A: float) -> WireSize | None:
        return next((one for one in sizes if reaches(cabling.shared_A(one), needed_A)), None)

    chosen = enough(need_A) or sizes[-1]
    size = stated or chosen
    ampacity = cabling.shared_A(size)
    choice = Worked(
        f"{id}.size",
        f"Wire of the {name}",
        Shape.CHOICE,
        "S",
        size.shown,
        "",
        "stated, checked" if stated else "smallest size that carries it",
        cabling.family.source,
        candidates=tuple(
            Candidate(
                one.shown,
                "" if reaches(cabling.shared_A(one), need_A) else f"may carry {show.amps(cabling.shared_A(one))}",
            )
            for one in sizes[: sizes.index(chosen) + 1][-2:]
        ),
    )
    return SharedLead(
        size,
        length_m,
        need_A,
        ampacity,
        reaches(ampacity, need_A),
        stated is not None,
        (working, choice),
        cabling.smallest_above(size),
        enough(need_A),
        enough(formulas.shared_lead_ampacity_A(limit_A, passed_A, opening_A)) if rated else None,
    )

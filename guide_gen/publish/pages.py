"""From plans to pages: ``{path: text}``, a function of its arguments alone.

A page is front matter, headings of the second level in Markdown, and blocks of HTML without an empty line in them, so
that every builder that reads Markdown passes the blocks through as they are.
"""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial
from hashlib import sha256

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from guide_gen.drawings.circuit import circuit_svg
from guide_gen.drawings.lettering import length
from guide_gen.drawings.protection import protection_svg
from guide_gen.drawings.speed import speed_svg
from guide_gen.drawings.tuning import scale_svg, tuning_svg
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import STAGES, Caution, Stage, Step, Word
from guide_gen.model.plan import Plan, ToyPlan
from guide_gen.planning.cautions import CALCULATED, SCOPE
from guide_gen.publish import sum
from guide_gen.publish.keys import SMALLEST, KeyRow
from guide_gen.publish.marks import marked
from guide_gen.publish.number import expected
from guide_gen.publish.plain import breakable, css_string, paragraphs, plain, preformatted
from guide_gen.values import show
from guide_gen.values.worked import Shape

HELD_SECTIONS = ("wiring", "checks", "tuning", "play")
_WORST_FIRST = list(Word)
_BESIDE = {
    "feed": "circuit",
    "suppressor": "circuit",
    "voltage": "circuit",
    "supply": "circuit",
    "motor_type": "circuit",
    "coil_type": "circuit",
    "led": "circuit",
    "control": "wiring",
    "time_limit": "wiring",
    "contacts": "wiring",
    "contact_voltage": "wiring",
    "contact_current": "wiring",
    "switched": "wiring",
    "mount": "mounting",
    "cover": "mounting",
    "end_stop": "mounting",
    "arm_radius": "mounting",
    "surface": "mounting",
    "surface_temperature": "mounting",
    "pulse": "tuning",
    "flash": "tuning",
    "found": "tuning",
}
_QUANTITIES = {
    "A": "current",
    "V": "voltage",
    "W": "power",
    "ohm": "resistance",
    "m": "length",
    "mm": "length",
    "mm2": "size",
}
_FOOT_FACE = '9pt "Atkinson Hyperlegible Next", sans-serif'
_NAMED = re.compile(r"\b([a-z]+(?:_[a-z]+)*)_(A|V|W|ohm|mm2|mm|m)\b")
_IN_BLOCK = re.compile(r"\s*\n\s*")
_HEADING = re.compile(r"^(## .*)$", re.MULTILINE)


@dataclass(frozen=True)
class StepView:
    """A step as the page shows it. no: its number on the page. revision: changes when what is to be done changes."""

    step: Step
    no: str
    revision: str
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class StageView:
    """A stage with its steps, and the cautions that stand before all of them."""

    stage: Stage
    steps: tuple[StepView, ...]
    cautions: tuple[Caution, ...]


def pages(plans: Sequence[Plan], keys: Sequence[KeyRow] = (), problems: Sequence[Finding] = ()) -> dict[str, str]:
    """All pages of a site by their path: home, legend, the keys, and those of each build.

    problems: what kept descriptions from being read; they stand on the home page.
    """
    site = {
        "index.md": _written("home.md", plans=plans, problems=problems),
        "legend.md": _written("legend.md"),
        "describe.md": _written("describe.md", groups=_grouped(keys), smallest=SMALLEST),
    }
    for plan in plans:
        folder = f"builds/{plan.slug}"
        site[f"{folder}/index.md"] = _written(
            "build.md", plan=plan, cautions=by_word(plan.cautions), charts=_block_charts(plan)
        )
        site[f"{folder}/print.css"] = running_feet(plan)
        for toy in plan.toys.values():
            site[f"{folder}/{toy.slug}.md"] = toy_page(plan, toy)
    return site


def toy_page(plan: Plan, toy: ToyPlan) -> str:
    """The page of one toy."""
    stages = _stages(toy)
    return _written(
        f"kinds/{_slug(toy.kind)}.md",
        plan=plan,
        toy=toy,
        stages=stages,
        cautions=at_the_head(toy, stages),
        beside=_beside(toy),
        drawing=_drawings(toy),
        charts=_charts(toy),
        seen=_seen(toy),
        held=HELD_SECTIONS if toy.must_fix else (),
        neighbours=_neighbours(plan, toy),
        mark=partial(marked, circuit=toy.sized.circuit),
    )


def navigation(plans: Sequence[Plan]) -> dict[str, dict[str, object]]:
    """What the navigation and the foot of a build's pages show, by build; plain text, to be escaped by the theme."""
    return {
        plan.slug: {
            "name": plan.name,
            "revision": plan.revision,
            "date": plan.date,
            "author": plan.author,
            "licence": plan.licence,
            "invented": plan.invented,
            "groups": [
                {"title": "The build", "items": [{"name": "Overview", "page": f"builds/{plan.slug}/index.md"}]},
                {
                    "title": "Toys",
                    "items": [
                        {"name": toy.name, "page": f"builds/{plan.slug}/{toy.slug}.md", "mark": _port_mark(toy)}
                        for toy in plan.toys.values()
                    ],
                },
            ],
        }
        for plan in plans
    }


def running_feet(plan: Plan) -> str:
    """The style sheet that prints build, toy and revision at the foot of each sheet: margin boxes can quote no page."""
    revision = f"revision {plan.revision}" if plan.revision else ""
    rules = []
    for slug, name in [("", ""), *((toy.slug, toy.name) for toy in plan.toys.values())]:
        page = f"guide-{plan.slug}-{slug}"
        foot = css_string(", ".join(filter(None, [plan.name, name, revision, plan.date, plan.author])))
        rules.append(
            f"@page {page} {{ @bottom-left {{ content: {foot}; font: {_FOOT_FACE}; }} }}\n"
            f'body:has([data-page="{plan.slug}/{slug}"]) {{ page: {page}; }}\n'
        )
    return "".join(rules)


def by_word(cautions: Iterable[Caution]) -> list[Caution]:
    """Cautions with the worst first; equals keep their order."""
    return sorted(cautions, key=lambda caution: _WORST_FIRST.index(caution.word))


def at_the_head(toy: ToyPlan, stages: Mapping[str, Sequence[StageView]]) -> list[Caution]:
    """Cautions at the head of a toy's page: the grouped ones, and any that no shown stage or step would carry."""
    shown = {
        caution.id
        for section, views in stages.items()
        if not (toy.must_fix and section in HELD_SECTIONS)
        for view in views
        for caution in [*view.cautions, *(caution for step in view.steps for caution in step.cautions)]
    }
    return by_word(caution for caution in toy.cautions if caution.grouped or caution.id not in shown)


def step_revision(step: Step) -> str:
    """A short digest of all that a step asks for: other text or another expected reading is another step to tick."""
    asked: list[object] = [step.text, step.more]
    if record := step.record:
        asked += [record.what, record.between, record.low, record.high, record.unit]
    return sha256(json.dumps(asked).encode()).hexdigest()[:10]


def _stages(toy: ToyPlan) -> dict[str, list[StageView]]:
    """The stages of each section of the page, their steps numbered through within it."""
    sections = {"mounting": 5, "wiring": 6, "checks": 7, "tuning": 8, "play": 9, "after": 11}
    views: dict[str, list[StageView]] = {section: [] for section in sections}
    counts = dict.fromkeys(sections, 0)
    for stage in STAGES:
        steps = []
        for step in (step for step in toy.steps if step.stage == stage.id):
            counts[stage.section] += 1
            no = f"{sections[stage.section]}.{counts[stage.section]}"
            steps.append(StepView(step, no, step_revision(step), _before(toy, step.id)))
        if steps:
            views[stage.section].append(StageView(stage, tuple(steps), _before(toy, stage.id)))
    return views


def _before(toy: ToyPlan, place: str) -> tuple[Caution, ...]:
    return tuple(by_word(caution for caution in toy.cautions if place in caution.before))


def _beside(toy: ToyPlan) -> dict[str, list[Finding]]:
    """Findings by the section of the page that they concern."""
    found: dict[str, list[Finding]] = {}
    for finding in toy.findings:
        section = next((_BESIDE[key] for key in finding.path if key in _BESIDE), "")
        found.setdefault(section, []).append(finding)
    return found


def _drawings(toy: ToyPlan) -> dict[str, Markup]:
    """The circuit in its two lay-outs, from the same data."""
    sized = toy.sized
    return {
        layout: Markup(
            circuit_svg(
                sized.circuit,
                name=f"{toy.slug}-{layout}",
                title=f"Circuit of {toy.name}",
                desc=toy.words.short,
                narrow=layout == "narrow",
                units=sized.units,
            )
        )
        for layout in ("wide", "narrow")
    }


def _charts(toy: ToyPlan) -> dict[str, dict[str, Markup]]:
    """The charts that this toy has, each in its two lay-outs."""
    found: dict[str, dict[str, Markup]] = {}
    for layout in ("wide", "narrow"):
        narrow = layout == "narrow"
        if toy.protection:
            found.setdefault("protection", {})[layout] = Markup(
                protection_svg(
                    toy.protection,
                    name=f"{toy.slug}-protection-{layout}",
                    title=f"What protects {toy.name}: load, fuse, wire and supply in time and current",
                    narrow=narrow,
                )
            )
        if toy.speed and toy.speed.axis:
            found.setdefault("speed", {})[layout] = Markup(
                speed_svg(
                    toy.speed,
                    name=f"{toy.slug}-speed-{layout}",
                    title=f"{toy.name}: how fast it turns at each setting, and what that moves",
                    narrow=narrow,
                )
            )
        if toy.motion:
            found.setdefault("tuning", {})[layout] = Markup(
                tuning_svg(
                    toy.motion,
                    name=f"{toy.slug}-tuning-{layout}",
                    title=f"{toy.name}: turning frequency and sideways acceleration against the setting",
                    narrow=narrow,
                )
            )
            found.setdefault("scale", {})[layout] = Markup(
                scale_svg(
                    toy.motion,
                    name=f"{toy.slug}-scale-{layout}",
                    title=f"Settings of {toy.name} and what it does at them",
                    narrow=narrow,
                )
            )
    return found


def _block_charts(plan: Plan) -> dict[str, dict[str, Markup]]:
    """What protects the lead of each distribution block, in two lay-outs; where its fuse's curve is known."""
    return {
        slug: {
            layout: Markup(
                protection_svg(
                    block.protection,
                    name=f"{slug}-protection-{layout}",
                    title=f"What protects the lead to block {slug}: load, fuse, wire and supply in time and current",
                    narrow=layout == "narrow",
                )
            )
            for layout in ("wide", "narrow")
        }
        for slug, block in plan.blocks.items()
    }


def _seen(toy: ToyPlan) -> dict[str, str]:
    """Places of the page that an answer may send to, with the words of the link."""
    sections = {
        "circuit": "section 3", "needed": "section 4", "mounting": "section 5", "wiring": "section 6",
        "checks": "section 7", "tuning": "section 8", "play": "section 9", "wrong": "section 10",
        "protects": "the chart above",
    }  # fmt: skip
    return sections | {f"w-{one.id}": "how it was found" for one in toy.worked}


def _neighbours(plan: Plan, toy: ToyPlan) -> tuple[ToyPlan | None, ToyPlan | None]:
    """The toys before and after this one."""
    toys = list(plan.toys.values())
    at = toys.index(toy)
    return (toys[at - 1] if at else None, toys[at + 1] if at + 1 < len(toys) else None)


def _grouped(keys: Sequence[KeyRow]) -> dict[str, list[KeyRow]]:
    groups: dict[str, list[KeyRow]] = {}
    for row in keys:
        groups.setdefault(row.group, []).append(row)
    return groups


def _port_mark(toy: ToyPlan) -> str:
    return f"P{toy.sized.port.number}" if toy.sized.port else ""


def _slug(words: str) -> str:
    return words.replace(" ", "-")


def _written(template: str, **data: object) -> str:
    """A template filled in, and its HTML without empty or indented lines."""
    names = [template, "toy.md"] if template.startswith("kinds/") else [template]
    text = _environment().select_template(names).render(data).strip()
    head, _, body = text.partition("\n---\n")
    blocks = _HEADING.split(body)
    return (
        head.strip()
        + "\n---\n\n"
        + "\n\n".join(
            block.strip() if block.startswith("## ") else _IN_BLOCK.sub("\n", block.strip())
            for block in blocks
            if block.strip()
        )
        + "\n"
    )


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("guide_gen.publish"),
        autoescape=True,
        finalize=plain,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        comment_start_string="<#",
        comment_end_string="#>",  # the usual sign also begins the id of a heading
    )
    environment.filters |= {
        "amps": show.amps,
        "volts": show.volts,
        "figure": show.figure,
        "formula": sum.formula,
        "symbol": sum.symbol,
        "result": sum.result,
        "rule": ruled,
        "paragraphs": paragraphs,
        "sentence": sentence,
        "breakable": breakable,
        "preformatted": preformatted,
        "percent": show.percent,
        "bare": lambda size: str(size).replace("\u00a0", " ").partition(" ")[0],
        "front": lambda value: Markup(json.dumps(str(plain(value)))),
    }
    environment.globals |= {
        "SCOPE": SCOPE,
        "CALCULATED": CALCULATED,
        "Level": Level,
        "Shape": Shape,
        "substituted": sum.substituted,
        "expected": expected,
        "metres": show.metres,
        "one_length": length,
        "tally": tally,
    }
    return environment


def ruled(text: str) -> str:
    """A rule in words: names of numbers, as other tools read them, become words, and units their signs."""
    named = _NAMED.sub(lambda match: f"the {match[1].replace('_', ' ')} {_QUANTITIES[match[2]]}", text)
    return named.replace("mm2", "mm²")


def sentence(text: str) -> str:
    """A sentence of its own: a capital in front, a full stop behind."""
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def tally(findings: Sequence[Finding]) -> list[str]:
    """How many findings of each level there are, in words."""
    counts = {level: [finding.level for finding in findings].count(level) for level in Level}
    return [
        f"{count} {level.value}{'s' if level is Level.NOTE and count > 1 else ''}"
        for level, count in counts.items()
        if count
    ]

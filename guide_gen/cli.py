"""The commands: check, plan, site, preview, start, schema, shake."""

import codecs
import json
import os
import re
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, Literal

import click

from guide_gen import __version__
from guide_gen.model.finding import Finding, Level
from guide_gen.planning.load import BUILDS, NAME, Loaded, load_builds


def root_folder() -> Path:
    """The nearest folder upward that holds mkdocs.yml."""
    for folder in (Path.cwd(), *Path.cwd().parents):
        if (folder / "mkdocs.yml").is_file():
            return folder
    raise click.UsageError(
        "There is no mkdocs.yml in this folder or above it. Run guide-gen inside a clone of the wiki."
    )


def load(builds: Sequence[str]) -> tuple[Path, Loaded]:
    """The root, and the plans of the builds named."""
    root = root_folder()
    missing = [name for name in builds if not os.path.exists(name)]  # also False for a name that cannot be one
    if missing:
        raise click.UsageError(f"There is no file or folder {missing[0]}.")
    return root, load_builds(root, [Path(name).resolve() for name in builds] or None)


def say(findings: Sequence[Finding], root: Path) -> None:
    """Findings in plain sentences, each with the line that it concerns."""
    from guide_gen.description.report import as_text

    lines: dict[str, list[str]] = {}
    for finding in findings:
        file = finding.where.file
        if file not in lines:
            lines[file] = source_lines(root / file, root / "content")
        click.echo(as_text(finding, lines[file]))


def source_lines(path: Path, content: Path) -> list[str]:
    """The lines of a description, as far as they can be read; none of a file that a link leads to elsewhere."""
    try:
        if not path.resolve().is_relative_to(content.resolve()):
            return []
        return path.read_bytes()[:300_000].decode("utf-8", errors="replace").splitlines()
    except OSError:
        return []


def summary(loaded: Loaded) -> str:
    """How many of each level, in a sentence."""
    builds = len(loaded.plans) + len({problem.where.file for problem in loaded.problems})
    counts = [f"{sum(one.level is level for one in loaded.findings)} {level.value}" for level in Level]
    return f"{builds} build{'s' if builds != 1 else ''}: {', '.join(counts)}."


def print_json(document: Any) -> None:
    """One JSON document, and nothing else, on standard output."""
    click.echo(json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False))


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="guide-gen")
def main() -> None:
    """Turn descriptions of game cabinets into wiring, mounting and tuning guides."""
    for stream in (sys.stdout, sys.stderr):
        # A console that cannot show a sign shows a question mark instead of stopping the program.
        reconfigure: Callable[..., None] | None = getattr(stream, "reconfigure", None)
        if reconfigure:
            reconfigure(errors="replace")


builds_argument = click.argument("builds", nargs=-1, metavar="[BUILD]...")


@main.command()
@builds_argument
@click.option("--format", "how", type=click.Choice(["text", "json", "github"]), default="text", show_default=True)
def check(builds: tuple[str, ...], how: str) -> None:
    """Read and plan builds; print problems and findings with their places."""
    root, loaded = load(builds)
    if how == "json":
        from guide_gen.planning.as_json import findings_json

        print_json(findings_json(loaded.findings))
    elif how == "github":
        from guide_gen.description.report import as_github

        for finding in loaded.findings:
            click.echo(as_github(finding))
    else:
        say(loaded.findings, root)
        click.echo(summary(loaded))
    sys.exit(1 if loaded.must_fix else 0)


@main.command("plan")
@click.argument("build")
@click.option("--format", "how", type=click.Choice(["text", "json"]), default="text", show_default=True)
def plan_command(build: str, how: str) -> None:
    """Print the computed plan of one build."""
    from guide_gen.description.read import slug_of
    from guide_gen.planning.as_json import plan_json, problems_json
    from guide_gen.planning.as_text import plan_text

    root, loaded = load([build])
    if how == "json":
        path = Path(build).resolve()
        slug = slug_of(str(path / NAME if path.is_dir() else path))
        print_json(plan_json(loaded.plans[0]) if loaded.plans else problems_json(slug, loaded.problems))
    else:
        for plan in loaded.plans:
            click.echo(plan_text(plan))
        say(loaded.findings, root)
    sys.exit(1 if loaded.must_fix else 0)


@main.command()
@builds_argument
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), help="Folder of the site; site/ if left out.")
@click.option("--strict", is_flag=True, help="Write nothing while a finding must be fixed.")
def site(builds: tuple[str, ...], out: Path | None, strict: bool) -> None:
    """Write the static site. The last good site stays until the new one is whole."""
    from guide_gen.publish.site import NotOurs, write_site

    root, loaded = load(builds)
    say(loaded.findings, root)
    if loaded.problems or (strict and loaded.must_fix):
        click.echo("Nothing was written: mend what must be fixed first. The last good site is untouched.")
        sys.exit(1)
    folder = (out or root / "site").resolve()
    try:
        write_site(root, folder, [Path(name).resolve() for name in builds])
    except NotOurs as refused:
        raise click.UsageError(str(refused)) from None
    except OSError as error:
        raise click.ClickException(f"The site cannot be written: {error}. The last good one is untouched.") from None
    click.echo(summary(loaded))
    click.echo(f"Written: {folder / 'index.html'}")


@main.command()
@builds_argument
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Address and port to serve on.")
def preview(builds: tuple[str, ...], address: str) -> None:
    """Serve the site on this computer and rebuild it whenever a description is saved."""
    from guide_gen.publish.site import serve_site

    serve_site(root_folder(), address, [Path(name).resolve() for name in builds])


@main.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def start(folder: Path) -> None:
    """Ask a few questions and write a commented description that passes check."""
    from guide_gen.description.start import questions, starting_text
    from guide_gen.values.reading import LONGEST_SLUG, SLUG

    file, name = folder / NAME, folder.resolve().name
    if not re.fullmatch(SLUG, name) or len(name) > LONGEST_SLUG:
        raise click.UsageError(
            f'The name "{name}" cannot become an address. Take small letters, digits and single hyphens.'
        )
    builds = root_folder() / BUILDS
    if folder.resolve().parent != builds.resolve():
        raise click.UsageError(
            f"A build lives in a folder of its own under {BUILDS.as_posix()}; try: guide-gen start "
            f"{(BUILDS / name).as_posix()}"
        )
    if os.path.exists(file):
        raise click.UsageError(f"{file} is there already; choose another folder.")
    answers = {question.path: ask(question) if sys.stdin.isatty() else question.default for question in questions()}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        file.write_text(starting_text(answers), encoding="utf-8", newline="\n")
    except OSError as error:
        raise click.UsageError(f"{file} cannot be written: {error.strerror}.") from None
    click.echo(f"Written: {file}. Change its values, then run: guide-gen check {folder}")


def ask(question: Any) -> str:
    """Ask until the answer can be read."""
    while True:
        answer: str = click.prompt(question.text, default=question.default)
        wrong = question.wrong(answer)
        if not wrong:
            return answer
        click.echo(wrong)


@main.command()
def schema() -> None:
    """Print the JSON Schema of a description, for editors."""
    from guide_gen.description.schema import schema as schema_of

    print_json(schema_of())


LARGEST_LOG = 20_000_000


@main.command()
@click.argument("log", metavar="LOG.csv")
@click.option(
    "--limit",
    type=click.Choice(["3M1", "3M2", "3M3", "3M4"]),
    default="3M2",
    show_default=True,
    help="Class of IEC 60721-3-3 that the strength is held against.",
)
@click.option("--kind", type=click.Choice(["running", "nudge", "auto"]), default="auto", show_default=True,
              help="A running shaker, a cabinet pushed by hand, or whichever it looks like.")  # fmt: skip
@click.option("--format", "how", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--plot", metavar="FILE.svg", help="Draw the signal and its frequencies into this file.")
def shake(log: str, limit: str, kind: Literal["running", "nudge", "auto"], how: str, plot: str | None) -> None:
    """Read a phone's accelerometer log: how fast it turns and how strongly it shakes, or how the cabinet sways.

    Tape the phone down flat, record the time and the three axes at the fastest rate. For a running shaker record 20
    seconds at a steady setting; what stands still before and after is left out. For the cabinet itself push it once,
    let it come to rest, and do so three times.
    """
    from guide_gen.drawings.shaken import shaken_svg
    from guide_gen.formulas.log_text import LogProblem
    from guide_gen.planning.shaken import shaken
    from guide_gen.planning.shaken_report import problem_json, shaken_json, shaken_text
    from guide_gen.published.vibration import vibration_class

    text = log_text(log)
    if plot and os.path.exists(plot) and os.path.samefile(plot, log):
        raise click.UsageError("The drawing would overwrite the log: name another file behind --plot.")
    try:
        read = shaken(text, vibration_class(limit), kind)
    except LogProblem as problem:
        if how == "json":
            print_json(problem_json(problem))
        else:
            click.echo(f"{log} cannot be read. {problem}", err=True)
        sys.exit(1)
    if plot:
        try:
            Path(plot).write_text(shaken_svg(read), encoding="utf-8", newline="\n")
        except OSError as error:
            raise click.UsageError(f"{plot} cannot be written: {error.strerror}.") from None
    if how == "json":
        print_json(shaken_json(read))
    else:
        click.echo(shaken_text(read), nl=False)
        if plot:
            click.echo(f"\nWritten: {plot}")


def log_text(log: str) -> str:
    """The text of a log; a usage error where the file can be no log."""
    if not os.path.isfile(log):
        wrong = f"{log} is a folder or a device, not a file." if os.path.exists(log) else f"There is no file {log}."
        raise click.UsageError(f"{wrong} Name the CSV file that the phone exported.")
    try:
        if os.path.getsize(log) > LARGEST_LOG:
            raise click.UsageError(f"{log} has more than 20 million bytes. Cut it to one minute; that is all it takes.")
        data = Path(log).read_bytes()
    except OSError as error:
        raise click.UsageError(f"{log} cannot be read: {error.strerror}.") from None
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return data.decode("utf-16", errors="replace")
    if b"\0" in data:
        raise click.UsageError(f"{log} is not text. Export the record as CSV; a spreadsheet or archive cannot be read.")
    return data.decode("utf-8", errors="replace")

"""The MkDocs plugin: puts the pages of all builds into the site. Nothing is written into the content folder."""

import logging
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files, InclusionLevel

from guide_gen.description.report import as_text
from guide_gen.model.finding import Finding
from guide_gen.model.plan import Plan
from guide_gen.planning.load import load_builds
from guide_gen.publish.keys import key_rows
from guide_gen.publish.pages import navigation, pages

log = logging.getLogger("mkdocs.plugins.guide_gen")
DESCRIPTIONS = ("builds", "parts")  # folders of content/ that hold descriptions: none of their files is published


class GuideConfig(Config):  # type: ignore[no-untyped-call]
    """builds: folders or files of the builds to publish; none: all under content/builds."""

    builds = config_options.ListOfItems(config_options.Type(str), default=[])


class GuidePlugin(BasePlugin[GuideConfig]):  # type: ignore[no-untyped-call]
    """Plans the builds, and gives MkDocs their pages, navigation and assets."""

    def __init__(self) -> None:
        self.serving = False
        self.plans: tuple[Plan, ...] = ()
        self.pages: dict[str, str] = {}

    # That this event has a handler makes MkDocs keep the plugin between rebuilds, and with it the last good plans.
    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether pages are served while descriptions are being written."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Plan all builds, and set what the theme needs to know of them."""
        root = Path(config.config_file_path).parent
        loaded = load_builds(root, [root / build for build in self.config.builds] or None)
        if loaded.problems:
            self._tell(loaded.problems)
        else:
            self.plans = loaded.plans
        self.pages = pages(self.plans, key_rows(), loaded.problems)
        config.use_directory_urls = False
        config.extra["builds"] = navigation(self.plans)
        config.nav = [*self._own_pages(), *_written_by_hand(Path(config.docs_dir))]
        builds = Path(config.docs_dir) / "builds"
        if builds.is_dir():
            config.watch.append(str(builds))
        return config

    @event_priority(50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages; leave out descriptions, and whatever a link leads to outside the content folder."""
        content = Path(config.docs_dir).resolve()
        for file in list(files):
            if file.src_uri in self.pages:
                raise PluginError(f"content/{file.src_uri}: a page of this name is made by guide_gen; rename the file.")
            if file.src_dir == config.docs_dir and not _is_published(file, content):
                files.remove(file)
        sources = {plan.slug: plan.file for plan in self.plans}
        for path, text in self.pages.items():
            page = File.generated(config, path, content=text, inclusion=InclusionLevel.INCLUDED)
            page.edit_uri = _source(path, sources, Path(config.docs_dir).name)
            files.append(page)
        return files

    def _own_pages(self) -> list[str]:
        return [path for path in self.pages if path.endswith(".md")]

    def _tell(self, problems: Sequence[Finding]) -> None:
        """Stop a build; while serving say it, and go on with what was good before."""
        sentences = [as_text(problem) for problem in problems]
        if not self.serving:
            raise PluginError("\n".join([*sentences, "Nothing was written."]))
        for sentence in sentences:
            log.error(sentence)
        log.error("The pages shown are those from before." if self.plans else "There are no good pages to show yet.")


def _written_by_hand(content: Path) -> list[str]:
    """The club's own pages in the content folder."""
    pages = (path.relative_to(content) for path in sorted(content.rglob("*.md")))
    return [page.as_posix() for page in pages if page.parts[0] not in DESCRIPTIONS]


def _is_published(file: File, content: Path) -> bool:
    """Whether a file of the content folder belongs into the site."""
    path = Path(file.abs_src_path or "")
    inside = path.resolve().is_relative_to(content)
    description = file.src_uri.split("/")[0] in DESCRIPTIONS or file.src_uri.endswith((".yaml", ".yml", ".schema.json"))
    return inside and not description


def _source(path: str, sources: dict[str, str], content: str) -> str | None:
    """Where a page of a build is edited: its description, from the content folder."""
    parts = path.split("/")
    file = sources.get(parts[1]) if len(parts) > 2 else None
    return file.removeprefix(f"{content}/") if file else None

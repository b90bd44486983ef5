"""The MkDocs plugin: pages without files, the last good pages while somebody types, plain sentences when it stops."""

import logging
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files

from guide_gen import plugin as module
from guide_gen.model.finding import Finding, Level, Place
from guide_gen.planning.load import Loaded
from guide_gen.plugin import GuideConfig, GuidePlugin

FILE = "content/builds/tidepool/build.yaml"
PROBLEM = Finding("unit-missing", Level.MUST, "1.8 has no unit.", "a length", "Write 1.8 m.", where=Place(FILE, 9, 16))
GOOD = """\
build: Tidepool
wiring: {ampacity_table: IEC 60204-1}
supplies: {brick: {voltage: 12 V, current: 8 A, overload: restarts}}
toys:
  bump:
    kind: shaker motor
    voltage: 12 V
    current: 1.9 A (measured)
    cover: yes
    control: {type: always on}
    feed: {run: 0.9 m}
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "content" / "builds" / "tidepool"
    folder.mkdir(parents=True)
    (folder / "build.yaml").write_text(GOOD)
    (tmp_path / "content" / "about.md").write_text("# About\n")
    return tmp_path


@pytest.fixture
def config(root: Path) -> Callable[[], MkDocsConfig]:
    """MkDocs reads its configuration anew at each build."""

    def read() -> MkDocsConfig:
        fresh = MkDocsConfig(config_file_path=str(root / "mkdocs.yml"))
        fresh.load_dict(
            {
                "site_name": "Test",
                "docs_dir": str(root / "content"),
                "site_dir": str(root / "site"),
                "theme": "mkdocs",
                "plugins": [],
            }
        )
        assert fresh.validate() == ([], [])
        fresh.plugins._current_plugin = "guide_gen"  # as MkDocs says while it calls a plugin
        return fresh

    return read


def started(command: str) -> GuidePlugin:
    plugin = GuidePlugin()
    plugin.config = GuideConfig()
    plugin.config.load_dict({})
    plugin.config.validate()
    plugin.on_startup(command=command, dirty=False)  # type: ignore[arg-type]
    return plugin


def with_problem(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "load_builds", lambda root, builds: Loaded((), (PROBLEM,)))


def test_pages_stand_in_navigation_and_site(root: Path, config: Callable[[], MkDocsConfig]) -> None:
    plugin, settings = started("build"), config()
    plugin.on_config(settings)
    files = plugin.on_files(Files([]), config=settings)
    assert "builds/tidepool/bump.md" in settings.nav
    assert settings.nav[-1] == "about.md"
    page = files.get_file_from_path("builds/tidepool/bump.md")
    assert page is not None
    assert page.edit_uri == "builds/tidepool/build.yaml"
    assert "Tidepool" in page.content_string
    assert not list((root / "content").rglob("bump*"))


def test_descriptions_are_watched_and_never_published(root: Path, config: Callable[[], MkDocsConfig]) -> None:
    plugin, settings = started("build"), config()
    plugin.on_config(settings)
    assert str(root / "content" / "builds") in settings.watch
    there = ["builds/tidepool/build.yaml", "builds/tidepool/evil.html", "build.schema.json", "about.md"]
    files = Files([File(path, settings.docs_dir, settings.site_dir, False) for path in there])
    kept = plugin.on_files(files, config=settings)
    assert [path for path in there if kept.get_file_from_path(path)] == ["about.md"]


def test_link_out_of_the_content_folder_is_not_followed(
    root: Path, config: Callable[[], MkDocsConfig], tmp_path: Path
) -> None:
    (tmp_path / "secret.txt").write_text("secret")
    try:
        (root / "content" / "photo.txt").symlink_to(tmp_path / "secret.txt")
    except OSError:
        pytest.skip("this system makes no links")
    plugin, settings = started("build"), config()
    plugin.on_config(settings)
    files = Files([File("photo.txt", settings.docs_dir, settings.site_dir, False)])
    assert plugin.on_files(files, config=settings).get_file_from_path("photo.txt") is None


def test_build_stops_with_the_problem_as_a_sentence(
    config: Callable[[], MkDocsConfig],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with_problem(monkeypatch)
    with pytest.raises(PluginError, match=f"{FILE}:9:16: .*1.8 has no unit.*Write 1.8 m."):
        started("build").on_config(config())


def test_preview_keeps_the_last_good_pages_and_tells(
    config: Callable[[], MkDocsConfig],
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
) -> None:
    plugin = started("serve")
    plugin.on_config(config())
    with_problem(monkeypatch)
    with caplog.at_level(logging.ERROR):
        plugin.on_config(config())
    assert "builds/tidepool/bump.md" in plugin.pages
    assert "1.8 has no unit" in caplog.text
    assert "Write 1.8" in plugin.pages["index.md"]


def test_preview_starts_on_a_wrong_description(
    config: Callable[[], MkDocsConfig],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with_problem(monkeypatch)
    plugin = started("serve")
    plugin.on_config(config())
    assert "has no unit" in plugin.pages["index.md"]


def test_page_written_by_hand_cannot_take_the_place_of_a_made_one(
    root: Path, config: Callable[[], MkDocsConfig]
) -> None:
    (root / "content" / "legend.md").write_text("# No cautions here\n")
    plugin, settings = started("build"), config()
    plugin.on_config(settings)
    files = Files([File("legend.md", settings.docs_dir, settings.site_dir, False)])
    with pytest.raises(PluginError, match="rename the file"):
        plugin.on_files(files, config=settings)

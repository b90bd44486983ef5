"""The demo site and a site with hostile descriptions, built once, and windows to open them from the disk."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

ROOT = Path(__file__).parents[2]
HOSTILE = """\
build: "<script>window.hit=1</script> **Wreck** {{ 7*7 }}"
summary: "\\"><img src=x onerror=window.hit=1> [click](javascript:window.hit=1)"
author: "' onload='window.hit=1"
revision: "</style><script>window.hit=1</script>"
licence: "</footer><svg onload=window.hit=1>"
wiring: {ampacity_table: IEC 60204-1}
supplies: {brick: {voltage: 12 V, current: 8 A, overload: restarts}}
toys:
  bump:
    kind: shaker motor
    name: "</h1></header><script>window.hit=1</script> ## F1:1 <b>bold</b>"
    voltage: 12 V
    current:
      value: 1.9 A
      basis: measured
      how: "</dl><iframe src=javascript:window.hit=1></iframe> & `x` *y* averyveryveryveryveryveryverylongword"
    cover: yes
    control: {type: always on}
    feed: {run: 0.9 m}
"""


def build(root: Path, out: Path) -> Path:
    """A site as the maker of a build gets it: strictly, so that a warning fails."""
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "-f", str(root / "mkdocs.yml"), "-d", str(out)],
        cwd=ROOT,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert "WARNING" not in done.stderr
    return out


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo."""
    return build(ROOT, tmp_path_factory.mktemp("demo") / "site")


@pytest.fixture(scope="session")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wiki whose only build tries to become markup and script wherever text is free."""
    root = tmp_path_factory.mktemp("hostile")
    shutil.copy(ROOT / "mkdocs.yml", root)
    shutil.copytree(ROOT / "site_overrides", root / "site_overrides")
    folder = root / "content" / "builds" / "wreck"
    folder.mkdir(parents=True)
    (folder / "build.yaml").write_text(HOSTILE, encoding="utf-8")
    return build(root, root / "site")


class Watched:
    """A window that remembers what went wrong in it and what it asked for."""

    def __init__(self, context: BrowserContext) -> None:
        self.context = context
        self.messages: list[str] = []
        self.requests: list[str] = []

    def open(self, path: Path, anchor: str = "") -> Page:
        """A page from the disk, its script done."""
        page = self.context.new_page()
        page.on("console", lambda message: self.messages.append(message.text))
        page.on("pageerror", lambda error: self.messages.append(str(error)))
        page.on("request", lambda request: self.requests.append(request.url))
        page.goto(path.as_uri() + anchor)
        page.wait_for_load_state("load")
        return page

    @property
    def foreign(self) -> list[str]:
        """Requests that leave the disk."""
        return [url for url in self.requests if not url.startswith(("file:", "data:", "blob:", "about:"))]


@pytest.fixture
def window(browser: Browser) -> Iterator[Callable[..., Watched]]:
    """Opens windows of a width; each has its own storage."""
    contexts: list[BrowserContext] = []

    def opened(width: int = 390, **options: object) -> Watched:
        context = browser.new_context(viewport={"width": width, "height": 844}, **options)  # type: ignore[arg-type]
        contexts.append(context)
        return Watched(context)

    yield opened
    for context in contexts:
        context.close()

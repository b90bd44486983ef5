"""Writing and serving the site with MkDocs. A new site is built beside the old one and swapped in when it is whole."""

import logging
import os
import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

PLUGIN = "guide_gen"
MARK = ".guide-gen-site"  # says that a folder is a site of ours and may be replaced


class NotOurs(Exception):  # noqa: N818 - the name says what is wrong
    """The folder to write into holds something that is not a site written before."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"{folder} holds other files. Choose an empty or new folder, so that none of them is lost.")


def may_replace(folder: Path, root: Path) -> bool:
    """Whether a folder is new, empty or a site of ours, and does not hold the wiki itself."""
    if root.is_relative_to(folder) or folder.is_relative_to(root / "content"):
        return False
    return not folder.exists() or not any(folder.iterdir()) or (folder / MARK).is_file()


def write_site(root: Path, folder: Path, builds: Sequence[Path] = ()) -> None:
    """Build the site of the wiki at `root` into `folder`; builds: only these.

    Raises NotOurs when the folder holds something else, and what MkDocs raises when the site cannot be built; then the
    old site is as it was.
    """
    if not may_replace(folder, root):
        raise NotOurs(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    scratch = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    try:
        _build(root, scratch / "new", builds)
        (scratch / "new" / MARK).write_text("Written by guide-gen site; replaced by the next one.\n", encoding="utf-8")
        if folder.exists():
            folder.rename(scratch / "old")
        (scratch / "new").rename(folder)
    finally:
        shutil.rmtree(scratch, ignore_errors=True)


def _build(root: Path, folder: Path, builds: Sequence[Path]) -> None:
    """MkDocs' own build, told where to and which builds."""
    _quiet_theme()
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    logging.getLogger("mkdocs").setLevel(logging.WARNING)
    config = load_config(config_file=str(root / "mkdocs.yml"), site_dir=str(folder), plugins=_plugins(root, builds))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    config.plugins.on_shutdown()


def serve_site(root: Path, address: str, builds: Sequence[Path] = ()) -> None:
    """Serve the wiki on this computer, rebuilding when a file is saved; ends with Ctrl-C. builds: only these."""
    _quiet_theme()
    from mkdocs.commands.serve import serve

    logging.basicConfig(level=logging.INFO, format="%(message)s")
    serve(config_file=str(root / "mkdocs.yml"), dev_addr=address, plugins=_plugins(root, builds))


def _plugins(root: Path, builds: Sequence[Path]) -> dict[str, Any]:
    """The wiki's own plugins by name, ours told which builds to publish.

    A map, not a list: MkDocs empties the entries of a list when it reads them, and reads them again at every save.
    """
    from mkdocs.utils.yaml import yaml_load

    with (root / "mkdocs.yml").open("rb") as stream:
        written = yaml_load(stream).get("plugins", ["search"])
    entries = (
        [{one: {}} if isinstance(one, str) else one for one in written] if isinstance(written, list) else [written]
    )
    named = {name: options or {} for entry in entries for name, options in entry.items()}
    return named | {PLUGIN: {"builds": [str(path) for path in builds]}}


def _quiet_theme() -> None:
    """The theme announces its successor on every run; that is a matter for developers."""
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")

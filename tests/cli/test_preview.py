"""`preview` as a process: it follows every save, right or wrong."""

import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable

import pytest


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture
def served(wiki, tmp_path):
    """A preview of the wiki, and a function that waits until the home page says something."""
    port = free_port()
    command = "from guide_gen.cli import main; main()"
    with (tmp_path / "log.txt").open("w") as log:
        process = subprocess.Popen(
            [sys.executable, "-c", command, "preview", "--address", f"127.0.0.1:{port}"],
            cwd=wiki.root,
            stdout=log,
            stderr=log,
        )

        def page(path: str, holds: Callable[[str], bool], seconds: float = 30.0) -> str:
            text, end = "", time.monotonic() + seconds
            while time.monotonic() < end:
                try:
                    with urllib.request.urlopen(f"http://127.0.0.1:{port}/{path}", timeout=5) as answer:
                        text = answer.read().decode("utf-8")
                except OSError:
                    text = ""
                if text and holds(text):
                    return text
                time.sleep(0.2)
            raise AssertionError((tmp_path / "log.txt").read_text())

        yield page
        process.terminate()
        process.wait(10)


def test_preview_follows_right_and_wrong_saves(wiki, served, tidepool):
    """A new value shows; a wrong file leaves the good page up; the mended one shows again."""
    file = wiki.root / "content/builds/tidepool/build.yaml"
    served("index.html", lambda text: "Tidepool" in text)
    file.write_text(tidepool.replace("build: Tidepool", "build: Rockpool"), encoding="utf-8")
    served("index.html", lambda text: "Rockpool" in text)
    file.write_text(tidepool.replace("voltage: 12 V", "volts: 12 V"), encoding="utf-8")
    served("index.html", lambda text: "volts" in text and "Rockpool" in text)
    file.write_text(tidepool.replace("build: Tidepool", "build: Whirlpool"), encoding="utf-8")
    served("index.html", lambda text: "Whirlpool" in text and "volts" not in text)

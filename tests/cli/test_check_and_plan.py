"""`check` and `plan`: exit codes, formats, shapes; nobody ever sees a traceback."""

import re
import subprocess
import sys

import pytest

from guide_gen import __version__
from guide_gen.toys import kinds

ENTRY = {"code", "level", "message", "expected", "mend", "where"}


def test_good_wiki_passes(wiki, run):
    """Nothing must be fixed: 0."""
    result = run("check")
    assert result.exit_code == 0
    assert "1 build: 0 must fix, 0 should fix, 0 note." in result.output


def test_problem_fails_the_check(wiki, run, tidepool):
    """A description that cannot be read: 1, in a sentence with its place and line."""
    wiki.put("pier", tidepool.replace("0.9 m", "0.9"))
    result = run("check")
    assert result.exit_code == 1
    assert "content/builds/pier/build.yaml:13:17: must fix [unit-missing]" in result.output
    assert "feed: {run: 0.9}" in result.output
    assert "2 builds" in result.output


def test_must_fix_fails_the_check(wiki, run, tidepool):
    """An uncovered weight: 1."""
    wiki.put("tidepool", tidepool.replace("cover: yes", "cover: no"))
    result = run("check")
    assert result.exit_code == 1
    assert "content/builds/tidepool/build.yaml:10:12: must fix [cover-missing]" in result.output


def test_should_fix_and_notes_pass(wiki, run, tidepool):
    """They are printed, and the exit code is 0."""
    wiki.put(
        "tidepool", tidepool.replace("(measured)", "(estimate)").replace("0.9 m", "25 m").replace("18 mm", "150 mm")
    )
    result = run("check")
    assert result.exit_code == 0
    assert "note [estimate-used]" in result.output
    assert "note [not-worked-out]" in result.output


def test_one_build_can_be_named_by_folder_or_file(wiki, run, tidepool):
    """The other one, which is wrong, is not looked at."""
    wiki.put("pier", "build: [")
    folder = wiki.root / "content" / "builds" / "tidepool"
    assert run("check", folder).exit_code == 0
    assert run("check", folder / "build.yaml").exit_code == 0
    assert run("check", "content/builds/tidepool").exit_code == 0
    assert run("check", folder, folder.parent / "pier").exit_code == 1
    assert run("check").exit_code == 1


def test_root_is_the_nearest_folder_upward_with_mkdocs_yml(wiki, run, monkeypatch):
    """From within a build too; places are told from the root."""
    monkeypatch.chdir(wiki.root / "content" / "builds" / "tidepool")
    assert run("check", ".").exit_code == 0
    assert run("plan", "build.yaml").exit_code == 0


def test_outside_a_clone_is_misuse(tmp_path, run, monkeypatch):
    """2, with a sentence."""
    monkeypatch.chdir(tmp_path)
    for command in (["check"], ["plan", "."]):
        result = run(*command)
        assert result.exit_code == 2
        assert "no mkdocs.yml" in result.output


@pytest.mark.parametrize(
    "words",
    [
        ["check", "nowhere"], ["plan", "nowhere"], ["plan"], ["check", "--format", "xml"], ["plan", ".", "--colour"],
        ["launch"], ["check", "a" * 5000], ["plan", "a\x00b"],
    ],
)  # fmt: skip
def test_misuse_is_two(wiki, run, words):
    """Something that is not there, or not an option."""
    result = run(*words)
    assert result.exit_code == 2
    assert "Error:" in result.output


def test_folder_without_a_description_is_a_problem(wiki, run):
    """1, as any description that cannot be read."""
    (wiki.root / "content" / "builds" / "empty").mkdir()
    result = run("check", "content/builds/empty")
    assert result.exit_code == 1
    assert "[file-missing]" in result.output


def test_path_outside_the_content_is_a_problem(wiki, run, tidepool, tmp_path):
    """Whatever it holds."""
    (tmp_path / "build.yaml").write_text(tidepool, encoding="utf-8")
    result = run("check", tmp_path / "build.yaml")
    assert result.exit_code == 1
    assert "[path-outside]" in result.output


def test_check_as_json_lists_everything_by_place(wiki, run, document, tidepool):
    """Problems and findings of all builds in one list, sorted by file and place."""
    wiki.put("anchor", tidepool.replace("cover: yes", "cover: no").replace("voltage: 12 V\n", "voltage: 5 V\n"))
    wiki.put("zinc", tidepool.replace("0.9 m", "0.9"))
    result = run("check", "--format", "json")
    found = document(result)
    assert result.exit_code == 1
    assert set(found) == {"guide_gen", "findings"}
    assert found["guide_gen"] == __version__
    assert {entry["code"] for entry in found["findings"]} >= {"cover-missing", "voltage-mismatch", "unit-missing"}
    places = [tuple(entry["where"].values()) for entry in found["findings"]]
    assert places == sorted(places)
    for entry in found["findings"]:
        assert set(entry) - {"toy"} == ENTRY
        assert entry["level"] in {"must fix", "should fix", "note"}
        assert set(entry["where"]) == {"file", "line", "column"}
        assert entry["where"]["file"].startswith("content/builds/")


def test_good_check_as_json_is_an_empty_list(wiki, run, document):
    """Not a missing one."""
    assert document(run("check", "--format", "json"))["findings"] == []


def test_check_as_annotations(wiki, run, tidepool):
    """One line each, the level in the forge's words, breaks and colons escaped."""
    wiki.put("tidepool", tidepool.replace("cover: yes", "cover: no").replace("(measured)", "(estimate)"))
    result = run("check", "--format", "github")
    assert result.exit_code == 1
    lines = result.output.splitlines()
    assert any(
        line.startswith("::error file=content/builds/tidepool/build.yaml,line=10,col=12,title=") for line in lines
    )
    assert any(line.startswith("::notice ") for line in lines)
    assert all(line.startswith("::") for line in lines)


def test_plan_as_text_shows_the_headline_values(wiki, run):
    """Fuse, wire and the wire list, in plain spaces."""
    result = run("plan", "content/builds/tidepool")
    assert result.exit_code == 0
    assert re.search(r"Fuse F1:\s+3 A", result.output)
    assert "0.75 mm²" in result.output
    assert "W11  F1:2 to M1:1" in result.output


def test_plan_as_json_is_one_document(wiki, run, document):
    """The whole plan, strictly JSON."""
    result = run("plan", "content/builds/tidepool", "--format", "json")
    found = document(result)
    assert result.exit_code == 0
    assert found["build"] == "tidepool"
    assert set(found) >= {"guide_gen", "build", "toys", "supplies", "boards", "findings"}
    toy = found["toys"]["bump"]
    wanted = {
        "kind", "control", "load", "fuse", "wire", "suppression", "circuit", "wires", "needs", "cautions", "readings",
        "steps", "worked", "findings",
    }  # fmt: skip
    assert wanted <= set(toy)
    assert {"design_current_A", "basis", "voltage_V"} <= set(toy["load"])
    assert {"rating_A", "series", "at", "needed_A", "governed_by"} <= set(toy["fuse"])
    assert {"size", "area_mm2", "run_m", "ampacity_A", "drop_V", "drop_percent", "governed_by"} <= set(toy["wire"])
    assert {"parts", "nodes"} == set(toy["circuit"])
    assert {"id", "from", "to", "colour", "size", "length_m", "carries_A", "protected_by"} <= set(toy["wires"][0])
    assert {"what", "value", "count"} <= set(toy["needs"][0])
    assert {"id", "word", "place", "text"} <= set(toy["cautions"][0])
    assert {"id", "stage", "text"} <= set(toy["steps"][0])
    assert {"demand_A", "worst_A", "limit_A", "headroom_percent", "wires"} <= set(found["supplies"]["brick"])
    assert toy["kind"] in kinds()


def test_plan_as_json_with_a_problem_has_findings_and_no_toys(wiki, run, document, tidepool):
    """The same shape as a check, with `build`: 1."""
    wiki.put("pier", tidepool.replace("0.9 m", "0.9"))
    for path in ("content/builds/pier", "content/builds/pier/build.yaml"):
        result = run("plan", path, "--format", "json")
        found = document(result)
        assert result.exit_code == 1
        assert set(found) == {"guide_gen", "build", "findings"}
        assert found["build"] == "pier"
        assert [entry["code"] for entry in found["findings"]] == ["unit-missing"]


def test_plan_with_a_must_fix_is_printed_and_fails(wiki, run, document, tidepool):
    """1, with the plan."""
    wiki.put("tidepool", tidepool.replace("cover: yes", "cover: no"))
    result = run("plan", "content/builds/tidepool", "--format", "json")
    assert result.exit_code == 1
    assert "bump" in document(result)["toys"]
    assert "[cover-missing]" in run("plan", "content/builds/tidepool").output


def test_site_and_version_answer_without_a_wiki(run):
    """Help and version need no clone."""
    assert __version__ in run("--version").output
    for command in ("check", "plan", "site", "preview", "start", "schema"):
        result = run(command, "--help")
        assert result.exit_code == 0
        assert "Usage" in result.output


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_a_poor_console_does_not_stop_the_program(wiki, encoding):
    """A sign that it lacks becomes a question mark."""
    done = subprocess.run(
        [sys.executable, "-c", "from guide_gen.cli import main; main()", "plan", "content/builds/tidepool"],
        capture_output=True, env={"PYTHONIOENCODING": encoding, "PYTHONPATH": ":".join(sys.path)}, timeout=60,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert b"Fuse F1" in done.stdout
    assert b"Traceback" not in done.stderr

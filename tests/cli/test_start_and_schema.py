"""`start` and `schema`: a first description that passes, and what an editor needs."""

import jsonschema
import pytest
import yaml


def test_start_writes_a_description_that_passes(wiki, run):
    """Without a terminal the defaults are taken."""
    result = run("start", "content/builds/pier")
    assert result.exit_code == 0
    assert "guide-gen check" in result.output
    text = (wiki.root / "content/builds/pier/build.yaml").read_text(encoding="utf-8")
    assert " # " in text
    checked = run("check", "content/builds/pier")
    assert checked.exit_code == 0
    assert "0 must fix" in checked.output


def test_start_never_overwrites(wiki, run, tidepool):
    """2, and the file is as it was."""
    result = run("start", "content/builds/tidepool")
    assert result.exit_code == 2
    assert "is there already" in result.output
    assert (wiki.root / "content/builds/tidepool/build.yaml").read_text(encoding="utf-8") == tidepool


@pytest.mark.parametrize("name", ["Night Ferry", "Ünder", "a_b", "-pier"])
def test_start_refuses_a_name_that_cannot_become_an_address(wiki, run, name):
    """Small letters, digits, single hyphens."""
    result = run("start", "--", f"content/builds/{name}")
    assert result.exit_code == 2
    assert "cannot become an address" in result.output
    assert not (wiki.root / "content/builds" / name).exists()


def test_start_where_nothing_can_be_written(wiki, run):
    """A file stands where the folder belongs."""
    (wiki.root / "content" / "builds" / "pier").write_text("")
    result = run("start", "content/builds/pier")
    assert result.exit_code == 2
    assert "is a file" in result.output


@pytest.mark.parametrize("folder", ["pier", "content/pier", "../pier", "content/builds/a/pier"])
def test_start_outside_the_builds_is_refused_with_the_place_to_take(wiki, run, folder):
    """What it writes must pass check, and check reads builds under content/builds only."""
    result = run("start", folder)
    assert result.exit_code == 2
    assert "guide-gen start content/builds/pier" in result.output


def test_schema_is_a_schema(run, document):
    """Valid by its own dialect; it knows the keys of a description."""
    result = run("schema")
    assert result.exit_code == 0
    found = document(result)
    jsonschema.Draft202012Validator.check_schema(found)
    assert {"build", "wiring", "supplies", "toys"} <= set(found["properties"])


def test_schema_accepts_what_the_reader_accepts(run, document, wiki, tidepool):
    """And refuses a misspelt key."""
    validator = jsonschema.Draft202012Validator(document(run("schema")))
    good = yaml.safe_load(tidepool)
    assert list(validator.iter_errors(good)) == []
    assert list(validator.iter_errors(yaml.safe_load(tidepool.replace("voltage: 12 V", "volts: 12 V", 1))))
    run("start", "content/builds/pier")
    started = yaml.safe_load((wiki.root / "content/builds/pier/build.yaml").read_text(encoding="utf-8"))
    assert list(validator.iter_errors(started)) == []

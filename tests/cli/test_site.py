"""`site`: a whole site or none; the last good one is never lost."""

import pytest


@pytest.fixture(name="good")
def _good(wiki, run):
    """A wiki whose site was written once."""
    result = run("site")
    assert result.exit_code == 0, result.output
    return wiki


def files(folder):
    """Every file below a folder with what it holds."""
    return {path.relative_to(folder): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_site_is_written_to_site_at_the_root(good):
    """With a page for the toy, and no description by accident."""
    site = good.root / "site"
    assert (site / "index.html").is_file()
    pages = [path for path in files(site) if path.suffix == ".html"]
    assert any("bump" in str(path) for path in pages)
    assert [path for path in files(site) if path.suffix in {".yaml", ".yml"}] == []


def test_nothing_is_written_into_the_content(good):
    """Pages are virtual."""
    assert [path.name for path in (good.root / "content").rglob("*") if path.is_file()] == ["build.yaml"]


def test_same_description_gives_the_same_site(good, run):
    """Byte for byte."""
    before = files(good.root / "site")
    assert run("site").exit_code == 0
    assert files(good.root / "site") == before


def test_problem_leaves_the_last_good_site_untouched(good, run, tidepool):
    """1, nothing written, nothing left behind."""
    before = files(good.root / "site")
    good.put("pier", tidepool.replace("0.9 m", "0.9"))
    result = run("site")
    assert result.exit_code == 1
    assert "[unit-missing]" in result.output
    assert "The last good site is untouched" in result.output
    assert files(good.root / "site") == before
    assert sorted(path.name for path in good.root.iterdir()) == ["content", "mkdocs.yml", "site"]


def test_must_fix_is_published_with_its_toy(good, run, tidepool):
    """One member's mistake does not stop a club: 0."""
    good.put("tidepool", tidepool.replace("cover: yes", "cover: no"))
    result = run("site")
    assert result.exit_code == 0
    assert "[cover-missing]" in result.output
    page = next(
        text for path, text in files(good.root / "site").items() if "bump" in str(path) and path.suffix == ".html"
    )
    assert b"no cover round its weight" in page


def test_strict_writes_nothing_while_something_must_be_fixed(good, run, tidepool):
    """1."""
    before = files(good.root / "site")
    good.put("tidepool", tidepool.replace("cover: yes", "cover: no"))
    assert run("site", "--strict").exit_code == 1
    assert files(good.root / "site") == before


def test_site_that_cannot_be_built_leaves_the_old_one(good, run, monkeypatch):
    """Something breaks half-way: the old site stands, and nothing lies beside it."""
    before = files(good.root / "site")

    def breaks(*_, **__):
        raise OSError("disk full")

    monkeypatch.setattr("mkdocs.commands.build._build_page", breaks)
    result = run("site")
    assert result.exit_code == 1
    assert "disk full" in result.output
    assert files(good.root / "site") == before
    assert sorted(path.name for path in good.root.iterdir()) == ["content", "mkdocs.yml", "site"]


def test_out_chooses_the_folder(wiki, run, tmp_path):
    """A new one; site/ is not touched."""
    assert run("site", "--out", tmp_path / "elsewhere").exit_code == 0
    assert (tmp_path / "elsewhere" / "index.html").is_file()
    assert not (wiki.root / "site").exists()


@pytest.mark.parametrize("out", ["content", ".", "content/builds/tidepool"])
def test_folder_with_other_files_is_refused(wiki, run, out):
    """2: nothing of anybody's is ever replaced."""
    before = files(wiki.root)
    result = run("site", "--out", out)
    assert result.exit_code == 2
    assert "Error:" in result.output
    assert files(wiki.root) == before


def test_one_build_alone_can_be_written(wiki, run, tidepool):
    """The others are left out."""
    wiki.put("pier", tidepool.replace("Tidepool", "Pier"))
    assert run("site", "content/builds/pier").exit_code == 0
    pages = [str(path) for path in files(wiki.root / "site") if path.suffix == ".html"]
    assert any("pier" in page for page in pages)
    assert not any("tidepool" in page for page in pages)

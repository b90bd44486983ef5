"""Wrong files that are made here because they are large, binary, or not where they belong."""

from collections.abc import Callable
from pathlib import Path

import pytest

from guide_gen.description.read import LARGEST, Description, read, read_text
from guide_gen.description.report import as_text

GOOD = "build: Tidepool\n"
Put = Callable[[str, bytes], Path]


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / "mkdocs.yml").write_text("site_name: x\n")
    (tmp_path / "content" / "builds").mkdir(parents=True)
    return tmp_path


@pytest.fixture
def put(root: Path) -> Put:
    def write(name: str, content: bytes) -> Path:
        path = root / "content" / "builds" / name / "build.yaml"
        path.parent.mkdir()
        path.write_bytes(content)
        return path

    return write


def told(description: Description) -> list[str]:
    assert description.build is None
    return [as_text(problem) for problem in description.problems]


def test_five_megabytes_of_text_are_refused(root: Path, put: Put) -> None:
    assert told(read(put("pier", b"build: " + b"x" * 5_000_000), root)) == [
        "content/builds/pier/build.yaml:1:1: must fix [file-too-large] the file is larger than 256 KB; expected "
        "a few KB of text; look whether something else was put into it; a large build is far smaller."
    ]


def test_text_that_is_too_large_is_refused_without_a_file() -> None:
    assert [problem.code for problem in read_text("x" * (LARGEST + 1), "build.yaml").problems] == ["file-too-large"]


def test_another_encoding_is_told_with_the_place_of_the_first_wrong_letter(root: Path, put: Put) -> None:
    assert told(read(put("pier", "build: Tidepool\nsummary: Größe\n".encode("latin-1")), root)) == [
        "content/builds/pier/build.yaml:2:12: must fix [encoding-wrong] the file is saved in another encoding than "
        "UTF-8; expected text saved as UTF-8; in the editor, save it again with encoding UTF-8."
    ]


def test_utf_16_is_named(root: Path, put: Put) -> None:
    assert told(read(put("pier", GOOD.encode("utf-16")), root)) == [
        "content/builds/pier/build.yaml:1:1: must fix [encoding-wrong] the file is saved in UTF-16; expected text "
        "saved as UTF-8; in the editor, save it again with encoding UTF-8."
    ]


def test_a_byte_order_mark_does_no_harm(root: Path, put: Put) -> None:
    codes = {problem.code for problem in read(put("pier", b"\xef\xbb\xbf" + GOOD.encode()), root).problems}
    assert codes == {"key-missing"}


def test_bytes_of_a_picture_are_told(root: Path, put: Put) -> None:
    assert told(read(put("pier", b"build: a\x00b\n"), root)) == [
        "content/builds/pier/build.yaml:1:9: must fix [yaml-broken] a sign that cannot be seen stands here (U+0000); "
        "expected plain text; delete it and type the place again."
    ]


def test_a_missing_file_is_told(root: Path) -> None:
    assert told(read(root / "content" / "builds" / "pier", root)) == [
        "content/builds/pier:1:1: must fix [file-missing] there is no file content/builds/pier; expected build.yaml in "
        "the folder of a build; look at the name of the folder, or begin one with guide-gen start."
    ]


def test_a_folder_without_description_is_told(root: Path) -> None:
    (root / "content" / "builds" / "pier").mkdir()
    assert [problem.code for problem in read(root / "content" / "builds" / "pier", root).problems] == ["file-missing"]


def test_a_path_outside_the_content_folder_is_refused(root: Path) -> None:
    (root / "build.yaml").write_text(GOOD)
    assert told(read(root / "content" / ".." / "build.yaml", root)) == [
        "build.yaml:1:1: must fix [path-outside] build.yaml lies outside content/; expected a description below "
        "content/builds/; put it into content/builds/<name>/build.yaml, as a file of its own."
    ]


def test_a_link_out_of_the_content_folder_is_refused(root: Path) -> None:
    (root / "secret").write_text(GOOD)
    (root / "content" / "builds" / "pier").mkdir()
    link = root / "content" / "builds" / "pier" / "build.yaml"
    try:
        link.symlink_to(root / "secret")
    except OSError:
        pytest.skip("this system makes no links")
    assert told(read(link, root)) == [
        "content/builds/pier/build.yaml:1:1: must fix [path-outside] content/builds/pier/build.yaml lies outside "
        "content/, where it links to; expected a description below content/builds/; put it into "
        "content/builds/<name>/build.yaml, as a file of its own."
    ]


def test_a_folder_name_that_is_no_address_is_told(root: Path, put: Put) -> None:
    assert told(read(put("Night Ferry", GOOD.encode()), root)) == [
        'content/builds/Night Ferry/build.yaml:1:1: must fix [value-shape] the folder\'s name "Night Ferry" cannot '
        'become an address; expected small letters, digits and single hyphens; name it "night-ferry".'
    ]


def test_every_code_of_reading_has_a_wrong_description() -> None:
    texts = [file.read_text(encoding="utf-8") for file in Path(__file__).parent.glob("*.txt")]
    here = Path(__file__).read_text(encoding="utf-8")
    codes = [
        "yaml-broken",
        "encoding-wrong",
        "file-too-large",
        "file-missing",
        "path-outside",
        "key-unknown",
        "key-twice",
        "key-missing",
        "value-shape",
        "unit-missing",
        "unit-unknown",
        "unit-wrong",
        "number-wrong",
        "implausible",
        "word-unknown",
        "name-unknown",
        "name-twice",
        "alias-refused",
        "tag-refused",
        "comment-in-value",
        "above-extra-low-voltage",
    ]
    unseen = [code for code in codes if not any(f"[{code}]" in text for text in [*texts, here])]
    assert unseen == []

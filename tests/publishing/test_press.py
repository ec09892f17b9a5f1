"""The press writes a whole site or nothing, and replaces only what it made."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from plateset.publishing.marker import MARKER
from plateset.publishing.press import PressError, check_target, write_site

FILES = [("index.html", b"new"), ("deep/er/page.html", b"page")]


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def manuscript(tmp_path: Path) -> Path:
    folder = tmp_path / "shelf" / "book"
    folder.mkdir(parents=True)
    (folder / "site.yaml").write_text("title: x")
    return folder


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A site pressed before."""
    target = tmp_path / "site"
    write_site([("index.html", b"old"), ("gone.html", b"old too")], target)
    return target


def test_a_new_folder_gets_the_files_and_the_marker(tmp_path: Path, manuscript: Path) -> None:
    target = tmp_path / "new" / "site"
    check_target(target, manuscript)
    assert write_site(FILES, target) == 2
    found = contents(target)
    assert b"pressed by Plateset" in found.pop(MARKER)
    assert found == dict(FILES)
    assert names(tmp_path / "new") == ["site"]


def test_a_pressed_folder_is_replaced_in_whole(old: Path, manuscript: Path) -> None:
    check_target(old, manuscript)
    write_site(FILES, old)
    assert {name for name in contents(old) if name != MARKER} == {"index.html", "deep/er/page.html"}
    assert names(old.parent) == ["shelf", "site"]


def test_an_empty_folder_may_be_pressed_into(tmp_path: Path, manuscript: Path) -> None:
    (tmp_path / "empty").mkdir()
    check_target(tmp_path / "empty", manuscript)
    assert write_site(FILES, tmp_path / "empty") == 2
    assert contents(tmp_path / "empty")["index.html"] == b"new"


def test_the_folder_one_stands_in_may_be_pressed_into(
    tmp_path: Path, manuscript: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "empty").mkdir()
    monkeypatch.chdir(tmp_path / "empty")
    check_target(Path("."), manuscript)
    write_site(FILES, Path("."))
    assert contents(tmp_path / "empty")["index.html"] == b"new"


def test_a_folder_with_files_of_others_is_refused(tmp_path: Path, manuscript: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "thesis.txt").write_text("all of it")
    with pytest.raises(PressError, match="holds files that Plateset did not make"):
        check_target(tmp_path / "mine", manuscript)


def test_what_was_added_to_a_pressed_folder_is_named_and_kept(old: Path, manuscript: Path) -> None:
    for name in ("thesis.txt", "deep/notes.md", "CNAME", "x.bak"):
        (old / name).parent.mkdir(exist_ok=True)
        (old / name).write_text("mine")
    before = contents(old)
    with pytest.raises(PressError, match=r"did not make: CNAME, deep/notes\.md, thesis\.txt and 1 more\. Move them"):
        check_target(old, manuscript)
    assert contents(old) == before


def test_a_pressed_folder_with_pages_missing_may_still_be_replaced(old: Path, manuscript: Path) -> None:
    (old / "gone.html").unlink()
    check_target(old, manuscript)


def test_a_link_in_a_pressed_folder_is_not_ours(old: Path, manuscript: Path) -> None:
    (old / "away").symlink_to(manuscript, target_is_directory=True)
    with pytest.raises(PressError, match="did not make: away"):
        check_target(old, manuscript)


def test_a_marker_that_is_a_folder_does_not_count(tmp_path: Path, manuscript: Path) -> None:
    (tmp_path / "mine" / MARKER).mkdir(parents=True)
    (tmp_path / "mine" / MARKER / "thesis.txt").write_text("all of it")
    with pytest.raises(PressError, match="did not make"):
        check_target(tmp_path / "mine", manuscript)


def test_the_manuscript_and_what_holds_or_lies_in_it_are_refused(tmp_path: Path, manuscript: Path) -> None:
    linked = tmp_path / "link"
    linked.symlink_to(manuscript, target_is_directory=True)
    places = [
        manuscript,
        manuscript.parent,
        tmp_path,
        manuscript / "site",
        manuscript / "programs" / "..",
        linked,
        linked / "site",
        Path("/"),
    ]
    for place in places:
        with pytest.raises(PressError, match="holds the manuscript or lies inside it"):
            check_target(place, manuscript)


def test_a_folder_whose_name_begins_as_the_manuscripts_is_another(manuscript: Path) -> None:
    check_target(manuscript.with_name("book-site"), manuscript)


def test_home_is_refused(tmp_path: Path, manuscript: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    with pytest.raises(PressError, match="no folder to replace"):
        check_target(home, manuscript)
    check_target(home / "site", manuscript)


def test_a_file_and_a_link_are_refused(tmp_path: Path, manuscript: Path, old: Path) -> None:
    (tmp_path / "file").write_text("x")
    (tmp_path / "to-site").symlink_to(old, target_is_directory=True)
    (tmp_path / "to-nothing").symlink_to(tmp_path / "nothing")
    for name in ("file", "to-site", "to-nothing"):
        with pytest.raises(PressError, match="is not a folder of its own"):
            check_target(tmp_path / name, manuscript)


def test_a_name_too_long_for_the_disk_is_told(tmp_path: Path, manuscript: Path) -> None:
    with pytest.raises(PressError):
        check_target(tmp_path / ("x" * 300), manuscript)
    with pytest.raises(PressError, match="could not be written"):
        write_site(FILES, tmp_path / ("x" * 250))


def test_a_maker_that_fails_midway_leaves_the_old_site_and_no_litter(old: Path) -> None:
    before = contents(old)

    def failing() -> Iterator[tuple[str, bytes]]:
        yield "index.html", b"half"
        raise RuntimeError("the maker gave up")

    with pytest.raises(RuntimeError, match="gave up"):
        write_site(failing(), old)
    assert contents(old) == before
    assert names(old.parent) == ["site"]


def test_a_maker_that_fails_leaves_no_new_folder(tmp_path: Path) -> None:
    def failing() -> Iterator[tuple[str, bytes]]:
        yield "index.html", b"half"
        raise RuntimeError

    with pytest.raises(RuntimeError):
        write_site(failing(), tmp_path / "site")
    assert names(tmp_path) == []


@pytest.mark.parametrize(
    "path", ["../out.html", "a/../../out.html", "/out.html", "a\\..\\..\\out.html", "C:out.html", "index.html"]
)
def test_a_file_outside_or_twice_is_refused(old: Path, path: str) -> None:
    before = contents(old)
    with pytest.raises(PressError, match=r"would stand at .*, or it lies outside the site"):
        write_site([("index.html", b"new"), (path, b"astray")], old)
    assert contents(old) == before
    assert names(old.parent) == ["site"]


def test_a_file_where_a_folder_is_needed_is_an_error_of_the_press(old: Path) -> None:
    before = contents(old)
    with pytest.raises(PressError, match="could not be written"):
        write_site([("a", b"file"), ("a/b.html", b"page")], old)
    assert contents(old) == before
    assert names(old.parent) == ["site"]


def test_a_target_under_a_file_is_an_error_of_the_press(tmp_path: Path, manuscript: Path) -> None:
    (tmp_path / "file").write_text("x")
    check_target(tmp_path / "file" / "site", manuscript)
    with pytest.raises(PressError, match="could not be written"):
        write_site(FILES, tmp_path / "file" / "site")
    assert (tmp_path / "file").read_text() == "x"


def test_a_swap_that_fails_half_way_brings_the_old_site_back(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = contents(old)
    rename = os.rename

    def stubborn(source: Path, target: Path) -> None:
        if target == old and source.name == "site":
            raise OSError(5, "Input/output error")
        rename(source, target)

    monkeypatch.setattr("plateset.publishing.bench.exchange", lambda one, other: False)
    monkeypatch.setattr(os, "rename", stubborn)
    with pytest.raises(PressError, match="could not be written: Input/output error"):
        write_site(FILES, old)
    assert contents(old) == before
    assert names(old.parent) == ["site"]


def test_a_full_disk_is_an_error_of_the_press(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = contents(old)

    def full(place: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", full)
        with pytest.raises(PressError, match="No space left on device"):
            write_site(FILES, old)
    assert contents(old) == before
    assert names(old.parent) == ["site"]


def test_what_was_half_pressed_before_does_not_stand_in_the_way(tmp_path: Path) -> None:
    (tmp_path / ".site.pressing" / "site").mkdir(parents=True)
    (tmp_path / ".site.pressing" / "site" / "index.html").write_text("stale")
    write_site(FILES, tmp_path / "site")
    assert names(tmp_path) == ["site"]
    assert contents(tmp_path / "site")["index.html"] == b"new"


def test_clearing_up_that_fails_is_an_error_of_the_press(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = contents(old)

    def stubborn(folder: Path) -> None:
        raise PermissionError(1, "Operation not permitted")

    with monkeypatch.context() as patched:
        patched.setattr(os, "rmdir", stubborn)
        with pytest.raises(PressError):
            write_site([("index.html", b"new"), ("index.html", b"twice")], old)
    assert contents(old) == before

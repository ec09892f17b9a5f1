"""The folders of the site before, kept for the next press: nothing but links, trusted in nothing, no litter."""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from plateset.pressing import Options, press
from plateset.publishing.bench import PressError
from plateset.publishing.spare import place_of_spare

from tests.publishing.building import write_book
from tests.test_ledger import SOUND, contents


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book", SOUND)


@pytest.fixture
def site(tmp_path: Path, book: Path) -> Path:
    """The book pressed, and pressed again after a change: from then on there is a spare."""
    press(book, "book", tmp_path / "site")
    edit(book, 0)
    press(book, "book", tmp_path / "site")
    assert place_of_spare(tmp_path / "site").is_dir()
    return tmp_path / "site"


def edit(book: Path, number: int) -> None:
    """Change the smaller program."""
    path = book / "programs" / "tally.yaml"
    path.write_text(f"title: Tally {number}\n" + path.read_text("utf-8").partition("\n")[2], "utf-8")


def again(book: Path, site: Path) -> dict[str, bytes]:
    """What is pressed again after another change, which is as if pressed afresh."""
    edit(book, 1)
    press(book, "book", site)
    press(book, "book", site.with_name("afresh"))
    assert contents(site) == contents(site.with_name("afresh"))
    return contents(site)


def test_a_spare_holds_links_to_the_site_and_nothing_of_its_own(site: Path) -> None:
    spare = place_of_spare(site)
    held = [path.relative_to(spare) for path in spare.rglob("*") if path.is_file()]
    assert any("lantern" in path.parts for path in held)
    assert [path for path in held if not os.path.samefile(spare / path, site / path)] == []


def test_files_of_programs_that_stay_are_in_the_spare_and_not_linked_again(
    book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    link, linked = os.link, list[str]()

    def noting(there: str, place: str, **how: bool) -> None:
        linked.append(place)
        link(there, place, **how)

    edit(book, 1)
    monkeypatch.setattr(os, "link", noting)
    press(book, "book", site)
    assert [place for place in linked if "/lantern/" in place] == []
    assert linked != []


def _other_in_its_place(spare: Path) -> None:
    path = spare / "programs" / "lantern" / "index.html"
    path.unlink()
    path.write_text("mine")


def _longer(spare: Path) -> None:
    with (spare / "programs" / "lantern" / "week-1.html").open("ab") as stream:
        stream.write(b"!")


def _a_file(spare: Path) -> None:
    shutil.rmtree(spare)
    spare.write_text("x")


def _a_link_out(spare: Path) -> None:
    path = spare / "programs" / "lantern" / "index.html"
    path.rename(spare.with_name("elsewhere"))
    path.symlink_to(spare.with_name("elsewhere"))


def _a_folder_for_a_file(spare: Path) -> None:
    path = spare / "programs" / "lantern" / "index.html"
    path.unlink()
    (path / "more").mkdir(parents=True)
    (path / "more" / "litter").write_text("x")


HARMS: dict[str, Callable[[Path], object]] = {
    "lost": shutil.rmtree,
    "a file": _a_file,
    "a file missing": lambda spare: (spare / "programs" / "lantern" / "index.html").unlink(),
    "another file in its place": _other_in_its_place,
    "a file more": lambda spare: (spare / "programs" / "lantern" / "litter").write_text("x"),
    "a file more that will be written": lambda spare: (spare / "index.html").write_text("x"),
    "a list more": lambda spare: os.link(spare / "programs" / "lantern" / "index.html", spare / ".plateset"),
    "a link out": _a_link_out,
    "a folder for a file": _a_folder_for_a_file,
    "a file written into, there and in the site": _longer,
}


@pytest.mark.parametrize("harm", HARMS)
def test_a_spare_that_was_harmed_costs_time_only(harm: str, book: Path, site: Path) -> None:
    HARMS[harm](place_of_spare(site))
    again(book, site)


def test_a_cache_on_another_disk_has_no_spare(book: Path, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rename = os.rename

    def refusing(one: Path, other: Path) -> None:
        if ".spare" in f"{one} {other}":
            raise OSError(errno.EXDEV, "Invalid cross-device link")
        rename(one, other)

    with monkeypatch.context() as patched:
        patched.setattr(os, "rename", refusing)
        again(book, site)
    assert sorted(path.name for path in site.parent.iterdir()) == ["afresh", "book", "site"]


def test_a_press_that_fails_with_the_spare_on_the_bench_has_not_touched_the_site(
    book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = {path: (path.stat().st_ino, path.read_bytes()) for path in site.rglob("*") if path.is_file()}
    write = Path.write_bytes

    def full(place: Path, data: bytes) -> int:
        if place.name == "index.html" and "tally" not in place.parts:
            raise OSError(errno.ENOSPC, "No space left on device")
        return write(place, data)

    edit(book, 1)
    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", full)
        with pytest.raises(PressError, match="No space left"):
            press(book, "book", site)
    assert {path: (path.stat().st_ino, path.read_bytes()) for path in site.rglob("*") if path.is_file()} == before
    again(book, site)


def test_a_program_taken_away_is_not_in_the_spare(book: Path, site: Path) -> None:
    (book / "programs" / "tally.yaml").unlink()
    press(book, "book", site)
    assert not (place_of_spare(site) / "programs" / "tally").exists() or not any(
        (place_of_spare(site) / "programs" / "tally").iterdir()
    )


def _shared(one: Path, other: Path) -> list[str]:
    return [path for path in contents(one) if (other / path).exists() and os.path.samefile(one / path, other / path)]


def test_a_site_that_is_kept_comes_to_share_nothing_by_way_of_the_spare(book: Path, site: Path) -> None:
    kept = site.with_name("kept")
    edit(book, 2)
    press(book, "book", site, Options(kept=kept))
    assert _shared(site, kept) == []
    again(book, site)
    assert _shared(site, kept) == []


def test_a_site_that_was_moved_away_comes_to_share_nothing_by_way_of_the_spare(book: Path, site: Path) -> None:
    moved = site.rename(site.with_name("moved"))
    press(book, "book", site)
    again(book, site)
    assert _shared(site, moved) == []


@pytest.mark.parametrize("gone", [True, False])
def test_the_spare_of_a_site_that_is_gone_goes_with_the_next_press_of_any(gone: bool, book: Path, site: Path) -> None:
    if gone:
        shutil.rmtree(site)
    press(book, "book", site.with_name("other"))
    assert place_of_spare(site).exists() == (not gone)

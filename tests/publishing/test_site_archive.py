"""The whole site in one file: everything the folder holds, outside of it, and never over a file of someone else."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner
from plateset.cli import main
from plateset.publishing.marker import MARKER
from plateset.publishing.press import PressError, write_site
from plateset.publishing.site_archive import check_archive, write_archive

from tests.publishing.building import write_book

FILES = [("index.html", b"<p>" * 400), ("programs/a/a.zip", b"PK" * 90), ("assets/style.css", b"p {}")]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    write_site(FILES, tmp_path / "site")
    return tmp_path / "site"


def test_it_holds_every_file_of_the_site_and_not_our_marker(site: Path) -> None:
    write_archive(site, site.with_name("site.zip"))
    with zipfile.ZipFile(site.with_name("site.zip")) as archive:
        assert archive.testzip() is None
        assert {name: archive.read(name) for name in archive.namelist()} == dict(FILES)
        assert archive.namelist() == sorted(archive.namelist())
    assert (site / MARKER).is_file()


def test_it_is_the_same_each_time_and_replaces_its_former_self(site: Path) -> None:
    place = site.with_name("site.zip")
    write_archive(site, place)
    first = place.read_bytes()
    check_archive(place, site, site.with_name("book"))
    write_archive(site, place)
    assert place.read_bytes() == first
    assert sorted(path.name for path in site.parent.iterdir()) == ["site", "site.zip"]


def test_a_place_inside_the_site_is_refused(site: Path) -> None:
    for place in (site / "site.zip", site / "deep" / "site.zip", site):
        with pytest.raises(PressError, match="inside the site"):
            check_archive(place, site, site.with_name("book"))


def test_a_place_inside_the_manuscript_is_refused(site: Path) -> None:
    """It would be a file that does not belong there, at the next press."""
    book = site.with_name("book")
    for place in (book / "site.zip", book / "programs" / "site.zip", book):
        with pytest.raises(PressError, match="inside the manuscript"):
            check_archive(place, site, book)


def test_a_file_of_someone_else_is_refused(site: Path, tmp_path: Path) -> None:
    mine, text, folder, link = (tmp_path / name for name in ("mine.zip", "thesis.zip", "folder.zip", "link.zip"))
    with zipfile.ZipFile(mine, "w") as archive:
        archive.writestr("thesis.txt", "all of it")
    text.write_text("not an archive")
    folder.mkdir()
    link.symlink_to(tmp_path / "nothing")
    for place in (mine, text, folder, link):
        with pytest.raises(PressError, match="not made by Plateset"):
            check_archive(place, site, site.with_name("book"))


def test_a_disk_that_refuses_is_an_error_of_the_press_and_leaves_no_litter(site: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(PressError, match="could not be written"):
        write_archive(site, tmp_path / "file" / "site.zip")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file", "site"]


def test_the_command_writes_both(tmp_path: Path) -> None:
    write_book(tmp_path / "book")
    command = ["press", str(tmp_path / "book"), "--to", str(tmp_path / "out")]
    refused = CliRunner().invoke(main, [*command, "--zip", str(tmp_path / "out" / "site.zip")])
    assert refused.exit_code == 4
    assert "inside the site" in refused.output
    assert not (tmp_path / "out").exists()
    done = CliRunner().invoke(main, [*command, "--as-draft", "--zip", str(tmp_path / "site.zip")])
    assert done.exit_code == 0, done.output
    assert "The same in one file" in done.output
    folder = {path.relative_to(tmp_path / "out").as_posix() for path in (tmp_path / "out").rglob("*") if path.is_file()}
    with zipfile.ZipFile(tmp_path / "site.zip") as archive:
        assert set(archive.namelist()) == folder - {MARKER}

"""A manuscript's own theme files have to be some that a page or a sheet takes."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.pressing import press
from plateset.problems import ManuscriptError
from plateset.proving import proof
from plateset.shipped import shipped

from tests.publishing.building import write_book

TAKEN = {
    "style.css": "p {}",
    "week.html": "{% include 'my-week.html' %}",
    "my-week.html": "Mine.",
    "paper/lifts.typ": '#import "mine.typ": *',
    "paper/mine.typ": "",
    "fonts/mine.ttf": "",
    "fonts/OFL.txt": "A licence.",
    "words.en.po": "",
    "mark.png": "",
    "notes.md": "What I changed.",
    ".hidden.css": "",
}
NOT_TAKEN = {
    "styles.css": ("no page or sheet takes this file", "style.css"),
    "Program.html": ("no page or sheet takes this file", "program.html"),
    "lifts.typ": ("no page or sheet takes this file", "paper/lifts.typ"),
    "my-week.html": ("no page or sheet takes this file", "week.html"),
    "words.qq.po": ("the site's language is en, so these words are not used", ""),
}


def told(folder: Path) -> dict[str, tuple[str, str]]:
    try:
        proof(folder, "book")
    except ManuscriptError as error:
        return {each.place.path: (each.message, each.nearest) for each in error.problems}
    return {}


def test_files_that_are_taken_are_no_problem(tmp_path: Path) -> None:
    assert told(write_book(tmp_path / "book", {f"theme/{name}": text for name, text in TAKEN.items()})) == {}


def test_files_that_nothing_takes_are_told_with_the_nearest_that_would_be(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book", {f"theme/{name}": "x" for name in NOT_TAKEN})
    assert told(book) == {f"book/theme/{name}": problem for name, problem in NOT_TAKEN.items()}
    with pytest.raises(ManuscriptError):
        press(book, "book", tmp_path / "site")
    assert not (tmp_path / "site").exists()


def test_a_file_called_theme_is_told(tmp_path: Path) -> None:
    assert told(write_book(tmp_path / "book", {"theme": "x"})) == {"book/theme": ("this is not a folder", "")}


def test_a_copy_of_all_of_the_theme_is_taken(tmp_path: Path) -> None:
    theme = shipped("themes") / "noticeboard"
    files = {path.relative_to(theme).as_posix(): path for path in theme.rglob("*") if path.is_file()}
    texts = {name: path.read_text("utf-8") for name, path in files.items() if path.suffix not in (".ttf", ".otf")}
    assert told(write_book(tmp_path / "book", {f"theme/{name}": text for name, text in texts.items()})) == {}

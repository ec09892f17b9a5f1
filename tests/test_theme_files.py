"""A manuscript's own theme files have to be some that a page or a sheet takes."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.pressing import Options, press
from plateset.problems import ManuscriptError
from plateset.proving import proof
from plateset.shipped import shipped

from tests.publishing.building import write_book

TAKEN = {
    "style.css": "p {}",
    "week.html": "{% include 'my-week.html' %}{% include 'my-part.j2' %}{% include 'parts/inner.html' %}",
    "my-week.html": "Mine.",
    "my-part.j2": "{% from 'my-macros.html' import mine %}",
    "my-macros.html": "{% macro mine() %}{% endmacro %}",
    "parts/inner.html": "",
    "paper/lifts.typ": '#import "mine.typ": *',
    "paper/mine.typ": "",
    "fonts/mine.ttf": "",
    "fonts/OFL.txt": "A licence.",
    "fonts/specimen.html": "How the font looks.",
    "fonts/fonts.css": "",
    "words.en.po": "",
    "words.nb-NO.po": "",
    "mark.png": "",
    "README.html": "What I changed.",
    "notes.md": "What I changed.",
    ".hidden.css": "",
}
AS_DRAFT = Options(as_draft=True)
NOBODY = "no page or sheet takes this file"
NOT_TAKEN = {
    "styles.css": (NOBODY, "style.css"),
    "STYLE.CSS": (NOBODY, "style.css"),
    "Program.html": (NOBODY, "program.html"),
    "week.htm": (NOBODY, "week.html"),
    "lifts.typ": (NOBODY, "paper/lifts.typ"),
    "paper/lift.typ": (NOBODY, "paper/lifts.typ"),
    "my-week.html": (NOBODY, "week.html"),
    "more.css": (NOBODY, "style.css"),
    "words.po": (NOBODY, "words.en.po"),
}
NAMES_NOTHING = {"base.html": "{# more.css, x-my-week.html #}<p>my-week.html</p>", "style.css": '@import "more.css";'}


def told(folder: Path) -> dict[str, tuple[str, str]]:
    try:
        proof(folder, "book")
    except ManuscriptError as error:
        return {each.place.path: (each.message, each.nearest) for each in error.problems}
    return {}


def test_files_that_are_taken_are_no_problem(tmp_path: Path) -> None:
    assert told(write_book(tmp_path / "book", {f"theme/{name}": text for name, text in TAKEN.items()})) == {}


def test_a_name_that_is_worked_out_may_be_any(tmp_path: Path) -> None:
    files = {"theme/week.html": "{% include 'top-' ~ page.kind ~ '.html' %}", "theme/top-week.html": "Top."}
    assert told(write_book(tmp_path / "book", files)) == {}


def test_files_that_nothing_takes_are_told_with_the_nearest_that_would_be(tmp_path: Path) -> None:
    files = {**dict.fromkeys(NOT_TAKEN, "x"), **NAMES_NOTHING}
    book = write_book(tmp_path / "book", {f"theme/{name}": text for name, text in files.items()})
    assert told(book) == {f"book/theme/{name}": problem for name, problem in NOT_TAKEN.items()}
    with pytest.raises(ManuscriptError):
        press(book, "book", tmp_path / "site")
    assert not (tmp_path / "site").exists()


def test_what_is_a_file_where_a_folder_is_expected_is_told_and_the_other_way_round(tmp_path: Path) -> None:
    assert told(write_book(tmp_path / "one", {"theme": "x"})) == {"book/theme": ("this is not a folder", "")}
    files = {"theme/style.css/mine.txt": "x", "theme/paper": "x", "theme/words.en.po/words.en.po": ""}
    assert told(write_book(tmp_path / "other", files)) == {
        "book/theme/paper": ("this is not a folder", ""),
        "book/theme/style.css": ("this is not a file", ""),
        "book/theme/words.en.po": ("this is not a file", ""),
    }


def test_a_link_to_nowhere_or_elsewhere_is_told_by_a_proof_and_by_a_press_after_another(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book")
    press(book, "book", tmp_path / "site", AS_DRAFT)
    (tmp_path / "elsewhere.css").write_text("p {}")
    (book / "theme").mkdir()
    (book / "theme" / "style.css").symlink_to(tmp_path / "elsewhere.css")
    assert told(book) == {"book/theme/style.css": ("the file lies outside the manuscript", "")}
    (book / "theme" / "style.css").unlink()
    (book / "theme" / "style.css").symlink_to("nowhere.css")
    assert told(book) == {"book/theme/style.css": ("the link leads nowhere", "")}
    with pytest.raises(ManuscriptError):
        press(book, "book", tmp_path / "site", AS_DRAFT)


def test_a_copy_of_all_of_the_theme_is_taken(tmp_path: Path) -> None:
    theme = shipped("themes") / "noticeboard"
    files = {path.relative_to(theme).as_posix(): path for path in theme.rglob("*") if path.is_file()}
    texts = {name: path.read_text("utf-8") for name, path in files.items() if path.suffix not in (".ttf", ".otf")}
    assert told(write_book(tmp_path / "book", {f"theme/{name}": text for name, text in texts.items()})) == {}

"""A workbook in another language: all of its words, and formulas that come to the same whatever those words are."""

from __future__ import annotations

import re
from dataclasses import astuple
from pathlib import Path
from typing import Any

import pytest
from plateset.publishing.documents import Edition, site_view
from plateset.publishing.language import ENGLISH, Language, language_of
from plateset.publishing.program_view import program_view
from plateset.publishing.workbook import Shown, workbook
from plateset.publishing.workbook_words import FormulaWords, SheetNames, words_of

from tests.everything import SLUG
from tests.office import converted, formulas, values
from tests.publishing.building import edition_of, write_book
from tests.publishing.phrases import phrases
from tests.publishing.test_sheet_words import HEAD, MARK, marked
from tests.publishing.workbooks import with_cells


def book_of(edition: Edition, slug: str, language: Language) -> bytes:
    program, head = edition.programs[slug], edition.manuscript.site.head
    view = program_view(program, edition.manuscript, edition.figure, language)
    return workbook(program, Shown(view, site_view(edition), edition.manuscript, head.paper[0]), language)


def said_as(**otherwise: str) -> Language:
    """A language in which a few phrases, by a word of them, are said otherwise."""
    entries = []
    for phrase in filter(lambda each: isinstance(each, str), phrases()):
        for part, said in otherwise.items():
            if str(phrase) == part.replace("_", " "):
                text = said.replace("\\", "\\\\").replace('"', '\\"')
                entries.append(f'msgid "{phrase}"\nmsgstr "{text}"\n')
    assert len(entries) == len(otherwise)
    return language_of("nb", ((HEAD + "\n".join(entries)).encode(),))


def test_all_that_a_workbook_says_is_said_in_the_language(tmp_path: Path) -> None:
    """What is left are numbers with signs and units, and what the author wrote."""
    edition = edition_of(write_book(tmp_path), draft=True)
    written = " ".join(path.read_text("utf-8") for path in tmp_path.rglob("*.*") if path.suffix in (".yaml", ".md"))
    flat, count = " ".join(written.split()).replace('\\"', '"'), 0
    for slug in edition.programs:
        book = values(book_of(edition, slug, language_of("nb", (marked().encode(),))))
        assert all(name.startswith(MARK) for name in book.sheetnames)
        for cell in (cell for sheet in book for row in sheet.iter_rows() for cell in row):
            if not isinstance(cell.value, str) or MARK in cell.value:
                count += isinstance(cell.value, str)
                continue
            figure = re.fullmatch(r"\d+(–\d+)?( (s|min))?", cell.value)
            assert figure or re.sub(r"^(• |A\d )", "", cell.value) in flat, cell.coordinate
    assert count > 200


def test_formats_and_choices_are_in_the_language(everythings: dict[str, Edition]) -> None:
    language = said_as(bodyweight='egen "vekt"', nearest="nærmest", down="ned")
    book = formulas(book_of(everythings["kilograms"], SLUG, language))
    formats = {cell.number_format for row in book["Week 1"].iter_rows() for cell in row}
    assert any('"egen vekt"' in each for each in formats)
    sheet = book["What can be loaded"]
    assert '"nærmest,ned"' in {each.formula1 for each in sheet.data_validations.dataValidation}
    assert sheet["B6"].value in ("nærmest", "ned")


AWKWARD = {
    "by_feel": 'etter "følelse", 1',
    "left_out": "=utelatt",
    "above_your_max": "over maks'en" * 20,
    "down": "ned, ned",
    "Your_lifts": "L'entraînement [A/B]: *?",
    "What_can_be_loaded": "Was man laden kann, und noch mehr als das",
    "Numbers": "Tall & 'tegn'",
    "Weekly_sets": "Sett <uke>",
}


@pytest.mark.parametrize("gym", ["kilograms", "pounds"])
def test_formulas_come_to_the_same_whatever_the_words_are(
    gym: str, everythings: dict[str, Edition], tmp_path: Path
) -> None:
    edition, language = everythings[gym], said_as(**AWKWARD)
    books = {"plain": book_of(edition, SLUG, ENGLISH), "awkward": book_of(edition, SLUG, language)}
    stale = {name: with_cells(book, formulas(book).sheetnames[0], {}) for name, book in books.items()}
    done = {name: values(book) for name, book in converted(stale, tmp_path).items()}
    said = dict(zip(astuple(FormulaWords()), astuple(words_of(language, (1,)).formulas), strict=True))
    assert said["down"] == "down"  # a comma would part the choices
    plain, awkward = done["plain"], done["awkward"]
    assert len(plain.sheetnames) == len(awkward.sheetnames)
    compared = 0
    for one, other, known in zip(plain, awkward, values(books["awkward"]), strict=True):
        for cells in zip(one.iter_rows(), other.iter_rows(), known.iter_rows(), strict=False):
            for ours, theirs, remembered in zip(*cells, strict=False):
                if isinstance(ours.value, int | float):
                    assert theirs.value == pytest.approx(ours.value), ours.coordinate
                    compared += 1
                elif ours.value in said:
                    assert theirs.value == said[ours.value] == remembered.value, ours.coordinate
                    compared += 1
    assert compared > 1000
    assert said["by feel"] in _words(awkward)


def _words(book: Any) -> set[object]:
    return {cell.value for sheet in book for row in sheet.iter_rows() for cell in row}


def test_names_of_sheets_are_such_as_sheets_may_have() -> None:
    named = words_of(said_as(**AWKWARD), (1, 2)).sheets
    assert (named.your_lifts, named.numbers) == ("L'entraînement A B", "Tall & 'tegn")
    assert named.loadable == "Was man laden kann, und noch me"
    assert named.start == "Start here"


@pytest.mark.parametrize(
    "otherwise",
    [
        {"Numbers": "start HERE"},
        {"Numbers": "Week 2"},
        {"Numbers": "history"},
        {"Numbers": "/ : ?"},
        {"Week_%(number)s": "Uke"},
    ],
)
def test_names_that_cannot_be_told_apart_are_the_english_ones(otherwise: dict[str, str]) -> None:
    words = words_of(said_as(**otherwise), (1, 2))
    assert words.sheets == SheetNames()
    assert [words.week(1), words.week(2)] == ["Week 1", "Week 2"]


def test_words_without_a_letter_are_the_english_ones() -> None:
    assert words_of(said_as(by_feel=" "), (1,)).formulas == FormulaWords()

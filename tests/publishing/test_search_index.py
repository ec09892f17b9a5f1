"""The index: every name and every other name, and the words a page is found by."""

from __future__ import annotations

import json
from typing import Any

import pytest
from plateset.publishing.search_index import NAME, SUBJECT, TEXT, Searched, index_letters, search_script, words_of


def index(*pages: Searched) -> dict[str, Any]:
    script = search_script(pages).decode()
    assert script.startswith("window.searchIndex = ")
    assert script.endswith(";\n")
    read: dict[str, Any] = json.loads(script.removeprefix("window.searchIndex = ").removesuffix(";\n"))
    return read


SQUAT = Searched(
    "Exercise",
    "Back squat",
    "exercises/back-squat.html",
    "Squat, quads",
    ("high-bar squat",),
    ("quads",),
    "Brace hard.",
)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("High-bar squat", ["high", "bar", "squat"]),
        ("Épaulé-jeté, 45°!", ["epaule", "jete", "45"]),
        ("snake_case ﬁt", ["snake", "case", "fit"]),
        ("", []),
    ],
)
def test_words_are_small_and_without_accents(text: str, words: list[str]) -> None:
    assert words_of(text) == words


def test_a_page_is_found_by_its_names_first_then_its_subjects_then_its_text() -> None:
    words = index(SQUAT)["words"]
    assert {word: weight for word, (_, weight) in words.items()} == {
        "back": NAME, "squat": NAME, "high": NAME, "bar": NAME, "quads": SUBJECT, "brace": TEXT, "hard": TEXT,
    }  # fmt: skip
    assert list(words) == sorted(words)


def test_a_page_keeps_what_its_entry_shows() -> None:
    shown = ["Exercise", "Back squat", "exercises/back-squat.html", "Squat, quads", "high-bar squat"]
    assert index(SQUAT)["pages"] == [shown]


def test_words_that_most_texts_hold_are_left_out_unless_they_name_something() -> None:
    pages = [Searched("Explainer", f"Page {number}", f"{number}", "", text="the common word") for number in range(20)]
    words = index(*pages, Searched("Exercise", "Common row", "row", ""))["words"]
    assert words["common"] == [20, NAME]
    assert "the" not in words


def test_the_script_holds_nothing_but_plain_characters() -> None:
    sly = Searched("Program", "</script>\u2028'\"é", "a", "\u2029", text="x")
    assert search_script([sly]).isascii()
    assert index(sly)["pages"][0][1] == "</script>\u2028'\"é"


def test_the_index_has_other_names_and_where_to_see() -> None:
    letters = index_letters(
        [SQUAT, Searched("Technique", "Éclair", "e", ""), Searched("Exercise", "45-degree row", "d", "")]
    )
    assert [letter.letter for letter in letters] == ["0–9", "B", "E", "H"]
    (entry,) = letters[3].entries
    assert (entry.name, entry.title, entry.path, entry.own) == (
        "High-bar squat", "Back squat", "exercises/back-squat.html", False,
    )  # fmt: skip
    assert letters[1].entries[0].own

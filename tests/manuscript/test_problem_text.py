"""Problems as an author sees them."""

from __future__ import annotations

import unicodedata

from hypothesis import given, settings
from hypothesis import strategies as st
from plateset.problem_text import WIDTH, problem_text
from plateset.problems import Place, Problem, nearest_word


def test_as_the_readme_shows_it() -> None:
    place = Place("my-site/programs/first-program.yaml", 32, 17, "    - exercise: gobelt-squat", 12)
    problem = Problem(
        place, "there is no exercise called 'gobelt-squat'", "the name of a file in exercises/", "goblet-squat"
    )
    assert problem_text(problem) == (
        "my-site/programs/first-program.yaml:32:17: there is no exercise called 'gobelt-squat'\n"
        "     32 |     - exercise: gobelt-squat\n"
        "        |                 ^^^^^^^^^^^^\n"
        "   expected: the name of a file in exercises/\n"
        "   nearest:  goblet-squat"
    )


def test_a_file_as_a_whole_has_no_line() -> None:
    assert (
        problem_text(Problem(Place("book/site.yaml"), "the file is missing")) == "book/site.yaml: the file is missing"
    )


def _pointed_at(excerpt: str, column: int, width: int) -> tuple[str, str]:
    shown, pointer = problem_text(Problem(Place("a.yaml", 1, column, excerpt, width), "x")).split("\n")[1:3]
    return shown, pointer


def test_tab_before_the_spot() -> None:
    shown, pointer = _pointed_at("\tsets: 0", 8, 1)
    assert shown[pointer.index("^")] == "0"


def test_wide_characters_take_two_columns() -> None:
    shown, pointer = _pointed_at("名前: 0", 5, 1)
    assert shown == "      1 | 名前: 0"
    assert pointer.index("^") == 10 + 2 * 2 + 2


def test_combining_marks_take_none() -> None:
    _, pointer = _pointed_at("cafe\u0301: 0", 8, 1)
    assert pointer.index("^") == 10 + 6


def test_control_characters_are_shown_and_not_sent_to_the_screen() -> None:
    shown, pointer = _pointed_at("a\x1b[31m\u202e: 0", 10, 1)
    assert shown == "      1 | a\\x1b[31m\\u202e: 0"
    assert shown[pointer.index("^")] == "0"
    text = problem_text(Problem(Place("a\nb\x1b.yaml"), "m\x07", "e\r", "n\x9b"))
    assert text.count("\n") == 2
    assert all(unicodedata.category(character) != "Cc" for character in text.replace("\n", ""))


def test_long_lines_are_trimmed_round_the_spot() -> None:
    excerpt = "a" * 300 + "HERE" + "b" * 300
    shown, pointer = _pointed_at(excerpt, 301, 4)
    start = pointer.index("^")
    assert shown[start : start + 4] == "HERE"
    assert pointer.count("^") == 4
    assert len(shown) == WIDTH
    assert shown[10] == shown[-1] == "…"
    shown, pointer = _pointed_at("HERE" + "b" * 300, 1, 4)
    assert shown[10:14] == "HERE"
    shown, pointer = _pointed_at("a" * 300 + "HERE", 301, 4)
    assert shown.endswith("aHERE")


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=300), st.integers(1, 320), st.integers(1, 400))
def test_any_line_fits_and_the_pointer_stays_under_it(excerpt: str, column: int, width: int) -> None:
    lines = problem_text(Problem(Place("a.yaml", 1, column, excerpt, width), "x")).split("\n")
    assert len(lines) in (1, 3)
    for line in lines[1:]:
        columns = sum(2 if unicodedata.east_asian_width(character) in "WF" else 1 for character in line)
        marks = sum(unicodedata.category(character) in ("Mn", "Me") for character in line)
        assert columns - 2 * marks <= WIDTH + 1


def test_nearest_words() -> None:
    known = ["quads", "hamstrings", "lower back"]
    assert nearest_word("quods", known) == "quads"
    assert nearest_word("Lower Back", known) == "lower back"
    assert nearest_word("xylophone", known) == ""
    assert nearest_word(5, known) == ""
    assert nearest_word("any", []) == ""

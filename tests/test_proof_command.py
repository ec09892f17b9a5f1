"""The proof beside another version, of some programs only, and as JSON that keeps to its schema."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator
from plateset.cli import main

from tests.conftest import CONTENT
from tests.publishing.building import BOOK, LANTERN, write_book

OLDER = (
    LANTERN.replace("chest: 10-12", "chest: 2-4")
    .replace("week 2: 72.5 %", "week 2: 80 %")
    .replace("sets: 4\n", "sets: 5\n")
    .replace("      - {exercise: plank, sets: 2, hold: 30 s, rest: 60 s}\n", "")
)


def run(*words: object, columns: int = 80) -> Result:
    """A command run here; an exception that is not an ending of its own is a fault of the test."""
    result = CliRunner().invoke(main, [str(word) for word in words], env={"COLUMNS": str(columns)})
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A manuscript of two programs; one breaks a promise."""
    return write_book(tmp_path / "book")


@pytest.fixture
def older(tmp_path: Path) -> Path:
    """Another version of one of its programs, in a file of that name."""
    (tmp_path / "older").mkdir()
    path = tmp_path / "older" / "lantern.yaml"
    path.write_text(OLDER, encoding="utf-8")
    return path


# -- some programs ----------------------------------------------------------------------------------------


def test_one_program_is_proved_by_itself(book: Path) -> None:
    result = run("proof", book, "--program", "tally")
    assert result.exit_code == 0
    assert "Tally (tally)" in result.stdout
    assert "lantern" not in result.stdout
    assert "1 program; marks: 0 stop, 0 query" in result.stdout
    assert "Notes and explainers" not in result.stdout


def test_several_programs_in_the_order_of_the_manuscript(book: Path) -> None:
    result = run("proof", book, "--program", "tally", "--program", "lantern")
    assert result.exit_code == 1
    assert result.stdout.index("(lantern)") < result.stdout.index("(tally)")


def test_a_program_that_is_not_there(book: Path) -> None:
    result = run("proof", book, "--program", "lantren")
    assert result.exit_code == 2
    assert "there is no program called 'lantren'. Expected: one of lantern, tally; nearest: lantern" in result.stderr


# -- another version --------------------------------------------------------------------------------------


def test_a_file_is_compared_with_the_program_of_its_name(book: Path, older: Path) -> None:
    result = run("proof", book, "--against", older, columns=200)
    assert result.exit_code == 1
    lines = result.stdout.splitlines()
    assert f"Changes since {older}" in lines
    assert "* heavy: squat: sets 5 -> 4; load week 1: 70 %, week 2: 80 % -> week 1: 70 %, week 2: 72.5 %" in lines
    assert "+ heavy: plank is new" in lines
    cells = [line.split() for line in lines]
    assert ["chest", "2-4", "10-12"] in cells
    assert ["quads", "8", "7"] in cells
    assert ["abs", "2", "4"] in cells
    assert ["heavy:", "squat", "70", "kg", "->", "80", "kg", "70", "kg", "->", "72.5", "kg"] in cells
    assert any(line.startswith("stop  promise-missed: chest: 10-12") for line in lines)
    assert lines[-1].startswith("1 program; ")
    assert not any("tally" in line for line in lines)


def test_a_file_of_another_name_needs_a_program_named(book: Path, older: Path) -> None:
    other = older.rename(older.with_name("Lantern old_2.yaml"))
    result = run("proof", book, "--against", other)
    assert result.exit_code == 2
    assert "there is no program called 'Lantern old_2' to compare Lantern old_2.yaml with" in result.stderr
    assert "name one with --program (perhaps lantern)" in result.stderr
    named = run("proof", book, "--against", other, "--program", "lantern")
    assert named.exit_code == 1
    assert "+ heavy: plank is new" in named.stdout


def test_the_same_file_has_not_changed(book: Path) -> None:
    result = run("proof", book, "--against", book / "programs" / "lantern.yaml", columns=200)
    assert "Nothing has changed since" in result.stdout


def test_problems_of_the_other_file_are_all_told(book: Path, older: Path) -> None:
    text = OLDER.replace("exercise: curl", "exercise: crul").replace("exercise: row", "exercise: roe")
    older.write_text(text, encoding="utf-8")
    result = run("proof", book, "--against", older)
    assert result.exit_code == 3
    places = [text.splitlines().index(line) + 1 for line in text.splitlines() if "crul" in line or "roe," in line]
    assert len(places) == 2
    for place in places:
        assert f"{older}:{place}:" in result.stderr
    assert "2 problems." in result.stderr


@pytest.mark.parametrize("name", ["nowhere.yaml", "nowhere"])
def test_another_version_that_is_not_there(book: Path, tmp_path: Path, name: str) -> None:
    result = run("proof", book, "--against", tmp_path / name, "--program", "lantern")
    assert result.exit_code == 3
    assert str(tmp_path / name) in result.stderr


@pytest.mark.parametrize(
    "case", sorted((Path(__file__).parent / "cases" / "programs").iterdir()), ids=lambda path: path.name
)
def test_a_faulty_other_file_is_told_and_never_ends_in_a_traceback(book: Path, case: Path) -> None:
    result = run("proof", book, "--against", case, "--program", "lantern")
    assert result.exit_code == 3
    assert f"{case}" in result.stderr
    assert "Nothing was computed or written." in result.stderr


def test_a_manuscript_is_compared_program_by_program(book: Path, tmp_path: Path) -> None:
    other = write_book(
        tmp_path / "first", {"programs/lantern.yaml": OLDER, "programs/ember.yaml": BOOK["programs/tally.yaml"]}
    )
    result = run("proof", book, "--against", other, columns=200)
    assert f"Gone: ember is only in {other}." in result.stdout
    assert result.stdout.count(f"Changes since {other}") == 1
    assert f"Nothing has changed since {other}." in result.stdout
    back = run("proof", other, "--against", book, columns=200)
    assert f"New: {book} has no such program." in back.stdout


def test_a_figure_is_shown_alone(book: Path, older: Path) -> None:
    for more in (("--against", older), ("--json",)):
        result = run("proof", book, "--working", "lantern/weeks", *more)
        assert result.exit_code == 2
        assert "--working shows one figure and nothing else" in result.stderr


@pytest.mark.parametrize("width", [80, 160])
def test_changes_of_every_demo_fit_the_screen(width: int, tmp_path: Path) -> None:
    other = shutil.copytree(CONTENT, tmp_path / "first")
    for path in (other / "programs").glob("*.yaml"):
        text = path.read_text(encoding="utf-8").replace("sets: 3", "sets: 2").replace("rest: 2 min", "rest: 3 min")
        path.write_text(text, encoding="utf-8")
    stdout = run("proof", CONTENT, "--against", other, columns=width).stdout
    assert stdout.count("Changes since") == 5
    assert "…" not in stdout
    assert [line for line in stdout.splitlines() if len(line) > width and str(other) not in line] == []


# -- json -------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def schema() -> Draft202012Validator:
    """The schema as the command prints it."""
    found = json.loads(run("proof", "--json-schema").stdout)
    assert found["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(found)
    return Draft202012Validator(found)


def printed(schema: Draft202012Validator, *words: object) -> Any:
    """What a command prints as JSON, which keeps to the schema."""
    found = json.loads(run("proof", *words, "--json").stdout)
    schema.validate(found)
    return found


def test_the_demos_keep_to_the_schema(schema: Draft202012Validator) -> None:
    found = printed(schema, CONTENT)
    assert len(found["programs"]) == 5
    assert found["against"] is None
    width = next(each for each in found["programs"]["wider-back-block"]["loads"] if each["session"] == "width")
    assert width["lines"][0] == {
        "exercise": "pull-up",
        "first": {"week": 1, "sets": 3, "optional": 0, "reps": "6-8", "load": "+5 kg"},
        "last": {"week": 5, "sets": 4, "optional": 0, "reps": "6-8", "load": "+7.5 kg"},
    }


def test_a_stopped_manuscript_keeps_to_the_schema(schema: Draft202012Validator, book: Path) -> None:
    found = printed(schema, book)
    assert found["may be published"] is False
    (mark,) = [each for each in found["programs"]["lantern"]["marks"] if each["name"] == "promise-missed"]
    assert mark["changes"] == [{"session": "heavy", "days": [1], "line": 2, "part": 1, "exercise": "bench", "sets": 7}]
    assert found["marks on notes"][0]["changes"] == []
    sessions = found["programs"]["lantern"]["weeks"][0]["sessions"]
    assert [(each["session"], each["limit"]) for each in sessions] == [("heavy", 90), ("light", None)]


def test_what_is_left_to_the_reader_is_told_from_least_to_most(schema: Draft202012Validator, book: Path) -> None:
    path = book / "programs" / "lantern.yaml"
    path.write_text(LANTERN.replace("sets: 4\n", "sets: 4-6\n"), encoding="utf-8")
    lantern = printed(schema, book)["programs"]["lantern"]
    first = lantern["weeks"][0]
    assert (first["weekly sets"]["quads"], first["weekly sets at most"]["quads"]) == ("7", "9")
    squat = lantern["loads"][0]["lines"][0]["first"]
    assert (squat["sets"], squat["optional"]) == (6, 2)


def test_a_faulty_manuscript_keeps_to_the_schema(schema: Draft202012Validator, book: Path) -> None:
    (book / "programs" / "lantern.yaml").write_text("title: [\n", encoding="utf-8")
    (book / "site.yaml").unlink()
    found = printed(schema, book)
    assert len(found["problems"]) >= 2
    assert found["programs"] == {}


def test_a_comparison_keeps_to_the_schema(
    schema: Draft202012Validator, book: Path, older: Path, tmp_path: Path
) -> None:
    found = printed(schema, book, "--against", older)
    against = found["against"]
    assert against["other"] == str(older)
    assert list(against["programs"]) == ["lantern"]
    lantern = against["programs"]["lantern"]
    assert lantern["promises"] == [{"what": "chest", "before": "2-4", "after": "10-12"}]
    assert {"muscle": "quads", "before": ["8", "8"], "after": ["7", "7"]} in lantern["weekly sets"]
    assert {"session": "heavy", "exercise": "plank", "kind": "added", "changes": []} in lantern["lines"]
    (load,) = [each for each in lantern["loads"] if each["session"] == "heavy"]
    assert load["before"]["last"]["load"] == "80 kg"
    assert load["after"]["last"]["load"] == "72.5 kg"
    other = write_book(tmp_path / "first", {"programs/ember.yaml": BOOK["programs/tally.yaml"]})
    (other / "programs" / "tally.yaml").unlink()
    whole = printed(schema, book, "--against", other)["against"]
    assert (whole["added"], whole["gone"]) == (["tally"], ["ember"])


def test_problems_of_another_version_keep_to_the_schema(schema: Draft202012Validator, book: Path, older: Path) -> None:
    older.write_text("", encoding="utf-8")
    assert printed(schema, book, "--against", older)["problems"][0]["file"] == str(older)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda found: found.pop("against"),
        lambda found: found.update(more=1),
        lambda found: found["programs"]["tally"].update(unit="stone"),
        lambda found: found["programs"]["tally"]["weeks"][0]["weekly sets"].update(abs="four"),
        lambda found: found["programs"]["tally"]["weeks"][0]["sessions"][0].pop("past failure"),
        lambda found: found["programs"]["tally"]["loads"][0]["lines"][0]["first"].update(week=0),
    ],
)
def test_the_schema_lets_nothing_else_through(schema: Draft202012Validator, book: Path, spoil: Any) -> None:
    found = printed(schema, book)
    spoil(found)
    assert not schema.is_valid(found)

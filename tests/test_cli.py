"""The command line as an author meets it: words, endings, and never a traceback."""

from __future__ import annotations

import json
import os
import pty
import re
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from click import Context
from click.testing import CliRunner, Result
from plateset import __version__
from plateset.cli import SUMMARIES, main
from plateset.manuscript.desk import lifts
from plateset.manuscript.read import read_manuscript

from tests.conftest import CONTENT
from tests.publishing.building import BOOK, LANTERN, SITE, write_book

SOUND_PROMISE = LANTERN.replace("chest: 10-12", "chest: 2-4")
"""The small program with a promise that it keeps."""


def run(*words: object) -> Result:
    """A command run here; an exception that is not an ending of its own is a fault of the test."""
    result = CliRunner().invoke(main, [str(word) for word in words], env={"COLUMNS": "200"})
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def run_apart(*words: object, **more: str) -> subprocess.CompletedProcess[bytes]:
    """A command run in a process of its own, as from a shell."""
    return subprocess.run(
        [sys.executable, "-m", "plateset", *(os.fsencode(str(word)) for word in words)],
        capture_output=True,
        env=os.environ | {"COLUMNS": "200"} | more,
        check=False,
    )


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device here that is always full")
def test_an_output_that_takes_no_more_is_told(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book")
    for words in (["proof", str(book)], ["proof", str(book), "--json"], ["manual", "keys"]):
        with open("/dev/full", "wb") as full:
            done = subprocess.run([sys.executable, "-m", "plateset", *words], stdout=full, stderr=-1, check=False)
        assert done.returncode == 4, words
        assert done.stderr == b"plateset: the output could not be written: No space left on device\n", words


def test_a_terminal_without_columns_is_written_to(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book")
    assert b"Lantern & oil" in run_apart("proof", book, COLUMNS="0").stdout


def test_a_device_is_no_archive_to_replace(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book")
    done = run("press", book, "--to", tmp_path / "site", "--as-draft", "--zip", os.devnull)
    assert done.exit_code == 4
    assert "is there and was not made by Plateset" in done.stderr


@pytest.fixture
def sound_book(tmp_path: Path) -> Path:
    """A manuscript that may be published."""
    explainer = BOOK["explainers/why-the-row.md"].replace("[9](", "[7](")
    return write_book(
        tmp_path / "book", {"programs/lantern.yaml": SOUND_PROMISE, "explainers/why-the-row.md": explainer}
    )


@pytest.fixture
def stopped(tmp_path: Path) -> Path:
    """One that a mark stops."""
    return write_book(tmp_path / "book")


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    """One with problems in two files."""
    program = SOUND_PROMISE.replace("exercise: curl", "exercise: crul").replace("weeks: 3\n", "weeks: three\n")
    site = SITE.replace("paper: [a4]", "papers: [a4]")
    return write_book(tmp_path / "book", {"programs/lantern.yaml": program, "site.yaml": site})


def inside(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


# -- help -------------------------------------------------------------------------------------------------


def test_help_names_every_command_and_every_ending() -> None:
    result = run("--help")
    assert result.exit_code == 0
    for command in ("draft", "proof", "press"):
        assert re.search(rf"^  {command} ", result.stdout, re.MULTILINE)
    for ending in (
        "0 when all is well",
        "1 the proof stops it",
        "2 the command line",
        "3 the manuscript",
        "4 the output",
    ):
        assert ending in result.stdout.replace("\n  ", " ")


@pytest.mark.parametrize("command", ["draft", "proof", "press"])
@pytest.mark.parametrize("flag", ["-h", "--help"])
def test_every_command_has_help(command: str, flag: str) -> None:
    result = run(command, flag)
    assert result.exit_code == 0
    assert result.stdout.startswith(f"Usage: main {command} ")


def test_the_list_of_commands_says_what_each_says_of_itself() -> None:
    for name, summary in SUMMARIES.items():
        found = main.get_command(Context(main), name)
        assert found is not None
        assert found.get_short_help_str(limit=100) == summary


def test_the_list_of_commands_loads_none_of_them() -> None:
    code = "import sys; from plateset.cli import main; main(['--help'], standalone_mode=False); print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not {"pydantic", "rich", "typst", "jinja2", "yaml"} & set(loaded)


def test_version() -> None:
    assert run("--version").stdout.strip() == f"plateset, version {__version__}"


@pytest.mark.parametrize(
    "words", [("prof", "book"), ("proof",), ("press", "book"), ("proof", "book", "--yaml"), ("draft", "a", "b")]
)
def test_a_wrong_command_line_ends_with_two(words: tuple[str, ...]) -> None:
    result = run(*words)
    assert result.exit_code == 2
    assert "Usage:" in result.stderr


# -- proof ------------------------------------------------------------------------------------------------


def test_a_sound_manuscript_ends_with_nought(sound_book: Path) -> None:
    result = run("proof", sound_book)
    assert result.exit_code == 0
    assert "May be published." in result.stdout
    assert "Lantern & oil (lantern)" in result.stdout
    assert result.stderr == ""


def test_a_stopped_manuscript_ends_with_one_and_says_where_and_what_mends_it(stopped: Path) -> None:
    result = run("proof", stopped)
    assert result.exit_code == 1
    assert "promise-missed: chest: 10-12 weekly sets promised, 3 planned in weeks 1-2" in result.stdout
    line = LANTERN.splitlines().index("weekly sets: {quads: 6-8, chest: 10-12}") + 1
    assert f"at {stopped}/programs/lantern.yaml:{line}:34" in result.stdout
    assert "Not to be published" in result.stdout


def test_the_table_of_weekly_sets_marks_the_broken_promise(stopped: Path) -> None:
    table = [line.split() for line in run("proof", stopped).stdout.splitlines()]
    assert ["Weekly", "sets", "promised", "1-2", "3d", "days", "most"] in table
    assert ["chest", "10-12", "3*", "2", "1", "3"] in table
    assert ["quads", "6-8", "7", "4", "2", "4"] in table
    assert ["glutes", "3.5", "(0)", "2", "(0)", "2", "2"] in table


def test_the_table_of_loads_goes_from_the_first_working_week_to_the_last(stopped: Path) -> None:
    table = [line.split() for line in run("proof", stopped).stdout.splitlines()]
    assert ["Loads", "week", "1", "load", "week", "2", "load"] in table
    assert ["Heavy", "day", "(mon)"] in table
    assert ["squat", "4", "x", "5", "70", "kg", "4", "x", "5", "72.5", "kg"] in table
    assert ["+", "pull-up", "3", "x", "5", "bodyweight", "3", "x", "5", "bodyweight"] in table
    assert ["plank", "2", "x", "30", "s", "by", "feel"] not in table
    assert ["Only", "(day", "1,", "day", "3)"] in table


WIDTHS = (80, 160)
SLUGS = sorted(path.stem for path in (CONTENT / "programs").glob("*.yaml"))


@pytest.mark.parametrize("colour", [{"NO_COLOR": "1"}, {"FORCE_COLOR": "1"}])
@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_of_the_demos_proof_is_cut_or_broken(width: int, colour: dict[str, str]) -> None:
    done = run_apart("proof", CONTENT, COLUMNS=str(width), PYTHONIOENCODING="utf-8", **colour)
    text = done.stdout.decode()
    assert ("\x1b[" in text) == ("FORCE_COLOR" in colour)
    plain = re.sub(r"\x1b\[[0-9;]*m", "", text)
    assert "…" not in plain
    assert [line for line in plain.splitlines() if len(line) > width] == []
    assert [line for line in plain.splitlines() if line != line.rstrip()] == []
    whole = read_manuscript(CONTENT, "content")
    lines = plain.splitlines()
    for slug in SLUGS:
        program = whole.programs[slug].head
        assert any(line == f"{program.title} ({slug})" for line in lines)
        for lift in (lift for _, lift in lifts(whole.programs[slug])):
            row = rf"[+/ ] {lift.exercise} +\d+(?:-\d+)? x (?:[\d-]+|open) .*"
            assert any(re.fullmatch(row, line) for line in lines), lift.exercise
        for muscle in program.weekly_sets:
            assert any(re.match(rf"{muscle} +\d", line) for line in lines), muscle


def test_a_program_that_changes_every_week_goes_on_below(tmp_path: Path) -> None:
    weeks = ", ".join(f"week {week}: {1 + week % 9}" for week in range(1, 25))
    program = SOUND_PROMISE.replace("weeks: 3\n", "weeks: 24\n").replace("sets: 4\n", f"sets: {{{weeks}}}\n")
    folder = write_book(tmp_path / "book", {"programs/lantern.yaml": program})
    lines = run_apart("proof", folder, COLUMNS="80").stdout.decode().splitlines()
    heads = [line.split() for line in lines if line.startswith("Weekly sets")]
    assert len(heads) > 2
    assert [word for head in heads[:-1] for word in head[3:]][:24] == [
        *("1", "2", "3d"),
        *(str(week) for week in range(4, 25)),
    ]
    assert [line for line in lines if len(line) > 80 and not line.startswith("      at ")] == []


def test_a_broken_manuscript_ends_with_three_and_tells_every_place(broken: Path) -> None:
    lines = SOUND_PROMISE.splitlines()
    weeks, curl = lines.index("weeks: 3") + 1, lines.index("    - exercise: curl") + 1
    result = run("proof", broken)
    assert result.exit_code == 3
    assert result.stdout == ""
    assert result.stderr == (
        f"{broken}/programs/lantern.yaml:{weeks}:8: 'three' is not a whole number\n"
        f"{weeks:7} | weeks: three\n"
        "        |        ^^^^^\n"
        "   expected: a whole number without a unit\n"
        "\n"
        f"{broken}/programs/lantern.yaml:{curl}:17: there is no exercise called 'crul'\n"
        f"{curl:7} |     - exercise: crul\n"
        "        |                 ^^^^\n"
        "   expected: the name of a file in exercises/\n"
        "   nearest:  curl\n"
        "\n"
        f"{broken}/site.yaml:5:1: there is no key 'papers' here\n"
        "      5 | papers: [a4]\n"
        "        | ^^^^^^\n"
        "   expected: one of: about, address, author, cautions, colours, curve, language, limits, loading, logo, "
        "paper, tagline, theme, title, type, unit, warm-up sets\n"
        "   nearest:  paper\n"
        "\n"
        "3 problems. Nothing was computed or written.\n"
    )


def test_a_misspelt_name_is_pointed_at(tmp_path: Path) -> None:
    program = SOUND_PROMISE.replace("exercise: curl", "exercise: crul")
    place = program.splitlines().index("    - exercise: crul") + 1
    folder = write_book(tmp_path / "book", {"programs/lantern.yaml": program})
    assert run("proof", folder).stderr == (
        f"{folder}/programs/lantern.yaml:{place}:17: there is no exercise called 'crul'\n"
        f"{place:7} |     - exercise: crul\n"
        "        |                 ^^^^\n"
        "   expected: the name of a file in exercises/\n"
        "   nearest:  curl\n"
        "\n"
        "1 problem. Nothing was computed or written.\n"
    )


def test_a_figure_that_leads_nowhere_is_pointed_at(tmp_path: Path) -> None:
    text = BOOK["explainers/why-the-row.md"].replace("lantern/weeks", "lantern/week")
    folder = write_book(tmp_path / "book", {"explainers/why-the-row.md": text})
    result = run("proof", folder)
    assert result.exit_code == 3
    assert "explainers/why-the-row.md:10:20: there is no figure 'week'" in result.stderr


def test_figures_and_themes_are_told_with_all_the_rest(tmp_path: Path) -> None:
    wrong = "[](figure:lantern/week), [](figure:tally/weeks)"
    changes = {
        "explainers/why-the-row.md": BOOK["explainers/why-the-row.md"] + wrong,
        "programs/tally.yaml": BOOK["programs/tally.yaml"].replace("title:", "titel:", 1),
        "site.yaml": SITE.replace("paper: [a4]", "theme: notisboard"),
    }
    result = run("proof", write_book(tmp_path / "book", changes))
    told = [line.split(": ", 1)[1] for line in result.stderr.splitlines() if re.match(r".+:\d+:\d+: ", line)]
    assert sorted(told) == [
        "there is no figure 'week'",
        "there is no key 'titel' here",
        "there is no theme called 'notisboard'",
    ]


def test_a_figure_of_a_program_that_cannot_be_planned_waits(tmp_path: Path) -> None:
    """A fault of an exercise keeps its programs from being planned; their figures are not called missing."""
    bent = BOOK["exercises/squat.md"].replace("implement: barbell", "implement: barbel")
    told = run("proof", write_book(tmp_path / "book", {"exercises/squat.md": bent})).stderr
    assert "'barbel' is not known here" in told
    assert told.endswith("\n1 problem. Nothing was computed or written.\n")


def test_a_typed_figure_that_the_plan_contradicts_stops_it(stopped: Path) -> None:
    result = run("proof", stopped)
    assert result.exit_code == 1
    assert "figure-contradicted: the text says '9', the plan says '7'" in result.stdout
    assert f"at {stopped}/explainers/why-the-row.md:10:56" in result.stdout


@pytest.mark.parametrize("name", ["nowhere", "book/site.yaml"])
def test_what_is_no_folder_is_told(stopped: Path, name: str) -> None:
    result = run("proof", stopped.parent / name)
    assert result.exit_code == 3
    assert result.stderr.startswith(f"{stopped.parent / name}: ")


# -- json -------------------------------------------------------------------------------------------------


def test_json_agrees_with_the_tables(stopped: Path) -> None:
    result = run("proof", stopped, "--json")
    found = json.loads(result.stdout)
    assert result.exit_code == 1
    assert found["may be published"] is False
    assert found["problems"] == []
    assert list(found["programs"]) == ["lantern", "tally"]
    lantern = found["programs"]["lantern"]
    assert lantern["promised"] == {"quads": [6, 8], "chest": [10, 12]}
    assert [week["weekly sets"]["quads"] for week in lantern["weeks"]] == ["7", "7", "4"]
    assert [week["deload"] for week in lantern["weeks"]] == [False, False, True]
    assert [week["direct sets"]["biceps"] for week in lantern["weeks"]] == ["3", "3", "2"]
    text = " ".join(run("proof", stopped).stdout.split())
    marks = [mark for program in found["programs"].values() for mark in program["marks"]] + found["marks on notes"]
    assert marks
    for mark in marks:
        assert f"{mark['name']}: {mark['reason']}" in text
        assert f"at {mark['file']}:{mark['line']}:{mark['column']}" in text
        assert mark["remedy"] in text
    for severity in ("stop", "query", "note"):
        assert f"{sum(mark['severity'] == severity for mark in marks)} {severity}" in text


def test_json_of_problems(broken: Path) -> None:
    result = run("proof", broken, "--json")
    found = json.loads(result.stdout)
    assert result.exit_code == 3
    assert found["programs"] == {}
    assert [(Path(p["file"]).name, p["line"], p["column"], p["nearest"]) for p in found["problems"]] == [
        ("lantern.yaml", SOUND_PROMISE.splitlines().index("weeks: 3") + 1, 8, ""),
        ("lantern.yaml", SOUND_PROMISE.splitlines().index("    - exercise: curl") + 1, 17, "curl"),
        ("site.yaml", 5, 1, "paper"),
    ]


# -- press ------------------------------------------------------------------------------------------------


def test_a_bar_that_only_a_program_has_is_pressed_as_it_is_proved(tmp_path: Path) -> None:
    """The site's bars are the usual ones; a program with its own is the only one that uses the exercise."""
    explainer = BOOK["explainers/why-the-row.md"].replace("[9](", "[7](")
    own = SOUND_PROMISE.replace("schedule:", "loading: {bars: {barbell: 20 kg, trap-bar: 25 kg}}\nschedule:", 1)
    note = BOOK["exercises/squat.md"].replace("implement: barbell\n", "implement: barbell\nbar: trap-bar\n")
    changes = {"programs/lantern.yaml": own, "explainers/why-the-row.md": explainer, "exercises/squat.md": note}
    book = write_book(tmp_path / "book", changes)
    assert run("proof", book).exit_code == 0
    assert run("press", book, "--to", tmp_path / "site").exit_code == 0


def test_a_bar_that_neither_program_nor_site_has_stops_both(tmp_path: Path) -> None:
    """Another program that has the bar does not hide it."""
    elsewhere = BOOK["programs/tally.yaml"].replace("sessions:", "loading: {bars: {trap-bar: 25 kg}}\nsessions:", 1)
    note = BOOK["exercises/squat.md"].replace("implement: barbell\n", "implement: barbell\nbar: trap-bar\n")
    book = write_book(tmp_path / "book", {"programs/tally.yaml": elsewhere, "exercises/squat.md": note})
    for result in (run("proof", book), run("press", book, "--to", tmp_path / "site")):
        assert result.exit_code == 3
        assert "exercises/squat.md:6:6: there is no bar called 'trap-bar'" in result.stderr
    assert not (tmp_path / "site").exists()


def test_press_makes_the_site_and_says_where(sound_book: Path, tmp_path: Path) -> None:
    result = run("press", sound_book, "--to", tmp_path / "site")
    assert result.exit_code == 0
    files = inside(tmp_path / "site")
    assert f"{len(files) - 1} files in {tmp_path / 'site'}. Open {tmp_path / 'site' / 'index.html'}" in result.stdout
    assert b"<h1>" in files["index.html"]
    assert not [path for path, data in files.items() if path.endswith(".html") and b"Draft" in data]


def test_pressing_twice_gives_the_same_bytes(sound_book: Path, tmp_path: Path) -> None:
    run("press", sound_book, "--to", tmp_path / "site")
    first = inside(tmp_path / "site")
    run("press", sound_book, "--to", tmp_path / "site")
    run("press", sound_book, "--to", tmp_path / "another")
    assert inside(tmp_path / "site") == first == inside(tmp_path / "another")


def test_press_says_whether_the_site_before_is_kept(sound_book: Path, tmp_path: Path) -> None:
    site, before = tmp_path / "site", tmp_path / "before"
    asked = ("press", sound_book, "--to", site, "--keep", before)
    assert f"Nothing was kept in {before}: there was no site before." in run(*asked).stdout
    assert f"Nothing was kept in {before}: the site is as it was." in run(*asked).stdout
    assert not before.exists()
    page = (site / "index.html").read_bytes()
    words = (sound_book / "site.yaml").read_text("utf-8").replace("title: ", "title: Another ", 1)
    (sound_book / "site.yaml").write_text(words, "utf-8")
    assert f"The site before: {before}" in run(*asked).stdout
    assert (before / "index.html").read_bytes() == page != (site / "index.html").read_bytes()


def test_press_refuses_what_the_proof_stops_and_shows_the_proof(stopped: Path, tmp_path: Path) -> None:
    result = run("press", stopped, "--to", tmp_path / "site")
    assert result.exit_code == 1
    assert not (tmp_path / "site").exists()
    assert "promise-missed: chest" in result.stderr
    assert "Nothing was pressed. --as-draft presses it all the same" in result.stderr


def test_press_refuses_what_cannot_be_read(broken: Path, tmp_path: Path) -> None:
    result = run("press", broken, "--to", tmp_path / "site", "--as-draft")
    assert result.exit_code == 3
    assert result.stderr == run("proof", broken).stderr
    assert not (tmp_path / "site").exists()


def test_a_draft_says_so_on_every_page(stopped: Path, tmp_path: Path) -> None:
    result = run("press", stopped, "--to", tmp_path / "site", "--as-draft")
    assert result.exit_code == 0
    pages = {path: data for path, data in inside(tmp_path / "site").items() if path.endswith(".html")}
    assert len(pages) > 20
    for path, data in pages.items():
        assert b"<strong>Draft" in data, path


def test_a_folder_of_others_is_refused_and_nothing_is_written(sound_book: Path, tmp_path: Path) -> None:
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "thesis.txt").write_text("all of it")
    result = run("press", sound_book, "--to", mine)
    assert result.exit_code == 4
    told = f"plateset: {mine} holds files that Plateset did not make: thesis.txt. Move them, or name another folder\n"
    assert result.stderr == told
    assert inside(mine) == {"thesis.txt": b"all of it"}
    assert sorted(path.name for path in tmp_path.iterdir()) == ["book", "mine"]


def test_the_manuscript_itself_is_refused(sound_book: Path) -> None:
    before = inside(sound_book)
    for target in (sound_book, sound_book.parent, sound_book / "site"):
        assert run("press", sound_book, "--to", target).exit_code == 4
    assert inside(sound_book) == before


def test_the_folder_one_stands_in_can_be_pressed_into(
    sound_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    assert run("press", sound_book, "--to", ".").exit_code == 0
    assert (tmp_path / "here" / "index.html").is_file()


def test_a_refused_press_leaves_the_site_before_it(sound_book: Path, tmp_path: Path) -> None:
    run("press", sound_book, "--to", tmp_path / "site")
    before = inside(tmp_path / "site")
    (sound_book / "programs" / "lantern.yaml").write_text(LANTERN, encoding="utf-8")
    assert run("press", sound_book, "--to", tmp_path / "site").exit_code == 1
    assert inside(tmp_path / "site") == before


def test_an_unknown_theme_is_pointed_at(sound_book: Path, tmp_path: Path) -> None:
    (sound_book / "site.yaml").write_text(SITE + "theme: noticebord\n", encoding="utf-8")
    result = run("press", sound_book, "--to", tmp_path / "site")
    assert result.exit_code == 3
    line = len(SITE.splitlines()) + 1
    assert f"site.yaml:{line}:8: there is no theme called 'noticebord'" in result.stderr
    assert "nearest:  noticeboard" in result.stderr
    assert not (tmp_path / "site").exists()


def test_a_logo_that_is_not_there_is_pointed_at(sound_book: Path, tmp_path: Path) -> None:
    (sound_book / "site.yaml").write_text(SITE + "logo: marc.png\n", encoding="utf-8")
    (sound_book / "theme").mkdir()
    (sound_book / "theme" / "mark.png").write_bytes(b"")
    line = len(SITE.splitlines()) + 1
    for words in (("proof", sound_book), ("press", sound_book, "--to", tmp_path / "site")):
        result = run(*words)
        assert result.exit_code == 3
        assert f"site.yaml:{line}:7: there is no picture called 'marc.png'" in result.stderr
        assert "nearest:  mark.png" in result.stderr
    assert not (tmp_path / "site").exists()


def test_a_logo_that_is_no_picture_is_pointed_at(sound_book: Path, tmp_path: Path) -> None:
    (sound_book / "site.yaml").write_text(SITE + "logo: mark.png\n", encoding="utf-8")
    (sound_book / "theme").mkdir()
    (sound_book / "theme" / "mark.png").write_bytes(b"GIF89a")
    line = len(SITE.splitlines()) + 1
    for words in (("proof", sound_book), ("press", sound_book, "--to", tmp_path / "site")):
        result = run(*words)
        assert result.exit_code == 3
        assert f"site.yaml:{line}:7: theme/mark.png is not a PNG picture" in result.stderr
    assert not (tmp_path / "site").exists()


def test_a_theme_that_drops_a_caution_is_told_and_nothing_is_written(sound_book: Path, tmp_path: Path) -> None:
    (sound_book / "theme").mkdir()
    (sound_book / "theme" / "home.html").write_text("{% extends 'base.html' %}\n", encoding="utf-8")
    result = run("press", sound_book, "--to", tmp_path / "site")
    assert result.exit_code == 4
    assert result.stderr.startswith("plateset: the theme's home.html leaves out a caution on index.html: ")
    assert not (tmp_path / "site").exists()


# -- draft ------------------------------------------------------------------------------------------------


def test_a_drafted_manuscript_proves_clean_and_presses(tmp_path: Path) -> None:
    folder, target = tmp_path / "my-site", tmp_path / "pressed"
    drafted = run("draft", folder)
    assert drafted.exit_code == 0
    assert drafted.stdout == f"{len(inside(folder))} files in {folder}\nNext: plateset proof {folder}\n"
    proved = json.loads(run("proof", folder, "--json").stdout)
    assert proved["may be published"] is True
    assert [mark for program in proved["programs"].values() for mark in program["marks"]] == []
    assert run("press", folder, "--to", target).exit_code == 0
    assert (target / "programs" / "first-program" / "week-1.html").is_file()


@pytest.mark.parametrize("name", ["site.yaml", ".hidden", "notes/deep.txt"])
def test_a_draft_never_overwrites(tmp_path: Path, name: str) -> None:
    (tmp_path / "mine" / name).parent.mkdir(parents=True)
    (tmp_path / "mine" / name).write_text("mine")
    result = run("draft", tmp_path / "mine")
    assert result.exit_code == 4
    assert result.stderr.startswith(f"plateset: {tmp_path / 'mine'} is not empty; name a new folder")
    assert inside(tmp_path / "mine") == {name: b"mine"}


def test_a_draft_may_start_in_an_empty_folder_but_not_in_a_file(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert run("draft", tmp_path / "empty").exit_code == 0
    (tmp_path / "file").write_text("mine")
    for name in ("file", "file/under"):
        assert run("draft", tmp_path / name).exit_code == 4
    assert run("draft", tmp_path / "file").stderr == f"plateset: {tmp_path / 'file'} is a file; name a new folder\n"
    assert (tmp_path / "file").read_text() == "mine"


# -- hostile ----------------------------------------------------------------------------------------------

HOSTILE: Mapping[str, Mapping[str, str]] = {
    "half a character in a title": {"site.yaml": 'title: "\\uD800"\nauthor: {name: x}\n'},
    "nothing in a title": {"site.yaml": 'title: "a\\x00b\\u202e"\nauthor: {name: "\\x1b[31m"}\n'},
    "an endless number": {"programs/lantern.yaml": LANTERN.replace("weeks: 3\n", f"weeks: {'9' * 5000}\n")},
    "no number": {"programs/lantern.yaml": LANTERN.replace("weeks: 3\n", "weeks: .nan\n")},
    "an infinite number": {"programs/lantern.yaml": LANTERN.replace("sets: 4\n", "sets: .inf\n")},
    "a heavy lift": {"programs/lantern.yaml": LANTERN.replace("100 kg x 1", "999999 kg x 1")},
    "a light lift": {"programs/lantern.yaml": LANTERN.replace("100 kg x 1", "0.000001 kg x 1")},
    "a weightless lifter": {"programs/lantern.yaml": LANTERN.replace("bodyweight: 80 kg", "bodyweight: 0 kg")},
    "half a percent": {"programs/lantern.yaml": LANTERN.replace("week 1: 70 %", "week 1: 0.000001 %")},
    "hundreds of sets": {
        "programs/lantern.yaml": LANTERN[: LANTERN.index("  light:")].replace("thu: light", "thu: heavy")
        + "      - {exercise: squat, sets: 20, reps: 1, load: 50 %, rest: 0 s}\n" * 16
    },
    "one set": {
        "programs/lantern.yaml": LANTERN[: LANTERN.index("sessions:")]
        .replace("weekly sets: {quads: 6-8, chest: 10-12}\n", "")
        .replace("thu: light", "thu: heavy")
        + "sessions:\n  heavy:\n    - {exercise: row, sets: 1, reps: 1, load: by feel}\n"
    },
    "a loop of maxima": {
        "exercises/squat.md": BOOK["exercises/squat.md"].replace(
            "movement", "max from: {exercise: bench, share: 90 %}\nmovement"
        ),
        "exercises/bench.md": BOOK["exercises/bench.md"].replace(
            "movement", "max from: {exercise: squat, share: 90 %}\nmovement"
        ),
        "programs/lantern.yaml": LANTERN.replace("squat: 100 kg x 1, bench: 80 kg x 1, ", ""),
    },
    "brackets without end": {"programs/lantern.yaml": "[" * 50_000},
    "quotes within quotes": {"explainers/why-the-row.md": BOOK["explainers/why-the-row.md"] + "> " * 5000 + "x\n"},
    "stars without end": {"explainers/why-the-row.md": BOOK["explainers/why-the-row.md"] + "*a_" * 3000 + "\n"},
    "links without end": {"explainers/why-the-row.md": BOOK["explainers/why-the-row.md"] + "[" * 5000 + "\n"},
    "a head without end": {"exercises/row.md": "---\nname: Row\n"},
    "a theme with a fault": {"theme/home.html": "{{ 1 // 0 }}"},
    "a theme of the wrong kind": {"theme/home.html": "{{ site.title + 1 }}"},
    "a theme that reads itself": {"theme/home.html": "{% extends 'home.html' %}"},
    "a sheet with a fault": {"theme/paper/sheet.typ": "#panic()"},
    "a sheet that is nothing": {"theme/paper/sheet.typ": ""},
}


def assert_told(done: subprocess.CompletedProcess[bytes], allowed: set[int]) -> None:
    assert b"Traceback" not in done.stderr, done.stderr[-300:].decode(errors="replace")
    assert done.returncode in allowed
    if done.returncode:
        assert done.stderr.strip() or done.stdout.strip()


@pytest.mark.parametrize("case", HOSTILE)
def test_a_hostile_manuscript_is_told_and_never_ends_in_a_traceback(case: str, tmp_path: Path) -> None:
    folder = write_book(tmp_path / "book", HOSTILE[case])
    assert_told(run_apart("proof", folder), {0, 1, 3})
    assert_told(run_apart("press", folder, "--to", tmp_path / "site", "--as-draft"), {0, 3, 4})


def a_latin_file(folder: Path) -> None:
    (folder / "exercises" / "row.md").write_bytes(b"---\nname: R\xe9\n---\n")


def a_latin_theme(folder: Path) -> None:
    (folder / "theme").mkdir()
    (folder / "theme" / "home.html").write_bytes(b"caf\xe9")


def a_circle(folder: Path) -> None:
    (folder / "exercises" / "round.md").symlink_to(folder / "exercises" / "round.md")


def a_pipe(folder: Path) -> None:
    os.mkfifo(folder / "exercises" / "pipe.md")


def a_way_out(folder: Path) -> None:
    (folder.parent / "private.md").write_text(BOOK["exercises/row.md"])
    (folder / "exercises" / "out.md").symlink_to(folder.parent / "private.md")


def a_name_that_is_no_text(folder: Path) -> None:
    (folder / "exercises" / os.fsdecode(b"caf\xe9.md")).write_text(BOOK["exercises/row.md"])


@pytest.mark.parametrize("spoil", [a_latin_file, a_latin_theme, a_circle, a_pipe, a_way_out, a_name_that_is_no_text])
def test_a_hostile_folder_is_told_and_never_ends_in_a_traceback(spoil: Callable[[Path], None], tmp_path: Path) -> None:
    folder = write_book(tmp_path / "book")
    spoil(folder)
    assert_told(run_apart("proof", folder), {1, 3})
    assert_told(run_apart("proof", folder, "--json"), {1, 3})
    assert_told(run_apart("press", folder, "--to", tmp_path / "site", "--as-draft"), {3, 4})
    assert not (tmp_path / "site").exists()


@pytest.mark.parametrize(
    "name", ["x" * 300, "a" + "/a" * 2500, os.fsdecode(b"caf\xe9")], ids=["too long", "too deep", "no text"]
)
def test_a_hostile_name_of_a_folder_is_told(tmp_path: Path, sound_book: Path, name: str) -> None:
    place = f"{tmp_path}/{name}"
    assert_told(run_apart("proof", place), {3})
    assert_told(run_apart("draft", place), {0, 4})
    assert_told(run_apart("press", sound_book, "--to", f"{place}-site"), {0, 4})


@pytest.mark.parametrize("options", [(), ("--json",)])
def test_a_terminal_that_knows_only_ascii_is_no_reason_to_fail(sound_book: Path, options: tuple[str, ...]) -> None:
    program = SOUND_PROMISE.replace("title: Lantern & oil", "title: Lampe à l’huile – 力")
    (sound_book / "programs" / "lantern.yaml").write_text(program, encoding="utf-8")
    done = run_apart("proof", sound_book, *options, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert_told(done, {0})


def test_a_draft_that_fails_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(path: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    result = run("draft", tmp_path / "mine")
    assert result.exit_code == 4
    assert "No space left on device" in result.stderr
    assert list(tmp_path.iterdir()) == []


# -- draft inside a manuscript, schemas -------------------------------------------------------------------


def test_a_file_is_drafted_in_the_folder_one_stands_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("draft", tmp_path / "mine")
    monkeypatch.chdir(tmp_path / "mine")
    result = run("draft", "--exercise", "nordic-curl", "--program", "spring-block")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[:2] == ["programs/spring-block.yaml", "exercises/nordic-curl.md"]
    assert run("proof", ".").exit_code == 0
    again = run("draft", "--program", "spring-block")
    assert again.exit_code == 4
    assert again.stderr == "plateset: programs/spring-block.yaml is there already; name another\n"


def test_a_draft_into_a_manuscript_says_how_to_start_one_more_file(tmp_path: Path) -> None:
    run("draft", tmp_path / "mine")
    told = run("draft", tmp_path / "mine").stderr
    assert "--program NAME, --exercise NAME, --technique NAME, --explainer NAME" in told
    assert run("draft").exit_code == 2


def test_schemas_are_written_into_a_manuscript_or_shown(sound_book: Path, tmp_path: Path) -> None:
    before = inside(sound_book)
    result = run("schemas", sound_book)
    assert result.stdout == f"5 schemas in {sound_book / '.plateset-schemas'}\n"
    written = {path: data for path, data in inside(sound_book).items() if path not in before}
    shown = run("schemas", "--show", "program")
    assert shown.stdout.encode() == written[".plateset-schemas/program.schema.json"]
    assert run("proof", sound_book).exit_code == 0
    assert run("schemas", tmp_path / "nowhere").exit_code == 4
    assert run("schemas").exit_code == 2


# -- how much is said -------------------------------------------------------------------------------------


def test_a_quiet_command_says_nothing_when_all_is_well(sound_book: Path, tmp_path: Path) -> None:
    for words in (
        ("proof", sound_book),
        ("press", sound_book, "--to", tmp_path / "site"),
        ("draft", tmp_path / "mine"),
        ("draft", tmp_path / "mine", "--explainer", "why-rows"),
    ):
        result = run(*words, "--quiet")
        assert (result.exit_code, result.stdout, result.stderr) == (0, "", ""), words


def test_a_quiet_proof_shows_what_stops_it_and_no_more(stopped: Path) -> None:
    result = run("proof", stopped, "-q")
    assert result.exit_code == 1
    marks = [line for line in result.stdout.splitlines() if not line.startswith(" ")]
    assert marks
    assert all(line.startswith("stop ") for line in marks if line)
    assert "Weekly sets" not in result.stdout


def test_a_verbose_press_tells_every_step_beside_the_output(sound_book: Path, tmp_path: Path) -> None:
    result = run("press", sound_book, "--to", tmp_path / "site", "--verbose")
    steps = result.stderr.splitlines()
    assert steps[0] == f"Proving {sound_book}"
    assert "Setting Lantern & oil, 1 of 2" in steps
    written = {path for path in inside(tmp_path / "site") if path != ".plateset"}
    assert {f"Writing {path}" for path in written} <= set(steps)
    assert "files in" in result.stdout
    assert run("press", sound_book, "--to", tmp_path / "site").stderr == ""
    assert run("press", sound_book, "--to", tmp_path / "site", "-q", "-v").exit_code == 2


def at_a_terminal(*words: object, **more: str) -> bytes:
    """Everything a command shows at a terminal."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "plateset", *map(str, words)], stdin=theirs, stdout=theirs, stderr=theirs,
        env=os.environ | {"TERM": "xterm-256color", "COLUMNS": "100"} | more,
    )  # fmt: skip
    os.close(theirs)
    shown = b""
    while True:
        try:
            part = os.read(ours, 4096)
        except OSError:  # the other end is closed
            break
        if not part:
            break
        shown += part
    os.close(ours)
    process.wait()
    return shown


COLOUR = re.compile(rb"\x1b\[(?:[\d;]*;)?(?:3[0-8]|4[0-8]|9[0-7])(?:;[\d;]*)?m")


def test_a_person_at_a_terminal_sees_that_the_press_gets_on(sound_book: Path, tmp_path: Path) -> None:
    shown = at_a_terminal("press", sound_book, "--to", tmp_path / "site")
    assert b"Setting" in shown
    assert shown.rstrip().endswith(b"index.html")
    quiet = at_a_terminal("press", sound_book, "--to", tmp_path / "site", "--quiet")
    assert quiet == b""


def test_no_color_is_respected(stopped: Path) -> None:
    assert COLOUR.search(at_a_terminal("proof", stopped))
    assert not COLOUR.search(at_a_terminal("proof", stopped, NO_COLOR="1"))


def test_what_is_piped_has_no_colour_and_no_controls(stopped: Path) -> None:
    assert b"\x1b" not in run_apart("proof", stopped).stdout


@pytest.mark.parametrize(("shell", "word"), [("bash", "complete"), ("zsh", "compdef"), ("fish", "complete")])
def test_the_shells_can_complete(shell: str, word: str) -> None:
    source = subprocess.run(
        [Path(sys.executable).with_name("plateset")], env=os.environ | {"_PLATESET_COMPLETE": f"{shell}_source"},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert word in source.stdout


# -- collate ----------------------------------------------------------------------------------------------


def test_a_pressed_folder_is_collated(sound_book: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    run("press", sound_book, "--to", site)
    result = run("collate", site)
    assert result.exit_code == 0
    assert re.fullmatch(r"\d+ files and [\d,]+ links within the site looked at\. The site is whole\.\n", result.stdout)
    assert run("collate", site, "--quiet").stdout == ""
    (site / "CNAME").write_text("barn.example")
    assert run("collate", site, "--quiet").stdout == ""
    (site / "numbers.html").unlink()
    result = run("collate", site, "--quiet")
    assert result.exit_code == 1
    assert "missing: numbers.html: listed, and not there\n" in result.stdout
    assert "broken link: index.html: leads to numbers.html, which is not there\n" in result.stdout
    assert run("collate", tmp_path).exit_code == 3

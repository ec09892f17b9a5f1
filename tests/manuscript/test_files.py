"""Files that cannot be read, and how much of the disk is looked at."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from plateset.manuscript.files import MAX_BYTES
from plateset.manuscript.positions import MAX_CHARACTERS
from plateset.manuscript.schema import Program
from plateset.manuscript.wording import MOST_FINDINGS

from tests.manuscript.reading import problems_in

Write = Callable[[str, str], Path]


def _only_problem(folder: Path) -> tuple[str, str]:
    problems = problems_in(folder)
    assert len(problems) == 1, problems
    assert problems[0].expected
    return str(problems[0].place), problems[0].message


def test_sound_manuscript_has_no_problems(sound: Path) -> None:
    assert problems_in(sound) == []


def test_bytes_that_are_not_utf_8_are_placed(sound: Path) -> None:
    (sound / "programs" / "latin.yaml").write_bytes(b"title: Plain\nsummary: caf\xe9\n")
    assert _only_problem(sound) == ("book/programs/latin.yaml:2:13", "this byte is not UTF-8 text")


def test_utf_16_is_not_text(sound: Path) -> None:
    (sound / "programs" / "wide.yaml").write_bytes("title: Wide\n".encode("utf-16"))
    assert _only_problem(sound) == ("book/programs/wide.yaml:1:1", "this byte is not UTF-8 text")


def test_byte_order_mark_and_line_ends_of_any_system_are_read(sound: Path) -> None:
    path = sound / "programs" / "steady-start.yaml"
    text = path.read_text(encoding="utf-8")
    for line_end in ("\r\n", "\r"):
        path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", line_end).encode("utf-8"))
        assert problems_in(sound) == []
        path.write_bytes(text.replace("weeks: 4", "weeks: 0").replace("\n", line_end).encode("utf-8"))
        assert _only_problem(sound)[0] == "book/programs/steady-start.yaml:9:8"


@pytest.mark.parametrize("text", ["", "\n  \n"])
@pytest.mark.parametrize("name", ["programs/empty.yaml", "exercises/empty.md"])
def test_empty_file(sound: Path, write: Write, name: str, text: str) -> None:
    write(name, text)
    assert _only_problem(sound) == (f"book/{name}", "the file is empty")


def test_file_that_is_too_large(sound: Path, write: Write) -> None:
    write("programs/large.yaml", "#" * (MAX_BYTES + 1))
    assert _only_problem(sound) == ("book/programs/large.yaml", "the file is larger than 1,000,000 bytes")


def test_too_much_yaml_and_too_much_prose(sound: Path, write: Write) -> None:
    write("programs/long.yaml", "#" * (MAX_CHARACTERS + 1))
    write("exercises/long.md", "---\nname: Long\n---\n" + "a " * MAX_CHARACTERS)
    messages = [problem.message for problem in problems_in(sound)]
    assert messages == ["more than 400,000 characters of prose", "more than 400,000 characters of YAML"]


def test_too_many_entries(sound: Path, write: Write) -> None:
    write("programs/many.yaml", "suits: [" + "a," * 70_000 + "]")
    assert _only_problem(sound)[1] == "more than 60,000 entries in one file"


def test_many_faults_in_a_long_file_are_found_quickly(sound: Path, write: Write) -> None:
    write("programs/many.yaml", "title: Many\n" + "".join(f"key {n}: {n}\n" for n in range(10_000)))
    problems = problems_in(sound)
    assert len(problems) == MOST_FINDINGS + 1
    assert sum("more faults stand in this file" in each.message for each in problems) == 1


def test_faults_behind_others_are_counted_with_them(sound: Path, write: Write) -> None:
    lines = "".join(
        "    - {exercise: plank, sets: 2, hold: 30 s, last set: {technique: dropset, drop: 2}}\n" for _ in range(250)
    )
    write("programs/many.yaml", f"sessions:\n  whole:\n{lines}")
    problems = [each for each in problems_in(sound) if each.place.path.endswith("many.yaml")]
    assert len(problems) == MOST_FINDINGS + 1
    (rest,) = [each.message for each in problems if "more faults" in each.message]
    missing = len(MISSING)
    assert rest == f"{2 * 250 + missing - MOST_FINDINGS} more faults stand in this file"


MISSING = [name for name, field in Program.model_fields.items() if field.is_required() and name != "sessions"]


def test_link_to_a_file_outside_is_refused(sound: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside.yaml"
    outside.write_text("title: Not yours\n", encoding="utf-8")
    (sound / "programs" / "linked.yaml").symlink_to(outside)
    assert _only_problem(sound) == ("book/programs/linked.yaml", "the file lies outside the manuscript")


def test_folder_that_leads_outside_is_refused(sound: Path, tmp_path: Path) -> None:
    (sound / "programs").rename(tmp_path / "programs")
    (sound / "programs").symlink_to(tmp_path / "programs")
    problems = problems_in(sound)
    assert [problem.message for problem in problems] == ["the file lies outside the manuscript"]


def test_link_to_a_file_inside_is_read(sound: Path) -> None:
    (sound / "exercises" / "low-bar-squat.md").symlink_to(sound / "exercises" / "back-squat.md")
    assert problems_in(sound) == []


def test_links_that_lead_nowhere(sound: Path) -> None:
    (sound / "exercises" / "broken.md").symlink_to("gone.md")
    (sound / "exercises" / "circle.md").symlink_to("circle.md")
    messages = [problem.message for problem in problems_in(sound)]
    assert messages[0] == "the file cannot be read: No such file or directory"
    assert messages[1].startswith(("the link leads in a circle", "the file cannot be read"))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no pipes with a name")
def test_pipe_is_not_waited_for(sound: Path) -> None:
    os.mkfifo(sound / "exercises" / "pipe.md")
    assert _only_problem(sound) == ("book/exercises/pipe.md", "this is not a file")


def test_folder_that_fails_on_reading(sound: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = Path.iterdir

    def fail(path: Path) -> Iterator[Path]:
        if path.name == "explainers":
            raise PermissionError(13, "Permission denied")
        return real(path)

    monkeypatch.setattr(Path, "iterdir", fail)
    assert _only_problem(sound) == ("book/explainers", "the folder cannot be read: Permission denied")


def test_file_that_fails_on_reading(sound: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = Path.open

    def fail(path: Path, mode: str = "r") -> object:
        if path.name == "plank.md":
            raise PermissionError(13, "Permission denied")
        return real(path, mode)

    monkeypatch.setattr(Path, "open", fail)
    assert _only_problem(sound) == ("book/exercises/plank.md", "the file cannot be read: Permission denied")


def test_missing_site(sound: Path) -> None:
    (sound / "site.yaml").unlink()
    assert _only_problem(sound) == ("book/site.yaml", "the file is missing")


def test_missing_folder_and_file_in_its_place(tmp_path: Path) -> None:
    assert _only_problem(tmp_path / "nowhere") == ("book", "there is no such folder")
    (tmp_path / "file").write_text("x", encoding="utf-8")
    assert _only_problem(tmp_path / "file") == ("book", "this is not a folder")


def test_empty_folder(tmp_path: Path) -> None:
    assert _only_problem(tmp_path) == ("book/site.yaml", "the file is missing")


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("Program", "programs"), ("programmes", "programs"), ("programms", "programs"), ("porgrams", "programs"),
        ("exercise", "exercises"), ("excercises", "exercises"), ("exersises", "exercises"),
        ("exercices", "exercises"), ("Techniqes", "techniques"), ("explaners", "explainers"),
        ("EXPLAINER", "explainers"),
    ],
)  # fmt: skip
def test_folder_under_another_name(name: str, meant: str, sound: Path) -> None:
    (sound / name).mkdir()
    problems = problems_in(sound)
    assert [(str(p.place), p.message, p.nearest) for p in problems] == [
        (f"book/{name}", "this folder would not be read", meant)
    ]


def test_a_site_whose_programs_lie_under_another_name_is_not_one_without_any(sound: Path) -> None:
    (sound / "explainers" / "why-squat.md").unlink()
    (sound / "programs").rename(sound / "programmes")
    assert _only_problem(sound) == ("book/programmes", "this folder would not be read")


def test_other_folders_are_the_author_s(sound: Path) -> None:
    names = ["pictures", "drafts", "notes", "videos", "examples", "exports", "diagrams", "progress", "programming"]
    for name in (*names, "old-programs", "programs-2", "exercise-pictures", "explanations", "technical"):
        (sound / name).mkdir()
    assert problems_in(sound) == []


def test_hidden_files_and_backups_are_passed_over(sound: Path, write: Write) -> None:
    write("programs/.hidden.yaml", "")
    write("programs/old.yaml~", "")
    write("notes.txt", "for myself")
    assert problems_in(sound) == []


@pytest.mark.parametrize(
    "name", ["Back-squat", "back_squat", "back squat", "-squat", "squat-", "kniebeuge-ö", "a" * 81]
)
def test_names_that_no_page_can_have(sound: Path, write: Write, name: str) -> None:
    write(f"exercises/{name}.md", "---\nname: Any\n---\n")
    assert _only_problem(sound)[1] == f"{name!r} cannot be the name of a page"


@pytest.mark.parametrize(
    "name", ["programs/index.yaml", "exercises/index.md", "techniques/index.md", "explainers/index.md"]
)
def test_the_page_that_lists_a_folder_has_its_name_to_itself(sound: Path, write: Write, name: str) -> None:
    write(name, "title: Any\n")
    folder = name.partition("/")[0]
    told = f"'index' is the name of the page that lists all of {folder}/"
    assert _only_problem(sound) == (f"book/{name}", told)


def test_problems_of_several_files_come_at_once_and_in_order(sound: Path, write: Write) -> None:
    write("site.yaml", "title: No author\n")
    write("programs/b.yaml", "title: [\n")
    write("exercises/z.md", "---\nname: 5\n---\n")
    write("explainers/a.md", "---\ntitle: A\nsummary: B\ndate: soon\n---\n[x](exercise:nothing)\n")
    problems = problems_in(sound)
    assert problems == sorted(problems)
    paths = list(dict.fromkeys(problem.place.path for problem in problems))
    assert paths == ["book/exercises/z.md", "book/explainers/a.md", "book/programs/b.yaml", "book/site.yaml"]


def test_a_kind_with_no_file_is_told_once_not_for_every_name(sound: Path) -> None:
    (sound / "exercises").rename(sound / "exercise")
    told = [(str(problem.place), problem.message, problem.nearest) for problem in problems_in(sound)]
    named = "exercises/ holds nothing that can be read, and other files name what should be there"
    assert told == [
        ("book/exercise", "this folder would not be read", "exercises"),
        ("book/exercises", named, ""),
    ]


def test_a_program_beside_the_site_is_told(sound: Path) -> None:
    text = (sound / "programs" / "steady-start.yaml").read_text("utf-8")
    (sound / "lost.yaml").write_text(text, "utf-8")
    (sound / "other.yaml").write_text("steps: [build]\n", "utf-8")
    told = [(str(problem.place), problem.message, problem.expected) for problem in problems_in(sound)]
    assert told == [("book/lost.yaml", "this program would not be read here", "a file in programs/")]


@pytest.mark.parametrize(
    ("lines", "sets", "said"),
    [(13, 5, ""), (14, 1, "5,096 lifts are more than a program may hold"), (10, 7, "25,480 sets are more than")],
)
def test_a_program_holds_what_a_year_can(lines: int, sets: int, said: str, sound: Path) -> None:
    days = ", ".join(f"{day}: whole" for day in ("mon", "tue", "wed", "thu", "fri", "sat", "sun"))
    line = f"    - {{exercise: plank, sets: {sets}, hold: 30 s}}\n"
    (sound / "programs" / "long.yaml").write_text(
        "title: Long\nsummary: Very.\nlevel: novice\ngoal: strength\nweeks: 52\ndate: 2026-03-02\nsuits: [Some]\n"
        f"not for: [Others]\nschedule: {{{days}}}\nsessions:\n  whole:\n{line * lines}",
        "utf-8",
    )
    found = [problem for problem in problems_in(sound) if problem.place.path.endswith("long.yaml")]
    assert [(problem.place.line, problem.message.startswith(said)) for problem in found] == (
        [(10, True)] if said else []
    )

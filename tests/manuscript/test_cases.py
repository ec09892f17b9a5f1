"""Every file in tests/cases says which problems must be reported for it; see the README there."""

from __future__ import annotations

import re
import shutil
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from plateset.problem_text import problem_text
from plateset.problems import Problem

from tests.conftest import TESTS
from tests.manuscript.reading import problems_in

CASES = TESTS / "cases"
KINDS = ("site", "programs", "exercises", "techniques", "explainers")
_EXPECTED = re.compile(r"#!(?P<file>file)?\s*(?:(?P<column>\d+): )?(?P<message>.*?)(?: ~ (?P<nearest>.+?))?\s*$")


@dataclass(frozen=True, order=True)
class Expected:
    path: str
    line: int
    column: int
    message: str
    nearest: str


def _single_cases() -> list[Path]:
    return sorted(path for kind in KINDS for path in (CASES / kind).iterdir())


def _cases() -> list[Path]:
    return _single_cases() + sorted((CASES / "together").iterdir())


def _lay_over(case: Path, folder: Path) -> list[Path]:
    """Copy a case over the sound manuscript; the files it brought."""
    if case.is_dir():
        brought = [path.relative_to(case) for path in sorted(case.rglob("*")) if path.is_file()]
        shutil.copytree(case, folder, dirs_exist_ok=True)
        return brought
    name = Path("site.yaml") if case.parent.name == "site" else case.relative_to(CASES)
    shutil.copy(case, folder / name)
    return [name]


def _expected(folder: Path, name: Path) -> list[Expected]:
    found = []
    lines = (folder / name).read_text(encoding="utf-8").split("\n")
    for number, line in enumerate(lines, start=1):
        match = _EXPECTED.search(line)
        if match is None:
            continue
        faulty = number
        while lines[faulty - 1].strip().startswith("#!") and faulty < len(lines):
            faulty += 1
        place = (0, 0) if match["file"] else (faulty, int(match["column"] or 0))
        found.append(Expected(f"book/{name.as_posix()}", *place, match["message"], match["nearest"] or ""))
    return found


def _reported(problem: Problem, expected: list[Expected]) -> Expected:
    """The problem in the terms of the case; the column only where the case fixes it."""
    place = problem.place
    loose = Expected(place.path, place.line, 0, problem.message, problem.nearest)
    return loose if loose in expected else replace(loose, column=place.column)


@pytest.mark.parametrize("case", _cases(), ids=lambda case: f"{case.parent.name}/{case.name}")
def test_case_reports_what_it_says(case: Path, sound: Path) -> None:
    brought = _lay_over(case, sound)
    problems = problems_in(sound)
    expected = [one for name in brought for one in _expected(sound, name)]
    reported = [_reported(problem, expected) for problem in problems]
    assert sorted(reported) == sorted(expected), "\n\n".join(map(problem_text, problems))
    assert all(problem.expected for problem in problems)
    assert problems == sorted(problems)

"""Marks on what can hurt."""

from __future__ import annotations

import pytest
from plateset.manuscript.schema import TechniqueNote
from plateset.training.marks.safety import above_level, caution_missing, past_failure, ruled_out

from tests.training.building import case, marks_by, plan_of

SQUAT = "exercise: squat, sets: 3, reps: 5, load: 60 kg"
WARNS = """
squat: {name: Squat, muscles: {direct: [quads]}, movement: squat, implement: barbell, warn of: [Lower back, knee],
  not with: [forced-reps, superset]}
"""


@pytest.mark.parametrize(
    ("line", "fires"),
    [
        (f"{{{SQUAT}, last set: {{technique: forced-reps}}}}", True),
        (f"{{{SQUAT}, every set: {{technique: forced-reps}}}}", True),
        (f"{{superset: [{{{SQUAT}}}, {{exercise: curl, sets: 3, reps: 8, load: 10 kg}}]}}", True),
        (f"{{{SQUAT}, last set: {{technique: partials}}}}", False),
        (f"{{{SQUAT}}}", False),
    ],
)
def test_ruled_out_by_the_note(line: str, fires: bool) -> None:
    marks = marks_by(ruled_out, plan_of(line, exercises_more=WARNS))
    assert [(mark.name, mark.severity) for mark in marks] == [("technique-ruled-out", "stop")] * fires


def test_ruled_out_is_marked_once_over_many_weeks() -> None:
    found = plan_of(f"{{{SQUAT}, last set: {{technique: forced-reps}}}}", more="weeks: 6", exercises_more=WARNS)
    assert len(marks_by(ruled_out, found)) == 1


@pytest.mark.parametrize(
    ("technique", "level", "severity"),
    [
        ("as-many-as-possible", "novice", None),
        ("drop-set", "novice", "stop"),
        ("drop-set", "intermediate", None),
        ("negatives", "novice", "stop"),
        ("negatives", "intermediate", "query"),
        ("negatives", "advanced", None),
    ],
)
def test_above_level(technique: str, level: str, severity: str | None) -> None:
    found = plan_of(f"{{{SQUAT}, last set: {{technique: {technique}}}}}", more=f"level: {level}")
    assert [mark.severity for mark in marks_by(above_level, found)] == ([severity] if severity else [])


@pytest.mark.parametrize(("key", "fires"), [("superset", False), ("pre-exhaustion", True), ("circuit", False)])
def test_groups_have_levels_too(key: str, fires: bool) -> None:
    found = plan_of(f"{{{key}: [{{{SQUAT}}}, {{{SQUAT}}}]}}", more="level: novice")
    assert [mark.name for mark in marks_by(above_level, found)] == ["above-level"] * (2 * fires)


def test_level_of_the_technique_note_goes_first() -> None:
    found = plan_of(f"{{{SQUAT}, last set: {{technique: partials}}}}", more="level: novice")
    gentle = TechniqueNote.model_validate({"name": "Partials", "summary": "Short.", "level": "novice"})
    assert list(above_level(case(found))) != []
    assert list(above_level(case(found, techniques={"partials": gentle}))) == []


@pytest.mark.parametrize(("lines", "limit", "fires"), [(2, 2, False), (3, 2, True), (1, 0, True), (3, 3, False)])
def test_past_failure(lines: int, limit: int, fires: bool) -> None:
    found = plan_of(*[f"{{{SQUAT}, last set: {{technique: drop-set}}}}"] * lines, more="weeks: 3")
    marks = marks_by(past_failure, found, f"limits: {{past failure lines: {limit}}}")
    assert [(mark.name, mark.path) for mark in marks] == [("past-failure", ("sessions", "a"))] * fires
    assert all(f"end {lines - limit} of them" in mark.remedy for mark in marks)


def test_sets_to_failure_are_not_past_it() -> None:
    found = plan_of(*[f"{{{SQUAT}, effort: to failure, last set: {{technique: cluster}}}}"] * 4)
    assert marks_by(past_failure, found) == []


@pytest.mark.parametrize(
    ("more", "site_more", "missing"),
    [
        ("", "", ["Lower back", "knee"]),
        ("cautions: [Keep the lower back still.]", "", ["knee"]),
        ("cautions: [The LOWER BACK and the knee.]", "", []),
        ("not for: [Lifters with a sore knee]", "", ["Lower back"]),
        ("", "cautions: [Mind the lower back and each knee.]", []),
    ],
)
def test_caution_missing(more: str, site_more: str, missing: list[str]) -> None:
    marks = marks_by(
        caution_missing, plan_of(f"{{{SQUAT}}}", f"{{{SQUAT}}}", more=more, exercises_more=WARNS), site_more
    )
    assert [mark.remedy.split("names the ")[1] for mark in marks] == missing
    assert all((mark.name, mark.severity, mark.path) == ("caution-missing", "stop", ("cautions",)) for mark in marks)

"""Marks on what can hurt."""

from __future__ import annotations

import pytest
from plateset.manuscript.schema import TechniqueNote
from plateset.training.marks.mark import Mark
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


def test_what_the_note_rules_out_is_told_at_its_place() -> None:
    group = f"{{superset: [{{exercise: curl, sets: 3, reps: 8, load: 10 kg}}, {{{SQUAT}}}]}}"
    assert marks_by(ruled_out, plan_of(group, exercises_more=WARNS)) == [
        Mark(
            "technique-ruled-out",
            "stop",
            ("sessions", "a", "lines", 0, "superset", 1, "exercise"),
            "the note on squat rules out superset",
            "use another technique or another lift, or change the note if it is wrong",
        )
    ]


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


def test_what_is_above_the_level_is_told_at_its_place() -> None:
    line = f"{{{SQUAT}, last set: {{technique: negatives}}}}"
    group = f"{{superset: [{{exercise: curl, sets: 3, reps: 8, load: 10 kg}}, {line}]}}"
    assert marks_by(above_level, plan_of(group, more="level: intermediate")) == [
        Mark(
            "above-level",
            "query",
            ("sessions", "a", "lines", 0, "superset", 1, "exercise"),
            "negatives on squat is for advanced lifters; the program is for intermediate ones",
            "leave the technique out, or raise the program's level and say whom it suits",
        )
    ]


def test_a_pick_is_no_technique_and_has_no_level() -> None:
    assert marks_by(above_level, plan_of(f"{{pick one: [{{{SQUAT}}}, {{{SQUAT}}}]}}", more="level: novice")) == []


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


def test_lines_past_failure_are_named_in_the_first_week_there_are_too_many() -> None:
    squat = f"{{{SQUAT}, last set: {{technique: drop-set}}}}"
    curl = "{exercise: curl, sets: 2, reps: 8, load: 20 kg, last set: {technique: rest-pause, from week: 2}}"
    found = plan_of(squat, f"{{superset: [{squat}, {curl}]}}", more="weeks: 3")
    assert marks_by(past_failure, found) == [
        Mark(
            "past-failure",
            "query",
            ("sessions", "a"),
            "'a' has 3 lines past failure in week 2: squat, squat, curl (limit 2)",
            "end 1 of them at or before failure",
        )
    ]


@pytest.mark.parametrize(("key", "fires"), [("pick one", False), ("superset", True)])
def test_of_a_pick_only_one_goes_past_failure(key: str, *, fires: bool) -> None:
    squat = f"{{{SQUAT}, last set: {{technique: drop-set}}}}"
    found = plan_of(squat, f"{{{key}: [{squat}, {squat}]}}")
    assert bool(marks_by(past_failure, found)) == fires


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
    assert marks == [
        Mark(
            "caution-missing",
            "stop",
            ("cautions",),
            f"the note on squat asks for a caution about the {subject}; the program has none",
            f"add one to 'cautions' that names the {subject}",
        )
        for subject in missing
    ]

"""Loads from the first working week to the last."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plateset.manuscript.quantities import Reps
from plateset.training.load_course import Stand, courses, heaviest

from tests.training.building import plain_or_feel, plan, plan_of


def both(stands: tuple[Stand, Stand]) -> list[tuple[int, int, str]]:
    return [(each.week, each.sets, plain_or_feel(each.load)) for each in stands]


def course_of(line: str, more: str = "weeks: 4") -> list[tuple[int, int, str]]:
    (session,) = courses(plan_of(line, more=more))
    (only,) = session.lines
    return both((only.first, only.last))


@pytest.mark.parametrize(
    ("line", "more", "words"),
    [
        ("{exercise: squat, sets: 3, reps: 5, load: 60 kg}", "weeks: 4", [(1, 3, "60"), (4, 3, "60")]),
        (
            "{exercise: squat, sets: {week 1: 3, week 4: 5}, reps: 5, load: {week 1: 60 kg, week 3: 70 kg}}",
            "weeks: 4\ndeload: {weeks: [1, 4]}",
            [(2, 3, "60"), (3, 3, "70")],
        ),
        (
            "{exercise: squat, sets: 3, reps: 5, load: 60 kg}",
            "weeks: 1\ndeload: {weeks: [1], sets: 100 %, load: 50 %}",
            [(1, 3, "30"), (1, 3, "30")],
        ),
        ("{exercise: squat, sets: 3, reps: 5, load: by feel}", "weeks: 1", [(1, 3, "by feel"), (1, 3, "by feel")]),
        ("{exercise: pull-up, sets: 3, reps: 5, load: bodyweight - 20 kg}", "weeks: 1", [(1, 3, "-20"), (1, 3, "-20")]),
    ],
)
def test_first_and_last_working_week(line: str, more: str, words: list[tuple[int, int, str]]) -> None:
    assert course_of(line, more) == words


@pytest.mark.parametrize(
    ("asked", "span"),
    [("reps: 5", (5, 5)), ("reps: 8-12", (8, 12)), ("hold: 30 s", None), ("reps: as many as possible", (0, 0))],
)
def test_repetitions(asked: str, span: tuple[int, int] | None) -> None:
    (session,) = courses(plan_of(f"{{exercise: squat, sets: 3, {asked}, load: 60 kg}}"))
    stand = session.lines[0].first
    assert stand.hold == (30 if asked.startswith("hold") else None)
    if stand.reps is None or stand.reps.open:
        assert span in (None, (0, 0))
    else:
        assert (stand.reps.low, stand.reps.high) == span


def test_sets_left_to_the_reader_are_told_beside_all() -> None:
    (session,) = courses(plan_of("{exercise: squat, sets: 2-3, reps: 5, load: 60 kg}"))
    assert (session.title, session.lines[0].first.least_sets, session.lines[0].first.sets) == ("A", 2, 3)


def test_a_line_of_several_sets_is_told_by_their_span_and_the_heaviest() -> None:
    line = "{exercise: squat, sets: 3, reps: 6-8, load: 80 kg, pyramid: {direction: ascending, load: 10 %, reps: 2}}"
    (session,) = courses(plan_of(line))
    stand = session.lines[0].first
    assert (stand.reps, plain_or_feel(stand.load)) == (Reps(6, 12), "80")


def test_a_little_added_to_the_body_is_heavier_than_the_body_alone() -> None:
    line = "{exercise: pull-up, sets: 1, reps: 5, load: bodyweight + 0.5 kg, back-off: {sets: 1, load: 10 %, reps: 8}}"
    (session,) = courses(plan_of(line, site_more="loading: {plates: [0.25 kg]}"))
    assert plain_or_feel(session.lines[0].first.load) == "0.5"


def test_a_set_with_help_is_told_before_one_that_is_left_to_feel() -> None:
    session = plan_of("{exercise: pull-up, sets: 2, reps: 5, load: bodyweight - 20 kg}").weeks[0].sessions[0]
    lift = session.lines[0].lifts[0]
    helped, other = lift.sets
    by_feel = replace(other, pieces=(replace(other.pieces[0], load=replace(other.pieces[0].load, mass=None)),))
    assert heaviest(replace(lift, sets=(by_feel, helped))).mass == -20


def test_an_open_set_among_others_is_told_by_the_first() -> None:
    line = "{exercise: squat, sets: 2, reps: 5, load: 60 kg, last set: {technique: as-many-as-possible}}"
    (session,) = courses(plan_of(line))
    assert session.lines[0].first.reps == Reps(5, 5)


def test_a_cluster_is_told_by_what_is_asked_of_the_set() -> None:
    line = "{exercise: squat, sets: 3, reps: 6, load: 60 kg, every set: {technique: cluster, pieces: 3}}"
    (session,) = courses(plan_of(line))
    reps = session.lines[0].first.reps
    assert reps is not None
    assert (reps.low, reps.high) == (6, 6)


def test_a_session_of_several_days_is_told_once() -> None:
    found = courses(
        plan(
            """
            schedule: {mon: a, wed: b, fri: a}
            sessions:
              a: [{exercise: squat, sets: 3, reps: 5, load: 60 kg}]
              b:
                - superset:
                    - {exercise: bench, sets: 3, reps: 5, load: 60 kg}
                    - {exercise: curl, sets: 2, reps: 5, load: 10 kg}
            """
        )
    )
    assert [(each.name, each.days) for each in found] == [("a", (1, 5)), ("b", (3,))]
    assert [(line.exercise, line.kind, line.place, line.index) for line in found[1].lines] == [
        ("bench", "superset", 0, (0, 0)),
        ("curl", "superset", 1, (0, 1)),
    ]

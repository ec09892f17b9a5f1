"""An exercise in another's place: what is said to change is what planning the changed program gives."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.schema import Exercise, GroupLine, LiftLine
from plateset.manuscript.vocabulary import MUSCLES
from plateset.training.expand import plan_program
from plateset.training.plan import Plan
from plateset.training.substitution import set_change, sets_of_lines, swapped, volume_change
from plateset.training.volume import program_volume

from tests.training.building import exercises, plan, program, site

TWO_SESSIONS = """
weeks: 3
schedule: {mon: a, tue: a, thu: b}
deload: {weeks: [3], sets: 50 %, load: 90 %}
sessions:
  a:
    - {exercise: bench, sets: {week 1: 3, week 2: 4}, reps: 5, load: 60 %}
    - {exercise: push-up, sets: 2, reps: 8}
  b:
    - superset:
        - {exercise: bench, sets: 2, reps: 5, load: 50 %}
        - {exercise: curl, sets: 2, reps: 8, load: 10 kg}
    - pick one:
        - {exercise: bench, sets: 4, reps: 5, load: 50 %}
        - {exercise: pushdown, sets: 3-5, reps: 10}
        - {exercise: push-up, sets: 2, reps: 10}
"""


def changed(before: Plan, after: Plan) -> dict[int, dict[str, Decimal]]:
    """The difference of the volumes of two plans, muscles that stay left out."""
    old, new = program_volume(before), program_volume(after)
    zero = Decimal(0)
    return {
        week: {
            muscle: change
            for muscle in sorted({*old[week], *new[week]} & {*MUSCLES})
            if (
                change := (new[week][muscle].fractional if muscle in new[week] else zero)
                - (old[week][muscle].fractional if muscle in old[week] else zero)
            )
        }
        for week in old
    }


def trains(direct: str, indirect: str) -> Exercise:
    muscles = f"{{direct: [{direct}], indirect: {{{indirect}}}}}"
    return exercises(f"lift: {{name: Lift, muscles: {muscles}, movement: squat, implement: barbell}}")["lift"]


@pytest.mark.parametrize(
    ("note", "substitute", "changes"),
    [
        (("chest", "triceps: 0.5"), ("chest", "triceps: 0.5"), {}),
        (("chest", "triceps: 0.5"), ("chest", "front delts: 0.5"), {"front delts": "0.5", "triceps": "-0.5"}),
        (("chest", "triceps: 0.5"), ("triceps", "chest: 0.25"), {"chest": "-0.75", "triceps": "0.5"}),
        (("lats", "biceps: 0.5"), ("lats, biceps", "upper back: 0.5"), {"biceps": "0.5", "upper back": "0.5"}),
    ],
)
def test_what_one_set_of_a_substitute_counts_more_or_less(
    note: tuple[str, str], substitute: tuple[str, str], changes: dict[str, str]
) -> None:
    found = set_change(trains(*note), trains(*substitute))
    assert found == {muscle: Decimal(change) for muscle, change in changes.items()}
    assert list(found) == sorted(found)


def test_every_line_of_the_exercise_is_exchanged_and_no_other() -> None:
    after = swapped(program(TWO_SESSIONS), "bench", "push-up")
    first, second = after.sessions["a"].lines
    assert isinstance(first, LiftLine)
    assert isinstance(second, LiftLine)
    assert (first.exercise, second.exercise) == ("push-up", "push-up")
    group, pick = after.sessions["b"].lines
    assert isinstance(group, GroupLine)
    assert group.superset is not None
    assert [line.exercise for line in group.superset] == ["push-up", "curl"]
    assert isinstance(pick, GroupLine)
    assert pick.pick_one is not None
    assert [line.exercise for line in pick.pick_one] == ["push-up", "pushdown", "push-up"]


def test_the_lines_stay_as_written_but_for_the_name() -> None:
    before = program(TWO_SESSIONS)
    after = swapped(before, "bench", "push-up")
    assert swapped(before, "squat", "push-up") == before
    line = after.sessions["a"].lines[0]
    assert line.model_copy(update={"exercise": "bench"}) == before.sessions["a"].lines[0]


def test_one_session_can_be_changed_alone() -> None:
    after = swapped(program(TWO_SESSIONS), "bench", "push-up", "b")
    first = after.sessions["a"].lines[0]
    group, _ = after.sessions["b"].lines
    assert isinstance(first, LiftLine)
    assert isinstance(group, GroupLine)
    assert first.exercise == "bench"
    assert group.superset is not None
    assert group.superset[0].exercise == "push-up"


def test_the_change_is_counted_in_weekly_sets() -> None:
    """Monday and Tuesday 3 sets each, Thursday 2: 8 sets of bench lose 8 x 0.5 of triceps to the push-up.

    The pick gives triceps in no case, since the push-up can be picked.
    """
    known = exercises()
    change = volume_change(sets_of_lines(plan(TWO_SESSIONS)), "bench", known["push-up"])
    assert change == {1: {"triceps": Decimal(-4)}, 2: {"triceps": Decimal(-5)}, 3: {"triceps": Decimal("-2.5")}}


@pytest.mark.parametrize("session", [None, "a", "b"])
@pytest.mark.parametrize("substitute", ["push-up", "pushdown", "pull-up", "squat"])
def test_the_change_is_that_of_planning_anew(substitute: str, session: str | None) -> None:
    known = exercises()
    before = plan(TWO_SESSIONS)
    after = plan_program("it", swapped(before.program, "bench", substitute, session), site(), known)
    said = volume_change(sets_of_lines(before), "bench", known[substitute], session)
    assert said == changed(before, after)


def test_what_one_set_counts_more_or_less() -> None:
    known = exercises()
    assert set_change(known["bench"], known["push-up"]) == {"triceps": Decimal("-0.5")}
    # One muscle more, and one half as much; in alphabetical order.
    assert list(set_change(known["pushdown"], known["bench"]).items()) == [
        ("chest", Decimal(1)),
        ("triceps", Decimal("-0.5")),
    ]
    assert set_change(known["squat"], known["squat"]) == {}


def test_an_exercise_the_program_does_not_use_changes_nothing() -> None:
    known = exercises()
    change = volume_change(sets_of_lines(plan(TWO_SESSIONS)), "squat", known["push-up"])
    assert change == {1: {}, 2: {}, 3: {}}


CONTENT = Path(__file__).parents[2] / "content"


@pytest.mark.parametrize("slug", sorted(path.stem for path in (CONTENT / "programs").glob("*.yaml")))
def test_every_substitute_of_the_shipped_programs_agrees_with_planning_anew(slug: str) -> None:
    book = read_manuscript(CONTENT, "content")
    notes = {name: document.head for name, document in book.exercises.items()}
    before = plan_program(slug, book.programs[slug].head, book.site.head, notes)
    lines = sets_of_lines(before)
    compared = 0
    for name in sorted({lift.exercise for session in before.weeks[0].sessions for lift in session.lifts}):
        for substitute in notes[name].substitutes:
            after = plan_program(slug, swapped(before.program, name, substitute), book.site.head, notes)
            said = volume_change(lines, name, notes[substitute])
            assert said == changed(before, after), (name, substitute)
            compared += 1
    assert compared > 10

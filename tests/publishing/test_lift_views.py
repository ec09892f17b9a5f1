"""Lines as a reader sees them: sets that part, choices, warm-ups, part of the range."""

from __future__ import annotations

from typing import Any

import pytest
from plateset.publishing.language import Language
from plateset.publishing.lift_views import Notes, session_view
from plateset.publishing.views import LiftView, LineView

from tests.training.building import exercises, plan_of


def lines(*texts: str, more: str = "", week: int = 1) -> tuple[LineView, ...]:
    found = plan_of(*texts, more=more)
    notes = Notes(exercises(), {}, found.unit)
    return session_view(found.weeks[week - 1].sessions[0], notes, by_weekday=True).lines


def lift(text: str, **more: Any) -> LiftView:
    ((first, *_),) = [line.lifts for line in lines(text, **more)]
    return first


@pytest.mark.parametrize(
    ("line", "sets", "reps", "load", "effort", "scheme"),
    [
        ("sets: 3, reps: 5, load: 60 kg", "3", "5", "60 kg", "", "3 × 5"),
        ("sets: 2-4, reps: 5, load: 60 kg", "2–4", "5", "60 kg", "", "2–4 × 5"),
        (
            "sets: 1, reps: 3, load: 90 %, back-off: {sets: 3, load: 80 %, reps: 6, effort: 3 RIR}",
            "1\N{NO-BREAK SPACE}+\N{NO-BREAK SPACE}3",
            "3, then 6",
            "90 kg, then 72.5 kg",
            "90 % of max, then 72 % of max, 3 RIR",
            "1 × 3 + 3 × 6",
        ),
        (
            "sets: 3, reps: 6-8, load: 80 kg, effort: 1 RIR, pyramid: {direction: ascending, load: 10 %}",
            "3",
            "10–12, 8–10, 6–8",
            "65, 72.5, 80 kg",
            "1 RIR in the heaviest set",
            "10–12, 8–10, 6–8",
        ),
        (
            "sets: 1, reps: 3, load: 60 kg, effort: 1 RIR, back-off: {sets: 2, load: 80 %, reps: 6}",
            "1\N{NO-BREAK SPACE}+\N{NO-BREAK SPACE}2",
            "3, then 6",
            "60 kg, then 47.5 kg",
            "1 RIR in the top set",
            "1 × 3 + 2 × 6",
        ),
        ("sets: 3, reps: 8, effort: 3 to 1 RIR", "3", "8", "70 kg", "3 to 1 RIR", "3 × 8"),
        ("sets: 3, reps: 8, effort: RPE 7 to 9", "3", "8", "70 kg", "RPE 7 to 9", "3 × 8"),
    ],
)
def test_sets_that_part(line: str, sets: str, reps: str, load: str, effort: str, scheme: str) -> None:  # noqa: PLR0917
    found = lift(f"{{exercise: squat, {line}}}")
    assert (found.sets, found.reps, found.load, found.effort, found.scheme) == (sets, reps, load, effort, scheme)


def test_plates_stand_where_they_are_true() -> None:
    # For one load beside it; where the load changes, with each set.
    assert lift("{exercise: squat, sets: 2, reps: 5, load: 60 kg}").plates == "20 each side"
    parted = lift("{exercise: squat, sets: 1, reps: 3, load: 60 kg, back-off: {sets: 1, load: 80 %, reps: 6}}")
    assert parted.plates == ""
    assert [each.plates for each in parted.set_views] == ["20 each side", "10 + 2.5 + 1.25 each side"]
    assert not parted.uniform


def test_sets_left_to_the_reader_are_said_to_be() -> None:
    found = lift("{exercise: squat, sets: 1-3, reps: 5, load: 60 kg}")
    assert [each.optional for each in found.set_views] == [False, True, True]


def test_warm_up_sets_are_told_in_a_line() -> None:
    found = lift(
        "{exercise: squat, sets: 1, reps: 5, load: 80 kg, warm-up sets: [{load: 50 %, reps: 8}, {load: 75 %, reps: 3}]}"
    )
    assert found.warm_up == "40 kg\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}8, 60 kg\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}3"


def test_part_of_the_range_stands_with_the_name() -> None:
    assert (
        lift("{exercise: squat, sets: 1, reps: 5, load: 80 kg, range of motion: top half}").title
        == "Squat, top half only"
    )


def test_a_pick_has_no_letters_and_its_own_words() -> None:
    squat, bench = (f"{{exercise: {name}, sets: 1, reps: 5, load: 60 kg}}" for name in ("squat", "bench"))
    (pick,) = lines(f"{{pick one: [{squat}, {bench}], rest: 90 s}}")
    assert (pick.kind, pick.rest, [each.letter for each in pick.lifts]) == ("Pick one", "90 s between sets", ["", ""])
    (pair,) = lines(f"{{superset: [{squat}, {bench}], rest: 90 s}}")
    assert (pair.kind, pair.rest, [each.letter for each in pair.lifts]) == (
        "Superset",
        "90 s after each round",
        ["A1", "A2"],
    )


def test_two_for_two_projects_the_last_set_alone() -> None:
    line = "{exercise: squat, sets: 2, reps: 8-10, load: 60 kg, progression: {rule: two-for-two, add: 5 kg}}"
    (found,) = lines(line, more="weeks: 2", week=2)
    (squat,) = found.lifts
    assert (squat.scheme, [each.reps for each in squat.set_views]) == ("2 × 8–10", ["8–10", "11 (8–10)"])


def test_a_deload_of_a_lift_on_the_body_says_what_it_leaves_of() -> None:
    """80 % of a max of 110 kg is 88 kg, 8 kg on a body of 80 kg; 90 % of those 8 kg are 7.2 kg, not 72 % of the max."""
    more = (
        "weeks: 2\ndeload: {weeks: [2], load: 90 %}\n"
        "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 30 kg x 1}}"
    )
    text = "{exercise: pull-up, sets: 2, reps: 5, load: 80 %}"
    assert [lift(text, more=more, week=week).effort for week in (1, 2)] == [
        "80 % of max",
        "80 % of max, and of what that adds 90 %",
    ]
    assert [lift(text, more=more, week=week).load for week in (1, 2)] == ["+7.5 kg", "+7.5 kg"]
    barbell = "{exercise: squat, sets: 2, reps: 5, load: 80 %}"
    known = more.replace("bests: {", "bests: {squat: 100 kg x 1, ")
    assert lift(barbell, more=known, week=2).effort == "72 % of max"


def test_numbers_in_a_row_stand_apart_where_a_comma_begins_tenths() -> None:
    text = "{exercise: squat, sets: 3, reps: 6-8, load: 80 kg, pyramid: {direction: ascending, load: 10 %}}"
    found = plan_of(text)
    shown = session_view(found.weeks[0].sessions[0], Notes(exercises(), {}, "kg", Language("de")), by_weekday=True)
    assert shown.lines[0].lifts[0].load == "65; 72,5; 80 kg"
    assert shown.lines[0].lifts[0].scheme == "10–12; 8–10; 6–8"
    assert lift(text).load == "65, 72.5, 80 kg"

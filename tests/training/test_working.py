"""The working behind a figure."""

from __future__ import annotations

import pytest
from plateset.training.figures import FigureError
from plateset.training.plan import Plan
from plateset.training.working import working

from tests.training.building import plan_of


def steps(address: str, found: Plan) -> list[str]:
    return working(f"it/{address}", {"it": found})


def test_figure_comes_last() -> None:
    found = plan_of("{exercise: squat, sets: 3, reps: 5, load: 60 kg}")
    assert steps("weeks", found) == ["it/weeks = 1"]
    assert steps("sets/squat/week 1", found) == ["it/sets/squat/week 1 = 3"]


def test_load_by_effort_under_a_progression_in_a_deload() -> None:
    line = "{exercise: squat, sets: 3, reps: 5, effort: 2 RIR, progression: {rule: linear, add: 2.5 kg}}"
    more = "weeks: 3\ndeload: {weeks: [3], load: 90 %}\nexample lifter: {bests: {squat: 90 kg x 5}}"
    assert steps("load/squat/week 3", plan_of(line, more=more)) == [
        "A (day 1): squat, sets 1-2",
        "  max of 103.4 kg: 90 kg for 5, by Handbook table",
        "  7 repetitions to failure (repetitions plus reserve): 83 % by Handbook table",
        "  83 % of 103.4 kg = 85.822 kg",
        "  plus 2.5 kg added by the progression",
        "  times 90 % in a deload week",
        "  79.49 kg rounded to what can be loaded: 80 kg",
        "  plates on each side: 25 + 5",
        "it/load/squat/week 3 = 80 kg",
    ]


@pytest.mark.parametrize(
    ("line", "more", "words"),
    [
        ("{exercise: squat, sets: 1, reps: 1, load: 50 %}", "", "  max of 100 kg: lifted once"),
        ("{exercise: squat, sets: 1, reps: 1, load: 20 kg}", "", "  plates on each side: none"),
        (
            "{exercise: front, sets: 1, reps: 1, load: 50 %}",
            "",
            "  max of 80 kg: 80 % of the max of squat",
        ),
    ],
)
def test_words_for(line: str, more: str, words: str) -> None:
    front = (
        "front: {name: Front squat, muscles: {direct: [quads]}, movement: squat, implement: barbell,"
        " max from: {exercise: squat, share: 80 %}}"
    )
    exercise = "front" if "front" in line else "squat"
    assert words in steps(f"load/{exercise}/week 1", plan_of(line, more=more, exercises_more=front))


def test_sets_of_a_muscle() -> None:
    found = plan_of(
        "{exercise: bench, sets: 6, reps: 8, load: 60 kg}", "{exercise: pushdown, sets: 1, reps: 12, load: 20 kg}"
    )
    assert steps("weekly sets/triceps/week 1", found) == [
        "A (day 1): bench, 6 sets x 0.5 (indirect) = 3",
        "A (day 1): pushdown, 1 set x 1 (direct) = 1",
        "4 sets: 0 of them hard (4 or fewer in reserve, as far as is known); 36 repetitions; load-volume 1680 kg; "
        "mean load 46.7 kg; 60 % of max where it is known; 1 day, at most 4 sets in a session",
        "it/weekly sets/triceps/week 1 = 4",
    ]


def test_minutes() -> None:
    plank = "{exercise: plank, sets: 2, hold: 30 s, rest: 60 s}"
    assert steps("minutes", plan_of(plank, plank)) == [
        "longest session: A, week 1",
        "general warm-up: 300 s",
        "plank: 120 s",
        "plank: 120 s, change-over 90 s",
        "together 630 s, rounded up to a minute",
        "it/minutes = 11",
    ]


def test_address_that_leads_nowhere() -> None:
    with pytest.raises(FigureError, match="no figure"):
        steps("wekes", plan_of("{exercise: squat, sets: 1, reps: 5, load: 60 kg}"))

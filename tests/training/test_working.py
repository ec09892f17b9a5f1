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


def test_a_load_on_the_body_is_told_with_the_body_taken_off() -> None:
    line = "{exercise: pull-up, sets: 2, reps: 5, load: 90 %}"
    more = "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 20 kg x 1}}"
    assert steps("load/pull-up/week 1", plan_of(line, more=more)) == [
        "A (day 1): pull-up, sets 1-2",
        "  max of 100 kg: lifted once",
        "  90 % of 100 kg = 90 kg",
        "  less the 80 kg of the body: 10 kg",
        "  10 kg on the body rounded to what can be added: +10 kg",
        "it/load/pull-up/week 1 = +10 kg",
    ]
    alone = plan_of("{exercise: pull-up, sets: 2, reps: 5, load: bodyweight}", more=more)
    assert steps("load/pull-up/week 1", alone)[1:] == ["  bodyweight", "it/load/pull-up/week 1 = bodyweight"]


def test_each_load_of_a_lift_is_told_with_its_sets_and_no_other_lift() -> None:
    bench = "{exercise: bench, sets: 1, reps: 5, load: 50 kg}"
    squat = "{exercise: squat, sets: 1, reps: 3, load: 90 kg, back-off: {sets: 3, load: 80 %, reps: 6}}"
    assert steps("load/squat/week 1", plan_of(bench, squat)) == [
        "A (day 1): squat, set 1",
        "  90 kg rounded to what can be loaded: 90 kg",
        "  plates on each side: 25 + 10",
        "A (day 1): squat, sets 2-4",
        "  times 80 % of the heaviest set",
        "  72 kg rounded to what can be loaded: 72.5 kg",
        "  plates on each side: 25 + 1.25",
        "it/load/squat/week 1 = 90 kg",
    ]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("{exercise: squat, sets: 1, reps: 5, load: by feel}", "  left to feel"),
        ("{exercise: pushdown, sets: 1, reps: 5, load: 70 %}", "  left to feel: no max"),
    ],
)
def test_what_is_left_to_feel(line: str, words: str) -> None:
    exercise = "squat" if "squat" in line else "pushdown"
    assert steps(f"load/{exercise}/week 1", plan_of(line)) == [
        f"A (day 1): {exercise}, set 1",
        words,
        f"it/load/{exercise}/week 1 = by feel",
    ]


def test_sets_of_a_muscle_group_on_two_days_with_a_choice() -> None:
    found = plan_of(
        "{exercise: pull-up, sets: 1-2, reps: 5}",
        "{pick one: [{exercise: curl, sets: 2-3, reps: 10, load: 10 kg}, {exercise: one-curl, sets: 2, reps: 10}]}",
        "{exercise: pushdown, sets: 2, reps: 8, load: 20 kg, last set: {technique: drop-set, each counts: 0.5}}",
        more="schedule: {mon: a, wed: a}",
    )
    day = [
        "pull-up, 2 sets x 0.5 (indirect) = 1 (1 left to the reader)",
        "curl, 3 sets x 1 (direct) = 3 (one of 2 to pick from, 1 left to the reader)",
        "one-curl, 2 sets x 1 (direct) = 2 (one of 2 to pick from)",
        "pushdown, 2 sets x 1 (direct) + 1 for the pieces that count = 3",
    ]
    # At the least, each day: half of a set of 5 with 80 kg of body, 2 x 10 curls with two dumbbells of 10 kg, and the
    # pushdowns, 8 + 8 with 20 kg and drops of 4 with 15 and 10 kg: 46.5 repetitions, 1020 kg. Only the set with drops
    # is known to be hard, and counts as two.
    assert steps("weekly sets/arms/week 1", found) == [
        *(f"A (day 1): {line}" for line in day),
        *(f"A (day 3): {line}" for line in day),
        "11 sets: 4 of them hard (4 or fewer in reserve, as far as is known); 93 repetitions; load-volume 2040 kg; "
        "mean load 21.9 kg; 50 % of max where it is known; 2 days, 48 h apart at the least, at most 7 sets in a "
        "session",
        "it/weekly sets/arms/week 1 = 11-14",
    ]


def test_a_pick_done_with_one_set_is_told_as_a_pick() -> None:
    pick = "{pick one: [{exercise: curl, sets: 1, reps: 10, load: 10 kg}, {exercise: one-curl, sets: 1, reps: 10}]}"
    assert steps("direct sets/biceps/week 1", plan_of(pick))[:2] == [
        "A (day 1): curl, 1 set x 1 (direct) = 1 (one of 2 to pick from)",
        "A (day 1): one-curl, 1 set x 1 (direct) = 1 (one of 2 to pick from)",
    ]


def test_mean_load_is_over_the_repetitions_whose_load_is_known() -> None:
    found = plan_of(
        "{exercise: bench, sets: 2, reps: 5, load: 60 kg}", "{exercise: bench, sets: 1, reps: 8, load: by feel}"
    )
    (line,) = [line for line in steps("direct sets/chest/week 1", found) if line.startswith("3 sets:")]
    assert "; 18 repetitions; load-volume 600 kg; mean load 60 kg over the 10 whose load is known; " in line


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


def test_minutes_of_the_longest_session_with_groups_picks_and_warm_up_sets() -> None:
    hold = "{exercise: plank, sets: 1, hold: 30 s}"
    squat = (
        "{exercise: squat, sets: {week 1: 1, week 2: 2, week 3: 1}, reps: 5, load: 80 kg, rest: 60 s, "
        "warm-up sets: [{load: 50 %, reps: 5}, {load: 75 %, reps: 3}]}"
    )
    found = plan_of(
        squat, f"{{superset: [{hold}, {hold}], between: 10 s}}", f"{{pick one: [{hold}, {hold}]}}", more="weeks: 3"
    )
    # Two sets of five at 4 s and a rest between them; two warm-up sets of 5 and 3 at 4 s, each with a minute after it.
    assert steps("minutes", found) == [
        "longest session: A, week 2",
        "general warm-up: 300 s",
        "squat: 252 s, 2 warm-up sets included",
        "plank and plank: 70 s, change-over 90 s",
        "plank or plank: 30 s, change-over 90 s",
        "together 832 s, rounded up to a minute",
        "it/minutes = 14",
    ]


def test_address_that_leads_nowhere() -> None:
    with pytest.raises(FigureError, match="no figure"):
        steps("wekes", plan_of("{exercise: squat, sets: 1, reps: 5, load: 60 kg}"))

"""What is left to the reader: a pick of exercises, sets that may be left out; counted from the least to the most."""

from __future__ import annotations

from decimal import Decimal

from plateset.training.figures import figure
from plateset.training.plan import Plan
from plateset.training.time import line_seconds
from plateset.training.volume import MuscleWeek, program_volume

from tests.training.building import plan_of, session_of

SQUAT = "{exercise: squat, sets: 3, reps: 5, load: 60 kg}"
BENCH = "{exercise: bench, sets: 4, reps: 8, load: 60 kg}"
PUSH_UP = "{exercise: push-up, sets: 2, reps: 12}"


def week_of(found: Plan, muscle: str) -> MuscleWeek:
    return program_volume(found)[1][muscle]


def span(found: Plan, muscle: str) -> tuple[object, object]:
    week = week_of(found, muscle)
    return week.fractional, week.most


def test_a_pick_counts_from_the_least_option_to_the_most() -> None:
    found = plan_of(f"{{pick one: [{BENCH}, {PUSH_UP}]}}")
    assert span(found, "chest") == (2, 4)
    # The push-up here trains no triceps: with it there are none.
    assert span(found, "triceps") == (0, 2)


def test_repetitions_and_load_are_those_of_the_least_option() -> None:
    found = week_of(plan_of(f"{{pick one: [{BENCH}, {PUSH_UP}]}}"), "chest")
    assert (found.reps, found.direct) == (Decimal(24), Decimal(2))


def test_the_most_in_a_session_is_that_of_a_reader_who_does_all_that_is_left_to_choice() -> None:
    line = "{exercise: bench, sets: 2-4, reps: 8, load: 60 kg}"
    found = plan_of(f"{{pick one: [{BENCH}, {PUSH_UP}]}}", line, more="schedule: {mon: a, thu: a}")
    assert week_of(found, "chest").most_in_session == Decimal(8)
    # Without choices it is what everyone does.
    assert week_of(plan_of(BENCH), "chest").most_in_session == Decimal(4)


def test_sets_that_may_be_left_out() -> None:
    found = plan_of("{exercise: bench, sets: 2-4, reps: 8, load: 60 kg}")
    assert span(found, "chest") == (2, 4)
    assert [work.optional for work in session_of(found).lifts[0].sets] == [False, False, True, True]


def test_a_line_that_may_be_left_out_altogether() -> None:
    assert span(plan_of("{exercise: bench, sets: 0-2, reps: 8, load: 60 kg}"), "chest") == (0, 2)


def test_choices_add_up_over_lines_and_days() -> None:
    found = plan_of(f"{{pick one: [{BENCH}, {PUSH_UP}]}}", BENCH, more="schedule: {mon: a, thu: a}")
    assert span(found, "chest") == (12, 16)


def test_two_picks_in_one_session_are_chosen_apart() -> None:
    pick = f"{{pick one: [{BENCH}, {PUSH_UP}]}}"
    assert span(plan_of(pick, pick), "chest") == (4, 8)


def test_a_deload_keeps_the_choice() -> None:
    found = plan_of("{exercise: bench, sets: 2-4, reps: 8, load: 60 kg}", more="weeks: 2\ndeload: {weeks: [2]}")
    lift = found.weeks[1].sessions[0].lifts[0]
    # 60 % of 2 and of 4, to the nearest.
    assert (lift.least_sets, len(lift.sets)) == (1, 2)


def test_a_session_takes_as_long_as_its_longest_choice() -> None:
    picks = session_of(plan_of(f"{{rest: 60 s, pick one: [{BENCH}, {PUSH_UP}]}}")).lines[0]
    alone = session_of(plan_of(BENCH[:-1] + ", rest: 60 s}")).lines[0]
    assert line_seconds(picks) == line_seconds(alone)


def test_a_figure_of_a_choice_is_a_range() -> None:
    plans = {"it": plan_of(f"{{pick one: [{BENCH}, {PUSH_UP}]}}", "{exercise: squat, sets: 1-3, reps: 5, load: 60 kg}")}
    assert figure("it/weekly sets/chest/week 1", plans) == "2-4"
    assert figure("it/sets/squat/week 1", plans) == "1-3"


def test_without_a_choice_the_least_is_the_most() -> None:
    assert span(plan_of(SQUAT, f"{{superset: [{BENCH}, {PUSH_UP}]}}"), "chest") == (6, 6)

"""Weekly volume of muscles."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.vocabulary import MUSCLE_GROUPS
from plateset.training.plan import Plan
from plateset.training.volume import MuscleWeek, contributions, program_volume, weekly_volume

from tests.training.building import plan, plan_of, session_of

D = Decimal


def week_of(muscle: str, found: Plan, week: int = 1) -> MuscleWeek:
    return program_volume(found)[week][muscle]


def test_direct_and_indirect() -> None:
    found = plan_of("{exercise: bench, sets: 4, reps: 10, load: 60 kg}")
    chest, triceps = week_of("chest", found), week_of("triceps", found)
    assert (chest.direct, chest.indirect, chest.fractional) == (D(4), D(0), D(4))
    assert (triceps.direct, triceps.indirect, triceps.fractional) == (D(0), D(2), D(2))
    assert (chest.reps, chest.load_volume) == (D(40), D(2400))
    assert (triceps.reps, triceps.load_volume) == (D(20), D(1200))


def test_share_of_the_note() -> None:
    found = plan_of("{exercise: pull-up, sets: 4, reps: 5}", exercises_more=PULL_UP_AT_A_QUARTER)
    assert week_of("biceps", found).fractional == 1


PULL_UP_AT_A_QUARTER = """
pull-up: {name: Pull-up, muscles: {direct: [lats], indirect: {biceps: 0.25}}, movement: vertical pull,
  implement: bodyweight}
"""


def test_only_muscles_trained_in_alphabetical_order() -> None:
    found = plan_of(
        "{exercise: squat, sets: 1, reps: 5, load: 60 kg}", "{exercise: bench, sets: 1, reps: 5, load: 60 kg}"
    )
    assert list(program_volume(found)[1]) == ["chest", "glutes", "quads", "triceps"]


def test_both_dumbbells_count() -> None:
    assert week_of("biceps", plan_of("{exercise: curl, sets: 1, reps: 10, load: 10 kg}")).load_volume == 200


def test_one_dumbbell_on_two_sides() -> None:
    week = week_of("biceps", plan_of("{exercise: one-curl, sets: 1, reps: 10, load: 10 kg}"))
    assert (week.fractional, week.reps, week.load_volume) == (D(1), D(20), D(200))


def test_body_and_what_is_added() -> None:
    assert week_of("lats", plan_of("{exercise: pull-up, sets: 1, reps: 5}")).load_volume == 400
    added = plan_of("{exercise: pull-up, sets: 1, reps: 5, load: bodyweight + 10 kg}")
    helped = plan_of("{exercise: pull-up, sets: 1, reps: 5, load: bodyweight - 20 kg}")
    assert (week_of("lats", added).load_volume, week_of("lats", helped).load_volume) == (D(450), D(300))


def test_without_a_bodyweight_only_what_is_added_counts() -> None:
    line = "{exercise: pull-up, sets: 1, reps: 5, load: bodyweight + 30 kg}"
    week = week_of("lats", plan_of(line, more="example lifter: {bests: {pull-up: 60 kg x 1}}"))
    assert (week.load_volume, week.mean_percent) == (D(150), D(50))
    bare = week_of("lats", plan_of("{exercise: pull-up, sets: 1, reps: 5}", more="example lifter: {}"))
    assert (bare.reps, bare.loaded_reps, bare.load_volume) == (D(5), D(0), D(0))


def test_part_of_the_body_that_is_moved() -> None:
    assert week_of("chest", plan_of("{exercise: push-up, sets: 1, reps: 10}")).load_volume == 520


def test_more_help_than_body_moves_nothing() -> None:
    found = plan_of("{exercise: pull-up, sets: 1, reps: 5, load: bodyweight - 90 kg}")
    assert week_of("lats", found).load_volume == 0


def test_by_feel_counts_sets_but_no_load() -> None:
    week = week_of("rear delts", plan_of("{exercise: band-pull, sets: 2, reps: 15}"))
    assert (week.fractional, week.reps, week.load_volume) == (D(2), D(30), D(0))


def test_holds_count_as_sets() -> None:
    week = week_of("abs", plan_of("{exercise: plank, sets: 3, hold: 30 s}"))
    assert (week.fractional, week.reps) == (D(3), D(0))


def test_open_sets_count_what_the_curve_expects() -> None:
    found = plan_of("{exercise: squat, sets: 2, reps: as many as possible, load: 80 %}")
    assert week_of("quads", found).reps == 16


def test_technique_is_one_set() -> None:
    line = "{exercise: squat, sets: 3, reps: 10, load: 60 kg, every set: {technique: rest-pause}}"
    week = week_of("quads", plan_of(line))
    assert (week.fractional, week.reps) == (D(3), D(3) * (10 + D(5) + 3))


def test_days_are_those_trained() -> None:
    found = plan(
        """
        schedule: {mon: a, wed: b, fri: a}
        sessions:
          a: [{exercise: bench, sets: 1, reps: 5, load: 60 kg}]
          b: [{exercise: pushdown, sets: 1, reps: 5, load: 20 kg}]
        """
    )
    assert (week_of("chest", found).days, week_of("triceps", found).days) == ((1, 5), (1, 3, 5))


def test_projected_repetitions_are_counted() -> None:
    line = "{exercise: squat, sets: 1, reps: 8-12, load: 60 kg, progression: {rule: double, add: 5 kg}}"
    found = plan_of(line, more="weeks: 3")
    assert [week_of("quads", found, week).reps for week in (1, 2, 3)] == [8, 9, 10]


lines = st.tuples(
    st.sampled_from(["squat", "bench", "curl", "one-curl", "pushdown", "pull-up", "push-up", "band-pull", "sled"]),
    st.integers(1, 6),
    st.integers(1, 15),
    st.sampled_from(["", ", every set: {technique: drop-set}", ", last set: {technique: cluster}"]),
)


@given(st.lists(lines, min_size=1, max_size=4))
def test_totals_are_the_sum_of_the_contributions(given_lines: list[tuple[str, int, int, str]]) -> None:
    texts = [
        f"{{exercise: {name}, sets: {sets}, reps: {reps}{technique}}}" for name, sets, reps, technique in given_lines
    ]
    found = plan_of(*texts, more="schedule: {mon: a, thu: a}")
    week = found.weeks[0]
    sets: dict[str, Decimal] = defaultdict(Decimal)
    reps: dict[str, Decimal] = defaultdict(Decimal)
    load: dict[str, Decimal] = defaultdict(Decimal)
    for session in week.sessions:
        for part in contributions(session, found.bodyweight):
            sets[part.muscle] += part.share
            reps[part.muscle] += part.share * part.reps
            load[part.muscle] += part.share * part.load_volume
    totals = weekly_volume(week, found.bodyweight)
    assert {muscle: total.fractional for muscle, total in totals.items()} == sets
    assert {muscle: total.reps for muscle, total in totals.items()} == reps
    assert {muscle: total.load_volume for muscle, total in totals.items()} == load
    assert all(total.fractional == total.direct + total.indirect for total in totals.values())


@given(st.lists(lines, min_size=1, max_size=4))
def test_sets_on_paper_are_the_direct_sets(given_lines: list[tuple[str, int, int, str]]) -> None:
    # Every exercise of these trains exactly one muscle directly.
    texts = [f"{{exercise: {name}, sets: {sets}, reps: {reps}}}" for name, sets, reps, _ in given_lines]
    found = plan_of(*texts)
    planned = sum(len(lift.sets) for lift in session_of(found).lifts)
    assert sum(total.direct for total in program_volume(found)[1].values()) == planned


# -- hard sets, intensity, sessions and hours ------------------------------------------------------


def test_hard_sets_by_the_reserve_asked() -> None:
    found = plan_of(
        "{exercise: bench, sets: 3, reps: 5, load: 60 kg, effort: 4 RIR}",
        "{exercise: bench, sets: 2, reps: 5, load: 60 kg, effort: 4.5 RIR}",
    )
    assert (week_of("chest", found).fractional, week_of("chest", found).hard) == (D(5), D(3))
    assert week_of("triceps", found).hard == D("1.5")


@pytest.mark.parametrize(
    ("line", "hard"),
    [
        # Ten repetitions are possible with 75 kg of 100: five with six asked for, four left with six.
        ("reps: 6, load: 75 kg", 1),
        ("reps: 5, load: 75 kg", 0),
        ("reps: as many as possible, load: 75 kg", 1),
        ("reps: 3, load: 50 kg", 0),
        ("reps: 3, load: by feel", 0),
        ("reps: 3, load: 50 kg, every set: {technique: drop-set}", 1),
        ("reps: 6, load: 75 kg, range of motion: top half", 0),
    ],
)
def test_hard_sets_where_no_effort_is_asked(line: str, hard: int) -> None:
    assert week_of("chest", plan_of(f"{{exercise: bench, sets: 1, {line}}}")).hard == hard


@pytest.mark.parametrize(
    ("line", "reserve"),
    [
        ("{exercise: bench, sets: 1, reps: 6, load: 75 kg, effort: 3 RIR}", 3),
        ("{exercise: bench, sets: 1, reps: 6, load: 75 kg}", 4),
        # All that can be done with 75 kg, and more than that.
        ("{exercise: bench, sets: 1, reps: 10, load: 75 kg}", 0),
        ("{exercise: bench, sets: 1, reps: 12, load: 75 kg}", 0),
        ("{exercise: bench, sets: 1, reps: as many as possible, load: 75 kg}", 0),
        ("{exercise: bench, sets: 1, reps: 6, load: 75 kg, effort: 3 RIR, every set: {technique: forced-reps}}", 0),
        ("{exercise: bench, sets: 1, reps: 6, load: by feel}", None),
        # 90 kg with the body, of 120: ten are possible.
        ("{exercise: pull-up, sets: 1, reps: 6, load: bodyweight + 10 kg}", 4),
    ],
)
def test_repetitions_left_at_the_end_of_a_set(line: str, reserve: int | None) -> None:
    lifter = "example lifter: {bodyweight: 80 kg, bests: {bench: 100 kg x 1, pull-up: bodyweight + 40 kg x 1}}"
    found = plan_of(line, more=lifter)
    assert {part.reserve for part in contributions(session_of(found), found.bodyweight)} == {reserve}


def test_a_deload_is_judged_by_its_load() -> None:
    line = "{exercise: bench, sets: 2, reps: 5, load: 80 kg, effort: 2 RIR}"
    found = plan_of(line, more="weeks: 2\ndeload: {weeks: [2], sets: 100 %, load: 70 %}")
    assert [week_of("chest", found, week).hard for week in (1, 2)] == [2, 0]


def test_mean_load_and_mean_percent() -> None:
    found = plan_of(
        "{exercise: bench, sets: 2, reps: 5, load: 80 kg}", "{exercise: bench, sets: 1, reps: 10, load: 60 kg}"
    )
    chest = week_of("chest", found)
    assert (chest.mean_load, chest.mean_percent) == (D(70), D(70))


def test_no_mean_percent_without_a_max() -> None:
    found = week_of("triceps", plan_of("{exercise: pushdown, sets: 1, reps: 5, load: 20 kg}"))
    assert (found.mean_load, found.mean_percent) == (D(20), None)


def test_the_percent_of_the_body_and_what_is_added() -> None:
    # 80 kg of body and 20 kg, of a max of 120 kg in all.
    lifter = "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 40 kg x 1}}"
    found = plan_of("{exercise: pull-up, sets: 1, reps: 3, load: bodyweight + 20 kg}", more=lifter)
    assert week_of("lats", found).mean_percent == D(100) * 100 / 120


def test_most_in_a_session_and_hours_between() -> None:
    text = """
schedule: {mon: a, thu: b}
sessions:
  a: [{exercise: bench, sets: 5, reps: 5, load: 60 kg}]
  b: [{exercise: bench, sets: 3, reps: 5, load: 60 kg}, {exercise: squat, sets: 1, reps: 5, load: 60 kg}]
"""
    found = plan(text)
    chest, quads = week_of("chest", found), week_of("quads", found)
    assert (chest.most_in_session, chest.hours_between) == (D(5), 72)
    assert (quads.most_in_session, quads.hours_between) == (D(1), None)


def test_hours_go_round_to_the_next_week() -> None:
    found = plan_of("{exercise: bench, sets: 1, reps: 5, load: 60 kg}", more="schedule: {mon: a, sat: a}")
    # Saturday to Monday.
    assert week_of("chest", found).hours_between == 48


# -- pieces that count, muscle groups --------------------------------------------------------------


@pytest.mark.parametrize(
    ("technique", "sets"),
    [
        ("{technique: drop-set, drops: 2}", "3"),
        ("{technique: drop-set, drops: 2, each counts: 0.5}", "4"),
        ("{technique: rest-pause, pauses: 3, each counts: 0.25}", "3.75"),
    ],
)
def test_pieces_count_as_the_author_says(technique: str, sets: str) -> None:
    found = plan_of(f"{{exercise: bench, sets: 3, reps: 8, load: 60 kg, last set: {technique}}}")
    assert week_of("chest", found).fractional == D(sets)
    assert week_of("triceps", found).fractional == D(sets) / 2


ROW = """
row: {name: Row, muscles: {direct: [lats, upper back], indirect: [biceps]}, movement: horizontal pull,
  implement: barbell}
"""


def test_a_group_counts_a_set_once() -> None:
    lines = (
        "{exercise: row, sets: 3, reps: 8, load: 60 kg}",
        "{exercise: pull-up, sets: 2, reps: 5}",
        "{exercise: curl, sets: 4, reps: 10, load: 10 kg}",
    )
    more = "weekly sets: {back: 5, arms: 6-7, lats: 5}"
    found = plan_of(*lines, more=more, exercises_more=ROW)
    # Three rows and two pull-ups; arms: four curls, and half of the five pulls.
    assert (week_of("back", found).fractional, week_of("back", found).direct) == (D(5), D(5))
    assert (week_of("arms", found).fractional, week_of("arms", found).direct) == (D("6.5"), D(4))


def test_groups_are_counted_only_where_promised() -> None:
    found = plan_of("{exercise: row, sets: 3, reps: 8, load: 60 kg}", exercises_more=ROW)
    assert set(program_volume(found)[1]) == {"lats", "upper back", "biceps"}


@pytest.mark.parametrize("group", MUSCLE_GROUPS)
def test_a_group_is_at_least_its_most_trained_muscle_and_at_most_their_sum(group: str) -> None:
    found = plan_of(
        "{exercise: squat, sets: 3, reps: 5, load: 60 kg}",
        "{exercise: bench, sets: 3, reps: 5, load: 60 kg}",
        "{exercise: row, sets: 2, reps: 5, load: 60 kg}",
        "{exercise: curl, sets: 2, reps: 5, load: 10 kg}",
        "{exercise: plank, sets: 1, hold: 30 s}",
        exercises_more=ROW,
    )
    week = weekly_volume(found.weeks[0], found.bodyweight, (group,))
    inside = [week[muscle].fractional for muscle in MUSCLE_GROUPS[group] if muscle in week]
    total = week[group].fractional if group in week else D(0)
    assert max(inside, default=D(0)) <= total <= sum(inside)

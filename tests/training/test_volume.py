"""Weekly volume of muscles."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st
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

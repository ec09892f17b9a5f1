"""Sets that part from each other: top sets and back-offs, pyramids, a reserve that falls."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.quantities import read_effort
from plateset.training.plan import Lift
from plateset.training.set_layout import effort_of_set

from tests.training.building import lift_of, plain_or_feel, plan_of

D = Decimal


def loads(lift: Lift) -> list[str]:
    return [plain_or_feel(work.pieces[0].load) for work in lift.sets]


def reps(lift: Lift) -> list[tuple[int, int] | None]:
    return [(first.reps.low, first.reps.high) if (first := work.pieces[0]).reps else None for work in lift.sets]


BACK_OFF = "{exercise: squat, sets: 1, reps: 3, load: 90 %, back-off: {sets: 3, load: 80 %, reps: 6-8, effort: 3 RIR}}"


def test_back_offs_keep_a_share_of_the_top_sets_load() -> None:
    lift = lift_of(plan_of(BACK_OFF))
    # 80 % of 90 kg is 72 kg: 72.5 kg on the bar.
    assert loads(lift) == ["90", "72.5", "72.5", "72.5"]
    assert [work.kind for work in lift.sets] == ["top", "back-off", "back-off", "back-off"]
    assert reps(lift) == [(3, 3), (6, 8), (6, 8), (6, 8)]
    assert [work.effort and work.effort.rir for work in lift.sets] == [None, 3, 3, 3]


def test_back_offs_are_not_left_to_the_reader_even_if_a_top_set_is() -> None:
    lift = lift_of(plan_of(BACK_OFF.replace("sets: 1,", "sets: 1-2,")))
    assert [work.optional for work in lift.sets] == [False, True, False, False, False]


def test_sets_without_back_offs_are_straight() -> None:
    lift = lift_of(plan_of("{exercise: squat, sets: 2, reps: 5, load: 60 kg}"))
    assert [work.kind for work in lift.sets] == ["straight", "straight"]


def test_back_offs_aim_at_their_own_repetitions_while_the_top_set_climbs() -> None:
    line = BACK_OFF.replace("reps: 3", "reps: 3-5")[:-1] + ", progression: {rule: double, add: 5 kg}}"
    found = plan_of(line, more="weeks: 2")
    assert [work.pieces[0].aim for work in lift_of(found, 2).sets] == [4, 6, 6, 6]


def test_back_offs_keep_their_share_of_the_load_before_rounding() -> None:
    lift = lift_of(plan_of("{exercise: squat, sets: 1, reps: 3, load: 91 %, back-off: {sets: 1, load: 90 %, reps: 5}}"))
    # The top set asks for 91 kg and is loaded with 90; 90 % of 91 is 81.9 and of 90 is 81.
    assert (lift.sets[1].pieces[0].load.exact, loads(lift)) == (D("81.900"), ["90", "82.5"])


def test_back_offs_follow_the_progression_of_the_top_set() -> None:
    line = BACK_OFF[:-1] + ", progression: {rule: linear, add: 5 kg}}"
    found = plan_of(line, more="weeks: 2")
    assert loads(lift_of(found, 2)) == ["95", "75", "75", "75"]


def test_a_deload_takes_from_top_sets_and_back_offs_alike() -> None:
    found = plan_of(BACK_OFF, more="weeks: 2\ndeload: {weeks: [2], sets: 60 %, load: 90 %}")
    lift = lift_of(found, 2)
    # 60 % of one set is one set, of three it is two; 90 % of 90 is 81, 80 % of that 64.8.
    assert [work.kind for work in lift.sets] == ["top", "back-off", "back-off"]
    assert loads(lift) == ["80", "65", "65"]


def test_the_last_set_of_a_line_is_the_last_back_off() -> None:
    line = BACK_OFF[:-1] + ", last set: {technique: drop-set, drops: 1}}"
    assert [work.technique for work in lift_of(plan_of(line)).sets] == [None, None, None, "drop-set"]


def test_ascending_pyramid_ends_with_the_heaviest() -> None:
    line = (
        "{exercise: squat, sets: 4, reps: 6, load: 80 %, pyramid: {direction: ascending, load: 10 %, reps: 2}, "
        "effort: 1 RIR}"
    )
    lift = lift_of(plan_of(line))
    # 70, 80, 90 and 100 % of 80 kg.
    assert loads(lift) == ["55", "65", "72.5", "80"]
    assert reps(lift) == [(12, 12), (10, 10), (8, 8), (6, 6)]
    assert [work.effort is not None for work in lift.sets] == [False, False, False, True]


def test_descending_pyramid_starts_with_the_heaviest() -> None:
    line = "{exercise: squat, sets: 3, reps: 6-8, load: 80 %, pyramid: {direction: descending, load: 10 %, reps: 2}}"
    lift = lift_of(plan_of(line))
    assert loads(lift) == ["80", "72.5", "65"]
    assert reps(lift) == [(6, 8), (8, 10), (10, 12)]


def test_a_pyramid_on_the_body_takes_from_what_is_added() -> None:
    line = (
        "{exercise: pull-up, sets: 2, reps: 5, load: bodyweight + 20 kg, pyramid: {direction: ascending, load: 25 %}}"
    )
    # 75 % of the 20 kg added, not of the body.
    assert loads(lift_of(plan_of(line))) == ["15", "20"]


def test_a_pyramid_cut_to_one_set_is_a_straight_set() -> None:
    line = "{exercise: squat, sets: 2, reps: 6, load: 80 kg, pyramid: {direction: ascending, load: 10 %}}"
    found = plan_of(line, more="weeks: 2\ndeload: {weeks: [2], sets: 50 %, load: 100 %}")
    assert [[work.kind for work in lift_of(found, week).sets] for week in (1, 2)] == [["pyramid"] * 2, ["straight"]]
    assert loads(lift_of(found, 2)) == ["80"]


def test_a_pyramid_of_open_sets_stays_open() -> None:
    pyramid = "pyramid: {direction: ascending, load: 10 %}"
    lift = lift_of(plan_of(f"{{exercise: squat, sets: 2, reps: as many as possible, load: 80 kg, {pyramid}}}"))
    first, heaviest = (work.pieces[0].reps for work in lift.sets)
    assert first == heaviest is not None
    assert heaviest.open


def test_a_pyramid_that_climbs_in_repetitions_takes_its_steps_along() -> None:
    line = (
        "{exercise: squat, sets: 2, reps: 6-8, load: 60 kg, pyramid: {direction: ascending, load: 10 %, reps: 3}, "
        "progression: {rule: double, add: 5 kg}}"
    )
    found = plan_of(line, more="weeks: 2")
    assert [[work.pieces[0].aim for work in lift_of(found, week).sets] for week in (1, 2)] == [[9, 6], [10, 7]]


def test_sets_at_one_load_are_loaded_for_the_first_sets_reserve() -> None:
    held = lift_of(plan_of("{exercise: squat, sets: 3, reps: 8, effort: 3 to 1 RIR}"))
    # Eight with three in reserve: eleven to failure, 70 % by the handbook.
    assert loads(held) == ["70", "70", "70"]
    assert [work.effort and work.effort.rir for work in held.sets] == [3, 2, 1]


@pytest.mark.parametrize(
    ("effort", "count", "reserves"),
    [
        ("3 to 1 RIR", 2, ["3", "1"]),
        ("3 to 1 RIR", 5, ["3", "2.5", "2", "1.5", "1"]),
        ("2 to 0 RIR", 4, ["2", "1.5", "0.5", "0"]),
        ("RPE 7 to 9", 3, ["3", "2", "1"]),
        # A reserve half-way between two halves is rounded up: 2.75 and 2.25.
        ("3 to 2 RIR", 5, ["3", "3", "2.5", "2.5", "2"]),
        ("3 to 1 RIR", 1, ["3"]),
        ("2 RIR", 3, ["2", "2", "2"]),
    ],
)
def test_the_reserve_falls_evenly(effort: str, count: int, reserves: list[str]) -> None:
    read = read_effort(effort)
    found = [effort_of_set(read, place, count) for place in range(count)]
    assert [each and each.rir for each in found] == [D(reserve) for reserve in reserves]
    assert {each.written for each in found if each} == {effort[:3] if effort.startswith("RPE") else "RIR"}


@given(st.integers(0, 5), st.integers(1, 6), st.integers(1, 10))
def test_the_reserve_never_rises_and_stays_between_its_ends(last: int, fall: int, count: int) -> None:
    if last + fall > 6:
        fall = 6 - last
    read = read_effort(f"{last + fall} to {last} RIR")
    found = [effort_of_set(read, place, count) for place in range(count)]
    reserves = [each.rir for each in found if each]
    assert len(reserves) == count
    assert reserves == sorted(reserves, reverse=True)
    assert all(last <= reserve <= last + fall for reserve in reserves)


@given(st.integers(1, 5), st.integers(2, 5), st.sampled_from(["ascending", "descending"]), st.integers(1, 20))
def test_nothing_in_a_pyramid_is_heavier_than_its_heaviest(reps: int, count: int, direction: str, off: int) -> None:
    pyramid = f"{{direction: {direction}, load: {off} %}}"
    line = f"{{exercise: squat, sets: {count}, reps: {reps}, load: 90 %, pyramid: {pyramid}}}"
    lift = lift_of(plan_of(line))
    masses = [work.pieces[0].load.mass or D(0) for work in lift.sets]
    assert masses == sorted(masses, reverse=direction == "descending")
    assert max(masses) == 90


def test_every_set_of_a_pyramid_says_so_and_those_left_to_the_reader_too() -> None:
    line = "{exercise: squat, sets: 1-3, reps: 6, load: 80 kg, pyramid: {direction: descending, load: 10 %}}"
    sets = lift_of(plan_of(line)).sets
    assert [(work.kind, work.optional) for work in sets] == [("pyramid", False), ("pyramid", True), ("pyramid", True)]
    assert [work.pieces[0].load.exact for work in sets] == [D(80), D("72.0"), D("64.0")]


@pytest.mark.parametrize(
    ("line", "runs"),
    [
        ("{exercise: squat, sets: 3, reps: 5, load: 60 kg}", [[1, 2, 3]]),
        ("{exercise: squat, sets: 2-4, reps: 5, load: 60 kg}", [[1, 2], [3, 4]]),
        ("{exercise: squat, sets: 4, reps: 5, load: 60 kg, effort: 2 to 1 RIR}", [[1], [2, 3], [4]]),
        (BACK_OFF, [[1], [2, 3, 4]]),
        ("{exercise: squat, sets: 2, reps: 8, load: 60 %, last set: {technique: drop-set, reduce: 20 %}}", [[1], [2]]),
        ("{exercise: squat, sets: 3, reps: 5, load: 60 %, progression: {rule: two-for-two, add: 5 kg}}", [[1, 2], [3]]),
    ],
)  # fmt: skip
def test_sets_alike_differ_in_nothing_but_their_numbers(line: str, runs: list[list[int]]) -> None:
    lift = lift_of(plan_of(line))
    assert [[work.number for work in run] for run in lift.alike] == runs
    assert all(replace(work, number=run[0].number) == run[0] for run in lift.alike for work in run)

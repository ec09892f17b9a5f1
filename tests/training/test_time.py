"""How long sets, lines and sessions take."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.training.plan import Plan
from plateset.training.time import (
    CHANGE_OVER,
    OPEN_SET_REPS,
    SECONDS_PER_REP,
    SIDE_CHANGE,
    WARM_UP,
    line_seconds,
    session_minutes,
    session_seconds,
    set_seconds,
)

from tests.training.building import lift_of, plan_of, session_of


def one_set(text: str) -> int:
    lift = lift_of(plan_of(f"{{{text}}}"))
    return set_seconds(lift, lift.sets[-1])


def one_line(text: str) -> int:
    return line_seconds(session_of(plan_of(text)).lines[0])


SET = "exercise: squat, sets: 1, reps: 10, load: 60 kg"


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        (SET, 10 * SECONDS_PER_REP),
        ("exercise: squat, sets: 1, reps: 8-12, load: 60 kg", 8 * SECONDS_PER_REP),
        (f"{SET}, tempo: 2-0-1-0", 30),
        (f"{SET}, tempo: 3-0-X-0", 40),
        ("exercise: plank, sets: 1, hold: 45 s", 45),
        ("exercise: one-curl, sets: 1, reps: 10, load: 10 kg", 2 * 10 * SECONDS_PER_REP + SIDE_CHANGE),
        ("exercise: band-pull, sets: 1, reps: as many as possible", OPEN_SET_REPS * SECONDS_PER_REP),
        (f"{SET}, last set: {{technique: isometric-hold, hold: 15 s}}", 55),
        (f"{SET}, last set: {{technique: negatives, reps: 3, lowering: 5 s}}", 55),
        (f"{SET}, last set: {{technique: drop-set, drops: 1}}", 40 + 6 * SECONDS_PER_REP),
        (f"{SET}, last set: {{technique: rest-pause, pauses: 1, pause: 20 s}}", 40 + 20 + 5 * SECONDS_PER_REP),
        (f"{SET}, last set: {{technique: cluster, pieces: 2, pause: 30 s}}", 40 + 30),
    ],
)
def test_set(text: str, seconds: int) -> None:
    assert one_set(text) == seconds


def test_tempo_of_the_line_goes_before_that_of_the_note() -> None:
    slow = "squat: {name: Squat, muscles: {direct: [quads]}, movement: squat, implement: barbell, tempo: 4-1-2-0}"
    of_note = lift_of(plan_of(f"{{{SET}}}", exercises_more=slow))
    of_line = lift_of(plan_of(f"{{{SET}, tempo: 1-0-1-0}}", exercises_more=slow))
    assert (set_seconds(of_note, of_note.sets[0]), set_seconds(of_line, of_line.sets[0])) == (70, 20)


PLANK = "{exercise: plank, sets: 3, hold: 30 s, rest: 60 s}"
IN_TURN = "{exercise: plank, sets: 3, hold: 30 s}"


def test_line_rests_between_sets_only() -> None:
    assert one_line(PLANK) == 3 * 30 + 2 * 60


def test_rest_not_given_is_two_minutes() -> None:
    assert one_line("{exercise: plank, sets: 2, hold: 30 s}") == 2 * 30 + 120


def test_group_rests_once_a_round_and_crosses_between() -> None:
    text = f"{{superset: [{IN_TURN}, {IN_TURN}], rest: 90 s, between: 10 s}}"
    assert one_line(text) == 6 * 30 + 2 * 90 + 3 * 10


def test_group_of_uneven_sets_crosses_only_where_both_are_done() -> None:
    short = "{exercise: plank, sets: 1, hold: 30 s}"
    assert one_line(f"{{superset: [{IN_TURN}, {short}], rest: 90 s, between: 10 s}}") == 4 * 30 + 2 * 90 + 10


def test_session_has_a_warm_up_and_change_overs() -> None:
    found = session_of(plan_of(PLANK, PLANK, PLANK))
    assert session_seconds(found) == WARM_UP + 3 * 210 + 2 * CHANGE_OVER


def test_change_over_of_the_note() -> None:
    far = "sled: {name: Sled, muscles: {direct: [quads]}, movement: carry, implement: other, change-over: 4 min}"
    sled = "{exercise: sled, sets: 1, reps: 10, load: 40 kg}"
    found = session_of(plan_of(PLANK, sled, exercises_more=far))
    assert session_seconds(found) == WARM_UP + 210 + 240 + 40


@pytest.mark.parametrize(("hold", "minutes"), [("60 s", 6), ("61 s", 7), ("59 s", 6), ("1 s", 6)])
def test_minutes_are_rounded_up(hold: str, minutes: int) -> None:
    assert session_minutes(session_of(plan_of(f"{{exercise: plank, sets: 1, hold: {hold}}}"))) == minutes


def session_of_planks(sets: int, hold: int, rest: int) -> Plan:
    return plan_of(f"{{exercise: plank, sets: {sets}, hold: {hold} s, rest: {rest} s}}")


@given(st.integers(1, 20), st.integers(1, 120), st.integers(0, 300))
def test_a_set_more_is_its_work_and_a_rest_more(sets: int, hold: int, rest: int) -> None:
    shorter, longer = (
        session_seconds(session_of(session_of_planks(count, hold, rest))) for count in (sets, min(20, sets + 1))
    )
    assert longer - shorter == (hold + rest if sets < 20 else 0)

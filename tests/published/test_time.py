"""Minutes against published protocols and common practice."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.training.expand import USUAL_REST
from plateset.training.time import SECONDS_PER_REP, WARM_UP, line_seconds, session_seconds, set_seconds

from tests.published.tables import exact_rows_of, rows_of
from tests.training.building import lift_of, plan_of, session_of

Row = Mapping[str, Any]


@pytest.mark.parametrize("row", exact_rows_of("time/set"))
def test_set(row: Row) -> None:
    lift = lift_of(plan_of(f"{{exercise: squat, sets: 1, reps: {row['reps']}, load: 60 kg, tempo: {row['tempo']}}}"))
    assert set_seconds(lift, lift.sets[0]) == int(row["seconds"])


@pytest.mark.parametrize("row", exact_rows_of("time/exercise"))
def test_exercise(row: Row) -> None:
    line = f"{{exercise: plank, sets: {row['sets']}, hold: {row['seconds a set']} s, rest: {row['rest']} s}}"
    assert line_seconds(session_of(plan_of(line)).lines[0]) == int(row["seconds"])


def work_and_rest(*lines: str, rest: str) -> int:
    """Seconds of a session apart from the warm-up, with ``rest`` also between its lines."""
    plank = (
        f"{{name: Plank, muscles: {{direct: [abs]}}, movement: trunk, implement: bodyweight, change-over: {rest} s}}"
    )
    return session_seconds(session_of(plan_of(*lines, exercises_more=f"plank: {plank}"))) - WARM_UP


def in_turn(row: Row, sets: int) -> str:
    return f"{{exercise: plank, sets: {sets}, hold: {row['seconds a set']} s}}"


def a_line(row: Row, sets: int, rest: str) -> str:
    return f"{{exercise: plank, sets: {sets}, hold: {row['seconds a set']} s, rest: {rest} s}}"


@pytest.mark.parametrize("row", exact_rows_of("time/session"))
def test_session(row: Row) -> None:
    line = a_line(row, int(row["sets"]), row["rest"])
    seconds = work_and_rest(*[line] * int(row["lifts"]), rest=row["rest"])
    assert Decimal(seconds) / 60 == Decimal(row["minutes"])


@pytest.mark.parametrize(("row", "tolerance"), rows_of("time/pairs", "time/pairs of other lengths"))
def test_saving_by_pairs(row: Row, tolerance: Decimal) -> None:
    line = a_line(row, 4, "120")
    pair = f"{{superset: [{in_turn(row, 4)}, {in_turn(row, 4)}], rest: 120 s}}"
    one_by_one = work_and_rest(*[line] * 6, rest="120")
    in_pairs = work_and_rest(*[pair] * 3, rest="120")
    saving = 100 - Decimal(in_pairs) * 100 / one_by_one
    assert abs(saving - Decimal(row["saving"])) <= tolerance


@pytest.mark.parametrize("row", exact_rows_of("time/speed", "time/repetition duration"))
def test_usual_speed(row: Row) -> None:
    assert Decimal(row["least"]) <= SECONDS_PER_REP <= Decimal(row["most"])


@pytest.mark.parametrize("row", exact_rows_of("time/rest"))
def test_usual_rest(row: Row) -> None:
    assert int(row["least"]) <= USUAL_REST <= int(row["most"])


@pytest.mark.parametrize("row", exact_rows_of("time/superset"))
def test_superset_rests_once_a_round(row: Row) -> None:
    part = in_turn(row, int(row["rounds"]))
    line = session_of(plan_of(f"{{superset: [{part}, {part}], rest: {row['rest']} s}}")).lines[0]
    assert line_seconds(line) == int(row["seconds"])

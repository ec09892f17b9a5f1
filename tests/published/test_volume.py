"""Load-volume, repetitions and weekly sets against published examples."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.training.plan import Plan
from plateset.training.volume import MuscleWeek, program_volume

from tests.published.tables import exact_rows_of
from tests.training.building import plan_of

Row = Mapping[str, Any]


def week_of(muscle: str, found: Plan) -> MuscleWeek:
    return program_volume(found)[1][muscle]


@pytest.mark.parametrize("row", exact_rows_of("volume/session"))
def test_load_volume_of_a_printed_session(row: Row) -> None:
    lines = [f"{{exercise: squat, sets: {n}, reps: {reps}, load: {mass} kg}}" for n, mass, reps in row["sets"]]
    week = week_of("quads", plan_of(*lines))
    assert week.load_volume == Decimal(row["load volume"])
    assert week.reps == int(row["reps"])
    assert week.mean_load == Decimal(row["average load"])


@pytest.mark.parametrize("row", exact_rows_of("volume/two sets of ten"))
def test_load_volume_of_one_exercise(row: Row) -> None:
    line = f"{{exercise: squat, sets: {row['sets']}, reps: {row['reps']}, load: {row['load']}}}"
    week = week_of("quads", plan_of(line, more="unit: lb"))
    assert week.load_volume == Decimal(row["load volume"])


@pytest.mark.parametrize("row", exact_rows_of("volume/repetitions"))
def test_repetition_volume(row: Row) -> None:
    week = week_of("quads", plan_of(f"{{exercise: squat, sets: {row['sets']}, reps: {row['reps']}, load: 60 kg}}"))
    assert week.reps == int(row["total"])


@pytest.mark.parametrize("row", exact_rows_of("volume/triceps"))
def test_weekly_triceps_sets(row: Row) -> None:
    indirect = "" if row["share"] == "none" else f", indirect: {{triceps: {row['share']}}}"
    bench = (
        f"bench: {{name: Bench, muscles: {{direct: [chest]{indirect}}}, movement: horizontal push, implement: barbell}}"
    )
    week = week_of(
        "triceps",
        plan_of(
            f"{{exercise: bench, sets: {row['indirect sets']}, reps: 8, load: 60 %}}",
            f"{{exercise: pushdown, sets: {row['direct sets']}, reps: 12, load: 20 kg}}",
            exercises_more=bench,
        ),
    )
    assert week.fractional == Decimal(row["weekly"])
    assert week.direct == int(row["direct sets"])


def test_half_a_set_unless_the_author_says_otherwise() -> None:
    # Named in a list, without shares: the fractional way of counting.
    week = week_of("triceps", plan_of("{exercise: bench, sets: 6, reps: 8, load: 60 %}"))
    assert week.fractional == Decimal(3)


@pytest.mark.parametrize("row", exact_rows_of("volume/drop set counted"))
def test_drop_set_is_one_set_with_all_its_repetitions(row: Row) -> None:
    drop = "every set: {technique: drop-set, drops: 1}"
    week = week_of("biceps", plan_of(f"{{exercise: curl, sets: 1, reps: {row['reps']}, load: 20 kg, {drop}}}"))
    assert week.direct == int(row["sets counted"])
    assert week.reps == int(row["reps counted"]) == int(row["reps"]) + int(row["drop reps"])
    # Two dumbbells of 20 kg, then of 16 kg: load-volume is summed over the pieces.
    assert week.load_volume == 10 * 40 + 6 * 32


@pytest.mark.parametrize("row", exact_rows_of("volume/three protocols"))
def test_protocols_matched_for_repetitions(row: Row) -> None:
    drop = ", every set: {technique: drop-set, drops: 1}" if row["technique"] == "drop-set" else ""
    line = f"{{exercise: curl, sets: {row['sets']}, reps: {row['reps']}, load: 20 kg{drop}}}"
    assert week_of("biceps", plan_of(line)).reps == int(row["total"])

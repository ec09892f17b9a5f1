"""Techniques against published protocols and common practice."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.manuscript import schema
from plateset.training.marks.loads import troubled_loads
from plateset.training.plan import Piece
from plateset.training.techniques import DROP_SHARE
from pydantic import ValidationError

from tests.published.tables import exact_rows_of, rows_of
from tests.training.building import last_set, load_of, marks_by, plan_of

Row = Mapping[str, Any]


def pieces(line: str) -> tuple[Piece, ...]:
    return last_set(plan_of(line)).pieces


@pytest.mark.parametrize("row", exact_rows_of("techniques/two drops of a fifth"))
def test_two_ways_of_dropping_a_fifth(row: Row) -> None:
    drop = f"last set: {{technique: drop-set, drops: 2, reduce: 20 %, of: {row['of']}}}"
    text = f"{{exercise: pushdown, sets: 1, reps: 10, load: {row['load']}, {drop}}}"
    one_by_one = "{stack: {from: 1 kg, to: 100 kg, step: 1 kg}}"
    found = last_set(plan_of(text, site_more=f"loading: {one_by_one}")).pieces
    masses = [piece.load.mass for piece in found[1:]]
    wanted = [Decimal(mass) for mass in row["drops"]]
    assert masses == wanted


@pytest.mark.parametrize(("row", "tolerance"), rows_of("techniques/drop from 75 to 55"))
def test_drop_from_a_share_of_the_max(row: Row, tolerance: Decimal) -> None:
    drop = f"last set: {{technique: drop-set, drops: 1, reduce: {row['reduce']} %}}"
    found = pieces(f"{{exercise: squat, sets: 1, reps: 10, load: {row['from']} %, {drop}}}")
    exact = found[1].load.exact
    assert exact is not None
    assert abs(exact - Decimal(row["to"])) <= tolerance
    assert found[1].load.mass == Decimal(row["to"])


@pytest.mark.parametrize("row", exact_rows_of("techniques/size of a drop"))
def test_usual_drop(row: Row) -> None:
    reduce = schema.DropSet(technique="drop-set").reduce
    assert Decimal(row["least percent"]) <= reduce <= Decimal(row["most percent"])


@pytest.mark.parametrize("row", exact_rows_of("techniques/repetitions after a drop"))
def test_repetitions_after_a_drop(row: Row) -> None:
    reps = int(row["reps"])
    assert Decimal(row["low"]) <= reps * DROP_SHARE <= Decimal(row["high"])
    found = pieces(f"{{exercise: curl, sets: 1, reps: {reps}, load: 20 kg, last set: {{technique: drop-set}}}}")
    assert [piece.aim for piece in found] == [reps, 7, 7]


@pytest.mark.parametrize("row", exact_rows_of("techniques/rest-pause after eight"))
def test_repetitions_after_pauses(row: Row) -> None:
    found = pieces(
        f"{{exercise: bench, sets: 1, reps: {row['reps']}, load: 70 %, last set: {{technique: rest-pause}}}}"
    )
    aims = [piece.aim or 0 for piece in found]
    assert len(aims) == 3
    for aim, (low, high) in zip(aims[1:], (row["first"], row["second"]), strict=True):
        assert int(low) <= aim <= int(high)
    assert int(row["low total"]) <= sum(aims) <= int(row["high total"])


@pytest.mark.parametrize("row", exact_rows_of("techniques/pauses"))
def test_usual_pauses(row: Row) -> None:
    setting = f"last set: {{technique: {row['technique']}}}"
    for piece in pieces(f"{{exercise: bench, sets: 1, reps: 9, load: 70 %, {setting}}}")[1:]:
        assert int(row["least"]) <= piece.pause_before <= int(row["most"])


@pytest.mark.parametrize("row", exact_rows_of("techniques/eighteen"))
def test_cluster_keeps_the_repetitions(row: Row) -> None:
    cluster = f"last set: {{technique: cluster, pieces: {row['pieces']}}}"
    found = pieces(f"{{exercise: bench, sets: 1, reps: {row['total']}, load: 50 %, {cluster}}}")
    assert [piece.aim for piece in found] == [int(row["reps"])] * int(row["pieces"])
    assert sum(piece.aim or 0 for piece in found) == int(row["total"])


@pytest.mark.parametrize("row", exact_rows_of("techniques/lowering"))
def test_usual_lowering(row: Row) -> None:
    setting = f"last set: {{technique: {row['technique']}}}"
    lowering = pieces(f"{{exercise: bench, sets: 1, reps: 6, load: 80 %, {setting}}}")[1].seconds_per_rep
    assert lowering is not None
    assert lowering == int(row["seconds"])


@pytest.mark.parametrize("row", exact_rows_of("techniques/help"))
def test_how_many_repetitions_a_partner_may_help_with(row: Row) -> None:
    for reps in (int(row["least reps"]), int(row["most reps"])):
        assert schema.ForcedReps(technique="forced-reps", reps=reps).reps == reps
    for reps in (int(row["least reps"]) - 1, int(row["most reps"]) + 1):
        with pytest.raises(ValidationError):
            schema.ForcedReps(technique="forced-reps", reps=reps)


@pytest.mark.parametrize("row", exact_rows_of("techniques/lowered above the max"))
def test_loads_above_the_max_only_where_meant(row: Row) -> None:
    line = f"exercise: squat, sets: 1, reps: 2, load: {row['percent']} %"
    meant = plan_of(f"{{{line}, above max: allowed}}")
    assert load_of(meant).mass == Decimal(row["percent"])
    assert not marks_by(troubled_loads, meant)
    assert [mark.name for mark in marks_by(troubled_loads, plan_of(f"{{{line}}}"))] == ["above-max"]


@pytest.mark.parametrize("row", exact_rows_of("techniques/past failure"))
def test_usual_limit_past_failure(row: Row) -> None:
    limit = schema.Limits.model_validate({}).past_failure_lines
    assert limit == int(row["lines in a session"])

"""Rises, deloads and recovery against published advice and common practice."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.training.marks.loads import load_jump
from plateset.training.marks.schedule import too_little_recovery

from tests.published.tables import exact_rows_of
from tests.training.building import lift_of, load_of, marks_by, plan_of

Row = Mapping[str, Any]


@pytest.mark.parametrize("row", exact_rows_of("weeks/rises"))
def test_rises_beyond_the_advised_are_marked(row: Row) -> None:
    assert Decimal(row["from"]) * (100 + int(row["percent"])) / 100 == Decimal(row["to"])
    loads = f"{{week 1: {row['from']} kg, week 2: {row['to']} kg}}"
    steps = "loading: {stack: {from: 0.1 kg, to: 100 kg, step: 0.1 kg}}"
    found = plan_of(f"{{exercise: pushdown, sets: 3, reps: 8, load: {loads}}}", more="weeks: 2", site_more=steps)
    assert load_of(found, week=2).mass == Decimal(row["to"])
    assert bool(marks_by(load_jump, found)) == (row["advised"] == "no")


@pytest.mark.parametrize("row", exact_rows_of("weeks/deload"))
def test_what_a_deload_takes_away(row: Row) -> None:
    found = plan_of("{exercise: squat, sets: 5, reps: 5, load: 80 %}", more="weeks: 2\ndeload: {weeks: [2]}")
    values: dict[str, list[Decimal | int]] = {
        "sets": [len(lift_of(found, week).sets) for week in (1, 2)],
        "load": [load_of(found, week).mass or 0 for week in (1, 2)],
        "sessions": [len(found.weeks[week - 1].sessions) for week in (1, 2)],
    }
    working, light = values[row["what"]]
    assert light < working if row["direction"] == "less" else light == working


@pytest.mark.parametrize("row", exact_rows_of("weeks/hours between"))
def test_hours_between_sessions(row: Row) -> None:
    days = f"schedule: {{{row['first']}: a, {row['second']}: a}}"
    found = plan_of("{exercise: squat, sets: 3, reps: 5, load: 60 %}", more=days)

    def marked(hours: int) -> list[str]:
        limit = f"limits: {{recovery: {hours} h}}"
        return [mark.message for mark in marks_by(too_little_recovery, found, limit)]

    hours, back = int(row["hours"]), int(row["hours back"])
    assert marked(hours) == []
    assert [f"{hours} h between {row['first']} and {row['second']}" in text for text in marked(hours + 1)] == [True]
    assert len(marked(back)) == 1
    assert len(marked(back + 1)) == 2

"""Rises, deloads and recovery against published advice and common practice."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.training.marks.loads import load_jump
from plateset.training.marks.schedule import too_little_recovery
from plateset.training.progression import may_add_load

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


@pytest.mark.parametrize("row", exact_rows_of("weeks/two for two"))
def test_when_load_may_be_added(row: Row) -> None:
    done = [int(reps) for reps in row["last sets"]]
    assert may_add_load(int(row["goal"]), done) == (row["add"] == "yes")


def test_the_printed_example_on_the_bar() -> None:
    # Three sets of ten with 135 lb: two sessions with twelve in the last set, and the next one is heavier.
    lines = "{exercise: squat, sets: 3, reps: 10, load: 135 lb, progression: {rule: two-for-two, add: 5 lb, pace: 2}}"
    found = plan_of(lines, more="weeks: 4\nunit: lb", site_more="loading: {bars: {barbell: 45 lb}}")
    done = [(load_of(found, week).mass, lift_of(found, week).sets[-1].pieces[0].aim) for week in (1, 2, 3, 4)]
    assert done == [(Decimal(load), aim) for load, aim in ((135, 10), (135, 12), (135, 12), (140, 10))]

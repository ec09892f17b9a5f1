"""The chart of weekly sets: every mark inside the drawing, names apart, data that cannot leave its script element."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.publishing import chart
from plateset.publishing.chart import chart_view, charted_muscles, explore_figure
from plateset.publishing.views import ChartView
from plateset.training.plan import Plan
from plateset.training.volume import UNTRAINED, MuscleWeek

from tests.training.building import plan_of

MUSCLES = ("quads", "chest", "lats", "biceps", "abs", "glutes", "calves")
Sets = Mapping[str, list[str]]


@cache
def a_plan(*promised: str) -> Plan:
    promises = "weekly sets: {" + ", ".join(f"{muscle}: 1-30" for muscle in promised) + "}\n" if promised else ""
    return plan_of("{exercise: squat, sets: 1, reps: 5, load: 50 %}", more=promises)


def a_week(sets: str) -> MuscleWeek:
    amount = Decimal(sets)
    return replace(UNTRAINED, direct=amount, fractional=amount, days=(1,), most=amount)


def volume_of(sets: Sets) -> dict[int, dict[str, MuscleWeek]]:
    """Weeks from 1 on; an empty text is a week without that muscle."""
    count = max(len(row) for row in sets.values())
    return {
        week: {muscle: a_week(row[week - 1]) for muscle, row in sets.items() if row[week - 1]}
        for week in range(1, count + 1)
    }


def drawn(sets: Sets, *promised: str) -> ChartView:
    view = chart_view(a_plan(*promised), volume_of(sets))
    assert view is not None
    return view


def assert_sound(view: ChartView) -> None:
    for series in view.series:
        assert series.points == " ".join(f"{x},{y}" for x, y, _ in series.dots)
        for x, y, _ in series.dots:
            assert chart.LEFT <= Decimal(x) <= chart.RIGHT
            assert chart.TOP <= Decimal(y) <= chart.BOTTOM
        assert 0 <= Decimal(series.label_y) <= chart.BOTTOM
    for y, _ in view.ticks:
        assert chart.TOP <= Decimal(y) <= chart.BOTTOM
    labels = sorted(Decimal(series.label_y) for series in view.series)
    assert all(after - before >= chart.LABEL_GAP for before, after in pairwise(labels))
    values = [Decimal(words) for _, words in view.ticks]
    steps = {after - before for before, after in pairwise(values)}
    assert values[0] == 0
    assert len(steps) == 1
    assert len(values) <= 8


def test_values_stand_where_the_axis_says() -> None:
    view = drawn({"quads": ["0.5", "12", "6"]})
    by_words = {words: y for y, words in view.ticks}
    heights = {words: y for _, y, words in view.series[0].dots}
    assert heights["12"] == by_words["12"]
    assert heights["6"] == by_words["6"]
    assert [x for x, _, _ in view.series[0].dots] == [x for x, _ in view.weeks]


@pytest.mark.parametrize("top", ["0.25", "1", "2", "7", "11.5", "12", "13", "24.5", "31", "61", "119", "299"])
def test_the_highest_value_is_inside_the_drawing(top: str) -> None:
    assert_sound(drawn({"quads": [top, "0.25"], "chest": ["0.25", top]}))


def test_a_program_of_hundreds_of_sets_can_be_drawn() -> None:
    assert_sound(drawn({"quads": ["301", "900"], "chest": ["2400", "20"]}))


@given(
    st.dictionaries(
        st.sampled_from(MUSCLES),
        st.lists(st.integers(1, 160).map(lambda quarters: str(Decimal(quarters) / 4)), min_size=9, max_size=9),
        min_size=1,
    ),
    st.integers(2, 9),
)
def test_any_program_is_drawn_soundly(sets: dict[str, list[str]], weeks: int) -> None:
    assert_sound(drawn({muscle: row[:weeks] for muscle, row in sets.items()}))


def test_names_of_lines_that_end_together_are_written_apart() -> None:
    view = drawn({muscle: ["10", "0.25"] for muscle in MUSCLES[:5]})
    assert_sound(view)
    assert len({series.label_y for series in view.series}) == 5


def test_a_muscle_that_is_not_trained_in_a_week_falls_to_nothing() -> None:
    view = drawn({"quads": ["4", "", "4"], "chest": ["", "2", "2"]})
    assert [words for _, _, words in view.series[0].dots] == ["4", "0", "4"]
    assert_sound(view)


def test_promised_muscles_are_drawn_and_no_others() -> None:
    sets = volume_of({"quads": ["9", "9"], "chest": ["4", "5"], "lats": ["5", "1"]})
    assert charted_muscles(a_plan("lats", "chest"), sets) == ["chest", "lats"]
    assert charted_muscles(a_plan(), sets) == ["quads", "chest", "lats"]
    assert charted_muscles(a_plan("calves"), sets) == ["quads", "chest", "lats"]


def test_at_most_five_lines_each_drawn_its_own_way() -> None:
    view = drawn({muscle: [str(10 - place), "1"] for place, muscle in enumerate(MUSCLES)})
    assert [series.name for series in view.series] == list(MUSCLES[:5])
    assert len({series.dash for series in view.series}) == 5


def test_the_drawing_is_told_in_words() -> None:
    view = drawn({"quads": ["4", "6"], "chest": ["2.5", ""]})
    assert view.description.startswith("quads 4 in week 1 and chest 2.5 in week 1; in week 2 quads 6 and chest 0.")


def test_a_single_week_needs_no_chart() -> None:
    assert chart_view(a_plan(), volume_of({"quads": ["4"]})) is None
    assert chart_view(a_plan(), {1: {}, 2: {}}) is None


def test_the_figure_to_explore_holds_every_muscle_and_week() -> None:
    sets = {muscle: ["1.5", "2"] for muscle in MUSCLES}
    figure = json.loads(explore_figure(volume_of(sets | {"neck": ["", "3"]})))
    assert [line["name"] for line in figure["data"]] == [muscle.capitalize() for muscle in sorted([*MUSCLES, "neck"])]
    assert {tuple(line["y"]) for line in figure["data"]} == {(1.5, 2.0), (0.0, 3.0)}
    assert all(line["x"] == [1, 2] for line in figure["data"])


def test_the_figure_cannot_end_its_script_element() -> None:
    name = "</script><script>alert(1)//<!--&amp;"
    text = explore_figure({1: {name: a_week("1")}})
    assert not set("<>&") & set(text)
    assert json.loads(text)["data"][0]["name"] == name

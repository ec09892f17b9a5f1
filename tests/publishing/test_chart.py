"""The charts of weekly sets: every mark inside its drawing, one scale, data that cannot leave its script element."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cache

from hypothesis import given
from hypothesis import strategies as st
from plateset.publishing import chart
from plateset.publishing.chart import MOST_PANELS, chart_view, charted_muscles, explore_figure
from plateset.publishing.views import ChartPanel, ChartView
from plateset.training.plan import Plan
from plateset.training.volume import UNTRAINED, MuscleWeek

from tests.training.building import plan_of

MUSCLES = ("quads", "chest", "lats", "biceps", "abs", "glutes", "calves")
Sets = Mapping[str, list[str]]


@cache
def a_plan(*promised: str, span: str = "1-30") -> Plan:
    promises = "weekly sets: {" + ", ".join(f"{muscle}: {span}" for muscle in promised) + "}\n" if promised else ""
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


def drawn(sets: Sets, *promised: str, span: str = "1-30") -> ChartView:
    view = chart_view(a_plan(*promised, span=span), volume_of(sets))
    assert view is not None
    return view


def assert_sound(view: ChartView) -> None:
    for panel in view.panels:
        for bar in panel.bars:
            assert Decimal(bar.x) >= chart.LEFT
            assert Decimal(bar.x) + Decimal(view.thickness) <= chart.RIGHT
            assert chart.TOP <= Decimal(bar.y) <= chart.BASE
            assert Decimal(bar.y) + Decimal(bar.height) == chart.BASE
        middles = [Decimal(bar.middle) for bar in panel.bars]
        assert middles == sorted(set(middles))
        for edge in panel.edges:
            assert chart.TOP <= Decimal(edge) <= chart.BASE


amounts = st.decimals("0", "80", places=1).map(str)
volumes = st.integers(2, 52).flatmap(
    lambda weeks: st.dictionaries(
        st.sampled_from(MUSCLES), st.lists(amounts, min_size=weeks, max_size=weeks), min_size=1
    )
)


@given(sets=volumes, promised=st.sets(st.sampled_from(MUSCLES), max_size=3))
def test_everything_is_inside_the_drawing(sets: Sets, promised: set[str]) -> None:
    assert_sound(drawn(sets, *sorted(promised)))


def test_a_single_week_or_no_muscle_is_no_chart() -> None:
    assert chart_view(a_plan(), volume_of({"quads": ["10"]})) is None
    assert chart_view(a_plan(), {1: {}, 2: {}}) is None


def test_those_promised_are_drawn_most_sets_first_else_the_six_with_most() -> None:
    sets = {muscle: [str(place), str(place)] for place, muscle in enumerate(MUSCLES, start=1)}
    assert charted_muscles(a_plan("quads", "abs"), volume_of(sets)) == ["abs", "quads"]
    assert charted_muscles(a_plan(*MUSCLES), volume_of(sets)) == list(reversed(MUSCLES))
    assert charted_muscles(a_plan(), volume_of(sets)) == list(reversed(MUSCLES))[:MOST_PANELS]


def only(view: ChartView) -> ChartPanel:
    (panel,) = view.panels
    return panel


def test_the_promised_range_is_drawn_where_its_sets_end() -> None:
    """A range of 10 to 20 under a highest week of 20: from the top to half-way."""
    panel = only(drawn({"quads": ["10", "20"]}, "quads", span="10-20"))
    half = Decimal(chart.BASE - chart.TOP) / 2
    assert panel.promised == "10–20"
    assert panel.band == (str(chart.TOP), str(half))
    assert panel.edges == (str(chart.TOP), str(chart.TOP + half))
    assert panel.bars[0].y == panel.edges[1]
    assert panel.bars[1].y == panel.edges[0]


def test_what_is_left_to_choice_stands_above_the_bar() -> None:
    volume = volume_of({"quads": ["10", "10"]})
    volume[2]["quads"] = replace(volume[2]["quads"], most=Decimal(20))
    view = chart_view(a_plan(), volume)
    assert view is not None
    certain, choice = only(view).bars
    assert (certain.words, certain.more) == ("10", None)
    assert (choice.words, choice.y) == ("10–20", certain.y)
    assert choice.more == (str(chart.TOP), certain.height)
    assert only(view).description == "week 1: 10, week 2: 10–20"


def test_without_a_promise_there_is_no_band() -> None:
    panel = only(drawn({"quads": ["10", "20"]}))
    assert (panel.promised, panel.band, panel.edges) == ("", None, ())


def test_all_muscles_are_on_one_scale() -> None:
    view = drawn({"quads": ["10", "10"], "chest": ["5", "10"]})
    heights = {panel.muscle: [Decimal(bar.height) for bar in panel.bars] for panel in view.panels}
    assert heights["quads"][0] == heights["chest"][1] == 2 * heights["chest"][0]


def test_figures_are_written_where_they_change_and_said_to_those_who_listen() -> None:
    panel = only(drawn({"quads": ["10", "10", "12.50", "6"]}))
    assert [(bar.words, bar.said) for bar in panel.bars] == [
        ("10", True), ("10", False), ("12.5", True), ("6", True),
    ]  # fmt: skip
    assert panel.description == "week 1: 10, week 3: 12.5, week 4: 6"


def test_many_weeks_name_some_of_them_and_the_highest_figure() -> None:
    panel = only(drawn({"quads": [str(10 + week % 7) for week in range(30)]}))
    assert [bar.week for bar in panel.bars if bar.week] == [str(week) for week in range(1, 31, 3)]
    assert [(bar.words, place) for place, bar in enumerate(panel.bars, start=1) if bar.said] == [("10", 1), ("16", 7)]


def test_a_week_without_a_muscle_is_a_bar_of_no_height() -> None:
    view = drawn({"quads": ["10", "10"], "chest": ["", "4"]})
    chest = next(panel for panel in view.panels if panel.muscle == "chest")
    assert (chest.bars[0].height, chest.bars[0].words) == ("0", "0")


def test_the_figure_to_explore_holds_every_muscle_and_week() -> None:
    figure = json.loads(explore_figure(a_plan(), volume_of({"quads": ["10", "12.5"], "chest": ["", "4"]})))
    assert [(line["name"], line["x"], line["y"]) for line in figure["data"]] == [
        ("Chest", [1, 2], [0.0, 4.0]),
        ("Quads", [1, 2], [10.0, 12.5]),
    ]


def test_the_figure_to_explore_begins_with_a_few_lines_the_promised_first() -> None:
    sets = {muscle: [str(20 - place)] * 2 for place, muscle in enumerate(MUSCLES)}
    shown = [
        [line["name"] for line in json.loads(explore_figure(plan, volume_of(sets)))["data"] if line["visible"] is True]
        for plan in (a_plan(), a_plan("glutes", "calves"))
    ]
    assert shown == [["Biceps", "Chest", "Lats", "Quads"], ["Calves", "Glutes"]]


def test_figures_that_would_touch_are_left_to_the_table() -> None:
    narrow = drawn({"quads": ["10.5", "9.5", "10.5", "9.5", "10.5", "9.5", "10.5", "9.5"]})
    wide = drawn({"quads": ["10.5", "9.5", "10.5"]})
    assert [bar.said for bar in narrow.panels[0].bars] == [True, False] * 4
    assert all(bar.said for bar in wide.panels[0].bars)


def test_the_figure_cannot_end_its_script_element() -> None:
    text = explore_figure(a_plan(), {1: {"</script><!--&": a_week("3")}, 2: {"</script><!--&": a_week("3")}})
    assert not set("<>&") & set(text)
    assert json.loads(text)["data"][0]["name"] == "</script><!--&"

"""The chart of weekly sets: a small drawing for the page and paper, and the figure to explore on demand."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from decimal import Decimal

from plateset.publishing.views import ChartSeries, ChartView
from plateset.publishing.words import listed
from plateset.training.marks.mark import plain
from plateset.training.plan import Plan
from plateset.training.volume import MuscleWeek

Volume = Mapping[int, Mapping[str, MuscleWeek]]

WIDTH, HEIGHT = 640, 300
LEFT, RIGHT, TOP, BOTTOM = 58, 510, 14, 262
LABEL_GAP = 22
MOST_LINES = 5
DASHES = ("solid", "dash-1", "dash-2", "dash-3", "dash-4")


def charted_muscles(plan: Plan, volume: Volume) -> list[str]:
    """The muscles worth a line: those promised, else those with most sets; at most five, most sets first."""
    best = {
        muscle: max(week[muscle].fractional for week in volume.values() if muscle in week) for muscle in _all(volume)
    }
    chosen: list[str] = [muscle for muscle in plan.program.weekly_sets if muscle in best] or list(best)
    return sorted(chosen, key=lambda muscle: (-best[muscle], muscle))[:MOST_LINES]


def _all(volume: Volume) -> list[str]:
    return sorted({muscle for week in volume.values() for muscle in week})


def _sets(volume: Volume, week: int, muscle: str) -> Decimal:
    found = volume[week].get(muscle)
    return found.fractional if found else Decimal(0)


def chart_view(plan: Plan, volume: Volume) -> ChartView | None:
    """The drawing, every value already in its coordinates; None for a program of a single week."""
    muscles = charted_muscles(plan, volume)
    weeks = sorted(volume)
    if len(weeks) < 2 or not muscles:
        return None
    top = max(_sets(volume, week, muscle) for week in weeks for muscle in muscles)
    step = next((step for step in (2, 4, 5, 10, 20, 50, 100) if top / step <= 6), 500)
    ceiling = Decimal(max(1, math.ceil(top / step)) * step)
    ends = _label_places({muscle: _y(_sets(volume, weeks[-1], muscle), ceiling) for muscle in muscles})
    series = tuple(
        _series(plan, volume, muscle, (dash, ends[muscle], ceiling))
        for muscle, dash in zip(muscles, DASHES, strict=False)
    )
    return ChartView(
        title="Weekly sets of each muscle",
        description=_description(volume, muscles),
        width=WIDTH,
        height=HEIGHT,
        left=str(LEFT),
        right=str(RIGHT),
        bottom=str(BOTTOM),
        ticks=tuple((_y(Decimal(value), ceiling), str(value)) for value in range(0, int(ceiling) + 1, step)),
        weeks=tuple((_x(week, weeks), str(week)) for week in weeks),
        series=series,
    )


def _series(plan: Plan, volume: Volume, muscle: str, drawn: tuple[str, str, Decimal]) -> ChartSeries:
    dash, label_y, ceiling = drawn
    weeks = sorted(volume)
    dots = tuple(
        (_x(week, weeks), _y(_sets(volume, week, muscle), ceiling), plain(_sets(volume, week, muscle)))
        for week in weeks
    )
    points = " ".join(f"{x},{y}" for x, y, _ in dots)
    return ChartSeries(muscle, points, dots, label_y, dash, muscle in plan.program.weekly_sets)


def _x(week: int, weeks: list[int]) -> str:
    span = Decimal(RIGHT - LEFT - 24)
    return _fixed(LEFT + 12 + span * (week - weeks[0]) / (weeks[-1] - weeks[0]))


def _y(sets: Decimal, ceiling: Decimal) -> str:
    return _fixed(BOTTOM - Decimal(BOTTOM - TOP) * sets / ceiling)


def _fixed(value: Decimal) -> str:
    return plain(value.quantize(Decimal("0.1")))


def _label_places(ends: dict[str, str]) -> dict[str, str]:
    """Where each line's name is written: at its end, moved apart where names would overlap, none below the axis."""
    order = sorted(ends, key=lambda muscle: (Decimal(ends[muscle]), muscle))
    lowest = Decimal(BOTTOM)
    places: dict[str, Decimal] = {}
    for count_below, muscle in zip(range(len(order) - 1, -1, -1), order, strict=True):
        above = max(places.values(), default=Decimal(TOP - LABEL_GAP)) + LABEL_GAP
        limit = lowest - LABEL_GAP * count_below
        places[muscle] = min(max(Decimal(ends[muscle]), above), max(limit, above))
    return {muscle: _fixed(place) for muscle, place in places.items()}


def _description(volume: Volume, muscles: list[str]) -> str:
    first, last = min(volume), max(volume)
    parts = [f"{muscle} {plain(_sets(volume, first, muscle))} in week {first}" for muscle in muscles]
    ends = [f"{muscle} {plain(_sets(volume, last, muscle))}" for muscle in muscles]
    return f"{listed(parts)}; in week {last} {listed(ends)}. The table below holds every week."


def explore_figure(volume: Volume) -> str:
    """The same numbers for all muscles as a figure for the chart library, as JSON safe inside a page."""
    weeks = sorted(volume)
    data = [
        {
            "type": "scatter",
            "mode": "lines+markers",
            "name": muscle.capitalize(),
            "x": weeks,
            "y": [float(_sets(volume, week, muscle)) for week in weeks],
        }
        for muscle in _all(volume)
    ]
    layout = {
        "xaxis": {"title": {"text": "Week"}, "dtick": 1},
        "yaxis": {"title": {"text": "Weekly sets"}, "rangemode": "tozero"},
        "margin": {"t": 24, "r": 12, "b": 48, "l": 48},
        "hovermode": "x unified",
    }
    text = json.dumps({"data": data, "layout": layout}, sort_keys=True, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")

"""The charts of weekly sets: small drawings for the page and paper, and the figure to explore on demand."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import Bar, ChartPanel, ChartView
from plateset.publishing.words import range_text
from plateset.training.plan import Plan
from plateset.training.volume import MuscleWeek

Volume = Mapping[int, Mapping[str, MuscleWeek]]

WIDTH, HEIGHT = 200, 104
LEFT, RIGHT, TOP, BASE = 4, 196, 18, 84
MOST_PANELS = 6
MOST_WEEKS_NAMED = 10
LETTER = 8
"""The room of a character of a figure where letters are largest, on a phone."""
DRAWN_FIRST = 4
"""How many lines the large chart begins with: more cannot be told apart."""


@dataclass(frozen=True)
class _Scale:
    """What all panels of a program share: its weeks, and the sets that reach to the top."""

    weeks: list[int]
    deloads: frozenset[int]
    ceiling: Decimal

    @property
    def column(self) -> Decimal:
        """The room of one week."""
        return Decimal(RIGHT - LEFT) / len(self.weeks)

    @property
    def bar(self) -> Decimal:
        """The width of a bar."""
        return min(Decimal(16), self.column * 6 / 10)

    def middle(self, week: int) -> Decimal:
        """Where a week stands."""
        return LEFT + self.column * (self.weeks.index(week) + Decimal("0.5"))

    def y(self, sets: Decimal | int) -> Decimal:
        """Where a number of sets ends."""
        return BASE - Decimal(BASE - TOP) * sets / self.ceiling


def charted_muscles(plan: Plan, volume: Volume) -> list[str]:
    """The muscles worth a drawing: all those promised, else the six with most sets; most sets first."""
    best = {
        muscle: max(week[muscle].fractional for week in volume.values() if muscle in week) for muscle in _all(volume)
    }
    promised = [muscle for muscle in plan.program.weekly_sets if muscle in best]
    chosen = sorted(promised or best, key=lambda muscle: (-best[muscle], muscle))
    return chosen if promised else chosen[:MOST_PANELS]


def _all(volume: Volume) -> list[str]:
    return sorted({muscle for week in volume.values() for muscle in week})


def _most(volume: Volume, week: int, muscle: str) -> Decimal:
    found = volume[week].get(muscle)
    return found.most if found else Decimal(0)


def _sets(volume: Volume, week: int, muscle: str) -> Decimal:
    found = volume[week].get(muscle)
    return found.fractional if found else Decimal(0)


def chart_view(plan: Plan, volume: Volume, language: Language = ENGLISH) -> ChartView | None:
    """The drawings, every value already in its coordinates; None for a program of a single week."""
    muscles = charted_muscles(plan, volume)
    weeks = sorted(volume)
    if len(weeks) < 2 or not muscles:
        return None
    promises: Mapping[str, tuple[int, int]] = dict(plan.program.weekly_sets.items())
    highest = max(_most(volume, week, muscle) for week in weeks for muscle in muscles)
    asked = max((promises[muscle][1] for muscle in muscles if muscle in promises), default=0)
    deloads = frozenset(week.number for week in plan.weeks if week.deload)
    scale = _Scale(weeks, deloads, Decimal(max(1, math.ceil(highest), asked)))
    return ChartView(
        width=WIDTH,
        height=HEIGHT,
        left=str(LEFT),
        right=str(RIGHT),
        base=str(BASE),
        thickness=_fixed(scale.bar),
        panels=tuple(_panel(muscle, volume, scale, promises.get(muscle), language) for muscle in muscles),
    )


def _panel(
    muscle: str, volume: Volume, scale: _Scale, promised: tuple[int, int] | None, language: Language
) -> ChartPanel:
    sets = {week: (_sets(volume, week, muscle), _most(volume, week, muscle)) for week in scale.weeks}
    band = edges = None
    if promised:
        low, high = (scale.y(value) for value in promised)
        band, edges = (_fixed(high), _fixed(low - high)), (_fixed(high), _fixed(low))
    figures = _figures(sets, scale, language)
    return ChartPanel(
        muscle=muscle,
        promised=range_text(*promised) if promised else "",
        description=_description(sets, scale, language),
        bars=tuple(_bar(week, sets, scale, figures[week]) for week in scale.weeks),
        band=band,
        edges=edges or (),
    )


Sets = Mapping[int, tuple[Decimal, Decimal]]
"""Of one muscle by week: the sets in any case, and the most where the reader has a choice."""


def _bar(week: int, sets: Sets, scale: _Scale, figure: tuple[str, bool]) -> Bar:
    least, most = sets[week]
    top, above = scale.y(least), scale.y(most)
    every = -(-len(scale.weeks) // MOST_WEEKS_NAMED)
    named = (week - scale.weeks[0]) % every == 0
    return Bar(
        x=_fixed(scale.middle(week) - scale.bar / 2),
        y=_fixed(top),
        height=_fixed(BASE - top),
        middle=_fixed(scale.middle(week)),
        week=str(week) if named else "",
        words=figure[0],
        said=figure[1],
        deload=week in scale.deloads,
        more=(_fixed(above), _fixed(top - above)) if most > least else None,
    )


def _span(sets: tuple[Decimal, Decimal], language: Language) -> str:
    return "–".join(dict.fromkeys(language.number(each) for each in sets))


def _figures(sets: Sets, scale: _Scale, language: Language) -> dict[int, tuple[str, bool]]:
    """Each week's figure, and whether it is written: where it is news and does not touch the one before."""
    figures: dict[int, tuple[str, bool]] = {}
    end = Decimal(-LETTER)
    for week in scale.weeks:
        words = _span(sets[week], language)
        half = Decimal(len(words) * LETTER) / 2
        said = _worth_saying(week, sets, scale) and scale.middle(week) - half > end
        if said:
            end = scale.middle(week) + half
        figures[week] = words, said
    return figures


def _worth_saying(week: int, sets: Sets, scale: _Scale) -> bool:
    """The first week's figure and those that are new; where there are many weeks, the first and the highest alone."""
    if week == scale.weeks[0]:
        return True
    if len(scale.weeks) > MOST_WEEKS_NAMED:
        highest = max(sets.values())
        return week == min(each for each, value in sets.items() if value == highest) and week > scale.weeks[0] + 2
    return sets[week] != sets[week - 1]


def _fixed(value: Decimal) -> str:
    return f"{value.quantize(Decimal('0.1')).normalize():f}"


def _description(sets: Sets, scale: _Scale, language: Language) -> str:
    """The figures in order: 'week 1: 17, week 2: 18.5'. Weeks that stay as the one before are left out."""
    kept = [week for week in scale.weeks if week == scale.weeks[0] or sets[week] != sets[week - 1]]
    return ", ".join(f"{language.say('week')} {week}: {_span(sets[week], language)}" for week in kept)


def explore_figure(plan: Plan, volume: Volume, language: Language = ENGLISH) -> str:
    """The same numbers for all muscles as a figure for the chart library, as JSON safe inside a page.

    It begins with a few lines, those with most sets of what is promised; the others wait behind their names.
    """
    weeks = sorted(volume)
    drawn = charted_muscles(plan, volume)[:DRAWN_FIRST]
    data = [
        {
            "type": "scatter",
            "mode": "lines+markers",
            "name": language.say(muscle).capitalize(),
            "x": weeks,
            "y": [float(_sets(volume, week, muscle)) for week in weeks],
            "visible": True if muscle in drawn else "legendonly",
        }
        for muscle in _all(volume)
    ]
    layout = {
        "xaxis": {"title": {"text": language.say("Week")}, "dtick": 1},
        "yaxis": {"title": {"text": language.say("Weekly sets")}, "rangemode": "tozero"},
        "margin": {"t": 24, "r": 12, "b": 48, "l": 48},
        "hovermode": "x unified",
    }
    text = json.dumps({"data": data, "layout": layout}, sort_keys=True, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")

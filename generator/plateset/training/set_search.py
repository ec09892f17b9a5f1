"""A best-first search over changes in sets: whole numbers added to lines until every goal is met at least cost.

It knows nothing of plans. A knob is a line whose sets can be turned up or down, a goal a sum over the knobs that has
to end within bounds; what else has to hold is asked of a function when all goals are met.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

FEWEST_SETS, MOST_SETS = 1, 20
"""The bounds of a line's ``sets`` in the format."""

USUAL_SETS = (2, 5)
"""Sets of a line that need no second look (common practice, no source): of two changes of equal size the one that
leaves lines within them is preferred."""

Steps = tuple[int, ...]
"""A change: the sets added (negative: taken) at each knob."""

Ways = Sequence[tuple[int, int]]
"""Steps to try next: a knob's place, and 1 or -1."""


@dataclass(frozen=True)
class Knob:
    """A line: the fewest and most sets it has in any week, the weekly sets one step is, and what it gives each goal."""

    fewest: int
    most: int
    cost: int
    gives: tuple[int, ...]

    def allows(self, by: int) -> bool:
        """Whether the line's sets stay within the format's bounds in every week."""
        return self.fewest + by >= FEWEST_SETS and self.most + by <= MOST_SETS

    def strain(self, by: int) -> int:
        """Sets by which the change leads out of what is usual for a line."""
        few, many = USUAL_SETS
        return max(0, self.most + by - max(self.most, many)) + max(0, min(self.fewest, few) - self.fewest - by)


@dataclass(frozen=True)
class Goal:
    """The least and the most a sum may end at; None where that side is free."""

    least: int | None
    most: int | None

    def lack(self, total: int) -> int:
        """What is missing from ``total``; negative where it is too much, 0 where the goal is met."""
        if self.least is not None and total < self.least:
            return self.least - total
        return self.most - total if self.most is not None and total > self.most else 0


@dataclass(frozen=True)
class Outcome:
    """The cheapest change, or None: then either there is none up to the cost, or (``gave_up``) too many to look at."""

    steps: Steps | None
    gave_up: bool = False


def cheapest(
    knobs: Sequence[Knob], goals: Sequence[Goal], ways_out: Callable[[Steps], Ways | None], *, most: int, looks: int
) -> Outcome:
    """The change that meets all goals and that ``ways_out`` finds no fault with (None), of least cost up to ``most``.

    From a change that breaks something only the steps are tried that lead out of it; every change that holds is
    reached by such steps from none at all. Among equal costs the change of least strain comes first, then that of
    fewer lines, of fewest sets taken, of lines higher up.
    """
    search = _Search(knobs, goals, most)
    heap = [search.node((0,) * len(knobs), (0,) * len(goals))]
    seen = {heap[0][1]}
    looked = 0
    while heap:
        _, steps, totals = heapq.heappop(heap)
        looked += 1
        if looked > looks:
            return Outcome(None, gave_up=True)
        ways = search.ways_to_goals(totals)
        if ways is None:
            ways = ways_out(steps)
        if ways is None:
            return Outcome(steps)
        for node in search.further(steps, totals, ways):
            if node[1] not in seen:
                seen.add(node[1])
                heapq.heappush(heap, node)
    return Outcome(None)


Key = tuple[int, int, int, int, Steps]
_Node = tuple[Key, Steps, tuple[int, ...]]


class _Search:
    """The knobs and goals with what every node asks of them."""

    def __init__(self, knobs: Sequence[Knob], goals: Sequence[Goal], most: int) -> None:
        self.knobs = knobs
        self.goals = goals
        self.most = most
        self.helping = [[place for place, knob in enumerate(knobs) if knob.gives[goal]] for goal in range(len(goals))]
        self.best = [
            max((knobs[place] for place in places), key=lambda knob, goal=goal: knob.gives[goal] / knob.cost)  # type: ignore[misc]
            if places
            else None
            for goal, places in enumerate(self.helping)
        ]

    def node(self, steps: Steps, totals: tuple[int, ...]) -> _Node:
        """A node, first in the heap if its change can end up cheapest."""
        moved = [(knob, by) for knob, by in zip(self.knobs, steps, strict=True) if by]
        cost = sum(abs(by) * knob.cost for knob, by in moved)
        key = (
            cost + self.at_least(totals),
            sum(knob.strain(by) for knob, by in moved),
            len(moved),
            sum(-by * knob.cost for knob, by in moved if by < 0),
            tuple(-abs(by) for by in steps),
        )
        return key, steps, totals

    def at_least(self, totals: tuple[int, ...]) -> int:
        """A cost that every way to the goals comes to."""
        least = 0
        for place, (goal, total) in enumerate(zip(self.goals, totals, strict=True)):
            lack, best = abs(goal.lack(total)), self.best[place]
            if lack:
                least = max(least, -(-lack * best.cost // best.gives[place]) if best else self.most + 1)
        return least

    def ways_to_goals(self, totals: tuple[int, ...]) -> Ways | None:
        """The steps that bring the goal furthest off nearer; None where all are met."""
        lacks = [goal.lack(total) for goal, total in zip(self.goals, totals, strict=True)]
        if not any(lacks):
            return None
        worst = max(range(len(lacks)), key=lambda place: abs(lacks[place]))
        return [(place, 1 if lacks[worst] > 0 else -1) for place in self.helping[worst]]

    def further(self, steps: Steps, totals: tuple[int, ...], ways: Ways) -> Iterator[_Node]:
        """The changes one step on, as far as lines and cost allow; a line turned up is not turned down again."""
        for place, by in ways:
            knob, now = self.knobs[place], steps[place] + by
            if steps[place] * by < 0 or not knob.allows(now):
                continue
            node = self.node(
                (*steps[:place], now, *steps[place + 1 :]),
                tuple(total + gives * by for total, gives in zip(totals, knob.gives, strict=True)),
            )
            if node[0][0] <= self.most:
                yield node

"""A best-first search over changes in sets: whole numbers added to lines until every goal is met at least cost.

It knows nothing of plans. A knob is a line whose sets can be turned up or down, a goal a sum over the knobs that has
to end within bounds; what else has to hold is asked of a function when all goals are met.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

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
    """The cheapest change, or None: then either there is none up to the cost, or (``gave_up``) too many to look at.

    ``looks`` is how many changes were looked at.
    """

    steps: Steps | None
    gave_up: bool = False
    looks: int = 0


def cheapest(
    knobs: Sequence[Knob], goals: Sequence[Goal], ways_out: Callable[[Steps], Ways | None], *, most: int, looks: int
) -> Outcome:
    """The change that meets all goals and that ``ways_out`` finds no fault with (None), of least cost up to ``most``.

    From a change that breaks something only the steps are tried that lead out of it; every change that holds is
    reached by such steps from none at all. Among equal costs the change of least strain comes first, then that of
    fewer lines, of fewest sets taken, of lines higher up.
    """
    search = _Search(knobs, goals, most)
    heap = [search.start()]
    seen: set[_Moves] = {()}
    while heap:
        node = heapq.heappop(heap)
        if len(seen) > looks:
            return Outcome(None, gave_up=True, looks=len(seen))
        ways = search.ways_to_goals(node.totals)
        if ways is None:
            ways = ways_out(search.steps(node.moves))
        if ways is None:
            return Outcome(search.steps(node.moves), looks=len(seen))
        for further in search.further(node, ways):
            if further.moves not in seen:
                seen.add(further.moves)
                heapq.heappush(heap, further)
    return Outcome(None, looks=len(seen))


_Moves = tuple[tuple[int, int], ...]
"""The knobs that are turned and how far, in order of place."""


class _Node(NamedTuple):
    """A change, ordered by what it can end up costing at least, then by what is preferred at equal cost."""

    bound: int
    strain: int
    lines: int
    taken: int
    order: _Moves
    moves: _Moves
    cost: int
    totals: tuple[int, ...]


class _Search:
    """The knobs and goals with what every node asks of them."""

    def __init__(self, knobs: Sequence[Knob], goals: Sequence[Goal], most: int) -> None:
        self.knobs = knobs
        self.goals = goals
        self.most = most
        self.helping = [[place for place, knob in enumerate(knobs) if knob.gives[goal]] for goal in range(len(goals))]
        self.best = [self._best(goal) for goal in range(len(goals))]

    def _best(self, goal: int) -> Knob | None:
        """The knob that gives a goal most for its cost."""
        helping = (self.knobs[place] for place in self.helping[goal])
        return max(helping, key=lambda knob: knob.gives[goal] / knob.cost, default=None)

    def start(self) -> _Node:
        """No change at all."""
        totals = (0,) * len(self.goals)
        return _Node(self.at_least(totals), 0, 0, 0, (), (), 0, totals)

    def steps(self, moves: _Moves) -> Steps:
        """A change told knob by knob."""
        turned = dict(moves)
        return tuple(turned.get(place, 0) for place in range(len(self.knobs)))

    def at_least(self, totals: tuple[int, ...]) -> int:
        """A cost that every way to the goals comes to."""
        least = 0
        for place, (goal, best) in enumerate(zip(self.goals, self.best, strict=True)):
            lack = abs(goal.lack(totals[place]))
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

    def further(self, node: _Node, ways: Ways) -> Iterator[_Node]:
        """The changes one step on, as far as lines and cost allow; a line turned up is not turned down again."""
        turned = dict(node.moves)
        for place, by in ways:
            knob, was = self.knobs[place], turned.get(place, 0)
            now = was + by
            if was * by < 0 or not knob.allows(now):
                continue
            totals = tuple(total + gives * by for total, gives in zip(node.totals, knob.gives, strict=True))
            cost = node.cost + knob.cost
            bound = cost + self.at_least(totals)
            if bound <= self.most:
                moves = tuple(sorted((turned | {place: now}).items()))
                yield _Node(
                    bound,
                    node.strain + knob.strain(now) - knob.strain(was),
                    node.lines + (not was),
                    node.taken + (knob.cost if by < 0 else 0),
                    tuple((at, -abs(far)) for at, far in moves),
                    moves,
                    cost,
                    totals,
                )

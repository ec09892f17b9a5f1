"""What the gym can load: bars with pairs of plates, dumbbells, pins; and the nearest of it to a wish.

All masses are decimals in one unit. Nothing here knows a program.
"""

from __future__ import annotations

from bisect import bisect_right
from decimal import ROUND_FLOOR, Decimal
from functools import lru_cache

from plateset.records import record

PlatePairs = tuple[tuple[Decimal, int | None], ...]
"""Plates, heaviest first, each with the number of pairs there are (None: as many as wanted)."""

MOST_ON_A_SIDE = Decimal(400)
"""More than any sleeve takes, in kg or lb; keeps the search finite."""

MOST_PAIRS = 50
"""More plates of one kind than any sleeve takes; keeps the search short where an author names a very small one."""


@record
class Steps:
    """The masses that can be had, ascending; what lies between cannot be loaded."""

    masses: tuple[Decimal, ...]

    def pick(self, wish: Decimal, *, down: bool = False, cap: Decimal | None = None) -> Decimal | None:
        """The mass nearest to ``wish`` (a tie goes down), or the largest not above it when ``down``.

        Never above ``cap``. None when nothing qualifies: the wish is below the lightest and rounding is down, or
        the cap is.
        """
        below = bisect_right(self.masses, wish)
        lower = self.masses[below - 1] if below else None
        upper = self.masses[below] if below < len(self.masses) else None
        if upper is not None and (down or (cap is not None and upper > cap)):
            upper = None
        if lower is not None and cap is not None and lower > cap:
            return None
        if lower is None or upper is None:
            return lower if upper is None else upper
        return upper if upper - wish < wish - lower else lower

    def next_below(self, mass: Decimal, wish: Decimal) -> Decimal | None:
        """The mass nearest to ``wish`` that is strictly lighter than ``mass``."""
        lighter = Steps(tuple(step for step in self.masses if step < mass))
        return lighter.pick(wish)


def to_step(wish: Decimal, step: Decimal, *, down: bool = False) -> Decimal:
    """The multiple of ``step`` nearest to ``wish`` (a tie goes down), or the largest not above it when ``down``."""
    whole = (wish / step).to_integral_value(ROUND_FLOOR)
    beyond = wish - whole * step
    return (whole if down or beyond * 2 <= step else whole + 1) * step


def steps_between(first: Decimal, last: Decimal, step: Decimal) -> Steps:
    """Equal steps from ``first`` up to at most ``last``."""
    count = int((last - first) / step)
    return Steps(tuple(first + step * index for index in range(count + 1)))


def with_add_ons(steps: Steps, add_ons: tuple[Decimal, ...]) -> Steps:
    """A stack's pins, each with any of the add-on weights hung on it; there is one of each weight named."""
    hung = {Decimal(0)}
    for weight in add_ons:
        hung |= {mass + weight for mass in hung}
    return Steps(tuple(sorted({pin + extra for pin in steps.masses for extra in hung})))


@lru_cache(maxsize=64)
def sides(plates: PlatePairs) -> dict[Decimal, tuple[Decimal, ...]]:
    """Every mass that can hang on one end of a bar, with the fewest plates that make it, heaviest first.

    Where two ways take equally many plates, the one with the heavier plates wins (the order in which plates go on:
    IPF Technical Rules Book, heaviest innermost).
    """
    reached: dict[Decimal, tuple[Decimal, ...]] = {Decimal(0): ()}
    heavier: list[Decimal] = []
    for plate, pairs in sorted(plates, reverse=True, key=lambda pair: pair[0]):
        most = _most_useful(plate, pairs, heavier)
        for mass, used in list(reached.items()):
            for count in range(1, most + 1):
                total = mass + plate * count
                if total > MOST_ON_A_SIDE:
                    break
                found = (*used, *(plate,) * count)
                known = reached.get(total)
                if known is None or (-len(found), found) > (-len(known), known):
                    reached[total] = found
        if pairs is None:
            heavier.append(plate)
    return reached


def _most_useful(plate: Decimal, pairs: int | None, heavier: list[Decimal]) -> int:
    """The most pairs of a plate worth trying: where heavier ones without limit are a multiple of it, fewer do."""
    if plate <= 0:
        return 0
    most = min(int(MOST_ON_A_SIDE / plate), MOST_PAIRS if pairs is None else pairs)
    multiples = [int(other / plate) - 1 for other in heavier if other % plate == 0]
    return min([most, *multiples])


@lru_cache(maxsize=64)
def _loaded(bar: Decimal, collars: Decimal, plates: PlatePairs) -> dict[Decimal, tuple[Decimal, ...]]:
    # Looked up by the sum: subtracting again would miss where kilograms do not divide into pounds evenly.
    return {bar + collars + 2 * side: used for side, used in sides(plates).items()}


@lru_cache(maxsize=64)
def bar_steps(bar: Decimal, collars: Decimal, plates: PlatePairs) -> Steps:
    """Every mass a bar with its collars can be loaded to."""
    return Steps(tuple(sorted(_loaded(bar, collars, plates))))


def plates_per_side(mass: Decimal, bar: Decimal, collars: Decimal, plates: PlatePairs) -> tuple[Decimal, ...] | None:
    """The plates on one end of a bar that weighs ``mass`` in all, heaviest first; None if it cannot be made."""
    return _loaded(bar, collars, plates).get(mass)

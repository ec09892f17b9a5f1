"""Results of work, kept by the very objects it was done on: for as long as this runs, or for one piece of work.

A file that has not changed is read as the same object as before (``manuscript/load.py``), so what was worked out from
it holds as it stands. A preview, which works everything out at every save, then does only what the save has touched.
Weeks of a plan that are alike share their lifts and sessions, so that what goes through a plan does each of them once.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable, Iterator
from typing import Generic, TypeVar

R = TypeVar("R")
T = TypeVar("T")


def each_once(things: Iterable[T]) -> list[T]:
    """Every object once, in the order they are first met."""
    return list({id(each): each for each in things}.values())


def first_met(things: Iterable[T], of: Callable[[T], object]) -> Iterator[T]:
    """Those of ``things`` that are the first with their object ``of``; who goes through them keeps those objects."""
    met: set[int] = set()
    for each in things:
        known = id(of(each))
        if known not in met:
            met.add(known)
            yield each


class Remembered(Generic[R]):
    """The latest results of one kind of work, at most ``keep`` of them; all of them if that is not said."""

    def __init__(self, keep: int | None = None) -> None:
        self._keep = keep
        self._kept: OrderedDict[tuple[object, ...], tuple[tuple[object, ...], R]] = OrderedDict()

    def get(self, given: tuple[object, ...], make: Callable[[], R]) -> R:
        """What ``make`` makes of ``given``, made anew unless it was made of these very objects (or equal texts)."""
        # Asked for a thousand times a program, and nearly always there.
        key = tuple([each if isinstance(each, str) else id(each) for each in given])
        kept = self._kept.get(key)
        if kept is not None:
            if self._keep is not None:
                self._kept.move_to_end(key)
            return kept[1]
        made = make()
        # What was given is kept too: as long as it lives, no other object has its identity.
        self._kept[key] = (given, made)
        if self._keep is not None and len(self._kept) > self._keep:
            self._kept.popitem(last=False)
        return made

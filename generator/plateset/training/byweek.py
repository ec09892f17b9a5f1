"""Values that change by week: a week not named keeps the value before it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

T = TypeVar("T")


def in_week(values: Mapping[tuple[int, int], T], week: int) -> T:
    """The value that holds in ``week`` (from 1); spans are in order and the first starts at week 1."""
    return [value for (first, _), value in values.items() if first <= week][-1]


def changes(values: Mapping[tuple[int, int], T]) -> bool:
    """Whether the author gave more than one value."""
    return len(values) > 1

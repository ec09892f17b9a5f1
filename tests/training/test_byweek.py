"""Values that change by week."""

from __future__ import annotations

import pytest
from plateset.training.byweek import changes, in_week

VALUES = {(1, 1): "a", (3, 4): "b", (6, 6): "c"}


@pytest.mark.parametrize(("week", "value"), [(1, "a"), (2, "a"), (3, "b"), (4, "b"), (5, "b"), (6, "c"), (12, "c")])
def test_holds_until_the_next(week: int, value: str) -> None:
    assert in_week(VALUES, week) == value


def test_one_value_for_every_week() -> None:
    assert in_week({(1, 0): 3}, 9) == 3
    assert not changes({(1, 0): 3})
    assert changes({(1, 1): 3, (2, 2): 4})

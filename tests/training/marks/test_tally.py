"""Marks counted."""

from __future__ import annotations

from plateset.training.marks.tally import Tally


def test_tallies_of_two_programs_add_up_kind_by_kind() -> None:
    assert Tally(1, 2, 3, 4) + Tally(10, 20, 30, 40) == Tally(11, 22, 33, 44)
    assert Tally() + Tally(stop=1) == Tally(stop=1)

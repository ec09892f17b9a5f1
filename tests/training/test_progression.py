"""Rules of progression, and deloads."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.quantities import Reps, SetCount
from plateset.manuscript.schema import Deload, Double, Linear
from plateset.training.progression import RULES, Prescription, Step, after, deloaded

D = Decimal
FIVES = Prescription(SetCount(3, 3), Reps(5, 5), None, None, None)
EIGHT_TO_TWELVE = Prescription(SetCount(3, 3), Reps(8, 12), None, None, None)


def at(weeks: int) -> Step:
    """A line done once a week, after so many weeks."""
    return Step(weeks, weeks, weeks)


def linear(add: str = "2.5 kg", every: int = 1) -> Linear:
    return Linear.model_validate({"rule": "linear", "add": add, "every": every})


def double(pace: int = 1, add: str = "2.5 kg") -> Double:
    return Double.model_validate({"rule": "double", "add": add, "pace": pace})


def test_no_rule_changes_nothing() -> None:
    assert after(FIVES, None, at(7), "kg") == FIVES


@pytest.mark.parametrize(("every", "added"), [(1, ["0", "2.5", "5", "7.5", "10"]), (2, ["0", "0", "2.5", "2.5", "5"])])
def test_linear_adds_every_so_many_weeks(every: int, added: list[str]) -> None:
    found = [after(FIVES, linear(every=every), at(step), "kg").added for step in range(5)]
    assert found == [D(mass) for mass in added]


def test_linear_converts_to_the_plans_unit() -> None:
    assert after(FIVES, linear("10 lb"), at(1), "kg").added == D("4.5359237")


def test_linear_promises_no_repetitions() -> None:
    found = after(FIVES, linear(), at(3), "kg")
    assert (found.aim, found.projected, found.reps) == (None, False, Reps(5, 5))


@pytest.mark.parametrize(
    ("pace", "aims", "added"),
    [
        (1, [8, 9, 10, 11, 12, 8, 9], ["0", "0", "0", "0", "0", "2.5", "2.5"]),
        (2, [8, 10, 12, 8, 10, 12, 8], ["0", "0", "0", "2.5", "2.5", "2.5", "5"]),
        (3, [8, 11, 12, 8, 11, 12, 8], ["0", "0", "0", "2.5", "2.5", "2.5", "5"]),
        (10, [8, 12, 8, 12, 8, 12, 8], ["0", "0", "2.5", "2.5", "5", "5", "7.5"]),
    ],
)
def test_double_climbs_at_its_pace_and_starts_again(pace: int, aims: list[int], added: list[str]) -> None:
    found = [after(EIGHT_TO_TWELVE, double(pace), at(step), "kg") for step in range(7)]
    assert [text.aim for text in found] == aims
    assert [text.added for text in found] == [D(mass) for mass in added]
    assert all(text.projected for text in found)


def test_double_without_repetitions_changes_nothing() -> None:
    hold = Prescription(SetCount(3, 3), None, 30, None, None)
    assert after(hold, double(), at(4), "kg") == hold


@given(st.integers(1, 20), st.integers(1, 15), st.integers(1, 10), st.integers(0, 60))
def test_double_stays_in_its_range_and_never_loses_load(low: int, span: int, pace: int, step: int) -> None:
    base = Prescription(SetCount(3, 3), Reps(low, low + span), None, None, None)
    now, then = (after(base, double(pace), at(each), "kg") for each in (step, step + 1))
    assert now.aim is not None
    assert then.aim is not None
    assert low <= now.aim <= low + span
    # Either load is added and the climb starts again from the bottom, or repetitions are gained.
    if then.added == now.added:
        assert then.aim > now.aim
    else:
        assert (then.added - now.added, now.aim, then.aim) == (D("2.5"), low + span, low)


@pytest.mark.parametrize(
    ("rule", "words"),
    [
        (linear(), "Add 2.5 kg each week."),
        (linear("5 lb", 2), "Add 5 lb every 2 weeks."),
        (double(), "When every set reaches the top of the range, add 2.5 kg"),
        (linear("10.0 kg"), "Add 10 kg each week."),
    ],
)
def test_told_in_a_sentence(rule: Linear | Double, words: str) -> None:
    assert RULES[rule.rule].tell(rule).startswith(words)


def deload(**more: Any) -> Deload:
    return Deload.model_validate({"weeks": [4]} | more)


@pytest.mark.parametrize(
    ("sets", "share", "left"),
    [(5, "60 %", 3), (3, "60 %", 2), (3, "50 %", 2), (4, "50 %", 2), (1, "10 %", 1), (4, "100 %", 4)],
)
def test_deload_takes_sets_and_leaves_one(sets: int, share: str, left: int) -> None:
    base = Prescription(SetCount(sets, sets), Reps(5, 5), None, None, None)
    assert deloaded(base, deload(sets=share)).sets == SetCount(left, left)


def test_deload_takes_load_and_techniques() -> None:
    found = deloaded(FIVES, deload(load="85 %"))
    assert (found.scale, found.techniques) == (D("0.85"), False)
    assert deloaded(FIVES, deload(techniques="on")).techniques


@given(st.integers(1, 20), st.decimals("0.1", 100, places=2), st.decimals("0.1", 100, places=2))
def test_deload_never_raises(sets: int, sets_left: Decimal, load_left: Decimal) -> None:
    base = Prescription(SetCount(sets, sets), Reps(5, 5), None, None, None)
    found = deloaded(base, deload(sets=f"{sets_left} %", load=f"{load_left} %"))
    assert 1 <= found.sets.most <= sets
    assert 0 < found.scale <= 1

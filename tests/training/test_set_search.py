"""The search for the smallest change, against trying every change there is."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.training.set_search import Goal, Knob, Steps, Ways, cheapest

MOST = 4


def everything_holds(_: Steps) -> Ways | None:
    return None


def knob(gives: tuple[int, ...], sets: int = 3, cost: int = 1) -> Knob:
    return Knob(sets, sets, cost, gives)


KNOBS = st.builds(
    Knob,
    st.integers(1, 3),
    st.integers(3, 20),
    st.integers(1, 2),
    st.tuples(st.integers(0, 4), st.integers(0, 4)),
)
SIDE = st.one_of(st.none(), st.integers(-8, 8))
GOALS = st.builds(Goal, SIDE, SIDE)


@given(st.lists(KNOBS, min_size=1, max_size=4), st.tuples(GOALS, GOALS), st.integers(0, 3))
def test_the_cheapest_is_found_whenever_there_is_one(knobs: list[Knob], goals: tuple[Goal, Goal], ceiling: int) -> None:
    """A third limit is known only by asking: the first knob's line may not have more than so many sets added."""

    def cost(steps: Steps) -> int:
        return sum(abs(by) * each.cost for each, by in zip(knobs, steps, strict=True))

    def holds(steps: Steps) -> bool:
        totals = [sum(each.gives[goal] * by for each, by in zip(knobs, steps, strict=True)) for goal in (0, 1)]
        met = all(goal.lack(total) == 0 for goal, total in zip(goals, totals, strict=True))
        allowed = all(each.allows(by) for each, by in zip(knobs, steps, strict=True))
        return met and allowed and steps[0] <= ceiling and cost(steps) <= MOST

    def ways_out(steps: Steps) -> Ways | None:
        return [(0, -1)] if steps[0] > ceiling else None

    found = cheapest(knobs, goals, ways_out, most=MOST, looks=100_000)
    every = [steps for steps in product(range(-MOST, MOST + 1), repeat=len(knobs)) if holds(steps)]
    assert not found.gave_up
    assert (found.steps is None) == (not every)
    if found.steps is not None:
        assert holds(found.steps)
        assert cost(found.steps) == min(map(cost, every))


def test_nothing_to_mend_is_mended_by_nothing() -> None:
    assert cheapest([knob((1,))], [Goal(0, 0)], everything_holds, most=4, looks=10).steps == (0,)


@pytest.mark.parametrize(
    ("knobs", "least", "steps"),
    [
        ([knob((1,)), knob((1,))], 1, (1, 0)),  # of equal lines the one higher up
        ([knob((1,)), knob((2,))], 2, (0, 1)),  # the one that gives more
        ([knob((1,), cost=2), knob((1,))], 1, (0, 1)),  # a session done once rather than one done twice
        ([knob((1,), sets=5), knob((1,))], 2, (0, 2)),  # not beyond what is usual for a line
        ([knob((1,)), knob((1,))], 2, (2, 0)),  # one line rather than two
        ([knob((1,)), knob((1,))], 4, (2, 2)),  # but two rather than one of seven sets
        ([knob((1,), sets=20), knob((1,), sets=20)], 1, None),  # no line holds more than twenty
        ([knob((0,))], 1, None),
    ],
)
def test_what_is_preferred(knobs: list[Knob], least: int, steps: Steps | None) -> None:
    assert cheapest(knobs, [Goal(least, None)], everything_holds, most=6, looks=1000).steps == steps


def test_a_line_of_two_sets_is_the_last_to_be_cut() -> None:
    knobs = [knob((1,), sets=2), knob((1,), sets=3)]
    assert cheapest(knobs, [Goal(None, -1)], everything_holds, most=6, looks=1000).steps == (0, -1)


def test_sets_are_added_rather_than_taken_where_either_helps() -> None:
    def ways_out(steps: Steps) -> Ways | None:
        return None if any(steps) else [(0, -1), (1, 1)]

    assert cheapest([knob(()), knob(())], [], ways_out, most=6, looks=1000).steps == (0, 1)


def test_one_line_is_changed_rather_than_two_even_if_it_is_lower_down() -> None:
    def ways_out(steps: Steps) -> Ways | None:
        return None if sum(steps) == 2 and steps[0] < 2 else [(0, 1), (1, 1)]

    assert cheapest([knob(()), knob(())], [], ways_out, most=6, looks=1000).steps == (0, 2)


@pytest.mark.parametrize(("goal", "steps"), [(6, (6,)), (7, None)])
def test_a_change_may_cost_all_it_is_allowed_to(goal: int, steps: Steps | None) -> None:
    assert cheapest([knob((1,))], [Goal(goal, goal)], everything_holds, most=6, looks=1000).steps == steps


@pytest.mark.parametrize(
    ("goal", "allowed", "steps", "looks"),
    [
        (0, 10, (0,), 1),
        (1, 2, (1,), 2),
        (3, 2, None, 3),
        # More than there may be: no look is needed to see it.
        (7, 10, None, 1),
    ],
)
def test_every_change_that_is_looked_at_counts(goal: int, allowed: int, steps: Steps | None, looks: int) -> None:
    found = cheapest([knob((1,))], [Goal(goal, goal)], everything_holds, most=6, looks=allowed)
    assert (found.steps, found.looks) == (steps, looks)


@pytest.mark.parametrize(("sets", "steps"), [(2, (-1,)), (1, None)])
def test_a_line_keeps_a_set(sets: int, steps: Steps | None) -> None:
    assert cheapest([knob((1,), sets=sets)], [Goal(None, -1)], everything_holds, most=6, looks=1000).steps == steps


def test_giving_up_is_said() -> None:
    found = cheapest([knob((1,))], [Goal(3, 3)], everything_holds, most=6, looks=2)
    assert (found.steps, found.gave_up) == (None, True)

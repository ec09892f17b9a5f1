"""Figures named in prose."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plateset.manuscript.vocabulary import MUSCLE_GROUPS, MUSCLES
from plateset.training.figures import FigureError, figure
from plateset.training.plan import Plan

from tests.training.building import plan, plan_of

SUBJECTS = "weeks, days, minutes, weekly sets, direct sets, load, sets"


@pytest.fixture(scope="module")
def plans() -> dict[str, Plan]:
    block = plan(
        """
        weeks: 2
        schedule: {mon: a, wed: b, fri: a}
        sessions:
          a:
            - {exercise: bench, sets: 3, reps: 5, load: {week 1: 60 kg, week 2: 62.5 kg}}
            - {exercise: band-pull, sets: 2, reps: 15}
          b: [{exercise: bench, sets: 1, reps: 3, load: 70 kg}]
        """
    )
    return {"bench-block": replace(block, slug="bench-block")}


@pytest.mark.parametrize(
    ("address", "value"),
    [
        ("weeks", "2"),
        ("days", "3"),
        ("minutes", "16"),
        ("weekly sets/triceps/week 1", "3.5"),
        ("weekly sets/chest/week 2", "7"),
        ("direct sets/chest/week 1", "7"),
        ("direct sets/triceps/week 1", "0"),
        ("weekly sets/calves/week 1", "0"),
        # A group of muscles: a set of the bench counts half for the triceps, so for the arms.
        ("weekly sets/arms/week 1", "3.5"),
        ("load/bench/week 1", "70 kg"),
        ("sets/bench/week 1", "7"),
        ("load/band-pull/week 1", "by feel"),
        ("sets/band-pull/week 2", "4"),
    ],
)
def test_value(plans: dict[str, Plan], address: str, value: str) -> None:
    assert figure(f"bench-block/{address}", plans) == value


def test_heaviest_load_of_the_week() -> None:
    found = plan(
        "weeks: 2\nsessions: {a: [{exercise: bench, sets: 3, reps: 5, load: {week 1: 60 kg, week 2: 62.5 kg}}]}"
    )
    assert figure("it/load/bench/week 2", {"it": found}) == "62.5 kg"


@pytest.mark.parametrize(
    ("address", "message", "expected", "nearest"),
    [
        ("bench-blok/weeks", "there is no program called 'bench-blok'", "the name of a program", "bench-block"),
        ("bench-block/wekes", "there is no figure 'wekes'", f"one of: {SUBJECTS}", "weeks"),
        ("bench-block", "there is no figure ''", f"one of: {SUBJECTS}", ""),
        ("bench-block/weeks/1", "'bench-block/weeks/1' has 1 parts after 'weeks'", "PROGRAM/weeks", ""),
        (
            "bench-block/weekly sets/chest",
            "'bench-block/weekly sets/chest' has 1 parts after 'weekly sets'",
            "PROGRAM/weekly sets/MUSCLE/week N",
            "",
        ),
        (
            "bench-block/weekly sets/trceps/week 1",
            "'trceps' is not a muscle",
            f"one of: {', '.join((*MUSCLES, *MUSCLE_GROUPS))}",
            "triceps",
        ),
        ("bench-block/weekly sets/chest/week 3", "'week 3' is not a week of bench-block", "week 1 to week 2", ""),
        ("bench-block/weekly sets/chest/1", "'1' is not a week of bench-block", "week 1 to week 2", ""),
        ("bench-block/load/bnch/week 1", "'bnch' is not in bench-block", "one of: band-pull, bench", "bench"),
    ],
)
def test_address_that_leads_nowhere(
    plans: dict[str, Plan], address: str, message: str, expected: str, nearest: str
) -> None:
    with pytest.raises(FigureError) as caught:
        figure(address, plans)
    assert (caught.value.message, caught.value.expected, caught.value.nearest) == (message, expected, nearest)


@pytest.mark.parametrize(
    ("load", "said"),
    [
        ("bodyweight", "bodyweight"),
        ("bodyweight + 10 kg", "+10 kg"),
        ("bodyweight - 20 kg", "20 kg of help"),
        ("75 %", "7.5 kg of help"),
    ],
)
def test_a_load_on_the_body_is_said_as_the_tables_say_it(load: str, said: str) -> None:
    """75 % of a max of 97 kg, at 80 kg of body: 72.75 - 80 = -7.25, rounded to plates of 1.25 kg in pairs of none."""
    more = "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 17 kg x 1}}"
    found = plan_of(f"{{exercise: pull-up, sets: 2, reps: 5, load: {load}}}", more=more)
    assert figure("it/load/pull-up/week 1", {"it": found}) == said

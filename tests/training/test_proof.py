"""The proof as a whole."""

from __future__ import annotations

import inspect
from decimal import Decimal

import pytest
from plateset.training import marks
from plateset.training.marks import loads, safety, schedule, volume
from plateset.training.marks.mark import Mark, plain
from plateset.training.proof import RULES, may_be_published, prove

from tests.training.building import case, plan_of

BAD = (
    "{exercise: pushdown, sets: 3, reps: 5, load: 70 %}",
    "{exercise: squat, sets: 3, reps: 5, load: {week 1: 60 kg, week 2: 90 kg}}",
)


def test_every_rule_is_asked() -> None:
    written = {
        function
        for module in (loads, safety, schedule, volume)
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__
        and not name.startswith("_")
        and list(inspect.signature(function).parameters) == ["case"]
    }
    assert written == set(RULES)
    assert marks.__doc__


def test_gravest_first() -> None:
    found = prove(case(plan_of(*BAD, more="weeks: 2")))
    assert [mark.severity for mark in found] == ["stop", "query", "note"]
    assert [mark.name for mark in found] == ["max-missing", "load-jump", "muscle-untrained"]


def test_proving_twice_is_equal() -> None:
    assert prove(case(plan_of(*BAD, more="weeks: 2"))) == prove(case(plan_of(*BAD, more="weeks: 2")))


def test_where_nothing_can_be_planned_anew_a_broken_promise_keeps_its_own_remedy() -> None:
    found = prove(case(plan_of("{exercise: bench, sets: 3, reps: 5, load: 60 kg}", more="weekly sets: {chest: 5}")))
    assert (found[0].name, found[0].remedy) == ("promise-missed", "add 2 sets a week for chest, or promise less")


@pytest.mark.parametrize(("severities", "may"), [([], True), (["note", "query"], True), (["query", "stop"], False)])
def test_only_a_stop_keeps_a_program_back(severities: list[str], may: bool) -> None:
    found = tuple(Mark("load-jump", severity, (), "", "") for severity in severities)  # type: ignore[arg-type]
    assert may_be_published(found) == may


NO_MAX = "accept: [{mark: max-missing, because: The lifter tests it in week 1.}]"


def test_accepted_mark_stops_nothing_and_keeps_its_reason() -> None:
    found = prove(case(plan_of(BAD[0], more=NO_MAX)))
    (accepted,) = [mark for mark in found if mark.name == "max-missing"]
    assert (accepted.severity, accepted.accepted) == ("stop", "The lifter tests it in week 1.")
    assert may_be_published(found)
    assert not may_be_published(prove(case(plan_of(BAD[0]))))


@pytest.mark.parametrize(("about", "may"), [("pushdown", True), ("Pushdown", True), ("bench", False)])
def test_acceptance_may_be_about_one_thing(about: str, may: bool) -> None:
    one = f"accept: [{{mark: max-missing, about: {about}, because: So it is.}}]"
    assert may_be_published(prove(case(plan_of(BAD[0], more=one)))) == may


@pytest.mark.parametrize(
    ("about", "message"),
    [
        ("", "max-missing is accepted, but there is no such mark"),
        ("about: pushdown, ", "max-missing about 'pushdown' is accepted, but there is no such mark"),
    ],
)
def test_acceptance_of_nothing_is_noted(about: str, message: str) -> None:
    more = NO_MAX.replace("because", f"{about}because")
    found = prove(case(plan_of("{exercise: squat, sets: 1, reps: 5, load: 60 kg}", more=more)))
    (unused,) = [mark for mark in found if mark.name == "acceptance-unused"]
    assert unused == Mark("acceptance-unused", "note", ("accept", 0), message, "take the entry out")
    assert {mark.accepted for mark in found} == {""}


@pytest.mark.parametrize(("number", "text"), [("2.50", "2.5"), ("100", "100"), ("100.0", "100"), ("0.05", "0.05")])
def test_plain_numbers(number: str, text: str) -> None:
    assert plain(Decimal(number)) == text

"""What would take for ever is refused, or done within a stated number of steps, whatever the machine."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from plateset.manuscript.positions import read_yaml
from plateset.problems import Problem

from tests.fuzz.manuscripts import NOTES
from tests.fuzz.trying import MOST_WORK, Files, TooMuchWorkError, at_most, run
from tests.publishing.building import BOOK, LANTERN

FOUND = Path(__file__).parent / "found"
PROSE = BOOK["explainers/why-the-row.md"]
ROUND = "explainers/why-the-row.md"
PROGRAM = "programs/lantern.yaml"


def _long(line: str, times: int, weeks: int = 52) -> str:
    """A program of every day of so many weeks with a line a number of times in each session."""
    data: dict[str, Any] = read_yaml(LANTERN).data
    data |= {"weeks": weeks, "schedule": dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat", "sun"), "a")}
    data |= {"sessions": {"a": [read_yaml(line).data] * times}, "text": "None.", "weekly sets": {}}
    return json.dumps(data)


def _plates(plates: str) -> str:
    return LANTERN.replace("level:", f"loading: {{plates: {plates}}}\nlevel:")


DONE: dict[str, Files] = {
    "open brackets": {ROUND: PROSE + "[" * 20_000},
    "links within links": {ROUND: PROSE + "[a](" * 5000},
    "brackets in brackets": {ROUND: PROSE + "[" * 2000 + "]" * 2000},
    "figures": {ROUND: PROSE + "[](figure:lantern/weeks) " * 3000},
    "names of addresses": {ROUND: PROSE + "\n" + "".join(f"[a{number}]: b\n" for number in range(10_000))},
    "stars": {ROUND: PROSE + "*a **b " * 8000},
    "quotes in quotes": {ROUND: PROSE + (">" * 200 + "x\n") * 500},
    "a wide table": {ROUND: f"{PROSE}\n{'|a' * 2000}\n{'|-' * 2000}\n" + "x\n" * 500},
    "deep": {PROGRAM: "a: " + "[" * 60_000},
    "wide": {PROGRAM: "a: [" + "1," * 20_000 + "]"},
    "keys that are none": {PROGRAM: "".join(f"k{number}: 1\n" for number in range(25_000))},
    "tiny plates": {PROGRAM: _plates("[0.01 kg, 0.011 kg, 0.013 kg, 0.017 kg, 0.019 kg, 0.023 kg]")},
    "plates in pounds for a program in kilograms": {PROGRAM: _plates("[45 lb, 35 lb, 25 lb, 10 lb, 5 lb, 2.5 lb]")},
    "a long ladder with weights to add": {
        PROGRAM: LANTERN.replace(
            "level:",
            "loading: {stack: {from: 1 kg, to: 1000 kg, step: 1 kg}, add-ons: [0.1 kg, 0.2 kg, 0.4 kg]}\nlevel:",
        )
    },
    "a hundred repetitions": {PROGRAM: _long("{exercise: squat, sets: 20, reps: 100, load: 50 %}", 8, weeks=4)},
    **{f"found before: {path.name}": {f"programs/{path.stem}.yaml": path.read_bytes(), **NOTES}
       for path in sorted(FOUND.glob("*.yaml"))},
    **{f"found before: {path.name}": {f"explainers/{path.stem}.md": path.read_bytes()}
       for path in sorted(FOUND.glob("*.md"))},
}  # fmt: skip

REFUSED: dict[str, tuple[Files, str]] = {
    "plates by the grain": (
        {PROGRAM: _plates("[0.000001 kg, 0.37 kg, 1.000003 kg, 7.000001 kg, 11.11 kg]")}, "in too many ways"
    ),
    "a hundred kinds of plates": (
        {PROGRAM: _plates("[" + ", ".join(f"1.{number:02} kg" for number in range(100)) + "]")}, "in too many ways"
    ),
    "a year of forty lines a day": (
        {PROGRAM: _long("{exercise: squat, sets: 20, reps: 100, load: 50 %}", 40)}, "291,200 sets are more"
    ),
    "more acceptances than marks": (
        {PROGRAM: LANTERN + "accept:\n" + "  - {mark: load-jump, because: x}\n" * 5000}, "5,000 acceptances are more"
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", DONE)
def test_it_is_done_within_the_limit(case: str) -> None:
    run(DONE[case], MOST_WORK)


@pytest.mark.parametrize("case", REFUSED)
def test_it_is_refused_before_any_of_it_is_done(case: str) -> None:
    changes, words = REFUSED[case]
    found = run(changes, MOST_WORK // 30)
    assert isinstance(found, list)
    assert all(isinstance(each, Problem) for each in found)
    assert [each for each in found if words in each.message and each.place.line]


def test_the_limit_is_one() -> None:
    with pytest.raises(TooMuchWorkError), at_most(1000):
        sum(len(str(number)) for number in range(10_000))

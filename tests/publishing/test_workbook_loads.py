"""The workbook's loads are those of training, for any reader and any gym, worked out by another program.

The office program is started once for all of them: each case is a workbook with other numbers written into it, and the
plan that training makes of the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

import pytest
from plateset.manuscript.schema import Lifter, Loading
from plateset.publishing.documents import Edition
from plateset.training.plan import Plan

from tests.everything import HEADS, SLUG
from tests.office import converted, formulas, values
from tests.publishing.building import edition_of, write_book
from tests.publishing.workbooks import (
    assert_same_loads,
    is_warm_up,
    pieces,
    reader,
    replanned,
    set_rows,
    shown_load,
    with_cells,
    work_rows,
    workbook_of,
)

READERS_OF_EACH, READERS_OF_THE_DEMO = 3, 1
Written = Mapping[str, Decimal | int | str | None]


@dataclass(frozen=True)
class Case:
    """A workbook as it was, with what a reader writes into it, and the plan for that reader."""

    edition: Edition
    book: bytes
    written: bytes
    plan: Plan


def case(edition: Edition, slug: str, book: bytes, written: tuple[str, Written], **changed: Any) -> Case:
    """A case of ``written`` (a sheet and its cells) against the program with some of its parts ``changed``."""
    return Case(edition, book, with_cells(book, *written), replanned(edition, slug, **changed))


@pytest.fixture(scope="module")
def cases(demo: Edition, everythings: dict[str, Edition], tmp_path_factory: pytest.TempPathFactory) -> dict[str, Case]:
    made: dict[str, Case] = {}
    for kind, edition in everythings.items():
        book = workbook_of(edition, SLUG)
        made[f"example-{kind}"] = case(edition, SLUG, book, ("Start here", {}))
        made |= {f"lot-{kind}-{n}": drawn(edition, SLUG, book, n) for n in range(READERS_OF_EACH)}
    for slug in demo.programs:
        book = workbook_of(demo, slug)
        made |= {f"demo-{slug}-{n}": drawn(demo, slug, book, n) for n in range(READERS_OF_THE_DEMO)}
    plain = everythings["kilograms"]
    book = made["example-kilograms"].book
    made["empty"] = case(plain, SLUG, book, ("Your lifts", no_lifts(book)), example_lifter=Lifter())
    made["steps"] = case(plain, SLUG, book, ("What can be loaded", OWN_STEPS), loading=LIKE_OWN_STEPS)
    made["lists"] = case(plain, SLUG, book, ("What can be loaded", OWN_DUMBBELLS), loading=with_dumbbells(plain))
    return made | dict(ties(tmp_path_factory.mktemp("ties")))


@pytest.fixture(scope="module")
def worked(cases: dict[str, Case], tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Every case worked out."""
    return converted({name: each.written for name, each in cases.items()}, tmp_path_factory.mktemp("office"))


def assert_cases(start: str, cases: dict[str, Case], worked: dict[str, bytes]) -> None:
    found = [name for name in cases if name.startswith(start)]
    assert found
    for name in found:
        assert_same_loads(name, worked[name], cases[name].edition, cases[name].plan)


# -- readers drawn by lot --------------------------------------------------------------------------


def drawn(edition: Edition, slug: str, book: bytes, number: int) -> Case:
    lot = reader(edition, slug, book, Random(f"{slug} {edition.programs[slug].plan.curve} {number}"))
    return case(edition, slug, book, ("Your lifts", lot.written), example_lifter=lot.lifter)


@pytest.mark.parametrize("gym", HEADS)
def test_the_example_lifter_gets_the_loads_of_training(
    gym: str, cases: dict[str, Case], worked: dict[str, bytes]
) -> None:
    assert_cases(f"example-{gym}", cases, worked)


@pytest.mark.parametrize("gym", HEADS)
def test_a_reader_drawn_by_lot_gets_the_loads_of_training(
    gym: str, cases: dict[str, Case], worked: dict[str, bytes]
) -> None:
    assert_cases(f"lot-{gym}", cases, worked)


def test_readers_of_the_demo_get_the_loads_of_training(cases: dict[str, Case], worked: dict[str, bytes]) -> None:
    assert_cases("demo-", cases, worked)


def test_warm_up_sets_are_those_of_the_plan_and_some_are_left_out(
    cases: dict[str, Case], worked: dict[str, bytes]
) -> None:
    for gym in HEADS:
        plan = cases[f"example-{gym}"].plan
        planned = [
            float(round(each.load.mass or Decimal(0), 9))
            for week in plan.weeks
            for session in week.sessions
            for lift in session.lifts
            for each in lift.warm_up
        ]
        shown = [row.load for row in set_rows(values(worked[f"example-{gym}"])) if is_warm_up(row)]
        assert [load for load in shown if isinstance(load, float | int)] == planned
    assert len(planned) > 50
    readers = [row.load for row in set_rows(values(worked["lot-few-plates-0"])) if is_warm_up(row)]
    assert "left out" in readers


# -- ties ------------------------------------------------------------------------------------------

TIES = """\
title: Ties
summary: Wishes half-way between two masses.
level: advanced
goal: strength
weeks: 2
date: 2026-02-02
suits: [Tests]
not for: [Anyone else]
deload: {weeks: [2], load: 90 %}
schedule: {mon: bars, wed: stacks}
example lifter: {bests: {squat: 50 kg x 1, curl: 45 kg x 1}}
warm-up sets: none
sessions:
"""


def ties(folder: Path) -> Iterator[tuple[str, Case]]:
    """Shares of round maxima: every other one lies half-way between two masses."""
    sessions = "".join(
        f"  {name}:\n"
        + "".join(f"    - {{exercise: {lift}, sets: 1, reps: 1, load: {share / 4} %}}\n" for share in shares)
        for name, lift, shares in (("bars", "squat", range(200, 360, 5)), ("stacks", "curl", range(200, 360, 10)))
    )
    edition = edition_of(write_book(folder, {"programs/ties.yaml": TIES + sessions}))
    book = workbook_of(edition, "ties")
    rows = {str(cells[0].value): cells[0].row for cells in formulas(book)["Your lifts"].iter_rows(max_col=1)}
    for best in (100, 150, 200):
        lifter = Lifter.model_validate({"bests": {"squat": f"{best} kg x 1", "curl": f"{best // 2} kg x 1"}})
        entered = {f"B{rows['Squat']}": best, f"B{rows['Cable curl']}": best // 2}
        yield f"ties-{best}", case(edition, "ties", book, ("Your lifts", entered), example_lifter=lifter)


def test_a_tie_goes_down_as_in_training(cases: dict[str, Case], worked: dict[str, bytes]) -> None:
    plans = [each.plan for name, each in cases.items() if name.startswith("ties-")]
    loads = [piece.load for plan in plans for _, _, piece in pieces(plan)]
    steps = {"bar": Decimal("2.5"), "stack": Decimal(5)}
    found = [load for load in loads if load.exact is not None and load.exact % steps[load.kind] == steps[load.kind] / 2]
    assert len(found) > 40
    assert {load.kind for load in found} == {"bar", "stack"}
    assert all(load.mass is not None and load.exact is not None and load.mass < load.exact for load in found)
    assert_cases("ties-", cases, worked)


# -- what a workbook remembers ---------------------------------------------------------------------


@pytest.mark.parametrize("gym", HEADS)
def test_what_a_workbook_remembers_is_what_its_formulas_come_to(
    gym: str, cases: dict[str, Case], worked: dict[str, bytes]
) -> None:
    """A reader on a telephone sees the remembered results: those of the example lifter."""
    book = cases[f"example-{gym}"].book
    written, remembers, now = formulas(book), values(book), values(worked[f"example-{gym}"])
    counted = 0
    for sheet in written.worksheets:
        for cell in (cell for row in sheet.iter_rows() for cell in row if cell.data_type == "f"):
            here = f"{sheet.title}!{cell.coordinate}: {cell.value}"
            then = remembers[sheet.title][cell.coordinate].value or 0
            comes_to = now[sheet.title][cell.coordinate].value or 0
            assert comes_to == (pytest.approx(then, abs=1e-8) if isinstance(then, float | int) else then), here
            counted += 1
    assert counted > 2000


# -- readers who write other things ----------------------------------------------------------------


def no_lifts(book: bytes) -> dict[str, None]:
    """Every entry of the sheet of lifts, emptied."""
    sheet = formulas(book)["Your lifts"]
    entries = [cell.coordinate for row in sheet.iter_rows(min_row=6, min_col=2, max_col=3) for cell in row]
    return dict.fromkeys(cell for cell in entries if not sheet[cell].protection.locked)


def test_a_reader_without_a_best_is_left_to_feel(cases: dict[str, Case], worked: dict[str, bytes]) -> None:
    assert_cases("empty", cases, worked)


OWN_STEPS: dict[str, Decimal | int | str | None] = {"B6": "down", "B7": Decimal("0.5")}
for _column, _numbers in {"B": (15, 1, 300), "D": (8, 1, 200), "F": (1, 1, 60), "H": (3, 3, 210)}.items():
    OWN_STEPS |= {f"{_column}{row}": number for row, number in zip((11, 12, 13), _numbers, strict=True)}
LIKE_OWN_STEPS = Loading.model_validate(
    {
        "bars": {"barbell": "14.5 kg", "ez-bar": "7.5 kg"},
        "collars": "0.5 kg",
        "plates": ["20 kg", "10 kg", "5 kg", "2 kg", "1 kg", "0.5 kg"],
        "dumbbells": {"from": "1 kg", "to": "60 kg", "step": "1 kg"},
        "stack": {"from": "3 kg", "to": "210 kg", "step": "3 kg"},
        "rounding": "down",
    }
)


def test_a_reader_may_give_steps_of_their_own(cases: dict[str, Case], worked: dict[str, bytes]) -> None:
    rows = work_rows(values(worked["steps"]))
    assert [row.load for row in rows] == [shown_load(piece) for _, _, piece in pieces(cases["steps"].plan)]
    assert not any("each side" in row.word for row in rows), "plates of a bar that is not the reader's"


DUMBBELLS = ("2", "3.5", "9", "11.5", "16", "24")
OWN_DUMBBELLS: Written = {f"F{row}": None for row in range(18, 60)} | {
    f"F{row}": Decimal(mass) for row, mass in zip((41, 19, 33, 18, 50, 27), DUMBBELLS, strict=True)
}
"""Masses cleared, others written in, in no order."""


def with_dumbbells(edition: Edition) -> Loading:
    loading = edition.programs[SLUG].plan.program.loading
    changed = Loading.model_validate({"dumbbells": [f"{mass} kg" for mass in DUMBBELLS]}).dumbbells
    return loading.model_copy(update={"dumbbells": changed})


def test_a_reader_may_change_the_lists(cases: dict[str, Case], worked: dict[str, bytes]) -> None:
    assert_cases("lists", cases, worked)

"""The workbook's loads are those of training, for any reader and any gym, worked out by another program."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from random import Random

import pytest
from plateset.manuscript.schema import Lifter, Loading
from plateset.publishing.documents import Edition
from plateset.training.plan import Plan

from tests.conftest import CONTENT
from tests.office import converted, formulas, values
from tests.publishing.building import edition_of, write_book
from tests.publishing.workbooks import (
    FEW_PLATES,
    KILOGRAMS,
    POUNDS,
    STRONG,
    WEAK,
    every_kind,
    pieces,
    reader,
    replanned,
    set_rows,
    shown_load,
    shown_word,
    with_cells,
    workbook_of,
)

KINDS = {
    "kilograms": (KILOGRAMS, STRONG),
    "pounds": (POUNDS, STRONG),
    "few-plates": (FEW_PLATES, STRONG),
    "weak": (KILOGRAMS, WEAK),
}
"""Gyms and example lifters; the readers differ from all of them."""

READERS_OF_EACH, READERS_OF_THE_DEMO = 6, 1


@pytest.fixture(scope="module")
def demo() -> Edition:
    return edition_of(CONTENT)


def assert_same_loads(name: str, data: bytes, plan: Plan) -> None:
    """Every load and the word beside it, against the plan."""
    rows = set_rows(values(data))
    expected = list(pieces(plan))
    assert len(rows) == len(expected)
    for row, (week, lift, piece) in zip(rows, expected, strict=True):
        told = f"{name}, week {week}, {lift.exercise}, {piece.role}, {row.address}: {piece.load}"
        load = shown_load(piece)
        assert row.load == (pytest.approx(load, abs=1e-9) if isinstance(load, float) else load), told
        if piece.role in ("work", "drop") and (piece.role == "work" or piece.load.kind == "bar"):
            assert row.word == shown_word(lift, piece), told


def test_a_reader_drawn_by_lot_gets_the_loads_of_training(tmp_path: Path) -> None:
    books: dict[str, bytes] = {}
    plans: dict[str, Plan] = {}
    for kind, (head, bests) in KINDS.items():
        edition = every_kind(tmp_path / kind, head, bests)
        book = workbook_of(edition, "every-kind")
        for number in range(READERS_OF_EACH):
            drawn = reader(edition, "every-kind", book, Random(f"{kind} {number}"))
            books[f"{kind}-{number}"] = with_cells(book, "Your lifts", drawn.written)
            plans[f"{kind}-{number}"] = replanned(edition, "every-kind", example_lifter=drawn.lifter)
    for name, data in converted(books, tmp_path / "office").items():
        assert_same_loads(name, data, plans[name])


def test_readers_of_the_demo_get_the_loads_of_training(demo: Edition, tmp_path: Path) -> None:
    books: dict[str, bytes] = {}
    plans: dict[str, Plan] = {}
    for slug in demo.programs:
        book = workbook_of(demo, slug)
        for number in range(READERS_OF_THE_DEMO):
            drawn = reader(demo, slug, book, Random(f"{slug} {number}"))
            books[f"{slug}-{number}"] = with_cells(book, "Your lifts", drawn.written)
            plans[f"{slug}-{number}"] = replanned(demo, slug, example_lifter=drawn.lifter)
    for name, data in converted(books, tmp_path).items():
        assert_same_loads(name, data, plans[name])


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
schedule: {mon: only}
example lifter: {bests: {squat: 50 kg x 1, curl: 45 kg x 1}}
sessions:
  only:
"""


def test_a_tie_goes_down_as_in_training(tmp_path: Path) -> None:
    shares = [str(share / 2) for share in range(100, 200, 5)]
    lines = [
        f"    - {{exercise: {lift}, sets: 1, reps: 1, load: {share} %}}"
        for lift in ("squat", "curl")
        for share in shares
    ]
    edition = edition_of(write_book(tmp_path / "book", {"programs/ties.yaml": TIES + "\n".join(lines) + "\n"}))
    book = workbook_of(edition, "ties")
    books: dict[str, bytes] = {}
    plans: dict[str, Plan] = {}
    for best in (50, 110, 150, 182, 210):
        lifter = Lifter.model_validate({"bests": {"squat": f"{best} kg x 1", "curl": f"{best - 5} kg x 1"}})
        plans[str(best)] = replanned(edition, "ties", example_lifter=lifter)
        rows = {str(cells[0].value): cells[0].row for cells in formulas(book)["Your lifts"].iter_rows(max_col=1)}
        entered = {f"B{rows['Squat']}": best, f"B{rows['Cable curl']}": best - 5}
        books[str(best)] = with_cells(book, "Your lifts", entered)
    loads = [piece.load for plan in plans.values() for _, _, piece in pieces(plan)]
    steps = {"bar": Decimal("2.5"), "stack": Decimal(5)}
    ties = [load for load in loads if load.exact is not None and load.exact % steps[load.kind] == steps[load.kind] / 2]
    assert len(ties) > 30
    for name, data in converted(books, tmp_path / "office").items():
        assert_same_loads(name, data, plans[name])


def remembered(demo: Edition, tmp_path: Path) -> Iterator[tuple[str, Edition, str]]:
    yield from ((slug, demo, slug) for slug in demo.programs)
    yield from ((kind, every_kind(tmp_path / kind, *how), "every-kind") for kind, how in KINDS.items())


def test_what_a_workbook_remembers_is_what_its_formulas_come_to(demo: Edition, tmp_path: Path) -> None:
    """A reader on a telephone sees the remembered results: those of the example lifter."""
    books = {name: workbook_of(edition, slug) for name, edition, slug in remembered(demo, tmp_path)}
    wrong = {name: with_cells(data, "Start here", {}) for name, data in books.items()}
    counted = 0
    for name, data in converted(wrong, tmp_path / "office").items():
        written, remembers, worked = formulas(books[name]), values(books[name]), values(data)
        for sheet in written.worksheets:
            for cell in (cell for row in sheet.iter_rows() for cell in row if cell.data_type == "f"):
                here = f"{name}, {sheet.title}!{cell.coordinate}: {cell.value}"
                then = remembers[sheet.title][cell.coordinate].value or 0
                now = worked[sheet.title][cell.coordinate].value or 0
                assert now == (pytest.approx(then, abs=1e-8) if isinstance(then, float | int) else then), here
                counted += 1
    assert counted > 5000


def test_a_reader_without_a_best_is_left_to_feel(tmp_path: Path) -> None:
    edition = every_kind(tmp_path / "book", KILOGRAMS)
    book = workbook_of(edition, "every-kind")
    sheet = formulas(book)["Your lifts"]
    entries = [cell.coordinate for row in sheet.iter_rows(min_row=6, min_col=2, max_col=3) for cell in row]
    entries = [cell for cell in entries if not sheet[cell].protection.locked]
    emptied = with_cells(book, "Your lifts", dict.fromkeys(entries))
    plan = replanned(edition, "every-kind", example_lifter=Lifter())
    made = converted({"empty": emptied}, tmp_path / "office")
    assert_same_loads("empty", made["empty"], plan)


def test_a_reader_may_give_steps_of_their_own(tmp_path: Path) -> None:
    edition = every_kind(tmp_path / "book", KILOGRAMS)
    book = workbook_of(edition, "every-kind")
    own: dict[str, Decimal | int | str | None] = {"B6": "down", "B7": Decimal("0.5")}
    for column, (first, step, last) in {"B": (15, 1, 300), "D": (8, 1, 200), "F": (1, 1, 60), "H": (3, 3, 210)}.items():
        own |= {f"{column}11": Decimal(first), f"{column}12": Decimal(step), f"{column}13": Decimal(last)}
    loading = Loading.model_validate(
        {
            "bars": {"barbell": "14.5 kg", "ez-bar": "7.5 kg"},
            "collars": "0.5 kg",
            "plates": ["20 kg", "10 kg", "5 kg", "2 kg", "1 kg", "0.5 kg"],
            "dumbbells": {"from": "1 kg", "to": "60 kg", "step": "1 kg"},
            "stack": {"from": "3 kg", "to": "210 kg", "step": "3 kg"},
            "rounding": "down",
        }
    )
    made = converted({"own": with_cells(book, "What can be loaded", own)}, tmp_path / "office")
    plan = replanned(edition, "every-kind", loading=loading)
    loads = [row.load for row in set_rows(values(made["own"]))]
    assert loads == [shown_load(piece) for _, _, piece in pieces(plan)]
    words = {row.word for row in set_rows(values(made["own"]))}
    assert not any("each side" in word for word in words), "plates of a bar that is not the reader's"


def test_a_reader_may_change_the_lists(tmp_path: Path) -> None:
    """Masses cleared, others written in, in no order."""
    edition = every_kind(tmp_path / "book", KILOGRAMS + "\n")
    book = workbook_of(edition, "every-kind")
    dumbbells = ["2", "3.5", "9", "11.5", "16", "24"]
    entered: dict[str, Decimal | int | str | None] = {f"F{row}": None for row in range(18, 60)}
    for row, mass in zip((41, 19, 33, 18, 50, 27), dumbbells, strict=True):
        entered[f"F{row}"] = Decimal(mass)
    made = converted({"own": with_cells(book, "What can be loaded", entered)}, tmp_path / "office")
    loading = edition.programs["every-kind"].plan.program.loading
    changed = Loading.model_validate({"dumbbells": [f"{mass} kg" for mass in dumbbells]}).dumbbells
    plan = replanned(edition, "every-kind", loading=loading.model_copy(update={"dumbbells": changed}))
    assert_same_loads("own", made["own"], plan)

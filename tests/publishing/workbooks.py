"""Workbooks for tests: readers drawn by lot, and what is read from the cells and has to stand there."""

from __future__ import annotations

import re
import zipfile
from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from io import BytesIO
from random import Random
from typing import Any

import pytest
from plateset.manuscript import schema
from plateset.manuscript.quantities import Best, BodyweightLoad, FixedLoad, Mass
from plateset.publishing.documents import Edition, site_view
from plateset.publishing.program_view import program_view
from plateset.publishing.warm_up_steps import line_of
from plateset.publishing.words import plates_text
from plateset.publishing.workbook import Shown, workbook
from plateset.training.expand import plan_program
from plateset.training.gym import gym_of
from plateset.training.loads import Lifting
from plateset.training.plan import Lift, Piece, Plan, Session
from plateset.training.warm_up import USUAL, warm_up_sets

from tests.everything import BEYOND_THE_CURVE
from tests.office import formulas, values


def workbook_of(edition: Edition, slug: str) -> bytes:
    """A program's workbook as the edition would have it."""
    program, head = edition.programs[slug], edition.manuscript.site.head
    view = program_view(program, edition.manuscript, edition.figure)
    return workbook(program, Shown(view, site_view(edition), edition.manuscript, head.paper[0]))


def replanned(edition: Edition, slug: str, **changed: Any) -> Plan:
    """The plan that training makes of a program with some of its parts changed."""
    program = edition.programs[slug].plan.program.model_copy(update=changed)
    exercises = {name: document.head for name, document in edition.manuscript.exercises.items()}
    return plan_program(slug, program, edition.manuscript.site.head, exercises)


@dataclass(frozen=True)
class Reader:
    """A reader: as training takes them, and what they write into the sheet of their lifts, by cell."""

    lifter: schema.Lifter
    written: Mapping[str, Decimal | int | None]


def reader(edition: Edition, slug: str, book: bytes, lot: Random) -> Reader:
    """A reader drawn by lot, who leaves some lifts out."""
    plan, notes = edition.programs[slug].plan, edition.manuscript.exercises
    names = {document.head.name: name for name, document in notes.items()}
    bodyweight = Decimal(lot.randint(400, 1500)) / 10
    bests: dict[str, Best] = {}
    written: dict[str, Decimal | int | None] = {}
    for row in formulas(book)["Your lifts"].iter_rows(min_row=6, max_col=1):
        name, number = row[0].value, row[0].row
        if name == "Your bodyweight":
            written[f"B{number}"] = bodyweight
        if name not in names:
            continue
        on_body = notes[names[name]].head.implement == "bodyweight"
        reps = lot.randint(1, 10)
        load = Decimal(lot.randint(-60, 160) if on_body else lot.randint(10, 900)) / 4
        left_out = lot.random() < 0.15
        written[f"B{number}"], written[f"C{number}"] = (None, None) if left_out else (load, reps)
        if not left_out:
            mass = Mass(load, plan.unit)
            bests[names[name]] = Best(BodyweightLoad(mass) if on_body else FixedLoad(mass), reps)
    known = schema.Lifter.model_validate({"bodyweight": f"{bodyweight} {plan.unit}"})
    return Reader(known.model_copy(update={"bests": bests}), written)


def with_cells(book: bytes, sheet: str, written: Mapping[str, Decimal | int | str | None]) -> bytes:
    """The workbook with other numbers (or words) in cells of a sheet, and every remembered result wrong.

    The results are made wrong so that a program that believes them instead of working them out is found out.
    """
    names = formulas(book).sheetnames
    made = BytesIO()
    with zipfile.ZipFile(BytesIO(book)) as old, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            text = old.read(entry)
            if entry.filename.startswith("xl/worksheets/sheet"):
                text = re.sub(rb"</f><v>[^<]*</v>", b"</f><v>-12345</v>", text)
                text = re.sub(rb' t="str"><f>', b"><f>", text)
            if entry.filename == f"xl/worksheets/sheet{names.index(sheet) + 1}.xml":
                text = _with_cells(text.decode(), written).encode()
            new.writestr(entry, text)
    return made.getvalue()


def _with_cells(xml: str, written: Mapping[str, Decimal | int | str | None]) -> str:
    for cell, value in written.items():
        found = re.search(rf'<c r="{cell}"( s="\d+")?(?: t="s")?(?:/>|><v>[^<]*</v></c>)', xml)
        assert found, f"there is no entry at {cell}"
        start = f'<c r="{cell}"{found[1] or ""}'
        if value is None:
            put = f"{start}/>"
        elif isinstance(value, str):
            put = f'{start} t="inlineStr"><is><t>{value}</t></is></c>'
        else:
            put = f"{start}><v>{value}</v></c>"
        xml = xml[: found.start()] + put + xml[found.end() :]
    return xml


def pieces(plan: Plan) -> Iterator[tuple[int, Lift, Piece]]:
    """Every piece of a plan with its week and lift, in the order of the sheets' rows."""
    for week, _, lift in lifts(plan):
        yield from ((week, lift, piece) for work in lift.sets for piece in work.pieces)


def lifts(plan: Plan) -> Iterator[tuple[int, Session, Lift]]:
    """Every lift of a plan with its week and session, in the order of the sheets' rows."""
    for week in plan.weeks:
        for session in week.sessions:
            yield from ((week.number, session, lift) for lift in session.lifts)


def warm_up_expected(edition: Edition, plan: Plan, session: Session, lift: Lift) -> list[float | str]:
    """What the rows of a lift's warm-up have to show to the lifter of ``plan``: what training makes of every step."""
    line, site = line_of(plan, session, lift), edition.manuscript.site.head
    usual = plan.program.warm_up_sets if plan.program.warm_up_sets is not None else site.warm_up_sets
    steps = line.warm_up_sets if line.warm_up_sets is not None else USUAL if usual is None else usual
    first = lift.sets[0].pieces[0].load
    if first.mass is None:
        return ["by feel"] * len(steps)
    gym = gym_of(site.loading, plan.program.loading, plan.unit)
    lifting = Lifting(lift.note, gym, first.basis.max, plan.bodyweight, lift.curve, line.above_max is not None)
    found = list(warm_up_sets(lifting, first, steps))
    shown: list[float | str] = []
    for step in steps:
        mine = found and (found[0].load.basis.percent, found[0].reps) == (step.load, step.reps)
        mass = found.pop(0).load.mass if mine else None
        shown.append("left out" if mass is None else float(round(mass, 9)))
    assert not found
    return shown


def shown_load(piece: Piece) -> float | str:
    """What the load's cell has to show.

    A lift on the body with more repetitions than the curve knows is by feel, in training only for those who have a
    max; the rest are given the body alone. The workbook leaves it to feel for everyone.
    """
    basis = piece.load.basis
    if basis.rule == "bodyweight" and piece.reps and piece.reps.low == BEYOND_THE_CURVE:
        return "by feel"
    return "by feel" if piece.load.mass is None else float(round(piece.load.mass, 9))


def shown_word(lift: Lift, piece: Piece) -> str:
    """What has to stand beside the load of a work piece: what is amiss with it, or its plates."""
    troubles = {
        "below the bar": "lightest there is, more than meant",
        "not loadable": "lightest there is, more than meant",
        "beyond the rack": "heaviest there is, less than meant",
        "above the max": "above your max",
    }
    load = piece.load
    if load.basis.trouble in troubles and load.mass is not None:
        return troubles[load.basis.trouble]
    return "each hand" if load.kind == "dumbbell" and lift.note.dumbbells == 2 else plates_text(load)


@dataclass(frozen=True)
class Row:
    """A set's row as read: the address of its load, what the set is called, the load, and the word beside it."""

    address: str
    label: str
    load: float | str
    word: str


def set_rows(book: Any) -> list[Row]:
    """Every row of a set on the sheets of weeks, in their order."""
    found = []
    for sheet in book.worksheets:
        if sheet.title.startswith("Week "):
            for cells in sheet.iter_rows(min_row=3, max_col=9):
                if cells[3].value is not None:
                    word = cells[8].value or ""
                    address = f"{sheet.title}!{cells[3].coordinate}"
                    found.append(Row(address, str(cells[1].value), cells[3].value, word))
    return found


def is_warm_up(row: Row) -> bool:
    """Whether a row is that of a warm-up set."""
    return row.label.startswith("warm-up")


def work_rows(book: Any) -> list[Row]:
    """The rows of working sets."""
    return [row for row in set_rows(book) if not is_warm_up(row)]


def assert_same_loads(name: str, data: bytes, edition: Edition, plan: Plan) -> None:
    """Every load and the word beside it, warm-up sets included, against the plan."""
    rows = deque(set_rows(values(data)))
    for week, session, lift in lifts(plan):
        here = f"{name}, week {week}, {lift.exercise}"
        warm_ups = []
        while rows and is_warm_up(rows[0]):
            warm_ups.append(rows.popleft())
        if warm_ups:
            expected = warm_up_expected(edition, plan, session, lift)
            assert [row.load for row in warm_ups] == expected, f"{here}, {warm_ups}: {lift.sets[0].pieces[0].load}"
        for piece in (piece for work in lift.sets for piece in work.pieces):
            _assert_same(f"{here}, {piece.role}: {piece.load}", rows.popleft(), lift, piece)
    assert not rows


def _assert_same(here: str, row: Row, lift: Lift, piece: Piece) -> None:
    load = shown_load(piece)
    assert row.load == (pytest.approx(load, abs=1e-9) if isinstance(load, float) else load), f"{row.address}, {here}"
    if piece.role in ("work", "drop") and (piece.role == "work" or piece.load.kind == "bar"):
        assert row.word == shown_word(lift, piece), f"{row.address}, {here}"

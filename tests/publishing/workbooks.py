"""Workbooks for tests: a program with every kind of load, readers drawn by lot, and what is read from the cells."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from random import Random
from typing import Any

from plateset.manuscript import schema
from plateset.manuscript.quantities import Best, BodyweightLoad, FixedLoad, Mass
from plateset.publishing.documents import Edition, site_view
from plateset.publishing.program_view import program_view
from plateset.publishing.words import plates_text
from plateset.publishing.workbook import Shown, workbook
from plateset.training.expand import plan_program
from plateset.training.plan import Lift, Piece, Plan

from tests.office import formulas
from tests.publishing.building import edition_of, write_book

NOTE = "---\nname: {name}\nmuscles: {{direct: [quads], indirect: [glutes]}}\nmovement: squat\n{more}---\nWhy.\n"
MORE_NOTES = {
    "front-squat": "implement: barbell\nmax from: {exercise: squat, share: 80 %}\n",
    "hold-squat": "implement: machine\nmax from: {exercise: leg-press, share: 37.5 %}\n",
    "leg-press": "implement: machine\n",
    "ez-curl": "implement: barbell\nbar: ez-bar\n",
    "shoulder-press": "implement: dumbbell\n",
    "dip": "implement: bodyweight\nmax from: {exercise: pull-up, share: 110 %}\n",
    "band-pull": "implement: band\n",
    "sled": "implement: other\n",
    "step-up": "implement: other\n",
}

EVERY_KIND = """\
title: Every kind
summary: One of each.
level: advanced
goal: strength
weeks: 5
date: 2026-02-02
suits: [Tests]
not for: [Anyone else]
UNIT
schedule: {mon: bars, wed: hands, fri: body}
weekly sets: {quads: 1-200}
example lifter:
  bodyweight: 80 kg
  bests: {BESTS}
deload: {weeks: [3], sets: 60 %, load: 87.5 %, techniques: on}
sessions:
  bars:
    - exercise: squat
      sets: 2
      reps: 5
      load: {week 1: 72.5 %, week 2: 76.25 %, week 4: 100 %, week 5: 105 %}
      above max: allowed
    - {exercise: squat, sets: 1, reps: 3, load: {week 1: 81 %, week 5: 100 %}, progression: {rule: linear, add: 2.5 kg}}
    - {exercise: bench, sets: 3, reps: 6-9, effort: 1.5 RIR, progression: {rule: double, add: 1.25 kg, pace: 2},
       last set: {technique: drop-set, drops: 3, reduce: 15 %}}
    - {exercise: bench, sets: 1, reps: 4, load: 62.5 kg, progression: {rule: linear, add: 5 kg},
       every set: {technique: drop-set, drops: 2, reduce: 30 %, of: first}}
    - {exercise: ez-curl, sets: 2, reps: 8-12, effort: 2 RIR, last set: {technique: rest-pause}}
    - {exercise: front-squat, sets: 2, reps: 4, load: 65 %, every set: {technique: cluster, pieces: 2}}
  hands:
    - superset:
        - {exercise: shoulder-press, sets: 2, reps: 8-12, effort: 1 RIR,
           last set: {technique: drop-set, drops: 2, reduce: 20 %}}
        - {exercise: row, sets: 2, reps: 6, effort: RPE 8.5, progression: {rule: linear, add: 1 kg}}
      rest: 2 min
    - {exercise: curl, sets: 2, reps: 10, effort: 1 RIR, every set: {technique: drop-set, drops: 2, reduce: 33 %}}
    - {exercise: leg-press, sets: 2, reps: 10, load: 70 %, last set: {technique: partials}}
    - {exercise: hold-squat, sets: 1, hold: 20 s, load: 50 %, last set: {technique: isometric-hold}}
    - {exercise: sled, sets: 2, reps: 4, effort: 2 RIR, last set: {technique: drop-set, drops: 2, reduce: 25 %}}
    - {exercise: sled, sets: 1, reps: 4, load: 99 %, progression: {rule: linear, add: 0.75 kg}}
    - {exercise: step-up, sets: 1, reps: 4, load: bodyweight + 10 kg}
    - {exercise: band-pull, sets: 1, reps: 15, load: 12.3 kg}
    - {exercise: band-pull, sets: 1, reps: 15, effort: 2 RIR}
  body:
    - {exercise: pull-up, sets: 2, reps: 5, effort: 2 RIR, progression: {rule: linear, add: 1.25 kg},
       last set: {technique: drop-set, drops: 2}}
    - {exercise: pull-up, sets: 1, reps: 14, effort: 3 RIR}
    - {exercise: dip, sets: 1, reps: 8, load: 75 %, last set: {technique: negatives}}
    - {exercise: pull-up, sets: 1, reps: as many as possible, load: bodyweight}
    - {exercise: dip, sets: 1, reps: 6, load: bodyweight + 7.5 kg, progression: {rule: linear, add: 2.5 kg}}
    - {exercise: dip, sets: 1, reps: 6, load: bodyweight - 20 kg}
    - {exercise: dip, sets: 1, reps: 6, load: 83 kg}
    - {exercise: plank, sets: 1, hold: 30 s}
    - {exercise: squat, sets: 1, reps: 20, effort: 2 RIR}
"""

BEYOND_THE_CURVE = 14
"""Repetitions of a pull-up above that no curve reaches with those in reserve."""

KILOGRAMS = "loading: {bars: {barbell: 20 kg, ez-bar: 7.5 kg}, collars: 0.5 kg}"
POUNDS = """\
unit: lb
curve: epley
loading:
  bars: {barbell: 45 lb, ez-bar: 8 kg}
  plates: [45 lb, 25 lb, 10 lb, 2.5 lb]
  rounding: down
"""
FEW_PLATES = """\
curve: wathan
loading:
  bars: {barbell: 20 kg, ez-bar: 10 kg}
  plates: {20 kg: 2, 7.5 kg: 1, 2 kg: 3, 1.25 kg: 1}
  dumbbells: [1 kg, 4 kg, 17.5 kg, 30 kg]
"""


STRONG = """squat: 140 kg x 3, bench: 100 kg x 1, ez-curl: 40 kg x 8, shoulder-press: 24 kg x 9, curl: 35 kg x 11,
    leg-press: 180 kg x 6, sled: 90 kg x 2, pull-up: bodyweight + 12.5 kg x 5, row: 30 kg x 7"""
WEAK = """squat: 20 kg x 3, bench: 22.5 kg x 1, ez-curl: 10 kg x 8, shoulder-press: 4 kg x 4, curl: 5 kg x 11,
    leg-press: 5 kg x 6, sled: 1 kg x 2, pull-up: bodyweight - 40 kg x 5, row: 1 kg x 7"""
"""Bests of example lifters; the weak one is at the lightest there is, from which nothing can be dropped."""


def every_kind(folder: Path, head: str, bests: str = STRONG) -> Edition:
    """An edition of a program with every kind of load; ``head`` holds its unit, curve and loading."""
    changes = {"programs/every-kind.yaml": EVERY_KIND.replace("UNIT", head).replace("BESTS", bests)}
    for slug, more in MORE_NOTES.items():
        changes[f"exercises/{slug}.md"] = NOTE.format(name=slug.replace("-", " ").capitalize(), more=more)
    for slug in ("rest-pause", "cluster", "partials", "isometric-hold", "negatives"):
        changes[f"techniques/{slug}.md"] = f"---\nname: {slug.capitalize()}\nsummary: So it goes.\n---\nHow.\n"
    return edition_of(write_book(folder, changes))


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
    for week in plan.weeks:
        for session in week.sessions:
            for lift in session.lifts:
                yield from ((week.number, lift, piece) for work in lift.sets for piece in work.pieces)


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
    """A set's row as read: the address of its load, the load, and the word beside it."""

    address: str
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
                    found.append(Row(f"{sheet.title}!{cells[3].coordinate}", cells[3].value, word))
    return found

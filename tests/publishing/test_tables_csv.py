"""The table, read by Python's own reader of CSV and compared with the plan, set for set."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.quantities import Reps
from plateset.publishing.documents import Edition
from plateset.publishing.tables_csv import COLUMNS, plan_csv, tame
from plateset.publishing.words import effort_text, tempo_text
from plateset.training.plan import Lift, Piece, PieceRole, Plan, PlannedLine, Session, SetKind, Week, WorkSet

from tests.everything import HEADS, SLUG
from tests.publishing.building import LANTERN, edition_of, write_book

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def rows(table: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(table.decode("utf-8"), newline="")))


@dataclass(frozen=True)
class Told:
    """What a row is about; ``work`` is None for a warm-up set, whose ``number`` counts by itself."""

    week: Week
    session: Session
    line: PlannedLine
    lift: Lift
    work: WorkSet | None
    number: int
    piece: Piece


def told_of(plan: Plan) -> Iterator[Told]:
    """Every warm-up set and every piece in the order of the plan."""
    for week in plan.weeks:
        for session in week.sessions:
            for line in session.lines:
                for lift in line.lifts:
                    for number, each in enumerate(lift.warm_up, start=1):
                        reps = Reps(each.reps, each.reps)
                        piece = Piece("work", each.load, reps, each.reps)
                        yield Told(week, session, line, lift, None, number, piece)
                    for work in lift.sets:
                        for piece in work.pieces:
                            yield Told(week, session, line, lift, work, work.number, piece)


def yes(answer: bool) -> str:
    return "yes" if answer else "no"


def assert_told(plan: Plan, table: list[dict[str, str]]) -> None:
    for row, told in zip(table, told_of(plan), strict=True):
        week, lift, work, piece = told.week, told.lift, told.work, told.piece
        assert (row["week"], row["session"]) == (str(week.number), tame(told.session.title))
        assert (row["deload"], row["test"]) == (yes(week.deload), yes(week.test))
        assert (row["exercise"], row["role"]) == (tame(lift.note.name), lift.role or "")
        assert row["range of motion"] == lift.range_of_motion
        assert row["pick one"] == yes(told.line.kind == "pick-one")
        assert row["rest seconds"] == str(lift.rest if told.line.kind == "single" else told.line.rest)
        assert row["set"] == str(told.number)
        assert row["set kind"] == (work.kind if work else "warm-up")
        assert row["optional"] == yes(work is not None and work.optional)
        assert Decimal(row["counts"]) == (work.counts if work else 0)
        assert row["effort"] == (effort_text(work.effort) if work else "")
        assert row["unit"] == plan.unit
        mass = piece.load.mass
        assert row["load"] == ("" if mass is None else f"{max(mass, Decimal(0)).normalize():f}")
        assert row["help"] == ("" if mass is None or mass >= 0 else f"{(-mass).normalize():f}")
        reps = piece.reps
        asked = (reps.low, reps.high) if reps and not reps.open else ("", "")
        assert (row["reps from"], row["reps to"]) == tuple(map(str, asked))
        assert row["hold seconds"] == ("" if piece.hold is None else str(piece.hold))
        assert row["pause before seconds"] == str(piece.pause_before)


def test_every_program_of_the_demo_is_told_set_for_set(demo: Edition) -> None:
    assert len(demo.programs) == 5
    for program in demo.programs.values():
        assert_told(program.plan, rows(plan_csv(program.plan, by_weekday=program.by_weekday)))


@pytest.mark.parametrize("gym", HEADS)
def test_a_program_with_everything_is_told_set_for_set(gym: str, everythings: dict[str, Edition]) -> None:
    table = rows(plan_csv(everythings[gym].programs[SLUG].plan, by_weekday=True))
    assert_told(everythings[gym].programs[SLUG].plan, table)
    assert {row["set kind"] for row in table} == {"warm-up", *get_args(SetKind)}
    assert {row["how"] for row in table} == {"warm-up", *get_args(PieceRole)}
    for column in ("optional", "test", "deload", "pick one", "past failure", "reps open"):
        assert {row[column] for row in table} == {"yes", "no"}, column
    assert {Decimal(row["counts"]) for row in table} >= {Decimal(0), Decimal(1), Decimal("1.5"), Decimal(2)}


def test_what_holds_for_a_line_stands_in_each_of_its_rows(edition: Edition) -> None:
    plan = edition.programs["lantern"].plan
    table = rows(plan_csv(plan, by_weekday=True))
    assert_told(plan, table)
    squat, bench = table[0], next(row for row in table if row["exercise"] == "Bench press")
    assert (squat["day"], squat["deload"], squat["group"], squat["line"], squat["part"]) == (
        "Monday",
        "no",
        "",
        "1",
        "1",
    )
    assert (squat["tempo"], squat["rest seconds"], squat["between seconds"]) == ("3-1-X-0", "180", "")
    assert (bench["group"], bench["line"], bench["part"]) == ("superset", "2", "1")
    assert (bench["effort"], bench["rest seconds"], bench["between seconds"]) == ("RPE 8", "90", "30")
    drops = [row for row in table if row["week"] == "1" and row["technique"] == "drop set"]
    assert [(row["set"], row["piece"], row["how"]) for row in drops] == [
        ("3", "1", "work"),
        ("3", "2", "drop"),
        ("3", "3", "drop"),
    ]
    assert {row["deload"] for row in table if row["week"] == "3"} == {"yes"}
    for row, told in zip(table, told_of(plan), strict=True):
        assert row["tempo"] == tempo_text(told.lift.tempo)


def test_days_that_are_counted_are_told_as_counted(edition: Edition) -> None:
    table = rows(plan_csv(edition.programs["tally"].plan, by_weekday=False))
    assert [row["day"] for row in table] == ["Day 1", "Day 1", "Day 3", "Day 3"]
    assert {row["load"] for row in table} <= {"", "0"}


def test_it_is_written_as_the_standard_says(edition: Edition) -> None:
    table = plan_csv(edition.programs["lantern"].plan, by_weekday=True)
    assert table.count(b"\r\n") == table.count(b"\n") == table.count(b"\r")
    assert table.endswith(b"\r\n")
    assert not table.startswith(b"\xef\xbb\xbf")
    assert {len(row) for row in csv.reader(io.StringIO(table.decode(), newline=""))} == {len(COLUMNS)}


SLY = ('=HYPERLINK("https://x.example")', "+1+1", "-2+3", "@SUM(A1)", "'=1", "\uff1d1+1", '"=1"', ", =1")


def test_no_cell_can_start_a_formula(tmp_path: Path) -> None:
    lines = "\n".join(f"      - {{exercise: squat, sets: 1, reps: 5, note: {_quoted(text)}}}" for text in SLY)
    sly = LANTERN[: LANTERN.index("  light:\n")].replace("title: Heavy day", 'title: "=Heavy day"')
    sly = sly.replace("{mon: heavy, thu: light}", "{mon: heavy}") + lines + "\n"
    squat = "---\nname: '@Squat'\nmuscles: {direct: [quads]}\nmovement: squat\nimplement: barbell\n---\nWhy.\n"
    book = write_book(tmp_path, {"programs/lantern.yaml": sly, "exercises/squat.md": squat})
    table = plan_csv(edition_of(book).programs["lantern"].plan, by_weekday=True)
    for row in csv.reader(io.StringIO(table.decode(), newline="")):
        for cell in row:
            assert not cell.lstrip().startswith((*FORMULA, "\uff1d", "\uff0b", "\uff0d", "\uff20"))
    remarks = {row["remark"].removeprefix("'") for row in rows(table)}
    assert {" ".join(text.split()) for text in SLY} <= remarks
    assert {row["session"] for row in rows(table)} == {"'=Heavy day"}


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


@given(st.text())
def test_taking_one_apostrophe_off_gives_the_text_back(text: str) -> None:
    told = tame(text)
    assert not told.startswith(FORMULA)
    assert tame(told.removeprefix("'")) == told
    shown = " ".join("".join(each if each.isprintable() else " " for each in text).split())
    assert told.removeprefix("'") == shown

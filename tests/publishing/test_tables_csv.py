"""The table, read by Python's own reader of CSV and compared with the plan, set for set."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from pathlib import Path

import plateset
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.proving import Proofs, proof
from plateset.publishing.documents import Edition
from plateset.publishing.tables_csv import COLUMNS, plan_csv, tame
from plateset.publishing.words import effort_text, tempo_text
from plateset.training.plan import Piece, Plan

from tests.pressed import CONTENT
from tests.publishing.building import LANTERN, edition_of, write_book

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def work_rows(table: bytes) -> list[dict[str, str]]:
    return [row for row in rows(table) if row["set kind"] != "warm-up"]


def rows(table: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(table.decode("utf-8"), newline="")))


def pieces(plan: Plan) -> list[tuple[int, str, str, int, Piece]]:
    """Every piece in the order of the plan: week, session, exercise, set."""
    return [
        (week.number, session.title, lift.note.name, work.number, piece)
        for week in plan.weeks
        for session in week.sessions
        for lift in session.lifts
        for work in lift.sets
        for piece in work.pieces
    ]


@pytest.fixture(scope="module")
def demo() -> Proofs:
    return proof(CONTENT, "content")


def assert_told(plan: Plan, table: list[dict[str, str]]) -> None:
    """The rows of work, without those of warm-up sets, are the plan."""
    assert len(table) == len(pieces(plan))
    for row, (week, session, exercise, number, piece) in zip(table, pieces(plan), strict=True):
        assert (row["week"], row["session"], row["exercise"]) == (str(week), session, tame(exercise))
        assert row["set"] == str(number)
        assert row["unit"] == plan.unit
        mass = piece.load.mass
        assert row["load"] == ("" if mass is None else f"{max(mass, Decimal(0)).normalize():f}")
        assert row["help"] == ("" if mass is None or mass >= 0 else f"{(-mass).normalize():f}")
        reps = piece.reps
        asked = (reps.low, reps.high) if reps and not reps.open else ("", "")
        assert (row["reps from"], row["reps to"]) == tuple(map(str, asked))
        assert row["hold seconds"] == ("" if piece.hold is None else str(piece.hold))
        assert row["pause before seconds"] == str(piece.pause_before)


def test_every_program_of_the_demo_is_told_set_for_set(demo: Proofs) -> None:
    assert len(demo.programs) == 5
    for proved in demo.programs.values():
        table = plan_csv(proved.plan, by_weekday=proved.by_weekday)
        assert_told(proved.plan, work_rows(table))
        assert_warmed_up(proved.plan, rows(table))


def assert_warmed_up(plan: Plan, table: list[dict[str, str]]) -> None:
    lifts = [lift for week in plan.weeks for session in week.sessions for lift in session.lifts]
    asked = [(lift.note.name, each.load.mass, str(each.reps)) for lift in lifts for each in lift.warm_up]
    told = [row for row in table if row["set kind"] == "warm-up"]
    assert [(row["exercise"], Decimal(row["load"]), row["reps to"]) for row in told] == asked
    assert {(row["set"], row["counts as sets"]) for row in told} <= {("", "0")}
    counted = sum(Decimal(row["counts as sets"] or 0) for row in table)
    assert counted == sum(work.counts for lift in lifts for work in lift.sets)


def test_what_holds_for_a_line_stands_in_each_of_its_rows(edition: Edition) -> None:
    plan = edition.programs["lantern"].plan
    table = work_rows(plan_csv(plan, by_weekday=True))
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
    for row, (lift, work) in zip(
        table,
        [(x, k) for w in plan.weeks for s in w.sessions for x in s.lifts for k in x.sets for _ in k.pieces],
        strict=True,
    ):
        assert row["tempo"] == tempo_text(lift.tempo)
        assert row["effort"] == effort_text(work.effort)
        assert (row["set kind"], row["optional"]) == (work.kind, "yes" if work.optional else "no")


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


def test_every_column_is_explained_to_those_who_read_the_table() -> None:
    chapter = Path(plateset.__file__).with_name("manual") / "take-away.md"
    told = chapter.read_text(encoding="utf-8").partition("Its columns:")[2].partition("\n- **")[0]
    assert [name for name in COLUMNS if f"`{name}`" not in told] == []

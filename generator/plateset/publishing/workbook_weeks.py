"""The sheet of a week in the workbook: every set with its load, room to log it, and the working beside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from string import ascii_uppercase

from plateset.manuscript.schema import WarmUpSet
from plateset.publishing.language import Language
from plateset.publishing.views import ProgramView
from plateset.publishing.warm_up_steps import line_of
from plateset.publishing.words import GROUPS, day_name, time_text
from plateset.publishing.workbook_desk import HEAVIEST, Asked, Desk, Sheet, Table
from plateset.publishing.workbook_gym import Loadable
from plateset.publishing.workbook_lifts import YourLifts
from plateset.publishing.workbook_loads import Source
from plateset.publishing.workbook_sets import LONGEST_REMARK, SetRow, placed_lifts, set_rows
from plateset.publishing.workbook_words import WorkbookWords
from plateset.remembering import Remembered
from plateset.training.plan import Plan, PlannedLine, Session, Week
from plateset.training.time import session_minutes

WIDTHS = (30, 15, 14, 13, 12, 12, 12, 19, 26, 12, 54, 2, 11, 9, 9, 9, 12, 9, 10)
LAST_COLUMN, WORDS_TO = 10, 6
HEADER = 1
DONE, WORKING = 4, 12


_WRAPPED = tuple(WIDTHS[column] - 1 for column in (0, 2, 7, 10))
"""Room for the words of a set that may be long: its exercise, repetitions, effort and how it is done."""


@dataclass(frozen=True)
class Book:
    """All that the sheets of weeks share; ``written`` is where a session was written first, and the row after it."""

    plan: Plan
    view: ProgramView
    lifts: YourLifts
    what: Loadable
    by_weekday: bool
    warm_up: tuple[WarmUpSet, ...]
    words: WorkbookWords
    written: Remembered[tuple[Sheet, int]] = field(default_factory=Remembered)


def write_week(desk: Desk, book: Book, week: Week) -> None:
    """The sheet of one week."""
    sheet = desk.sheet(book.words.week(week.number), WIDTHS)
    sheet.title(f"{book.view.title}, {_week(week, book.words.language)}")
    sheet.put(0, WORKING, desk.say("How each load is made"), "working header")
    for column, head in enumerate(_heads(desk)):
        sheet.put(HEADER, column, head, "working header" if column >= WORKING else "header" if head else "plain")
    row = HEADER + 1
    for caution in book.view.short_cautions:
        row = sheet.paragraph(row, caution, WORDS_TO, "caution")
    for session in week.sessions:
        row = _placed(sheet, book, session, row + 1)
    for asked, column in LOGGED:
        said = replace(asked, title=desk.say(asked.title), message=desk.say(asked.message))
        sheet.ask(HEADER + 1, column, said, row)
    sheet.finish(Table((0, HEADER), LAST_COLUMN, (HEADER + 1, 1)), row - 1, landscape=True)


def _week(week: Week, language: Language) -> str:
    number = language.low(language.say("Week %(number)s") % {"number": week.number})
    kind = language.say("Deload") if week.deload else language.say("Test week") if week.test else ""
    return f"{number}, {language.low(kind)}" if kind else number


HEADS = (
    "Exercise", "Set", "Reps", "Load", "Done (%(unit)s)", "Reps done", "In reserve", "Effort", "On the bar, in hand",
    "Rest after", "How", "", "Max (%(unit)s)", "Share", "Added (%(unit)s)", "Stays", "Exact (%(unit)s)",
    "Place in list", "Rounded (%(unit)s)",
)  # fmt: skip


def _heads(desk: Desk) -> Iterator[str]:
    return (desk.say(head) % {"unit": desk.unit} for head in HEADS)


LOGGED = (
    (Asked("Load done", -HEAVIEST, HEAVIEST, "A number, without the unit; less than 0 for help."), DONE),
    (Asked("Repetitions done", 0, 1000, "A whole number (seconds for a hold).", whole=True), DONE + 1),
    (Asked("In reserve", 0, 10, "Repetitions left in reserve: a number from 0 to 10."), DONE + 2),
)


def _placed(sheet: Sheet, book: Book, session: Session, row: int) -> int:
    """A session from ``row`` on: taken over from an earlier week where it stood in the same rows, since its formulas
    name only those and other sheets.
    """
    first, after = book.written.get((session, str(row)), lambda: (sheet, _session(sheet, book, session, row)))
    if first is not sheet:
        sheet.copy_rows(first, row, after - 1)
    return after


def _session(sheet: Sheet, book: Book, session: Session, row: int) -> int:
    """Rows count from 0; this and what it calls return the row after what they wrote."""
    language = book.words.language
    day = day_name(session.day, by_weekday=book.by_weekday, language=language)
    for column in range(LAST_COLUMN + 1):
        sheet.put(row, column, None, "band")
    about = language.say("about %(num)s min") % {"num": session_minutes(session)}
    row = sheet.paragraph(row, f"{day}: {session.title}, {about}", WORDS_TO, "band")
    if session.remark:
        row = sheet.paragraph(row, session.remark, WORDS_TO)
    letters = iter(ascii_uppercase * 2)
    for line in session.lines:
        row = _line(sheet, book, session, (line, "" if line.kind in ("single", "pick-one") else next(letters)), row)
    return row


def _line(sheet: Sheet, book: Book, session: Session, lettered: tuple[PlannedLine, str], row: int) -> int:
    line, letter = lettered
    language = book.words.language
    if line.kind != "single":
        row = sheet.paragraph(row, _group_words(line, letter, language), WORDS_TO, "group")
    for placed in placed_lifts(line, letter, language):
        if len(placed.lift.remark) > LONGEST_REMARK:
            row = sheet.paragraph(row, placed.lift.remark, WORDS_TO)
        written = line_of(book.plan, session, placed.lift)
        source = Source(book.lifts, book.what, placed.lift.note, written, book.warm_up, book.words.formulas)
        for each in set_rows(placed, source, row + 1, language):
            _write_set(sheet, row, each)
            row += 1
    return row


def _group_words(line: PlannedLine, letter: str, language: Language) -> str:
    say, rest = language.say, time_text(line.rest)
    if line.kind == "pick-one":
        return f"{say('Pick one of these, %(rest)s between sets.') % {'rest': rest}} {line.remark}".strip()
    given = {"group": f"{say(GROUPS[line.kind])} {letter}", "rest": rest, "between": time_text(line.between)}
    if line.between:
        told = say("%(group)s: a set of each in turn, %(between)s from one to the next, %(rest)s after the round.")
    else:
        told = say("%(group)s: a set of each in turn, %(rest)s after the round.")
    return f"{told % given} {line.remark}".strip()


def _write_set(sheet: Sheet, row: int, written: SetRow) -> None:
    load = written.load
    sheet.put(row, 0, written.exercise, "first" if written.opens else "wrapped")
    sheet.put(row, 1, written.number, "cell")
    sheet.put(row, 2, written.reps, "wrapped")
    sheet.put(row, 3, load.load, "load on the body" if written.on_body else "load")
    for column in (DONE, DONE + 1, DONE + 2):
        sheet.put(row, column, None, "entry" if written.logged else "cell")
    for column, words in enumerate((written.effort, load.word, written.rest, written.how), start=DONE + 3):
        sheet.put(row, column, words, "wrapped")
    sheet.make_room(row, *zip((written.exercise, written.reps, written.effort, written.how), _WRAPPED, strict=True))
    working = ((load.max, ""), (load.percent, " share"), (load.added, ""), (load.stays, " share"))
    for column, (cell, kind) in enumerate(
        (*working, (load.exact, ""), (load.place, ""), (load.nearest, "")), start=WORKING
    ):
        if cell is not None:
            sheet.put(row, column, cell, f"working{kind}")

"""The sheet on which a reader puts their own bests, and the maxima the loads of all weeks are made from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from plateset.manuscript.schema import Exercise
from plateset.manuscript.vocabulary import Implement
from plateset.publishing.workbook_desk import HEAVIEST, Asked, Desk, Formula, Table, number
from plateset.publishing.workbook_words import quoted
from plateset.training.maxes import curve_of, max_from_set
from plateset.training.plan import Lift, Load, Max, Plan
from plateset.training.strength import CURVES

BODYWEIGHT = "bodyweight"
LAST_COLUMN = 5
FROM_A_MAX = ("percent", "effort", "fixed")
"""The rules of a load in which a max has a say; under ``fixed`` it is only the limit."""


@dataclass(frozen=True)
class Entry:
    """A lift the reader is asked for.

    ``load`` and ``reps`` are the example lifter's best (None where they have none of their own), ``lifted`` says what a
    load of this lift counts, ``own`` is the max the best points to, ``used`` the one loads are made from. On the
    body, ``load`` is what was added, unless ``whole``: then there is no bodyweight to add it to, and the best is the
    whole mass moved. ``source`` is the lift whose max is taken, and the share of it in percent, where the reader has
    none for this one.
    """

    exercise: str
    name: str
    on_body: bool
    whole: bool
    lifted: str
    load: Decimal | None
    reps: int | None
    own: Decimal | None
    used: Decimal
    curve: str
    source: tuple[str, Decimal] | None


@dataclass(frozen=True)
class YourLifts:
    """What is asked, and the row (from 0) of each lift."""

    bodyweight: Decimal | None
    asks_bodyweight: bool
    entries: tuple[Entry, ...]
    rows: Mapping[str, int]
    bodyweight_row: int
    sheet: str
    """The name of the sheet it is asked on."""

    def max_cell(self, exercise: str) -> str:
        """The address of the max that a lift's loads are made from."""
        return f"{quoted(self.sheet)}!$E${self.rows[exercise] + 1}"

    def max_of(self, exercise: str) -> Decimal:
        """The example lifter's max of a lift."""
        return next(entry.used for entry in self.entries if entry.exercise == exercise)


def your_lifts(plan: Plan, exercises: Mapping[str, Exercise], first_row: int, sheet: str) -> YourLifts:
    """What the plan needs to know of its reader, in the order of the program. The bodyweight stands first."""
    entries = tuple(_entries(plan, exercises))
    asks = any(entry.on_body for entry in entries) or _any_leans_on_body(plan)
    start = first_row + (1 if asks else 0)
    rows = {entry.exercise: start + place for place, entry in enumerate(entries)}
    return YourLifts(plan.bodyweight, asks, entries, rows, first_row, sheet)


def _any_leans_on_body(plan: Plan) -> bool:
    return any(leans_on_body(load) for _, load in lifts_and_loads(plan))


def _entries(plan: Plan, exercises: Mapping[str, Exercise]) -> Iterator[Entry]:
    needed = _needed(plan)
    named: dict[str, Max | None] = {}
    for known in needed:
        if known.of:
            named.setdefault(known.of, None)
        named[known.exercise] = known
    by_source = {known.of: known for known in needed if known.of}
    for exercise, own in named.items():
        note = exercises[exercise]
        best = own or _max_behind(by_source[exercise])
        yield _entry(note, best, plan, _source(note, named))


def _needed(plan: Plan) -> list[Max]:
    """The maxima that loads are made from, in the order they are first met."""
    bases = [load.basis for _, load in lifts_and_loads(plan)]
    known = [basis.max for basis in bases if basis.max is not None and basis.rule in FROM_A_MAX]
    return list({best.exercise: best for best in known}.values())


def _max_behind(borrowed: Max) -> Max:
    """The max of the lift that another lift's is a share of."""
    behind = max_from_set(borrowed.of, borrowed.from_load, borrowed.reps, borrowed.curve)
    if behind is None:
        raise ValueError(f"a share of a max of {borrowed.of} that its own best does not give")
    return behind


def _source(note: Exercise, named: Mapping[str, object]) -> tuple[str, Decimal] | None:
    taken = note.max_from
    return (taken.exercise, taken.share) if taken and taken.exercise in named else None


def _entry(note: Exercise, best: Max, plan: Plan, source: tuple[str, Decimal] | None) -> Entry:
    on_body, bodyweight = note.implement == "bodyweight", plan.bodyweight
    own = best.share is None
    curve = best.curve if own else curve_of(note, plan.curve)
    added = best.from_load - bodyweight if on_body and bodyweight is not None else best.from_load
    return Entry(
        exercise=best.exercise,
        name=note.name,
        on_body=on_body,
        whole=on_body and bodyweight is None,
        lifted=LIFTED[note.implement],
        load=added if own else None,
        reps=best.reps if own else None,
        own=best.amount if own else None,
        used=best.amount,
        curve=curve,
        source=source,
    )


def own_max(entry: Entry, row: int) -> Formula:
    """The max that a reader's set points to: to a tenth of a unit, half up; nothing where the set is not usable."""
    load, reps = f"B{row + 1}", f"C{row + 1}"
    adds_body = entry.on_body and not entry.whole
    mass = f"({BODYWEIGHT}+{load})" if adds_body else load
    given = f"ISNUMBER({load}),ISNUMBER({reps})" + (f",ISNUMBER({BODYWEIGHT})" if adds_body else "")
    share = f"INDEX({shares_name(entry.curve)},MATCH({reps},{reps_name(entry.curve)},0))"
    worked = f'IFERROR(IF({mass}>0,ROUND(ROUND({mass}*100/{share},9),1),""),"")'
    return Formula(f'IF(AND({given}),{worked},"")', "" if entry.own is None else entry.own)


def used_max(entry: Entry, row: int, rows: Mapping[str, int]) -> Formula:
    """The reader's own max, or else a share of the other lift's that the exercise note names."""
    own = f"D{row + 1}"
    if entry.source is None:
        return Formula(own, entry.used)
    other, share = entry.source
    borrowed = f"D{rows[other] + 1}"
    taken = f'IF(ISNUMBER({borrowed}),ROUND(ROUND({borrowed}*{number(share)}/100,9),1),"")'
    return Formula(f"IF(ISNUMBER({own}),{own},{taken})", entry.used)


def lifts_and_loads(plan: Plan) -> Iterator[tuple[Lift, Load]]:
    """Every load of a plan with its lift, in the plan's order."""
    for week in plan.weeks:
        for session in week.sessions:
            for lift in session.lifts:
                yield from ((lift, piece.load) for work in lift.sets for piece in work.pieces)


def curves_of(plan: Plan) -> set[str]:
    """The curves that shares of a max come from."""
    return {load.basis.curve for _, load in lifts_and_loads(plan) if load.basis.curve}


def leans_on_body(load: Load) -> bool:
    """Whether a load that is the same for everyone still differs by bodyweight.

    So it does where the body is carried by something else, and where the body is a part of a whole mass to be moved.
    """
    return (load.kind, load.basis.rule) in (("plain", "bodyweight"), ("bodyweight", "fixed"))


def reps_name(curve: str) -> str:
    """The name of a curve's column of repetitions."""
    return f"reps_{curve}"


def shares_name(curve: str) -> str:
    """The name of a curve's column of shares, in percent."""
    return f"shares_{curve}"


def write_your_lifts(desk: Desk, lifts: YourLifts) -> None:
    """The sheet, with the example lifter's bests filled in. Its table begins at the row the lifts were counted from."""
    say, sheet = desk.say, desk.sheet(lifts.sheet, (34, 15, 13, 17, 15, 62))
    header = lifts.bodyweight_row - 1
    sheet.title(say("Your lifts"))
    for row, words in enumerate(INTRODUCTION, start=1):
        sheet.paragraph(row, say(words) % {"sheet": desk.words.sheets.numbers}, LAST_COLUMN)
    load = say("Load (%(unit)s)") % {"unit": desk.unit}
    heads = (say("Lift"), load, say("Repetitions"), say("Max of this set"), say("Max used"), say("What to enter"))
    sheet.put_row(header, heads, "header")
    if lifts.asks_bodyweight:
        row = lifts.bodyweight_row
        sheet.put(row, 0, say("Your bodyweight"), "first")
        sheet.put(row, 1, lifts.bodyweight, "entry mass")
        for column in (2, 3, 4):
            sheet.put(row, column, None, "cell")
        sheet.put(row, 5, say("What you weigh, in training clothes."), "wrapped")
        sheet.ask(row, 1, Asked(say("Your bodyweight"), 1, HEAVIEST, _a_mass(desk)))
        desk.name(BODYWEIGHT, f"{quoted(lifts.sheet)}!$B${row + 1}")
    names = {entry.exercise: entry.name for entry in lifts.entries}
    for entry in lifts.entries:
        row = lifts.rows[entry.exercise]
        sheet.put(row, 0, entry.name, "first")
        sheet.put(row, 1, entry.load, "entry mass")
        sheet.put(row, 2, entry.reps, "entry")
        sheet.put(row, 3, own_max(entry, row), "load")
        sheet.put(row, 4, used_max(entry, row, lifts.rows), "load")
        asked = _asked(entry, names, desk)
        sheet.put(row, 5, asked, "wrapped")
        sheet.make_room(row, (asked, 60), (entry.name, 33))
        sheet.ask(row, 1, _ask_load(entry, desk))
        sheet.ask(row, 2, _ask_reps(CURVES[entry.curve].most, desk))
    last = max([lifts.bodyweight_row, *lifts.rows.values()])
    if not lifts.entries:
        last = lifts.bodyweight_row + lifts.asks_bodyweight
        sheet.paragraph(last, say("No load of this program depends on what you have lifted before."), LAST_COLUMN)
    sheet.finish(Table((header, header), LAST_COLUMN), last, landscape=True)


INTRODUCTION_ROWS = 3
"""Rows of words between the title and the table."""

INTRODUCTION: tuple[str, ...] = (
    "The sets filled in here are an example lifter's, invented for this program. Put your own over them in the tinted "
    "cells: for each lift a recent set taken to where no further repetition was there, or a max with 1 repetition. "
    "Every week then shows your loads.",
    "Clear a line if you do not know: its lift is then left to feel. Take a set from the last weeks, done with the "
    "range and form you train with. A max from many repetitions is a rough guess; one from one to six is a better one.",
    "Maxima are worked out from the tables on the sheet “%(sheet)s” and kept to a tenth.",
)


LIFTED: dict[Implement, str] = {
    "barbell": "The bar and all that is on it.",
    "dumbbell": "One dumbbell.",
    "cable": "The mass at the pin.",
    "machine": "The mass at the pin, or what you loaded.",
    "bodyweight": "What you added to your body: 0 for the body alone, less than 0 for help.",
    "band": "The mass.",
    "other": "The whole mass.",
}


def _asked(entry: Entry, names: Mapping[str, str], desk: Desk) -> str:
    words = desk.say("The whole mass moved: your body and what you added." if entry.whole else entry.lifted)
    if entry.source is None:
        return words
    other, share = entry.source
    taken = {"share": desk.words.language.number(share), "lift": names[other]}
    return f"{words} {desk.say('Left empty, %(share)s %% of your max of %(lift)s is taken.') % taken}"


def _ask_load(entry: Entry, desk: Desk) -> Asked:
    lowest = -HEAVIEST if entry.on_body and not entry.whole else 0
    return Asked(desk.say("Load of your set"), lowest, HEAVIEST, _a_mass(desk))


def _a_mass(desk: Desk) -> str:
    return desk.say("A number of %(unit)s, without the unit.") % {"unit": desk.unit}


def _ask_reps(most: int, desk: Desk) -> Asked:
    words = desk.say("A whole number from 1 to %(most)s: the table of shares goes no further.") % {"most": most}
    return Asked(desk.say("Repetitions"), 1, most, words, whole=True)

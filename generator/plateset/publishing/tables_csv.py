"""A plan as a table of comma-separated values (RFC 4180): UTF-8, CRLF, one row for each piece of each set.

Warm-up sets have rows too, numbered by themselves, with "warm-up" for their kind: they count for nothing.
Loads are bare numbers with their unit in a column of its own, repetitions stand in two columns (a spreadsheet would
read '8-12' as a date). No cell can start a formula: see :func:`tame`.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from decimal import Decimal

from plateset.publishing.in_short import one_line
from plateset.publishing.words import GROUPS, day_name, each_text, effort_text, plates_text, tempo_text
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece, Plan, PlannedLine, Session, WarmUp, WorkSet

Cell = str | int | Decimal

COLUMNS = (
    "week", "deload", "test", "day", "session", "line", "group", "pick one", "part", "exercise", "role",
    "range of motion", "set kind", "set", "optional", "counts", "piece", "how", "load kind", "load", "help", "unit",
    "each", "plates per side", "reps from", "reps to", "reps open", "reps expected", "hold seconds", "effort",
    "pause before seconds", "rest seconds", "between seconds", "tempo", "technique", "past failure", "rule", "remark",
)  # fmt: skip

STARTS_A_FORMULA = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20", "'")
"""What a spreadsheet takes for the beginning of a formula, in both widths, and the apostrophe that marks it as text."""


def plan_csv(plan: Plan, *, by_weekday: bool) -> bytes:
    """The whole plan. A cell is empty where nothing is prescribed; yes and no are words."""
    text = io.StringIO()
    writer = csv.writer(text, quoting=csv.QUOTE_MINIMAL, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for week in plan.weeks:
        for session in week.sessions:
            day = day_name(session.day, by_weekday=by_weekday)
            for row in _rows(session):
                cells: dict[str, Cell] = {"week": week.number, "day": day, "unit": plan.unit}
                cells |= {"deload": _yes(week.deload), "test": _yes(week.test)}
                writer.writerow([_written((cells | row)[column]) for column in COLUMNS])
    return text.getvalue().encode()


def tame(text: str) -> str:
    """A text that no spreadsheet evaluates: one that would start a formula gets an apostrophe in front.

    So does one that itself begins with an apostrophe; taking a leading apostrophe off gives back every text. Breaks of
    line, tabs and doubled spaces become one space before that.
    """
    flat = one_line(text)
    return f"'{flat}" if flat.startswith(STARTS_A_FORMULA) else flat


def _written(cell: Cell) -> str:
    if isinstance(cell, Decimal):
        return plain(cell)
    return str(cell) if isinstance(cell, int) else tame(cell)


def _yes(answer: bool) -> str:
    return "yes" if answer else "no"


def _rows(session: Session) -> Iterator[dict[str, Cell]]:
    for number, line in enumerate(session.lines, start=1):
        for part, lift in enumerate(line.lifts, start=1):
            placed: dict[str, Cell] = {"session": session.title, "line": number, "part": part}
            placed |= _of_lift(line, lift)
            for index, warm_up in enumerate(lift.warm_up, start=1):
                yield placed | {"set": index, "piece": 1} | _of_warm_up(warm_up)
            for work in lift.sets:
                for index, piece in enumerate(work.pieces, start=1):
                    yield placed | _of_set(work) | {"piece": index} | _of_piece(piece)


def _of_lift(line: PlannedLine, lift: Lift) -> dict[str, Cell]:
    group = line.kind != "single"
    return {
        "group": GROUPS[line.kind].lower(),
        "pick one": _yes(line.kind == "pick-one"),
        "exercise": lift.note.name,
        "role": lift.role or "",
        "range of motion": lift.range_of_motion,
        "each": each_text(lift) or ("each side" if lift.note.sides == "one" else ""),
        "rest seconds": line.rest if group else lift.rest,
        "between seconds": line.between if group else "",
        "tempo": tempo_text(lift.tempo),
        "rule": lift.rule,
        "remark": " ".join(part for part in (line.remark if group else "", lift.remark) if part),
    }


def _of_set(work: WorkSet) -> dict[str, Cell]:
    return {
        "set kind": work.kind,
        "set": work.number,
        "optional": _yes(work.optional),
        "counts": work.counts,
        "effort": effort_text(work.effort),
        "technique": (work.technique or "").replace("-", " "),
        "past failure": _yes(work.past_failure),
    }


def _of_warm_up(warm_up: WarmUp) -> dict[str, Cell]:
    return {
        "set kind": "warm-up",
        "optional": "no",
        "counts": 0,
        "how": "warm-up",
        "effort": "",
        "technique": "",
        "past failure": "no",
        "reps from": warm_up.reps,
        "reps to": warm_up.reps,
        "reps open": "no",
        "reps expected": warm_up.reps,
        "hold seconds": "",
        "pause before seconds": 0,
        **_of_load(warm_up.load),
    }


def _of_piece(piece: Piece) -> dict[str, Cell]:
    reps = piece.reps
    bounded = reps is not None and not reps.open
    return {
        "how": piece.role,
        "reps from": reps.low if reps and bounded else "",
        "reps to": reps.high if reps and bounded else "",
        "reps open": _yes(reps is not None and reps.open),
        "reps expected": "" if piece.aim is None else piece.aim,
        "hold seconds": "" if piece.hold is None else piece.hold,
        "pause before seconds": piece.pause_before,
        **_of_load(piece.load),
    }


def _of_load(load: Load) -> dict[str, Cell]:
    mass = load.mass
    return {
        "load kind": "by feel" if mass is None else load.kind,
        "load": "" if mass is None else max(mass, Decimal(0)),
        "help": "" if mass is None or mass >= 0 else -mass,
        "plates per side": plates_text(load).removesuffix(" each side"),
    }

"""A plan as a table of comma-separated values (RFC 4180): UTF-8, CRLF, one row for each piece of each set.

Loads are bare numbers with their unit in a column of its own, repetitions stand in two columns (a spreadsheet would
read '8-12' as a date). No cell can start a formula: see :func:`tame`.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import lru_cache, partial

from plateset.publishing.in_short import one_line
from plateset.publishing.words import GROUPS, day_name, each_text, effort_text, plates_text, tempo_text
from plateset.remembering import Remembered
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece, Plan, PlannedLine, Session, WarmUp, WorkSet
from plateset.training.sentences import in_english

Cell = str | int | Decimal

COLUMNS = (
    "week", "deload", "test", "day", "session", "line", "group", "part", "exercise", "role", "range of motion", "set",
    "set kind", "optional", "counts as sets", "piece", "how", "load kind", "load", "help", "unit", "each",
    "plates per side", "reps from", "reps to", "reps open", "reps expected", "hold seconds", "effort",
    "pause before seconds", "rest seconds", "between seconds", "tempo", "technique", "past failure", "rule", "remark",
)  # fmt: skip

STARTS_A_FORMULA = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20", "'")
"""What a spreadsheet takes for the beginning of a formula, in both widths, and the apostrophe that marks it as text."""


OF_THE_WEEK = 3
"""The first columns, which tell of the week; the others are the same in every week that does the same session."""


class _Lines(list[str]):
    """Takes what a writer writes: a line at a time."""

    write = list[str].append


def plan_csv(plan: Plan, *, by_weekday: bool) -> bytes:
    """The whole plan. A cell is empty where nothing is prescribed; yes and no are words."""
    lines = _lines([COLUMNS])
    met: Remembered[_Lines] = Remembered()
    for week in plan.weeks:
        of_week = f"{week.number},{_yes(week.deload)},{_yes(week.test)},"
        for session in week.sessions:
            of_session = partial(_session_lines, session, plan.unit, by_weekday=by_weekday)
            lines += [of_week + line for line in met.get((session,), of_session)]
    return "".join(lines).encode()


def _session_lines(session: Session, unit: str, *, by_weekday: bool) -> _Lines:
    """The lines of a session from its day on."""
    blank = dict.fromkeys(COLUMNS[OF_THE_WEEK:], "")
    same = blank | _written({"day": day_name(session.day, by_weekday=by_weekday), "unit": unit})
    return _lines(list(row.values()) for row in _rows(session, same))


def _lines(rows: Iterable[Sequence[str]]) -> _Lines:
    lines = _Lines()
    csv.writer(lines, quoting=csv.QUOTE_MINIMAL, lineterminator="\r\n").writerows(rows)
    return lines


@lru_cache(maxsize=4096)
def tame(text: str) -> str:
    """A text that no spreadsheet evaluates: one that would start a formula gets an apostrophe in front.

    So does one that itself begins with an apostrophe; taking a leading apostrophe off gives back every text. Breaks of
    line, tabs and doubled spaces become one space before that.
    """
    flat = one_line(text)
    return f"'{flat}" if flat.startswith(STARTS_A_FORMULA) else flat


def _written(cells: Mapping[str, Cell]) -> dict[str, str]:
    return {column: _cell(cell) for column, cell in cells.items()}


def _cell(cell: Cell) -> str:
    if isinstance(cell, str):
        return tame(cell)
    return str(cell) if isinstance(cell, int) else plain(cell)


def _yes(fact: bool) -> str:
    return "yes" if fact else "no"


def _rows(session: Session, of_all: Mapping[str, str]) -> Iterator[dict[str, str]]:
    """The cells of every row, by column in their order: what it says besides what all rows say."""
    for number, line in enumerate(session.lines, start=1):
        for part, lift in enumerate(line.lifts, start=1):
            placed: dict[str, Cell] = {"session": session.title, "line": number, "part": part}
            same = {**of_all, **_written(placed | _of_lift(line, lift))}
            yield from (same | _written(_of_warm_up(each)) for each in lift.warm_up)
            for run in lift.alike:
                pieces = enumerate(run[0].pieces, start=1)
                of_set = [same | _written(_of_set(run[0], index) | _of_piece(piece)) for index, piece in pieces]
                yield from ({**row, "set": str(work.number)} for work in run for row in of_set)


def _of_lift(line: PlannedLine, lift: Lift) -> dict[str, Cell]:
    group = line.kind not in ("single", "pick-one")
    return {
        "group": GROUPS[line.kind].lower(),
        "exercise": lift.note.name,
        "role": lift.role or "",
        "range of motion": lift.range_of_motion,
        "each": each_text(lift) or ("each side" if lift.note.sides == "one" else ""),
        "rest seconds": line.rest if group else lift.rest,
        "between seconds": line.between if group else "",
        "tempo": tempo_text(lift.tempo),
        "rule": in_english(lift.rule),
        "remark": " ".join(part for part in (line.remark if len(line.lifts) > 1 else "", lift.remark) if part),
    }


def _of_warm_up(each: WarmUp) -> dict[str, Cell]:
    """A lighter set: it has no number, and counts as none."""
    return {
        "set kind": "warm-up",
        "counts as sets": 0,
        "how": "warm-up",
        "reps from": each.reps,
        "reps to": each.reps,
        "reps open": "no",
        **_of_load(each.load),
    }


def _of_set(work: WorkSet, piece: int) -> dict[str, Cell]:
    """A set's cells; what it counts for stands beside its first piece alone, so that the column adds up."""
    return {
        "set": work.number,
        "set kind": work.kind,
        "optional": _yes(work.optional),
        "counts as sets": work.counts if piece == 1 else "",
        "piece": piece,
        "effort": effort_text(work.effort),
        "technique": (work.technique or "").replace("-", " "),
        "past failure": _yes(work.past_failure),
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

"""The sets of a lift as rows of the workbook: one for each piece, in words and with the cells of its load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from plateset.manuscript.schema import LiftLine
from plateset.publishing.words import effort_text, reps_text, tempo_text, time_text
from plateset.publishing.workbook_loads import LoadCells, Source, Spot, load_cells
from plateset.training.expand import group_parts
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Piece, PieceRole, Plan, PlannedLine, Session, WorkSet
from plateset.training.techniques import TECHNIQUES

LONGEST_REMARK = 160
"""Characters of a remark that still stand beside the set; longer ones get a row to themselves."""

_ROLES: dict[PieceRole, str] = {
    "work": "",
    "drop": "drop",
    "after a pause": "after a pause",
    "negatives": "negatives",
    "loose form": "loose form",
    "with help": "with help",
    "short range": "short range",
    "hold": "hold",
}


@dataclass(frozen=True)
class SetRow:
    """One piece of a set; ``opens`` is true for the first row of a lift."""

    exercise: str
    opens: bool
    number: int | str
    reps: str
    load: LoadCells
    on_body: bool
    effort: str
    rest: str
    how: str


@dataclass(frozen=True)
class Placed:
    """A lift of a session: its letter within a group ('A1' or nothing) and the rest after each of its sets."""

    lift: Lift
    letter: str
    rest: str


def placed_lifts(line: PlannedLine, letter: str) -> Iterator[Placed]:
    """The lifts of a line; in a group the rest comes after the last of them."""
    for place, lift in enumerate(line.lifts, start=1):
        if line.kind == "single":
            yield Placed(lift, "", time_text(lift.rest))
        elif place == len(line.lifts):
            yield Placed(lift, f"{letter}{place}", time_text(line.rest))
        else:
            yield Placed(lift, f"{letter}{place}", time_text(line.between) if line.between else "none")


def line_of(plan: Plan, session: Session, lift: Lift) -> LiftLine:
    """The line of the program file that a lift comes from."""
    written = plan.program.sessions[session.name].lines[lift.index[0]]
    return written if isinstance(written, LiftLine) else group_parts(written)[1][lift.index[1]]


def set_rows(placed: Placed, source: Source, first_row: int) -> Iterator[SetRow]:
    """The rows of a lift's sets. ``first_row`` is where the first stands, as printed (from 1)."""
    lift, row = placed.lift, first_row
    for work in lift.sets:
        first = row
        for place, piece in enumerate(work.pieces):
            cells = load_cells(work.pieces, place, Spot(row, first, row - 1), source)
            opens = row == first_row
            yield SetRow(
                exercise=f"{placed.letter} {lift.note.name}".strip(),
                opens=opens,
                number=work.number if place == 0 else f"{work.number} {_ROLES[piece.role]}",
                reps=_reps(lift, piece),
                load=cells,
                on_body=piece.load.kind == "bodyweight",
                effort=_effort(work, piece) if place == 0 else "",
                rest=placed.rest if place == len(work.pieces) - 1 else "",
                how=_how(lift, work, place, opens=opens),
            )
            row += 1


def _reps(lift: Lift, piece: Piece) -> str:
    """What is asked; how many an open set may yield depends on the lifter, so it is left out."""
    aim = None if piece.reps and piece.reps.open else piece.aim
    text = reps_text(piece.reps, piece.hold, aim, projected=lift.projected)
    return f"{text} each side" if lift.note.sides == "one" else text


def _effort(work: WorkSet, piece: Piece) -> str:
    """The share of the max and the effort; in a deload the share that is left, and an effort no longer met."""
    basis, effort = piece.load.basis, effort_text(work.effort)
    if effort and basis.scale < 1:
        effort = f"easier than {effort}"
    share = f"{plain(basis.percent * basis.scale)} % of max" if basis.rule == "percent" and basis.percent else ""
    return ", ".join(part for part in (share, effort) if part)


def _how(lift: Lift, work: WorkSet, place: int, *, opens: bool) -> str:
    piece = work.pieces[place]
    if place:
        return _later(piece)
    parts = []
    if opens:
        parts += [f"Tempo {tempo_text(lift.tempo)}." if lift.tempo else "", lift.rule]
        parts += [lift.remark] if len(lift.remark) <= LONGEST_REMARK else []
    if work.technique:
        end = ", to failure first" if work.past_failure and len(work.pieces) > 1 else ""
        parts.append(f"{TECHNIQUES[work.technique].title}{end}.")
    return " ".join(part for part in parts if part)


def _later(piece: Piece) -> str:
    if piece.pause_before:
        return f"Put it down for {time_text(piece.pause_before)}, then go on."
    if piece.seconds_per_rep:
        return f"Lower for {piece.seconds_per_rep} s each."
    return "At once, lighter." if piece.role == "drop" else "At once."

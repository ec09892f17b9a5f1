"""The sets of a lift as rows of the workbook: one for each piece, in words and with the cells of its load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from plateset.publishing.warm_up_steps import warm_up_steps
from plateset.publishing.words import RANGES_OF_MOTION, effort_text, reps_text, share_text, tempo_text, time_text
from plateset.publishing.workbook_loads import (
    LoadCells,
    Source,
    Spot,
    WarmUpSpot,
    WarmUpStep,
    again,
    load_cells,
    warm_up_cells,
)
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece, PieceRole, PlannedLine, SetKind, WorkSet
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
_KINDS: dict[SetKind, str] = {"straight": "", "top": "top set", "back-off": "back-off", "pyramid": ""}


@dataclass(frozen=True)
class SetRow:
    """One piece of a set, or a warm-up set; ``opens`` is true for the first row of a lift.

    ``logged`` is false where nothing needs to be written down: warm-up sets count for nothing.
    """

    exercise: str
    opens: bool
    number: int | str
    reps: str
    load: LoadCells
    on_body: bool
    effort: str
    rest: str
    how: str
    logged: bool = True


@dataclass(frozen=True)
class Placed:
    """A lift of a session: its letter within a group ('A1' or nothing) and the rest after each of its sets."""

    lift: Lift
    letter: str
    rest: str


def placed_lifts(line: PlannedLine, letter: str) -> Iterator[Placed]:
    """The lifts of a line; where they are done in turn the rest comes after the last of them."""
    for place, lift in enumerate(line.lifts, start=1):
        if line.kind == "single":
            yield Placed(lift, "", time_text(lift.rest))
        elif line.kind == "pick-one":
            yield Placed(lift, "", time_text(line.rest))
        elif place == len(line.lifts):
            yield Placed(lift, f"{letter}{place}", time_text(line.rest))
        else:
            yield Placed(lift, f"{letter}{place}", time_text(line.between) if line.between else "none")


def set_rows(placed: Placed, source: Source, first_row: int) -> Iterator[SetRow]:
    """The rows of a lift's warm-up sets and sets. ``first_row`` is where the first stands, as printed (from 1)."""
    lift, name = placed.lift, _name(placed)
    warm_ups = list(_warm_up_rows(lift, name, source, first_row))
    yield from warm_ups
    row = first_row + len(warm_ups)
    worked: tuple[Load, LoadCells, int] | None = None
    for work in lift.sets:
        first = row
        for place, piece in enumerate(work.pieces):
            if worked and not place and piece.load == worked[0]:
                cells = again(worked[1], worked[2])
            else:
                cells = load_cells(work.pieces, place, Spot(row, first, row - 1), source)
                worked = worked if place else (piece.load, cells, row)
            opens = work is lift.sets[0] and place == 0
            yield SetRow(
                exercise=name,
                opens=opens and not warm_ups,
                number=_number(work) if place == 0 else f"{work.number} {_ROLES[piece.role]}",
                reps=_reps(lift, work, piece),
                load=cells,
                on_body=piece.load.kind == "bodyweight",
                effort=_effort(work, piece) if place == 0 else "",
                rest=placed.rest if place == len(work.pieces) - 1 else "",
                how=_how(lift, work, place, opens=opens),
            )
            row += 1


def _name(placed: Placed) -> str:
    lift = placed.lift
    name = ", ".join(part for part in (lift.note.name, RANGES_OF_MOTION[lift.range_of_motion]) if part)
    return f"{placed.letter} {name}".strip()


def _warm_up_rows(lift: Lift, name: str, source: Source, top: int) -> Iterator[SetRow]:
    steps = warm_up_steps(lift, source.line, source.warm_up)
    load = lift.sets[0].pieces[0].load
    for number, (step, found) in enumerate(steps, start=1):
        spot = WarmUpSpot(top + number - 1, top, top + len(steps))
        yield SetRow(
            exercise=name,
            opens=number == 1,
            number=f"warm-up {number}",
            reps=f"{step.reps} each side" if lift.note.sides == "one" else str(step.reps),
            load=warm_up_cells(WarmUpStep(step.load, load, found), spot, source),
            on_body=False,
            effort=f"{plain(step.load)} % of set 1",
            rest="",
            how="",
            logged=False,
        )


def _number(work: WorkSet) -> int | str:
    """'1', '1 top set', '3 if you like'."""
    said = "if you like" if work.optional else _KINDS[work.kind]
    return f"{work.number} {said}" if said else work.number


def _reps(lift: Lift, work: WorkSet, piece: Piece) -> str:
    """What is asked; how many an open set may yield depends on the lifter, so it is left out."""
    aim = None if piece.reps and piece.reps.open else piece.aim
    text = reps_text(piece.reps, piece.hold, aim, projected=lift.projected and work.projected)
    return f"{text} each side" if lift.note.sides == "one" else text


def _effort(work: WorkSet, piece: Piece) -> str:
    """The share of the max and the effort of a set; in a deload the share left, and an effort no longer met."""
    basis, effort = piece.load.basis, "to failure" if work.past_failure else effort_text(work.effort)
    if effort and basis.scale < 1:
        effort = f"easier than {effort}"
    share = ""
    if basis.rule == "percent" and basis.percent:
        share = share_text(piece.load, basis.percent)
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
        parts += [f"Counts as {plain(work.counts)} sets."] if work.counts != 1 else []
    return " ".join(part for part in parts if part)


def _later(piece: Piece) -> str:
    if piece.pause_before:
        return f"Put it down for {time_text(piece.pause_before)}, then go on."
    if piece.seconds_per_rep:
        return f"Lower for {piece.seconds_per_rep} s each."
    return "At once, lighter." if piece.role == "drop" else "At once."

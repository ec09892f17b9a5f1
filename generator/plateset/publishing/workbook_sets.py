"""The sets of a lift as rows of the workbook: one for each piece, in words and with the cells of its load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from plateset.publishing.language import Language
from plateset.publishing.lift_views import sided
from plateset.publishing.warm_up_steps import warm_up_steps
from plateset.publishing.words import (
    RANGES_OF_MOTION,
    effort_text,
    reps_text,
    rule_text,
    share_text,
    tempo_text,
    time_text,
)
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
from plateset.training.plan import Lift, Load, Piece, PieceRole, PlannedLine, SetKind, WorkSet
from plateset.training.techniques import TECHNIQUES

LONGEST_REMARK = 160
"""Characters of a remark that still stand beside the set; longer ones get a row to themselves."""

ROLES: dict[PieceRole, str] = {
    "work": "",
    "drop": "drop",
    "after a pause": "after a pause",
    "negatives": "negatives",
    "loose form": "loose form",
    "with help": "with help",
    "short range": "short range",
    "hold": "hold",
}
KINDS: dict[SetKind, str] = {"straight": "", "top": "top set", "back-off": "back-off", "pyramid": ""}


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


def placed_lifts(line: PlannedLine, letter: str, language: Language) -> Iterator[Placed]:
    """The lifts of a line; where they are done in turn the rest comes after the last of them."""
    for place, lift in enumerate(line.lifts, start=1):
        if line.kind == "single":
            yield Placed(lift, "", time_text(lift.rest))
        elif line.kind == "pick-one":
            yield Placed(lift, "", time_text(line.rest))
        elif place == len(line.lifts):
            yield Placed(lift, f"{letter}{place}", time_text(line.rest))
        else:
            yield Placed(lift, f"{letter}{place}", time_text(line.between) if line.between else language.say("none"))


def set_rows(placed: Placed, source: Source, first_row: int, language: Language) -> Iterator[SetRow]:
    """The rows of a lift's warm-up sets and sets. ``first_row`` is where the first stands, as printed (from 1)."""
    lift, name = placed.lift, _name(placed, language)
    warm_ups = list(_warm_up_rows(lift, name, source, first_row, language))
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
                number=_number(work, piece, language),
                reps=_reps(lift, work, piece, language),
                load=cells,
                on_body=piece.load.kind == "bodyweight",
                effort=_effort(work, piece, language) if place == 0 else "",
                rest=placed.rest if place == len(work.pieces) - 1 else "",
                how=_how(lift, work, place, language, opens=opens),
            )
            row += 1


def _name(placed: Placed, language: Language) -> str:
    lift = placed.lift
    part = language.say(RANGES_OF_MOTION[lift.range_of_motion])
    name = ", ".join(each for each in (lift.note.name, part) if each)
    return f"{placed.letter} {name}".strip()


def _warm_up_rows(lift: Lift, name: str, source: Source, top: int, language: Language) -> Iterator[SetRow]:
    steps = warm_up_steps(lift, source.line, source.warm_up)
    load = lift.sets[0].pieces[0].load
    for number, (step, found) in enumerate(steps, start=1):
        spot = WarmUpSpot(top + number - 1, top, top + len(steps))
        yield SetRow(
            exercise=name,
            opens=number == 1,
            number=language.say("warm-up %(number)s") % {"number": number},
            reps=sided(str(step.reps), lift, language),
            load=warm_up_cells(WarmUpStep(step.load, load, found), spot, source),
            on_body=False,
            effort=language.say("%(share)s %% of set 1") % {"share": language.number(step.load)},
            rest="",
            how="",
            logged=False,
        )


def _number(work: WorkSet, piece: Piece, language: Language) -> int | str:
    """'1', '1 top set', '3 if you like', '3 drop' for what follows in the same set."""
    said = ROLES[piece.role] if piece is not work.pieces[0] else "if you like" if work.optional else KINDS[work.kind]
    return f"{work.number} {language.say(said)}" if said else work.number


def _reps(lift: Lift, work: WorkSet, piece: Piece, language: Language) -> str:
    """What is asked; how many an open set may yield depends on the lifter, so it is left out."""
    aim = None if piece.reps and piece.reps.open else piece.aim
    projected = lift.projected and work.projected
    return sided(reps_text(piece.reps, piece.hold, aim, projected=projected, language=language), lift, language)


def _effort(work: WorkSet, piece: Piece, language: Language) -> str:
    """The share of the max and the effort of a set; in a deload the share left, and an effort no longer met."""
    basis = piece.load.basis
    effort = language.say("to failure") if work.past_failure else effort_text(work.effort, language)
    if effort and basis.scale < 1:
        effort = language.say("easier than %(effort)s") % {"effort": effort}
    share = ""
    if basis.rule == "percent" and basis.percent:
        share = share_text(piece.load, basis.percent, language)
    return ", ".join(part for part in (share, effort) if part)


def _how(lift: Lift, work: WorkSet, place: int, language: Language, *, opens: bool) -> str:
    say, piece = language.say, work.pieces[place]
    if place:
        return _later(piece, language)
    parts = []
    if opens:
        tempo = f"{say('Tempo')} {tempo_text(lift.tempo)}." if lift.tempo else ""
        parts += [tempo, rule_text(lift.rule, language)]
        parts += [lift.remark] if len(lift.remark) <= LONGEST_REMARK else []
    if work.technique:
        end = f", {say('to failure first')}" if work.past_failure and len(work.pieces) > 1 else ""
        parts.append(f"{say(TECHNIQUES[work.technique].title)}{end}.")
        counts = say("Counts as %(number)s sets.") % {"number": language.number(work.counts)}
        parts += [counts] if work.counts != 1 else []
    return " ".join(part for part in parts if part)


def _later(piece: Piece, language: Language) -> str:
    if piece.pause_before:
        return language.say("Put it down for %(time)s, then go on.") % {"time": time_text(piece.pause_before)}
    if piece.seconds_per_rep:
        return language.say("Lower for %(seconds)s s each.") % {"seconds": piece.seconds_per_rep}
    return language.say("At once, lighter." if piece.role == "drop" else "At once.")

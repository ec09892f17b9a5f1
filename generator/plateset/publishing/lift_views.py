"""A plan's weeks as views: sessions, lines, lifts and sets in the words of the page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from plateset.manuscript import schema
from plateset.manuscript.vocabulary import Unit
from plateset.publishing import paths
from plateset.publishing.views import LiftView, LineView, Linked, PieceView, SessionView, SetView
from plateset.publishing.words import (
    GROUPS,
    day_name,
    each_text,
    effort_text,
    load_text,
    piece_text,
    plates_text,
    reps_text,
    tempo_text,
    time_text,
)
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece, PlannedLine, Session, WorkSet
from plateset.training.time import session_minutes

Exercises = Mapping[str, schema.Exercise]
Techniques = Mapping[str, schema.TechniqueNote]


class Notes:
    """The notes that lines link to."""

    def __init__(self, exercises: Exercises, techniques: Techniques, unit: Unit) -> None:
        self.exercises = exercises
        self.techniques = techniques
        self.unit = unit

    def technique(self, name: str | None) -> Linked | None:
        """A link to a technique's note; None where there is no technique."""
        if name is None or name not in self.techniques:
            return None
        note = self.techniques[name]
        return Linked(note.name, paths.technique(name), note.summary)

    def substitutes(self, lift: Lift) -> tuple[Linked, ...]:
        """Links to the exercises that may stand in for a lift."""
        return tuple(
            Linked(self.exercises[name].name, paths.exercise(name))
            for name in lift.note.substitutes
            if name in self.exercises
        )


def session_view(session: Session, notes: Notes, *, by_weekday: bool) -> SessionView:
    """A session of one week. Its anchor holds in the program page and in the week's sheet."""
    letters = iter("ABCDEFGHIJKLMNOPQRSTUVWXYZ" * 2)
    lines = tuple(_line_view(line, notes, "" if line.kind == "single" else next(letters)) for line in session.lines)
    return SessionView(
        anchor=f"day-{session.day}",
        day=day_name(session.day, by_weekday=by_weekday),
        title=session.title,
        minutes=str(session_minutes(session)),
        remark=session.remark,
        lines=lines,
    )


def _line_view(line: PlannedLine, notes: Notes, letter: str) -> LineView:
    single = not letter
    lifts = tuple(
        _lift_view(lift, notes, f"{letter}{place}" if letter else "") for place, lift in enumerate(line.lifts, start=1)
    )
    if not single:
        final = lifts[-1]
        lifts = tuple(replace(view, rest=_rest_in_group(line, is_last=view is final)) for view in lifts)
    return LineView(
        kind=GROUPS[line.kind],
        technique=None if single else notes.technique(line.kind),
        rest=time_text(line.rest),
        remark=line.remark,
        why=line.why,
        lifts=lifts,
    )


def _rest_in_group(line: PlannedLine, *, is_last: bool) -> str:
    if is_last:
        return time_text(line.rest)
    return time_text(line.between) if line.between else "none"


def _lift_view(lift: Lift, notes: Notes, letter: str) -> LiftView:
    first = lift.sets[0].pieces[0]
    load = first.load
    technique = next((work.technique for work in lift.sets if work.technique), None)
    return LiftView(
        title=lift.note.name,
        path=paths.exercise(lift.exercise),
        letter=letter,
        sets=str(len(lift.sets)),
        reps=_reps(lift, first),
        load=load_text(load, notes.unit),
        plates=plates_text(load),
        each=each_text(lift),
        effort=_effort(lift, load),
        tempo=tempo_text(lift.tempo),
        rest=time_text(lift.rest),
        technique=notes.technique(technique),
        technique_note=_technique_note(lift, notes.unit),
        rule=lift.rule,
        remark=lift.remark,
        why=lift.why,
        set_views=tuple(_set_view(work, lift, notes.unit) for work in lift.sets),
        uniform=technique is None,
        substitutes=notes.substitutes(lift),
    )


def _reps(lift: Lift, first: Piece) -> str:
    """The repetitions of a set, for each side where one side is done at a time."""
    text = reps_text(lift.reps, lift.hold, first.aim, projected=lift.projected)
    return f"{text} each side" if lift.note.sides == "one" else text


def _effort(lift: Lift, load: Load) -> str:
    """The share of the max and the effort; in a deload the share that is left, and an effort that is no longer met."""
    basis = load.basis
    effort = effort_text(lift.effort)
    if effort and basis.scale < 1:
        effort = f"easier than {effort}"
    if basis.rule == "percent" and basis.percent is not None:
        return ", ".join(part for part in (f"{plain(basis.percent * basis.scale)} % of max", effort) if part)
    return effort


def _technique_note(lift: Lift, unit: Unit) -> str:
    """The technique in a few words with its loads, and on which sets."""
    worked = [work for work in lift.sets if work.technique]
    if not worked:
        return ""
    where = "every set" if len(worked) == len(lift.sets) and len(lift.sets) > 1 else "last set"
    first, *later = worked[-1].pieces
    if not later:
        return f"{where}: as many as form allows"
    if worked[-1].technique == "cluster":
        pieces = f", {time_text(later[0].pause_before)} between, ".join(str(piece.aim) for piece in (first, *later))
        return f"{where} in pieces: {pieces}"
    end = "to failure, then " if worked[-1].past_failure else "then "
    return f"{where}: {end}" + "; then ".join(piece_text(piece, unit) for piece in later)


def _set_view(work: WorkSet, lift: Lift, unit: Unit) -> SetView:
    first = work.pieces[0]
    return SetView(
        number=work.number,
        load=load_text(first.load, unit),
        plates=plates_text(first.load),
        reps=reps_text(first.reps, first.hold, first.aim, projected=lift.projected),
        pieces=tuple(_piece_view(piece, unit) for piece in work.pieces[1:]),
        boxes=len(work.pieces),
    )


def _piece_view(piece: Piece, unit: Unit) -> PieceView:
    return PieceView(
        role=piece.role,
        load=load_text(piece.load, unit),
        plates=plates_text(piece.load),
        reps=reps_text(piece.reps, piece.hold, piece.aim, projected=False),
        pause=time_text(piece.pause_before) if piece.pause_before else "",
    )

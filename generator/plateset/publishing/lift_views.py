"""A plan's weeks as views: sessions, lines, lifts and sets in the words of the page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.vocabulary import Unit
from plateset.publishing import paths
from plateset.publishing.views import LiftView, LineView, Linked, PieceView, SessionView, SetView
from plateset.publishing.words import (
    GROUPS,
    RANGES_OF_MOTION,
    day_name,
    each_text,
    effort_text,
    load_text,
    piece_text,
    plates_text,
    range_text,
    reps_text,
    tempo_text,
    time_text,
)
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece, PlannedLine, Session, WarmUp, WorkSet
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
    lines = tuple(
        _line_view(line, notes, "" if line.kind in {"single", "pick-one"} else next(letters)) for line in session.lines
    )
    return SessionView(
        anchor=f"day-{session.day}",
        day=day_name(session.day, by_weekday=by_weekday),
        title=session.title,
        minutes=str(session_minutes(session)),
        remark=session.remark,
        lines=lines,
    )


def _line_view(line: PlannedLine, notes: Notes, letter: str) -> LineView:
    lifts = tuple(
        _lift_view(lift, notes, f"{letter}{place}" if letter else "") for place, lift in enumerate(line.lifts, start=1)
    )
    if letter:
        final = lifts[-1]
        lifts = tuple(replace(view, rest=_rest_in_group(line, is_last=view is final)) for view in lifts)
    return LineView(
        kind=GROUPS[line.kind],
        technique=notes.technique(line.kind) if letter else None,
        rest=f"{time_text(line.rest)} {'after each round' if letter else 'between sets'}",
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
    technique = next((work.technique for work in lift.sets if work.technique), None)
    return LiftView(
        title=", ".join(part for part in (lift.note.name, RANGES_OF_MOTION[lift.range_of_motion]) if part),
        path=paths.exercise(lift.exercise),
        letter=letter,
        sets=_sets(lift),
        reps=_reps(lift),
        load=_in_turn([load_text(run[0].pieces[0].load, notes.unit) for run in runs(lift)]),
        scheme=_scheme(lift),
        plates=plates_text(first.load) if len(runs(lift)) == 1 else "",
        each=each_text(lift),
        effort=_effort(lift),
        tempo=tempo_text(lift.tempo),
        rest=time_text(lift.rest),
        technique=notes.technique(technique),
        technique_note=technique_note(lift, notes.unit),
        warm_up=", ".join(_warm_up(each, lift, notes.unit) for each in lift.warm_up),
        rule=lift.rule,
        remark=lift.remark,
        why=lift.why,
        set_views=tuple(_set_view(work, lift, notes.unit) for work in lift.sets),
        uniform=technique is None and len(runs(lift)) == 1,
        substitutes=notes.substitutes(lift),
    )


def runs(lift: Lift) -> list[list[WorkSet]]:
    """The sets in runs of the same load and repetitions: one run where all sets are alike."""
    found: list[list[WorkSet]] = []
    for work in lift.sets:
        if found and _alike(found[-1][0], work):
            found[-1].append(work)
        else:
            found.append([work])
    return found


def _alike(one: WorkSet, other: WorkSet) -> bool:
    first, second = one.pieces[0], other.pieces[0]
    # A cluster's first piece is short of its set: such a set is told by its technique, not by its repetitions.
    reps_alike = first.reps == second.reps or "cluster" in (one.technique, other.technique)
    open_set = "as-many-as-possible" in (one.technique, other.technique)
    return one.kind == other.kind and first.load == second.load and (reps_alike or open_set)


def _in_turn(words: list[str]) -> str:
    """'100 kg', '100 kg, then 85 kg', '60, 65, 70 kg'; said once where all are the same."""
    if len(set(words)) == 1:
        return words[0]
    if len(words) == 2:
        return ", then ".join(words)
    _, _, unit = words[-1].partition(" ")
    if unit and all(word.endswith(f" {unit}") for word in words):
        words = [*(word.removesuffix(f" {unit}") for word in words[:-1]), words[-1]]
    return ", ".join(words)


def _scheme(lift: Lift) -> str:
    """Sets and repetitions together: '3 × 8–12', '1 × 3 + 3 × 6', '12, 10, 8, 6' in a pyramid."""
    found = runs(lift)
    sides = " each side" if lift.note.sides == "one" else ""
    if len(found) == 1:
        return f"{_sets(lift)} × {_reps(lift)}"
    words = [(len(run), _reps_of_run(run[0], lift, alone=False)) for run in found]
    if all(count == 1 for count, _ in words):
        return ", ".join(reps for _, reps in words) + sides
    return " + ".join(f"{count} × {reps}" for count, reps in words) + sides


def _sets(lift: Lift) -> str:
    """'4', '2–4' where some are left to the reader, '1 + 3' for top and back-off sets."""
    found = runs(lift)
    if lift.least_sets < len(lift.sets):
        return range_text(lift.least_sets, len(lift.sets))
    uneven = len(found) > 1 and any(len(run) > 1 for run in found)
    return "\u00a0+\u00a0".join(str(len(run)) for run in found) if uneven else str(len(lift.sets))


def _reps(lift: Lift) -> str:
    """The repetitions of a set, for each side where one side is done at a time."""
    found = runs(lift)
    text = _in_turn([_reps_of_run(run[0], lift, alone=len(found) == 1) for run in found])
    return f"{text} each side" if lift.note.sides == "one" else text


def _reps_of_run(work: WorkSet, lift: Lift, *, alone: bool) -> str:
    first = work.pieces[0]
    reps = lift.reps if alone else first.reps
    return reps_text(reps, lift.hold, first.aim, projected=lift.projected and work.kind != "back-off")


def _effort(lift: Lift) -> str:
    """The share of the max and the effort of each run; in a deload the share that is left, and an effort no longer met.

    A reserve that falls over the sets is said once for all of them.
    """
    if lift.effort is not None and lift.effort.first is not None:
        return _effort_of(lift.sets[0].pieces[0].load, effort_text(lift.effort))
    words = [_effort_of(run[0].pieces[0].load, effort_text(run[0].effort)) for run in runs(lift)]
    return _in_turn(words) if all(words) else next((text for text in words if text), "")


def _effort_of(load: Load, effort: str) -> str:
    basis = load.basis
    if effort and basis.scale < 1:
        effort = f"easier than {effort}"
    if basis.rule == "percent" and basis.percent is not None:
        share = f"{plain((basis.percent * basis.share * basis.scale).quantize(Decimal('0.1')))} % of max"
        return ", ".join(part for part in (share, effort) if part)
    return effort


def _warm_up(warm_up: WarmUp, lift: Lift, unit: Unit) -> str:
    sides = " each side" if lift.note.sides == "one" else ""
    return f"{load_text(warm_up.load, unit)} × {warm_up.reps}{sides}"


def technique_note(lift: Lift, unit: Unit) -> str:
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
        optional=work.optional,
    )


def _piece_view(piece: Piece, unit: Unit) -> PieceView:
    return PieceView(
        role=piece.role,
        load=load_text(piece.load, unit),
        plates=plates_text(piece.load),
        reps=reps_text(piece.reps, piece.hold, piece.aim, projected=False),
        pause=time_text(piece.pause_before) if piece.pause_before else "",
    )

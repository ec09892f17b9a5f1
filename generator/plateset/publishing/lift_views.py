"""A plan's weeks as views: sessions, lines, lifts and sets in the words of the page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from plateset.manuscript import schema
from plateset.manuscript.quantities import Effort
from plateset.manuscript.vocabulary import Unit
from plateset.publishing import paths
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import LiftView, LineView, Linked, PieceView, SessionView, SetView
from plateset.publishing.words import (
    GROUPS,
    RANGES_OF_MOTION,
    bar_text,
    day_name,
    each_text,
    effort_text,
    load_text,
    piece_text,
    plates_text,
    range_text,
    reps_text,
    rule_text,
    share_text,
    tempo_text,
    time_text,
)
from plateset.remembering import Remembered
from plateset.training.plan import Lift, Load, Piece, PlannedLine, Session, WarmUp, WorkSet
from plateset.training.time import session_minutes

Exercises = Mapping[str, schema.Exercise]
Techniques = Mapping[str, schema.TechniqueNote]


class Notes:
    """The notes that lines link to, and how loads are said beside them."""

    def __init__(self, exercises: Exercises, techniques: Techniques, unit: Unit, language: Language = ENGLISH) -> None:
        self.exercises = exercises
        self.techniques = techniques
        self.unit = unit
        self.language = language
        self.met: Remembered[LiftView] = Remembered()
        """Views of the lifts met so far: weeks that are alike share theirs."""

    def load(self, load: Load) -> str:
        """A load in the unit and language of the page."""
        return load_text(load, self.unit, self.language)

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
        day=day_name(session.day, by_weekday=by_weekday, language=notes.language),
        title=session.title,
        minutes=str(session_minutes(session)),
        remark=session.remark,
        lines=lines,
    )


def _line_view(line: PlannedLine, notes: Notes, letter: str) -> LineView:
    say = notes.language.say
    lifts = tuple(
        _lift_view(lift, notes, f"{letter}{place}" if letter else "") for place, lift in enumerate(line.lifts, start=1)
    )
    if letter:
        final = lifts[-1]
        lifts = tuple(replace(view, rest=_rest_in_group(line, is_last=view is final)) for view in lifts)
    elif line.kind == "pick-one":
        lifts = tuple(replace(view, rest=time_text(line.rest)) for view in lifts)
    return LineView(
        kind=say(GROUPS[line.kind]),
        technique=notes.technique(line.kind) if letter else None,
        rest=say("%(time)s after each round" if letter else "%(time)s between sets") % {"time": time_text(line.rest)},
        remark=line.remark,
        why=line.why,
        lifts=lifts,
    )


def _rest_in_group(line: PlannedLine, *, is_last: bool) -> str:
    if is_last:
        return time_text(line.rest)
    return time_text(line.between) if line.between else "none"


def _lift_view(lift: Lift, notes: Notes, letter: str) -> LiftView:
    return notes.met.get((lift, letter), partial(_seen, lift, notes, letter))


def _seen(lift: Lift, notes: Notes, letter: str) -> LiftView:
    first = lift.sets[0].pieces[0]
    technique = next((work.technique for work in lift.sets if work.technique), None)
    told = runs(lift)
    return LiftView(
        title=_title(lift, notes),
        path=paths.exercise(lift.exercise),
        letter=letter,
        sets=_sets(lift, told),
        reps=_reps(lift, told, notes.language),
        load=_in_turn([notes.load(run[0].pieces[0].load) for run in told], notes.language),
        scheme=_scheme(lift, told, notes.language),
        plates=plates_text(first.load, notes.language) if len(told) == 1 else "",
        each=each_text(lift, notes.language),
        effort=_effort(lift, told, notes.language),
        tempo=tempo_text(lift.tempo),
        rest=time_text(lift.rest),
        technique=notes.technique(technique),
        technique_note=technique_note(lift, notes),
        warm_up=_warm_ups(lift, notes),
        rule=rule_text(lift.rule, notes.language),
        remark=lift.remark,
        why=lift.why,
        set_views=tuple(_set_view(work, lift, notes) for work in lift.sets),
        uniform=technique is None and len(told) == 1,
        substitutes=notes.substitutes(lift),
    )


Runs = list[list[WorkSet]]


def runs(lift: Lift) -> Runs:
    """The sets in runs of the same load and repetitions: one run where all sets are alike."""
    found: Runs = []
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


def _in_turn(words: list[str], language: Language) -> str:
    """'100 kg', '100 kg, then 85 kg', '60, 65, 70 kg'; said once where all are the same."""
    if len(set(words)) == 1:
        return words[0]
    if len(words) == 2:
        return f", {language.say('then')} ".join(words)
    _, _, unit = words[-1].partition(" ")
    if unit and all(word.endswith(f" {unit}") for word in words):
        words = [*(word.removesuffix(f" {unit}") for word in words[:-1]), words[-1]]
    return language.list_mark.join(words)


def sided(text: str, lift: Lift, language: Language) -> str:
    """'8 each side' where a lift does one side at a time, else the text as it is."""
    return language.say("%(what)s each side") % {"what": text} if lift.note.sides == "one" else text


def _scheme(lift: Lift, found: Runs, language: Language) -> str:
    """Sets and repetitions together: '3 × 8–12', '1 × 3 + 3 × 6', '12, 10, 8, 6' in a pyramid."""
    if len(found) == 1:
        return f"{_sets(lift, found)} × {_reps(lift, found, language)}"
    words = [(len(run), _reps_of_run(run[0], lift, language, alone=False)) for run in found]
    if all(count == 1 for count, _ in words):
        return sided(language.list_mark.join(reps for _, reps in words), lift, language)
    return sided(" + ".join(f"{count} × {reps}" for count, reps in words), lift, language)


def _sets(lift: Lift, found: Runs) -> str:
    """'4', '2–4' where some are left to the reader, '1 + 3' for top and back-off sets."""
    if lift.least_sets < len(lift.sets):
        return range_text(lift.least_sets, len(lift.sets))
    uneven = len(found) > 1 and any(len(run) > 1 for run in found)
    return "\u00a0+\u00a0".join(str(len(run)) for run in found) if uneven else str(len(lift.sets))


def _reps(lift: Lift, found: Runs, language: Language) -> str:
    """The repetitions of a set, for each side where one side is done at a time."""
    told = [_reps_of_run(run[0], lift, language, alone=len(found) == 1) for run in found]
    return sided(_in_turn(told, language), lift, language)


def _reps_of_run(work: WorkSet, lift: Lift, language: Language, *, alone: bool) -> str:
    first = work.pieces[0]
    reps = lift.reps if alone else first.reps
    projected = lift.projected and work.projected
    return reps_text(reps, lift.hold, first.aim, projected=projected, language=language)


def _effort(lift: Lift, found: Runs, language: Language) -> str:
    """The share of the max and the effort of each run; in a deload the share that is left, and an effort no longer met.

    A reserve that falls over the sets is said once for all of them; back-off sets have their own.
    """
    words = [
        _effort_of(run[0].pieces[0].load, effort_text(_effort_of_run(run[0], lift), language), language)
        for run in found
    ]
    if all(words) or not any(words):
        return _in_turn(words, language)
    which = "%(effort)s in the top set" if lift.sets[0].kind == "top" else "%(effort)s in the heaviest set"
    return language.say(which) % {"effort": next(text for text in words if text)}


def _title(lift: Lift, notes: Notes) -> str:
    """The exercise, with its bar where that is not the plain one, and the part of the range where it is not all."""
    has_own_bar = lift.note.implement == "barbell" and lift.note.bar != "barbell"
    bar = bar_text(lift.note.bar, notes.language) if has_own_bar else ""
    part = notes.language.say(RANGES_OF_MOTION[lift.range_of_motion])
    return ", ".join(filter(None, (lift.note.name, bar, part)))


def _effort_of_run(first: WorkSet, lift: Lift) -> Effort | None:
    return lift.effort if _falls(lift) and first.kind in {"straight", "top"} else first.effort


def _falls(lift: Lift) -> bool:
    """Whether its reserve falls over the sets."""
    return lift.effort is not None and lift.effort.first is not None


def _effort_of(load: Load, effort: str, language: Language) -> str:
    basis = load.basis
    if effort and basis.scale < 1:
        effort = language.say("easier than %(effort)s") % {"effort": effort}
    if basis.percent is not None and (basis.rule == "percent" or basis.trouble == "no max"):
        return ", ".join(part for part in (share_text(load, basis.percent, language), effort) if part)
    return effort


def _warm_ups(lift: Lift, notes: Notes) -> str:
    """'40 kg × 8, 60 kg × 5'; as shares where the lifter's own load is not known."""
    words = notes.language.list_mark.join(_warm_up(each, lift, notes) for each in lift.warm_up)
    shares = any(each.load.mass is None for each in lift.warm_up)
    return notes.language.say("%(sets)s (shares of your first set)") % {"sets": words} if shares else words


def _warm_up(warm_up: WarmUp, lift: Lift, notes: Notes) -> str:
    load = warm_up.load
    unknown = load.mass is None and load.basis.percent is not None
    told = f"{notes.language.number(load.basis.percent)} %" if unknown and load.basis.percent else notes.load(load)
    return sided(f"{told}\u00a0×\u00a0{warm_up.reps}", lift, notes.language)


def technique_note(lift: Lift, notes: Notes) -> str:
    """The technique in a few words with its loads, and on which sets."""
    worked = [work for work in lift.sets if work.technique]
    if not worked:
        return ""
    say = notes.language.say
    where = say("every set") if len(worked) == len(lift.sets) and len(lift.sets) > 1 else say("last set")
    first, *later = worked[-1].pieces
    if not later:
        return say("%(sets)s: as many as form allows") % {"sets": where}
    if worked[-1].technique == "cluster":
        between = say("%(time)s between") % {"time": time_text(later[0].pause_before)}
        pieces = f", {between}, ".join(str(piece.aim) for piece in (first, *later))
        return say("%(sets)s in pieces: %(pieces)s") % {"sets": where, "pieces": pieces}
    end = say("to failure, then") if worked[-1].past_failure else say("then")
    pieces = f"; {say('then')} ".join(piece_text(piece, notes.unit, notes.language) for piece in later)
    return f"{where}: {end} {pieces}"


def _set_view(work: WorkSet, lift: Lift, notes: Notes) -> SetView:
    first = work.pieces[0]
    return SetView(
        number=work.number,
        load=notes.load(first.load),
        plates=plates_text(first.load, notes.language),
        reps=reps_text(
            first.reps,
            first.hold,
            first.aim,
            projected=lift.projected and work.projected,
            language=notes.language,
        ),
        pieces=tuple(_piece_view(piece, notes) for piece in work.pieces[1:]),
        boxes=len(work.pieces),
        optional=work.optional,
        how=_how(work, lift, notes.language),
    )


def _how(work: WorkSet, lift: Lift, language: Language) -> str:
    """Where a reserve falls over the sets, that of each; and which set goes to failure where the lift asks for less."""
    if work.past_failure:
        return language.say("to failure")
    return effort_text(work.effort, language) if _falls(lift) else ""


def _piece_view(piece: Piece, notes: Notes) -> PieceView:
    return PieceView(
        role=piece.role,
        load=notes.load(piece.load),
        plates=plates_text(piece.load, notes.language),
        reps=reps_text(piece.reps, piece.hold, piece.aim, projected=False, language=notes.language),
        pause=time_text(piece.pause_before) if piece.pause_before else "",
    )

"""A plan as JSON for other programs, by the schema that is pressed beside it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from functools import partial
from importlib.resources import files
from itertools import repeat
from typing import Any

from plateset.publishing import paths
from plateset.publishing.diary import Diary
from plateset.publishing.program_view import Program
from plateset.publishing.views import ProgramView, SiteView
from plateset.remembering import Remembered
from plateset.training.plan import Lift, Load, Max, Piece, Plan, PlannedLine, Session, Week, WorkSet
from plateset.training.sentences import in_english
from plateset.training.time import session_minutes
from plateset.training.volume import MuscleWeek

FORMAT = 1
"""Rises when a reader of the earlier format would misread the new one."""

Data = dict[str, Any]


def schema_json() -> bytes:
    """The JSON Schema (2020-12) of every plan."""
    return (files("plateset.publishing") / "plan.schema.json").read_bytes()


def plan_json(program: Program, view: ProgramView, site: SiteView, diary: Diary) -> bytes:
    """The plan with its cautions, its volume and, where the author gives a start, the date of every session."""
    plan = program.plan
    starts = plan.program.starts
    days: Iterator[str | None] = iter(day.isoformat() for day in diary.dates(starts)) if starts else repeat(None)
    head = {
        "$schema": paths.relative(paths.PLAN_SCHEMA, paths.plan_json(plan.slug)),
        "format": FORMAT,
        "draft": site.draft,
        "program": _program(plan, view),
        "lifter": _lifter(plan),
        "exercises": _exercises(plan),
    }
    met: Remembered[str] = Remembered()
    weeks = [_week(week, program.volume[week.number], days, met) for week in plan.weeks]
    return (_with_list(head, "weeks", weeks) + "\n").encode()


_written = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


def _with_list(data: Data, name: str, items: Sequence[str]) -> str:
    """An object as it is written, and last in it a list of items that are written already."""
    return f"{_written(data)[:-1]},{_written(name)}:[{','.join(items)}]}}"


def _number(amount: Decimal) -> int | float:
    """A number that reads back as the same decimal."""
    return int(amount) if amount == amount.to_integral_value() else float(amount)


def _mass(amount: Decimal | None) -> int | float | None:
    return None if amount is None else _number(amount)


def _program(plan: Plan, view: ProgramView) -> Data:
    program = plan.program
    return {
        "name": plan.slug,
        "title": program.title,
        "summary": program.summary,
        "address": view.address,
        "author": view.byline,
        "date": program.date.isoformat(),
        "edition": program.edition,
        "licence": program.licence or "",
        "level": program.level,
        "goal": program.goal,
        "unit": plan.unit,
        "curve": plan.curve,
        "starts": program.starts.isoformat() if program.starts else None,
        "at": program.at.strftime("%H:%M") if program.at else None,
        "suits": list(program.suits),
        "not for": list(program.not_for),
        "cautions": [{"about": caution.source, "text": caution.text} for caution in view.cautions],
        "weekly sets": {str(muscle): list(span) for muscle, span in program.weekly_sets.items()},
    }


def _lifter(plan: Plan) -> Data:
    return {"bodyweight": _mass(plan.bodyweight), "maxes": [_max(known) for known in plan.maxes]}


def _max(known: Max) -> Data:
    return {
        "exercise": known.exercise,
        "max": _number(known.amount),
        "from load": _number(known.from_load),
        "from reps": known.reps,
        "of": known.of or known.exercise,
        "share": None if known.share is None else _number(known.share),
    }


def _exercises(plan: Plan) -> Data:
    lifts = {lift.exercise: lift.note for week in plan.weeks for session in week.sessions for lift in session.lifts}
    return {
        name: {
            "title": note.name,
            "implement": note.implement,
            "sides": note.sides,
            "muscles": {
                "direct": list(note.muscles.direct),
                "indirect": {str(muscle): _number(share) for muscle, share in note.muscles.indirect.items()},
            },
        }
        for name, note in sorted(lifts.items())
    }


def _week(week: Week, volume: Mapping[str, MuscleWeek], days: Iterator[str | None], met: Remembered[str]) -> str:
    head = {
        "week": week.number,
        "deload": week.deload,
        "test": week.test,
        "sets": {
            muscle: {"weekly": _number(found.fractional), "direct": _number(found.direct)}
            for muscle, found in sorted(volume.items())
        },
    }
    # A session is written once for all the weeks that share it; only its date is its own.
    sessions = [
        met.get((session,), partial(_written_session, session)).replace(_NO_DATE, f'"date":{_written(next(days))}', 1)
        for session in week.sessions
    ]
    return _with_list(head, "sessions", sessions)


_NO_DATE = '"date":null'
"""No text can hold it: there its quotation marks would be escaped."""


def _written_session(session: Session) -> str:
    return _written(_session(session))


def _session(session: Session) -> Data:
    """A session of any week, whose date is put in its place later."""
    return {
        "session": session.name,
        "title": session.title,
        "day": session.day,
        "date": None,
        "minutes": session_minutes(session),
        "remark": session.remark,
        "lines": [_line(line) for line in session.lines],
    }


def _line(line: PlannedLine) -> Data:
    return {
        "kind": line.kind,
        "rest seconds": line.rest,
        "between seconds": line.between,
        "remark": line.remark,
        "why": line.why,
        "lifts": [_lift(lift) for lift in line.lifts],
    }


def _lift(lift: Lift) -> Data:
    tempo = lift.tempo
    return {
        "exercise": lift.exercise,
        "role": lift.role,
        "range of motion": lift.range_of_motion,
        "curve": lift.curve,
        "warm-up": [{"load": _load(each.load), "reps": each.reps} for each in lift.warm_up],
        "rest seconds": lift.rest,
        "tempo": [tempo.lower, tempo.bottom, "X" if tempo.fast else tempo.lift, tempo.top] if tempo else None,
        "rule": in_english(lift.rule),
        "remark": lift.remark,
        "why": lift.why,
        "sets": [_set(work) for work in lift.sets],
    }


def _set(work: WorkSet) -> Data:
    return {
        "set": work.number,
        "kind": work.kind,
        "optional": work.optional,
        "counts": _number(work.counts),
        "reps in reserve": None if work.effort is None else _number(work.effort.rir),
        "technique": work.technique,
        "past failure": work.past_failure,
        "pieces": [_piece(piece) for piece in work.pieces],
    }


def _piece(piece: Piece) -> Data:
    reps = piece.reps
    return {
        "role": piece.role,
        "load": _load(piece.load),
        "reps": None if reps is None or reps.open else [reps.low, reps.high],
        "reps open": reps is not None and reps.open,
        "reps expected": piece.aim,
        "hold seconds": piece.hold,
        "pause before seconds": piece.pause_before,
        "seconds a repetition": piece.seconds_per_rep,
    }


def _load(load: Load) -> Data:
    plates = load.per_side
    return {
        "kind": load.kind,
        "mass": _mass(load.mass),
        "plates per side": None if plates is None else [_number(plate) for plate in plates],
    }

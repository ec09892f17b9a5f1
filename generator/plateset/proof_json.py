"""A proof as JSON, for machines: the shapes of ``proof_schema.py`` filled."""

from __future__ import annotations

import json
from decimal import ROUND_HALF_UP, Decimal

from plateset.comparing import Comparisons
from plateset.manuscript.vocabulary import Unit
from plateset.placed_marks import PlacedMark
from plateset.problems import ManuscriptError, Problem
from plateset.proof_schema import (
    AgainstShape,
    ChangeShape,
    ComparisonShape,
    LoadCourseShape,
    MarkShape,
    ProblemShape,
    ProgramShape,
    ProofShape,
    SessionLoadsShape,
    SessionShape,
    SetChangeShape,
    StandShape,
    WeekShape,
)
from plateset.proof_tables import past_failure, reps_words
from plateset.proving import Proof, Proofs
from plateset.publishing.words import load_text
from plateset.training.comparison import Change, Comparison
from plateset.training.load_course import SessionCourse, Stand, courses
from plateset.training.marks.mark import SetChange, plain
from plateset.training.plan import Session, Week
from plateset.training.time import session_minutes


def proofs_json(proofs: Proofs, comparisons: Comparisons | None = None) -> str:
    """The proofs of a manuscript, and what changed since another version if that was asked for."""
    return _text(
        {
            "may be published": proofs.may_be_published,
            "problems": [],
            "programs": {slug: _proof(proof) for slug, proof in proofs.programs.items()},
            "marks on notes": [_mark(mark) for mark in proofs.prose],
            "against": _against(proofs, comparisons) if comparisons else None,
        }
    )


def problems_json(error: ManuscriptError) -> str:
    """A manuscript that could not be read."""
    return _text(
        {
            "may be published": False,
            "problems": [_problem(problem) for problem in error.problems],
            "programs": {},
            "marks on notes": [],
            "against": None,
        }
    )


def _text(data: ProofShape) -> str:
    return json.dumps(data, ensure_ascii=False, indent=2)


def _problem(problem: Problem) -> ProblemShape:
    place = problem.place
    return {
        "file": place.path,
        "line": place.line,
        "column": place.column,
        "message": problem.message,
        "expected": problem.expected,
        "nearest": problem.nearest,
    }


def _proof(proof: Proof) -> ProgramShape:
    plan = proof.plan
    return {
        "title": plan.program.title,
        "unit": plan.unit,
        "promised": {str(muscle): list(span) for muscle, span in plan.program.weekly_sets.items()},
        "weeks": [_week(proof, week) for week in plan.weeks],
        "loads": [_session_loads(course, plan.unit) for course in courses(plan)],
        "marks": [_mark(mark) for mark in proof.marks],
    }


def _week(proof: Proof, week: Week) -> WeekShape:
    volume = proof.volume[week.number]
    return {
        "week": week.number,
        "deload": week.deload,
        "test": week.test,
        "weekly sets": {muscle: plain(found.fractional) for muscle, found in volume.items()},
        "weekly sets at most": {muscle: plain(found.most) for muscle, found in volume.items()},
        "direct sets": {muscle: plain(found.direct) for muscle, found in volume.items()},
        "hard sets": {muscle: plain(found.hard) for muscle, found in volume.items()},
        "most in a session": {muscle: plain(found.most_in_session) for muscle, found in volume.items()},
        "repetitions": {muscle: plain(found.reps) for muscle, found in volume.items()},
        "load-volume": {muscle: plain(found.load_volume) for muscle, found in volume.items()},
        "mean load": {muscle: _tenth(found.mean_load) for muscle, found in volume.items()},
        "mean percent of max": {muscle: _tenth(found.mean_percent) for muscle, found in volume.items()},
        "days": {muscle: len(found.days) for muscle, found in volume.items()},
        "hours between": {muscle: found.hours_between for muscle, found in volume.items()},
        "sessions": [_session(session) for session in week.sessions],
    }


def _tenth(number: Decimal | None) -> str | None:
    return None if number is None else plain(number.quantize(Decimal("0.1"), ROUND_HALF_UP))


def _session(session: Session) -> SessionShape:
    return {
        "session": session.name,
        "day": session.day,
        "minutes": session_minutes(session),
        "limit": None if session.within is None else session.within // 60,
        "past failure": past_failure(session),
    }


def _session_loads(course: SessionCourse, unit: Unit) -> SessionLoadsShape:
    return {
        "session": course.name,
        "days": list(course.days),
        "lines": [
            {"exercise": line.exercise, "first": _stand(line.first, unit), "last": _stand(line.last, unit)}
            for line in course.lines
        ],
    }


def _stand(stand: Stand, unit: Unit) -> StandShape:
    return {
        "week": stand.week,
        "sets": stand.sets,
        "optional": stand.sets - stand.least_sets,
        "reps": reps_words(stand),
        "load": load_text(stand.load, unit),
    }


def _mark(placed: PlacedMark) -> MarkShape:
    mark, place = placed.mark, placed.place
    return {
        "name": mark.name,
        "severity": mark.severity,
        "file": place.path,
        "line": place.line,
        "column": place.column,
        "reason": mark.message,
        "remedy": mark.remedy,
        "accepted": mark.accepted,
        "changes": [_set_change(change) for change in mark.changes],
    }


def _set_change(change: SetChange) -> SetChangeShape:
    line, *part = change.index
    return {
        "session": change.session,
        "days": list(change.days),
        "line": line + 1,
        "part": part[0] + 1 if part else None,
        "exercise": change.exercise,
        "sets": change.by,
    }


def _against(proofs: Proofs, found: Comparisons) -> AgainstShape:
    return {
        "other": found.other,
        "programs": {
            slug: _comparison(comparison, (found.units[slug], proofs.programs[slug].plan.unit))
            for slug, comparison in found.programs.items()
        },
        "added": list(found.added),
        "gone": list(found.gone),
    }


def _comparison(found: Comparison, units: tuple[Unit, Unit]) -> ComparisonShape:
    return {
        "settings": [_change(change) for change in found.settings],
        "promises": [_change(change) for change in found.promises],
        "weekly sets": [
            {
                "muscle": each.muscle,
                "before": [plain(count) for count in each.before],
                "after": [plain(count) for count in each.after],
            }
            for each in found.volume
        ],
        "minutes": [
            {
                "session": each.session,
                "before": list(each.before) if each.before else None,
                "after": list(each.after) if each.after else None,
            }
            for each in found.minutes
        ],
        "lines": [
            {
                "session": line.session,
                "exercise": line.exercise,
                "kind": line.kind,
                "changes": [_change(change) for change in line.changes],
            }
            for line in found.lines
        ],
        "loads": [
            {
                "session": each.session,
                "exercise": each.exercise,
                "before": _course(each.before, units[0]),
                "after": _course(each.after, units[1]),
            }
            for each in found.loads
        ],
        "words changed": list(found.prose),
    }


def _change(change: Change) -> ChangeShape:
    return {"what": change.what, "before": change.before, "after": change.after}


def _course(stands: tuple[Stand, Stand], unit: Unit) -> LoadCourseShape:
    first, last = stands
    return {"first": _stand(first, unit), "last": _stand(last, unit)}

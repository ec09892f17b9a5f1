"""A proof as JSON, for machines: one object a manuscript, every figure as a string that a reader would see."""

from __future__ import annotations

import json
from typing import Any

from plateset.problems import ManuscriptError, Problem
from plateset.proving import PlacedMark, Proof, Proofs
from plateset.training.marks.mark import plain
from plateset.training.time import session_minutes


def proofs_json(proofs: Proofs) -> str:
    """The proofs of a manuscript."""
    return _text(
        {
            "may be published": proofs.may_be_published,
            "problems": [],
            "programs": {slug: _proof(proof) for slug, proof in proofs.programs.items()},
            "marks on notes": [_mark(mark) for mark in proofs.prose],
        }
    )


def problems_json(error: ManuscriptError) -> str:
    """A manuscript that could not be read."""
    problems = [_problem(problem) for problem in error.problems]
    return _text({"may be published": False, "problems": problems, "programs": {}, "marks on notes": []})


def _text(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, indent=2)


def _problem(problem: Problem) -> dict[str, Any]:
    place = problem.place
    return {
        "file": place.path,
        "line": place.line,
        "column": place.column,
        "message": problem.message,
        "expected": problem.expected,
        "nearest": problem.nearest,
    }


def _proof(proof: Proof) -> dict[str, Any]:
    return {
        "title": proof.plan.program.title,
        "unit": proof.plan.unit,
        "promised": {str(muscle): list(span) for muscle, span in proof.plan.program.weekly_sets.items()},
        "weeks": [
            {
                "week": week.number,
                "deload": week.deload,
                "weekly sets": {muscle: plain(v.fractional) for muscle, v in proof.volume[week.number].items()},
                "direct sets": {muscle: plain(v.direct) for muscle, v in proof.volume[week.number].items()},
                "load-volume": {muscle: plain(v.load_volume) for muscle, v in proof.volume[week.number].items()},
                "sessions": [
                    {"session": session.name, "day": session.day, "minutes": session_minutes(session)}
                    for session in week.sessions
                ],
            }
            for week in proof.plan.weeks
        ],
        "marks": [_mark(mark) for mark in proof.marks],
    }


def _mark(placed: PlacedMark) -> dict[str, Any]:
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
    }

"""One exercise in place of another: the program with it, and what changes in each muscle's weekly sets.

The change is added up from the shares of the two notes, without planning anew: a set stays a set, so only what it
counts for each muscle differs (the shares are those of :mod:`plateset.training.volume`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from plateset.manuscript.schema import Exercise, LiftLine, Program
from plateset.training.plan import Plan
from plateset.training.volume import contributions

SetCounts = Mapping[tuple[int, str], Mapping[str, int]]
"""Sets in a week by (week, session name), then by exercise; a session done twice a week counts twice."""


def swapped(program: Program, exercise: str, substitute: str, session: str | None = None) -> Program:
    """``program`` with ``substitute`` on every line of ``exercise``, or on those of one session only.

    Sets, repetitions, loads and techniques stay as written; the maxes of the example lifter too.
    """
    sessions = {
        name: _exchanged(text, exercise, substitute) if session in (None, name) else text
        for name, text in program.sessions.items()
    }
    return program.model_copy(update={"sessions": sessions})


def _exchanged(part: Any, exercise: str, substitute: str) -> Any:
    """A session, a line or a group with the exercise exchanged, whatever lines it is made of."""
    if isinstance(part, tuple):
        return tuple(_exchanged(each, exercise, substitute) for each in part)
    if isinstance(part, LiftLine) and part.exercise == exercise:
        return part.model_copy(update={"exercise": substitute})
    if isinstance(part, BaseModel):
        return part.model_copy(update={name: _exchanged(value, exercise, substitute) for name, value in part})
    return part


def set_counts(plan: Plan) -> SetCounts:
    """The sets that volume counts, for :func:`volume_change`; one pass over a plan serves all its exercises."""
    counts: dict[tuple[int, str], Counter[str]] = {}
    for week in plan.weeks:
        for session in week.sessions:
            first = {lift.exercise: lift.note.muscles.direct[0] for lift in session.lifts}
            counted = counts.setdefault((week.number, session.name), Counter())
            counted.update(
                part.exercise
                for part in contributions(session, plan.bodyweight)
                if part.muscle == first[part.exercise]  # a set gives each of its muscles one contribution
            )
    return counts


def volume_change(
    counts: SetCounts, exercise: tuple[str, Exercise], substitute: Exercise, session: str | None = None
) -> dict[int, dict[str, Decimal]]:
    """What ``substitute`` in place of ``exercise`` (its name and note) changes: fractional sets by week and muscle.

    Muscles that stay as they were are left out; muscles are in alphabetical order. ``session`` narrows the exchange
    to one session.
    """
    name, note = exercise
    by_set = set_change(note, substitute)
    sets: Counter[int] = Counter()
    for (week, of_session), counted in counts.items():
        sets[week] += counted[name] if session in (None, of_session) else 0
    return {
        week: {muscle: each * count for muscle, each in by_set.items() if count} for week, count in sorted(sets.items())
    }


def set_change(note: Exercise, substitute: Exercise) -> dict[str, Decimal]:
    """What one set of ``substitute`` counts more or less than one of ``note``, by muscle; those that stay left out."""
    before, after = _shares(note), _shares(substitute)
    zero = Decimal(0)
    changes = {muscle: after.get(muscle, zero) - before.get(muscle, zero) for muscle in sorted(before | after)}
    return {muscle: change for muscle, change in changes.items() if change}


def _shares(note: Exercise) -> dict[str, Decimal]:
    """What a set counts for each muscle: 1 where it is trained directly, else its share."""
    shares: dict[str, Decimal] = dict(note.muscles.indirect.items())
    return shares | dict.fromkeys(note.muscles.direct, Decimal(1))

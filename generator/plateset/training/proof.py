"""The proof of a plan: every rule of the table asked in turn, its marks in order of gravity and place."""

from __future__ import annotations

from plateset.training.marks.loads import drop_not_lighter, left_to_feel, load_jump, troubled_loads
from plateset.training.marks.mark import Case, Mark, MarkRule
from plateset.training.marks.safety import above_level, caution_missing, past_failure, ruled_out
from plateset.training.marks.schedule import over_time, too_little_recovery
from plateset.training.marks.volume import promise_missed, sets_jump, untrained

RULES: tuple[MarkRule, ...] = (
    promise_missed,
    sets_jump,
    untrained,
    troubled_loads,
    left_to_feel,
    load_jump,
    drop_not_lighter,
    too_little_recovery,
    over_time,
    past_failure,
    ruled_out,
    above_level,
    caution_missing,
)
"""Every rule, in the order a coach would ask. To add one: a function in ``marks/`` and its name here."""

_GRAVITY = {"stop": 0, "query": 1, "note": 2}


def prove(case: Case) -> tuple[Mark, ...]:
    """All marks of a plan, gravest first."""
    marks = [mark for rule in RULES for mark in rule(case)]
    return tuple(sorted(marks, key=lambda mark: (_GRAVITY[mark.severity], mark.name)))


def may_be_published(marks: tuple[Mark, ...]) -> bool:
    """Whether nothing stops the program."""
    return all(mark.severity != "stop" for mark in marks)

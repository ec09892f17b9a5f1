"""The proof of a plan: every rule of the table asked in turn, its marks in order of gravity and place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from plateset.manuscript.schema import Acceptance, Program
from plateset.training.marks.loads import (
    above_body_max,
    bests_beyond,
    beyond_repetitions,
    drop_not_lighter,
    left_to_feel,
    load_jump,
    troubled_loads,
)
from plateset.training.marks.mark import Case, Mark, MarkRule, SetChange
from plateset.training.marks.safety import above_level, caution_missing, past_failure, ruled_out
from plateset.training.marks.schedule import no_working_week, nothing_to_test, over_time, too_little_recovery
from plateset.training.marks.volume import promise_missed, sets_jump, untrained
from plateset.training.remedies import PROMISES, NoRemedy, change_words, remedy

RULES: tuple[MarkRule, ...] = (
    promise_missed,
    sets_jump,
    untrained,
    troubled_loads,
    above_body_max,
    bests_beyond,
    left_to_feel,
    beyond_repetitions,
    load_jump,
    drop_not_lighter,
    no_working_week,
    nothing_to_test,
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
    """All marks of a plan, gravest first; those the author accepts carry the reason.

    Where promises are not kept, their marks carry the smallest change in sets that keeps them all, or say why there is
    none.
    """
    return tuple(_with_remedy(case, _marks(case)))


def _marks(case: Case) -> list[Mark]:
    marks = [mark for rule in RULES for mark in rule(case)]
    found = accepted(marks, case.plan.program.accept)
    return sorted(found, key=lambda mark: (_GRAVITY[mark.severity], mark.name))


def _with_remedy(case: Case, marks: list[Mark]) -> list[Mark]:
    """The marks, those on promises with their common remedy: in full on the first, named on the others."""
    broken = [mark for mark in marks if mark.name in PROMISES and not mark.accepted]
    if not broken or case.replan is None or not case.working_weeks:
        return marks
    found = remedy(case, _marks)
    first = broken[0]
    mended = [_mended(case.plan.program, mark, found, "" if mark is first else str(first.path[-1])) for mark in marks]
    return [new if mark in broken else mark for mark, new in zip(marks, mended, strict=True)]


def _mended(program: Program, mark: Mark, found: tuple[SetChange, ...] | NoRemedy, told_at: str) -> Mark:
    if isinstance(found, NoRemedy):
        reason = f"no change in sets was found, as told for {told_at}" if told_at else found.reason
        return replace(mark, remedy=f"{mark.remedy}; {reason}")
    if told_at:
        return replace(mark, remedy=f"kept by the change given for {told_at}, or {_other_way(mark)}", changes=found)
    words = f"{change_words(found, program)}: then every promise is kept, and no other mark is added"
    return replace(mark, remedy=f"{words}; or {_other_way(mark)}", changes=found)


def _other_way(mark: Mark) -> str:
    """What the rule's own remedy ends with: to promise something else."""
    return mark.remedy.rpartition(", or ")[2]


def accepted(marks: Sequence[Mark], acceptances: Sequence[Acceptance]) -> list[Mark]:
    """The marks with the author's acceptances applied, and a note for each acceptance that met no mark."""
    found = [replace(mark, accepted=_reason(mark, acceptances)) for mark in marks]
    for index, acceptance in enumerate(acceptances):
        if not any(_covers(acceptance, mark) for mark in marks):
            about = f" about {acceptance.about!r}" if acceptance.about else ""
            message = f"{acceptance.mark}{about} is accepted, but there is no such mark"
            found.append(Mark("acceptance-unused", "note", ("accept", index), message, "take the entry out"))
    return found


def _reason(mark: Mark, acceptances: Sequence[Acceptance]) -> str:
    return next((each.because for each in acceptances if _covers(each, mark)), "")


def _covers(acceptance: Acceptance, mark: Mark) -> bool:
    named = acceptance.about is None or acceptance.about.lower() in mark.message.lower()
    return acceptance.mark == mark.name and named


def may_be_published(marks: Sequence[Mark]) -> bool:
    """Whether nothing stops the program."""
    return not any(mark.stops for mark in marks)

"""One exercise in place of another: the program with it, and what changes in each muscle's weekly sets.

The change is added up from the shares of the two notes, without planning anew: a set stays a set, so only what it
counts for each muscle differs (the shares are those of :mod:`plateset.training.volume`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cached_property, partial
from itertools import chain
from typing import Any

from pydantic import BaseModel

from plateset.manuscript.schema import Exercise, LiftLine, Program
from plateset.records import record
from plateset.remembering import Remembered
from plateset.training.plan import Plan, PlannedLine, Session


@record
class LiftSets:
    """A lift of a line and the sets of it that are counted and not left to choice."""

    exercise: str
    note: Exercise
    sets: Decimal


@record
class LineSets:
    """A line by the options a reader may pick from; a line without a choice has one option, of all its lifts."""

    options: tuple[tuple[LiftSets, ...], ...]

    @cached_property
    def exercises(self) -> frozenset[str]:
        """The exercises of all its options."""
        return frozenset(lift.exercise for lift in self.lifts)

    @property
    def lifts(self) -> Iterator[LiftSets]:
        """The lifts of all its options."""
        return chain.from_iterable(self.options)

    def note_of(self, exercise: str) -> Exercise:
        """The note of one of its exercises."""
        return next(lift.note for lift in self.lifts if lift.exercise == exercise)

    def sets_of(self, exercise: str) -> Decimal:
        """The sets of one of its exercises, in all its options."""
        return sum((lift.sets for lift in self.lifts if lift.exercise == exercise), Decimal(0))


SetsOfLines = Mapping[tuple[int, str], tuple[LineSets, ...]]
"""The lines of every session by (week, session name); those of a session done twice a week stand there twice."""


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


def sets_of_lines(plan: Plan) -> SetsOfLines:
    """What :func:`volume_change` needs of a plan; one pass serves all its exercises."""
    lines: dict[tuple[int, str], tuple[LineSets, ...]] = {}
    met: Remembered[tuple[LineSets, ...]] = Remembered()
    for week in plan.weeks:
        for session in week.sessions:
            key = (week.number, session.name)
            found = met.get((session,), partial(_lines_sets, session))
            lines[key] = (*lines[key], *found) if key in lines else found
    return lines


def _lines_sets(session: Session) -> tuple[LineSets, ...]:
    return tuple(map(_line_sets, session.lines))


def _line_sets(line: PlannedLine) -> LineSets:
    lifts = tuple(
        LiftSets(lift.exercise, lift.note, sum((work.counts for work in lift.sets if not work.optional), Decimal(0)))
        for lift in line.lifts
    )
    return LineSets(tuple((lift,) for lift in lifts) if line.kind == "pick-one" else (lifts,))


def volume_change(
    lines: SetsOfLines, exercise: str, substitute: Exercise, session: str | None = None
) -> dict[int, dict[str, Decimal]]:
    """What ``substitute`` in place of ``exercise`` changes: fractional sets by week and muscle.

    Muscles that stay as they were are left out; muscles are in alphabetical order. ``session`` narrows the exchange
    to one session. Where the reader has a choice, the least is compared with the least, as in the volume.
    """
    changes: dict[int, dict[str, Decimal]] = {week: {} for week, _ in sorted(lines)}
    exchanged = [
        (changes[week], line)
        for (week, of_session), its in lines.items()
        if session in {None, of_session}
        for line in its
        if exercise in line.exercises
    ]
    a_set = set_change(exchanged[0][1].note_of(exercise), substitute) if exchanged else {}
    for of_week, line in exchanged:
        for muscle, change in _change_of_line(line, exercise, substitute, a_set).items():
            of_week[muscle] = of_week.get(muscle, Decimal(0)) + change
    return {
        week: {muscle: amount for muscle, amount in sorted(change.items()) if amount}
        for week, change in changes.items()
    }


def _change_of_line(
    line: LineSets, exercise: str, substitute: Exercise, a_set: Mapping[str, Decimal]
) -> dict[str, Decimal]:
    """What the exchange changes in a line: ``a_set`` for each set, or, of a pick, what its least option comes to."""
    if len(line.options) == 1:
        sets = line.sets_of(exercise)
        return {muscle: change * sets for muscle, change in a_set.items()}
    exchanged = LineSets(
        tuple(
            tuple(replace(lift, note=substitute) if lift.exercise == exercise else lift for lift in option)
            for option in line.options
        )
    )
    before, after = _least(line), _least(exchanged)
    zero = Decimal(0)
    return {muscle: after.get(muscle, zero) - before.get(muscle, zero) for muscle in before | after}


def _least(line: LineSets) -> dict[str, Decimal]:
    """The fractional sets a line gives each muscle in any case: those of the option that gives it least."""
    totals = [_sets_of_option(option) for option in line.options]
    muscles = {muscle for total in totals for muscle in total}
    return {muscle: min(total.get(muscle, Decimal(0)) for total in totals) for muscle in muscles}


def _sets_of_option(option: tuple[LiftSets, ...]) -> dict[str, Decimal]:
    total: dict[str, Decimal] = {}
    for lift in option:
        for muscle, share in _shares(lift.note).items():
            total[muscle] = total.get(muscle, Decimal(0)) + share * lift.sets
    return total


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

"""The smallest change in sets that keeps every promise of a program, or why there is none.

A change adds sets to lines that are there, or takes sets from them, the same number in every week. What a set gives
each muscle is measured by planning with one set more, not assumed; and whatever is proposed has been planned and
proved: every promise is kept in every working week, no session passes its time, and no stop or query is added.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from plateset.manuscript.quantities import SetCount
from plateset.manuscript.schema import LiftLine, Line, Program
from plateset.manuscript.vocabulary import MUSCLE_GROUPS
from plateset.training.expand import group_parts
from plateset.training.marks.mark import Case, Mark, SetChange, plain
from plateset.training.plan import Plan
from plateset.training.set_search import Goal, Knob, Outcome, Steps, Ways, cheapest
from plateset.training.time import session_minutes
from plateset.training.volume import UNTRAINED, MuscleWeek, program_volume, shares_of

PROMISES = ("promise-missed", "promise-exceeded")
"""The marks a remedy is looked for."""

MOST = 12
"""Sets a week, added and taken together, up to which a change is looked for."""

LOOKS = 20_000
"""Changes looked at, all searches together, before giving up: what keeps a proof well under a second."""

PLANNED = 3500
"""Lines planned anew (a line in each week counts), all searches together, before giving up."""

_NO_CHANGE = f"no change of up to {MOST} sets a week"

Prover = Callable[[Case], Sequence[Mark]]
"""All marks of a case, the author's acceptances applied."""

Where = tuple[str, tuple[int, ...]]
"""A line: its session's name and its index there."""

Changes = Mapping[Where, int]


@dataclass(frozen=True)
class NoRemedy:
    """That no change was found, and what stands in the way."""

    reason: str


@dataclass(frozen=True)
class _Line:
    """A line whose sets may change.

    ``gives`` is what one set more adds in a week to each promise: to the least that a reader does, and to the most.
    """

    where: Where
    exercise: str
    days: tuple[int, ...]
    fewest: int
    most: int
    gives: Mapping[str, tuple[Decimal, Decimal]]


def remedy(case: Case, prover: Prover) -> tuple[SetChange, ...] | NoRemedy:
    """The smallest change that keeps all promises of ``case``, which must be able to plan anew."""
    bench = _Bench(case, prover)
    promises = list(bench.rooms)
    whole = bench.search(promises, timed=True, proved=True)
    if whole.steps is None:
        return NoRemedy(_why_not(bench, whole))
    return tuple(
        SetChange(line.where[0], line.days, line.where[1], line.exercise, by)
        for line, by in zip(bench.lines, whole.steps, strict=True)
        if by
    )


# -- changing a program -------------------------------------------------------------------------------


def changed(program: Program, changes: Changes) -> Program:
    """The program with sets added to lines (negative: taken), in every week; bounds are the caller's affair."""
    sessions = {
        name: session.model_copy(
            update={
                "lines": tuple(_changed(line, (name, (place,)), changes) for place, line in enumerate(session.lines))
            }
        )
        for name, session in program.sessions.items()
    }
    return program.model_copy(update={"sessions": sessions})


def _changed(line: Line, where: Where, changes: Changes) -> Line:
    if isinstance(line, LiftLine):
        return _more_sets(line, changes.get(where, 0))
    name, index = where
    kind, parts = group_parts(line)
    lifts = tuple(_more_sets(lift, changes.get((name, (*index, part)), 0)) for part, lift in enumerate(parts))
    return line.model_copy(update={kind.replace("-", "_"): lifts})


def _more_sets(line: LiftLine, by: int) -> LiftLine:
    if not by:
        return line
    sets = {span: SetCount(count.least + by, count.most + by) for span, count in line.sets.items()}
    return line.model_copy(update={"sets": sets})


def _alone(program: Program, name: str) -> Program:
    """The program cut down to one session on its days."""
    days = {day: session for day, session in program.schedule.items() if session == name}
    return program.model_copy(update={"sessions": {name: program.sessions[name]}, "schedule": days})


# -- the bench: what can be changed, and what becomes of it ---------------------------------------------


class _Bench:
    """A case laid out for changing: its lines, the room of its promises, and plans made of changes so far."""

    def __init__(self, case: Case, prover: Prover) -> None:
        self.case = case
        self.program = case.plan.program
        self.prover = prover
        self.looks = LOOKS
        self.planned_lines = 0
        before = prover(case)
        self.standing = Counter(map(_identity, _felt(before)))
        self.rooms = {str(muscle): self._room(str(muscle), before) for muscle in self.program.weekly_sets}
        self.lines = tuple(self._lines())
        self._minutes: dict[object, int] = {}
        self.ceilings = {
            name: max(self.program.sessions[name].within or 0, self.minutes(name, {}) * 60) // 60
            for name in sorted(set(self.program.schedule.values()))
            if self.program.sessions[name].within is not None
        }
        self.planned_lines = 0  # what it takes to begin with is not counted

    def plan(self, program: Program) -> Plan:
        """The program planned as the case's own was."""
        assert self.case.replan is not None, "a remedy is asked for only where a plan can be made anew"
        plan = self.case.replan(program)
        self.planned_lines += sum(len(session.lifts) for week in plan.weeks for session in week.sessions)
        return plan

    @property
    def is_tired(self) -> bool:
        """Whether as much has been planned as a proof has time for."""
        return self.planned_lines > PLANNED

    def planned(self, muscle: str) -> list[Decimal]:
        """The weekly sets of a muscle in each working week, the least and the most where the reader may choose."""
        weeks = [self.case.volume[week].get(muscle, UNTRAINED) for week in self.case.working_weeks]
        return [count for found in weeks for count in (found.fractional, found.most)]

    def _room(self, muscle: str, marks: Sequence[Mark]) -> tuple[Decimal | None, Decimal | None]:
        """How far the weekly sets have to move at least and may at most, in every working week at once.

        A promise that is missed or exceeded with the author's consent may stay so.
        """
        low, high = {str(name): span for name, span in self.program.weekly_sets.items()}[muscle]
        counts = self.planned(muscle)
        accepted = {mark.name for mark in marks if mark.accepted and mark.path[-1:] == (muscle,)}
        least = None if "promise-missed" in accepted else low - min(counts)
        return least, None if "promise-exceeded" in accepted else high - max(counts)

    def _lines(self) -> Iterator[_Line]:
        for name in dict.fromkeys(name for _, name in sorted(self.program.schedule.items())):
            days = tuple(sorted(day for day, session in self.program.schedule.items() if session == name))
            for where, lift in _lifts(self.program, name):
                counts = _set_counts(lift, self.program)
                yield _Line(where, lift.exercise, days, max(1, min(counts)), max(counts), self._gives(where))

    def _gives(self, where: Where) -> dict[str, tuple[Decimal, Decimal]]:
        """What one set more of a line adds to each promise, least and most, measured on the line by itself."""
        name, (place, *part) = where
        session = self.program.sessions[name]
        line = session.model_copy(update={"lines": (session.lines[place],), "within": None})
        week = {"weeks": 1, "deload": None, "test": None, "sessions": {name: line}}
        alone = _alone(self.program, name).model_copy(update=week)
        base, more = self._first_week(alone), self._first_week(changed(alone, {(name, (0, *part)): 1}))
        return {
            muscle: (more[muscle].fractional - base[muscle].fractional, more[muscle].most - base[muscle].most)
            for muscle in self.rooms
        }

    def _first_week(self, program: Program) -> dict[str, MuscleWeek]:
        volume = program_volume(self.plan(program))[1]
        return {muscle: volume.get(muscle, UNTRAINED) for muscle in self.rooms}

    def changes(self, steps: Steps) -> Changes:
        """The change that a search's steps stand for."""
        return {line.where: by for line, by in zip(self.lines, steps, strict=True) if by}

    def minutes(self, session: str, changes: Changes) -> int:
        """Minutes of a session in its longest week; planned once for each change to its own lines."""
        own = {where: by for where, by in changes.items() if where[0] == session}
        key = (session, *sorted(own.items()))
        if key not in self._minutes:
            plan = self.plan(changed(_alone(self.program, session), own))
            self._minutes[key] = max(session_minutes(each) for week in plan.weeks for each in week.sessions)
        return self._minutes[key]

    def added(self, changes: Changes, promises: Sequence[str]) -> list[Mark]:
        """The stops and queries that a change adds, and those of the promises that it leaves unkept."""
        plan = self.plan(changed(self.program, changes))
        marks = _felt(self.prover(replace(self.case, plan=plan, volume=program_volume(plan))))
        others = [mark for mark in marks if mark.name not in PROMISES]
        new = Counter(map(_identity, others)) - self.standing
        unkept = [mark for mark in marks if mark.name in PROMISES and mark.path[-1] in promises]
        return unkept + [mark for mark in others if _identity(mark) in new]

    def search(self, promises: Sequence[str], *, timed: bool, proved: bool) -> Outcome:
        """The cheapest change that keeps some promises, and the sessions' time and all other limits if asked."""
        scale = 10 ** max((-_exponent(number) for number in self._numbers(promises)), default=0)
        knobs = [
            Knob(
                line.fewest,
                line.most,
                len(line.days),
                tuple(int(gain * scale) for each in promises for gain in line.gives[each]),
            )
            for line in self.lines
        ]
        goals: list[Goal] = []
        for each in promises:
            least, most = (None if side is None else int(side * scale) for side in self.rooms[each])
            goals += [Goal(least, None), Goal(None, most)]
        limits = _Limits(self, promises, timed=timed, proved=proved)
        found = cheapest(knobs, goals, limits.ways_out, most=MOST, looks=max(0, min(self.looks, LOOKS // 4)))
        self.looks -= found.looks
        return replace(found, gave_up=True) if limits.gave_up else found

    def _numbers(self, promises: Sequence[str]) -> Iterator[Decimal]:
        for promise in promises:
            yield from (gain for line in self.lines for gain in line.gives[promise])
            yield from (side for side in self.rooms[promise] if side is not None)


def _exponent(number: Decimal) -> int:
    exponent = number.normalize().as_tuple().exponent
    assert isinstance(exponent, int), "volumes are finite"
    return min(0, exponent)


def _lifts(program: Program, name: str) -> Iterator[tuple[Where, LiftLine]]:
    for place, line in enumerate(program.sessions[name].lines):
        if isinstance(line, LiftLine):
            yield (name, (place,)), line
        else:
            yield from (((name, (place, part)), lift) for part, lift in enumerate(group_parts(line)[1]))


def _felt(marks: Sequence[Mark]) -> list[Mark]:
    """The marks a remedy may not add to. The time of a session is held to by itself, against what it was."""
    return [mark for mark in marks if mark.severity != "note" and not mark.accepted and mark.name != "over-time"]


def _identity(mark: Mark) -> tuple[object, ...]:
    """What makes two marks the same though their figures differ."""
    return mark.name, mark.path, re.sub(r"\d+(\.\d+)?", "", mark.message)


class _Limits:
    """What has to hold besides the promises, and the steps that lead out of what a change breaks."""

    def __init__(self, bench: _Bench, promises: Sequence[str], *, timed: bool, proved: bool) -> None:
        self.bench = bench
        self.promises = promises
        self.timed = timed
        self.proved = proved
        self.gave_up = False

    def ways_out(self, steps: Steps) -> Ways | None:
        """None where a change breaks nothing."""
        if self.bench.is_tired and (self.timed or self.proved):
            self.gave_up = True
            return []
        changes = self.bench.changes(steps)
        for name, ceiling in self.bench.ceilings.items() if self.timed else ():
            if self.bench.minutes(name, changes) > ceiling:
                return [(place, -1) for place, line in enumerate(self.bench.lines) if line.where[0] == name]
        if not self.proved:
            return None
        added = self.bench.added(changes, self.promises)
        return self._away_from(added[0]) if added else None

    def _away_from(self, mark: Mark) -> Ways:
        """Recovery is gained by fewer sets, a gentler rise by more to rise from; no step is known to mend others."""
        muscle = mark.message.partition(":")[0]
        by = {"recovery-short": -1, "sets-jump": 1}.get(mark.name)
        trained = {
            (session.name, lift.index)
            for session in self.bench.case.plan.weeks[0].sessions
            for lift in session.lifts
            if muscle in shares_of(lift, MUSCLE_GROUPS)
        }
        return [(place, by) for place, line in enumerate(self.bench.lines) if by and line.where in trained]


# -- in words -----------------------------------------------------------------------------------------


def change_words(changes: Sequence[SetChange], program: Program) -> str:
    """'add 2 sets of leg-curl in 'lower' (3 to 5) and take 1 set of squat in 'upper' (4 to 3, on each of 2 days)'."""
    parts = [_words(change, program) for change in changes]
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _words(change: SetChange, program: Program) -> str:
    lifts = dict(_lifts(program, change.session))
    lift = lifts[change.session, change.index]
    again = sum(each.exercise == change.exercise for each in lifts.values()) > 1
    which = f" in line {change.index[0] + 1}" if again else ""
    counts = _set_counts(lift, program)
    days = f", on each of {len(change.days)} days" if len(change.days) > 1 else ""
    sets = f"{abs(change.by)} {'set' if abs(change.by) == 1 else 'sets'}"
    was, now = _counts(counts), _counts([count + change.by for count in counts])
    verb = "add" if change.by > 0 else "take out"
    return f"{verb} {sets} of {change.exercise}{which} in '{change.session}' ({was} to {now}{days})"


def _set_counts(lift: LiftLine, program: Program) -> list[int]:
    """The sets of a line over the weeks of a program, the least and the most where the reader may choose."""
    counts = [count for (first, _), count in lift.sets.items() if first <= program.weeks]
    return [number for count in counts for number in (count.least, count.most)]


def _counts(counts: Sequence[int]) -> str:
    return str(min(counts)) if min(counts) == max(counts) else f"{min(counts)}-{max(counts)}"


# -- why there is none --------------------------------------------------------------------------------


def _why_not(bench: _Bench, whole: Outcome) -> str:
    broken = [muscle for muscle in bench.rooms if _is_broken(bench, muscle)]
    for why in (_impossible, _in_conflict):
        reasons = [reason for muscle in broken if (reason := why(bench, muscle))]
        if reasons:
            return reasons[0]
    return _together(bench, whole)


def _is_broken(bench: _Bench, muscle: str) -> bool:
    least, most = bench.rooms[muscle]
    return (least is not None and least > 0) or (most is not None and most < 0)


def _impossible(bench: _Bench, muscle: str) -> str:
    """Why one promise cannot be kept even if nothing else had to hold; '' if it could."""
    least, most = bench.rooms[muscle]
    if least is not None and most is not None and least > most:
        counts = bench.planned(muscle)
        return (
            f"one change for every week cannot do it: {muscle} goes from {plain(min(counts))} to {plain(max(counts))} "
            f"sets over the weeks, further than {_promise(bench, muscle)} spans"
        )
    if not any(any(line.gives[muscle]) for line in bench.lines):
        return f"no line trains {muscle}"
    free = bench.search([muscle], timed=False, proved=False)
    if free.steps is None and not free.gave_up:
        return f"{_NO_CHANGE} keeps the promise for {muscle}, even by itself"
    return ""


def _in_conflict(bench: _Bench, muscle: str) -> str:
    """The first other limit that a promise cannot be kept together with; '' if there is no single one."""
    for other in bench.rooms:
        pair = bench.search([muscle, other], timed=False, proved=False) if other != muscle else None
        if pair and pair.steps is None and not pair.gave_up:
            both = f"{muscle} ({_promise(bench, muscle)}) and {other} ({_promise(bench, other)})"
            return f"{_NO_CHANGE} keeps the promises for {both} together"
    return _beside_limits(bench, [muscle], f"the promise for {muscle}")


def _together(bench: _Bench, whole: Outcome) -> str:
    """Why promises that can be kept one by one cannot be kept together, as far as it is known."""
    if whole.gave_up:
        free = bench.search(list(bench.rooms), timed=False, proved=False).steps
        over = _over_time(bench, bench.changes(free)) if free is not None else ""
        known = f"the smallest that would brings {over}" if over else "there may be one further on"
        return f"none of the changes there was time to look at keeps every promise; {known}"
    known = _beside_limits(bench, list(bench.rooms), "every promise")
    return known or f"{_NO_CHANGE} keeps every promise together, though each could be kept by itself"


def _beside_limits(bench: _Bench, promises: Sequence[str], named: str) -> str:
    """Which limit stands in the way of promises that could be kept without; '' if none does."""
    free = bench.search(promises, timed=False, proved=False).steps
    if free is None:
        return ""
    changes = bench.changes(free)
    timed = bench.search(promises, timed=True, proved=False)
    if timed.steps is None and not timed.gave_up:
        return (
            f"{_NO_CHANGE} keeps {named} in the time of the sessions: the smallest brings {_over_time(bench, changes)}"
        )
    proved = bench.search(promises, timed=False, proved=True)
    if proved.steps is None and not proved.gave_up:
        mark = bench.added(changes, promises)[0]
        return f"{_NO_CHANGE} keeps {named} without another mark: the smallest adds {mark.name}: {mark.message}"
    return ""


def _over_time(bench: _Bench, changes: Changes) -> str:
    """The sessions that a change makes too long, with their minutes; '' if it makes none so."""
    minutes = {name: bench.minutes(name, changes) for name in bench.ceilings}
    return ", ".join(
        f"'{name}' to {minutes[name]} min (limit {most} min)"
        for name, most in bench.ceilings.items()
        if minutes[name] > most
    )


def _promise(bench: _Bench, muscle: str) -> str:
    return _counts({str(name): span for name, span in bench.program.weekly_sets.items()}[muscle])

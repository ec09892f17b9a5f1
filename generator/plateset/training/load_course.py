"""The course of each line's load through a program: its first working week beside its last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from plateset.manuscript.quantities import Reps
from plateset.training.plan import GroupKind, Lift, Load, Plan, Session, Week


@dataclass(frozen=True)
class Stand:
    """Where a line stands in one week.

    ``reps`` spans all its sets, from the lowest repetitions asked to the highest; ``hold`` is in seconds, the longest.
    ``load`` is that of the heaviest set; its mass is None where the lifter picks it.
    """

    week: int
    least_sets: int
    sets: int
    reps: Reps | None
    hold: int | None
    load: Load


@dataclass(frozen=True)
class LineCourse:
    """A line in its first and its last working week. ``place`` counts the lifts of its group from 0."""

    index: tuple[int, ...]
    exercise: str
    kind: GroupKind
    place: int
    first: Stand
    last: Stand


@dataclass(frozen=True)
class SessionCourse:
    """A session's lines, with the days (1 is Monday, or the first day) it is done on in the same way."""

    name: str
    title: str
    days: tuple[int, ...]
    lines: tuple[LineCourse, ...]


def courses(plan: Plan) -> tuple[SessionCourse, ...]:
    """Every session in order of its first day. In a plan without working weeks, all are told."""
    weeks = [week for week in plan.weeks if week.working] or list(plan.weeks)
    found: list[SessionCourse] = []
    for first, last in zip(weeks[0].sessions, weeks[-1].sessions, strict=True):
        course = SessionCourse(first.name, first.title, (first.day,), tuple(_lines(weeks, first, last)))
        same = next((each for each in found if (each.name, each.lines) == (course.name, course.lines)), None)
        if same is None:
            found.append(course)
        else:
            found[found.index(same)] = replace(same, days=(*same.days, first.day))
    return tuple(found)


def _lines(weeks: list[Week], first: Session, last: Session) -> Iterator[LineCourse]:
    for was, now in zip(first.lines, last.lines, strict=True):
        for place, (before, after) in enumerate(zip(was.lifts, now.lifts, strict=True)):
            yield LineCourse(
                before.index,
                before.exercise,
                was.kind,
                place,
                stand(before, weeks[0].number),
                stand(after, weeks[-1].number),
            )


def stand(lift: Lift, week: int) -> Stand:
    """Where a lift stands in ``week``."""
    starts = [work.pieces[0] for work in lift.sets]
    holds = [piece.hold for piece in starts if piece.hold is not None]
    return Stand(week, lift.least_sets, len(starts), _span(lift), max(holds, default=None), heaviest(lift))


def _span(lift: Lift) -> Reps | None:
    # A cluster shares out the repetitions asked for over its pieces.
    asked = [lift.reps if work.technique == "cluster" else work.pieces[0].reps for work in lift.sets]
    reps = [each for each in asked if each is not None]
    if not reps or any(each.open for each in reps):
        return reps[0] if reps else None
    return Reps(min(each.low for each in reps), max(each.high for each in reps))


def heaviest(lift: Lift) -> Load:
    """The load of the heaviest set as it starts; the first set's where no load is worked out."""
    loads = [work.pieces[0].load for work in lift.sets]
    return max(loads, key=lambda load: (load.mass is not None, load.mass or Decimal(0)))

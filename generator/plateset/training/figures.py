"""Figures named in prose: what a ``figure:`` address stands for in the plans.

An address is ``PROGRAM/subject/…``; the value comes back as the text a reader sees.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from plateset.manuscript.vocabulary import MUSCLE_GROUPS, MUSCLES
from plateset.problems import nearest_word
from plateset.training.load_words import load_words
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Plan, Week
from plateset.training.time import session_minutes
from plateset.training.volume import UNTRAINED, MuscleWeek, weekly_volume


class FigureError(ValueError):
    """A figure address that leads nowhere."""

    def __init__(self, message: str, expected: str, nearest: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.expected = expected
        self.nearest = nearest


def figure(address: str, plans: Mapping[str, Plan]) -> str:
    """The value at ``address`` (without ``figure:``) as text. Raises :class:`FigureError`."""
    slug, _, rest = address.partition("/")
    if slug not in plans:
        raise FigureError(f"there is no program called {slug!r}", "the name of a program", nearest_word(slug, plans))
    subject, *parts = rest.split("/")
    if subject not in _SUBJECTS:
        raise FigureError(
            f"there is no figure {subject!r}",
            "one of: " + ", ".join(_SUBJECTS),
            nearest_word(subject, _SUBJECTS),
        )
    count, value = _SUBJECTS[subject]
    if len(parts) != count:
        raise FigureError(f"{address!r} has {len(parts)} parts after {subject!r}", _SHAPES[subject])
    return value(plans[slug], parts)


def _weeks(plan: Plan, parts: list[str]) -> str:
    return str(plan.program.weeks)


def _days(plan: Plan, parts: list[str]) -> str:
    return str(len(plan.program.schedule))


def _minutes(plan: Plan, parts: list[str]) -> str:
    return str(max(session_minutes(session) for week in plan.weeks for session in week.sessions))


def _weekly_sets(plan: Plan, parts: list[str]) -> str:
    found = _muscle_week(plan, parts)
    return _span(found.fractional, found.most)


def _span(least: Decimal, most: Decimal) -> str:
    """One figure, or two where the reader has a choice."""
    return plain(least) if least == most else f"{plain(least)}-{plain(most)}"


def _direct_sets(plan: Plan, parts: list[str]) -> str:
    return plain(_muscle_week(plan, parts).direct)


def _muscle_week(plan: Plan, parts: list[str]) -> MuscleWeek:
    muscle, week = parts
    known = (*MUSCLES, *MUSCLE_GROUPS)
    if muscle not in known:
        raise FigureError(f"{muscle!r} is not a muscle", "one of: " + ", ".join(known), nearest_word(muscle, known))
    found = weekly_volume(week_at(plan, week), plan.bodyweight, tuple(MUSCLE_GROUPS)).get(muscle)
    return found or UNTRAINED


def week_at(plan: Plan, text: str) -> Week:
    """The week that 'week 3' names. Raises :class:`FigureError`."""
    by_name = {f"week {week.number}": week for week in plan.weeks}
    if text not in by_name:
        raise FigureError(f"{text!r} is not a week of {plan.slug}", f"week 1 to week {len(plan.weeks)}")
    return by_name[text]


def lifts_at(plan: Plan, parts: list[str]) -> list[Lift]:
    """The lifts of an exercise in a week, named as [exercise, week]. Raises :class:`FigureError`."""
    exercise, week = parts
    lifts = [lift for session in week_at(plan, week).sessions for lift in session.lifts]
    known = sorted({lift.exercise for lift in lifts})
    if exercise not in known:
        raise FigureError(
            f"{exercise!r} is not in {plan.slug}",
            "one of: " + ", ".join(known),
            nearest_word(exercise, known),
        )
    return [lift for lift in lifts if lift.exercise == exercise]


def _load(plan: Plan, parts: list[str]) -> str:
    loads = [work.pieces[0].load for lift in lifts_at(plan, parts) for work in lift.sets]
    known = [(load.mass, load.kind) for load in loads if load.mass is not None]
    if not known:
        return "by feel"
    mass, kind = max(known)
    return load_words(kind, mass, plan.unit)


def _sets(plan: Plan, parts: list[str]) -> str:
    lifts = lifts_at(plan, parts)
    least, most = sum(lift.least_sets for lift in lifts), sum(len(lift.sets) for lift in lifts)
    return _span(Decimal(least), Decimal(most))


_SUBJECTS: dict[str, tuple[int, Callable[[Plan, list[str]], str]]] = {
    "weeks": (0, _weeks),
    "days": (0, _days),
    "minutes": (0, _minutes),
    "weekly sets": (2, _weekly_sets),
    "direct sets": (2, _direct_sets),
    "load": (2, _load),
    "sets": (2, _sets),
}

_SHAPES = {
    "weeks": "PROGRAM/weeks",
    "days": "PROGRAM/days",
    "minutes": "PROGRAM/minutes",
    "weekly sets": "PROGRAM/weekly sets/MUSCLE/week N",
    "direct sets": "PROGRAM/direct sets/MUSCLE/week N",
    "load": "PROGRAM/load/EXERCISE/week N",
    "sets": "PROGRAM/sets/EXERCISE/week N",
}

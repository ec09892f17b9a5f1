"""Marks on the week and the clock: recovery between sessions, and sessions over their time."""

from __future__ import annotations

from collections.abc import Iterator

from plateset.manuscript.vocabulary import WEEKDAYS
from plateset.training.marks.mark import Case, Mark
from plateset.training.plan import Session, Week
from plateset.training.time import session_minutes

COUNTED = 3
"""Direct sets in a session from which a muscle is taken to need recovery (common practice, no source)."""


def too_little_recovery(case: Case) -> Iterator[Mark]:
    """A muscle trained directly again sooner than the site's limit, from session to session and week to week."""
    week = next((week for week in case.plan.weeks if not week.deload), case.plan.weeks[0])
    limit = case.limits.recovery // 3600
    for muscle, days in sorted(_days(week).items()):
        if len(days) < 2:
            continue
        for day, following in zip(days, [*days[1:], days[0] + 7], strict=True):
            hours = (following - day) * 24
            if hours < limit:
                message = f"{muscle}: {hours} h between {_name(day)} and {_name(following)} (limit {limit} h)"
                yield Mark("recovery-short", "query", ("schedule",), message, "move a session, or its direct sets")


def _days(week: Week) -> dict[str, list[int]]:
    days: dict[str, list[int]] = {}
    for session in week.sessions:
        for muscle, count in _direct_sets(session).items():
            if count >= COUNTED:
                days.setdefault(muscle, []).append(session.day)
    return days


def _direct_sets(session: Session) -> dict[str, int]:
    counts: dict[str, int] = {}
    for lift in session.lifts:
        for muscle in lift.note.muscles.direct:
            counts[muscle] = counts.get(muscle, 0) + len(lift.sets)
    return counts


def _name(day: int) -> str:
    return WEEKDAYS[(day - 1) % 7]


def over_time(case: Case) -> Iterator[Mark]:
    """A session that takes longer than its 'within'; the longest week is named."""
    longest: dict[str, tuple[int, int, Session]] = {}
    for week in case.plan.weeks:
        for session in week.sessions:
            minutes = session_minutes(session)
            if minutes > longest.get(session.name, (0, 0, session))[0]:
                longest[session.name] = (minutes, week.number, session)
    for name, (minutes, number, session) in sorted(longest.items()):
        if session.within is not None and minutes * 60 > session.within:
            message = f"'{name}' takes {minutes} min in week {number}; {session.within // 60} min promised"
            remedy = f"save {minutes - session.within // 60} min: shorter rests, a superset, or fewer sets"
            yield Mark("over-time", "stop", ("sessions", name, "within"), message, remedy)


def no_working_week(case: Case) -> Iterator[Mark]:
    """A program whose every week is a deload: nothing is held to its promises."""
    if not case.working_weeks:
        message = "every week is a deload week; no promise is held to"
        yield Mark("no-working-week", "stop", ("deload", "weeks"), message, "leave at least one week out of the deload")

"""Marks on the week and the clock: recovery between sessions, and sessions over their time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from plateset.manuscript.vocabulary import WEEKDAYS
from plateset.training.marks.mark import Case, Mark
from plateset.training.plan import Session, Week
from plateset.training.time import session_minutes

COUNTED = 3
"""Direct sets in a session from which a muscle is taken to need recovery (common practice, no source)."""


def too_little_recovery(case: Case) -> Iterator[Mark]:
    """A muscle trained directly again sooner than the site's limit, from session to session and week to week.

    Every working week is looked at; the first in which it happens is named where it is not the first of all.
    """
    limit = case.limits.recovery // 3600
    seen: set[tuple[str, int, int]] = set()
    for week in (week for week in case.plan.weeks if week.number in case.working_weeks):
        since = "" if week.number == case.working_weeks[0] else f" from week {week.number}"
        for muscle, days in sorted(_days(week).items()):
            for day, following in _turns(days):
                hours = (following - day) * 24
                if hours < limit and (muscle, day, following) not in seen:
                    seen.add((muscle, day, following))
                    message = (
                        f"{muscle}: {hours} h between {_name(day)} and {_name(following)}{since} (limit {limit} h)"
                    )
                    remedy = (
                        f"move a session, or train {muscle} directly with fewer than {COUNTED} sets on one of the days"
                    )
                    yield Mark("recovery-short", "query", ("schedule",), message, remedy)


def _turns(days: list[int]) -> list[tuple[int, int]]:
    """Each day and the one that follows it, the last of the week with the first of the next."""
    return list(zip(days, [*days[1:], days[0] + 7], strict=True)) if len(days) > 1 else []


def _days(week: Week) -> dict[str, list[int]]:
    days: dict[str, list[int]] = {}
    for session in week.sessions:
        for muscle, count in _direct_sets(session).items():
            if count >= COUNTED:
                days.setdefault(muscle, []).append(session.day)
    return days


def _direct_sets(session: Session) -> dict[str, int]:
    """The direct sets of each muscle; of a pick, those of the option with most."""
    counts: dict[str, int] = {}
    for line in session.lines:
        here: dict[str, int] = {}
        for lift in line.lifts:
            for muscle in lift.note.muscles.direct:
                before = here.get(muscle, 0)
                more = len(lift.sets)
                here[muscle] = max(before, more) if line.kind == "pick-one" else before + more
        counts = {name: counts.get(name, 0) + here.get(name, 0) for name in (*counts, *here)}
    return counts


def _name(day: int) -> str:
    return WEEKDAYS[(day - 1) % 7]


def over_time(case: Case) -> Iterator[Mark]:
    """A session that takes longer than its 'within'; the longest week is named."""
    longest: dict[str, tuple[int, int, Session]] = {}
    for week in case.plan.weeks:
        for session in week.sessions:
            if session.within is None:
                continue
            minutes = session_minutes(session)
            if minutes > longest.get(session.name, (0, 0, session))[0]:
                longest[session.name] = (minutes, week.number, session)
    for name, (minutes, number, session) in sorted(longest.items()):
        if session.within is not None and minutes * 60 > session.within:
            message = f"'{name}' takes {minutes} min in week {number}; {session.within // 60} min promised"
            remedy = f"save {minutes - session.within // 60} min: {_shorter_rests(session)}a superset, or fewer sets"
            yield Mark("over-time", "stop", ("sessions", name, "within"), message, remedy)


def _shorter_rests(session: Session) -> str:
    """By how much every rest would have to be shorter, in steps of 5 s; '' where not even half of each would do."""
    rested = [line for line in session.lines if max(len(lift.sets) for lift in line.lifts) > 1]
    for less in range(5, min((line.rest for line in rested), default=0) // 2 + 1, 5):
        lines = tuple(replace(line, rest=line.rest - less) if line in rested else line for line in session.lines)
        if session.within is not None and session_minutes(replace(session, lines=lines)) * 60 <= session.within:
            return f"{less} s less at every rest, "
    return ""


def no_working_week(case: Case) -> Iterator[Mark]:
    """A program whose every week is a deload or a test: nothing is held to its promises."""
    if not case.working_weeks:
        key = "deload" if case.plan.program.deload else "test"
        message = "every week is a deload or a test week; no promise is held to"
        yield Mark("no-working-week", "stop", (key, "weeks"), message, f"leave at least one week out of the {key}")


def nothing_to_test(case: Case) -> Iterator[Mark]:
    """A test week with nothing to test."""
    test = case.plan.program.test
    lifts = [lift for session in case.plan.weeks[0].sessions for lift in session.lifts]
    if test is not None and not any(lift.role == "main" and lift.reps is not None for lift in lifts):
        message = "there is a test week, but no line has the role main: nothing would be tested"
        yield Mark("test-without-lift", "stop", ("test", "weeks"), message, "write 'role: main' on the lines to test")

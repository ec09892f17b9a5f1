"""A program's sessions as appointments without a date, for its calendars and its data.

Nothing depends on the clock: the stamp is the program's own date, and an appointment keeps its UID from press to press,
so that a later edition replaces the earlier one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import partial
from hashlib import sha256
from urllib.parse import urlsplit

from plateset.publishing.in_short import one_line, session_in_short, session_name, week_name
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import ProgramView, SessionView, SiteView, WeekView
from plateset.remembering import Remembered
from plateset.training.plan import Plan
from plateset.usual_cautions import DRAFT


@dataclass(frozen=True)
class Appointment:
    """A session that has no date yet; ``day`` counts from the first day of the program, which is 0."""

    uid: str
    summary: str
    description: str
    day: int
    minutes: int


@dataclass(frozen=True)
class Diary:
    """All sessions of a program in order; ``weekday`` is that of the first one (Monday is 0), None where days count.

    ``sequence`` rises with the edition and ``stamp`` is the program's date, as calendars expect of a revision.
    """

    title: str
    url: str
    appointments: tuple[Appointment, ...]
    weekday: int | None
    stamp: datetime
    sequence: int

    def dates(self, start: date) -> tuple[date, ...]:
        """The date of every session, in the order of the plan.

        Where days are counted, ``start`` is day 1. Where they are days of the week, the first session is on its weekday
        next after ``start``, or on ``start`` itself, and the others keep their weekdays.
        """
        wait = 0 if self.weekday is None else (self.weekday - start.weekday()) % 7
        return tuple(start + timedelta(wait + each.day) for each in self.appointments)


def diary(plan: Plan, view: ProgramView, site: SiteView, language: Language = ENGLISH, *, by_weekday: bool) -> Diary:
    """The sessions of a plan in the words of its page."""
    opening = min(session.day for session in plan.weeks[0].sessions) if by_weekday else 1
    place = _place(site)
    met: Remembered[str] = Remembered()
    appointments = tuple(
        Appointment(
            uid=f"{view.slug}-week-{week.number}-day-{session.day}@{place}",
            summary=_summary(view, week_view, session_view, language),
            description=met.get((session_view,), partial(_description, view, session_view, site, language)),
            day=7 * (week.number - 1) + session.day - opening,
            minutes=int(session_view.minutes),
        )
        for week, week_view in zip(plan.weeks, view.weeks, strict=True)
        for session, session_view in zip(week.sessions, week_view.sessions, strict=True)
    )
    return Diary(
        title=one_line(view.title),
        url=view.address,
        appointments=appointments,
        weekday=opening - 1 if by_weekday else None,
        stamp=datetime.combine(plan.program.date, time(12), UTC),
        sequence=plan.program.edition - 1,
    )


def _place(site: SiteView) -> str:
    """What sets this site's events apart from those of others: its address, or its title."""
    parts = urlsplit(site.address)
    named = f"{parts.netloc}{parts.path}" if site.address else site.title.lower()
    plain = re.sub(r"[^a-z0-9.]+", "-", named.lower()).strip("-.")
    return plain or sha256(named.encode()).hexdigest()[:12]


def _summary(view: ProgramView, week: WeekView, session: SessionView, language: Language) -> str:
    return one_line(f"{view.title}: {session.title} ({language.low(week_name(week, language))})")


def _description(view: ProgramView, session: SessionView, site: SiteView, language: Language) -> str:
    parts = [
        *([language.say(DRAFT)] if site.draft else []),
        session_name(session),
        *session_in_short(session, language),
        "",
        *view.short_cautions,
        *([view.lifter_note] if view.lifter_note else []),
    ]
    return "\n".join(one_line(part) for part in parts)

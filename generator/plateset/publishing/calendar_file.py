"""A program's sessions as a calendar (RFC 5545), from a start date; and the same without dates, for the page.

Times are local to whoever imports the file ("floating": no zone, no Z). Nothing depends on the clock: the stamp is the
program's own date, and an event keeps its UID from press to press, so that a later edition replaces the earlier one.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import partial
from hashlib import sha256
from urllib.parse import urlsplit

from icalendar import Calendar, Event, vText
from icalendar.parser import Contentline, Parameters

from plateset import __version__
from plateset.publishing.in_short import one_line, session_in_short, session_name, week_name
from plateset.publishing.views import ProgramView, SessionView, SiteView, WeekView
from plateset.remembering import Remembered
from plateset.training.plan import Plan

MOST_OF_A_LINE = 74
"""Bytes of a line of a calendar before it is folded; a line may have 75 without its break."""


class _Text(vText):
    """A text as calendars write it (RFC 5545, section 3.3.11), a backslash before an N too: the library ends a line."""

    def to_ical(self) -> bytes:
        """The text with what is special in it escaped."""
        plain = self.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
        return plain.replace("\n", "\\n").encode()


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


def diary(plan: Plan, view: ProgramView, site: SiteView, *, by_weekday: bool) -> Diary:
    """The sessions of a plan in the words of its page."""
    opening = min(session.day for session in plan.weeks[0].sessions) if by_weekday else 1
    place = _place(site)
    met: Remembered[str] = Remembered()
    appointments = tuple(
        Appointment(
            uid=f"{view.slug}-week-{week.number}-day-{session.day}@{place}",
            summary=_summary(view, week_view, session_view),
            description=met.get((session_view,), partial(_description, view, session_view, site)),
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


def _summary(view: ProgramView, week: WeekView, session: SessionView) -> str:
    return one_line(f"{view.title}: {session.title} ({week_name(week).lower()})")


def _description(view: ProgramView, session: SessionView, site: SiteView) -> str:
    parts = [
        *(["Draft: not checked, do not train from it."] if site.draft else []),
        session_name(session),
        *session_in_short(session),
        "",
        *view.short_cautions,
        *([view.lifter_note] if view.lifter_note else []),
    ]
    return "\n".join(one_line(part) for part in parts)


def calendar(of: Diary, start: date, at: time | None) -> bytes:
    """The calendar file from ``start`` on. Without a time of day, each session fills its day."""
    book = _book(of)
    for each, day in zip(of.appointments, of.dates(start), strict=True):
        event = _event((*_its_own(each), ("dtstamp", of.stamp), *_shared(of, each)))
        if at is None:
            event.add("dtstart", day)
        else:
            event.add("dtstart", datetime.combine(day, at))
            event.add("duration", timedelta(minutes=each.minutes))
        book.add_component(event)
    return bytes(book.to_ical())


def undated(of: Diary) -> str:
    """The same as JSON for the page's script: it adds dates to each event and joins the parts.

    ``open`` and ``close`` stand around the events, ``events`` is a list of [days after the first day, minutes, lines].
    Fit to stand in a script element.
    """
    around = _book(of).to_ical().decode()
    close = "END:VCALENDAR\r\n"
    shared: Remembered[str] = Remembered()

    def lines(each: Appointment) -> str:
        own = _line_of("SUMMARY", each.summary) + _line_of("UID", each.uid)  # by name, as the library sorts them
        return own + shared.get((each.description,), lambda: _lines(_shared(of, each)))

    events = [[each.day, each.minutes, lines(each)] for each in of.appointments]
    data = {"weekday": of.weekday, "open": around.removesuffix(close), "events": events, "close": close}
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")


def _lines(properties: Iterable[tuple[str, object]]) -> str:
    """The lines of an event that has no others."""
    lines: list[Contentline] = _event(properties).content_lines()
    return "".join(folded(line) for line in lines[1:] if line and line != "END:VEVENT")


def _line_of(name: str, text: str) -> str:
    """One line, for which no event has to be put together."""
    return folded(Contentline.from_parts(name, Parameters(), _Text(text)))


def folded(line: Contentline) -> str:
    """A line of a calendar in pieces that a calendar takes, and its end (RFC 5545, section 3.1).

    Folded just as the library does, which goes by each character: slow for the descriptions of a whole program.
    """
    octets, pieces, start = line.encode(), [], 0
    while start < len(octets):
        end = start + MOST_OF_A_LINE
        while end < len(octets) and octets[end] & 0xC0 == 0x80:
            end -= 1  # within a character
        if end < len(octets) and octets[end - 1] in b"\\^":
            end -= 1  # what is escaped stays together
        pieces.append(octets[start:end])
        start = end
    return b"\r\n ".join(pieces).decode() + "\r\n"


def _book(of: Diary) -> Calendar:
    book = Calendar()
    book.add("prodid", f"-//Plateset//Plateset {__version__}//EN")
    book.add("version", "2.0")
    book.add("name", _Text(of.title))  # RFC 7986; the library escapes nothing in it
    return book


def _event(properties: Iterable[tuple[str, object]]) -> Event:
    event = Event()
    for name, value in properties:
        event.add(name, value)
    return event


def _its_own(each: Appointment) -> Iterator[tuple[str, object]]:
    """What no other event has."""
    yield "uid", each.uid
    yield "summary", _Text(each.summary)


def _shared(of: Diary, each: Appointment) -> Iterator[tuple[str, object]]:
    """What every event of the same description has."""
    yield "sequence", of.sequence
    yield "description", _Text(each.description)
    if of.url:
        yield "url", of.url

"""A program's sessions as a calendar (RFC 5545), from a start date; and the same without dates, for the page.

Times are local to whoever imports the file ("floating": no zone, no Z).
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import date, datetime, time, timedelta

from icalendar import Calendar, Event, vText
from icalendar.parser import Contentline, Parameters

from plateset import __version__
from plateset.publishing.diary import Appointment, Diary
from plateset.remembering import Remembered

MOST_OF_A_LINE = 74
"""Bytes of a line of a calendar before it is folded; a line may have 75 without its break."""


class _Text(vText):
    """A text as calendars write it (RFC 5545, section 3.3.11), a backslash before an N too: the library ends a line."""

    def to_ical(self) -> bytes:
        """The text with what is special in it escaped."""
        plain = self.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
        return plain.replace("\n", "\\n").encode()


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

"""The calendar, read by a library of another hand and compared with the plan, day for day."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from icalendar import Calendar, Event
from icalendar.parser import Contentline
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.calendar_file import calendar, folded, undated
from plateset.publishing.diary import Diary, diary
from plateset.publishing.documents import Edition
from plateset.publishing.takeaways import Desk
from plateset.publishing.words import load_text
from plateset.training.plan import Lift
from plateset.training.time import session_minutes

from tests.everything import HEADS, SLUG
from tests.publishing.building import LANTERN, SITE, desk_of, edition_of, write_book

START = date(2026, 3, 2)
MONDAY, THURSDAY = 0, 3


def diary_of(desk: Desk) -> Diary:
    return diary(desk.program.plan, desk.view, desk.site, by_weekday=desk.program.by_weekday)


def events(data: bytes) -> list[Event]:
    return [each for each in Calendar.from_ical(data.decode()).walk("VEVENT") if isinstance(each, Event)]


@pytest.fixture(scope="module")
def lantern(edition: Edition) -> Desk:
    return desk_of(edition, "lantern")


@pytest.fixture(scope="module")
def tally(edition: Edition) -> Desk:
    return desk_of(edition, "tally")


def test_every_session_is_there_on_its_day_at_its_time_for_its_minutes(lantern: Desk) -> None:
    found = events(calendar(diary_of(lantern), START, time(18)))
    sessions = [session for week in lantern.program.plan.weeks for session in week.sessions]
    assert len(found) == len(sessions) == 6
    for index, (event, session) in enumerate(zip(found, sessions, strict=True)):
        day = START + timedelta(7 * (index // 2) + session.day - 1)
        assert event.decoded("dtstart") == datetime.combine(day, time(18))
        assert event.decoded("dtstart").tzinfo is None
        assert day.weekday() == session.day - 1
        assert event.decoded("duration") == timedelta(minutes=session_minutes(session))


@pytest.mark.parametrize("said", ["Push, pull; legs\\nBack", "Back\\Neck", "a\\\\b\\", "\\,\\;"])
def test_what_is_special_in_a_calendar_stands_in_it_as_it_was_written(said: str, lantern: Desk) -> None:
    of = diary_of(lantern)
    of = replace(
        of, title=said, appointments=tuple(replace(a, summary=said, description=said) for a in of.appointments)
    )
    data = calendar(of, START, None)
    plain = data.decode().replace("\r\n ", "")
    escaped = said.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")  # RFC 5545, section 3.3.11
    assert plain.count(f"\r\nSUMMARY:{escaped}\r\n") == plain.count(f"\r\nDESCRIPTION:{escaped}\r\n") == 6
    assert f"\r\nNAME:{escaped}\r\n" in plain
    assert json.loads(undated(of))["open"].count(escaped) == 1


def test_without_a_time_of_day_a_session_fills_its_day(lantern: Desk) -> None:
    found = events(calendar(diary_of(lantern), START, None))
    assert [event.decoded("dtstart") for event in found[:2]] == [date(2026, 3, 2), date(2026, 3, 5)]
    assert all("duration" not in event and "dtend" not in event for event in found)


@pytest.mark.parametrize("later", range(7))
def test_weekdays_are_kept_and_the_first_session_is_the_next_of_its_weekday(lantern: Desk, later: int) -> None:
    start = START + timedelta(later)
    dates = diary_of(lantern).dates(start)
    assert [day.weekday() for day in dates] == [MONDAY, THURSDAY] * 3
    assert start <= dates[0] <= start + timedelta(6)
    assert list(dates) == sorted(dates)


@pytest.mark.parametrize("later", range(7))
def test_days_that_are_counted_begin_on_the_start_itself(tally: Desk, later: int) -> None:
    start = START + timedelta(later)
    assert diary_of(tally).dates(start) == (start, start + timedelta(2))


def test_a_deload_is_named_and_cautions_are_told(lantern: Desk) -> None:
    found = events(calendar(diary_of(lantern), START, time(18)))
    assert [str(event["summary"]) for event in found][3:5] == [
        "Lantern & oil: Light (week 2)",
        "Lantern & oil: Heavy day (week 3, deload)",
    ]
    sessions = [session for week in lantern.view.weeks for session in week.sessions]
    for event, session in zip(found, sessions, strict=True):
        told = str(event["description"])
        for lift in (lift for line in session.lines for lift in line.lifts):
            assert lift.title in told
            assert all(one.load in told for one in lift.set_views)
        assert all(caution in told for caution in lantern.view.short_cautions)
        assert lantern.view.lifter_note in told


@pytest.mark.parametrize("gym", HEADS)
def test_a_program_with_everything_is_there_day_for_day_and_set_for_set(
    gym: str, everythings: dict[str, Edition]
) -> None:
    desk = desk_of(everythings[gym], SLUG)
    plan = desk.program.plan
    assert (plan.program.starts, plan.program.at) == (date(2026, 2, 3), time(18, 30))
    found = events(calendar(diary_of(desk), date(2026, 2, 3), time(18, 30)))
    sessions = [(week, session) for week in plan.weeks for session in week.sessions]
    monday = date(2026, 2, 9)
    for event, (week, session) in zip(found, sessions, strict=True):
        day = monday + timedelta(7 * (week.number - 1) + session.day - 1)
        assert event.decoded("dtstart") == datetime.combine(day, time(18, 30))
        assert event.decoded("duration") == timedelta(minutes=session_minutes(session))
        assert ("test" in str(event["summary"])) is week.test
        assert ("deload" in str(event["summary"])) is week.deload
        told = str(event["description"])
        for lift in session.lifts:
            line = next(text for text in told.splitlines() if re.match(rf"(?:[A-Z]\d |or )?{lift.note.name}[:,]", text))
            told = told.partition(f"{line}\n")[2]
            assert_told(lift, line, plan.unit)


def assert_told(lift: Lift, line: str, unit: Unit) -> None:
    """A line of the calendar says how many sets with which loads, and the lighter sets before."""
    pieces = [piece for work in lift.sets for piece in work.pieces]
    for load in (*(each.load for each in lift.warm_up), *(piece.load for piece in pieces)):
        words = load_text(load, unit).removesuffix(f" {unit}") if load.mass is not None else ""
        assert words in line, (words, line)
    counts = [int(count) for count in re.findall(r"(\d+) × ", line.partition("; ")[0])]
    spare = len(lift.sets) - lift.least_sets
    if counts and not spare:
        assert sum(counts) == len(lift.sets), line
    # As a range where all sets are alike, else with the sets themselves.
    left_to_choice = f"{lift.least_sets}–{len(lift.sets)} × " in line or "if you like" in line
    assert left_to_choice is (spare > 0)


def test_an_event_keeps_its_name_whatever_its_date_and_a_later_edition_supersedes_it(
    lantern: Desk, tmp_path: Path
) -> None:
    one = events(calendar(diary_of(lantern), START, time(18)))
    other = events(calendar(diary_of(lantern), date(2027, 1, 1), None))
    uids = [str(event["uid"]) for event in one]
    assert uids == [str(event["uid"]) for event in other]
    assert len(set(uids)) == len(uids)
    assert uids[0] == "lantern-week-1-day-1@tannery-row-lifting"
    newer = LANTERN.replace("weeks: 3", "weeks: 3\nedition: 4").replace("2026-03-02", "2026-05-01")
    later = events(
        calendar(
            diary_of(desk_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": newer})), "lantern")),
            START,
            None,
        )
    )
    assert [str(event["uid"]) for event in later] == uids
    assert one[0].decoded("sequence") < later[0].decoded("sequence") == 3
    assert one[0].decoded("dtstamp") < later[0].decoded("dtstamp")
    assert one[0]["dtstamp"].to_ical() == b"20260302T120000Z"


@pytest.mark.parametrize(
    ("address", "place", "url"),
    [
        ("https://barn.example/ida/", "barn.example-ida", "https://barn.example/ida/programs/lantern/"),
        ("https://barn.example", "barn.example", "https://barn.example/programs/lantern/"),
    ],
)
def test_the_sites_address_sets_its_events_apart(address: str, place: str, url: str, tmp_path: Path) -> None:
    book = write_book(tmp_path, {"site.yaml": f"{SITE}address: {address}\n"})
    event = events(calendar(diary_of(desk_of(edition_of(book), "lantern")), START, None))[0]
    assert str(event["uid"]) == f"lantern-week-1-day-1@{place}"
    assert str(event["url"]) == url


def test_a_title_without_a_plain_letter_still_sets_events_apart(tmp_path: Path) -> None:
    uids = []
    for title in ("力の家", "力の道"):
        book = write_book(tmp_path / title, {"site.yaml": SITE.replace("Tannery Row Lifting", title)})
        uids.append(str(events(calendar(diary_of(desk_of(edition_of(book), "lantern")), START, None))[0]["uid"]))
    assert uids[0] != uids[1]
    assert all(re.fullmatch(r"lantern-week-1-day-1@[0-9a-f]{12}", uid) for uid in uids)


SLY = "Row\\nBEGIN:VALARM, x; \\nDTSTART:19990101 \\tEND:VEVENT — " + "é" * 90 + "力" * 40


def test_lines_are_folded_and_nothing_can_be_put_in(tmp_path: Path) -> None:
    sly = LANTERN.replace("title: Lantern & oil", f'title: "{SLY}"').replace("title: Heavy day", f'title: "{SLY}"')
    book = write_book(tmp_path, {"programs/lantern.yaml": sly})
    desk = desk_of(edition_of(book), "lantern")
    data = calendar(diary_of(desk), START, time(18))
    assert data.count(b"\r\n") == data.count(b"\n") == data.count(b"\r")
    assert max(len(line) for line in data.split(b"\r\n")) <= 75
    for line in data.split(b"\r\n"):
        line.decode("utf-8")
    read = Calendar.from_ical(data.decode())
    assert len(read.walk("VEVENT")) == 6
    assert not read.walk("VALARM")
    assert all(len(event.errors) == 0 for event in read.walk())
    assert data.count(b"\r\nDTSTART") == data.count(b"\r\nUID") == data.count(b"\r\nDTSTAMP") == 6
    shown = " ".join(SLY.replace("\\n", " ").replace("\\t", " ").split())
    assert str(events(data)[1]["summary"]).startswith(shown)


def test_it_has_what_the_standard_asks_of_a_calendar(lantern: Desk) -> None:
    data = calendar(diary_of(lantern), START, time(18))
    assert data.startswith(b"BEGIN:VCALENDAR\r\n")
    assert data.endswith(b"END:VCALENDAR\r\n")
    read = Calendar.from_ical(data.decode())
    assert str(read["version"]) == "2.0"
    assert "Plateset" in str(read["prodid"])
    assert b"TZID" not in data
    for event in events(data):
        assert {"UID", "DTSTAMP", "DTSTART", "SUMMARY"} <= set(event)


def joined(of: Diary, start: date, at: time | None) -> bytes:
    """The file as the page's script makes it from what is prepared, said once more in Python."""
    data = json.loads(undated(of))
    text = str(data["open"])
    wait = 0 if data["weekday"] is None else (data["weekday"] - start.weekday()) % 7
    for days, minutes, lines in data["events"]:
        day = start + timedelta(wait + days)
        dated = f"DTSTART;VALUE=DATE:{day:%Y%m%d}\r\n"
        if at:
            dated = f"DTSTART:{day:%Y%m%d}T{at:%H%M}00\r\nDURATION:PT{minutes}M\r\n"
        text += f"BEGIN:VEVENT\r\n{lines}DTSTAMP:{of.stamp:%Y%m%dT%H%M%SZ}\r\n{dated}END:VEVENT\r\n"
    return f"{text}{data['close']}".encode()


def sorted_properties(data: bytes) -> list[list[tuple[str, str]]]:
    return [sorted((name, str(event.decoded(name))) for name in event) for event in events(data)]


@pytest.mark.parametrize("start", [START, date(1900, 1, 1), date(2028, 2, 27), date(2026, 12, 30), date(2999, 12, 31)])
@pytest.mark.parametrize("at", [None, time(0), time(6, 5), time(23, 59)])
def test_what_is_prepared_for_the_page_gives_the_same_events(
    lantern: Desk, tally: Desk, start: date, at: time | None
) -> None:
    for desk in (lantern, tally):
        of = diary_of(desk)
        assert sorted_properties(joined(of, start, at)) == sorted_properties(calendar(of, start, at))


def test_what_is_prepared_is_fit_for_a_page(tmp_path: Path) -> None:
    sly = LANTERN.replace("title: Heavy day", 'title: "</script><!-- x"')
    desk = desk_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": sly})), "lantern")
    assert "<" not in undated(diary_of(desk))
    assert "</script><!-- x" in json.loads(undated(diary_of(desk)))["events"][0][2].replace("\r\n ", "")


def test_equal_input_gives_equal_bytes(lantern: Desk) -> None:
    assert calendar(diary_of(lantern), START, time(6)) == calendar(diary_of(lantern), START, time(6))
    assert undated(diary_of(lantern)) == undated(diary_of(lantern))


@given(st.text(st.sampled_from("ab,;\\^ 1é→"), max_size=400))
@example("\\" * 300)
@example("a" * 74)
@example("a" * 75)
@example("a" * 73 + "\\" + "b" * 73 + "^" * 3)
def test_lines_are_folded_as_the_library_folds_them(text: str) -> None:
    line = Contentline(text)  # type: ignore[no-untyped-call]
    assert folded(line) == line.to_ical().decode() + "\r\n"  # type: ignore[no-untyped-call]

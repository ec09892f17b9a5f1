"""The calendar made in the page from the reader's own start date, read by a library of another hand."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from pathlib import Path

import pytest
from icalendar import Calendar, Event
from playwright.sync_api import Download, Locator

from tests.browser.conftest import Visit, Visits

DATED = "programs/first-ten-weeks/index.html"
"""The program of the demo whose author gives a start date; it trains on Mondays, Wednesdays and Fridays."""
COUNTED = "programs/heavier-triples/index.html"
"""One whose days are counted: 1, 2, 4 and 6."""


def maker(seen: Visit) -> Locator:
    return seen.page.locator("[data-calendar]")


def made(seen: Visit, start: str, at: str) -> tuple[Download, list[Event]]:
    maker(seen).locator("input[type=date]").fill(start)
    maker(seen).locator("input[type=time]").fill(at)
    with seen.page.expect_download() as waiting:
        maker(seen).get_by_role("button").click()
    return waiting.value, events(Path(waiting.value.path()).read_bytes())


def events(data: bytes) -> list[Event]:
    assert data.count(b"\r\n") == data.count(b"\n")
    assert max(len(line) for line in data.split(b"\r\n")) <= 75
    return [each for each in Calendar.from_ical(data.decode()).walk("VEVENT") if isinstance(each, Event)]


def told(event: Event) -> dict[str, str]:
    """An event without the moment it was written."""
    return {name: str(event.decoded(name)) for name in event if name != "DTSTAMP"}


@pytest.mark.parametrize("width", [1280, 360])
def test_the_authors_own_dates_give_the_authors_own_file(visit: Visits, base: str, site: Path, width: int) -> None:
    seen = visit(width=width)
    seen.page.goto(base + DATED, wait_until="load")
    with seen.page.expect_download() as waiting:
        maker(seen).get_by_role("button", name="Make the calendar file").click()
    assert waiting.value.suggested_filename == "first-ten-weeks.ics"
    mine = events(Path(waiting.value.path()).read_bytes())
    shipped = events((site / "programs/first-ten-weeks/first-ten-weeks.ics").read_bytes())
    assert [told(event) for event in mine] == [told(event) for event in shipped]
    assert len(mine) == 30
    assert "30 sessions, the first on" in maker(seen).get_by_role("status").inner_text()
    assert seen.troubles == []
    assert seen.outside(base) == []


@pytest.mark.parametrize("start", ["2026-10-21", "2026-10-25", "2028-02-28", "2026-12-31"])
def test_weekdays_are_kept_and_times_are_of_no_zone(visit: Visits, host: str, start: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{DATED}", wait_until="load")
    _, found = made(seen, start, "06:05")
    days = [event.decoded("dtstart") for event in found]
    begin = date.fromisoformat(start)
    first = begin + timedelta(-begin.weekday() % 7)
    assert days == [
        datetime.combine(first + timedelta(7 * week + day), time(6, 5)) for week in range(10) for day in (0, 2, 4)
    ]
    assert {day.tzinfo for day in days} == {None}
    assert all(event.decoded("duration") > timedelta(minutes=20) for event in found)


def test_days_that_are_counted_begin_on_the_day_chosen(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{COUNTED}", wait_until="load")
    assert maker(seen).locator("input[type=date]").input_value() == ""
    download, found = made(seen, "2026-07-15", "")
    assert download.suggested_filename == "heavier-triples.ics"
    days = [event.decoded("dtstart") for event in found]
    assert days[:5] == [date(2026, 7, 15) + timedelta(day) for day in (0, 1, 3, 5, 7)]
    assert all("duration" not in event for event in found)
    assert any("deload" in str(event["summary"]) for event in found)


def test_another_date_moves_the_same_events(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{COUNTED}", wait_until="load")
    _, one = made(seen, "2026-07-15", "18:00")
    _, other = made(seen, "2026-08-15", "")
    assert [str(event["uid"]) for event in one] == [str(event["uid"]) for event in other]
    assert len({str(event["uid"]) for event in one}) == len(one)


def test_without_a_date_it_asks_for_one_and_makes_nothing(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{COUNTED}", wait_until="load")
    downloads: list[Download] = []

    def keep(download: Download) -> None:
        downloads.append(download)

    seen.page.on("download", keep)
    maker(seen).get_by_role("button").click()
    assert maker(seen).get_by_role("status").inner_text() == "Choose a date to start from."
    field = maker(seen).locator("input[type=date]")
    assert field.get_attribute("aria-invalid") == "true"
    assert field.evaluate("field => field === document.activeElement")
    assert downloads == []
    made(seen, "2026-07-15", "18:00")
    assert field.get_attribute("aria-invalid") is None


def test_the_keyboard_alone_will_do(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{DATED}", wait_until="load")
    maker(seen).get_by_role("button").focus()
    with seen.page.expect_download():
        seen.page.keyboard.press("Enter")


def test_without_scripts_it_is_not_shown(visit: Visits, host: str) -> None:
    seen = visit(scripts=False)
    seen.page.goto(f"{host}/{DATED}", wait_until="load")
    assert not maker(seen).is_visible()
    assert seen.page.get_by_role("link", name="All sessions from 4 January 2027").is_visible()


def test_it_does_not_print(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{DATED}", wait_until="load")
    seen.page.emulate_media(media="print")
    assert not maker(seen).is_visible()


def test_every_file_offered_can_be_fetched(visit: Visits, host: str, site_programs: list[str]) -> None:
    seen = visit()
    for path in site_programs:
        seen.page.goto(f"{host}/{path}", wait_until="load")
        links = [link.evaluate("link => link.href") for link in seen.page.locator(".downloads a, .week-links a").all()]
        assert len(links) > 10
        for link in links:
            assert seen.page.request.head(link).ok, link

"""A program with a line of every kind: every file its readers take away tells every set of it."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from icalendar import Calendar
from plateset.manuscript.quantities import Mass
from plateset.publishing import blank_log
from plateset.publishing.blank_log import blank_weeks
from plateset.publishing.takeaways import Desk, takeaways
from plateset.publishing.views import LiftView, WeekView
from plateset.publishing.words import rule_text
from plateset.training.plan import Plan
from plateset.training.progression import REPS_PROJECTED
from plateset.training.sentences import Sentence

from tests.publishing.building import desk_of, edition_of, write_book
from tests.publishing.every_line import EVERY_LINE
from tests.publishing.paper import blanks, page_texts, promised_boxes
from tests.publishing.test_plan_json import VALIDATOR, data_of, plain_numbers
from tests.publishing.test_plan_json import assert_told as assert_in_json
from tests.publishing.test_tables_csv import assert_told as assert_in_table
from tests.publishing.test_tables_csv import assert_warmed_up, rows, work_rows


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    folder = write_book(tmp_path_factory.mktemp("every"), EVERY_LINE)
    return desk_of(edition_of(folder, draft=True), "every-line")


@pytest.fixture(scope="module")
def files(desk: Desk) -> dict[str, bytes]:
    return {Path(file.path).name: file.data for file in takeaways(desk)}


def lifts(weeks: tuple[WeekView, ...]) -> list[LiftView]:
    return [one for week in weeks for day in week.sessions for line in day.lines for one in line.lifts]


def plan_of(desk: Desk) -> Plan:
    return desk.program.plan


def test_it_has_a_line_of_every_kind(desk: Desk) -> None:
    found = [lift for week in plan_of(desk).weeks for session in week.sessions for lift in session.lifts]
    sets = [work for lift in found for work in lift.sets]
    assert {work.kind for work in sets} == {"straight", "top", "back-off", "pyramid"}
    assert {work.optional for work in sets} == {True, False}
    assert any(lift.warm_up for lift in found)
    assert {lift.range_of_motion for lift in found} == {"full", "bottom half"}
    assert any(piece.load.mass is not None and piece.load.mass < 0 for work in sets for piece in work.pieces)
    assert any(piece.load.mass is None for work in sets for piece in work.pieces)
    assert [(week.deload, week.test) for week in plan_of(desk).weeks][2:] == [(True, False), (False, True)]


def test_the_table_tells_it(desk: Desk, files: dict[str, bytes]) -> None:
    table = files["every-line.csv"]
    assert_in_table(plan_of(desk), work_rows(table))
    assert_warmed_up(plan_of(desk), rows(table))
    assert {row["group"] for row in rows(table)} == {"", "pick one", "giant set"}
    assert {row["test"] for row in rows(table) if row["week"] == "4"} == {"yes"}
    helped = [row for row in rows(table) if row["help"]]
    assert helped
    assert {(row["exercise"], row["load"], row["help"], row["reps open"]) for row in helped} >= {
        ("Pull-up", "0", "20", "yes")
    }
    assert {row["effort"] for row in work_rows(table) if row["range of motion"] == "bottom half"} >= {"3 RIR", "1 RIR"}


def test_the_data_tells_it_by_its_schema(desk: Desk) -> None:
    data = data_of(desk)
    VALIDATOR.validate(plain_numbers(data))
    assert_in_json(plan_of(desk), data)


def test_the_calendar_tells_it(desk: Desk, files: dict[str, bytes]) -> None:
    found = Calendar.from_ical(files["every-line.ics"].decode()).walk("VEVENT")
    days = [date(2026, 3, 4) + timedelta(7 * week + day) for week in range(4) for day in (0, 3)]
    assert [event.decoded("dtstart").date() for event in found] == days
    summaries = [str(event["summary"]) for event in found]
    assert ["deload" in text for text in summaries] == [False] * 4 + [True] * 2 + [False] * 2
    assert ["test" in text for text in summaries] == [False] * 6 + [True] * 2
    sessions = [session for week in desk.view.weeks for session in week.sessions]
    for event, session in zip(found, sessions, strict=True):
        told = str(event["description"])
        for one in (one for line in session.lines for one in line.lifts):
            assert all(each.load in told for each in one.set_views), one.title
            assert one.warm_up.replace("\u00a0", " ") in told
            assert one.technique_note in told
        assert "Pick one, rest 2 min between sets:" in told or "Giant set, rest 2 min after each round:" in told


def test_the_texts_tell_it(desk: Desk, files: dict[str, bytes]) -> None:
    for name in ("every-line.txt", "every-line.md"):
        text = files[name].decode().replace("\\", "")
        for words in (
            "Squat: 1 × 3 at 125 kg, then 3 × 6 at 107.5 kg, 1 RIR",
            "Cable curl: 2–4 × 8–12",
            "Cable curl, bottom half only: 3 × 8",
            "3 to 1 RIR",
            "Pick one, rest 2 min between sets:",
            ", 20 kg of help",
            "or Pull-up: 3 × as many as",
            "warm-up ",
        ):
            assert words in text, (name, words)
        assert not re.search(r"rest [^;\n]* after each round after|between sets after", text)


def test_the_blank_log_has_every_box_and_no_load(desk: Desk, files: dict[str, bytes]) -> None:
    blank = blank_weeks(desk.program, desk.manuscript)
    assert {one.load for one in lifts(blank)} == {"", "bodyweight"}
    for one, printed in zip(lifts(blank), lifts(desk.view.weeks), strict=True):
        assert one.scheme == printed.scheme
        assert not re.search(r"\d kg|by feel", f"{one.warm_up} {one.technique_note} {one.load}")
        assert bool(one.warm_up) == bool(printed.warm_up)
    shares = "Of the heaviest load, set by set: 100, 85, 85, 85 %"
    assert lifts(blank)[0].rule == shares
    planned = desk.program.plan.weeks[0].sessions[0].lifts[0]
    adds = Sentence("Add %(mass)s.", (("mass", Mass(Decimal(5), "lb")),))
    for rule in ((adds,), (adds, REPS_PROJECTED)):
        assert rule_text(blank_log.blank_lift(replace(planned, rule=rule)).rule) == f"Add 5 lb. {shares}"
    text = re.sub(r"Loads count the bar: [^.]*kg\.", "", " ".join(page_texts(files["log-a4.pdf"])))
    assert not re.search(r"\d kg|by feel", text)
    assert sum(len(boxes) for boxes in blanks(files["log-a4.pdf"])) == sum(promised_boxes(week) for week in blank)


def test_the_weeks_sheets_have_every_box_and_load(desk: Desk, files: dict[str, bytes]) -> None:
    for week in desk.view.weeks:
        pdf = files[f"week-{week.number}-a4.pdf"]
        assert sum(len(boxes) for boxes in blanks(pdf)) == promised_boxes(week)
        text = " ".join(page_texts(pdf)).replace("\u00a0", " ")
        for each in (each for one in lifts((week,)) for each in one.set_views):
            assert each.load in text


def test_what_the_data_says_of_a_day_is_what_the_calendar_says(files: dict[str, bytes]) -> None:
    data = json.loads(files["every-line.json"])
    events = Calendar.from_ical(files["every-line.ics"].decode()).walk("VEVENT")
    told = [session["date"] for week in data["weeks"] for session in week["sessions"]]
    assert told == [event.decoded("dtstart").date().isoformat() for event in events]

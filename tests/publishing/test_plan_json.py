"""The plan as data, checked against its published schema by a validator of another hand, and with the plan itself."""

from __future__ import annotations

import json
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any, get_args

import pytest
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError
from plateset.manuscript import vocabulary
from plateset.proving import proof
from plateset.publishing.diary import diary
from plateset.publishing.documents import Edition
from plateset.publishing.plan_json import plan_json, schema_json
from plateset.publishing.takeaways import Desk
from plateset.training import plan as records
from plateset.training.plan import Plan

from tests.pressed import CONTENT
from tests.publishing.building import LANTERN, desk_of, edition_of, write_book

SCHEMA = json.loads(schema_json())
VALIDATOR = Draft202012Validator(SCHEMA, format_checker=Draft202012Validator.FORMAT_CHECKER)


def data_of(desk: Desk) -> Any:
    of = diary(desk.program.plan, desk.view, desk.site, by_weekday=desk.program.by_weekday)
    text = plan_json(desk.program, desk.view, desk.site, of).decode()
    return json.loads(text, parse_float=Decimal, parse_constant=pytest.fail)


def plain_numbers(data: Any) -> Any:
    return json.loads(json.dumps(data, default=float))


@pytest.fixture(scope="module")
def demo() -> Edition:
    return edition_of(CONTENT, proof(CONTENT, "content"))


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_every_program_of_the_demo_keeps_to_the_schema_and_is_told_set_for_set(demo: Edition) -> None:
    for slug in demo.programs:
        data = data_of(desk_of(demo, slug))
        VALIDATOR.validate(plain_numbers(data))
        assert_told(demo.programs[slug].plan, data)


def assert_told(plan: Plan, data: Any) -> None:
    assert data["program"]["unit"] == plan.unit
    for week, told_week in zip(plan.weeks, data["weeks"], strict=True):
        assert (told_week["week"], told_week["deload"]) == (week.number, week.deload)
        assert told_week["test"] is week.test
        for session, told in zip(week.sessions, told_week["sessions"], strict=True):
            assert (told["session"], told["day"], told["title"]) == (session.name, session.day, session.title)
            for line, told_line in zip(session.lines, told["lines"], strict=True):
                assert (told_line["kind"], told_line["rest seconds"]) == (line.kind, line.rest)
                for lift, told_lift in zip(line.lifts, told_line["lifts"], strict=True):
                    assert told_lift["exercise"] == lift.exercise
                    assert told_lift["exercise"] in data["exercises"]
                    warm_up = [(each["load"]["mass"], each["reps"]) for each in told_lift["warm-up"]]
                    assert warm_up == [(each.load.mass, each.reps) for each in lift.warm_up]
                    for work, told_set in zip(lift.sets, told_lift["sets"], strict=True):
                        assert told_set["set"] == work.number
                        assert (told_set["kind"], told_set["optional"]) == (work.kind, work.optional)
                        assert told_set["reps in reserve"] == (work.effort.rir if work.effort else None)
                        for piece, told_piece in zip(work.pieces, told_set["pieces"], strict=True):
                            assert_piece(piece, told_piece)


def assert_piece(piece: records.Piece, told: Any) -> None:
    assert told["role"] == piece.role
    assert told["load"]["kind"] == piece.load.kind
    assert told["load"]["mass"] == piece.load.mass
    plates = piece.load.per_side
    assert told["load"]["plates per side"] == (None if plates is None else list(plates))
    open_ = piece.reps is not None and piece.reps.open
    assert told["reps open"] is open_
    assert told["reps"] == ([piece.reps.low, piece.reps.high] if piece.reps and not open_ else None)
    assert (told["hold seconds"], told["reps expected"]) == (piece.hold, piece.aim)


def test_volume_and_cautions_are_those_of_the_page(edition: Edition) -> None:
    desk = desk_of(edition, "lantern")
    data = data_of(desk)
    assert data["weeks"][0]["sets"]["quads"] == {"weekly": 7, "direct": 7}
    assert [each["text"] for each in data["program"]["cautions"]] == [each.text for each in desk.view.cautions]
    assert data["program"]["not for"] == ["Anyone told not to lift"]


def test_sessions_have_dates_only_from_a_start(edition: Edition, tmp_path: Path) -> None:
    assert {s["date"] for week in data_of(desk_of(edition, "lantern"))["weeks"] for s in week["sessions"]} == {None}
    dated = LANTERN.replace("schedule:", "starts: 2026-03-04\nat: 06:30\nschedule:")
    data = data_of(desk_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": dated})), "lantern"))
    VALIDATOR.validate(plain_numbers(data))
    assert (data["program"]["starts"], data["program"]["at"]) == ("2026-03-04", "06:30")
    found = [date.fromisoformat(s["date"]) for week in data["weeks"] for s in week["sessions"]]
    assert found[0] == date(2026, 3, 9)
    assert found == [date(2026, 3, 9) + timedelta(7 * week + day) for week in range(3) for day in (0, 3)]


def test_a_draft_says_so(edition: Edition, tmp_path: Path) -> None:
    book = write_book(tmp_path)
    assert data_of(desk_of(edition_of(book, draft=True), "lantern"))["draft"] is True
    assert data_of(desk_of(edition, "lantern"))["draft"] is False


@pytest.mark.parametrize(
    "spoil",
    [
        lambda data: data.pop("weeks"),
        lambda data: data["program"].update(unit="stone"),
        lambda data: data["weeks"][0].update(extra=1),
        lambda data: data["weeks"][0]["sessions"][0]["lines"][0]["lifts"][0]["sets"][0]["pieces"][0]["load"].update(
            mass="70"
        ),
        lambda data: data["program"].update(date="2026-02-30"),
        lambda data: data["program"].update(cautions=[]),
    ],
)
def test_the_schema_refuses_what_is_not_a_plan(edition: Edition, spoil: Any) -> None:
    data = plain_numbers(data_of(desk_of(edition, "lantern")))
    spoil(data)
    with pytest.raises(ValidationError):
        VALIDATOR.validate(data)


def test_every_word_a_plan_can_hold_is_in_the_schema() -> None:
    defs = SCHEMA["$defs"]

    def words(name: str, key: str) -> set[str]:
        return set(defs[name]["properties"][key]["enum"])

    assert words("load", "kind") == set(get_args(records.LoadKind))
    assert words("piece", "role") == set(get_args(records.PieceRole))
    assert words("set", "kind") == set(get_args(records.SetKind))
    assert words("lift", "role") == {*get_args(vocabulary.Role), None}
    assert words("lift", "range of motion") == set(get_args(vocabulary.RangeOfMotion))
    assert words("line", "kind") == set(get_args(records.GroupKind))
    assert words("program", "level") == set(get_args(vocabulary.Level))
    assert words("program", "goal") == set(get_args(vocabulary.Goal))
    assert words("program", "unit") == set(get_args(vocabulary.Unit))
    assert words("exercise", "implement") == set(get_args(vocabulary.Implement))


def test_every_object_says_what_it_holds_and_nothing_else() -> None:
    def objects(node: Any) -> list[Any]:
        if isinstance(node, list):
            return [each for item in node for each in objects(item)]
        if not isinstance(node, dict):
            return []
        mine = [node] if "properties" in node and node.get("type") == "object" else []
        return mine + [each for value in node.values() for each in objects(value)]

    for each in objects(SCHEMA):
        assert each["additionalProperties"] is False
        assert set(each["required"]) == set(each["properties"])
        assert each["description"]

"""How each kind of value is written, for editors: what it is, what it looks like, examples.

These notes go into the JSON Schemas (draft 2020-12) that editors complete and check from. The patterns are those the
readers in ``quantities.py`` and ``fields.py`` go by, so the two cannot part; bounds of a quantity with a unit are
told in words only, since a schema cannot compare ``90 s`` with ``1 h``.
"""

from __future__ import annotations

import re
from typing import Any

from pydantic import GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema

from plateset.manuscript import quantities as q
from plateset.manuscript.vocabulary import WEEKDAYS

Schema = dict[str, Any]

SPAN = re.compile(r"weeks?\s*([0-9]{1,2})(?:\s*-\s*([0-9]{1,2}))?")
DAY = re.compile(r"day\s*([1-7])")
SLUG = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
TIME_OF_DAY_TEXT = re.compile(r"([01][0-9]|2[0-3]):[0-5][0-9]")
DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
WEB_ADDRESS = re.compile(r"https?://[^\s<>\"'`\\]+")
PICTURE = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*\.png")
COLOUR = re.compile(r"#[0-9a-fA-F]{6}")
SEEN = re.compile(r"[^\s\u00ad\u061c\u180e\u200b-\u200f\u2060-\u206f\ufeff]")
"""A letter that is neither a blank nor one of those that take no room."""
_AS_MANY = "as many as possible"

LONGEST_NAME = 80
"""Letters of a name, as of a file's: it stands in addresses, and in the formulas of a workbook."""
LONGEST_SITE_ADDRESS = 1000
"""Bytes, which leave room for a page's own path in the square code of a sheet (it holds 2,331)."""


def whole_text(pattern: re.Pattern[str]) -> str:
    """A pattern as an editor reads it (ECMA 262): anchored, with what the reader passes over at either end."""
    return rf"^\s*(?:{_any_case(pattern) if pattern.flags & re.IGNORECASE else pattern.pattern})\s*$"


def _any_case(pattern: re.Pattern[str]) -> str:
    """The pattern with each capital standing for both; the readers' patterns write words of either case in capitals."""
    return re.sub(r"[A-Z]", lambda letter: f"[{letter[0]}{letter[0].lower()}]", pattern.pattern)


def _in_any_case(words: str) -> str:
    return "".join(f"[{letter.upper()}{letter}]" if letter.isalpha() else letter for letter in words)


def _text(description: str, *examples: str, patterns: tuple[str, ...], most: int = 0) -> WithJsonSchema:
    pattern = patterns[0] if len(patterns) == 1 else "|".join(patterns)
    told = {"type": "string", "pattern": pattern, "description": description, "examples": list(examples)}
    return WithJsonSchema(told | ({"maxLength": most} if most else {}))


def _number_or_text(number: Schema, words: str, description: str, *examples: str | int) -> WithJsonSchema:
    either = [number, {"type": "string", "pattern": words}]
    return WithJsonSchema({"anyOf": either, "description": description, "examples": list(examples)})


MASS = _text("A mass with its unit, kg or lb.", "60 kg", "135 lb", patterns=(whole_text(q.MASS),))
REAL_MASS = _text("A mass above 0 with its unit, kg or lb.", "20 kg", "45 lb", patterns=(whole_text(q.MASS),))


def duration(description: str, *examples: str) -> WithJsonSchema:
    """A time; ``description`` tells its bounds."""
    patterns = (whole_text(q.MIN_SEC), rf"^(?=.*[0-9])\s*(?:{q.DURATION.pattern})\s*$")
    return _text(description, *examples, patterns=patterns)


def percent(description: str, *examples: str) -> WithJsonSchema:
    """A share in percent; ``description`` tells its bounds."""
    return _text(description, *examples, patterns=(whole_text(q.SHARE),))


TIME = duration("A time with its unit.", "90 s", "2 min", "1:30")
REPS = _number_or_text(
    {"type": "integer", "minimum": 1, "maximum": 100},
    "|".join((whole_text(q.RANGE), rf"^\s*{_in_any_case(_AS_MANY)}\s*$")),
    "Repetitions: a number, a range, or 'as many as possible'. A range is loaded for its lower end.",
    5, "8-12", _AS_MANY,
)  # fmt: skip
SETS = _number_or_text(
    {"type": "integer", "minimum": 1, "maximum": 20},
    whole_text(q.RANGE),
    "Sets: a number, or a range where the reader may stop at the lower end.",
    4, "2-4",
)  # fmt: skip
EFFORT = _text(
    "How near a set ends to failure: repetitions in reserve (RIR), RPE 6 to 10, 'to failure', or a reserve that falls "
    "from the first set to the last.",
    "2 RIR", "1-2 RIR", "RPE 8", "to failure", "3 to 1 RIR",
    patterns=(
        *map(whole_text, (q.RIR, q.RPE, q.RIR_FALL, q.RPE_RISE)), rf"^\s*{_in_any_case('to failure')}\s*$",
    ),
)  # fmt: skip
TEMPO = _text(
    "Seconds of one repetition: lower-pause-lift-pause; X is as fast as possible.",
    "3-1-1-0", "2-0-X-0",
    patterns=(rf"^\s*(?:{q.TEMPO_PART.pattern})(?:-(?:{q.TEMPO_PART.pattern})){{3}}\s*$",),
)  # fmt: skip
LOAD = _text(
    "A load: a share of the reader's max, a mass for everyone, bodyweight with or without a mass, or 'by feel'.",
    "72.5 %", "60 kg", "bodyweight", "bodyweight + 10 kg", "bodyweight - 20 kg", "by feel",
    patterns=(whole_text(q.SHARE), whole_text(q.MASS), whole_text(q.BODYWEIGHT), r"^\s*by feel\s*$"),
)  # fmt: skip
BEST = _text(
    "A set done to failure: its load and its repetitions.",
    "120 kg x 1", "70 kg x 8", "bodyweight + 10 kg x 5",
    patterns=(rf"^\s*(?:{q.MASS.pattern}|{q.BODYWEIGHT.pattern})\s*[x×]\s*0*[1-9][0-9]{{0,2}}\s*$",),
)  # fmt: skip
SETS_RANGE = _number_or_text(
    {"type": "integer", "minimum": 0, "maximum": 9999},
    whole_text(q.RANGE),
    "Sets a week: a number or a range from the smaller to the larger.",
    12, "10-14",
)  # fmt: skip
SHARE_OF_SET = WithJsonSchema(
    {
        "type": "number",
        "exclusiveMinimum": 0,
        "maximum": 1,
        "description": "How much of a set the muscle is counted with: above 0, at most 1.",
        "examples": [0.5, 0.25],
    }
)
NAME = _text(
    "A name: small letters, digits and single hyphens.",
    "back-squat", patterns=(f"^{SLUG.pattern}$",), most=LONGEST_NAME,
)  # fmt: skip
CALENDAR_DATE = _text("A date as year-month-day.", "2026-03-02", patterns=(f"^{DATE.pattern}$",))
TIME_OF_DAY = _text("A time of day, 00:00 to 23:59.", "18:30", patterns=(f"^{TIME_OF_DAY_TEXT.pattern}$",))
ADDRESS = _text(
    "A web address that starts with https:// or http://.",
    "https://barn.example/",
    patterns=(f"^{WEB_ADDRESS.pattern}$",),
)
SITE_ADDRESS = _text(
    "The address the site will have: https:// or http://, a host, and no ? or #.",
    "https://barn.example/",
    patterns=(r"^https?://[^\s<>\"'`\\?#/]+(?:/[^\s<>\"'`\\?#/]+)*/?$",),
    most=LONGEST_SITE_ADDRESS,
)
A_PICTURE = _text("A PNG file in the manuscript's theme folder.", "mark.png", patterns=(f"^{PICTURE.pattern}$",))
A_COLOUR = _text("A colour, in quotes.", "#8a3b12", patterns=(f"^{COLOUR.pattern}$",))
WEEKS = _text("A week or several: 'week 1', 'weeks 3-5'.", "week 1", "weeks 3-5", patterns=(whole_text(SPAN),))
A_DAY = _text(
    "A weekday, mon to sun, or 'day 1' to 'day 7'.",
    *WEEKDAYS,
    "day 1",
    patterns=tuple(rf"^\s*{words}\s*$" for words in (*map(_in_any_case, WEEKDAYS), _in_any_case("day") + r"\s*[1-7]")),
)


class ByWeekSchema:
    """A value alone, or one for each stretch of weeks."""

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> Schema:
        """The value's own schema, and a mapping from weeks to it."""
        weekly = handler(core)
        value = weekly["additionalProperties"]
        # Not all keys are other weeks than the first: one of them is week 1.
        weekly["not"] = {"propertyNames": {"not": {"pattern": r"^\s*weeks?\s*0?1(?![0-9])"}}}
        return _by_type("object", weekly, value)


class ListSchema:
    """A mapping whose keys may be given as a list, each then taken with the usual value."""

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> Schema:
        """The mapping's schema, and a list of its keys."""
        mapping = handler(core)
        keys = mapping.get("propertyNames", {"type": "string"})
        return _by_type("object", mapping, {"type": "array", "items": keys})


class OrWordSchema:
    """A list, or a word in its place."""

    def __init__(self, word: str) -> None:
        self._word = word

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> Schema:
        """The list's schema, and the word."""
        return _by_type("array", handler(core), {"const": self._word})


class BareListSchema:
    """A mapping with one key that matters most, whose list may stand alone."""

    def __init__(self, key: str) -> None:
        self._key = key

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> Schema:
        """The mapping's schema, and the list under its key."""
        mapping = handler(core)
        lines = handler.resolve_ref_schema(mapping)["properties"][self._key]
        return _by_type("array", lines, mapping)


def _by_type(kind: str, then: Schema, otherwise: Schema) -> Schema:
    """One schema for values of a JSON type, another for the rest: an editor then tells the faults of the one meant."""
    return {"if": {"type": kind}, "then": then, "else": otherwise}

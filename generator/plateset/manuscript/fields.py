"""Field types of the authors' format: quantities, words and values that change by week."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, time
from decimal import Decimal
from itertools import pairwise
from typing import Annotated, Any, TypeVar
from urllib.parse import urlsplit

from pydantic import AfterValidator, BeforeValidator, Field, PlainValidator
from pydantic_core import PydanticCustomError, PydanticKnownError

from plateset.manuscript import quantities as q
from plateset.manuscript import written as w
from plateset.manuscript.vocabulary import WEEKDAYS
from plateset.problems import nearest_word

T = TypeVar("T")

EVERY_WEEK = "every week"


def refuse(message: str, expected: str, found: object = None, nearest: str = "") -> PydanticCustomError:
    """An error that carries what was expected; braces in author text must not be read as placeholders."""
    context: dict[str, Any] = {"message": message, "expected": expected, "found": found, "nearest": nearest}
    return PydanticCustomError("manuscript", "{message}", context)


def quantity(reader: Callable[[object], T]) -> PlainValidator:
    """Turn a ``read_*`` function into a pydantic validator."""

    def validate(value: object) -> T:
        try:
            return reader(value)
        except q.QuantityError as error:
            raise refuse(error.message, error.expected, value) from None

    return PlainValidator(validate)


def within(low: int | Decimal, high: int | Decimal, expected: str) -> AfterValidator:
    """Refuse a quantity outside ``low`` to ``high``; bounds of a plain field do not reach our own quantities."""

    def validate(value: Any) -> Any:
        if not low <= value <= high:
            raise refuse("this is out of bounds", expected, value)
        return value

    return AfterValidator(validate)


def _scalar_as_every_week(value: object) -> object:
    if not isinstance(value, dict):
        return {EVERY_WEEK: value}
    if EVERY_WEEK in value:
        raise refuse(f"{EVERY_WEEK!r} is no key", "the value alone, or 'week 1: …'", EVERY_WEEK)
    return value


def read_span(key: object) -> tuple[int, int]:
    """First and last week named by a key such as ``week 1`` or ``weeks 3-5``; (1, 0) is every week."""
    if key == EVERY_WEEK:
        return (1, 0)
    match = w.SPAN.fullmatch(str(key).strip())
    expected = "'week 1' or 'weeks 3-5'"
    if not match:
        raise refuse(f"{key!r} does not name weeks", expected, key)
    first, last = int(match[1]), int(match[2] or match[1])
    if not 1 <= first <= last:
        raise refuse(f"{key!r} does not name weeks", "weeks from 1, the smaller number first", key)
    return (first, last)


def _ordered_spans(value: dict[tuple[int, int], T]) -> dict[tuple[int, int], T]:
    spans = sorted(value)
    if not spans or spans[0][0] != 1:
        raise refuse("nothing is given for week 1", "a value for 'week 1'; later weeks keep the one before")
    for (_, before), (after, _) in pairwise(spans):
        if after <= before:
            raise refuse(f"week {after} is given twice", "each week in one entry only")
    return {span: value[span] for span in spans}


WeekSpan = Annotated[tuple[int, int], PlainValidator(read_span), w.WEEKS]
"""First and last week of an entry; (1, 0) stands for a value given once, for every week."""

ByWeek = Annotated[
    dict[WeekSpan, T], BeforeValidator(_scalar_as_every_week), AfterValidator(_ordered_spans), w.ByWeekSchema()
]


_DAYS_IN_FULL = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
"""As authors may write them; each begins with its short name."""


def read_day(key: object) -> int:
    """The number of a day, 1 to 7, from a weekday's short name or ``day 1``."""
    from_name = {name: number for number, name in enumerate(WEEKDAYS, start=1)}
    text = str(key).strip().lower()
    if text in from_name:
        return from_name[text]
    if match := w.DAY.fullmatch(text):
        return int(match[1])
    expected = "mon, tue, wed, thu, fri, sat, sun, or 'day 1' to 'day 7'"
    nearest = "" if text.startswith("day") else nearest_word(text, (*WEEKDAYS, *_DAYS_IN_FULL))[:3]
    raise refuse(f"{key!r} is not a day", expected, key, nearest)


def is_counted(day: str) -> bool:
    """Whether a day is ``day 1`` and the like, no weekday."""
    return day.strip().lower().startswith("day")


def _read_slug(value: object) -> str:
    if isinstance(value, str) and w.SLUG.fullmatch(value):
        if len(value) > w.LONGEST_NAME:
            raise refuse(f"a name of {len(value)} letters is too long", f"at most {w.LONGEST_NAME}", value)
        return value
    raise refuse(f"{value!r} is not a name", "small letters, digits and single hyphens, such as back-squat", value)


def _read_date(value: object) -> date:
    expected = "a date as year-month-day, such as 2026-03-02"
    if isinstance(value, str) and w.DATE.fullmatch(value):
        try:
            return date.fromisoformat(value)
        except ValueError:
            raise refuse(f"{value!r} is not in the calendar", expected, value) from None
    raise refuse(f"{value!r} is not a date", expected, value)


def _in_reach(day: date) -> date:
    """A date that every calendar and workbook can hold, and from which every week of a program is still in one."""
    if not 1900 <= day.year < 3000:
        raise refuse(f"{day} is far from today", "a year from 1900 to 2999", str(day))
    return day


def _read_time_of_day(value: object) -> time:
    if isinstance(value, str) and w.TIME_OF_DAY_TEXT.fullmatch(value):
        return time.fromisoformat(value)
    raise refuse(f"{value!r} is not a time of day", "hours and minutes of a 24-hour clock, such as 18:00", value)


def _read_matching(pattern: re.Pattern[str], expected: str) -> Callable[[object], str]:
    def read(value: object) -> str:
        if isinstance(value, str) and pattern.fullmatch(value):
            return value
        raise refuse(f"{value!r} will not do here", expected, value)

    return read


def _read_address(value: object) -> str:
    expected = "a web address that starts with https:// or http://"
    address = _read_matching(w.WEB_ADDRESS, expected)(value)
    if not _host_of(address):
        raise refuse(f"{value!r} leads to no host", f"{expected}, such as https://barn.example/", value)
    return address


def _host_of(address: str) -> str:
    """The host an address names; nothing if there is none or the address is not put together as one."""
    try:
        parts = urlsplit(address)
        return (parts.hostname or "") if parts.port != 0 else ""
    except ValueError:
        return ""


def _begins_addresses(address: str) -> str:
    """Refuse what no page's address can begin with."""
    expected = "an address such as https://barn.example/ or https://barn.example/training"
    if "?" in address or "#" in address:
        raise refuse("the pages' addresses begin with this: it cannot have a question mark or a number sign", expected)
    if "//" in urlsplit(address).path:
        raise refuse("there are two slashes beside each other within this address", expected)
    if len(address.encode()) > w.LONGEST_SITE_ADDRESS:
        raise refuse("this address is too long", f"at most {w.LONGEST_SITE_ADDRESS:,} bytes")
    return address


MOST_EDITIONS = 2**31 - 1
"""The largest number a calendar counts to (RFC 5545, section 3.3.8)."""


def _counted_plates(value: object) -> object:
    """A list of plates means as many pairs of each as a bar can take."""
    return _each_with(None, value)


def equal_shares(value: object) -> object:
    """A list of muscles trained indirectly counts each at one half."""
    return _each_with(Decimal("0.5"), value)


def _each_with(usual: object, value: object) -> object:
    """A list as a mapping from its entries, as they are written; anything else as it is."""
    if not isinstance(value, list) or any(isinstance(each, list | dict) for each in value):
        return value
    return {str(each): usual for each in value}


def _loads_something(plates: dict[q.Mass, int | None]) -> dict[q.Mass, int | None]:
    if not any(count is None or count > 0 for count in plates.values()):
        raise refuse("there is nothing to load", "one plate or more")
    return plates


def _above_nothing(mass: q.Mass) -> q.Mass:
    if not mass.amount:
        raise refuse(f"0 {mass.unit} is no mass", "more than 0")
    return mass


def _to_be_seen(text: str) -> str:
    """Refuse a text of blanks alone, those that take no room included, as one without a letter is refused."""
    if not w.SEEN.search(text):
        raise PydanticKnownError("string_too_short", {"min_length": 1})
    return text


def _none_or_more(sets: tuple[int, int]) -> tuple[int, int]:
    if sets[0] < 0:
        raise refuse(f"{sets[0]} sets cannot be done", "0 or more, or a range such as 10-14", sets)
    return sets


def each_once(words: tuple[T, ...]) -> tuple[T, ...]:
    """Refuse a list that names something twice."""
    twice = next((word for index, word in enumerate(words) if word in words[:index]), None)
    if twice is not None:
        raise refuse(f"{twice!r} is named twice", "each once", words)
    return words


def _read_share_of_set(value: object) -> Decimal:
    if isinstance(value, Decimal):
        return value
    if isinstance(value, int | float) and not isinstance(value, bool) and 0 < value <= 1:
        return Decimal(str(value))
    raise refuse(f"{value!r} is not a share of a set", "a number above 0 and at most 1, such as 0.5", value)


Mass = Annotated[q.Mass, quantity(q.read_mass), w.MASS]
RealMass = Annotated[Mass, AfterValidator(_above_nothing), w.REAL_MASS]
Seconds = Annotated[int, quantity(q.read_seconds), w.TIME]
Percent = Annotated[Decimal, quantity(q.read_percent), w.percent("A share in percent.", "75 %")]
Share = Annotated[
    Percent,
    within(Decimal("0.1"), Decimal(100), "more than 0 % and at most 100 %"),
    w.percent("A share, more than 0 % and at most 100 %.", "60 %"),
]
Reduction = Annotated[
    Percent, within(Decimal(1), Decimal(90), "1 % to 90 %"), w.percent("A share, 1 % to 90 %.", "20 %")
]
ShareOfLift = Annotated[
    Percent, within(Decimal(1), Decimal(300), "1 % to 300 %"), w.percent("A share, 1 % to 300 %.", "80 %")
]
Rest = Annotated[
    Seconds, within(0, 3600, "at most 60 min"), w.duration("A time, at most 60 min.", "90 s", "2 min", "1:30")
]
Pause = Annotated[Seconds, within(1, 300, "1 s to 5 min"), w.duration("A time, 1 s to 5 min.", "15 s")]
ShareLeft = Annotated[
    Percent, within(Decimal(10), Decimal(99), "10 % to 99 %"), w.percent("A share, 10 % to 99 %.", "85 %")
]
Step = Annotated[
    Percent, within(Decimal("0.5"), Decimal(30), "0.5 % to 30 %"), w.percent("A share, 0.5 % to 30 %.", "5 %")
]
Hold = Annotated[Seconds, within(1, 600, "1 s to 10 min"), w.duration("A time, 1 s to 10 min.", "30 s")]
SessionTime = Annotated[
    Seconds, within(60, 6 * 3600, "1 min to 6 h"), w.duration("A time, 1 min to 6 h.", "60 min", "1 h 15 min")
]
RepsField = Annotated[q.Reps, quantity(q.read_reps), w.REPS]
SetsField = Annotated[q.SetCount, quantity(q.read_sets), w.SETS]
EffortField = Annotated[q.Effort, quantity(q.read_effort), w.EFFORT]
TempoField = Annotated[q.Tempo, quantity(q.read_tempo), w.TEMPO]
LoadField = Annotated[q.LoadSpec, quantity(q.read_load), w.LOAD]
BestField = Annotated[q.Best, quantity(q.read_best), w.BEST]
SetsRange = Annotated[tuple[int, int], quantity(q.read_range), AfterValidator(_none_or_more), w.SETS_RANGE]
ShareOfSet = Annotated[Decimal, PlainValidator(_read_share_of_set), w.SHARE_OF_SET]

Whole = Annotated[int, Field(strict=True)]
_SEEN = {"pattern": w.SEEN.pattern}
"""What an editor is told of a text beside its length."""
Text = Annotated[
    str, Field(strict=True, min_length=1, max_length=50_000, json_schema_extra=_SEEN), AfterValidator(_to_be_seen)
]
Title = Annotated[
    str, Field(strict=True, min_length=1, max_length=200, json_schema_extra=_SEEN), AfterValidator(_to_be_seen)
]
Slug = Annotated[str, PlainValidator(_read_slug), w.NAME]
Day = Annotated[int, PlainValidator(read_day), w.A_DAY]
CalendarDate = Annotated[date, PlainValidator(_read_date), AfterValidator(_in_reach), w.CALENDAR_DATE]
TimeOfDay = Annotated[time, PlainValidator(_read_time_of_day), w.TIME_OF_DAY]
WebAddress = Annotated[str, PlainValidator(_read_address), w.ADDRESS]
SiteAddress = Annotated[WebAddress, AfterValidator(_begins_addresses), w.SITE_ADDRESS]
Edition = Annotated[int, Field(strict=True, ge=1, le=MOST_EDITIONS)]
PictureName = Annotated[
    str,
    PlainValidator(_read_matching(w.PICTURE, "the name of a PNG file in theme/, such as mark.png")),
    w.A_PICTURE,
]
Colour = Annotated[str, PlainValidator(_read_matching(w.COLOUR, 'a colour such as "#1a2b3c", in quotes')), w.A_COLOUR]
PairCount = Annotated[int, Field(strict=True, ge=0, le=50)] | None
Plates = Annotated[
    dict[RealMass, PairCount], BeforeValidator(_counted_plates), AfterValidator(_loads_something), w.ListSchema()
]

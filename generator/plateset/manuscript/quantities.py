"""Quantities as an author writes them: masses, times, shares, repetitions, efforts, loads.

Every ``read_*`` function takes one YAML scalar and returns a value, or raises :class:`QuantityError` saying
what was expected. Masses are exact decimals; the pound is 0.45359237 kg by definition (international yard and
pound agreement, 1 July 1959).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from plateset.manuscript.vocabulary import Unit
from plateset.records import record

KG_PER_LB = Decimal("0.45359237")

_NUMBER = r"([0-9]{1,6}(?:\.[0-9]{1,6})?)"
MASS = re.compile(rf"{_NUMBER}\s*(kg|lbs?)")
MIN_SEC = re.compile(r"([0-9]{1,3}):([0-5][0-9])")
DURATION = re.compile(rf"(?:{_NUMBER}\s*h)?\s*(?:{_NUMBER}\s*min)?\s*(?:{_NUMBER}\s*s)?")
SHARE = re.compile(rf"{_NUMBER}\s*%")
RANGE = re.compile(r"([0-9]{1,4})\s*(?:-|–|to)\s*([0-9]{1,4})")
RIR = re.compile(r"([0-9]{1,2}(?:\.5)?)(?:\s*-\s*([0-9]{1,2}))?\s*RIR", re.IGNORECASE)
RIR_FALL = re.compile(r"([0-9]{1,2}(?:\.5)?)\s*to\s*([0-9]{1,2}(?:\.5)?)\s*RIR", re.IGNORECASE)
RPE_RISE = re.compile(r"RPE\s*([0-9]{1,2}(?:\.5)?)\s*to\s*([0-9]{1,2}(?:\.5)?)", re.IGNORECASE)
RPE = re.compile(r"(?:RPE\s*([0-9]{1,2}(?:\.5)?)|([0-9]{1,2}(?:\.5)?)\s*RPE)", re.IGNORECASE)
BODYWEIGHT = re.compile(rf"bodyweight(?:\s*([+-])\s*{_NUMBER}\s*(kg|lbs?))?")
BEST = re.compile(r"(.+?)\s*[x×]\s*([0-9]{1,3})")
TEMPO_PART = re.compile(r"[0-9]{1,2}|X")


class QuantityError(ValueError):
    """A scalar that is not the quantity asked for; ``expected`` says what would do."""

    def __init__(self, message: str, expected: str) -> None:
        super().__init__(message)
        self.message = message
        self.expected = expected


@dataclass(frozen=True, order=True)
class Mass:
    """A mass in the unit it was written in."""

    amount: Decimal
    unit: Unit

    def to(self, unit: Unit) -> Decimal:
        """The amount in ``unit``, converted exactly (28 digits where lb divides kg)."""
        if unit == self.unit:
            return self.amount
        return self.amount * KG_PER_LB if unit == "kg" else self.amount / KG_PER_LB


@record
class Reps:
    """Repetitions of a set: ``low`` to ``high``; ``open`` means as many as possible, with no number given."""

    low: int
    high: int
    open: bool = False


@record
class Effort:
    """How near a set ends to failure, as repetitions in reserve (0 is failure; half points allowed).

    ``first`` is the reserve of the first set where it falls over sets held at one load; ``rir`` is the last set's.
    """

    rir: Decimal
    written: Literal["RIR", "RPE", "failure"] = "RIR"
    first: Decimal | None = None

    @property
    def fresh(self) -> Decimal:
        """The reserve of the first set: what the load has to leave."""
        return self.rir if self.first is None else self.first


@record
class SetCount:
    """Sets of a line: ``least`` to ``most``; those beyond the least are the reader's choice."""

    least: int
    most: int


@record
class Tempo:
    """Seconds of one repetition: lowering, pause, lifting, pause. ``X`` (fast) is taken as one second."""

    lower: int
    bottom: int
    lift: int
    top: int
    fast: bool = False

    @property
    def seconds(self) -> int:
        """Seconds a repetition takes."""
        return self.lower + self.bottom + self.lift + self.top


@record
class PercentOfMax:
    """A share of the lifter's one-repetition maximum, in percent."""

    percent: Decimal


@record
class FixedLoad:
    """The same mass for everyone."""

    mass: Mass


@record
class BodyweightLoad:
    """The lifter's own weight, plus (or, when negative, minus) a mass."""

    added: Mass | None = None


@record
class ByFeel:
    """No load is worked out; the lifter picks it."""


LoadSpec = PercentOfMax | FixedLoad | BodyweightLoad | ByFeel


@record
class Best:
    """A set the lifter has done: a load and its repetitions to failure."""

    load: FixedLoad | BodyweightLoad
    reps: int


def _text(value: object, expected: str) -> str:
    if isinstance(value, str):
        return value.strip()
    if value is None:
        raise QuantityError("nothing is written here", expected)
    kind = "a list" if isinstance(value, list) else "a mapping" if isinstance(value, dict) else repr(value)
    hint = " has no unit" if isinstance(value, int | float) and not isinstance(value, bool) else " is not a quantity"
    raise QuantityError(f"{kind}{hint}", expected)


def _unit(word: str) -> Unit:
    return "kg" if word == "kg" else "lb"


def read_mass(value: object) -> Mass:
    """``60 kg`` or ``135 lb``."""
    expected = "a mass with its unit, such as 60 kg or 135 lb"
    text = _text(value, expected)
    match = MASS.fullmatch(text)
    if not match and re.search(r"[0-9],[0-9]", text):
        raise QuantityError(f"{value!r} has a decimal comma", f"a decimal point: {text.replace(',', '.')}")
    if not match:
        lacking = "has no unit" if re.fullmatch(_NUMBER, text) else "is not a mass"
        raise QuantityError(f"{value!r} {lacking}", expected)
    return Mass(Decimal(match[1]), _unit(match[2]))


def read_seconds(value: object) -> int:
    """``90 s``, ``2 min``, ``1 min 30 s`` or ``1:30``, in whole seconds."""
    expected = "a time with its unit, such as 90 s, 2 min or 1:30"
    text = _text(value, expected)
    if match := MIN_SEC.fullmatch(text):
        return int(match[1]) * 60 + int(match[2])
    match = DURATION.fullmatch(text)
    if not text or not match:
        raise QuantityError(f"{value!r} is not a time", expected)
    hours, minutes, seconds = (Fraction(part or 0) for part in match.groups())
    total = hours * 3600 + minutes * 60 + seconds
    if total.denominator != 1:
        raise QuantityError(f"{value!r} is not a whole number of seconds", expected)
    return int(total)


def read_percent(value: object) -> Decimal:
    """``75 %``, as the number of percent."""
    expected = "a share in percent, such as 75 %"
    match = SHARE.fullmatch(_text(value, expected))
    if not match:
        raise QuantityError(f"{value!r} is not a share", expected)
    return Decimal(match[1])


def read_range(value: object) -> tuple[int, int]:
    """``12`` or ``8-12``: a whole number or a range from the smaller to the larger."""
    expected = "a whole number or a range, such as 12 or 8-12"
    if isinstance(value, int) and not isinstance(value, bool):
        low = high = value
    else:
        match = RANGE.fullmatch(_text(value, expected)) if isinstance(value, str) else None
        if not match:
            raise QuantityError(f"{value!r} is not a number or a range", expected)
        low, high = int(match[1]), int(match[2])
    if low > high:
        raise QuantityError(f"the range {value} runs backwards", f"the smaller number first: {high}-{low}")
    return low, high


def read_reps(value: object) -> Reps:
    """``5``, ``8-12`` or ``as many as possible``."""
    if isinstance(value, str) and value.strip().lower() == "as many as possible":
        return Reps(1, 1, open=True)
    expected = "repetitions: a number from 1, a range such as 8-12, or 'as many as possible'"
    try:
        low, high = read_range(value)
    except QuantityError as error:
        backwards = "backwards" in error.message
        raise QuantityError(error.message, error.expected if backwards else expected) from None
    if low < 1:
        raise QuantityError(f"{value} repetitions are no set", expected)
    if high > 100:
        raise QuantityError(f"{value} repetitions are more than 100", "repetitions from 1 to 100")
    return Reps(low, high)


def read_sets(value: object) -> SetCount:
    """``4``, or ``2-4`` where the reader may stop at two or go on to four."""
    expected = "sets: a whole number from 1 to 20, or a range such as 2-4"
    try:
        least, most = read_range(value)
    except QuantityError as error:
        backwards = "backwards" in error.message
        raise QuantityError(error.message, error.expected if backwards else expected) from None
    if not 1 <= most <= 20:
        raise QuantityError(f"{value} is out of bounds for 'sets'", expected)
    return SetCount(least, most)


def read_effort(value: object) -> Effort:
    """``2 RIR``, ``1-2 RIR`` (read as 1.5), ``RPE 8``, ``RPE 8.5``, ``to failure``, or ``3 to 1 RIR`` over the sets.

    RIR = 10 - RPE for RPE 7 to 10 (Helms et al. 2016, Strength and Conditioning Journal 38(4):42-49).
    """
    expected = "an effort: 2 RIR, 1.5 RIR, RPE 8, RPE 8.5, 'to failure', or 3 to 1 RIR from the first set to the last"
    text = _text(value, expected)
    if match := RIR_FALL.fullmatch(text):
        return _falling(text, Decimal(match[1]), Decimal(match[2]), "RIR")
    if match := RPE_RISE.fullmatch(text):
        return _falling(text, 10 - Decimal(match[1]), 10 - Decimal(match[2]), "RPE")
    if text.lower() == "to failure":
        return Effort(Decimal(0), "failure")
    if match := RIR.fullmatch(text):
        rir = Decimal(match[1])
        if match[2] is not None:
            if Decimal(match[2]) - rir != 1:
                raise QuantityError(f"{text!r} spans more than one repetition", "neighbours, such as 1-2 RIR")
            rir += Decimal("0.5")
        if rir > 6:
            raise QuantityError(f"{text!r} is further from failure than anyone can judge", "6 RIR or less")
        return Effort(rir)
    if match := RPE.fullmatch(text):
        rpe = Decimal(match[1] or match[2])
        if not 6 <= rpe <= 10:
            raise QuantityError(f"{text!r} is outside the scale used for loading", "RPE 6 to RPE 10")
        return Effort(10 - rpe, "RPE")
    raise QuantityError(f"{value!r} is not an effort", expected)


def _falling(text: str, first: Decimal, last: Decimal, written: Literal["RIR", "RPE"]) -> Effort:
    if not 0 <= last < first <= 6:
        ways = "the first set's reserve, then the last one's, which is less: 3 to 1 RIR, RPE 7 to 9; 6 RIR at most"
        raise QuantityError(f"{text!r} does not fall from the first set to the last", ways)
    return Effort(last, written, first)


def read_tempo(value: object) -> Tempo:
    """``3-1-1-0``: seconds of lowering, pause, lifting, pause (order: common practice, no source)."""
    expected = "four parts: lower-pause-lift-pause in seconds, such as 3-1-1-0 or 3-0-X-0"
    parts = _text(value, expected).split("-")
    if len(parts) != 4 or not all(TEMPO_PART.fullmatch(part) for part in parts):
        raise QuantityError(f"{value!r} is not a tempo", expected)
    lower, bottom, lift, top = (1 if part == "X" else int(part) for part in parts)
    if lower + bottom + lift + top == 0:
        raise QuantityError(f"{value!r} takes no time at all", expected)
    return Tempo(lower, bottom, lift, top, fast=parts[2] == "X")


def read_load(value: object) -> LoadSpec:
    """``72.5 %``, ``60 kg``, ``bodyweight``, with ``+ 10 kg`` or ``- 20 kg`` if need be, or ``by feel``."""
    expected = "a load: 70 %, 60 kg, bodyweight, bodyweight + 10 kg, bodyweight - 20 kg or 'by feel'"
    text = _text(value, expected)
    if text == "by feel":
        return ByFeel()
    if match := SHARE.fullmatch(text):
        percent = Decimal(match[1])
        if not 0 < percent <= 150:
            raise QuantityError(f"{text} of a max cannot be trained with", "more than 0 % and at most 150 %")
        return PercentOfMax(percent)
    carried = _read_carried(text)
    if carried is None:
        raise QuantityError(f"{value!r} is not a load", expected)
    return carried


def _read_carried(text: str) -> FixedLoad | BodyweightLoad | None:
    if match := MASS.fullmatch(text):
        if not Decimal(match[1]):
            raise QuantityError(f"{text} is no load", "more than 0, or 'bodyweight'")
        return FixedLoad(Mass(Decimal(match[1]), _unit(match[2])))
    match = BODYWEIGHT.fullmatch(text)
    if match is None:
        return None
    if match[1] is None:
        return BodyweightLoad()
    return BodyweightLoad(Mass(Decimal(match[1] + match[2]), _unit(match[3])))


def read_best(value: object) -> Best:
    """``120 kg x 1`` or ``bodyweight + 10 kg x 5``: a load and the repetitions done with it."""
    expected = "a set done to failure, such as 120 kg x 1 or bodyweight + 10 kg x 5"
    match = BEST.fullmatch(_text(value, expected))
    load = _read_carried(match[1]) if match else None
    if not match or load is None or int(match[2]) < 1:
        raise QuantityError(f"{value!r} is not a recorded set", expected)
    return Best(load, int(match[2]))

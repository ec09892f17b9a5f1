"""Sentences that a plan tells its reader: phrases beside what they name, for each language to put where it fits."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from plateset.manuscript.quantities import Mass
from plateset.records import record

Named = Mass | Decimal | int
"""What a sentence may name."""


@record
class Sentence:
    """A phrase that names its ``values`` as in ``%(name)s``; ``many`` is the phrase for a ``count`` other than one."""

    phrase: str
    values: tuple[tuple[str, Named], ...] = ()
    many: str = ""
    count: int = 1


def in_english(told: Iterable[Sentence]) -> str:
    """The sentences as they stand in tables and data."""
    return " ".join(_in_english(each) for each in told)


def _in_english(told: Sentence) -> str:
    phrase = told.many if told.many and told.count != 1 else told.phrase
    return phrase % {name: _english(value) for name, value in told.values}


def _english(value: Named) -> str:
    if isinstance(value, Mass):
        return f"{value.amount.normalize():f} {value.unit}"
    return f"{value.normalize():f}" if isinstance(value, Decimal) else str(value)

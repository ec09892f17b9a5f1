"""The site's language: the words of its interface from a theme's catalogue, dates and numbers as its readers write.

A catalogue is a PO file (GNU gettext's format): ``words.en.po`` in the theme holds every phrase, ``words.nb.po``
beside it would say them in Norwegian. A phrase without a translation is said in English. An author's own theme folder
may hold a catalogue of the same name; its phrases come first.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from functools import lru_cache
from gettext import NullTranslations
from typing import Literal

from babel import Locale
from babel.dates import format_date, get_day_names
from babel.numbers import format_decimal

from plateset.catalogue import BRITISH, locale_of, read_catalogue

LETTER_COUNTRIES = frozenset({"BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"})
"""Where paper is US Letter (after Unicode CLDR, supplemental measurement data; the list from memory)."""


NOUNS_BEGIN_HIGH = frozenset({"de", "lb", "nds", "gsw", "frr"})
"""Languages whose nouns begin with a capital within a sentence too (from memory)."""


@dataclass(frozen=True)
class Language:
    """How a site speaks: ``tag`` as in ``site.yaml``, ``words`` its catalogues, one behind the other."""

    tag: str = "en"
    words: NullTranslations = field(default_factory=NullTranslations)

    @property
    def locale(self) -> Locale:
        """Where dates and numbers are set as; British English for a language that is not known."""
        return BRITISH if self.tag == "en" else locale_of(self.tag) or BRITISH

    def say(self, phrase: str) -> str:
        """The phrase in this language."""
        return _said(self.words, phrase) if phrase else ""

    def low(self, words: str) -> str:
        """Words that begin something, as they stand within a sentence; some languages begin every noun high."""
        return words if self.tag.partition("-")[0] in NOUNS_BEGIN_HIGH else words[:1].lower() + words[1:]

    def count(self, one: str, many: str, number: int) -> str:
        """The phrase for ``number`` things in this language."""
        return self.words.ngettext(one, many, number)

    def number(self, value: Decimal) -> str:
        """'62.5', or '62,5' where that is the custom; no trailing noughts, no separators of thousands."""
        return _number(str(value), self.tag)

    @property
    def point(self) -> str:
        """What stands before tenths: '.', or ','."""
        return self.number(Decimal("0.5"))[1:-1]

    @property
    def list_mark(self) -> str:
        """What stands between numbers in a row: a comma that also begins tenths would make '40, 47,5' hard to read."""
        return "; " if self.point == "," else ", "

    def date(self, day: date) -> str:
        """'2 March 2026'."""
        return format_date(day, "long", locale=self.locale)

    def weekday(self, day: int) -> str:
        """'Monday' for 1."""
        names = get_day_names("wide", "stand-alone", self.locale)
        return str(names[day - 1])


ENGLISH = Language()


@lru_cache(maxsize=10_000)  # lists say the same few words for every program
def _said(words: NullTranslations, phrase: str) -> str:
    return words.gettext(phrase)


@lru_cache(maxsize=10_000)  # a program says the same few hundred numbers thousands of times
def _number(value: str, tag: str) -> str:
    return format_decimal(Decimal(value).normalize() + 0, "0.######", locale=Language(tag).locale)


@lru_cache(maxsize=32)  # the same words are the same language, which is what a preview goes by
def language_of(tag: str, catalogues: tuple[bytes, ...]) -> Language:
    """The language of a site, from its catalogues, the one that goes first first. Raises :class:`CatalogueError`."""
    words = NullTranslations()
    for data in reversed(catalogues):
        words, behind = read_catalogue(data, tag), words
        words.add_fallback(behind)
    return Language(tag, words)


def usual_paper(tag: str) -> Literal["a4", "letter"]:
    """The paper of the language's country; A4 where no country is named."""
    locale = locale_of(tag)
    return "letter" if locale and locale.territory in LETTER_COUNTRIES else "a4"

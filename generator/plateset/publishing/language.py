"""The site's language: the words of its interface from a theme's catalogue, dates and numbers as its readers write.

A catalogue is a PO file (GNU gettext's format): ``words.en.po`` in the theme holds every phrase, ``words.nb.po``
beside it would say them in Norwegian. A phrase without a translation is said in English. An author's own theme folder
may hold a catalogue of the same name; its phrases come first.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from functools import lru_cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from typing import Literal

from babel import Locale, UnknownLocaleError
from babel.dates import format_date, get_day_names
from babel.messages.catalog import Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import PoFileError, read_po
from babel.numbers import format_decimal

BRITISH = Locale("en", "GB")
"""English without a country is set as in Britain, as the shipped texts are: '2 March 2026'."""
LETTER_COUNTRIES = frozenset({"BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"})
"""Where paper is US Letter (after Unicode CLDR, supplemental measurement data; the list from memory)."""


NOUNS_BEGIN_HIGH = frozenset({"de", "lb", "nds", "gsw", "frr"})
"""Languages whose nouns begin with a capital within a sentence too (from memory)."""


class CatalogueError(Exception):
    """A catalogue that cannot be read; the message names the line."""


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


def locale_of(tag: str) -> Locale | None:
    """The locale of a language tag such as ``nb-NO``; None where none is known."""
    try:
        return Locale.parse(tag, sep="-")
    except (UnknownLocaleError, ValueError):
        return None


@lru_cache(maxsize=32)  # the same words are the same language, which is what a preview goes by
def language_of(tag: str, catalogues: tuple[bytes, ...]) -> Language:
    """The language of a site, from its catalogues, the one that goes first first. Raises :class:`CatalogueError`."""
    words = NullTranslations()
    for data in reversed(catalogues):
        words, behind = _read(data, tag), words
        words.add_fallback(behind)
    return Language(tag, words)


def _read(data: bytes, tag: str) -> NullTranslations:
    compiled = BytesIO()
    try:
        catalogue = read_po(BytesIO(data), locale=locale_of(tag) or BRITISH, abort_invalid=True)
        write_mo(compiled, catalogue)
        compiled.seek(0)
        words = GNUTranslations(compiled)
        for number in COUNTS:
            words.ngettext("one", "many", number)
            words.plural(number)  # type: ignore[attr-defined]
    except PoFileError as error:
        raise CatalogueError(f"line {error.lineno + 1}: {error}") from error
    except (ValueError, LookupError, ArithmeticError, OSError, RecursionError) as error:
        raise CatalogueError(str(error)) from error
    for message in catalogue:
        _check(message)
    return words


COUNTS = (0, 1, 2, 3, 5, 11, 21, 100)
"""Numbers that languages count differently; the rule of a catalogue has to know them all."""
_VALUE = re.compile(r"%\((\w+)\)")


def _check(message: Message) -> None:
    """Refuse a translation that values cannot be put into as into the phrase. Raises :class:`CatalogueError`."""
    phrases = [message.id] if isinstance(message.id, str) else list(message.id)
    given = dict.fromkeys(_VALUE.findall(" ".join(phrases)), 1)
    if not message.id or not all(_takes(phrase, given) for phrase in phrases):
        return  # a phrase that stands as it is
    said = [message.string] if isinstance(message.string, str) else list(message.string or ())
    for translation in said:
        if not _takes(translation, given):
            known = ", ".join(f"%({name})s" for name in given) or "none"
            raise CatalogueError(f"line {message.lineno}: {translation!r} cannot be filled in; its values: {known}")


def _takes(phrase: str, given: Mapping[str, int]) -> bool:
    try:
        phrase % given
    except (KeyError, TypeError, ValueError):
        return False
    return True


def usual_paper(tag: str) -> Literal["a4", "letter"]:
    """The paper of the language's country; A4 where no country is named."""
    locale = locale_of(tag)
    return "letter" if locale and locale.territory in LETTER_COUNTRIES else "a4"

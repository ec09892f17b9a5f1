"""A catalogue read: the phrases of an interface and how they are said, a PO file (GNU gettext's format).

What is wrong with one is found as a whole: of its lines first, for the library passes over a mark that is missing and
says half of a phrase; then of each phrase.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO

from babel import Locale, UnknownLocaleError
from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import PoFileError, read_po

from plateset.usual_cautions import SAID_WHOLE

BRITISH = Locale("en", "GB")
"""English without a country is set as in Britain, as the shipped texts are: '2 March 2026'."""
COUNTS = (0, 1, 2, 3, 5, 11, 21, 100)
"""Numbers that languages count differently; the rule of a catalogue has to know them all."""

LEAST_SAID = 0.5
"""Of a caution, by its letters, a translation says at least so much; languages differ by less (from memory)."""

_VALUE = re.compile(r"%\((\w+)\)")
_NAMELESS = re.compile(r"%(?!\()")
"""A value without a name: all there are would be put there."""
_LINE = re.compile(r'(?P<word>[a-z_]*(?:\[\d+\])?)\s*"(?P<text>(?:[^"\\]|\\.)*)"')
_WORD = re.compile(r"msgctxt|msgid|msgid_plural|msgstr(?:\[\d+\])?|")


@dataclass(frozen=True, order=True)
class Fault:
    """What is wrong with a catalogue; ``line`` counts from 1, 0 is the file as a whole."""

    line: int
    message: str
    expected: str


class CatalogueError(Exception):
    """A catalogue that cannot be used; carries every fault found, in order, and tells the first."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = tuple(sorted(faults))
        first = self.faults[0]
        super().__init__(f"line {first.line}: {first.message}" if first.line else first.message)


@dataclass(frozen=True)
class Phrase:
    """A phrase that a catalogue says; ``one`` is the one for a single thing where it is ``counted``."""

    one: str
    counted: bool
    line: int


def locale_of(tag: str) -> Locale | None:
    """The locale of a language tag such as ``nb-NO``; None where none is known."""
    try:
        return Locale.parse(tag, sep="-")
    except (UnknownLocaleError, ValueError):
        return None


def read_catalogue(data: bytes, tag: str) -> NullTranslations:
    """How phrases are said, to be asked as the standard library's translations are. Raises :class:`CatalogueError`."""
    catalogue = _parsed(data, tag)
    compiled = BytesIO()
    try:
        write_mo(compiled, catalogue)
        compiled.seek(0)
        words = GNUTranslations(compiled)
        for number in COUNTS:
            words.ngettext("one", "many", number)
            words.plural(number)  # type: ignore[attr-defined]
    except (ValueError, LookupError, ArithmeticError, OSError, RecursionError) as error:
        raise CatalogueError([Fault(0, str(error), "a catalogue that its readers can use")]) from error
    faults = [fault for message in catalogue for fault in _faults_of(message, tag)]
    if faults:
        raise CatalogueError(faults)
    return words


@lru_cache(maxsize=8)  # the theme's own is asked for beside each of a manuscript's
def phrases_of(data: bytes, tag: str, *, unsaid: bool = False) -> tuple[Phrase, ...]:
    """The phrases that a catalogue says, or with ``unsaid`` all it names. Raises :class:`CatalogueError`."""
    return tuple(
        Phrase(message.id if isinstance(message.id, str) else message.id[0], message.pluralizable, message.lineno or 0)
        for message in _parsed(data, tag)
        if message.id and (unsaid or (any(_said(message)) and not message.fuzzy))
    )


def _parsed(data: bytes, tag: str) -> Catalog:
    faults = list(_faults_of_lines(data.decode("utf-8", "replace")))
    if faults:
        raise CatalogueError(faults)
    try:
        return read_po(BytesIO(data), locale=locale_of(tag) or BRITISH, abort_invalid=True)
    except PoFileError as error:
        raise CatalogueError([Fault(error.lineno + 1, str(error), "a line of a PO file")]) from error
    except (ValueError, LookupError, ArithmeticError, OSError, RecursionError) as error:
        raise CatalogueError([Fault(0, str(error), "a PO file")]) from error


def _faults_of_lines(text: str) -> Iterator[Fault]:
    """Lines that are none of a PO file, and phrases that stand there twice, of which one would never be said."""
    seen: dict[tuple[str, str], int] = {}
    word, context, phrase, begun = "", "", "", 0
    for number, line in enumerate([*text.split("\n"), 'msgstr ""'], start=1):
        stripped = line.strip()
        if not stripped or stripped.startswith("#"):
            continue
        found = _LINE.fullmatch(stripped)
        if found is None or not _WORD.fullmatch(found["word"]):
            yield Fault(number, "this is no line of a catalogue", _expected_of(stripped))
            continue
        if found["word"] and word == "msgid" and begun:
            if (first := seen.setdefault((context, phrase), begun)) != begun:
                yield Fault(begun, f"the phrase stands in line {first} too, and only one is said", "each phrase once")
            context = ""
        word = found["word"] or word
        if found["word"] == "msgid":
            phrase, begun = "", number
        elif found["word"] == "msgctxt":
            context = ""
        phrase += found["text"] if word == "msgid" else ""
        context += found["text"] if word == "msgctxt" else ""


def _expected_of(line: str) -> str:
    if line.count('"') == 0:
        return 'msgid or msgstr and a text between " and ", or # before a remark'
    return 'a text between " and ", with \\" for a mark within it'


def _faults_of(message: Message, tag: str) -> Iterator[Fault]:
    """Translations that values cannot be put into as into the phrase, and those that leave a caution out."""
    if isinstance(message.id, str) and message.id in SAID_WHOLE and message.string and not message.fuzzy:
        yield from _faults_of_caution(message.id, str(message.string), message.lineno or 0, tag)
    phrases = [message.id] if isinstance(message.id, str) else list(message.id)
    given = dict.fromkeys(_VALUE.findall(" ".join(phrases)), 1)
    if not message.id or not all(_takes(phrase, given) for phrase in phrases):
        return  # a phrase that stands as it is
    for translation in _said(message):
        if not _takes(translation, given):
            known = ", ".join(f"%({name})s" for name in given) or "none"
            yield Fault(message.lineno or 0, f"{translation!r} cannot be filled in; its values: {known}", known)


def _faults_of_caution(caution: str, said: str, line: int, tag: str) -> Iterator[Fault]:
    if tag.partition("-")[0] == "en":
        if said != caution:
            expected = "no other words for it; cautions of your own stand in site.yaml and in programs"
            yield Fault(line, "a caution, or that a page is a draft, is said in these words in English", expected)
    elif _weight(said) < LEAST_SAID * _weight(caution):
        expected = "all of it in your language"
        yield Fault(line, "this leaves out most of a caution, or of what says that a page is a draft", expected)


def _weight(text: str) -> int:
    """The octets of a text's letters in UTF-8: nearly as many in scripts that write a word in one or two signs."""
    return sum(len(each.encode()) for each in text if each.isalpha())


def _said(message: Message) -> list[str]:
    return [message.string] if isinstance(message.string, str) else list(message.string or ())


def _takes(phrase: str, given: Mapping[str, int]) -> bool:
    try:
        phrase % given
    except (KeyError, TypeError, ValueError):
        return False
    return not _NAMELESS.search(phrase.replace("%%", ""))

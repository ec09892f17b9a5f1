"""The typesetter: a theme's template and some data become a PDF. What an author wrote reaches it as data only."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from functools import cache, lru_cache, partial
from pathlib import Path
from typing import Any, Literal

import typst

from plateset.not_made import NotMadeError
from plateset.publishing.pdf_packing import packed

Paper = Literal["a4", "letter"]
Data = dict[str, Any]
Fonts = tuple[Path, ...]

NO_GLYPH = "□"
"""Stands for a character that the fonts of the sheet do not have."""

NOWHERE = Path(__file__)
"""Where a template finds files: no folder, so there are none."""

_EVERYDAY = re.compile(r"[\n\x20-\x7e\u00a0-\u017f\u2010-\u2015\u2018-\u201e\u2022\u2026\u00d7]*")
_ESCAPED = re.compile(r"\\[^n\"\\]")
"""A character that JSON escapes and that is not an everyday one: a control character, such as a tab."""

UNREAD = b"//"
"""Stands in front of the data of a sheet: the typesetter reads whatever it is handed as a template too, and is done
with a comment at once.
"""
MAIN = "main.typ"
"""What the typesetter calls the template itself."""
_PLACE = re.compile(r"┌─ .*?([^/\\\s]+\.typ):(\d+):\d+")

_JOINER = "\u200d"


class SheetError(NotMadeError):
    """A sheet could not be set; the message names the program, and the week where it is one week's."""


@dataclass(frozen=True)
class Template:
    """A template, and what it may import: the files of a ``folder``, those of ``own`` (name, bytes) in front of them.

    It can read those, its data, and nothing else. What lies in the folder is read once, not for every sheet.
    """

    main: bytes
    own: tuple[tuple[str, bytes], ...] = ()
    folder: Path = NOWHERE


@dataclass(frozen=True)
class Setting:
    """What sheets are set on and with: the paper, the theme's template, and folders of fonts beside the built-in ones.

    ``stamp`` is the moment the PDF says it was made; it has to know its time zone.
    """

    paper: Paper
    template: Template
    stamp: datetime
    fonts: Fonts = ()


def typeset(data: Data, setting: Setting, name: str) -> bytes:
    """The PDF, accessible and packed. Raises :class:`SheetError` that says ``name``; warnings are errors too."""
    try:
        return packed(set_somehow(data, setting.fonts, partial(_set, setting)))
    except SheetError as error:
        raise SheetError(f"The sheet of {name} was set with warnings: {error}") from None
    except PanicError as error:
        raise SheetError(f"The sheet of {name} could not be set: {error}") from error
    except typst.TypstError as error:
        hints = "".join(f" ({hint})" for hint in error.hints)
        raise SheetError(f"The sheet of {name} could not be set: {_place_of(error)}{error.message}{hints}") from error


def _set(setting: Setting, written: str) -> bytes:
    return _compile(setting.template, written, setting.fonts, setting.stamp)


def set_somehow(data: Data, fonts: Fonts, work: Callable[[str], bytes]) -> bytes:
    """What ``work`` makes of the data as JSON: as it is where all of it is everyday text, else as the fonts show it.

    If even that cannot be set, it is made of the plainest form of each text, with no marks and nothing unseen; raises
    what ``work`` raises for that.
    """
    written = _written(data)
    if _EVERYDAY.fullmatch(written) and not _ESCAPED.search(written):
        return work(written)
    try:
        return work(_written(_each_text(data, partial(printable, fonts=fonts))))
    except (typst.TypstError, PanicError):
        return work(_written(_each_text(data, partial(_plainly, fonts=fonts))))


class PanicError(Exception):
    """The typesetter's library gave up on a text instead of refusing it."""


@dataclass(frozen=True)
class Order:
    """What the typesetter is given: the data of a sheet, what it is set with, and the name it has in a message."""

    data: Data
    setting: Setting
    name: str

    def set(self) -> bytes:
        """The PDF; see :func:`typeset`. Equal input gives equal bytes."""
        return typeset(self.data, self.setting, self.name)


def printable(text: str, fonts: Fonts = ()) -> str:
    """The text as the sheet can show it: characters without a glyph in its fonts become an empty square."""
    if _EVERYDAY.fullmatch(text):
        return text
    shown = "".join(each if _has_glyphs(each, fonts) else NO_GLYPH for each in _clusters(text.replace("\t", " ")))
    # Marks and what is not seen act on what is beside them: a glyph for each cluster does not yet tell of the whole.
    return shown if not any(map(_acts, shown)) or _can_be_set(shown, fonts) else _plainly(text, fonts)


def _clusters(text: str) -> Iterator[str]:
    """Characters with the marks on them; a mark on nothing is left out."""
    found = ""
    for letter in text:
        if unicodedata.category(letter).startswith("M") or letter == _JOINER:
            found += letter if found else ""
        else:
            if found:
                yield found
            found = letter
    if found:
        yield found


def _acts(letter: str) -> bool:
    """Whether a character changes what is beside it: a mark, or one of those that are not seen."""
    return letter != "\n" and unicodedata.category(letter)[0] in "MC"


def _plainly(text: str, fonts: Fonts) -> str:
    """The text in letters that stand by themselves."""
    letters = unicodedata.normalize("NFC", text.replace("\t", " "))
    return "".join(each if _has_glyphs(each, fonts) else NO_GLYPH for each in letters if not _acts(each))


@cache
def _compiler(fonts: Fonts) -> typst.Compiler:
    # Fonts of the machine would make the same manuscript look different elsewhere.
    return typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False, font_paths=[str(path) for path in fonts]))


def _place_of(error: typst.TypstError) -> str:
    """'lifts.typ, line 7: ', where the typesetter says in which file of the template the fault is."""
    found = _PLACE.search(error.diagnostic)
    return f"{'sheet.typ' if found[1] == MAIN else found[1]}, line {found[2]}: " if found else ""


def _written(data: object) -> str:
    return json.dumps(data, ensure_ascii=False)


def _compile(template: Template, data: str, fonts: Fonts, stamp: datetime | None = None) -> bytes:
    files = {**dict(template.own), MAIN: template.main, "data.txt": UNREAD + data.encode()}
    with refusing():
        pdf, warnings = _compiler(fonts).compile_with_warnings(
            files,  # type: ignore[type-var]
            root=template.folder,
            format="pdf",
            pdf_standards="ua-1",
            timestamp=stamp,
        )
    if warnings:
        raise SheetError("; ".join(sorted({warning.message for warning in warnings})))
    return pdf  # type: ignore[return-value]


@contextmanager
def refusing() -> Iterator[None]:
    """A panic of the typesetter's library becomes a :class:`PanicError`: it comes as no :class:`Exception` at all."""
    try:
        yield
    except BaseException as error:
        if type(error).__name__ != "PanicException":
            raise
        _compiler.cache_clear()
        raise PanicError(f"the typesetter gave up: {error}") from None


def _each_text(value: Any, told: Callable[[str], str]) -> Any:
    if isinstance(value, str):
        return told(value)
    if isinstance(value, dict):
        return {key: _each_text(item, told) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_each_text(item, told) for item in value]
    return value


@cache
def _has_glyphs(cluster: str, fonts: Fonts) -> bool:
    if _EVERYDAY.fullmatch(cluster):
        return True
    return _can_be_set(cluster, fonts)


@lru_cache(maxsize=20_000)
def _can_be_set(text: str, fonts: Fonts) -> bool:
    # The accessible kind of PDF refuses text without glyphs, so a page of it answers the question.
    try:
        _compile(_PROBE, _written(text), fonts)
    except (typst.TypstError, SheetError, PanicError):
        return False
    return True


_PROBE = Template(b"""#set document(title: "probe")
#set text(font: "Libertinus Serif")
#json(bytes(read("data.txt").slice(2)))
""")

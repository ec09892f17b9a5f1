"""The words of a workbook that its sheets, formulas and formats share, in the site's language.

The name of a sheet, a text within a formula and a format of numbers take less than a cell does: what a translation has
beyond that is left out.
"""

from __future__ import annotations

import re
from dataclasses import asdict, astuple, dataclass, replace
from functools import lru_cache

from plateset.publishing.in_short import one_line
from plateset.publishing.language import ENGLISH, Language

LONGEST_NAME = 31
"""Characters of a sheet's name."""
LONGEST_WORD = 80
"""Characters of a text within a formula, which may have 255, or within a format."""

_NOT_IN_A_NAME = re.compile(r"[\[\]:*?/\\]")
NO_NAMES = ("", "history")
"""What no sheet may be called."""


@dataclass(frozen=True)
class SheetNames:
    """How the sheets are called, but for those of weeks; no two are called alike."""

    start: str = "Start here"
    your_lifts: str = "Your lifts"
    weekly_sets: str = "Weekly sets"
    loadable: str = "What can be loaded"
    numbers: str = "Numbers"


@dataclass(frozen=True)
class FormulaWords:
    """The texts that formulas compare or show."""

    by_feel: str = "by feel"
    left_out: str = "left out"
    """In place of a warm-up load that is not lighter than the first set, or no heavier than the step before."""
    too_light: str = "lightest there is, more than meant"
    too_heavy: str = "heaviest there is, less than meant"
    above_max: str = "above your max"
    each_hand: str = "each hand"
    nearest: str = "nearest"
    down: str = "down"


@dataclass(frozen=True)
class WorkbookWords:
    """All that a workbook says in ``language``."""

    language: Language = ENGLISH
    sheets: SheetNames = SheetNames()
    formulas: FormulaWords = FormulaWords()
    week_name: str = "Week %(number)s"

    def week(self, number: int) -> str:
        """The name of a week's sheet."""
        return _name(self.week_name % {"number": number})


@lru_cache(16)
def words_of(language: Language, weeks: tuple[int, ...]) -> WorkbookWords:
    """The words of a workbook with sheets for these weeks; names that cannot be told apart are the English ones."""
    formulas = FormulaWords(**{name: _word(phrase, language) for name, phrase in asdict(FormulaWords()).items()})
    if formulas.nearest == formulas.down or "," in formulas.nearest + formulas.down:  # a comma would part the choices
        formulas = replace(formulas, nearest=FormulaWords.nearest, down=FormulaWords.down)
    sheets = SheetNames(**{name: _name(language.say(phrase)) for name, phrase in asdict(SheetNames()).items()})
    found = WorkbookWords(language, sheets, formulas, language.say(WorkbookWords.week_name))
    names = [name.lower() for name in (*astuple(sheets), *map(found.week, weeks))]
    if len({*names, *NO_NAMES}) < len(names) + len(NO_NAMES):
        return WorkbookWords(language, formulas=formulas)
    return found


def _name(said: str) -> str:
    name = one_line(_NOT_IN_A_NAME.sub(" ", said))
    while len(name.encode("utf-16-le")) > 2 * LONGEST_NAME:
        name = name[:-1]
    return name.strip("' ")


def _word(phrase: str, language: Language) -> str:
    return one_line(language.say(phrase))[:LONGEST_WORD] or phrase


def quoted(sheet: str) -> str:
    """A sheet's name as an address begins with it."""
    return "'" + sheet.replace("'", "''") + "'"


def in_formula(text: str) -> str:
    """A text as it stands within a formula."""
    return '"' + text.replace('"', '""') + '"'


def in_format(text: str) -> str:
    """A text as it stands within a format of numbers, which knows no way to write a quotation mark."""
    return '"' + "".join(each for each in text if each.isprintable() and each != '"')[:LONGEST_WORD] + '"'

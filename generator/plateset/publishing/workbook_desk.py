"""The desk a workbook is written on: its formats, its sheets, and the few ways something is put into a cell.

Text is always written as text, so that nothing an author wrote can become a formula or a link.
"""

from __future__ import annotations

import textwrap
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import ROUND_HALF_UP, Decimal
from functools import cache, lru_cache
from io import BytesIO
from typing import Any

from xlsxwriter import Workbook
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import CellBlankTuple, Worksheet

from plateset.manuscript.vocabulary import Unit
from plateset.publishing.language import Language
from plateset.publishing.typesetting import Paper
from plateset.publishing.workbook_words import WorkbookWords, in_format, quoted

LINE_HEIGHT, HIGHEST_ROW = 15, 409
"""Points."""

LONGEST_PARAGRAPH = 1500
"""Characters of text in one row: a row is at most 409 points high, a cell holds at most 32,767 characters."""

LONGEST_TEXT = 16_000
"""Characters of a cell: it holds at most 32,767 in UTF-16, which takes two for some."""

LONGEST_MESSAGE = 255
"""Characters of what is said to who enters something else than is asked for."""

LONGEST_LINK = 2000
"""Characters of an address; a workbook keeps at most 2,079."""

FINEST = Decimal("1e-9")
"""Masses are written to nine decimals and formulas round to as many before they compare.

Cells count in binary, training in decimals; two different loads are never nearer to each other than that.
"""

_PAPER_CODES = {"a4": 9, "letter": 1}
_GREY, _TINT, _QUIET = "#E6E6E6", "#F6F3E8", "#555555"


@dataclass(frozen=True)
class Formula:
    """A live formula (without its equals sign) and the value it has for the example lifter."""

    text: str
    value: Decimal | int | str


Cell = Formula | Decimal | int | str | None
"""What can stand in a cell; None is an empty one."""


@lru_cache(maxsize=10_000)  # equal decimals are written alike, and a workbook writes few of them very often
def number(value: Decimal) -> str:
    """A decimal as it is written inside a formula."""
    text = f"{value.quantize(FINEST, ROUND_HALF_UP):f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def as_float(value: Decimal) -> float:
    """A decimal as a cell keeps it."""
    return float(number(value))


def _outcome(value: Decimal | int | str) -> tuple[str, float | int | str]:
    """What a formula's cell says of its value: what kind it is, unless it is a number or nothing, and the value."""
    if isinstance(value, str):
        return (' t="str"' if value else ""), value
    return "", as_float(value) if isinstance(value, Decimal) else value


@lru_cache(maxsize=20_000, typed=True)  # every sheet has the same addresses and a few formats
def _escaped(attribute: object) -> Any:
    return Worksheet._escape_attributes(None, attribute)


def _as_xml(data: object) -> Any:
    """What a cell shows, with what XML takes for its own written otherwise."""
    return Worksheet._escape_data(None, data)


def _as_text(text: str) -> str:
    """A text that a cell holds, and that the library takes for one: what looks like its own markup ends in a blank."""
    held = text[:LONGEST_TEXT]
    return f"{held} " if held.startswith("<r>") and held.endswith("</r>") else held


_IS_TEXT = ' t="s">'
"""What a cell says that holds the number of a text."""


class _Worksheet(Worksheet):  # type: ignore[misc]
    """A worksheet that takes a cell as it stands in the file; what is special is left to the library.

    The library looks through each formula for functions newer than the file format, which takes longer than all the
    rest of a workbook; ours use none. It asks of each cell whether it was named as in 'A1', and escapes its address.
    """

    _escape_attributes = staticmethod(_escaped)

    def say_below(self, footer: str) -> None:
        """Set the footer as it is; the library would look for pictures in words with an ampersand before a G."""
        self.footer, self.margin_footer, self.header_footer_changed = footer, 0.3, True

    def keep(self, row: int, column: int, cell: str) -> None:
        """Put a cell, as it stands in the file, among those that the library was given."""
        if row not in self.table or not self.dim_colmin <= column <= self.dim_colmax:
            self._check_dimensions(row, column)
        self.table[row][column] = cell

    def copy_rows(self, other: _Worksheet, first: int, last: int) -> None:
        """Take rows over as they stand on another sheet of the workbook: cells, heights, and which are merged."""
        for row in range(first, last + 1):
            cells = other.table.get(row)
            if cells:
                self._check_dimensions(row, min(cells))
                self._check_dimensions(row, max(cells))
                self.table[row] = dict(cells)
                self.str_table.count += sum(_IS_TEXT in cell for cell in cells.values() if isinstance(cell, str))
            if row in other.row_info:
                self.row_info[row], self.row_sizes[row] = other.row_info[row], other.row_sizes[row]
        self.merge += [area for area in other.merge if first <= area[0] <= last]
        self.merged_cells |= {place: area for place, area in other.merged_cells.items() if first <= place[0] <= last}

    def _write_cell(self, row: int, column: int, cell: Any) -> None:
        """What was kept as it is; of what is left, what the library writes."""
        if isinstance(cell, str):
            self.fh.write(cell)
        elif isinstance(cell, CellBlankTuple):  # of merged cells
            self.fh.write(f'<c r="{letters(column)}{row + 1}" s="{cell.format._get_xf_index()}"/>')
        else:
            super()._write_cell(row, column, cell)

    def _calculate_spans(self) -> None:
        """From which to which column there are cells, for every sixteen rows."""
        columns: defaultdict[int, list[int]] = defaultdict(list)
        for row, cells in self.table.items():
            if cells:
                columns[row // 16] += (min(cells) + 1, max(cells) + 1)
        self.row_spans = {block: f"{min(found)}:{max(found)}" for block, found in columns.items()}


@cache
def letters(column: int) -> str:
    """A column (from 0) by its letters: A, B … Z, AA."""
    return str(xl_col_to_name(column))


@dataclass(frozen=True)
class About:
    """What a workbook says of itself; ``created`` stands in it instead of the hour it was made."""

    title: str
    author: str
    edition: str
    created: datetime
    paper: Paper


@dataclass(frozen=True)
class Table:
    """The table of a sheet: its header rows, repeated on paper, and the last column that is printed.

    ``frozen`` is how many rows and columns stay in sight: few, so that a telephone has room for the rest.
    """

    header: tuple[int, int]
    last_column: int
    frozen: tuple[int, int] = (0, 0)


HEAVIEST = 2000
"""No entry may be heavier, in kg or lb: a slip of the finger, not a lift."""


@dataclass(frozen=True)
class Asked:
    """What a reader may put into a cell: a number between two bounds."""

    title: str
    lowest: float
    highest: float
    message: str
    whole: bool = False


@dataclass
class Desk:
    """A workbook being written."""

    about: About
    unit: Unit
    words: WorkbookWords
    stream: BytesIO = field(default_factory=BytesIO)

    def __post_init__(self) -> None:
        options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
        self.book = Workbook(self.stream, options | {"strings_to_numbers": False})
        self.book.set_properties(
            {"title": self.about.title, "author": self.about.author, "created": self.about.created}
        )
        self._styles: dict[str, Format] = {}
        for name, given in _formats(self.unit, self.words.language).items():
            self._add_style(name, given)

    def say(self, phrase: str) -> str:
        """The phrase in the workbook's language."""
        return self.words.language.say(phrase)

    def _add_style(self, name: str, given: dict[str, Any]) -> None:
        self._styles[name] = self.book.add_format(given)
        self._styles[name]._get_xf_index()  # numbered as they are listed, whichever cell comes first

    def style(self, name: str) -> Format:
        """A format by its name."""
        return self._styles[name]

    def number_of_style(self, name: str) -> int:
        """The number that cells call a format by."""
        number: int = self._styles[name].xf_index
        return number

    def number_of_text(self, text: str) -> int:
        """The number that cells call a text by."""
        number: int = self.book.str_table._get_shared_string_index(_as_text(text))
        return number

    def sets_style(self, most: str, *, outside: bool) -> str:
        """The format of a count of sets by its name: with ``most`` where there is a choice, starred outside."""
        if not most:
            return "outside" if outside else "cell"
        name = f"sets to {most}{', outside' if outside else ''}"
        if name not in self._styles:
            given = _formats(self.unit, self.words.language)["outside" if outside else "cell"]
            star = " *" if outside else ""
            self._add_style(name, given | {"num_format": f'General"–{most}{star}"', "align": "right"})
        return name

    def sheet(self, name: str, widths: Sequence[float], *, charted: bool = False) -> Sheet:
        """A new sheet with columns of these widths, in characters; ``charted`` if a chart shows what stands there."""
        place = self.book.add_worksheet(name, worksheet_class=_Worksheet)
        for column, width in enumerate(widths):
            place.set_column(column, column, width, self.style("plain"))
        return (ChartedSheet if charted else Sheet)(self, place, tuple(widths))

    def name(self, name: str, address: str) -> None:
        """Give cells a name that formulas use."""
        self.book.define_name(name, f"={address}")

    def bytes(self) -> bytes:
        """The finished file."""
        self.book.close()
        return self.stream.getvalue()


@dataclass(frozen=True)
class Sheet:
    """A sheet being written. Rows and columns count from 0."""

    desk: Desk
    place: Worksheet
    widths: tuple[float, ...]

    def put(self, row: int, column: int, cell: Cell, style: str = "plain") -> None:
        """Write a cell."""
        start = f'<c r="{letters(column)}{row + 1}" s="{self.desk.number_of_style(style)}"'
        if cell is None or cell == "":
            self.place.keep(row, column, f"{start}/>")
        elif isinstance(cell, str):
            number = self.desk.number_of_text(cell)
            self.place.keep(row, column, f"{start}{_IS_TEXT}<v>{number}</v></c>")
        elif isinstance(cell, Formula):
            kind, value = _outcome(cell.value)
            of_cell = f"<f>{_as_xml(cell.text)}</f><v>{_as_xml(value)}</v>"
            self.place.keep(row, column, f"{start}{kind}>{of_cell}</c>")
        else:
            figure = as_float(cell) if isinstance(cell, Decimal) else cell
            self.place.keep(row, column, f"{start}><v>{figure:.16G}</v></c>")

    def put_row(self, row: int, cells: Sequence[Cell], style: str = "plain") -> int:
        """Write cells side by side from the first column; returns the row after."""
        for column, cell in enumerate(cells):
            self.put(row, column, cell, style)
        return row + 1

    def paragraph(self, row: int, text: str, last_column: int, style: str = "words") -> int:
        """Write words over the columns up to ``last_column``, as high as they need; returns the row after."""
        for part in _parts(text):
            self.make_room(row, (part, sum(self.widths[: last_column + 1])))
            if last_column:
                self.place.merge_range(row, 0, row, last_column, "", self.desk.style(style))
            self.put(row, 0, part, style)
            row += 1
        return row

    def copy_rows(self, other: Sheet, first: int, last: int) -> None:
        """Write the same as in these rows of another sheet, where every formula is right here too."""
        self.place.copy_rows(other.place, first, last)

    def link(self, row: int, column: int, address: str, words: str) -> None:
        """Write an address that can be followed; one too long for that stands as text."""
        if len(address) <= LONGEST_LINK:
            self.place.write_url(row, column, address, self.desk.style("link"), f"{words}{address}")
        else:
            self.put(row, column, f"{words}{address}")

    def ask(self, row: int, column: int, asked: Asked, last_row: int | None = None) -> None:
        """Refuse in a cell, or in all cells down to ``last_row``, whatever is not asked for there."""
        rule = {
            "validate": "integer" if asked.whole else "decimal",
            "criteria": "between",
            "minimum": asked.lowest,
            "maximum": asked.highest,
            "error_title": asked.title[:32],
            "error_message": asked.message[:LONGEST_MESSAGE],
        }
        self.place.data_validation(row, column, row if last_row is None else last_row, column, rule)

    def labelled(self, row: int, label: str, text: str) -> int:
        """Write a label into the first column and words into the second; returns the row after."""
        for part in _parts(text):
            self.put(row, 0, label, "first")
            self.put(row, 1, part, "wrapped")
            self.make_room(row, (part, self.widths[1]))
            row += 1
        return row

    def make_room(self, row: int, *words: tuple[str, float]) -> None:
        """Make a row as high as the highest of its texts needs in their widths: few programs do so by themselves."""
        lines = max(_lines(text, int(wide)) for text, wide in words)
        self.place.set_row(row, min(HIGHEST_ROW, LINE_HEIGHT * lines + 1))

    def title(self, words: str) -> None:
        """Write the sheet's title into its first row."""
        self.put(0, 0, words, "title")
        self.place.set_row(0, 1.6 * LINE_HEIGHT)

    def address(self, row: int, column: int, last_row: int) -> str:
        """Cells below one another, as a formula on any sheet names them."""
        letter = letters(column)
        return f"{quoted(self.place.get_name())}!${letter}${row + 1}:${letter}${last_row + 1}"

    def finish(self, table: Table, last_row: int, *, landscape: bool, on_one_page: bool = False) -> None:
        """Freeze the header, set the sheet up for paper, and guard everything but the entries against a slip."""
        place, about = self.place, self.desk.about
        place.freeze_panes(*table.frozen)
        place.repeat_rows(*table.header)
        place.print_area(0, 0, max(last_row, table.header[1]), table.last_column)
        place.set_paper(_PAPER_CODES[about.paper])
        place.fit_to_pages(1, 1 if on_one_page else 0)
        place.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
        if landscape:
            place.set_landscape()
        place.say_below(f"&L{_footer(about)}&R&A, &P / &N")
        place.hide_gridlines(2)
        place.protect("", {"format_cells": True, "format_columns": True, "format_rows": True})


class ChartedSheet(Sheet):
    """A sheet whose cells the library keeps by what they hold, since its charts show them."""

    def put(self, row: int, column: int, cell: Cell, style: str = "plain") -> None:
        """Write a cell."""
        form = self.desk.style(style)
        if cell is None or cell == "":
            self.place.write_blank(row, column, None, form)
        elif isinstance(cell, str):
            self.place.write_string(row, column, _as_text(cell), form)
        elif isinstance(cell, Formula):
            self.place.write_formula(row, column, f"={cell.text}", form, _outcome(cell.value)[1])
        else:
            self.place.write_number(row, column, as_float(cell) if isinstance(cell, Decimal) else cell, form)


def _lines(text: str, wide: int) -> int:
    """How many lines words take; a column is measured in figures, and letters are a little narrower."""
    wide += wide // 10
    if len(text) <= wide and "\n" not in text:
        return 1
    return sum(len(textwrap.wrap(line, max(8, wide))) or 1 for line in text.split("\n"))


def _parts(text: str) -> list[str]:
    """Words in parts that a row can show."""
    if len(text) <= LONGEST_PARAGRAPH:
        return [text]
    return textwrap.wrap(text, LONGEST_PARAGRAPH, replace_whitespace=False)


def _footer(about: About) -> str:
    # A footer is at most 255 characters and reads & as a command.
    title = about.title if len(about.title) <= 80 else about.title[:79] + "…"
    return f"{title}, {about.edition}".replace("&", "&&")


def _formats(unit: Unit, language: Language) -> dict[str, dict[str, Any]]:
    """Told apart by weight, frames and greys, so that it holds without colour; framed, tinted cells are entries."""
    plain = {"valign": "top", "font_size": 11, "align": "left"}
    cell = plain | {"bottom": 7, "bottom_color": _QUIET, "indent": 1}
    mass, body = f'General" {unit}"', in_format(language.say("bodyweight"))
    before, _, after = language.say("%(mass)s of help").partition("%(mass)s")
    helped = f"{in_format(before) if before else ''}General{in_format(f' {unit}{after}')}"
    added = f'"+"{mass};{helped};{body};@'
    entry = plain | {"border": 1, "bg_color": _TINT, "locked": False, "indent": 1}
    quiet = plain | {"font_color": _QUIET, "font_size": 9}
    return {
        "plain": plain,
        "title": plain | {"bold": True, "font_size": 16},
        "heading": plain | {"bold": True, "font_size": 12, "text_wrap": True},
        "label": plain | {"bold": True},
        "words": plain | {"text_wrap": True},
        "caution": plain | {"text_wrap": True, "left": 5, "indent": 1},
        "link": plain | {"underline": 1},
        "header": plain | {"bold": True, "text_wrap": True, "bg_color": _GREY, "top": 1, "bottom": 1, "indent": 1},
        "band": plain | {"bold": True, "text_wrap": True, "bg_color": _GREY, "indent": 1},
        "group": plain | {"italic": True, "text_wrap": True, "indent": 1},
        "cell": cell,
        "wrapped": cell | {"text_wrap": True},
        "first": cell | {"bold": True, "text_wrap": True},
        "load": cell | {"bold": True, "num_format": mass},
        "load on the body": cell | {"bold": True, "num_format": added},
        "mass": plain | {"num_format": mass, "indent": 1},
        "outside": cell | {"bold": True, "num_format": 'General" *"'},
        "entry": entry,
        "entry mass": entry | {"num_format": mass},
        "working header": quiet | {"text_wrap": True, "bold": True},
        "working": quiet,
        "working share": quiet | {"num_format": 'General" %"'},
    }

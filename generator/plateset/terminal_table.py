"""Tables for a terminal: a table too wide for the screen goes on below, and no cell is cut or broken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from rich.cells import cell_len
from rich.text import Text

GAPS = (2, 1)
"""Spaces between columns: two, or one where only that lets the table stand side by side."""


@dataclass(frozen=True)
class Column:
    """A column: its head and its cells from the top. A cell may carry its own style."""

    head: str
    cells: tuple[str | Text, ...]
    align: Literal["left", "right"] = "left"

    @property
    def width(self) -> int:
        """Screen cells of the widest entry."""
        return max(cell_len(self.head), *(cell_len(_words(cell)) for cell in self.cells), 0)


def table(columns: Sequence[Column], width: int, pinned: int = 1) -> Iterator[Text]:
    """The lines of a table on a screen of ``width``.

    Columns that do not fit follow in a further block, which starts with the first ``pinned`` columns again; a single
    column wider than the screen is left whole.
    """
    gap = next((gap for gap in GAPS if _wide(columns, gap) <= width), GAPS[0])
    for number, block in enumerate(_blocks(columns, width, pinned, gap)):
        if number:
            yield Text()
        yield _line(block, [column.head for column in block], gap, style="bold")
        for row in range(len(block[0].cells)):
            yield _line(block, [column.cells[row] for column in block], gap)


def _wide(columns: Sequence[Column], gap: int) -> int:
    return sum(column.width + gap for column in columns) - gap


def _blocks(columns: Sequence[Column], width: int, pinned: int, gap: int) -> Iterator[list[Column]]:
    head = list(columns[:pinned])
    block: list[Column] = []
    for column in columns[pinned:]:
        if block and _wide([*head, *block, column], gap) > width:
            yield [*head, *block]
            block = []
        block.append(column)
    yield [*head, *block]


def _line(block: Sequence[Column], cells: Sequence[str | Text], gap: int, style: str = "") -> Text:
    line = Text(style=style)
    for column, cell in zip(block, cells, strict=True):
        space = " " * (column.width - cell_len(_words(cell)))
        line.append_text(Text.assemble(space, cell) if column.align == "right" else Text.assemble(cell, space))
        line.append(" " * gap)
    line.rstrip()
    return line


def _words(cell: str | Text) -> str:
    return cell.plain if isinstance(cell, Text) else cell

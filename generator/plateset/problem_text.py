"""Problems as text: the place, what is wrong, the line with a pointer under the spot, what was expected."""

from __future__ import annotations

import unicodedata

from plateset.problems import Place, Problem

WIDTH = 100
_GUTTER = 10  # a line number of seven digits, a space, a bar, a space
_TAB = "    "
_CUT = "…"


def problem_text(problem: Problem) -> str:
    """One problem as lines of plain text, without a line break at the end."""
    lines = [f"{_visible(str(problem.place))}: {_visible(problem.message)}"]
    if problem.place.line and problem.place.excerpt.strip():
        lines += _pointed(problem.place)
    if problem.expected:
        lines.append(f"   expected: {_visible(problem.expected)}")
    if problem.nearest:
        lines.append(f"   nearest:  {_visible(problem.nearest)}")
    return "\n".join(lines)


def _pointed(place: Place) -> list[str]:
    cells = [_shown(character) for character in place.excerpt.rstrip()]
    start = min(max(place.column - 1, 0), len(cells))
    end = min(max(start + place.width, start + 1), max(len(cells), start + 1))
    first, last = _window(cells, start, end)
    before = _CUT if first else ""
    after = _CUT if last < len(cells) else ""
    lead = len(before) + _cells_wide(cells[first:start])
    pointed = max(1, _cells_wide(cells[start : min(end, last)]))
    text = before + "".join(cells[first:last]) + after
    return [f"{place.line:7} | {text}", f"{'':7} | {' ' * lead}{'^' * pointed}"]


def _window(cells: list[str], start: int, end: int) -> tuple[int, int]:
    """The part of a long line to show: the spot, with as much as fits before it and then after it."""
    room = WIDTH - _GUTTER
    if _cells_wide(cells) <= room:
        return 0, len(cells)
    room -= 2 * len(_CUT)
    first = last = start
    used = 0
    while last < min(end, len(cells)) and used + _wide(cells[last]) <= room:
        used += _wide(cells[last])
        last += 1
    third = used + (room - used) // 3
    while first > 0 and used + _wide(cells[first - 1]) <= third:
        first -= 1
        used += _wide(cells[first])
    while last < len(cells) and used + _wide(cells[last]) <= room:
        used += _wide(cells[last])
        last += 1
    while first > 0 and used + _wide(cells[first - 1]) <= room:
        first -= 1
        used += _wide(cells[first])
    return first, last


def _shown(character: str) -> str:
    """A character as it may be printed: tabs as spaces, anything that would not show as an escape."""
    if character == "\t":
        return _TAB
    if character == " " or unicodedata.category(character)[0] not in "CZ":
        return character
    code = ord(character)
    if unicodedata.category(character) == "Zs":
        return " "
    return f"\\x{code:02x}" if code <= 0xFF else f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"


def _visible(text: str) -> str:
    return "".join(_shown(character) for character in text)


def _wide(cell: str) -> int:
    """Columns of a terminal that ``cell`` takes (Unicode Standard Annex 11: wide and fullwidth take two)."""
    return sum(_columns(character) for character in cell)


def _columns(character: str) -> int:
    if unicodedata.combining(character) or unicodedata.category(character) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _cells_wide(cells: list[str]) -> int:
    return sum(_wide(cell) for cell in cells)

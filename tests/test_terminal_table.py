"""Tables on a screen: side by side where they fit, below each other where not, never cut."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from plateset.terminal_table import Column, table

COLUMNS = [
    Column("Name", ("long name", "b")),
    Column("one", ("1", "22"), "right"),
    Column("two", ("333", "4"), "right"),
]


def drawn(width: int) -> list[str]:
    return [line.plain for line in table(COLUMNS, width)]


def test_side_by_side() -> None:
    assert drawn(80) == ["Name       one  two", "long name    1  333", "b           22    4"]


def test_closer_where_only_that_fits() -> None:
    assert drawn(18) == ["Name      one two", "long name   1 333", "b          22   4"]


def test_below_each_other() -> None:
    assert drawn(15) == [
        *("Name       one", "long name    1", "b           22"),
        "",
        *("Name       two", "long name  333", "b            4"),
    ]


WORD = st.text(st.characters(codec="utf-8", categories=["L", "N"]), min_size=1, max_size=12)


@given(st.lists(st.tuples(WORD, WORD), min_size=2, max_size=9), st.integers(1, 60))
def test_every_cell_is_there_in_whole_and_no_wider_than_it_must(cells: list[tuple[str, str]], width: int) -> None:
    columns = [Column(head, (cell,)) for head, cell in cells]
    lines = [line.plain for line in table(columns, width)]
    words = [word for line in lines for word in line.split()]
    assert set(words) == {word for pair in cells for word in pair}
    least = columns[0].width + 2 + max(column.width for column in columns[1:])
    assert all(len(line) <= max(width, least) for line in lines)

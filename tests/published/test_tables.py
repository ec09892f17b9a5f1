"""The tables themselves: complete, honest about where they come from, and all in use."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.published.tables import every_table

ORIGINS = {"printed", "computed from the published formula", "definition", "common practice"}
TESTS = "".join(path.read_text(encoding="utf-8") for path in sorted(Path(__file__).parent.glob("test_*.py")))


@pytest.mark.parametrize("address", every_table())
def test_says_where_its_numbers_come_from(address: str) -> None:
    table = every_table()[address]
    assert table.origin in ORIGINS
    assert table.seen
    assert table.rows
    assert (table.source == "common practice, no source") == (table.origin == "common practice")


@pytest.mark.parametrize("address", every_table())
def test_is_used(address: str) -> None:
    assert f'"{address}"' in TESTS

"""The tables of published numbers, every scalar as it is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from _pytest.mark.structures import ParameterSet

FOLDER = Path(__file__).parent / "tables"


@dataclass(frozen=True)
class Table:
    """One table; ``rows`` are by column name."""

    source: str
    origin: str
    seen: str
    tolerance: Decimal
    rows: tuple[Mapping[str, Any], ...]


@lru_cache
def every_table() -> dict[str, Table]:
    """All tables, by ``file/name``."""
    return {
        f"{path.stem}/{name}": _table(text)
        for path in sorted(FOLDER.glob("*.yaml"))
        # BaseLoader leaves 67.0 and 3-1-1-0 as the text they are.
        for name, text in yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader).items()
    }


def _table(text: dict[str, Any]) -> Table:
    rows = tuple(dict(zip(text["columns"], row, strict=True)) for row in text["rows"])
    return Table(text["source"], text["origin"], text["seen"], Decimal(text["tolerance"]), rows)


def rows_of(*addresses: str) -> list[ParameterSet]:
    """The rows of tables as parameters of a test, each named by what is in it."""
    return [
        pytest.param(row, every_table()[address].tolerance, id=f"{address}: {' '.join(map(str, row.values()))}")
        for address in addresses
        for row in every_table()[address].rows
    ]


def exact_rows_of(*addresses: str) -> list[ParameterSet]:
    """The rows of tables that leave no room: their tolerance is 0."""
    assert all(every_table()[address].tolerance == 0 for address in addresses), addresses
    return [pytest.param(found.values[0], id=found.id) for found in rows_of(*addresses)]

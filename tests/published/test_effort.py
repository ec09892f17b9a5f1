"""Ratings of effort against the published scale."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.manuscript.quantities import QuantityError, read_effort

from tests.published.tables import exact_rows_of

Row = Mapping[str, Any]


@pytest.mark.parametrize("row", exact_rows_of("effort/scale"))
def test_rating_lies_in_its_band(row: Row) -> None:
    rir = read_effort(f"RPE {row['rpe']}").rir
    assert Decimal(row["least"]) <= rir <= Decimal(row["most"])


@pytest.mark.parametrize("row", exact_rows_of("effort/half a repetition"))
def test_nine_and_a_half_is_read_as_half_a_repetition(row: Row) -> None:
    rir = read_effort(f"RPE {row['rpe']}").rir
    assert rir == Decimal(row["taken"]) != Decimal(row["printed"])


@pytest.mark.parametrize("row", exact_rows_of("effort/not loaded by"))
def test_light_ratings_are_refused(row: Row) -> None:
    with pytest.raises(QuantityError, match="outside the scale"):
        read_effort(f"RPE {row['rpe']}")


@pytest.mark.parametrize("row", exact_rows_of("effort/straight line"))
def test_rir_is_ten_less_rpe(row: Row) -> None:
    assert read_effort(f"RPE {row['rpe']}").rir == Decimal(row["rir"])

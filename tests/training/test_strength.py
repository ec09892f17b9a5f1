"""Curves of repetitions and shares of the max."""

from __future__ import annotations

from decimal import Decimal
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.vocabulary import CurveName
from plateset.training.strength import CURVES, estimate_max, percent_of_max, reps_at_percent, share_of_max

curves = st.sampled_from(sorted(CURVES))


def halves(curve: str) -> st.SearchStrategy[float]:
    return st.integers(2, CURVES[curve].most * 2).map(lambda doubled: doubled / 2)


def test_every_curve_a_manuscript_may_name_is_there() -> None:
    assert set(CURVES) == set(get_args(CurveName))


@given(st.data(), curves)
def test_more_repetitions_mean_less_load(data: st.DataObject, curve: str) -> None:
    fewer, more = sorted(data.draw(st.tuples(halves(curve), halves(curve)).filter(lambda pair: pair[0] != pair[1])))
    assert share_of_max(more, curve) < share_of_max(fewer, curve) <= 1


@given(st.data(), curves, st.floats(1, 500))
def test_estimating_undoes_taking_a_share(data: st.DataObject, curve: str, most: float) -> None:
    reps = data.draw(halves(curve))
    assert estimate_max(most * share_of_max(reps, curve), reps, curve) == pytest.approx(most)


@given(st.data(), curves)
def test_repetitions_of_a_percent_give_it_back(data: st.DataObject, curve: str) -> None:
    reps = data.draw(st.integers(1, CURVES[curve].most))
    assert reps_at_percent(percent_of_max(Decimal(reps), curve), curve) == reps


@pytest.mark.parametrize("curve", sorted(CURVES))
def test_one_repetition_is_the_load_itself(curve: str) -> None:
    assert estimate_max(80, 1, curve) == 80


@pytest.mark.parametrize("curve", sorted(CURVES))
@pytest.mark.parametrize("beyond", [0.5, 0, -1, "over"])
def test_outside_the_range_nothing_is_computed(curve: str, beyond: float | str) -> None:
    reps = CURVES[curve].most + 0.5 if isinstance(beyond, str) else beyond
    with pytest.raises(ValueError, match="holds for 1 to"):
        share_of_max(reps, curve)


@pytest.mark.parametrize(("reps", "percent"), [("1.5", "97.50"), ("13", "66.33"), ("14", "65.67")])
def test_handbook_between_rows(reps: str, percent: str) -> None:
    assert percent_of_max(Decimal(reps), "handbook") == Decimal(percent)


@pytest.mark.parametrize(
    ("percent", "reps"), [("100", 1), ("99", 1), ("95", 2), ("94.9", 2), ("65", 15), ("64.9", None), ("101", 0)]
)
def test_whole_repetitions_at_a_percent(percent: str, reps: int | None) -> None:
    assert reps_at_percent(Decimal(percent), "handbook") == reps

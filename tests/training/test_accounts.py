"""The computations in words agree with the constants that compute."""

from __future__ import annotations

import pytest
from plateset.training.accounts import ACCOUNTS, Account
from plateset.training.strength import CURVES
from plateset.training.time import CHANGE_OVER, SECONDS_PER_REP, WARM_UP

TOLD = {account.title: account for account in ACCOUNTS}


@pytest.mark.parametrize("account", ACCOUNTS, ids=lambda account: account.title)
def test_nothing_is_left_unsaid(account: Account) -> None:
    assert all((account.words, account.formula, account.valid, account.source))


@pytest.mark.parametrize("name", sorted(CURVES))
def test_every_curve_is_told_with_its_range(name: str) -> None:
    curve = CURVES[name]
    account = TOLD[f"Estimating a max: {curve.title}"]
    assert (account.formula, account.source) == (curve.formula, curve.source)
    assert f"1 to {curve.most} repetitions" in account.valid


def test_minutes_are_told_as_computed() -> None:
    words = TOLD["Minutes"].words
    assert f"{SECONDS_PER_REP} s each" in words
    assert f"{CHANGE_OVER} s to change" in words
    assert f"{WARM_UP // 60} min of general warm-up" in words


def test_shares_of_techniques_are_told_as_computed() -> None:
    words = TOLD["Expected repetitions in techniques"].words
    assert "about 55 %" in words
    assert "45 % and then 30 %" in words

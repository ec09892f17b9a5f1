"""Quantities as an author writes them."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plateset.manuscript import quantities as q


def test_pound_is_exact() -> None:
    assert q.read_mass("1 lb").to("kg") == Decimal("0.45359237")
    assert q.read_mass("100 kg").to("lb").quantize(Decimal("0.0001")) == Decimal("220.4623")
    assert q.read_mass("60kg") == q.read_mass("60 kg")
    assert q.read_mass("2.5 lbs").unit == "lb"


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("90 s", 90), ("2 min", 120), ("1:30", 90), ("1 min 30 s", 90), ("48 h", 172_800), ("1.5 min", 90), ("0 s", 0)],
)
def test_times(text: str, seconds: int) -> None:
    assert q.read_seconds(text) == seconds


@pytest.mark.parametrize(
    ("value", "low", "high"),
    [(5, 5, 5), ("8-12", 8, 12), ("8–12", 8, 12), ("8 to 12", 8, 12), ("as many as possible", 1, 1)],
)
def test_repetitions(value: object, low: int, high: int) -> None:
    reps = q.read_reps(value)
    assert (reps.low, reps.high) == (low, high)
    assert reps.open == (value == "as many as possible")


@pytest.mark.parametrize(
    ("text", "rir"),
    [("2 RIR", "2"), ("1.5 RIR", "1.5"), ("1-2 RIR", "1.5"), ("RPE 8", "2"), ("RPE 8.5", "1.5"), ("to failure", "0")],
)
def test_efforts(text: str, rir: str) -> None:
    assert q.read_effort(text).rir == Decimal(rir)


def test_loads() -> None:
    assert q.read_load("72.5 %") == q.PercentOfMax(Decimal("72.5"))
    assert q.read_load("60 kg") == q.FixedLoad(q.Mass(Decimal(60), "kg"))
    assert q.read_load("bodyweight") == q.BodyweightLoad()
    assert q.read_load("bodyweight - 20 kg") == q.BodyweightLoad(q.Mass(Decimal(-20), "kg"))
    assert q.read_load("by feel") == q.ByFeel()


def test_recorded_sets() -> None:
    assert q.read_best("120 kg x 1") == q.Best(q.FixedLoad(q.Mass(Decimal(120), "kg")), 1)
    assert q.read_best("bodyweight + 10 kg × 5").reps == 5
    with pytest.raises(q.QuantityError, match="not a recorded set"):
        q.read_best("120 kg x 0")


def test_tempo() -> None:
    assert q.read_tempo("3-1-1-0").seconds == 5
    assert q.read_tempo("3-0-X-0").fast


READERS = (
    q.read_mass, q.read_seconds, q.read_percent, q.read_range, q.read_reps, q.read_effort, q.read_tempo,
    q.read_load, q.read_best,
)  # fmt: skip
VALUES = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=20), st.lists(st.integers(), max_size=2),
    st.text(st.sampled_from("0123456789.-–:+% xXkglbsminhRIRPE٣"), max_size=12),
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(VALUES)
def test_anything_is_read_or_refused_with_a_word_of_what_would_do(value: object) -> None:
    for reader in READERS:
        assert all(_refusal(reader, value))


def _refusal(reader: Callable[[object], object], value: object) -> tuple[str, ...]:
    try:
        reader(value)
    except q.QuantityError as error:
        return error.message, error.expected
    return ()


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [("3 to 1 RIR", "3", "1"), ("2.5to0rir", "2.5", "0"), ("RPE 7 to 9", "3", "1"), ("rpe 6 to 6.5", "4", "3.5")],
)
def test_an_effort_that_falls_over_the_sets(text: str, first: str, last: str) -> None:
    found = q.read_effort(text)
    assert (found.first, found.rir, found.fresh) == (Decimal(first), Decimal(last), Decimal(first))


@pytest.mark.parametrize("text", ["1 to 3 RIR", "2 to 2 RIR", "7 to 1 RIR", "RPE 9 to 7", "RPE 9 to 11", "3 to RIR"])
def test_an_effort_that_does_not_fall(text: str) -> None:
    with pytest.raises(q.QuantityError):
        q.read_effort(text)


@pytest.mark.parametrize(
    ("value", "least", "most"), [(4, 4, 4), ("2-4", 2, 4), ("0-2", 0, 2), ("3 to 5", 3, 5), (20, 20, 20)]
)
def test_sets(value: object, least: int, most: int) -> None:
    assert q.read_sets(value) == q.SetCount(least, most)


@pytest.mark.parametrize("value", [0, 21, "0-0", "4-2", "3-21", True, "many", None, 2.5])
def test_no_sets(value: object) -> None:
    with pytest.raises(q.QuantityError):
        q.read_sets(value)

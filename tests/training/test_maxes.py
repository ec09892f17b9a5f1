"""Maxima of a lifter."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.schema import Lifter
from plateset.training.maxes import max_from_set, maxes_of
from plateset.training.plan import Max
from plateset.training.strength import CURVES

from tests.training.building import exercises, read

FRONT = """
front: {name: Front squat, muscles: {direct: [quads]}, movement: squat, implement: barbell,
  max from: {exercise: squat, share: 80 %}}
"""


def maxes(lifter: str, more: str = "") -> dict[str, Max]:
    return maxes_of(Lifter.model_validate(read(lifter)), exercises(more), "handbook", "kg")


def test_tested_max_stays_as_it_is() -> None:
    assert maxes("bests: {squat: 120 kg x 1}")["squat"].amount == 120


def test_set_of_several_points_to_more() -> None:
    assert maxes("bests: {squat: 90 kg x 5}")["squat"].amount == Decimal("103.4")


def test_half_of_a_tenth_is_rounded_up_in_a_max() -> None:
    assert maxes("bests: {squat: 60.35 kg x 1}")["squat"].amount == Decimal("60.4")
    # Eight repetitions are 80 % by the handbook: 75.25 kg; and half of 100.1 kg is 50.05.
    assert maxes("bests: {squat: 60.2 kg x 8}")["squat"].amount == Decimal("75.3")
    half = FRONT.replace("80 %", "50 %")
    assert maxes("bests: {squat: 100.1 kg x 1}", half)["front"].amount == Decimal("50.1")


def test_pounds_are_converted_first() -> None:
    assert maxes("bests: {squat: 225 lb x 1}")["squat"].amount == Decimal("102.1")


def test_body_is_part_of_what_is_lifted() -> None:
    text = "{bodyweight: 80 kg, bests: {pull-up: bodyweight + 10 kg x 1, push-up: bodyweight x 1}}"
    assert {name: found.amount for name, found in maxes(text).items()} == {"pull-up": 90, "push-up": 80}


def test_assistance_makes_it_less() -> None:
    assert maxes("{bodyweight: 80 kg, bests: {pull-up: bodyweight - 20 kg x 1}}")["pull-up"].amount == 60


def test_without_a_bodyweight_there_is_none() -> None:
    assert maxes("bests: {pull-up: bodyweight x 5}") == {}


def test_beyond_the_curve_there_is_none() -> None:
    assert maxes("bests: {squat: 60 kg x 16}") == {}


def test_share_of_another_lift() -> None:
    # Two repetitions are 95 %: a max of 106.3 kg, of which the share is taken; the set it came from is kept.
    found = maxes("bests: {squat: 101 kg x 2}", FRONT)["front"]
    assert found == Max("front", Decimal("85.0"), Decimal(101), 2, "handbook", Decimal(80), "squat")


def test_own_max_goes_before_a_share() -> None:
    found = maxes("bests: {squat: 100 kg x 1, front: 70 kg x 1}", FRONT)["front"]
    assert (found.amount, found.of) == (Decimal(70), "")


def test_no_share_of_nothing() -> None:
    assert maxes("bests: {bench: 100 kg x 1}", FRONT).keys() == {"bench"}


@given(st.decimals(5, 300, places=1), st.sampled_from(sorted(CURVES)), st.data())
def test_max_is_never_less_than_what_was_lifted(load: Decimal, curve: str, data: st.DataObject) -> None:
    reps = data.draw(st.integers(1, CURVES[curve].most))
    found = max_from_set("squat", load, reps, curve)
    assert found is not None
    assert found.amount >= load

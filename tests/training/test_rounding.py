"""Steps, and plates on a bar."""

from __future__ import annotations

from decimal import Decimal
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.training.rounding import (
    PlatePairs,
    Steps,
    bar_steps,
    plates_per_side,
    sides,
    steps_between,
    to_step,
)

D = Decimal
quarters = st.integers(1, 1600).map(lambda count: D(count) / 4)
racks = st.lists(quarters, min_size=1, max_size=8, unique=True).map(lambda masses: Steps(tuple(sorted(masses))))
few_plates = st.dictionaries(
    st.sampled_from([D("1.25"), D("2.5"), D(4), D(5), D(7), D(10), D(15), D(20), D(25)]),
    st.integers(0, 3),
    min_size=1,
    max_size=5,
).map(lambda given: tuple(sorted(given.items(), reverse=True)))


def pairs(*plates: str, each: int | None = None) -> PlatePairs:
    return tuple((D(plate), each) for plate in plates)


@given(racks, quarters)
def test_nearest_is_nearest_and_a_tie_goes_down(steps: Steps, wish: Decimal) -> None:
    best = min(steps.masses, key=lambda mass: (abs(mass - wish), mass))
    assert steps.pick(wish) == best


@given(racks, quarters)
def test_rounding_down_never_exceeds_the_wish(steps: Steps, wish: Decimal) -> None:
    lighter = [mass for mass in steps.masses if mass <= wish]
    assert steps.pick(wish, down=True) == (max(lighter) if lighter else None)


@given(racks, quarters, quarters, st.booleans())
def test_cap_is_never_passed(steps: Steps, wish: Decimal, cap: Decimal, down: bool) -> None:
    found = steps.pick(wish, down=down, cap=cap)
    assert found is None or found <= cap


def test_cap_takes_the_lower_neighbour() -> None:
    steps = steps_between(D(0), D(100), D("2.5"))
    assert steps.pick(D("89.9"), cap=D("89.9")) == D("87.5")
    assert steps.pick(D("89.9"), cap=D(90)) == 90


@given(racks, quarters, quarters)
def test_next_below_is_strictly_lighter(steps: Steps, mass: Decimal, wish: Decimal) -> None:
    lighter = [step for step in steps.masses if step < mass]
    best = min(lighter, key=lambda step: (abs(step - wish), step), default=None)
    assert steps.next_below(mass, wish) == best


@given(quarters, st.sampled_from([D("0.5"), D("1.25"), D(2), D(5)]))
def test_to_step_agrees_with_a_rack_of_equal_steps(wish: Decimal, step: Decimal) -> None:
    steps = steps_between(D(0), D(410), step)
    assert to_step(wish, step) == steps.pick(wish)
    assert to_step(wish, step, down=True) == steps.pick(wish, down=True)


@pytest.mark.parametrize(("wish", "nearest", "down"), [("-6", "-6.25", "-6.25"), ("-1.875", "-2.5", "-2.5")])
def test_to_step_below_nothing(wish: str, nearest: str, down: str) -> None:
    assert to_step(D(wish), D("1.25")) == D(nearest)
    assert to_step(D(wish), D("1.25"), down=True) == D(down)


def test_steps_end_at_most_at_the_last() -> None:
    assert steps_between(D(2), D(9), D(3)).masses == (D(2), D(5), D(8))
    assert steps_between(D(2), D(8), D(3)).masses == (D(2), D(5), D(8))
    assert steps_between(D(2), D(2), D(3)).masses == (D(2),)


def by_hand(plates: PlatePairs) -> dict[Decimal, tuple[Decimal, ...]]:
    """Every way to fill one end, tried in turn; the fewest plates win, then the heavier ones."""
    single = [plate for plate, count in plates for _ in range(count or 0)]
    best: dict[Decimal, tuple[Decimal, ...]] = {}
    for count in range(len(single) + 1):
        for chosen in combinations(single, count):
            known = best.get(sum(chosen, D(0)))
            if known is None or (len(chosen) == len(known) and chosen > known):
                best[sum(chosen, D(0))] = chosen
    return best


@given(few_plates)
def test_plates_are_the_fewest_then_the_heaviest(plates: PlatePairs) -> None:
    assert sides(plates) == by_hand(plates)


@given(few_plates, st.sampled_from([D(10), D(15), D(20)]), st.sampled_from([D(0), D("2.5"), D(5)]))
def test_plates_add_up_and_pairs_suffice(plates: PlatePairs, bar: Decimal, collars: Decimal) -> None:
    for mass in bar_steps(bar, collars, plates).masses:
        side = plates_per_side(mass, bar, collars, plates)
        assert side is not None
        assert bar + collars + 2 * sum(side) == mass
        assert list(side) == sorted(side, reverse=True)
        assert all(side.count(plate) <= (count or 0) for plate, count in plates)


def test_plates_without_limit_match_plenty_of_pairs() -> None:
    plates = ("20", "15", "10", "5", "2.5")
    unlimited, plenty = sides(pairs(*plates)), sides(pairs(*plates, each=30))
    assert {mass: unlimited[mass] for mass in unlimited if mass <= 100} == {
        mass: plenty[mass] for mass in plenty if mass <= 100
    }


def test_equally_many_plates_take_the_heavier() -> None:
    plates = pairs("25", "20", "15", "10", "5", "2.5", "1.25")
    assert plates_per_side(D(80), D(20), D(0), plates) == (D(25), D(5))
    assert plates_per_side(D(100), D(20), D(0), plates) == (D(25), D(15))


def test_heaviest_first_may_take_more_than_the_fewest() -> None:
    assert plates_per_side(D(70), D(20), D(0), pairs("20", "15", "10")) == (D(15), D(10))
    assert plates_per_side(D(80), D(20), D(0), pairs("25", "15", "1.25")) == (D(15), D(15))


def test_few_heavy_pairs_leave_the_rest_to_lighter_ones() -> None:
    plates: PlatePairs = ((D(10), 1), (D(5), 4))
    assert plates_per_side(D(60), D(20), D(0), plates) == (D(10), D(5), D(5))
    assert bar_steps(D(20), D(0), plates).masses[-1] == 80


def test_no_plates_for_what_cannot_be_made() -> None:
    assert plates_per_side(D(61), D(20), D(0), pairs("20", "10")) is None


def test_kilogram_plates_on_a_pound_bar_are_found_again() -> None:
    kilo = 1 / D("0.45359237")
    plates: PlatePairs = tuple((plate * kilo, None) for plate in map(D, ("25", "20", "15", "10", "5", "2.5", "1.25")))
    bar = 20 * kilo
    for mass in bar_steps(bar, D(0), plates).masses:
        assert plates_per_side(mass, bar, D(0), plates) is not None


@pytest.mark.parametrize(
    ("plates", "side", "found"),
    [
        # 7 is no multiple of 2: three of the lighter weigh what no heavier one does.
        (("7", "2"), "6", ("2", "2", "2")),
        (("10", "1", "0.5"), "12.5", ("10", "1", "1", "0.5")),
        (("10", "0"), "20", ("10", "10")),
    ],
)
def test_small_plates_go_on_as_often_as_they_help(plates: tuple[str, ...], side: str, found: tuple[str, ...]) -> None:
    assert sides(pairs(*plates))[D(side)] == tuple(map(D, found))


def test_tiny_plates_do_not_take_for_ever() -> None:
    assert len(sides(pairs("0.001", "20"))) < 2000

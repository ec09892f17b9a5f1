"""Bars, discs, rounding and units against rule books and common practice."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, cast

import pytest
from plateset.manuscript.quantities import Mass, read_mass
from plateset.manuscript.vocabulary import Unit
from plateset.training.gym import Gym
from plateset.training.rounding import bar_steps, plates_per_side, steps_between

from tests.published.tables import exact_rows_of, rows_of
from tests.training.building import gym

Row = Mapping[str, Any]


def usual(unit: str) -> Gym:
    return gym(f"unit: {unit}")


@pytest.mark.parametrize(
    "row",
    exact_rows_of("equipment/loaded bars", "equipment/discs by the rule book", "equipment/plates in pounds"),
)
def test_what_hangs_on_each_end(row: Row) -> None:
    bar, collars = Decimal(row["bar"]), Decimal(row["collars"])
    side = tuple(Decimal(plate) for plate in row["side"])
    assert bar + collars + 2 * sum(side) == Decimal(row["total"])
    assert plates_per_side(Decimal(row["total"]), bar, collars, usual(row["unit"]).plates) == side


@pytest.mark.parametrize("row", exact_rows_of("equipment/bars"))
def test_empty_bars(row: Row) -> None:
    place = gym(f"{{bars: {{barbell: {row['bar']}}}, collars: {row['collars']}}}")
    lightest = bar_steps(place.bar("barbell"), place.collars, place.plates).masses[0]
    assert lightest == Decimal(row["empty"])


def test_usual_bar_is_the_heavier_of_the_rule_book() -> None:
    assert usual("kg").bar("barbell") == 20


@pytest.mark.parametrize("row", exact_rows_of("equipment/discs"))
def test_usual_discs(row: Row) -> None:
    assert [plate for plate, _ in usual("kg").plates] == [Decimal(disc) for disc in row["discs"]]


@pytest.mark.parametrize("row", exact_rows_of("equipment/smallest step"))
def test_smallest_step_of_a_bar(row: Row) -> None:
    place = usual(row["unit"])
    empty, first = bar_steps(place.bar("barbell"), place.collars, place.plates).masses[:2]
    assert place.smallest_plate == Decimal(row["plate"])
    assert first - empty == Decimal(row["step"])


@pytest.mark.parametrize("row", exact_rows_of("equipment/usual steps"))
def test_usual_steps_of_racks_and_stacks(row: Row) -> None:
    place = usual(row["unit"])
    masses = (place.dumbbells if row["rack"] == "dumbbells" else place.stack).masses
    assert Decimal(row["least"]) <= masses[1] - masses[0] <= Decimal(row["most"])


@pytest.mark.parametrize("row", exact_rows_of("equipment/rounding"))
def test_rounding(row: Row) -> None:
    steps = steps_between(Decimal(0), Decimal(200), Decimal(row["step"]))
    wish = Decimal(row["wish"])
    assert steps.pick(wish) == Decimal(row["nearest"])
    assert steps.pick(wish, down=True) == Decimal(row["down"])


@pytest.mark.parametrize("row", exact_rows_of("equipment/ties"))
def test_a_tie_goes_down(row: Row) -> None:
    steps = steps_between(Decimal(0), Decimal(200), Decimal(row["step"]))
    assert steps.pick(Decimal(row["wish"])) == Decimal(row["nearest"])


@pytest.mark.parametrize(("row", "tolerance"), rows_of("equipment/pound", "equipment/pounds", "equipment/kilogram"))
def test_pounds_and_kilograms(row: Row, tolerance: Decimal) -> None:
    (given, amount), (wanted, expected) = row.items()
    mass: Mass = read_mass(f"{amount} {given}")
    assert abs(mass.to(cast(Unit, wanted)) - Decimal(expected)) <= tolerance

"""Maxima and percents against the published equations and tables."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest
from plateset.manuscript.quantities import PercentOfMax, Reps, SetCount, read_effort
from plateset.training.loads import load_for
from plateset.training.progression import Prescription
from plateset.training.strength import CURVES, estimate_max, percent_of_max, reps_at_percent, share_of_max

from tests.published.tables import every_table, exact_rows_of, rows_of
from tests.training.building import lift_of, lifting, plan_of

EQUATIONS = (
    "strength/epley",
    "strength/brzycki",
    "strength/lander",
    "strength/lombardi",
    "strength/mayhew",
    "strength/oconner",
    "strength/wathan",
)
Row = Mapping[str, Any]


def curve_rows() -> list[Any]:
    return [
        pytest.param(address.split("/")[1], row, float(every_table()[address].tolerance), id=f"{address} {row['reps']}")
        for address in EQUATIONS
        for row in every_table()[address].rows
    ]


@pytest.mark.parametrize(("curve", "row", "tolerance"), curve_rows())
def test_equation_as_published(curve: str, row: Row, tolerance: float) -> None:
    share = CURVES[curve].share(float(row["reps"]))
    assert float(row["load"]) / share == pytest.approx(float(row["max"]), abs=tolerance)


@pytest.mark.parametrize(("curve", "row", "tolerance"), curve_rows())
def test_estimate_keeps_to_the_equation_in_its_range(curve: str, row: Row, tolerance: float) -> None:
    load, reps = float(row["load"]), float(row["reps"])
    if reps > CURVES[curve].most:
        with pytest.raises(ValueError, match="holds for 1 to"):
            estimate_max(load, reps, curve)
        return
    # One repetition is the load itself, where some equations print up to 9 % more.
    expected = load if reps == 1 else float(row["max"])
    assert estimate_max(load, reps, curve) == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize(
    ("row", "tolerance"), rows_of("strength/ten-repetition maximum", "strength/ten-repetition maximum of 300")
)
def test_handbook_maximum(row: Row, tolerance: Decimal) -> None:
    found = estimate_max(float(row["load"]), float(row["reps"]), "handbook")
    assert found == pytest.approx(float(row["max"]), abs=float(tolerance))


@pytest.mark.parametrize(("row", "tolerance"), rows_of("strength/printed otherwise"))
def test_how_far_later_coefficients_lie(row: Row, tolerance: Decimal) -> None:
    found = estimate_max(float(row["load"]), float(row["reps"]), row["curve"])
    assert found - float(row["max"]) == pytest.approx(float(row["apart"]), abs=float(tolerance))


@pytest.mark.parametrize("reps", range(2, 10))
def test_below_ten_epley_estimates_more_than_brzycki(reps: int) -> None:
    # They cross at ten repetitions, where both give four thirds of the load (with Brzycki's 36/(37-r)).
    assert estimate_max(100, reps, "epley") > estimate_max(100, reps, "brzycki")


def test_at_ten_epley_and_brzycki_meet() -> None:
    assert estimate_max(100, 10, "epley") == pytest.approx(400 / 3)
    assert estimate_max(100, 10, "brzycki") == pytest.approx(400 / 3, rel=0.0003)


@pytest.mark.parametrize(("row", "tolerance"), rows_of("strength/poles"))
def test_poles_lie_outside_the_range(row: Row, tolerance: Decimal) -> None:
    curve, reps = CURVES[row["curve"]], float(row["reps"])
    assert curve.share(reps - float(tolerance)) > 0 > curve.share(reps + float(tolerance))
    assert curve.most < reps / 3


@pytest.mark.parametrize(("row", "tolerance"), rows_of("strength/reserve"))
def test_reserve_counts_as_repetitions(row: Row, tolerance: Decimal) -> None:
    total = int(row["reps"]) + read_effort(row["effort"]).rir
    found = estimate_max(float(row["load"]), float(total), row["curve"])
    assert found == pytest.approx(float(row["max"]), abs=float(tolerance))


@pytest.mark.parametrize("row", exact_rows_of("handbook/textbook"))
def test_handbook_table(row: Row) -> None:
    assert percent_of_max(Decimal(row["reps"]), "handbook") == Decimal(row["percent"])


@pytest.mark.parametrize(("row", "tolerance"), rows_of("handbook/chart"))
def test_training_load_chart(row: Row, tolerance: Decimal) -> None:
    load = float(row["max"]) * share_of_max(float(row["reps"]), "handbook")
    assert load == pytest.approx(float(row["load"]), abs=float(tolerance))


@pytest.mark.parametrize(("row", "tolerance"), rows_of("handbook/chart at twelve"))
def test_chart_and_textbook_disagree_at_twelve(row: Row, tolerance: Decimal) -> None:
    assert float(row["max"]) * float(row["percent"]) / 100 == pytest.approx(float(row["load"]), abs=float(tolerance))
    taken = percent_of_max(Decimal(row["reps"]), "handbook")
    assert taken == Decimal(row["textbook"]) != Decimal(row["percent"])


@pytest.mark.parametrize("row", exact_rows_of("handbook/load assigned"))
def test_load_assigned_for_repetitions(row: Row) -> None:
    squat = lifting("squat", f"{row['max']} x 1", loading="unit: lb")
    reps = int(row["reps"])
    load = load_for(squat, Prescription(SetCount(1, 1), Reps(reps, reps), None, None, read_effort("to failure")))
    assert load.mass is not None
    assert load.mass == Decimal(row["load"])


@pytest.mark.parametrize("row", exact_rows_of("handbook/fresh sets"))
def test_table_speaks_of_one_fresh_set(row: Row) -> None:
    reps = [reps_at_percent(Decimal(percent), "handbook") or 0 for percent in row["percents"]]
    assert sum(reps) == int(row["table"])
    assert sum(reps) > float(row["done"])


@pytest.mark.parametrize("row", exact_rows_of("handbook/three times ten"))
def test_shares_of_a_ten_repetition_maximum(row: Row) -> None:
    squat = lifting("squat", f"{row['ten reps with']} kg x 10", loading="plates: [10 kg, 5 kg, 2.5 kg]")
    of_max = percent_of_max(Decimal(10), "handbook") * Decimal(row["percent"]) / 100
    load = load_for(squat, Prescription(SetCount(1, 1), Reps(10, 10), None, PercentOfMax(of_max), None))
    assert load.mass is not None
    assert load.mass == Decimal(row["load"])


def test_three_times_ten_as_a_pyramid() -> None:
    rows = every_table()["handbook/three times ten"].rows
    heaviest = rows[-1]["ten reps with"]
    pyramid = "pyramid: {direction: ascending, load: 25 %, reps: 0}"
    line = f"{{exercise: squat, sets: 3, reps: 10, load: {heaviest} kg, {pyramid}}}"
    lift = lift_of(plan_of(line, site_more="loading: {plates: [10 kg, 5 kg, 2.5 kg]}"))
    assert [work.pieces[0].load.mass for work in lift.sets] == [Decimal(row["load"]) for row in rows]
    assert {work.pieces[0].reps for work in lift.sets} == {Reps(10, 10)}

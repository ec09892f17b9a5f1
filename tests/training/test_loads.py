"""From a prescription to what is loaded."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.quantities import FixedLoad, Mass, PercentOfMax, Reps, SetCount, read_effort, read_load
from plateset.training.loads import lighter, load_for
from plateset.training.plan import Load
from plateset.training.progression import Prescription

from tests.training.building import lift_of, lifting, load_of, plain_or_feel, plan_of

D = Decimal


def asked(load: str | None = None, reps: int = 5, effort: str | None = None) -> Prescription:
    return Prescription(
        SetCount(3, 3),
        Reps(reps, reps),
        None,
        read_load(load) if load else None,
        read_effort(effort) if effort else None,
    )


def loaded(name: str, load: str | None, best: str | None = "100 kg x 1", loading: str = "", **more: str) -> Load:
    return load_for(lifting(name, best, loading=loading), asked(load, **more))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("load", "mass", "exact"),
    [("70 %", "70", "70"), ("71 %", "70", "71"), ("71.25 %", "70", "71.25"), ("72 %", "72.5", "72")],
)
def test_percent_is_rounded_to_the_bar(load: str, mass: str, exact: str) -> None:
    found = loaded("squat", load)
    assert (found.mass, found.exact, found.basis.rule) == (D(mass), D(exact), "percent")


def test_percent_rounded_down() -> None:
    assert loaded("squat", "72 %", loading="rounding: down").mass == 70


def test_percent_without_a_max() -> None:
    found = loaded("squat", "70 %", best=None)
    assert (found.mass, found.basis.rule, found.basis.trouble) == (None, "feel", "no max")


@pytest.mark.parametrize(
    ("reps", "effort", "mass"),
    [(5, "to failure", "87.5"), (5, "2 RIR", "82.5"), (5, "RPE 8", "82.5"), (1, "1.5 RIR", "95")],
)
def test_effort_counts_reserve_as_repetitions(reps: int, effort: str, mass: str) -> None:
    found = load_for(lifting("squat", "100 kg x 1"), asked(None, reps, effort))
    assert (found.mass, found.basis.rule) == (D(mass), "effort")


def test_range_is_loaded_for_its_lower_end() -> None:
    text = Prescription(SetCount(3, 3), Reps(5, 12), None, None, read_effort("to failure"))
    assert load_for(lifting("squat", "100 kg x 1"), text).mass == D("87.5")


def test_effort_beyond_the_curve_is_by_feel() -> None:
    found = load_for(lifting("squat", "100 kg x 1"), asked(None, 12, "4 RIR"))
    assert (found.mass, found.basis.trouble, found.basis.reps_to_failure) == (None, "beyond the curve", D(16))


def test_effort_at_the_end_of_the_curve() -> None:
    assert load_for(lifting("squat", "100 kg x 1"), asked(None, 12, "3 RIR")).mass == 65


@pytest.mark.parametrize("best", [None, "100 kg x 1"])
def test_neither_load_nor_effort_is_by_feel(best: str | None) -> None:
    found = loaded("squat", None, best)
    assert (found.kind, found.mass, found.basis.trouble) == ("feel", None, "")


def test_effort_without_a_max_is_by_feel() -> None:
    found = load_for(lifting("squat"), asked(None, 5, "2 RIR"))
    assert (found.kind, found.basis.trouble) == ("feel", "")


def test_by_feel_goes_before_effort() -> None:
    assert load_for(lifting("squat", "100 kg x 1"), asked("by feel", 5, "2 RIR")).mass is None


@pytest.mark.parametrize(("load", "mass"), [("60 kg", "60"), ("61 kg", "60"), ("135 lb", "60")])
def test_fixed_load_is_rounded_in_the_gyms_unit(load: str, mass: str) -> None:
    assert loaded("squat", load).mass == D(mass)


def test_same_load_in_kilograms_and_pounds() -> None:
    in_kg = loaded("squat", "132.277357 lb")
    in_lb = load_for(lifting("squat", loading="unit: lb"), asked("60 kg"))
    # 132.277357 lb, to a hundredth of a unit.
    assert (in_kg.exact, in_lb.exact) == (D("60.00"), D("132.28"))
    assert in_lb.mass == 130


@pytest.mark.parametrize("load", ["10 kg", "18.7 kg"])
def test_below_the_bar_is_the_bar(load: str) -> None:
    found = loaded("squat", load)
    assert (found.mass, found.per_side, found.basis.trouble) == (D(20), (), "below the bar")


@pytest.mark.parametrize("rounding", ["nearest", "down"])
def test_exactly_the_bar_is_no_trouble(rounding: str) -> None:
    found = loaded("squat", "20 kg", loading=f"rounding: {rounding}")
    assert (found.mass, found.per_side, found.basis.trouble) == (D(20), (), "")


def test_lighter_than_the_lightest_dumbbell() -> None:
    found = loaded("curl", "0.9 kg")
    assert (found.mass, found.basis.trouble) == (D(2), "not loadable")


@pytest.mark.parametrize(("name", "load", "mass"), [("squat", "18.75 kg", 20), ("curl", "1 kg", 2)])
def test_half_a_step_short_of_the_lightest_is_rounding(name: str, load: str, mass: int) -> None:
    found = loaded(name, load)
    assert (found.mass, found.basis.trouble) == (Decimal(mass), "")


@pytest.mark.parametrize(
    ("rack", "load", "mass", "trouble"),
    [
        # Half of the only step there is.
        ("5 kg, 10 kg", "2.5 kg", "5", ""),
        ("5 kg, 10 kg", "2.4 kg", "5", "not loadable"),
        ("5 kg, 10 kg", "12.5 kg", "10", ""),
        ("5 kg, 10 kg", "12.6 kg", "10", "beyond the rack"),
        # No step at all: the one pair is either what was asked for or not.
        ("10 kg", "10 kg", "10", ""),
        ("10 kg", "9.5 kg", "10", "not loadable"),
        ("10 kg", "10.5 kg", "10", "beyond the rack"),
    ],
)
def test_racks_of_a_pair_or_two(rack: str, load: str, mass: str, trouble: str) -> None:
    found = loaded("curl", load, loading=f"dumbbells: [{rack}]")
    assert (found.mass, found.basis.trouble) == (D(mass), trouble)


def test_rounding_down_finds_nothing_below_the_lightest() -> None:
    found = loaded("squat", "19.9 kg", loading="rounding: down")
    assert (found.mass, found.basis.trouble) == (D(20), "below the bar")


def test_max_lighter_than_the_bar_still_leaves_a_load() -> None:
    assert loaded("squat", "100 %", best="19.9 kg x 1").mass == 20


def test_above_the_max_is_loaded_and_said() -> None:
    found = loaded("squat", "110 kg")
    assert (found.mass, found.basis.trouble) == (D(110), "above the max")


def test_rounding_does_not_pass_the_max() -> None:
    assert loaded("squat", "100 %", best="99 kg x 1").mass == D("97.5")
    assert loaded("squat", "100 %", best="100 kg x 1").mass == 100


def test_above_max_allowed_rounds_to_the_nearest() -> None:
    line = "{exercise: squat, sets: 1, reps: 1, load: 99 kg, above max: allowed}"
    found = load_of(plan_of(line, more="example lifter: {bests: {squat: 99 kg x 1}}"))
    assert (found.mass, found.basis.trouble) == (D(100), "")


@pytest.mark.parametrize(
    ("load", "mass", "trouble"), [("10.25 kg", "10", ""), ("10.3 kg", "10.5", ""), ("12.4 kg", "12.5", "above the max")]
)
def test_other_implements_go_by_halves(load: str, mass: str, trouble: str) -> None:
    found = loaded("sled", load, best="12.3 kg x 1")
    assert (found.mass, found.basis.trouble) == (D(mass), trouble)


def test_other_implements_round_down_too_and_keep_to_the_max() -> None:
    assert loaded("sled", "10.4 kg", loading="rounding: down").mass == 10
    assert loaded("sled", "12.3 kg", best="12.3 kg x 1").mass == 12


def test_band_is_by_feel_unless_a_mass_is_given() -> None:
    assert loaded("band-pull", None).mass is None
    assert loaded("band-pull", "50 %").mass is None
    assert loaded("band-pull", "12 kg").mass == 12


@pytest.mark.parametrize(
    ("name", "load", "kind", "rule", "plates"),
    [
        ("squat", "60 kg", "bar", "fixed", (D(20),)),
        ("squat", "60 %", "bar", "percent", (D(20),)),
        ("curl", "40 kg", "dumbbell", "fixed", None),
        ("pushdown", "40 kg", "stack", "fixed", None),
        ("sled", "40 kg", "plain", "fixed", None),
        ("pull-up", "bodyweight + 10 kg", "bodyweight", "bodyweight", None),
        ("squat", "by feel", "feel", "feel", None),
    ],
)
def test_how_a_load_is_made_up_and_came_about(
    name: str, load: str, kind: str, rule: str, plates: tuple[Decimal, ...] | None
) -> None:
    found = loaded(name, load)
    assert (found.kind, found.basis.rule, found.per_side) == (kind, rule, plates)


def test_plates_are_those_beside_the_exercises_own_bar() -> None:
    note = "curl: {name: Curl, muscles: {direct: [biceps]}, movement: elbow flexion, implement: barbell, bar: ez-bar}"
    found = load_of(plan_of("{exercise: curl, sets: 1, reps: 8, load: 20 kg}", exercises_more=note))
    # 10 kg of bar, 20 kg for a straight one.
    assert (found.mass, found.per_side) == (D(20), (D(5),))


@pytest.mark.parametrize(
    ("load", "added"),
    [
        (None, "0"),
        ("bodyweight", "0"),
        ("bodyweight + 10 kg", "10"),
        ("bodyweight + 11.7 kg", "11.25"),
        ("bodyweight - 20 kg", "-20"),
        ("bodyweight - 1 kg", "-1.25"),
    ],
)
def test_on_the_body(load: str | None, added: str) -> None:
    found = load_for(lifting("pull-up", bodyweight="80 kg"), asked(load))
    assert (found.kind, found.mass) == ("bodyweight", D(added))


@pytest.mark.parametrize(("percent", "added"), [("90 %", "10"), ("80 %", "0"), ("70 %", "-10")])
def test_percent_of_a_max_that_holds_the_body(percent: str, added: str) -> None:
    found = load_for(lifting("pull-up", "100 kg x 1", bodyweight="80 kg"), asked(percent))
    assert found.mass == D(added)


def test_added_mass_rounded_down() -> None:
    place = lifting("pull-up", bodyweight="80 kg", loading="rounding: down")
    assert load_for(place, asked("bodyweight + 12.4 kg")).mass == D("11.25")
    assert load_for(place, asked("bodyweight - 6 kg")).mass == D("-6.25")


@pytest.mark.parametrize(
    ("added", "scale", "mass"), [("10", "1", "70"), ("0", "0.5", "30"), ("10", "0.5", "35"), ("-30", "1", "30")]
)
def test_progression_is_added_before_a_deload_takes_its_share(added: str, scale: str, mass: str) -> None:
    text = Prescription(SetCount(1, 1), Reps(5, 5), None, read_load("60 kg"), None, added=D(added), scale=D(scale))
    assert load_for(lifting("squat"), text).mass == D(mass)


@pytest.mark.parametrize(
    ("load", "mass"),
    [("bodyweight + 10 kg", "5"), ("bodyweight + 1 kg", "0.5"), ("bodyweight", "0"), ("bodyweight - 10 kg", "-10")],
)
def test_deload_takes_off_what_is_added_and_leaves_help_alone(load: str, mass: str) -> None:
    text = Prescription(SetCount(1, 1), Reps(5, 5), None, read_load(load), None, scale=D("0.5"))
    place = lifting("pull-up", bodyweight="80 kg", loading="plates: [5 kg, 0.25 kg]")
    assert load_for(place, text).mass == D(mass)


@given(
    st.sampled_from(["squat", "curl", "pushdown", "sled", "pull-up"]),
    st.decimals(20, 100, places=2),
    st.decimals(40, 90, places=2),
)
def test_rounding_down_never_exceeds_the_wish(name: str, mass: Decimal, bodyweight: Decimal) -> None:
    place = lifting(name, loading="rounding: down", bodyweight=f"{bodyweight} kg")
    found = load_for(place, Prescription(SetCount(1, 1), Reps(5, 5), None, FixedLoad(Mass(mass, "kg")), None))
    assert found.mass is not None
    assert found.exact is not None
    assert found.mass <= found.exact


@given(
    st.sampled_from(["squat", "curl", "pushdown", "sled"]),
    st.decimals(20, 300, places=1),
    st.decimals(1, 100, places=1),
)
def test_no_percent_up_to_all_of_it_passes_the_max(name: str, most: Decimal, percent: Decimal) -> None:
    place = lifting(name, f"{most} kg x 1")
    found = load_for(place, Prescription(SetCount(1, 1), Reps(5, 5), None, PercentOfMax(percent), None))
    assert found.mass is not None
    assert found.mass <= most or found.basis.trouble in ("below the bar", "not loadable")


@given(st.decimals(20, 300, places=1))
def test_plates_add_up_to_the_load(mass: Decimal) -> None:
    found = load_for(lifting("squat", loading="collars: 5 kg"), asked(f"{mass} kg"))
    assert found.per_side is not None
    assert found.mass == 25 + 2 * sum(found.per_side)


@given(
    st.sampled_from(["squat", "curl", "pushdown", "sled"]),
    st.decimals(1, 200, places=1),
    st.integers(1, 99),
    st.integers(1, 5),
)
def test_drops_are_strictly_lighter(name: str, mass: Decimal, reduce: int, drops: int) -> None:
    place = lifting(name)
    load = load_for(place, asked(f"{mass} kg"))
    for _ in range(drops):
        assert load.mass is not None
        following = lighter(place, load, load.mass * (100 - reduce) / 100)
        if following.mass is None:
            assert following.basis.trouble == "not loadable"
            return
        assert following.mass < load.mass
        load = following


@pytest.mark.parametrize(("load", "drop"), [("bodyweight + 10 kg", "0"), ("bodyweight", "by feel")])
def test_drop_on_the_body_takes_off_what_was_added(load: str, drop: str) -> None:
    place = lifting("pull-up", bodyweight="80 kg")
    assert plain_or_feel(lighter(place, load_for(place, asked(load)), D(8))) == drop


def test_drop_from_a_load_by_feel_is_by_feel() -> None:
    place = lifting("band-pull")
    found = lighter(place, load_for(place, asked(None)), D(0))
    assert (found.kind, found.mass, found.basis.trouble) == ("feel", None, "")


# -- a curve of its own, part of the range ---------------------------------------------------------

SQUAT_BY_EPLEY = """
squat: {name: Squat, muscles: {direct: [quads]}, movement: squat, implement: barbell, curve: epley}
"""


def test_an_exercise_may_have_a_curve_of_its_own() -> None:
    lines = [f"{{exercise: {name}, sets: 1, reps: 10, effort: to failure}}" for name in ("squat", "bench")]
    lifter = "example lifter: {bests: {squat: 90 kg x 5, bench: 90 kg x 5}}"
    found = plan_of(*lines, more=lifter, exercises_more=SQUAT_BY_EPLEY)
    # By Epley 90 kg for five are 105 kg, and ten repetitions 75 % of it; by the handbook 103.4 kg, and 75 %.
    assert [(known.exercise, known.curve, known.amount) for known in found.maxes] == [
        ("bench", "handbook", D("103.4")),
        ("squat", "epley", D("105.0")),
    ]
    squat, bench = (load_of(found, place=place) for place in (0, 1))
    assert (squat.basis.curve, squat.exact) == ("epley", D("105.0") * 75 / 100)
    assert (bench.basis.curve, bench.exact) == ("handbook", D("103.4") * 75 / 100)


def test_part_of_the_range_is_not_loaded_by_a_curve_of_the_whole() -> None:
    found = load_of(plan_of("{exercise: squat, sets: 1, reps: 10, effort: 1 RIR, range of motion: top half}"))
    assert (found.mass, found.basis.trouble) == (None, "part of the range")


def test_part_of_the_range_is_loaded_as_the_author_says() -> None:
    found = load_of(plan_of("{exercise: squat, sets: 1, reps: 10, load: 70 %, range of motion: bottom half}"))
    assert (found.mass, found.basis.trouble) == (D(70), "")


def test_the_body_is_loaded_by_effort_where_its_max_is_known() -> None:
    lifter = "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 40 kg x 1}}"
    # Five with one in reserve: 85 % of 120 kg is 102 kg, 22 above the body.
    by_effort = load_of(plan_of("{exercise: pull-up, sets: 1, reps: 5, effort: 1 RIR}", more=lifter))
    assert (by_effort.mass, by_effort.basis.rule) == (D("22.5"), "effort")
    for more in ("reps: 5", "reps: as many as possible, effort: 1 RIR", "hold: 20 s, effort: 1 RIR"):
        found = load_of(plan_of(f"{{exercise: pull-up, sets: 1, {more}}}", more=lifter))
        assert (found.mass, found.basis.rule) == (D(0), "bodyweight"), more


def test_why_a_load_is_left_to_feel_is_kept() -> None:
    whole, part = (
        load_of(plan_of(f"{{exercise: squat, sets: 1, reps: {reps}, effort: 3 RIR{more}}}"))
        for reps, more in ((14, ""), (5, ", range of motion: middle"))
    )
    assert (whole.basis.trouble, whole.basis.reps_to_failure, whole.basis.curve) == (
        "beyond the curve",
        D(17),
        "handbook",
    )
    assert (part.basis.trouble, part.basis.reps_to_failure, part.basis.curve) == ("part of the range", D(8), "handbook")
    assert whole.basis.max == part.basis.max is not None


def test_a_drop_from_what_was_added_to_the_body_is_the_body_alone() -> None:
    line = (
        "{exercise: pull-up, sets: 1, reps: 5, load: bodyweight + 0.5 kg, every set: {technique: drop-set, drops: 2}}"
    )
    loading = "loading: {plates: [0.25 kg]}"
    first, second, third = (piece.load for piece in lift_of(plan_of(line, site_more=loading)).sets[0].pieces)
    assert [(load.kind, load.mass) for load in (first, second, third)] == [
        ("bodyweight", D("0.5")),
        ("bodyweight", 0),
        ("bodyweight", None),
    ]
    assert (second.basis.rule, second.exact, third.exact) == ("technique", D("0.4"), D(0))


def test_nothing_lighter_is_told_with_what_was_wished_for() -> None:
    loading = "loading: {dumbbells: [10 kg]}"
    line = "{exercise: curl, sets: 1, reps: 5, load: 10 kg, every set: {technique: drop-set, drops: 1}}"
    drop = lift_of(plan_of(line, site_more=loading)).sets[0].pieces[1].load
    assert (drop.kind, drop.mass, drop.exact, drop.basis.trouble) == ("dumbbell", None, D("8.0"), "not loadable")


def test_a_mass_in_another_unit_meets_the_same_mass_on_the_stack() -> None:
    # 25 kg are 55.12 lb, in the program and on the stack alike: rounding down does not lose a step.
    more = "unit: lb\nloading: {stack: {from: 5 kg, to: 50 kg, step: 5 kg}, rounding: down}"
    found = load_of(plan_of("{exercise: pushdown, sets: 1, reps: 8, load: 25 kg}", more=more))
    assert found.mass == found.exact == D("55.12")

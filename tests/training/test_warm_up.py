"""Warm-up sets: before the first heavy line, lighter than it, no part of any volume."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.training.plan import Lift, Plan
from plateset.training.time import WARM_UP_REST, line_seconds, warm_up_seconds
from plateset.training.volume import program_volume

from tests.training.building import lift_of, plain_or_feel, plan_of, session_of

SQUAT = "{exercise: squat, sets: 3, reps: 5, load: 80 %}"
USUAL = "\nwarm-up sets: [{load: 40 %, reps: 8}, {load: 60 %, reps: 5}, {load: 80 %, reps: 3}]"


def warm_up(lift: Lift) -> list[tuple[str, int]]:
    return [(plain_or_feel(each.load), each.reps) for each in lift.warm_up]


def planned(*lines: str, more: str = USUAL) -> Plan:
    return plan_of(*lines, more=more)


def test_the_usual_steps_of_the_working_load() -> None:
    # 40, 60 and 80 % of 80 kg are 32, 48 and 64 kg.
    assert warm_up(lift_of(planned(SQUAT))) == [("32.5", 8), ("47.5", 5), ("65", 3)]


def test_left_out_by_the_author() -> None:
    assert warm_up(lift_of(planned(SQUAT, more="\nwarm-up sets: none"))) == []


@pytest.mark.parametrize(
    ("program", "site", "found"),
    [
        ("[{load: 50 %, reps: 6}]", "[{load: 70 %, reps: 2}]", [("40", 6)]),
        ("none", "[{load: 70 %, reps: 2}]", []),
        ("null", "[{load: 70 %, reps: 2}]", [("55", 2)]),
        ("null", "none", []),
        ("null", "null", [("32.5", 8), ("47.5", 5), ("65", 3)]),
    ],
)
def test_the_programs_steps_go_before_the_sites_and_these_before_the_usual(
    program: str, site: str, found: list[tuple[str, int]]
) -> None:
    planned_there = plan_of(SQUAT, more=f"\nwarm-up sets: {program}", site_more=f"warm-up sets: {site}")
    assert warm_up(lift_of(planned_there)) == found


def test_only_the_first_heavy_line_is_warmed_up_for() -> None:
    bench = "{exercise: bench, sets: 3, reps: 5, load: 80 %}"
    assert [len(lift.warm_up) for lift in session_of(planned(SQUAT, bench)).lifts] == [3, 0]


def test_a_light_first_line_is_passed_over() -> None:
    light = "{exercise: bench, sets: 3, reps: 15, load: 50 %}"
    assert [len(lift.warm_up) for lift in session_of(planned(light, SQUAT)).lifts] == [0, 3]


@pytest.mark.parametrize("added", ["", " + 20 kg"])
def test_the_body_warms_up_for_no_bar(added: str) -> None:
    pull_up = f"{{exercise: pull-up, sets: 3, reps: 5, load: bodyweight{added}}}"
    assert [len(lift.warm_up) for lift in session_of(planned(pull_up, SQUAT)).lifts] == [0, 3]


def test_just_under_the_share_of_the_max_is_not_heavy() -> None:
    # 60 % of 100.5 kg are 60.3 kg.
    lifter = "\nexample lifter: {bests: {squat: 100.5 kg x 1}}"
    assert warm_up(lift_of(planned("{exercise: squat, sets: 3, reps: 5, load: 60 kg}", more=USUAL + lifter))) == []


def test_the_lightest_dumbbell_may_be_a_warm_up() -> None:
    line = "{exercise: curl, sets: 3, reps: 12, load: 3 kg, warm-up sets: [{load: 40 %, reps: 8}]}"
    lift = lift_of(plan_of(line, site_more="loading: {dumbbells: [1 kg, 2 kg, 3 kg]}"))
    assert warm_up(lift) == [("1", 8)]


@pytest.mark.parametrize(
    ("load", "found"),
    [
        ("57.5 kg", []),
        # 24, 36 and 48 kg.
        ("60 kg", [("25", 8), ("35", 5), ("47.5", 3)]),
    ],
)
def test_heavy_is_from_a_share_of_the_max(load: str, found: list[tuple[str, int]]) -> None:
    assert warm_up(lift_of(planned(f"{{exercise: squat, sets: 3, reps: 5, load: {load}}}"))) == found


def test_steps_the_bar_cannot_tell_apart_are_one() -> None:
    squat = (
        "{exercise: squat, sets: 3, reps: 5, load: 30 kg, warm-up sets: [{load: 40 %, reps: 8}, {load: 60 %, reps: 5}]}"
    )
    # 12 and 18 kg: the empty bar for both.
    assert warm_up(lift_of(planned(squat))) == [("20", 8)]


def test_a_line_may_ask_for_its_own() -> None:
    bench = "{exercise: bench, sets: 3, reps: 5, load: 80 %, warm-up sets: [{load: 50 %, reps: 5}]}"
    first, second = session_of(planned(SQUAT, bench)).lifts
    assert (len(first.warm_up), warm_up(second)) == (3, [("40", 5)])


def test_a_line_may_go_without() -> None:
    squat = SQUAT[:-1] + ", warm-up sets: none}"
    assert warm_up(lift_of(planned(squat))) == []


@pytest.mark.parametrize(
    "line", ["{exercise: pull-up, sets: 3, reps: 5}", "{exercise: squat, sets: 3, reps: 5, load: by feel}"]
)
def test_no_mass_no_warm_up_sets(line: str) -> None:
    assert warm_up(lift_of(planned(line))) == []


def test_each_of_a_pick_is_warmed_up_for_as_only_one_is_done() -> None:
    bench = "{exercise: bench, sets: 3, reps: 5, load: 80 %}"
    picks = f"{{pick one: [{SQUAT}, {bench}]}}"
    assert [len(lift.warm_up) for lift in session_of(planned(picks)).lifts] == [3, 3]


def test_the_second_of_a_superset_is_warm_already() -> None:
    bench = "{exercise: bench, sets: 3, reps: 5, load: 80 %}"
    assert [len(lift.warm_up) for lift in session_of(planned(f"{{superset: [{SQUAT}, {bench}]}}")).lifts] == [3, 0]


def test_not_counted_as_volume() -> None:
    with_them, without = program_volume(planned(SQUAT)), program_volume(planned(SQUAT, more="\nwarm-up sets: none"))
    assert with_them == without


def test_counted_as_time() -> None:
    with_them, without = planned(SQUAT), planned(SQUAT, more="\nwarm-up sets: none")
    extra = line_seconds(session_of(with_them).lines[0]) - line_seconds(session_of(without).lines[0])
    # 16 repetitions of 4 s, and a pause after each of the three sets.
    assert extra == 16 * 4 + 3 * WARM_UP_REST


@given(st.integers(60, 100))
def test_lighter_than_the_work_and_rising(percent: int) -> None:
    lift = lift_of(planned(f"{{exercise: squat, sets: 1, reps: 1, load: {percent} %}}"))
    masses = [each.load.mass or Decimal(0) for each in lift.warm_up]
    work = lift.sets[0].pieces[0].load.mass or Decimal(0)
    assert masses == sorted(set(masses))
    assert all(Decimal(0) < mass < work for mass in masses)
    assert all(each.load.per_side is not None for each in lift.warm_up)


def test_one_joint_is_not_warmed_up_for_unless_the_author_asks() -> None:
    curl = "{exercise: curl, sets: 3, reps: 5, load: 18 kg}"
    assert warm_up(lift_of(planned(curl))) == []
    asked = curl[:-1] + ", warm-up sets: [{load: 50 %, reps: 6}]}"
    # 9 kg: as near to 8 as to 10, and a tie goes down.
    assert warm_up(lift_of(planned(asked))) == [("8", 6)]


def test_how_a_warm_up_load_came_about_is_kept() -> None:
    first = lift_of(planned("{exercise: squat, sets: 1, reps: 5, load: 80 %}")).warm_up[0].load
    assert (first.basis.rule, first.basis.percent, first.exact) == ("warm-up", Decimal(40), Decimal(32))


def test_a_warm_up_below_the_bar_is_the_bar_and_no_trouble() -> None:
    squat = "{exercise: squat, sets: 1, reps: 5, load: 40 kg, warm-up sets: [{load: 10 %, reps: 8}]}"
    first = lift_of(planned(squat)).warm_up[0].load
    assert (first.mass, first.basis.trouble) == (Decimal(20), "")


def test_a_warm_up_as_heavy_as_the_work_is_none() -> None:
    squat = "{exercise: squat, sets: 1, reps: 5, load: 20 kg, warm-up sets: [{load: 99 %, reps: 2}]}"
    assert warm_up(lift_of(planned(squat))) == []


def test_a_body_has_no_share_to_warm_up_with() -> None:
    line = "{exercise: pull-up, sets: 1, reps: 5, load: bodyweight + 20 kg, warm-up sets: [{load: 50 %, reps: 5}]}"
    assert warm_up(lift_of(planned(line))) == []


@pytest.mark.parametrize(
    ("tempo", "sides", "seconds"),
    [("", "two", 8 * 4), ("tempo: 3-0-1-0", "two", 8 * 4), ("tempo: 5-1-1-0", "two", 8 * 7), ("", "one", 2 * 8 * 4)],
)
def test_seconds_of_a_warm_up_set(tempo: str, sides: str, seconds: int) -> None:
    note = f"lunge: {{name: Lunge, muscles: {{direct: [quads]}}, movement: lunge, implement: dumbbell, sides: {sides}}}"
    more = f", {tempo}" if tempo else ""
    line = f"{{exercise: lunge, sets: 1, reps: 5, load: 20 kg{more}, warm-up sets: [{{load: 50 %, reps: 8}}]}}"
    lift = lift_of(plan_of(line, exercises_more=note))
    assert warm_up_seconds(lift, lift.warm_up[0]) == seconds + WARM_UP_REST

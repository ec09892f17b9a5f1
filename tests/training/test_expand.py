"""Programs expanded to weeks, sessions, lines and sets."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.training.expand import plan_program
from plateset.training.plan import Plan
from plateset.training.sentences import in_english

from tests.training.building import (
    exercises,
    last_set,
    lift_of,
    load_of,
    masses,
    plan,
    plan_of,
    program,
    session_of,
    site,
)

D = Decimal
GROUP = "[{exercise: squat, sets: 3, reps: 5, load: 60 kg}, {exercise: bench, sets: 2, reps: 8, load: 50 kg}]"


def test_weeks_sessions_and_days() -> None:
    found = plan(
        """
        weeks: 3
        schedule: {thu: lower-body, mon: a}
        sessions:
          lower-body: [{exercise: squat, sets: 1, reps: 5, load: 60 kg}]
          a:
            title: Press day
            within: 45 min
            note: Bar out of the rack alone.
            lines: [{exercise: bench, sets: 1, reps: 5, load: 60 kg}]
        """
    )
    assert found.slug == "it"
    assert [each.remark for each in found.weeks[0].sessions] == ["Bar out of the rack alone.", ""]
    assert [week.number for week in found.weeks] == [1, 2, 3]
    assert [(each.day, each.name, each.title, each.within) for each in found.weeks[0].sessions] == [
        (1, "a", "Press day", 2700),
        (4, "lower-body", "Lower body", None),
    ]


def test_by_week_values_hold() -> None:
    line = (
        "{exercise: squat, sets: {week 1: 3, week 3: 4}, reps: {week 1: 8, weeks 3-4: 6, week 5: 3-5},"
        " load: {week 1: 60 kg, week 4: 70 kg}, effort: {week 1: 3 RIR, week 2: 1 RIR}}"
    )
    found = plan_of(line, more="weeks: 6")
    assert [len(lift_of(found, week).sets) for week in range(1, 7)] == [3, 3, 4, 4, 4, 4]
    assert [last_set(found, week).pieces[0].aim for week in range(1, 7)] == [8, 8, 6, 6, 3, 3]
    assert masses(found) == ["60", "60", "60", "70", "70", "70"]
    assert [lift.effort.rir if lift.effort else None for lift in (lift_of(found, week) for week in (1, 2, 6))] == [
        3,
        1,
        1,
    ]


def test_linear_skips_deloads() -> None:
    line = "{exercise: squat, sets: 4, reps: 5, load: 60 kg, progression: {rule: linear, add: 5 kg}}"
    found = plan_of(line, more="weeks: 5\ndeload: {weeks: [3], load: 50 %, sets: 50 %}")
    assert masses(found) == ["60", "65", "32.5", "70", "75"]
    assert [len(lift_of(found, week).sets) for week in range(1, 6)] == [4, 4, 2, 4, 4]
    assert [week.deload for week in found.weeks] == [False, False, True, False, False]


def test_double_goes_on_after_a_deload() -> None:
    line = "{exercise: squat, sets: 1, reps: 8-10, load: 60 kg, progression: {rule: double, add: 5 kg}}"
    found = plan_of(line, more="weeks: 6\ndeload: {weeks: [2, 5], load: 100 %}")
    aims = [last_set(found, week).pieces[0].aim for week in range(1, 7)]
    assert aims == [8, 8, 9, 10, 10, 8]
    assert masses(found) == ["60", "60", "60", "60", "60", "65"]
    assert lift_of(found).projected


def test_deload_in_the_first_week() -> None:
    line = "{exercise: squat, sets: 1, reps: 5, load: 60 kg, progression: {rule: linear, add: 5 kg}}"
    assert masses(plan_of(line, more="weeks: 3\ndeload: {weeks: [1], load: 50 %}")) == ["30", "60", "65"]


def test_deload_stays_at_the_step_of_the_week_before() -> None:
    # Were it a step further, 95 % of 22.5 kg would be heavier than the 20 kg of the week before it.
    line = "{exercise: sled, sets: 1, reps: 5, load: 20 kg, progression: {rule: linear, add: 2.5 kg}}"
    assert masses(plan_of(line, more="weeks: 2\ndeload: {weeks: [2], load: 95 %}")) == ["20", "19"]


@pytest.mark.parametrize(("kept", "technique"), [("off", None), ("on", "partials")])
def test_techniques_in_a_deload(kept: str, technique: str | None) -> None:
    line = "{exercise: squat, sets: 2, reps: 5, load: 60 kg, last set: {technique: partials}}"
    found = plan_of(line, more=f"weeks: 2\ndeload: {{weeks: [2], techniques: {kept}}}")
    assert (last_set(found, 1).technique, last_set(found, 2).technique) == ("partials", technique)


@given(
    st.sampled_from(["squat", "curl", "pushdown", "sled", "pull-up"]),
    st.sampled_from(["linear", "double"]),
    st.integers(1, 10),
    st.integers(1, 100),
    st.integers(2, 5),
)
def test_deload_never_raises(name: str, rule: str, sets: int, share: int, week: int) -> None:
    load = "bodyweight + 5 kg" if name == "pull-up" else "40 kg"
    text = f"{{exercise: {name}, sets: {sets}, reps: 8-10, load: {load}, progression: {{rule: {rule}, add: 5 kg}}}}"
    found = plan_of(
        text,
        more=f"weeks: {week}\ndeload: {{weeks: [{week}], load: {share} %, sets: {share} %}}",
    )
    before, light = load_of(found, week - 1).mass, load_of(found, week).mass
    assert before is not None
    assert light is not None
    assert light <= before
    assert len(lift_of(found, week).sets) <= sets


@pytest.mark.parametrize(
    ("key", "kind"), [("superset", "superset"), ("circuit", "circuit"), ("pre-exhaustion", "pre-exhaustion")]
)
def test_groups(key: str, kind: str) -> None:
    line = session_of(plan_of(f"{{{key}: {GROUP}, rest: 75 s, between: 15 s, note: In turn, why: Time}}")).lines[0]
    assert (line.kind, line.rest, line.between, line.remark, line.why) == (kind, 75, 15, "In turn", "Time")
    assert [(lift.exercise, lift.index) for lift in line.lifts] == [("squat", (0, 0)), ("bench", (0, 1))]


def test_a_group_that_gives_no_rest_rests_two_minutes_a_round() -> None:
    line = session_of(plan_of(f"{{superset: {GROUP}}}")).lines[0]
    assert (line.rest, line.between) == (120, 0)


def test_giant_set() -> None:
    three = GROUP[:-1] + ", {exercise: curl, sets: 2, reps: 10, load: 10 kg}]"
    assert session_of(plan_of(f"{{giant set: {three}}}")).lines[0].kind == "giant-set"


def test_lines_keep_their_place_and_words() -> None:
    line = "{exercise: bench, sets: 1, reps: 5, load: 60 kg, note: Pause, why: Strength off the chest, rest: 3 min}"
    found = plan_of("{exercise: squat, sets: 1, reps: 5, load: 60 kg}", line)
    lift = lift_of(found, place=1)
    assert (lift.index, lift.remark, lift.why, lift.rest) == ((1,), "Pause", "Strength off the chest", 180)
    # The words of a single lift stand with the lift, not twice; it has nothing to go to and fro between.
    line_itself = session_of(found).lines[1]
    assert (line_itself.kind, line_itself.rest, line_itself.between) == ("single", 180, 0)
    assert (line_itself.remark, line_itself.why) == ("", "")


def test_a_lift_keeps_what_its_line_says() -> None:
    found = plan_of(
        "{exercise: plank, sets: 3, hold: 20 s, role: pump}",
        "{exercise: squat, sets: 2, reps: 5, load: 60 kg, range of motion: top half, role: main}",
    )
    plank, squat = session_of(found).lifts
    assert (plank.hold, plank.reps, plank.role, plank.range_of_motion) == (20, None, "pump", "full")
    assert (squat.hold, squat.role, squat.range_of_motion, squat.rule) == (None, "main", "top half", ())
    assert [work.number for work in plank.sets] == [1, 2, 3]


def test_how_a_line_goes_on_is_told_in_every_week_but_a_deload() -> None:
    line = "{exercise: squat, sets: 2, reps: 5, load: 60 kg, progression: {rule: linear, add: 5 kg}}"
    found = plan_of(line, more="weeks: 3\ndeload: {weeks: [2]}")
    assert [in_english(lift_of(found, week).rule) for week in (1, 2, 3)] == [
        "Add 5 kg each week.",
        "",
        "Add 5 kg each week.",
    ]


@pytest.mark.parametrize(
    ("rule", "projected"),
    [
        ("{rule: linear, add: 5 kg}", [False, False]),
        ("{rule: double, add: 5 kg}", [True, True]),
        # Only the last set goes for more.
        ("{rule: two-for-two, add: 5 kg}", [False, True]),
    ],
)
def test_which_sets_aim_at_what_a_rule_expects(rule: str, projected: list[bool]) -> None:
    lift = lift_of(plan_of(f"{{exercise: squat, sets: 2, reps: 5-8, load: 60 kg, progression: {rule}}}"))
    assert [work.projected for work in lift.sets] == projected


def test_repetitions_under_a_progression_load_the_first_week() -> None:
    line = (
        "{exercise: squat, sets: 1, reps: {week 1: 8, week 2: 5}, effort: 2 RIR,"
        " progression: {rule: linear, add: 5 kg}}"
    )
    # Ten to failure, 75 kg, and 5 kg a week on it.
    assert masses(plan_of(line, more="weeks: 3")) == ["75", "80", "85"]


def test_effort_under_a_progression_loads_the_first_week() -> None:
    line = (
        "{exercise: squat, sets: 1, reps: 5, effort: {week 1: 3 RIR, week 2: 1 RIR},"
        " progression: {rule: linear, add: 5 kg}}"
    )
    assert masses(plan_of(line, more="weeks: 3")) == ["80", "85", "90"]


def test_effort_without_a_progression_follows_the_week() -> None:
    line = "{exercise: squat, sets: 1, reps: 5, effort: {week 1: 3 RIR, week 2: 1 RIR}}"
    assert masses(plan_of(line, more="weeks: 2")) == ["80", "85"]


@pytest.mark.parametrize(
    ("line", "aim"),
    [
        ("exercise: squat, sets: 1, reps: as many as possible, load: 80 kg", 8),
        ("exercise: squat, sets: 1, reps: as many as possible, load: 50 kg", None),
        ("exercise: squat, sets: 1, reps: as many as possible, load: 110 kg, above max: allowed", 1),
        ("exercise: band-pull, sets: 1, reps: as many as possible", None),
        ("exercise: pull-up, sets: 1, reps: as many as possible", 8),
        ("exercise: squat, sets: 1, reps: as many as possible, load: by feel", None),
        # The curve is one of the whole range.
        ("exercise: squat, sets: 1, reps: as many as possible, load: 80 kg, range of motion: top half", None),
    ],
)
def test_what_is_expected_of_an_open_set(line: str, aim: int | None) -> None:
    lifter = "example lifter: {bodyweight: 80 kg, bests: {squat: 100 kg x 1, pull-up: bodyweight + 20 kg x 1}}"
    assert last_set(plan_of(f"{{{line}}}", more=lifter)).pieces[0].aim == aim


def test_without_a_bodyweight_an_open_set_is_judged_by_what_is_added() -> None:
    line = "{exercise: pull-up, sets: 1, reps: as many as possible, load: bodyweight + 48 kg}"
    # 80 % of 60 kg.
    assert last_set(plan_of(line, more="example lifter: {bests: {pull-up: 60 kg x 1}}")).pieces[0].aim == 8


def test_unit_and_curve_of_the_program_go_before_the_sites() -> None:
    line = "{exercise: squat, sets: 1, reps: 5, load: 60 kg}"
    of_site = plan_of(line, site_more="{unit: lb, curve: epley}")
    of_program = plan_of(line, more="unit: kg\ncurve: wathan", site_more="{unit: lb, curve: epley}")
    assert (of_site.unit, of_site.curve) == ("lb", "epley")
    assert (of_program.unit, of_program.curve) == ("kg", "wathan")
    assert load_of(of_site).mass == 130


def test_maxes_are_those_of_lifts_in_use() -> None:
    found = plan_of("{exercise: squat, sets: 1, reps: 5, load: 60 kg}")
    assert [known.exercise for known in found.maxes] == ["squat"]


def test_kilograms_and_pounds_agree() -> None:
    line = "{exercise: squat, sets: 1, reps: 5, load: 80 %}"
    for unit in ("kg", "lb"):
        found = plan_of(line, more=f"unit: {unit}\nexample lifter: {{bests: {{squat: 100 kg x 1}}}}")
        wish = load_of(found).exact
        assert wish is not None
        in_kg = wish if unit == "kg" else wish * D("0.45359237")
        # A max is kept to a tenth of a unit, so to less than a tenth of a pound.
        assert abs(in_kg - 80) < D("0.04")


PROGRAM = """
weeks: 4
deload: {weeks: [4]}
schedule: {mon: a, thu: a}
sessions:
  a:
    - {exercise: squat, sets: {week 1: 3, week 2: 4}, reps: 8-10, effort: 2 RIR, progression: {rule: double, add: 5 kg}}
    - superset:
        - {exercise: bench, sets: 3, reps: 5, load: 80 %, last set: {technique: drop-set}}
        - {exercise: pull-up, sets: 3, reps: as many as possible}
"""


def test_expanding_twice_is_equal() -> None:
    def once() -> Plan:
        return plan_program("it", program(PROGRAM), site(), exercises())

    assert once() == once()
    assert repr(once()) == repr(once())

"""Rules of progression, and deloads."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.quantities import PercentOfMax, Reps, SetCount
from plateset.manuscript.schema import Deload, Double, Linear, Progression, StepLoading, TwoForTwo, Undulating
from plateset.training.progression import (
    LOADS_PROJECTED,
    REPS_PROJECTED,
    RULES,
    Prescription,
    Step,
    after,
    deloaded,
    may_add_load,
    rule_alone,
    share_of_sets,
)
from plateset.training.sentences import Sentence, in_english

from tests.training.building import lift_of, masses, plain_or_feel, plan_of

D = Decimal
FIVES = Prescription(SetCount(3, 3), Reps(5, 5), None, None, None)
EIGHT_TO_TWELVE = Prescription(SetCount(3, 3), Reps(8, 12), None, None, None)


def at(weeks: int) -> Step:
    """A line done once a week, after so many weeks."""
    return Step(weeks, weeks, weeks)


def linear(add: str = "2.5 kg", every: int = 1) -> Linear:
    return Linear.model_validate({"rule": "linear", "add": add, "every": every})


def double(pace: int = 1, add: str = "2.5 kg") -> Double:
    return Double.model_validate({"rule": "double", "add": add, "pace": pace})


def test_no_rule_changes_nothing() -> None:
    assert after(FIVES, None, at(7), "kg") == FIVES


@pytest.mark.parametrize(("every", "added"), [(1, ["0", "2.5", "5", "7.5", "10"]), (2, ["0", "0", "2.5", "2.5", "5"])])
def test_linear_adds_every_so_many_weeks(every: int, added: list[str]) -> None:
    found = [after(FIVES, linear(every=every), at(step), "kg").added for step in range(5)]
    assert found == [D(mass) for mass in added]


def test_linear_converts_to_the_plans_unit() -> None:
    assert after(FIVES, linear("10 lb"), at(1), "kg").added == D("4.5359237")


def test_linear_promises_no_repetitions() -> None:
    found = after(FIVES, linear(), at(3), "kg")
    assert (found.aim, found.projected, found.reps) == (None, False, Reps(5, 5))


@pytest.mark.parametrize(
    ("pace", "aims", "added"),
    [
        (1, [8, 9, 10, 11, 12, 8, 9], ["0", "0", "0", "0", "0", "2.5", "2.5"]),
        (2, [8, 10, 12, 8, 10, 12, 8], ["0", "0", "0", "2.5", "2.5", "2.5", "5"]),
        (3, [8, 11, 12, 8, 11, 12, 8], ["0", "0", "0", "2.5", "2.5", "2.5", "5"]),
        (10, [8, 12, 8, 12, 8, 12, 8], ["0", "0", "2.5", "2.5", "5", "5", "7.5"]),
    ],
)
def test_double_climbs_at_its_pace_and_starts_again(pace: int, aims: list[int], added: list[str]) -> None:
    found = [after(EIGHT_TO_TWELVE, double(pace), at(step), "kg") for step in range(7)]
    assert [text.aim for text in found] == aims
    assert [text.added for text in found] == [D(mass) for mass in added]
    assert all(text.projected for text in found)


def test_double_without_repetitions_changes_nothing() -> None:
    hold = Prescription(SetCount(3, 3), None, 30, None, None)
    assert after(hold, double(), at(4), "kg") == hold


@given(st.integers(1, 20), st.integers(1, 15), st.integers(1, 10), st.integers(0, 60))
def test_double_stays_in_its_range_and_never_loses_load(low: int, span: int, pace: int, step: int) -> None:
    base = Prescription(SetCount(3, 3), Reps(low, low + span), None, None, None)
    now, then = (after(base, double(pace), at(each), "kg") for each in (step, step + 1))
    assert now.aim is not None
    assert then.aim is not None
    assert low <= now.aim <= low + span
    # Either load is added and the climb starts again from the bottom, or repetitions are gained.
    if then.added == now.added:
        assert then.aim > now.aim
    else:
        assert (then.added - now.added, now.aim, then.aim) == (D("2.5"), low + span, low)


@pytest.mark.parametrize(
    ("rule", "words"),
    [
        (linear(), "Add 2.5 kg each week."),
        (linear("5 lb", 2), "Add 5 lb every 2 weeks."),
        (
            double(),
            "When every set reaches the top of the range, add 2.5 kg and start again at the bottom. "
            "The repetitions shown are a projection.",
        ),
        (linear("10.0 kg"), "Add 10 kg each week."),
    ],
)
def test_told_in_a_sentence(rule: Linear | Double, words: str) -> None:
    assert in_english(RULES[rule.rule].tell(rule)) == words


def deload(**more: Any) -> Deload:
    return Deload.model_validate({"weeks": [4]} | more)


@pytest.mark.parametrize(
    ("sets", "share", "left"),
    [(5, "60 %", 3), (3, "60 %", 2), (3, "50 %", 2), (4, "50 %", 2), (1, "10 %", 1), (4, "100 %", 4)],
)
def test_deload_takes_sets_and_leaves_one(sets: int, share: str, left: int) -> None:
    base = Prescription(SetCount(sets, sets), Reps(5, 5), None, None, None)
    assert deloaded(base, deload(sets=share)).sets == SetCount(left, left)


def test_deload_takes_load_and_techniques() -> None:
    found = deloaded(FIVES, deload(load="85 %"))
    assert (found.scale, found.techniques) == (D("0.85"), False)
    assert deloaded(FIVES, deload(techniques="on")).techniques


@given(st.integers(1, 20), st.decimals("0.1", 100, places=2), st.decimals("0.1", 100, places=2))
def test_deload_never_raises(sets: int, sets_left: Decimal, load_left: Decimal) -> None:
    base = Prescription(SetCount(sets, sets), Reps(5, 5), None, None, None)
    found = deloaded(base, deload(sets=f"{sets_left} %", load=f"{load_left} %"))
    assert 1 <= found.sets.most <= sets
    assert 0 < found.scale <= 1


# -- by session, two-for-two, steps, turns ---------------------------------------------------------


def session(weeks: int, sessions: int) -> Step:
    return Step(weeks, sessions, sessions)


def test_linear_by_session_counts_sessions() -> None:
    rule = Linear.model_validate({"rule": "linear", "add": "2.5 kg", "by": "session", "every": 2})
    found = [after(FIVES, rule, session(each // 3, each), "kg").added for each in range(5)]
    assert found == [D(mass) for mass in ("0", "0", "2.5", "2.5", "5")]


def test_linear_by_week_counts_weeks_however_often_the_line_is_done() -> None:
    found = [after(FIVES, linear(), session(each // 3, each), "kg").added for each in range(5)]
    assert found == [D(mass) for mass in ("0", "0", "0", "2.5", "2.5")]


def two_for_two(pace: int = 1) -> TwoForTwo:
    return TwoForTwo.model_validate({"rule": "two-for-two", "add": "5 kg", "pace": pace})


@pytest.mark.parametrize(
    ("pace", "aims", "added"),
    [
        # Up to two over the goal of five, once more there, then more load.
        (1, [5, 6, 7, 7, 5, 6, 7, 7, 5], [0, 0, 0, 0, 5, 5, 5, 5, 10]),
        (2, [5, 7, 7, 5, 7, 7, 5], [0, 0, 0, 5, 5, 5, 10]),
    ],
)
def test_two_for_two_waits_for_two_sessions_running(pace: int, aims: list[int], added: list[int]) -> None:
    found = [after(FIVES, two_for_two(pace), session(0, each), "kg") for each in range(len(aims))]
    assert [each.aim for each in found] == aims
    assert [each.added for each in found] == added
    assert all(each.projected and each.aims_last for each in found)


@pytest.mark.parametrize(
    ("last_sets", "more"),
    [([12, 12], True), ([11, 12], False), ([12, 11], False), ([12], False), ([], False), ([9, 12, 13], True)],
)
def test_the_rule_itself(last_sets: list[int], *, more: bool) -> None:
    assert may_add_load(10, last_sets) == more


@pytest.mark.parametrize(
    ("climb", "back", "steps"),
    [(3, 1, [0, 1, 2, 1, 2, 3, 2, 3, 4]), (4, 2, [0, 1, 2, 3, 1, 2, 3, 4, 2]), (4, 1, [0, 1, 2, 3, 2, 3, 4, 5, 4])],
)
def test_step_loading_goes_back_and_climbs_again(climb: int, back: int, steps: list[int]) -> None:
    rule = StepLoading.model_validate({"rule": "step", "add": "5 kg", "climb": climb, "back": back})
    assert [after(FIVES, rule, at(week), "kg").added for week in range(len(steps))] == [5 * step for step in steps]


def test_turns_go_round_and_leave_the_rest_as_it_is() -> None:
    rule = Undulating.model_validate(
        {"rule": "undulating", "turns": [{"reps": 8, "sets": 4}, {"load": "85 %"}], "add": "2.5 kg", "every": 2}
    )
    heavy, light = (after(FIVES, rule, Step(5, 10, turn), "kg") for turn in (1, 2))
    assert (heavy.reps, heavy.load, heavy.sets) == (Reps(5, 5), PercentOfMax(D(85)), SetCount(3, 3))
    assert (light.reps, light.load, light.sets) == (Reps(8, 8), None, SetCount(4, 4))
    # After five weeks, two steps of two.
    assert heavy.added == light.added == 5


@pytest.mark.parametrize(
    ("rule", "words"),
    [
        (Linear.model_validate({"rule": "linear", "add": "1 kg", "by": "session"}), "Add 1 kg each session."),
        (
            two_for_two(),
            "When the last set goes 2 repetitions over its goal in 2 sessions running, add 5 kg. "
            "The loads shown are a projection.",
        ),
        (
            StepLoading.model_validate({"rule": "step", "add": "5 kg"}),
            "Climb for 3 weeks, adding 5 kg from week to week; then go back one step and climb again.",
        ),
        (
            StepLoading.model_validate({"rule": "step", "add": "5 kg", "climb": 4, "back": 2}),
            "Climb for 4 weeks, adding 5 kg from week to week; then go back 2 steps and climb again.",
        ),
        (
            Undulating.model_validate({"rule": "undulating", "turns": [{"reps": 5}, {"reps": 8}, {"reps": 3}]}),
            "Repetitions and load change from session to session, in 3 turns.",
        ),
        (
            Undulating.model_validate({"rule": "undulating", "turns": [{"reps": 5}, {"reps": 8}], "add": "5 kg"}),
            "Repetitions and load change from session to session, in 2 turns. Add 5 kg each week.",
        ),
    ],
)
def test_the_newer_rules_in_a_sentence(rule: Progression, words: str) -> None:
    assert in_english(RULES[rule.rule].tell(rule)) == words


SQUAT = "exercise: squat, sets: 1, reps: 5, load: 60 kg"


def test_sessions_of_a_week_count_one_by_one() -> None:
    line = f"{{{SQUAT}, progression: {{rule: linear, add: 5 kg, by: session}}}}"
    found = plan_of(line, more="weeks: 3\nschedule: {mon: a, thu: a}\ndeload: {weeks: [2], load: 100 %}")
    loads = [[plain_or_feel(each.lifts[0].sets[0].pieces[0].load) for each in week.sessions] for week in found.weeks]
    # A deload stays at the last session's load, and the next session goes on from there.
    assert loads == [["60", "65"], ["65", "65"], ["70", "75"]]


@pytest.mark.parametrize(
    ("weeks", "deload", "loads"),
    [
        # A deload is no session; one that comes first is at the first load.
        (3, 2, ["60", "60", "65"]),
        (3, 1, ["60", "60", "65"]),
        (4, 3, ["60", "65", "65", "70"]),
    ],
)
def test_a_deload_repeats_the_last_session_of_a_line_done_once_a_week(
    weeks: int, deload: int, loads: list[str]
) -> None:
    line = f"{{{SQUAT}, progression: {{rule: linear, add: 5 kg, by: session}}}}"
    assert masses(plan_of(line, more=f"weeks: {weeks}\ndeload: {{weeks: [{deload}], load: 100 %}}")) == loads


def test_turns_follow_the_days_of_the_week_through_a_deload() -> None:
    line = f"{{{SQUAT}, progression: {{rule: undulating, turns: [{{load: 70 kg}}, {{load: 50 kg}}]}}}}"
    found = plan_of(line, more="weeks: 2\nschedule: {mon: a, thu: a}\ndeload: {weeks: [2], load: 100 %}")
    loads = [[plain_or_feel(each.lifts[0].sets[0].pieces[0].load) for each in week.sessions] for week in found.weeks]
    assert loads == [["70", "50"], ["70", "50"]]


def test_three_turns_on_two_days_go_on_in_the_next_week() -> None:
    turns = "[{load: 70 kg}, {load: 60 kg}, {load: 50 kg}]"
    line = f"{{{SQUAT}, progression: {{rule: undulating, turns: {turns}}}}}"
    found = plan_of(line, more="weeks: 3\nschedule: {mon: a, thu: a}")
    loads = [[plain_or_feel(each.lifts[0].sets[0].pieces[0].load) for each in week.sessions] for week in found.weeks]
    assert loads == [["70", "60"], ["50", "70"], ["60", "50"]]


def test_turns_loaded_by_their_own_effort() -> None:
    turns = "[{reps: 5, effort: 1 RIR}, {reps: 10, effort: 2 RIR}]"
    line = f"{{exercise: squat, sets: 1, reps: 8, progression: {{rule: undulating, turns: {turns}}}}}"
    found = plan_of(line, more="schedule: {mon: a, thu: a}")
    # Six and twelve to failure: 85 and 67 % of 100 kg.
    assert [plain_or_feel(each.lifts[0].sets[0].pieces[0].load) for each in found.weeks[0].sessions] == ["85", "67.5"]


def test_two_for_two_aims_with_the_last_set() -> None:
    line = "{exercise: squat, sets: 3, reps: 5, load: 60 kg, progression: {rule: two-for-two, add: 5 kg}}"
    found = plan_of(line, more="weeks: 5")
    assert [[work.pieces[0].aim for work in lift_of(found, week).sets] for week in (2, 3)] == [[5, 5, 6], [5, 5, 7]]
    assert masses(found) == ["60", "60", "60", "60", "65"]


# -- roles and test weeks --------------------------------------------------------------------------

ROLES = "weeks: 3\nprogressions: {main: {rule: linear, add: 5 kg}, assistance: {rule: double, add: 1 kg}}"


def test_a_role_brings_its_progression() -> None:
    found = plan_of(f"{{{SQUAT}, role: main}}", f"{{{SQUAT}, role: pump}}", f"{{{SQUAT}}}", more=ROLES)
    assert [masses(found, place) for place in range(3)] == [["60", "65", "70"], ["60"] * 3, ["60"] * 3]


def test_a_line_of_a_role_may_have_its_own_rule_or_none() -> None:
    own = f"{{{SQUAT}, role: main, progression: {{rule: linear, add: 10 kg}}}}"
    found = plan_of(own, f"{{{SQUAT}, role: main, progression: none}}", more=ROLES)
    assert [masses(found, place) for place in range(2)] == [["60", "70", "80"], ["60"] * 3]


TESTED = "weeks: 3\ntest: {weeks: [3], load: 90 %, others: 50 %}"


def test_a_main_lift_is_tested_with_one_open_set() -> None:
    line = (
        "{exercise: squat, role: main, sets: 3, reps: 5, load: {week 1: 70 %, week 3: 80 %}, "
        "back-off: {sets: 2, load: 80 %, reps: 8}, last set: {technique: drop-set}}"
    )
    found = plan_of(line, more=TESTED)
    (work,) = lift_of(found, 3).sets
    first = work.pieces[0]
    # 90 kg of 100: four repetitions by the handbook.
    assert (plain_or_feel(first.load), first.reps, first.aim, work.technique) == ("90", Reps(1, 1, open=True), 4, None)
    assert (found.weeks[2].test, found.weeks[2].working) == (True, False)


def test_other_lines_of_a_test_week_have_a_share_of_their_sets() -> None:
    line = "{exercise: bench, sets: 4, reps: 8, load: 60 kg, last set: {technique: drop-set}, role: assistance}"
    lift = lift_of(plan_of(line, more=TESTED), 3)
    assert (len(lift.sets), {work.technique for work in lift.sets}) == (2, {None})


def test_back_offs_beside_a_test_have_their_share_too() -> None:
    line = "{exercise: bench, sets: 1, reps: 3, load: 80 kg, back-off: {sets: 4, load: 80 %, reps: 6}}"
    assert [work.kind for work in lift_of(plan_of(line, more=TESTED), 3).sets] == ["top", "back-off", "back-off"]


def test_a_test_week_is_no_step() -> None:
    line = f"{{{SQUAT}, progression: {{rule: linear, add: 5 kg}}}}"
    found = plan_of(line, more="weeks: 3\ntest: {weeks: [2]}")
    assert masses(found) == ["60", "60", "65"]


def test_nothing_of_the_rule_or_the_effort_is_left_in_a_test() -> None:
    line = (
        "{exercise: squat, role: main, sets: 2-3, reps: 6-8, load: 60 kg, effort: 2 RIR, "
        "progression: {rule: double, add: 5 kg, pace: 2}}"
    )
    lift = lift_of(plan_of(line, more=TESTED), 3)
    (work,) = lift.sets
    assert (work.effort, work.optional, lift.effort, lift.projected) == (None, False, None, False)
    assert (work.pieces[0].load.exact, work.pieces[0].load.basis.added) == (D(90), D(0))
    assert in_english(lift.rule) == (
        "Test: one set with 90 % of the max. Stop with one clean repetition still in you, and at once when one slows. "
        "The count shown is where failure would be."
    )


def test_beside_a_test_the_rule_is_not_told() -> None:
    line = f"{{{SQUAT}, progression: {{rule: linear, add: 5 kg}}}}"
    found = plan_of(line, more=TESTED)
    assert [in_english(lift_of(found, week).rule) for week in (1, 3)] == ["Add 5 kg each week.", ""]


@pytest.mark.parametrize(
    ("rule", "loads"),
    [
        ("{rule: linear, add: 5 kg}", ["82.5", "87.5"]),
        ("{rule: double, add: 5 kg, pace: 10}", ["82.5", "82.5"]),
        ("{rule: two-for-two, add: 5 kg, pace: 2}", ["82.5", "82.5"]),
        ("{rule: step, add: 5 kg}", ["82.5", "87.5"]),
    ],
)
def test_what_is_added_is_added_to_the_load_of_the_first_week(rule: str, loads: list[str]) -> None:
    """The effort may change week by week; with a rule that adds load, only the first week's is loaded by."""
    line = f"{{exercise: squat, sets: 1, reps: 5-6, effort: {{week 1: 2 RIR, week 2: 0 RIR}}, progression: {rule}}}"
    assert masses(plan_of(line, more="weeks: 2")) == loads


@pytest.mark.parametrize(
    ("count", "percent", "left"),
    [(0, "60", 0), (1, "10", 1), (5, "50", 3), (3, "50", 2), (10, "25", 3), (10, "24", 2), (20, "100", 20)],
)
def test_shares_of_sets(count: int, percent: str, left: int) -> None:
    assert share_of_sets(count, D(percent)) == left


def test_turns_without_a_mass_add_nothing() -> None:
    rule = Undulating.model_validate({"rule": "undulating", "turns": [{"reps": 8}, {"reps": 5}]})
    assert after(FIVES, rule, Step(4, 8, 8), "kg").added == 0


@pytest.mark.parametrize("word", [REPS_PROJECTED, LOADS_PROJECTED])
def test_a_rule_can_be_told_without_the_word_that_numbers_are_projected(word: Sentence) -> None:
    what = Sentence("Add it.")
    assert rule_alone((what, word)) == rule_alone((what,)) == (what,)

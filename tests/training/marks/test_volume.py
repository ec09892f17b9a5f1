"""Marks on weekly sets."""

from __future__ import annotations

import pytest
from plateset.training.marks.mark import Mark
from plateset.training.marks.volume import MAJOR, promise_missed, sets_jump, untrained

from tests.training.building import marks_by, plan, plan_of

BENCH = "{exercise: bench, sets: 5, reps: 8, load: 60 kg}"


def promised(text: str, sets: str = "5", more: str = "") -> list[tuple[str, str]]:
    line = f"{{exercise: bench, sets: {sets}, reps: 8, load: 60 kg}}"
    marks = marks_by(promise_missed, plan_of(line, more=f"weekly sets: {{{text}}}\n{more}"))
    assert all(mark.severity == "stop" for mark in marks)
    return [(mark.name, mark.message) for mark in marks]


@pytest.mark.parametrize("text", ["chest: 5", "chest: 4-6", "triceps: 2-3", ""])
def test_promise_kept(text: str) -> None:
    assert promised(text) == []


def test_promise_missed() -> None:
    assert promised("chest: 6-8") == [("promise-missed", "chest: 6-8 weekly sets promised, 5 planned in week 1")]


def test_half_a_set_short_is_missed() -> None:
    assert promised("triceps: 3") == [("promise-missed", "triceps: 3 weekly sets promised, 2.5 planned in week 1")]


def test_promise_for_a_muscle_without_work() -> None:
    assert promised("calves: 2-4") == [("promise-missed", "calves: 2-4 weekly sets promised, 0 planned in week 1")]


def test_promise_exceeded() -> None:
    assert promised("chest: 2-4") == [("promise-exceeded", "chest: 2-4 weekly sets promised, 5 planned in week 1")]


def test_weeks_are_told_as_spans() -> None:
    found = promised("chest: 5-6", "{week 1: 4, week 3: 7, week 4: 2, week 5: 7, week 6: 3}", "weeks: 7")
    assert found == [
        ("promise-missed", "chest: 5-6 weekly sets promised, 2 to 4 planned in weeks 1-2, 4, 6-7"),
        ("promise-exceeded", "chest: 5-6 weekly sets promised, 7 planned in weeks 3, 5"),
    ]


def test_deloads_promise_nothing() -> None:
    assert promised("chest: 5", more="weeks: 2\ndeload: {weeks: [2]}") == []


@pytest.mark.parametrize(
    ("muscle", "promise", "remedy"),
    [
        ("chest", "8", "add 3 sets a week for chest, or promise less"),
        ("triceps", "4", "add 2 sets a week for triceps, or promise less"),
        ("chest", "3", "take out 2 sets a week for chest, or promise up to 5"),
        ("chest", "4", "take out 1 set a week for chest, or promise up to 5"),
        ("triceps", "1", "take out 2 sets a week for triceps, or promise up to 3"),
    ],
)
def test_remedy(muscle: str, promise: str, remedy: str) -> None:
    (mark,) = marks_by(promise_missed, plan_of(BENCH, more=f"weekly sets: {{{muscle}: {promise}}}"))
    assert mark.remedy == remedy
    assert mark.path == ("weekly sets", muscle)


@pytest.mark.parametrize(
    ("sets", "more", "words"),
    [
        ("{week 1: 5, week 2: 7}", "weeks: 2", []),
        ("{week 1: 5, week 2: 8}", "weeks: 2", ["from 5 weekly sets in week 1 to 8 in week 2, 60 % more (limit 40 %)"]),
        ("{week 1: 8, week 2: 4}", "weeks: 2", []),
        ("5", "weeks: 3\ndeload: {weeks: [2], sets: 20 %}", []),
        ("{week 1: 5, week 3: 8}", "weeks: 3\ndeload: {weeks: [2]}", ["in week 1 to 8 in week 3, 60 % more"]),
    ],
)
def test_sets_jump(sets: str, more: str, words: list[str]) -> None:
    line = f"{{exercise: curl, sets: {sets}, reps: 8, load: 10 kg}}"
    marks = marks_by(sets_jump, plan_of(line, more=more))
    assert len(marks) == len(words)
    for mark, said in zip(marks, words, strict=True):
        assert said in mark.message
        assert (mark.name, mark.severity, mark.path) == ("sets-jump", "query", ("sessions", "a", "lines", 0, "sets"))


@pytest.mark.parametrize(
    ("sets", "remedy"),
    [
        ("{week 1: 5, week 2: 8}", "go to at most 7 in week 2 and add the other 1 later"),
        ("{week 1: 3, week 2: 6}", "go to at most 4 in week 2 and add the other 2 later"),
        # 2.8 sets: to the half set below, never above the limit.
        ("{week 1: 2, week 2: 4}", "go to at most 2.5 in week 2 and add the other 1.5 later"),
    ],
)
def test_sets_jump_says_how_far_to_go(sets: str, remedy: str) -> None:
    line = f"{{exercise: curl, sets: {sets}, reps: 8, load: 10 kg}}"
    (mark,) = marks_by(sets_jump, plan_of(line, more="weeks: 2"))
    assert mark.remedy == remedy


def test_how_far_to_go_is_by_the_sites_limit() -> None:
    found = plan_of("{exercise: curl, sets: {week 1: 5, week 2: 8}, reps: 8, load: 10 kg}", more="weeks: 2")
    (mark,) = marks_by(sets_jump, found, "limits: {sets jump: 49 %}")
    # 7.45 sets.
    assert mark.remedy == "go to at most 7 in week 2 and add the other 1 later"


def test_sets_jump_keeps_to_the_sites_limit() -> None:
    found = plan_of("{exercise: curl, sets: {week 1: 5, week 2: 8}, reps: 8, load: 10 kg}", more="weeks: 2")
    assert marks_by(sets_jump, found, "limits: {sets jump: 60 %}") == []


def test_sets_jump_points_to_a_line_that_trains_the_muscle() -> None:
    found = plan(
        """
        weeks: 2
        sessions:
          a:
            - {exercise: squat, sets: {week 1: 5, week 2: 6}, reps: 8, load: 60 kg}
            - {exercise: curl, sets: 1, reps: 8, load: 10 kg}
            - superset:
                - {exercise: bench, sets: 3, reps: 8, load: 60 kg}
                - {exercise: curl, sets: {week 1: 2, week 2: 6}, reps: 8, load: 10 kg}
        """
    )
    (mark,) = marks_by(sets_jump, found)
    assert mark.path == ("sessions", "a", "lines", 2, "superset", 1, "sets")


def test_a_rise_of_a_group_points_to_a_line_that_trains_a_muscle_of_it() -> None:
    curl = "{exercise: curl, sets: {week 1: 2, week 2: 6}, reps: 8, load: 10 kg}"
    marks = marks_by(sets_jump, plan_of(BENCH, curl, more="weeks: 2\nweekly sets: {arms: 1-20}"))
    assert [(mark.message.partition(":")[0], mark.path) for mark in marks] == [
        (name, ("sessions", "a", "lines", 1, "sets")) for name in ("arms", "biceps")
    ]


def test_a_rise_without_a_set_more_points_to_the_muscle() -> None:
    drops = "every set: {technique: drop-set, drops: 2, each counts: 0.5, from week: 2}"
    line = f"{{exercise: curl, sets: 3, reps: 8, load: 20 kg, {drops}}}"
    (mark,) = marks_by(sets_jump, plan_of(line, more="weeks: 2"))
    assert mark.message.startswith("biceps: from 3 weekly sets in week 1 to 6 in week 2")
    assert mark.path == ("weekly sets", "biceps")


def test_untrained_names_what_is_missing() -> None:
    assert marks_by(untrained, plan_of(BENCH, "{exercise: pull-up, sets: 4, reps: 5}")) == [
        Mark(
            "muscle-untrained",
            "note",
            ("sessions",),
            "hardly trained in any week: upper back, quads, hamstrings, glutes, abs",
            "say in the text that the program is to be run beside other work, or add a line",
        )
    ]


def test_two_sets_a_week_are_not_hardly_any() -> None:
    one, two = (plan_of(f"{{exercise: curl, sets: {sets}, reps: 8, load: 10 kg}}") for sets in (1, 2))
    assert "biceps" in marks_by(untrained, one)[0].message
    assert "biceps" not in marks_by(untrained, two)[0].message


def test_all_round_program() -> None:
    everything = f"all: {{name: All, muscles: {{direct: [{', '.join(MAJOR)}]}}, movement: trunk, implement: other}}"
    line = "{exercise: all, sets: 2, reps: 5, load: 10 kg}"
    assert marks_by(untrained, plan_of(line, exercises_more=everything)) == []


# -- choices, groups, small rises ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("promise", "names"),
    [
        ("2-4", []),
        ("3-4", ["promise-missed"]),
        ("2-3", ["promise-exceeded"]),
        ("3", ["promise-missed", "promise-exceeded"]),
    ],
)
def test_all_of_a_choice_has_to_be_within_the_promise(promise: str, names: list[str]) -> None:
    found = promised(f"chest: {promise}", "2-4")
    assert [name for name, _ in found] == names


def test_the_least_and_the_most_are_told_where_they_break_it() -> None:
    missed, exceeded = promised("chest: 3", "2-4")
    assert missed[1].endswith("2 planned in week 1")
    assert exceeded[1].endswith("4 planned in week 1")


def test_a_promise_for_a_group() -> None:
    lines = (BENCH, "{exercise: curl, sets: 3, reps: 8, load: 10 kg}")
    # Half of five presses and three curls, each set once.
    found = marks_by(promise_missed, plan_of(*lines, more="weekly sets: {arms: 6}"))
    assert [mark.message for mark in found] == ["arms: 6 weekly sets promised, 5.5 planned in week 1"]
    assert marks_by(promise_missed, plan_of(*lines, more="weekly sets: {arms: 5-6}")) == []


def test_a_rise_of_less_than_a_set_is_no_jump() -> None:
    # Triceps go from half a set to one: twice as many, and half a set more.
    line = "{exercise: bench, sets: {week 1: 1, week 2: 2}, reps: 8, load: 60 kg}"
    found = marks_by(sets_jump, plan_of(line, more="weeks: 2"))
    assert [mark.message.partition(":")[0] for mark in found] == ["chest"]


def test_test_weeks_are_not_held_to_the_promise() -> None:
    line = "{exercise: bench, role: main, sets: 5, reps: 8, load: 60 kg}"
    found = plan_of(line, more="weeks: 2\ntest: {weeks: [2]}\nweekly sets: {chest: 5}")
    assert marks_by(promise_missed, found) == []

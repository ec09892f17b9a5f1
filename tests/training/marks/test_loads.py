"""Marks on loads."""

from __future__ import annotations

import pytest
from plateset.training.marks.loads import (
    above_body_max,
    bests_beyond,
    beyond_repetitions,
    drop_not_lighter,
    left_to_feel,
    load_jump,
    troubled_loads,
)
from plateset.training.marks.mark import Mark

from tests.training.building import marks_by, plan_of

SQUAT = "exercise: squat, sets: 3, reps: 5"


@pytest.mark.parametrize(
    ("line", "name", "severity"),
    [
        ("exercise: pushdown, sets: 3, reps: 5, load: 70 %", "max-missing", "stop"),
        ("exercise: squat, sets: 3, reps: 12, effort: 4 RIR", "beyond-curve", "query"),
        (f"{SQUAT}, load: 10 kg", "below-bar", "stop"),
        ("exercise: curl, sets: 3, reps: 5, load: 0.5 kg", "not-loadable", "query"),
        (f"{SQUAT}, load: 110 kg", "above-max", "stop"),
        ("exercise: sled, sets: 3, reps: 5, load: 70 kg", "above-max", "stop"),
    ],
)
def test_trouble_is_marked_where_it_is_written(line: str, name: str, severity: str) -> None:
    (mark,) = marks_by(troubled_loads, plan_of(f"{{{line}}}"))
    assert (mark.name, mark.severity) == (name, severity)
    assert mark.path == ("sessions", "a", "lines", 0, "load")
    assert mark.message.startswith("week 1: ")
    assert mark.remedy


@pytest.mark.parametrize(
    "line",
    [
        f"{SQUAT}, load: 70 %",
        "exercise: squat, sets: 3, reps: 12, effort: 3 RIR",
        f"{SQUAT}, load: 20 kg",
        "exercise: curl, sets: 3, reps: 5, load: 2 kg",
        f"{SQUAT}, load: 100 %",
        f"{SQUAT}, load: 110 kg, above max: allowed",
        f"{SQUAT}",
        "exercise: pushdown, sets: 3, reps: 5, load: by feel",
    ],
)
def test_no_trouble(line: str) -> None:
    assert marks_by(troubled_loads, plan_of(f"{{{line}}}")) == []


def test_figures_are_in_the_words() -> None:
    (below,) = marks_by(troubled_loads, plan_of(f"{{{SQUAT}, load: 10 kg}}"))
    assert "10 kg asked, but the empty bar weighs 20 kg" in below.message
    (beyond,) = marks_by(troubled_loads, plan_of("{exercise: squat, sets: 3, reps: 12, effort: 4 RIR}"))
    assert "16 repetitions to failure; the Handbook table holds to 15" in beyond.message


IN_A_GROUP = ("sessions", "a", "lines", 0, "superset", 1)


def second_of_two(line: str) -> str:
    """A superset whose second lift is ``line``."""
    return f"{{superset: [{{exercise: plank, sets: 1, hold: 20 s}}, {{{line}}}]}}"


@pytest.mark.parametrize(
    ("line", "message", "remedy"),
    [
        (
            "exercise: pushdown, sets: 3, reps: 5, load: 70 %",
            "a percent load, but the example lifter has no max for pushdown",
            "add pushdown to 'example lifter: bests', or give the note a 'max from'",
        ),
        (
            f"{SQUAT}, load: 110 kg",
            "squat: 110 kg asked, above the example lifter's max of 100 kg",
            "lower the load, or write 'above max: allowed' on the line if it is meant",
        ),
        (
            "exercise: curl, sets: 3, reps: 5, load: 0.5 kg",
            "curl: 0.5 kg asked, but the lightest there is weighs 2 kg",
            "choose another lift, or say what lighter loads the gym has under 'loading'",
        ),
    ],
)
def test_trouble_is_told_in_full(line: str, message: str, remedy: str) -> None:
    (mark,) = marks_by(troubled_loads, plan_of(second_of_two(line)))
    assert (mark.path, mark.message, mark.remedy) == ((*IN_A_GROUP, "load"), f"week 1: {message}", remedy)


def test_every_line_in_trouble_is_marked_for_each_of_its_troubles() -> None:
    first, second = f"{{{SQUAT}, load: {{week 1: 110 kg, week 2: 10 kg}}}}", f"{{{SQUAT}, load: 120 kg}}"
    marks = marks_by(troubled_loads, plan_of(first, second, more="weeks: 2"))
    assert [(mark.name, mark.path[3], mark.message[:6]) for mark in marks] == [
        ("above-max", 0, "week 1"),
        ("above-max", 1, "week 1"),
        ("below-bar", 0, "week 2"),
    ]


def test_trouble_is_named_once_with_its_first_week() -> None:
    found = plan_of(f"{{{SQUAT}, load: {{week 1: 60 kg, week 3: 110 kg}}}}", more="weeks: 5")
    (mark,) = marks_by(troubled_loads, found)
    assert mark.message.startswith("week 3: ")


def test_path_of_a_part_of_a_group() -> None:
    parts = f"{{{SQUAT}, load: 60 kg}}, {{exercise: bench, sets: 1, reps: 5, load: 10 kg}}, {{{SQUAT}, load: 60 kg}}"
    for key in ("giant set", "pick one"):
        (mark,) = marks_by(troubled_loads, plan_of(f"{{{key}: [{parts}]}}"))
        assert mark.path == ("sessions", "a", "lines", 0, key, 1, "load")


@pytest.mark.parametrize(
    ("loads", "more", "weeks"),
    [
        ("{week 1: 60 kg, week 2: 66 kg}", "weeks: 2", []),
        ("{week 1: 60 kg, week 2: 67.5 kg}", "weeks: 2", ["weeks 1 and 2, 12.5 % more (limit 10 %)"]),
        ("{week 1: 60 kg, week 2: 50 kg}", "weeks: 2", []),
        ("{week 1: 60 kg, week 3: 80 kg}", "weeks: 3", ["weeks 2 and 3, 33.3 % more (limit 10 %)"]),
        ("{week 1: 60 kg, week 2: 50 kg, week 3: 60 kg}", "weeks: 3\ndeload: {weeks: [2]}", []),
        ("{week 1: 60 kg, week 3: 80 kg}", "weeks: 3\ndeload: {weeks: [2]}", ["weeks 1 and 3, 33.3 % more"]),
        ("{week 1: by feel, week 2: 80 kg}", "weeks: 2", []),
    ],
)
def test_load_jump(loads: str, more: str, weeks: list[str]) -> None:
    marks = marks_by(load_jump, plan_of(f"{{{SQUAT}, load: {loads}}}", more=more))
    assert len(marks) == len(weeks)
    for mark, words in zip(marks, weeks, strict=True):
        assert words in mark.message
        assert (mark.name, mark.severity) == ("load-jump", "query")


def test_load_jump_is_told_at_its_place() -> None:
    line = second_of_two(f"{SQUAT}, load: {{week 1: 60 kg, week 2: 67.5 kg}}")
    assert marks_by(load_jump, plan_of(line, more="weeks: 2")) == [
        Mark(
            "load-jump",
            "query",
            (*IN_A_GROUP, "load"),
            "squat: from 60 to 67.5 kg between weeks 1 and 2, 12.5 % more (limit 10 %)",
            "go to at most 66 kg in week 2, or gain repetitions over a wider range before adding load",
        )
    ]


def test_load_jump_keeps_to_the_sites_limit() -> None:
    found = plan_of(f"{{{SQUAT}, load: {{week 1: 60 kg, week 2: 67.5 kg}}}}", more="weeks: 2")
    assert marks_by(load_jump, found, "limits: {load jump: 12.5 %}") == []
    assert len(marks_by(load_jump, found, "limits: {load jump: 12.4 %}")) == 1


def test_load_jump_on_the_body_counts_the_body() -> None:
    loads = "{week 1: bodyweight + 5 kg, week 2: bodyweight + 10 kg}"
    found = plan_of(f"{{exercise: pull-up, sets: 3, reps: 5, load: {loads}}}", more="weeks: 2")
    assert marks_by(load_jump, found) == []


@pytest.mark.parametrize(("place", "load", "fires"), [("last", 20, True), ("every", 20, True), ("last", 40, False)])
def test_drop_not_lighter(place: str, load: int, fires: bool) -> None:
    found = plan_of(f"{{{SQUAT}, load: {load} kg, {place} set: {{technique: drop-set}}}}")
    # Of the two keys in the path the one that is written is found.
    told = Mark(
        "drop-not-lighter",
        "stop",
        ("sessions", "a", "lines", 0, "last set", "every set"),
        "week 1: squat: nothing lighter to drop to on this equipment",
        "fewer drops, or a heavier start",
    )
    assert marks_by(drop_not_lighter, found) == [told] * fires
    grouped = second_of_two(f"{SQUAT}, load: {load} kg, {place} set: {{technique: drop-set}}")
    assert [mark.path for mark in marks_by(drop_not_lighter, plan_of(grouped))] == [
        (*IN_A_GROUP, "last set", "every set")
    ] * fires


def test_drop_not_lighter_in_a_later_week() -> None:
    line = f"{{{SQUAT}, load: {{week 1: 60 kg, week 2: 20 kg}}, last set: {{technique: drop-set}}}}"
    (mark,) = marks_by(drop_not_lighter, plan_of(line, more="weeks: 4"))
    assert mark.message.startswith("week 2: ")


@pytest.mark.parametrize(
    ("line", "fires"),
    [
        ("exercise: pull-up, sets: 2, reps: 5", True),
        ("exercise: pull-up, sets: 2, reps: 5, load: bodyweight", True),
        ("exercise: pull-up, sets: 2, hold: 40 s", True),
        ("exercise: pull-up, sets: 2, reps: 5, load: bodyweight + 10 kg", True),
        ("exercise: pull-up, sets: 2, reps: 5, load: bodyweight - 20 kg", False),
        ("exercise: pull-up, sets: 2, reps: 5, load: by feel", False),
        ("exercise: pull-up, sets: 2, hold: 40 s, load: by feel", False),
        ("exercise: squat, sets: 2, hold: 40 s, load: 60 kg", False),
    ],
)
def test_drop_from_the_body_alone(line: str, fires: bool) -> None:
    found = marks_by(drop_not_lighter, plan_of(f"{{{line}, last set: {{technique: drop-set}}}}"))
    assert [mark.message for mark in found] == ["week 1: pull-up: nothing to take off the body alone"] * fires
    one = marks_by(drop_not_lighter, plan_of(f"{{{line}, last set: {{technique: drop-set, drops: 1}}}}"))
    assert bool(one) == (fires and "+ 10 kg" not in line)


@pytest.mark.parametrize(
    ("line", "fires"),
    [
        ("exercise: pushdown, sets: 3, reps: 8, effort: 2 RIR", True),
        ("exercise: pushdown, sets: 3, reps: 8, effort: 2 RIR, load: by feel", False),
        ("exercise: pushdown, sets: 3, reps: 8", False),
        ("exercise: squat, sets: 3, reps: 8, effort: 2 RIR", False),
        ("exercise: squat, sets: 3, reps: 14, effort: 2 RIR", False),
    ],
)
def test_left_to_feel_for_want_of_a_max(line: str, fires: bool) -> None:
    marks = marks_by(left_to_feel, plan_of(f"{{{line}}}", f"{{{line}}}"))
    assert [(mark.name, mark.severity) for mark in marks] == [("load-by-feel", "note")] * fires
    assert all("no max is known for pushdown:" in mark.message for mark in marks)


def test_every_lift_without_a_max_is_named() -> None:
    lines = (f"{{exercise: {name}, sets: 3, reps: 8, effort: 2 RIR}}" for name in ("pushdown", "pull-up", "pushdown"))
    row = "row: {name: Row, muscles: {direct: [lats]}, movement: horizontal pull, implement: cable}"
    found = plan_of(*lines, "{exercise: row, sets: 3, reps: 8, effort: 2 RIR}", exercises_more=row)
    assert marks_by(left_to_feel, found) == [
        Mark(
            "load-by-feel",
            "note",
            ("example lifter",),
            "no max is known for pushdown, row: the sheets say 'by feel'",
            "add a set for each to 'example lifter: bests', or write 'load: by feel' if it is meant",
        )
    ]


@pytest.mark.parametrize(
    ("reps", "load", "effort", "fires"),
    [
        (5, "95 %", "", True),  # the table gives 87 % for 5
        (5, "92 %", "", True),  # and 93 % for 3: two fewer
        (5, "87 %", "", False),
        (5, "89 %", "", False),  # one repetition is forgiven: 4 at 89 %
        (5, "87 %", ", effort: 3 RIR", True),  # 5 + 3 is 80 %
        (5, "80 %", ", effort: 3 RIR", False),
        (5, "96 kg", "", True),  # a fixed load, the max being 100 kg
    ],
)
def test_beyond_repetitions(reps: int, load: str, effort: str, fires: bool) -> None:
    line = f"{{exercise: squat, sets: 3, reps: {reps}, load: {load}{effort}}}"
    marks = marks_by(beyond_repetitions, plan_of(line))
    assert [(mark.name, mark.severity) for mark in marks] == [("beyond-repetitions", "query")] * fires


def test_each_line_beyond_its_repetitions_is_told_once() -> None:
    fine, too_many = f"{{{SQUAT}, load: 80 %}}", f"{SQUAT}, load: 87 %, effort: 3 RIR"
    found = plan_of(second_of_two(too_many), fine, f"{{{SQUAT}, load: 95 %}}", more="weeks: 2")
    remedy = "lower the load or the repetitions, or ask for less in reserve"
    assert marks_by(beyond_repetitions, found) == [
        Mark(
            "beyond-repetitions",
            "query",
            (*IN_A_GROUP, "load"),
            "week 1: squat at 87.5 % of the max allows 4 repetitions (handbook table); 5 with 3 in reserve asked",
            remedy,
        ),
        Mark(
            "beyond-repetitions",
            "query",
            ("sessions", "a", "lines", 2, "load"),
            "week 1: squat at 95 % of the max allows 2 repetitions (handbook table); 5 asked",
            remedy,
        ),
    ]


def test_the_body_counts_in_what_its_load_allows() -> None:
    lifter = "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 40 kg x 1}}"
    # 110 kg of 120 are 91.7 %: three repetitions.
    line = "{exercise: pull-up, sets: 1, reps: 6, load: bodyweight + 30 kg}"
    (mark,) = marks_by(beyond_repetitions, plan_of(line, more=lifter))
    assert "pull-up at 91.7 % of the max allows 3 repetitions" in mark.message


@pytest.mark.parametrize("more", ["", ", back-off: {sets: 1, load: 80 %, reps: 5}"])
def test_a_goal_beyond_the_load_stays_so_if_the_set_is_open_above_it(more: str) -> None:
    line = f"{{exercise: squat, sets: 1, reps: 8, load: 90 %, every set: {{technique: as-many-as-possible}}{more}}}"
    (mark,) = marks_by(beyond_repetitions, plan_of(line))
    assert "allows 4 repetitions (handbook table); 8 asked" in mark.message


def test_rounding_of_a_load_by_effort_is_not_held_against_its_reserve() -> None:
    # Seven to failure are 83 % of 26 kg: 21.58 kg, and 22.5 on the bar, which is 86.5 % and allows five.
    lifter = "example lifter: {bests: {squat: 26 kg x 1}}"
    assert marks_by(beyond_repetitions, plan_of(f"{{{SQUAT}, effort: 2 RIR}}", more=lifter)) == []


def test_a_hold_is_not_held_to_a_curve_of_repetitions() -> None:
    assert marks_by(beyond_repetitions, plan_of("{exercise: sled, sets: 1, hold: 20 s, load: 60 kg}")) == []


@pytest.mark.parametrize("more", ["progression: {rule: linear, add: 10 kg}", "effort: 2 RIR"])
def test_what_a_progression_adds_or_the_effort_gives_is_not_beyond(more: str) -> None:
    given = "load: 80 %, " if "linear" in more else ""
    line = f"{{exercise: squat, sets: 3, reps: 8, {given}{more}}}"
    assert marks_by(beyond_repetitions, plan_of(line, more="weeks: 3")) == []


@pytest.mark.parametrize(("asked", "fires"), [("60 kg", True), ("51 kg", False), ("50 kg", False)])
def test_beyond_the_rack(asked: str, fires: bool) -> None:
    # Dumbbells end at 50 kg in steps of 2.
    line = f"{{exercise: curl, sets: 1, reps: 1, load: {asked}, above max: allowed}}"
    marks = [mark for mark in marks_by(troubled_loads, plan_of(line)) if mark.name == "beyond-rack"]
    assert [mark.severity for mark in marks] == ["stop"] * fires
    assert all("60 kg asked, but the heaviest there is weighs 50 kg" in mark.message for mark in marks)


@pytest.mark.parametrize(("reps", "fires"), [(15, False), (16, True)])
def test_a_best_beyond_the_curve_gives_no_max(reps: int, fires: bool) -> None:
    lifter = f"example lifter: {{bests: {{squat: 50 kg x {reps}}}}}"
    found = plan_of("{exercise: squat, sets: 1, reps: 5, load: by feel}", more=lifter)
    told = Mark(
        "beyond-curve",
        "query",
        ("example lifter", "bests", "squat"),
        f"squat: a set of {reps} gives no max; the handbook table holds to 15",
        "record a heavier set of 15 or fewer",
    )
    assert marks_by(bests_beyond, found) == [told] * fires


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("load: bodyweight + 20 kg", ""),
        ("load: bodyweight", ""),
        ("load: bodyweight - 20 kg", ""),
        ("load: 100 %", ""),
        ("load: by feel", ""),
        ("load: bodyweight + 22.5 kg", "week 1: pull-up: body and load together are 102.5 kg, above"),
        ("load: bodyweight + 22.5 kg, above max: allowed", ""),
        (
            "load: {week 1: bodyweight, week 2: bodyweight + 25 kg}",
            "week 2: pull-up: body and load together",
        ),
        ("load: bodyweight + 15 kg, progression: {rule: linear, add: 5 kg}", "week 3: pull-up"),
    ],
)
def test_above_the_max_of_a_lift_of_the_body(line: str, said: str) -> None:
    lifter = "weeks: 4\nexample lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 20 kg x 1}}"
    marks = marks_by(above_body_max, plan_of(f"{{exercise: pull-up, sets: 3, reps: 1, {line}}}", more=lifter))
    assert len(marks) == bool(said)
    for mark in marks:
        assert mark.message.startswith(said)
        assert "max of 100 kg" in mark.message
        assert mark.remedy.startswith("add at most 20 kg, or write 'above max: allowed'")
        assert (mark.name, mark.severity, mark.path) == ("above-max", "stop", ("sessions", "a", "lines", 0, "load"))


def test_every_line_above_the_max_of_the_body_is_marked() -> None:
    line = "{exercise: pull-up, sets: 1, reps: 1, load: bodyweight + 30 kg}"
    lifter = "weeks: 2\nexample lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 20 kg x 1}}"
    assert [mark.path[3] for mark in marks_by(above_body_max, plan_of(line, line, more=lifter))] == [0, 1]


def test_without_a_bodyweight_what_is_added_is_held_against_the_max() -> None:
    line = "{exercise: pull-up, sets: 1, reps: 1, load: bodyweight + 110 kg}"
    (mark,) = marks_by(above_body_max, plan_of(line, more="example lifter: {bests: {pull-up: 100 kg x 1}}"))
    assert "body and load together are 110 kg, above the example lifter's max of 100 kg" in mark.message
    assert mark.remedy.startswith("add at most 100 kg, ")


def test_lifts_that_do_not_move_the_body_have_their_own_rule() -> None:
    assert marks_by(above_body_max, plan_of(f"{{{SQUAT}, load: 110 kg}}")) == []


@pytest.mark.parametrize(
    ("loads", "remedy"),
    [
        ("{week 1: 50 kg, week 2: 60 kg}", "go to at most 55 kg in week 2"),
        ("{week 1: 62.5 kg, week 2: 75 kg}", "go to at most 68.7 kg in week 2"),
    ],
)
def test_load_jump_says_how_far_to_go(loads: str, remedy: str) -> None:
    (mark,) = marks_by(load_jump, plan_of(f"{{{SQUAT}, load: {loads}}}", more="weeks: 2"))
    assert mark.remedy.startswith(remedy)


# -- sets that part, curves by exercise, part of the range -----------------------------------------


def test_what_fewer_repetitions_allow_is_no_jump() -> None:
    # From ten repetitions to five the handbook allows 75 to 87 %: 16 % more.
    fives = "{exercise: squat, sets: 1, reps: {week 1: 10, week 2: 5}, load: {week 1: 60 kg, week 2: 70 kg}}"
    assert marks_by(load_jump, plan_of(fives, more="weeks: 2")) == []
    tens = "{exercise: squat, sets: 1, reps: 10, load: {week 1: 60 kg, week 2: 70 kg}}"
    assert len(marks_by(load_jump, plan_of(tens, more="weeks: 2"))) == 1


def test_more_repetitions_excuse_nothing() -> None:
    line = "{exercise: squat, sets: 1, reps: {week 1: 5, week 2: 10}, load: {week 1: 60 kg, week 2: 70 kg}}"
    assert len(marks_by(load_jump, plan_of(line, more="weeks: 2"))) == 1


def test_a_test_week_is_no_jump() -> None:
    line = "{exercise: squat, role: main, sets: 1, reps: 10, load: 60 %}"
    found = plan_of(line, more="weeks: 3\ntest: {weeks: [2], load: 90 %}")
    assert marks_by(load_jump, found) == []


def test_the_heaviest_set_is_what_jumps() -> None:
    pyramid = "pyramid: {direction: ascending, load: 20 %}"
    line = f"{{exercise: squat, sets: 2, reps: 5, load: {{week 1: 60 kg, week 2: 70 kg}}, {pyramid}}}"
    (mark,) = marks_by(load_jump, plan_of(line, more="weeks: 2"))
    assert mark.message.startswith("squat: from 60 to 70 kg")


def test_any_set_may_be_below_the_bar() -> None:
    line = "{exercise: squat, sets: 1, reps: 3, load: 30 kg, back-off: {sets: 2, load: 40 %, reps: 8}}"
    (mark,) = marks_by(troubled_loads, plan_of(line))
    assert (mark.name, mark.message) == (
        "below-bar",
        "week 1: squat: 12 kg asked, but the empty bar weighs 20 kg",
    )


def test_part_of_the_range_by_effort_is_asked_about() -> None:
    (mark,) = marks_by(
        troubled_loads,
        plan_of("{exercise: squat, sets: 1, reps: 8, effort: 2 RIR, range of motion: bottom half}"),
    )
    assert (mark.name, mark.severity) == ("part-range", "query")
    assert "part of its range" in mark.message


def test_back_offs_are_held_to_the_curve_as_well() -> None:
    # 85 % of 90 kg is 77.5 kg: eight repetitions by the handbook, and one is forgiven.
    def line(reps: int) -> str:
        return f"{{exercise: squat, sets: 1, reps: 3, load: 90 %, back-off: {{sets: 1, load: 85 %, reps: {reps}}}}}"

    assert marks_by(beyond_repetitions, plan_of(line(9))) == []
    (mark,) = marks_by(beyond_repetitions, plan_of(line(11)))
    assert "allows 8 repetitions (handbook table); 11 asked" in mark.message


def test_the_curve_of_the_exercise_is_the_one_that_judges() -> None:
    # Epley holds to ten repetitions, the handbook to fifteen.
    by_epley = "squat: {name: Squat, muscles: {direct: [quads]}, movement: squat, implement: barbell, curve: epley}"
    lifter = "example lifter: {bests: {squat: 60 kg x 12}}"
    line = "{exercise: squat, sets: 1, reps: 5, load: 50 kg}"
    assert marks_by(bests_beyond, plan_of(line, more=lifter)) == []
    (mark,) = marks_by(bests_beyond, plan_of(line, more=lifter, exercises_more=by_epley))
    assert "the epley holds to 10" in mark.message


@pytest.mark.parametrize(
    ("reps", "load", "marked"),
    [
        # The handbook: 15 repetitions at 65 %, 10 at 75 %: 15.4 % more, and a tenth of that on top makes 26.9 %.
        ("{week 1: 15, week 2: 10}", "{week 1: 40 kg, week 2: 50 kg}", False),
        ("{week 1: 15, week 2: 10}", "{week 1: 40 kg, week 2: 52.5 kg}", True),
        # Beyond the curve nothing is excused.
        ("{week 1: 16, week 2: 10}", "{week 1: 40 kg, week 2: 50 kg}", True),
        ("as many as possible", "{week 1: 40 kg, week 2: 50 kg}", True),
        ("{week 1: 5, week 2: as many as possible}", "{week 1: 40 kg, week 2: 50 kg}", True),
        ("{week 1: as many as possible, week 2: 5}", "{week 1: 40 kg, week 2: 50 kg}", True),
    ],
)
def test_how_much_heavier_fewer_repetitions_may_be(reps: str, load: str, *, marked: bool) -> None:
    line = f"{{exercise: squat, sets: 1, reps: {reps}, load: {load}}}"
    assert bool(marks_by(load_jump, plan_of(line, more="weeks: 2"))) == marked


def test_holds_may_jump_too() -> None:
    line = "{exercise: sled, sets: 1, hold: 20 s, load: {week 1: 40 kg, week 2: 50 kg}}"
    assert len(marks_by(load_jump, plan_of(line, more="weeks: 2"))) == 1


def test_above_the_max_may_be_meant_within_a_group() -> None:
    lifter = "example lifter: {bodyweight: 80 kg, bests: {pull-up: bodyweight + 10 kg x 1}}"
    pull = "{exercise: pull-up, sets: 1, reps: 1, load: bodyweight + 20 kg"
    other = "{exercise: plank, sets: 1, hold: 20 s}"
    (mark,) = marks_by(above_body_max, plan_of(f"{{superset: [{other}, {pull}}}]}}", more=lifter))
    assert mark.path == ("sessions", "a", "lines", 0, "superset", 1, "load")
    meant = f"{{superset: [{other}, {pull}, above max: allowed}}]}}"
    assert marks_by(above_body_max, plan_of(meant, more=lifter)) == []

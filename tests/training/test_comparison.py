"""Two versions of a program side by side."""

from __future__ import annotations

from decimal import Decimal

import pytest
from plateset.training.comparison import Change, Comparison, Version, compare, written_words
from plateset.training.volume import program_volume

from tests.training.building import plan, read

BASE = """
weeks: 3
weekly sets: {chest: 3-5}
sessions:
  a:
    within: 60 min
    lines:
      - {exercise: squat, sets: 3, reps: 5, load: 60 kg, rest: 3 min}
      - {exercise: bench, sets: 3, reps: 5, load: {week 1: 60 kg, week 3: 65 kg}, rest: 2 min}
      - superset:
          - {exercise: curl, sets: 2, reps: 10, load: 10 kg}
          - {exercise: pushdown, sets: 2, reps: 10, load: 20 kg}
        rest: 90 s
"""


def version(text: str) -> Version:
    found = plan(text)
    return Version(found, program_volume(found), read(text))


def changed(*swaps: tuple[str, str]) -> Comparison:
    text = BASE
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    return compare(version(BASE), version(text))


def test_the_same_twice_is_no_change() -> None:
    found = changed()
    assert found.is_empty
    assert found == Comparison((), (), (), (), (), (), ())


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("rest: 2 min", "rest: 120 s"),
        ("within: 60 min", "within: 1 h"),
        ("reps: 5, load: 60 kg", "reps: 5-5, load: 60.0 kg"),
        ("sets: 2", "sets: {week 1: 2, week 2: 2}"),
        ("week 3: 65 kg}", "week 3: 65 kg, week 4: 80 kg}"),
    ],
)
def test_the_same_in_other_words_is_no_change(old: str, new: str) -> None:
    assert changed((old, new)).is_empty


def test_promises() -> None:
    found = changed(("{chest: 3-5}", "{chest: 4, lats: 2-3}"))
    assert found.promises == (Change("chest", "3-5", "4"), Change("lats", "not given", "2-3"))
    assert compare(version(BASE.replace("chest: 3-5", "")), version(BASE)).promises == (
        Change("chest", "not given", "3-5"),
    )


def test_more_sets_change_line_volume_and_minutes_but_no_load() -> None:
    found = changed(("exercise: bench, sets: 3", "exercise: bench, sets: {week 1: 3, week 2: 5}"))
    (line,) = found.lines
    assert (line.session, line.exercise, line.kind) == ("a", "bench", "changed")
    assert line.changes == (Change("sets", "3", "week 1: 3, week 2: 5"),)
    assert [(each.muscle, each.before, each.after) for each in found.volume] == [
        ("chest", (3, 3), (3, 5)),
        ("triceps", (Decimal("3.5"), Decimal("3.5")), (Decimal("3.5"), Decimal("4.5"))),
    ]
    (minutes,) = found.minutes
    assert minutes.session == "a"
    assert minutes.before is not None
    assert minutes.after == (minutes.before[0], minutes.before[0] + 4)  # two sets of 20 s, two rests of 2 min
    assert found.loads == ()


def test_volume_goes_from_the_least_to_the_most_a_reader_may_do() -> None:
    found = changed(("exercise: bench, sets: 3", "exercise: bench, sets: 3-4"))
    assert [(each.muscle, each.before, each.after) for each in found.volume] == [
        ("chest", (Decimal(3), Decimal(3)), (Decimal(3), Decimal(4))),
        ("triceps", (Decimal("3.5"), Decimal("3.5")), (Decimal("3.5"), Decimal(4))),
    ]


def test_a_test_week_is_no_working_week() -> None:
    main = BASE.replace("{exercise: squat,", "{exercise: squat, role: main,")
    found = compare(version(main), version(main.replace("weeks: 3", "weeks: 4\ntest: {weeks: [4]}")))
    assert [change.what for change in found.settings] == ["weeks", "test"]
    assert (found.volume, found.minutes) == ((), ())


def test_loads_from_first_to_last_week() -> None:
    (load,) = changed(("week 3: 65 kg", "week 3: 70 kg")).loads
    assert (load.session, load.exercise) == ("a", "bench")
    assert [stand.load.mass for stand in (*load.before, *load.after)] == [60, 65, 60, 70]
    assert [stand.week for stand in load.after] == [1, 3]


def test_another_unit_is_another_load() -> None:
    found = changed(("weeks: 3", "weeks: 3\nunit: lb"))
    assert found.settings == (Change("unit", "not given", "lb"),)
    assert {load.exercise for load in found.loads} == {"squat", "bench", "curl", "pushdown"}


TWO_DAYS = """
weeks: 3
schedule: {mon: b, wed: b, fri: a}
sessions:
  b:
    - {exercise: squat, sets: 1, reps: 5, load: 60 kg, progression: {rule: undulating, turns: [{reps: 5}, {reps: 8},
       {load: 50 kg}]}}
    - {exercise: bench, sets: 1, reps: 5, load: 40 kg}
    - {exercise: squat, sets: 1, reps: 10, load: 45 kg}
  a:
    - {exercise: curl, sets: 1, reps: 5, load: 10 kg}
"""


@pytest.mark.parametrize(
    ("old", "new", "loads"),
    [
        # Wednesday ends with the turn of 50 kg, Monday with another: the first day is told.
        ("load: 60 kg", "load: 70 kg", [("b", "squat", [60, 60, 70, 70])]),
        ("load: 45 kg", "load: 47.5 kg", [("b", "squat", [45, 45, Decimal("47.5"), Decimal("47.5")])]),
        ("load: 10 kg", "load: 12 kg", [("a", "curl", [10, 10, 12, 12])]),
    ],
)
def test_loads_of_a_session_on_two_days_and_of_the_next(
    old: str, new: str, loads: list[tuple[str, str, list[object]]]
) -> None:
    found = compare(version(TWO_DAYS), version(TWO_DAYS.replace(old, new))).loads
    assert [
        (each.session, each.exercise, [stand.load.mass for stand in (*each.before, *each.after)]) for each in found
    ] == loads


def test_changed_lines_are_told_in_the_order_they_are_written() -> None:
    found = compare(version(TWO_DAYS), version(TWO_DAYS.replace("sets: 1", "sets: 2"))).lines
    assert [(each.session, each.exercise) for each in found] == [
        ("b", "squat"),
        ("b", "bench"),
        ("b", "squat"),
        ("a", "curl"),
    ]
    assert {each.changes for each in found} == {(Change("sets", "1", "2"),)}


def test_another_load_in_the_first_week_alone_is_a_change() -> None:
    (line,) = changed(("{week 1: 60 kg, week 3: 65 kg}", "{week 1: 55 kg, week 2: 60 kg, week 3: 65 kg}")).lines
    assert line.changes == (
        Change("load", "week 1: 60 kg, week 3: 65 kg", "week 1: 55 kg, week 2: 60 kg, week 3: 65 kg"),
    )


def test_an_effort_in_place_of_a_load() -> None:
    (line,) = changed(("load: 10 kg", "effort: 2 RIR")).lines
    assert line.changes == (Change("load", "10 kg", "not given"), Change("effort", "not given", "2 RIR"))


def test_a_time_that_is_promised_no_longer() -> None:
    assert changed(("    within: 60 min\n", "")).settings == (Change("within of a", "60 min", "not given"),)


def test_lines_added_and_gone() -> None:
    found = changed(("exercise: squat, sets: 3", "exercise: sled, sets: 3"))
    assert [(line.exercise, line.kind) for line in found.lines] == [("sled", "added"), ("squat", "gone")]


def test_a_second_line_of_an_exercise_is_another_line() -> None:
    line = "      - {exercise: squat, sets: 3, reps: 5, load: 60 kg, rest: 3 min}\n"
    found = changed((line, line + line.replace("reps: 5", "reps: 8")))
    assert [(line.exercise, line.kind) for line in found.lines] == [("squat", "added")]


def test_a_line_that_joins_a_group_is_told_by_its_company() -> None:
    found = changed(
        ("      - {exercise: bench, sets: 3, reps: 5, load: {week 1: 60 kg, week 3: 65 kg}, rest: 2 min}\n", ""),
        ("      - superset:\n", "      - superset:\n          - {exercise: bench, sets: 3, reps: 5, "
         "load: {week 1: 60 kg, week 3: 65 kg}}\n"),
    )  # fmt: skip
    told = {line.exercise: line.changes for line in found.lines}
    assert told["bench"] == (
        Change("done", "by itself", "superset of bench, curl, pushdown"),
        Change("rest", "2 min", "not given"),
    )
    assert told["curl"] == (Change("done", "superset of curl, pushdown", "superset of bench, curl, pushdown"),)
    assert "squat" not in told


def test_the_rest_of_a_group() -> None:
    found = changed(("        rest: 90 s", "        rest: 60 s\n        between: 10 s"))
    assert [line.changes for line in found.lines] == [
        (Change("rest of the superset", "90 s", "60 s"), Change("between of the superset", "not given", "10 s"))
    ] * 2


def test_settings_are_told_entry_by_entry() -> None:
    lifter = "example lifter: {bodyweight: 80 kg, bests: {squat: 100 kg x 1, bench: 90 kg x 1}}\n"
    before = version(BASE + lifter)
    after = version(BASE.replace("within: 60 min", "within: 45 min") + lifter.replace("90 kg", "95 kg"))
    assert compare(before, after).settings == (
        Change("example lifter: bests: bench", "90 kg x 1", "95 kg x 1"),
        Change("within of a", "60 min", "45 min"),
    )


def test_prose_is_named_only() -> None:
    before, after = (version(BASE + f"cautions: [{word}]\ntext: {word}\n") for word in ("Slowly", "Slower"))
    found = compare(before, after)
    assert found.prose == ("text", "cautions")
    assert not found.is_empty
    assert found.settings == ()


def test_a_session_that_comes_and_one_that_goes() -> None:
    found = changed(("  a:\n    within", "  b:\n    within"), ("weeks: 3", "weeks: 3\nschedule: {mon: b}"))
    assert [(each.session, each.before is None, each.after is None) for each in found.minutes] == [
        ("b", True, False),
        ("a", False, True),
    ]
    assert {line.kind for line in found.lines if line.session == "b"} == {"added"}
    assert {line.kind for line in found.lines if line.session == "a"} == {"gone"}


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (None, "not given"),
        (3, "3"),
        ("2  min\n", "2 min"),
        (["rack", "bench"], "rack, bench"),
        ({"week 1": 3, "week 3": 4}, "week 1: 3, week 3: 4"),
        ({"weeks": [4, 8], "sets": "60 %"}, "weeks: (4, 8), sets: 60 %"),
    ],
)
def test_written_words(data: object, words: str) -> None:
    assert written_words(data) == words

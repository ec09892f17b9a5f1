"""Marks on the week and the clock."""

from __future__ import annotations

import pytest
from plateset.training.marks.mark import Mark
from plateset.training.marks.schedule import no_working_week, nothing_to_test, over_time, too_little_recovery

from tests.training.building import marks_by, plan, plan_of

SQUAT = "{exercise: squat, sets: 3, reps: 5, load: 60 kg}"


@pytest.mark.parametrize(
    ("days", "gaps"),
    [
        ("{mon: a, thu: a}", []),
        ("{mon: a, wed: a}", []),
        ("{mon: a, tue: a}", ["24 h between mon and tue"]),
        ("{mon: a, sun: a}", ["24 h between sun and mon"]),
        ("{mon: a}", []),
        ("{mon: a, tue: a, wed: a}", ["24 h between mon and tue", "24 h between tue and wed"]),
    ],
)
@pytest.mark.parametrize("weeks", [1, 3])
def test_recovery(days: str, gaps: list[str], weeks: int) -> None:
    marks = marks_by(too_little_recovery, plan_of(SQUAT, more=f"weeks: {weeks}\nschedule: {days}"))
    assert [mark.message for mark in marks] == [f"quads: {gap} (limit 48 h)" for gap in gaps]
    assert all((mark.name, mark.severity, mark.path) == ("recovery-short", "query", ("schedule",)) for mark in marks)


@pytest.mark.parametrize(("sets", "fires"), [(2, False), (3, True)])
def test_a_few_sets_need_no_recovery(sets: int, fires: bool) -> None:
    line = f"{{exercise: squat, sets: {sets}, reps: 5, load: 60 kg}}"
    assert bool(marks_by(too_little_recovery, plan_of(line, more="schedule: {mon: a, tue: a}"))) == fires


TWO_SETS = "{exercise: squat, sets: 2, reps: 5, load: 60 kg}"
BENCH = "{exercise: bench, sets: 2, reps: 5, load: 60 kg}"


@pytest.mark.parametrize(
    ("lines", "fires"),
    [
        ((TWO_SETS, TWO_SETS), True),
        ((f"{{superset: [{TWO_SETS}, {TWO_SETS}]}}",), True),
        ((TWO_SETS, BENCH), False),
        ((f"{{superset: [{TWO_SETS}, {BENCH}]}}",), False),
    ],
)
def test_sets_of_several_lines_are_added(lines: tuple[str, ...], *, fires: bool) -> None:
    assert bool(marks_by(too_little_recovery, plan_of(*lines, more="schedule: {mon: a, tue: a}"))) == fires


def test_once_a_week_is_never_too_soon() -> None:
    assert marks_by(too_little_recovery, plan_of(SQUAT), "limits: {recovery: 200 h}") == []


def test_indirect_work_needs_no_recovery() -> None:
    found = plan(
        """
        schedule: {mon: a, tue: b}
        sessions:
          a: [{exercise: bench, sets: 5, reps: 5, load: 60 kg}]
          b: [{exercise: pushdown, sets: 5, reps: 5, load: 20 kg}]
        """
    )
    assert marks_by(too_little_recovery, found) == []


def test_a_deload_in_the_first_week_does_not_hide_the_rest() -> None:
    found = plan_of(SQUAT, more="schedule: {mon: a, tue: a}\nweeks: 2\ndeload: {weeks: [1], sets: 30 %}")
    assert len(marks_by(too_little_recovery, found)) == 1


def test_recovery_short_from_a_later_week_names_it() -> None:
    line = "{exercise: squat, sets: {week 1: 2, week 3: 3}, reps: 5, load: 60 kg}"
    found = plan_of(line, more="schedule: {mon: a, tue: a}\nweeks: 4\ndeload: {weeks: [4], sets: 100 %}")
    (mark,) = marks_by(too_little_recovery, found)
    assert mark.message == "quads: 24 h between mon and tue from week 3 (limit 48 h)"
    assert mark.remedy == "move a session, or train quads directly with fewer than 3 sets on one of the days"


def timed(within: str, sets: str = "3", more: str = "") -> list[tuple[str, str]]:
    # Three holds of 60 s and two rests of 60 s after a warm-up of 5 min: 10 min.
    line = f"{{exercise: plank, sets: {sets}, hold: 60 s, rest: 60 s}}"
    found = plan(f"{more}\nsessions: {{a: {{within: {within}, lines: [{line}]}}}}")
    marks = marks_by(over_time, found)
    assert all((mark.name, mark.severity) == ("over-time", "stop") for mark in marks)
    assert all(mark.path == ("sessions", "a", "within") for mark in marks)
    return [(mark.message, mark.remedy) for mark in marks]


def test_within_its_time() -> None:
    assert timed("10 min") == []


def test_over_its_time() -> None:
    ((message, remedy),) = timed("9 min")
    assert message == "'a' takes 10 min in week 1; 9 min promised"
    # Of weeks that take equally long, the first.
    assert timed("9 min", more="weeks: 3") == [(message, remedy)]
    assert remedy.startswith("save 1 min")


@pytest.mark.parametrize(
    ("within", "remedy"),
    [
        ("9 min", "save 1 min: 30 s less at every rest, a superset, or fewer sets"),
        ("8 min 30 s", "save 2 min: a superset, or fewer sets"),
        ("8 min", "save 2 min: a superset, or fewer sets"),
    ],
)
def test_over_its_time_says_by_how_much_to_shorten_the_rests(within: str, remedy: str) -> None:
    ((_, told),) = timed(within)
    assert told == remedy


@pytest.mark.parametrize(
    ("lines", "within", "remedy"),
    [
        # Seven rests share a minute: 8.6 s each, told in steps of five.
        (("sets: 8, hold: 60 s, rest: 60 s",), 19, "save 1 min: 10 s less at every rest, a superset, or fewer sets"),
        # 28 s off rests of 58 s, or 30 in steps of five, would be more than half of each.
        (("sets: 3, hold: 60 s, rest: 58 s",), 9, "save 1 min: a superset, or fewer sets"),
        (("sets: 2, hold: 60 s, rest: 120 s",), 8, "save 1 min: 60 s less at every rest, a superset, or fewer sets"),
        # One set has no rest that could be shorter, however short the one that is written.
        (("sets: 1, hold: 10 min",), 14, "save 1 min: a superset, or fewer sets"),
        (
            ("sets: 3, hold: 60 s, rest: 60 s", "sets: 1, hold: 30 s, rest: 10 s"),
            11,
            "save 1 min: 30 s less at every rest, a superset, or fewer sets",
        ),
    ],
)
def test_rests_are_shortened_by_half_at_most(lines: tuple[str, ...], within: int, remedy: str) -> None:
    planks = ", ".join(f"{{exercise: plank, {line}}}" for line in lines)
    (mark,) = marks_by(over_time, plan(f"sessions: {{a: {{within: {within} min, lines: [{planks}]}}}}"))
    assert mark.remedy == remedy


def test_shorter_rests_do_it() -> None:
    line = "{exercise: squat, sets: 4, reps: 5, load: 60 kg, rest: REST, warm-up sets: none}"
    picked = "{pick one: [{exercise: curl, sets: 4, reps: 5}, {exercise: plank, sets: 2, hold: 90 s}], rest: REST}"
    text = f"sessions: {{a: {{within: 21 min, lines: [{line}, {picked}, {line}]}}}}"
    long = marks_by(over_time, plan(text.replace("REST", "90 s")))
    assert [mark.remedy for mark in long] == ["save 5 min: 30 s less at every rest, a superset, or fewer sets"]
    assert marks_by(over_time, plan(text.replace("REST", "60 s"))) == []
    assert len(marks_by(over_time, plan(text.replace("REST", "65 s")))) == 1


def test_a_second_over_is_over() -> None:
    assert len(timed("9 min 59 s")) == 1


def test_the_longest_week_is_named() -> None:
    ((message, _),) = timed("10 min", "{week 1: 2, week 3: 5, week 4: 4}", "weeks: 4")
    assert message == "'a' takes 14 min in week 3; 10 min promised"


def test_no_promise_no_mark() -> None:
    assert marks_by(over_time, plan_of("{exercise: plank, sets: 20, hold: 10 min}")) == []


@pytest.mark.parametrize(("weeks", "fires"), [("[1, 2]", True), ("[2]", False)])
@pytest.mark.parametrize("key", ["deload", "test"])
def test_no_working_week(key: str, weeks: str, fires: bool) -> None:
    found = plan_of("{exercise: plank, sets: 1, hold: 30 s}", more=f"weeks: 2\n{key}: {{weeks: {weeks}}}")
    told = Mark(
        "no-working-week",
        "stop",
        (key, "weeks"),
        "every week is a deload or a test week; no promise is held to",
        f"leave at least one week out of the {key}",
    )
    assert marks_by(no_working_week, found) == [told] * fires


def test_a_test_week_needs_something_to_test() -> None:
    line = "{exercise: squat, sets: 3, reps: 5, load: 60 kg}"
    assert marks_by(nothing_to_test, plan_of(line, more="weeks: 2\ntest: {weeks: [2]}")) == [
        Mark(
            "test-without-lift",
            "stop",
            ("test", "weeks"),
            "there is a test week, but no line has the role main: nothing would be tested",
            "write 'role: main' on the lines to test",
        )
    ]
    main = line[:-1] + ", role: main}"
    assert marks_by(nothing_to_test, plan_of(main, more="weeks: 2\ntest: {weeks: [2]}")) == []
    assert marks_by(nothing_to_test, plan_of(line)) == []


def test_a_hold_cannot_be_tested() -> None:
    line = "{exercise: plank, role: main, sets: 3, hold: 30 s}"
    assert len(marks_by(nothing_to_test, plan_of(line, more="weeks: 2\ntest: {weeks: [2]}"))) == 1


def test_recovery_counts_the_option_of_a_pick_with_most_sets() -> None:
    def pick(sets: int) -> str:
        squat = f"{{exercise: squat, sets: {sets}, reps: 5, load: 60 kg}}"
        return f"{{pick one: [{squat}, {{exercise: sled, sets: 2, reps: 5, load: 20 kg}}]}}"

    days = "schedule: {mon: a, tue: a}"
    # Two and two are never both done: two are too few to need recovery, three are not.
    assert marks_by(too_little_recovery, plan_of(pick(2), more=days)) == []
    assert len(marks_by(too_little_recovery, plan_of(pick(3), more=days))) == 1


def test_a_session_that_promises_no_time_does_not_hide_the_next() -> None:
    line = "{exercise: plank, sets: 3, hold: 60 s, rest: 60 s}"
    found = plan(f"schedule: {{mon: a, tue: b}}\nsessions: {{a: [{line}], b: {{within: 5 min, lines: [{line}]}}}}")
    assert [mark.path for mark in marks_by(over_time, found)] == [("sessions", "b", "within")]

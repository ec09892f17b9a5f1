"""Checks of programs against themselves: weeks, days, loads and progressions."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from plateset.manuscript.desk import BY_WEEK_KEYS, Desk, entries, lifts, written
from plateset.manuscript.fields import is_counted, read_day
from plateset.manuscript.load import Document
from plateset.manuscript.positions import Path
from plateset.manuscript.quantities import BodyweightLoad, LoadSpec, Mass, PercentOfMax
from plateset.manuscript.roles import progression_of
from plateset.manuscript.schema import Double, Exercise, Lifter, LiftLine, Program, TwoForTwo, Undulating
from plateset.problems import Problem

CARRIES_BODYWEIGHT = ("bodyweight", "band", "other")


def days_of_schedule(desk: Desk) -> Iterator[Problem]:
    """Days are weekdays or counted ones throughout, and none is given twice."""
    for program in desk.judged:
        seen: dict[int, str] = {}
        first, *others = written(program, ("schedule",))
        for key in (first, *others):
            earlier = seen.setdefault(read_day(key), key)
            place = program.place(("schedule", key), key=True)
            if earlier != key:
                yield Problem(place, f"{key!r} is the same day as {earlier!r}", "each day once")
            elif is_counted(key) != is_counted(first):
                yield Problem(
                    place, f"{first!r} and {key!r} name days in two ways", "weekdays alone, or counted days alone"
                )
                break


MOST_OFF = 80
"""Percent of the heaviest set's load that a pyramid may take off at most: below that nothing is trained."""


def weeks_out_of_the_ordinary(desk: Desk) -> Iterator[Problem]:
    """Deload and test weeks are weeks of the program, each named once, none both."""
    for program in desk.judged:
        deload, test = program.head.deload, program.head.test
        named: dict[int, str] = {}
        for key, weeks in (("deload", deload.weeks if deload else ()), ("test", test.weeks if test else ())):
            for index, week in enumerate(weeks):
                path = (key, "weeks", index)
                if week > program.head.weeks:
                    yield _beyond(program, path, week, key=False)
                earlier = named.setdefault(week, key)
                if earlier != key:
                    message = f"week {week} is a {earlier} week already"
                    yield Problem(program.place(path), message, "another week, or no deload then")
                elif week in weeks[:index]:
                    yield Problem(program.place(path), f"week {week} is named twice", f"each {key} week once")


def weeks_of_lines(desk: Desk) -> Iterator[Problem]:
    """What changes by week changes in weeks the program has, and a technique begins in one of them."""
    for program in desk.judged:
        for path, lift in lifts(program):
            for key in BY_WEEK_KEYS:
                if getattr(lift, key) is None:
                    continue
                for entry, (_, last) in entries(program, (*path, key)):
                    if last > program.head.weeks:
                        yield _beyond(program, entry, last, key=True)
            for key, technique in (("last set", lift.last_set), ("every set", lift.every_set)):
                if technique and technique.from_week > program.head.weeks:
                    yield _beyond(program, (*path, key, "from week"), technique.from_week, key=False)


def _beyond(program: Document[Program], path: tuple[str | int, ...], week: int, *, key: bool) -> Problem:
    weeks = program.head.weeks
    message = f"there is no week {week}: the program has {weeks}"
    return Problem(program.place(path, key=key), message, f"a week from 1 to {weeks}")


def loads_of_lines(desk: Desk) -> Iterator[Problem]:
    """A load is not more than the max unless that is meant, and fits the implement."""
    for program in desk.judged:
        for path, lift in lifts(program):
            exercise = desk.exercises.get(lift.exercise)
            for entry, load in _loads(program, path, lift):
                wrong = _wrong_load(load, lift, exercise.head if exercise else None)
                wrong = wrong or _all_taken_off(load, program.head.example_lifter)
                if wrong:
                    yield Problem(program.place(entry), *wrong)


def _loads(program: Document[Program], path: Path, lift: LiftLine) -> Iterator[tuple[Path, LoadSpec]]:
    """Every load of a line, with where it is written: week by week, or turn by turn."""
    if lift.load is not None:
        for entry, span in entries(program, (*path, "load")):
            yield entry, lift.load[span]
    if isinstance(lift.progression, Undulating):
        for index, turn in enumerate(lift.progression.turns):
            if turn.load is not None:
                yield (*path, "progression", "turns", index, "load"), turn.load


def _wrong_load(load: LoadSpec, lift: LiftLine, exercise: Exercise | None) -> tuple[str, str] | None:
    if isinstance(load, PercentOfMax) and load.percent > 100 and not lift.above_max:
        return f"{load.percent} % is more than the max", "at most 100 %, or 'above max: allowed' on the line"
    if isinstance(load, BodyweightLoad) and exercise and exercise.implement not in CARRIES_BODYWEIGHT:
        return _no_bodyweight(lift.exercise, exercise)
    return None


def _all_taken_off(load: LoadSpec, lifter: Lifter) -> tuple[str, str] | None:
    if isinstance(load, BodyweightLoad) and lifter.bodyweight and _moved(load, lifter.bodyweight) <= 0:
        return "this takes off all of the example lifter's bodyweight", "less taken off"
    return None


def _no_bodyweight(name: str, exercise: Exercise) -> tuple[str, str]:
    message = f"{name!r} is done with a {exercise.implement}, not with the body's own weight"
    return message, "a load such as 60 kg, or 'implement: bodyweight' in the exercise note"


def repetitions_to_climb(desk: Desk) -> Iterator[Problem]:
    """The rule 'double' has a range of repetitions to climb, 'two-for-two' a number to pass."""
    for program in desk.judged:
        for path, lift in lifts(program):
            rule = progression_of(lift, program.head)
            given = list(lift.reps.values()) if lift.reps else []
            if isinstance(rule, Double) and not (given and all(reps.low < reps.high for reps in given)):
                yield _nothing_to_climb(program, path, lift, "double")
            if isinstance(rule, TwoForTwo) and (not given or any(reps.open for reps in given)):
                yield _nothing_to_climb(program, path, lift, "two-for-two")


_CLIMBED = {"double": ("range of repetitions to climb", "8-12"), "two-for-two": ("repetitions to go over", "10")}
"""What a rule needs of a line, and such as what it is written."""


def _nothing_to_climb(program: Document[Program], path: Path, lift: LiftLine, rule: str) -> Problem:
    """The problem of a line whose rule, its own or its role's, has nothing to go by."""
    lacking, such_as = _CLIMBED[rule]
    if lift.progression is not None:
        place = program.place((*path, "progression", "rule"))
        return Problem(place, f"{rule!r} has no {lacking}", f"reps such as {such_as}")
    message = f"{rule!r}, which is the rule of the role {lift.role!r}, has no {lacking}"
    expected = f"reps such as {such_as}, or 'progression: none' on the line"
    return Problem(program.place((*path, "role")), message, expected)


def pyramids(desk: Desk) -> Iterator[Problem]:
    """A pyramid has steps to stand on and does not take off more than can be trained with."""
    for program in desk.judged:
        for path, lift in lifts(program):
            if lift.pyramid is None:
                continue
            most = max(count.most for count in lift.sets.values())
            if most < 2:
                yield Problem(
                    program.place((*path, "pyramid"), key=True), "a pyramid of one set is none", "2 sets or more"
                )
            elif (most - 1) * lift.pyramid.load > MOST_OFF:
                off = f"{(most - 1) * lift.pyramid.load:f}"
                place = program.place((*path, "pyramid"), key=True)
                message = f"over {most} sets this takes {off} % off the heaviest set"
                yield Problem(place, message, f"{MOST_OFF} % or less in all: fewer sets, or a smaller 'load'")


def bests_of_lifter(desk: Desk) -> Iterator[Problem]:
    """Recorded sets with bodyweight have a bodyweight to go by, and a lift it fits."""
    for program in desk.judged:
        lifter = program.head.example_lifter
        for name, best in lifter.bests.items():
            if not isinstance(best.load, BodyweightLoad):
                continue
            place = program.place(("example lifter", "bests", name))
            if lifter.bodyweight is None:
                expected = "'bodyweight: 78 kg' under 'example lifter'"
                yield Problem(place, "this set needs the lifter's bodyweight, which is not given", expected)
            elif _moved(best.load, lifter.bodyweight) <= 0:
                yield Problem(place, "this takes off all of the lifter's bodyweight", "less taken off")
            exercise = desk.exercises.get(name)
            if exercise and exercise.head.implement not in CARRIES_BODYWEIGHT:
                yield Problem(place, *_no_bodyweight(name, exercise.head))


def _moved(load: BodyweightLoad, bodyweight: Mass) -> Decimal:
    return bodyweight.to("kg") + (load.added.to("kg") if load.added else 0)

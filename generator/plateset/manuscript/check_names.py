"""Checks that what one file names in another is there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from plateset.manuscript.desk import GROUP_TECHNIQUES, Desk, lifts, lines, members, written
from plateset.manuscript.files import Kind
from plateset.manuscript.load import Document
from plateset.manuscript.positions import Path
from plateset.manuscript.schema import GroupLine, Program
from plateset.manuscript.vocabulary import TECHNIQUE_NAMES
from plateset.problems import Place, Problem, nearest_word

FOLDER_OF: dict[Kind, str] = {
    "exercise": "exercises/",
    "technique": "techniques/",
    "program": "programs/",
    "explainer": "explainers/",
}


def missing_name(desk: Desk, kind: Kind, name: str, place: Place) -> Iterator[Problem]:
    """A problem if there is no file for ``name``."""
    if name in desk.names[kind]:
        return
    called = f"no note on the technique {name!r}" if kind == "technique" else f"no {kind} called {name!r}"
    expected = f"the name of a file in {FOLDER_OF[kind]}"
    yield Problem(place, f"there is {called}", expected, nearest_word(name, sorted(desk.names[kind])))


def exercises_in_programs(desk: Desk) -> Iterator[Problem]:
    """Lines and recorded sets name exercises there is a note on."""
    for program in desk.programs.values():
        for path, lift in lifts(program):
            yield from missing_name(desk, "exercise", lift.exercise, program.place((*path, "exercise")))
        for name in program.head.example_lifter.bests:
            place = program.place(("example lifter", "bests", name), key=True)
            yield from missing_name(desk, "exercise", name, place)


def exercises_in_exercises(desk: Desk) -> Iterator[Problem]:
    """Substitutes and the lift a max comes from are exercises there is a note on, and not the lift itself."""
    for exercise in desk.exercises.values():
        for index, name in enumerate(exercise.head.substitutes):
            place = exercise.place(("substitutes", index))
            if name == exercise.slug:
                yield Problem(place, "a lift cannot stand in for itself", "another exercise")
            yield from missing_name(desk, "exercise", name, place)
        if exercise.head.max_from:
            place = exercise.place(("max from", "exercise"))
            yield from missing_name(desk, "exercise", exercise.head.max_from.exercise, place)


def programs_in_explainers(desk: Desk) -> Iterator[Problem]:
    """An explainer's programs are there."""
    for explainer in desk.explainers.values():
        for index, name in enumerate(explainer.head.programs):
            yield from missing_name(desk, "program", name, explainer.place(("programs", index)))


def names_of_technique_notes(desk: Desk) -> Iterator[Problem]:
    """A technique note is on one of the techniques that can be planned."""
    for note in desk.techniques.values():
        if note.slug not in TECHNIQUE_NAMES:
            message = f"there is no technique {note.slug!r}"
            expected = "a file named after one of: " + ", ".join(TECHNIQUE_NAMES)
            yield Problem(Place(note.source.path), message, expected, nearest_word(note.slug, TECHNIQUE_NAMES))


def notes_on_techniques(desk: Desk) -> Iterator[Problem]:
    """Each technique a program uses has a note; said once a program, where it is used first."""
    for program in desk.programs.values():
        said: set[str] = set()
        for name, place in _techniques_used(program):
            if name not in desk.names["technique"] and name not in said:
                said.add(name)
                message = f"there is no note on the technique {name!r}"
                yield Problem(place, message, f"a file techniques/{name}.md")


def _techniques_used(program: Document[Program]) -> Iterator[tuple[str, Place]]:
    for path, line in lines(program):
        if isinstance(line, GroupLine):
            key = members(line)[0]
            if key in GROUP_TECHNIQUES:
                yield GROUP_TECHNIQUES[key], program.place((*path, key), key=True)
    for path, lift in lifts(program):
        for key, technique in (("last set", lift.last_set), ("every set", lift.every_set)):
            if technique:
                yield technique.technique, program.place((*path, key, "technique"))


def sessions_in_schedule(desk: Desk) -> Iterator[Problem]:
    """Each day names a session of the program, and each session has a day."""
    for program in desk.programs.values():
        sessions = program.head.sessions
        for day, name in _as_written(program, ("schedule",)).items():
            if name not in sessions:
                place = program.place(("schedule", day))
                expected = "one of: " + ", ".join(sessions)
                nearest = nearest_word(name, sessions)
                yield Problem(place, f"there is no session called {name!r}", expected, nearest)
        for name in sessions:
            if name not in program.head.schedule.values():
                place = program.place(("sessions", name), key=True)
                expected = "a day for it in 'schedule', or leave the session out"
                yield Problem(place, f"the session {name!r} stands on no day", expected)


def _as_written(document: Document[Any], path: Path) -> dict[str, Any]:
    data = written(document, path)
    return data if isinstance(data, dict) else {}

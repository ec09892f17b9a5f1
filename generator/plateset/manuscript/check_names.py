"""Checks that what one file names in another is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath
from typing import Any

from plateset.manuscript.desk import Desk
from plateset.manuscript.files import FOLDERS, Kind
from plateset.manuscript.load import Document
from plateset.manuscript.naming import (
    Named,
    exercises_of_bests,
    exercises_of_lines,
    is_name,
    mapping,
    names_listed,
    source_of_max,
    techniques_of_lines,
)
from plateset.manuscript.vocabulary import TECHNIQUE_NAMES
from plateset.problems import Place, Problem, nearest_word

FOLDER_OF: dict[Kind, str] = {
    "exercise": "exercises/",
    "technique": "techniques/",
    "program": "programs/",
    "explainer": "explainers/",
}


def missing_name(desk: Desk, kind: Kind, name: str, place: Place) -> Iterator[Problem]:
    """A problem if there is no file for ``name``; where there is none for any name, one problem for all."""
    if name in desk.names[kind]:
        return
    if not desk.names[kind]:
        yield nothing_to_name(kind, place)
        return
    called = f"no note on the technique {name!r}" if kind == "technique" else f"no {kind} called {name!r}"
    expected = f"the name of a file in {FOLDER_OF[kind]}"
    yield Problem(place, f"there is {called}", expected, nearest_word(name, sorted(desk.names[kind])))


def nothing_to_name(kind: Kind, place: Place) -> Problem:
    """The problem of a manuscript that names files of a kind it has none of; ``place`` is where one is named."""
    named_in = PurePosixPath(place.path).parent
    root = named_in.parent if named_in.name in FOLDERS else named_in
    message = f"{FOLDER_OF[kind]} holds nothing that can be read, and other files name what should be there"
    return Problem(
        Place((root / FOLDER_OF[kind]).as_posix()), message, f"a folder {FOLDER_OF[kind]} with a file for each"
    )


def _missing(
    desk: Desk, kind: Kind, document: Document[Any], named: Iterable[Named], *, key: bool = False
) -> Iterator[Problem]:
    """The problems of those names there is no file for; only for them is the place looked for."""
    for path, name in named:
        if name not in desk.names[kind]:
            yield from missing_name(desk, kind, name, document.place(path, key=key))


def exercises_in_programs(desk: Desk) -> Iterator[Problem]:
    """Lines and recorded sets name exercises there is a note on."""
    for program in desk.as_written("program"):
        yield from _missing(desk, "exercise", program, exercises_of_lines(program))
        yield from _missing(desk, "exercise", program, exercises_of_bests(program), key=True)


def exercises_in_exercises(desk: Desk) -> Iterator[Problem]:
    """Substitutes and the lift a max comes from are exercises there is a note on, and not the lift itself."""
    for exercise in desk.as_written("exercise"):
        for path, name in names_listed(exercise, "substitutes"):
            if name == exercise.slug:
                yield Problem(exercise.place(path), "a lift cannot stand in for itself", "another exercise")
        yield from _missing(desk, "exercise", exercise, names_listed(exercise, "substitutes"))
        yield from _missing(desk, "exercise", exercise, source_of_max(exercise))


def programs_in_explainers(desk: Desk) -> Iterator[Problem]:
    """An explainer's programs are there."""
    for explainer in desk.as_written("explainer"):
        yield from _missing(desk, "program", explainer, names_listed(explainer, "programs"))


def names_of_technique_notes(desk: Desk) -> Iterator[Problem]:
    """A technique note is on one of the techniques that can be planned."""
    for note in desk.as_written("technique"):
        if note.slug not in TECHNIQUE_NAMES:
            message = f"there is no technique {note.slug!r}"
            expected = "a file named after one of: " + ", ".join(TECHNIQUE_NAMES)
            yield Problem(Place(note.source.path), message, expected, nearest_word(note.slug, TECHNIQUE_NAMES))


def notes_on_techniques(desk: Desk) -> Iterator[Problem]:
    """Each technique a program uses has a note; said once a program, where it is used first."""
    for program in desk.as_written("program"):
        said: set[str] = set()
        for path, name, at_key in techniques_of_lines(program):
            if not desk.names["technique"]:
                yield nothing_to_name("technique", program.place(path))
            elif name not in desk.names["technique"] and name not in said:
                said.add(name)
                message = f"there is no note on the technique {name!r}"
                yield Problem(program.place(path, key=at_key), message, f"a file techniques/{name}.md")


def sessions_in_schedule(desk: Desk) -> Iterator[Problem]:
    """Each day names a session of the program, and each session has a day, if only one that misspells it."""
    for program in desk.as_written("program"):
        sessions = mapping(program.marked.data.get("sessions"))
        schedule = mapping(program.marked.data.get("schedule"))
        if not sessions or not schedule or not all(map(is_name, (*sessions, *schedule.values()))):
            continue  # the form's check tells of it; whoever was meant by a name that is none is not missing
        meant: set[str] = set()
        for day, name in schedule.items():
            if name not in sessions:
                nearest = nearest_word(name, sessions)
                meant |= {nearest} if nearest else set(sessions)
                expected = "one of: " + ", ".join(sessions)
                place = program.place(("schedule", day))
                yield Problem(place, f"there is no session called {name!r}", expected, nearest)
        for name in sessions:
            if name not in schedule.values() and name not in meant:
                place = program.place(("sessions", name), key=True)
                expected = "a day for it in 'schedule', or leave the session out"
                yield Problem(place, f"the session {name!r} stands on no day", expected)

"""Where a file names other things: read from what is written, so that a fault of form elsewhere in it hides no name.

What is not written as a name is passed over; the form's own check tells of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from plateset.manuscript.desk import GROUP_TECHNIQUES
from plateset.manuscript.load import Document
from plateset.manuscript.positions import Path
from plateset.manuscript.schema import GROUPS
from plateset.manuscript.vocabulary import TECHNIQUE_NAMES
from plateset.manuscript.written import SLUG

Named = tuple[Path, str]
"""Where a name stands, and the name."""


def mapping(value: Any) -> dict[Any, Any]:
    """A value if it is written as keys and values, or none."""
    return value if isinstance(value, dict) else {}


def sequence(value: Any) -> list[Any]:
    """A value if it is written as a list, or none."""
    return value if isinstance(value, list) else []


def is_name(value: Any) -> bool:
    """Whether a value is written as names are."""
    return isinstance(value, str) and SLUG.fullmatch(value) is not None


def exercises_of_lines(program: Document[Any]) -> Iterator[Named]:
    """The exercise of every lift."""
    for path, lift in _lifts(program):
        if is_name(lift.get("exercise")):
            yield (*path, "exercise"), lift["exercise"]


def exercises_of_bests(program: Document[Any]) -> Iterator[Named]:
    """The exercise of every recorded set; it is the key that names it."""
    for name in mapping(mapping(program.marked.data.get("example lifter")).get("bests")):
        if is_name(name):
            yield ("example lifter", "bests", name), name


def techniques_of_lines(program: Document[Any]) -> Iterator[tuple[Path, str, bool]]:
    """Every technique planned; a group's stands in its key."""
    for path, line in _lines(program):
        for key, name in GROUP_TECHNIQUES.items():
            if key in line:
                yield (*path, key), name, True
    for path, lift in _lifts(program):
        for key in ("last set", "every set"):
            planned = mapping(lift.get(key)).get("technique")
            if planned in TECHNIQUE_NAMES:
                yield (*path, key, "technique"), planned, False


def names_listed(document: Document[Any], key: str) -> Iterator[Named]:
    """The names in a list under a key of the file."""
    for index, name in enumerate(sequence(document.marked.data.get(key))):
        if is_name(name):
            yield (key, index), name


def source_of_max(exercise: Document[Any]) -> Iterator[Named]:
    """The exercise a max comes from."""
    lift = mapping(exercise.marked.data.get("max from"))
    if is_name(lift.get("exercise")):
        yield ("max from", "exercise"), lift["exercise"]


def _lines(program: Document[Any]) -> Iterator[tuple[Path, dict[str, Any]]]:
    for name, session in mapping(program.marked.data.get("sessions")).items():
        lines = session if isinstance(session, list) else mapping(session).get("lines")
        for index, line in enumerate(sequence(lines)):
            yield ("sessions", name, "lines", index), mapping(line)


def _lifts(program: Document[Any]) -> Iterator[tuple[Path, dict[str, Any]]]:
    for path, line in _lines(program):
        yield path, line
        for key in GROUPS:
            for index, lift in enumerate(sequence(line.get(key))):
                yield (*path, key, index), mapping(lift)

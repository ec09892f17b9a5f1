"""Where a file names other things: read from what is written, so that a fault of form elsewhere in it hides no name.

What is not written as a name is passed over; the form's own check tells of it, and what was meant by it is asked of
:func:`files_meant` and :func:`sessions_meant`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from plateset.manuscript.desk import GROUP_TECHNIQUES
from plateset.manuscript.files import Kind
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
    return filter(_is_named, _of_lines(program))


def exercises_of_bests(program: Document[Any]) -> Iterator[Named]:
    """The exercise of every recorded set; it is the key that names it."""
    return filter(_is_named, _of_bests(program))


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
    return filter(_is_named, _listed(document, key))


def source_of_max(exercise: Document[Any]) -> Iterator[Named]:
    """The exercise a max comes from."""
    return filter(_is_named, _of_max(exercise))


def files_meant(document: Document[Any]) -> Iterator[tuple[Kind, Named, bool]]:
    """Every text that stands where a file is named, a name or not: the kind of file, and whether the text is a key."""
    if document.source.kind == "program":
        yield from (("exercise", named, False) for named in _texts(_of_lines(document)))
        yield from (("exercise", named, True) for named in _texts(_of_bests(document)))
    elif document.source.kind == "exercise":
        yield from (("exercise", named, False) for named in _texts(_listed(document, "substitutes")))
        yield from (("exercise", named, False) for named in _texts(_of_max(document)))
    elif document.source.kind == "explainer":
        yield from (("program", named, False) for named in _texts(_listed(document, "programs")))


def sessions_meant(program: Document[Any]) -> Iterator[Named]:
    """Every text that stands where a day names its session."""
    days = mapping(program.marked.data.get("schedule"))
    return _texts((("schedule", day), name) for day, name in days.items())


Found = tuple[Path, Any]
"""What stands where a name belongs."""


def _is_named(found: Found) -> bool:
    return is_name(found[1])


def _texts(found: Iterable[Found]) -> Iterator[Named]:
    return (each for each in found if isinstance(each[1], str))


def _of_lines(program: Document[Any]) -> Iterator[Found]:
    for path, lift in _lifts(program):
        if "exercise" in lift:
            yield (*path, "exercise"), lift["exercise"]


def _of_bests(program: Document[Any]) -> Iterator[Found]:
    for name in mapping(mapping(program.marked.data.get("example lifter")).get("bests")):
        yield ("example lifter", "bests", name), name


def _listed(document: Document[Any], key: str) -> Iterator[Found]:
    for index, name in enumerate(sequence(document.marked.data.get(key))):
        yield (key, index), name


def _of_max(exercise: Document[Any]) -> Iterator[Found]:
    lift = mapping(exercise.marked.data.get("max from"))
    if "exercise" in lift:
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

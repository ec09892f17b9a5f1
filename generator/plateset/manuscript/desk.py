"""The files that read well, side by side, and the ways the checks walk through them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from typing import Any

from plateset.manuscript import schema
from plateset.manuscript.fields import EVERY_WEEK, read_span
from plateset.manuscript.files import Kind
from plateset.manuscript.load import Document
from plateset.manuscript.positions import Path

BY_WEEK_KEYS = ("sets", "reps", "hold", "load", "effort")
GROUP_TECHNIQUES = {
    "superset": "superset",
    "giant set": "giant-set",
    "circuit": "circuit",
    "pre-exhaustion": "pre-exhaustion",
}
"""The groups that are techniques; picking one of several is none."""


KINDS: tuple[Kind, ...] = ("site", "program", "exercise", "technique", "explainer")
"""The kinds of files, in the order they are looked at."""


@dataclass(frozen=True)
class Desk:
    """What the checks across files look at.

    ``names`` holds every name there is a file for, readable or not, so that a file with a fault of its own
    brings no further problems about those who name it. ``site`` is None when it could not be read.
    """

    site: schema.Site | None
    programs: Mapping[str, Document[schema.Program]]
    exercises: Mapping[str, Document[schema.Exercise]]
    techniques: Mapping[str, Document[schema.TechniqueNote]]
    explainers: Mapping[str, Document[schema.Explainer]]
    names: Mapping[Kind, Set[str]]
    front: Document[schema.Site] | None = None
    """The site's file where its own text is to be checked too, which a program beside the notes has no part in."""
    misread: tuple[Document[schema.Entry], ...] = ()
    """Files whose form is at fault: what they name is looked for all the same, in what is written."""
    salvaged: tuple[Document[schema.Program], ...] = ()
    """What can be judged of the programs among them."""

    @property
    def judged(self) -> tuple[Document[schema.Program], ...]:
        """The programs, those of faulty form as far as they can be judged."""
        return (*self.programs.values(), *self.salvaged)

    def as_written(self, kind: Kind) -> Iterator[Document[Any]]:
        """The files of a kind whose keys and values could be read, whatever their form."""
        laid_out: dict[Kind, Mapping[str, Document[Any]]] = {
            "site": {"site": self.front} if self.front else {},
            "program": self.programs,
            "exercise": self.exercises,
            "technique": self.techniques,
            "explainer": self.explainers,
        }
        yield from laid_out[kind].values()
        yield from (document for document in self.misread if document.source.kind == kind)

    def lifts_of(self, program: Document[schema.Program]) -> dict[str, schema.Exercise]:
        """The exercises a program uses, as far as they could be read, in order of name."""
        used = sorted({lift.exercise for _, lift in lifts(program)})
        return {name: self.exercises[name].head for name in used if name in self.exercises}


def lines(program: Document[schema.Program]) -> Iterator[tuple[Path, schema.LiftLine | schema.GroupLine]]:
    """Every line of every session, with the path it is written at."""
    for name, session in program.head.sessions.items():
        for index, line in enumerate(session.lines):
            yield ("sessions", name, "lines", index), line


def members(group: schema.GroupLine) -> tuple[str, tuple[schema.LiftLine, ...]]:
    """The key a group is written under and the lines in it."""
    given: dict[str, tuple[schema.LiftLine, ...] | None] = {
        "superset": group.superset,
        "giant set": group.giant_set,
        "circuit": group.circuit,
        "pre-exhaustion": group.pre_exhaustion,
        "pick one": group.pick_one,
    }
    return next((key, inside) for key, inside in given.items() if inside is not None)


def lifts(program: Document[schema.Program]) -> Iterator[tuple[Path, schema.LiftLine]]:
    """Every exercise with its prescription, alone or in a group, with the path it is written at."""
    for path, line in lines(program):
        if isinstance(line, schema.LiftLine):
            yield path, line
            continue
        key, inside = members(line)
        for index, lift in enumerate(inside):
            yield (*path, key, index), lift


def written(document: Document[Any], path: Path) -> Any:
    """The plain data at ``path``; parts of the path that the author left out are passed over."""
    data = document.marked.data
    for part in path:
        if isinstance(data, dict) and part in data:
            data = data[str(part)]
        elif isinstance(data, list) and isinstance(part, int) and part < len(data):
            data = data[part]
    return data


def entries(document: Document[Any], path: Path) -> Iterator[tuple[Path, tuple[int, int]]]:
    """The entries of a value that may change by week: where each is written, and the weeks it is for."""
    data = written(document, path)
    if not isinstance(data, dict):
        yield path, read_span(EVERY_WEEK)
        return
    for key in data:
        yield (*path, key), read_span(key)

"""A folder to a manuscript, or to every problem in the way of one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plateset.manuscript.checks import check
from plateset.manuscript.desk import Desk
from plateset.manuscript.files import Kind, names_on_disk, read_source, read_sources
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document, Misread, load
from plateset.manuscript.naming import exercises_of_bests, exercises_of_lines, source_of_max
from plateset.manuscript.nearest_names import with_nearest_names
from plateset.manuscript.schema import Entry, Exercise, Explainer, Program, Site, TechniqueNote
from plateset.problems import ManuscriptError, Problem


@dataclass(frozen=True)
class Reading:
    """What came of reading a folder: the files that read well, those of which only the form is at fault, and the
    problems of all."""

    site: Document[Site] | None
    programs: Mapping[str, Document[Program]]
    exercises: Mapping[str, Document[Exercise]]
    techniques: Mapping[str, Document[TechniqueNote]]
    explainers: Mapping[str, Document[Explainer]]
    misread: tuple[Document[Entry], ...]
    problems: tuple[Problem, ...]

    @property
    def manuscript(self) -> Manuscript:
        """The manuscript. Raises :class:`ManuscriptError` with every file's problems."""
        if self.problems or self.site is None:
            raise ManuscriptError(self.problems)
        return Manuscript(self.site, self.programs, self.exercises, self.techniques, self.explainers)

    @property
    def written(self) -> Iterator[Document[Any]]:
        """Every file whose keys and values could be read, by kind and name."""
        site = {"site": self.site} if self.site else {}
        groups: tuple[Mapping[str, Document[Any]], ...] = (
            site, self.programs, self.exercises, self.techniques, self.explainers
        )  # fmt: skip
        for group in groups:
            yield from (document for _, document in sorted(group.items()))
        yield from self.misread

    @property
    def plannable(self) -> Manuscript | None:
        """As much as can be planned in spite of the problems: programs without one in their own file, the site's or
        those of their exercises."""
        at_fault = {problem.place.path for problem in self.problems}
        if self.site is None or self.site.source.path in at_fault:
            return None
        exercises = {slug: note for slug, note in self.exercises.items() if note.source.path not in at_fault}
        programs = {
            slug: program
            for slug, program in self.programs.items()
            if program.source.path not in at_fault and all(name in exercises for name in _named(program, exercises))
        }
        return Manuscript(self.site, programs, exercises, self.techniques, self.explainers)


def _named(program: Document[Program], exercises: Mapping[str, Document[Exercise]]) -> set[str]:
    """The exercises a program goes by: those it names, and those their maxes come from."""
    named = {name for _, name in (*exercises_of_lines(program), *exercises_of_bests(program))}
    return named | {name for one in named if one in exercises for _, name in source_of_max(exercises[one])}


def read_folder(folder: Path, shown_as: str) -> Reading:
    """Read and check every file of the manuscript in ``folder``. ``shown_as`` is how the author named the folder."""
    sources, problems = read_sources(folder, shown_as)
    documents: dict[Kind, dict[str, Document[Any]]] = {
        "site": {}, "program": {}, "exercise": {}, "technique": {}, "explainer": {}
    }  # fmt: skip
    misread: list[Misread] = []
    for source in sources:
        result = load(source)
        if isinstance(result, Document):
            documents[source.kind][source.slug] = result
        else:
            problems.extend(result.problems)
            misread.append(result)
    site = documents["site"].get("site")
    desk = Desk(
        site=site.head if site else None,
        programs=documents["program"],
        exercises=documents["exercise"],
        techniques=documents["technique"],
        explainers=documents["explainer"],
        names=names_on_disk(folder),
        front=site,
        misread=tuple(each.written for each in misread if each.written),
        salvaged=tuple(each.salvaged for each in misread if each.salvaged),
    )
    problems = [*with_nearest_names(problems, desk), *check(desk)]
    return Reading(site, desk.programs, desk.exercises, desk.techniques, desk.explainers, desk.misread, tuple(problems))


def read_manuscript(folder: Path, shown_as: str) -> Manuscript:
    """The manuscript in ``folder``, read and checked.

    ``shown_as`` is how the author named the folder. Raises :class:`ManuscriptError` with every file's problems.
    """
    return read_folder(folder, shown_as).manuscript


def read_program(path: Path, shown_as: str, manuscript: Manuscript) -> Document[Program]:
    """Read one program file as if it stood in ``manuscript``, with its site and notes.

    ``shown_as`` is how the author named the file. Raises :class:`ManuscriptError` with every problem of the file.
    """
    source = read_source(path, shown_as, "program")
    if isinstance(source, Problem):
        raise ManuscriptError([source])
    result = load(source)
    problems = [] if isinstance(result, Document) else list(result.problems)
    names: dict[Kind, frozenset[str]] = {
        "program": frozenset(manuscript.programs) | {source.slug},
        "exercise": frozenset(manuscript.exercises),
        "technique": frozenset(manuscript.techniques),
        "explainer": frozenset(manuscript.explainers),
    }
    # Only the program is laid out for checking of its own; the notes are there to be looked up.
    desk = Desk(
        manuscript.site.head,
        {source.slug: result} if isinstance(result, Document) else {},
        manuscript.exercises,
        manuscript.techniques,
        {},
        names,
        misread=() if isinstance(result, Document) or not result.written else (result.written,),
        salvaged=() if isinstance(result, Document) or not result.salvaged else (result.salvaged,),
    )
    problems = [*with_nearest_names(problems, desk), *check(desk)]
    if problems or not isinstance(result, Document):
        raise ManuscriptError(problems)
    return result

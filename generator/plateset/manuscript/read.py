"""A folder to a manuscript, or to every problem in the way of one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from plateset.manuscript.checks import check
from plateset.manuscript.desk import Desk
from plateset.manuscript.files import Kind, names_on_disk, read_source, read_sources
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document, load
from plateset.manuscript.schema import Program
from plateset.problems import ManuscriptError, Problem


def read_manuscript(folder: Path, shown_as: str) -> Manuscript:
    """Read and check every file of the manuscript in ``folder``.

    ``shown_as`` is how the author named the folder. Raises :class:`ManuscriptError` with every file's problems.
    """
    sources, problems = read_sources(folder, shown_as)
    documents: dict[Kind, dict[str, Document[Any]]] = {
        "site": {}, "program": {}, "exercise": {}, "technique": {}, "explainer": {}
    }  # fmt: skip
    for source in sources:
        result = load(source)
        if isinstance(result, Document):
            documents[source.kind][source.slug] = result
        else:
            problems.extend(result)
    site = documents["site"].get("site")
    _check_across(documents, folder, problems)
    if problems or site is None:
        raise ManuscriptError(problems)
    return Manuscript(
        site=site,
        programs=documents["program"],
        exercises=documents["exercise"],
        techniques=documents["technique"],
        explainers=documents["explainer"],
    )


def read_program(path: Path, shown_as: str, manuscript: Manuscript) -> Document[Program]:
    """Read one program file as if it stood in ``manuscript``, with its site and notes.

    ``shown_as`` is how the author named the file. Raises :class:`ManuscriptError` with every problem of the file.
    """
    source = read_source(path, shown_as, "program")
    if isinstance(source, Problem):
        raise ManuscriptError([source])
    result = load(source)
    if not isinstance(result, Document):
        raise ManuscriptError(result)
    names: dict[Kind, frozenset[str]] = {
        "program": frozenset(manuscript.programs) | {source.slug},
        "exercise": frozenset(manuscript.exercises),
        "technique": frozenset(manuscript.techniques),
        "explainer": frozenset(manuscript.explainers),
    }
    # Only the program is laid out for checking of its own; the notes are there to be looked up.
    desk = Desk(manuscript.site.head, {source.slug: result}, manuscript.exercises, manuscript.techniques, {}, names)
    problems = [problem for problem in check(desk) if problem.place.path == source.path]
    if problems:
        raise ManuscriptError(problems)
    return result


def _check_across(documents: dict[Kind, dict[str, Document[Any]]], folder: Path, problems: list[Problem]) -> None:
    site = documents["site"].get("site")
    desk = Desk(
        site=site.head if site else None,
        programs=documents["program"],
        exercises=documents["exercise"],
        techniques=documents["technique"],
        explainers=documents["explainer"],
        names=names_on_disk(folder),
        front=site,
    )
    problems.extend(check(desk))

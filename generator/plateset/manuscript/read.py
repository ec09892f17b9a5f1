"""A folder to a manuscript, or to every problem in the way of one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from plateset.manuscript.checks import check
from plateset.manuscript.desk import Desk
from plateset.manuscript.files import Kind, names_on_disk, read_sources
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document, load
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


def _check_across(documents: dict[Kind, dict[str, Document[Any]]], folder: Path, problems: list[Problem]) -> None:
    site = documents["site"].get("site")
    desk = Desk(
        site=site.head if site else None,
        programs=documents["program"],
        exercises=documents["exercise"],
        techniques=documents["technique"],
        explainers=documents["explainer"],
        names=names_on_disk(folder),
    )
    problems.extend(check(desk))

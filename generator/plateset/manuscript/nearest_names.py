"""The name that was meant by words which break the rule of names, such as ``Overhead press``.

A file by itself cannot know it: what it tells of such words is completed here from the names that are there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any

from plateset.manuscript.desk import Desk
from plateset.manuscript.load import Document
from plateset.manuscript.naming import files_meant, mapping, sessions_meant
from plateset.manuscript.written import LONGEST_NAME
from plateset.problems import Place, Problem, nearest_word

_TOLD = " is not a name"
"""How the message ends that is told of them."""


def with_nearest_names(problems: Iterable[Problem], desk: Desk) -> list[Problem]:
    """The problems as they are, but for words that are no name the nearest name is told."""
    told = list(problems)
    open_places = {problem.place for problem in told if _is_open(problem)}
    if not open_places:
        return told
    paths = {place.path for place in open_places}
    meant = {
        place: name
        for document in desk.misread
        if document.source.path in paths
        for place, name in _meant(document, desk, open_places)
    }
    return [
        replace(problem, nearest=meant[problem.place]) if _is_open(problem) and problem.place in meant else problem
        for problem in told
    ]


def _is_open(problem: Problem) -> bool:
    return not problem.nearest and problem.message.endswith(_TOLD)


def _meant(document: Document[Any], desk: Desk, places: set[Place]) -> Iterator[tuple[Place, str]]:
    """The name nearest to what is written at each of the places that names something."""
    for kind, (path, words), at_key in files_meant(document):
        place = document.place(path, key=at_key)
        if place in places:
            yield place, _nearest(words, frozenset(desk.names[kind]))
    sessions = frozenset(map(str, mapping(document.marked.data.get("sessions"))))
    for path, words in sessions_meant(document):
        place = document.place(path)
        if place in places:
            yield place, _nearest(words, sessions)


@lru_cache(maxsize=1024)  # a slip that is made once is made in every line
def _nearest(words: str, known: frozenset[str]) -> str:
    return nearest_word(words, sorted(known)) if len(words) <= LONGEST_NAME else ""

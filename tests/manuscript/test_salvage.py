"""A fault of form brings no others with it: what is judged in spite of it is judged as if it were not there."""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from plateset.manuscript.checks import check
from plateset.manuscript.desk import Desk
from plateset.manuscript.files import Source
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document, Misread, load
from plateset.manuscript.positions import read_yaml
from plateset.manuscript.read import read_manuscript

CONTENT = Path(__file__).parents[2] / "content"
PROGRAMS = sorted((CONTENT / "programs").glob("*.yaml"))
NONSENSE: tuple[Any, ...] = ("§§", 10**9, {"§§": 1}, [[]])
"""What no key of a program takes, and no word is near."""


@pytest.fixture(scope="module")
def manuscript() -> Manuscript:
    return read_manuscript(CONTENT, "content")


def places(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of everything within some data."""
    for key, value in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        yield (*path, key)
        yield from places(value, (*path, key))


def spoilt(data: Any, path: tuple[Any, ...], nonsense: Any) -> Any:
    """The data with nonsense at ``path``."""
    found = deepcopy(data)
    within = found
    for part in path[:-1]:
        within = within[part]
    within[path[-1]] = nonsense
    return found


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: path.stem)
def test_a_fault_brings_no_others(path: Path, manuscript: Manuscript) -> None:
    sound = read_yaml(path.read_text("utf-8")).data
    judged = 0
    for number, place in enumerate(list(places(sound))[::3]):
        text = json.dumps(spoilt(sound, place, NONSENSE[number % len(NONSENSE)]))  # JSON is YAML too
        result = load(Source("program", path.stem, path.name, text, ""))
        if isinstance(result, Misread) and result.salvaged:
            judged += 1
            assert [*check(desk(result.salvaged, manuscript))] == [], place
    assert judged > 40


def desk(salvaged: Document[Any], manuscript: Manuscript) -> Desk:
    """A desk on which nothing but what is left of the program is looked at."""
    names = {
        "program": frozenset(manuscript.programs),
        "exercise": frozenset(manuscript.exercises),
        "technique": frozenset(manuscript.techniques),
        "explainer": frozenset(manuscript.explainers),
    }
    exercises, site = manuscript.exercises, manuscript.site.head
    return Desk(site, {}, exercises, manuscript.techniques, {}, names, salvaged=(salvaged,))  # type: ignore[arg-type]

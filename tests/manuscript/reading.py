"""How the tests read a manuscript: its problems as a list, none when it is sound."""

from __future__ import annotations

from pathlib import Path

from plateset.manuscript.read import read_manuscript
from plateset.problems import ManuscriptError, Problem


def problems_in(folder: Path) -> list[Problem]:
    try:
        read_manuscript(folder, "book")
    except ManuscriptError as error:
        return error.problems
    return []

"""What can be judged of a program in spite of faults of its form, so that an author is told everything in one run.

Each fault is put out of the way: a line makes room for one that nothing can be said against, a key for what a program
is without it. What other parts are judged by is not guessed: where that is at fault, nothing is judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from datetime import date
from typing import Any

from pydantic import ValidationError

from plateset.manuscript.schema import GROUPS, Program
from plateset.manuscript.wording import faults_of
from plateset.manuscript.written import SLUG
from plateset.problems import nearest_word

_TIMES = 3
"""Faults may stand behind faults: what is within a mapping is looked at once its kind is known."""

_STAND_IN: dict[str, Any] = {
    "title": "…",
    "summary": "…",
    "level": "novice",
    "goal": "strength",
    "date": date(2000, 1, 1),
    "suits": ["…"],
    "not for": ["…"],
}
"""What a program cannot be without, where nothing else is judged by it."""

_JUDGED_BY = ("weeks", "schedule", "sessions", "loading")
"""What other parts are judged by."""


def salvaged(error: ValidationError, data: Any) -> tuple[Any, Program] | None:
    """What is left of a program's ``data`` without its faults, and the program; None where others hang on them."""
    left = deepcopy(data)
    for _ in range(_TIMES):
        if not all(_put_aside(left, path) for path in _paths(error)):
            return None
        try:
            return left, Program.model_validate(left)
        except ValidationError as found:
            error = found
    return None


def _paths(error: ValidationError) -> Iterator[tuple[str | int, ...]]:
    """Where each fault is written; pydantic puts the kind of a line ('line:lift') between."""
    for detail in faults_of([error]):
        yield tuple(part for part in detail["loc"] if not (isinstance(part, str) and part.startswith("line:")))


def _put_aside(data: dict[str, Any], path: tuple[str | int, ...]) -> bool:
    """Put a fault out of the way; False where it cannot be."""
    match path:
        case ("sessions", str(name), "lines", int(index), *within):
            return _put_line_aside(data["sessions"][name], index, within)
        case ("sessions", str(name), str(key), *_) if key != "lines" and isinstance(data["sessions"][name], dict):
            data["sessions"][name].pop(key, None)
            return True
        case ("schedule", str(day), *_) if isinstance(data["schedule"], dict):
            data["schedule"].pop(day, None)
            return bool(data["schedule"])
        case (str(key), *_) if not (key in _JUDGED_BY or nearest_word(key, _JUDGED_BY)):
            data.pop(key, None)
            data.update({key: _STAND_IN[key]} if key in _STAND_IN else {})
            return True
    return False


def _put_line_aside(session: Any, index: int, within: list[str | int]) -> bool:
    lines = session["lines"] if isinstance(session, dict) else session
    match within:
        case (str(group), int(member), *_) if group in GROUPS:
            lines[index][group][member] = _faultless(lines[index][group][member])
        case _:
            lines[index] = _faultless(lines[index])
    return True


def _faultless(line: Any) -> dict[str, Any]:
    named = line.get("exercise") if isinstance(line, dict) else None
    known = isinstance(named, str) and SLUG.fullmatch(named)
    return {"exercise": named if known else "none", "sets": 1, "reps": 1}

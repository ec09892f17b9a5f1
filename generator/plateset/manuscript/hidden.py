"""Faults that stand behind an unknown name: which other keys belong beside a rule or technique hangs on its name.

What pydantic cannot tell the kind of it does not look into. So that an author is told everything in one run, the data
is read once more with the known name in place of one that is all but written so; from a looser guess would follow
faults that are none.
"""

from __future__ import annotations

from copy import deepcopy
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from plateset.manuscript.wording import choices_of, discriminator_of

_ALL_BUT_WRITTEN = 0.8
"""How alike a word and a known name are, from 0 to 1, that the one is taken for the other."""

_DEPTH = 3
"""Names within what a name was unknown for, and those within that."""


def behind(error: ValidationError, data: Any, model: type[BaseModel]) -> ValidationError | None:
    """What is wrong with ``data`` if its unknown names are read as the nearest known ones; None if nothing is, or if
    there is no such name.
    """
    if not any(map(_nearest, _unknown(error))):
        return None
    guessed, found = deepcopy(data), None
    for _ in range(_DEPTH):
        try:
            model.model_validate(guessed)
        except ValidationError as one:
            found = one
            nameable = [detail for detail in _unknown(one) if _nearest(detail)]
            if not nameable:
                break
            for detail in nameable:
                detail["input"][discriminator_of(detail)] = _nearest(detail)
        else:
            return None
    return found


def _unknown(error: ValidationError) -> list[ErrorDetails]:
    details = error.errors(include_url=False)
    return [each for each in details if each["type"] == "union_tag_invalid" and isinstance(each["input"], dict)]


def _nearest(detail: ErrorDetails) -> str:
    written = str((detail.get("ctx") or {}).get("tag")).lower()
    return "".join(get_close_matches(written, choices_of(detail), n=1, cutoff=_ALL_BUT_WRITTEN))

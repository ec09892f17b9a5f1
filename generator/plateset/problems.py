"""A problem of the manuscript: what is wrong, where, and what was expected. Facts only, no wording for a screen."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches


@dataclass(frozen=True, order=True)
class Place:
    """A spot in an author's file.

    ``line`` and ``column`` count from 1, as editors do; 0 means the file as a whole.
    ``excerpt`` is that line's text and ``width`` the number of characters to point at.
    """

    path: str
    line: int = 0
    column: int = 0
    excerpt: str = field(default="", compare=False)
    width: int = field(default=1, compare=False)

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}" if self.line else self.path


@dataclass(frozen=True, order=True)
class Problem:
    """One thing an author has to mend before anything can be computed."""

    place: Place
    message: str
    expected: str = ""
    nearest: str = ""


class ManuscriptError(Exception):
    """The manuscript cannot be used; carries every problem found, in order of place."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(set(problems))
        super().__init__(f"{len(self.problems)} problems")


def nearest_word(found: object, known: Iterable[str]) -> str:
    """The known word most like ``found``, or an empty string when none is close."""
    words = list(known)
    close = get_close_matches(str(found).lower(), [word.lower() for word in words], n=1, cutoff=0.55)
    return next((word for word in words if close and word.lower() == close[0]), "")

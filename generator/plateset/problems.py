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
    sought, words = str(found).lower(), {word.lower(): word for word in reversed(list(known))}
    # A word that holds the other whole is meant rather than one that shares letters with it.
    holding = [
        word for word in words if min(len(word), len(sought)) >= SHORTEST_HELD and (word in sought or sought in word)
    ]
    close = get_close_matches(sought, words, n=1, cutoff=0.8) or get_close_matches(sought, holding, n=1, cutoff=0.0)
    close = close or get_close_matches(sought, words, n=1, cutoff=0.55)
    return words[close[0]] if close else ""


SHORTEST_HELD = 3
"""Letters of a word that counts as held in another: shorter ones are in many."""

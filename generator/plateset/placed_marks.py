"""A mark with its place in the author's file."""

from __future__ import annotations

from dataclasses import dataclass

from plateset.problems import Place
from plateset.training.marks.mark import Mark


@dataclass(frozen=True)
class PlacedMark:
    """A mark, and the place in the author's file it is about."""

    mark: Mark
    place: Place

"""What a press is asked for, and how it ends: with a site, or with why there is none.

Only what a press that finds nothing to do needs is loaded for it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from plateset.training.marks.tally import Tally

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from plateset.proving import Proofs


@dataclass(frozen=True)
class Options:
    """How to press. ``kept`` is where the site before goes, ``archive`` the file that holds the site too.

    ``jobs`` is how many processes work at once, as many as there are cores without it; an ``executor`` is used instead
    of processes of our own. It has to share the disk with us. ``told`` is told of every step in a few words.
    """

    as_draft: bool = False
    archive: Path | None = None
    kept: Path | None = None
    jobs: int | None = None
    executor: Executor | None = None
    told: Callable[[str], None] = lambda words: None


@dataclass(frozen=True)
class Pressed:
    """A site as it stands after a press: its marks, programs and files, and what was made anew and why."""

    tally: Tally
    programs: int
    files: int
    made: tuple[tuple[str, str], ...] = ()
    unchanged: bool = False
    kept: bool = False
    """Whether the site before is kept."""
    meanwhile: tuple[str, ...] = ()
    """What changed while it was pressed; the site does not show it."""


class RefusedError(Exception):
    """The proof stops the press; carries the proofs."""

    def __init__(self, proofs: Proofs) -> None:
        super().__init__("the proof stops this manuscript")
        self.proofs = proofs

"""What the preview shows: the last good pages, and what is wrong with the manuscript as it stands now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from plateset.problems import Problem
from plateset.proving import Proofs
from plateset.publishing.documents import Make


@dataclass(frozen=True)
class Pressed:
    """A good manuscript: its proofs, and what makes each file of its site."""

    proofs: Proofs
    files: Mapping[str, Make]


@dataclass(frozen=True)
class State:
    """One moment of the preview.

    ``edition`` goes up when the pages change, ``news`` when anything does. ``problems`` are the manuscript's;
    ``fault`` is one of the theme, a sheet or the disk, in words. Either may stand beside pages from before.
    """

    pressed: Pressed | None = None
    problems: tuple[Problem, ...] = ()
    fault: str = ""
    edition: int = 0
    news: int = 0

    def with_pages(self, pressed: Pressed) -> State:
        """New pages; whatever was wrong is mended."""
        return State(pressed, edition=self.edition + 1, news=self.news + 1)

    def with_problems(self, problems: tuple[Problem, ...]) -> State:
        """The manuscript cannot be read; the pages from before stay."""
        return replace(self, problems=problems, fault="", news=self.news + 1)

    def with_fault(self, fault: str) -> State:
        """Something else is in the way; the pages from before stay."""
        return replace(self, problems=(), fault=fault, news=self.news + 1)

    @property
    def is_sound(self) -> bool:
        """Whether the pages are those of the manuscript as it stands."""
        return self.pressed is not None and not self.problems and not self.fault

"""How many marks a proof has, by what they ask for."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Tally:
    """How many marks stand, and how many were accepted."""

    stop: int = 0
    query: int = 0
    note: int = 0
    accepted: int = 0

    def __add__(self, other: Tally) -> Tally:
        return Tally(
            self.stop + other.stop,
            self.query + other.query,
            self.note + other.note,
            self.accepted + other.accepted,
        )

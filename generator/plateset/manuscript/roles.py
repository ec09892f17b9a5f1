"""What a line's role brings with it: the progression of all lines of that role, unless it has its own."""

from __future__ import annotations

from plateset.manuscript.schema import LiftLine, Program, Progression


def progression_of(line: LiftLine, program: Program) -> Progression | None:
    """The rule a line progresses by: its own, else its role's; ``none`` on the line means none."""
    if line.progression is not None:
        return None if line.progression == "none" else line.progression
    return None if line.role is None else getattr(program.progressions, line.role)

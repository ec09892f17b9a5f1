"""How commands end: their exit codes, and problems told where the author looks for them."""

from __future__ import annotations

from rich.console import Console

from plateset.problems import ManuscriptError
from plateset.verdicts import show_problems

STOPPED, UNREADABLE, UNWRITABLE = 1, 3, 4


def tell_problems(error: ManuscriptError) -> None:
    """Every problem, beside the output."""
    show_problems(error, screen(err=True))


def screen(*, err: bool = False) -> Console:
    """The terminal, or what stands in its place."""
    console = Console(stderr=err, highlight=False)
    if console.width < 1:  # a terminal that says it has no columns
        console.width = USUAL_WIDTH
    return console


USUAL_WIDTH = 80

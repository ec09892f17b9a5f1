"""How commands end: their exit codes, and problems told where the author looks for them."""

from __future__ import annotations

import click
from rich.console import Console

from plateset.console import show_problems
from plateset.problems import ManuscriptError
from plateset.proof_json import problems_json

STOPPED, UNREADABLE, UNWRITABLE = 1, 3, 4


def tell_problems(error: ManuscriptError, *, as_json: bool) -> None:
    """Every problem, as JSON on the output or as text beside it."""
    if as_json:
        click.echo(problems_json(error))
    else:
        show_problems(error, screen(err=True))


def screen(*, err: bool = False) -> Console:
    """The terminal, or what stands in its place."""
    return Console(stderr=err, highlight=False)

"""How much a command says: its results on the output, how it gets on beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import wraps
from typing import Any

import click
from rich.markup import escape

from plateset.commands.endings import screen

Told = Callable[[str], None]


@dataclass(frozen=True)
class Voice:
    """What ``--quiet`` and ``--verbose`` ask for."""

    quiet: bool = False
    verbose: bool = False

    def say(self, words: str) -> None:
        """A result, unless quiet."""
        if not self.quiet:
            click.echo(words)

    @contextmanager
    def progress(self) -> Iterator[Told]:
        """Takes the steps of long work: every one a line if verbose, else the latest beside a sign of life.

        The sign of life is for a person at a terminal; nothing is written where the output goes elsewhere.
        """
        if self.verbose:
            yield lambda words: click.echo(words, err=True)
            return
        terminal = screen(err=True)
        if self.quiet or not terminal.is_terminal or terminal.is_dumb_terminal:
            yield lambda words: None
            return
        with terminal.status("Starting") as status:
            yield lambda words: status.update(escape(words))


def voiced(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command ``--quiet`` and ``--verbose``; it gets them as ``voice``."""

    @click.option("-q", "--quiet", is_flag=True, help="Say nothing unless something is wrong.")
    @click.option("-v", "--verbose", is_flag=True, help="Tell every step, beside the output.")
    @wraps(command)
    def with_voice(*arguments: Any, quiet: bool, verbose: bool, **named: Any) -> None:
        if quiet and verbose:
            raise click.UsageError("--quiet and --verbose do not go together")
        command(*arguments, voice=Voice(quiet, verbose), **named)

    return with_voice

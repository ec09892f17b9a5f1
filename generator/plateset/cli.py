"""The command line: the commands by name, each loaded when it is asked for.

A proof is run many times an hour while a program is written; it does not wait for the libraries that set paper and
draw charts.
"""

from __future__ import annotations

import sys
from contextlib import suppress
from importlib import import_module
from io import TextIOWrapper
from typing import Any

import click

from plateset import __version__
from plateset.thrift import end_at_once

end_at_once()

SUMMARIES = {
    "draft": "Start a manuscript, or one more file of one.",
    "proof": "Check MANUSCRIPT and show the numbers behind every program.",
    "preview": "Show MANUSCRIPT's pages in a browser, pressed anew at every save.",
    "press": "Prove MANUSCRIPT and press it as a static site.",
    "collate": "Check that a pressed folder is whole.",
    "schemas": "Write what editors complete and check from.",
    "manual": "Show the manual.",
}
"""Every command in a sentence, so that the list of them needs none to be loaded."""

COMMANDS = {name: f"plateset.commands.{name}" for name in SUMMARIES}
"""Each command's name and the module whose ``command`` it is."""


class _Commands(click.Group):
    """A group whose commands are loaded by name."""

    def main(self, *args: Any, **extra: Any) -> Any:
        """Run it; an output that takes no more ends it as an output that cannot be written does."""
        try:
            return super().main(*args, **extra)
        except OSError as error:
            if error.filename is not None:  # of a file that was asked for by its name, and so a bug
                raise
            with suppress(OSError):
                click.echo(f"plateset: the output could not be written: {error.strerror or error}", err=True)
            sys.exit(4)  # as UNWRITABLE of the endings, which the list of commands does not wait for

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        found: click.Command = import_module(COMMANDS[cmd_name]).command
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(SUMMARIES.items()))


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="plateset")
def main() -> None:
    """Turn a coach's training programs into a site people can train from.

    A manuscript is a folder with site.yaml, programs/*.yaml and Markdown notes in exercises/, techniques/ and
    explainers/. Draft one, look at it while you write, prove it, press it:

    \b
      plateset draft my-site
      plateset preview my-site
      plateset proof my-site
      plateset press my-site --to my-site-pressed

    Every command ends with 0 when all is well. Other endings: 1 the proof stops it, 2 the command line is wrong,
    3 the manuscript has problems, 4 the output cannot be written.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that lacks a letter is no reason to fail

"""``plateset draft``: start a manuscript."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from plateset.commands.endings import UNWRITABLE
from plateset.drafting import DraftError, draft_manuscript


@click.command("draft")
@click.argument("folder", type=click.Path(path_type=Path))
def command(folder: Path) -> None:
    """Start a manuscript in FOLDER that can be proved and pressed at once.

    It holds a site file, one program, and the shipped exercise and technique notes that program uses. Nothing is
    ever overwritten: FOLDER must be new or empty.
    """
    try:
        written = draft_manuscript(folder)
    except DraftError as error:
        click.echo(f"plateset: {error}", err=True)
        sys.exit(UNWRITABLE)
    click.echo(f"{written} files in {folder}\nNext: plateset proof {folder}")

"""``plateset collate``: whether a pressed folder is whole."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from plateset.collating import NotPressedError, collate
from plateset.commands.endings import STOPPED, UNREADABLE
from plateset.commands.voice import Voice, voiced


@click.command("collate", short_help="Check that a pressed folder is whole.")
@click.argument("site", type=click.Path(path_type=Path))
@voiced
def command(site: Path, *, voice: Voice) -> None:
    """Check that the pressed folder SITE is whole, before or after it is copied to its host.

    Every file must be there with the size and SHA-256 it was pressed with, and every link within the site must lead
    to a file and a place on it. Files that Plateset did not make are named; they do no harm where a host needs them.

    Ends with 0 if the site is whole, 1 if it is not, 3 if SITE was not pressed.
    """
    try:
        found = collate(site)
    except NotPressedError as error:
        click.echo(f"plateset: {error}", err=True)
        sys.exit(UNREADABLE)
    except OSError as error:
        click.echo(f"plateset: {site} cannot be read: {error.strerror or error}", err=True)
        sys.exit(UNREADABLE)
    for finding in found.findings:
        if finding.fault != "foreign" or not voice.quiet:
            click.echo(f"{finding.fault}: {finding.path}: {finding.words}")
    whole = "The site is whole." if found.is_whole else "The site is not whole: press it again, or copy it again."
    voice.say(f"{found.files:,} files and {found.links:,} links within the site looked at. {whole}")
    sys.exit(0 if found.is_whole else STOPPED)

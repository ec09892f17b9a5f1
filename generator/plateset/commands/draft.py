"""``plateset draft``: a manuscript, or one more file of one."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from plateset.commands.endings import UNWRITABLE
from plateset.commands.voice import Voice, voiced
from plateset.drafting import STARTED, DraftError, Name, draft_files, draft_manuscript


@click.command("draft", short_help="Start a manuscript, or one more file of one.")
@click.argument("folder", type=click.Path(path_type=Path), required=False)
@click.option("--program", "programs", metavar="NAME", multiple=True, help="Start programs/NAME.yaml.")
@click.option("--exercise", "exercises", metavar="NAME", multiple=True, help="Start exercises/NAME.md.")
@click.option("--technique", "techniques", metavar="NAME", multiple=True, help="Start techniques/NAME.md.")
@click.option("--explainer", "explainers", metavar="NAME", multiple=True, help="Start explainers/NAME.md.")
@voiced
def command(folder: Path | None, *, voice: Voice, **named: tuple[str, ...]) -> None:
    """Start a manuscript in FOLDER that can be proved and pressed at once.

    It holds a site file, one program, the shipped exercise and technique notes that program uses, and the schemas
    that let an editor complete and check. FOLDER must be new or empty.

    With a NAME, start one more file of the manuscript in FOLDER (this folder, if left out), filled in with guidance
    and valid as it stands. An exercise or technique that Plateset ships a note for is copied, with the notes it leads
    to. Names are small letters, digits and hyphens:

    \b
      plateset draft my-site
      plateset draft my-site --program spring-block
      plateset draft my-site --exercise hip-thrust --exercise nordic-curl

    Nothing is ever overwritten.
    """
    wanted: list[Name] = [(kind, name) for kind in STARTED for name in named[f"{kind}s"]]
    if folder is None and not wanted:
        raise click.UsageError("Missing argument 'FOLDER'.")
    try:
        if wanted:
            _more(folder or Path(), tuple(dict.fromkeys(wanted)), voice)
        elif folder is not None:
            voice.say(f"{draft_manuscript(folder)} files in {folder}\nNext: plateset proof {folder}")
    except DraftError as error:
        click.echo(f"plateset: {error}", err=True)
        sys.exit(UNWRITABLE)


def _more(folder: Path, wanted: tuple[Name, ...], voice: Voice) -> None:
    drafted = draft_files(folder, wanted, date.today())
    notes = [path for path in drafted.besides if not path.startswith(".")]
    for path in (*drafted.asked, *notes):
        voice.say(str(folder / path))

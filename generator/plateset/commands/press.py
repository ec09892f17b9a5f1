"""``plateset press``: prove a manuscript and press it as a site."""

from __future__ import annotations

import gc
import sys
from importlib import import_module
from pathlib import Path

import click

from plateset.commands.endings import STOPPED, UNREADABLE, UNWRITABLE, screen, tell_problems
from plateset.commands.voice import Voice, voiced
from plateset.not_made import NotMadeError
from plateset.press_terms import Options, Pressed, RefusedError
from plateset.pressing import press
from plateset.problems import ManuscriptError
from plateset.thrift import COLLECTED, typeset_on_one_core
from plateset.verdicts import verdict_of

CONSOLE = "plateset.console"
"""Loaded where proofs are to be shown."""


@click.command("press")
@click.argument("manuscript", type=click.Path(path_type=Path))
@click.option("--to", "target", required=True, type=click.Path(path_type=Path), help="The folder to press into.")
@click.option(
    "--as-draft", is_flag=True, help="Press even if the proof stops it, with 'Draft' on every page and sheet."
)
@click.option(
    "--zip", "archive", type=click.Path(path_type=Path), help="Also write the site as one ZIP file, to upload."
)
@click.option(
    "--keep",
    "kept",
    type=click.Path(path_type=Path),
    help="Keep the site there was, as this folder.",
)
@click.option("--explain", is_flag=True, help="Say of every file that is made why it is.")
@click.option("--jobs", type=click.IntRange(min=1), help="How many processes work at once; all cores if left out.")
@voiced
def command(  # noqa: PLR0913 - a parameter for each option
    manuscript: Path,
    target: Path,
    *,
    as_draft: bool,
    archive: Path | None,
    kept: Path | None,
    explain: bool,
    jobs: int | None,
    voice: Voice,
) -> None:
    """Prove MANUSCRIPT and press it as a static site.

    The site is written beside the target folder and swapped in whole, or not at all. A folder with files that
    Plateset did not make is never touched. The result needs no server: open index.html from disk, or copy the
    folder to any web host, under any path.
    """
    gc.set_threshold(*COLLECTED)
    if jobs == 1:
        typeset_on_one_core()
    try:
        with voice.progress() as told:
            options = Options(as_draft=as_draft, archive=archive, kept=kept, jobs=jobs, told=told)
            pressed = press(manuscript, str(manuscript), target, options)
    except ManuscriptError as error:
        tell_problems(error)
        sys.exit(UNREADABLE)
    except RefusedError as refusal:
        import_module(CONSOLE).show_proofs(refusal.proofs, screen(err=True))
        click.echo("Nothing was pressed. --as-draft presses it all the same, marked as a draft.", err=True)
        sys.exit(STOPPED)
    except (NotMadeError, FileNotFoundError) as error:
        click.echo(f"plateset: {error}", err=True)
        sys.exit(UNWRITABLE)
    for name in pressed.meanwhile:
        click.echo(f"plateset: {name} changed while pressing; the site does not show it yet. Press again.", err=True)
    if explain:
        for path, why in pressed.made:
            click.echo(f"{path}: {why}")
    if voice.quiet:
        return
    out = screen()
    out.print(verdict_of(pressed.tally, pressed.programs))
    out.print(_outcome(pressed, target), soft_wrap=True, markup=False)
    if kept is not None:
        out.print(_keeping(pressed, kept), soft_wrap=True, markup=False)
    if archive is not None:
        out.print(f"The same in one file: {archive}", soft_wrap=True, markup=False)


def _keeping(pressed: Pressed, kept: Path) -> str:
    if pressed.kept:
        return f"The site before: {kept}"
    why = "the site is as it was" if pressed.unchanged else "there was no site before"
    return f"Nothing was kept in {kept}: {why}."


def _outcome(pressed: Pressed, target: Path) -> str:
    where = f"{pressed.files} files in {target}. Open {target / 'index.html'}"
    if pressed.unchanged:
        return f"Nothing has changed since the last press. {where}"
    taken = pressed.files - len(pressed.made)
    return f"{where}\n{len(pressed.made)} made, {taken} taken over from the last press." if taken else where

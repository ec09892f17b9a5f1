"""The command line: commands and options only. Parses, calls the pipeline, sets the exit code."""

from __future__ import annotations

import sys
from io import TextIOWrapper
from pathlib import Path

import click
from rich.console import Console

from plateset import __version__
from plateset.commands.draft import draft
from plateset.commands.endings import STOPPED, UNREADABLE, UNWRITABLE
from plateset.commands.schemas import schemas
from plateset.console import show_problems, show_proofs, verdict
from plateset.pipeline import Proofs, RefusedError
from plateset.pipeline import press as press_site
from plateset.pipeline import proof as prove_manuscript
from plateset.problems import ManuscriptError
from plateset.proof_json import problems_json, proofs_json
from plateset.publishing.press import PressError
from plateset.publishing.sheets import SheetError
from plateset.publishing.theme import ThemeError
from plateset.training.figures import FigureError
from plateset.training.working import working


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="plateset")
def main() -> None:
    """Turn a coach's training programs into a site people can train from.

    A manuscript is a folder with site.yaml, programs/*.yaml and Markdown notes in exercises/, techniques/ and
    explainers/. Draft one, prove it, press it:

    \b
      plateset draft my-site
      plateset proof my-site
      plateset press my-site --to my-site-pressed

    Every command ends with 0 when all is well. Other endings: 1 the proof stops it, 2 the command line is wrong,
    3 the manuscript has problems, 4 the output cannot be written.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that lacks a letter is no reason to fail


main.add_command(draft)
main.add_command(schemas)


@main.command()
@click.argument("manuscript", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the proof as JSON instead of tables.")
@click.option("--working", "address", metavar="FIGURE", help="Show how one figure came about, and nothing else.")
def proof(manuscript: Path, as_json: bool, address: str | None) -> None:
    """Check MANUSCRIPT and show the numbers behind every program.

    For each program: the weekly sets of every muscle beside the promised range, each session's minutes, and the
    marks, each with its place, reason and remedy. A mark that says 'stop' keeps the manuscript from being pressed; a
    'query' asks you to look; a 'note' only tells.

    FIGURE is an address as in prose: 'my-program/load/back-squat/week 3', 'my-program/weekly sets/lats/week 1',
    'my-program/minutes'.

    Ends with 0 if it may be published, 1 if a mark stops it, 3 if the manuscript has problems.
    """
    try:
        proofs = prove_manuscript(manuscript, str(manuscript))
    except ManuscriptError as error:
        _tell_problems(error, as_json=as_json)
        sys.exit(UNREADABLE)
    if address is not None:
        _tell_working(address, proofs)
        return
    if as_json:
        click.echo(proofs_json(proofs))
    else:
        show_proofs(proofs, _screen())
    sys.exit(0 if proofs.may_be_published else STOPPED)


@main.command()
@click.argument("manuscript", type=click.Path(path_type=Path))
@click.option("--to", "target", required=True, type=click.Path(path_type=Path), help="The folder to press into.")
@click.option(
    "--as-draft", is_flag=True, help="Press even if the proof stops it, with 'Draft' on every page and sheet."
)
def press(manuscript: Path, target: Path, as_draft: bool) -> None:
    """Prove MANUSCRIPT and press it as a static site.

    The site is written beside the target folder and swapped in whole, or not at all. A folder with files that
    Plateset did not make is never touched. The result needs no server: open index.html from disk, or copy the
    folder to any web host, under any path.
    """
    try:
        proofs, count = press_site(manuscript, str(manuscript), target, as_draft=as_draft)
    except ManuscriptError as error:
        _tell_problems(error, as_json=False)
        sys.exit(UNREADABLE)
    except RefusedError as refusal:
        show_proofs(refusal.proofs, _screen(err=True))
        click.echo("Nothing was pressed. --as-draft presses it all the same, marked as a draft.", err=True)
        sys.exit(STOPPED)
    except (PressError, ThemeError, SheetError, FileNotFoundError) as error:
        click.echo(f"plateset: {error}", err=True)
        sys.exit(UNWRITABLE)
    screen = _screen()
    screen.print(verdict(proofs))
    screen.print(f"{count} files in {target}. Open {target / 'index.html'}", soft_wrap=True)


def _tell_working(address: str, proofs: Proofs) -> None:
    try:
        steps = working(address, {slug: proof.plan for slug, proof in proofs.programs.items()})
    except FigureError as error:
        nearest = f"; nearest: {error.nearest}" if error.nearest else ""
        raise click.BadParameter(
            f"{error.message}. Expected: {error.expected}{nearest}", param_hint="--working"
        ) from None
    click.echo("\n".join(steps))


def _tell_problems(error: ManuscriptError, *, as_json: bool) -> None:
    if as_json:
        click.echo(problems_json(error))
    else:
        show_problems(error, _screen(err=True))


def _screen(*, err: bool = False) -> Console:
    return Console(stderr=err, highlight=False)

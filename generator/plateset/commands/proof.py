"""``plateset proof``: check a manuscript and show the numbers behind it."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from plateset.commands.endings import STOPPED, UNREADABLE, screen, tell_problems
from plateset.console import show_proofs, show_stops
from plateset.problems import ManuscriptError
from plateset.proof_json import proofs_json
from plateset.proving import Proofs, proof
from plateset.training.figures import FigureError
from plateset.training.working import working


@click.command("proof")
@click.argument("manuscript", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the proof as JSON instead of tables.")
@click.option("--working", "address", metavar="FIGURE", help="Show how one figure came about, and nothing else.")
@click.option("-q", "--quiet", is_flag=True, help="Show only the marks that stop it.")
def command(manuscript: Path, *, as_json: bool, address: str | None, quiet: bool) -> None:
    """Check MANUSCRIPT and show the numbers behind every program.

    For each program: the weekly sets of every muscle beside the promised range, each session's minutes, and the
    marks, each with its place, reason and remedy. A mark that says 'stop' keeps the manuscript from being pressed; a
    'query' asks you to look; a 'note' only tells.

    FIGURE is an address as in prose: 'my-program/load/back-squat/week 3', 'my-program/weekly sets/lats/week 1',
    'my-program/minutes'.

    Ends with 0 if it may be published, 1 if a mark stops it, 3 if the manuscript has problems.
    """
    try:
        proofs = proof(manuscript, str(manuscript))
    except ManuscriptError as error:
        tell_problems(error, as_json=as_json)
        sys.exit(UNREADABLE)
    if address is not None:
        _tell_working(address, proofs)
        return
    if as_json:
        click.echo(proofs_json(proofs))
    elif quiet:
        show_stops(proofs, screen())
    else:
        show_proofs(proofs, screen())
    sys.exit(0 if proofs.may_be_published else STOPPED)


def _tell_working(address: str, proofs: Proofs) -> None:
    try:
        steps = working(address, {slug: each.plan for slug, each in proofs.programs.items()})
    except FigureError as error:
        nearest = f"; nearest: {error.nearest}" if error.nearest else ""
        raise click.BadParameter(
            f"{error.message}. Expected: {error.expected}{nearest}", param_hint="--working"
        ) from None
    click.echo("\n".join(steps))

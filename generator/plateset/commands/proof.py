"""``plateset proof``: check a manuscript and show the numbers behind it."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from plateset.commands.endings import STOPPED, UNREADABLE, screen, tell_problems
from plateset.comparing import Comparisons, compare_with, compared_only
from plateset.console import show_comparisons, show_proofs, show_stops
from plateset.problems import ManuscriptError
from plateset.proof_json import problems_json, proofs_json
from plateset.proof_schema import schema_json
from plateset.proving import ChoiceError, Proofs, proof
from plateset.training.figures import FigureError
from plateset.training.working import working


def _print_schema(ctx: click.Context, _: click.Parameter, asked: bool) -> None:
    if asked:
        click.echo(schema_json())
        ctx.exit()


@click.command("proof")
@click.argument("manuscript", type=click.Path(path_type=Path))
@click.option(
    "--program", "wanted", metavar="NAME", multiple=True, help="Prove this program only; may be given several times."
)
@click.option(
    "--against",
    "other",
    metavar="OTHER",
    type=click.Path(path_type=Path),
    help="Show what changed since OTHER: a program's file, or the folder of another manuscript.",
)
@click.option("--working", "address", metavar="FIGURE", help="Show how one figure came about, and nothing else.")
@click.option("--json", "as_json", is_flag=True, help="Print the proof as JSON instead of tables.")
@click.option(
    "--json-schema",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_print_schema,
    help="Print the JSON Schema of what --json prints, and nothing else.",
)
@click.option("-q", "--quiet", is_flag=True, help="Show only the marks that stop it.")
def command(  # noqa: PLR0913 - one for each option
    manuscript: Path,
    wanted: tuple[str, ...],
    other: Path | None,
    address: str | None,
    *,
    as_json: bool,
    quiet: bool,
) -> None:
    """Check MANUSCRIPT and show the numbers behind every program.

    For each program: the weekly sets of every muscle beside the promised range, each session's minutes, each line's
    load in the first and last working week, and the marks, each with its place, reason and remedy. A mark that says
    'stop' keeps the manuscript from being pressed; a 'query' asks you to look; a 'note' only tells.

    With --against the tables give way to what changed: promises, weekly sets, minutes, lines and loads. A program's
    file is compared with the program of the same name, or with the one that --program names.

    FIGURE is an address as in prose: 'my-program/load/back-squat/week 3', 'my-program/weekly sets/lats/week 1',
    'my-program/minutes'.

    Ends with 0 if what is shown may be published, 1 if a mark stops it, 2 if the command line is wrong, 3 if the
    manuscript or OTHER has problems.
    """
    if address is not None and (other is not None or as_json):
        raise click.UsageError("--working shows one figure and nothing else; leave out --against and --json")
    comparisons = None
    try:
        # A figure may be of any program; it is looked up in them all.
        proofs = proof(manuscript, str(manuscript), () if address is not None else wanted)
        if other is not None:
            comparisons = compare_with(proofs, other, str(other))
            proofs = compared_only(proofs, comparisons)
    except ManuscriptError as error:
        if as_json:
            click.echo(problems_json(error))
        else:
            tell_problems(error)
        sys.exit(UNREADABLE)
    except ChoiceError as error:
        raise click.UsageError(str(error)) from None
    if address is not None:
        _tell_working(address, proofs)
        return
    _show(proofs, comparisons, as_json=as_json, quiet=quiet)
    sys.exit(0 if proofs.may_be_published else STOPPED)


def _show(proofs: Proofs, comparisons: Comparisons | None, *, as_json: bool, quiet: bool) -> None:
    if as_json:
        click.echo(proofs_json(proofs, comparisons))
    elif quiet:
        show_stops(proofs, screen())
    elif comparisons:
        show_comparisons(proofs, comparisons, screen())
    else:
        show_proofs(proofs, screen())


def _tell_working(address: str, proofs: Proofs) -> None:
    try:
        steps = working(address, {slug: each.plan for slug, each in proofs.programs.items()})
    except FigureError as error:
        nearest = f"; nearest: {error.nearest}" if error.nearest else ""
        raise click.BadParameter(
            f"{error.message}. Expected: {error.expected}{nearest}", param_hint="--working"
        ) from None
    click.echo("\n".join(steps))

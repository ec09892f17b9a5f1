"""``plateset schemas``: what editors complete and check from."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from plateset.commands.endings import UNWRITABLE
from plateset.editor_schema import FOLDER, KINDS, editor_schema, write_schemas
from plateset.manuscript.files import SITE_FILE


@click.command("schemas", short_help="Write what editors complete and check from.")
@click.argument("manuscript", type=click.Path(path_type=Path), required=False)
@click.option("--show", type=click.Choice(KINDS), help="Print the schema for one kind of file, and write nothing.")
def command(manuscript: Path | None, show: str | None) -> None:
    """Write the schemas of this version into MANUSCRIPT, for editors to complete and check from.

    They are JSON Schemas (draft 2020-12), put into the folder .plateset-schemas in place of older ones. Drafted files
    name theirs in a comment that editors with a YAML language server understand; to have it in a file of your own,
    make its first line, in a program:

    \b
      # yaml-language-server: $schema=../.plateset-schemas/program.schema.json
    """
    if show is not None:
        kind = next(kind for kind in KINDS if kind == show)
        click.echo(json.dumps(editor_schema(kind), ensure_ascii=False, indent=1))
        return
    if manuscript is None:
        raise click.UsageError("Missing argument 'MANUSCRIPT'.")
    if not (manuscript / SITE_FILE).is_file():
        click.echo(f"plateset: {manuscript} is no manuscript, there is no {SITE_FILE} in it", err=True)
        sys.exit(UNWRITABLE)
    try:
        written = write_schemas(manuscript)
    except OSError as error:
        click.echo(f"plateset: {manuscript / FOLDER} could not be written: {error.strerror or error}", err=True)
        sys.exit(UNWRITABLE)
    click.echo(f"{len(written)} schemas in {manuscript / FOLDER}")

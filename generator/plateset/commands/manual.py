"""``plateset manual``: the manual, a chapter at a time."""

from __future__ import annotations

import sys
from importlib.resources import files

import click

from plateset.manual_keys import keys_chapter

CHAPTERS = ("manuscript", "keys", "proof", "desk", "take-away", "themes", "publishing")


@click.command("manual", short_help="Show the manual.")
@click.argument("chapter", type=click.Choice(CHAPTERS), required=False)
def command(chapter: str | None) -> None:
    """Show a CHAPTER of the manual, as Markdown, or the list of chapters.

    manuscript: the format by example. keys: every key there is. proof: the proof and its marks. desk: drafting,
    editing, previewing.
    take-away: what readers take away. themes: looks of your own. publishing: hosts, and the check that a site is whole.
    """
    text = chapter_text(chapter or "index")
    if sys.stdout.isatty():
        click.echo_via_pager(text)
    else:
        click.echo(text, nl=False)


def chapter_text(chapter: str) -> str:
    """A chapter's Markdown; that of keys is made from the models of this version."""
    if chapter == "keys":
        return keys_chapter()
    return (files("plateset") / "manual" / f"{chapter}.md").read_text("utf-8")

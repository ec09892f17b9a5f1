"""``plateset manual``: the manual, a chapter at a time."""

from __future__ import annotations

from importlib.resources import files

import click

from plateset.manual_keys import keys_chapter

CHAPTERS = ("manuscript", "keys", "proof", "desk", "themes", "publishing")


@click.command("manual", short_help="Show the manual.")
@click.argument("chapter", type=click.Choice(CHAPTERS), required=False)
def command(chapter: str | None) -> None:
    """Show a CHAPTER of the manual, as Markdown, or the list of chapters.

    manuscript: the format by example. keys: every key there is. proof: the proof and its marks. desk: drafting,
    editing, previewing. themes: looks of your own. publishing: hosts, and the check that a site is whole.
    """
    click.echo_via_pager(chapter_text(chapter or "index"))


def chapter_text(chapter: str) -> str:
    """A chapter's Markdown; that of keys is made from the models of this version."""
    if chapter == "keys":
        return keys_chapter()
    return (files("plateset") / "manual" / f"{chapter}.md").read_text("utf-8")

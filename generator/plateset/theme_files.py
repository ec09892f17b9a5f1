"""A manuscript's own theme files: each has to take the place of one of the theme's, or it would change nothing.

Only what looks like a file of a theme and lies where those do is asked about: a licence beside a font, a picture or a
file that says how to read the others is nobody's slip.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from plateset.problems import Place, Problem, nearest_word

OWN = "theme"
"""The folder of a manuscript where its own theme files lie."""
PAPER = "paper"
"""Its folder of what sheets are set with."""
FONTS = "fonts"
"""Its folder of fonts for paper."""
NAMING = re.compile(r"\{%[-+]?\s*(?:extends|include|import|from)\b(.*?)%\}", re.DOTALL)
"""A tag of a template that names others to be put into it."""
PLAIN_NAME = re.compile(r"""\s*(?:"([^"\\]*)"|'([^'\\]*)')\s*(?:$|[-+]?$|(?:as|import|ignore|with|without)\b)""")
"""The name in such a tag where it is not worked out."""
CATALOGUE = re.compile(r"words\.[A-Za-z]{2,3}(?:-[A-Za-z0-9]{1,8})*\.po")
"""The name of a file that holds the words of a language."""

_PAGES, _SHEETS, _WORDS = (".html", ".htm"), ".typ", ".po"
_OF_A_THEME = (*_PAGES, ".css", ".js", _SHEETS, _WORDS)
_FOR_PEOPLE = frozenset({"readme", "license", "licence", "copying", "changes", "changelog"})
_SAID = re.compile(r'\bsay\(\s*"((?:[^"\\]|\\["\\])*)"')
_IMPORTED = re.compile(r'(?:#|\s|^)(?:import|include)\s+"([^"\n]+)"')


def catalogue_names(tag: str) -> tuple[str, ...]:
    """The files that may hold the words of a language, the closest one first."""
    parts = tag.split("-")
    return tuple(f"words.{'-'.join(parts[:length])}.po" for length in range(len(parts), 0, -1))


@lru_cache(64)  # the same few templates for every program
def phrases_on_paper(template: bytes) -> tuple[str, ...]:
    """The phrases that a template for paper says in the site's language."""
    return tuple(
        json.loads(f'"{phrase}"', strict=False) for phrase in _SAID.findall(template.decode("utf-8", "replace"))
    )


def place_in(shown: str, text: str, line: int) -> Place:
    """The place of a fault in a file called ``shown`` that holds ``text``; line 0 is the file as a whole."""
    lines = text.split("\n")
    if not 0 < line <= len(lines):
        return Place(shown)
    excerpt = lines[line - 1].rstrip("\r")
    column = len(excerpt) - len(excerpt.lstrip()) + 1
    return Place(shown, line, column, excerpt, max(1, len(excerpt.strip())))


def theme_problems(folder: Path, shown_as: str, theme: Path) -> Iterator[Problem]:
    """What is wrong with the ``theme/`` folder of a manuscript: links to elsewhere, and files nothing would take.

    ``theme`` is the folder of the shipped theme. Templates that are named by another of the folder are taken.
    """
    own, shown = folder / OWN, f"{shown_as.rstrip('/')}/{OWN}"
    if not own.exists() and not own.is_symlink():
        return
    if own.exists() and not own.is_dir():
        yield Problem(Place(shown), "this is not a folder", "a folder of that name")
    known = {path.relative_to(theme).as_posix() for path in theme.rglob("*") if path.is_file()}
    folders = {PAPER, FONTS}
    for path in sorted((own, *own.rglob("*"))):
        name = path.relative_to(own).as_posix()
        place = Place(f"{shown}/{name}" if path != own else shown)
        if path.is_symlink() and (message := leads_away(path, folder)):
            yield Problem(place, message, "a file, not a link to elsewhere")
        elif path.is_dir() and name in known:
            yield Problem(place, "this is not a file", "a file of that name")
        elif path.is_file() and name in folders:
            yield Problem(place, "this is not a folder", "a folder of that name")
        elif path.is_file() and _could_be_taken(name) and name not in known and not _is_taken(name, own):
            expected = "the name of one of the theme's files, or of a part that one of yours includes"
            nearest = nearest_word(name.lower(), sorted(known))
            yield Problem(place, "no page or sheet takes this file", expected, nearest)


def form_of(folder: Path) -> list[tuple[str, str]]:
    """What :func:`theme_problems` sees of a manuscript's own theme besides what its files hold: of every path whether
    it is a file, a folder or a link to elsewhere."""
    own = folder / OWN
    return [(os.fspath(path.relative_to(folder)), _form(path, folder)) for path in (own, *sorted(own.rglob("*")))]


def _form(path: Path, folder: Path) -> str:
    away = leads_away(path, folder) if path.is_symlink() else ""
    if away or not path.exists():
        return away
    return "folder" if path.is_dir() else "file"


def leads_away(path: Path, folder: Path) -> str:
    """In words, that what a path leads to lies outside a folder or nowhere; empty if it lies inside."""
    try:
        inside = path.resolve(strict=True).is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return "the link leads nowhere"
    return "" if inside else "the file lies outside the manuscript"


def _could_be_taken(name: str) -> bool:
    """Whether a file lies where a theme has files and ends as those do."""
    within, _, last = name.rpartition("/")
    stem, _, ending = last.rpartition(".")
    is_one = within in ("", PAPER) and f".{ending.lower()}" in _OF_A_THEME
    return is_one and not last.startswith(".") and stem.lower() not in _FOR_PEOPLE


def _is_taken(name: str, own: Path) -> bool:
    """Whether a file is taken although the theme has none of its name: words, or a part of another."""
    if name.endswith(_WORDS):
        return CATALOGUE.fullmatch(name) is not None
    texts = [_text(path) for path in own.rglob("*") if path.is_file() and path != own / name]
    if name.endswith(_PAGES):
        named = [PLAIN_NAME.match(tag) for text in texts for tag in NAMING.findall(text)]
        return any(match is None or name in match.groups() for match in named)
    if name.endswith(_SHEETS):
        return name.startswith(f"{PAPER}/") and any(
            f"{PAPER}/{Path(each).name}" == name for text in texts for each in _IMPORTED.findall(text)
        )
    return False


def _text(path: Path) -> str:
    try:
        return path.read_bytes()[:1_000_000].decode("utf-8", "replace")
    except OSError:  # the press will say so
        return ""

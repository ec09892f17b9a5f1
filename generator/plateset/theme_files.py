"""A manuscript's own theme files: each has to take the place of one of the theme's, or it would change nothing.

Only what looks like a file of a theme is asked about; a licence beside a font, or a picture, is nobody's slip.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from plateset.problems import Place, Problem, nearest_word

OWN = "theme"
"""The folder of a manuscript where its own theme files lie."""
_OF_A_THEME = (".html", ".css", ".js", ".typ", ".po")
_WORDS = ".po"


def catalogue_names(tag: str) -> tuple[str, ...]:
    """The files that may hold the words of a language, the closest one first."""
    parts = tag.split("-")
    return tuple(f"words.{'-'.join(parts[:length])}.po" for length in range(len(parts), 0, -1))


def unused_files(folder: Path, shown_as: str, theme: Path, language: str) -> Iterator[Problem]:
    """What in the ``theme/`` folder of a manuscript no page and no sheet would take.

    ``theme`` is the folder of the shipped theme, ``language`` the tag of the site's. A file that another of the folder
    names may be part of that one.
    """
    own, shown = folder / OWN, f"{shown_as.rstrip('/')}/{OWN}"
    if own.exists() and not own.is_dir():
        yield Problem(Place(shown), "this is not a folder", "a folder of that name")
    paths = {path.relative_to(own).as_posix(): path for path in sorted(own.rglob("*")) if path.suffix in _OF_A_THEME}
    files = {name: path for name, path in paths.items() if path.is_file() and not _is_hidden(name)}
    known = {path.relative_to(theme).as_posix() for path in theme.rglob("*") if path.suffix in _OF_A_THEME}
    words = catalogue_names(language)
    known = {*(name for name in known if not name.endswith(_WORDS)), *words}
    for name in files:
        if name in known:
            continue
        if name.endswith(_WORDS):
            message, expected = f"the site's language is {language}, so these words are not used", " or ".join(words)
            yield Problem(Place(f"{shown}/{name}"), message, expected)
        elif not any(_says(path, name.rpartition("/")[2]) for other, path in files.items() if other != name):
            expected = "the name of one of the theme's files, or one that such a file of yours names"
            nearest = nearest_word(name, sorted(known))
            yield Problem(Place(f"{shown}/{name}"), "no page or sheet takes this file", expected, nearest)


def _says(path: Path, name: str) -> bool:
    try:
        return name.encode("utf-8", "surrogateescape") in path.read_bytes()
    except OSError:  # the press will say so
        return False


def _is_hidden(name: str) -> bool:
    return any(part.startswith(".") for part in name.split("/"))

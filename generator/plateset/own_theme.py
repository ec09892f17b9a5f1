"""What a manuscript's own theme files say: words, and page templates, read before anything is pressed with them."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

from plateset.catalogue import CatalogueError, Phrase, phrases_of, read_catalogue
from plateset.placed_marks import PlacedMark
from plateset.problems import Problem, nearest_word
from plateset.theme_files import CATALOGUE, OWN, PAPER, phrases_on_paper, place_in, theme_problems
from plateset.training.marks.mark import Mark

ENGLISH = "words.en.po"
"""The catalogue of a theme that names every phrase of it."""
TEMPLATES = "plateset.template_form"
"""Loaded where a manuscript has page templates of its own."""


def own_theme_problems(folder: Path, shown_as: str, theme: Path) -> Iterator[Problem]:
    """What is wrong with the ``theme/`` folder of a manuscript; ``theme`` is the folder of the shipped theme."""
    own, shown = folder / OWN, _shown(shown_as)
    found = list(theme_problems(folder, shown_as, theme))
    yield from found
    if found or not own.is_dir():
        return  # what is no file, or lies elsewhere, is not read
    for path in _catalogues(own):
        try:
            read_catalogue(path.read_bytes(), _tag(path))
        except CatalogueError as error:
            text = path.read_bytes().decode("utf-8", "replace")
            for fault in error.faults:
                yield Problem(place_in(f"{shown}/{path.name}", text, fault.line), fault.message, fault.expected)
        except OSError as error:
            yield Problem(place_in(f"{shown}/{path.name}", "", 0), f"cannot be read: {error.strerror}")
    if any(own.rglob("*.html")):
        yield from import_module(TEMPLATES).template_problems(own, shown, theme)


def marks_on_words(folder: Path, shown_as: str, theme: Path) -> tuple[PlacedMark, ...]:
    """Phrases of a manuscript's own catalogues that no page or sheet says, most likely misspelt."""
    own = folder / OWN
    catalogues = _catalogues(own) if own.is_dir() else []
    return tuple(mark for path in catalogues for mark in _marks_on(path, f"{_shown(shown_as)}/{path.name}", theme))


def _marks_on(path: Path, shown: str, theme: Path) -> Iterator[PlacedMark]:
    data = path.read_bytes()
    known = _known(path.parent, theme)
    for phrase in phrases_of(data, _tag(path)):
        if phrase.one in known and (phrase.counted or not known[phrase.one]):
            continue
        if phrase.one in known:
            message = f"the phrase {phrase.one!r} is counted, so it is never said without a msgid_plural"
            remedy = f"copy it with its plurals from the theme's {ENGLISH}"
        else:
            message, nearest = f"no page or sheet says {phrase.one!r}", nearest_word(phrase.one, sorted(known))
            remedy = f"take a phrase of the theme's {ENGLISH}" + (f"; the nearest: {nearest!r}" if nearest else "")
        place = place_in(shown, data.decode("utf-8", "replace"), phrase.line)
        yield PlacedMark(Mark("phrase-unused", "query", (), message, remedy), place)


def _known(own: Path, theme: Path) -> dict[str, bool]:
    """Every phrase that pages and sheets say, and whether it is said by count alone."""
    found: list[Phrase] = []
    if (theme / ENGLISH).is_file():
        found += phrases_of((theme / ENGLISH).read_bytes(), "en", unsaid=True)
    if any(own.rglob("*.html")):
        found += import_module(TEMPLATES).phrases_said(own)
    for path in sorted((own / PAPER).glob("*.typ")):
        found += [Phrase(phrase, counted=False, line=0) for phrase in phrases_on_paper(path.read_bytes())]
    plain = {phrase.one for phrase in found if not phrase.counted}
    return {phrase.one: phrase.one not in plain for phrase in found}


def _catalogues(own: Path) -> list[Path]:
    return sorted(path for path in own.glob("words.*") if CATALOGUE.fullmatch(path.name) and path.is_file())


def _tag(path: Path) -> str:
    return path.name.removeprefix("words.").removesuffix(".po")


def _shown(shown_as: str) -> str:
    return f"{shown_as.rstrip('/')}/{OWN}"

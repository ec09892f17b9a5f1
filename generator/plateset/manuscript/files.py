"""Finding and reading the files of a manuscript. The only module that touches an author's disk."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path
from typing import Literal

from plateset.problems import Place, Problem

Kind = Literal["site", "program", "exercise", "technique", "explainer"]

FOLDERS: dict[str, tuple[Kind, str]] = {
    "programs": ("program", ".yaml"),
    "exercises": ("exercise", ".md"),
    "techniques": ("technique", ".md"),
    "explainers": ("explainer", ".md"),
}
SITE_FILE = "site.yaml"
MAX_BYTES = 1_000_000
_SLUG = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_MAX_SLUG = 80
_LISTED_AT = "index"
"""The name of the page of each folder that lists what is in it."""
_ALL_BUT_WRITTEN = 0.8
"""How alike a folder's name and a usual one are, from 0 to 1, that it would be taken for that one: progress/ is not."""
_DEVICES = frozenset({"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))})
"""Names that Windows keeps for devices, whatever the ending: such a page could not be copied there."""


@dataclass(frozen=True)
class Source:
    """One file as read: its kind, the name others use for it, the path shown to the author, and its text."""

    kind: Kind
    slug: str
    path: str
    text: str
    digest: str

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """The text by lines."""
        return tuple(self.text.split("\n"))

    def place(self, line: int, column: int, width: int = 1) -> Place:
        """A place in this file, with the text of its line."""
        excerpt = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Place(self.path, line, column, excerpt, width)


def read_sources(folder: Path, shown_as: str) -> tuple[list[Source], list[Problem]]:
    """Every file of the manuscript in ``folder``, in order of path, and what could not be read.

    ``shown_as`` is how the author named the folder; places are given relative to it.
    """
    try:
        there = folder.is_dir()
    except OSError as error:
        problem = Problem(Place(shown_as), f"this cannot be a folder: {error.strerror or error}", "a shorter path")
        return [], [problem]
    if not there:
        message = "there is no such folder" if not folder.exists() else "this is not a folder"
        return [], [Problem(Place(shown_as), message, "the folder of a manuscript, with site.yaml in it")]
    sources: list[Source] = []
    problems: list[Problem] = []
    for path, kind in _candidates(folder, shown_as, problems):
        source = _read(folder, path, _shown(folder, path, shown_as), kind)
        if isinstance(source, Problem):
            problems.append(source)
        else:
            sources.append(source)
    return sources, problems


def read_source(path: Path, shown_as: str, kind: Kind) -> Source | Problem:
    """One file by itself, wherever it lies and whatever its name; ``shown_as`` is how the author named it."""
    return _source(path.parent, path, shown_as, kind)


def names_on_disk(folder: Path) -> dict[Kind, frozenset[str]]:
    """The name of every note, program and explainer there is a file for, whether or not it can be read."""
    names: dict[Kind, frozenset[str]] = {}
    for name, (kind, ending) in FOLDERS.items():
        try:
            names[kind] = frozenset(path.stem for path in (folder / name).iterdir() if path.suffix == ending)
        except OSError:
            names[kind] = frozenset()
    return names


def _shown(folder: Path, path: Path, shown_as: str) -> str:
    return f"{shown_as.rstrip('/')}/{path.relative_to(folder).as_posix()}"


def _candidates(folder: Path, shown_as: str, problems: list[Problem]) -> Iterator[tuple[Path, Kind]]:
    for path in _entries(folder, folder, shown_as, problems):
        shown = _shown(folder, path, shown_as)
        if path.name in FOLDERS and not path.is_dir():
            problems.append(Problem(Place(shown), "this is not a folder", "a folder of that name"))
        if path.name not in FOLDERS and path.is_dir() and (meant := _meant(path.name)):
            problems.append(Problem(Place(shown), "this folder would not be read", "its usual name", meant))
        if path.suffix in (".yaml", ".yml") and path.name != SITE_FILE and _reads_like_a_program(folder, path):
            problems.append(Problem(Place(shown), "this program would not be read here", "a file in programs/"))
    site = folder / SITE_FILE
    if site.exists():
        yield site, "site"
    else:
        expected = "site.yaml with at least title and author"
        problems.append(Problem(Place(_shown(folder, site, shown_as)), "the file is missing", expected))
    for name, (kind, ending) in FOLDERS.items():
        if not (folder / name).is_dir():
            continue
        for path in _entries(folder, folder / name, shown_as, problems):
            if path.suffix == ending and not path.is_dir():
                yield path, kind
            else:
                place = Place(_shown(folder, path, shown_as))
                problems.append(Problem(place, "this does not belong here", f"files ending in {ending}"))


def _entries(folder: Path, inside: Path, shown_as: str, problems: list[Problem]) -> list[Path]:
    """What lies in a folder, in order of name, without hidden files and editors' backups."""
    try:
        found = sorted(inside.iterdir())
    except OSError as error:
        message = f"the folder cannot be read: {error.strerror or 'unreadable'}"
        problems.append(Problem(Place(_shown(folder, inside, shown_as)), message, "a readable folder"))
        return []
    return [path for path in found if not path.name.startswith(".") and not path.name.endswith("~")]


def _reads_like_a_program(folder: Path, path: Path) -> bool:
    """Whether a file that lies beside the site's is a program that was saved in the wrong place."""
    source = _source(folder, path, path.name, "program")
    return isinstance(source, Source) and any(line.startswith("sessions:") for line in source.lines)


def _meant(name: str) -> str:
    """The folder that was meant by a name that differs only in capitals, the plural or a few letters.

    A name with more in it than letters, such as old-programs, was chosen and is no slip.
    """
    return "".join(get_close_matches(name.lower(), FOLDERS, n=1, cutoff=_ALL_BUT_WRITTEN)) if name.isalpha() else ""


def _read(folder: Path, path: Path, shown: str, kind: Kind) -> Source | Problem:
    place = Place(shown)
    if kind != "site" and (not _SLUG.fullmatch(path.stem) or len(path.stem) > _MAX_SLUG):
        expected = f"small letters, digits and single hyphens, at most {_MAX_SLUG}, such as back-squat"
        return Problem(place, f"{path.stem!r} cannot be the name of a page", expected)
    if kind != "site" and path.stem == _LISTED_AT:
        message = f"{path.stem!r} is the name of the page that lists all of {path.parent.name}/"
        return Problem(place, message, "another name")
    if path.stem in _DEVICES:
        return Problem(place, f"{path.stem!r} is the name of a device on Windows", "another name")
    return _source(folder, path, shown, kind)


def _source(folder: Path, path: Path, shown: str, kind: Kind) -> Source | Problem:
    place = Place(shown)
    data = _bytes(folder, path, place)
    if isinstance(data, Problem):
        return data
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = error.start - (data.rfind(b"\n", 0, error.start) + 1) + 1
        return Problem(Place(shown, line, column), "this byte is not UTF-8 text", "a file saved as UTF-8")
    if not text.strip():
        return Problem(place, "the file is empty", _first_words(kind))
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return Source(kind, path.stem, shown, text, hashlib.sha256(data).hexdigest())


def _bytes(folder: Path, path: Path, place: Place) -> bytes | Problem:
    """What a file holds, never more than is allowed, and never from outside ``folder``."""
    try:
        if _is_linked(folder, path) and not path.resolve(strict=True).is_relative_to(folder.resolve()):
            return Problem(place, "the file lies outside the manuscript", "a file, not a link to elsewhere")
        if not path.is_file():
            return Problem(place, "this is not a file", "a text file")
        with path.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except RuntimeError:
        return Problem(place, "the link leads in a circle", "a file, not a link to elsewhere")
    except OSError as error:
        return Problem(place, f"the file cannot be read: {error.strerror or 'unreadable'}", "a readable file")
    if len(data) > MAX_BYTES:
        return Problem(place, f"the file is larger than {MAX_BYTES:,} bytes", "a text file of a sensible size")
    return data


def _is_linked(folder: Path, path: Path) -> bool:
    """Whether a file, or a folder on the way to it, is a link: only then can it lie elsewhere."""
    return path.is_symlink() or (path.parent != folder and path.parent.is_symlink())


def _first_words(kind: Kind) -> str:
    if kind in ("site", "program"):
        return "YAML that starts with a title"
    return "a YAML head between two lines of ---, then Markdown"

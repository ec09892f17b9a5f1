"""Finding and reading the files of a manuscript. The only module that touches an author's disk."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
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


@dataclass(frozen=True)
class Source:
    """One file as read: its kind, the name others use for it, the path shown to the author, and its text."""

    kind: Kind
    slug: str
    path: str
    text: str
    digest: str

    def place(self, line: int, column: int, width: int = 1) -> Place:
        """A place in this file, with the text of its line."""
        lines = self.text.split("\n")
        excerpt = lines[line - 1].rstrip("\r") if 0 < line <= len(lines) else ""
        return Place(self.path, line, column, excerpt, width)


def read_sources(folder: Path, shown_as: str) -> tuple[list[Source], list[Problem]]:
    """Every file of the manuscript in ``folder``, in order of path, and what could not be read.

    ``shown_as`` is how the author named the folder; places are given relative to it.
    """
    if not folder.is_dir():
        message = "there is no such folder" if not folder.exists() else "this is not a folder"
        return [], [Problem(Place(shown_as), message, "the folder of a manuscript, with site.yaml in it")]
    sources: list[Source] = []
    problems: list[Problem] = []
    for path, kind in _candidates(folder, shown_as, problems):
        shown = f"{shown_as.rstrip('/')}/{path.relative_to(folder).as_posix()}"
        source = _read(folder, path, shown, kind)
        if isinstance(source, Problem):
            problems.append(source)
        else:
            sources.append(source)
    if not (folder / SITE_FILE).exists():
        shown = f"{shown_as.rstrip('/')}/{SITE_FILE}"
        problems.append(
            Problem(Place(shown), "the file is missing", "site.yaml with at least title and author")
        )
    return sources, problems


def _candidates(folder: Path, shown_as: str, problems: list[Problem]) -> list[tuple[Path, Kind]]:
    found: list[tuple[Path, Kind]] = []
    if (folder / SITE_FILE).exists():
        found.append((folder / SITE_FILE, "site"))
    for name, (kind, ending) in FOLDERS.items():
        if not (folder / name).is_dir():
            continue
        for path in sorted((folder / name).iterdir()):
            if path.name.startswith(".") or path.name.endswith("~"):
                continue
            if path.suffix == ending and not path.is_dir():
                found.append((path, kind))
            else:
                shown = f"{shown_as.rstrip('/')}/{name}/{path.name}"
                problems.append(
                    Problem(Place(shown), "this does not belong here", f"files ending in {ending}")
                )
    return found


def _read(folder: Path, path: Path, shown: str, kind: Kind) -> Source | Problem:
    place = Place(shown)
    if kind != "site" and (not _SLUG.fullmatch(path.stem) or len(path.stem) > _MAX_SLUG):
        expected = f"small letters, digits and single hyphens, at most {_MAX_SLUG}, such as back-squat"
        return Problem(place, f"{path.stem!r} cannot be the name of a page", expected)
    if not path.resolve().is_relative_to(folder.resolve()):
        return Problem(place, "the file lies outside the manuscript", "a file, not a link to elsewhere")
    try:
        data = path.read_bytes()
    except OSError as error:
        return Problem(place, f"the file cannot be read: {error.strerror or 'unreadable'}", "a readable file")
    if len(data) > MAX_BYTES:
        return Problem(
            place, f"the file is larger than {MAX_BYTES:,} bytes", "a text file of a sensible size"
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = error.start - (data.rfind(b"\n", 0, error.start) + 1) + 1
        return Problem(Place(shown, line, column), "this byte is not UTF-8 text", "a file saved as UTF-8")
    if not text.strip():
        return Problem(place, "the file is empty", _first_words(kind))
    return Source(kind, path.stem, shown, text.replace("\r\n", "\n"), hashlib.sha256(data).hexdigest())


def _first_words(kind: Kind) -> str:
    if kind in ("site", "program"):
        return "YAML that starts with a title"
    return "a YAML head between two lines of ---, then Markdown"

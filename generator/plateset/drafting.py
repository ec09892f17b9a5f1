"""Starting a manuscript: a site, one program, and the shipped notes that program uses."""

from __future__ import annotations

import os
import re
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from plateset.manuscript.files import read_sources
from plateset.manuscript.links import links_of
from plateset.manuscript.load import Document, load
from plateset.manuscript.schema import Exercise
from plateset.shipped import shipped

Name = tuple[str, str]
"""A note by its kind and name, such as ('exercise', 'plank')."""


class DraftError(Exception):
    """A manuscript cannot be started here; nothing was written."""


def draft_manuscript(folder: Path) -> int:
    """Write a manuscript into ``folder``; returns the number of files. Raises :class:`DraftError`."""
    try:
        taken = folder.exists() and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as error:
        raise DraftError(f"{folder} cannot be looked at: {error.strerror or error}") from error
    if taken:
        raise DraftError(f"{folder} is not empty; name a new folder")
    starters = Path(str(files("plateset"))) / "starters"
    texts = {
        "site.yaml": (starters / "site.yaml").read_bytes(),
        "programs/first-program.yaml": (starters / "first-program.yaml").read_bytes(),
    }
    texts |= _notes_for(texts["programs/first-program.yaml"].decode())
    try:
        _write_whole(texts, folder)
    except OSError as error:
        raise DraftError(f"{folder} could not be written: {error.strerror or error}") from error
    return len(texts)


def _write_whole(texts: dict[str, bytes], folder: Path) -> None:
    """All files or none: written aside, then put in place of the folder, which is new or empty."""
    folder = Path(os.path.abspath(folder))
    folder.parent.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix=".draft-", dir=folder.parent) as aside:
        for path, text in texts.items():
            (Path(aside) / "whole" / path).parent.mkdir(parents=True, exist_ok=True)
            (Path(aside) / "whole" / path).write_bytes(text)
        _put(Path(aside) / "whole", folder)


def _put(whole: Path, folder: Path) -> None:
    if not folder.exists():
        os.replace(whole, folder)
        return
    # A folder that is there stays the one the author may be standing in.
    for entry in sorted(whole.iterdir()):
        os.replace(entry, folder / entry.name)


def _notes_for(program: str) -> dict[str, bytes]:
    """The shipped notes whose names stand in the program's text, and all that those notes refer to."""
    shelf = _shelf()
    wanted = [name for name in shelf if _is_named(name[1], program)]
    taken: dict[Name, bytes] = {}
    while wanted:
        name = wanted.pop()
        if name not in taken and name in shelf:
            taken[name] = shelf[name].source.text.encode()
            wanted += _named_by(shelf[name])
    return {f"{kind}s/{slug}.md": taken[(kind, slug)] for kind, slug in sorted(taken)}


def _is_named(slug: str, program: str) -> bool:
    return re.search(rf"(?<![a-z0-9-]){slug}(?![a-z0-9-])", program) is not None


def _shelf() -> dict[Name, Document[Any]]:
    """Every shipped exercise and technique note."""
    sources, _ = read_sources(shipped("content"), "content")
    documents = [load(source) for source in sources if source.kind in ("exercise", "technique")]
    return {(d.source.kind, d.slug): d for d in documents if isinstance(d, Document)}


def _named_by(document: Document[Any]) -> list[Name]:
    """The notes that a note leads to."""
    names = [(link.scheme, link.target) for link in links_of(document)]
    if isinstance(document.head, Exercise):
        names += [("exercise", name) for name in document.head.substitutes]
        names += [("technique", name) for name in document.head.not_with]
        if document.head.max_from:
            names.append(("exercise", document.head.max_from.exercise))
    return names

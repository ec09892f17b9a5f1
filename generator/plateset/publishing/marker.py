"""The list a press leaves in the folder it makes: every file with its size and SHA-256, so that it can be checked."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterable, Iterator
from operator import attrgetter
from pathlib import Path
from typing import NamedTuple

MARKER = ".plateset"
_BEGINS = "This folder was pressed by Plateset"
_TEXT = (
    f"{_BEGINS}, which replaces it in whole at the next press. The files it made are listed "
    "below, %d in all; a press refuses to go on while there are others. Check them with: plateset collate FOLDER\n\n"
)
_COUNT = re.compile(r"listed below, (\d+) in all;")
_ENTRY = re.compile(r"([0-9a-f]{64}) (\d+) (.+)")


class Entry(NamedTuple):
    """A file as it was made: its site path, its size in bytes and its SHA-256 in hexadecimal."""

    path: str
    size: int
    sha256: str


def entry_of(path: str, data: bytes) -> Entry:
    """The entry of a file with these bytes."""
    return Entry(path, len(data), hashlib.sha256(data).hexdigest())


def marker_text(entries: Iterable[Entry]) -> str:
    """The marker of a folder with these files, in order of path."""
    in_order = sorted(entries, key=attrgetter("path"))
    return _TEXT % len(in_order) + "".join([f"{each.sha256} {each.size} {each.path}\n" for each in in_order])


def read_marker(folder: Path) -> dict[str, Entry | None] | None:
    """Every file a folder's marker lists, by path; None without a marker of ours.

    A file is without an entry where an earlier version listed its path alone.
    """
    listed = _listing(folder)
    if listed is None:
        return None
    found: dict[str, Entry | None] = {}
    for line in listed:
        match = _ENTRY.fullmatch(line)
        if match:
            found[match[3]] = Entry(match[3], int(match[2]), match[1])
        else:
            found[line] = None
    return found


def files_announced(folder: Path) -> int | None:
    """How many files a marker says it lists; None where it does not say, as earlier versions did not."""
    found = _COUNT.search((_text(folder) or "").partition("\n\n")[0])
    return int(found[1]) if found else None


def _listing(folder: Path) -> list[str] | None:
    text = _text(folder)
    return None if text is None else text.partition("\n\n")[2].splitlines()


def _text(folder: Path) -> str | None:
    marker = folder / MARKER
    if not marker.is_file() or marker.is_symlink():
        return None
    text = marker.read_text("utf-8", "replace")
    return text if text.startswith(_BEGINS) else None


def listed_in(folder: Path) -> set[str] | None:
    """The paths a folder's marker lists; None without a marker of ours."""
    listed = _listing(folder)
    if listed is None:
        return None
    found = map(_ENTRY.fullmatch, listed)
    return {line if at is None else at[3] for line, at in zip(listed, found, strict=True)}


def is_inside(path: str) -> bool:
    """Whether a site path stays in the site: names joined by slashes, none of which leads elsewhere on any system."""
    return "\\" not in path and ":" not in path and {"", ".", ".."}.isdisjoint(path.split("/"))


def others_in(folder: Path, made: Iterable[str]) -> list[str]:
    """Files in ``folder`` that are neither in ``made`` nor its marker, as paths from it, in order."""
    ours = {MARKER, *made}
    return sorted(path for path in _inside(folder, "") if path not in ours)


def _inside(folder: Path | str, before: str) -> Iterator[str]:
    """Everything in a folder that is not a folder itself, a link to one included."""
    with os.scandir(folder) as found:
        for each in found:
            if each.is_dir(follow_symlinks=False):
                yield from _inside(each.path, f"{before}{each.name}/")
            else:
                yield before + each.name

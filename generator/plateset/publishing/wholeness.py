"""Whether the files of a pressed site are still as they were made, by their looks and, where those differ, by hash."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from pathlib import Path

from plateset.publishing.ledger import Ledger, Row
from plateset.publishing.ledger_file import Summary


def is_whole(site: Path, row: Row) -> bool:
    """Whether a file of a pressed site is still as it was made."""
    return bool(numbers_of_whole(site, (row,)))


def numbers_of_whole(site: Path, rows: Iterable[Row]) -> dict[str, int]:
    """The numbers on the disk of those files, by their paths, that are still as they were made."""
    found: dict[str, int] = {}
    for path, size, sha256, written in rows:
        place = f"{site}/{path}"  # thousands of files are asked about: no Path for each
        try:
            there = os.lstat(place)
            if there.st_size == size and (there.st_mtime_ns == written or _hash(place) == sha256):
                found[path] = there.st_ino
        except OSError:
            continue
    return found


def _hash(place: str) -> str:
    with open(place, "rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def holds_all(target: Path, ledger: Ledger) -> bool:
    """Whether every file that was pressed is there as it was."""
    return all(is_whole(target, row) for row in ledger.rows)


def looks_whole(target: Path, summary: Summary) -> bool:
    """Whether every file that was pressed looks as it did; one that does not may still hold the same."""
    try:
        for path, size, _, written in summary.rows:
            found = os.lstat(f"{target}/{path}")
            if found.st_size != size or found.st_mtime_ns != written:
                return False
    except OSError:
        return False
    return True

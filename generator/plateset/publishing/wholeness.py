"""Whether the files of a pressed site are still as they were made, by their looks and, where those differ, by hash."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from plateset.publishing.ledger import Ledger, Row
from plateset.publishing.ledger_file import Summary


def is_whole(site: Path, row: Row) -> bool:
    """Whether a file of a pressed site is still as it was made."""
    return number_of_whole(site, row) is not None


def number_of_whole(site: Path, row: Row) -> int | None:
    """The number on the disk of a file that is still as it was made; None if it is not."""
    path, size, sha256, written = row
    place = f"{site}/{path}"  # thousands of files are asked about: no Path for each
    try:
        found = os.lstat(place)
        if found.st_size != size:
            return None
        whole = found.st_mtime_ns == written or _hash(place) == sha256
    except OSError:
        return None
    return found.st_ino if whole else None


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

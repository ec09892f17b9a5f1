"""Digests: of a value by what it says, of folders by what their files hold."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from pathlib import Path


def digest_of(value: object) -> str:
    """The digest of a value by its written form, which equal values of records, texts and numbers share."""
    return hashlib.sha256(repr(value).encode("utf-8", "surrogatepass")).hexdigest()


def digest_of_folders(folders: Iterable[Path]) -> str:
    """One digest of every file in some folders, by their names in them, and of links as far as they are no files."""
    found = hashlib.sha256()
    for number, folder in enumerate(folders):
        for path in sorted(each for each in folder.rglob("*") if each.is_file() or each.is_symlink()):
            data = path.read_bytes() if path.is_file() else os.fsencode(os.readlink(path))
            name = os.fsencode(path.relative_to(folder).as_posix())  # it need not be text
            found.update(b"%d/%s\0%d\0" % (number, name, len(data)) + data)
    return found.hexdigest()

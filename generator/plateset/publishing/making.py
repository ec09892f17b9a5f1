"""Making a file, or taking it over from the site before where nothing it is made from has changed."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from plateset.publishing.bench import take_over, write_file
from plateset.publishing.ledger import FileRecord, Parts
from plateset.publishing.wholeness import is_whole

Make = Callable[[], bytes]
"""Makes a file when it is called."""


@dataclass(frozen=True)
class Made:
    """A file of the next site, and in words why it was made; no words where it was taken over."""

    record: FileRecord
    why: str


@dataclass(frozen=True)
class Hand:
    """Puts files on the bench ``site``; ``old`` is the site before and ``known`` what is recorded of it.

    ``because`` says why a program's files are looked at again, where that is known. ``linked`` allows a file to be
    taken over as a link to the same bytes.
    """

    site: Path
    old: Path
    known: Mapping[str, FileRecord]
    because: str = ""
    linked: bool = True

    def make(self, path: str, parts: Parts, make: Make) -> Made:
        """One file: taken over if it would come out the same and is still there whole, made otherwise."""
        record = self.known.get(path)
        why = self._reason(record, parts)
        if record is not None and not why:
            if is_whole(self.old, record.row):
                take_over(self.old, self.site, record.entry, linked=self.linked)
                return Made(self._noted(record, parts), "")
            why = "the file in the site was missing or changed"
        entry = write_file(self.site, path, make())
        return Made(self._noted(FileRecord(parts, entry, 0), parts), why)

    def _noted(self, record: FileRecord, parts: Parts) -> FileRecord:
        written = os.stat(f"{self.site}/{record.entry.path}").st_mtime_ns
        return FileRecord(dict(parts), record.entry, written)

    def _reason(self, record: FileRecord | None, parts: Parts) -> str:
        if record is None:
            return "not in the ledger"
        names = sorted(name for name in {*parts, *record.parts} if record.parts.get(name) != parts.get(name))
        return "; ".join(dict.fromkeys(self._words(name) for name in names))

    def _words(self, name: str) -> str:
        return self.because if self.because and name.startswith("the program ") else f"{name} changed"

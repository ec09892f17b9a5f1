"""The ledger: what each file of a pressed site was made from, so that the next press makes only what has changed.

It tells by content hashes, never by the time of a file's change. It is no part of the site: it lies in the user's
cache, so that a host serves nothing of it and equal manuscripts give equal sites wherever they are pressed. A ledger
that is lost, unreadable, of another format or about another site is no ledger, and everything is made anew.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from plateset.manuscript.tracing import Question
from plateset.publishing.marker import MARKER, Entry, read_marker
from plateset.publishing.views import ProgramCard
from plateset.training.marks.tally import Tally

FORMAT = 1
CACHE = "PLATESET_CACHE"
"""The environment's name for another place than the user's cache."""

Parts = Mapping[str, str]
"""What a file was made from: each thing in words, and its digest."""


@dataclass(frozen=True)
class FileRecord:
    """A file as it was made: from what, and its size and hash; ``written`` only saves reading it again.

    It is the time (in nanoseconds) the file had when it was hashed. With the same time and size it is not hashed again;
    with another it is, and counts as whole if its hash is the one recorded.
    """

    parts: Parts
    entry: Entry
    written: int


@dataclass(frozen=True)
class ProgramRecord:
    """A program as it was pressed: what was asked of the manuscript and answered, its card, marks and files."""

    answers: tuple[tuple[Question, str], ...]
    card: ProgramCard
    tally: Tally
    ground: str
    files: Mapping[str, FileRecord]


@dataclass(frozen=True)
class Ledger:
    """All that was noted of one pressed site. ``marker`` is the digest of the site's own list of files."""

    format: int
    target: str
    marker: str
    stock: Mapping[str, str]
    tally: Tally
    programs: Mapping[str, ProgramRecord] = field(default_factory=dict)
    files: Mapping[str, FileRecord] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many files the site has."""
        return len(self.files) + sum(len(program.files) for program in self.programs.values())


_LEDGERS = TypeAdapter(Ledger)


def place_of_ledger(target: Path) -> Path:
    """Where the ledger of a site is kept."""
    chosen = os.environ.get(CACHE)
    base = Path(chosen) if chosen else Path(os.environ.get("XDG_CACHE_HOME") or "~/.cache").expanduser() / "plateset"
    return base / f"{name_of(target)}.json"


def name_of(target: Path) -> str:
    """A site by its place on the disk, as plain letters whatever the place is called."""
    return hashlib.sha256(os.fsencode(target.resolve())).hexdigest()[:32]


def read_ledger(target: Path) -> Ledger | None:
    """The ledger of the site that is in ``target`` now; None where there is none that can be trusted."""
    try:
        ledger = _LEDGERS.validate_json(place_of_ledger(target).read_bytes())
        marked = marker_digest(target)
    except (OSError, ValueError, RuntimeError, ValidationError):
        return None
    fits = ledger.format == FORMAT and ledger.target == name_of(target) and ledger.marker == marked
    return ledger if fits else None


def write_ledger(ledger: Ledger, target: Path) -> None:
    """Keep a ledger; a place that cannot be written costs the next press time and nothing else."""
    with contextlib.suppress(OSError, RuntimeError):
        place = place_of_ledger(target)
        place.parent.mkdir(parents=True, exist_ok=True)
        aside = place.with_name(f".{place.name}.{os.getpid()}")
        try:
            aside.write_bytes(_LEDGERS.dump_json(ledger))
            os.replace(aside, place)
        finally:
            aside.unlink(missing_ok=True)


def marker_digest(target: Path) -> str:
    """The digest of a site's own list of files. Raises OSError without one."""
    return hashlib.sha256((target / MARKER).read_bytes()).hexdigest()


def is_whole(site: Path, record: FileRecord) -> bool:
    """Whether a file of a pressed site is still as it was made."""
    place = site / record.entry.path
    try:
        found = place.lstat()
        if found.st_size != record.entry.size:
            return False
        return found.st_mtime_ns == record.written or _hash(place) == record.entry.sha256
    except OSError:
        return False


def _hash(place: Path) -> str:
    with place.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def holds_all(target: Path, ledger: Ledger) -> bool:
    """Whether every file that was pressed is there as it was."""
    listed = read_marker(target) or {}
    records = [*ledger.files.values(), *(each for p in ledger.programs.values() for each in p.files.values())]
    return len(listed) == len(records) and all(is_whole(target, record) for record in records)

"""The ledger: what each file of a pressed site was made from, so that the next press makes only what has changed.

It tells by content hashes, never by the time of a file's change. It is no part of the site: it lies in the user's
cache, so that a host serves nothing of it and equal manuscripts give equal sites wherever they are pressed. A ledger
that is lost, unreadable, of another format or about another site is no ledger, and everything is made anew.

It is kept as lines of JSON: the site first, then every file by its looks, so that a press with nothing to do reads no
more; then two for each program, of which the second is its card. The lines of a program that has not changed are
written again as they were read, and its card is read only if it is looked at.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from plateset.manuscript.questions import Question
from plateset.publishing.marker import MARKER, Entry
from plateset.publishing.user_cache import cache_folder
from plateset.training.marks.tally import Tally

FORMAT = 4
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


Answered = tuple[tuple[Question, str], ...]
"""What was asked of the manuscript, each with its answer."""


@dataclass(frozen=True)
class CardRecord:
    """What the rest of the site knows of a program, as it is written down, and the digest of that."""

    written: bytes
    digest: str


def record_of(written: bytes) -> CardRecord:
    """The record of a card that is written like this."""
    return CardRecord(written, hashlib.sha256(written).hexdigest())


@dataclass(frozen=True)
class ProgramRecord:
    """A program as it was pressed: what was asked of the manuscript and answered, its card, marks and files.

    ``ground`` is the digest of what all programs are made from. ``line`` is its line in the ledger it was read from.
    """

    answers: Answered
    card: CardRecord
    tally: Tally
    ground: str
    files: Mapping[str, FileRecord]
    line: bytes = field(default=b"", compare=False, repr=False)


@dataclass(frozen=True)
class SiteRecord:
    """All of a site but its programs, as it was pressed: what its texts asked of programs, their marks, its files.

    ``ground`` is the digest of all else it was made from.
    """

    answers: Answered
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
    site: SiteRecord
    programs: Mapping[str, ProgramRecord]

    @property
    def count(self) -> int:
        """How many files the site has."""
        return len(self.site.files) + sum(len(program.files) for program in self.programs.values())

    @property
    def files(self) -> Iterator[FileRecord]:
        """Its files, those beside the programs first."""
        yield from self.site.files.values()
        for program in self.programs.values():
            yield from program.files.values()

    @property
    def paths(self) -> set[str]:
        """The paths of its files."""
        return {*self.site.files, *(path for program in self.programs.values() for path in program.files)}

    @property
    def tally(self) -> Tally:
        """Every mark there is."""
        return sum((program.tally for program in self.programs.values()), self.site.tally)


Look = tuple[str, int, int]
"""A file by its path, its size and when it was written (ns)."""


@dataclass(frozen=True)
class Summary:
    """Of a ledger what a press needs that may find nothing to do: what the site was made from, and its files' looks."""

    stock: Mapping[str, str]
    tally: Tally
    programs: int
    looks: tuple[Look, ...]


@dataclass(frozen=True)
class _Files:
    """Files as they are written down: (path, size, hash, time, number of its parts), and the parts many share."""

    parts: tuple[dict[str, str], ...]
    files: tuple[tuple[str, int, str, int, int], ...]


@dataclass(frozen=True)
class _Program:
    slug: str
    answers: Answered
    card: str
    tally: Tally
    ground: str
    files: _Files


@dataclass(frozen=True)
class _Site:
    format: int
    target: str
    marker: str
    stock: dict[str, str]
    answers: Answered
    tally: Tally
    ground: str
    files: _Files
    programs: int
    of_all: Tally
    looks: str
    """The digest of the line of looks."""


_SITES = TypeAdapter(_Site)
_PROGRAMS = TypeAdapter(_Program)
_LOOKS = TypeAdapter(tuple[Look, ...])


def _written(files: Mapping[str, FileRecord]) -> _Files:
    parts: dict[tuple[tuple[str, str], ...], int] = {}
    rows = tuple(
        (
            each.entry.path,
            each.entry.size,
            each.entry.sha256,
            each.written,
            parts.setdefault(tuple(each.parts.items()), len(parts)),
        )
        for each in files.values()
    )
    return _Files(tuple(map(dict, parts)), rows)


def _read(files: _Files) -> dict[str, FileRecord]:
    return {row[0]: FileRecord(files.parts[row[4]], Entry(*row[:3]), row[3]) for row in files.files}


def _program_of(line: bytes, written: bytes) -> tuple[str, ProgramRecord]:
    found, card = _PROGRAMS.validate_json(line), record_of(written)
    if card.digest != found.card:  # it is read only when it is looked at, and has to be whole then
        raise ValueError(f"the card of {found.slug} is not the one that was written")
    return found.slug, ProgramRecord(found.answers, card, found.tally, found.ground, _read(found.files), line)


def _line_of(slug: str, record: ProgramRecord) -> bytes:
    if record.line:
        return record.line
    files = _written(record.files)
    return _PROGRAMS.dump_json(_Program(slug, record.answers, record.card.digest, record.tally, record.ground, files))


def place_of_ledger(target: Path) -> Path:
    """Where the ledger of a site is kept."""
    return cache_folder() / f"{name_of(target)}.ledger"


def name_of(target: Path) -> str:
    """A site by its place on the disk, as plain letters whatever the place is called."""
    return hashlib.sha256(os.fsencode(target.resolve())).hexdigest()[:32]


_UNTRUSTED = (OSError, ValueError, LookupError, RuntimeError, ValidationError)


def read_summary(target: Path) -> Summary | None:
    """The summary of the ledger of the site that is in ``target`` now; None where there is none that can be trusted."""
    try:
        with place_of_ledger(target).open("rb") as lines:
            site, looks = _SITES.validate_json(lines.readline()), lines.readline().rstrip(b"\n")
        if not _fits(site, target) or site.looks != hashlib.sha256(looks).hexdigest():
            return None
        return Summary(site.stock, site.of_all, site.programs, _LOOKS.validate_json(looks))
    except _UNTRUSTED:
        return None


def read_ledger(target: Path) -> Ledger | None:
    """The ledger of the site that is in ``target`` now; None where there is none that can be trusted."""
    try:
        first, _, *lines = place_of_ledger(target).read_bytes().splitlines()
        site = _SITES.validate_json(first)
        if not _fits(site, target) or 2 * site.programs != len(lines):
            return None
        programs = dict(map(_program_of, lines[::2], lines[1::2]))
        of_site = SiteRecord(site.answers, site.tally, site.ground, _read(site.files))
        return Ledger(site.format, site.target, site.marker, site.stock, of_site, programs)
    except _UNTRUSTED:
        return None


def _fits(site: _Site, target: Path) -> bool:
    return site.format == FORMAT and site.target == name_of(target) and site.marker == marker_digest(target)


def write_ledger(ledger: Ledger, target: Path) -> None:
    """Keep a ledger; a place that cannot be written costs the next press time and nothing else."""
    with contextlib.suppress(OSError, RuntimeError):
        place = place_of_ledger(target)
        place.parent.mkdir(parents=True, exist_ok=True)
        aside = place.with_name(f".{place.name}.{os.getpid()}")
        try:
            aside.write_bytes(b"\n".join(_lines_of(ledger)))
            os.replace(aside, place)
        finally:
            aside.unlink(missing_ok=True)


def _lines_of(ledger: Ledger) -> Iterator[bytes]:
    of, site = ledger, ledger.site
    made = (site.answers, site.tally, site.ground, _written(site.files))
    looks = _LOOKS.dump_json(tuple((each.entry.path, each.entry.size, each.written) for each in of.files))
    of_looks = hashlib.sha256(looks).hexdigest()
    written = (of.format, of.target, of.marker, dict(of.stock), *made, len(of.programs), of.tally, of_looks)
    yield _SITES.dump_json(_Site(*written))
    yield looks
    for slug, record in of.programs.items():
        yield _line_of(slug, record)
        yield record.card.written


def marker_digest(target: Path) -> str:
    """The digest of a site's own list of files. Raises OSError without one."""
    return hashlib.sha256((target / MARKER).read_bytes()).hexdigest()


def is_whole(site: Path, record: FileRecord) -> bool:
    """Whether a file of a pressed site is still as it was made."""
    return number_of_whole(site, record) is not None


def number_of_whole(site: Path, record: FileRecord) -> int | None:
    """The number on the disk of a file that is still as it was made; None if it is not."""
    place = f"{site}/{record.entry.path}"  # thousands of files are asked about: no Path for each
    try:
        found = os.lstat(place)
        if found.st_size != record.entry.size:
            return None
        whole = found.st_mtime_ns == record.written or _hash(place) == record.entry.sha256
    except OSError:
        return None
    return found.st_ino if whole else None


def _hash(place: str) -> str:
    with open(place, "rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def holds_all(target: Path, ledger: Ledger) -> bool:
    """Whether every file that was pressed is there as it was."""
    return all(is_whole(target, record) for record in ledger.files)


def looks_whole(target: Path, summary: Summary) -> bool:
    """Whether every file that was pressed looks as it did; one that does not may still hold the same."""
    try:
        for path, size, written in summary.looks:
            found = os.lstat(f"{target}/{path}")
            if found.st_size != size or found.st_mtime_ns != written:
                return False
    except OSError:
        return False
    return True

"""The ledger: what each file of a pressed site was made from, so that the next press makes only what has changed.

It tells by content hashes, never by the time of a file's change. It is no part of the site: it lies in the user's
cache, so that a host serves nothing of it and equal manuscripts give equal sites wherever they are pressed. A ledger
that is lost, unreadable, of another format or about another site is no ledger, and everything is made anew.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

from pydantic import NonNegativeInt, TypeAdapter, ValidationError

from plateset.manuscript.questions import Answer
from plateset.publishing.marker import Entry
from plateset.training.marks.tally import Tally

Parts = Mapping[str, str]
"""What a file was made from: each thing in words, and its digest."""

Row = tuple[str, int, str, int]
"""A file as it was made: its path, its size and its SHA-256; and the time (ns) it had when it was hashed.

The time only saves reading it again. With the same time and size it is not hashed again; with another it is, and
counts as whole if its hash is the one recorded.
"""


@dataclass(frozen=True)
class FileRecord:
    """A file as it was made, and from what; ``written`` is the time of its row."""

    parts: Parts
    entry: Entry
    written: int

    @property
    def row(self) -> Row:
        """Its row."""
        return (*self.entry, self.written)


UNTRUSTED = (OSError, ValueError, LookupError, RuntimeError, ValidationError)
"""What may be raised where something that was written down is not what was written."""


@dataclass(frozen=True)
class _MadeFrom:
    """The parts that files share, and for each file the number of its own."""

    parts: tuple[dict[str, str], ...]
    numbers: tuple[NonNegativeInt, ...]


_MADE_FROM = TypeAdapter(_MadeFrom)


@dataclass(frozen=True)
class Filed:
    """Files as they are written down: their rows, and as JSON from what they were made, which is read when asked."""

    rows: tuple[Row, ...]
    made_from: bytes

    @classmethod
    def of(cls, records: Iterable[FileRecord]) -> Filed:
        """Files to be written down."""
        kept = tuple(records)
        parts: dict[tuple[tuple[str, str], ...], int] = {}
        numbers = tuple(parts.setdefault(tuple(each.parts.items()), len(parts)) for each in kept)
        return cls(tuple(each.row for each in kept), _MADE_FROM.dump_json(_MadeFrom(tuple(map(dict, parts)), numbers)))

    @cached_property
    def records(self) -> Mapping[str, FileRecord]:
        """The files by their paths; none if what they were made from cannot be read, so that all are made anew."""
        try:
            found = _MADE_FROM.validate_json(self.made_from)
            of_each = [found.parts[number] for number in found.numbers]
            return {
                row[0]: FileRecord(parts, Entry(*row[:3]), row[3])
                for row, parts in zip(self.rows, of_each, strict=True)
            }
        except UNTRUSTED:
            return {}


Answered = tuple[Answer, ...]
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
class Record:
    """A program, or all of a site but its programs, as it was pressed: what was asked for it, its marks, its files.

    ``ground`` is the digest of all else it was made from.
    """

    answers: Answered
    tally: Tally
    ground: str
    files: Filed


@dataclass(frozen=True)
class ProgramRecord(Record):
    """A program as it was pressed."""

    card: CardRecord


@dataclass(frozen=True)
class Ledger:
    """All that was noted of one pressed site."""

    stock: Mapping[str, str]
    site: Record
    programs: Mapping[str, ProgramRecord]

    @property
    def _records(self) -> Iterator[Record]:
        yield self.site
        yield from self.programs.values()

    @property
    def rows(self) -> Iterator[Row]:
        """Its files, those beside the programs first."""
        return chain.from_iterable(each.files.rows for each in self._records)

    @property
    def paths(self) -> set[str]:
        """The paths of its files."""
        return {row[0] for row in self.rows}

    @property
    def answers(self) -> set[Answer]:
        """All that was asked for any of it."""
        return set().union(*(each.answers for each in self._records))

    @property
    def tally(self) -> Tally:
        """Every mark there is."""
        return sum((each.tally for each in self._records), Tally())

"""The file of a ledger: lines of JSON that are read as far as they are needed.

The site comes first, then a row for every file, so that a press with nothing to do reads no more; then what was asked
for each program and answered, which tells the programs that are as they were. What the files of the others were made
from, and what the rest of the site knows of a program (its card), stands in lines of their own: those of a program that
has not changed are written again as they were read.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from pathlib import Path

from pydantic import NonNegativeInt, TypeAdapter

from plateset.manuscript.questions import Answer, Question
from plateset.publishing.ledger import (
    UNTRUSTED,
    Answered,
    CardRecord,
    Filed,
    Ledger,
    ProgramRecord,
    Record,
    Row,
    record_of,
)
from plateset.publishing.marker import MARKER
from plateset.publishing.user_cache import cache_folder
from plateset.training.marks.tally import Tally

FORMAT = 5


@dataclass(frozen=True)
class _Site:
    """The first line. ``rows`` and ``index`` are the digests of the lines after it."""

    format: int
    target: str
    marker: str
    stock: dict[str, str]
    programs: int
    tally: Tally
    rows: str
    index: str


@dataclass(frozen=True)
class _Written:
    """The numbers of what was asked, how many files there are, and the digest of the card, if there is one."""

    answers: tuple[NonNegativeInt, ...]
    tally: Tally
    ground: str
    files: NonNegativeInt
    card: str


@dataclass(frozen=True)
class _Index:
    """All that was asked of the manuscript, and the records, which say what of it was asked for them."""

    asked: tuple[tuple[Question, str], ...]
    site: _Written
    programs: dict[str, _Written]


_SITES = TypeAdapter(_Site)
_ROWS = TypeAdapter(tuple[Row, ...])
_INDICES = TypeAdapter(_Index)


@dataclass(frozen=True)
class Summary:
    """Of a ledger what a press needs that may find nothing to do: what the site was made from, and its files."""

    stock: Mapping[str, str]
    tally: Tally
    programs: int
    _rows: bytes

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """The files, read if they are asked for."""
        return _ROWS.validate_json(self._rows)


def place_of_ledger(target: Path) -> Path:
    """Where the ledger of a site is kept."""
    return cache_folder() / f"{name_of(target)}.ledger"


def name_of(target: Path) -> str:
    """A site by its place on the disk, as plain letters whatever the place is called."""
    return hashlib.sha256(os.fsencode(target.resolve())).hexdigest()[:32]


def read_summary(target: Path) -> Summary | None:
    """The summary of the ledger of the site that is in ``target`` now; None where there is none that can be trusted."""
    try:
        with place_of_ledger(target).open("rb") as lines:
            site, rows = _SITES.validate_json(lines.readline()), lines.readline().rstrip(b"\n")
        if not _fits(site, target) or site.rows != _digest(rows):
            return None
        return Summary(site.stock, site.tally, site.programs, rows)
    except UNTRUSTED:
        return None


def read_ledger(target: Path) -> Ledger | None:
    """The ledger of the site that is in ``target`` now; None where there is none that can be trusted."""
    try:
        first, rows, index, of_site, *lines = place_of_ledger(target).read_bytes().split(b"\n")
        site = _SITES.validate_json(first)
        if not _fits(site, target) or (site.rows, site.index) != (_digest(rows), _digest(index)):
            return None
        found, files = _INDICES.validate_json(index), iter(_ROWS.validate_json(rows))
        asked = [Answer(*each) for each in found.asked]

        def record(of: _Written, made_from: bytes) -> tuple[Answered, Tally, str, Filed]:
            answers = tuple(map(asked.__getitem__, of.answers))
            return answers, of.tally, of.ground, Filed(tuple(islice(files, of.files)), made_from)

        kept = Record(*record(found.site, of_site))
        programs = {
            slug: ProgramRecord(*record(of, made_from), _card(of, card))
            for (slug, of), made_from, card in zip(found.programs.items(), lines[::2], lines[1::2], strict=True)
        }
        return Ledger(site.stock, kept, programs)
    except UNTRUSTED:
        return None


def _card(of: _Written, written: bytes) -> CardRecord:
    card = record_of(written)
    if card.digest != of.card:  # it is read only when it is looked at, and has to be whole then
        raise ValueError("a card is not the one that was written")
    return card


def _digest(line: bytes) -> str:
    return hashlib.sha256(line).hexdigest()


def _fits(site: _Site, target: Path) -> bool:
    return site.format == FORMAT and site.target == name_of(target) and site.marker == marker_digest(target)


def write_ledger(ledger: Ledger, target: Path) -> None:
    """Keep a ledger; a place that cannot be written costs the next press time and nothing else."""
    with contextlib.suppress(OSError, RuntimeError):
        place = place_of_ledger(target)
        place.parent.mkdir(parents=True, exist_ok=True)
        aside = place.with_name(f".{place.name}.{os.getpid()}")
        try:
            aside.write_bytes(b"\n".join(_lines_of(ledger, target)))
            os.replace(aside, place)
        finally:
            aside.unlink(missing_ok=True)


def _lines_of(ledger: Ledger, target: Path) -> Iterator[bytes]:
    numbers: dict[tuple[Question, str], int] = {}
    asked = {each: numbers.setdefault((each.question, each.text), len(numbers)) for each in ledger.answers}
    of_site = _written(ledger.site, "", asked.__getitem__)
    programs = {slug: _written(of, of.card.digest, asked.__getitem__) for slug, of in ledger.programs.items()}
    index = _INDICES.dump_json(_Index(tuple(numbers), of_site, programs))
    rows = _ROWS.dump_json(tuple(ledger.rows))
    about = (FORMAT, name_of(target), marker_digest(target), dict(ledger.stock), len(programs), ledger.tally)
    yield _SITES.dump_json(_Site(*about, _digest(rows), _digest(index)))
    yield rows
    yield index
    yield ledger.site.files.made_from
    for record in ledger.programs.values():
        yield record.files.made_from
        yield record.card.written


def _written(record: Record, card: str, number: Callable[[Answer], int]) -> _Written:
    return _Written(tuple(map(number, record.answers)), record.tally, record.ground, len(record.files.rows), card)


def marker_digest(target: Path) -> str:
    """The digest of a site's own list of files. Raises OSError without one."""
    return hashlib.sha256((target / MARKER).read_bytes()).hexdigest()

"""Makes a PDF smaller without touching what it shows: the tags that make it accessible go into compressed streams.

Objects are copied as the typesetter wrote them; those that are no streams are gathered in object streams, and the table
of where each object stands becomes a stream too (ISO 32000-1, 7.5.7 and 7.5.8).
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from itertools import pairwise

IN_A_STREAM = 200
"""Objects gathered in one stream: enough to be packed well, few enough to be found fast."""

FREE, PLAIN, GATHERED = 0, 1, 2
"""Kinds of entries of the table: an object that is not there, one that stands by itself, one in an object stream."""

Entry = tuple[int, int, int]
"""A kind, a place in the file or the number of an object stream, and the place in that."""

_START = re.compile(rb"startxref\s+(\d+)\s+%%EOF\s*\Z")
_TABLE = re.compile(rb"xref\s+0 (\d+)\s+")
_TRAILER = re.compile(rb"trailer\s*<<(.*)>>\s*\Z", re.DOTALL)
_SIZE = re.compile(rb"/Size \d+")
_BEGINS, _ENDS = b" 0 obj\n", b"\nendobj\n"
_ENTRY_LENGTH = 20
_NEXT_IN_ITS_STREAM = bytes((2, 0, 0, 0, 0, 0, 1))
_HEAD = b"%PDF-1.7\n%\xb5\xb6\xb7\xb8\n"


def packed(pdf: bytes) -> bytes:
    """The same document in fewer bytes; equal input gives equal bytes with one version of the compressor.

    Raises :class:`ValueError` for a file that is not laid out as the typesetter lays them out: one table, from 0.
    """
    start = int(_found(_START, pdf[-64:])[1])
    size, trailer, places = _table(pdf, start)
    written, entries = bytearray(_HEAD), [(FREE, 0, 0)] * size
    gathered: list[tuple[int, bytes]] = []
    for number, body in _objects(pdf, places, start):
        if body.endswith(b"endstream"):
            entries[number] = (PLAIN, len(written), 0)
            written += b"%d 0 obj\n%s\nendobj\n" % (number, body)
        else:
            gathered.append((number, body))
    for first in range(0, len(gathered), IN_A_STREAM):
        part = gathered[first : first + IN_A_STREAM]
        for index, (number, _) in enumerate(part):
            entries[number] = (GATHERED, len(entries), index)
        entries.append((PLAIN, len(written), 0))
        written += _stream(len(entries) - 1, *_gathered(part))
    place = len(written)
    entries.append((PLAIN, place, 0))
    keys = _SIZE.sub(b"/Size %d" % len(entries), trailer, count=1)
    about = b"/Type/XRef/W[1 4 1]%s/DecodeParms<</Predictor 12/Columns 6>>" % keys
    written += _stream(len(entries) - 1, about, _differences(entries))
    return bytes(written + b"startxref\n%d\n%%%%EOF\n" % place)


def _found(pattern: re.Pattern[bytes], data: bytes) -> re.Match[bytes]:
    found = pattern.search(data)
    if found is None:
        raise ValueError(f"not a PDF of the kind that can be packed: no {pattern.pattern!r}")
    return found


def _table(pdf: bytes, start: int) -> tuple[int, bytes, list[int]]:
    """How many objects there are, what the trailer says, and the place of each object that is there."""
    head = _TABLE.match(pdf, start)
    if head is None:
        raise ValueError("not a PDF of the kind that can be packed: no table at its place")
    size, end = int(head[1]), head.end() + int(head[1]) * _ENTRY_LENGTH
    lines = [pdf[at : at + _ENTRY_LENGTH] for at in range(head.end(), end, _ENTRY_LENGTH)]
    places = [int(line[:10]) for line in lines if line[17:18] == b"n"]
    trailer = _found(_TRAILER, pdf[end : pdf.rindex(b"startxref")])[1]
    return size, trailer, places


def _objects(pdf: bytes, places: list[int], end: int) -> Iterator[tuple[int, bytes]]:
    """Each object's number and what stands between its brackets, in the order of the file."""
    bounds = [*sorted(places), end]
    for place, after in pairwise(bounds):
        number, begins, rest = pdf[place:after].partition(_BEGINS)
        body, ends, _ = rest.rpartition(_ENDS)
        if not (begins and ends):
            raise ValueError(f"not a PDF of the kind that can be packed: no object at {place}")
        yield int(number), body


def _gathered(part: list[tuple[int, bytes]]) -> tuple[bytes, bytes]:
    """The keys of an object stream, and what it holds: where each object stands in it, then the objects."""
    places, at = [], 0
    for number, body in part:
        places.append(b"%d %d" % (number, at))
        at += len(body) + 1
    table = b" ".join(places) + b"\n"
    return b"/Type/ObjStm/N %d/First %d" % (len(part), len(table)), table + b"\n".join(body for _, body in part)


def _stream(number: int, keys: bytes, data: bytes) -> bytes:
    packed_data = zlib.compress(data, 6)
    head = b"%d 0 obj\n<<%s/Length %d/Filter/FlateDecode>>\nstream\n" % (number, keys, len(packed_data))
    return head + packed_data + b"\nendstream\nendobj\n"


def _differences(entries: list[Entry]) -> bytes:
    """The entries, each as its difference from the one before, which packs better (the PNG predictor 'up')."""
    rows, before, entry_before = [], bytes(6), (FREE, 0, 0)
    for entry in entries:
        kind, where, index = entry
        row = bytes((kind, *where.to_bytes(4, "big"), index))
        if entry_before == (kind, where, index - 1):
            rows.append(_NEXT_IN_ITS_STREAM)
        else:
            rows.append(b"\x02" + bytes((new - old) & 255 for new, old in zip(row, before, strict=True)))
        before, entry_before = row, entry
    return b"".join(rows)

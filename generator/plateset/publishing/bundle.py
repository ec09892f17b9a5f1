"""Files in one ZIP archive, the same bytes each time: sorted, one fixed date, fixed permissions.

Nothing is compressed in a program's archive: its sheets already are, and compressors differ between machines, while
pages state the archive's size.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Mapping
from typing import BinaryIO

DATE = (1980, 1, 1, 0, 0, 0)
"""The first moment an archive can hold."""

READABLE = 0o100644 << 16
UNIX = 3
PACKED = (".pdf", ".zip", ".xlsx", ".png")
"""Endings of files that compressing again would not make smaller."""


def bundle(files: Mapping[str, bytes]) -> bytes:
    """An archive of ``files`` by their paths in it, in the order of the paths."""
    archive = io.BytesIO()
    write_bundle(sorted(files.items()), archive)
    return archive.getvalue()


def write_bundle(
    files: Iterable[tuple[str, bytes]], archive: BinaryIO, *, comment: str = "", pack: bool = False
) -> None:
    """Write an archive of ``files`` in their order; ``pack`` compresses those that are not compressed already."""
    with zipfile.ZipFile(archive, "w") as written:
        written.comment = comment.encode()
        for path, data in files:
            entry = zipfile.ZipInfo(path, DATE)
            entry.create_system = UNIX  # else the system that presses
            entry.external_attr = READABLE
            entry.compress_type = zipfile.ZIP_DEFLATED if pack and not path.endswith(PACKED) else zipfile.ZIP_STORED
            written.writestr(entry, data)

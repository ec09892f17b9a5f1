"""Files in one ZIP archive, the same bytes each time: sorted, one fixed date, fixed permissions.

Nothing is compressed in a program's archive: its sheets already are, and compressors differ between machines, while
pages state the archive's size.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping

DATE = (1980, 1, 1, 0, 0, 0)
"""The first moment an archive can hold."""

READABLE = 0o100644 << 16
UNIX = 3


def bundle(files: Mapping[str, bytes], *, comment: str = "", pack: bool = False) -> bytes:
    """An archive of ``files`` by their paths in it; ``pack`` compresses what is not compressed already."""
    archive = io.BytesIO()
    with zipfile.ZipFile(archive, "w") as written:
        written.comment = comment.encode()
        for path, data in sorted(files.items()):
            written.writestr(_entry(path, pack=pack), data)
    return archive.getvalue()


def _entry(path: str, *, pack: bool) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(path, DATE)
    entry.create_system = UNIX  # else the system that presses
    entry.external_attr = READABLE
    packed = path.endswith((".pdf", ".zip", ".xlsx"))
    entry.compress_type = zipfile.ZIP_DEFLATED if pack and not packed else zipfile.ZIP_STORED
    return entry

"""A picture that can be a site's logo: a whole PNG, small enough for every page.

Only PNG is taken: it holds a picture and nothing that runs. Signature and header follow the Portable Network Graphics
specification (W3C, 3rd edition), sections 5.2 and 11.2.1, chunks section 5.3.
"""

from __future__ import annotations

import struct
import zlib

MOST_BYTES = 200_000
MOST_PIXELS = 2000
"""Of each side: the logo is shown at the height of a line of text."""

_BEGINS = b"\x89PNG\r\n\x1a\n"
_HEADER_ENDS = 24


def fault_of_logo(data: bytes) -> str:
    """What keeps a file from being a logo, as the end of a sentence about it; empty if nothing does."""
    if data[:8] != _BEGINS or data[12:16] != b"IHDR" or len(data) < _HEADER_ENDS:
        return "is not a PNG picture"
    if not _is_whole(data):
        return "is a PNG picture of which a part is missing or damaged"
    if not all(0 < side <= MOST_PIXELS for side in size_of_logo(data)) or len(data) > MOST_BYTES:
        return f"is larger than a logo may be: {MOST_PIXELS} pixels a side and {MOST_BYTES // 1000} kB"
    return ""


def size_of_logo(data: bytes) -> tuple[int, int]:
    """Width and height in pixels."""
    width, height = struct.unpack(">II", data[16:_HEADER_ENDS])
    return width, height


def _is_whole(data: bytes) -> bool:
    """Whether every chunk is there and as it was written, up to the one that ends the picture."""
    place = len(_BEGINS)
    while place + 12 <= len(data):
        length = int.from_bytes(data[place : place + 4], "big")
        kind_and_content, end = data[place + 4 : place + 8 + length], place + 12 + length
        if end > len(data) or zlib.crc32(kind_and_content) != int.from_bytes(data[end - 4 : end], "big"):
            return False
        if kind_and_content[:4] == b"IEND":
            return True
        place = end
    return False

"""The author's logo: a PNG of the theme folder, looked at before it is passed on. It stands beside the site's name."""

from __future__ import annotations

import struct
import zlib

from plateset.publishing.theme import Theme, ThemeError
from plateset.publishing.views import LogoView

PATH = "assets/logo.png"
MOST_BYTES = 200_000
MOST_PIXELS = 2000
"""Of each side: the logo is shown at the height of a line of text."""

_BEGINS = b"\x89PNG\r\n\x1a\n"
_HEADER_ENDS = 24


def read_logo(theme: Theme, name: str) -> tuple[LogoView, bytes]:
    """The logo and its file. Raises :class:`ThemeError` for what is no PNG, or one too large for every page.

    Only PNG is taken: it holds a picture and nothing that runs. Signature and header follow the Portable Network
    Graphics specification (W3C, 3rd edition), sections 5.2 and 11.2.1, chunks section 5.3.
    """
    if not theme.has(name):
        raise ThemeError(f"site.yaml names the logo {name!r}, and there is no such file in the manuscript's theme/")
    data = theme.read(name)
    if data[:8] != _BEGINS or data[12:16] != b"IHDR" or len(data) < _HEADER_ENDS:
        raise ThemeError(f"the logo {name!r} of site.yaml is not a PNG picture")
    if not _is_whole(data):
        raise ThemeError(f"the logo {name!r} of site.yaml is a PNG picture of which a part is missing or damaged")
    width, height = struct.unpack(">II", data[16:_HEADER_ENDS])
    if not (0 < width <= MOST_PIXELS and 0 < height <= MOST_PIXELS) or len(data) > MOST_BYTES:
        most = f"{MOST_PIXELS} pixels a side and {MOST_BYTES // 1000} kB"
        raise ThemeError(f"the logo {name!r} of site.yaml is larger than a logo may be: {most}")
    return LogoView(PATH, width, height), data


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

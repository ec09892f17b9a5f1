"""An address as a QR code (ISO/IEC 18004), drawn as one path so that it prints sharp at any size."""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby

import segno

QUIET = 4
"""Modules of white around the code that the standard asks for."""


@lru_cache(maxsize=8)  # every sheet of a program has the same
def qr_svg(address: str) -> str:
    """The code of ``address`` as an SVG drawing of one path, a module to the unit, its quiet zone included."""
    rows = segno.make_qr(address, error="m").matrix
    side = len(rows) + 2 * QUIET
    path = "".join(_row(row, top) for top, row in enumerate(rows, start=QUIET))
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {side}"><path d="{path}"/></svg>'


def _row(row: bytes | bytearray, top: int) -> str:
    """The dark runs of one row as rectangles."""
    path, left = "", QUIET
    for dark, run in groupby(row):
        width = len(list(run))
        path += f"M{left} {top}h{width}v1h-{width}z" if dark else ""
        left += width
    return path

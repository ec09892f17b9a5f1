"""An address as a QR code (ISO/IEC 18004), module by module."""

from __future__ import annotations

from functools import lru_cache

import segno

QUIET = 4
"""Modules of white around the code that the standard asks for."""
BLACK, WHITE = "#", " "


@lru_cache(maxsize=8)  # every sheet of a program has the same
def qr_modules(address: str) -> tuple[str, ...]:
    """The code of ``address`` as rows of modules, its quiet zone included: '#' for a black one, ' ' for a white one."""
    rows = segno.make_qr(address, error="m").matrix
    side = len(rows) + 2 * QUIET
    above, beside = QUIET * (WHITE * side,), QUIET * WHITE
    return above + tuple(f"{beside}{''.join(map(_module, row))}{beside}" for row in rows) + above


def _module(dark: int) -> str:
    return BLACK if dark else WHITE

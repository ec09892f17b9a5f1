"""Where things are kept from press to press: a folder of the user's own. Whatever lies there may go at any time."""

from __future__ import annotations

import os
from pathlib import Path

CACHE = "PLATESET_CACHE"
"""The environment's name for another place than the user's cache."""


def cache_folder() -> Path:
    """The folder, which need not be there. Raises :class:`RuntimeError` for a user without a home."""
    chosen = os.environ.get(CACHE)
    if chosen:
        return Path(chosen)
    shared = Path(os.environ.get("XDG_CACHE_HOME", ""))  # by its specification, a relative one does not count
    return (shared if shared.is_absolute() else Path("~/.cache").expanduser()) / "plateset"

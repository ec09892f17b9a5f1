"""Two folders exchange their names in one step, so that nobody ever finds neither or a mixture."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from pathlib import Path

_AT_FDCWD = -100
_EXCHANGE = 2
"""``RENAME_EXCHANGE`` of Linux and ``RENAME_SWAP`` of macOS have the same value."""

_NOT_OFFERED = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EXDEV}


def exchange(one: Path, other: Path) -> bool:
    """Exchange the names of two folders; False where the system or the disk has no such step. Raises OSError."""
    call = _call(os.fsencode(one), os.fsencode(other))
    if call is None or call == 0:
        return call == 0
    code = ctypes.get_errno()
    if code in _NOT_OFFERED:
        return False
    raise OSError(code, os.strerror(code))


def _call(one: bytes, other: bytes) -> int | None:
    """What the system's own call answers; None without one."""
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            return int(library.renamex_np(one, other, _EXCHANGE))
        return int(library.renameat2(_AT_FDCWD, one, _AT_FDCWD, other, _EXCHANGE))
    except (AttributeError, OSError, TypeError):
        return None

"""Templates as Jinja compiles them, kept in the user's cache: compiling them takes longer than an edit's own pages.

What is read back is run. So it is kept only in a folder that belongs to the user and that nobody else may write, as
Python keeps its own compiled modules; where that cannot be told, templates are compiled anew.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import stat
from contextlib import suppress
from functools import cached_property
from pathlib import Path

from jinja2 import BytecodeCache, FileSystemBytecodeCache
from jinja2.bccache import Bucket

from plateset.publishing.user_cache import cache_folder

NAME = "templates-"


class CompiledTemplates(BytecodeCache):
    """Kept while the process runs, and on the disk where that is safe. A changed template has another checksum.

    ``made_by`` is the module that sets up what compiles them: with another, they are other templates.
    """

    def __init__(self, made_by: Path) -> None:
        self._made_by = made_by
        self._kept: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give ``bucket`` what is known of its template."""
        if bucket.key in self._kept:
            bucket.bytecode_from_string(self._kept[bucket.key])
        elif self._on_disk is not None:
            with suppress(OSError):
                self._on_disk.load_bytecode(bucket)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what ``bucket`` holds; a disk that cannot be written costs the next press time and nothing else."""
        self._kept[bucket.key] = bucket.bytecode_to_string()
        if self._on_disk is not None:
            with suppress(OSError):
                self._on_disk.dump_bytecode(bucket)

    @cached_property
    def _on_disk(self) -> FileSystemBytecodeCache | None:
        with suppress(OSError, RuntimeError):
            folder = cache_folder() / f"{NAME}{hashlib.sha256(self._made_by.read_bytes()).hexdigest()[:16]}"
            if not folder.is_dir():
                _clear(folder.parent)
                folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            if _is_ours_alone(folder):
                return FileSystemBytecodeCache(str(folder), "%s")
        return None


def _clear(cache: Path) -> None:
    """Take away what an earlier version has kept."""
    for old in cache.glob(f"{NAME}*"):
        shutil.rmtree(old, ignore_errors=True)


def _is_ours_alone(folder: Path) -> bool:
    if not hasattr(os, "getuid"):
        return False
    found = os.lstat(folder)
    return stat.S_ISDIR(found.st_mode) and found.st_uid == os.getuid() and not found.st_mode & 0o022

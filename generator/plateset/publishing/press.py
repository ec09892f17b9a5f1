"""Writing a site: aside first, then swapped in whole. What was there before stays until the new one is complete."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable
from pathlib import Path

MARKER = ".plateset"
MARKER_TEXT = (
    "This folder was pressed by Plateset and is replaced in whole at the next press. Keep nothing of your own here.\n"
)


class PressError(Exception):
    """The site could not be written; nothing in the target has changed."""


def check_target(target: Path, manuscript: Path) -> None:
    """Refuse a target that is not ours to replace. Raises :class:`PressError`."""
    place, source = target.resolve(), manuscript.resolve()
    if place == source or place in source.parents or source in place.parents:
        raise PressError(f"{target} holds the manuscript or lies inside it; name another folder")
    if place in (Path.home().resolve(), Path(place.anchor)):
        raise PressError(f"{target} is no folder to replace; name a new one")
    if not target.exists() and not target.is_symlink():
        return
    if not target.is_dir() or target.is_symlink():
        raise PressError(f"{target} is not a folder of its own; name another")
    if any(target.iterdir()) and not (target / MARKER).is_file():
        raise PressError(f"{target} holds files that Plateset did not make; name an empty or new folder")


def write_site(files: Iterable[tuple[str, bytes]], target: Path) -> int:
    """Write ``files`` (site path, bytes) as the whole content of ``target``; returns how many there are.

    Raises :class:`PressError` when the disk refuses; the target is then as it was.
    """
    aside = target.with_name(f".{target.name}.pressing")
    former = target.with_name(f".{target.name}.former")
    try:
        _clear(aside)
        count = _write_all(files, aside)
        _swap(aside, target, former)
    except OSError as error:
        raise PressError(f"{target} could not be written: {error.strerror or error}") from error
    finally:
        _clear(aside)
    return count


def _write_all(files: Iterable[tuple[str, bytes]], folder: Path) -> int:
    folder.mkdir(parents=True)
    written: set[str] = set()
    for path, data in [(MARKER, MARKER_TEXT.encode()), *files]:
        place = folder / path
        if path in written or not place.resolve().is_relative_to(folder.resolve()):
            raise PressError(f"two files would stand at {path}, or it lies outside the site")
        written.add(path)
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    return len(written) - 1


def _swap(aside: Path, target: Path, former: Path) -> None:
    """Put the new folder in place of the old one; if that fails half-way, the old one comes back."""
    _clear(former)
    if not target.exists():
        os.rename(aside, target)
        return
    os.rename(target, former)
    try:
        os.rename(aside, target)
    except OSError:
        os.rename(former, target)
        raise
    _clear(former)


def _clear(folder: Path) -> None:
    if folder.is_dir():
        shutil.rmtree(folder)

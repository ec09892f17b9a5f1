"""Writing a site: aside first, then swapped in whole. What was there before stays until the new one is complete."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable
from pathlib import Path

from plateset.publishing.marker import MARKER, Entry, entry_of, marker_text, others_in, read_marker


class PressError(Exception):
    """The site could not be written; nothing in the target has changed."""


def check_target(target: Path, manuscript: Path) -> None:
    """Refuse a target that is not ours to replace. Raises :class:`PressError`."""
    try:
        _check_target(target, manuscript)
    except OSError as error:
        raise PressError(f"{target} cannot be looked at: {error.strerror or error}") from error


def _check_target(target: Path, manuscript: Path) -> None:
    place, source = target.resolve(), manuscript.resolve()
    if place == source or place in source.parents or source in place.parents:
        raise PressError(f"{target} holds the manuscript or lies inside it; name another folder")
    if place in (Path.home().resolve(), Path(place.anchor)):
        raise PressError(f"{target} is no folder to replace; name a new one")
    if not target.exists() and not target.is_symlink():
        return
    if not target.is_dir() or target.is_symlink():
        raise PressError(f"{target} is not a folder of its own; name another")
    foreign = _foreign(target)
    if foreign:
        named = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
        raise PressError(f"{target} holds files that Plateset did not make: {named}. Move them, or name another folder")


def _foreign(target: Path) -> list[str]:
    """What is in ``target`` and not listed there as pressed by us, as paths from it; all of it without such a list."""
    made = read_marker(target)
    if made is None:
        return sorted(path.name for path in target.iterdir())
    return others_in(target, made)


def write_site(files: Iterable[tuple[str, bytes]], target: Path) -> int:
    """Write ``files`` (site path, bytes) as the whole content of ``target``; returns how many there are.

    Raises :class:`PressError` when the disk refuses; the target is then as it was.
    """
    target = Path(os.path.abspath(target))  # '.' has no name of its own to put another beside
    aside = target.with_name(f".{target.name}.pressing")
    former = target.with_name(f".{target.name}.former")
    try:
        try:
            _clear(aside)
            count = _write_all(files, aside)
            _swap(aside, target, former)
        finally:
            _clear(aside)
    except OSError as error:
        raise PressError(f"{target} could not be written: {error.strerror or error}") from error
    return count


def _write_all(files: Iterable[tuple[str, bytes]], folder: Path) -> int:
    folder.mkdir(parents=True)
    written: dict[str, Entry] = {}
    for path, data in files:
        place = folder / path
        if path in written or path == MARKER or not place.resolve().is_relative_to(folder.resolve()):
            raise PressError(f"two files would stand at {path}, or it lies outside the site")
        written[path] = entry_of(path, data)
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    (folder / MARKER).write_text(marker_text(written.values()), "utf-8")
    return len(written)


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

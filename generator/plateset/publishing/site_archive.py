"""A pressed site as one ZIP archive to upload. It lies outside the site, so that it never holds itself."""

from __future__ import annotations

import os
import zipfile
from collections.abc import Iterator
from pathlib import Path

from plateset.publishing.bundle import write_bundle
from plateset.publishing.marker import MARKER
from plateset.publishing.press import PressError

COMMENT = "Pressed by Plateset"
"""The archive's own comment: a press replaces a file only if it says so."""


def check_archive(place: Path, target: Path, manuscript: Path) -> None:
    """Refuse a place for the archive that is inside the site, inside the manuscript, or not ours to replace.

    Raises :class:`PressError`.
    """
    try:
        if place.resolve().is_relative_to(target.resolve()):
            raise PressError(f"{place} lies inside the site that it would hold; name a file elsewhere")
        if place.resolve().is_relative_to(manuscript.resolve()):
            raise PressError(f"{place} lies inside the manuscript; name a file elsewhere")
        if (place.exists() or place.is_symlink()) and not _ours(place):
            raise PressError(f"{place} is there and was not made by Plateset; move it, or name another file")
    except OSError as error:
        raise PressError(f"{place} cannot be looked at: {error.strerror or error}") from error


def write_archive(site: Path, place: Path) -> None:
    """Write everything in the folder ``site`` to the archive ``place``, whole or not at all.

    Raises :class:`PressError` when the disk refuses.
    """
    aside = place.with_name(f".{place.name}.pressing")
    try:
        try:
            place.parent.mkdir(parents=True, exist_ok=True)
            with aside.open("wb") as archive:
                write_bundle(_files(site), archive, comment=COMMENT, pack=True)
            os.replace(aside, place)
        finally:
            aside.unlink(missing_ok=True)
    except OSError as error:
        raise PressError(f"the site is in {site}; {place} could not be written: {error.strerror or error}") from error


def _ours(place: Path) -> bool:
    if place.is_symlink() or not place.is_file() or not zipfile.is_zipfile(place):
        return False
    with zipfile.ZipFile(place) as archive:
        return archive.comment == COMMENT.encode()


def _files(site: Path) -> Iterator[tuple[str, bytes]]:
    names = sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    for name in names:
        if name != MARKER:
            yield name, (site / name).read_bytes()

"""Where a site may be written, and writing one: aside first, then exchanged in whole."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from plateset.publishing.bench import PressError, bench, write_all
from plateset.publishing.marker import listed_in, others_in

__all__ = ["PressError", "check_kept", "check_target", "write_site"]


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
    made = listed_in(target)
    if made is None:
        return sorted(path.name for path in target.iterdir())
    return others_in(target, made)


def check_kept(kept: Path, target: Path, manuscript: Path) -> None:
    """Refuse to put the site before where something of others is, or something of this press.

    Raises :class:`PressError`.
    """
    try:
        place = kept.resolve()
        for path, what in ((target.resolve(), "the site itself"), (manuscript.resolve(), "the manuscript")):
            if place == path or path in place.parents or place in path.parents:
                raise PressError(f"{kept} is, holds or lies inside {what}; name another folder for the site before")
        if kept.is_symlink() or (kept.exists() and (not kept.is_dir() or _foreign(kept))):
            raise PressError(f"{kept} is there and was not pressed by Plateset; the site before would be kept there")
    except OSError as error:
        raise PressError(f"{kept} cannot be looked at: {error.strerror or error}") from error


def write_site(files: Iterable[tuple[str, bytes]], target: Path) -> int:
    """Write ``files`` (site path, bytes) as the whole content of ``target``; returns how many there are.

    Raises :class:`PressError` when the disk refuses; the target is then as it was.
    """
    with bench(target) as made:
        count = write_all(files, made)
        made.finish()
    return count

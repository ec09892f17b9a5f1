"""The folders of the site before, kept beside the ledger for the next press to put its site together in.

A press that changes little takes thousands of files over as links to the same bytes, and takes as many links away when
the site before has had its day. With a spare it does neither: the files that stay are in it already. A spare holds
nothing but links to files of the site there is, so it takes no room of its own while that is there; one whose site is
gone is taken away by the next press of any site. A spare that is lost, harmed or on another disk costs time only.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from plateset.publishing.bench import clear
from plateset.publishing.ledger_file import place_of_ledger
from plateset.publishing.marker import MARKER

ENDING = ".spare"


def place_of_spare(target: Path) -> Path:
    """Where the spare of a site is kept."""
    return place_of_ledger(target).with_suffix(ENDING)


def take_out(target: Path, site: Path, staying: Mapping[str, int]) -> set[str]:
    """Make the spare of ``target`` the empty folder ``site``, and take everything out of it but links to those files of
    ``target`` that are ``staying``, given by their paths and their numbers on the disk.

    Returns the paths of those; none where there is no spare that can be moved. Nothing else is left there: what is
    written later must not be written into a file that the site, or anyone, shares.
    """
    there: set[str] = set()
    with contextlib.suppress(RuntimeError):
        spare = place_of_spare(target)
        if spare.is_dir() and not spare.is_symlink():
            try:
                os.rmdir(site)
                os.rename(spare, site)
                _sift(str(site), "", staying, there)
            except OSError:
                clear(site)
                site.mkdir()
                return set()
    return there


def _sift(folder: str, before: str, staying: Mapping[str, int], there: set[str]) -> bool:
    """Whether anything in a folder stays; adds the paths of the files that do."""
    stays = False
    with os.scandir(folder) as found:
        entries = list(found)
    for each in entries:
        path = before + each.name
        if each.is_dir(follow_symlinks=False):
            if _sift(each.path, f"{path}/", staying, there):
                stays = True
            else:
                os.rmdir(each.path)
        elif staying.get(path) == each.inode():
            there.add(path)
            stays = True
        else:
            os.unlink(each.path)
    return stays


def put_by(former: Path, target: Path, own: Iterable[str]) -> None:
    """Keep the folder ``former``, which was the site, as the spare of ``target``.

    ``own`` are the paths of the files in it that the site there is now does not share. What cannot be kept is left
    where it is.
    """
    with contextlib.suppress(OSError, RuntimeError):
        for path in (MARKER, *own):
            (former / path).unlink(missing_ok=True)
        place = place_of_spare(target)
        clear(place)
        os.rename(former, place)


def sweep(target: Path) -> None:
    """Take away the spares of sites that are gone: those that share what they hold with none."""
    with contextlib.suppress(OSError, RuntimeError):
        for place in place_of_spare(target).parent.glob(f"*{ENDING}"):
            if all(os.lstat(path).st_nlink == 1 for path in _first_file(place)):
                clear(place)


def _first_file(place: Path) -> Iterator[str]:
    """The path of any file in a spare; nothing if it holds none."""
    for folder, _, files in os.walk(place):
        if files:
            yield f"{folder}/{files[0]}"
            return

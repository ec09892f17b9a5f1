"""The folder beside a site where the next one is put together: locked, checked, exchanged, cleared.

Beside ``site`` stands ``.site.pressing`` while a press is at work; in it ``site`` is the next site and ``work`` what is
needed on the way. A press that was killed leaves it there; the next one takes from it what belongs to the site, if
anything, and clears it.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
import sys
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from plateset.not_made import NotMadeError
from plateset.publishing.exchange import exchange
from plateset.publishing.marker import MARKER, Entry, entry_of, is_inside, marker_text, read_marker

if sys.platform != "win32":
    import fcntl


AT_A_TIME = 4
"""Folders taken away at a time: a disk takes its time over each, and takes several as fast as one."""


class PressError(NotMadeError):
    """The site could not be written; nothing in the target has changed."""


@dataclass
class Bench:
    """One press at work on ``target``: what it has put on the bench so far, by site path."""

    target: Path
    root: Path
    entries: dict[str, Entry] = field(default_factory=dict)
    links: set[str] = field(default_factory=set)
    """Those of the site before that stand in both: the disk was not given their bytes again."""
    _folders: set[str] = field(default_factory=set)

    @property
    def site(self) -> Path:
        """The next site."""
        return self.root / "site"

    @property
    def former(self) -> Path:
        """The site before, once it has had its day."""
        return self.root / "former"

    @property
    def work(self) -> Path:
        """What is needed on the way and thrown away."""
        return self.root / "work"

    def write(self, path: str, data: bytes) -> Entry:
        """Put a file on the bench."""
        self._check(path)
        return self.enter(write_file(self.site, path, data))

    def enter(self, entry: Entry) -> Entry:
        """Note a file that was put there by :func:`write_file` or :func:`take_over`."""
        self._check(entry.path)
        self.entries[entry.path] = entry
        return entry

    def take_over(self, entries: Iterable[Entry], *, linked: bool = True) -> None:
        """Put files of the site before on the bench as they are; see :func:`take_over`. Links may be there already."""
        old, site = str(self.target), str(self.site)
        for entry in entries:
            path = entry.path
            if path in self.links and path not in self.entries:  # found there, so it lies inside
                self.entries[path] = entry
                continue
            self._check(path)
            self._make_folder_of(path)
            if _put(f"{old}/{path}", f"{site}/{path}", linked=linked):
                self.links.add(path)
            self.entries[path] = entry

    def _make_folder_of(self, path: str) -> None:
        """The folder a file goes to, made when the first one does."""
        folder = path.rpartition("/")[0]
        if folder not in self._folders:
            os.makedirs(f"{self.site}/{folder}", exist_ok=True)
            self._folders.add(folder)

    def _check(self, path: str) -> None:
        if path in self.entries or path == MARKER or not is_inside(path):
            raise PressError(f"two files would stand at {path}, or it lies outside the site")

    def finish(self, kept: Path | None = None) -> bool:
        """Check what is on the bench, then exchange it with the target; the site before goes to ``kept``.

        Returns whether there was one to keep.
        """
        (self.site / MARKER).write_text(marker_text(self.entries.values()), "utf-8")
        self._weigh()
        former = self.former
        if not self.target.exists():
            os.rename(self.site, self.target)
        elif exchange(self.site, self.target):
            os.rename(self.site, former)
        else:
            _replace(self.site, self.target, former)
        if kept is None or not former.exists():
            return False
        try:
            _keep(former, kept)
        except OSError as error:
            _take_back(self.target, former)
            reason = error.strerror or error
            raise PressError(f"{kept} could not be written: {reason}; nothing was replaced") from error
        return True

    def _weigh(self) -> None:
        """A disk that took less than it was given is found out before readers see the site."""
        for entry in self.entries.values():
            if entry.path in self.links:
                continue
            size = (self.site / entry.path).stat().st_size
            if size != entry.size:
                raise PressError(f"{entry.path} has {size:,} of {entry.size:,} bytes on the disk; nothing was replaced")


def write_file(site: Path, path: str, data: bytes) -> Entry:
    """Write one file of a site on the bench; returns its entry. For workers, which have no bench of their own."""
    place = site / path
    try:
        place.write_bytes(data)
    except FileNotFoundError:
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    return entry_of(path, data)


def take_over(old: Path, site: Path, entry: Entry, *, linked: bool = True) -> bool:
    """Put a file of the ``old`` site on the bench as it is; returns whether that is a link to the same bytes."""
    place = f"{site}/{entry.path}"
    os.makedirs(os.path.dirname(place), exist_ok=True)
    return _put(f"{old}/{entry.path}", place, linked=linked)


def _put(there: str, place: str, *, linked: bool) -> bool:
    """See :func:`take_over`. Places are texts, since thousands are taken over: no Path for each."""
    if linked:
        try:
            os.link(there, place, follow_symlinks=False)
        except OSError:  # no links on this disk
            pass
        else:
            return True
    shutil.copy2(there, place, follow_symlinks=False)
    return False


def _keep(former: Path, kept: Path) -> None:
    """Put the site before in its place, on whatever disk; what is kept there gives way once the other is beside it."""
    kept.parent.mkdir(parents=True, exist_ok=True)
    aside = kept.with_name(f".{kept.name}.pressing")
    try:
        clear(aside)
        try:
            os.rename(former, aside)
        except OSError as error:
            if error.errno != errno.EXDEV:
                raise
            shutil.copytree(former, aside, symlinks=True)
        clear(kept)
        os.rename(aside, kept)
    except OSError:
        if not former.exists() and aside.exists():
            os.rename(aside, former)
        if aside.parent.is_dir():
            clear(aside)
        raise


def _take_back(target: Path, former: Path) -> None:
    """The site before stands again where it stood."""
    aside = former.with_name("refused")
    os.rename(target, aside)
    os.rename(former, target)


def _replace(site: Path, target: Path, former: Path) -> None:
    """In two steps where there is no single one; if the second fails, the first is undone."""
    os.rename(target, former)
    try:
        os.rename(site, target)
    except OSError:
        os.rename(former, target)
        raise


@contextmanager
def bench(target: Path) -> Iterator[Bench]:
    """A locked, empty bench beside ``target``; cleared at the end, whatever happens.

    Raises :class:`PressError` if another press is at work on the same target, or when the disk refuses; the target is
    then as it was.
    """
    target = Path(os.path.abspath(target))  # '.' has no name of its own to put another beside
    root = target.with_name(f".{target.name}.pressing")
    try:
        root.parent.mkdir(parents=True, exist_ok=True)
        with _locked(root, target):
            try:
                _mend(target, root)
                _empty(root)
                made = Bench(target, root)
                made.site.mkdir()
                made.work.mkdir()
                yield made
            finally:
                clear(root)
    except OSError as error:
        raise PressError(f"{target} could not be written: {error.strerror or error}") from error


@contextmanager
def _locked(root: Path, target: Path) -> Iterator[None]:
    """The lock is on the folder itself, so a killed press gives it back and leaves no file of its own."""
    if sys.platform == "win32":
        root.mkdir(exist_ok=True)
        yield
        return
    handle = _lock(root)
    if handle is None:
        raise PressError(f"another press is at work on {target}; wait until it is done")
    try:
        yield
    finally:
        os.close(handle)


def _lock(root: Path) -> int | None:
    """A handle on the locked folder; None if another has it."""
    while True:
        _make_way(root)
        handle = -1
        try:
            with suppress(FileExistsError):  # also where another press took it away meanwhile, which opening it tells
                root.mkdir()
            handle = os.open(root, os.O_RDONLY)
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            if os.path.samestat(os.fstat(handle), os.stat(root)):
                return handle
        except BlockingIOError:
            os.close(handle)
            return None
        except FileNotFoundError:
            pass
        if handle >= 0:  # a press that has just ended took the folder away with it
            os.close(handle)


def _make_way(root: Path) -> None:
    """Take away what is no folder; looked at once, since other presses make the folder and take it away meanwhile."""
    try:
        if not stat.S_ISDIR(os.lstat(root).st_mode):
            root.unlink(missing_ok=True)
    except FileNotFoundError:
        pass
    except (IsADirectoryError, PermissionError):  # the second is macOS's word for a folder
        if not root.is_dir():
            raise


def _mend(target: Path, root: Path) -> None:
    """A press killed between the two steps of :func:`_replace` left the site in its own folder: bring it back."""
    former = root / "former"
    if not target.exists() and not target.is_symlink() and read_marker(former) is not None:
        os.rename(former, target)


def _empty(folder: Path) -> None:
    for path in folder.iterdir():
        clear(path)


def clear(path: Path) -> None:
    """Take a file or folder away, if it is there."""
    if path.is_symlink() or not path.is_dir():
        path.unlink(missing_ok=True)
        return
    found = list(os.walk(path))
    with ThreadPoolExecutor(AT_A_TIME) as executor:
        for _ in executor.map(_take_files, found[::-1]):
            pass
    for folder, _, _ in reversed(found):
        os.rmdir(folder)


def _take_files(found: tuple[str, list[str], list[str]]) -> None:
    """Take away what lies in a folder and is none itself; a link to one is a file here."""
    folder, folders, files = found
    for name in files:
        os.unlink(f"{folder}/{name}")
    for name in folders:
        if os.path.islink(f"{folder}/{name}"):
            os.unlink(f"{folder}/{name}")


def write_all(files: Iterable[tuple[str, bytes]], made: Bench) -> int:
    """Put ``files`` (site path, bytes) on the bench; returns how many."""
    return sum(made.write(path, data) is not None for path, data in files)

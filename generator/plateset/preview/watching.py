"""The preview at work: a server beside a watch on the folder, until the author ends it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import islice
from pathlib import Path
from threading import Event, Thread
from time import monotonic

from watchfiles import Change, watch

from plateset.manuscript.files import FOLDERS, SITE_FILE
from plateset.preview.making import FAULTS, next_state, unseen_pages, words_of
from plateset.preview.panel import status
from plateset.preview.server import PreviewServer
from plateset.publishing.documents import Make

QUIET = 30
"""Milliseconds without a change after which a save counts as done."""
IDLE = 200
"""Milliseconds without a change after which pages nobody has opened are looked at."""
AT_A_TIME = 8
"""Pages looked at before the folder is asked again."""


def serve(server: PreviewServer, folder: Path, shown_as: str, stop: Event, say: Callable[[str], None]) -> None:
    """Serve ``folder``'s pages until ``stop`` is set; ``say`` is told in a line what each change came to."""
    thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)
    thread.start()
    try:
        _watch(server, folder, shown_as, stop, say)
    finally:
        server.board.end()
        server.shutdown()
        thread.join()
        server.server_close()


def _watch(server: PreviewServer, folder: Path, shown_as: str, stop: Event, say: Callable[[str], None]) -> None:
    folder = folder.resolve()
    wanted = _Wanted(folder)
    before: list[tuple[str, int]] | None = _traces(folder, wanted)
    _renew(server, folder, shown_as, say)
    unseen = unseen_pages(server.board.state)
    for changes in watch(
        folder, watch_filter=wanted, debounce=400, step=QUIET, stop_event=stop, rust_timeout=IDLE,
        yield_on_timeout=True, raise_interrupt=False,
    ):  # fmt: skip
        # The watch has begun after the first look at the folder; a save in between is found by its traces.
        early, before = before is not None and before != _traces(folder, wanted), None
        if changes or early:
            _renew(server, folder, shown_as, say)
            unseen = unseen_pages(server.board.state)
            continue
        fault = _look_at(unseen)
        if fault and server.board.state.is_sound:
            server.board.show(server.board.state.with_fault(fault))
            say(fault)


def _traces(folder: Path, wanted: _Wanted) -> list[tuple[str, int]]:
    """Every file that counts, and when it was written."""
    found = [path for path in folder.rglob("*") if wanted(Change.modified, str(path)) and not path.is_dir()]
    return sorted((str(path), _written(path)) for path in found)


def _written(path: Path) -> int:
    try:
        return path.stat().st_mtime_ns
    except OSError:  # gone again, or a link to nowhere
        return 0


def _renew(server: PreviewServer, folder: Path, shown_as: str, say: Callable[[str], None]) -> None:
    began = monotonic()
    state = next_state(server.board.state, folder, shown_as)
    server.board.show(state)
    say(f"{status(state)} ({monotonic() - began:.2f} s)")


def _look_at(unseen: Iterator[Make]) -> str:
    """Make a few of the pages nobody has opened; what is wrong with one of them, in words."""
    try:
        for make in islice(unseen, AT_A_TIME):
            make()
    except FAULTS as error:
        return words_of(error)
    return ""


class _Wanted:
    """Which changes in ``folder`` count: those of the manuscript and its theme, not of hidden files and backups."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def __call__(self, change: Change, path: str) -> bool:
        try:
            parts = Path(path).relative_to(self._folder).parts
        except ValueError:
            return False
        ours = parts[:1] == (SITE_FILE,) or (bool(parts) and parts[0] in (*FOLDERS, "theme"))
        return ours and not any(part.startswith(".") or part.endswith("~") for part in parts)

"""How a process does with less: it looks for garbage rarely, typesets on one core, and ends without looking back."""

from __future__ import annotations

import atexit
import gc
import os
from collections.abc import Iterator
from contextlib import contextmanager

COLLECTED = (100_000, 20, 20)
"""How rarely garbage is looked for: a program is many objects that all live until it is done (a tenth less work)."""

TYPESETTING_THREADS = "RAYON_NUM_THREADS"
"""The variable by which the typesetter's library is told how many threads to lay pages out on; all cores unsaid."""


def typeset_on_one_core() -> None:
    """The typesetter of this process keeps to one core: others have work of their own (a tenth less work in all).

    To be called before anything is typeset. What the author's environment says goes before.
    """
    os.environ.setdefault(TYPESETTING_THREADS, "1")


@contextmanager
def rarely_collected() -> Iterator[None]:
    """Garbage is looked for as rarely here as in a worker, for as long as this lasts."""
    before = gc.get_threshold()
    gc.set_threshold(*COLLECTED)
    try:
        yield
    finally:
        gc.set_threshold(*before)


def end_at_once() -> None:
    """Let this process end without a last look for garbage through all it holds: a fifth of a second after an edit."""
    atexit.register(gc.freeze)


def cores() -> int:
    """How many processes can work at once on this machine, for us."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1

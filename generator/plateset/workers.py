"""Work in processes of its own, through the standard executor interface; a caller may bring another executor.

Loaded where there is work for several: what starts processes takes as long to load as an edit's own pages to make.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Executor, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing.connection import wait as wait_for
from typing import TypeVar

from plateset.not_made import NotMadeError
from plateset.thrift import COLLECTED, typeset_on_one_core

R = TypeVar("R")

PATIENCE = 900.0
"""Seconds without anything finished after which the workers count as hung."""


class WorkerError(NotMadeError):
    """A worker died or hangs; the message says what it was making."""


@contextmanager
def workers(jobs: int) -> Iterator[Executor]:
    """Processes that end with this one, however it ends. They are started afresh, never forked from this process."""
    before = set(multiprocessing.active_children())
    methods = multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("forkserver" if "forkserver" in methods else "spawn")
    if "forkserver" in methods:
        context.set_forkserver_preload(["plateset.program_making"])
    executor = ProcessPoolExecutor(jobs, context, _start)
    try:
        yield executor
        executor.shutdown()
    except BaseException:
        executor.shutdown(wait=False, cancel_futures=True)
        for child in set(multiprocessing.active_children()) - before:
            child.terminate()
        for child in set(multiprocessing.active_children()) - before:
            child.join(5)
        raise


def _start() -> None:
    """A worker leaves Ctrl-C to the process that started it, and does not outlive that process."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(*COLLECTED)
    typeset_on_one_core()
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: int) -> None:
    wait_for([sentinel])
    os._exit(1)


def each_done(
    executor: Executor,
    tasks: Sequence[Callable[[], R]],
    at_work: Callable[[], list[str]],
    patience: float = PATIENCE,
) -> Iterator[R]:
    """The results of ``tasks``, as they are done.

    Raises what a task raises, and :class:`WorkerError` with ``at_work`` when a worker dies or hangs.
    """
    ahead: set[Future[R]] = set()
    try:
        ahead = {executor.submit(task) for task in tasks}
        while ahead:
            done, ahead = wait(ahead, patience, FIRST_COMPLETED)
            if not done:
                raise WorkerError(f"a worker hangs, {_on(at_work())}; nothing was replaced")
            yield from (future.result() for future in done)
    except BrokenProcessPool as error:
        raise WorkerError(f"a worker died, {_on(at_work())}; nothing was replaced") from error
    finally:
        for future in ahead:
            future.cancel()


def _on(paths: list[str]) -> str:
    return f"at work on {' or '.join(paths)}" if paths else "before it took up a file"

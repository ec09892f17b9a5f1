"""The table: ``python -m tests.benchmarks [--html 20 200] [--everything 4] [--jobs 2]``."""

from __future__ import annotations

import argparse
import ctypes
import json
import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import astuple, dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.manuscripts import write_manuscript

IMPORTS = "import plateset.commands.press, plateset.press_run, plateset.program_making"
PROOF_IMPORTS = "import plateset.commands.proof"
READING = """import plateset.commands.press
import hashlib, pathlib, sys
for path in sorted(pathlib.Path(sys.argv[1]).rglob("*.*")):
    hashlib.sha256(path.read_bytes()).hexdigest()
"""
"""The least that a press needs to know that there is nothing to press."""


@dataclass(frozen=True)
class Run:
    """A process: seconds by the clock, seconds of work, and the most memory one process held, in MB."""

    wall: float
    cpu: float
    memory: float


def run(*words: str) -> Run:
    """One process, and those it started and waited for."""
    return run_beside(None, *words)


EVERY = 25.0
"""Seconds after which a long run is halted to measure its floor again: a machine is not as fast all the time."""


def run_beside(floor: Callable[[], None] | None, *words: str) -> Run:
    """One process, halted every now and then while ``floor`` is measured; the time it is halted does not count."""
    began, halted = time.monotonic(), 0.0
    pid = os.posix_spawn(sys.executable, [sys.executable, *words], os.environ, file_actions=_QUIET)
    ended, status, used = os.wait4(pid, os.WNOHANG if floor else 0)
    due = began + EVERY
    while floor and not ended:
        time.sleep(0.01)
        ended, status, used = os.wait4(pid, os.WNOHANG)
        if not ended and time.monotonic() > due:
            os.kill(pid, signal.SIGSTOP)
            since = time.monotonic()
            floor()
            os.kill(pid, signal.SIGCONT)
            halted += time.monotonic() - since
            due = time.monotonic() + EVERY
    wall = time.monotonic() - began - halted
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        raise SystemExit(f"{' '.join(words)} failed")
    all_used = [used, *_used_by_orphans()]
    return Run(wall, sum(u.ru_utime + u.ru_stime for u in all_used), max(u.ru_maxrss for u in all_used) / 1024)


def _used_by_orphans() -> Iterator[resource.struct_rusage]:
    """What was used by the processes that a press left behind as it ended: the server of its workers, and they."""
    while True:
        try:
            yield os.wait4(-1, 0)[2]
        except ChildProcessError:
            return


def adopt_orphans() -> None:
    """From now on processes whose parent has ended are this one's children (Linux, prctl(2))."""
    set_child_subreaper = 36
    if ctypes.CDLL(None, use_errno=True).prctl(set_child_subreaper, 1, 0, 0, 0) != 0:
        raise OSError(ctypes.get_errno(), "orphans cannot be adopted")


_QUIET = [(os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)]


def row(name: str, found: Run, floor: float | None = None, of: str = "") -> None:
    """A row of the table; ratios are of work done, since other work on the machine changes the clock."""
    ratio = f"{found.cpu / floor:6.2f} x {of} ({floor:.2f} s)" if floor else ""
    print(f"{name:<46}{found.wall:9.2f}{found.cpu:9.2f}{found.memory:8.0f}   {ratio}", flush=True)


def press(what: str, book: Path, site: Path, jobs: int = 1) -> Run:
    """One press."""
    return run(*_pressing(what, book, site, jobs))


def _pressing(what: str, book: Path, site: Path, jobs: int = 1) -> tuple[str, ...]:
    return ("-m", "tests.benchmarks.driver", what, str(book), str(site), str(jobs))


def change(path: Path, old: str, new: str) -> None:
    """Change a text of the manuscript."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def floor_of(book: Path, what: str, programs: int, start: float) -> Floor:
    """Seconds for a press of so many programs; one costs what any ten cost. See :mod:`tests.benchmarks.floors`."""
    command = [sys.executable, "-m", "tests.benchmarks.floors", str(book), what, "10"]
    found = json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
    of_program: dict[str, float] = found["program"]
    workbooks = programs * of_program.pop("workbook", 0.0)
    # Lists of very many programs cost more than is counted here.
    return Floor(start + sum(found["site"].values()) + programs * sum(of_program.values()), workbooks)


@dataclass(frozen=True)
class Floor:
    """Seconds of work for pages and all that is typeset, and for the workbooks by their library's own way."""

    paged: float
    workbooks: float


STEPS_OF = 4
"""Programs of which the steps are timed."""


def steps(folder: Path) -> None:
    """A row for each step of one more program, in a process that has made others before."""
    book = write_manuscript(folder / "steps", STEPS_OF)
    command = [sys.executable, "-m", "tests.benchmarks.steps", str(book)]
    found = json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
    print(f"\none more program, everything{'':<27}{found['sum']:9.2f}{found['MB']:8.0f}")
    for step, seconds in sorted(found["steps"].items(), key=lambda each: -each[1]):
        print(f"  {step:<44}{'':9}{seconds:9.3f}")


def measure(folder: Path, programs: int, what: str, jobs: int) -> None:
    """All rows of one size."""
    book, site = write_manuscript(folder / f"{what}-{programs}", programs), folder / f"{what}-{programs}-site"
    few = write_manuscript(folder / f"{what}-{programs}-floor", min(programs, 20))
    found: list[Floor] = []
    start = run("-c", IMPORTS).cpu

    def floor() -> None:
        found.append(floor_of(few, what, programs, start))

    print(f"\n{programs} programs, {what}")
    floor()
    one = run_beside(floor, *_pressing(what, book, site))
    floor()
    paged, workbooks = (sum(each) / len(found) for each in zip(*map(astuple, found), strict=True))
    row("full press, one process", one, paged, "pages, sheets and cards by bare libraries, all ready")
    if workbooks:
        print(f"{'':<69}   {one.cpu / (paged + workbooks):6.2f} x the same and workbooks ({paged + workbooks:.2f} s)")
    least, most = min(each.paged for each in found), max(each.paged for each in found)
    print(f"{'':<46}the floor was measured {len(found)} times: {least:.1f} to {most:.1f} s")
    if jobs > 1:
        shutil.rmtree(site)
        many = press(what, book, site, jobs)
        row(f"full press, {jobs} processes", many)
        print(f"{'':<46}{one.wall / many.wall:9.2f} x faster by the clock")
    # The command itself: to time pages alone, the driver loads more than a press with nothing to do.
    nothing = run("-m", "plateset", "press", str(book), "--to", str(site), "--as-draft")
    row("no-op", nothing, run("-c", READING, str(book)).cpu, "imports, and reading and hashing the manuscript")
    program, note = book / "programs" / "block-0000.yaml", book / "exercises" / "back-squat.md"
    for name, path, old, new in (
        ("one program edited, its title", program, "title: Block 0", "title: First block"),
        ("one program edited, one load", program, "week 2: ", "week 3: "),
        ("one note edited, its text", note, "The back squat loads", "The squat loads"),
        ("one note edited, its head", note, "name: Back squat", "name: Squat"),
    ):
        change(path, old, new)
        edit = press(what, book, site)
        row(name, edit, nothing.cpu, f"no-op; {edit.cpu - nothing.cpu:.2f} s more")
    (book / "theme").mkdir()
    shutil.copy(Path(__file__).parents[2] / "themes" / "noticeboard" / "week.html", book / "theme")
    change(book / "theme" / "week.html", "{%", "{# seen #}{%")
    row("a template edited", press(what, book, site), nothing.cpu, "no-op")
    copied = time.monotonic()
    subprocess.run(["cp", "-r", str(site), str(folder / "copy")], check=True)
    print(f"{'cp -r of the site':<46}{time.monotonic() - copied:9.2f}")
    shutil.rmtree(folder / "copy")


def main() -> None:
    """Print the table."""
    wanted = argparse.ArgumentParser(description=__doc__)
    wanted.add_argument("--html", type=int, nargs="*", default=[20, 200], help="sizes without paper and workbooks")
    wanted.add_argument("--everything", type=int, nargs="*", default=[4], help="sizes with them")
    wanted.add_argument("--jobs", type=int, default=2)
    chosen = wanted.parse_args()
    adopt_orphans()
    print(f"{'':<46}{'clock s':>9}{'work s':>9}{'MB':>8}   work as a multiple of its floor")
    with TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["PLATESET_CACHE"] = str(folder / "cache")
        # What is installed is compiled once, not by each process that loads it.
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        book = write_manuscript(folder / "proof", 1)
        row("--help", run("-m", "plateset", "--help"), run("-c", "import plateset.cli").cpu, "imports")
        row("proof of one program", run("-m", "plateset", "proof", str(book)), run("-c", PROOF_IMPORTS).cpu, "imports")
        row("everything for one program", press("everything", book, folder / "one"), run("-c", IMPORTS).cpu, "imports")
        steps(folder)
        for size in chosen.html:
            measure(folder, size, "html", chosen.jobs)
        for size in chosen.everything:
            measure(folder, size, "everything", chosen.jobs)


if __name__ == "__main__":
    main()

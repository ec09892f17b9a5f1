"""Whatever happens to a press, the site there was stays whole, the next press mends all, and no litter remains."""

from __future__ import annotations

import errno
import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from plateset import studying, thrift, workers
from plateset.cli import main
from plateset.collating import collate
from plateset.commands.endings import UNWRITABLE
from plateset.pressing import Options, press
from plateset.publishing import bench as bench_module
from plateset.publishing.bench import PressError, bench, write_file
from plateset.publishing.marker import MARKER
from plateset.publishing.press import write_site
from plateset.workers import WorkerError, each_done

from tests.publishing.building import BOOK, TALLY
from tests.test_ledger import change, contents

KILLS = int(os.environ.get("PLATESET_KILLS", "25"))
"""How many times the press is killed; 300 take some minutes."""

TINY = {
    "site.yaml": "title: Tannery\nauthor: {name: Osla Brandt}\n",
    "programs/tally.yaml": TALLY,
    "exercises/plank.md": BOOK["exercises/plank.md"],
}


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """The smallest book that is worth a press."""
    for name, text in TINY.items():
        (tmp_path / "book" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "book" / name).write_text(text, "utf-8")
    return tmp_path / "book"


@pytest.fixture
def site(tmp_path: Path, book: Path) -> Path:
    """The book pressed once, in a folder with nothing else."""
    press(book, "book", tmp_path / "shelf" / "site")
    return tmp_path / "shelf" / "site"


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


# -- killed -----------------------------------------------------------------------------------------------

WARM = """
import os, signal, sys, time
from pathlib import Path
from plateset.pressing import Options, press
for line in sys.stdin:
    book, site, moment = line.rstrip("\\n").split("\\t")
    pid = os.fork()
    if not pid:
        press(Path(book), "book", Path(site), Options(jobs=1))
        os._exit(0)
    if moment:
        time.sleep(float(moment))
        os.kill(pid, signal.SIGKILL)  # if it has ended, it has not been waited for
    print(os.waitpid(pid, 0)[1], flush=True)
"""
"""Starts presses that need not load anything first. It sets no sheet itself, so it may fork."""


class Presses:
    """Presses in processes of their own, one after the other."""

    def __init__(self) -> None:
        command = [sys.executable, "-c", WARM]
        self._warm = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)

    def run(self, book: Path, site: Path, killed_after: float | None = None) -> bool:
        """Press; returns whether it was killed."""
        assert self._warm.stdin is not None
        assert self._warm.stdout is not None
        self._warm.stdin.write(f"{book}\t{site}\t{'' if killed_after is None else killed_after}\n")
        self._warm.stdin.flush()
        return int(self._warm.stdout.readline()) == signal.SIGKILL

    def close(self) -> None:
        """End the process that starts them."""
        self._warm.communicate()


@pytest.fixture
def presses() -> Iterator[Presses]:
    started = Presses()
    yield started
    started.close()


@pytest.mark.parametrize(
    ("edited", "title", "shown"),
    [("site.yaml", "Tannery", "index.html"), ("programs/second.yaml", "Second", "programs/second/index.html")],
    ids=["all of it", "one of two programs"],
)
def test_killed_at_any_moment_the_site_stays_whole_and_the_next_press_mends_everything(  # noqa: PLR0917
    edited: str, title: str, shown: str, presses: Presses, book: Path, site: Path
) -> None:
    """Each press changes a title; with the site's all of the site is made anew, with a program's most is taken over."""
    chance = random.Random(20260302)
    (book / "programs" / "second.yaml").write_text(TALLY.replace("title: Tally", "title: Second"), "utf-8")
    assert not presses.run(book, site)
    change(book, edited, f"title: {title}", f"title: {title} 0")
    began = time.monotonic()
    assert not presses.run(book, site)
    length = time.monotonic() - began
    killed = whole = 0
    for number in range(1, KILLS + 1):
        before = contents(site)
        change(book, edited, f"title: {title} {number - 1}\n", f"title: {title} {number}\n")
        killed += presses.run(book, site, chance.uniform(0, 1.2 * length))
        after = contents(site)
        assert after == before or f"{title} {number}".encode() in (site / shown).read_bytes()
        assert collate(site).findings == ()
        assert set(names(site.parent)) <= {"site", ".site.pressing"}
        whole += after != before
    press(book, "book", site, Options(jobs=1))
    assert names(site.parent) == ["site"]
    press(book, "book", site.with_name("afresh"), Options(jobs=1))
    assert contents(site) == contents(site.with_name("afresh"))
    print(f"{killed} of {KILLS} presses killed at work, {whole} had done")
    assert killed >= KILLS // 3


def test_a_press_killed_between_the_two_steps_of_a_disk_without_one_is_mended(book: Path, site: Path) -> None:
    before = contents(site)
    aside = site.with_name(".site.pressing")
    aside.mkdir()
    site.rename(aside / "former")
    with bench(site):
        assert contents(site) == before
    assert names(site.parent) == ["site"]


def test_what_was_left_is_cleared_even_if_there_is_nothing_to_press(book: Path, site: Path) -> None:
    (site.with_name(".site.pressing") / "work").mkdir(parents=True)
    assert press(book, "book", site).unchanged
    assert names(site.parent) == ["site"]


def test_an_interrupted_press_stops_its_workers_and_leaves_no_litter(tmp_path: Path) -> None:
    book, site = tmp_path / "book", tmp_path / "shelf" / "site"
    for name, text in TINY.items():
        (book / name).parent.mkdir(parents=True, exist_ok=True)
        (book / name).write_text(text, "utf-8")
    for number in range(6):
        (book / "programs" / f"tally-{number}.yaml").write_text(TALLY.replace("weeks: 1", "weeks: 12"), "utf-8")
    command = [sys.executable, "-m", "plateset", "press", str(book), "--to", str(site), "--jobs", "2", "--verbose"]
    # What runs in the background of a shell is started deaf to interrupts; a person's terminal is not.
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509 - no threads are running here
    ) as running:
        assert running.stderr is not None
        for line in running.stderr:
            if line.startswith(b"Studying"):
                break
        running.send_signal(signal.SIGINT)
        said = running.stderr.read()
        # Python ends by the signal itself if it came while a text was executed, as modules with dataclasses do.
        assert running.wait(30) in (1, -signal.SIGINT)
    assert said.rstrip().endswith(b"Aborted!")
    assert b"Traceback" not in said
    assert names(site.parent) == []


# -- two at once ------------------------------------------------------------------------------------------


def test_two_presses_at_once_are_told(book: Path, site: Path) -> None:
    before = contents(site)
    change(book, "programs/tally.yaml", "title: Tally", "title: Talley")
    with bench(site), pytest.raises(PressError, match=r"another press is at work on .*site; wait until it is done"):
        press(book, "book", site)
    assert contents(site) == before
    assert len(press(book, "book", site).made) > 0


def test_presses_in_turn_never_meet(tmp_path: Path) -> None:
    """Many at once: each either writes its whole site or is told to wait."""
    target = tmp_path / "site"
    told: list[str] = []

    def one(number: int) -> None:
        files = [(f"{page}.html", str(number).encode()) for page in range(20)]
        for _ in range(20):
            try:
                write_site(files, target)
            except PressError as error:
                told.append(str(error))

    threads = [threading.Thread(target=one, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    found = contents(target)
    del found[MARKER]
    assert len(found) == 20
    assert len(set(found.values())) == 1
    assert [words for words in told if "another press is at work" not in words] == []
    assert names(tmp_path) == ["site"]


# -- the disk ---------------------------------------------------------------------------------------------

FAULTS: dict[str, OSError] = {
    "full": OSError(errno.ENOSPC, "No space left on device"),
    "no permission": PermissionError(errno.EACCES, "Permission denied"),
    "read only": OSError(errno.EROFS, "Read-only file system"),
    "too many files": OSError(errno.EMFILE, "Too many open files"),
}


@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize("after", [0, 1, 7, 20])
def test_a_disk_that_refuses_is_told_and_the_site_stays(
    after: int, fault: str, book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = contents(site)
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    write, count = Path.write_bytes, iter(range(10_000))

    def refusing(place: Path, data: bytes) -> int:
        if ".site.pressing" in place.parts and next(count) >= after:
            raise FAULTS[fault]
        return write(place, data)

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", refusing)
        with pytest.raises(PressError, match="could not be written"):
            press(book, "book", site)
    assert contents(site) == before
    assert names(site.parent) == ["site"]
    assert len(press(book, "book", site).made) > 0


def test_a_short_write_is_found_before_readers_see_it(book: Path, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = contents(site)
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    write = Path.write_bytes

    def short(place: Path, data: bytes) -> int:
        return write(place, data[:-1] if place.name == "404.html" else data)

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", short)
        with pytest.raises(PressError, match=r"404\.html has .* bytes on the disk; nothing was replaced"):
            press(book, "book", site)
    assert contents(site) == before
    assert names(site.parent) == ["site"]


@pytest.mark.parametrize("step", ["exchange", "rename", "link", "unlink", "rmdir"])
def test_a_step_of_the_bench_that_fails_leaves_one_whole_site(
    step: str, book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    change(book, "programs/tally.yaml", "title: Tally", "title: Talley")

    def refuse(*given: Any, **named: Any) -> bool:
        raise OSError(errno.EIO, "Input/output error")

    with monkeypatch.context() as patched:
        if step == "exchange":
            patched.setattr(bench_module, "exchange", refuse)
        else:
            patched.setattr(f"os.{step}", refuse)
        try:
            press(book, "book", site)
        except PressError as error:
            assert "Input/output error" in str(error)  # noqa: PT017 - some steps can do without
    assert collate(site).findings == ()
    press(book, "book", site)
    assert names(site.parent) == ["site"]
    assert b"Talley" in (site / "programs" / "tally" / "index.html").read_bytes()


def test_a_folder_that_may_not_be_written_is_told(book: Path, site: Path) -> None:
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    # A superuser may write anywhere, but for one who was not given that power.
    bound = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"] if os.geteuid() == 0 else []
    command = [*bound, sys.executable, "-m", "plateset", "press", str(book), "--to", str(site)]
    site.parent.chmod(0o500)
    try:
        ended = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    finally:
        site.parent.chmod(0o700)
    assert f"plateset: {site} could not be written: Permission denied" in " ".join(ended.stderr.split())
    assert ended.returncode == UNWRITABLE
    assert collate(site).findings == ()


def test_a_clock_set_back_changes_nothing(book: Path, site: Path) -> None:
    for folder in (book, site):
        for path in folder.rglob("*"):
            os.utime(path, (0, 0))
    assert press(book, "book", site).unchanged
    change(book, "programs/tally.yaml", "title: Tally", "title: Talley")
    os.utime(book / "programs" / "tally.yaml", (0, 0))
    assert len(press(book, "book", site).made) > 0


# -- changes meanwhile ------------------------------------------------------------------------------------


def test_what_changes_while_pressing_is_told_and_pressed_the_next_time(book: Path, site: Path) -> None:
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    once = iter([True])

    def meanwhile(words: str) -> None:
        if words.startswith("Writing") and next(once, False):
            change(book, "programs/tally.yaml", "title: Tally", "title: Talley")

    pressed = press(book, "book", site, Options(told=meanwhile))
    assert pressed.meanwhile == ("program tally",)
    assert b"Talley" not in (site / "programs" / "tally" / "index.html").read_bytes()
    again = press(book, "book", site)
    assert again.meanwhile == ()
    assert b"Talley" in (site / "programs" / "tally" / "index.html").read_bytes()


def test_a_theme_that_changes_while_pressing_stops_it(book: Path, site: Path) -> None:
    before = contents(site)
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")

    def meanwhile(words: str) -> None:
        (book / "theme").mkdir(exist_ok=True)
        (book / "theme" / "style.css").write_text("body {}")

    with pytest.raises(PressError, match="the theme changed while pressing"):
        press(book, "book", site, Options(told=lambda words: meanwhile(words) if words.startswith("Writing") else None))
    assert contents(site) == before


# -- kept -------------------------------------------------------------------------------------------------


def test_the_site_before_is_kept_apart_from_the_new_one(book: Path, site: Path) -> None:
    kept = site.with_name("before")
    for title in ("Talley", "Tallied"):
        before = contents(site)
        text = (book / "programs" / "tally.yaml").read_text()
        (book / "programs" / "tally.yaml").write_text(f"title: {title}\n" + text.partition("\n")[2])
        press(book, "book", site, Options(kept=kept))
        assert contents(kept) == before
    for path in contents(site):
        if (kept / path).exists():
            assert not os.path.samefile(site / path, kept / path)


def test_nothing_of_others_gives_way_to_what_is_kept(book: Path, site: Path) -> None:
    kept = site.with_name("before")
    kept.mkdir()
    (kept / "thesis.txt").write_text("all of it")
    with pytest.raises(PressError, match="was not pressed by Plateset"):
        press(book, "book", site, Options(kept=kept))
    assert (kept / "thesis.txt").read_text() == "all of it"


@pytest.mark.parametrize("place", ["site", "site/inside", ".", "book", "book/kept"])
def test_the_site_before_is_kept_beside_the_site_and_the_manuscript(place: str, book: Path, site: Path) -> None:
    kept = {"site": site, "site/inside": site / "inside", ".": site.parent}.get(place, book.parent / place)
    before = contents(site)
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    with pytest.raises(PressError, match="is, holds or lies inside"):
        press(book, "book", site, Options(kept=kept))
    assert contents(site) == before


def test_a_folder_to_keep_in_that_is_not_there_is_made(book: Path, site: Path) -> None:
    before = contents(site)
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    press(book, "book", site, Options(kept=site.parent / "deep" / "er" / "before"))
    assert contents(site.parent / "deep" / "er" / "before") == before
    assert contents(site) != before


def test_where_nothing_can_be_kept_nothing_is_replaced(book: Path, site: Path) -> None:
    before = contents(site)
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    (site.parent / "file").write_text("no folder")
    with pytest.raises(PressError, match=r"file/before could not be written: .*; nothing was replaced"):
        press(book, "book", site, Options(kept=site.parent / "file" / "before"))
    assert contents(site) == before
    assert sorted(path.name for path in site.parent.iterdir() if "pressing" in path.name) == []


@pytest.mark.parametrize("full", [False, True])
def test_the_site_before_is_kept_on_another_disk(
    full: bool, book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As the system would have it: a folder is not renamed from one disk to another."""
    kept, before, rename = site.with_name("before"), contents(site), os.rename
    change(book, "site.yaml", "title: Tannery", "title: Tannery Row")
    press(book, "book", site, Options(kept=kept))
    first = contents(kept)
    assert first == before
    before = contents(site)
    change(book, "site.yaml", "title: Tannery Row", "title: Tannery")

    def on_one_disk(old: str | Path, new: str | Path) -> None:
        if str(new).endswith(".before.pressing"):
            raise OSError(errno.EXDEV, "Invalid cross-device link")
        rename(old, new)

    def no_room(old: Path, new: Path, symlinks: bool) -> None:
        new.mkdir()
        (new / "half").write_text("")
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("plateset.publishing.bench.os.rename", on_one_disk)
    if full:
        monkeypatch.setattr("plateset.publishing.bench.shutil.copytree", no_room)
        with pytest.raises(PressError, match="No space left on device; nothing was replaced"):
            press(book, "book", site, Options(kept=kept))
        assert contents(site) == before
        assert contents(kept) == first
    else:
        press(book, "book", site, Options(kept=kept))
        assert contents(site) != before
        assert contents(kept) == before
    assert not site.with_name(".before.pressing").exists()


# -- workers ----------------------------------------------------------------------------------------------


def _die() -> int:
    os.kill(os.getpid(), signal.SIGKILL)
    return 1


def _hang() -> int:
    time.sleep(60)
    return 1


@pytest.mark.parametrize(("task", "word"), [(_die, "died"), (_hang, "hangs")])
def test_a_worker_that_dies_or_hangs_is_told_with_what_it_was_making(task: Callable[[], int], word: str) -> None:
    with (
        pytest.raises(WorkerError, match=f"a worker {word}, at work on programs/tally/week-1-a4.pdf; nothing was"),
        workers.workers(1) as executor,
    ):
        list(each_done(executor, [task], lambda: ["programs/tally/week-1-a4.pdf"], patience=5))


def test_a_worker_typesets_on_one_core(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(thrift.TYPESETTING_THREADS, raising=False)
    with workers.workers(1) as executor:
        assert executor.submit(os.getenv, thrift.TYPESETTING_THREADS).result(60) == "1"
    assert thrift.TYPESETTING_THREADS not in os.environ


def test_one_job_leaves_the_other_cores_alone(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv(thrift.TYPESETTING_THREADS, "")
    monkeypatch.delenv(thrift.TYPESETTING_THREADS)
    CliRunner().invoke(main, ["press", str(tmp_path), "--to", str(tmp_path / "site"), "--jobs", "2"])
    assert thrift.TYPESETTING_THREADS not in os.environ
    CliRunner().invoke(main, ["press", str(tmp_path), "--to", str(tmp_path / "site"), "--jobs", "1"])
    assert os.environ[thrift.TYPESETTING_THREADS] == "1"


def test_what_is_being_made_is_noted_until_it_is_done(tmp_path: Path) -> None:
    with studying.AtWork(tmp_path, "tally") as at_work_on:
        at_work_on.on("programs/tally/week-1-a4.pdf")
        at_work_on.on("programs/tally/week-1.html")
        assert studying.at_work(tmp_path) == ["programs/tally/week-1.html"]
    assert studying.at_work(tmp_path) == []


class Counting(Executor):
    """An executor of the caller's own."""

    def __init__(self) -> None:
        self.count = 0
        self._inner = ThreadPoolExecutor(1)

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        self.count += 1
        return self._inner.submit(fn, *args, **kwargs)


def test_workers_and_an_executor_of_ones_own_give_the_same_site(book: Path, site: Path) -> None:
    for number in range(4):
        text = TALLY.replace("title: Tally", f"title: Tally {number}")
        (book / "programs" / f"tally-{number}.yaml").write_text(text, "utf-8")
    mine = Counting()
    sites = [site.with_name(name) for name in ("here", "workers", "mine")]
    for place, options in zip(sites, (Options(jobs=1), Options(jobs=2), Options(executor=mine)), strict=True):
        press(book, "book", place, options)
    assert mine.count == 10  # each of five programs is studied, then made
    assert contents(sites[0]) == contents(sites[1]) == contents(sites[2])


def test_a_worker_writes_only_where_it_is_told(tmp_path: Path) -> None:
    entry = write_file(tmp_path, "a/b.html", b"page")
    assert (entry.path, entry.size) == ("a/b.html", 4)
    assert contents(tmp_path) == {"a/b.html": b"page"}

"""A manuscript of any bytes put through the proof: what came of it, and that all of it can be told."""

from __future__ import annotations

import json
import os
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory
from types import FrameType

from plateset.console import show_proofs
from plateset.problem_text import problem_text
from plateset.problems import ManuscriptError, Problem
from plateset.proof_json import problems_json, proofs_json
from plateset.proving import Proofs, proof
from rich.console import Console

from tests.publishing.building import BOOK

MOST_WORK = 30_000_000
"""Calls of functions that the proof of one small manuscript may take, whatever is in it: some seconds."""

Files = Mapping[str, str | bytes]


class TooMuchWorkError(AssertionError):
    """More was done than any manuscript may ask for."""


@contextmanager
def at_most(calls: int) -> Iterator[list[int]]:
    """Stop with :class:`TooMuchWorkError` after so many calls of functions; yields a list whose one item counts them.

    Calls are counted and not seconds, so that a busy machine changes nothing.
    """
    count = [0]

    def note(frame: FrameType, event: str, argument: object) -> None:
        if event in ("call", "c_call"):
            count[0] += 1
            if count[0] > calls:
                sys.setprofile(None)
                raise TooMuchWorkError(f"more than {calls:,} calls")

    sys.setprofile(note)
    try:
        yield count
    finally:
        sys.setprofile(None)


@contextmanager
def written(changes: Files) -> Iterator[Path]:
    """The small manuscript with some files in place of or beside its own."""
    with TemporaryDirectory() as place:
        folder = Path(place) / "book"
        for name, content in (dict(BOOK) | dict(changes)).items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8", "surrogatepass"))
        yield folder


def tried(folder: Path) -> Proofs | list[Problem]:
    """The proof of a manuscript, or its problems; either has been told in every way there is."""
    try:
        proofs = proof(folder, "book")
    except ManuscriptError as error:
        check_problems(folder, error.problems)
        return error.problems
    json.loads(proofs_json(proofs))
    show_proofs(proofs, Console(file=StringIO(), width=100))
    for mark in (*proofs.prose, *(mark for each in proofs.programs.values() for mark in each.marks)):
        check_place(folder, mark.place.path, mark.place.line)
    return proofs


def check_problems(folder: Path, problems: list[Problem]) -> None:
    """Every problem is placed in a file or folder of the manuscript, says what is wrong, and can be shown."""
    assert problems
    for problem in problems:
        check_place(folder, problem.place.path, problem.place.line)
        assert problem.message.strip()
        problem_text(problem).encode()
    json.loads(problems_json(ManuscriptError(problems)))


def check_place(folder: Path, shown: str, line: int) -> None:
    assert shown == "book" or shown.startswith("book/"), shown
    assert line >= 0
    if line:
        text = (folder.parent / shown).read_bytes().replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        assert line <= text.count(b"\n") + 1, (shown, line)


def outcome(result: Proofs | list[Problem]) -> str:
    """What came of it in a word."""
    if isinstance(result, list):
        return "problems"
    return "publishable" if result.may_be_published else "stopped"


COUNTS: Counter[str] = Counter()
"""What came of everything tried in this run."""


def run(changes: Files, limit: int = 0) -> Proofs | list[Problem]:
    """Write, try and count; with a ``limit`` to the work."""
    with written(changes) as folder:
        if limit:
            with at_most(limit):
                result = tried(folder)
        else:
            result = tried(folder)
    COUNTS[outcome(result)] += 1
    return result


def keep_counts() -> None:
    """Add what was counted to the file that ``PLATESET_FUZZ_COUNTS`` names, if it does."""
    name = os.environ.get("PLATESET_FUZZ_COUNTS")
    if name and COUNTS:
        with Path(name).open("a") as file:
            file.write(json.dumps(dict(sorted(COUNTS.items()))) + "\n")

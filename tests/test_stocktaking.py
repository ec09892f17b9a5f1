"""What a site is made from, by its hashes; and what has changed of it since, without reading all of it again."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from plateset import stocktaking
from plateset.stocktaking import Stock, changed_since, take_stock

from tests.publishing.building import BOOK, write_book
from tests.test_ledger import change


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book")


def take(book: Path) -> Stock:
    return take_stock(book, "book", draft=False)


def changed(stock: Stock, book: Path) -> list[str]:
    return changed_since(stock, book, "book", draft=False)


@pytest.fixture
def settled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Files count as old however new they are."""
    monkeypatch.setattr(stocktaking, "SETTLED", -(10**15))


def _same_length(book: Path) -> None:
    path = book / "programs" / "tally.yaml"
    times = path.stat()
    change(book, "programs/tally.yaml", "title: Tally", "title: Tolly")
    os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns))


def _replaced(book: Path) -> None:
    (book / "new").write_text(BOOK["exercises/plank.md"] + "More.\n", "utf-8")
    os.replace(book / "new", book / "exercises" / "plank.md")


CHANGES: dict[str, tuple[Callable[[Path], object], list[str]]] = {
    "nothing": (lambda book: None, []),
    "another time alone": (lambda book: os.utime(book / "site.yaml", (0, 0)), []),
    "a text": (lambda book: change(book, "site.yaml", "cold room", "warm room"), ["site site"]),
    "a text of the same length and time": (_same_length, ["program tally"]),
    "another file in its place": (_replaced, ["exercise plank"]),
    "a file added": (
        lambda book: write_book(book, {"programs/new.yaml": BOOK["programs/tally.yaml"]}),
        ["program new"],
    ),
    "a file taken away": (lambda book: (book / "programs" / "tally.yaml").unlink(), ["program tally"]),
    "the site taken away": (lambda book: (book / "site.yaml").unlink(), ["site site"]),
    "a theme": (lambda book: write_book(book, {"theme/style.css": "body {}"}), ["the manuscript's theme"]),
}


@pytest.mark.parametrize("what", CHANGES)
def test_what_has_changed_of_files_just_written_is_told_by_their_hashes(what: str, book: Path) -> None:
    stock = take(book)
    assert stock.looks == {}
    CHANGES[what][0](book)
    assert changed(stock, book) == CHANGES[what][1]


@pytest.mark.parametrize("what", CHANGES)
@pytest.mark.usefixtures("settled")
def test_what_has_changed_of_older_files_is_told_by_their_looks_at_first(what: str, book: Path) -> None:
    stock = take(book)
    assert sorted(stock.looks) == sorted(name for name in stock.everything if not name.startswith(("the ", "P", "d")))
    CHANGES[what][0](book)
    assert changed(stock, book) == CHANGES[what][1]


@pytest.mark.usefixtures("settled")
def test_files_that_look_as_they_did_are_not_read_again(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(*given: object) -> None:
        raise AssertionError("nothing is to be read")

    stock = take(book)
    monkeypatch.setattr(stocktaking, "read_sources", forbidden)
    monkeypatch.setattr(stocktaking, "_hash_of", forbidden)
    assert changed(stock, book) == []

"""Whether a pressed folder is whole: every file there and as it was made, and every link within it leads somewhere."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Literal
from urllib.parse import unquote, urlsplit

from plateset.publishing.marker import MARKER, Entry, entry_of, files_announced, is_inside, others_in, read_marker

Fault = Literal["missing", "changed", "broken link", "foreign"]


class NotPressedError(Exception):
    """The folder is not one that was pressed."""


@dataclass(frozen=True, order=True)
class Finding:
    """One thing that is not as it was pressed; ``path`` is the file, from the folder."""

    fault: Fault
    path: str
    words: str


@dataclass(frozen=True)
class Collation:
    """What was looked at and what was found. A foreign file is told, but does no harm."""

    files: int
    links: int
    findings: tuple[Finding, ...]

    @property
    def is_whole(self) -> bool:
        """Whether readers will find everything as it was pressed."""
        return all(finding.fault == "foreign" for finding in self.findings)


def collate(folder: Path) -> Collation:
    """Check a pressed folder against its own list. Raises :class:`NotPressedError` and OSError."""
    if not folder.is_dir():
        raise NotPressedError(f"there is no folder {folder}" if not folder.exists() else f"{folder} is not a folder")
    made = read_marker(folder)
    if not made:
        raise NotPressedError(
            f"{folder} was not pressed by Plateset, or its .plateset file was left behind or is damaged"
        )
    found = {path: data for path in made if is_inside(path) and (data := _bytes(folder / path)) is not None}
    pages = {path: _Page(data.decode("utf-8", "replace")) for path, data in found.items() if path.endswith(".html")}
    foreign = others_in(folder, made)
    links = [(path, link) for path, page in pages.items() for link in page.links if _is_inner(link)]
    there = {*found, *foreign}
    announced = files_announced(folder)
    findings = [
        *_counted(len(made) if announced is None else announced, len(made)),
        *_compared(made, found),
        *(finding for path, link in links for finding in _followed(path, link, there, pages)),
        *(Finding("foreign", path, "not made by Plateset; the next press refuses to replace it") for path in foreign),
    ]
    return Collation(len(found), len(links), tuple(sorted(set(findings))))


def _bytes(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _counted(announced: int, listed: int) -> Iterator[Finding]:
    """A list that was cut between two lines names only files that are there."""
    if announced != listed:
        yield Finding("changed", MARKER, f"it should list {announced:,} files and lists {listed:,}")


def _compared(made: Mapping[str, Entry | None], found: Mapping[str, bytes]) -> Iterator[Finding]:
    for path, entry in made.items():
        if path not in found:
            yield Finding("missing", path, "listed, and not there")
        elif entry is not None and entry != (now := entry_of(path, found[path])):
            size = f"{entry.size:,} bytes pressed, {now.size:,} there"
            yield Finding("changed", path, size if entry.size != now.size else "the same size, but other bytes")


class _Page(HTMLParser):
    """A page's links, and the names within it that a link may lead to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: set[str] = set()
        self.names = {"", "top"}
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what a tag leads to and what it is called."""
        for name, value in attrs:
            if name in ("href", "src", "data-library") and value:
                self.links.add(value)
            elif name == "id" and value:
                self.names.add(value)


def _is_inner(link: str) -> bool:
    try:
        address = urlsplit(link)
    except ValueError:
        return False
    return not address.scheme and not address.netloc


def _followed(page: str, link: str, there: set[str], pages: Mapping[str, _Page]) -> Iterator[Finding]:
    address = urlsplit(link)
    target = _target(page, unquote(address.path), there)
    if target is None:
        yield Finding("broken link", page, f"leads to {link}, which is not there")
    elif target in pages and unquote(address.fragment) not in pages[target].names:
        yield Finding("broken link", page, f"leads to {link}, and there is no such place on that page")


def _target(page: str, path: str, there: set[str]) -> str | None:
    """The file a link's path leads to. One from the host's root may begin with the path the site is hosted under."""
    if not path:
        return page
    if not path.startswith("/"):
        return _file(posixpath.normpath(posixpath.join(posixpath.dirname(page), path)), path, there)
    parts = path.strip("/").split("/")
    tries = ("/".join(parts[start:]) for start in range(len(parts)))
    return next((found for each in tries if (found := _file(each, path, there))), None)


def _file(target: str, path: str, there: set[str]) -> str | None:
    target = "" if target == "." else target
    index = f"{target}/index.html".lstrip("/")
    return target if target in there else index if index in there and (path.endswith("/") or not target) else None

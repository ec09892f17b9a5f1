"""Everything a site is made from, by the hashes of what it holds: the manuscript's files, themes, this package."""

from __future__ import annotations

import hashlib
import os
import platform
import time
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from plateset.digests import digest_of, digest_of_folders
from plateset.manuscript.files import FOLDERS, SITE_FILE, Kind, Source, names_on_disk, read_sources
from plateset.problems import Problem
from plateset.shipped import shipped
from plateset.theme_files import OWN, form_of

LIBRARIES = (
    "babel", "icalendar", "jinja2", "markdown-it-py", "markupsafe", "mdit-py-plugins", "plotly", "pydantic",
    "pyyaml", "segno", "typst", "xlsxwriter",
)  # fmt: skip
"""Libraries whose version can change what is made."""

TYPESETTER = ("publishing/typesetting.py", "publishing/pdf_packing.py", "not_made.py")
"""The modules a sheet's data goes through on its way to paper, and no other."""


SETTLED = 2_000_000_000
"""Nanoseconds after which a file that is written again has another time on every disk: the coarsest count by two
seconds (FAT, by its specification)."""

Look = tuple[int, int, int, int]
"""A file by what the disk says of it: its number, its size, and when it was last written and last changed (ns)."""


@dataclass(frozen=True)
class Stock:
    """The manuscript's files as read, and the digest of everything that counts, each by a name.

    ``looks`` are those of files that were old enough before they were read to be told by their looks alone.
    """

    sources: tuple[Source, ...]
    problems: tuple[Problem, ...]
    names: Mapping[Kind, frozenset[str]]
    everything: Mapping[str, str]
    looks: Mapping[str, Look] = field(default_factory=dict)

    @property
    def digests(self) -> dict[tuple[str, str], str]:
        """The manuscript's files by kind and name."""
        return {(source.kind, source.slug): source.digest for source in self.sources}

    @property
    def beside_programs(self) -> dict[str, str]:
        """Everything but the programs."""
        return {name: digest for name, digest in self.everything.items() if not name.startswith("program ")}


def take_stock(folder: Path, shown_as: str, *, draft: bool) -> Stock:
    """Read and hash everything; nothing is understood yet."""
    looks = _looks(folder)
    sources, problems = read_sources(folder, shown_as)
    everything = {_name(source): source.digest for source in sources}
    everything |= _beside_sources(folder, draft=draft)
    return Stock(tuple(sources), tuple(problems), names_on_disk(folder), everything, looks)


def changed_since(stock: Stock, folder: Path, shown_as: str, *, draft: bool) -> list[str]:
    """The names of what has changed since ``stock`` was taken. Files that look as they did are not read again."""
    looks, names = _looks(folder), names_on_disk(folder)
    if names == stock.names and all(looks.get(name) == look for name, look in stock.looks.items()):
        unsettled = [source for source in stock.sources if _name(source) not in stock.looks]
        now = {_name(source): source.digest for source in stock.sources}
        now |= {_name(source): _hash_of(_place(folder, source.kind, source.slug)) for source in unsettled}
        now |= _beside_sources(folder, draft=draft)
    else:
        now = dict(take_stock(folder, shown_as, draft=draft).everything)
    return sorted(name for name in {*now, *stock.everything} if now.get(name) != stock.everything.get(name))


def _beside_sources(folder: Path, *, draft: bool) -> dict[str, str]:
    own = folder / OWN
    return {
        "draft": str(draft),
        "the manuscript's theme": digest_of((digest_of_folders([own] if own.is_dir() else []), form_of(folder))),
        "the shipped themes": digest_of_folders([shipped("themes")]),
        "Plateset or a library": tool_digest(),
    }


def _name(source: Source) -> str:
    return f"{source.kind} {source.slug}"


def _place(folder: Path, kind: Kind, slug: str) -> Path:
    for inside, (of, ending) in FOLDERS.items():
        if of == kind:
            return folder / inside / f"{slug}{ending}"
    return folder / SITE_FILE


def _looks(folder: Path) -> dict[str, Look]:
    """The looks of every file that has not been written just now; those of others tell nothing yet."""
    found: dict[str, Look] = {}
    now = time.time_ns()
    for inside, (kind, ending) in (("", ("site", ".yaml")), *FOLDERS.items()):
        try:
            with os.scandir(folder / inside) as entries:
                for each in entries:
                    if not each.name.endswith(ending):
                        continue
                    of = each.stat()
                    look = (of.st_ino, of.st_size, of.st_mtime_ns, of.st_ctime_ns)
                    if max(look[2:]) < now - SETTLED:
                        found[f"{kind} {each.name.removesuffix(ending)}"] = look
        except OSError:
            continue
    return found


def _hash_of(path: Path) -> str:
    """The digest of a file; empty where it cannot be read any more."""
    try:
        return _hash(path)
    except OSError:
        return ""


@cache
def tool_digest() -> str:
    """The digest of this package's files, of the versions of the libraries, the interpreter and the compressor."""
    package = Path(__file__).parent
    found = [(path.relative_to(package).as_posix(), _hash(path)) for path in sorted(package.rglob("*.py"))]
    versions = [(name, _version(name)) for name in LIBRARIES]
    return digest_of((found, versions, platform.python_version(), zlib.ZLIB_RUNTIME_VERSION))


@cache
def typesetter_digest() -> str:
    """The digest of what makes a sheet from its data."""
    package = Path(__file__).parent
    return digest_of(([_hash(package / name) for name in TYPESETTER], _version("typst"), zlib.ZLIB_RUNTIME_VERSION))


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""


def _hash(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()

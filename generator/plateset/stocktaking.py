"""Everything a site is made from, by the hashes of what it holds: the manuscript's files, themes, this package."""

from __future__ import annotations

import hashlib
import platform
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from plateset.manuscript.files import Kind, Source, names_on_disk, read_sources
from plateset.manuscript.tracing import digest_of
from plateset.problems import Problem
from plateset.publishing.theme import digest_of_folders
from plateset.shipped import shipped

LIBRARIES = (
    "babel", "icalendar", "jinja2", "markdown-it-py", "markupsafe", "mdit-py-plugins", "plotly", "pydantic",
    "pyyaml", "segno", "typst", "xlsxwriter",
)  # fmt: skip
"""Libraries whose version can change what is made."""

TYPESETTER = ("publishing/typesetting.py", "publishing/pdf_packing.py")
"""The modules a sheet's data goes through on its way to paper, and no other."""


@dataclass(frozen=True)
class Stock:
    """The manuscript's files as read, and the digest of everything that counts, each by a name."""

    sources: tuple[Source, ...]
    problems: tuple[Problem, ...]
    names: Mapping[Kind, frozenset[str]]
    everything: Mapping[str, str]

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
    sources, problems = read_sources(folder, shown_as)
    everything = {f"{source.kind} {source.slug}": source.digest for source in sources}
    own = folder / "theme"
    everything |= {
        "draft": str(draft),
        "the manuscript's theme": digest_of_folders([own] if own.is_dir() else []),
        "the shipped themes": digest_of_folders([shipped("themes")]),
        "Plateset or a library": tool_digest(),
    }
    return Stock(tuple(sources), tuple(problems), names_on_disk(folder), everything)


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

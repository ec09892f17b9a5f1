"""Starting a manuscript, or one more file of it: filled in, valid as it stands, never in place of what is there."""

from __future__ import annotations

import os
import re
import textwrap
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, get_args

from plateset.editor_schema import schema_files, with_help
from plateset.manuscript import vocabulary
from plateset.manuscript.files import FOLDERS, SITE_FILE, Kind, names_on_disk, read_sources
from plateset.manuscript.links import links_of
from plateset.manuscript.load import Document, load
from plateset.manuscript.positions import read_yaml
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.schema import Exercise
from plateset.manuscript.written import LONGEST_NAME, SLUG
from plateset.problems import ManuscriptError, Problem, nearest_word
from plateset.shipped import shipped

Name = tuple[Kind, str]
"""A file by its kind and name, such as ('exercise', 'plank')."""

STARTED: tuple[Kind, ...] = ("program", "exercise", "technique", "explainer")
"""The kinds of file that may be started one by one."""

_FOLDER_OF = {kind: (folder, ending) for folder, (kind, ending) in FOLDERS.items()}
_LISTS = {
    "LEVELS": get_args(vocabulary.Level),
    "GOALS": get_args(vocabulary.Goal),
    "IMPLEMENTS": get_args(vocabulary.Implement),
    "#MUSCLES": get_args(vocabulary.Muscle),
    "#MOVEMENTS": get_args(vocabulary.Movement),
    "#KITS": get_args(vocabulary.Kit),
    "#TECHNIQUES": get_args(vocabulary.TechniqueName),
}
"""Words a starter lists: within a line, or ('#') as lines of comment of their own."""


class DraftError(Exception):
    """Nothing can be started here; nothing was written."""


@dataclass(frozen=True)
class Drafted:
    """What was written, as paths in the manuscript: what was asked for, and the notes and schemas it came with."""

    asked: tuple[str, ...]
    besides: tuple[str, ...]


# -- a manuscript --------------------------------------------------------------------------------------


def draft_manuscript(folder: Path) -> int:
    """Write a manuscript into ``folder``; returns the number of files. Raises :class:`DraftError`."""
    try:
        taken = folder.exists() and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as error:
        raise DraftError(f"{folder} cannot be looked at: {error.strerror or error}") from error
    if taken and not folder.is_dir():
        raise DraftError(f"{folder} is a file; name a new folder")
    if taken:
        raise DraftError(f"{folder} is not empty; name a new folder{_inside(folder)}")
    program = _starter("first-program.yaml")
    texts = {
        SITE_FILE: with_help("site", _starter("site.yaml")).encode(),
        path_of(("program", "first-program")): with_help("program", program).encode(),
    }
    texts |= _notes(_named_in(program)) | schema_files()
    try:
        _write_whole(texts, folder)
    except OSError as error:
        raise DraftError(f"{folder} could not be written: {error.strerror or error}") from error
    return len(texts)


def _inside(folder: Path) -> str:
    if not (folder / SITE_FILE).is_file():
        return ""
    return ", or a file to start in this manuscript: " + ", ".join(f"--{kind} NAME" for kind in STARTED)


def _write_whole(texts: Mapping[str, bytes], folder: Path) -> None:
    """All files or none: written aside, then put in place of the folder, which is new or empty."""
    folder = Path(os.path.abspath(folder))
    folder.parent.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix=".draft-", dir=folder.parent) as aside:
        _write_into(Path(aside) / "whole", texts)
        _put(Path(aside) / "whole", folder)


def _write_into(folder: Path, texts: Mapping[str, bytes]) -> None:
    for path, text in texts.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(text)


def _put(whole: Path, folder: Path) -> None:
    if not folder.exists():
        os.replace(whole, folder)
        return
    # A folder that is there stays the one the author may be standing in.
    for entry in sorted(whole.iterdir()):
        os.replace(entry, folder / entry.name)


# -- one more file -------------------------------------------------------------------------------------


def draft_files(manuscript: Path, wanted: tuple[Name, ...], today: date) -> Drafted:
    """Start the files in ``wanted`` in a manuscript, with any shipped notes they lead to that are not there yet.

    An exercise or technique that is among the shipped notes is copied from there. ``today`` is the date a program or
    an explainer starts with. Raises :class:`DraftError`; nothing is written then.
    """
    try:
        return _draft_files(manuscript, wanted, today)
    except OSError as error:
        raise DraftError(f"{manuscript} could not be written: {error.strerror or error}") from error


def _draft_files(manuscript: Path, wanted: tuple[Name, ...], today: date) -> Drafted:
    if not (manuscript / SITE_FILE).is_file():
        start = f"start one with: plateset draft {manuscript}" if not manuscript.exists() else "name its folder"
        raise DraftError(f"{manuscript} is no manuscript, there is no {SITE_FILE} in it; {start}")
    there = {(kind, slug) for kind, slugs in names_on_disk(manuscript).items() for slug in slugs}
    for name in wanted:
        _check_name(name, there)
    shelf = _shelf()
    asked = {path_of(name): _text(name, shelf, today) for name in wanted}
    leads_to = [name for each in wanted for name in _leads_to(each, shelf)]
    besides = {path: text for path, text in _notes(leads_to, there | set(wanted)).items() if path not in asked}
    besides |= {path: data for path, data in schema_files().items() if not (manuscript / path).exists()}
    _check_stands(manuscript, asked | besides)
    _add(asked | besides, manuscript)
    return Drafted(tuple(asked), tuple(sorted(besides)))


def path_of(name: Name) -> str:
    """Where a file stands in a manuscript."""
    folder, ending = _FOLDER_OF[name[0]]
    return f"{folder}/{name[1]}{ending}"


def _check_name(name: Name, there: set[Name]) -> None:
    kind, slug = name
    if name in there:
        raise DraftError(f"{path_of(name)} is there already; name another")
    if not SLUG.fullmatch(slug) or len(slug) > LONGEST_NAME:
        expected = f"small letters, digits and single hyphens, at most {LONGEST_NAME}, such as back-squat"
        raise DraftError(f"{slug!r} cannot be a name; {expected}")
    if kind == "technique" and slug not in vocabulary.TECHNIQUE_NAMES:
        nearest = nearest_word(slug, vocabulary.TECHNIQUE_NAMES)
        told = f"; nearest: {nearest}" if nearest else ""
        raise DraftError(f"there is no technique {slug!r}; one of: {', '.join(vocabulary.TECHNIQUE_NAMES)}{told}")


def _text(name: Name, shelf: Mapping[Name, Document[Any]], today: date) -> bytes:
    kind, slug = name
    if name in shelf:
        return with_help(kind, shelf[name].source.text).encode()
    text = _starter(f"{kind}{_FOLDER_OF[kind][1]}")
    for word, words in _LISTS.items():
        text = text.replace(word, _comment(words) if word.startswith("#") else ", ".join(words))
    title = slug.replace("-", " ").capitalize()
    if not isinstance(read_yaml(title).data, str):  # a number, a day, or what YAML takes for no value
        title = f'"{title}"'
    return with_help(kind, text.replace("TITLE", title).replace("TODAY", f"{today}").replace("NAME", slug)).encode()


def _comment(words: tuple[str, ...]) -> str:
    kept_whole = ", ".join(word.replace(" ", "\N{NO-BREAK SPACE}") for word in words)
    lines = textwrap.wrap(kept_whole, 100, initial_indent="#   ", subsequent_indent="#   ", break_on_hyphens=False)
    return "\n".join(lines).replace("\N{NO-BREAK SPACE}", " ")


def _leads_to(name: Name, shelf: Mapping[Name, Document[Any]]) -> list[Name]:
    if name in shelf:
        return _named_by(shelf[name])
    return _named_in(_starter("program.yaml")) if name[0] == "program" else []


def _check_stands(manuscript: Path, texts: Mapping[str, bytes]) -> None:
    """Refuse files that would bring a problem the manuscript does not have yet: a max taken from two lifts off."""
    sources, _ = read_sources(manuscript, "")
    now = {source.path.lstrip("/"): source.text.encode() for source in sources}
    new = set(_problems({**now, **texts})) - set(_problems(now))
    if new:
        first = min(new)
        expected = f" Expected: {first.expected}" if first.expected else ""
        place = str(first.place).lstrip("/")
        raise DraftError(f"with these files there would be a problem at {place}: {first.message}.{expected}")


def _problems(texts: Mapping[str, bytes]) -> list[Problem]:
    with TemporaryDirectory() as folder:
        _write_into(Path(folder), texts)
        try:
            read_manuscript(Path(folder), "")
        except ManuscriptError as error:
            return error.problems
    return []


def _add(texts: Mapping[str, bytes], manuscript: Path) -> None:
    """All files or none; a file that has come to be there in the meantime is not touched."""
    written: list[Path] = []
    try:
        for path, text in texts.items():
            (manuscript / path).parent.mkdir(exist_ok=True)
            with (manuscript / path).open("xb") as stream:
                written.append(manuscript / path)
                stream.write(text)
    except OSError:
        for place in written:
            place.unlink()
        raise


# -- starters and shipped notes ------------------------------------------------------------------------


def _starter(name: str) -> str:
    return (Path(str(files("plateset"))) / "starters" / name).read_text("utf-8")


def _notes(wanted: list[Name], there: set[Name] | None = None) -> dict[str, bytes]:
    """The shipped notes in ``wanted``, and all that those refer to, but for what is there already."""
    shelf = _shelf()
    waiting = list(wanted)
    taken: dict[Name, bytes] = {}
    while waiting:
        name = waiting.pop()
        if name not in taken and name in shelf and name not in (there or ()):
            taken[name] = with_help(name[0], shelf[name].source.text).encode()
            waiting += _named_by(shelf[name])
    return {path_of(name): taken[name] for name in sorted(taken)}


def _named_in(program: str) -> list[Name]:
    """The shipped notes whose names stand in a program's text, its comments left out."""
    said = re.sub(r"#.*", "", program)
    return [name for name in _shelf() if re.search(rf"(?<![a-z0-9-]){name[1]}(?![a-z0-9-])", said)]


def _shelf() -> dict[Name, Document[Any]]:
    """Every shipped exercise and technique note."""
    sources, _ = read_sources(shipped("content"), "content")
    documents = [load(source) for source in sources if source.kind in ("exercise", "technique")]
    return {(d.source.kind, d.slug): d for d in documents if isinstance(d, Document)}


def _named_by(document: Document[Any]) -> list[Name]:
    """The notes that a note leads to."""
    names: list[Name] = [(kind, link.target) for link in links_of(document) for kind in STARTED if kind == link.scheme]
    if isinstance(document.head, Exercise):
        names += [("exercise", name) for name in document.head.substitutes]
        names += [("technique", name) for name in document.head.not_with]
        if document.head.max_from:
            names.append(("exercise", document.head.max_from.exercise))
    return names

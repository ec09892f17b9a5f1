"""Links in the author's Markdown: where each stands, what it names, and whether that is there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from markdown_it.token import Token

from plateset.manuscript.check_names import missing_name
from plateset.manuscript.desk import KINDS, Desk
from plateset.manuscript.files import Kind
from plateset.manuscript.load import Document
from plateset.manuscript.markdown import (
    NAMED_SCHEMES,
    WEB_SCHEMES,
    markdown_inspector,
    scheme_of,
    target_of,
)
from plateset.problems import Place, Problem, nearest_word

PICTURE = "picture"
BROKEN = "broken"
"""What was meant for a link, but does not read as one."""
_KIND_OF: dict[str, Kind] = {
    "exercise": "exercise",
    "technique": "technique",
    "program": "program",
    "explainer": "explainer",
    "figure": "program",
}
_EXPECTED = "exercise:, technique:, program:, explainer: or figure: and a name, or a whole https:// address"


_KEY_OF_TEXT: dict[Kind, str] = {"site": "about", "program": "text"}
"""Where Markdown stands under a key of the head; elsewhere it is the body."""


@dataclass(frozen=True)
class Link:
    """One link of a file: ``scheme`` and ``target`` of its address, its text, and where the address starts.

    A picture is a link with the scheme :data:`PICTURE`, what only looks like a link one with :data:`BROKEN`.
    """

    scheme: str
    target: str
    text: str
    line: int
    column: int
    width: int


def links_of(document: Document[Any]) -> tuple[Link, ...]:
    """Every link of a note's or explainer's body, a program's ``text`` or the site's ``about``, in their order."""
    text, first_line = prose_of(document)
    return _links(document.source.lines, text, first_line) if text.strip() else ()


def prose_of(document: Document[Any]) -> tuple[str, int]:
    """A file's Markdown, empty if there is none, and the line it is written from on."""
    key = _KEY_OF_TEXT.get(document.source.kind)
    if key is None:
        return document.body, document.body_line
    text = document.marked.data.get(key)
    return (text, document.place((key,)).line) if isinstance(text, str) else ("", 1)


def place_of(document: Document[Any], link: Link) -> Place:
    """The place of a link's address in its file."""
    return document.source.place(link.line, link.column, link.width)


_MAY_BE_ONE = re.compile(r"[\[\]<]")
"""Without any of these there is no link, nor what was meant for one."""


@lru_cache(maxsize=4096)  # the check, the proof and the next press ask for the same
def _links(lines: tuple[str, ...], text: str, first_line: int) -> tuple[Link, ...]:
    if not _MAY_BE_ONE.search(text):
        return ()
    links: list[Link] = []
    line, column = first_line, 0
    unfound: set[str] = set()  # written in another way, and further on as well: not to be looked for again
    for token in markdown_inspector().parse(text):
        for scheme, address, words in _addresses(token):
            found = None if address in unfound else _find(lines, address, line, column)
            if found is None:
                unfound.add(address)
            line, column = found or (line, column)
            target = address if scheme in (PICTURE, BROKEN) else target_of(address)
            width = len(address) if found else 1
            links.append(Link(scheme, target, words, line, max(column, 1), width))
    return tuple(links)


_LOOKS_LIKE_ONE = re.compile(rf"\][(\[]\s*<?((?:{'|'.join(NAMED_SCHEMES)}):[^()\[\]\n]*)[)\]]")


def _addresses(block: Token) -> Iterator[tuple[str, str, str]]:
    """Scheme, address and text of each link in an inline token."""
    inside = block.children or []
    for index, token in enumerate(inside):
        if token.type == "image":
            yield PICTURE, str(token.attrs.get("src", "")), token.content
        elif token.type == "link_open":
            address = str(token.attrs.get("href", ""))
            yield scheme_of(address), address, _text_from(inside, index + 1)
        elif token.type == "text":
            yield from ((BROKEN, match[1], "") for match in _LOOKS_LIKE_ONE.finditer(token.content))


def _text_from(tokens: list[Token], start: int) -> str:
    words = []
    for token in tokens[start:]:
        if token.type == "link_close":
            break
        words.append(" " if token.type in ("softbreak", "hardbreak") else token.content)
    return "".join(words).strip()


def _find(lines: tuple[str, ...], address: str, line: int, column: int) -> tuple[int, int] | None:
    """Where ``address`` is written next, from the place given on: in a link, or else anywhere."""
    bare = address.removeprefix("mailto:")
    in_link = re.compile(rf"\][(\[]\s*<?(?={re.escape(address)}[\s>)\]])|<(?={re.escape(bare)}>)")
    anywhere = re.compile(rf"(?={re.escape(address)})")
    return find_pattern(lines, in_link, line, column) or find_pattern(lines, anywhere, line, column)


def find_pattern(lines: tuple[str, ...], pattern: re.Pattern[str], line: int, column: int) -> tuple[int, int] | None:
    """The line and the column behind what ``pattern`` matches next, from the place given on."""
    for number in range(line, len(lines) + 1):
        match = pattern.search(lines[number - 1], column if number == line else 0)
        if match:
            return number, match.end() + 1
    return None


def targets_of_links(desk: Desk) -> Iterator[Problem]:
    """Each link is of a kind that is allowed, and names something that is there."""
    for kind in KINDS:
        for document in desk.as_written(kind):
            for link in links_of(document):
                yield from _wrong_link(desk, link, place_of(document, link))


def _wrong_link(desk: Desk, link: Link, place: Place) -> Iterator[Problem]:
    if link.scheme == BROKEN:
        message = f"{link.target!r} is not the address of a link"
        yield Problem(place, message, "[words](exercise:back-squat), in round brackets and without spaces")
    elif link.scheme == PICTURE:
        yield Problem(place, "pictures are not shown", "words, or a link to the picture")
    elif link.scheme in NAMED_SCHEMES:
        name = link.target.split("/")[0] if link.scheme == "figure" else link.target
        yield from missing_name(desk, _KIND_OF[link.scheme], name, place)
        if not link.text and link.scheme != "figure":
            yield Problem(place, "this link has no words to click on", "[words](address)")
    elif link.scheme in WEB_SCHEMES:
        if not link.target.strip("/"):
            yield Problem(place, "this address leads nowhere", _EXPECTED)
    elif link.scheme:
        yield Problem(
            place,
            f"links to {link.scheme + ':'!r} are not made",
            _EXPECTED,
            nearest_word(link.scheme, NAMED_SCHEMES),
        )
    else:
        yield Problem(place, f"{link.target!r} is not a whole address", _EXPECTED)

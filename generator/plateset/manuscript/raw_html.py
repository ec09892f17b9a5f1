"""HTML in the author's Markdown: pages would show it as it is written, so it is told beforehand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple

from markdown_it.token import Token

from plateset.manuscript.desk import KINDS, Desk
from plateset.manuscript.links import find_pattern, prose_of
from plateset.manuscript.load import Document
from plateset.manuscript.markdown import markdown_tag_finder
from plateset.problems import Problem

_MAY_BE_ONE = re.compile(r"<[A-Za-z/!?]")
"""Without this there is no tag; '< 5 repetitions' is none."""
_UNENDED = re.compile(r"\s*(<!--|<\?)")
"""What a block may begin with that is HTML to the end of the text if nothing closes it."""
_NAME = re.compile(r"</?([A-Za-z][A-Za-z0-9-]*)")

_MESSAGE = "this is HTML, which pages do not take: they would show it as it is written"
_EXPECTED = r"Markdown, such as **strong**; or \< in place of < where it is to be seen"


class _Piece(NamedTuple):
    """A tag, a comment or a piece of code as written, and how many lines of the text stand above its block."""

    text: str
    above: int
    is_code: bool = False


def html_in_prose(desk: Desk) -> Iterator[Problem]:
    """No tag or comment stands in Markdown; a pair of tags is told where it begins."""
    for kind in KINDS:
        for document in desk.as_written(kind):
            text, first_line = prose_of(document)
            if _MAY_BE_ONE.search(text):
                yield from _told(document, text, first_line)


def _told(document: Document[Any], text: str, first_line: int) -> Iterator[Problem]:
    lines, begun, at = document.source.lines, set[str](), (first_line, 0)
    for piece in _pieces(text):
        shown = piece.text.split("\n")[0]
        pattern = re.compile(rf"(?<!\\)(?={re.escape(shown)})")
        # In quotes several lines of the text may be one of the file: then what stands above says nothing.
        below = max(at, (first_line + piece.above, 0))
        found = find_pattern(lines, pattern, *below) or find_pattern(lines, pattern, *at)
        if found:
            at = found[0], found[1] - 1 + len(shown)  # the next one stands behind it
        if not piece.is_code and not _ends(piece.text, begun):
            place = document.source.place(*found, len(shown)) if found else document.source.place(at[0], 1)
            yield Problem(place, _MESSAGE, _EXPECTED)


def _ends(tag: str, begun: set[str]) -> bool:
    """Whether a tag is the end of one that was told; another is noted as begun."""
    name = _NAME.match(tag)
    if name and tag.startswith("</") and name[1] in begun:
        return True
    begun |= {name[1]} if name else set()
    return False


@lru_cache(maxsize=4096)  # a preview checks every file at every save
def _pieces(text: str) -> tuple[_Piece, ...]:
    """Every tag and comment of a text in their order, and the code among them."""
    return tuple(piece for block in markdown_tag_finder().parse(text) for piece in _pieces_of(block))


def _pieces_of(block: Token) -> Iterator[_Piece]:
    above, inside = block.map[0] if block.map else 0, block.children or []
    if block.type == "html_block":
        inside = markdown_tag_finder().parseInline(block.content)[0].children or []
        unended = _UNENDED.match(block.content)
        if unended and not any(each.type == "html_inline" for each in inside):
            yield _Piece(unended[1], above)
    for each in inside:
        if each.type in ("html_inline", "code_inline"):
            yield _Piece(each.content, above, is_code=each.type == "code_inline")

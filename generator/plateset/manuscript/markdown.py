"""The one reader of Markdown: CommonMark with tables, no raw HTML, links that may name things of the site.

Both the check of links and the pages use it, so that what was checked is what is shown.
"""

from __future__ import annotations

import re
from functools import cache
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.rules_inline import StateInline

NAMED_SCHEMES = ("exercise", "technique", "program", "explainer", "figure")
"""Schemes of the manuscript itself; the pages put addresses or values in their place."""

WEB_SCHEMES = ("https", "http", "mailto")

_SCHEME = re.compile(r"([A-Za-z][A-Za-z0-9+.-]*):")
_FIGURE = re.compile(r"\(\s*(?:<(figure:[^<>()\n]*)>|(figure:[^<>()\n]*?))\s*\)")


def scheme_of(address: str) -> str:
    """The scheme of a link's address in small letters; empty for one without."""
    match = _SCHEME.match(address)
    return match[1].lower() if match else ""


def target_of(address: str) -> str:
    """What stands behind the scheme, with percent escapes undone for the manuscript's own schemes."""
    scheme = scheme_of(address)
    rest = address[len(scheme) + 1 :] if scheme else address
    return unquote(rest) if scheme in NAMED_SCHEMES else rest


class _Reader(MarkdownIt):
    """Markdown whose links are of the allowed schemes; others stay plain text."""

    def validateLink(self, url: str) -> bool:  # noqa: N802 (the library's name)
        return scheme_of(url) in (*NAMED_SCHEMES, *WEB_SCHEMES)

    def normalizeLink(self, url: str) -> str:  # noqa: N802 (the library's name)
        return url if scheme_of(url) in NAMED_SCHEMES else super().normalizeLink(url)


class _Inspector(MarkdownIt):
    """Markdown that lets every link through as it is written, for the check to judge."""

    def validateLink(self, url: str) -> bool:  # noqa: N802 (the library's name)
        return True

    def normalizeLink(self, url: str) -> str:  # noqa: N802 (the library's name)
        return url


@cache
def markdown_reader() -> MarkdownIt:
    """The reader the pages are made with."""
    reader = _Reader("commonmark", {"html": False, "linkify": False, "typographer": False})
    reader.disable("image")
    return _set_up(reader)


@cache
def markdown_inspector() -> MarkdownIt:
    """The same reader with nothing refused: links of any scheme, and pictures."""
    return _set_up(_Inspector("commonmark", {"html": False, "linkify": False, "typographer": False}))


@cache
def markdown_tag_finder() -> MarkdownIt:
    """The same reader with HTML let through as what it is, for the check to find it; no page is made with it."""
    return _set_up(_Inspector("commonmark", {"html": True, "linkify": False, "typographer": False}))


def _set_up(reader: MarkdownIt) -> MarkdownIt:
    reader.enable("table")
    reader.inline.ruler.before("link", "figure", _figure)
    reader.parse("Read once, so that threads find its rules in order, which it puts there at first use.")
    return reader


def _figure(state: StateInline, silent: bool) -> bool:
    """A link to a figure: its address may hold spaces, as CommonMark allows only between angle brackets."""
    if state.src[state.pos] != "[":
        return False
    start = state.pos + 1
    end = state.md.helpers.parseLinkLabel(state, state.pos, True)
    match = _FIGURE.match(state.src, end + 1) if end >= 0 else None
    if match is None:
        return False
    if not silent:
        _push_link(state, start, end, (match[1] or match[2]).strip())
    state.pos = match.end()
    return True


def _push_link(state: StateInline, start: int, end: int, address: str) -> None:
    limit = state.posMax
    state.pos, state.posMax = start, end
    state.push("link_open", "a", 1).attrs = {"href": address}
    state.linkLevel += 1
    state.md.inline.tokenize(state)
    state.linkLevel -= 1
    state.push("link_close", "a", -1)
    state.posMax = limit

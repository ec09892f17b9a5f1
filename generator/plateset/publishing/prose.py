"""Markdown of the manuscript to HTML: links that name things lead to their pages, figures are filled in."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape

from markdown_it.token import Token
from markupsafe import Markup

from plateset.manuscript.markdown import markdown_reader, scheme_of, target_of
from plateset.publishing import paths

Figure = Callable[[str], str]

_NO_TEXT = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")
"""What no text of a manuscript may hold, and a reference by its number ('&#12;') can still name."""


class Prose:
    """Renders author text for one page. ``figure`` gives the value of a figure address."""

    def __init__(self, page: str, figure: Figure) -> None:
        self._page = page
        self._figure = figure
        self._reader = markdown_reader()

    def html(self, text: str) -> Markup:
        """``text`` as HTML; safe to place in a page, since the reader lets no HTML through."""
        tokens = self._reader.parse(text)
        for token in tokens:
            if token.type in ("heading_open", "heading_close") and token.tag == "h1":
                token.tag = "h2"
            if token.children:
                token.children = self._resolved(token.children)
        tokens = [part for token in tokens for part in _scrollable(token)]
        html = self._reader.renderer.render(tokens, self._reader.options, {})
        return Markup(_NO_TEXT.sub("\ufffd", html))

    def _resolved(self, children: list[Token]) -> list[Token]:
        out: list[Token] = []
        inside_figure = 0  # how many links are open: an address in angle brackets is one too
        for token in children:
            address = str(token.attrs.get("href", "")) if token.type == "link_open" else ""
            if inside_figure:
                # What was typed between the brackets was checked by the proof; the plan's own value stands instead.
                inside_figure += token.nesting
            elif scheme_of(address) == "figure":
                out.append(_value(self._figure(target_of(address))))
                inside_figure = 1
            else:
                if address:
                    self._point(token, address)
                out.append(token)
        return out

    def _point(self, token: Token, address: str) -> None:
        page = paths.NAMED.get(scheme_of(address))
        if page:
            token.attrSet("href", paths.relative(page(target_of(address)), self._page))
        else:
            token.attrSet("rel", "noopener noreferrer")


def _scrollable(token: Token) -> list[Token]:
    """A table in a region of its own that the keyboard can reach and scroll, where a phone is too narrow for it."""
    if token.type == "table_open":
        return [_html_block('<div class="scroll" role="region" tabindex="0" aria-label="Table">'), token]
    return [token, _html_block("</div>")] if token.type == "table_close" else [token]


def _html_block(html: str) -> Token:
    return Token("html_block", "", 0, content=html + "\n", block=True)


def _value(text: str) -> Token:
    token = Token("html_inline", "", 0)
    token.content = f'<span class="figure">{escape(text)}</span>'
    return token

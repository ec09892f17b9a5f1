"""The card a page is shown with where someone passes its address on: 1200 by 630, set by the theme's ``card.typ``."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache

import typst

from plateset.not_made import NotMadeError
from plateset.publishing.typesetting import NOWHERE, printable
from plateset.publishing.views import Fact, SiteView

WIDTH, HEIGHT = 1200, 630


class CardError(NotMadeError):
    """A card could not be set; the message names the page."""


@dataclass(frozen=True)
class Card:
    """What a card says: a kind ('Program'), a title, and a sentence or some figures."""

    kind: str
    title: str
    summary: str
    figures: tuple[Fact, ...] = ()

    def words(self, site: SiteView) -> str:
        """The card in words, for those who do not see it."""
        figures = "; ".join(f"{fact.label}: {fact.value}" for fact in self.figures)
        said = (self.title, self.kind, figures or self.summary.rstrip("."), site.title)
        return ". ".join(dict.fromkeys(part for part in said if part)) + "."


def card_image(card: Card, site: SiteView, template: bytes) -> bytes:
    """The card as PNG. Equal input gives equal bytes. Raises :class:`CardError`."""
    files = {"main.typ": template, "data.json": json.dumps(card_data(card, site), ensure_ascii=False).encode()}
    try:
        image, warnings = _compiler().compile_with_warnings(
            files,  # type: ignore[type-var]
            root=NOWHERE,
            format="png",
            ppi=72,
        )
    except typst.TypstError as error:
        raise CardError(f"The card of {card.title!r} could not be set: {error.message}") from error
    if warnings:
        said = "; ".join(sorted({warning.message for warning in warnings}))
        raise CardError(f"The card of {card.title!r} was set with warnings: {said}")
    if not isinstance(image, bytes):
        raise CardError(f"The card of {card.title!r} does not fit on one page")
    return image


def card_data(card: Card, site: SiteView) -> dict[str, object]:
    """What the template is given."""
    return {
        "site": printable(site.title),
        "kind": printable(card.kind),
        "title": printable(card.title),
        "summary": printable(card.summary),
        "accent": site.accent,
        "figures": [{"label": printable(each.label), "value": printable(each.value)} for each in card.figures],
    }


@cache
def _compiler() -> typst.Compiler:
    # Fonts of the machine would make the same manuscript look different elsewhere.
    return typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False))

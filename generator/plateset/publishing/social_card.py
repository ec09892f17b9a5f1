"""The card a page is shown with where someone passes its address on: 1200 by 630, set by the theme's ``card.typ``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, partial

import typst

from plateset.not_made import NotMadeError
from plateset.publishing.typesetting import NOWHERE, Data, PanicError, refusing, set_somehow
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
    try:
        return set_somehow(card_data(card, site), (), partial(_set, card, template))
    except PanicError as error:
        raise CardError(f"The card of {card.title!r} could not be set: {error}") from error
    except typst.TypstError as error:
        raise CardError(f"The card of {card.title!r} could not be set: {error.message}") from error


def _set(card: Card, template: bytes, written: str) -> bytes:
    with refusing():
        image, warnings = _compiler().compile_with_warnings(
            {"main.typ": template, "data.json": written.encode()},  # type: ignore[type-var]
            root=NOWHERE,
            format="png",
            ppi=72,
        )
    if warnings:
        said = "; ".join(sorted({warning.message for warning in warnings}))
        raise CardError(f"The card of {card.title!r} was set with warnings: {said}")
    if not isinstance(image, bytes):
        raise CardError(f"The card of {card.title!r} does not fit on one page")
    return image


def card_data(card: Card, site: SiteView) -> Data:
    """What the template is given."""
    return {
        "site": site.title,
        "kind": card.kind,
        "title": card.title,
        "summary": card.summary,
        "accent": site.accent,
        "figures": [{"label": each.label, "value": each.value} for each in card.figures],
    }


@cache
def _compiler() -> typst.Compiler:
    # Fonts of the machine would make the same manuscript look different elsewhere.
    return typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False))

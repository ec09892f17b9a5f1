"""What every file of a site is made with: what all pages share, the theme, the language; and how a page is rendered."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import Any

from markupsafe import escape

from plateset import __version__
from plateset.digests import digest_of
from plateset.manuscript.library import Manuscript
from plateset.publishing import paths
from plateset.publishing.contents import Page
from plateset.publishing.language import Language
from plateset.publishing.ledger import Parts
from plateset.publishing.logo import read_logo
from plateset.publishing.making import Make
from plateset.publishing.papers import PAPER_NAMES, papers_of
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.social_card import card_image
from plateset.publishing.structured_data import breadcrumbs, json_ld
from plateset.publishing.theme import CARD, Pages, Theme, ThemeError
from plateset.publishing.views import Linked, SiteView
from plateset.remembering import Remembered
from plateset.theme_files import FONTS, PAPER
from plateset.usual_cautions import USUAL

ACCENT = "#234f4a"
STYLE_HASHES = (
    "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='",
    "'sha256-ji27qzEtxXZW+7dun6UwjHXJ18e6WAin1VvNtkzIE/o='",
)
"""The two style elements the chart library adds (an empty one, and its map styles). Checked in a real browser."""

# 'connect-src' is for those who judge a page from within it: what reads robots.txt so is refused without.
CSP = (
    "default-src 'none'; connect-src 'self'; script-src 'self'; style-src 'self' "
    + " ".join(STYLE_HASHES)
    + "; img-src 'self' data: blob:; "
    "font-src 'self'; base-uri 'none'; form-action 'none'"
)

NAVIGATION = (
    Linked("Programs", paths.PROGRAMS),
    Linked("Exercises", paths.EXERCISES),
    Linked("Techniques", paths.TECHNIQUES),
    Linked("Explainers", paths.EXPLAINERS),
    Linked("Search", paths.SEARCH),
)

ASSET_PATHS = {
    "style": "assets/style.css",
    "colours": "assets/colours.css",
    "script": "assets/site.js",
    "finder": "assets/finder.js",
    "search": "assets/search.js",
    "search_index": paths.SEARCH_INDEX,
    "chart": "assets/plotly.min.js",
    "chart_start": "assets/chart.js",
    "calendar": "assets/calendar.js",
    "own_loads": "assets/own-loads.js",
    "own_page": "assets/own-page.js",
    "own_form": "assets/own-form.js",
}


def site_view_of(manuscript: Manuscript, figure: Figure, language: Language, *, draft: bool) -> SiteView:
    """What every page shares."""
    head = manuscript.site.head
    return SiteView(
        title=head.title,
        tagline=head.tagline,
        about=Prose(paths.HOME, figure).html(head.about),
        author=head.author.name,
        author_about=head.author.about,
        language=head.language,
        address=head.address or "",
        accent=head.colours.accent or ACCENT,
        version=__version__,
        draft=draft,
        papers=tuple(PAPER_NAMES[paper] for paper in papers_of(manuscript)),
        navigation=NAVIGATION,
        cautions=(*map(language.say, USUAL), *head.cautions),
    )


@dataclass(frozen=True)
class Product:
    """A file of the site: what makes it, and what it is made from, asked only where that matters."""

    path: str
    make: Make
    parts: Callable[[], Parts]


@dataclass(frozen=True)
class Studio:
    """What every file of a site is made with. ``tool`` is the digest of this package and its libraries,
    ``typesetter`` of those of its modules that a sheet's data goes through.
    """

    site: SiteView
    theme: Theme
    tool: str = ""
    typesetter: str = ""

    @cached_property
    def language(self) -> Language:
        """The site's language in the words of the theme."""
        return self.theme.language(self.site.language)

    @cached_property
    def pages(self) -> Pages:
        """What renders pages."""
        return Pages(self.theme, {"site": self.site, "csp": CSP, "assets": ASSET_PATHS}, self.language)

    @cached_property
    def common(self) -> Parts:
        """What every page, and every file with words in it, is made from."""
        return {
            "Plateset or a library": self.tool,
            "the site's settings": digest_of(self.site),
            "the theme's words": self.theme.words_digest(self.site.language),
        }

    @cached_property
    def on_paper(self) -> Parts:
        """What every sheet is made from besides its data."""
        return {
            "the typesetter": self.typesetter,
            "the theme's templates for paper": self.theme.folder_digest(PAPER),
            "the theme's words for paper": digest_of(self.theme.words_on_paper(self.language)),
            "the fonts of the theme": self.theme.folder_digest(FONTS),
        }

    def page(self, page: Page, made_from: Parts | None = None) -> Product:
        """A page; ``made_from`` tells what its data was made from, which is else told by the data itself."""

        def parts() -> Parts:
            shown = made_from or {"what it shows": self._digest_of(page)}
            return {**self.common, f"the template {page.template}": self.pages.digest_of(page.template), **shown}

        return Product(page.path, partial(self._html, page), parts)

    def know(self, value: object, digest: str) -> None:
        """Take it that ``digest`` tells all of something that pages show, so that it need not be read through."""
        self._digests.get((value,), lambda: digest)

    def _digest_of(self, page: Page) -> str:
        """The digest of all that a page shows of what it is handed; what several show, such as every program, is read
        once.
        """
        shown = {name: value for name, value in page.data.items() if self.pages.mentions(page.template, name)}
        data = [(name, self._told(value)) for name, value in shown.items()]
        return digest_of((replace(page, data={}), sorted(data)))

    def _told(self, value: object) -> str:
        """The digest of a value; a list is told by its things, so that one with a page of its own is read once."""
        if isinstance(value, tuple | list):
            return self._digests.get((value,), lambda: digest_of([self._told(each) for each in value]))
        return self._digests.get((value,), partial(digest_of, value))

    @cached_property
    def _digests(self) -> Remembered[str]:
        return Remembered()

    def card(self, page: Page) -> Product | None:
        """A page's social card, where it has one and the site has an address for it."""
        card = page.card
        if card is None or not self.site.address:
            return None
        template = self.theme.read(CARD)

        def parts() -> Parts:
            return {
                "Plateset or a library": self.tool,
                f"the template {CARD}": self.theme.digest(CARD),
                "what it shows": digest_of((card, self.site.title, self.site.accent)),
            }

        return Product(paths.card(page.path), partial(card_image, card, self.site, template), parts)

    def _html(self, page: Page) -> bytes:
        return _html(self.pages, page, self.site)


def studio_of(manuscript: Manuscript, theme: Theme, site: SiteView, tool: str = "", typesetter: str = "") -> Studio:
    """The studio of a site, with the logo its author chose. Raises :class:`ThemeError` if that cannot be used."""
    chosen = manuscript.site.head.logo
    logo = read_logo(theme, chosen)[0] if chosen else None
    return Studio(replace(site, logo=logo), theme, tool, typesetter)


def _head(page: Page, site: SiteView) -> dict[str, Any]:
    """What stands in a page's head. A page without a card of its own is shown with the front page's."""
    here = Linked(page.title, page.path)
    trail = (Linked(site.title, paths.HOME), *page.trail, here) if page.path != paths.HOME else (here,)
    described = [each for each in (page.about, breadcrumbs(trail, site)) if each]
    return {
        "title": page.title,
        "description": page.description,
        "path": page.path,
        "kind": page.template.removesuffix(".html"),
        "trail": trail,
        "address": site.whole(page.path) if page.path != paths.NOT_FOUND else "",
        "feed": site.whole(paths.FEED),
        "image": site.whole(paths.card(page.path if page.card else paths.HOME)),
        "image_words": page.card.words(site) if page.card else f"{site.title}.",
        "is_article": page.template == "explainer.html",
        "changed": page.changed,
        "described": [json_ld(each) for each in described],
    }


def _html(pages: Pages, page: Page, site: SiteView) -> bytes:
    html = pages.render(page.template, _head(page, site), page.data)
    missing = list(_not_in(html, page.must_say))
    if missing:  # or broken into lines
        words = _words(html)
        missing = [text for text in missing if _words(str(escape(text))) not in words]
    if missing:
        raise ThemeError(f"the theme's {page.template} leaves out a caution on {page.path}: {missing[0]!r}")
    if site.draft and "data-draft" not in html:
        raise ThemeError(f"the theme's {page.template} does not say that {page.path} is a draft")
    return html.encode()


def _not_in(html: str, texts: Iterable[str]) -> Iterator[str]:
    """Those of ``texts`` that a page does not have as they are. They mostly stand there one after the other."""
    last = 0
    for text in texts:
        said = str(escape(text))
        found = html.find(said, last)
        if found < 0:
            found = html.find(said)
        if found < 0:
            yield text
        else:
            last = found


def _words(html: str) -> str:
    return " ".join(html.split())

"""A site's files: its pages rendered, its sheets set, and the assets beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from markupsafe import escape

from plateset import __version__
from plateset.manuscript.library import Manuscript
from plateset.publishing import paths
from plateset.publishing.cautions import USUAL
from plateset.publishing.contents import Page, Shelves, contents, shelves, site_index
from plateset.publishing.feed import feed
from plateset.publishing.language import Language
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.search_index import search_script
from plateset.publishing.sitemap import robots, sitemaps
from plateset.publishing.social_card import card_image
from plateset.publishing.structured_data import breadcrumbs, json_ld
from plateset.publishing.takeaways import PAPER_NAMES, Desk, TakeAway, calendar_view, offered, papers_of, takeaways
from plateset.publishing.theme import ASSETS, CARD, Pages, Theme, ThemeError
from plateset.publishing.views import DownloadView, Linked, ProgramView, SiteView, WeekView

ACCENT = "#234f4a"
STYLE_HASHES = (
    "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='",
    "'sha256-ji27qzEtxXZW+7dun6UwjHXJ18e6WAin1VvNtkzIE/o='",
)
"""The two style elements the chart library adds (an empty one, and its map styles). Checked in a real browser."""

CSP = (
    "default-src 'none'; script-src 'self'; style-src 'self' "
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


@dataclass(frozen=True)
class Edition:
    """All that a site is made from. ``chart_script`` is the chart library's own file."""

    manuscript: Manuscript
    programs: Mapping[str, Program]
    figure: Figure
    theme: Theme
    chart_script: bytes
    draft: bool


def documents(edition: Edition) -> Iterator[tuple[str, bytes]]:
    """Every file of the site as (site path, bytes). The same edition gives the same bytes."""
    site = site_view(edition)
    language = edition.theme.language(site.language)
    views, files = _programs(edition, site, language)
    shared = {"site": site, "csp": CSP, "assets": _ASSET_PATHS}
    pages = Pages(edition.theme, shared, language)
    plans = {slug: program.plan for slug, program in edition.programs.items()}
    shelf = shelves(edition.manuscript, plans, edition.figure, views, language)
    table = tuple(contents(site, edition.manuscript.site.head.limits, shelf, language))
    for page in table:
        yield page.path, _html(pages, page, site).encode()
    for name in ASSETS:
        yield f"assets/{name}", edition.theme.read(name)
    yield "assets/colours.css", f":root {{\n  --accent: {site.accent};\n}}\n".encode()
    yield _ASSET_PATHS["chart"], edition.chart_script
    yield paths.SEARCH_INDEX, search_script(site_index(shelf))
    yield from _for_finders(site, table, shelf, edition.theme)
    yield from files.items()


def _for_finders(site: SiteView, table: Sequence[Page], shelf: Shelves, theme: Theme) -> Iterator[tuple[str, bytes]]:
    """What leads others to the site: whole addresses are needed for all of it but robots.txt."""
    yield paths.ROBOTS, robots(site)
    if not site.address:
        return
    yield paths.FEED, feed(site, shelf.programs, shelf.explainers)
    yield from sitemaps(site, [(page.path, page.changed) for page in table if page.path != paths.NOT_FOUND])
    template = theme.read(CARD)
    for page in table:
        if page.card:
            yield paths.card(page.path), card_image(page.card, site, template)


_ASSET_PATHS = {
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


def site_view(edition: Edition) -> SiteView:
    """What every page shares."""
    head = edition.manuscript.site.head
    return SiteView(
        title=head.title,
        tagline=head.tagline,
        about=Prose(paths.HOME, edition.figure).html(head.about),
        author=head.author.name,
        author_about=head.author.about,
        language=head.language,
        address=head.address or "",
        accent=head.colours.accent or ACCENT,
        version=__version__,
        draft=edition.draft,
        papers=tuple(PAPER_NAMES[paper] for paper in papers_of(edition.manuscript)),
        navigation=NAVIGATION,
        cautions=(*USUAL, *head.cautions),
    )


def _programs(edition: Edition, site: SiteView, language: Language) -> tuple[list[ProgramView], dict[str, bytes]]:
    """The views of all programs with what they offer to take away, and the files they offer."""
    views: list[ProgramView] = []
    files: dict[str, bytes] = {}
    for _, program in sorted(edition.programs.items()):
        view = program_view(program, edition.manuscript, edition.figure, language)
        view, prepared = with_own_loads(program, view, edition.manuscript)
        files |= prepared
        desk = Desk(program, view, edition.manuscript, site, edition.theme)
        taken = takeaways(desk)
        files |= {file.path: file.data for file in taken}
        weeks = tuple(replace(week, pdfs=_of_week(week, taken)) for week in view.weeks)
        views.append(replace(view, downloads=offered(taken), weeks=weeks, calendar=calendar_view(desk)))
    return views, files


def _of_week(week: WeekView, taken: tuple[TakeAway, ...]) -> tuple[DownloadView, ...]:
    return tuple(file.offer for file in taken if file.week == week.number)


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


def _html(pages: Pages, page: Page, site: SiteView) -> str:
    html = pages.render(page.template, _head(page, site), page.data)
    words = _words(html)
    missing = [text for text in page.must_say if _words(str(escape(text))) not in words]
    if missing:
        raise ThemeError(f"the theme's {page.template} leaves out a caution on {page.path}: {missing[0]!r}")
    if site.draft and "data-draft" not in html:
        raise ThemeError(f"the theme's {page.template} does not say that {page.path} is a draft")
    return html


def _words(html: str) -> str:
    return re.sub(r"\s+", " ", html)

"""A site's files: its pages rendered, its sheets set, and the assets beside them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from markupsafe import escape

from plateset import __version__
from plateset.manuscript.library import Manuscript
from plateset.manuscript.links import links_of
from plateset.publishing import paths
from plateset.publishing.cautions import USUAL
from plateset.publishing.contents import Page, Shelves, contents, shelves, site_index
from plateset.publishing.feed import feed
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.logo import read_logo
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.search_index import search_script
from plateset.publishing.sitemap import robots, sitemaps
from plateset.publishing.social_card import card_image
from plateset.publishing.structured_data import breadcrumbs, json_ld
from plateset.publishing.takeaways import PAPER_NAMES, Desk, calendar_view, of_week, offered, papers_of, takeaways
from plateset.publishing.theme import ASSETS, CARD, Pages, Theme, ThemeError
from plateset.publishing.views import CalendarView, Linked, ProgramView, SiteView
from plateset.remembering import Remembered

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


Make = Callable[[], bytes]
"""Makes a file when it is called."""


@dataclass(frozen=True)
class Edition:
    """All that a site is made from.

    ``chart_script`` is the chart library's own file. ``weighed`` says whether pages tell the size of a download, for
    which it has to be made before the page. ``told`` is told of work that takes long.
    """

    manuscript: Manuscript
    programs: Mapping[str, Program]
    figure: Figure
    theme: Theme
    chart_script: bytes
    draft: bool
    weighed: bool = True
    told: Callable[[str], None] = lambda words: None


def documents(edition: Edition) -> Iterator[tuple[str, bytes]]:
    """Every file of the site as (site path, bytes). The same edition gives the same bytes."""
    for path, make in makers(edition):
        yield path, make()


def makers(edition: Edition) -> Iterator[tuple[str, Make]]:
    """Every file of the site as (site path, what makes it). Pages, and sheets unless weighed, are made when asked for.

    What a maker raises is what ``documents`` raises: the errors of themes and sheets.
    """
    language = edition.theme.language(edition.manuscript.site.head.language)
    chosen = edition.manuscript.site.head.logo
    logo = read_logo(edition.theme, chosen) if chosen else None
    site = replace(site_view(edition, language), logo=logo and logo[0])
    views, files = _programs(edition, site, language)
    shared = {"site": site, "csp": CSP, "assets": _ASSET_PATHS}
    pages = Pages(edition.theme, shared, language)
    plans = {slug: program.plan for slug, program in edition.programs.items()}
    shelf = shelves(edition.manuscript, plans, edition.figure, views, language)
    table = tuple(contents(site, edition.manuscript.site.head.limits, shelf, language))
    for page in table:
        yield page.path, partial(_html, pages, page, site)
    for name in ASSETS:
        yield f"assets/{name}", partial(edition.theme.read, name)
    yield "assets/colours.css", partial(_looks, edition.manuscript, site)
    if logo:
        yield logo[0].path, partial(bytes, logo[1])
    yield _ASSET_PATHS["chart"], lambda: edition.chart_script
    yield paths.SEARCH_INDEX, lambda: search_script(site_index(shelf))
    yield from _for_finders(site, table, shelf, edition.theme)
    yield from files.items()


PLAIN_TYPE = 'system-ui, "Noto Sans", "Liberation Sans", Arial, sans-serif'
"""Type of the reader's own machine, for a site that asks for plain type; the theme's own is that of a book."""


def _looks(manuscript: Manuscript, site: SiteView) -> bytes:
    """What the author chose of the look, as values that the theme's styles take up."""
    own_type = f"  --own-type: {PLAIN_TYPE};\n" if manuscript.site.head.type == "plain" else ""
    return f":root {{\n  --accent: {site.accent};\n{own_type}}}\n".encode()


def _for_finders(site: SiteView, table: Sequence[Page], shelf: Shelves, theme: Theme) -> Iterator[tuple[str, Make]]:
    """What leads others to the site: whole addresses are needed for all of it but robots.txt."""
    yield paths.ROBOTS, partial(robots, site)
    if not site.address:
        return
    yield paths.FEED, partial(feed, site, shelf.programs, shelf.explainers)
    listed = [(page.path, page.changed) for page in table if page.path != paths.NOT_FOUND]
    for path, data in sitemaps(site, listed):
        yield path, partial(bytes, data)
    template = theme.read(CARD)
    for page in table:
        if page.card:
            yield paths.card(page.path), partial(card_image, page.card, site, template)


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


def site_view(edition: Edition, language: Language = ENGLISH) -> SiteView:
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
        cautions=(*map(language.say, USUAL), *head.cautions),
    )


def _programs(edition: Edition, site: SiteView, language: Language) -> tuple[list[ProgramView], dict[str, Make]]:
    """The views of all programs with what they offer to take away, and what makes the files they offer."""
    views: list[ProgramView] = []
    files: dict[str, Make] = {}
    for number, (_, program) in enumerate(sorted(edition.programs.items()), start=1):
        edition.told(f"Setting {program.plan.program.title}, {number} of {len(edition.programs)}")
        view, prepared = _VIEWS.get(
            (*_shown_in(program, edition), language), partial(_view, program, edition, language)
        )
        files |= {path: partial(bytes, data) for path, data in prepared.items()}
        desk = Desk(program, view, edition.manuscript, site, edition.theme)
        taken = takeaways(desk)
        files |= {file.path: file.bytes_of for file in taken}
        offers = offered(taken, weighed=edition.weighed)
        weeks = tuple(replace(week, pdfs=of_week(week.number, taken, weighed=edition.weighed)) for week in view.weeks)
        views.append(replace(view, downloads=offers, weeks=weeks, calendar=_calendar(desk, edition)))
    return views, files


_VIEWS: Remembered[tuple[ProgramView, dict[str, bytes]]] = Remembered(200)
_CALENDARS: Remembered[CalendarView] = Remembered(200)


def _view(program: Program, edition: Edition, language: Language) -> tuple[ProgramView, dict[str, bytes]]:
    view = program_view(program, edition.manuscript, edition.figure, language)
    return with_own_loads(program, view, edition.manuscript, language)


def _calendar(desk: Desk, edition: Edition) -> CalendarView:
    draft = "draft" if edition.draft else ""
    return _CALENDARS.get((desk.view, edition.manuscript.site, draft), partial(calendar_view, desk))


def _shown_in(program: Program, edition: Edition) -> tuple[object, ...]:
    """All that a program's view is made from: its plan, the notes, and the plans its prose has figures of."""
    manuscript = edition.manuscript
    document = manuscript.programs[program.plan.slug]
    groups = (manuscript.exercises, manuscript.techniques, manuscript.explainers)
    notes = (note for group in groups for _, note in sorted(group.items()))
    named = sorted({link.target.partition("/")[0] for link in links_of(document) if link.scheme == "figure"})
    plans = (edition.programs[slug].plan for slug in named if slug in edition.programs)
    return (program.plan, document, manuscript.site, *notes, *plans)


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
    words = _words(html)
    missing = [text for text in page.must_say if _words(str(escape(text))) not in words]
    if missing:
        raise ThemeError(f"the theme's {page.template} leaves out a caution on {page.path}: {missing[0]!r}")
    if site.draft and "data-draft" not in html:
        raise ThemeError(f"the theme's {page.template} does not say that {page.path} is a draft")
    return html.encode()


def _words(html: str) -> str:
    return re.sub(r"\s+", " ", html)

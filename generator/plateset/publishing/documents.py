"""A site's files: its pages rendered, its sheets set, and the assets beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time
from typing import Any

from markupsafe import escape

from plateset import __version__
from plateset.manuscript.library import Manuscript
from plateset.publishing import paths
from plateset.publishing.cautions import USUAL
from plateset.publishing.contents import Page, Shelves, contents, shelves, site_index
from plateset.publishing.feed import feed
from plateset.publishing.language import ENGLISH, Language, usual_paper
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.search_index import search_script
from plateset.publishing.sheets import Paper, program_sheets, week_sheet
from plateset.publishing.sitemap import robots, sitemaps
from plateset.publishing.social_card import card_image
from plateset.publishing.structured_data import breadcrumbs, json_ld
from plateset.publishing.theme import ASSETS, CARD, SHEET, Pages, Theme, ThemeError
from plateset.publishing.views import DownloadView, Linked, ProgramView, SiteView, WeekView

ACCENT = "#234f4a"
PAPER_NAMES = {"a4": "A4", "letter": "US Letter"}
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
    language = edition.theme.language(edition.manuscript.site.head.language)
    site = site_view(edition, language)
    views, sheets = _programs(edition, site, language)
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
    yield from sheets


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
}


def papers_of(manuscript: Manuscript) -> tuple[Paper, ...]:
    """The paper sheets are set for: the author's choice, else that of the language's country."""
    head = manuscript.site.head
    return head.paper if "paper" in head.model_fields_set else (usual_paper(head.language),)


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


def _programs(
    edition: Edition, site: SiteView, language: Language
) -> tuple[list[ProgramView], list[tuple[str, bytes]]]:
    """The views of all programs with their downloads, and the sheets those downloads are."""
    views: list[ProgramView] = []
    files: list[tuple[str, bytes]] = []
    template = edition.theme.read(SHEET)
    for _, program in sorted(edition.programs.items()):
        view = program_view(program, edition.manuscript, edition.figure, language)
        stamp = datetime.combine(program.plan.program.date, time(12), UTC)
        sheets = dict(_sheets(view, site, papers_of(edition.manuscript), (template, stamp)))
        files += sheets.items()
        views.append(_with_downloads(view, sheets, papers_of(edition.manuscript)))
    return views, files


def _sheets(
    view: ProgramView, site: SiteView, papers: tuple[Paper, ...], set_with: tuple[bytes, datetime]
) -> Iterator[tuple[str, bytes]]:
    template, stamp = set_with
    for paper in papers:
        yield paths.program_pdf(view.slug, paper), program_sheets(view, site, paper, template, stamp)
        for week in view.weeks:
            yield paths.week_pdf(view.slug, week.number, paper), week_sheet(view, week, site, paper, template, stamp)


def _with_downloads(view: ProgramView, sheets: Mapping[str, bytes], papers: tuple[Paper, ...]) -> ProgramView:
    whole = tuple(_download(f"All weeks, {PAPER_NAMES[p]}", paths.program_pdf(view.slug, p), sheets) for p in papers)
    weeks = tuple(replace(week, pdfs=_week_downloads(view, week, sheets, papers)) for week in view.weeks)
    return replace(view, downloads=whole, weeks=weeks)


def _week_downloads(
    view: ProgramView, week: WeekView, sheets: Mapping[str, bytes], papers: tuple[Paper, ...]
) -> tuple[DownloadView, ...]:
    return tuple(
        _download(f"{week.title}, {PAPER_NAMES[paper]}", paths.week_pdf(view.slug, week.number, paper), sheets)
        for paper in papers
    )


def _download(title: str, path: str, sheets: Mapping[str, bytes]) -> DownloadView:
    return DownloadView(title, "PDF", f"{max(1, round(len(sheets[path]) / 1000))} kB", path)


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

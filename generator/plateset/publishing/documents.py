"""A site's files: its pages rendered, its sheets set, and the assets beside them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from plateset.manuscript.library import Manuscript
from plateset.manuscript.links import links_of
from plateset.publishing import paths
from plateset.publishing.contents import shelves
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.making import Make
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.program_products import Offers, offers_of, pages_of
from plateset.publishing.program_view import Program, card_of, program_view
from plateset.publishing.prose import Figure
from plateset.publishing.site_products import site_products
from plateset.publishing.studio import CSP, Studio, site_view_of, studio_of
from plateset.publishing.takeaways import Desk, calendar_view, takeaways
from plateset.publishing.theme import Theme
from plateset.publishing.views import CalendarView, ProgramView, SiteView
from plateset.remembering import Remembered

__all__ = ["CSP", "Edition", "Make", "documents", "makers", "site_view"]


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
    studio = studio_of(edition.manuscript, edition.theme, site_view(edition, language))
    found = [
        _offered(program, studio, edition, f"{number} of {len(edition.programs)}")
        for number, (_, program) in enumerate(sorted(edition.programs.items()), start=1)
    ]
    cards = {each.view.slug: card_of(each.view) for each in found}
    shelf = shelves(edition.manuscript, edition.figure, cards, studio.language)
    for product in site_products(studio, shelf, edition.manuscript.site.head, lambda: edition.chart_script):
        yield product.path, product.make
    for each in found:
        for product in pages_of(each.view, studio):
            yield product.path, product.make
        for path, data in sorted(each.scripts.items()):
            yield path, partial(bytes, data)
        for file in each.files:
            if file.path != paths.PLAN_SCHEMA:  # the same for all programs, and already there
                yield file.path, file.bytes_of


def site_view(edition: Edition, language: Language = ENGLISH) -> SiteView:
    """What every page shares."""
    return site_view_of(edition.manuscript, edition.figure, language, draft=edition.draft)


def _offered(program: Program, studio: Studio, edition: Edition, count: str) -> Offers:
    """A program's view with what it offers to take away, and the files it offers."""
    edition.told(f"Setting {program.plan.program.title}, {count}")
    language = studio.language
    view, scripts = _VIEWS.get((*_shown_in(program, edition), language), partial(_view, program, edition, language))
    desk = Desk(program, view, edition.manuscript, studio.site, edition.theme, scripts)
    return offers_of(desk, takeaways(desk), _calendar(desk, edition), weighed=edition.weighed)


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

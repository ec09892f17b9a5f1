"""What a site consists of: one table of (path, template, data) for pages, and the files beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time
from typing import Any

from markupsafe import escape

from plateset import __version__
from plateset.manuscript.library import Manuscript
from plateset.manuscript.schema import Limits
from plateset.publishing import paths
from plateset.publishing.cautions import USUAL
from plateset.publishing.note_views import exercise_view, explainer_view, technique_view
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.sheets import Paper, program_sheets, week_sheet
from plateset.publishing.theme import ASSETS, SHEET, Pages, Theme, ThemeError
from plateset.publishing.views import DownloadView, Fact, FormulaView, Linked, ProgramView, SiteView, WeekView
from plateset.training.accounts import ACCOUNTS
from plateset.training.marks.mark import plain

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
    Linked("How the numbers are made", paths.NUMBERS),
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


@dataclass(frozen=True)
class Page:
    """One row of the table: where a page stands, its template, head and data."""

    path: str
    template: str
    title: str
    description: str
    data: Mapping[str, Any]
    must_say: tuple[str, ...] = ()
    """Texts the page has to show, whatever the theme: its cautions."""


def documents(edition: Edition) -> Iterator[tuple[str, bytes]]:
    """Every file of the site as (site path, bytes). The same edition gives the same bytes."""
    site = site_view(edition)
    views, sheets = _programs(edition, site)
    shared = {"site": site, "csp": CSP, "assets": _ASSET_PATHS}
    pages = Pages(edition.theme, shared)
    for page in page_table(edition, site, views):
        yield page.path, _html(pages, page, draft=edition.draft).encode()
    for name in ASSETS:
        yield f"assets/{name}", edition.theme.read(name)
    yield "assets/colours.css", f":root {{\n  --accent: {site.accent};\n}}\n".encode()
    yield _ASSET_PATHS["chart"], edition.chart_script
    yield from sheets


_ASSET_PATHS = {
    "style": "assets/style.css",
    "colours": "assets/colours.css",
    "script": "assets/site.js",
    "chart": "assets/plotly.min.js",
    "chart_start": "assets/chart.js",
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
        papers=tuple(PAPER_NAMES[paper] for paper in head.paper),
        navigation=NAVIGATION,
        cautions=(*USUAL, *head.cautions),
    )


def _programs(edition: Edition, site: SiteView) -> tuple[list[ProgramView], list[tuple[str, bytes]]]:
    """The views of all programs with their downloads, and the sheets those downloads are."""
    views: list[ProgramView] = []
    files: list[tuple[str, bytes]] = []
    template = edition.theme.read(SHEET)
    for _, program in sorted(edition.programs.items()):
        view = program_view(program, edition.manuscript, edition.figure)
        stamp = datetime.combine(program.plan.program.date, time(12), UTC)
        sheets = dict(_sheets(view, site, edition.manuscript.site.head.paper, (template, stamp)))
        files += sheets.items()
        views.append(_with_downloads(view, sheets, edition.manuscript.site.head.paper))
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


def page_table(edition: Edition, site: SiteView, programs: list[ProgramView]) -> Iterator[Page]:
    """Every page of the site, in the order of the navigation."""
    manuscript, figure = edition.manuscript, edition.figure
    plans = {slug: program.plan for slug, program in edition.programs.items()}
    exercises = [exercise_view(d, manuscript, plans, figure) for _, d in sorted(manuscript.exercises.items())]
    techniques = [technique_view(d, plans, figure) for _, d in sorted(manuscript.techniques.items())]
    explainers = [explainer_view(d, manuscript, figure) for _, d in sorted(manuscript.explainers.items())]
    explainers.sort(key=lambda view: (view.iso_date, view.slug), reverse=True)
    everything: dict[str, Any] = {"programs": programs, "exercises": exercises, "techniques": techniques, "explainers": explainers}
    yield Page(paths.HOME, "home.html", site.title, site.tagline or site.title, everything, site.cautions)
    yield _list_page(paths.PROGRAMS, "programs.html", "Programs", everything)
    for program in programs:
        yield from _program_pages(program)
    yield _list_page(paths.EXERCISES, "exercises.html", "Exercises", everything)
    for exercise in exercises:
        description = f"{exercise.title}: set-up, cues, faults and cautions."
        data = {"exercise": exercise}
        yield Page(exercise.path, "exercise.html", exercise.title, description, data, exercise.cautions)
    yield _list_page(paths.TECHNIQUES, "techniques.html", "Techniques", everything)
    for technique in techniques:
        data = {"technique": technique}
        yield Page(technique.path, "technique.html", technique.title, technique.summary, data, technique.cautions)
    yield _list_page(paths.EXPLAINERS, "explainers.html", "Explainers", everything)
    for explainer in explainers:
        yield Page(explainer.path, "explainer.html", explainer.title, explainer.summary, {"explainer": explainer})
    yield _numbers(edition)
    yield Page(paths.NOT_FOUND, "404.html", "Page not found", "There is no page here.", {})


def _list_page(path: str, template: str, title: str, data: Mapping[str, Any]) -> Page:
    return Page(path, template, title, f"All {title.lower()} of this site.", data)


def _program_pages(program: ProgramView) -> Iterator[Page]:
    said = tuple(caution.text for caution in program.cautions)
    yield Page(program.path, "program.html", program.title, program.summary, {"program": program}, said)
    for index, week in enumerate(program.weeks):
        data = {
            "program": program,
            "week": week,
            "previous": program.weeks[index - 1] if index else None,
            "next": program.weeks[index + 1] if index + 1 < len(program.weeks) else None,
        }
        title = f"{program.title}, {week.title.lower()}"
        yield Page(week.path, "week.html", title, f"The sheet of {title}.", data, program.short_cautions)


def _numbers(edition: Edition) -> Page:
    formulas = tuple(FormulaView(a.title, a.words, a.formula, a.valid, a.source) for a in ACCOUNTS)
    data = {"formulas": formulas, "limits": _limits(edition.manuscript.site.head.limits)}
    description = "Every computation behind the loads, volumes and minutes, with its source and limits."
    return Page(paths.NUMBERS, "numbers.html", "How the numbers are made", description, data)


def _limits(limits: Limits) -> tuple[Fact, ...]:
    return (
        Fact("Rise in load from week to week", f"{plain(limits.load_jump)} %"),
        Fact("Rise in weekly sets from week to week", f"{plain(limits.sets_jump)} %"),
        Fact("Time between sessions for the same muscle", f"{limits.recovery // 3600} h"),
        Fact("Lines past failure in a session", str(limits.past_failure_lines)),
    )


def _html(pages: Pages, page: Page, *, draft: bool) -> str:
    kind = page.template.removesuffix(".html")
    head = {"title": page.title, "description": page.description, "path": page.path, "kind": kind}
    html = pages.render(page.template, head, page.data)
    words = _words(html)
    missing = [text for text in page.must_say if _words(str(escape(text))) not in words]
    if missing:
        raise ThemeError(f"the theme's {page.template} leaves out a caution on {page.path}: {missing[0]!r}")
    if draft and "data-draft" not in html:
        raise ThemeError(f"the theme's {page.template} does not say that {page.path} is a draft")
    return html


def _words(html: str) -> str:
    return re.sub(r"\s+", " ", html)

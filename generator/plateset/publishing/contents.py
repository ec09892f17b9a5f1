"""The contents of a site: one row a page, in the order of the navigation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from plateset.manuscript.library import Manuscript
from plateset.manuscript.schema import Limits
from plateset.publishing import paths
from plateset.publishing.note_views import exercise_view, explainer_view, technique_view
from plateset.publishing.prose import Figure
from plateset.publishing.views import (
    ExerciseView,
    ExplainerView,
    Fact,
    FormulaView,
    ProgramView,
    SiteView,
    TechniqueView,
)
from plateset.training.accounts import ACCOUNTS
from plateset.training.marks.mark import plain
from plateset.training.plan import Plan


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


@dataclass(frozen=True)
class Shelves:
    """The views of all programs, notes and explainers, in the order they are listed in."""

    programs: list[ProgramView]
    exercises: list[ExerciseView]
    techniques: list[TechniqueView]
    explainers: list[ExplainerView]


def shelves(manuscript: Manuscript, plans: Mapping[str, Plan], figure: Figure, programs: list[ProgramView]) -> Shelves:
    """Every note as a view; explainers newest first."""
    explainers = [explainer_view(d, manuscript, figure) for _, d in sorted(manuscript.explainers.items())]
    return Shelves(
        programs,
        [exercise_view(d, manuscript, plans, figure) for _, d in sorted(manuscript.exercises.items())],
        [technique_view(d, plans, figure) for _, d in sorted(manuscript.techniques.items())],
        sorted(explainers, key=lambda view: view.iso_date, reverse=True),
    )


def contents(site: SiteView, limits: Limits, shelf: Shelves) -> Iterator[Page]:
    """Every page of the site."""
    everything = {
        "programs": shelf.programs,
        "exercises": shelf.exercises,
        "techniques": shelf.techniques,
        "explainers": shelf.explainers,
    }
    yield Page(paths.HOME, "home.html", site.title, site.tagline or site.title, everything, site.cautions)
    yield _list_page(paths.PROGRAMS, "Programs", everything)
    for program in shelf.programs:
        yield from _program_pages(program)
    yield _list_page(paths.EXERCISES, "Exercises", everything)
    yield from map(_exercise_page, shelf.exercises)
    yield _list_page(paths.TECHNIQUES, "Techniques", everything)
    yield from map(_technique_page, shelf.techniques)
    yield _list_page(paths.EXPLAINERS, "Explainers", everything)
    yield from map(_explainer_page, shelf.explainers)
    yield _numbers(limits)
    yield Page(paths.NOT_FOUND, "404.html", "Page not found", "There is no page here.", {})


def _list_page(path: str, title: str, data: Mapping[str, Any]) -> Page:
    return Page(path, f"{title.lower()}.html", title, f"All {title.lower()} of this site.", data)


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


def _exercise_page(view: ExerciseView) -> Page:
    description = f"{view.title}: set-up, cues, faults and cautions."
    return Page(view.path, "exercise.html", view.title, description, {"exercise": view}, view.cautions)


def _technique_page(view: TechniqueView) -> Page:
    return Page(view.path, "technique.html", view.title, view.summary, {"technique": view}, view.cautions)


def _explainer_page(view: ExplainerView) -> Page:
    return Page(view.path, "explainer.html", view.title, view.summary, {"explainer": view})


def _numbers(limits: Limits) -> Page:
    formulas = tuple(FormulaView(a.title, a.words, a.formula, a.valid, a.source) for a in ACCOUNTS)
    data = {"formulas": formulas, "limits": _limits(limits)}
    description = "Every computation behind the loads, volumes and minutes, with its source and limits."
    return Page(paths.NUMBERS, "numbers.html", "How the numbers are made", description, data)


def _limits(limits: Limits) -> tuple[Fact, ...]:
    return (
        Fact("Rise in load from week to week", f"{plain(limits.load_jump)} %"),
        Fact("Rise in weekly sets from week to week", f"{plain(limits.sets_jump)} %"),
        Fact("Time between sessions for the same muscle", f"{limits.recovery // 3600} h"),
        Fact("Lines past failure in a session", str(limits.past_failure_lines)),
    )

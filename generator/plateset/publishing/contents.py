"""The contents of a site: one row a page, in the order of the navigation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from plateset.manuscript.library import Manuscript
from plateset.manuscript.schema import Limits
from plateset.publishing import paths
from plateset.publishing.feed import last_change
from plateset.publishing.finder import facet_lists, finder_values
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.note_views import (
    exercise_view,
    explainer_view,
    technique_view,
    users_of_exercises,
    users_of_techniques,
)
from plateset.publishing.prose import Figure
from plateset.publishing.search_index import Searched, index_letters, searched
from plateset.publishing.social_card import Card
from plateset.publishing.structured_data import Described, article, exercise_plan
from plateset.publishing.views import (
    ExerciseView,
    ExplainerView,
    Fact,
    FormulaView,
    Linked,
    ProgramCard,
    ProgramView,
    SiteView,
    TechniqueView,
)
from plateset.training.accounts import ACCOUNTS


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
    trail: tuple[Linked, ...] = ()
    """The way to it from the front page, without that and without itself."""
    card: Card | None = None
    """Its social card; a page without one is shown with the front page's."""
    about: Described | None = None
    """What it is about, for machines."""
    changed: str = ""
    """The day it last changed, where that is known."""


@dataclass(frozen=True)
class Shelves:
    """The views of all programs, notes and explainers, in the order they are listed in."""

    programs: list[ProgramCard]
    exercises: list[ExerciseView]
    techniques: list[TechniqueView]
    explainers: list[ExplainerView]


def shelves(
    manuscript: Manuscript, figure: Figure, programs: Mapping[str, ProgramCard], language: Language = ENGLISH
) -> Shelves:
    """Every note as a view, beside the programs by name; explainers newest first."""
    explainers = [explainer_view(d, programs, figure, language) for _, d in sorted(manuscript.explainers.items())]
    of_exercises, of_techniques = users_of_exercises(programs), users_of_techniques(programs)
    return Shelves(
        [card for _, card in sorted(programs.items())],
        [exercise_view(d, manuscript, of_exercises, figure, language) for _, d in sorted(manuscript.exercises.items())],
        [technique_view(d, of_techniques, figure, language) for _, d in sorted(manuscript.techniques.items())],
        sorted(explainers, key=lambda view: view.iso_date, reverse=True),
    )


PROGRAMS = Linked("Programs", paths.PROGRAMS)
EXERCISES = Linked("Exercises", paths.EXERCISES)
TECHNIQUES = Linked("Techniques", paths.TECHNIQUES)
EXPLAINERS = Linked("Explainers", paths.EXPLAINERS)


ON_THE_FRONT_PAGE = 24
"""Programs that the front page shows; of more than that, the latest."""


def _latest(programs: list[ProgramCard]) -> list[ProgramCard]:
    if len(programs) <= ON_THE_FRONT_PAGE:
        return programs
    return sorted(programs, key=lambda card: card.iso_date, reverse=True)[:ON_THE_FRONT_PAGE]


def contents(site: SiteView, limits: Limits, shelf: Shelves, language: Language = ENGLISH) -> Iterator[Page]:
    """Every page of the site but those of its programs."""
    lists = facet_lists(shelf.programs, language)
    everything = {
        "programs": shelf.programs,
        "exercises": shelf.exercises,
        "techniques": shelf.techniques,
        "explainers": shelf.explainers,
        "facet_lists": [each for each in lists if each.groups],
        "finder_values": finder_values(shelf.programs, language),
    }
    card = Card("", site.title, site.tagline)
    front = everything | {"programs": _latest(shelf.programs), "all_programs": len(shelf.programs)}
    yield Page(paths.HOME, "home.html", site.title, site.tagline or site.title, front, site.cautions, card=card)
    yield _list_page(PROGRAMS, "All programs of this site, and a way to find the one that fits.", everything)
    for each in lists:
        data = everything | {"facet": each}
        title = language.say(each.title)
        yield Page(each.path, "facet.html", title, f"{title}.", data, trail=(PROGRAMS,))
    yield _list_page(EXERCISES, "All exercises of this site.", everything)
    yield from map(_exercise_page, shelf.exercises)
    yield _list_page(TECHNIQUES, "All techniques of this site.", everything)
    yield from map(_technique_page, shelf.techniques)
    yield _list_page(EXPLAINERS, "All explainers of this site.", everything)
    for explainer in shelf.explainers:
        yield _explainer_page(explainer, site)
    yield _numbers(limits, language)
    yield _search_page(site_index(shelf))
    yield Page(paths.NOT_FOUND, "404.html", "Page not found", "There is no page here.", {})


def site_index(shelf: Shelves) -> tuple[Searched, ...]:
    """Everything that can be searched for."""
    return searched([*shelf.programs, *shelf.exercises, *shelf.techniques, *shelf.explainers])


def _search_page(pages: Sequence[Searched]) -> Page:
    description = "Every program, exercise, technique and explainer by name, and a search of their words."
    return Page(paths.SEARCH, "search.html", "Search and index", description, {"letters": index_letters(pages)})


def _list_page(here: Linked, description: str, data: Mapping[str, Any]) -> Page:
    return Page(here.path, f"{here.title.lower()}.html", here.title, description, data)


def program_pages(program: ProgramView, site: SiteView) -> Iterator[Page]:
    """A program's own page and those of its weeks."""
    said = tuple(caution.text for caution in program.cautions)
    yield Page(
        program.path,
        "program.html",
        program.title,
        program.summary,
        {"program": program},
        said,
        trail=(PROGRAMS,),
        card=_program_card(program),
        about=exercise_plan(program, site, paths.card(program.path)),
        changed=last_change(program),
    )
    for index, week in enumerate(program.weeks):
        data = {
            "program": program,
            "week": week,
            "previous": program.weeks[index - 1] if index else None,
            "next": program.weeks[index + 1] if index + 1 < len(program.weeks) else None,
        }
        title = f"{program.title}, {week.title.lower()}"
        trail = (PROGRAMS, Linked(program.title, program.path))
        description = f"The sheet of {title}."
        yield Page(week.path, "week.html", title, description, data, program.short_cautions, trail=trail)


def _program_card(program: ProgramView) -> Card:
    wanted = ("Weeks", "Days a week", "Minutes a session")
    figures = tuple(fact for fact in program.facts if fact.label in wanted and fact.value)
    return Card("Program", program.title, program.summary, figures)


def _exercise_page(view: ExerciseView) -> Page:
    description = f"{view.title}: set-up, cues, faults and cautions."
    card = Card("Exercise", view.title, "Set-up, cues, faults, cautions and substitutes.")
    data = {"exercise": view}
    return Page(view.path, "exercise.html", view.title, description, data, view.cautions, trail=(EXERCISES,), card=card)


def _technique_page(view: TechniqueView) -> Page:
    card = Card("Technique", view.title, view.summary)
    data = {"technique": view}
    return Page(
        view.path, "technique.html", view.title, view.summary, data, view.cautions, trail=(TECHNIQUES,), card=card
    )


def _explainer_page(view: ExplainerView, site: SiteView) -> Page:
    return Page(
        view.path,
        "explainer.html",
        view.title,
        view.summary,
        {"explainer": view},
        trail=(EXPLAINERS,),
        card=Card("Explainer", view.title, view.summary),
        about=article(view, site, paths.card(view.path)),
        changed=view.iso_date,
    )


def _numbers(limits: Limits, language: Language) -> Page:
    formulas = tuple(
        FormulaView(*map(language.say, (a.title, a.words, a.formula, a.valid, a.source))) for a in ACCOUNTS
    )
    data = {"formulas": formulas, "limits": _limits(limits, language)}
    description = "Every computation behind the loads, volumes and minutes, with its source and limits."
    return Page(paths.NUMBERS, "numbers.html", "How the numbers are made", description, data)


def _limits(limits: Limits, language: Language) -> tuple[Fact, ...]:
    return (
        Fact("Rise in load from week to week", f"{language.number(limits.load_jump)} %"),
        Fact("Rise in weekly sets from week to week", f"{language.number(limits.sets_jump)} %"),
        Fact("Time between sessions for the same muscle", f"{limits.recovery // 3600} h"),
        Fact("Lines past failure in a session", str(limits.past_failure_lines)),
    )

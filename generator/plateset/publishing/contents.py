"""The contents of a site: one row a page, in the order of the navigation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
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
    """One row of the table: where a page stands, its template, head and data; its words are in the site's language."""

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

    @cached_property
    def searched(self) -> tuple[Searched, ...]:
        """Everything that can be searched for."""
        return searched([*self.programs, *self.exercises, *self.techniques, *self.explainers])


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
    lists, say = facet_lists(shelf.programs, language), language.say
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
    of_programs = say("All programs of this site, and a way to find the one that fits.")
    yield _list_page(PROGRAMS, of_programs, everything, language)
    for each in lists:
        data = everything | {"facet": each}
        title = say(each.title)
        yield Page(each.path, "facet.html", title, f"{title}.", data, trail=_below(PROGRAMS, language))
    yield _list_page(EXERCISES, say("All exercises of this site."), everything, language)
    for exercise in shelf.exercises:
        yield _exercise_page(exercise, language)
    yield _list_page(TECHNIQUES, say("All techniques of this site."), everything, language)
    for technique in shelf.techniques:
        yield _technique_page(technique, language)
    yield _list_page(EXPLAINERS, say("All explainers of this site."), everything, language)
    for explainer in shelf.explainers:
        yield _explainer_page(explainer, site, language)
    yield _numbers(limits, language)
    yield _search_page(shelf.searched, language)
    yield Page(paths.NOT_FOUND, "404.html", say("Page not found"), say("There is no page here."), {})


def _search_page(pages: Sequence[Searched], language: Language) -> Page:
    title = language.say("Search and index")
    description = language.say("Every program, exercise, technique and explainer by name, and a search of their words.")
    return Page(paths.SEARCH, "search.html", title, description, {"letters": index_letters(pages)})


def _list_page(here: Linked, description: str, data: Mapping[str, Any], language: Language) -> Page:
    return Page(here.path, f"{here.title.lower()}.html", language.say(here.title), description, data)


def _below(here: Linked, language: Language, *further: Linked) -> tuple[Linked, ...]:
    """The way to a page that stands below a list."""
    return (Linked(language.say(here.title), here.path), *further)


def program_pages(program: ProgramView, site: SiteView, language: Language = ENGLISH) -> Iterator[Page]:
    """A program's own page and those of its weeks."""
    said = tuple(caution.text for caution in program.cautions)
    yield Page(
        program.path,
        "program.html",
        program.title,
        program.summary,
        {"program": program},
        said,
        trail=_below(PROGRAMS, language),
        card=_program_card(program, language),
        about=exercise_plan(program, site, paths.card(program.path), language),
        changed=last_change(program),
    )
    for index, week in enumerate(program.weeks):
        data = {
            "program": program,
            "week": week,
            "previous": program.weeks[index - 1] if index else None,
            "next": program.weeks[index + 1] if index + 1 < len(program.weeks) else None,
        }
        title = f"{program.title}, {language.low(week.title)}"
        trail = _below(PROGRAMS, language, Linked(program.title, program.path))
        description = language.say("The sheet of %(week)s.") % {"week": title}
        yield Page(week.path, "week.html", title, description, data, program.short_cautions, trail=trail)


def _program_card(program: ProgramView, language: Language) -> Card:
    wanted = ("Weeks", "Days a week", "Minutes a session")
    facts = [fact for fact in program.facts if fact.label in wanted and fact.value]
    figures = tuple(Fact(language.say(fact.label), fact.value) for fact in facts)
    return Card(language.say("Program"), program.title, program.summary, figures)


def _exercise_page(view: ExerciseView, language: Language) -> Page:
    description = language.say("%(lift)s: set-up, cues, faults and cautions.") % {"lift": view.title}
    summary = language.say("Set-up, cues, faults, cautions and substitutes.")
    return Page(
        view.path,
        "exercise.html",
        view.title,
        description,
        {"exercise": view},
        view.cautions,
        trail=_below(EXERCISES, language),
        card=Card(language.say("Exercise"), view.title, summary),
    )


def _technique_page(view: TechniqueView, language: Language) -> Page:
    return Page(
        view.path,
        "technique.html",
        view.title,
        view.summary,
        {"technique": view},
        view.cautions,
        trail=_below(TECHNIQUES, language),
        card=Card(language.say("Technique"), view.title, view.summary),
    )


def _explainer_page(view: ExplainerView, site: SiteView, language: Language) -> Page:
    return Page(
        view.path,
        "explainer.html",
        view.title,
        view.summary,
        {"explainer": view},
        trail=_below(EXPLAINERS, language),
        card=Card(language.say("Explainer"), view.title, view.summary),
        about=article(view, site, paths.card(view.path)),
        changed=view.iso_date,
    )


def _numbers(limits: Limits, language: Language) -> Page:
    formulas = tuple(
        FormulaView(*map(language.say, (a.title, a.words, a.formula, a.valid, a.source))) for a in ACCOUNTS
    )
    data = {"formulas": formulas, "limits": _limits(limits, language)}
    description = language.say("Every computation behind the loads, volumes and minutes, with its source and limits.")
    return Page(paths.NUMBERS, "numbers.html", language.say("How the numbers are made"), description, data)


def _limits(limits: Limits, language: Language) -> tuple[Fact, ...]:
    return (
        Fact("Rise in load from week to week", f"{language.number(limits.load_jump)} %"),
        Fact("Rise in weekly sets from week to week", f"{language.number(limits.sets_jump)} %"),
        Fact("Time between sessions for the same muscle", f"{limits.recovery // 3600} h"),
        Fact("Lines past failure in a session", str(limits.past_failure_lines)),
    )

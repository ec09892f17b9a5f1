"""The workbook of a program: the reader's own loads in live formulas, with room to log what was done."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time

from plateset.manuscript.library import Manuscript
from plateset.manuscript.tracing import Heads
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.program_view import Program
from plateset.publishing.typesetting import Paper
from plateset.publishing.views import ProgramView, SiteView
from plateset.publishing.warm_up_steps import usual_steps
from plateset.publishing.workbook_desk import About, Desk, Table
from plateset.publishing.workbook_figures import write_numbers, write_weekly_sets
from plateset.publishing.workbook_gym import loadable, write_loadable
from plateset.publishing.workbook_lifts import INTRODUCTION_ROWS, curves_of, write_your_lifts, your_lifts
from plateset.publishing.workbook_weeks import Book, write_week
from plateset.publishing.workbook_words import WorkbookWords, words_of
from plateset.training.gym import gym_of

LAST_COLUMN = 1
OURS = ("Always", "This program")
"""What cautions say of where they come from, besides names of the author's."""


@dataclass(frozen=True)
class Shown:
    """What a workbook needs besides the plan: its words and those of the site, the manuscript, and the paper."""

    view: ProgramView
    site: SiteView
    manuscript: Manuscript
    paper: Paper


def workbook(program: Program, shown: Shown, language: Language = ENGLISH) -> bytes:
    """A program as an Office Open XML workbook. Equal input gives equal bytes."""
    plan = program.plan
    exercises = Heads(shown.manuscript.exercises)
    gym = gym_of(shown.manuscript.site.head.loading, plan.program.loading, plan.unit)
    words = words_of(language, tuple(week.number for week in plan.weeks))
    lifts = your_lifts(plan, exercises, INTRODUCTION_ROWS + 2, words.sheets.your_lifts)
    what = loadable(plan, gym, language)
    desk = Desk(_about(program, shown, language), plan.unit, words)
    _write_start(desk, program, shown)
    write_your_lifts(desk, lifts)
    book = Book(plan, shown.view, lifts, what, program.by_weekday, usual_steps(plan, shown.manuscript), words)
    for week in plan.weeks:
        write_week(desk, book, week)
    write_weekly_sets(desk, program, shown.view)
    write_loadable(desk, what)
    write_numbers(desk, sorted({plan.curve, *(entry.curve for entry in lifts.entries), *curves_of(plan)}), what)
    return desk.bytes()


def _about(program: Program, shown: Shown, language: Language) -> About:
    edition = language.say("edition %(number)s") % {"number": shown.view.edition}
    draft = f", {language.low(language.say('Draft'))}" if shown.site.draft else ""
    created = datetime.combine(program.plan.program.date, time(12))
    return About(shown.view.title, shown.view.byline, edition + draft, created, shown.paper)


def _write_start(desk: Desk, program: Program, shown: Shown) -> None:
    view, site, say = shown.view, shown.site, desk.say
    sheet = desk.sheet(desk.words.sheets.start, (28, 88))
    sheet.title(view.title)
    row = 1
    if site.draft:
        draft = say("Draft: not checked. The proof of this program has marks that are not settled.")
        row = sheet.paragraph(row, draft, LAST_COLUMN, "heading")
    row = sheet.paragraph(row, view.summary, LAST_COLUMN)
    row = sheet.paragraph(row, _imprint(view, site, desk.words.language), LAST_COLUMN)
    if site.address:
        address = f"{site.address.rstrip('/')}/{view.path}"
        words = say("The program's page:")
        sheet.link(row, 0, address, f"{words} ")
        row += 1
    row = sheet.paragraph(row + 1, say("Cautions"), LAST_COLUMN, "heading")
    for caution in view.cautions:
        source = say(caution.source) if caution.source in OURS else caution.source
        row = sheet.labelled(row, source, caution.text)
    use = _use(program, desk.words)
    parts = ((say("It suits"), view.suits), (say("It is not for"), view.not_for), (say("How to use it"), use))
    for title, listed in parts:
        row = sheet.paragraph(row + 1, title, LAST_COLUMN, "heading")
        for each in listed:
            row = sheet.paragraph(row, f"• {each}", LAST_COLUMN)
    sheet.finish(Table((0, 0), LAST_COLUMN), row - 1, landscape=False)


def _imprint(view: ProgramView, site: SiteView, language: Language) -> str:
    by = language.say("By %(name)s") % {"name": view.byline}
    edition = language.say("Edition %(number)s") % {"number": view.edition}
    licence = f" {view.licence}." if view.licence else ""
    origin = language.say("From %(site)s") % {"site": site.title}
    return f"{by}. {edition}, {view.date}.{licence} {origin}."


def _use(program: Program, words: WorkbookWords) -> tuple[str, ...]:
    say, sheets, weeks = words.language.say, words.sheets, program.plan.weeks
    first, last = words.week(weeks[0].number), words.week(weeks[-1].number)
    span = f"“{first}”" if first == last else say("“%(first)s” to “%(last)s”") % {"first": first, "last": last}
    return (
        say("On “%(sheet)s”, put your own bests over an example lifter's. Until then every load is theirs.")
        % {"sheet": sheets.your_lifts},
        say("On “%(sheet)s”, change the lists to what your gym has.") % {"sheet": sheets.loadable},
        say(
            "%(weeks)s then show your loads, rounded to those lists. Tinted cells with a frame are for what you did: "
            "the load, the repetitions, and how many were left in reserve. To the right stands how each load is made."
        )
        % {"weeks": span},
        say(
            "Warm-up sets stand where the example lifter needs them, as shares of your first load. “Left out” means "
            "that the step would be no lighter than that load, or no heavier than the step before."
        ),
        say(
            "Loads of later weeks under a progression are a projection. What you did decides: stay where you are if "
            "the repetitions were not there, and go lighter in doubt."
        ),
        say("“%(sets)s” shows the sets each muscle gets, “%(numbers)s” the tables behind the loads.")
        % {"sets": sheets.weekly_sets, "numbers": sheets.numbers},
        say("Other cells are protected against a slip of the finger; there is no password to lift that."),
    )

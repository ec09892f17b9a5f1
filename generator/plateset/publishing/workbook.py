"""The workbook of a program: the reader's own loads in live formulas, with room to log what was done."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time

from plateset.manuscript.library import Manuscript
from plateset.manuscript.tracing import Heads
from plateset.publishing.program_view import Program
from plateset.publishing.typesetting import Paper
from plateset.publishing.views import ProgramView, SiteView
from plateset.publishing.warm_up_steps import usual_steps
from plateset.publishing.workbook_desk import About, Desk, Table
from plateset.publishing.workbook_figures import NUMBERS, WEEKLY_SETS, write_numbers, write_weekly_sets
from plateset.publishing.workbook_gym import LOADABLE, loadable, write_loadable
from plateset.publishing.workbook_lifts import INTRODUCTION_ROWS, YOUR_LIFTS, curves_of, write_your_lifts, your_lifts
from plateset.publishing.workbook_weeks import Book, week_name, write_week
from plateset.training.gym import gym_of

START = "Start here"
LAST_COLUMN = 1


@dataclass(frozen=True)
class Shown:
    """What a workbook needs besides the plan: its words and those of the site, the manuscript, and the paper."""

    view: ProgramView
    site: SiteView
    manuscript: Manuscript
    paper: Paper


def workbook(program: Program, shown: Shown) -> bytes:
    """A program as an Office Open XML workbook. Equal input gives equal bytes."""
    plan = program.plan
    exercises = Heads(shown.manuscript.exercises)
    gym = gym_of(shown.manuscript.site.head.loading, plan.program.loading, plan.unit)
    lifts = your_lifts(plan, exercises, INTRODUCTION_ROWS + 2)
    what = loadable(plan, gym)
    desk = Desk(_about(program, shown), plan.unit)
    _write_start(desk, program, shown)
    write_your_lifts(desk, lifts)
    book = Book(plan, shown.view, lifts, what, program.by_weekday, usual_steps(plan, shown.manuscript))
    for week in plan.weeks:
        write_week(desk, book, week)
    write_weekly_sets(desk, program, shown.view)
    write_loadable(desk, what)
    write_numbers(desk, sorted({plan.curve, *(entry.curve for entry in lifts.entries), *curves_of(plan)}), what)
    return desk.bytes()


def _about(program: Program, shown: Shown) -> About:
    edition = f"edition {shown.view.edition}" + (", draft" if shown.site.draft else "")
    created = datetime.combine(program.plan.program.date, time(12))
    return About(shown.view.title, shown.view.byline, edition, created, shown.paper)


def _write_start(desk: Desk, program: Program, shown: Shown) -> None:
    view, site = shown.view, shown.site
    sheet = desk.sheet(START, (28, 88))
    sheet.title(view.title)
    row = 1
    if site.draft:
        row = sheet.paragraph(row, DRAFT, LAST_COLUMN, "heading")
    row = sheet.paragraph(row, view.summary, LAST_COLUMN)
    row = sheet.paragraph(row, _imprint(view, site), LAST_COLUMN)
    if site.address:
        address = f"{site.address.rstrip('/')}/{view.path}"
        sheet.link(row, 0, address, "The program's page: ")
        row += 1
    row = sheet.paragraph(row + 1, "Cautions", LAST_COLUMN, "heading")
    for caution in view.cautions:
        row = sheet.labelled(row, caution.source, caution.text)
    for title, words in (("It suits", view.suits), ("It is not for", view.not_for), ("How to use it", _use(program))):
        row = sheet.paragraph(row + 1, title, LAST_COLUMN, "heading")
        for each in words:
            row = sheet.paragraph(row, f"• {each}", LAST_COLUMN)
    sheet.finish(Table((0, 0), LAST_COLUMN), row - 1, landscape=False)


DRAFT = "Draft: not checked. The proof of this program has marks that are not settled."


def _imprint(view: ProgramView, site: SiteView) -> str:
    licence = f" {view.licence}." if view.licence else ""
    return f"By {view.byline}. Edition {view.edition}, {view.date}.{licence} From {site.title}."


def _use(program: Program) -> tuple[str, ...]:
    weeks = program.plan.weeks
    first, last = week_name(weeks[0]), week_name(weeks[-1])
    span = f"“{first}”" if first == last else f"“{first}” to “{last}”"
    return (
        f"On “{YOUR_LIFTS}”, put your own bests over an example lifter's. Until then every load is theirs.",
        f"On “{LOADABLE}”, change the lists to what your gym has.",
        f"{span} then show your loads, rounded to those lists. Tinted cells with a frame are for what you did: the "
        "load, the repetitions, and how many were left in reserve. To the right stands how each load is made.",
        "Warm-up sets stand where the example lifter needs them, as shares of your first load. “Left out” means that "
        "the step would be no lighter than that load, or no heavier than the step before.",
        "Loads of later weeks under a progression are a projection. What you did decides: stay where you are if the "
        "repetitions were not there, and go lighter in doubt.",
        f"“{WEEKLY_SETS}” shows the sets each muscle gets, “{NUMBERS}” the tables behind the loads.",
        "Other cells are protected against a slip of the finger; there is no password to lift that.",
    )

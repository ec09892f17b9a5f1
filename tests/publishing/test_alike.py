"""Weeks that are alike share their lifts and sessions: that saves work and changes nothing that is made."""

from __future__ import annotations

import pickle
from dataclasses import replace
from typing import Any

from markupsafe import Markup
from plateset.manuscript.tracing import Heads
from plateset.publishing.calendar_file import undated
from plateset.publishing.contents import program_pages
from plateset.publishing.diary import diary
from plateset.publishing.documents import Edition, site_view
from plateset.publishing.newsletter import newsletter
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.plain_text import plain_text
from plateset.publishing.plan_json import plan_json
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.studio import Studio, _head, site_view_of
from plateset.publishing.tables_csv import plan_csv
from plateset.publishing.theme import Pages
from plateset.publishing.workbook import Shown, workbook
from plateset.training.marks.mark import Case
from plateset.training.plan import Plan
from plateset.training.proof import prove
from plateset.training.time import session_minutes, sessions_of
from plateset.training.volume import program_volume

from tests.everything import SLUG


def apart(plan: Plan) -> Plan:
    """The same plan with every week, lift and load an object of its own."""
    return replace(plan, weeks=tuple(pickle.loads(pickle.dumps(week)) for week in plan.weeks))


def made_of(program: Program, edition: Edition) -> list[object]:
    """What is made of a program, but for its pages, sheets and workbook."""
    language = edition.theme.language("en")
    site = site_view_of(edition.manuscript, edition.figure, language, draft=False)
    seen = program_view(program, edition.manuscript, edition.figure, language)
    view, scripts = with_own_loads(program, seen, edition.manuscript, language)
    of = diary(program.plan, view, site, by_weekday=program.by_weekday)
    texts = [plain_text(view, site), newsletter(view, site), undated(of), plan_json(program, view, site, of)]
    return [view, scripts, *texts, plan_csv(program.plan, by_weekday=program.by_weekday)]


def programs_of(demo: Edition, everythings: dict[str, Edition]) -> list[tuple[Program, Edition]]:
    own = [(edition.programs[SLUG], edition) for edition in everythings.values()]
    return [*own, *((program, demo) for program in demo.programs.values())]


def test_weeks_that_share_and_weeks_apart_come_out_the_same(demo: Edition, everythings: dict[str, Edition]) -> None:
    for program, edition in programs_of(demo, everythings):
        plan = apart(program.plan)
        assert program_volume(plan) == program.volume
        assert made_of(Program(plan, program_volume(plan), program.by_weekday), edition) == made_of(program, edition)


def test_workbooks_hold_the_same_whether_weeks_share_or_not(demo: Edition, everythings: dict[str, Edition]) -> None:
    for program, edition in programs_of(demo, everythings):
        view = program_view(program, edition.manuscript, edition.figure)
        shown = Shown(view, site_view(edition), edition.manuscript, "a4")
        plan = apart(program.plan)
        assert workbook(replace(program, plan=plan), shown) == workbook(program, shown)


def test_marks_name_the_first_week_whether_weeks_share_or_not(demo: Edition, everythings: dict[str, Edition]) -> None:
    met = set[str]()
    for program, edition in programs_of(demo, everythings):
        site, techniques = edition.manuscript.site.head, Heads(edition.manuscript.techniques)
        case = Case(program.plan, program.volume, site.limits, techniques, site.cautions)
        found = prove(case)
        assert prove(replace(case, plan=apart(program.plan))) == found
        met |= {mark.name for mark in found}
    assert len(met) > 2


class Anew(Pages):
    """Renders every piece of a page each time it stands there."""

    def _once(self, links_as: str, macro: Any, *given: object) -> Markup:
        return Markup(macro(*given))


def test_pages_share_only_what_they_would_all_say(demo: Edition, everythings: dict[str, Edition]) -> None:
    for program, edition in programs_of(demo, everythings):
        language = edition.theme.language("en")
        site = site_view_of(edition.manuscript, edition.figure, language, draft=True)
        studio = Studio(site, edition.theme)
        apart_from_others = Anew(edition.theme, studio.pages._shared, language)
        seen = program_view(program, edition.manuscript, edition.figure, language)
        view, _ = with_own_loads(program, seen, edition.manuscript, language)
        for page in program_pages(view, site):
            html = studio.page(page).make().decode()
            assert html == apart_from_others.render(page.template, _head(page, site), page.data)
            assert "<this week>" not in html


def test_only_what_is_equal_is_shared(demo: Edition, everythings: dict[str, Edition]) -> None:
    shared = 0
    for program, _ in programs_of(demo, everythings):
        met = sessions_of(program.plan)
        every = [session for week in program.plan.weeks for session in week.sessions]
        shared += len(every) - len(met)
        assert [session for session in every if session not in met] == []
        assert {session_minutes(session) for session in every} == {session_minutes(session) for session in met}
    assert shared > 0


def test_working_weeks_alone_are_gone_through_where_they_are_asked_for(demo: Edition) -> None:
    program = next(each for each in demo.programs.values() if any(not week.working for week in each.plan.weeks))
    working = [session for week in program.plan.weeks if week.working for session in week.sessions]
    assert sessions_of(program.plan, working=True) == sessions_of(
        replace(program.plan, weeks=tuple(week for week in program.plan.weeks if week.working))
    )
    assert len(sessions_of(program.plan, working=True)) <= len(working)

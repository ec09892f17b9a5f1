"""A program's weeks with the loads left empty, for a lifter who writes their own."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from plateset.manuscript.library import Manuscript
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.program_view import Program, week_views
from plateset.publishing.views import LiftView, LineView, SessionView, SetView, WeekView
from plateset.remembering import Remembered
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece, Plan, PlannedLine, Session, Week, WorkSet
from plateset.training.progression import rule_alone

BODYWEIGHT = "bodyweight"
"""The one load that is everyone's."""


def blank_weeks(program: Program, manuscript: Manuscript, language: Language = ENGLISH) -> tuple[WeekView, ...]:
    """The weeks of the program's page without any load, and without repetitions projected for the example lifter."""
    blank = replace(program, plan=_without_loads(program.plan))
    lifts: Remembered[LiftView] = Remembered()
    alone = language.say(BODYWEIGHT)
    return tuple(_blank_week(week, lifts, alone) for week in week_views(blank, manuscript, language))


# -- the plan: what is told of a technique names no load --------------------------------------------------


def _without_loads(plan: Plan) -> Plan:
    lifts: Remembered[Lift] = Remembered()  # weeks share lifts, and go on sharing them
    sessions: Remembered[Session] = Remembered()
    return replace(plan, weeks=tuple(_week(week, sessions, lifts) for week in plan.weeks))


def _week(week: Week, sessions: Remembered[Session], lifts: Remembered[Lift]) -> Week:
    blank = (sessions.get((each,), partial(_session, each, lifts)) for each in week.sessions)
    return replace(week, sessions=tuple(blank))


def _session(session: Session, lifts: Remembered[Lift]) -> Session:
    return replace(session, lines=tuple(_line(line, lifts) for line in session.lines))


def _line(line: PlannedLine, lifts: Remembered[Lift]) -> PlannedLine:
    return replace(line, lifts=tuple(lifts.get((each,), partial(_lift, each)) for each in line.lifts))


def _lift(lift: Lift) -> Lift:
    warm_up = tuple(replace(each, load=_unknown(each.load)) for each in lift.warm_up)
    rule = " ".join(part for part in (_sentence(rule_alone(lift.rule)), _shares(lift)) if part)
    sets = tuple(_set(work) for work in lift.sets)
    return replace(lift, sets=sets, warm_up=warm_up, rule=rule, projected=False)


def _shares(lift: Lift) -> str:
    """What the sets keep of the heaviest one's load, where the loads that said so are gone."""
    shares = [work.pieces[0].load.basis.share for work in lift.sets]
    if len(set(shares)) == 1:
        return ""
    return f"Of the heaviest load, set by set: {', '.join(plain(100 * share) for share in shares)} %"


def _sentence(told: str) -> str:
    return told if told.endswith(".") or not told else f"{told}."


def _set(work: WorkSet) -> WorkSet:
    return replace(work, pieces=tuple(_piece(piece) for piece in work.pieces))


def _piece(piece: Piece) -> Piece:
    return replace(piece, load=_unknown(piece.load))


def _unknown(load: Load) -> Load:
    if load.kind == "bodyweight" and load.mass == 0:
        return load
    return replace(load, mass=None, exact=None, per_side=None)


# -- the views: nothing stands where a load would, but ``alone``: bodyweight, in the words of the page ----


def _blank_week(week: WeekView, lifts: Remembered[LiftView], alone: str) -> WeekView:
    return replace(week, sessions=tuple(_blank_session(session, lifts, alone) for session in week.sessions))


def _blank_session(session: SessionView, lifts: Remembered[LiftView], alone: str) -> SessionView:
    return replace(session, lines=tuple(_blank_line(line, lifts, alone) for line in session.lines))


def _blank_line(line: LineView, lifts: Remembered[LiftView], alone: str) -> LineView:
    return replace(line, lifts=tuple(lifts.get((each,), partial(_blank_lift, each, alone)) for each in line.lifts))


def _blank_lift(lift: LiftView, alone: str) -> LiftView:
    sets = tuple(_blank_set(one, alone) for one in lift.set_views)
    return replace(lift, load=_blank(lift.load, alone), plates="", set_views=sets)


def _blank_set(one: SetView, alone: str) -> SetView:
    pieces = tuple(replace(piece, load=_blank(piece.load, alone), plates="") for piece in one.pieces)
    return replace(one, load=_blank(one.load, alone), plates="", pieces=pieces)


def _blank(load: str, alone: str) -> str:
    return load if load == alone else ""

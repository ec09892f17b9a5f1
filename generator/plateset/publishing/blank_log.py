"""A program's weeks with the loads left empty, for a lifter who writes their own."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from functools import partial
from itertools import pairwise

from plateset.manuscript.library import Manuscript
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.program_view import Program, week_views
from plateset.publishing.views import LiftView, LineView, SessionView, SetView, WeekView
from plateset.publishing.warm_up_steps import Steps, line_of, usual_steps, warm_up_steps
from plateset.publishing.words import rule_text
from plateset.remembering import Remembered
from plateset.training.plan import Basis, Lift, Load, Piece, Plan, PlannedLine, Session, WarmUp, Week, WorkSet
from plateset.training.progression import rule_alone
from plateset.training.sentences import Sentence

BODYWEIGHT = "bodyweight"
"""The one load that is everyone's."""


def blank_weeks(program: Program, manuscript: Manuscript, language: Language = ENGLISH) -> tuple[WeekView, ...]:
    """The weeks of the program's page without any load, and without repetitions projected for the example lifter."""
    blank = replace(
        program, plan=_Blanker(program.plan, usual_steps(program.plan, manuscript), language).plan_without_loads()
    )
    lifts: Remembered[LiftView] = Remembered()
    alone = language.say(BODYWEIGHT)
    return tuple(_blank_week(week, lifts, alone) for week in week_views(blank, manuscript, language))


# -- the plan: what is told of a technique names no load --------------------------------------------------


class _Blanker:
    """Takes the loads out of a plan. Weeks share lifts and sessions, and go on sharing them."""

    def __init__(self, plan: Plan, usual: Steps, language: Language) -> None:
        self._plan, self._usual, self._language = plan, usual, language
        self._lifts: Remembered[Lift] = Remembered()
        self._sessions: Remembered[Session] = Remembered()

    def plan_without_loads(self) -> Plan:
        """The plan, each load left to the reader."""
        return replace(self._plan, weeks=tuple(map(self._week, self._plan.weeks)))

    def _week(self, week: Week) -> Week:
        blank = (self._sessions.get((each,), partial(self._session, each)) for each in week.sessions)
        return replace(week, sessions=tuple(blank))

    def _session(self, session: Session) -> Session:
        return replace(session, lines=tuple(self._line(line, session) for line in session.lines))

    def _line(self, line: PlannedLine, session: Session) -> PlannedLine:
        lifts = (self._lifts.get((each,), partial(self._lift, each, session)) for each in line.lifts)
        return replace(line, lifts=tuple(lifts))

    def _lift(self, lift: Lift, session: Session) -> Lift:
        steps = warm_up_steps(lift, line_of(self._plan, session, lift), self._usual)
        warm_up = tuple(WarmUp(_step_load(lift, step.load), step.reps) for step, _ in steps)
        return replace(blank_lift(lift, self._language), warm_up=warm_up)


def blank_lift(lift: Lift, language: Language = ENGLISH) -> Lift:
    """A lift without its loads and warm-up, and what those said in its rule."""
    said = (rule_text(rule_alone(lift.rule), language), _sentence(_shares(lift, language)), _drops(lift, language))
    told = " ".join(filter(None, said)).removesuffix(".").replace("%", "%%")
    sets = tuple(_set(work) for work in lift.sets)
    return replace(lift, sets=sets, warm_up=(), rule=(Sentence(told),) if told else (), projected=False)


def _step_load(lift: Lift, percent: Decimal) -> Load:
    """The load of a warm-up set as a share of the first set's, whatever that is."""
    return Load(lift.sets[0].pieces[0].load.kind, None, None, None, Basis("warm-up", percent))


def _shares(lift: Lift, language: Language) -> str:
    """What the sets keep of the heaviest one's load, where the loads that said so are gone."""
    shares = [work.pieces[0].load.basis.share for work in lift.sets]
    if len(set(shares)) == 1:
        return ""
    told = language.list_mark.join(language.number(100 * share) for share in shares)
    return language.say("Of the heaviest load, set by set: %(shares)s %%") % {"shares": told}


def _drops(lift: Lift, language: Language) -> str:
    """How much lighter each drop of a set is than what stood before it, where the loads that said so are gone."""
    pieces = lift.sets[-1].pieces
    drops = [_drop(before.load, piece.load) for before, piece in pairwise(pieces) if piece.role == "drop"]
    known = [drop for drop in drops if drop is not None]
    if not known or len(known) < len(drops):
        return ""
    told = known[:1] if len(set(known)) == 1 else known
    said = f", {language.say('then')} ".join(f"{drop} %" for drop in told)
    return language.say("Take about %(drops)s off at each drop.") % {"drops": said}


def _drop(before: Load, after: Load) -> int | None:
    """By how many percent a load was meant to be lighter than the one before; None where nobody can say."""
    if not before.mass or after.exact is None or before.kind == "bodyweight":
        return None
    return int((100 * (1 - after.exact / before.mass)).to_integral_value(ROUND_HALF_UP))


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

"""A program expanded to every week, session, line and set, for the example lifter."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field, replace
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Reps
from plateset.manuscript.roles import progression_of
from plateset.manuscript.schema import Exercise, GroupLine, LiftLine, Program, Site
from plateset.records import record
from plateset.remembering import Remembered
from plateset.training.byweek import in_week
from plateset.training.gym import Gym, gym_of
from plateset.training.loads import Lifting, Wish, load_for, wished_for
from plateset.training.maxes import curve_of, maxes_of
from plateset.training.plan import (
    GroupKind,
    Lift,
    Load,
    Max,
    Piece,
    Plan,
    PlannedLine,
    Session,
    WarmUp,
    Week,
    WorkSet,
)
from plateset.training.progression import RULES, Prescription, Step, after, beside_a_test, deloaded, tell_test, tested
from plateset.training.sentences import Sentence
from plateset.training.set_layout import SetAsked, sets_asked
from plateset.training.strength import reps_at_percent
from plateset.training.techniques import TECHNIQUES, counted, pieces_of
from plateset.training.warm_up import USUAL, is_heavy, warm_up_sets

USUAL_REST = 120
"""Seconds between sets where the author gives none: within the 1-3 min of the ACSM stand (2009, MSSE 41(3):687-708)."""


@record
class _Ground:
    """All that the lines of one program share."""

    program: Program
    exercises: Mapping[str, Exercise]
    gym: Gym
    maxes: Mapping[str, Max]
    bodyweight: Decimal | None
    curve: str
    warm_up: Sequence[schema.WarmUpSet]
    lifts: dict[tuple[str, tuple[int, ...], Prescription, tuple[Sentence, ...]], Lift] = field(default_factory=dict)
    """The lifts worked out so far, by session, place, and all that changes from week to week."""
    sessions: Remembered[Session] = field(default_factory=Remembered)
    """The sessions worked out so far, by name, day, and their lifts."""

    def lifting(self, line: LiftLine) -> Lifting:
        note = self.exercises[line.exercise]
        return Lifting(
            note,
            self.gym,
            self.maxes.get(line.exercise),
            self.bodyweight,
            curve_of(note, self.curve),
            line.above_max is not None,
            line.range_of_motion == "full",
        )

    def deload_in(self, week: int) -> schema.Deload | None:
        deload = self.program.deload
        return deload if deload and week in deload.weeks else None

    def test_in(self, week: int) -> schema.TestWeeks | None:
        test = self.program.test
        return test if test and week in test.weeks else None

    def step(self, when: _When) -> Step:
        """The steps a progression has taken; a deload and a test stay at those of the last working week."""
        days = sorted(day for day, name in self.program.schedule.items() if name == when.session)
        place = days.index(when.day)
        working = [week for week in range(1, when.week) if self._works(week)]
        turn = (when.week - 1) * len(days) + place
        if self._works(when.week):
            return Step(len(working), len(working) * len(days) + place, turn)
        return Step(max(0, len(working) - 1), max(0, len(working) * len(days) - 1), turn)

    def _works(self, week: int) -> bool:
        return self.deload_in(week) is None and self.test_in(week) is None


@record
class _When:
    """A session of a program: its week, its day, its name."""

    week: int
    day: int
    session: str


def plan_program(slug: str, program: Program, site: Site, exercises: Mapping[str, Exercise]) -> Plan:
    """Expand ``program``. Every exercise it names must be in ``exercises``.

    What is the same in several weeks (a lift, or a whole session) is one object in all of them: it is worked out once,
    and those who go through a plan may see by its identity that they have met it.
    """
    ground = _ground(program, site, exercises)
    weeks = tuple(_week(ground, number) for number in range(1, program.weeks + 1))
    used = {lift.exercise for week in weeks for session in week.sessions for lift in session.lifts}
    return Plan(
        slug,
        program,
        ground.gym.unit,
        ground.curve,
        ground.bodyweight,
        tuple(ground.maxes[name] for name in sorted(used) if name in ground.maxes),
        weeks,
    )


Wishes = tuple[Sequence[Decimal], Sequence[Mapping[Decimal, Wish]]]
"""The share of the heaviest set's load that each set of a lift keeps; for each of some programs the wish by share."""

WishesIn = Callable[[int, Session, Lift], Wishes]
"""What the sets of a lift would start with, by week, session and lift."""


def wishes_of(programs: Sequence[Program], site: Site, exercises: Mapping[str, Exercise]) -> WishesIn:
    """The loads of ``programs`` before rounding, worked out when asked for; nothing else of them is.

    They are the same but for their lifter and their unit.
    """
    grounds = [_ground(program, site, exercises) for program in programs]

    def wishes_in(week: int, session: Session, lift: Lift) -> Wishes:
        line, when = line_of(programs[0], session.name, lift.index), _When(week, session.day, session.name)
        asked = _prescription(grounds[0], line, when)
        shares = [each.asked.share for each in sets_asked(line, asked)]
        wishes: list[dict[Decimal, Wish]] = []
        for ground in grounds:
            # What a progression adds is a mass; all else that is asked is the same in every unit.
            basis = _loaded_as(line, _prescription(ground, line, when) if asked.added else asked)
            lifting = ground.lifting(line)
            wishes.append({share: wished_for(lifting, _at(basis, share)) for share in dict.fromkeys(shares)})
        return shares, wishes

    return wishes_in


def line_of(program: Program, session: str, index: tuple[int, ...]) -> LiftLine:
    """What the author wrote for a lift of a session; ``index`` is that of :class:`Lift`."""
    text = program.sessions[session].lines[index[0]]
    return text if isinstance(text, LiftLine) else group_parts(text)[1][index[1]]


def _ground(program: Program, site: Site, exercises: Mapping[str, Exercise]) -> _Ground:
    unit = program.unit or site.unit
    curve = program.curve or site.curve
    lifter = program.example_lifter
    warm_up = program.warm_up_sets if program.warm_up_sets is not None else site.warm_up_sets
    return _Ground(
        program,
        exercises,
        gym_of(site.loading, program.loading, unit),
        maxes_of(lifter, exercises, curve, unit),
        lifter.bodyweight.to(unit) if lifter.bodyweight else None,
        curve,
        USUAL if warm_up is None else warm_up,
    )


def _week(ground: _Ground, number: int) -> Week:
    days = sorted(ground.program.schedule.items())
    sessions = tuple(_session(ground, _When(number, day, name)) for day, name in days)
    return Week(number, ground.deload_in(number) is not None, sessions, ground.test_in(number) is not None)


def _session(ground: _Ground, when: _When) -> Session:
    text = ground.program.sessions[when.session]
    lines = [_line(ground, line, index, when) for index, line in enumerate(text.lines)]

    def worked_out() -> Session:
        title = text.title or when.session.replace("-", " ").capitalize()
        warmed = _warmed(ground, text.lines, lines)
        return Session(when.session, title, when.day, text.note, text.within, warmed)

    lifts = (lift for line in lines for lift in line.lifts)
    return ground.sessions.get((when.session, str(when.day), *lifts), worked_out)


def group_parts(line: GroupLine) -> tuple[GroupKind, tuple[LiftLine, ...]]:
    """The kind of a group line and the lines in it."""
    if line.superset is not None:
        return "superset", line.superset
    if line.giant_set is not None:
        return "giant-set", line.giant_set
    if line.circuit is not None:
        return "circuit", line.circuit
    if line.pick_one is not None:
        return "pick-one", line.pick_one
    return "pre-exhaustion", line.pre_exhaustion or ()


def _line(ground: _Ground, line: schema.Line, index: int, when: _When) -> PlannedLine:
    if isinstance(line, LiftLine):
        lift = _lift(ground, line, (index,), when)
        return PlannedLine("single", (lift,), lift.rest, 0, "", "")
    kind, parts = group_parts(line)
    lifts = tuple(_lift(ground, part, (index, place), when) for place, part in enumerate(parts))
    rest = line.rest if line.rest is not None else USUAL_REST
    return PlannedLine(kind, lifts, rest, line.between, line.note, line.why)


# -- warm-up sets ----------------------------------------------------------------------------------


def _warmed(ground: _Ground, texts: Sequence[schema.Line], lines: Sequence[PlannedLine]) -> tuple[PlannedLine, ...]:
    """The lines with their warm-up sets: those a line asks for, and the program's on the first heavy line."""
    warmed: list[PlannedLine] = []
    still_cold = True
    for text, line in zip(texts, lines, strict=True):
        parts = (text,) if isinstance(text, LiftLine) else group_parts(text)[1]
        lifts: list[Lift] = []
        cold_here = still_cold
        for part, lift in zip(parts, line.lifts, strict=True):
            heavy = is_heavy(lift.note.movement, _heaviest(lift))
            steps = (
                part.warm_up_sets if part.warm_up_sets is not None else ground.warm_up if cold_here and heavy else ()
            )
            lifts.append(_warmed_up(lift, tuple(warm_up_sets(ground.lifting(part), _first(lift), steps))))
            still_cold = still_cold and not heavy
            # Of a pick, only one is done: each is as cold as the first.
            cold_here = still_cold if line.kind != "pick-one" else cold_here
        warmed.append(replace(line, lifts=tuple(lifts)))
    return tuple(warmed)


def _warmed_up(lift: Lift, sets: tuple[WarmUp, ...]) -> Lift:
    return replace(lift, warm_up=sets) if sets else lift


def _first(lift: Lift) -> Load:
    return lift.sets[0].pieces[0].load


def _heaviest(lift: Lift) -> Load:
    return max((work.pieces[0].load for work in lift.sets), key=lambda load: load.mass or Decimal(0))


# -- lines -----------------------------------------------------------------------------------------


def _asked(line: LiftLine, week: int) -> Prescription:
    """What the author gave for ``week``, before progression, deload and test."""
    return Prescription(
        sets=in_week(line.sets, week),
        reps=in_week(line.reps, week) if line.reps else None,
        hold=in_week(line.hold, week) if line.hold else None,
        load=in_week(line.load, week) if line.load else None,
        effort=in_week(line.effort, week) if line.effort else None,
        back_offs=line.back_off.sets if line.back_off else 0,
    )


def _prescription(ground: _Ground, line: LiftLine, when: _When) -> Prescription:
    """What the line asks for under its progression, and any deload or test."""
    rule = progression_of(line, ground.program)
    asked = _asked(line, when.week)
    if rule is not None:
        asked = after(asked, rule, ground.step(when), ground.gym.unit)
    setting = line.every_set or line.last_set
    if setting and when.week < setting.from_week:
        asked = replace(asked, techniques=False)
    if test := ground.test_in(when.week):
        return tested(test) if _is_tested(line) else beside_a_test(asked, test)
    deload = ground.deload_in(when.week)
    return deloaded(asked, deload) if deload else asked


def _is_tested(line: LiftLine) -> bool:
    return line.role == "main" and line.reps is not None


def _lift(ground: _Ground, line: LiftLine, index: tuple[int, ...], when: _When) -> Lift:
    """A line's lift in one week, which is that of any other week that asks for the same."""
    asked, rule = _prescription(ground, line, when), _told(ground, line, when.week)
    known = (when.session, index, asked, rule)
    if known not in ground.lifts:
        ground.lifts[known] = _worked_out(ground, line, index, asked, rule)
    return ground.lifts[known]


def _worked_out(
    ground: _Ground, line: LiftLine, index: tuple[int, ...], asked: Prescription, rule: tuple[Sentence, ...]
) -> Lift:
    lifting = ground.lifting(line)
    return Lift(
        exercise=line.exercise,
        note=lifting.note,
        index=index,
        sets=tuple(_sets(line, asked, lifting)),
        reps=asked.reps,
        hold=asked.hold,
        effort=asked.effort,
        rest=line.rest if line.rest is not None else USUAL_REST,
        tempo=line.tempo or lifting.note.tempo,
        rule=rule,
        projected=asked.projected,
        remark=line.note,
        why=line.why,
        curve=lifting.curve,
        role=line.role,
        range_of_motion=line.range_of_motion,
    )


def _told(ground: _Ground, line: LiftLine, week: int) -> tuple[Sentence, ...]:
    """How the line goes on; in a deload it does not."""
    if test := ground.test_in(week):
        return tell_test(test) if _is_tested(line) else ()
    rule = progression_of(line, ground.program)
    return RULES[rule.rule].tell(rule) if rule and ground.deload_in(week) is None else ()


def _sets(line: LiftLine, asked: Prescription, lifting: Lifting) -> list[WorkSet]:
    laid_out = sets_asked(line, asked)
    loads = _loads(line, asked, lifting, laid_out)
    return [
        _set(number, line, each, loads[each.asked.share], lifting, is_last=number == len(laid_out))
        for number, each in enumerate(laid_out, start=1)
    ]


def _loads(
    line: LiftLine, asked: Prescription, lifting: Lifting, laid_out: Sequence[SetAsked]
) -> Mapping[Decimal, Load]:
    """What a line's sets start with, by the share they keep of the heaviest set's load: no more of a set comes in."""
    basis = _loaded_as(line, asked)
    return {share: load_for(lifting, _at(basis, share)) for share in {each.asked.share for each in laid_out}}


def _loaded_as(line: LiftLine, asked: Prescription) -> Prescription:
    """Where a progression adds load, what it adds to is the load of the first week."""
    if not asked.anchored or asked.load is not None:
        return asked
    first = _asked(line, 1)
    return replace(asked, reps=first.reps, effort=first.effort)


def _at(basis: Prescription, share: Decimal) -> Prescription:
    """What a set is loaded by: the line's heaviest set, of which it keeps a share."""
    return basis if basis.share == share else replace(basis, share=share)


def _set(  # noqa: PLR0913 - a set is of a line, with a load, for a lifter, in a place
    number: int, line: LiftLine, each: SetAsked, load: Load, lifting: Lifting, *, is_last: bool
) -> WorkSet:
    asked = each.asked
    projected = asked.aim is not None and (is_last or not asked.aims_last)
    aim = asked.aim if projected else _expected(asked.reps, load, lifting)
    first = Piece("work", load, asked.reps, aim, asked.hold)
    setting = line.every_set or (line.last_set if is_last else None)
    plain = WorkSet(
        number,
        (first,),
        asked.effort,
        None,
        past_failure=False,
        kind=each.kind,
        optional=each.optional,
        projected=projected,
    )
    if setting is None or not asked.techniques:
        return plain
    technique = TECHNIQUES[setting.technique]
    pieces = pieces_of(setting, first, lifting)
    return replace(
        plain,
        pieces=pieces,
        technique=setting.technique,
        past_failure=technique.past_failure,
        counts=counted(setting, pieces),
    )


def _expected(reps: Reps | None, load: Load, lifting: Lifting) -> int | None:
    """Repetitions to count with: the lower end of a range; for an open set what the curve allows at its load."""
    if reps is None:
        return None
    if not reps.open:
        return reps.low
    if lifting.max is None or load.mass is None or not lifting.max.amount or not lifting.whole_range:
        return None
    moved = load.mass + (lifting.bodyweight or 0) if load.kind == "bodyweight" else load.mass
    return reps_at_percent(min(Decimal(100), moved * 100 / lifting.max.amount), lifting.curve) or None

"""A program expanded to every week, session, line and set, for the example lifter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Reps
from plateset.manuscript.schema import Exercise, GroupLine, LiftLine, Program, Site
from plateset.training.byweek import in_week
from plateset.training.gym import Gym, gym_of
from plateset.training.loads import Lifting, load_for
from plateset.training.maxes import maxes_of
from plateset.training.plan import (
    GroupKind,
    Lift,
    Load,
    Max,
    Piece,
    Plan,
    PlannedLine,
    Session,
    Week,
    WorkSet,
)
from plateset.training.progression import RULES, Prescription, after_steps, deloaded
from plateset.training.strength import reps_at_percent
from plateset.training.techniques import TECHNIQUES, pieces_of

USUAL_REST = 120
"""Seconds between sets where the author gives none: within the 1-3 min of the ACSM stand (2009, MSSE 41(3):687-708)."""


@dataclass(frozen=True)
class _Ground:
    """All that the lines of one program share."""

    program: Program
    exercises: Mapping[str, Exercise]
    gym: Gym
    maxes: Mapping[str, Max]
    bodyweight: Decimal | None
    curve: str

    def lifting(self, line: LiftLine) -> Lifting:
        return Lifting(
            self.exercises[line.exercise],
            self.gym,
            self.maxes.get(line.exercise),
            self.bodyweight,
            self.curve,
            line.above_max is not None,
        )

    def deload_in(self, week: int) -> schema.Deload | None:
        deload = self.program.deload
        return deload if deload and week in deload.weeks else None

    def steps_before(self, week: int) -> int:
        """The steps a progression has taken: working weeks before ``week``; a deload stays at the last one's."""
        steps = sum(self.deload_in(earlier) is None for earlier in range(1, week))
        return max(0, steps - 1) if self.deload_in(week) else steps


def plan_program(slug: str, program: Program, site: Site, exercises: Mapping[str, Exercise]) -> Plan:
    """Expand ``program``. Every exercise it names must be in ``exercises``."""
    unit = program.unit or site.unit
    curve = program.curve or site.curve
    lifter = program.example_lifter
    bodyweight = lifter.bodyweight.to(unit) if lifter.bodyweight else None
    maxes = maxes_of(lifter, exercises, curve, unit)
    ground = _Ground(program, exercises, gym_of(site.loading, program.loading, unit), maxes, bodyweight, curve)
    weeks = tuple(_week(ground, number) for number in range(1, program.weeks + 1))
    used = {lift.exercise for week in weeks for session in week.sessions for lift in session.lifts}
    return Plan(
        slug,
        program,
        unit,
        curve,
        bodyweight,
        tuple(maxes[name] for name in sorted(used) if name in maxes),
        weeks,
    )


def _week(ground: _Ground, number: int) -> Week:
    sessions = tuple(_session(ground, name, day, number) for day, name in sorted(ground.program.schedule.items()))
    return Week(number, ground.deload_in(number) is not None, sessions)


def _session(ground: _Ground, name: str, day: int, week: int) -> Session:
    text = ground.program.sessions[name]
    title = text.title or name.replace("-", " ").capitalize()
    lines = tuple(_line(ground, line, index, week) for index, line in enumerate(text.lines))
    return Session(name, title, day, text.note, text.within, lines)


def group_parts(line: GroupLine) -> tuple[GroupKind, tuple[LiftLine, ...]]:
    """The kind of a group line and the lines in it."""
    if line.superset is not None:
        return "superset", line.superset
    if line.giant_set is not None:
        return "giant-set", line.giant_set
    if line.circuit is not None:
        return "circuit", line.circuit
    return "pre-exhaustion", line.pre_exhaustion or ()


def _line(ground: _Ground, line: schema.Line, index: int, week: int) -> PlannedLine:
    if isinstance(line, LiftLine):
        lift = _lift(ground, line, (index,), week)
        return PlannedLine("single", (lift,), lift.rest, 0, "", "")
    kind, parts = group_parts(line)
    lifts = tuple(_lift(ground, part, (index, place), week) for place, part in enumerate(parts))
    rest = line.rest if line.rest is not None else USUAL_REST
    return PlannedLine(kind, lifts, rest, line.between, line.note, line.why)


def _asked(line: LiftLine, week: int) -> Prescription:
    """What the author gave for ``week``, before progression and deload."""
    reps = in_week(line.reps, week) if line.reps else None
    return Prescription(
        sets=in_week(line.sets, week),
        reps=reps,
        hold=in_week(line.hold, week) if line.hold else None,
        load=in_week(line.load, week) if line.load else None,
        effort=in_week(line.effort, week) if line.effort else None,
    )


def prescription(ground: _Ground, line: LiftLine, week: int) -> Prescription:
    """What the line asks for in ``week`` under its progression and any deload."""
    asked = after_steps(_asked(line, week), line.progression, ground.steps_before(week), ground.gym.unit)
    setting = line.every_set or line.last_set
    if setting and week < setting.from_week:
        asked = replace(asked, techniques=False)
    deload = ground.deload_in(week)
    return deloaded(asked, deload) if deload else asked


def _lift(ground: _Ground, line: LiftLine, index: tuple[int, ...], week: int) -> Lift:
    asked = prescription(ground, line, week)
    lifting = ground.lifting(line)
    load = load_for(lifting, _loaded_as(line, asked))
    rest = line.rest if line.rest is not None else USUAL_REST
    return Lift(
        exercise=line.exercise,
        note=lifting.note,
        index=index,
        sets=tuple(_set(number, line, asked, load, lifting) for number in range(1, asked.sets + 1)),
        reps=asked.reps,
        hold=asked.hold,
        effort=asked.effort,
        rest=rest,
        tempo=line.tempo or lifting.note.tempo,
        rule=RULES[line.progression.rule].tell(line.progression) if line.progression and asked.scale == 1 else "",
        projected=asked.projected,
        remark=line.note,
        why=line.why,
    )


def _loaded_as(line: LiftLine, asked: Prescription) -> Prescription:
    """Where a progression adds load, what it adds to is the load of the first week."""
    if line.progression is None or asked.load is not None:
        return asked
    first = _asked(line, 1)
    return replace(asked, reps=first.reps, effort=first.effort)


def _set(number: int, line: LiftLine, asked: Prescription, load: Load, lifting: Lifting) -> WorkSet:
    aim = asked.aim if asked.aim is not None else _expected(asked.reps, load, lifting)
    first = Piece("work", load, asked.reps, aim, asked.hold)
    setting = line.every_set or (line.last_set if number == asked.sets else None)
    if setting is None or not asked.techniques:
        return WorkSet(number, (first,), asked.effort, None, past_failure=False)
    past_failure = TECHNIQUES[setting.technique].past_failure
    return WorkSet(number, pieces_of(setting, first, lifting), asked.effort, setting.technique, past_failure)


def _expected(reps: Reps | None, load: Load, lifting: Lifting) -> int | None:
    """Repetitions to count with: the lower end of a range; for an open set what the curve allows at its load."""
    if reps is None:
        return None
    if not reps.open:
        return reps.low
    if lifting.max is None or load.mass is None or not lifting.max.amount:
        return None
    moved = load.mass + (lifting.bodyweight or 0) if load.kind == "bodyweight" else load.mass
    return reps_at_percent(min(Decimal(100), moved * 100 / lifting.max.amount), lifting.curve) or None

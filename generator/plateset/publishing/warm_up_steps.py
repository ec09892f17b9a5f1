"""The steps a lift may be warmed up with: all of them, for readers whose loads are not the example lifter's."""

from __future__ import annotations

from plateset.manuscript.library import Manuscript
from plateset.manuscript.schema import LiftLine, WarmUpSet
from plateset.training.expand import group_parts
from plateset.training.plan import Lift, Load, Plan, Session
from plateset.training.warm_up import USUAL

Steps = tuple[WarmUpSet, ...]


def usual_steps(plan: Plan, manuscript: Manuscript) -> Steps:
    """What the program warms up with where a line says nothing: its own steps, the site's, or the usual ones."""
    for given in (plan.program.warm_up_sets, manuscript.site.head.warm_up_sets):
        if given is not None:
            return given
    return USUAL


def line_of(plan: Plan, session: Session, lift: Lift) -> LiftLine:
    """The line of the program file that a lift comes from."""
    written = plan.program.sessions[session.name].lines[lift.index[0]]
    return written if isinstance(written, LiftLine) else group_parts(written)[1][lift.index[1]]


def warm_up_steps(lift: Lift, line: LiftLine, usual: Steps) -> tuple[tuple[WarmUpSet, Load | None], ...]:
    """Every step a lift may be warmed up with, and what the example lifter puts on (None where they leave it out).

    A reader with other loads may need a step that the example lifter leaves out.
    """
    load = lift.sets[0].pieces[0].load
    if load.mass is None or load.kind == "bodyweight" or not (lift.warm_up or line.warm_up_sets):
        return ()
    steps, taken = [], list(lift.warm_up)
    for step in usual if line.warm_up_sets is None else line.warm_up_sets:
        mine = bool(taken) and (taken[0].load.basis.percent, taken[0].reps) == (step.load, step.reps)
        steps.append((step, taken.pop(0).load if mine else None))
    return tuple(steps)

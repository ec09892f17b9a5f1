"""Warm-up sets before the first heavy line of a session: lighter, with fewer repetitions as the load rises."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from plateset.manuscript.schema import WarmUpSet
from plateset.manuscript.vocabulary import Movement
from plateset.training.loads import Lifting, warm_up_load
from plateset.training.plan import Load, WarmUp

USUAL: tuple[WarmUpSet, ...] = tuple(
    WarmUpSet.model_validate({"load": load, "reps": reps}) for load, reps in (("40 %", 8), ("60 %", 5), ("80 %", 3))
)
"""Shares of the first working load, and repetitions, where the author says nothing (common practice, no source)."""

HEAVY = Decimal(60)
"""Percent of the max from which a line is warmed up for (common practice, no source)."""


SEVERAL_JOINTS = ("squat", "hinge", "lunge", "horizontal push", "vertical push", "horizontal pull", "vertical pull")
"""Movements that are warmed up for without being asked; single joints are warm by then (common practice, no source)."""


def is_heavy(movement: Movement, load: Load) -> bool:
    """Whether a load asks for lighter sets first: at least a share of the max, or any mass where no max is known."""
    if load.mass is None or load.kind == "bodyweight" or movement not in SEVERAL_JOINTS:
        return False
    known = load.basis.max
    return known is None or load.mass * 100 >= HEAVY * known.amount


def warm_up_sets(lifting: Lifting, load: Load, steps: Sequence[WarmUpSet]) -> Iterator[WarmUp]:
    """The steps as they can be loaded; a step that is no heavier than the one before it is left out."""
    before = Decimal(-1)
    for step in steps:
        lighter = warm_up_load(lifting, load, step.load)
        if lighter is not None and lighter.mass is not None and lighter.mass > before:
            before = lighter.mass
            yield WarmUp(lighter, step.reps)

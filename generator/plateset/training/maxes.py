"""A lifter's one-repetition maxima from the sets they have done."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal

from plateset.manuscript.quantities import Best, FixedLoad
from plateset.manuscript.schema import Exercise, Lifter
from plateset.manuscript.vocabulary import Unit
from plateset.training.plan import Max
from plateset.training.strength import CURVES, percent_of_max

TENTH = Decimal("0.1")
"""A max is kept to a tenth of a unit: finer would promise more than a test can (Mitter et al. 2022, PLoS ONE
17(5):e0268074, found about one repetition of noise between two tests)."""


def lifted(best: Best, bodyweight: Decimal | None, unit: Unit) -> Decimal | None:
    """The mass moved in a recorded set; None when it needs a bodyweight that is not given."""
    if isinstance(best.load, FixedLoad):
        return best.load.mass.to(unit)
    if bodyweight is None:
        return None
    return bodyweight + (best.load.added.to(unit) if best.load.added else 0)


def max_from_set(exercise: str, load: Decimal, reps: int, curve: str) -> Max | None:
    """The max that ``reps`` repetitions to failure with ``load`` point to; None beyond the curve's range."""
    if reps > CURVES[curve].most:
        return None
    amount = (load * 100 / percent_of_max(Decimal(reps), curve)).quantize(TENTH, ROUND_HALF_UP)
    return Max(exercise, amount, load, reps, curve)


def curve_of(note: Exercise | None, curve: str) -> str:
    """The curve an exercise is worked out by: its note's, else the program's or the site's."""
    return note.curve if note and note.curve else curve


def maxes_of(lifter: Lifter, exercises: Mapping[str, Exercise], curve: str, unit: Unit) -> dict[str, Max]:
    """Every max the lifter's sets give, and those that notes take as a share of another lift's."""
    bodyweight = lifter.bodyweight.to(unit) if lifter.bodyweight else None
    found: dict[str, Max] = {}
    for name, best in sorted(lifter.bests.items()):
        load = lifted(best, bodyweight, unit)
        known = max_from_set(name, load, best.reps, curve_of(exercises.get(name), curve)) if load is not None else None
        if known:
            found[name] = known
    borrowed = {
        name: _share_of(name, found[note.max_from.exercise], note.max_from.share)
        for name, note in sorted(exercises.items())
        if note.max_from
        and name not in found
        and note.max_from.exercise in found
        # A max on the body counts the body: of an unknown one nobody can say what to add.
        and (bodyweight is not None or note.implement != "bodyweight")
    }
    return found | borrowed


def _share_of(name: str, other: Max, share: Decimal) -> Max:
    amount = (other.amount * share / 100).quantize(TENTH, ROUND_HALF_UP)
    return Max(name, amount, other.from_load, other.reps, other.curve, share, other.exercise)

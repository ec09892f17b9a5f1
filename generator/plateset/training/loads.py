"""From a prescription to what goes on the bar: the wish, the rounding to real equipment, and how it came about."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from plateset.manuscript.quantities import BodyweightLoad, ByFeel, FixedLoad, LoadSpec, PercentOfMax
from plateset.manuscript.schema import Exercise
from plateset.records import record
from plateset.training.gym import Gym, in_unit
from plateset.training.plan import Basis, Load, LoadKind, Max, Trouble
from plateset.training.progression import Prescription
from plateset.training.rounding import Steps, bar_steps, plates_per_side, steps_between, to_step
from plateset.training.strength import CURVES, percent_of_max

_KINDS: dict[str, LoadKind] = {
    "barbell": "bar",
    "dumbbell": "dumbbell",
    "cable": "stack",
    "machine": "stack",
    "bodyweight": "bodyweight",
    "band": "feel",
    "other": "plain",
}
HALF = Decimal("0.5")
"""The step of loads that are neither a bar, a dumbbell nor a stack: no finer than anyone would load them."""


@record
class Lifting:
    """One exercise for one lifter in one gym: all a load depends on besides the prescription."""

    note: Exercise
    gym: Gym
    max: Max | None
    bodyweight: Decimal | None
    curve: str
    above_max: bool = False
    whole_range: bool = True

    @property
    def kind(self) -> LoadKind:
        """How the implement is loaded."""
        return kind_of(self.note)

    @property
    def steps(self) -> Steps | None:
        """The masses that can be had; None where any mass will do."""
        if self.kind == "bar":
            return bar_steps(self.gym.bar(self.note.bar), self.gym.collars, self.gym.plates)
        return {"dumbbell": self.gym.dumbbells, "stack": self.gym.stack}.get(self.kind)


def kind_of(note: Exercise) -> LoadKind:
    """How the implement of an exercise is loaded."""
    return _KINDS[note.implement]


def load_for(lifting: Lifting, asked: Prescription) -> Load:
    """The load of a set as prescribed: wished for, then rounded to what the gym can load."""
    wish, basis = wished_for(lifting, asked)
    if wish is None:
        return Load("feel", None, None, None, basis)
    if lifting.kind == "bodyweight":
        mass = to_step(wish, lifting.gym.smallest_plate, down=lifting.gym.rounding == "down")
        return Load("bodyweight", mass or Decimal(0), wish, None, basis)
    return _rounded(lifting, wish, basis)


Wish = tuple[Decimal | None, Basis]
"""A mass before it is rounded (on the body, what is added to it), and how it came about; None where it is by feel."""


def wished_for(lifting: Lifting, asked: Prescription) -> Wish:
    """What a set would be loaded with as prescribed, could any mass be had."""
    spec = asked.load or _unsaid(lifting, asked)
    basis = _basis(lifting, asked, spec)
    wish = _wish(lifting, basis, spec)
    if wish is None or (lifting.kind == "feel" and not isinstance(spec, FixedLoad)):
        return None, basis if basis.rule == "feel" else replace(basis, rule="feel")
    if asked.added or asked.share != 1 or asked.scale != 1:
        basis = replace(basis, added=asked.added, share=asked.share, scale=asked.scale)
    if lifting.kind == "bodyweight":
        return _on_the_body(wish - (lifting.bodyweight or 0), basis), basis
    return (wish + asked.added) * asked.share * asked.scale, basis


def _unsaid(lifting: Lifting, asked: Prescription) -> LoadSpec:
    """What an author means who gives no load: what follows from the effort, or else the body's own weight."""
    follows = asked.effort is not None and asked.reps is not None and not asked.reps.open and lifting.max is not None
    if lifting.kind == "bodyweight" and not follows:
        return BodyweightLoad()
    return ByFeel()


def _basis(lifting: Lifting, asked: Prescription, spec: LoadSpec) -> Basis:
    if isinstance(spec, PercentOfMax):
        trouble: Trouble = "" if lifting.max else "no max"
        return Basis("percent", spec.percent, lifting.max, trouble=trouble)
    if isinstance(spec, FixedLoad):
        return Basis("fixed", max=lifting.max)
    if isinstance(spec, BodyweightLoad):
        return Basis("bodyweight", max=lifting.max)
    from_effort = asked.load is None and asked.effort is not None and asked.reps is not None
    return _from_effort(lifting, asked) if from_effort else Basis("feel")


def _from_effort(lifting: Lifting, asked: Prescription) -> Basis:
    """A set of n repetitions with r in reserve is loaded as n + r repetitions to failure (common practice, no
    source; it follows from what repetitions in reserve means, Zourdos et al. 2016, JSCR 30(1):267-275)."""
    assert asked.reps is not None
    assert asked.effort is not None
    if asked.reps.open:
        return Basis("feel")
    total = asked.reps.low + asked.effort.fresh
    if lifting.max is None:
        return Basis("feel", reps_to_failure=total)
    if not lifting.whole_range:
        return Basis("feel", None, lifting.max, total, lifting.curve, trouble="part of the range")
    if total > CURVES[lifting.curve].most:
        return Basis("feel", None, lifting.max, total, lifting.curve, trouble="beyond the curve")
    return Basis("effort", percent_of_max(total, lifting.curve), lifting.max, total, lifting.curve)


def _wish(lifting: Lifting, basis: Basis, spec: LoadSpec) -> Decimal | None:
    """The mass before progression, deload and rounding; for the body, the whole mass moved."""
    unit = lifting.gym.unit
    if lifting.bodyweight is None and _hangs_on_the_body(lifting, spec):
        return None
    if isinstance(spec, FixedLoad):
        return in_unit(spec.mass, unit)
    if isinstance(spec, BodyweightLoad):
        return (lifting.bodyweight or Decimal(0)) + (in_unit(spec.added, unit) if spec.added else 0)
    if basis.percent is None or basis.max is None:
        return None
    return basis.max.amount * basis.percent / 100


def _hangs_on_the_body(lifting: Lifting, spec: LoadSpec) -> bool:
    """Whether a load is worked out from what the lifter weighs: the body taken off all that is moved, or loaded."""
    on_body = lifting.kind == "bodyweight"
    return isinstance(spec, FixedLoad) if on_body else isinstance(spec, BodyweightLoad)


def _rounded(lifting: Lifting, wish: Decimal, basis: Basis) -> Load:
    cap = lifting.max.amount if lifting.max and not lifting.above_max else None
    down = lifting.gym.rounding == "down"
    if cap is not None and wish > cap:
        basis = replace(basis, trouble="above the max")
        cap = None
    steps = lifting.steps
    if steps is None:
        near = to_step(wish, HALF, down=down)
        return Load(lifting.kind, near if cap is None else min(near, to_step(cap, HALF, down=True)), wish, None, basis)
    mass = steps.pick(wish, down=down, cap=cap)
    lightest = steps.masses[0]
    if wish < lightest:
        mass = lightest
        if down or lightest - wish > _half_a_step(steps):
            basis = replace(basis, trouble="below the bar" if lifting.kind == "bar" else "not loadable")
    elif wish - steps.masses[-1] > _half_a_step(steps):
        basis = replace(basis, trouble="beyond the rack")
    return Load(lifting.kind, mass, wish, _plates(lifting, mass), basis)


def _half_a_step(steps: Steps) -> Decimal:
    """What rounding moves a load by at the light end: less than that short of the lightest is no trouble."""
    return (steps.masses[1] - steps.masses[0]) / 2 if len(steps.masses) > 1 else Decimal(0)


def _plates(lifting: Lifting, mass: Decimal | None) -> tuple[Decimal, ...] | None:
    if lifting.kind != "bar" or mass is None:
        return None
    gym = lifting.gym
    return plates_per_side(mass, gym.bar(lifting.note.bar), gym.collars, gym.plates)


def _on_the_body(added: Decimal, basis: Basis) -> Decimal:
    """What is added to the body, or (negative) taken off it by a band or an assisting stack.

    Progression adds to it. A back-off or a deload scales only what is added: nobody can leave a share of the body at
    home.
    """
    added += basis.added
    return added * basis.share * basis.scale if added > 0 else added


def warm_up_load(lifting: Lifting, load: Load, percent: Decimal) -> Load | None:
    """A share of a working load as it can be loaded; None where that is not lighter, or there is no mass to share."""
    if load.exact is None or load.mass is None or load.kind == "bodyweight":
        return None
    found = _rounded(lifting, load.exact * percent / 100, Basis("warm-up", percent))
    if found.mass is None or found.mass >= load.mass:
        return None
    return replace(found, basis=replace(found.basis, trouble=""))


def lighter(lifting: Lifting, load: Load, wish: Decimal) -> Load:
    """A strictly lighter load nearest to ``wish``, for a drop; by feel where none can be had."""
    basis = Basis("technique")
    if load.mass is None:
        return Load(load.kind, None, None, None, basis)
    steps = lifting.steps
    if lifting.kind == "bodyweight":
        return Load("bodyweight", Decimal(0) if load.mass > 0 else None, wish, None, basis)
    if steps is None:
        steps = steps_between(HALF, load.mass, HALF)
    mass = steps.next_below(load.mass, wish)
    if mass is None:
        return Load(load.kind, None, wish, None, replace(basis, trouble="not loadable"))
    return Load(load.kind, mass, wish, _plates(lifting, mass), basis)

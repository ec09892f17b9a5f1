"""How a line changes from week to week: a table of named rules with one signature.

A rule takes what the line prescribes in a week, its own settings, and the number of steps taken (working weeks
before this one; deload weeks do not count), and returns what is prescribed after them. What the author gives week
by week (loads, repetitions, sets, effort) is already in the prescription. To add a rule: a model in
``manuscript/schema.py``, a function here, a row in the table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Effort, LoadSpec, Reps
from plateset.manuscript.vocabulary import Unit


@dataclass(frozen=True)
class Prescription:
    """What a line asks for in one week, before loads are worked out.

    ``added`` is a mass on top of the load of the first week, ``scale`` the share of the load that stays in a deload
    week, ``aim`` the repetitions expected where a rule projects them.
    """

    sets: int
    reps: Reps | None
    hold: int | None
    load: LoadSpec | None
    effort: Effort | None
    techniques: bool = True
    added: Decimal = Decimal(0)
    scale: Decimal = Decimal(1)
    aim: int | None = None
    projected: bool = False


@dataclass(frozen=True)
class Rule:
    """A progression: what it does, and how it is told to the reader in a sentence."""

    apply: Callable[[Prescription, schema.Linear | schema.Double, int, Unit], Prescription]
    tell: Callable[[schema.Linear | schema.Double], str]


def _linear(base: Prescription, rule: schema.Linear | schema.Double, step: int, unit: Unit) -> Prescription:
    every = rule.every if isinstance(rule, schema.Linear) else 1
    return replace(base, added=rule.add.to(unit) * (step // every))


def _double(base: Prescription, rule: schema.Linear | schema.Double, step: int, unit: Unit) -> Prescription:
    if base.reps is None or isinstance(rule, schema.Linear):
        return base
    # From low to high in steps of the pace; the week after the top, load goes up and repetitions start again.
    span = base.reps.high - base.reps.low
    weeks_a_round = -(-span // rule.pace) + 1
    rounds, within = divmod(step, weeks_a_round)
    aim = min(base.reps.high, base.reps.low + within * rule.pace)
    return replace(base, added=rule.add.to(unit) * rounds, aim=aim, projected=True)


def _mass(rule: schema.Linear | schema.Double) -> str:
    return f"{rule.add.amount.normalize():f} {rule.add.unit}"


def _tell_linear(rule: schema.Linear | schema.Double) -> str:
    every = rule.every if isinstance(rule, schema.Linear) else 1
    often = "each week" if every == 1 else f"every {every} weeks"
    return f"Add {_mass(rule)} {often}."


def _tell_double(rule: schema.Linear | schema.Double) -> str:
    return (
        f"When every set reaches the top of the range, add {_mass(rule)} and start again at the bottom. "
        "The repetitions shown are a projection."
    )


RULES: dict[str, Rule] = {"linear": Rule(_linear, _tell_linear), "double": Rule(_double, _tell_double)}


def after_steps(base: Prescription, rule: schema.Linear | schema.Double | None, step: int, unit: Unit) -> Prescription:
    """The prescription after ``step`` working weeks under ``rule``; unchanged where there is none."""
    return base if rule is None else RULES[rule.rule].apply(base, rule, step, unit)


def deloaded(base: Prescription, deload: schema.Deload) -> Prescription:
    """The same line in a deload week: fewer sets (at least one), a lighter load, techniques off unless kept.

    What coaches change in such weeks: Rogerson et al. 2024, Sports Medicine - Open 10:26; the shares are the
    author's.
    """
    sets = max(1, int((base.sets * deload.sets / 100).quantize(Decimal(1), "ROUND_HALF_UP")))
    return replace(base, sets=sets, scale=deload.load / 100, techniques=deload.techniques == "on")

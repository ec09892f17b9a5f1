"""How a line changes from week to week: a table of named rules with one signature.

A rule takes what the line prescribes in a week, its own settings, and how far the program has come, and returns what
is prescribed then. What the author gives week by week (loads, repetitions, sets, effort) is already in the
prescription. To add a rule: a model in ``manuscript/schema.py``, a function and a row in the table here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Effort, LoadSpec, Mass, PercentOfMax, Reps, SetCount
from plateset.manuscript.vocabulary import Unit
from plateset.records import record
from plateset.training.sentences import Sentence

OVER_THE_GOAL = 2
"""Repetitions over the goal in the last set, and sessions running in which they are reached, before load is added
(the two-for-two rule: Haff & Triplett 2016, Essentials of Strength Training and Conditioning, 4th ed., ch. 17)."""


@record
class Prescription:
    """What a line asks for in one week, before loads are worked out.

    ``added`` is a mass on top of the load of the first week, ``share`` what this set keeps of the heaviest set's load,
    ``scale`` what a deload week keeps, ``aim`` the repetitions expected where a rule projects them (of the last set
    alone where ``aims_last``), ``anchored`` whether a rule adds to the load of the first week.
    """

    sets: SetCount
    reps: Reps | None
    hold: int | None
    load: LoadSpec | None
    effort: Effort | None
    techniques: bool = True
    added: Decimal = Decimal(0)
    share: Decimal = Decimal(1)
    scale: Decimal = Decimal(1)
    aim: int | None = None
    aims_last: bool = False
    projected: bool = False
    anchored: bool = False
    back_offs: int = 0


@record
class Step:
    """How far a line has come: working weeks and sessions of it before this one, and its turn.

    Deload and test weeks do not count as weeks or sessions; ``turn`` counts every session of the program.
    """

    weeks: int
    sessions: int
    turn: int


@record
class Rule:
    """A progression: what it does, and how it is told to the reader in a sentence or two."""

    apply: Callable[[Prescription, schema.Progression, Step, Unit], Prescription]
    tell: Callable[[schema.Progression], tuple[Sentence, ...]]


# -- linear ----------------------------------------------------------------------------------------


def _linear(base: Prescription, rule: schema.Progression, step: Step, unit: Unit) -> Prescription:
    assert isinstance(rule, schema.Linear)
    steps = step.sessions if rule.by == "session" else step.weeks
    return replace(base, added=rule.add.to(unit) * (steps // rule.every), anchored=True)


def _tell_linear(rule: schema.Progression) -> tuple[Sentence, ...]:
    assert isinstance(rule, schema.Linear)
    return (_adding(rule.add, rule.every, rule.by),)


def _adding(mass: Mass, every: int, by: str) -> Sentence:
    values = (("mass", mass), ("num", every))
    if by == "session":
        return Sentence("Add %(mass)s each session.", values, "Add %(mass)s every %(num)s sessions.", every)
    return Sentence("Add %(mass)s each week.", values, "Add %(mass)s every %(num)s weeks.", every)


REPS_PROJECTED = Sentence("The repetitions shown are a projection.")
LOADS_PROJECTED = Sentence("The loads shown are a projection.")


def rule_alone(told: tuple[Sentence, ...]) -> tuple[Sentence, ...]:
    """What a progression tells the reader to do, without the word that numbers shown are a projection."""
    return tuple(each for each in told if each not in (REPS_PROJECTED, LOADS_PROJECTED))


# -- double ----------------------------------------------------------------------------------------


def _double(base: Prescription, rule: schema.Progression, step: Step, unit: Unit) -> Prescription:
    assert isinstance(rule, schema.Double)
    if base.reps is None:
        return base
    # From low to high in steps of the pace; the week after the top, load goes up and repetitions start again.
    span = base.reps.high - base.reps.low
    weeks_a_round = -(-span // rule.pace) + 1
    rounds, within = divmod(step.weeks, weeks_a_round)
    aim = min(base.reps.high, base.reps.low + within * rule.pace)
    return replace(base, added=rule.add.to(unit) * rounds, aim=aim, projected=True, anchored=True)


def _tell_double(rule: schema.Progression) -> tuple[Sentence, ...]:
    assert isinstance(rule, schema.Double)
    what = Sentence(
        "When every set reaches the top of the range, add %(mass)s and start again at the bottom.",
        (("mass", rule.add),),
    )
    return (what, REPS_PROJECTED)


# -- two-for-two -----------------------------------------------------------------------------------


def may_add_load(goal: int, last_sets: Sequence[int]) -> bool:
    """Whether the repetitions of the last set, session by session, call for more load by the two-for-two rule."""
    latest = last_sets[-OVER_THE_GOAL:]
    return len(latest) == OVER_THE_GOAL and min(latest) >= goal + OVER_THE_GOAL


def _two_for_two(base: Prescription, rule: schema.Progression, step: Step, unit: Unit) -> Prescription:
    assert isinstance(rule, schema.TwoForTwo)
    if base.reps is None:
        return base
    goal = base.reps.high
    done: list[int] = []
    rises = 0
    for _ in range(step.sessions):
        done.append(min(goal + OVER_THE_GOAL, goal + rule.pace * len(done)))
        if may_add_load(goal, done):
            done, rises = [], rises + 1
    aim = min(goal + OVER_THE_GOAL, goal + rule.pace * len(done))
    return replace(base, added=rule.add.to(unit) * rises, aim=aim, aims_last=True, projected=True, anchored=True)


def _tell_two_for_two(rule: schema.Progression) -> tuple[Sentence, ...]:
    assert isinstance(rule, schema.TwoForTwo)
    what = Sentence(
        "When the last set goes %(over)s repetitions over its goal in %(sessions)s sessions running, add %(mass)s.",
        (("over", OVER_THE_GOAL), ("sessions", OVER_THE_GOAL), ("mass", rule.add)),
    )
    return (what, LOADS_PROJECTED)


# -- step loading ----------------------------------------------------------------------------------


def _step_loading(base: Prescription, rule: schema.Progression, step: Step, unit: Unit) -> Prescription:
    assert isinstance(rule, schema.StepLoading)
    climbs, within = divmod(step.weeks, rule.climb)
    steps = climbs * (rule.climb - 1 - rule.back) + within
    return replace(base, added=rule.add.to(unit) * steps, anchored=True)


def _tell_step_loading(rule: schema.Progression) -> tuple[Sentence, ...]:
    assert isinstance(rule, schema.StepLoading)
    return (
        Sentence(
            "Climb for %(weeks)s weeks, adding %(mass)s from week to week; then go back one step and climb again.",
            (("weeks", rule.climb), ("mass", rule.add), ("num", rule.back)),
            "Climb for %(weeks)s weeks, adding %(mass)s from week to week; then go back %(num)s steps and climb again.",
            rule.back,
        ),
    )


# -- undulating ------------------------------------------------------------------------------------


def _undulating(base: Prescription, rule: schema.Progression, step: Step, unit: Unit) -> Prescription:
    assert isinstance(rule, schema.Undulating)
    turn = rule.turns[step.turn % len(rule.turns)]
    added = rule.add.to(unit) * (step.weeks // rule.every) if rule.add else Decimal(0)
    return replace(
        base,
        sets=turn.sets or base.sets,
        reps=turn.reps or base.reps,
        load=turn.load or base.load,
        effort=turn.effort or base.effort,
        added=added,
    )


def _tell_undulating(rule: schema.Progression) -> tuple[Sentence, ...]:
    assert isinstance(rule, schema.Undulating)
    turns = (("turns", len(rule.turns)),)
    what = Sentence("Repetitions and load change from session to session, in %(turns)s turns.", turns)
    return (what, _adding(rule.add, rule.every, "week")) if rule.add else (what,)


RULES: dict[str, Rule] = {
    "linear": Rule(_linear, _tell_linear),
    "double": Rule(_double, _tell_double),
    "two-for-two": Rule(_two_for_two, _tell_two_for_two),
    "step": Rule(_step_loading, _tell_step_loading),
    "undulating": Rule(_undulating, _tell_undulating),
}


def after(base: Prescription, rule: schema.Progression | None, step: Step, unit: Unit) -> Prescription:
    """The prescription at ``step`` under ``rule``; unchanged where there is none."""
    return base if rule is None else RULES[rule.rule].apply(base, rule, step, unit)


# -- weeks out of the ordinary ---------------------------------------------------------------------


def deloaded(base: Prescription, deload: schema.Deload) -> Prescription:
    """The same line in a deload week: fewer sets (at least one), a lighter load, techniques off unless kept.

    What coaches change in such weeks: Rogerson et al. 2024, Sports Medicine - Open 10:26; the shares are the
    author's.
    """
    return replace(
        base,
        sets=SetCount(share_of_sets(base.sets.least, deload.sets), share_of_sets(base.sets.most, deload.sets)),
        back_offs=share_of_sets(base.back_offs, deload.sets),
        scale=deload.load / 100,
        techniques=deload.techniques == "on",
    )


def tested(test: schema.TestWeeks) -> Prescription:
    """A main lift in a test week: one set of as many repetitions as form allows, with a share of the max."""
    one, open_ended = SetCount(1, 1), Reps(1, 1, open=True)
    load = PercentOfMax(test.load)
    # Built anew: nothing that a progression, a technique or a back-off asks for is part of a test.
    return Prescription(one, open_ended, None, load, None, techniques=False)


def tell_test(test: schema.TestWeeks) -> tuple[Sentence, ...]:
    """What a reader does with a tested lift."""
    return (
        Sentence(
            "Test: one set with %(load)s %% of the max. Stop with one clean repetition still in you, and at once when "
            "one slows. The count shown is where failure would be.",
            (("load", test.load),),
        ),
    )


def beside_a_test(base: Prescription, test: schema.TestWeeks) -> Prescription:
    """Any other line in a test week: a share of its sets, no technique."""
    sets = SetCount(share_of_sets(base.sets.least, test.others), share_of_sets(base.sets.most, test.others))
    return replace(base, sets=sets, back_offs=share_of_sets(base.back_offs, test.others), techniques=False)


def share_of_sets(count: int, percent: Decimal) -> int:
    """A share of a number of sets, to the nearest whole one (a half goes up): at least one of one or more."""
    share = int((count * percent / 100).quantize(Decimal(1), "ROUND_HALF_UP"))
    return max(1, share) if count else 0

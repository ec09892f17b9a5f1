"""How the sets of one line part from each other: straight sets, top sets with back-offs, pyramids.

The heaviest sets are the line's own; the others keep a share of their load. What fatigue takes from set to set is the
author's to say (a reserve that falls over the sets): studies give totals that depend on the rest (33 repetitions over
five bench-press sets with 2 min between them, 27 with 1 min: Speretta et al. 2012, International Journal of Exercise
Science: Conference Proceedings 1(1):68), not a rule for everyone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from plateset.manuscript.quantities import Effort, Reps
from plateset.manuscript.schema import LiftLine, Pyramid
from plateset.records import record
from plateset.training.plan import SetKind
from plateset.training.progression import Prescription

_HALF = Decimal("0.5")


@record
class SetAsked:
    """One set as it is asked for; ``asked`` holds its own repetitions, effort and share of the heaviest load."""

    kind: SetKind
    asked: Prescription
    optional: bool


def sets_asked(line: LiftLine, asked: Prescription) -> tuple[SetAsked, ...]:
    """Every set of a line in one week, in the order they are done."""
    if line.pyramid is not None and asked.sets.most > 1:
        return tuple(_pyramid(line.pyramid, asked))
    kind: SetKind = "top" if asked.back_offs else "straight"
    own = [
        SetAsked(kind, _with_effort(asked, effort_of_set(asked.effort, place, asked.sets.most)), _spare(asked, place))
        for place in range(asked.sets.most)
    ]
    return (*own, *_back_offs(line, asked))


def _with_effort(asked: Prescription, effort: Effort | None) -> Prescription:
    return asked if effort is asked.effort else replace(asked, effort=effort)


def _spare(asked: Prescription, place: int) -> bool:
    return place >= asked.sets.least


def _back_offs(line: LiftLine, asked: Prescription) -> Iterator[SetAsked]:
    if line.back_off is None:
        return
    share = asked.share * line.back_off.load / 100
    one = replace(asked, reps=line.back_off.reps, effort=line.back_off.effort, share=share, aim=None)
    for _ in range(asked.back_offs):
        yield SetAsked("back-off", one, optional=False)


def _pyramid(pyramid: Pyramid, asked: Prescription) -> Iterator[SetAsked]:
    """Up to the heaviest set or down from it (up: DeLorme & Watkins 1948, Archives of Physical Medicine and
    Rehabilitation 29:263-273, at 50, 75 and 100 %; load off and repetitions on by what the author says)."""
    last = asked.sets.most - 1
    for place in range(asked.sets.most):
        away = last - place if pyramid.direction == "ascending" else place
        share = asked.share * (1 - away * pyramid.load / 100)
        heaviest = away == 0
        one = replace(
            asked,
            reps=_more(asked.reps, away * pyramid.reps),
            aim=None if asked.aim is None else asked.aim + away * pyramid.reps,
            share=share,
            effort=asked.effort if heaviest else None,
        )
        yield SetAsked("pyramid", one, _spare(asked, place))


def _more(reps: Reps | None, count: int) -> Reps | None:
    if reps is None or reps.open:
        return reps
    return Reps(reps.low + count, reps.high + count)


def effort_of_set(effort: Effort | None, place: int, count: int) -> Effort | None:
    """The effort of one set (``place`` from 0): the reserve falls evenly from first to last, to the half repetition."""
    if effort is None or effort.first is None:
        return effort
    gone = Decimal(place) / (count - 1) if count > 1 else Decimal(0)
    reserve = effort.first - (effort.first - effort.rir) * gone
    return Effort((reserve / _HALF).quantize(Decimal(1), ROUND_HALF_UP) * _HALF, effort.written)

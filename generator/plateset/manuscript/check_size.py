"""Checks that what is asked for can be worked out in good time: sets in a program, and ways to load a bar."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from decimal import ROUND_HALF_UP, Decimal
from math import gcd

from plateset.manuscript.desk import Desk
from plateset.manuscript.quantities import Mass
from plateset.manuscript.schema import GroupLine, LiftLine, Program
from plateset.manuscript.vocabulary import Unit
from plateset.problems import Problem

MOST_SETS = 25_000
"""Sets of a program over all its weeks: a year of six days a week with eighty sets in each."""

MOST_LIFTS = 5_000
"""Lifts of a program over all its weeks, each with a row on its pages and sheets: a year of six days a week with
sixteen in each. Setting so many takes some hundreds of megabytes.
"""

MOST_ACCEPTED = 200
"""Acceptances of a program: each is held against every mark."""

MOST_LOADINGS = 10_000_000
"""Steps of going through all ways of putting plates on a bar: some seconds. The usual plates take some thousands."""

_MOST_ON_A_SIDE = 400  # as far as the search for loads goes, in kg or lb
_MOST_PAIRS = 50
_PARTS = 1_000_000  # a mass is written with six decimals at most


def sets_of_programs(desk: Desk) -> Iterator[Problem]:
    """A program asks for no more sets than anyone could do, and for no more lifts than a sheet can be set of."""
    for document in desk.judged:
        lifts, sets = _lifts_and_sets(document.head)
        place = document.place(("sessions",), key=True)
        if sets > MOST_SETS:
            expected = f"at most {MOST_SETS:,} over all weeks: fewer weeks, days, lines or sets"
            yield Problem(place, f"{sets:,} sets are more than a program may hold", expected)
        elif lifts > MOST_LIFTS:
            expected = f"at most {MOST_LIFTS:,} over all weeks: fewer weeks, days or lines"
            yield Problem(place, f"{lifts:,} lifts are more than a program may hold", expected)


def acceptances_of_programs(desk: Desk) -> Iterator[Problem]:
    """A program accepts no more marks than anyone could have looked at."""
    for document in desk.judged:
        count = len(document.head.accept)
        if count > MOST_ACCEPTED:
            message = f"{count:,} acceptances are more than a program may hold"
            yield Problem(document.place(("accept",), key=True), message, f"at most {MOST_ACCEPTED}")


def _lifts_and_sets(program: Program) -> tuple[int, int]:
    """How many of each there are over all weeks."""
    lifts = sets = 0
    for name, days in Counter(program.schedule.values()).items():
        session = program.sessions.get(name)
        done = [lift for line in session.lines for lift in _lifts(line)] if session else []
        lifts += days * len(done)
        sets += days * sum(map(_of_lift, done))
    return program.weeks * lifts, program.weeks * sets


def _lifts(line: LiftLine | GroupLine) -> tuple[LiftLine, ...]:
    if isinstance(line, LiftLine):
        return (line,)
    groups = (line.superset, line.giant_set, line.circuit, line.pre_exhaustion, line.pick_one)
    return tuple(lift for group in groups for lift in group or ())


def _of_lift(lift: LiftLine) -> int:
    return max(count.most for count in lift.sets.values()) + (lift.back_off.sets if lift.back_off else 0)


def plates_of_gyms(desk: Desk) -> Iterator[Problem]:
    """The plates of a program can be combined in so many ways that all of them can be gone through."""
    if desk.site is None:
        return
    for document in desk.judged:
        own = document.head.loading.plates
        plates = own or desk.site.loading.plates
        if plates and _loadings(plates, document.head.unit or desk.site.unit) > MOST_LOADINGS:
            place = document.place(("loading", "plates"), key=True) if own else document.place(())
            message = "the plates of 'loading' can be put together in too many ways"
            yield Problem(place, message, "fewer kinds of plates, or how many pairs there are of each: {20 kg: 4, …}")


def _loadings(plates: Mapping[Mass, int | None], unit: Unit) -> int:
    """At most so many steps: each plate is tried up to its number of pairs on every mass reached before it."""
    counts = {_parts(mass, unit): pairs for mass, pairs in plates.items()}
    whole = gcd(*counts) or 1
    most_on_a_side = _MOST_ON_A_SIDE * _PARTS
    reached, steps, heaviest = 1, 0, 0
    for part, pairs in counts.items():
        most = min(most_on_a_side // part, _MOST_PAIRS if pairs is None else pairs) if part else 0
        steps += reached * most
        heaviest = min(heaviest + most * part, most_on_a_side)
        reached = min(reached * (most + 1), heaviest // whole + 1)
    return steps


def _parts(mass: Mass, unit: Unit) -> int:
    if mass.unit == unit:
        return int(mass.amount * _PARTS)
    return int(mass.to(unit).quantize(Decimal("0.01"), ROUND_HALF_UP) * _PARTS)

"""Marks on weekly sets: promises missed, sudden rises, muscles left out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from plateset.manuscript.schema import LiftLine
from plateset.training.expand import group_parts
from plateset.training.marks.mark import Case, Mark, plain
from plateset.training.plan import Plan

MAJOR = ("chest", "lats", "upper back", "quads", "hamstrings", "glutes", "triceps", "biceps", "abs")
"""Muscles a reader would expect in a general program (WHO 2020: all major muscle groups on two or more days)."""


def promise_missed(case: Case) -> Iterator[Mark]:
    """Fractional weekly sets outside the range the author promises, in working weeks."""
    for muscle, (low, high) in sorted(case.plan.program.weekly_sets.items()):
        counts = {week: _sets(case, week, muscle) for week in case.working_weeks}
        short = {week: count for week, count in counts.items() if count < low}
        over = {week: count for week, count in counts.items() if count > high}
        if short:
            yield _missed(case.plan, muscle, (low, high), short, low - min(short.values()))
        if over:
            yield _exceeded(muscle, (low, high), over)


def _sets(case: Case, week: int, muscle: str) -> Decimal:
    found = case.volume[week].get(muscle)
    return found.fractional if found else Decimal(0)


def _missed(plan: Plan, muscle: str, promised: tuple[int, int], counts: dict[int, Decimal], lack: Decimal) -> Mark:
    line = _line_for(plan, muscle)
    remedy = f"add {plain(_whole(lack))} direct sets of {muscle} a week"
    if line:
        remedy = f"add {plain(_whole(lack))} sets of {line[0]} in '{line[1]}' to reach {promised[0]}"
    message = f"{muscle}: {_range(promised)} weekly sets promised, {_weeks(counts)}"
    return Mark("promise-missed", "stop", ("weekly sets", muscle), message, f"{remedy}, or promise less")


def _exceeded(muscle: str, promised: tuple[int, int], counts: dict[int, Decimal]) -> Mark:
    message = f"{muscle}: {_range(promised)} weekly sets promised, {_weeks(counts)}"
    excess = max(counts.values()) - promised[1]
    remedy = f"take out {plain(_whole(excess))} sets a week, or promise up to {plain(_whole(max(counts.values())))}"
    return Mark("promise-exceeded", "stop", ("weekly sets", muscle), message, remedy)


def _whole(count: Decimal) -> Decimal:
    return Decimal(math.ceil(count))


def _range(promised: tuple[int, int]) -> str:
    return str(promised[0]) if promised[0] == promised[1] else f"{promised[0]}-{promised[1]}"


def _weeks(counts: dict[int, Decimal]) -> str:
    values = sorted(set(counts.values()))
    figure = plain(values[0]) if len(values) == 1 else f"{plain(values[0])} to {plain(values[-1])}"
    weeks = sorted(counts)
    named = f"week {weeks[0]}" if len(weeks) == 1 else f"weeks {_spans(weeks)}"
    return f"{figure} planned in {named}"


def _spans(weeks: list[int]) -> str:
    spans: list[list[int]] = []
    for week in weeks:
        if spans and week == spans[-1][-1] + 1:
            spans[-1].append(week)
        else:
            spans.append([week])
    return ", ".join(str(span[0]) if len(span) == 1 else f"{span[0]}-{span[-1]}" for span in spans)


def _line_for(plan: Plan, muscle: str) -> tuple[str, str] | None:
    """A lift that trains the muscle directly, and its session: where a set would be added first."""
    for session in plan.weeks[0].sessions:
        for lift in session.lifts:
            if muscle in lift.note.muscles.direct:
                return lift.exercise, session.name
    return None


def sets_jump(case: Case) -> Iterator[Mark]:
    """A muscle's weekly sets rising by more than the site's limit from one working week to the next."""
    weeks = case.working_weeks
    for before, after in pairwise(weeks):
        for muscle, now in sorted(case.volume[after].items()):
            was = _sets(case, before, muscle)
            if was and (now.fractional - was) * 100 / was > case.limits.sets_jump:
                rise = plain(((now.fractional - was) * 100 / was).quantize(Decimal(1)))
                message = (
                    f"{muscle}: from {plain(was)} weekly sets in week {before} to {plain(now.fractional)} in week "
                    f"{after}, {rise} % more (limit {plain(case.limits.sets_jump)} %)"
                )
                yield Mark("sets-jump", "query", _sets_path(case.plan, muscle), message, "spread the rise over weeks")


def _sets_path(plan: Plan, muscle: str) -> tuple[str | int, ...]:
    for name, session in plan.program.sessions.items():
        for index, line in enumerate(session.lines):
            parts = (line,) if isinstance(line, LiftLine) else group_parts(line)[1]
            if any(len(part.sets) > 1 for part in parts):
                return ("sessions", name, "lines", index)
    return ("weekly sets", muscle)


def untrained(case: Case) -> Iterator[Mark]:
    """Major muscles that get less than two fractional sets in every week."""
    best = {muscle: max(_sets(case, week, muscle) for week in case.volume) for muscle in MAJOR}
    missing = [muscle for muscle, count in best.items() if count < 2]
    if missing:
        message = f"hardly trained in any week: {', '.join(missing)}"
        remedy = "say in the text that the program is to be run beside other work, or add a line"
        yield Mark("muscle-untrained", "note", ("sessions",), message, remedy)

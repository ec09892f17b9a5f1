"""Marks on weekly sets: promises missed, sudden rises, muscles left out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import ROUND_FLOOR, Decimal
from itertools import pairwise

from plateset.manuscript.vocabulary import MUSCLE_GROUPS
from plateset.training.marks.mark import Case, Mark, Path, each_lift, path_of, plain
from plateset.training.plan import Plan
from plateset.training.volume import UNTRAINED, shares_of

MAJOR = ("chest", "lats", "upper back", "quads", "hamstrings", "glutes", "triceps", "biceps", "abs")
"""Muscles a reader would expect in a general program (WHO 2020: all major muscle groups on two or more days)."""


def promise_missed(case: Case) -> Iterator[Mark]:
    """Fractional weekly sets outside the range the author promises, in working weeks.

    Where the reader may choose, the least has to be enough and the most not too much.
    """
    for muscle, (low, high) in sorted(case.plan.program.weekly_sets.items()):
        counts = {week: case.volume[week].get(muscle, UNTRAINED) for week in case.working_weeks}
        short = {week: found.fractional for week, found in counts.items() if found.fractional < low}
        over = {week: found.most for week, found in counts.items() if found.most > high}
        if short:
            yield _missed(muscle, (low, high), short, low - min(short.values()))
        if over:
            yield _exceeded(muscle, (low, high), over)


def _sets(case: Case, week: int, muscle: str) -> Decimal:
    return case.volume[week].get(muscle, UNTRAINED).fractional


def _missed(muscle: str, promised: tuple[int, int], counts: dict[int, Decimal], lack: Decimal) -> Mark:
    message = f"{muscle}: {_range(promised)} weekly sets promised, {_weeks(counts)}"
    remedy = f"add {set_count(lack)} a week for {muscle}, or promise less"
    return Mark("promise-missed", "stop", ("weekly sets", muscle), message, remedy)


def _exceeded(muscle: str, promised: tuple[int, int], counts: dict[int, Decimal]) -> Mark:
    message = f"{muscle}: {_range(promised)} weekly sets promised, {_weeks(counts)}"
    most = max(counts.values())
    remedy = f"take out {set_count(most - promised[1])} a week for {muscle}, or promise up to {plain(_whole(most))}"
    return Mark("promise-exceeded", "stop", ("weekly sets", muscle), message, remedy)


def set_count(count: Decimal) -> str:
    """'1 set', '3 sets': as many as make up ``count``."""
    whole = _whole(count)
    return f"{plain(whole)} {'set' if whole == 1 else 'sets'}"


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


def sets_jump(case: Case) -> Iterator[Mark]:
    """A muscle's weekly sets rising by more than the site's limit, and by a whole set, between working weeks."""
    weeks = case.working_weeks
    for before, after in pairwise(weeks):
        for muscle, now in sorted(case.volume[after].items()):
            was = _sets(case, before, muscle)
            rises = now.fractional - was >= 1
            if was and rises and (now.fractional - was) * 100 / was > case.limits.sets_jump:
                rise = plain(((now.fractional - was) * 100 / was).quantize(Decimal(1)))
                message = (
                    f"{muscle}: from {plain(was)} weekly sets in week {before} to {plain(now.fractional)} in week "
                    f"{after}, {rise} % more (limit {plain(case.limits.sets_jump)} %)"
                )
                path = _sets_path(case.plan, muscle, before, after)
                most = (was * (100 + case.limits.sets_jump) / 50).to_integral_value(ROUND_FLOOR) / 2
                rest = plain(now.fractional - most)
                remedy = f"go to at most {plain(most)} in week {after} and add the other {rest} later"
                yield Mark("sets-jump", "query", path, message, remedy)


def _sets_path(plan: Plan, muscle: str, before: int, after: int) -> Path:
    """The first line that trains the muscle and has more sets than in the earlier week."""
    for was, now in zip(plan.weeks[before - 1].sessions, plan.weeks[after - 1].sessions, strict=True):
        for (_, earlier), (line, lift) in zip(each_lift(was), each_lift(now), strict=True):
            if len(lift.sets) > len(earlier.sets) and muscle in shares_of(lift, MUSCLE_GROUPS):
                return path_of(now, line, lift, "sets")
    return ("weekly sets", muscle)


def untrained(case: Case) -> Iterator[Mark]:
    """Major muscles that get less than two fractional sets in every week."""
    best = {muscle: max(_sets(case, week, muscle) for week in case.volume) for muscle in MAJOR}
    missing = [muscle for muscle, count in best.items() if count < 2]
    if missing:
        message = f"hardly trained in any week: {', '.join(missing)}"
        remedy = "say in the text that the program is to be run beside other work, or add a line"
        yield Mark("muscle-untrained", "note", ("sessions",), message, remedy)

"""Marks on loads: none to be had, outside what can be loaded, above the max, rising too fast."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_FLOOR, Decimal
from itertools import pairwise

from plateset.manuscript.schema import LiftLine
from plateset.manuscript.vocabulary import MarkName, Unit
from plateset.training.expand import group_parts
from plateset.training.marks.mark import Case, Mark, Severity, each_lift, each_new_lift, path_of, plain
from plateset.training.plan import Lift, Load, Piece, WorkSet
from plateset.training.strength import CURVES, percent_of_max, reps_at_percent
from plateset.training.volume import mass_moved, percent_lifted

_TROUBLES: dict[str, tuple[MarkName, Severity, str, str]] = {
    "no max": (
        "max-missing",
        "stop",
        "a percent load, but the example lifter has no max for {lift}",
        "add {lift} to 'example lifter: bests', or give the note a 'max from'",
    ),
    "beyond the curve": (
        "beyond-curve",
        "query",
        "{lift} would be loaded as {reps} repetitions to failure; the {curve} holds to {most}, so the load is by feel",
        "give a load, fewer repetitions, or write 'load: by feel'",
    ),
    "part of the range": (
        "part-range",
        "query",
        "{lift} is loaded by effort over part of its range; the {curve} is of the whole, so the load is by feel",
        "give a load such as 60 kg or 70 %, or write 'load: by feel'",
    ),
    "below the bar": (
        "below-bar",
        "stop",
        "{lift}: {wish} {unit} asked, but the empty bar weighs {mass} {unit}",
        "use a lighter bar or dumbbells, or raise the load to at least {mass} {unit}",
    ),
    "not loadable": (
        "not-loadable",
        "query",
        "{lift}: {wish} {unit} asked, but the lightest there is weighs {mass} {unit}",
        "choose another lift, or say what lighter loads the gym has under 'loading'",
    ),
    "beyond the rack": (
        "beyond-rack",
        "stop",
        "{lift}: {wish} {unit} asked, but the heaviest there is weighs {mass} {unit}",
        "choose another lift, fewer repetitions in reserve, or say what heavier loads the gym has under 'loading'",
    ),
    "above the max": (
        "above-max",
        "stop",
        "{lift}: {wish} {unit} asked, above the example lifter's max of {max} {unit}",
        "lower the load, or write 'above max: allowed' on the line if it is meant",
    ),
}


def troubled_loads(case: Case) -> Iterator[Mark]:
    """Each line whose load could not be worked out or loaded as asked; the first week it happens is named."""
    seen: set[tuple[object, ...]] = set()
    for week, session, line, lift in each_new_lift(case.plan):
        for load in (work.pieces[0].load for work in lift.sets):
            trouble = load.basis.trouble
            key = (session.name, lift.index, trouble)
            if not trouble or key in seen:
                continue
            seen.add(key)
            name, severity, message, remedy = _TROUBLES[trouble]
            words = _words(lift, load, case.plan.unit)
            yield Mark(
                name,
                severity,
                path_of(session, line, lift, "load"),
                f"week {week.number}: {message.format(**words)}",
                remedy.format(**words),
            )


def _words(lift: Lift, load: Load, unit: Unit) -> dict[str, str]:
    basis = load.basis
    curve = CURVES[lift.curve]
    return {
        "lift": lift.exercise,
        "unit": unit,
        "wish": plain(load.exact.quantize(Decimal("0.1"))) if load.exact is not None else "",
        "mass": plain(load.mass) if load.mass is not None else "",
        "reps": plain(basis.reps_to_failure) if basis.reps_to_failure is not None else "",
        "curve": curve.title,
        "most": str(curve.most),
        "max": plain(basis.max.amount) if basis.max else "",
    }


def above_body_max(case: Case) -> Iterator[Mark]:
    """A bodyweight lift whose whole mass moved, body and what is added, is above the max; the first week is named."""
    seen: set[tuple[object, ...]] = set()
    for week, session, line, lift in each_new_lift(case.plan):
        heaviest = _body_moved(case, lift)
        known = lift.sets[0].pieces[0].load.basis.max
        key = (session.name, lift.index)
        if not known or heaviest <= known.amount or key in seen or _allowed(case, session.name, lift.index):
            continue
        seen.add(key)
        unit = case.plan.unit
        message = (
            f"week {week.number}: {lift.exercise}: body and load together are {plain(heaviest)} {unit}, above "
            f"the example lifter's max of {plain(known.amount)} {unit}"
        )
        most = plain(known.amount - (case.plan.bodyweight or 0))
        remedy = f"add at most {most} {unit}, or write 'above max: allowed' on the line if it is meant"
        yield Mark("above-max", "stop", path_of(session, line, lift, "load"), message, remedy)


def _body_moved(case: Case, lift: Lift) -> Decimal:
    """As asked: what rounding to a plate adds is no more than the author meant."""
    loads = [work.pieces[0].load for work in lift.sets]
    added = [load.exact for load in loads if load.kind == "bodyweight" and load.exact is not None]
    return max(added) + (case.plan.bodyweight or 0) if added else Decimal(0)


def _allowed(case: Case, session: str, index: tuple[int, ...]) -> bool:
    place, *part = index
    line = case.plan.program.sessions[session].lines[place]
    lift = line if isinstance(line, LiftLine) else group_parts(line)[1][part[0]]
    return lift.above_max is not None


def load_jump(case: Case) -> Iterator[Mark]:
    """A line's load rising by more than the site's limit from one working week to the next.

    The usual limit of 10 % is the upper end of what the ACSM stand (2009, MSSE 41(3):687-708) advises. What fewer
    repetitions allow by the curve is no rise.
    """
    last: dict[tuple[object, ...], tuple[int, Decimal, Piece]] = {}
    for week in case.plan.weeks:
        if not week.working:
            continue
        for session in week.sessions:
            for line, lift in each_lift(session):
                key = (session.day, session.name, lift.index)
                first = max((work.pieces[0] for work in lift.sets), key=lambda piece: piece.load.mass or Decimal(0))
                mass = mass_moved(lift, first.load, case.plan.bodyweight)
                before = last.get(key)
                last[key] = (week.number, mass, first)
                if before is None or not before[1]:
                    continue
                even = before[1] * _easier(before[2], first, lift.curve)
                if (mass - even) * 100 / even > case.limits.load_jump:
                    rise = plain(((mass - before[1]) * 100 / before[1]).quantize(Decimal("0.1")))
                    message = (
                        f"{lift.exercise}: from {plain(before[1])} to {plain(mass)} {case.plan.unit} between weeks "
                        f"{before[0]} and {week.number}, {rise} % more (limit {plain(case.limits.load_jump)} %)"
                    )
                    most = (even * (100 + case.limits.load_jump) / 100).quantize(Decimal("0.1"), ROUND_FLOOR)
                    remedy = (
                        f"go to at most {plain(most)} {case.plan.unit} in week {week.number}, or gain repetitions over "
                        "a wider range before adding load"
                    )
                    yield Mark("load-jump", "query", path_of(session, line, lift, "load"), message, remedy)


def _easier(before: Piece, now: Piece, curve: str) -> Decimal:
    """How much heavier fewer repetitions may be by the curve; 1 where they are not fewer or it does not say."""
    if before.reps is None or now.reps is None or before.reps.open or now.reps.open:
        return Decimal(1)
    was, asked = before.reps.low, now.reps.low
    if not asked < was <= CURVES[curve].most:
        return Decimal(1)
    return percent_of_max(Decimal(asked), curve) / percent_of_max(Decimal(was), curve)


def drop_not_lighter(case: Case) -> Iterator[Mark]:
    """A drop set whose drops cannot be made strictly lighter on this equipment; the first such week is named."""
    seen: set[tuple[object, ...]] = set()
    for week, session, line, lift in each_new_lift(case.plan):
        stuck = _stuck(lift)
        if stuck and (session.name, lift.index) not in seen:
            seen.add((session.name, lift.index))
            # Of the two keys only the one written is found in the file; the other is passed over.
            path = path_of(session, line, lift, "last set", "every set")
            message, remedy = stuck
            yield Mark("drop-not-lighter", "stop", path, f"week {week.number}: {lift.exercise}: {message}", remedy)


def _stuck(lift: Lift) -> tuple[str, str] | None:
    """Why a drop of a lift cannot be made lighter, and what would help; None where each can, or goes by feel."""
    drops = [
        (before.load, piece.load)
        for work in lift.sets
        for before, piece in pairwise(work.pieces)
        if piece.role == "drop"
    ]
    if any(load.basis.trouble == "not loadable" for _, load in drops):
        return "nothing lighter to drop to on this equipment", "fewer drops, or a heavier start"
    if any(before.kind == "bodyweight" and before.mass == 0 for before, _ in drops):
        remedy = "fewer drops, a load added to drop from, or 'load: by feel' if something else makes it lighter"
        return "nothing to take off the body alone", remedy
    return None


def left_to_feel(case: Case) -> Iterator[Mark]:
    """Lifts with repetitions and an effort whose load cannot be worked out, the lifter's max being unknown."""
    lifts: dict[str, None] = {}
    for session in case.plan.weeks[0].sessions:
        for lift in session.lifts:
            basis = lift.sets[0].pieces[0].load.basis
            if basis.rule == "feel" and basis.reps_to_failure is not None and basis.max is None:
                lifts[lift.exercise] = None
    if lifts:
        message = f"no max is known for {', '.join(lifts)}: the sheets say 'by feel'"
        remedy = "add a set for each to 'example lifter: bests', or write 'load: by feel' if it is meant"
        yield Mark("load-by-feel", "note", ("example lifter",), message, remedy)


def beyond_repetitions(case: Case) -> Iterator[Mark]:
    """A load that leaves fewer repetitions than the line asks for with its reserve, by the program's own curve.

    One repetition is forgiven: two tests of the same lifter differ by as much (Mitter et al. 2022, PLoS ONE
    17(5):e0268074). Loads that a progression has raised are left out: the lifter is meant to have grown stronger.
    """
    seen: set[tuple[object, ...]] = set()
    for week, session, line, lift in each_new_lift(case.plan):
        short = (_repetitions_short(lift, work, case.plan.bodyweight) for work in lift.sets)
        found = next((each for each in short if each), None)
        key = (session.name, lift.index)
        if found is None or key in seen:
            continue
        seen.add(key)
        possible, asked, share = found
        message = (
            f"week {week.number}: {lift.exercise} at {plain(share)} % of the max allows "
            f"{possible} {'repetition' if possible == 1 else 'repetitions'} "
            f"({CURVES[lift.curve].title.lower()}); {asked} asked"
        )
        remedy = "lower the load or the repetitions, or ask for less in reserve"
        yield Mark("beyond-repetitions", "query", path_of(session, line, lift, "load"), message, remedy)


def _repetitions_short(lift: Lift, work: WorkSet, bodyweight: Decimal | None) -> tuple[int, str, Decimal] | None:
    """Repetitions possible, what is asked in words, and the share of the max; None where all is well or unknown."""
    load = work.pieces[0].load
    reps = lift.reps if work.kind in {"straight", "top"} else work.pieces[0].reps
    percent = percent_lifted(load, bodyweight)
    if percent is None or reps is None or reps.open or load.basis.added or lift.range_of_motion != "full":
        return None
    share = percent.quantize(Decimal("0.1"))
    possible = reps_at_percent(min(share, Decimal(100)), lift.curve)
    # A load that came from the effort keeps its reserve but for the rounding; one the author gave has to be looked at.
    given = load.basis.rule != "effort" or load.basis.share != 1
    reserve = work.effort.rir if work.effort and given else Decimal(0)
    if possible is None or possible + 1 >= reps.low + reserve:
        return None
    asked = f"{reps.low} with {plain(reserve)} in reserve" if reserve else str(reps.low)
    return possible, asked, share


def bests_beyond(case: Case) -> Iterator[Mark]:
    """Recorded sets of more repetitions than the curve holds for: no max is taken from them."""
    own = {lift.exercise: lift.curve for week in case.plan.weeks for each in week.sessions for lift in each.lifts}
    for name, best in sorted(case.plan.program.example_lifter.bests.items()):
        curve = CURVES[own.get(name, case.plan.curve)]
        if best.reps > curve.most:
            message = f"{name}: a set of {best.reps} gives no max; the {curve.title.lower()} holds to {curve.most}"
            path = ("example lifter", "bests", name)
            yield Mark("beyond-curve", "query", path, message, f"record a heavier set of {curve.most} or fewer")

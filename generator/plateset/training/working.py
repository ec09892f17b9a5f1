"""How a figure came about, step by step: the working behind any ``figure:`` address."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal

from plateset.manuscript.vocabulary import MUSCLE_GROUPS
from plateset.training.figures import figure, week_at
from plateset.training.load_words import load_words
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Max, Plan, Session
from plateset.training.strength import CURVES
from plateset.training.time import WARM_UP, change_over_before, line_seconds, session_seconds
from plateset.training.volume import HARD_RESERVE, Contribution, MuscleWeek, contributions, weekly_volume

_TENTH = Decimal("0.1")


def working(address: str, plans: Mapping[str, Plan]) -> list[str]:
    """The steps that lead to the figure at ``address``, and the figure last. Raises FigureError as ``figure`` does."""
    value = figure(address, plans)
    slug, _, rest = address.partition("/")
    subject, *parts = rest.split("/")
    steps = _STEPS.get(subject)
    return [*(steps(plans[slug], parts) if steps else ()), f"{address} = {value}"]


def _load_steps(plan: Plan, parts: list[str]) -> Iterator[str]:
    exercise, week = parts
    for session in week_at(plan, week).sessions:
        for lift in session.lifts:
            for load, numbers in _by_load(lift) if lift.exercise == exercise else ():
                yield f"{_named(session)}: {exercise}, {numbers}"
                yield from (f"  {step}" for step in load_steps(load, plan))


def _named(session: Session) -> str:
    return f"{session.title} (day {session.day})"


def _by_load(lift: Lift) -> list[tuple[Load, str]]:
    """Each different load of a lift's sets, with the sets that have it."""
    found: list[tuple[Load, list[int]]] = []
    for work in lift.sets:
        load = work.pieces[0].load
        if found and found[-1][0] == load:
            found[-1][1].append(work.number)
        else:
            found.append((load, [work.number]))
    return [(load, f"set {ns[0]}" if len(ns) == 1 else f"sets {ns[0]}-{ns[-1]}") for load, ns in found]


def load_steps(load: Load, plan: Plan) -> Iterator[str]:
    """How one load came about: max, share, additions, deload, rounding, plates."""
    basis, unit = load.basis, plan.unit
    if basis.max is not None and basis.percent is not None:
        yield _max_step(basis.max, unit)
        if basis.reps_to_failure is not None:
            reps = plain(basis.reps_to_failure)
            title = CURVES[basis.curve].title
            yield f"{reps} repetitions to failure (repetitions plus reserve): {plain(basis.percent)} % by {title}"
        share = basis.max.amount * basis.percent / 100
        yield f"{plain(basis.percent)} % of {plain(basis.max.amount)} {unit} = {plain(share)} {unit}"
        if load.kind == "bodyweight" and plan.bodyweight is not None:
            yield f"less the {plain(plan.bodyweight)} {unit} of the body: {plain(share - plan.bodyweight)} {unit}"
    if basis.added:
        yield f"plus {plain(basis.added)} {unit} added by the progression"
    if basis.share != 1:
        yield f"times {plain(basis.share * 100)} % of the heaviest set"
    if basis.scale != 1:
        yield f"times {plain(basis.scale * 100)} % in a deload week"
    if load.mass is None:
        yield "left to feel" + (f": {basis.trouble}" if basis.trouble else "")
        return
    if load.exact is not None:
        yield from _rounding_steps(load, plan)
    if load.per_side is not None:
        yield f"plates on each side: {' + '.join(plain(plate) for plate in load.per_side) or 'none'}"


def _rounding_steps(load: Load, plan: Plan) -> Iterator[str]:
    """From the exact load to what can be had; on the body, only what is added to it or taken off is rounded."""
    assert load.exact is not None
    assert load.mass is not None
    exact, said = f"{_tidy(load.exact)} {plan.unit}", load_words(load.kind, load.mass, plan.unit)
    if load.kind != "bodyweight":
        yield f"{exact} rounded to what can be loaded: {said}"
        return
    yield f"{exact} on the body rounded to what can be added: {said}" if load.exact else said


def _tidy(mass: Decimal) -> str:
    return plain(mass.quantize(Decimal("0.001")))


def _max_step(known: Max, unit: str) -> str:
    if known.share is not None:
        return f"max of {plain(known.amount)} {unit}: {plain(known.share)} % of the max of {known.of}"
    if known.reps == 1:
        return f"max of {plain(known.amount)} {unit}: lifted once"
    title = CURVES[known.curve].title
    return f"max of {plain(known.amount)} {unit}: {plain(known.from_load)} {unit} for {known.reps}, by {title}"


def _set_steps(plan: Plan, parts: list[str]) -> Iterator[str]:
    muscle, week = parts
    for session in week_at(plan, week).sessions:
        everything = contributions(session, plan.bodyweight, tuple(MUSCLE_GROUPS))
        parts_of_muscle = [part for part in everything if part.muscle == muscle]
        for place in dict.fromkeys((part.line, part.exercise) for part in parts_of_muscle):
            yield _count(_named(session), [part for part in parts_of_muscle if (part.line, part.exercise) == place])
    found = weekly_volume(week_at(plan, week), plan.bodyweight, tuple(MUSCLE_GROUPS)).get(muscle)
    if found is not None:
        yield _in_all(found, plan.unit)


def _in_all(found: MuscleWeek, unit: str) -> str:
    """What else is known of a muscle's week, of a reader who does the least; but for the most in a session."""
    parts = [
        f"{plain(found.hard)} of them hard ({plain(HARD_RESERVE)} or fewer in reserve, as far as is known)",
        f"{plain(found.reps)} repetitions",
        f"load-volume {plain(found.load_volume)} {unit}",
    ]
    if found.mean_load:
        of = "" if found.loaded_reps == found.reps else f" over the {plain(found.loaded_reps)} whose load is known"
        parts.append(f"mean load {plain(found.mean_load.quantize(_TENTH))} {unit}{of}")
    if found.mean_percent is not None:
        parts.append(f"{plain(found.mean_percent.quantize(_TENTH))} % of max where it is known")
    days = "1 day" if len(found.days) == 1 else f"{len(found.days)} days"
    hours = f", {found.hours_between} h apart at the least" if found.hours_between else ""
    parts.append(f"{days}{hours}, at most {plain(found.most_in_session)} sets in a session")
    return f"{plain(found.fractional)} sets: {'; '.join(parts)}"


def _count(title: str, parts: list[Contribution]) -> str:
    kind = "direct" if parts[0].direct else "indirect"
    total = sum((part.sets for part in parts), Decimal(0))
    sets = f"{len(parts)} {'set' if len(parts) == 1 else 'sets'}"
    more = sum((part.share * (part.counts - 1) for part in parts), Decimal(0))
    pieces = f" + {plain(more)} for the pieces that count" if more else ""
    choice = _choice(parts)
    return f"{title}: {parts[0].exercise}, {sets} x {plain(parts[0].share)} ({kind}){pieces} = {plain(total)}{choice}"


def _choice(parts: list[Contribution]) -> str:
    spare = sum(part.optional for part in parts)
    words = [f"one of {parts[0].options} to pick from"] if parts[0].options > 1 else []
    words += [f"{spare} left to the reader"] if spare else []
    return f" ({', '.join(words)})" if words else ""


def _minute_steps(plan: Plan, parts: list[str]) -> Iterator[str]:
    sessions = [(week.number, session) for week in plan.weeks for session in week.sessions]
    number, longest = max(sessions, key=lambda pair: session_seconds(pair[1]))
    yield f"longest session: {longest.title}, week {number}"
    yield f"general warm-up: {WARM_UP} s"
    for index, line in enumerate(longest.lines):
        names = (" or " if line.kind == "pick-one" else " and ").join(lift.exercise for lift in line.lifts)
        crossing = f", change-over {change_over_before(line)} s" if index else ""
        lighter = sum(len(lift.warm_up) for lift in line.lifts)
        warm_up = f", {lighter} warm-up sets included" if lighter else ""
        yield f"{names}: {line_seconds(line)} s{warm_up}{crossing}"
    yield f"together {session_seconds(longest)} s, rounded up to a minute"


_STEPS: dict[str, Callable[[Plan, list[str]], Iterator[str]]] = {
    "load": _load_steps,
    "weekly sets": _set_steps,
    "direct sets": _set_steps,
    "minutes": _minute_steps,
}

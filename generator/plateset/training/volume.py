"""Weekly volume of each muscle: sets, repetitions, load-volume, intensity, days and hours between them.

A direct set counts 1, an indirect set its share in the exercise note (0.5 unless the author says otherwise); their
sum is the fractional set count (Pelland et al. 2024, SportRxiv preprint; Mannarino et al. 2021, JSCR
35(10):2677-2681 found 0.47 for elbow flexors). A set with a technique counts as one set, whatever its pieces, unless
the author counts them: papers do not agree on more. Warm-up sets count for nothing.

Where the reader may choose (a pick of exercises, sets that may be left out) the figures are those of the least, and
the most stands beside them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from functools import cached_property, partial
from itertools import pairwise, repeat

from plateset.manuscript.vocabulary import MUSCLE_GROUPS
from plateset.records import record
from plateset.remembering import Remembered
from plateset.training.plan import Lift, Load, Piece, Plan, Session, Week, WorkSet
from plateset.training.strength import reps_at_percent

HARD_RESERVE = Decimal(4)
"""Most repetitions in reserve with which a set is counted as hard (common practice, no source; the rating scale of
Zourdos et al. 2016, JSCR 30(1):267-275, tells no more apart beyond four)."""


@record
class MuscleWeek:
    """A muscle's week. ``indirect`` is weighted by its shares; ``fractional`` is direct plus indirect.

    ``reps`` and ``load_volume`` (mass x repetitions, in the plan's unit) count sets by the same shares, as do ``hard``
    sets, those known to end within :data:`HARD_RESERVE` repetitions of failure. ``most`` is the fractional count of a
    reader who does all that is left to choice, ``most_in_session`` theirs in the session that has most.
    ``mean_percent`` is of the lifter's max, over repetitions whose max is known.
    """

    direct: Decimal
    indirect: Decimal
    fractional: Decimal
    reps: Decimal
    load_volume: Decimal
    days: tuple[int, ...]
    most: Decimal
    hard: Decimal
    most_in_session: Decimal
    mean_percent: Decimal | None
    loaded_reps: Decimal = Decimal(0)

    @property
    def mean_load(self) -> Decimal | None:
        """Load-volume divided by repetitions (Haff & Triplett 2016, ch. 17: average weight lifted per repetition).

        Only repetitions whose load is known are divided by: those by feel are part of neither.
        """
        return self.load_volume / self.loaded_reps if self.loaded_reps else None

    @property
    def hours_between(self) -> int | None:
        """Hours from one day with the muscle to the next, the shortest of the week and round to the next one."""
        if len(self.days) < 2:
            return None
        return min(after - before for before, after in pairwise((*self.days, self.days[0] + 7))) * 24


_NONE = Decimal(0)
UNTRAINED = MuscleWeek(_NONE, _NONE, _NONE, _NONE, _NONE, (), _NONE, _NONE, _NONE, None)
"""The week of a muscle that nothing trains."""


@record
class Contribution:
    """One set and what it gives one muscle: the record every total is added up from.

    ``option`` is its place among the ``options`` of a pick (0 of 1 for a line without choice); ``optional`` sets may
    be left out. ``reserve`` is in repetitions, ``percent`` of the lifter's max; None where unknown.
    """

    muscle: str
    share: Decimal
    direct: bool
    reps: int
    loaded_reps: int
    load_volume: Decimal
    day: int
    exercise: str
    line: int
    option: int
    options: int
    optional: bool
    counts: Decimal
    reserve: Decimal | None
    percent: Decimal | None

    @cached_property
    def sets(self) -> Decimal:
        """Fractional sets it adds."""
        return self.share * self.counts


def shares_of(lift: Lift, groups: Iterable[str] = ()) -> dict[str, tuple[Decimal, bool]]:
    """The share of a set each muscle gets from a lift, and whether it is trained directly.

    A muscle group gets the largest share of any muscle in it, once.
    """
    shares: dict[str, tuple[Decimal, bool]] = {}
    for muscle, share in lift.note.muscles.indirect.items():
        shares[muscle] = (share, False)
    for muscle in lift.note.muscles.direct:
        shares[muscle] = (Decimal(1), True)
    for group in groups:
        inside = [shares[muscle] for muscle in MUSCLE_GROUPS[group] if muscle in shares]
        if inside:
            shares[group] = max(inside)
    return shares


def mass_moved(lift: Lift, load: Load, bodyweight: Decimal | None) -> Decimal:
    """The mass one repetition moves: both dumbbells, the whole bar, or the moved part of the body and what is added."""
    if load.kind == "bodyweight":
        body = (bodyweight or Decimal(0)) * lift.note.bodyweight_share / 100
        return max(Decimal(0), body + (load.mass or 0))
    if load.mass is None:
        return Decimal(0)
    hands = lift.note.dumbbells if load.kind == "dumbbell" else 1
    return load.mass * hands


def reps_of(lift: Lift, piece: Piece) -> int:
    """The repetitions a piece is counted with; on a lift done one side at a time, both sides."""
    count = piece.aim or 0
    return count * (2 if lift.note.sides == "one" else 1)


def percent_lifted(load: Load, bodyweight: Decimal | None) -> Decimal | None:
    """The share of the lifter's max that is on the bar, in percent; None without a mass or a max."""
    known = load.basis.max
    if known is None or not known.amount or load.mass is None:
        return None
    moved = load.mass + (bodyweight or 0) if load.kind == "bodyweight" else load.mass
    return moved * 100 / known.amount


def reserve_of(lift: Lift, work: WorkSet, bodyweight: Decimal | None) -> Decimal | None:
    """Repetitions in reserve at the end of a set: as asked, else by its load and the curve; None where unknown.

    A set past failure or of as many as possible leaves none. In a lighter week the load decides, not the effort asked.
    """
    first = work.pieces[0]
    if work.past_failure or (first.reps is not None and first.reps.open):
        return Decimal(0)
    if work.effort is not None and first.load.basis.scale == 1:
        return work.effort.rir
    percent = percent_lifted(first.load, bodyweight)
    if percent is None or first.reps is None or lift.range_of_motion != "full":
        return None
    possible = reps_at_percent(min(percent, Decimal(100)), lift.curve)
    return None if possible is None else Decimal(max(0, possible - first.reps.low))


Counted = tuple[int, Contribution]
"""So many sets in a row that give a muscle the same, and what one of them gives it."""


def contributions(session: Session, bodyweight: Decimal | None, groups: Sequence[str] = ()) -> Iterator[Contribution]:
    """Every set of a session, once for each muscle it trains (and each of ``groups``), choices included."""
    for count, part in _runs(session, bodyweight, groups):
        yield from repeat(part, count)


def _runs(session: Session, bodyweight: Decimal | None, groups: Sequence[str]) -> Iterator[Counted]:
    for line in session.lines:
        picked = line.kind == "pick-one"
        for place, lift in enumerate(line.lifts):
            options = (place, len(line.lifts)) if picked else (0, 1)
            for run in lift.alike:
                for part in _of_set(session, lift, run[0], options, bodyweight, groups):
                    yield len(run), part


def _of_set(  # noqa: PLR0913, PLR0917 - a set in its session, and what is asked of it
    session: Session,
    lift: Lift,
    work: WorkSet,
    options: tuple[int, int],
    bodyweight: Decimal | None,
    groups: Sequence[str],
) -> Iterator[Contribution]:
    counted = [(reps_of(lift, piece), mass_moved(lift, piece.load, bodyweight)) for piece in work.pieces]
    reps = sum(count for count, _ in counted)
    loaded = sum(count for count, mass in counted if mass)
    volume = sum((count * mass for count, mass in counted), Decimal(0))
    reserve = reserve_of(lift, work, bodyweight)
    percent = percent_lifted(work.pieces[0].load, bodyweight)
    for muscle, (share, direct) in shares_of(lift, groups).items():
        yield Contribution(
            muscle,
            share,
            direct,
            reps,
            loaded,
            volume,
            session.day,
            lift.exercise,
            lift.index[0],
            *options,
            work.optional,
            work.counts,
            reserve,
            percent,
        )


def weekly_volume(week: Week, bodyweight: Decimal | None, groups: Sequence[str] = ()) -> dict[str, MuscleWeek]:
    """The week of every muscle trained in it (and of each of ``groups``), in alphabetical order."""
    parts: dict[str, list[Counted]] = defaultdict(list)
    for session in week.sessions:
        for counted in _runs(session, bodyweight, groups):
            parts[counted[1].muscle].append(counted)
    return {muscle: _total(parts[muscle]) for muscle in sorted(parts)}


def _total(parts: list[Counted]) -> MuscleWeek:
    lines: dict[tuple[int, int], list[Counted]] = defaultdict(list)
    for count, part in parts:
        lines[part.day, part.line].append((count, part))
    certain = [counted for each in lines.values() for counted in _least(each)]
    direct = _sets(each for each in certain if each[1].direct)
    indirect = _sets(each for each in certain if not each[1].direct)
    by_day = dict.fromkeys((part.day for _, part in parts), _NONE)
    for (day, _), each in lines.items():
        by_day[day] += _most(each)
    return MuscleWeek(
        direct=direct,
        indirect=indirect,
        fractional=direct + indirect,
        reps=_sum(part.share * (count * part.reps) for count, part in certain),
        load_volume=_sum(part.share * part.load_volume * count for count, part in certain),
        days=tuple(sorted(by_day)),
        most=_sum(_most(each) for each in lines.values()),
        hard=_sets(each for each in certain if each[1].reserve is not None and each[1].reserve <= HARD_RESERVE),
        most_in_session=max(by_day.values()),
        mean_percent=_mean_percent(certain),
        loaded_reps=_sum(part.share * (count * part.loaded_reps) for count, part in certain),
    )


def _sets(parts: Iterable[Counted]) -> Decimal:
    return _sum(count * part.sets for count, part in parts)


def _sum(numbers: Iterable[Decimal]) -> Decimal:
    return sum(numbers, Decimal(0))


def _options(parts: list[Counted]) -> list[list[Counted]]:
    """The parts of one line by option; an option that does not train the muscle is an empty one."""
    options = parts[0][1].options
    if options == 1:
        return [parts]
    return [[each for each in parts if each[1].option == option] for option in range(options)]


def _least(parts: list[Counted]) -> list[Counted]:
    """What a reader does in any case: the option that gives least, without the sets that may be left out."""
    certain = [[each for each in option if not each[1].optional] for option in _options(parts)]
    return min(certain, key=_sets) if len(certain) > 1 else certain[0]


def _most(parts: list[Counted]) -> Decimal:
    return max(map(_sets, _options(parts)))


def _mean_percent(parts: list[Counted]) -> Decimal | None:
    known = [(part.share * (count * part.reps), part.percent) for count, part in parts if part.percent is not None]
    reps = _sum(count for count, _ in known)
    return _sum(count * percent for count, percent in known) / reps if reps else None


def program_volume(plan: Plan) -> dict[int, dict[str, MuscleWeek]]:
    """:func:`weekly_volume` of every week of a plan, by week number; with the muscle groups it promises sets for."""
    groups = tuple(name for name in plan.program.weekly_sets if name in MUSCLE_GROUPS)
    met: Remembered[dict[str, MuscleWeek]] = Remembered()  # weeks of the same sessions have the same volume
    return {
        week.number: met.get(week.sessions, partial(weekly_volume, week, plan.bodyweight, groups))
        for week in plan.weeks
    }

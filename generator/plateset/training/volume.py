"""Weekly volume of each muscle: sets, repetitions, load-volume and days.

A direct set counts 1, an indirect set its share in the exercise note (0.5 unless the author says otherwise); their
sum is the fractional set count (Pelland et al. 2024, SportRxiv preprint; Mannarino et al. 2021, JSCR
35(10):2677-2681 found 0.47 for elbow flexors). A set with a technique counts as one set, whatever its pieces: papers
do not agree on more.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from plateset.training.plan import Lift, Load, Piece, Plan, Session, Week


@dataclass(frozen=True)
class MuscleWeek:
    """A muscle's week. ``indirect`` is weighted by its shares; ``fractional`` is direct plus indirect.

    ``reps`` and ``load_volume`` (mass x repetitions, in the plan's unit) count sets by the same shares.
    """

    direct: Decimal
    indirect: Decimal
    fractional: Decimal
    reps: Decimal
    load_volume: Decimal
    days: tuple[int, ...]


@dataclass(frozen=True)
class Contribution:
    """One set and what it gives one muscle: the record every total is added up from."""

    muscle: str
    share: Decimal
    direct: bool
    reps: int
    load_volume: Decimal
    day: int
    session: str
    exercise: str
    number: int


def shares_of(lift: Lift) -> dict[str, tuple[Decimal, bool]]:
    """The share of a set each muscle gets from a lift, and whether it is trained directly."""
    shares: dict[str, tuple[Decimal, bool]] = {}
    for muscle, share in lift.note.muscles.indirect.items():
        shares[muscle] = (share, False)
    for muscle in lift.note.muscles.direct:
        shares[muscle] = (Decimal(1), True)
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
    count = piece.aim or (piece.reps.low if piece.reps and not piece.reps.open else 0)
    return count * (2 if lift.note.sides == "one" else 1)


def contributions(session: Session, bodyweight: Decimal | None) -> Iterator[Contribution]:
    """Every set of a session, once for each muscle it trains."""
    for lift in session.lifts:
        for work in lift.sets:
            reps = sum(reps_of(lift, piece) for piece in work.pieces)
            volume = sum(
                (mass_moved(lift, piece.load, bodyweight) * reps_of(lift, piece) for piece in work.pieces),
                Decimal(0),
            )
            for muscle, (share, direct) in shares_of(lift).items():
                yield Contribution(
                    muscle, share, direct, reps, volume, session.day, session.name, lift.exercise, work.number
                )


def weekly_volume(week: Week, bodyweight: Decimal | None) -> dict[str, MuscleWeek]:
    """The week of every muscle trained in it, in alphabetical order."""
    parts: dict[str, list[Contribution]] = defaultdict(list)
    for session in week.sessions:
        for part in contributions(session, bodyweight):
            parts[part.muscle].append(part)
    return {muscle: _total(parts[muscle]) for muscle in sorted(parts)}


def _total(parts: list[Contribution]) -> MuscleWeek:
    direct = sum((part.share for part in parts if part.direct), Decimal(0))
    indirect = sum((part.share for part in parts if not part.direct), Decimal(0))
    return MuscleWeek(
        direct,
        indirect,
        direct + indirect,
        sum((part.share * part.reps for part in parts), Decimal(0)),
        sum((part.share * part.load_volume for part in parts), Decimal(0)),
        tuple(sorted({part.day for part in parts})),
    )


def program_volume(plan: Plan) -> dict[int, dict[str, MuscleWeek]]:
    """:func:`weekly_volume` of every week of a plan, by week number."""
    return {week.number: weekly_volume(week, plan.bodyweight) for week in plan.weeks}

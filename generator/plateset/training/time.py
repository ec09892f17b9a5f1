"""How long a session takes: repetitions x tempo, rests, pauses within sets, and change-overs.

Sets x set time + rests between them (common practice, no source). In a group the rest comes once a round, after the
last exercise; that is what makes supersets shorter (Burke et al. 2024, SportRxiv 419: 36 % less time for pairs).
"""

from __future__ import annotations

from functools import partial

from plateset.remembering import Remembered, each_once
from plateset.training.plan import Lift, Plan, PlannedLine, Session, WarmUp, WorkSet

SECONDS_PER_REP = 4
"""A repetition without a stated tempo: 1-2 s up and 1-2 s down (ACSM 2009, MSSE 41(3):687-708), with its pauses."""

CHANGE_OVER = 90
"""Seconds to go to the next exercise and set it up (common practice, no source: 1 to 3 min)."""

WARM_UP = 300
"""Seconds of general warm-up before the first line (common practice, no source: 5 to 10 min)."""

WARM_UP_REST = 60
"""Seconds after a warm-up set, in which the next load is put on (common practice, no source)."""

SIDE_CHANGE = 5
"""Seconds to change sides on a lift done one side at a time (common practice, no source)."""

OPEN_SET_REPS = 12
"""Repetitions an open set is timed with where none can be expected (common practice, no source)."""

_SECONDS: Remembered[int] = Remembered(100)
"""Of the latest sessions: marks, facts, facets and every file of a program ask for them."""


def set_seconds(lift: Lift, work: WorkSet) -> int:
    """Seconds one set takes, its inner pauses included; both sides where a lift is done one side at a time."""
    usual = lift.tempo.seconds if lift.tempo else SECONDS_PER_REP
    seconds = 0
    for piece in work.pieces:
        reps = piece.aim or OPEN_SET_REPS
        per_rep = piece.seconds_per_rep or usual
        seconds += piece.pause_before + (piece.hold if piece.hold is not None else reps * per_rep)
    return seconds * 2 + SIDE_CHANGE if lift.note.sides == "one" else seconds


def warm_up_seconds(lift: Lift, warm_up: WarmUp) -> int:
    """Seconds of a warm-up set and the pause after it."""
    per_rep = lift.tempo.seconds if lift.tempo else SECONDS_PER_REP
    sides = 2 if lift.note.sides == "one" else 1
    return warm_up.reps * per_rep * sides + WARM_UP_REST


def line_seconds(line: PlannedLine) -> int:
    """Seconds of a line: rounds of its lifts, the rest after every round but the last; of a pick, its longest.

    Sets left to the reader are counted: the figure is what a session may take.
    """
    if line.kind == "pick-one":
        return max(_rounds_seconds((lift,), line) for lift in line.lifts)
    return _rounds_seconds(line.lifts, line)


def _rounds_seconds(lifts: tuple[Lift, ...], line: PlannedLine) -> int:
    warm_up = sum(warm_up_seconds(lift, each) for lift in lifts for each in lift.warm_up)
    work = sum(set_seconds(lift, each) for lift in lifts for each in lift.sets)
    rounds = max(len(lift.sets) for lift in lifts)
    crossings = sum(max(0, sum(len(lift.sets) >= number for lift in lifts) - 1) for number in range(1, rounds + 1))
    return warm_up + work + max(0, rounds - 1) * line.rest + crossings * line.between


def session_seconds(session: Session) -> int:
    """Seconds of a session: warm-up, every line, and a change-over before every line but the first."""
    return _SECONDS.get((session,), partial(_session_seconds, session))


def _session_seconds(session: Session) -> int:
    return (
        WARM_UP
        + sum(line_seconds(line) for line in session.lines)
        + sum(change_over_before(line) for line in session.lines[1:])
    )


def change_over_before(line: PlannedLine) -> int:
    """Seconds to change over to a line: the longest its exercises ask for, or the usual ones."""
    given = [lift.note.change_over for lift in line.lifts if lift.note.change_over is not None]
    return max(given, default=CHANGE_OVER)


def session_minutes(session: Session) -> int:
    """Minutes of a session, rounded up."""
    return -(-session_seconds(session) // 60)


def sessions_of(plan: Plan, *, working: bool = False) -> list[Session]:
    """The sessions of a plan, or of its working weeks; one that weeks share is there once."""
    return each_once(session for week in plan.weeks if week.working or not working for session in week.sessions)

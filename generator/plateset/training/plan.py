"""A program expanded: what this floor hands on. Records only, no behaviour that computes.

Masses are :class:`~decimal.Decimal` in the plan's unit, times whole seconds.
"""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal
from itertools import groupby
from operator import attrgetter
from typing import Literal

from plateset.manuscript.quantities import Effort, Reps, Tempo
from plateset.manuscript.schema import Exercise, Program
from plateset.manuscript.vocabulary import RangeOfMotion, Role, Unit
from plateset.records import record
from plateset.training.sentences import Sentence

LoadKind = Literal["bar", "dumbbell", "stack", "bodyweight", "plain", "feel"]


@record
class Max:
    """A lifter's one-repetition maximum for a lift, to a tenth of a unit.

    For lifts that move the body it is the whole mass moved: bodyweight and what is added.
    ``reps`` is 1 for a tested max; ``share`` is set where it is a share of another lift's max.
    """

    exercise: str
    amount: Decimal
    from_load: Decimal
    reps: int
    curve: str
    share: Decimal | None = None
    of: str = ""


Trouble = Literal[
    "", "no max", "beyond the curve", "part of the range", "below the bar", "not loadable", "beyond the rack",
    "above the max",
]  # fmt: skip


@record
class Basis:
    """How a load came about; the parts that do not apply are None.

    ``share`` is what a back-off set or a step of a pyramid keeps of the heaviest set's load, ``scale`` what a deload
    keeps.
    """

    rule: Literal["percent", "effort", "fixed", "bodyweight", "feel", "technique", "warm-up"]
    percent: Decimal | None = None
    max: Max | None = None
    reps_to_failure: Decimal | None = None
    curve: str = ""
    added: Decimal = Decimal(0)
    share: Decimal = Decimal(1)
    scale: Decimal = Decimal(1)
    trouble: Trouble = ""


@record
class Load:
    """What goes on the bar, in each hand, or on the pin.

    ``mass`` is the whole bar, one dumbbell, the pin, or (for bodyweight) what is added, negative for help;
    None when the lifter picks it. ``exact`` is the mass before rounding. ``per_side`` lists the plates on one
    end of the bar, heaviest first.
    """

    kind: LoadKind
    mass: Decimal | None
    exact: Decimal | None
    per_side: tuple[Decimal, ...] | None
    basis: Basis


PieceRole = Literal["work", "drop", "after a pause", "negatives", "loose form", "with help", "short range", "hold"]


@record
class Piece:
    """A stretch of a set done without putting the load down, or after a pause within the set.

    ``reps`` is what is asked, ``aim`` the number expected of the example lifter (a projection where the
    progression gains repetitions, common practice for the pieces after the first); ``hold`` is in seconds.
    """

    role: PieceRole
    load: Load
    reps: Reps | None
    aim: int | None
    hold: int | None = None
    pause_before: int = 0
    seconds_per_rep: int | None = None


SetKind = Literal["straight", "top", "back-off", "pyramid"]


@record
class WorkSet:
    """One set: its first piece, and those a technique adds.

    ``effort`` is None where none is asked. ``optional`` sets are the reader's choice. ``counts`` is how many sets it
    is in weekly sets: 1 unless the author counts the pieces of its technique. ``projected`` tells whether its aim is
    what the progression expects by then.
    """

    number: int
    pieces: tuple[Piece, ...]
    effort: Effort | None
    technique: str | None
    past_failure: bool
    kind: SetKind = "straight"
    optional: bool = False
    counts: Decimal = Decimal(1)
    projected: bool = False


_BUT_FOR_THE_NUMBER = attrgetter(*(each.name for each in fields(WorkSet) if each.name != "number"))


@record
class WarmUp:
    """A lighter set before the first: no part of any volume."""

    load: Load
    reps: int


@record
class Lift:
    """One exercise of a session in one week, with its sets.

    ``index`` is the place in the program file: (line,) or (line, part). ``reps`` and ``effort`` are the line's;
    sets that part from them say so themselves. ``curve`` is the one its loads are worked out by.
    """

    exercise: str
    note: Exercise
    index: tuple[int, ...]
    sets: tuple[WorkSet, ...]
    reps: Reps | None
    hold: int | None
    effort: Effort | None
    rest: int
    tempo: Tempo | None
    rule: tuple[Sentence, ...]
    """What the reader goes by from week to week."""
    projected: bool
    remark: str
    why: str
    curve: str
    warm_up: tuple[WarmUp, ...] = ()
    role: Role | None = None
    range_of_motion: RangeOfMotion = "full"

    @property
    def least_sets(self) -> int:
        """The sets that are not the reader's choice."""
        return sum(not work.optional for work in self.sets)

    @property
    def alike(self) -> list[list[WorkSet]]:
        """The sets in runs of such as differ in their numbers alone: what is worked out for one holds for its run."""
        return [list(run) for _, run in groupby(self.sets, _BUT_FOR_THE_NUMBER)]


GroupKind = Literal["single", "superset", "giant-set", "circuit", "pre-exhaustion", "pick-one"]


@record
class PlannedLine:
    """A line of a session: one lift, several done in turn, or several of which the reader picks one.

    ``rest`` follows the line's round, in seconds.
    """

    kind: GroupKind
    lifts: tuple[Lift, ...]
    rest: int
    between: int
    remark: str
    why: str


@record
class Session:
    """A session on a day of the week (1 is Monday, or the first day)."""

    name: str
    title: str
    day: int
    remark: str
    within: int | None
    lines: tuple[PlannedLine, ...]

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """All lifts in the order they are first met."""
        return tuple(lift for line in self.lines for lift in line.lifts)


@record
class Week:
    """One week, numbered from 1. A test week tries the main lifts."""

    number: int
    deload: bool
    sessions: tuple[Session, ...]
    test: bool = False

    @property
    def working(self) -> bool:
        """Whether the program's promises hold in it: neither a deload nor a test."""
        return not self.deload and not self.test


@record
class Plan:
    """A program with every week, session, line and set worked out for the example lifter."""

    slug: str
    program: Program
    unit: Unit
    curve: str
    bodyweight: Decimal | None
    maxes: tuple[Max, ...]
    weeks: tuple[Week, ...]

"""A mark and what a rule looks at to make one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from operator import itemgetter
from typing import Literal

from plateset.manuscript.schema import Limits, Program, TechniqueNote
from plateset.manuscript.vocabulary import MarkName
from plateset.remembering import first_met
from plateset.training.plan import Lift, Plan, PlannedLine, Session, Week
from plateset.training.volume import MuscleWeek

Severity = Literal["stop", "query", "note"]
"""``stop`` keeps a program from being published; a ``query`` asks the author to look; a ``note`` only tells."""

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class SetChange:
    """Sets to add to a line (negative: to take), each time its session is done.

    ``index`` is the line's place in the session, (line,) or (line, part) from 0; ``days`` those the session is done on.
    """

    session: str
    days: tuple[int, ...]
    index: tuple[int, ...]
    exercise: str
    by: int


@dataclass(frozen=True)
class Mark:
    """One finding: its stable name, how grave it is, the data path in the program file, reason and remedy.

    ``accepted`` is the author's reason for letting it stand; such a mark stops nothing. ``changes`` are the remedy as
    data, where it is a change in sets that was planned and proved.
    """

    name: MarkName
    severity: Severity
    path: Path
    message: str
    remedy: str
    accepted: str = ""
    changes: tuple[SetChange, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether it keeps a program from being published."""
        return self.severity == "stop" and not self.accepted


@dataclass(frozen=True)
class Case:
    """A plan with its volume and what the site and the notes say: all a rule may look at.

    ``replan`` plans a changed program for the same site and exercises; without it no remedies are looked for.
    """

    plan: Plan
    volume: Mapping[int, Mapping[str, MuscleWeek]]
    limits: Limits
    techniques: Mapping[str, TechniqueNote]
    site_cautions: tuple[str, ...] = ()
    replan: Callable[[Program], Plan] | None = None

    @property
    def working_weeks(self) -> list[int]:
        """The weeks in which the program's promises hold, in order."""
        return [week.number for week in self.plan.weeks if week.working]


MarkRule = Callable[[Case], Iterator[Mark]]


def path_of(session: Session, line: PlannedLine, lift: Lift, *rest: str) -> Path:
    """The data path of a lift in its program file."""
    place, *part = lift.index
    within: Path = (
        (line.kind.replace("giant-set", "giant set").replace("pick-one", "pick one"), part[0]) if part else ()
    )
    return ("sessions", session.name, "lines", place, *within, *rest)


def each_lift(session: Session) -> Iterator[tuple[PlannedLine, Lift]]:
    """Every lift of a session with the line it stands in."""
    for line in session.lines:
        for lift in line.lifts:
            yield line, lift


def each_new_lift(plan: Plan) -> Iterator[tuple[Week, Session, PlannedLine, Lift]]:
    """Every lift of a plan in the first week it is met: one that later weeks share is not told again."""
    every = (
        (week, session, line, lift)
        for week in plan.weeks
        for session in week.sessions
        for line, lift in each_lift(session)
    )
    return first_met(every, itemgetter(3))


def plain(number: Decimal) -> str:
    """A decimal without trailing zeros."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text

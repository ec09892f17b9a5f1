"""The tables of a proof for a terminal: weekly sets, sessions, and loads from the first working week to the last."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from rich.text import Text

from plateset.manuscript.vocabulary import WEEKDAYS
from plateset.proving import Proof
from plateset.publishing.words import load_text, time_text
from plateset.terminal_table import Column, table
from plateset.training.load_course import LineCourse, SessionCourse, Stand, courses
from plateset.training.marks.mark import plain
from plateset.training.plan import Session, Week
from plateset.training.time import session_minutes
from plateset.training.volume import UNTRAINED, MuscleWeek

VOLUME_KEY = (
    "12 (8): 12 sets, of which 8 direct; without brackets all are direct. An indirect set counts its share. "
    "d: deload week. t: test week. *: promise not kept. days: days a week. most: most sets in one session. Both in "
    "working weeks."
)
LOADS_KEY = "+: in turn with the line above. /: instead of the line above. The load is that of the heaviest set"


def day_words(days: tuple[int, ...], *, by_weekday: bool) -> str:
    """'mon, fri', or 'day 1, day 5' where the author counts days."""
    return ", ".join(WEEKDAYS[day - 1] if by_weekday else f"day {day}" for day in days)


def span_words(low: int | Decimal, high: int | Decimal) -> str:
    """'10-14', or one number where both are the same."""
    least, most = plain(Decimal(low)), plain(Decimal(high))
    return least if low == high else f"{least}-{most}"


# -- weekly sets --------------------------------------------------------------------------------------


def volume_table(proof: Proof, width: int) -> Iterator[Text]:
    """Muscles x weeks; neighbouring weeks that are equal share a column."""
    promised = {str(muscle): span for muscle, span in proof.plan.program.weekly_sets.items()}
    muscles = sorted({muscle for week in proof.volume.values() for muscle in week} | set(promised))
    rows = [*promised, *(muscle for muscle in muscles if muscle not in promised)]
    columns = [
        Column("Weekly sets", tuple(rows)),
        Column("promised", tuple(span_words(*promised[row]) if row in promised else "" for row in rows)),
        *(_week_column(proof, weeks, rows) for weeks in equal_weeks(proof)),
        Column("days", tuple(str(_days(proof, row)) for row in rows), "right"),
        Column("most", tuple(plain(_most_in_a_session(proof, row)) for row in rows), "right"),
    ]
    return table(columns, width, pinned=2)


def equal_weeks(proof: Proof) -> list[list[Week]]:
    """The weeks, neighbours with the same sets for every muscle together."""
    groups: list[list[Week]] = []
    for week in proof.plan.weeks:
        if groups and _alike(proof, groups[-1][0], week):
            groups[-1].append(week)
        else:
            groups.append([week])
    return groups


def _alike(proof: Proof, one: Week, other: Week) -> bool:
    first, second = (
        {muscle: (found.fractional, found.most, found.direct) for muscle, found in proof.volume[week.number].items()}
        for week in (one, other)
    )
    return (one.deload, one.test) == (other.deload, other.test) and first == second


def _week_column(proof: Proof, weeks: list[Week], rows: list[str]) -> Column:
    """A column whose main figures stand below each other, the direct sets in brackets after them."""
    week = weeks[0]
    head = span_words(week.number, weeks[-1].number) + ("d" if week.deload else "t" if week.test else "")
    found = [proof.volume[week.number].get(row) for row in rows]
    well_kept = [not week.working or kept(proof, row, each) for row, each in zip(rows, found, strict=True)]
    main = [span_words(each.fractional, each.most) if each else "0" for each in found]
    starred = [text + ("" if well else "*") for text, well in zip(main, well_kept, strict=True)]
    direct = [f" ({plain(each.direct)})" if each and each.direct != each.fractional else "" for each in found]
    wide, tail = max(map(len, starred)), max(map(len, direct))
    cells = (
        Text(text.rjust(wide) + more.ljust(tail), style="" if well else "bold red")
        for text, more, well in zip(starred, direct, well_kept, strict=True)
    )
    return Column(head.rjust(wide), tuple(cells))


def kept(proof: Proof, muscle: str, found: MuscleWeek | None) -> bool:
    """Whether a working week keeps what is promised for a muscle, whatever its reader chooses."""
    promised = {str(name): span for name, span in proof.plan.program.weekly_sets.items()}.get(muscle)
    found = found or UNTRAINED
    return promised is None or (promised[0] <= found.fractional and found.most <= promised[1])


def working_weeks(proof: Proof) -> list[Week]:
    """The weeks that are neither deload nor test; all of them where there is no other."""
    return [week for week in proof.plan.weeks if week.working] or list(proof.plan.weeks)


def _days(proof: Proof, muscle: str) -> int:
    found = (proof.volume[week.number].get(muscle) for week in working_weeks(proof))
    return max((len(each.days) for each in found if each), default=0)


def _most_in_a_session(proof: Proof, muscle: str) -> Decimal:
    weeks = (proof.volume[week.number].get(muscle, UNTRAINED) for week in working_weeks(proof))
    return max((week.most_in_session for week in weeks), default=Decimal(0))


# -- sessions -----------------------------------------------------------------------------------------


def session_table(proof: Proof, width: int) -> Iterator[Text]:
    """Each session with its minutes over the working weeks, its limit, and its lines past failure."""
    working = working_weeks(proof)
    sessions = [[week.sessions[place] for week in working] for place in range(len(working[0].sessions))]
    minutes = [[session_minutes(each) for each in same] for same in sessions]
    limits = [same[0].within for same in sessions]
    columns = [
        Column("Session", tuple(same[0].title for same in sessions)),
        Column("day", tuple(day_words((same[0].day,), by_weekday=proof.by_weekday) for same in sessions)),
        Column("minutes", tuple(span_words(min(each), max(each)) for each in minutes), "right"),
        Column("limit", tuple(str(limit // 60) if limit else "" for limit in limits), "right"),
        Column("past failure", tuple(str(max(map(past_failure, same))) for same in sessions), "right"),
    ]
    return table(columns, width)


def past_failure(session: Session) -> int:
    """How many of a session's lines go past failure."""
    return sum(any(work.past_failure for work in lift.sets) for lift in session.lifts)


# -- loads --------------------------------------------------------------------------------------------


def load_table(proof: Proof, width: int) -> Iterator[Text]:
    """Each line's sets, repetitions and load in the first and in the last working week."""
    found = courses(proof.plan)
    first, last = found[0].lines[0].first.week, found[0].lines[0].last.week
    rows = [row for course in found for row in _rows(course, proof)]
    columns = [Column("Loads", tuple(row[0] for row in rows)), *_stand_columns(rows, 1, first)]
    if last != first:
        columns += _stand_columns(rows, 3, last)
    return table(columns, width)


Row = tuple[str | Text, str, str, str, str]


def _rows(course: SessionCourse, proof: Proof) -> Iterator[Row]:
    days = day_words(course.days, by_weekday=proof.by_weekday)
    yield Text(f"{course.title} ({days})", style="italic"), "", "", "", ""
    for line in course.lines:
        yield _named(line), *_stood(line.first, proof), *_stood(line.last, proof)


def _named(line: LineCourse) -> str:
    sign = " " if not line.place else "/" if line.kind == "pick-one" else "+"
    return f"{sign} {line.exercise}"


def _stood(stand: Stand, proof: Proof) -> tuple[str, str]:
    return f"{span_words(stand.least_sets, stand.sets)} x {reps_words(stand)}", load_text(stand.load, proof.plan.unit)


def reps_words(stand: Stand) -> str:
    """'8-12', '30 s' for a hold, or 'open' for as many as possible."""
    if stand.hold is not None:
        return time_text(stand.hold)
    if stand.reps is None or stand.reps.open:
        return "open"
    return span_words(stand.reps.low, stand.reps.high)


def _stand_columns(rows: list[Row], place: int, week: int) -> list[Column]:
    sets = tuple(str(row[place]) for row in rows)
    loads = tuple(str(row[place + 1]) for row in rows)
    return [Column(f"week {week}", sets), Column("load", loads, "right")]


def loads_key(proof: Proof) -> str:
    """What the signs of the table of loads mean, as far as they are used."""
    stands = [stand for course in courses(proof.plan) for line in course.lines for stand in (line.first, line.last)]
    opened = any(reps_words(stand) == "open" for stand in stands)
    return LOADS_KEY + ("; open: as many repetitions as possible." if opened else ".")

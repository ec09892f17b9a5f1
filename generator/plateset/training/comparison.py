"""Two versions of a program side by side: what became of its promises, volume, minutes, lines and loads.

Lines are matched by session and exercise (the first squat of a session with the first, the second with the second);
what a line prescribes is compared as it was understood, and told as the author wrote it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Literal

from plateset.manuscript.schema import GroupLine, LiftLine, Program
from plateset.training.byweek import in_week
from plateset.training.expand import group_parts
from plateset.training.load_course import LineCourse, Stand, courses
from plateset.training.plan import Plan
from plateset.training.time import session_minutes
from plateset.training.volume import UNTRAINED, MuscleWeek

NOT_GIVEN = "not given"
"""What stands for a value that one version leaves out."""

Span = tuple[Decimal, Decimal]
"""The least and the most over the working weeks."""


@dataclass(frozen=True)
class Version:
    """One version of a program: its plan and volume, and the file's data as the author wrote it."""

    plan: Plan
    volume: Mapping[int, Mapping[str, MuscleWeek]]
    written: Mapping[str, Any]


@dataclass(frozen=True)
class Change:
    """One thing that was and now is otherwise, in the author's words."""

    what: str
    before: str
    after: str


@dataclass(frozen=True)
class VolumeChange:
    """A muscle's weekly sets (fractional) over the working weeks, before and after."""

    muscle: str
    before: Span
    after: Span


@dataclass(frozen=True)
class MinutesChange:
    """A session's minutes over the working weeks; None where there was or is no such session."""

    session: str
    before: tuple[int, int] | None
    after: tuple[int, int] | None


@dataclass(frozen=True)
class LineChange:
    """A line that is new, gone, or prescribes something else now; ``changes`` are empty but for the last."""

    session: str
    exercise: str
    kind: Literal["added", "gone", "changed"]
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True)
class LoadChange:
    """A line's load in its first and last working week, before and after; its sets and repetitions come along."""

    session: str
    exercise: str
    before: tuple[Stand, Stand]
    after: tuple[Stand, Stand]


@dataclass(frozen=True)
class Comparison:
    """All that changed from one version of a program to another."""

    settings: tuple[Change, ...]
    promises: tuple[Change, ...]
    volume: tuple[VolumeChange, ...]
    minutes: tuple[MinutesChange, ...]
    lines: tuple[LineChange, ...]
    loads: tuple[LoadChange, ...]
    prose: tuple[str, ...]

    @property
    def is_empty(self) -> bool:
        """Whether nothing changed."""
        parts = (self.settings, self.promises, self.volume, self.minutes, self.lines, self.loads, self.prose)
        return not any(parts)


def compare(before: Version, after: Version) -> Comparison:
    """What changed from ``before`` to ``after``."""
    return Comparison(
        settings=tuple(_settings(before, after)),
        promises=tuple(_promises(before.plan.program, after.plan.program)),
        volume=tuple(_volume(before, after)),
        minutes=tuple(_minutes(before.plan, after.plan)),
        lines=tuple(_lines(before, after)),
        loads=tuple(_loads(before.plan, after.plan)),
        prose=tuple(_prose(before.plan.program, after.plan.program)),
    )


# -- the program as a whole ---------------------------------------------------------------------------

_PROSE = ("summary", "text", "suits", "not_for", "cautions")
_TOLD_ELSEWHERE = (*_PROSE, "weekly_sets", "sessions")


def _settings(before: Version, after: Version) -> Iterator[Change]:
    for name, field in Program.model_fields.items():
        was, now = getattr(before.plan.program, name), getattr(after.plan.program, name)
        if name not in _TOLD_ELSEWHERE and was != now:
            key = field.alias or name
            yield from _written_changes(key, before.written.get(key), after.written.get(key))
    sessions = before.plan.program.sessions, after.plan.program.sessions
    for session in (name for name in sessions[1] if name in sessions[0]):
        limits = sessions[0][session].within, sessions[1][session].within
        if limits[0] != limits[1]:
            yield Change(f"within of {session}", *map(_time_words, limits))


def _written_changes(key: str, was: Any, now: Any) -> Iterator[Change]:
    """Where both are mappings, only those of their entries that differ."""
    if isinstance(was, dict) and isinstance(now, dict):
        for inner in _in_order(was, now):
            if was.get(inner) != now.get(inner):
                yield from _written_changes(f"{key}: {inner}", was.get(inner), now.get(inner))
    else:
        yield Change(key, written_words(was), written_words(now))


def _time_words(seconds: int | None) -> str:
    return NOT_GIVEN if seconds is None else f"{seconds // 60} min"


def _prose(before: Program, after: Program) -> Iterator[str]:
    for name in _PROSE:
        if getattr(before, name) != getattr(after, name):
            yield Program.model_fields[name].alias or name


def _promises(before: Program, after: Program) -> Iterator[Change]:
    was, now = ({str(muscle): span for muscle, span in program.weekly_sets.items()} for program in (before, after))
    for muscle in _in_order(was, now):
        if was.get(muscle) != now.get(muscle):
            yield Change(muscle, _span_words(was.get(muscle)), _span_words(now.get(muscle)))


def _in_order(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[str]:
    """The names of both, those of ``after`` first."""
    return list(dict.fromkeys([*after, *before]))


def _span_words(span: tuple[int, int] | None) -> str:
    if span is None:
        return NOT_GIVEN
    return str(span[0]) if span[0] == span[1] else f"{span[0]}-{span[1]}"


# -- volume and minutes -------------------------------------------------------------------------------


def _working(plan: Plan) -> list[int]:
    return [week.number for week in plan.weeks if week.working] or [week.number for week in plan.weeks]


def _volume(before: Version, after: Version) -> Iterator[VolumeChange]:
    muscles = {muscle for side in (before, after) for week in side.volume.values() for muscle in week}
    for muscle in sorted(muscles):
        was, now = (_span(side, muscle) for side in (before, after))
        if was != now:
            yield VolumeChange(muscle, was, now)


def _span(side: Version, muscle: str) -> Span:
    """From the least a reader may do to the most, over the working weeks."""
    weeks = [side.volume[week].get(muscle, UNTRAINED) for week in _working(side.plan)]
    return min(found.fractional for found in weeks), max(found.most for found in weeks)


def _minutes(before: Plan, after: Plan) -> Iterator[MinutesChange]:
    was, now = _session_minutes(before), _session_minutes(after)
    for session in _in_order(was, now):
        if was.get(session) != now.get(session):
            yield MinutesChange(session, was.get(session), now.get(session))


def _session_minutes(plan: Plan) -> dict[str, tuple[int, int]]:
    working = set(_working(plan))
    minutes: dict[str, list[int]] = {}
    for week in plan.weeks:
        for session in week.sessions if week.number in working else ():
            minutes.setdefault(session.name, []).append(session_minutes(session))
    return {name: (min(found), max(found)) for name, found in minutes.items()}


# -- lines --------------------------------------------------------------------------------------------

_Key = tuple[str, str, int]
"""A line: its session, its exercise, and which of that exercise in the session it is."""


@dataclass(frozen=True)
class _Written:
    """A lift as understood and as written, with the group it stands in."""

    lift: LiftLine
    words: Mapping[str, Any]
    group: GroupLine | None
    group_words: Mapping[str, Any]

    @property
    def company(self) -> tuple[str, ...]:
        """The group's kind and the exercises in it; nothing for a line of its own."""
        if self.group is None:
            return ()
        kind, parts = group_parts(self.group)
        return (kind, *(part.exercise for part in parts))


def _lines(before: Version, after: Version) -> Iterator[LineChange]:
    was, now = _written_lines(before), _written_lines(after)
    sessions = _in_order(before.plan.program.sessions, after.plan.program.sessions)
    for key in sorted({**now, **was}, key=lambda key: sessions.index(key[0])):
        session, exercise, _ = key
        if key not in was:
            yield LineChange(session, exercise, "added")
        elif key not in now:
            yield LineChange(session, exercise, "gone")
        elif changes := tuple(_prescriptions(was[key], now[key], after.plan.program.weeks)):
            yield LineChange(session, exercise, "changed", changes)


def _written_lines(side: Version) -> dict[_Key, _Written]:
    found: dict[_Key, _Written] = {}
    counts: Counter[tuple[str, str]] = Counter()
    for name, session in side.plan.program.sessions.items():
        written = side.written["sessions"][name]
        lines = written["lines"] if isinstance(written, dict) else written
        for line, words in zip(session.lines, lines, strict=True):
            for each in _parts(line, words):
                counts[name, each.lift.exercise] += 1
                found[name, each.lift.exercise, counts[name, each.lift.exercise]] = each
    return found


def _parts(line: LiftLine | GroupLine, words: Mapping[str, Any]) -> Iterator[_Written]:
    if isinstance(line, LiftLine):
        yield _Written(line, words, None, {})
        return
    _, parts = group_parts(line)
    inside = next(value for value in words.values() if isinstance(value, list))
    for lift, own in zip(parts, inside, strict=True):
        yield _Written(lift, own, line, words)


def _prescriptions(was: _Written, now: _Written, weeks: int) -> Iterator[Change]:
    if was.company != now.company:
        yield Change("done", _company_words(was.company), _company_words(now.company))
    for name, field in LiftLine.model_fields.items():
        if not _same(getattr(was.lift, name), getattr(now.lift, name), weeks):
            key = field.alias or name
            yield Change(key, written_words(was.words.get(key)), written_words(now.words.get(key)))
    if was.group and now.group:
        for key in ("rest", "between"):
            if getattr(was.group, key) != getattr(now.group, key):
                words = written_words(was.group_words.get(key)), written_words(now.group_words.get(key))
                yield Change(f"{key} of the {now.company[0]}", *words)


def _same(was: Any, now: Any, weeks: int) -> bool:
    """Whether two values of a line mean the same; those that change by week, whether they do in every week."""
    if isinstance(was, dict) and isinstance(now, dict):
        return all(in_week(was, week) == in_week(now, week) for week in range(1, weeks + 1))
    return bool(was == now)


def _company_words(company: Sequence[str]) -> str:
    return f"{company[0]} of {', '.join(company[1:])}" if company else "by itself"


def written_words(data: Any) -> str:
    """What an author wrote, on one line: 'week 1: 3, week 3: 4', 'barbell, rack', '2 min'."""
    if data is None:
        return NOT_GIVEN
    if isinstance(data, dict):
        return ", ".join(f"{key}: {_inner(value)}" for key, value in data.items())
    if isinstance(data, list):
        return ", ".join(_inner(value) for value in data)
    return " ".join(str(data).split())


def _inner(data: Any) -> str:
    words = written_words(data)
    return f"({words})" if isinstance(data, dict | list) else words


# -- loads --------------------------------------------------------------------------------------------


def _loads(before: Plan, after: Plan) -> Iterator[LoadChange]:
    was, now = _courses(before), _courses(after)
    for key, line in now.items():
        if key in was:
            old, new = (was[key].first, was[key].last), (line.first, line.last)
            if (before.unit, *map(_mass, old)) != (after.unit, *map(_mass, new)):
                yield LoadChange(key[0], key[1], old, new)


def _mass(stand: Stand) -> tuple[str, Decimal | None]:
    return stand.load.kind, stand.load.mass


def _courses(plan: Plan) -> dict[_Key, LineCourse]:
    found: dict[_Key, LineCourse] = {}
    seen: set[str] = set()
    for session in courses(plan):
        if session.name in seen:
            continue  # another day of a session that is done differently there: the first stands for it
        seen.add(session.name)
        counts: Counter[str] = Counter()
        for line in session.lines:
            counts[line.exercise] += 1
            found[session.name, line.exercise, counts[line.exercise]] = line
    return found

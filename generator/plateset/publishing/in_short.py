"""A session in a few lines of plain words, for a calendar, a video's description and a newsletter."""

from __future__ import annotations

from itertools import groupby

from plateset.publishing.views import LiftView, LineView, SessionView, WeekView

EACH_SIDE = " each side"


def session_in_short(session: SessionView) -> tuple[str, ...]:
    """The lines of a session in order; the lifts of a group follow a line that names it."""
    return tuple(text for line in session.lines for text in _line_in_short(line))


def _line_in_short(line: LineView) -> list[str]:
    lifts = [_lift_in_short(lift, alone=not line.kind) for lift in line.lifts]
    return [f"{line.kind}, rest {line.rest} after each round:", *lifts] if line.kind else lifts


def _lift_in_short(lift: LiftView, *, alone: bool) -> str:
    name = f"{lift.letter} {lift.title}" if lift.letter else lift.title
    asked = ", ".join(part for part in (_sets_in_short(lift), lift.effort) if part)
    rest = f"rest {lift.rest}" if alone and lift.rest else ""
    technique = lift.technique.title if lift.technique else ""
    how = ": ".join(part for part in (technique, lift.technique_note) if part)
    return "; ".join(part for part in (f"{name}: {asked}", how, rest) if part)


def _sets_in_short(lift: LiftView) -> str:
    """'3 × 8–12, 60 kg'; sets that differ from one to the next are told one after the other."""
    asked = [(one.reps, one.load) for one in lift.set_views]
    if len(set(asked)) == 1:
        return _amount(len(asked), lift.reps, lift.load, lift.each)
    side = EACH_SIDE if lift.reps.endswith(EACH_SIDE) else ""
    runs = [(reps, load, len(list(same))) for (reps, load), same in groupby(asked)]
    return ", then ".join(_amount(count, reps + side, load, lift.each) for reps, load, count in runs)


def _amount(sets: int, reps: str, load: str, each: str) -> str:
    return ", ".join(part for part in (f"{sets} × {reps}", f"{load} {each}".strip()) if part)


def week_name(week: WeekView) -> str:
    """'Week 3', or 'Week 4, deload'."""
    return f"{week.title}, {week.kind[:1].lower()}{week.kind[1:]}" if week.kind else week.title


def session_name(session: SessionView) -> str:
    """'Monday: Heavy day', or the title alone."""
    return f"{session.day}: {session.title}" if session.day else session.title


def one_line(text: str) -> str:
    """The text without line breaks, doubled spaces and control characters."""
    if text.isprintable():
        return " ".join(text.split())
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())

"""A session in a few lines of plain words, for a calendar, a video's description and a newsletter."""

from __future__ import annotations

from itertools import groupby

from plateset.publishing.views import LiftView, LineView, SessionView, WeekView

EACH_SIDE = " each side"


def session_in_short(session: SessionView) -> tuple[str, ...]:
    """The lines of a session in order; the lifts of a group follow a line that names it."""
    return tuple(text for line in session.lines for text in _line_in_short(line))


def _line_in_short(line: LineView) -> list[str]:
    if not line.kind:
        return [_lift_in_short(lift, alone=True) for lift in line.lifts]
    told = [_lift_in_short(lift, alone=False) for lift in line.lifts]
    # Without letters nothing else would show where a choice ends.
    lifts = [
        text if lift.letter or not place else f"or {text}"
        for place, (lift, text) in enumerate(zip(line.lifts, told, strict=True))
    ]
    return [f"{line.kind}, rest {line.rest}:", *lifts]


def _lift_in_short(lift: LiftView, *, alone: bool) -> str:
    name = f"{lift.letter} {lift.title}" if lift.letter else lift.title
    asked = ", ".join(part for part in (_sets_in_short(lift), lift.effort) if part)
    rest = f"rest {lift.rest}" if alone and lift.rest else ""
    technique = lift.technique.title if lift.technique else ""
    how = ": ".join(part for part in (technique, lift.technique_note) if part)
    warm_up = f"warm-up {lift.warm_up}" if lift.warm_up else ""
    return "; ".join(part for part in (f"{name}: {asked}", how, rest, warm_up) if part)


def _sets_in_short(lift: LiftView) -> str:
    """'3 × 8–12, 60 kg'; sets whose load differs from one to the next are told one after the other."""
    if len({one.load for one in lift.set_views}) == 1:
        return ", ".join(part for part in (lift.scheme, f"{lift.load} {lift.each}".strip()) if part)
    side = EACH_SIDE if lift.reps.endswith(EACH_SIDE) else ""
    asked = [(one.reps + side, f"{one.load} {lift.each}".strip(), one.optional) for one in lift.set_views]
    return ", then ".join(_run(len(list(same)), *what) for what, same in groupby(asked))


def _run(sets: int, reps: str, load: str, optional: bool) -> str:
    at = " at " if load[:1].isdigit() or load.startswith("+") else ", "
    return f"{sets} × {reps}{at}{load}" + (" if you like" if optional else "")


def week_name(week: WeekView) -> str:
    """'Week 3', or 'Week 4, deload'."""
    return f"{week.title}, {week.kind[:1].lower()}{week.kind[1:]}" if week.kind else week.title


def session_name(session: SessionView) -> str:
    """'Monday: Heavy day', or the title alone."""
    return f"{session.day}: {session.title}" if session.day else session.title


def one_line(text: str) -> str:
    """The text without line breaks, doubled spaces and control characters."""
    line = " ".join(text.split())
    if line.isprintable():
        return line
    return " ".join("".join(each if each.isprintable() else " " for each in line).split())

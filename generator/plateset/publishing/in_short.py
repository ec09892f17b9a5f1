"""A session in a few lines of plain words, for a calendar, a video's description and a newsletter."""

from __future__ import annotations

from plateset.publishing.views import LiftView, LineView, SessionView, WeekView
from plateset.publishing.words import listed


def session_in_short(session: SessionView) -> tuple[str, ...]:
    """The lines of a session in order; the lifts of a group follow a line that names it."""
    return tuple(text for line in session.lines for text in _line_in_short(line))


def _line_in_short(line: LineView) -> list[str]:
    lifts = [_lift_in_short(lift, alone=not line.kind) for lift in line.lifts]
    return [f"{_group(line)}, rest {line.rest}:", *lifts] if line.kind else lifts


def _group(line: LineView) -> str:
    """'Superset', or 'Pick one of these' where the lifts have no place in a round."""
    return line.kind if any(lift.letter for lift in line.lifts) else f"{line.kind} of these"


def _lift_in_short(lift: LiftView, *, alone: bool) -> str:
    name = f"{lift.letter} {lift.title}" if lift.letter else lift.title
    listing = ", " in f"{lift.load}{lift.effort}"
    asked = ("; " if listing else ", ").join(part for part in (_sets_in_short(lift), lift.effort) if part)
    warm_up = f"warm-up {lift.warm_up}" if lift.warm_up else ""
    rest = f"rest {lift.rest}" if alone and lift.rest else ""
    technique = lift.technique.title if lift.technique else ""
    how = ": ".join(part for part in (technique, lift.technique_note) if part)
    return "; ".join(part for part in (f"{name}: {asked}", how, warm_up, rest) if part)


def _sets_in_short(lift: LiftView) -> str:
    """'3 × 8–12, 60 kg', '1 × 3 + 3 × 6 with 100 kg, then 85 kg', '2–4 × 10 (sets 3 and 4 if you like), 20 kg'."""
    spare = [str(one.number) for one in lift.set_views if one.optional]
    choice = f" ({'set' if len(spare) == 1 else 'sets'} {listed(spare)} if you like)" if spare else ""
    load = f"{lift.load} {lift.each}".strip()
    joined = " with " if ", " in load else ", "
    return joined.join(part for part in (lift.scheme + choice, load) if part)


def week_name(week: WeekView) -> str:
    """'Week 3', 'Week 4, deload' or 'Week 8, test week'."""
    kind = "test week" if week.kind == "Test" else f"{week.kind[:1].lower()}{week.kind[1:]}"
    return f"{week.title}, {kind}" if kind else week.title


def session_name(session: SessionView) -> str:
    """'Monday: Heavy day', or the title alone."""
    return f"{session.day}: {session.title}" if session.day else session.title


def one_line(text: str) -> str:
    """The text without line breaks, doubled spaces and control characters."""
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())

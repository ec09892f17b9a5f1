"""A session in a few lines of plain words, for a calendar, a video's description and a newsletter."""

from __future__ import annotations

from itertools import groupby

from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import LiftView, LineView, ProgramView, SessionView, WeekView


def session_in_short(session: SessionView, language: Language = ENGLISH) -> tuple[str, ...]:
    """The lines of a session in order; the lifts of a group follow a line that names it."""
    return tuple(text for line in session.lines for text in _line_in_short(line, language))


def _line_in_short(line: LineView, language: Language) -> list[str]:
    if not line.kind:
        return [_lift_in_short(lift, language, alone=True) for lift in line.lifts]
    told = [_lift_in_short(lift, language, alone=False) for lift in line.lifts]
    # Without letters nothing else would show where a choice ends.
    lifts = [
        text if lift.letter or not place else language.say("or %(lift)s") % {"lift": text}
        for place, (lift, text) in enumerate(zip(line.lifts, told, strict=True))
    ]
    return [f"{line.kind}, {_rest(line.rest, language)}:", *lifts]


def _lift_in_short(lift: LiftView, language: Language, *, alone: bool) -> str:
    name = f"{lift.letter} {lift.title}" if lift.letter else lift.title
    asked = ", ".join(part for part in (_sets_in_short(lift, language), lift.effort) if part)
    rest = _rest(lift.rest, language) if alone and lift.rest else ""
    technique = lift.technique.title if lift.technique else ""
    how = ": ".join(part for part in (technique, lift.technique_note) if part)
    warm_up = language.say("warm-up %(steps)s") % {"steps": lift.warm_up} if lift.warm_up else ""
    return "; ".join(part for part in (f"{name}: {asked}", how, rest, warm_up) if part)


def _rest(rest: str, language: Language) -> str:
    return language.say("no rest") if rest == "none" else language.say("rest %(time)s") % {"time": rest}


def _sets_in_short(lift: LiftView, language: Language) -> str:
    """'3 × 8–12, 60 kg'; sets whose load differs from one to the next are told one after the other."""
    if len({one.load for one in lift.set_views}) == 1:
        return ", ".join(part for part in (lift.scheme, f"{lift.load} {lift.each}".strip()) if part)
    one_side = language.say("%(what)s each side")
    before, _, after = one_side.partition("%(what)s")
    sided = one_side if lift.reps.startswith(before) and lift.reps.endswith(after) else "%(what)s"
    asked = [(sided % {"what": one.reps}, f"{one.load} {lift.each}".strip(), one.optional) for one in lift.set_views]
    then = f", {language.say('then')} "
    return then.join(_run(len(list(same)), *what, language) for what, same in groupby(asked))


def _run(sets: int, reps: str, load: str, optional: bool, language: Language) -> str:
    told = f"{sets} × {reps}, {load}"
    if load[:1].isdigit() or load.startswith("+"):
        told = language.say("%(sets)s at %(load)s") % {"sets": f"{sets} × {reps}", "load": load}
    return f"{told} {language.say('if you like')}" if optional else told


def facts_in_short(view: ProgramView, language: Language = ENGLISH) -> list[str]:
    """'Level: Novice', 'Weeks: 8' …"""
    return [f"{language.say(fact.label)}: {language.say(fact.value)}" for fact in view.facts]


def week_name(week: WeekView, language: Language = ENGLISH) -> str:
    """'Week 3', or 'Week 4, deload'."""
    return f"{week.title}, {language.low(week.kind)}" if week.kind else week.title


def session_name(session: SessionView) -> str:
    """'Monday: Heavy day', or the title alone."""
    return f"{session.day}: {session.title}" if session.day else session.title


def one_line(text: str) -> str:
    """The text without line breaks, doubled spaces and control characters."""
    line = " ".join(text.split())
    if line.isprintable():
        return line
    return " ".join("".join(each if each.isprintable() else " " for each in line).split())

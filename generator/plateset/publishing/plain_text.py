"""A program as plain text to paste under a video: its page's address first, short enough for a description box.

What does not fit is left out by whole parts, never cut inside one, and the text says what is missing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial

from plateset.publishing.in_short import facts_in_short, one_line, session_in_short, session_name, week_name
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import ProgramView, SessionView, SiteView, WeekView
from plateset.publishing.words import range_text
from plateset.remembering import Remembered
from plateset.usual_cautions import DRAFT, SHORT

LIMIT = 5000
"""Octets of UTF-8. A common limit of description boxes is 5,000 characters; some count octets, so those are counted."""

ALWAYS = ""
"""Stands for the name of a part that is never left out."""

_ANGLES = str.maketrans({"<": "‹", ">": "›"})
"""Some description boxes refuse angle brackets."""


@dataclass(frozen=True)
class _Part:
    """A part of the text, and its name for when it is left out; those of a lower ``rank`` are kept first."""

    name: str
    text: str
    rank: int = 9


def plain_text(view: ProgramView, site: SiteView, language: Language = ENGLISH) -> bytes:
    """The text, at most :data:`LIMIT` octets, with line feeds."""
    parts = _parts(view, site, language)
    met: Remembered[str] = Remembered()
    weeks = [_Part(str(week.number), _week(week, met, language)) for week in view.weeks]
    room = LIMIT - _size(_left_out([part.name for part in parts], weeks, language))
    kept = _fitting(parts, room)
    kept_weeks = _first_fitting(weeks, room - sum(_size(part.text) for part in kept))
    missing = [part.name for part in parts if part not in kept]
    told = [part.text for part in (*kept, *kept_weeks)]
    ending = _left_out(missing, weeks[len(kept_weeks) :], language)
    return ("\n\n".join([*told, ending] if ending else told) + "\n").encode()


def _parts(view: ProgramView, site: SiteView, language: Language) -> list[_Part]:
    """The parts before the weeks, in the order they are read."""
    say = language.say
    usual = [say(caution) for caution in SHORT]
    own = [text for text in view.short_cautions if text not in usual]
    edition = say("Edition %(number)s") % {"number": view.edition}
    found = [
        _Part(say("the address"), _said([view.address]), 1),
        _Part(ALWAYS, _said([*_draft(site, language), view.title, f"{edition}, {view.date}"]), 0),
        _Part(say("the summary"), _said([view.summary]), 3),
        _Part(say("the facts"), _said(facts_in_short(view, language)), 4),
        _Part(say("for whom"), _said([say("For whom"), *_listed(view.suits)]), 5),
        _Part(say("for whom not"), _said([say("Not for"), *_listed(view.not_for)]), 5),
        _Part(ALWAYS, _said([say("Before you lift"), *_listed(usual)]), 0),
        _Part(say("the cautions of this program"), _said([say("In this program"), *_listed(own)]) if own else "", 2),
        _Part(say("whose loads these are"), _said([view.lifter_note]), 5),
    ]
    return [part for part in found if part.text]


def _fitting(parts: list[_Part], room: int) -> list[_Part]:
    """The parts that fit, chosen by rank and told in their order."""
    chosen = []
    for part in sorted(parts, key=lambda each: each.rank):
        if part.rank == 0 or _size(part.text) <= room:
            chosen.append(part)
            room -= _size(part.text)
    return [part for part in parts if part in chosen]


def _first_fitting(weeks: list[_Part], room: int) -> list[_Part]:
    """The weeks from the first on for which there is room."""
    kept = []
    for week in weeks:
        room -= _size(week.text)
        if room < 0:
            break
        kept.append(week)
    return kept


def _size(text: str) -> int:
    return len(text.encode()) + 2


def _left_out(names: list[str], weeks: list[_Part], language: Language) -> str:
    """'Left out here for want of room: weeks 3–6. The page has all of it.'; nothing where nothing is missing."""
    missing = [name for name in names if name]
    if weeks:
        numbers = range_text(int(weeks[0].name), int(weeks[-1].name))
        missing.append(language.count("week %(numbers)s", "weeks %(numbers)s", len(weeks)) % {"numbers": numbers})
    if not missing:
        return ""
    return language.say("Left out here for want of room: %(parts)s. The page of the program has all of it.") % {
        "parts": ", ".join(missing)
    }


def _week(week: WeekView, met: Remembered[str], language: Language) -> str:
    sessions = (met.get((session,), partial(_session, session, language)) for session in week.sessions)
    return "\n".join((_said([week_name(week, language).upper()]), *sessions))


def _session(session: SessionView, language: Language) -> str:
    """The lines of a session, which are those of any week that shares it."""
    return _said([session_name(session), *(f"– {line}" for line in session_in_short(session, language))])


def _listed(items: Iterable[str]) -> list[str]:
    return [f"– {item}" for item in items]


def _draft(site: SiteView, language: Language) -> list[str]:
    return [language.say(DRAFT)] if site.draft else []


def _said(lines: Iterable[str]) -> str:
    return "\n".join(one_line(line) for line in lines).translate(_ANGLES)

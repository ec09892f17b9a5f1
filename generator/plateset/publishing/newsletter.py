"""A program as Markdown to paste into a newsletter: headings, lists and no tables, since many editors lack them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import partial

from plateset.publishing.in_short import facts_in_short, one_line, session_in_short, session_name, week_name
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import ProgramView, SessionView, SiteView
from plateset.remembering import Remembered
from plateset.usual_cautions import DRAFT

_MARKUP = re.compile(r"[\\`*_{}\[\]<>#|~&$]")
_AT_THE_START = re.compile(r"^(?:[-+=:!]|\d+(?=[.)]))")


def escaped(text: str) -> str:
    """A text as Markdown that shows just that text, on one line."""
    flat = _MARKUP.sub(r"\\\g<0>", one_line(text))
    start = _AT_THE_START.match(flat)
    if start is None:
        return flat
    # A backslash works on punctuation only: before the mark itself, or after the number and before its full stop.
    return f"{start[0]}\\{flat[start.end() :]}" if start[0].isdigit() else f"\\{flat}"


def newsletter(view: ProgramView, site: SiteView, language: Language = ENGLISH) -> bytes:
    """The whole program in CommonMark, with line feeds."""
    return ("\n\n".join(_blocks(view, site, language)) + "\n").encode()


def _blocks(view: ProgramView, site: SiteView, language: Language) -> Iterator[str]:
    yield f"# {escaped(view.title)}"
    if site.draft:
        yield f"**{escaped(language.say(DRAFT))}**"
    yield escaped(view.summary)
    if view.address:
        yield f"{escaped(language.say('The whole program, with sheets to print:'))} <{view.address}>"
    yield _bullets(facts_in_short(view, language))
    yield from _part(language.say("For whom"), view.suits)
    yield from _part(language.say("Not for"), view.not_for)
    yield from _part(language.say("Before you lift"), view.short_cautions)
    if view.lifter_note:
        yield escaped(view.lifter_note)
    met: Remembered[list[str]] = Remembered()
    for week in view.weeks:
        yield f"## {escaped(week_name(week, language))}"
        for session in week.sessions:
            yield from met.get((session,), partial(_session, session, language))
    yield escaped(_ending(view, language))


def _ending(view: ProgramView, language: Language) -> str:
    by = language.say("By %(name)s") % {"name": view.byline}
    edition = language.say("Edition %(number)s") % {"number": view.edition}
    licence = f" {language.say('Licence: %(name)s') % {'name': view.licence}}." if view.licence else ""
    return f"{by}, {view.date}. {edition}.{licence}"


def _part(heading: str, items: Iterable[str]) -> Iterator[str]:
    yield f"## {escaped(heading)}"
    yield _bullets(items)


def _session(session: SessionView, language: Language) -> list[str]:
    """The blocks of a session, which are those of any week that shares it."""
    remark = [escaped(session.remark)] if session.remark else []
    return [f"### {escaped(session_name(session))}", *remark, _bullets(session_in_short(session, language))]


def _bullets(items: Iterable[str]) -> str:
    return "\n".join(f"- {escaped(item)}" for item in items)

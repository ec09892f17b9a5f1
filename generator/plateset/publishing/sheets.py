"""Sheets, set on paper by the theme's ``paper/sheet.typ``: a week, a whole program, its blank log, its progress."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, pairwise
from typing import Any

from plateset.manuscript.vocabulary import Unit
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.qr_code import qr_modules
from plateset.publishing.typesetting import Order, Paper, Setting
from plateset.publishing.views import (
    Fact,
    LiftView,
    LineView,
    PieceView,
    ProgramView,
    SessionView,
    SetView,
    SiteView,
    WeekView,
)
from plateset.publishing.words import kept_together
from plateset.training.progression import LOADS_PROJECTED, REPS_PROJECTED

Data = dict[str, Any]

BOXES_IN_A_ROW = 5
WEEKS_IN_A_TABLE = 10
MOST_LOADS = 3
"""Lines for a load of one's own that stand beside each other."""
GROUP_KEPT_WHOLE = 130
"""Millimetres of paper up to which a group of lifts is not parted by the end of a page."""
TAPE: dict[Unit, str] = {"kg": "cm", "lb": "in"}
MEASURES = ("Waist", "Hips", "Chest", "Upper arm", "Thigh")
"""What a tape is put round (common practice, no source)."""


def week_order(
    program: ProgramView, week: WeekView, site: SiteView, setting: Setting, language: Language = ENGLISH
) -> Order:
    """One week of a program, in the language of its views."""
    data = _document(program, site, setting.paper, (week,), language)
    data["document_title"] = f"{program.title}, {language.low(week.title)}"
    return Order(data, setting, f"{program.title!r}, {language.low(week.title)}")


def program_order(program: ProgramView, site: SiteView, setting: Setting, language: Language = ENGLISH) -> Order:
    """A title page and every week of a program."""
    data = _document(program, site, setting.paper, program.weeks, language)
    data["front"] = _front(program, language)
    return Order(data, setting, f"{program.title!r}, all weeks")


def log_order(
    program: ProgramView, blank: Sequence[WeekView], site: SiteView, setting: Setting, language: Language = ENGLISH
) -> Order:
    """Every week with its loads left empty; ``blank`` is the weeks without loads (see ``blank_log``)."""
    data = _document(program, site, setting.paper, blank, language)
    title = f"{program.title}, {language.say('blank log')}"
    data |= {"document_title": title, "lifter": [], "lifter_note": "", "blank": True}
    return Order(data, setting, f"{program.title!r}, blank log")


def progress_order(
    program: ProgramView, unit: Unit, site: SiteView, setting: Setting, language: Language = ENGLISH
) -> Order:
    """A row a week for body weight in ``unit``, tape measures, best sets and how it felt."""
    data = _document(program, site, setting.paper, (), language)
    data["document_title"] = f"{program.title}, {language.low(language.say('Progress record'))}"
    data["progress"] = {
        "mass": unit,
        "length": TAPE[unit],
        "measures": [language.say(each) for each in MEASURES],
        "weeks": [{"number": str(week.number), "kind": language.low(week.kind)} for week in program.weeks],
    }
    return Order(data, setting, f"{program.title!r}, progress record")


def week_sheet(
    program: ProgramView, week: WeekView, site: SiteView, setting: Setting, language: Language = ENGLISH
) -> bytes:
    """One week of a program as a PDF. Equal input gives equal bytes."""
    return week_order(program, week, site, setting, language).set()


def program_sheets(program: ProgramView, site: SiteView, setting: Setting, language: Language = ENGLISH) -> bytes:
    """A title page and every week of a program as one PDF."""
    return program_order(program, site, setting, language).set()


def log_sheets(
    program: ProgramView, blank: Sequence[WeekView], site: SiteView, setting: Setting, language: Language = ENGLISH
) -> bytes:
    """Every week with its loads left empty, as one PDF."""
    return log_order(program, blank, site, setting, language).set()


def progress_sheet(
    program: ProgramView, unit: Unit, site: SiteView, setting: Setting, language: Language = ENGLISH
) -> bytes:
    """A row a week to fill in, as one PDF."""
    return progress_order(program, unit, site, setting, language).set()


# ------------------------------------------------------------------------------------- what the sheet is given


def _document(
    program: ProgramView, site: SiteView, paper: Paper, weeks: Sequence[WeekView], language: Language
) -> Data:
    tag, _, rest = site.language.partition("-")
    region = next((part for part in rest.split("-") if len(part) == 2 and part.isalpha()), None)
    return {
        "paper": paper,
        "lang": tag,
        "region": region and region.upper(),
        "document_title": program.title,
        "author": site.author,
        "about": _about(program, site, language),
        "lifter": _facts(program.lifter, language),
        "lifter_note": program.lifter_note,
        "front": None,
        "blank": False,
        "progress": None,
        "legend": " ".join(filter(None, (program.bars if weeks else "", *_legend(weeks, language)))),
        **_weeks(weeks, language),
    }


def _facts(facts: Sequence[Fact], language: Language) -> list[Data]:
    return [{"label": language.say(fact.label), "value": language.say(fact.value)} for fact in facts]


def _legend(weeks: Sequence[WeekView], language: Language) -> Iterator[str]:
    """What needs explaining of what the weeks show."""
    say = language.say
    lifts = [lift for week in weeks for day in week.sessions for line in day.lines for lift in line.lifts]
    if any("RIR" in lift.effort for lift in lifts):
        yield say("RIR: repetitions left in reserve at the end of a set.")
    tempos = {lift.tempo for lift in lifts if lift.tempo}
    if tempos:
        fast = any("X" in tempo for tempo in tempos)
        yield say(
            "Tempo: lowering, pause, lifting, pause, in seconds; X is as fast as you can."
            if fast
            else "Tempo: lowering, pause, lifting, pause, in seconds."
        )
    if any(lift.rule.endswith(say(REPS_PROJECTED.phrase)) for lift in lifts):
        yield say("Where a range stands in brackets, the range is asked for; the number before it is a projection.")
    if any(lift.rule.endswith(say(LOADS_PROJECTED.phrase)) for lift in lifts):
        yield say("Loads that rise with what you do are a projection.")


def _about(program: ProgramView, site: SiteView, language: Language) -> Data:
    """What every page of every sheet says."""
    edition = language.say("Edition %(number)s") % {"number": program.edition}
    return {
        "site": site.title,
        "title": program.title,
        "edition": f"{edition}, {program.date}",
        "draft": site.draft,
        "short_cautions": program.short_cautions,
        "address": program.address.partition("//")[2],
        "code": qr_modules(program.address) if program.address else (),
    }


def _front(program: ProgramView, language: Language) -> Data:
    return {
        "summary": program.summary,
        "byline": program.byline,
        "facts": _facts(program.facts, language),
        "suits": program.suits,
        "not_for": program.not_for,
        "cautions": [caution.text for caution in program.cautions if caution.scope != "part"],
        "cautions_about": _cautions_about(program),
        "volume": _volume(program, language),
        "missed": any(cell.kept == "no" for row in program.volume for cell in row.cells),
    }


def _cautions_about(program: ProgramView) -> list[Data]:
    """The cautions of each exercise and technique, run together."""
    named = [caution for caution in program.cautions if caution.scope == "part"]
    sources = dict.fromkeys(caution.source for caution in named)
    return [
        {"source": source, "text": " ".join(each.text for each in named if each.source == source)} for source in sources
    ]


def _volume(program: ProgramView, language: Language) -> list[Data]:
    """The volume table, in as many tables as its weeks need."""
    tables = []
    for start in range(0, len(program.volume_weeks) if program.volume else 0, WEEKS_IN_A_TABLE):
        part = slice(start, start + WEEKS_IN_A_TABLE)
        rows = [
            {
                "name": (language.say(row.muscle), row.promised, row.days),
                "sets": [(cell.sets, cell.kept == "no") for cell in row.cells[part]],
            }
            for row in program.volume
        ]
        weeks = [{"number": number, "kind": language.say(kind)} for number, kind in program.volume_weeks[part]]
        tables.append({"weeks": weeks, "rows": rows})
    return tables


class _Lifts:
    """The lifts of a document, each written once: weeks that are alike share theirs."""

    def __init__(self, language: Language) -> None:
        self.language = language
        self.written: list[Data] = []
        self._places: dict[int, int] = {}

    def place(self, lift: LiftView) -> int:
        """Where it stands among those written; it has to live as long as these do."""
        place = self._places.setdefault(id(lift), len(self.written))
        if place == len(self.written):
            self.written.append(_lift(lift, self.language))
        return place


def _weeks(weeks: Sequence[WeekView], language: Language) -> Data:
    lifts = _Lifts(language)
    return {"weeks": [_week(week, lifts) for week in weeks], "lifts": lifts.written}


def _week(week: WeekView, lifts: _Lifts) -> Data:
    name = f"{week.title}, {lifts.language.low(week.kind)}" if week.kind else week.title
    return {"name": name, "sessions": [_session(session, lifts) for session in week.sessions]}


def _session(session: SessionView, lifts: _Lifts) -> Data:
    return {
        "heading": f"{session.day}: {session.title}" if session.day else session.title,
        "minutes": _minutes(session, lifts.language) if session.minutes else "",
        "remark": session.remark,
        "lines": [_line(line, lifts) for line in session.lines],
    }


def _minutes(session: SessionView, language: Language) -> str:
    return language.say("about %(num)s min") % {"num": session.minutes}


def _line(line: LineView, lifts: _Lifts) -> Data:
    places = [lifts.place(lift) for lift in line.lifts]
    height = sum(4 + 12 * len(lifts.written[place]["rows"]) for place in places)
    return {
        "kind": line.kind,
        "rest": line.rest,
        "remark": line.remark,
        "whole": height <= GROUP_KEPT_WHOLE,
        "lifts": places,
    }


def _without_projection(rule: str, language: Language) -> str:
    """What a progression tells the reader to do; that numbers are a projection is said once for all lifts."""
    for projected in (REPS_PROJECTED, LOADS_PROJECTED):
        rule = rule.removesuffix(language.say(projected.phrase))
    return rule.rstrip()


def _lift(lift: LiftView, language: Language) -> Data:
    return {
        "letter": lift.letter,
        "name": lift.title,
        "technique": lift.technique.title if lift.technique else "",
        "technique_note": lift.technique_note,
        "warm_up": f"{language.say('Warm-up:')} {kept_together(lift.warm_up)}" if lift.warm_up else "",
        "rule": kept_together(_without_projection(lift.rule, language)),
        "remark": lift.remark,
        "sets": lift.scheme,
        "load": lift.load,
        "loads": _loads_to_write(lift),
        "load_each": lift.each,
        "plates": lift.plates,
        "rest": lift.rest,
        "effort": lift.effort,
        "tempo": lift.tempo,
        "rows": _box_rows(lift, language),
    }


def _loads_to_write(lift: LiftView) -> int:
    """How many loads of their own a reader may have to write: one for each that differs from the set before."""
    loads = [(one.load, one.plates) for one in lift.set_views]
    return min(MOST_LOADS, sum(one != before for one, before in pairwise(loads)) + 1)


def _box_rows(lift: LiftView, language: Language) -> list[list[Data]]:
    """The blanks of a lift in rows; the pieces of a set stay together where a row can hold them."""
    rows: list[list[Data]] = []
    plates = lift.plates
    for each in lift.set_views:
        boxes = _boxes(each, language)
        for box in boxes:  # the plates are said where they change
            box["plates"], plates = ("" if box["plates"] == plates else box["plates"]), box["plates"]
        for start in range(0, len(boxes), BOXES_IN_A_ROW):
            part = boxes[start : start + BOXES_IN_A_ROW]
            if not rows or len(rows[-1]) + len(part) > BOXES_IN_A_ROW:
                rows.append([])
            rows[-1].extend(part)
    if _said_of_all(lift):
        for box in chain.from_iterable(rows):
            box["plan"] = box["plates"] = ""
    return rows


def _said_of_all(lift: LiftView) -> bool:
    """Whether what a set's box would say above it is what the lift has said of all its sets."""
    one = lift.set_views[0]
    return lift.uniform and (one.load, one.plates) == (lift.load, lift.plates) and one.reps in lift.reps


def _boxes(each: SetView, language: Language) -> list[Data]:
    pieces = (PieceView("", each.load, each.plates, each.reps, ""), *each.pieces)
    boxes = []
    for index in range(each.boxes):
        piece = pieces[min(index, len(pieces) - 1)]
        how = language.say("after %(time)s") % {"time": piece.pause} if piece.pause else language.say(piece.role)
        if not index:
            how = ", ".join(filter(None, (language.say("if you like") if each.optional else "", each.how)))
        what = f"{piece.load} ×\u00a0{piece.reps}".strip() if piece.reps else piece.load
        boxes.append(
            {
                "number": "" if index else str(each.number),
                "how": how,
                "plan": kept_together(what),
                "plates": piece.plates,
                "joined": index > 0,
            }
        )
    return boxes

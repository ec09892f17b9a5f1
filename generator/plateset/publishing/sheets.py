"""Sheets, set on paper by the theme's ``paper/sheet.typ``: a week, a whole program, its blank log, its progress."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import chain, pairwise
from typing import Any

from plateset.manuscript.vocabulary import Unit
from plateset.publishing.qr_code import qr_modules
from plateset.publishing.typesetting import Order, Paper, Setting
from plateset.publishing.views import (
    LiftView,
    LineView,
    PieceView,
    ProgramView,
    SessionView,
    SetView,
    SiteView,
    WeekView,
)
from plateset.training.progression import LOADS_PROJECTED, REPS_PROJECTED, rule_alone

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

_KEPT_TOGETHER = re.compile(r"(?<=\d) (?=(?:kg|lb|s|min)\b|%)|(?<=about) (?=\d)")


def week_order(program: ProgramView, week: WeekView, site: SiteView, setting: Setting) -> Order:
    """One week of a program."""
    data = _document(program, site, setting.paper, (week,))
    data["document_title"] = f"{program.title}, {_low(week.title)}"
    return Order(data, setting, f"{program.title!r}, {_low(week.title)}")


def program_order(program: ProgramView, site: SiteView, setting: Setting) -> Order:
    """A title page and every week of a program."""
    data = _document(program, site, setting.paper, program.weeks)
    data["front"] = _front(program)
    return Order(data, setting, f"{program.title!r}, all weeks")


def log_order(program: ProgramView, blank: Sequence[WeekView], site: SiteView, setting: Setting) -> Order:
    """Every week with its loads left empty; ``blank`` is the weeks without loads (see ``blank_log``)."""
    data = _document(program, site, setting.paper, blank)
    data |= {"document_title": f"{program.title}, blank log", "lifter": [], "lifter_note": "", "blank": True}
    return Order(data, setting, f"{program.title!r}, blank log")


def progress_order(program: ProgramView, unit: Unit, site: SiteView, setting: Setting) -> Order:
    """A row a week for body weight in ``unit``, tape measures, best sets and how it felt."""
    data = _document(program, site, setting.paper, ())
    data["document_title"] = f"{program.title}, progress record"
    data["progress"] = {
        "mass": unit,
        "length": TAPE[unit],
        "measures": MEASURES,
        "weeks": [{"number": str(week.number), "kind": _low(week.kind)} for week in program.weeks],
    }
    return Order(data, setting, f"{program.title!r}, progress record")


def week_sheet(program: ProgramView, week: WeekView, site: SiteView, setting: Setting) -> bytes:
    """One week of a program as a PDF. Equal input gives equal bytes."""
    return week_order(program, week, site, setting).set()


def program_sheets(program: ProgramView, site: SiteView, setting: Setting) -> bytes:
    """A title page and every week of a program as one PDF."""
    return program_order(program, site, setting).set()


def log_sheets(program: ProgramView, blank: Sequence[WeekView], site: SiteView, setting: Setting) -> bytes:
    """Every week with its loads left empty, as one PDF."""
    return log_order(program, blank, site, setting).set()


def progress_sheet(program: ProgramView, unit: Unit, site: SiteView, setting: Setting) -> bytes:
    """A row a week to fill in, as one PDF."""
    return progress_order(program, unit, site, setting).set()


def _low(title: str) -> str:
    return title[:1].lower() + title[1:]


# ------------------------------------------------------------------------------------- what the sheet is given


def _document(program: ProgramView, site: SiteView, paper: Paper, weeks: Sequence[WeekView]) -> Data:
    language, _, rest = site.language.partition("-")
    region = next((part for part in rest.split("-") if len(part) == 2 and part.isalpha()), None)
    return {
        "paper": paper,
        "lang": language,
        "region": region and region.upper(),
        "document_title": program.title,
        "author": site.author,
        "about": _about(program, site),
        "lifter": [{"label": fact.label, "value": fact.value} for fact in program.lifter],
        "lifter_note": program.lifter_note,
        "front": None,
        "blank": False,
        "progress": None,
        "legend": " ".join(_legend(weeks)),
        **_weeks(weeks),
    }


def _legend(weeks: Sequence[WeekView]) -> Iterator[str]:
    """What needs explaining of what the weeks show."""
    lifts = [lift for week in weeks for day in week.sessions for line in day.lines for lift in line.lifts]
    if any("RIR" in lift.effort for lift in lifts):
        yield "RIR: repetitions left in reserve at the end of a set."
    tempos = {lift.tempo for lift in lifts if lift.tempo}
    if tempos:
        fast = "; X is as fast as you can" if any("X" in tempo for tempo in tempos) else ""
        yield f"Tempo: lowering, pause, lifting, pause, in seconds{fast}."
    if any(lift.rule.endswith(REPS_PROJECTED) for lift in lifts):
        yield "Where a range stands in brackets, the range is asked for; the number before it is a projection."
    if any(lift.rule.endswith(LOADS_PROJECTED) for lift in lifts):
        yield "Loads that rise with what you do are a projection."


def _about(program: ProgramView, site: SiteView) -> Data:
    """What every page of every sheet says."""
    return {
        "site": site.title,
        "title": program.title,
        "edition": f"Edition {program.edition}, {program.date}",
        "draft": site.draft,
        "short_cautions": program.short_cautions,
        "address": program.address.partition("//")[2],
        "code": qr_modules(program.address) if program.address else (),
    }


def _front(program: ProgramView) -> Data:
    return {
        "summary": program.summary,
        "byline": program.byline,
        "facts": [{"label": fact.label, "value": fact.value} for fact in program.facts],
        "suits": program.suits,
        "not_for": program.not_for,
        "cautions": [caution.text for caution in program.cautions if caution.scope != "part"],
        "cautions_about": _cautions_about(program),
        "volume": _volume(program),
        "missed": any(cell.kept == "no" for row in program.volume for cell in row.cells),
    }


def _cautions_about(program: ProgramView) -> list[Data]:
    """The cautions of each exercise and technique, run together."""
    named = [caution for caution in program.cautions if caution.scope == "part"]
    sources = dict.fromkeys(caution.source for caution in named)
    return [
        {"source": source, "text": " ".join(each.text for each in named if each.source == source)} for source in sources
    ]


def _volume(program: ProgramView) -> list[Data]:
    """The volume table, in as many tables as its weeks need."""
    tables = []
    for start in range(0, len(program.volume_weeks) if program.volume else 0, WEEKS_IN_A_TABLE):
        part = slice(start, start + WEEKS_IN_A_TABLE)
        rows = [
            {
                "name": (row.muscle, row.promised, row.days),
                "sets": [(cell.sets, cell.kept == "no") for cell in row.cells[part]],
            }
            for row in program.volume
        ]
        weeks = [{"number": number, "kind": kind} for number, kind in program.volume_weeks[part]]
        tables.append({"weeks": weeks, "rows": rows})
    return tables


class _Lifts:
    """The lifts of a document, each written once: weeks that are alike share theirs."""

    def __init__(self) -> None:
        self.written: list[Data] = []
        self._places: dict[int, int] = {}

    def place(self, lift: LiftView) -> int:
        """Where it stands among those written; it has to live as long as these do."""
        place = self._places.setdefault(id(lift), len(self.written))
        if place == len(self.written):
            self.written.append(_lift(lift))
        return place


def _weeks(weeks: Sequence[WeekView]) -> Data:
    lifts = _Lifts()
    return {"weeks": [_week(week, lifts) for week in weeks], "lifts": lifts.written}


def _week(week: WeekView, lifts: _Lifts) -> Data:
    name = f"{week.title}, {_low(week.kind)}" if week.kind else week.title
    return {"name": name, "sessions": [_session(session, lifts) for session in week.sessions]}


def _session(session: SessionView, lifts: _Lifts) -> Data:
    return {
        "heading": f"{session.day}: {session.title}" if session.day else session.title,
        "minutes": f"about {session.minutes} min" if session.minutes else "",
        "remark": session.remark,
        "lines": [_line(line, lifts) for line in session.lines],
    }


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


def _lift(lift: LiftView) -> Data:
    return {
        "letter": lift.letter,
        "name": lift.title,
        "technique": lift.technique.title if lift.technique else "",
        "technique_note": lift.technique_note,
        "warm_up": f"Warm-up: {_kept_together(lift.warm_up)}" if lift.warm_up else "",
        "rule": _kept_together(rule_alone(lift.rule)),
        "remark": lift.remark,
        "sets": lift.scheme,
        "load": lift.load,
        "loads": _loads_to_write(lift),
        "load_each": lift.each,
        "plates": lift.plates,
        "rest": lift.rest,
        "effort": lift.effort,
        "tempo": lift.tempo,
        "rows": _box_rows(lift),
    }


def _loads_to_write(lift: LiftView) -> int:
    """How many loads of their own a reader may have to write: one for each that differs from the set before."""
    loads = [(one.load, one.plates) for one in lift.set_views]
    return min(MOST_LOADS, sum(one != before for one, before in pairwise(loads)) + 1)


def _box_rows(lift: LiftView) -> list[list[Data]]:
    """The blanks of a lift in rows; the pieces of a set stay together where a row can hold them."""
    rows: list[list[Data]] = []
    plates = lift.plates
    for each in lift.set_views:
        boxes = _boxes(each)
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


def _boxes(each: SetView) -> list[Data]:
    pieces = (PieceView("", each.load, each.plates, each.reps, ""), *each.pieces)
    boxes = []
    for index in range(each.boxes):
        piece = pieces[min(index, len(pieces) - 1)]
        how = f"after {piece.pause}" if piece.pause else piece.role
        if not index:
            how = ", ".join(filter(None, ("if you like" if each.optional else "", each.how)))
        what = f"{piece.load} ×\u00a0{piece.reps}".strip() if piece.reps else piece.load
        boxes.append(
            {
                "number": "" if index else str(each.number),
                "how": how,
                "plan": _kept_together(what),
                "plates": piece.plates,
                "joined": index > 0,
            }
        )
    return boxes


@lru_cache(maxsize=10_000)  # sets say the same few plans over and over
def _kept_together(what: str) -> str:
    return _KEPT_TOGETHER.sub("\u00a0", what)

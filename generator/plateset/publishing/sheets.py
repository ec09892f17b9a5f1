"""Printable sheets: a week, or a whole program, set on paper by the theme's ``sheet.typ``.

What an author wrote reaches the typesetter as data only and is never evaluated.
"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from datetime import datetime
from functools import cache
from tempfile import TemporaryDirectory
from typing import Any, Literal

import typst

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

Paper = Literal["a4", "letter"]
Data = dict[str, Any]

BOXES_IN_A_ROW = 8
WEEKS_IN_A_TABLE = 10
GROUP_KEPT_WHOLE = 130
"""Millimetres of paper up to which a group of lifts is not parted by the end of a page."""
GENERAL = ("Always", "This program")
"""Sources of cautions that need not be named; the others say which exercise or technique they are about."""
NO_GLYPH = "□"
"""Stands for a character that the fonts of the sheet do not have."""

_EVERYDAY = re.compile(r"[\n\x20-\x7e\u00a0-\u017f\u2010-\u2015\u2018-\u201e\u2022\u2026\u00d7]*")
_CLUSTER = re.compile(r"[^\u0300-\u036f\u200d\ufe00-\ufe0f][\u0300-\u036f\u200d\ufe00-\ufe0f]*|.", re.DOTALL)
_KEPT_TOGETHER = re.compile(r"(?<=\d) (?=(?:kg|lb|s|min)\b)|(?<=about) (?=\d)")


class SheetError(Exception):
    """A sheet could not be set; the message names the program, and the week where it is one week's."""


def week_sheet(  # noqa: PLR0913, PLR0917 - what is set, on what, by what, and when: nothing to fold together
    program: ProgramView, week: WeekView, site: SiteView, paper: Paper, template: bytes, stamp: datetime
) -> bytes:
    """One week of a program as a PDF. Equal input gives equal bytes; ``stamp`` has to know its time zone."""
    data = _document(program, site, paper, (week,))
    data["document_title"] = f"{program.title}, {_low(week.title)}"
    return _typeset(data, template, stamp, f"{program.title!r}, {_low(week.title)}")


def program_sheets(program: ProgramView, site: SiteView, paper: Paper, template: bytes, stamp: datetime) -> bytes:
    """A title page and every week of a program as one PDF."""
    data = _document(program, site, paper, program.weeks)
    data["front"] = _front(program)
    return _typeset(data, template, stamp, f"{program.title!r}, all weeks")


def printable(text: str) -> str:
    """The text as the sheet can show it: characters without a glyph in its fonts become an empty square."""
    if _EVERYDAY.fullmatch(text):
        return text
    clusters = _CLUSTER.findall(text)
    return "".join(cluster if _has_glyphs(cluster) else NO_GLYPH for cluster in clusters)


def _low(title: str) -> str:
    return title[:1].lower() + title[1:]


# ---------------------------------------------------------------------------------------------- typesetting


@cache
def _compiler() -> typst.Compiler:
    # Fonts of the machine would make the same manuscript look different elsewhere.
    return typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False))


def _compile(template: bytes, data: object, stamp: datetime | None = None) -> bytes:
    files = {"main.typ": template, "data.json": json.dumps(data, ensure_ascii=False).encode()}
    with TemporaryDirectory() as nothing:  # an empty root: a template can read its data and no other file
        pdf, warnings = _compiler().compile_with_warnings(
            files,  # type: ignore[type-var]
            root=nothing,
            format="pdf",
            pdf_standards="ua-1",
            timestamp=stamp,
            sys_inputs={},
        )
    if warnings:
        raise SheetError("; ".join(sorted({warning.message for warning in warnings})))
    return pdf  # type: ignore[return-value]


def _typeset(data: Data, template: bytes, stamp: datetime, name: str) -> bytes:
    try:
        return _compile(template, _all_printable(data), stamp)
    except SheetError as error:
        raise SheetError(f"The sheet of {name} was set with warnings: {error}") from None
    except typst.TypstError as error:
        hints = "".join(f" ({hint})" for hint in error.hints)
        raise SheetError(f"The sheet of {name} could not be set: {error.message}{hints}") from error


def _all_printable(value: Any) -> Any:
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, dict):
        return {key: _all_printable(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_all_printable(item) for item in value]
    return value


@cache
def _has_glyphs(cluster: str) -> bool:
    if _EVERYDAY.fullmatch(cluster):
        return True
    # The accessible kind of PDF refuses text without glyphs, so a page of one cluster answers the question.
    try:
        _compile(_PROBE, cluster)
    except (typst.TypstError, SheetError):
        return False
    return True


_PROBE = b"""#set document(title: "probe")
#set text(font: "Libertinus Serif")
#json("data.json")
"""


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
        "site": site.title,
        "draft": site.draft,
        "title": program.title,
        "edition": f"Edition {program.edition}, {program.date}",
        "short_cautions": program.short_cautions,
        "lifter": [{"label": fact.label, "value": fact.value} for fact in program.lifter],
        "lifter_note": program.lifter_note,
        "front": None,
        "weeks": [_week(week) for week in weeks],
    }


def _front(program: ProgramView) -> Data:
    return {
        "summary": program.summary,
        "byline": program.byline,
        "facts": [{"label": fact.label, "value": fact.value} for fact in program.facts],
        "suits": program.suits,
        "not_for": program.not_for,
        "cautions": [caution.text for caution in program.cautions if caution.source in GENERAL],
        "cautions_about": _cautions_about(program),
        "volume": _volume(program),
        "missed": any(cell.kept == "no" for row in program.volume for cell in row.cells),
    }


def _cautions_about(program: ProgramView) -> list[Data]:
    """The cautions of each exercise and technique, run together."""
    named = [caution for caution in program.cautions if caution.source not in GENERAL]
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


def _week(week: WeekView) -> Data:
    name = f"{week.title}, {_low(week.kind)}" if week.kind else week.title
    return {"name": name, "sessions": [_session(session) for session in week.sessions]}


def _session(session: SessionView) -> Data:
    return {
        "heading": f"{session.day}: {session.title}" if session.day else session.title,
        "minutes": f"about {session.minutes} min" if session.minutes else "",
        "remark": session.remark,
        "lines": [_line(line) for line in session.lines],
    }


def _line(line: LineView) -> Data:
    lifts = [_lift(lift) for lift in line.lifts]
    height = sum(8 + 14 * len(lift["rows"]) for lift in lifts)
    return {
        "kind": line.kind,
        "rest": line.rest,
        "remark": line.remark,
        "whole": height <= GROUP_KEPT_WHOLE,
        "lifts": lifts,
    }


def _lift(lift: LiftView) -> Data:
    return {
        "letter": lift.letter,
        "name": lift.title,
        "technique": lift.technique.title if lift.technique else "",
        "technique_note": lift.technique_note,
        "warm_up": f"Warm-up: {lift.warm_up}" if lift.warm_up else "",
        "rule": lift.rule,
        "remark": lift.remark,
        "sets": lift.scheme,
        "load": lift.load,
        "load_each": lift.each,
        "plates": lift.plates,
        "rest": lift.rest,
        "effort": lift.effort,
        "tempo": lift.tempo,
        "rows": _box_rows(lift),
    }


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
    return rows


def _boxes(each: SetView) -> list[Data]:
    pieces = (PieceView("", each.load, each.plates, each.reps, ""), *each.pieces)
    boxes = []
    for index in range(each.boxes):
        piece = pieces[min(index, len(pieces) - 1)]
        how = f"after {piece.pause}" if piece.pause else piece.role
        if each.optional and not index:
            how = "if you like"
        what = " ×\u00a0".join(part for part in (piece.load, piece.reps) if part)
        boxes.append(
            {
                "number": "" if index else str(each.number),
                "how": how,
                "plan": _KEPT_TOGETHER.sub("\u00a0", what),
                "plates": piece.plates,
                "joined": index > 0,
            }
        )
    return boxes

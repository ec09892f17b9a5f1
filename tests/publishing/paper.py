"""Invented programs to set on paper, and what is read back from the PDFs."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import page
import pdfplumber
import pikepdf
from markupsafe import Markup
from plateset.publishing.sheets import week_sheet
from plateset.publishing.theme import find_theme
from plateset.publishing.typesetting import Paper, Setting
from plateset.publishing.views import (
    CautionView,
    Fact,
    LiftView,
    LineView,
    Linked,
    PieceView,
    ProgramView,
    SessionView,
    SetView,
    SiteView,
    VolumeCell,
    VolumeRow,
    WeekView,
)
from plateset.shipped import shipped

TEMPLATE = find_theme("noticeboard", Path("nowhere"), shipped("themes")).sheet()
STAMP = datetime(2026, 2, 16, tzinfo=UTC)
PAPERS: tuple[Paper, ...] = ("a4", "letter")
MILLIMETRE = 72 / 25.4
SHORT_CAUTIONS = (
    "Ask a physician first if you have been ill, are pregnant or have pain.",
    "Warm up. Use safeties or a spotter on heavy sets.",
    "Stop for sharp pain, faintness or pain in the chest.",
    "Where the rules of your gym differ from this sheet, theirs come first.",
)


def work_sets(count: int, load: str, reps: str, plates: str = "") -> tuple[SetView, ...]:
    return tuple(SetView(number, load, plates, reps, (), 1) for number in range(1, count + 1))


def with_pieces(sets: tuple[SetView, ...], *pieces: PieceView) -> tuple[SetView, ...]:
    *before, last = sets
    return (*before, replace(last, pieces=pieces, boxes=1 + len(pieces)))


def lift(title: str, load: str = "60 kg", reps: str = "8–12", sets: int = 3, **more: Any) -> LiftView:
    plates = more.pop("plates", "")
    usual: dict[str, Any] = {
        "path": "exercises/any.html",
        "letter": "",
        "each": "",
        "effort": "2 RIR",
        "tempo": "",
        "rest": "2 min",
        "technique": None,
        "technique_note": "",
        "rule": "",
        "remark": "",
        "why": "",
        "set_views": work_sets(sets, load, reps, plates),
        "uniform": True,
        "substitutes": (),
    }
    usual |= {"scheme": f"{sets} × {reps}", "warm_up": ""}
    return LiftView(title=title, sets=str(sets), reps=reps, load=load, plates=plates, **(usual | more))


def single(one: LiftView) -> LineView:
    return LineView("", None, "", "", "", (one,))


def group(kind: str, *lifts: LiftView, remark: str = "") -> LineView:
    lettered = tuple(replace(each, letter=f"A{place}") for place, each in enumerate(lifts, 1))
    return LineView(kind, None, "90 s", remark, "", lettered)


def session(day: str, title: str, *lines: LineView, remark: str = "") -> SessionView:
    return SessionView(day.lower(), day, title, "55", remark, lines)


def press_day() -> SessionView:
    drops = (PieceView("drop", "30 kg", "", "6", ""), PieceView("drop", "24 kg", "", "5", ""))
    pushdown = lift(
        "Triceps pushdown with the rope",
        "37.5 kg",
        "12",
        technique=Linked("Drop set", "techniques/drop-set.html"),
        technique_note="last set: then 30 kg, 6 reps; then 24 kg, 5 reps",
        set_views=with_pieces(work_sets(3, "37.5 kg", "12"), *drops),
        uniform=False,
        rest="75 s",
    )
    return session(
        "Monday",
        "Press and row",
        single(
            lift(
                "Bench press",
                "82.5 kg",
                "6–8",
                4,
                plates="25 + 5 + 1.25 a side",
                tempo="3-1-1-0",
                rest="3 min",
                rule="Adds a repetition a week to 8, then 2.5 kg",
                remark="Feet flat, pause long enough to be sure.",
            )
        ),
        group(
            "Superset",
            lift("Incline bench press with dumbbells", "26 kg", "8–12", each="each hand", rest=""),
            lift("Chest-supported row", "50 kg", "8–12", rest="90 s"),
            remark="Set both up before you begin.",
        ),
        single(lift("Lateral raise", "9 kg", "15", 4, each="each hand", effort="RPE 8", rest="60 s")),
        single(pushdown),
        remark="A short day. Warm up with the empty bar and two lighter sets.",
    )


def leg_day() -> SessionView:
    cluster = tuple(PieceView("after a pause", "140 kg", "", "2", "20 s") for _ in range(2))
    squats = with_pieces(work_sets(5, "140 kg", "2", "25 + 25 + 10 a side"), *cluster)
    return session(
        "Wednesday",
        "Legs",
        single(
            lift(
                "Back squat",
                "140 kg",
                "2",
                5,
                plates="25 + 25 + 10 a side",
                set_views=squats,
                technique=Linked("Cluster set", "techniques/cluster.html"),
                technique_note="last set: 3 pieces of 2, 20 s between",
            )
        ),
        group(
            "Giant set",
            lift("Split squat", "16 kg", "10", each="each hand, repetitions for each side"),
            lift("Leg curl", "35 kg", "12"),
            lift("Standing calf raise on the machine by the far window", "70 kg", "12", 4),
            lift("Plank", "bodyweight", "45 s"),
        ),
    )


def long_day() -> SessionView:
    names = [f"Exercise number {place} with quite a long name for a lift" for place in range(1, 13)]
    return session("Friday", "Twelve lines", *(single(lift(name, sets=4)) for name in names))


def short_day(day: str) -> SessionView:
    return session(day, f"A short one on {day}", single(lift("Pull-up", "bodyweight", "as many as possible", 9)))


def a_program(*sessions: SessionView, weeks: int = 2) -> ProgramView:
    every = tuple(
        WeekView(
            number,
            f"Week {number}",
            "Deload" if number == weeks else "",
            f"programs/made-up/week-{number}.html",
            f"week-{number}",
            sessions,
        )
        for number in range(1, weeks + 1)
    )
    cells = tuple(VolumeCell("12.5", "10", "no" if week.kind else "yes") for week in every)
    return ProgramView(
        slug="made-up",
        title="Bar, bench and a window",
        path="programs/made-up/index.html",
        summary="Three days a week for someone with a year of training and an hour in the evening.",
        text=Markup(""),
        level="intermediate",
        goal="size",
        facts=(Fact("Level", "Intermediate"), Fact("Days a week", "3"), Fact("Minutes", "50–65")),
        suits=("lifters with a year of regular training", "people who can train every other evening"),
        not_for=("beginners", "anyone who returns from an injury"),
        cautions=(
            *(CautionView(text, "Always", "every program") for text in SHORT_CAUTIONS),
            CautionView("Squat inside safety pins.", "Back squat"),
        ),
        short_cautions=SHORT_CAUTIONS,
        lifter=(Fact("Bench press", "100 kg for 1"), Fact("Bodyweight", "80 kg")),
        lifter_note="The loads are those of an invented lifter. Work out your own before you train.",
        glance=(),
        volume=(VolumeRow("Chest", "10–14", "2", cells), VolumeRow("Lats", "", "1", cells)),
        volume_weeks=tuple((str(week.number), week.kind.lower()) for week in every),
        chart=None,
        explore="",
        weeks=every,
        techniques=(),
        explainers=(),
        downloads=(),
        byline="Una Example",
        date="16 February 2026",
        iso_date="2026-02-16",
        edition="2",
        licence="",
    )


def a_site(**changes: Any) -> SiteView:
    site = SiteView(
        title="The Example Gym",
        tagline="",
        about=Markup(""),
        author="Una Example",
        author_about="",
        language="en",
        address="",
        accent="#333333",
        version="0",
        draft=False,
        papers=("a4", "letter"),
    )
    return replace(site, **changes)


PROGRAM = a_program(press_day(), leg_day(), long_day(), short_day("Saturday"), short_day("Sunday"))


def set_on(paper: Paper, **changes: Any) -> Setting:
    return replace(Setting(paper, TEMPLATE, STAMP), **changes)


def set_week(program: ProgramView = PROGRAM, paper: Paper = "a4", **site: Any) -> bytes:
    return week_sheet(program, program.weeks[-1], a_site(**site), set_on(paper))


def faults(pdf: bytes, folder: Path) -> list[object]:
    path = folder / "sheet.pdf"
    path.write_bytes(pdf)
    report = page.validate_pdf(str(path), profile="ua1")
    return [] if report.is_compliant else [report]


def tags(node: Any) -> Iterator[Any]:
    """Every element of the structure tree."""
    kids = node.get("/K")
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from tags(kid)


def structure(pdf: bytes) -> list[tuple[str, str]]:
    """The tags in order, each with its scope where it has one."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        found = []
        for tag in tags(document.Root.StructTreeRoot):
            attributes = tag.get("/A", pikepdf.Array())
            owners = attributes if isinstance(attributes, pikepdf.Array) else [attributes]
            scopes = [str(owner["/Scope"]) for owner in owners if "/Scope" in owner]
            found.append((str(tag["/S"]), "".join(scopes)))
        return found


def page_texts(pdf: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [" ".join((sheet.extract_text() or "").split()) for sheet in document.pages]


def blanks(pdf: bytes) -> list[list[Any]]:
    """The write-in boxes of each page: rectangles higher than a line of text and no wider than a set."""
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [
            [rect for rect in sheet.rects if rect["height"] > 20 and rect["width"] < 60] for sheet in document.pages
        ]


def promised_boxes(view: WeekView) -> int:
    lifts = [each for day in view.sessions for line in day.lines for each in line.lifts]
    return sum(one.boxes for each in lifts for one in each.set_views)

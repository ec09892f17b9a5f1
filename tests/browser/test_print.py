"""A week printed from the browser: each session whole on a page, with its cautions, without the site around it."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass

import pdfplumber
import pytest

from tests.browser.conftest import Visits

SIZES = {"A4": (595, 842), "Letter": (612, 792)}
"""Width and height in points; browsers round A4 to a point or so."""


@dataclass(frozen=True)
class Sheet:
    """A printed page: its words, its size, and how many boxes to write in it has."""

    text: str
    size: tuple[float, float]
    boxes: int


def sheets_of(pdf: bytes) -> list[Sheet]:
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [
            Sheet(
                page.extract_text() or "",
                (page.width, page.height),
                sum(40 < rect["width"] < 60 and rect["height"] > 20 for rect in page.rects),
            )
            for page in document.pages
        ]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("size", SIZES)
def test_each_session_is_on_one_page_with_its_boxes_and_cautions(
    visit: Visits, host: str, site_weeks: list[str], size: str, dark: bool
) -> None:
    seen = visit(dark=dark)
    for path in site_weeks:
        seen.page.goto(f"{host}/{path}", wait_until="load")
        sessions = seen.page.locator("article.sheet").all()
        headings = [session.locator("h2").inner_text() for session in sessions]
        boxes = [session.locator(".box").count() for session in sessions]
        sheets = sheets_of(seen.page.pdf(format=size, print_background=False))
        assert len(sheets) == len(sessions), path
        for sheet, heading, count in zip(sheets, headings, boxes, strict=True):
            assert sheet.size == pytest.approx(SIZES[size], abs=2)
            assert heading in sheet.text, path
            assert sheet.boxes == count > 0, path
            assert "Stop for chest pain, dizziness" in " ".join(sheet.text.split()), path


def test_the_site_around_it_is_left_out(visit: Visits, host: str, paths: dict[str, str]) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{paths['week']}", wait_until="load")
    shown = seen.page.locator("body").inner_text()
    printed = "\n".join(sheet.text for sheet in sheets_of(seen.page.pdf(format="A4")))
    for words in ("Techniques", "How the numbers are made", "The whole program", "Nothing is sent anywhere"):
        assert words in shown
        assert words not in printed


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_program_prints_every_week_with_its_cautions(
    visit: Visits, host: str, paths: dict[str, str], scripts: bool
) -> None:
    seen = visit(scripts=scripts)
    seen.page.goto(f"{host}/{paths['program']}", wait_until="load")
    weeks = seen.page.locator("#weeks details.week").count()
    cautions = [one.text_content() or "" for one in seen.page.locator(".cautions li").all()]
    lifts = [one.text_content() or "" for one in seen.page.locator("tr.lift th").all()]
    printed = "".join("".join(sheet.text for sheet in sheets_of(seen.page.pdf(format="A4"))).split())
    assert all(f"Week{number}" in printed for number in range(1, weeks + 1))
    assert all("".join(caution.split()) in printed for caution in cautions)
    assert printed.count("ExerciseSetsReps") >= len(set(lifts)) > 3
    assert "Explorethischart" not in printed
    assert "Openeveryweek" not in printed


LEFT_BEHIND = re.compile(r"(Week \d+|Day \d+: .*|\w+day: .*|Exercise Sets Reps .*|Muscle Promised .*|Cautions.*)")
"""Words that begin something: what they begin belongs on the same page."""


@pytest.mark.parametrize("size", SIZES)
def test_no_heading_and_no_head_of_a_table_ends_a_page(
    visit: Visits, host: str, site_programs: list[str], size: str
) -> None:
    seen = visit()
    for path in site_programs:
        seen.page.goto(f"{host}/{path}", wait_until="load")
        sheets = sheets_of(seen.page.pdf(format=size))
        last = [sheet.text.strip().split("\n")[-1] for sheet in sheets]
        assert [line for line in last if LEFT_BEHIND.fullmatch(line)] == [], path

"""Sheets of programs that strain them, turned into pictures on both papers and read back."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any

import pdfplumber
import pypdfium2
import pytest
import zxingcpp
from PIL import Image
from plateset.publishing.sheets import log_sheets, program_sheets, progress_sheet, week_sheet
from plateset.publishing.typesetting import Paper
from plateset.publishing.views import Fact, Linked, PieceView, ProgramView

from tests.publishing.paper import (
    MILLIMETRE,
    PAPERS,
    PROGRAM,
    a_program,
    a_site,
    blanks,
    faults,
    group,
    lift,
    page_texts,
    promised_boxes,
    session,
    set_on,
    set_week,
    single,
    with_pieces,
    work_sets,
)

ADDRESS = "https://orchard-barn.example/people/ida/lifting/programs/a-name-of-quite-some-length-for-a-program/"
LONG = "Paused wide-grip bench press with a slow lowering, feet up, from pins set two fingers above the chest"
COMPOUND = "Donaudampfschifffahrtsgesellschaftskapitänsmützenhalterung"
"""A word no column holds; the ones below have no syllables to part it by, or only just too many letters."""
TOO_WIDE = (COMPOUND, "Kurzhantelflachbankdrücken", "W" * 49, "xkcdqrtz" * 7)
SIZES = {"a4": (210, 297), "letter": (215.9, 279.4)}


def long_names() -> ProgramView:
    title = "A program with a title that nobody would read out twice, because it goes on for so very long indeed"
    day = session(
        "Monday", LONG, *(single(lift(f"{LONG} {n}", plates="25 + 20 + 15 + 10 + 5 + 2.5 each side")) for n in range(4))
    )
    return replace(a_program(day), title=title, address=ADDRESS)


def long_words() -> ProgramView:
    """A word wider than its column wherever an author or a translator may write one."""
    said = f"Und {COMPOUND.lower()} dann {TOO_WIDE[-1]}"
    drop = PieceView("Nachlassermüdungssatz", "Eigengewicht", "", "Wiederholungen", "")
    told = lift(
        COMPOUND,
        "Körpergewichtsverhältnis",
        effort="Wiederholungsreserve",
        rest="Zweiminutenpausenlänge",
        plates="Scheibensatzzusammenstellung je Seite",
        technique=Linked(COMPOUND, "techniques/any.html"),
        technique_note=said,
        warm_up=said,
        rule=said,
        remark=said,
        set_views=with_pieces(work_sets(3, "Körpergewichtsverhältnis", "12", "Scheibensatz"), drop),
        uniform=False,
    )
    named = (single(lift(name, reps="8", sets=4)) for name in TOO_WIDE)
    both = group("Supersatz" * 14, *(lift(name) for name in TOO_WIDE[:2]), remark=said)
    day = session("Donnerstagnachmittag", COMPOUND * 2, *named, single(told), both, remark="Bemerkung" * 14)
    program = a_program(day, weeks=10)
    return replace(
        program,
        title=COMPOUND * 3,
        summary="zusammen" * 20,
        byline="von" * 60,
        suits=(said, COMPOUND * 2),
        not_for=("x" * 70,),
        lifter=(Fact(COMPOUND, COMPOUND),),
        lifter_note="Notiz" * 40,
        facts=(Fact(COMPOUND * 3, COMPOUND * 3),),
        volume=tuple(replace(row, muscle="Oberschenkelrückseitenmuskulatur") for row in program.volume),
        volume_weeks=tuple((number, "Entlastungswoche") for number, _ in program.volume_weeks),
    )


def twelve_lines() -> ProgramView:
    return a_program(
        session("Friday", "Twelve", *(single(lift(f"Lift {n} with a middling name", sets=4)) for n in range(12)))
    )


def sixteen_weeks() -> ProgramView:
    return a_program(session("Monday", "M", single(lift("Squat"))), weeks=16)


def fours() -> ProgramView:
    def four() -> tuple[str, ...]:
        return ("Split squat", "Leg curl", "Standing calf raise on the machine by the far window", "Hanging leg raise")

    return a_program(
        session("Wednesday", "Fours", *(group("Superset", *(lift(name) for name in four())) for _ in range(3)))
    )


def in_pounds() -> ProgramView:
    heavy = lift("Deadlift", "1,102.5 lb", "1–2", 6, plates="45 + 45 + 45 + 45 + 45 + 45 + 45 + 35 + 2.5 each side")
    return a_program(session("Monday", "Pounds", single(heavy)))


def other_scripts() -> ProgramView:
    titles = ("برنامج القوة في الصباح", "תוכנית הכוח של הבוקר", "力をつける十週間の計画", "Программа силы")
    day = session("Monday", titles[0], *(single(lift(title)) for title in titles))
    return replace(a_program(day), title=" · ".join(titles))


STRAINS = {
    "long names": long_names(),
    "long words": long_words(),
    "twelve lines": twelve_lines(),
    "sixteen weeks": sixteen_weeks(),
    "supersets of four": fours(),
    "pounds": in_pounds(),
    "other scripts": other_scripts(),
    "every kind": replace(PROGRAM, address=ADDRESS),
}


@pytest.fixture(scope="module", params=[(name, paper) for name in STRAINS for paper in PAPERS], ids=" on ".join)
def strained(request: pytest.FixtureRequest) -> tuple[ProgramView, Paper, bytes]:
    name, paper = request.param
    program = STRAINS[name]
    return program, paper, week_sheet(program, program.weeks[-1], a_site(), set_on(paper))


def picture(pdf: bytes, page: int = 0, scale: float = 1.0) -> Image.Image:
    """A page in shades of grey, 72 points to the inch at scale 1; 0 is black."""
    shown: Image.Image = pypdfium2.PdfDocument(pdf)[page].render(scale=scale).to_pil()
    return shown.convert("L")


def darkest(shown: Image.Image) -> int:
    low = shown.getextrema()[0]
    assert isinstance(low, int)
    return low


def test_the_margins_of_every_page_are_white(strained: tuple[ProgramView, Paper, bytes]) -> None:
    _, paper, pdf = strained
    edge = round(5 * MILLIMETRE)
    for page in range(len(pypdfium2.PdfDocument(pdf))):
        shown = picture(pdf, page)
        width, height = shown.size
        assert (width, height) == pytest.approx([side * MILLIMETRE for side in SIZES[paper]], abs=1)
        sides = ((0, 0, width, edge), (0, height - edge, width, height), (0, 0, edge, height))
        for side in (*sides, (width - edge, 0, width, height)):
            assert darkest(shown.crop(side)) == 255
        assert darkest(shown) < 60


def test_no_word_is_printed_over_another(strained: tuple[ProgramView, Paper, bytes]) -> None:
    _, _, pdf = strained
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        for page in document.pages:
            words = page.extract_words(use_text_flow=False)
            for index, one in enumerate(words):
                for other in words[index + 1 :]:
                    across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
                    down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
                    assert across <= 0.5 or down <= 2.5, (one["text"], other["text"])


@pytest.mark.parametrize("paper", PAPERS)
def test_a_word_wider_than_its_column_is_parted_within_it(paper: Paper) -> None:
    program, said = STRAINS["long words"], ""
    with pdfplumber.open(io.BytesIO(program_sheets(program, a_site(), set_on(paper)))) as document:
        for page in document.pages[:2]:
            letters = [each for each in page.chars if each["text"].strip()]
            assert max(each["x1"] for each in letters) <= page.width - 12.9 * MILLIMETRE
            assert [(one["text"], other["text"]) for one, other in overlaps(letters)] == []
            said += re.sub("[-\u00ad\u200b]", "", "".join(each["text"] for each in letters))
    assert [name for name in TOO_WIDE if name not in said] == []


def overlaps(letters: list[dict[str, Any]]) -> Iterator[tuple[dict[str, Any], dict[str, Any]]]:
    """Letters that are printed over each other."""
    for one, other in combinations(letters, 2):
        across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
        down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
        if across > 0.6 * min(one["width"], other["width"]) and down > 0.6 * min(one["height"], other["height"]):
            yield one, other


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("title", [LONG, COMPOUND * 3, "Short"])
def test_the_head_of_a_page_is_one_line_that_ends_with_the_edition(title: str, paper: Paper) -> None:
    day = session("Monday", "M", *(single(lift(f"Lift {number}", sets=30)) for number in range(5)))
    site = a_site(title="The gym in the old barn at the end of the valley, upper branch", draft=True)
    pdf = week_sheet(replace(a_program(day), title=title), a_program(day).weeks[0], site, set_on(paper))
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        assert len(document.pages) > 1
        for number, page in enumerate(document.pages):
            head = page.crop((0, 0, page.width, 13 * MILLIMETRE))
            text = head.extract_text()
            assert re.fullmatch(r"The gym.* Edition 2, 16 February 2026 +Draft", text), text
            assert ("Week 1" in text) == (number > 0)
            assert max(each["x1"] for each in head.chars) <= page.width - 12.9 * MILLIMETRE


def test_every_set_has_its_box_and_every_page_its_foot(
    strained: tuple[ProgramView, Paper, bytes], tmp_path: Path
) -> None:
    program, _, pdf = strained
    assert sum(len(boxes) for boxes in blanks(pdf)) == promised_boxes(program.weeks[-1])
    pages = page_texts(pdf)
    for number, text in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in text
        assert "Before you lift." in text
        assert "Edition 2" in text
    assert faults(pdf, tmp_path) == []


def test_a_week_is_small_enough_to_send(strained: tuple[ProgramView, Paper, bytes]) -> None:
    assert len(strained[2]) <= 100_000


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_leads_to_the_program_by_its_address_and_a_code_that_a_telephone_reads(paper: Paper) -> None:
    program = STRAINS["every kind"]
    for pdf in (
        week_sheet(program, program.weeks[-1], a_site(), set_on(paper)),
        progress_sheet(program, "kg", a_site(), set_on(paper)),
    ):
        for page, text in enumerate(page_texts(pdf)):
            found = zxingcpp.read_barcodes(picture(pdf, page, scale=300 / 72))
            assert [each.text for each in found] == [ADDRESS]
            assert ADDRESS.removeprefix("https://") in text.replace(" ", "")


def test_without_an_address_there_is_no_code_and_no_room_for_one() -> None:
    pdf = set_week()
    assert "On the web" not in " ".join(page_texts(pdf))
    assert zxingcpp.read_barcodes(picture(pdf, 0, scale=3)) == []


def test_sixteen_weeks_are_sixteen_headings_and_a_log_with_no_load() -> None:
    program = STRAINS["sixteen weeks"]
    texts = page_texts(log_sheets(program, program.weeks, a_site(), set_on("a4")))
    assert [f"Week {number}" in text for number, text in enumerate(texts, start=1)] == [True] * 16
    assert all("blank log" in text for text in texts)
    assert all("worked out for an example lifter" not in text for text in texts)
    whole = page_texts(program_sheets(program, a_site(), set_on("letter")))
    assert "Week 16" in whole[-1]


@pytest.mark.parametrize("weeks", [1, 16, 52])
@pytest.mark.parametrize(("unit", "length"), [("kg", "cm"), ("lb", "in")])
def test_the_progress_record_has_a_row_a_week(weeks: int, unit: str, length: str, tmp_path: Path) -> None:
    program = a_program(session("Monday", "M", single(lift("Squat"))), weeks=weeks)
    pdf = progress_sheet(program, unit, a_site(), set_on("a4"))  # type: ignore[arg-type]
    assert faults(pdf, tmp_path) == []
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        tables = [page.extract_tables()[0] for page in document.pages]
    heads = [" ".join(cell.split()) for cell in tables[0][0] if cell]
    assert heads[:5] == ["Week", "Date", f"Body weight, {unit}", f"Waist, {length}", f"Hips, {length}"]
    rows = [row for table in tables for row in table if (row[0] or "")[:1].isdigit()]
    names = [(row[0] or "").split() for row in rows]
    assert [name[0] for name in names] == [str(number) for number in range(1, weeks + 1)]
    assert names[-1][1:] == ["deload"]
    assert all(not any(row[1:]) for row in rows)
    text = " ".join(page_texts(pdf))
    assert "Measure cold" in text
    assert "same time of day" in text


def test_a_row_of_the_progress_record_is_high_enough_to_write_in() -> None:
    pdf = progress_sheet(STRAINS["sixteen weeks"], "kg", a_site(), set_on("a4"))
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        table = document.pages[0].find_tables()[0]
        heights = [row.bbox[3] - row.bbox[1] for row in table.rows[1:]]
    assert min(heights) >= 10.9 * MILLIMETRE

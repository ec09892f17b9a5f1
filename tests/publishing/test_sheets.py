"""The paper: invented programs are set on both papers and the PDFs are read back."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path
from typing import Any

import page
import pdfplumber
import pikepdf
import pytest
from markupsafe import Markup
from plateset.publishing import sheets
from plateset.publishing.sheets import Paper, SheetError, printable, program_sheets, week_sheet
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

TEMPLATE = (Path(__file__).parents[2] / "themes/noticeboard/sheet.typ").read_bytes()
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
    scheme = f"{sets} × {reps}"
    usual |= {"scheme": scheme, "warm_up": ""}
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
            *(CautionView(text, "Always") for text in SHORT_CAUTIONS),
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


def set_week(program: ProgramView = PROGRAM, paper: Paper = "a4", **site: Any) -> bytes:
    return week_sheet(program, program.weeks[-1], a_site(**site), paper, TEMPLATE, STAMP)


@pytest.fixture(scope="module", params=PAPERS)
def week(request: pytest.FixtureRequest) -> bytes:
    return set_week(paper=request.param)


@pytest.fixture(scope="module", params=PAPERS)
def whole(request: pytest.FixtureRequest) -> bytes:
    return program_sheets(PROGRAM, a_site(draft=True), request.param, TEMPLATE, STAMP)


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


def test_a_week_meets_the_rules_for_accessible_pdfs(week: bytes, tmp_path: Path) -> None:
    assert faults(week, tmp_path) == []


def test_a_whole_program_meets_the_rules_for_accessible_pdfs(whole: bytes, tmp_path: Path) -> None:
    assert faults(whole, tmp_path) == []


def test_the_check_for_accessible_pdfs_can_fail(week: bytes, tmp_path: Path) -> None:
    spoilt = io.BytesIO()
    with pikepdf.open(io.BytesIO(week)) as document:
        del document.Root.StructTreeRoot
        document.save(spoilt)
    assert faults(spoilt.getvalue(), tmp_path)


def test_the_document_says_its_title_language_and_author() -> None:
    with pikepdf.open(io.BytesIO(set_week(language="pt-BR"))) as document:
        assert str(document.docinfo["/Title"]) == "Bar, bench and a window, week 2"
        assert str(document.docinfo["/Author"]) == "Una Example"
        assert str(document.Root.Lang) == "pt-BR"


def test_every_table_has_column_headers(week: bytes) -> None:
    found = structure(week)
    tables = sum(tag == "/Table" for tag, _ in found)
    assert tables == len(PROGRAM.weeks[-1].sessions)
    assert [scope for tag, scope in found if tag == "/TH"] == ["/Column"] * 5 * tables


def test_headings_follow_each_other_without_a_gap(whole: bytes) -> None:
    levels = [int(tag[2]) for tag, _ in structure(whole) if tag[:2] == "/H" and tag[2:].isdigit()]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_a_week_has_every_session_lift_and_load(week: bytes) -> None:
    text = " ".join(page_texts(week))
    for day in PROGRAM.weeks[-1].sessions:
        assert f"{day.day}: {day.title}" in text
        for each in (one for line in day.lines for one in line.lifts):
            assert each.title.split()[0] in text
            for value in (each.load, each.effort, each.rest, each.tempo, each.rule, each.remark):
                assert value in text


def test_pieces_and_plates_stand_with_the_blanks(week: bytes) -> None:
    text = " ".join(page_texts(week)).replace("\u00a0", " ")
    assert "82.5 kg × 6–8" in text
    assert "30 kg × 6" in text
    assert "25 + 5 + 1.25 a side" in text
    assert "drop drop" in text
    assert "after 20 s after 20 s" in text
    assert "about 55 min" in text
    assert "Edition 2, 16 February 2026" in text
    assert "Drop set: last set: then 30 kg, 6 reps" in text


def test_plates_are_said_again_only_where_they_change() -> None:
    heavy, light = work_sets(2, "100 kg", "5", "25 + 15 a side"), work_sets(2, "60 kg", "5", "20 a side")
    ramp = lift("Squat", "60–100 kg", plates="", set_views=(*light, *heavy), uniform=False)
    plates = [box["plates"] for row in sheets._box_rows(ramp) for box in row]
    assert plates == ["20 a side", "", "25 + 15 a side", ""]


def test_loads_read_from_left_to_right_in_every_language() -> None:
    text = page_texts(set_week(a_program(session("Monday", "M", single(lift("Row")))), language="ar"))[0]
    assert "3 × 8–12 60 kg 2 min 2 RIR" in text


def test_there_is_a_blank_for_every_piece_large_enough_to_write_in(week: bytes) -> None:
    boxes = [box for sheet in blanks(week) for box in sheet]
    assert len(boxes) == promised_boxes(PROGRAM.weeks[-1])
    assert min(box["width"] for box in boxes) >= 12 * MILLIMETRE
    assert min(box["height"] for box in boxes) >= 9 * MILLIMETRE


def test_nothing_runs_off_the_paper(week: bytes) -> None:
    with pdfplumber.open(io.BytesIO(week)) as document:
        for sheet in document.pages:
            things = [*sheet.chars, *sheet.rects, *sheet.lines]
            assert min(thing["x0"] for thing in things) > 10 * MILLIMETRE
            assert max(thing["x1"] for thing in things) < sheet.width - 10 * MILLIMETRE
            assert max(thing["bottom"] for thing in things) < sheet.height - 5 * MILLIMETRE


def test_every_page_has_the_cautions_and_its_number(whole: bytes) -> None:
    pages = page_texts(whole)
    for number, text in enumerate(pages, 1):
        assert text.count("Before you lift.") == 1
        assert f"page {number} of {len(pages)}" in text
        assert "pain in the chest" in text


def test_the_cautions_are_part_of_the_text_where_a_week_begins(week: bytes) -> None:
    assert [tag for tag, _ in structure(week)][:3] == ["/Document", "/P", "/Strong"]


def test_every_page_of_a_draft_says_so(whole: bytes) -> None:
    assert all("Draft" in text for text in page_texts(whole))
    assert not any("Draft" in text for text in page_texts(set_week()))


def test_the_title_page_says_for_whom_and_how_much() -> None:
    front = page_texts(program_sheets(PROGRAM, a_site(), "a4", TEMPLATE, STAMP))[0]
    for text in (PROGRAM.summary, *PROGRAM.suits, *PROGRAM.not_for, *(one.text for one in PROGRAM.cautions)):
        assert text in front
    assert "Back squat: Squat inside safety pins." in front
    assert "Chest 10–14 2 12.5 12.5†" in front
    assert "Bench press 100 kg for 1" in front


def test_a_session_begins_a_page_unless_it_fits_whole_beside_the_last(week: bytes) -> None:
    pages = page_texts(week)
    assert [sum(f"{day.day}: " in text for day in PROGRAM.weeks[-1].sessions) for text in pages] == [1, 1, 1, 2]


def test_no_lift_is_parted_from_its_blanks() -> None:
    crowded = a_program(session("Monday", "Crowded", *(single(lift(f"Lift {n}.", sets=10)) for n in range(20))))
    pdf = set_week(crowded)
    for text, boxes in zip(page_texts(pdf), blanks(pdf), strict=True):
        assert len(boxes) == 10 * text.count("Lift ")
        assert text.count("Sets × reps") == 1


def test_a_long_circuit_breaks_between_its_lifts() -> None:
    circuit = group("Circuit", *(lift(f"Station {n}.", sets=8) for n in range(12)))
    pdf = set_week(a_program(session("Monday", "Round and round", single(lift("Row")), circuit)))
    assert sum(len(boxes) for boxes in blanks(pdf)) == 8 * 12 + 3
    for text, boxes in zip(page_texts(pdf), blanks(pdf), strict=True):
        assert len(boxes) == 8 * text.count("Station ") + 3 * text.count("Row ")


def test_a_set_of_many_pieces_stays_in_one_row() -> None:
    pieces = tuple(PieceView("after a pause", "100 kg", "", "2", "20 s") for _ in range(4))
    sets = tuple(with_pieces((one,), *pieces)[0] for one in work_sets(3, "100 kg", "2"))
    boxes = blanks(set_week(a_program(session("Monday", "M", single(lift("Squat", set_views=sets))))))[0]
    rows = sorted({round(box["top"]) for box in boxes})
    assert [sum(round(box["top"]) == row for box in boxes) for row in rows] == [5, 5, 5]


def test_a_year_of_weeks_has_its_volume_in_several_tables() -> None:
    program = a_program(session("Monday", "M", single(lift("Squat"))), weeks=52)
    tables = sheets._volume(program)
    assert [len(table["weeks"]) for table in tables] == [10, 10, 10, 10, 10, 2]
    only_front = replace(program, weeks=program.weeks[:1])
    assert "Week 52" in " ".join(page_texts(program_sheets(only_front, a_site(), "letter", TEMPLATE, STAMP)))


def test_equal_input_gives_equal_bytes() -> None:
    assert set_week() == set_week()


def test_what_an_author_wrote_is_never_evaluated() -> None:
    text = '#panic("no") $x$ *bold* `raw` <label> @ref \\ [x] {1}'
    program = replace(a_program(session(text, text, single(lift(text, remark=text)))), title=text)
    assert text in " ".join(page_texts(set_week(program)))


@pytest.mark.parametrize(
    ("title", "language"),
    [
        ("力をつける十週間 💪", "ja"),
        ("برنامج القوة", "ar"),
        ("תוכנית", "he"),
        ("Сила\u0301 и штанга", "ru"),
        ("a\x07b\t", "zh-Hant-TW"),
    ],
)
def test_a_title_in_any_script_can_be_set(title: str, language: str, tmp_path: Path) -> None:
    program = replace(a_program(session("Monday", title, single(lift(title)))), title=title)
    assert faults(set_week(program, language=language), tmp_path) == []


def test_a_character_without_a_glyph_becomes_an_empty_square() -> None:
    assert printable("Row 力, 12½ kg – “fast”") == "Row □, 12½ kg – “fast”"
    assert printable("Жим лёжа") == "Жим лёжа"
    assert printable(sheets.NO_GLYPH) == sheets.NO_GLYPH


@pytest.mark.parametrize(
    ("template", "words"),
    [(b"#panic()", "could not be set"), (b'#set document(title: "x")\n#set text(font: "No Such")\nx', "with warnings")],
)
def test_a_template_at_fault_is_told_with_the_program_and_the_week(template: bytes, words: str) -> None:
    with pytest.raises(SheetError, match=f"'Bar, bench and a window', week 2 .*{words}"):
        week_sheet(PROGRAM, PROGRAM.weeks[-1], a_site(), "a4", template, STAMP)


def test_a_template_reads_no_file_but_its_data(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "private.txt").write_text("private")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SheetError, match="could not be set"):
        week_sheet(PROGRAM, PROGRAM.weeks[0], a_site(), "a4", b'#read("private.txt")', STAMP)

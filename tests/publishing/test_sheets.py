"""The paper: invented programs are set on both papers and the PDFs are read back."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfplumber
import pikepdf
import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from plateset.publishing import sheets
from plateset.publishing.language import ENGLISH
from plateset.publishing.sheets import program_sheets, week_sheet
from plateset.publishing.theme import find_theme
from plateset.publishing.typesetting import NO_GLYPH, Paper, SheetError, Template, printable
from plateset.publishing.views import LiftView, PieceView
from plateset.shipped import shipped
from plateset.training.progression import LOADS_PROJECTED, REPS_PROJECTED

from tests.publishing.paper import (
    MILLIMETRE,
    PAPERS,
    PROGRAM,
    TEMPLATE,
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
    structure,
    with_pieces,
    work_sets,
)


@pytest.fixture(scope="module", params=PAPERS)
def week(request: pytest.FixtureRequest) -> bytes:
    return set_week(paper=request.param)


@pytest.fixture(scope="module", params=PAPERS)
def whole(request: pytest.FixtureRequest) -> bytes:
    return program_sheets(PROGRAM, a_site(draft=True), set_on(request.param))


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
    assert [scope for tag, scope in found if tag == "/TH"] == ["/Column"] * 4 * tables


def test_headings_follow_each_other_without_a_gap(whole: bytes) -> None:
    levels = [int(tag[2]) for tag, _ in structure(whole) if tag[:2] == "/H" and tag[2:].isdigit()]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_a_week_has_every_session_lift_and_load(week: bytes) -> None:
    text = " ".join(page_texts(week))
    with pdfplumber.open(io.BytesIO(week)) as document:
        columns = [sheet.crop((0, 0, 57 * MILLIMETRE, sheet.height)).extract_text() for sheet in document.pages]
    beside_the_lifts = " ".join(" ".join(columns).split())
    for day in PROGRAM.weeks[-1].sessions:
        assert f"{day.day}: {day.title}" in text
        for each in (one for line in day.lines for one in line.lifts):
            assert each.title.split()[0] in text
            for value in (each.load, each.effort, each.rest, each.tempo):
                assert value in text
            for value in (each.rule, each.remark):
                assert value in beside_the_lifts


def test_pieces_and_plates_stand_with_the_blanks(week: bytes) -> None:
    text = " ".join(page_texts(week)).replace("\u00a0", " ")
    assert "82.5 kg" in text
    assert "82.5 kg × 6–8" not in text
    assert "37.5 kg × 12 37.5 kg × 12 37.5 kg × 12" in text
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
    plates = [box["plates"] for row in sheets._box_rows(ramp, ENGLISH) for box in row]
    assert plates == ["20 a side", "", "25 + 15 a side", ""]


def test_loads_read_from_left_to_right_in_every_language() -> None:
    text = page_texts(set_week(a_program(session("Monday", "M", single(lift("Row")))), language="ar"))[0]
    assert "3 × 8–12 60 kg" in text
    assert "2 RIR rest 2 min" in text


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
    assert [tag for tag, _ in structure(week) if tag != "/Div"][:3] == ["/Document", "/P", "/Strong"]


def test_every_page_of_a_draft_says_so(whole: bytes) -> None:
    assert all("Draft" in text for text in page_texts(whole))
    assert not any("Draft" in text for text in page_texts(set_week()))


def test_the_title_page_says_for_whom_and_how_much() -> None:
    front = page_texts(program_sheets(PROGRAM, a_site(), set_on("a4")))[0]
    for text in (PROGRAM.summary, *PROGRAM.suits, *PROGRAM.not_for, *(one.text for one in PROGRAM.cautions)):
        assert text in front
    assert "Back squat: Squat inside safety pins." in front
    assert "Chest 10–14 2 12.5 12.5†" in front
    assert "Bench press 100 kg for 1" in front


def test_a_session_begins_a_page_unless_it_fits_whole_beside_the_last(week: bytes) -> None:
    pages = page_texts(week)
    beside = [sum(f"{day.day}: " in text for day in PROGRAM.weeks[-1].sessions) for text in pages]
    assert beside in ([2, 3], [2, 2, 1])  # A4 is higher than US Letter


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("remark", ["", "Short."])
def test_sessions_that_share_a_page_are_as_high_as_was_reckoned(paper: Paper, remark: str) -> None:
    monday = session("Monday", "M", *(10 * [single(lift("Squat"))]))
    beside = 0
    for lines in range(13, 28):  # from one that fits, to one that does not
        row = lift("Row", remark=" ".join(lines * ["a remark of one line and no more than it"]))
        pages = page_texts(set_week(a_program(monday, session("Friday", "F", single(row), remark=remark)), paper))
        assert all(f"page {number} of {len(pages)}" in text for number, text in enumerate(pages, 1)), lines
        beside += "Friday" in pages[0]
    assert 0 < beside < 15


def test_a_set_says_its_plan_only_where_the_lift_has_not_said_it() -> None:
    def plans(one: LiftView) -> list[str]:
        return [box["plan"] for row in sheets._box_rows(one, ENGLISH) for box in row]

    alike = lift("Squat", "100 kg", "5", plates="25 + 15 a side")
    assert plans(alike) == ["", "", ""]
    assert [box["plates"] for row in sheets._box_rows(alike, ENGLISH) for box in row] == ["", "", ""]
    assert plans(replace(alike, reps="5 each side")) == ["", "", ""]
    said = "100\u00a0kg ×\u00a05"
    for other in (
        replace(alike, uniform=False),
        replace(alike, load="about 100 kg"),
        replace(alike, plates=""),
        replace(alike, reps="8–10"),
    ):
        assert plans(other) == 3 * [said]


def test_a_set_that_differs_says_how() -> None:
    one, two, last = work_sets(3, "70 kg", "8–12")
    sets = (replace(one, how="3 RIR"), replace(two, how="2 RIR", optional=True), replace(last, how="to failure"))
    rows = sheets._box_rows(lift("Pulldown", "70 kg", "8–12", effort="3 to 1 RIR", set_views=sets), ENGLISH)
    assert [(box["how"], box["plan"]) for box in rows[0]] == [
        ("3 RIR", ""),
        ("if you like, 2 RIR", ""),
        ("to failure", ""),
    ]


def test_repetitions_alone_cannot_be_taken_for_the_number_of_a_set() -> None:
    blank = lift("Press", "", "6", set_views=(*work_sets(1, "", "6"), *work_sets(2, "", "8")), uniform=False)
    assert [box["plan"] for row in sheets._box_rows(blank, ENGLISH) for box in row] == [
        "×\u00a06",
        "×\u00a08",
        "×\u00a08",
    ]


def test_a_reader_writes_as_many_loads_as_there_are() -> None:
    assert sheets._loads_to_write(lift("Squat")) == 1
    ramp = tuple(set_view for load in ("60 kg", "70 kg", "80 kg", "60 kg") for set_view in work_sets(1, load, "5"))
    assert sheets._loads_to_write(lift("Squat", set_views=ramp[:2])) == 2
    assert sheets._loads_to_write(lift("Squat", set_views=ramp)) == sheets.MOST_LOADS


def test_what_the_weeks_show_is_explained_and_nothing_else() -> None:
    def legend(**more: Any) -> str:
        return " ".join(sheets._legend(a_program(session("Monday", "M", single(lift("Row", **more)))).weeks, ENGLISH))

    assert legend(effort="RPE 8") == ""
    assert legend(effort="2 RIR") == "RIR: repetitions left in reserve at the end of a set."
    assert "X is" not in legend(tempo="3-1-1-0")
    assert legend(tempo="3-1-X-0").endswith("in seconds; X is as fast as you can.")
    assert "brackets" in legend(rule=f"Add 2.5 kg. {REPS_PROJECTED.phrase}")
    assert "do are a projection" in legend(rule=f"Add 2.5 kg. {LOADS_PROJECTED.phrase}")
    told = page_texts(
        set_week(a_program(session("Monday", "M", single(lift("Row", rule=f"Add. {REPS_PROJECTED.phrase}")))))
    )
    assert "Add." in told[0]
    assert REPS_PROJECTED.phrase not in told[0]


def test_no_lift_is_parted_from_its_blanks() -> None:
    crowded = a_program(session("Monday", "Crowded", *(single(lift(f"Lift {n}.", sets=10)) for n in range(20))))
    pdf = set_week(crowded)
    for text, boxes in zip(page_texts(pdf), blanks(pdf), strict=True):
        assert len(boxes) == 10 * text.count("Lift ")
        assert text.count("Sets × reps") == 1


@pytest.mark.parametrize("words", [300, 1500])
def test_a_remark_longer_than_a_page_is_said_to_its_end(words: int) -> None:
    remark = " ".join(f"word{number}." for number in range(words))
    day = session("Monday", "M", single(lift("Row")), single(lift("Squat", remark=remark)), single(lift("Press")))
    pdf = set_week(a_program(day))
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        placed = [word for sheet in document.pages for word in sheet.extract_words(extra_attrs=["page_number"])]
    foot = {word["page_number"]: word["top"] for word in placed if word["text"] == "Before"}
    above = {word["text"] for word in placed if word["bottom"] < foot[word["page_number"]]}
    assert above >= {f"word{number}." for number in range(words)}
    assert sum(len(boxes) for boxes in blanks(pdf)) == 9


def test_more_sets_than_a_page_holds_have_all_their_blanks() -> None:
    pdf = set_week(a_program(session("Monday", "M", single(lift("Squat", sets=150)), single(lift("Press")))))
    assert sum(len(boxes) for boxes in blanks(pdf)) == 153


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
    tables = sheets._volume(program, ENGLISH)
    assert [len(table["weeks"]) for table in tables] == [10, 10, 10, 10, 10, 2]
    only_front = replace(program, weeks=program.weeks[:1])
    assert "Week 52" in " ".join(page_texts(program_sheets(only_front, a_site(), set_on("letter"))))


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
    assert printable(NO_GLYPH) == NO_GLYPH


@pytest.mark.parametrize(
    ("template", "words"),
    [(b"#panic()", "could not be set"), (b'#set document(title: "x")\n#set text(font: "No Such")\nx', "with warnings")],
)
def test_a_template_at_fault_is_told_with_the_program_and_the_week(template: bytes, words: str) -> None:
    with pytest.raises(SheetError, match=f"'Bar, bench and a window', week 2 .*{words}"):
        week_sheet(PROGRAM, PROGRAM.weeks[-1], a_site(), set_on("a4", template=Template(template)))


@pytest.mark.parametrize(
    ("template", "place"),
    [
        (Template(b"\n#panic()"), r"sheet\.typ, line 2: "),
        (
            replace(TEMPLATE, own=(("lifts.typ", b"#let lift-of = 1"), *TEMPLATE.own)),
            r"session\.typ, line 4: unresolved import",
        ),
    ],
)
def test_the_place_of_a_fault_is_told(template: Template, place: str) -> None:
    with pytest.raises(SheetError, match=f"week 2 could not be set: {place}"):
        week_sheet(PROGRAM, PROGRAM.weeks[-1], a_site(), set_on("a4", template=template))


def test_a_template_reads_no_file_but_its_data(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "private.txt").write_text("private")
    monkeypatch.chdir(tmp_path)
    for path in ("private.txt", "/private.txt", str(tmp_path / "private.txt"), "../style.css"):
        reading = replace(TEMPLATE, main=f'#read("{path}")'.encode())
        with pytest.raises(SheetError, match="could not be set"):
            week_sheet(PROGRAM, PROGRAM.weeks[0], a_site(), set_on("a4", template=reading))


def a_font_of(character: str, folder: Path) -> Path:
    """A folder with a font that has one character, a square of ink."""
    pen = TTGlyphPen(None)
    for step, place in enumerate(((0, 0), (0, 700), (700, 700), (700, 0))):
        (pen.lineTo if step else pen.moveTo)(place)
    pen.closePath()
    font = FontBuilder(1000, isTTF=True)
    font.setupGlyphOrder([".notdef", "square"])
    font.setupCharacterMap({ord(character): "square"})
    font.setupGlyf({".notdef": TTGlyphPen(None).glyph(), "square": pen.glyph()})
    font.setupHorizontalMetrics({".notdef": (1000, 0), "square": (1000, 0)})
    font.setupHorizontalHeader(ascent=800, descent=-200)
    font.setupNameTable({"familyName": "Example Han", "styleName": "Regular", "psName": "ExampleHan-Regular"})
    font.setupOS2(sTypoAscender=800, sTypoDescender=-200)
    font.setupPost()
    folder.mkdir()
    font.save(folder / "han.ttf")
    return folder


def test_a_font_of_ones_own_gives_a_sheet_the_characters_it_lacks(tmp_path: Path) -> None:
    fonts = (a_font_of("力", tmp_path / "fonts"),)
    assert printable("力の", fonts) == "力" + printable("の")
    program = replace(a_program(session("Monday", "力", single(lift("Row")))), title="力")
    pdf = week_sheet(program, program.weeks[-1], a_site(language="ja"), set_on("a4", fonts=fonts))
    assert "力" in page_texts(pdf)[0]
    assert NO_GLYPH not in page_texts(pdf)[0]
    assert faults(pdf, tmp_path) == []


def test_a_theme_and_a_manuscript_may_bring_fonts(tmp_path: Path) -> None:
    (tmp_path / "book" / "theme" / "fonts").mkdir(parents=True)
    theme = find_theme("noticeboard", tmp_path / "book", shipped("themes"))
    assert theme.fonts == (tmp_path / "book" / "theme" / "fonts",)
    assert find_theme("noticeboard", tmp_path, shipped("themes")).fonts == ()

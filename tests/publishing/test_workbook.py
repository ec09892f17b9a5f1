"""The workbook as a file: its sheets, entries, cautions and chart, and that no word in it is ever worked out."""

from __future__ import annotations

import re
import zipfile
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from plateset.publishing import workbook_desk
from plateset.publishing.documents import Edition
from plateset.publishing.program_view import program_view
from plateset.training.marks.mark import plain
from plateset.usual_cautions import SHORT, USUAL

from tests.everything import BEYOND_THE_CURVE, HEADS, SLUG
from tests.office import converted, formulas, values
from tests.publishing.building import LANTERN, SITE, edition_of, write_book
from tests.publishing.workbooks import (
    pieces,
    shown_load,
    work_rows,
    workbook_of,
)


@pytest.fixture(scope="module")
def lantern(edition: Edition) -> bytes:
    return workbook_of(edition, "lantern")


def words(sheet: Any) -> list[str]:
    return [cell.value.rstrip(" ") for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str)]


def test_the_same_edition_gives_the_same_bytes(lantern: bytes, tmp_path: Path) -> None:
    assert workbook_of(edition_of(write_book(tmp_path)), "lantern") == lantern


def test_cells_are_written_as_the_library_writes_them(
    everythings: dict[str, Edition], monkeypatch: pytest.MonkeyPatch
) -> None:
    edition = everythings["pounds"]
    book = workbook_of(edition, SLUG)
    monkeypatch.setattr(workbook_desk, "Sheet", workbook_desk.ChartedSheet)
    for way in ("keep", "_write_cell"):  # they are not needed any more
        monkeypatch.delattr(workbook_desk._Worksheet, way)
    assert workbook_of(edition, SLUG) == book


@pytest.mark.parametrize("way", ["_calculate_spans", "_escape_attributes"])
def test_what_is_written_past_the_library_is_what_the_library_writes(
    way: str, everythings: dict[str, Edition], monkeypatch: pytest.MonkeyPatch
) -> None:
    edition = everythings["pounds"]
    book = workbook_of(edition, SLUG)
    monkeypatch.delattr(workbook_desk._Worksheet, way)
    assert workbook_of(edition, SLUG) == book


def test_it_carries_the_programs_date_and_no_clock(lantern: bytes) -> None:
    properties = formulas(lantern).properties
    assert properties.created == properties.modified == datetime(2026, 3, 2, 12)
    with zipfile.ZipFile(BytesIO(lantern)) as file:
        assert {entry.date_time for entry in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_its_sheets_are_the_programs_weeks_and_what_they_rest_on(lantern: bytes) -> None:
    assert formulas(lantern).sheetnames == [
        "Start here", "Your lifts", "Week 1", "Week 2", "Week 3", "Weekly sets", "What can be loaded", "Numbers",
    ]  # fmt: skip


@pytest.mark.parametrize("gym", HEADS)
def test_every_load_is_live_or_left_to_feel(gym: str, everythings: dict[str, Edition]) -> None:
    assert_every_load_is_live(everythings[gym], SLUG)


def test_every_load_of_the_demo_is_live_or_left_to_feel(demo: Edition) -> None:
    """A rule that the workbook has no formula for shows here."""
    for slug in demo.programs:
        assert_every_load_is_live(demo, slug)


def assert_every_load_is_live(edition: Edition, slug: str) -> None:
    book = workbook_of(edition, slug)
    written, remembered = work_rows(formulas(book)), work_rows(values(book))
    planned = list(pieces(edition.programs[slug].plan))
    assert len(written) == len(remembered) == len(planned)
    for row, result, (_, lift, piece) in zip(written, remembered, planned, strict=True):
        live = str(row.load).startswith("=")
        assert live or (row.load == "by feel" and piece.load.mass is None), f"{slug}, {lift.exercise}, {row.address}"
        assert result.load == pytest.approx(shown_load(piece)) if live else True


def test_sets_of_one_load_are_worked_out_once(lantern: bytes, edition: Edition) -> None:
    rows = {row.address.partition("!")[2]: row for row in work_rows(formulas(lantern)) if "Week 1" in row.address}
    again = [row for row in rows.values() if re.fullmatch(r"=D\d+", str(row.load))]
    assert again
    for row in again:
        first = rows[str(row.load)[1:]]
        assert "ISNUMBER" in str(first.load), row  # the first of them, not the one before
        assert row.word == (f"=I{first.address.rpartition('D')[2]}" if first.word else "")


def test_the_repetitions_beyond_the_curve_are_beyond_it(everythings: dict[str, Edition]) -> None:
    plan = everythings["kilograms"].programs[SLUG].plan
    found = [piece.load.basis for _, _, piece in pieces(plan) if piece.reps and piece.reps.low == BEYOND_THE_CURVE]
    assert {(basis.rule, basis.trouble) for basis in found} == {("feel", "beyond the curve")}


def test_every_caution_stands_on_the_first_sheet_and_the_short_ones_on_every_week(
    edition: Edition, lantern: bytes
) -> None:
    book = formulas(lantern)
    view = program_view(edition.programs["lantern"], edition.manuscript, edition.figure)
    said = words(book["Start here"])
    assert {caution.text for caution in view.cautions} <= set(said)
    assert set(USUAL) | {"Set the safeties first.", "Rack it before you change it."} <= set(said)
    for week in (1, 2, 3):
        assert {*SHORT, *view.short_cautions} <= set(words(book[f"Week {week}"]))


def test_a_caution_longer_than_a_cell_is_said_in_full(tmp_path: Path) -> None:
    long = " ".join(f"word{number}" for number in range(4500))
    program = LANTERN.replace("cautions: [", f'cautions: ["{long}", ')
    book = workbook_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": program})), "lantern")
    assert len(long) > 32_767
    for sheet in ("Start here", "Week 1"):
        column = "B" if sheet == "Start here" else "A"
        assert long in " ".join(str(cell.value) for cell in formulas(book)[sheet][column]), sheet


def test_the_first_sheet_says_which_edition_it_is_and_where_its_page_stands(tmp_path: Path) -> None:
    folder = write_book(tmp_path, {"site.yaml": SITE + "address: https://tannery.example/lifting/\n"})
    sheet = formulas(workbook_of(edition_of(folder), "lantern"))["Start here"]
    assert "By Osla Brandt. Edition 1, 2 March 2026. From Tannery Row Lifting." in words(sheet)
    links = [cell.hyperlink.target for row in sheet.iter_rows() for cell in row if cell.hyperlink]
    assert links == ["https://tannery.example/lifting/programs/lantern/index.html"]


def test_without_an_address_there_is_no_link(lantern: bytes) -> None:
    with zipfile.ZipFile(BytesIO(lantern)) as file:
        assert not [name for name in file.namelist() if b'TargetMode="External"' in file.read(name)]


def test_a_draft_says_so(edition: Edition) -> None:
    draft = formulas(workbook_of(Edition(**(vars(edition) | {"draft": True})), "lantern"))
    assert any(text.startswith("Draft: not checked") for text in words(draft["Start here"]))
    assert all("draft" in str(sheet.oddFooter.left.text) for sheet in draft.worksheets)


def test_the_example_lifter_is_filled_in_and_said_to_be_one(lantern: bytes) -> None:
    sheet = formulas(lantern)["Your lifts"]
    found = {row[0].value: (row[1].value, row[2].value) for row in sheet.iter_rows(min_row=6) if row[0].value}
    assert found == {
        "Squat": (100, 1),
        "Bench press": (80, 1),
        "Cable curl": (50, 1),
    }
    assert any("example lifter" in text for text in words(sheet))


@pytest.mark.parametrize("load", ["83 kg", "95 kg", "1 kg"])
def test_a_bodyweight_is_asked_for_where_no_best_is(load: str, tmp_path: Path) -> None:
    lifter = "example lifter: {bodyweight: 80 kg}\n"
    lines = "sessions:\n  whole:\n    - {exercise: pull-up, sets: 1, reps: 5, load: " + load + "}\n"
    head = LANTERN.partition("example lifter:")[0].partition("weekly sets:")[0].partition("schedule:")[0]
    program = f"{head}schedule: {{mon: whole}}\n{lifter}{lines}"
    book = workbook_of(
        edition_of(write_book(tmp_path / "book", {"programs/lantern.yaml": program}), draft=True), "lantern"
    )
    again = converted({"book": book}, tmp_path / "office")["book"]
    rows = {row[0].value: row[1].value for row in values(book)["Your lifts"].iter_rows()}
    assert rows["Your bodyweight"] == 80
    assert "No load of this program depends on what you have lifted before." in rows
    now, then = values(again)["Week 1"], values(book)["Week 1"]
    loads = [
        (cell.coordinate, cell.value) for row in then.iter_rows() for cell in row if cell.coordinate.startswith("D")
    ]
    assert [value for _, value in loads if isinstance(value, int | float)]
    assert [(place, now[place].value) for place, _ in loads] == loads


def test_a_program_that_asks_for_no_best_says_so(edition: Edition) -> None:
    sheet = formulas(workbook_of(edition, "tally"))["Your lifts"]
    assert any(text.startswith("No load of this program depends") for text in words(sheet))
    assert not sheet.data_validations.dataValidation


def unlocked(sheet: Any) -> set[str]:
    return {cell.coordinate for row in sheet.iter_rows() for cell in row if not cell.protection.locked}


def checked(sheet: Any, cell: str) -> bool:
    return any(cell in rule.sqref for rule in sheet.data_validations.dataValidation)


def test_entries_are_open_and_checked_and_the_rest_is_guarded_without_a_password(
    everythings: dict[str, Edition],
) -> None:
    book = formulas(workbook_of(everythings["kilograms"], SLUG))
    for sheet in book.worksheets:
        assert sheet.protection.sheet, sheet.title
        assert not sheet.protection.password, sheet.title
        assert all(checked(sheet, cell) for cell in unlocked(sheet)), sheet.title
    assert {sheet.title for sheet in book.worksheets if not unlocked(sheet)} == {"Start here", "Weekly sets", "Numbers"}
    asked = {str(rule.sqref): rule for rule in book["Your lifts"].data_validations.dataValidation}
    assert (asked["C7"].type, asked["C7"].formula1, asked["C7"].formula2) == ("whole", "1", "15")


def test_logged_cells_take_numbers_only(lantern: bytes) -> None:
    rules = formulas(lantern)["Week 1"].data_validations.dataValidation
    assert [(rule.type, rule.operator or "between", rule.formula1, rule.formula2) for rule in rules] == [
        ("decimal", "between", "-2000", "2000"),
        ("whole", "between", "0", "1000"),
        ("decimal", "between", "0", "10"),
    ]


def test_weekly_sets_are_those_of_the_plan_with_a_chart_and_what_is_promised(edition: Edition, lantern: bytes) -> None:
    sheet = formulas(lantern)["Weekly sets"]
    program = edition.programs["lantern"]
    rows = {str(row[0].value).lower(): [cell.value for cell in row[1:6]] for row in sheet.iter_rows(4, 9)}
    assert rows["quads"][:2] == [6, 8]
    for muscle in ("quads", "chest", "lats", "biceps"):
        planned = [float(program.volume[week][muscle].fractional) for week in (1, 2, 3)]
        assert rows[muscle][2:] == planned, muscle
    assert len(sheet._charts) == 1
    assert {series.tx.strRef.f for series in sheet._charts[0].series} == {"'Weekly sets'!$A$4", "'Weekly sets'!$A$5"}


def test_where_there_is_a_choice_the_sets_of_a_week_are_a_range(everythings: dict[str, Edition]) -> None:
    program = everythings["kilograms"].programs[SLUG]
    sheet = formulas(workbook_of(everythings["kilograms"], SLUG))["Weekly sets"]
    rows = {str(row[0].value).lower(): row for row in sheet.iter_rows(4, 3 + len(program.volume[1]))}
    ranges = 0
    for muscle in ("quads", "legs", "biceps"):
        for week, cell in zip(program.plan.weeks, rows[muscle][3:], strict=False):
            found = program.volume[week.number][muscle]
            assert cell.value == float(found.fractional)
            ranges += found.most > found.fractional
            shown = re.sub(r'"–([\d.]+).*"', r"–\1", str(cell.number_format).removeprefix("General"))
            assert shown == (f"–{plain(found.most)}" if found.most > found.fractional else ""), (muscle, week.number)
    assert ranges > 6


def test_uneven_sets_choices_and_warm_ups_are_named(everythings: dict[str, Edition]) -> None:
    book = formulas(workbook_of(everythings["kilograms"], SLUG))
    assert book["Week 6"]["A1"].value == "Everything, week 6, test week"
    rows = [[cell.value for cell in row[:11]] for row in book["Week 1"].iter_rows()]
    saturday = next(at for at, row in enumerate(rows) if str(row[0]).startswith("Saturday: "))
    named = [(row[1], row[2], row[7]) for row in rows[saturday + 1 : saturday + 9]]
    assert named == [
        ("warm-up 1", "8", "40 % of set 1"),
        ("warm-up 2", "5", "60 % of set 1"),
        ("warm-up 3", "3", "80 % of set 1"),
        ("1 top set", "3", "3 RIR"),
        ("2 top set", "3", "1 RIR"),
        ("3 back-off", "6–8", "2 RIR"),
        ("4 back-off", "6–8", "2 RIR"),
        ("5 back-off", "6–8", "2 RIR"),
    ]
    said = words(book["Week 1"])
    assert "Pick one of these, 3 min between sets. Whichever you slept for." in said
    assert "Front squat, bottom half only" in said
    assert {"4 if you like", "3 if you like"} <= {str(row[1]) for row in rows}
    assert any(str(row[10]).endswith("Counts as 1.5 sets.") for row in rows)
    open_to_entry = [str(row[1].value) for row in book["Week 1"].iter_rows() if not row[4].protection.locked]
    assert open_to_entry
    assert not [label for label in open_to_entry if label.startswith("warm-up")]


@pytest.mark.parametrize(("paper", "code"), [("a4", 9), ("letter", 1)])
def test_it_is_set_up_for_the_sites_paper(paper: str, code: int, tmp_path: Path) -> None:
    folder = write_book(tmp_path, {"site.yaml": SITE.replace("paper: [a4]", f"paper: [{paper}]")})
    book = formulas(workbook_of(edition_of(folder), "lantern"))
    for sheet in book.worksheets:
        assert sheet.page_setup.paperSize == code, sheet.title
        assert sheet.page_setup.fitToWidth in (None, 1), sheet.title
        assert sheet.sheet_properties.pageSetUpPr.fitToPage, sheet.title
    week = book["Week 1"]
    assert (week.print_title_rows, week.freeze_panes, week.page_setup.orientation) == ("$1:$2", "B3", "landscape")


SLY = (
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(1)",
    "{=1}",
    "https://elsewhere.example/",
    "'=1",
    '=HYPERLINK("x")',
    "&A&P&8",
    "1e5",
    "<r>&</r>",
    "<r><t>x</t></r>",
)


def saying(words_of_the_author: str, folder: Path) -> bytes:
    """The workbook of a book whose author says the same in every place there is."""
    quoted = "'" + words_of_the_author.replace("'", "''") + "'"
    program = LANTERN.replace("title: Lantern & oil", f"title: {quoted}")
    program = program.replace("title: Heavy day", f"title: {quoted}\n    note: {quoted}")
    program = program.replace("summary: Three weeks by lamplight.", f"summary: {quoted}\nauthor: {quoted}")
    program = program.replace("why: It is the main lift.", f"note: {quoted}")
    program = program.replace("cautions: [", f"cautions: [{quoted}, ")
    site = SITE.replace("title: Tannery Row Lifting", f"title: {quoted}")
    write_book(folder, {"programs/lantern.yaml": program, "site.yaml": site})
    for note, name in (("exercises/squat.md", "Squat"), ("techniques/drop-set.md", "Drop set")):
        text = (folder / note).read_text("utf-8")
        (folder / note).write_text(text.replace(f"name: {name}", f"name: {quoted}"), "utf-8")
    return workbook_of(edition_of(folder), "lantern")


def live_cells(sheet: Any) -> list[str]:
    return [str(cell.value) for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]


USUAL_WORD = "a word"


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The workbooks of authors who say each of these."""
    return {each: saying(each, tmp_path_factory.mktemp("said")) for each in (USUAL_WORD, *SLY)}


@pytest.mark.parametrize("sly", SLY)
def test_what_an_author_writes_is_text(sly: str, said: dict[str, bytes]) -> None:
    book, usual = formulas(said[sly]), formulas(said[USUAL_WORD])
    assert book.sheetnames == usual.sheetnames
    for sheet, other in zip(book.worksheets, usual.worksheets, strict=True):
        assert live_cells(sheet) == live_cells(other), sheet.title
        assert not [cell for row in sheet.iter_rows() for cell in row if cell.hyperlink], sheet.title
    for name in ("Start here", "Week 1", "Your lifts"):
        assert sly in words(book[name]), name


def test_another_program_takes_it_for_text_too(said: dict[str, bytes], tmp_path: Path) -> None:
    books = {f"sly-{number}": said[sly] for number, sly in enumerate(SLY)}
    for (name, data), sly in zip(converted(books, tmp_path / "office").items(), SLY, strict=True):
        assert sly in words(values(data)["Your lifts"]), name


@pytest.mark.parametrize("title", ["Push &Go", "A &[Picture] of", "&G&G"])
def test_an_ampersand_in_a_title_takes_no_footer_away(title: str, tmp_path: Path) -> None:
    program = LANTERN.replace("title: Lantern & oil", f"title: '{title}'")
    book = workbook_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": program})), "lantern")
    for sheet in formulas(book).worksheets:
        assert sheet.oddFooter.left.text == f"{title.replace('&', '&&')}, edition 1", sheet.title


def test_a_long_title_fits_its_footer(tmp_path: Path) -> None:
    title = "&" * 200
    program = LANTERN.replace("title: Lantern & oil", f"title: '{title}'")
    book = formulas(workbook_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": program})), "lantern"))
    assert title in words(book["Start here"])
    with zipfile.ZipFile(BytesIO(workbook_of(edition_of(tmp_path), "lantern"))) as file:
        footer = re.findall(rb"<oddFooter>(.*?)</oddFooter>", file.read("xl/worksheets/sheet1.xml"))[0].decode()
    assert len(footer.replace("&amp;", "&")) <= 255


def test_names_and_formulas_are_within_what_a_workbook_may_hold(demo: Edition) -> None:
    for slug in demo.programs:
        book = formulas(workbook_of(demo, slug))
        assert all(re.fullmatch(r"[a-z_]+", name) for name in book.defined_names), slug
        assert all(len(name) <= 31 for name in book.sheetnames), slug
        used = {
            name
            for sheet in book.worksheets
            for row in sheet.iter_rows()
            for cell in row
            if cell.data_type == "f"
            for name in re.findall(r"([A-Z]+)\(", cell.value)
        }
        assert used <= {
            "IF",
            "ISNUMBER",
            "ROUND",
            "COUNTIF",
            "COUNT",
            "INDEX",
            "MATCH",
            "IFERROR",
            "AND",
            "OR",
            "INT",
            "MIN",
            "MAX",
            "SMALL",
            "N",
        }, slug


def test_another_program_opens_it(edition: Edition, tmp_path: Path) -> None:
    """Opened and saved as paper and as a workbook, with all its sheets and its chart."""
    book = workbook_of(edition, "lantern")
    paper = converted({"lantern": book}, tmp_path / "paper", "pdf")["lantern"]
    assert paper.startswith(b"%PDF")
    again = formulas(converted({"lantern": book}, tmp_path / "again")["lantern"])
    assert again.sheetnames == formulas(book).sheetnames
    assert set(again.defined_names) == set(formulas(book).defined_names)
    assert len(again["Weekly sets"]._charts) == 1

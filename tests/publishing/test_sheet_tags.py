"""What the typesetter says of its PDFs, by a library of another hand: tags, language, title, fonts, pictures."""

from __future__ import annotations

import io
from typing import Any

import pikepdf
import pytest
from plateset.publishing.sheets import log_sheets, program_sheets, progress_sheet, week_sheet

from tests.publishing.paper import PAPERS, PROGRAM, a_site, set_on, tags

ADDRESS = "https://gym.example/lifting/programs/made-up/"
ON_THE_WEB = PROGRAM.__class__(**(vars(PROGRAM) | {"address": ADDRESS}))
KINDS = ("week", "program", "log", "progress")


def set_as(kind: str, paper: Any) -> bytes:
    site = a_site()
    match kind:
        case "week":
            return week_sheet(ON_THE_WEB, ON_THE_WEB.weeks[0], site, set_on(paper))
        case "program":
            return program_sheets(ON_THE_WEB, site, set_on(paper))
        case "log":
            return log_sheets(ON_THE_WEB, ON_THE_WEB.weeks, site, set_on(paper))
    return progress_sheet(ON_THE_WEB, "kg", site, set_on(paper))


@pytest.fixture(scope="module", params=[(kind, paper) for kind in KINDS for paper in PAPERS], ids="-".join)
def pdf(request: pytest.FixtureRequest) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(set_as(*request.param)))


def elements(pdf: pikepdf.Pdf) -> list[Any]:
    return list(tags(pdf.Root.StructTreeRoot))


def test_it_says_that_it_is_tagged_in_what_language_and_shows_its_title(pdf: pikepdf.Pdf) -> None:
    assert bool(pdf.Root.MarkInfo.Marked) is True
    assert str(pdf.Root.Lang) == "en"
    assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle) is True
    assert str(pdf.docinfo["/Title"]).startswith(PROGRAM.title)


def test_it_claims_the_standard_for_accessible_pdfs(pdf: pikepdf.Pdf) -> None:
    with pdf.open_metadata() as metadata:
        assert metadata["pdfuaid:part"] == "1"
        assert metadata["dc:title"] == str(pdf.docinfo["/Title"])


def test_every_font_is_embedded(pdf: pikepdf.Pdf) -> None:
    descriptors = [each for each in pdf.objects if isinstance(each, pikepdf.Dictionary) and "/FontName" in each]
    assert descriptors
    for each in descriptors:
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(each.keys()), each.get("/FontName")
    named = {
        each.Subtype for each in pdf.objects if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/Font"
    }
    assert named <= {"/Type0", "/CIDFontType0", "/CIDFontType2"}


def test_every_table_begins_with_headers_of_its_columns(pdf: pikepdf.Pdf) -> None:
    tables = [each for each in elements(pdf) if each.S == "/Table"]
    assert tables
    for table in tables:
        heads = [each for each in tags(table) if each.S == "/TH"]
        rows = [each for each in tags(table) if each.S == "/TR"]
        assert len(heads) >= 4
        assert {str(tag.S) for tag in tags(rows[0])} >= {"/TH"}
        for head in heads:
            owners = head.A if isinstance(head.A, pikepdf.Array) else [head.A]
            assert "/Column" in [str(owner.Scope) for owner in owners if "/Scope" in owner]


def test_the_picture_says_what_it_is(pdf: pikepdf.Pdf) -> None:
    figures = [each for each in elements(pdf) if each.S == "/Figure"]
    assert figures
    assert {str(each.Alt) for each in figures} == {
        "QR code of the address of this program's page, " + ADDRESS.removeprefix("https://")
    }


def test_the_order_of_reading_is_told_on_every_page(pdf: pikepdf.Pdf) -> None:
    assert all(page.obj.Tabs == "/S" for page in pdf.pages if "/Annots" in page.obj)
    assert all("/StructParents" in page.obj for page in pdf.pages)


def test_what_is_packed_is_packed_the_same_again() -> None:
    for kind in KINDS:
        assert set_as(kind, "a4") == set_as(kind, "a4")

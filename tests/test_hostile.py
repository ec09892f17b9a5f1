"""Hostile text in every field, looked for in every file by readers of other makers: it stays text."""

from __future__ import annotations

import csv
import io
import json
import re
import zipfile
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import openpyxl
import pdfplumber
import pytest
from icalendar import Calendar
from markdown_it import MarkdownIt
from plateset.manuscript.markdown import WEB_SCHEMES
from plateset.proving import proof
from plateset.publishing.documents import makers
from plateset.publishing.theme import ThemeError, find_theme
from plateset.shipped import shipped

from tests.hostile import ELSEWHERE, REFUSED, TEXTS, files_of, hostile_book, together
from tests.manuscript.reading import problems_in
from tests.publishing.building import BOOK, SITE, edition_of, write_book

SHORTS = tuple(sorted({*(text[:190] for text in TEXTS if text.strip("\u200b\u200d\u2060")), together(190)}))
SLOW = (".png", ".zip", "progress-a4.pdf", "log-a4.pdf")
NO_ICON = "data:,"
SCRIPTS = {"application/json", "application/ld+json"}


@cache
def _files(folder: Path, text: str, short: str) -> dict[str, bytes]:
    book = hostile_book(folder, text, short)
    edition = edition_of(book, proof(book, "book"), draft=True)
    return {path: make() for path, make in makers(edition) if not path.endswith(SLOW) and "/tally/" not in path}


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The whole site with all texts in each long field."""
    return _files(tmp_path_factory.mktemp("hostile"), together(6000), together(190))


class _Page(HTMLParser):
    """The tags of a page, and what the scripts hold."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.scripts: list[tuple[dict[str, str], str]] = []
        self.text: list[str] = []
        self.comments: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))

    def handle_data(self, data: str) -> None:
        if self.tags and self.tags[-1][0] == "script" and self.lasttag == "script" and data.strip():
            self.scripts.append((self.tags[-1][1], data))
        self.text.append(data)

    def handle_comment(self, data: str) -> None:
        self.comments.append(data)


def _pages(files: dict[str, bytes]) -> Iterator[tuple[str, _Page]]:
    for path, data in files.items():
        if path.endswith(".html"):
            yield path, _Page(data.decode())


def test_the_texts_are_there_to_be_found(files: dict[str, bytes]) -> None:
    page = "".join(_Page(files["programs/lantern/index.html"].decode()).text)
    for text in TEXTS:
        words = text.split()
        assert not words or words[0] in page, text


def test_no_page_has_a_tag_a_handler_or_an_address_of_the_authors(files: dict[str, bytes]) -> None:
    for path, page in _pages(files):
        assert not page.comments, path
        for tag, attributes in page.tags:
            assert tag not in ("iframe", "object", "embed", "base", "img"), (path, tag)
            assert not [name for name in attributes if name.startswith("on") or name == "style"], (path, tag)
            for name in ("src", "action", "formaction", "data", "poster", "srcset", "xlink:href"):
                assert not re.match(r"\s*(?:[a-z]+:|//)", attributes.get(name, ""), re.IGNORECASE), (path, tag)
            address = attributes.get("href", "")
            scheme = re.match(r"\s*([a-zA-Z][a-zA-Z0-9+.-]*):", address)
            allowed = scheme is None or scheme[1].lower() in WEB_SCHEMES or address == NO_ICON
            assert allowed, (path, address)
            assert not address.startswith("//"), (path, address)
            if tag in ("link", "use", "image", "script", "form"):
                assert ELSEWHERE not in attributes.get("href", "") + attributes.get("src", ""), (path, tag)


def test_what_stands_in_scripts_is_data(files: dict[str, bytes]) -> None:
    found = 0
    for path, page in _pages(files):
        for attributes, text in page.scripts:
            assert attributes.get("type") in SCRIPTS, path
            json.loads(text)
            found += ELSEWHERE in text
    assert found
    index = files["assets/search-index.js"].decode()
    held = re.fullmatch(r"window\.searchIndex = (.*);\n", index)
    assert held
    assert held[1].isascii()
    assert ELSEWHERE in json.dumps(json.loads(held[1]))


def test_no_template_and_no_sheet_reckons_with_the_authors_words(files: dict[str, bytes]) -> None:
    for path, page in _pages(files):
        text = "".join(page.text)
        assert "root:x:" not in text, path
        assert "<class" not in text, path
    with pdfplumber.open(io.BytesIO(files["programs/lantern/program-a4.pdf"])) as pdf:
        said = re.sub(r"\s", "", "".join(page.extract_text() for page in pdf.pages))
        links = [link["uri"] for page in pdf.pages for link in page.hyperlinks]
    assert '#eval("6*7")' in said
    assert "{{7*7}}" in said
    assert "root:x:" not in said
    assert all(uri.startswith("https://barn.example/lifting/") for uri in links)
    assert not [word for word in (b"/JavaScript", b"/JS ", b"/Launch", b"/OpenAction", b"/EmbeddedFile")
                if word in files["programs/lantern/program-a4.pdf"]]  # fmt: skip


def test_no_cell_is_a_formula(files: dict[str, bytes]) -> None:
    rows = list(csv.reader(io.StringIO(files["programs/lantern/lantern.csv"].decode(), newline="")))
    assert {len(row) for row in rows} == {len(rows[0])}
    for cell in (cell for row in rows for cell in row):
        assert not cell.startswith(("=", "+", "@", "\t", "\r", "＝", "＋", "＠")), cell
        assert not cell.startswith("-") or re.fullmatch(r"-[\d.]+", cell), cell
        assert cell.isprintable(), cell
    book = openpyxl.load_workbook(io.BytesIO(files["programs/lantern/lantern.xlsx"]))
    texts = 0
    for cell in (cell for sheet in book for row in sheet.iter_rows() for cell in row):
        texts += cell.data_type == "s" and ELSEWHERE in str(cell.value)
        assert cell.data_type != "f" or ELSEWHERE not in str(cell.value), cell.coordinate
        assert cell.data_type != "f" or "cmd" not in str(cell.value), cell.coordinate
        assert cell.hyperlink is None or ELSEWHERE not in str(cell.hyperlink.target), cell.coordinate
    assert texts
    with zipfile.ZipFile(io.BytesIO(files["programs/lantern/lantern.xlsx"])) as packed:
        assert not [name for name in packed.namelist() if "external" in name.lower() or "vba" in name.lower()]


def test_nothing_is_planted_in_files_of_lines(files: dict[str, bytes]) -> None:
    data = files["programs/lantern/lantern.ics"]
    assert not re.search(rb"(?<!\r)\n", data)
    events = [part for part in Calendar.from_ical(data).walk() if part.name == "VEVENT"]
    assert len(events) == data.count(b"\r\nBEGIN:VEVENT\r\n") == 6
    assert not [event for event in events if str(event["SUMMARY"]) == "planted"]
    robots = files["robots.txt"].decode()
    assert ELSEWHERE not in robots
    for line in files["programs/lantern/lantern.txt"].decode().split("\n"):
        assert line.isprintable(), line
        assert not line.startswith(("BEGIN:", "SUMMARY:", "Sitemap:")), line


def test_the_feed_and_the_map_are_sound_and_hold_text(files: dict[str, bytes]) -> None:
    for path in ("feed.xml", "sitemap.xml"):
        assert b"<!DOCTYPE" not in files[path]
        assert b"<!ENTITY" not in files[path]
        root = ElementTree.fromstring(files[path])
        for part in root.iter():
            assert part.tag.startswith(
                ("{http://www.w3.org/2005/Atom}", "{http://www.sitemaps.org/schemas/sitemap/0.9}")
            )
            assert ELSEWHERE not in part.attrib.get("href", "")
    assert ELSEWHERE in "".join(ElementTree.fromstring(files["feed.xml"]).itertext())


def test_the_newsletter_is_text_for_any_reader_of_markdown(files: dict[str, bytes]) -> None:
    html = MarkdownIt("commonmark", {"html": True}).render(files["programs/lantern/lantern.md"].decode())
    page = _Page(html)
    assert {tag for tag, _ in page.tags} <= {"h1", "h2", "h3", "p", "ul", "li", "a", "strong", "br"}
    addresses = [attributes["href"] for tag, attributes in page.tags if tag == "a"]
    assert addresses == ["https://barn.example/lifting/programs/lantern/"]
    assert ELSEWHERE in "".join(page.text)


def test_the_plan_as_data_is_data(files: dict[str, bytes]) -> None:
    plan = json.loads(files["programs/lantern/lantern.json"])
    assert ELSEWHERE in json.dumps(plan)


@pytest.mark.parametrize("short", SHORTS)
def test_each_text_by_itself_as_every_name_and_note(tmp_path: Path, short: str) -> None:
    """Alone a text stands at the very beginning of its cell, line or title, where it does the most."""
    book = hostile_book(tmp_path / "book", short, short)
    found = problems_in(book)
    if found:
        assert all(problem.place.line for problem in found), found
        return
    edition = edition_of(book, proof(book, "book"), draft=True)
    wanted = ("programs/lantern/index.html", "programs/lantern/lantern", "feed.xml", "exercises/squat.html")
    made = {path: make() for path, make in makers(edition) if path.startswith(wanted) and not path.endswith(SLOW)}
    test_no_page_has_a_tag_a_handler_or_an_address_of_the_authors(made)
    for row in csv.reader(io.StringIO(made["programs/lantern/lantern.csv"].decode(), newline="")):
        assert not [cell for cell in row if cell.startswith(("=", "+", "@", "\t", "\r")) or not cell.isprintable()]
    sheets = openpyxl.load_workbook(io.BytesIO(made["programs/lantern/lantern.xlsx"]))
    formulas = [str(c.value) for sheet in sheets for row in sheet.iter_rows() for c in row if c.data_type == "f"]
    assert not [each for each in formulas if "|" in each or ELSEWHERE in each]
    assert len(list(Calendar.from_ical(made["programs/lantern/lantern.ics"]).walk("VEVENT"))) == 6
    ElementTree.fromstring(made["feed.xml"])


@pytest.mark.parametrize("text", REFUSED, ids=ascii)
def test_a_control_character_is_refused_even_where_it_is_escaped(tmp_path: Path, text: str) -> None:
    for name, content in files_of(f"A{text}b", f"A{text}b").items():
        if "\\u" in content:
            found = problems_in(write_book(tmp_path / name.replace("/", "-"), {name: content}))
            assert found
            assert all(each.place.path == f"book/{name}" and each.place.line for each in found), found


@pytest.mark.parametrize(
    "address",
    ["javascript:alert(1)", "JaVaScRiPt:x", "data:text/html,x", "file:///etc/passwd", "//evil.example/x", "vbscript:x",
     "../../x", "\\\\evil.example\\x", "blob:x", "https:"],
)  # fmt: skip
def test_a_link_of_another_kind_is_refused_in_prose_and_as_an_address(tmp_path: Path, address: str) -> None:
    prose = BOOK["exercises/row.md"] + f"\n[x](<{address}>)\n"
    assert [each.place.path for each in problems_in(write_book(tmp_path / "a", {"exercises/row.md": prose}))]
    site = SITE + f"address: {json.dumps(address)}\n"
    assert problems_in(write_book(tmp_path / "b", {"site.yaml": site}))
    video = BOOK["exercises/squat.md"].replace("https://video.example/squat", address.replace("\\", "\\\\"))
    assert problems_in(write_book(tmp_path / "c", {"exercises/squat.md": video}))


@pytest.mark.parametrize(
    "line",
    ["language: 'en\"><script>'", "colours: {accent: 'red;}body{background:url(//evil.example)}'}",
     "colours: {accent: \"#12345\\n6\"}", "logo: ../../secret.png", "logo: https://evil.example/x.png",
     "theme: ../../x", "address: 'https://barn.example/\"><script>'", 'address: "https://barn.example/\\r\\nX: y"',
     "type: 'plain; }'", "title: \"\\uD800\""],
)  # fmt: skip
def test_a_setting_of_the_site_that_would_break_out_is_refused(tmp_path: Path, line: str) -> None:
    site = SITE.replace("title: Tannery Row Lifting\n", "") if line.startswith("title") else SITE
    found = problems_in(write_book(tmp_path / "book", {"site.yaml": f"{site}{line}\n"}))
    assert found
    assert all(each.place.line == (site + line).count("\n") + 1 for each in found), found


@pytest.mark.parametrize("link", ["style.css", "assets", ""], ids=["a file", "a folder", "the theme itself"])
def test_a_theme_that_leads_out_of_the_manuscript_is_refused(tmp_path: Path, link: str) -> None:
    book = write_book(tmp_path / "book")
    (tmp_path / "private" / "assets").mkdir(parents=True)
    (tmp_path / "private" / "style.css").write_text("secret")
    if link:
        (book / "theme").mkdir()
    (book / "theme" / link).symlink_to(tmp_path / "private" / link)
    with pytest.raises(ThemeError, match="leads out of the manuscript"):
        find_theme("noticeboard", book, shipped("themes"))


def test_a_theme_may_link_within_the_manuscript(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book", {"theme/mine.css": "p {}", "theme/fonts/x.txt": ""})
    (book / "theme" / "style.css").symlink_to(book / "theme" / "mine.css")
    assert find_theme("noticeboard", book, shipped("themes")).read("style.css") == b"p {}"


@pytest.mark.parametrize("name", ["Row", "row ", "row.", "\u202ewor", "r\u00f6w", "-row", "con", "nul", "com1"])
def test_names_that_some_disk_would_take_for_another_are_refused(tmp_path: Path, name: str) -> None:
    book = write_book(tmp_path / "book")
    (book / "exercises" / f"{name}.md").write_text(BOOK["exercises/row.md"])
    assert problems_in(book)

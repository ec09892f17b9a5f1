"""The files of a site: the same edition gives the same bytes, and every page is whole by itself."""

from __future__ import annotations

import posixpath
import re
from collections import Counter
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from plateset.publishing.documents import CSP, Edition, documents

from tests.everything import SLUG
from tests.publishing.building import LANTERN, SITE, edition_of, write_book

ELSEWHERE = {"https://rows.example/why?a=1&b=2", "https://video.example/squat"}


FOR_OWN_LOADS = ("data-core", "data-plan", "data-kg", "data-lb", "data-root", "data-form")
"""Where the script of a reader's own loads goes for its parts; two files of a unit stand in one attribute."""


@dataclass
class PageRead(HTMLParser):
    """What a browser would take from a page: addresses, anchors and its head."""

    addresses: list[tuple[str, str, dict[str, str]]] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    tags: Counter[str] = field(default_factory=Counter)
    metas: dict[str, str] = field(default_factory=dict)
    attributes: set[str] = field(default_factory=set)
    language: str = ""
    title: str = ""
    heading: str = ""
    _open: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.tags[tag] += 1
        self.attributes |= set(given)
        if "id" in given:
            self.ids.append(given["id"])
        for name in ("href", "src", "srcset", "action", "data-library", "poster", "data", *FOR_OWN_LOADS):
            if name in given:
                self.addresses += [(tag, address, given) for address in given[name].split()]
        if tag == "html":
            self.language = given.get("lang", "")
        if tag == "meta":
            self.metas[given.get("name") or given.get("http-equiv") or "charset"] = given.get("content", "")
        self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        if "title" in self._open and "svg" not in self._open:
            self.title += data
        if "h1" in self._open:
            self.heading += data


def read_pages(files: dict[str, bytes]) -> dict[str, PageRead]:
    pages = {}
    for path, data in files.items():
        if path.endswith(".html"):
            pages[path] = PageRead()
            pages[path].feed(data.decode())
            pages[path].close()
    return pages


@pytest.fixture(scope="module")
def pages(files: dict[str, bytes]) -> dict[str, PageRead]:
    return read_pages(files)


def test_the_same_edition_gives_the_same_bytes(edition: Edition, files: dict[str, bytes], tmp_path: Path) -> None:
    assert list(documents(edition)) == list(files.items())
    assert list(documents(edition_of(write_book(tmp_path / "elsewhere")))) == list(files.items())


def test_the_order_of_files_on_disk_does_not_matter(files: dict[str, bytes], tmp_path: Path) -> None:
    for name in ("programs/tally.yaml", "exercises/squat.md"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("written first")
    assert dict(documents(edition_of(write_book(tmp_path)))) == files


def test_every_file_stands_at_a_path_of_its_own(edition: Edition) -> None:
    paths = [path for path, _ in documents(edition)]
    assert len(paths) == len(set(paths))
    assert all(path == posixpath.normpath(path) and not path.startswith(("/", "..")) for path in paths)


def test_every_program_week_note_and_list_has_a_page(files: dict[str, bytes]) -> None:
    expected = {"index.html", "numbers.html", "search.html", "404.html"}
    expected |= {f"programs/by-{facet}.html" for facet in ("level", "days", "minutes", "kit", "muscle", "technique")}
    expected |= {"programs/lantern/index.html", "programs/tally/index.html"}
    expected |= {f"programs/lantern/week-{week}.html" for week in (1, 2, 3)} | {"programs/tally/week-1.html"}
    expected |= {f"{name}/index.html" for name in ("programs", "exercises", "techniques", "explainers")}
    expected |= {f"exercises/{name}.html" for name in ("squat", "bench", "curl", "row", "pull-up", "plank")}
    expected |= {f"techniques/{name}.html" for name in ("drop-set", "superset", "circuit")}
    assert {path for path in files if path.endswith(".html")} == expected | {"explainers/why-the-row.html"}
    weeks = {"lantern": (1, 2, 3), "tally": (1,)}
    sheets = {f"programs/{slug}/week-{week}-a4.pdf" for slug in weeks for week in weeks[slug]}
    sheets |= {f"programs/{slug}/{name}-a4.pdf" for slug in weeks for name in ("program", "log", "progress")}
    assert {path for path in files if path.endswith(".pdf")} == sheets
    books = {"programs/lantern/lantern.xlsx", "programs/tally/tally.xlsx"}
    assert {path for path in files if path.endswith(".xlsx")} == books


def test_every_sheet_can_be_reached_from_a_page(files: dict[str, bytes], pages: dict[str, PageRead]) -> None:
    reached = {
        posixpath.normpath(posixpath.join(posixpath.dirname(path), urlsplit(address).path))
        for path, page in pages.items()
        for _, address, _ in page.addresses
    }
    assert {path for path in files if path not in reached} == {"404.html", "robots.txt"}


def test_a_program_page_offers_its_workbook_with_its_kind_and_size(files: dict[str, bytes]) -> None:
    size = round(len(files["programs/lantern/lantern.xlsx"]) / 1000)
    page = " ".join(re.sub(r"<[^>]+>", " ", files["programs/lantern/index.html"].decode()).split())
    assert re.search(rf"Workbook .{{0,9}}XLSX.{{0,9}} {size} kB", page)


def assert_leads_somewhere(path: str, address: str, files: dict[str, bytes], pages: dict[str, PageRead]) -> None:
    parts = urlsplit(address)
    target = posixpath.normpath(posixpath.join(posixpath.dirname(path), unquote(parts.path))) if parts.path else path
    assert target in files, f"{path}: {address}"
    assert not parts.query, f"{path}: {address}"
    if parts.fragment:
        assert unquote(parts.fragment) in pages[target].ids, f"{path}: {address}"


def test_every_link_and_anchor_leads_somewhere(files: dict[str, bytes], pages: dict[str, PageRead]) -> None:
    followed = 0
    for path, page in pages.items():
        for _, address, _ in page.addresses:
            if address not in ELSEWHERE and address != "data:,":
                assert_leads_somewhere(path, address, files, pages)
                followed += 1
    assert followed > 200


def test_every_address_is_relative_but_the_authors_own(pages: dict[str, PageRead]) -> None:
    outside = set()
    for path, page in pages.items():
        for tag, address, given in page.addresses:
            parts = urlsplit(address)
            assert not address.startswith(("/", "\\")), path
            if parts.scheme and address != "data:,":
                assert tag == "a", path
                assert {"noopener", "noreferrer"} & set(given.get("rel", "").split()), path
                outside.add(address)
    assert outside == ELSEWHERE


def test_a_video_starts_where_the_author_says(files: dict[str, bytes]) -> None:
    assert "Video of the squat, from 1:05" in files["exercises/squat.html"].decode()


def test_every_page_has_its_head(pages: dict[str, PageRead]) -> None:
    for path, page in pages.items():
        assert page.tags["h1"] == 1, path
        assert page.heading.strip(), path
        assert page.language == "en", path
        assert page.title.strip(), path
        assert page.metas["description"].strip(), path
        assert page.metas["Content-Security-Policy"] == CSP, path
        assert "width=device-width" in page.metas["viewport"], path
        assert page.tags["main"] == 1, path


def test_titles_and_descriptions_tell_pages_apart(pages: dict[str, PageRead]) -> None:
    assert len({page.title for page in pages.values()}) == len(pages)


def test_ids_stand_once_a_page(pages: dict[str, PageRead]) -> None:
    for path, page in pages.items():
        assert len(page.ids) == len(set(page.ids)), path


def test_no_page_has_styles_or_scripts_of_its_own(files: dict[str, bytes], pages: dict[str, PageRead]) -> None:
    """The content security policy would refuse them."""
    for path, page in pages.items():
        assert not {name for name in page.attributes if name.startswith("on")} | (page.attributes & {"style"}), path
        assert not page.tags["style"] + page.tags["iframe"] + page.tags["object"], path
        asks = {"programs/index.html", "search.html", "programs/lantern/index.html"}
        assert page.tags["form"] == (path in asks), path
        text = files[path].decode()
        assert text.count("<script") == (
            text.count("<script src=")
            + text.count('<script type="application/json"')
            + text.count('<script type="application/ld+json"')
        )


def test_the_policy_lets_nothing_in_from_elsewhere() -> None:
    rules = dict(rule.strip().split(" ", 1) for rule in CSP.split(";"))
    assert rules["default-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert rules["script-src"] == "'self'"
    assert rules["connect-src"] == "'self'"
    assert "http" not in CSP
    assert "unsafe" not in CSP


def test_the_language_is_the_sites(tmp_path: Path) -> None:
    site = SITE + "language: nb\n"
    found = read_pages(dict(documents(edition_of(write_book(tmp_path, {"site.yaml": site})))))
    assert {page.language for page in found.values()} == {"nb"}


def test_what_an_author_writes_is_text_wherever_it_is_shown(tmp_path: Path) -> None:
    sly = "\"<script>alert(1)</script> & 'so' <!--\""
    program = LANTERN.replace("title: Lantern & oil", f"title: {sly}").replace(
        "summary: Three weeks by lamplight.", f"summary: {sly}"
    )
    program = program.replace("title: Heavy day", f"title: {sly}").replace("why: It is the main lift.", f"why: {sly}")
    site = SITE.replace("title: Tannery Row Lifting", f"title: {sly}") + "curve: epley\n"
    files = dict(documents(edition_of(write_book(tmp_path, {"programs/lantern.yaml": program, "site.yaml": site}))))
    for path, page in read_pages(files).items():
        assert b"<script>" not in files[path], path
        assert b"<!-" not in files[path], path
        assert page.tags["h1"] == 1, path
    assert "<script>alert(1)</script> & 'so' <!--" in read_pages(files)["programs/lantern/index.html"].title


def test_a_draft_says_so_on_every_page_and_sheet_and_keeps_search_engines_away(
    edition: Edition, files: dict[str, bytes]
) -> None:
    draft = dict(documents(Edition(**(vars(edition) | {"draft": True}))))
    assert set(draft) == set(files)
    for path, data in draft.items():
        if path.endswith(".html"):
            assert b"Draft: not checked" in data, path
            assert b'content="noindex"' in data, path
            assert b"Draft" not in files[path], path
        if path.endswith((".pdf", ".xlsx")):
            assert data != files[path], path


def test_a_program_of_hardly_any_sets_can_be_pressed(tmp_path: Path) -> None:
    one = LANTERN[: LANTERN.index("sessions:")].replace("weekly sets: {quads: 6-8, chest: 10-12}\n", "")
    one = one.replace("schedule: {mon: heavy, thu: light}", "schedule: {mon: heavy}")
    one += "sessions:\n  heavy:\n    - {exercise: squat, sets: 1, reps: 5, load: 50 %, rest: 60 s}\n"
    one = one.replace("deload: {weeks: [3], sets: 50 %, load: 90 %}\n", "").replace("quads/week 1", "quads/week 2")
    files = dict(documents(edition_of(write_book(tmp_path, {"programs/lantern.yaml": one}))))
    assert b"<svg" in files["programs/lantern/index.html"]


def test_a_box_says_what_is_left_to_the_reader_and_its_plates_where_they_change(
    everythings: dict[str, Edition],
) -> None:
    page = next(
        data.decode() for path, data in documents(everythings["kilograms"]) if path == f"programs/{SLUG}/week-1.html"
    )
    day = page[page.index('id="day-6"') :]
    boxes = [
        " ".join(re.sub(r"<[^>]+>", " ", box).split()) for box in re.findall(r'"planned">(.*?)<span class="box"', day)
    ]
    assert boxes[:5] == [
        "Set 1 128 kg × 3 20 + 20 + 10 + 2.5 + 1.25 each side",
        "Set 2 128 kg × 3",
        "Set 3 108 kg × 6–8 20 + 20 + 2.5 + 1.25 each side",
        "Set 4 108 kg × 6–8",
        "Set 5 108 kg × 6–8",
    ]
    assert boxes[8] == "Set 4 if you like 80.5 kg × 6 20 + 10 each side"
    assert "Pick one, rest 3\u00a0min between sets. Whichever you slept for." in day
    assert re.findall(r"Rest (\d\u00a0min)", day)[3:6] == ["3\u00a0min"] * 3

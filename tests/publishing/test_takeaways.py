"""What a program's page offers is there, in the size it says; and one archive holds all of it."""

from __future__ import annotations

import io
import posixpath
import re
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from plateset.publishing.blank_log import blank_weeks
from plateset.publishing.bundle import bundle, write_bundle
from plateset.publishing.documents import Edition, documents
from plateset.publishing.sheets import log_sheets
from plateset.publishing.takeaways import size_text, takeaways

from tests.publishing.building import LANTERN, SITE, desk_of, edition_of, write_book
from tests.publishing.paper import blanks, page_texts, promised_boxes
from tests.publishing.test_documents import read_pages

OFFER = re.compile(
    r'<a href="(?P<href>[^"]+)">(?P<title>[^<]+)</a> <span class="aside">(?P<kind>[^,<]+), (?P<size>[^<]+)</span>'
)
KINDS = {
    ".pdf": "PDF", ".csv": "CSV", ".json": "JSON", ".ics": "iCalendar", ".txt": "plain text", ".md": "Markdown",
    ".zip": "ZIP", ".xlsx": "XLSX",
}  # fmt: skip


@pytest.fixture(scope="module")
def dated(tmp_path_factory: pytest.TempPathFactory) -> Edition:
    """The small manuscript with a start date, an address and both papers."""
    program = LANTERN.replace("schedule:", "starts: 2026-03-02\nat: 18:00\nschedule:")
    site = SITE.replace("paper: [a4]", "paper: [a4, letter]") + "address: https://tannery.example/\n"
    folder = tmp_path_factory.mktemp("dated")
    return edition_of(write_book(folder, {"programs/lantern.yaml": program, "site.yaml": site}))


@pytest.fixture(scope="module")
def dated_files(dated: Edition) -> dict[str, bytes]:
    return dict(documents(dated))


def offers(path: str, html: str) -> list[tuple[str, str, str]]:
    """Site path, kind and size of every file a page offers."""
    return [
        (posixpath.normpath(posixpath.join(posixpath.dirname(path), found["href"])), found["kind"], found["size"])
        for found in OFFER.finditer(html)
    ]


def test_everything_offered_is_there_in_its_kind_and_size(
    files: dict[str, bytes], dated_files: dict[str, bytes]
) -> None:
    for site in (files, dated_files):
        offered = [each for path in site if path.endswith(".html") for each in offers(path, site[path].decode())]
        assert len(offered) > 20
        for path, kind, size in offered:
            assert size == size_text(len(site[path]))
            ending = posixpath.splitext(path)[1]
            assert kind == ("JSON Schema" if path.endswith(".schema.json") else KINDS[ending])


def test_every_file_to_take_away_is_offered_on_its_programs_page_or_week(dated_files: dict[str, bytes]) -> None:
    page = "programs/lantern/index.html"
    offered = {path for path, _, _ in offers(page, dated_files[page].decode())}
    mine = {
        path for path in dated_files if path.startswith("programs/lantern/") and not path.endswith((".html", ".js"))
    }
    assert offered == mine | {"programs/plan.schema.json"}
    names = {posixpath.basename(path) for path in mine}
    assert {"lantern.csv", "lantern.json", "lantern.ics", "lantern.txt", "lantern.md", "lantern.zip"} <= names
    assert {f"{kind}-{paper}.pdf" for kind in ("program", "log", "progress") for paper in ("a4", "letter")} <= names


def test_without_a_start_date_there_is_no_calendar_file_and_the_page_offers_none(
    files: dict[str, bytes], dated_files: dict[str, bytes]
) -> None:
    assert not [path for path in files if path.endswith(".ics")]
    page = files["programs/lantern/index.html"].decode()
    assert ".ics" not in "".join(found["href"] for found in OFFER.finditer(page))
    assert "In a calendar" not in page
    assert 'data-calendar data-file="lantern.ics"' in page
    assert "All sessions from 2 March 2026" in dated_files["programs/lantern/index.html"].decode()


def test_the_control_for_ones_own_dates_is_hidden_without_scripts_and_knows_the_authors(
    files: dict[str, bytes], dated_files: dict[str, bytes]
) -> None:
    plain, own = (site["programs/lantern/index.html"].decode() for site in (files, dated_files))
    for page in (plain, own):
        assert re.search(r'<div class="calendar-maker" hidden data-needs-script data-calendar', page)
        assert '<script src="../../assets/calendar.js" defer>' in page
    assert 'max="2999-12-31" value=""' in plain
    assert 'max="2999-12-31" value="2026-03-02"' in own
    assert '<input type="time" value="18:00">' in own


def test_the_archive_holds_every_other_file_of_the_program(dated_files: dict[str, bytes]) -> None:
    archive = dated_files["programs/lantern/lantern.zip"]
    with zipfile.ZipFile(io.BytesIO(archive)) as held:
        assert held.testzip() is None
        inside = {f"programs/{name}": held.read(name) for name in held.namelist()}
    mine = {
        path: data
        for path, data in dated_files.items()
        if path.startswith("programs/lantern/") and not path.endswith((".html", ".js", ".zip"))
    }
    assert inside == mine | {"programs/plan.schema.json": dated_files["programs/plan.schema.json"]}


def test_an_archive_is_the_same_wherever_and_whenever_it_is_made(monkeypatch: pytest.MonkeyPatch) -> None:
    held = {"b/two.txt": b"2" * 500, "a/one.pdf": b"1", "é.md": b"3"}
    first = bundle(held)
    monkeypatch.setattr("time.time", lambda: 2e9)
    monkeypatch.setattr("sys.platform", "win32")
    assert bundle(dict(reversed(held.items()))) == first
    with zipfile.ZipFile(io.BytesIO(first)) as archive:
        assert archive.namelist() == ["a/one.pdf", "b/two.txt", "é.md"]
        for entry in archive.infolist():
            assert entry.date_time == (1980, 1, 1, 0, 0, 0)
            assert entry.external_attr >> 16 == 0o100644
            assert entry.create_system == 3
            assert entry.compress_type == zipfile.ZIP_STORED


def test_a_packed_archive_packs_what_is_not_packed() -> None:
    written = io.BytesIO()
    write_bundle([("a.html", b"a" * 900), ("b.pdf", b"b" * 900)], written, pack=True)
    with zipfile.ZipFile(written) as archive:
        assert [entry.compress_type for entry in archive.infolist()] == [zipfile.ZIP_DEFLATED, zipfile.ZIP_STORED]
        assert archive.read("a.html") == b"a" * 900


@pytest.mark.parametrize(
    ("octets", "words"), [(1, "1 kB"), (1499, "1 kB"), (58_270, "58 kB"), (999_499, "999 kB"), (1_449_000, "1.4 MB")]
)
def test_sizes_are_said_in_round_numbers(octets: int, words: str) -> None:
    assert size_text(octets) == words


def test_the_blank_log_has_every_set_and_no_load(edition: Edition) -> None:
    desk = desk_of(edition, "lantern")
    weeks = blank_weeks(desk.program, desk.manuscript)
    assert [promised_boxes(week) for week in weeks] == [promised_boxes(week) for week in desk.view.weeks]
    assert any(one.warm_up for week in weeks for day in week.sessions for line in day.lines for one in line.lifts)
    for blank, printed in zip(weeks, desk.view.weeks, strict=True):
        assert (blank.title, blank.kind) == (printed.title, printed.kind)
        lifts = [each for day in blank.sessions for line in day.lines for each in line.lifts]
        assert {each.load for each in lifts} == {"", "bodyweight"}
        assert {each.plates for each in lifts} == {""}
    pdf = log_sheets(desk.view, weeks, desk.site, desk.setting("a4"))
    text = " ".join(page_texts(pdf)).replace("Loads count the bar: barbell 20 kg.", "")
    assert not re.search(r"\d kg|by feel|empty bar", text)
    assert "Take about 20 % off at each drop" in text
    notes = {one.technique_note for day in weeks[0].sessions for line in day.lines for one in line.lifts}
    assert any(note.startswith("last set: to failure, then drop to a lighter load") for note in notes)
    assert sum(len(boxes) for boxes in blanks(pdf)) == sum(promised_boxes(week) for week in weeks)


def test_the_blank_log_warms_up_by_every_step(tmp_path: Path) -> None:
    """The example lifter leaves out what their bar is too heavy for; a reader's may not be."""
    steps = "warm-up sets: [{load: 15 %, reps: 9}, {load: 25 %, reps: 7}, {load: 75 %, reps: 4}]\n"
    book = write_book(tmp_path, {"programs/lantern.yaml": LANTERN.replace("sessions:", steps + "sessions:", 1)})
    desk = desk_of(edition_of(book), "lantern")
    printed = desk.view.weeks[0].sessions[0].lines[0].lifts[0]
    blank = blank_weeks(desk.program, desk.manuscript)[0].sessions[0].lines[0].lifts[0]
    assert blank.warm_up.replace("\u00a0", " ") == "15 % × 9, 25 % × 7, 75 % × 4 (shares of your first set)"
    assert printed.warm_up.count("×") == 2


def test_every_sheet_to_lift_from_says_that_loads_count_the_bar(files: dict[str, bytes]) -> None:
    for name in ("program", "week-1", "log"):
        pages = page_texts(files[f"programs/lantern/{name}-a4.pdf"])
        assert "Loads count the bar: barbell 20 kg." in " ".join(pages[name == "program" :]), name


def test_the_same_files_twice(dated: Edition) -> None:
    desk = desk_of(dated, "lantern")
    first, second = ({file.path: file.data for file in takeaways(each)} for each in (desk, replace(desk)))
    assert first == second


def test_a_draft_is_a_draft_in_every_file(tmp_path: Path) -> None:
    program = LANTERN.replace("schedule:", "starts: 2026-03-02\nschedule:")
    edition = edition_of(write_book(tmp_path, {"programs/lantern.yaml": program}), draft=True)
    for file in takeaways(desk_of(edition, "lantern")):
        if file.kind in ("plain text", "Markdown", "iCalendar"):
            assert b"Draft" in file.data, file.path
        if file.kind == "PDF":
            assert all("Draft" in text for text in page_texts(file.data)), file.path


def test_every_link_of_the_dated_site_leads_somewhere(dated_files: dict[str, bytes]) -> None:
    for path, page in read_pages(dated_files).items():
        for tag, address, _ in page.addresses:
            if tag == "a" and not address.startswith(("http", "#")) and path != "404.html":
                target = posixpath.normpath(posixpath.join(posixpath.dirname(path), address.partition("#")[0]))
                assert target in dated_files, (path, address)

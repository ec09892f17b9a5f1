"""No reader goes without the cautions, and no theme can drop them."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from html import unescape
from pathlib import Path

import pdfplumber
import pytest
from plateset.publishing.cautions import cautions_for
from plateset.publishing.documents import Edition, documents
from plateset.publishing.theme import ThemeError
from plateset.shipped import shipped
from plateset.usual_cautions import SHORT, USUAL

from tests.publishing.building import BOOK, LANTERN, SITE, edition_of, write_book

OWN = 'Keep the lower back flat, "braced", in every set.'
SITES = "Ask at the desk before you use the platform."

Drop = Callable[[str], str]


def text_of(html: bytes) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", "", html.decode())))


def by_source(edition: Edition, slug: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for caution in cautions_for(edition.programs[slug].plan, edition.manuscript):
        found.setdefault(caution.source, []).append(caution.text)
    return found


def test_an_exercise_called_like_a_group_of_cautions_keeps_its_own_apart(tmp_path: Path) -> None:
    note = BOOK["exercises/squat.md"].replace("name: Squat", "name: Always")
    files = dict(documents(edition_of(write_book(tmp_path, {"exercises/squat.md": note}))))
    page = files["programs/lantern/index.html"].decode()
    assert "<li><b>Always.</b> Set the safeties first.</li>" in page
    assert "<li>Set the safeties first.</li>" not in page


def test_a_program_gathers_all_that_concern_it(edition: Edition) -> None:
    assert by_source(edition, "lantern") == {
        "Always": [*USUAL, SITES],
        "This program": [OWN],
        "Squat": ["Set the safeties first."],
        "Circuit": ["Keep the floor clear."],
        "Drop set": ["Rack it before you change it."],
    }


def test_the_usual_ones_are_there_for_a_program_without_any_of_its_own(edition: Edition) -> None:
    assert by_source(edition, "tally") == {"Always": [*USUAL, SITES]}


def test_a_caution_said_twice_is_shown_once(tmp_path: Path) -> None:
    site = SITE.replace(SITES, "Set the safeties first.")
    found = by_source(edition_of(write_book(tmp_path, {"site.yaml": site})), "lantern")
    assert [text for texts in found.values() for text in texts].count("Set the safeties first.") == 1


@pytest.mark.parametrize(
    "words",
    [
        ("heart", "pregnant", "surgery", "doctor"),
        ("chest", "dizziness", "fainting", "breathlessness", "get help"),
        ("safeties", "spotter", "collars"),
        ("lighter", "good form"),
        ("medical", "rules of your gym", "licensed professionals"),
    ],
)
def test_the_usual_cautions_speak_of_what_hurts(words: tuple[str, ...]) -> None:
    assert any(all(word in text for word in words) for text in USUAL)


def test_every_page_where_a_reader_decides_or_lifts_has_them(files: dict[str, bytes]) -> None:
    all_of_it = [*USUAL, SITES, OWN, "Set the safeties first.", "Rack it before you change it."]
    expected = {
        "index.html": [*USUAL, SITES],
        "programs/lantern/index.html": all_of_it,
        "programs/tally/index.html": [*USUAL, SITES],
        **{f"programs/lantern/week-{week}.html": [*SHORT, OWN] for week in (1, 2, 3)},
        "programs/tally/week-1.html": list(SHORT),
        "exercises/squat.html": ["Set the safeties first."],
        "techniques/drop-set.html": ["Rack it before you change it."],
    }
    for path, cautions in expected.items():
        for caution in cautions:
            assert caution in text_of(files[path]), path


def test_each_session_of_a_sheet_has_the_short_cautions(files: dict[str, bytes]) -> None:
    assert text_of(files["programs/lantern/week-1.html"]).count(SHORT[0]) == 2


def test_every_sheet_on_paper_has_them(files: dict[str, bytes]) -> None:
    with pdfplumber.open(io.BytesIO(files["programs/lantern/week-1-a4.pdf"])) as sheet:
        for page in sheet.pages:
            assert "Stop for chest pain" in (page.extract_text() or "")


def shipped_file(name: str) -> str:
    return (shipped("themes") / "noticeboard" / name).read_text(encoding="utf-8")


def with_theme(folder: Path, name: str, change: Drop, *, draft: bool = False) -> Edition:
    """The book with one of the theme's files changed."""
    before = shipped_file(name)
    after = change(before)
    assert after != before
    return edition_of(write_book(folder, {f"theme/{name}": after}), draft=draft)


def drop(pattern: str) -> Drop:
    return lambda text: re.sub(pattern, "", text)


@pytest.mark.parametrize(
    ("name", "pattern", "page"),
    [
        ("home.html", r"{{ m\.usual_cautions\(.*?\) }}", "index.html"),
        ("program.html", r"{{ m\.all_cautions\(.*?\) }}", "programs/lantern/index.html"),
        ("exercise.html", r"{{ m\.note_cautions\(.*?\) }}", "exercises/squat.html"),
        ("technique.html", r"{{ m\.note_cautions\(.*?\) }}", "techniques/circuit.html"),
        ("macros.html", r"{{ short_cautions\(.*?\) }}", "programs/lantern/week-1.html"),
    ],
)
def test_a_theme_that_drops_a_caution_is_refused(tmp_path: Path, name: str, pattern: str, page: str) -> None:
    changed = with_theme(tmp_path, name, drop(pattern))
    with pytest.raises(ThemeError, match=f"leaves out a caution on {re.escape(page)}: "):
        list(documents(changed))


def test_a_theme_that_drops_only_the_last_of_them_is_refused(tmp_path: Path) -> None:
    changed = with_theme(
        tmp_path,
        "macros.html",
        lambda text: text.replace("plain_list(site.cautions)", "plain_list(site.cautions[:-1])"),
    )
    with pytest.raises(ThemeError, match=r"leaves out a caution on index\.html: 'Ask at the desk"):
        list(documents(changed))


def test_a_theme_that_does_not_say_draft_is_refused(tmp_path: Path) -> None:
    changed = with_theme(tmp_path, "base.html", drop(r"{{ m\.draft_notice\(\) }}"), draft=True)
    with pytest.raises(ThemeError, match=r"home\.html does not say that index\.html is a draft"):
        list(documents(changed))


def test_the_same_theme_will_do_where_nothing_is_a_draft(tmp_path: Path) -> None:
    changed = with_theme(tmp_path, "base.html", drop(r"{{ m\.draft_notice\(\) }}"))
    assert dict(documents(changed))["index.html"]


def test_a_program_cannot_hide_a_caution_behind_a_look_alike(tmp_path: Path) -> None:
    """Signs that HTML escapes are found as they are written, and missed when they are not there."""
    sly = LANTERN.replace('\\"braced\\"', "<b>braced</b> & so on")
    edition = edition_of(write_book(tmp_path, {"programs/lantern.yaml": sly}))
    assert "flat, <b>braced</b> & so on, in" in text_of_escaped(dict(documents(edition))["programs/lantern/index.html"])


def text_of_escaped(html: bytes) -> str:
    return unescape(html.decode())

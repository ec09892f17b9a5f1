"""The words of paper: in the site's language wherever they are not the author's own, and set anew if they change."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pikepdf
import pytest
from plateset.publishing.documents import documents, site_view
from plateset.publishing.in_short import session_in_short
from plateset.publishing.language import ENGLISH, language_of
from plateset.publishing.studio import Studio
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped
from plateset.theme_files import phrases_on_paper

from tests.publishing.building import LANTERN, SITE, edition_of, write_book
from tests.publishing.paper import lift, page_texts, session, single, work_sets
from tests.publishing.phrases import THEME, phrases

MARK = "§"
HEAD = 'msgid ""\nmsgstr "Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n'


def marked() -> str:
    """A catalogue of a language in which everything is said as in English, behind a mark."""
    said = [phrase.replace("\\", "\\\\").replace('"', '\\"') for phrase in phrases() if isinstance(phrase, str)]
    return HEAD + "".join(f'msgid "{phrase}"\nmsgstr "{MARK}{phrase}"\n\n' for phrase in said)


PROGRAM = LANTERN.replace("weekly sets: {quads: 6-8", "weekly sets: {quads: 16-18")


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """What each sheet of a program says, by its site path."""
    site = SITE + "language: nb\naddress: https://barn.example\n"
    changes = {"site.yaml": site, "theme/words.nb.po": marked(), "programs/lantern.yaml": PROGRAM}
    files = dict(documents(edition_of(write_book(tmp_path_factory.mktemp("marked"), changes), draft=True)))
    return {path: " ".join(page_texts(data)) for path, data in files.items() if path.endswith(".pdf")}


@pytest.fixture(scope="module")
def texts(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """What the texts to paste and the calendar of a program say, by their site path."""
    site = SITE + "language: nb\naddress: https://barn.example\n"
    changes = {"site.yaml": site, "theme/words.nb.po": marked(), "programs/lantern.yaml": PROGRAM}
    files = dict(documents(edition_of(write_book(tmp_path_factory.mktemp("texts"), changes), draft=True)))
    found = {path: data.decode() for path, data in files.items() if path.endswith((".txt", ".md", ".ics"))}
    return {path: re.sub(r"\r\n ", "", text) for path, text in found.items() if path.startswith("programs/")}


IN_TEXTS = {
    "Draft: not checked, do not train from it.", "The whole program, with sheets to print:", "For whom", "Not for",
    "Before you lift", "In this program", "Edition 1", "rest 3 min", "bodyweight", "By Osla Brandt", "WEEK 1",
    "Stop for chest pain", "warm-up 27,5 kg", "70 % of max", "Level", "Intermediate", "Minutes a session",
}  # fmt: skip
"""What those say of a program besides its own words."""


def phrases_of_templates() -> set[str]:
    """What the templates for paper say, but for phrases with values in them."""
    templates = [path.read_bytes() for path in sorted((THEME / "paper").glob("*.typ"))]
    return {phrase for template in templates for phrase in phrases_on_paper(template) if "%(" not in phrase}


def test_all_that_is_pasted_or_put_in_a_calendar_is_said_in_the_language(texts: dict[str, str]) -> None:
    """Besides what the author wrote, nothing but numbers, signs and units stands there without a mark."""
    found: set[str] = set()
    for said in texts.values():
        for phrase in IN_TEXTS:
            for match in re.finditer(rf"(?<![\w-]){re.escape(phrase)}(?![\w-])", said):
                assert said[match.start() - 1] == MARK, said[match.start() - 40 : match.end()]
                found.add(phrase)
    assert found == IN_TEXTS


def test_one_side_at_a_time_is_told_in_the_language_once() -> None:
    words = (
        HEAD
        + 'msgid "%(what)s each side"\nmsgstr "per side: %(what)s"\n\n'
        + 'msgid "%(sets)s at %(load)s"\nmsgstr "%(sets)s med %(load)s"\n'
    )
    language = language_of("nb", (words.encode(),))
    ramp = (*work_sets(2, "60 kg", "8"), *work_sets(1, "80 kg", "3"))
    sided = session("Mon", "M", single(lift("Lunge", "60–80 kg", "per side: 3–8", set_views=ramp)))
    assert session_in_short(sided, language)[0].startswith("Lunge: 2 × per side: 8 med 60 kg, then 1 × per side: 3 med")
    plain = session("Mon", "M", single(lift("Squat", "60–80 kg", "3–8", set_views=ramp)))
    assert session_in_short(plain, language)[0].startswith("Squat: 2 × 8 med 60 kg, then 1 × 3 med 80 kg")


def test_all_that_a_sheet_says_is_said_in_the_language(sheets: dict[str, str]) -> None:
    given = {
        "about 33 min",
        "rest 3 min",
        "Warm-up:",
        "Edition 1",
        "tempo 3-1-X-0",
        "page 1 of 4",
        "blank log",
        "bodyweight",
    }
    found: set[str] = set()
    for said in sheets.values():
        for phrase in phrases_of_templates() | given:
            for match in re.finditer(rf"(?<![\w-]){re.escape(phrase)}(?![\w-])", said):
                assert said[match.start() - 1] == MARK, said[match.start() - 30 : match.end()]
                found.add(phrase)
    assert given <= found
    assert len(found) > 35


def test_what_the_author_wrote_is_not_said_otherwise(sheets: dict[str, str]) -> None:
    """A technique of theirs that is called as ours is, too."""
    whole = sheets["programs/lantern/program-a4.pdf"]
    assert " Lantern & oil " in whole
    assert " Drop set: Rack it" in whole
    assert " Circuit: Keep the floor clear." in whole.replace(f"{MARK}Circuit {MARK}Rest", "")


def test_a_blank_log_keeps_bodyweight_in_the_language_alone(sheets: dict[str, str]) -> None:
    log = sheets["programs/lantern/log-a4.pdf"]
    assert f"Pull-up 3 × 5 {MARK}bodyweight" in log
    assert not re.search(r"\d kg", log.replace(f"{MARK}barbell 20 kg", ""))


def test_a_sheet_s_title_is_in_the_language(tmp_path: Path) -> None:
    changes = {"site.yaml": SITE + "language: nb\n", "theme/words.nb.po": marked()}
    files = dict(documents(edition_of(write_book(tmp_path, changes))))
    for name, title in (("week-1", "Week 1"), ("log", "blank log"), ("progress", "Progress record")):
        with pikepdf.open(io.BytesIO(files[f"programs/lantern/{name}-a4.pdf"])) as pdf:
            assert str(pdf.docinfo["/Title"]) == f"Lantern & oil, {MARK}{title}"


def test_a_phrase_that_paper_says_otherwise_sets_sheets_anew_and_no_other_does(tmp_path: Path) -> None:
    theme = find_theme("noticeboard", tmp_path, shipped("themes"))

    def words(phrase: str, said: str) -> bytes:
        return theme.words_on_paper(language_of("nb", ((HEAD + f'msgid "{phrase}"\nmsgstr "{said}"\n').encode(),)))

    assert theme.words_on_paper(ENGLISH) == words("For whom", "For hvem") == b"//{}"
    assert words("Notes", "Notater") == b'//{"Notes": "Notater"}'
    site = site_view(edition_of(write_book(tmp_path / "book")))
    before = Studio(site, theme).on_paper
    (tmp_path / "theme").mkdir()
    (tmp_path / "theme" / "words.en.po").write_text(HEAD + 'msgid "Notes"\nmsgstr "Remarks"\n')
    after = Studio(site, find_theme("noticeboard", tmp_path, shipped("themes"))).on_paper
    assert {name for name in after if after[name] != before[name]} == {"the theme's words for paper"}


@pytest.mark.parametrize(
    ("template", "said"),
    [
        ('#say("Notes")', ("Notes",)),
        ('say("page %(now)s of %(all)s", now: "1") + say( "b")', ("page %(now)s of %(all)s", "b")),
        (r'say("a \"b\" \\ c")', (r'a "b" \ c',)),
        ('unsay("no") + say(name)', ()),
    ],
)
def test_what_a_template_says_is_found(template: str, said: tuple[str, ...]) -> None:
    assert phrases_on_paper(template.encode()) == said

"""The words of the interface in one catalogue, and dates, numbers and paper by the language of the site."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from plateset.catalogue import CatalogueError
from plateset.manuscript.read import read_manuscript
from plateset.publishing.documents import documents
from plateset.publishing.language import (
    ENGLISH,
    Language,
    language_of,
    usual_paper,
)
from plateset.publishing.papers import papers_of
from plateset.publishing.theme import Theme, ThemeError
from plateset.theme_files import catalogue_names

from tests.publishing.building import LANTERN, SITE, edition_of, write_book
from tests.publishing.phrases import CATALOGUE, catalogue, phrases

HEAD = 'msgid ""\nmsgstr "Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n'
NORWEGIAN = HEAD + (
    'msgid "For whom"\nmsgstr "For hvem"\n\n'
    'msgid "quads"\nmsgstr "forside lår"\n\n'
    'msgid "%(num)s day a week"\nmsgid_plural "%(num)s days a week"\n'
    'msgstr[0] "%(num)s dag i uken"\nmsgstr[1] "%(num)s dager i uken"\n'
)


def test_the_catalogue_holds_every_phrase_and_no_other() -> None:
    """If it does not: python -m tests.publishing.phrases."""
    assert CATALOGUE.read_bytes() == catalogue()


def test_phrases_are_found_inside_texts_and_where_it_depends() -> None:
    found = phrases()
    assert {"and", "min", "to", "from %(mass)s for %(reps)s"} <= found.keys()  # in f-strings
    assert {"RPE %(number)s", "%(number)s RIR"} <= found.keys()  # one or the other
    assert "RPE %(number)s%(number)s RIR" not in found


def test_the_catalogue_is_read_by_what_reads_it() -> None:
    english = language_of("en", (CATALOGUE.read_bytes(),))
    for phrase in phrases():
        if isinstance(phrase, str):
            assert english.say(phrase) == phrase
        else:
            assert (english.count(*phrase, 1), english.count(*phrase, 2)) == phrase


# -- words --------------------------------------------------------------------------------------------------


def test_a_phrase_is_said_as_its_catalogue_has_it_or_in_english() -> None:
    language = language_of("nb", (NORWEGIAN.encode(),))
    assert language.say("For whom") == "For hvem"
    assert language.say("Not for") == "Not for"
    assert language.count("%(num)s day a week", "%(num)s days a week", 3) == "%(num)s dager i uken"
    assert language.count("one", "many", 2) == "many"


def test_an_own_catalogue_goes_before_the_themes() -> None:
    own = HEAD + 'msgid "For whom"\nmsgstr "Passer for"\n'
    language = language_of(
        "nb",
        (
            own.encode(),
            NORWEGIAN.encode(),
        ),
    )
    assert language.say("For whom") == "Passer for"
    assert language.say("quads") == "forside lår"


def test_the_closest_catalogue_goes_first() -> None:
    assert catalogue_names("nb-NO") == ("words.nb-NO.po", "words.nb.po")
    assert catalogue_names("en") == ("words.en.po",)


@pytest.mark.parametrize("data", [b'msgid "a\n', b"\xff\xfe", b"words, but none that a catalogue holds"])
def test_a_catalogue_that_cannot_be_read_is_told(data: bytes, tmp_path: Path) -> None:
    with pytest.raises(CatalogueError):
        language_of("nb", (data,))
    (tmp_path / "words.nb.po").write_bytes(data)
    with pytest.raises(ThemeError, match=r"the theme 'mine', words\.nb\.po: "):
        Theme("mine", (tmp_path,)).language("nb")


FAULTY = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n{head}\n{phrase}\n'


@pytest.mark.parametrize(
    ("head", "phrase", "fault"),
    [
        ("", 'msgid "%(number)s RIR"\nmsgstr "%(numer)s RIR"', r"line 5: '%\(numer\)s RIR' cannot be filled in"),
        ("", 'msgid "%(num)s day"\nmsgid_plural "%(num)s days"\nmsgstr[0] "100 % x"\nmsgstr[1] "%(num)s d"', "line 5"),
        ('"Plural-Forms: nplurals=2; plural=(n % 0);\\n"', 'msgid "a"\nmsgstr "b"', "zero"),
        ('"Plural-Forms: nplurals=2; plural=import os;\\n"', 'msgid "a"\nmsgstr "b"', "plural"),
    ],
)
def test_a_catalogue_that_would_fail_a_page_is_told_as_such(head: str, phrase: str, fault: str, tmp_path: Path) -> None:
    book = write_book(tmp_path)
    (book / "theme").mkdir()
    edition = edition_of(book)
    (book / "theme" / "words.en.po").write_text(FAULTY.format(head=head, phrase=phrase), "utf-8")  # after the proof
    with pytest.raises(ThemeError, match=rf"words\.en\.po: .*{fault}"):
        list(documents(edition))


def test_a_manuscript_says_its_own_words(tmp_path: Path) -> None:
    changes = {"site.yaml": SITE + "language: nb\n", "theme/words.nb.po": NORWEGIAN}
    files = dict(documents(edition_of(write_book(tmp_path, changes))))
    page = files["programs/lantern/index.html"].decode()
    assert '<html lang="nb">' in page
    assert '<h2 id="part-suits">For hvem</h2>' in page
    assert "Forside lår" in page
    assert "2. mars 2026" in page
    assert "2 dager i uken" in files["programs/by-days.html"].decode()


def test_the_head_of_a_page_is_in_the_language_and_a_title_of_the_authors_stays(tmp_path: Path) -> None:
    own = {
        "Programs": "Programmer",
        "Techniques": "Teknikker",
        "Exercise": "Øvelse",
        "%(lift)s: set-up, cues, faults and cautions.": "%(lift)s: oppsett og feil.",
        "The sheet of %(week)s.": "Arket til %(week)s.",
        "All techniques of this site.": "Alle teknikker.",
    }
    words = HEAD + "".join(f'msgid "{phrase}"\nmsgstr "{said}"\n\n' for phrase, said in own.items())
    changes = {
        "site.yaml": SITE + "language: nb\naddress: https://barn.example\n",
        "theme/words.nb.po": words,
        "programs/lantern.yaml": LANTERN.replace("title: Lantern & oil", "title: Techniques"),
    }
    files = dict(documents(edition_of(write_book(tmp_path, changes))))
    heads = {path: files[path].decode().partition("<body")[0] for path in files if path.endswith(".html")}
    assert "<title>Techniques – " in heads["programs/lantern/index.html"]
    assert '"name":"Programmer"' in heads["programs/lantern/index.html"]
    assert '"name":"Techniques"' in heads["programs/lantern/index.html"]
    assert 'content="Arket til Techniques, week 1."' in heads["programs/lantern/week-1.html"]
    assert "<title>Teknikker – " in heads["techniques/index.html"]
    assert 'content="Alle teknikker."' in heads["techniques/index.html"]
    assert 'content="Squat: oppsett og feil."' in heads["exercises/squat.html"]
    assert ". Øvelse. " in heads["exercises/squat.html"]


@pytest.mark.parametrize(("tag", "said"), [("de", "Woche 1"), ("nb", "uke 1"), ("en", "week 1")])
def test_a_noun_keeps_its_capital_where_the_language_wants_it(tag: str, said: str, tmp_path: Path) -> None:
    word = {"de": "Woche", "nb": "Uke", "en": "Week"}[tag]
    words = HEAD + f'msgid "Week %(number)s"\nmsgstr "{word} %(number)s"\n'
    changes = {"site.yaml": SITE + f"language: {tag}\n", f"theme/words.{tag}.po": words}
    files = dict(documents(edition_of(write_book(tmp_path, changes))))
    assert f"<title>Lantern &amp; oil, {said} – " in files["programs/lantern/week-1.html"].decode()
    assert f"On to {said.replace('1', '2')}" in files["programs/lantern/week-1.html"].decode()


def test_a_translated_caution_still_has_to_be_shown(tmp_path: Path) -> None:
    caution = "Loads are worked out, not prescribed for you."
    english = next(phrase for phrase in phrases() if isinstance(phrase, str) and phrase.startswith(caution))
    said = "Vektene er regnet ut, ikke foreskrevet for deg. Begynn lettere, og la være det som ikke går med god form."
    own = HEAD + f'msgid "{english}"\nmsgstr "{said}"\n'
    changes = {"site.yaml": SITE + "language: nb\n", "theme/words.nb.po": own}
    page = dict(documents(edition_of(write_book(tmp_path, changes))))["programs/lantern/index.html"].decode()
    assert said in page
    assert caution not in page


def test_a_translation_is_text_but_markup_of_what_it_places_is_not(tmp_path: Path) -> None:
    """The catalogue belongs to the theme and is trusted; a program's title that it places is not."""
    own = HEAD + 'msgid "By %(name)s"\nmsgstr "Av %(name)s"\n'
    site = SITE.replace("name: Osla Brandt", "name: <b>Osla</b>") + "language: nb\n"
    files = dict(documents(edition_of(write_book(tmp_path, {"site.yaml": site, "theme/words.nb.po": own}))))
    assert "Av &lt;b&gt;Osla&lt;/b&gt;" in files["explainers/why-the-row.html"].decode()


def test_a_translation_that_loses_a_place_is_told_with_its_template(tmp_path: Path) -> None:
    own = HEAD + 'msgid "By %(name)s"\nmsgstr "Av %(navn)s"\n'
    book = write_book(tmp_path, {"site.yaml": SITE + "language: nb\n", "theme/style.css": "p {}"})
    edition = edition_of(book)
    (book / "theme" / "words.nb.po").write_text(own, "utf-8")
    with pytest.raises(ThemeError, match="navn"):
        list(documents(edition))


# -- dates, numbers and paper -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tag", "day", "number", "weekday"),
    [
        ("en", "2 March 2026", "1234.5", "Monday"),
        ("en-US", "March 2, 2026", "1234.5", "Monday"),
        ("nb", "2. mars 2026", "1234,5", "mandag"),
        ("de-CH", "2. März 2026", "1234.5", "Montag"),
        ("xx", "2 March 2026", "1234.5", "Monday"),
    ],
)
def test_dates_and_numbers_are_those_of_the_language(tag: str, day: str, number: str, weekday: str) -> None:
    """Expected after Unicode CLDR, as the Babel library carries it."""
    language = Language(tag)
    assert language.date(date(2026, 3, 2)) == day
    assert language.number(Decimal("1234.50")) == number
    assert language.weekday(1) == weekday


@pytest.mark.parametrize(("value", "said"), [("0", "0"), ("1E+2", "100"), ("2.50", "2.5"), ("0.125", "0.125")])
def test_a_number_has_no_trailing_noughts(value: str, said: str) -> None:
    assert ENGLISH.number(Decimal(value)) == said


@pytest.mark.parametrize(
    ("tag", "paper"), [("en", "a4"), ("en-US", "letter"), ("es-MX", "letter"), ("nb-NO", "a4"), ("xx-zz1", "a4")]
)
def test_the_paper_is_that_of_the_country(tag: str, paper: str) -> None:
    assert usual_paper(tag) == paper


@pytest.mark.parametrize(
    ("more", "papers"), [("language: en-US\n", ("letter",)), ("paper: [a4]\nlanguage: en-US\n", ("a4",))]
)
def test_the_authors_choice_of_paper_stands(tmp_path: Path, more: str, papers: tuple[str, ...]) -> None:
    site = SITE.replace("paper: [a4]\n", "") + more
    assert papers_of(read_manuscript(write_book(tmp_path, {"site.yaml": site}), "book")) == papers

"""What a manuscript's own words and templates say is read by the proof, and told with its place."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import Environment
from plateset.placed_marks import PlacedMark
from plateset.pressing import Options, press
from plateset.problems import ManuscriptError, Problem
from plateset.proving import proof
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped
from plateset.template_form import FILTERS
from plateset.usual_cautions import SAID_WHOLE

from tests.publishing.building import SITE, write_book

HEAD = 'msgid ""\nmsgstr "Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n'
AS_DRAFT = Options(as_draft=True)


def problems(folder: Path) -> list[Problem]:
    try:
        proof(folder, "book")
    except ManuscriptError as error:
        return error.problems
    return []


def marks(folder: Path) -> list[PlacedMark]:
    return [each for each in proof(folder, "book").prose if each.mark.name == "phrase-unused"]


def book_with(folder: Path, **files: str) -> Path:
    return write_book(folder / "book", {f"theme/{name}": text for name, text in files.items()})


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ('msgid "Notes"\nmsgstr "Remarks\n', [5]),  # the library says "Remark"
        ('msgid "Notes\nmsgstr "Remarks"\n', [4]),
        ('msgid "Notes"\nmsgstr Remarks\n', [5]),  # and here "emark"
        ('msgid "Notes"\nmsgstr "say "hi" to"\n', [5]),
        ('msgid "Notes"\nmsgstrr "Remarks"\n', [5]),
        ('Notes = Remarks\nmsgid "Notes"\nmsgstr "Remarks"\nmsgstr[x] "R"\n', [4, 7]),
        ('msgid "Notes"\nmsgstr "A"\n\nmsgid ""\n"Not"\n"es"\nmsgstr "B"\n', [7]),
        ('msgid "Notes"\n\nmsgid "Weeks"\nmsgstr "B"\n', [4]),
        ('msgid "%(number)s RIR"\nmsgstr "%(n)s RIR"\n\nmsgid "RPE %(number)s"\nmsgstr "%s RPE"\n', [4, 7]),
    ],
)
def test_every_slip_in_a_catalogue_is_told_with_its_line(text: str, lines: list[int], tmp_path: Path) -> None:
    book = book_with(tmp_path, **{"words.en.po": HEAD + text})
    found = problems(book)
    assert [each.place.line for each in found] == lines
    assert all(each.place.path == "book/theme/words.en.po" and each.expected for each in found)
    assert all(each.place.excerpt == (HEAD + text).split("\n")[each.place.line - 1] for each in found)
    with pytest.raises(ManuscriptError):
        press(book, "book", tmp_path / "site", AS_DRAFT)
    assert not (tmp_path / "site").exists()


@pytest.mark.parametrize(
    "text",
    [
        '# A remark\n#, fuzzy\nmsgid "Nots"\nmsgstr "Remarks"\n#~ msgid "Old"\n#~ msgstr "x\n',
        'msgid "Notes"\nmsgstr ""\n  "Re"\t\n"\\"marks\\""\n',
        'msgid "Nothing like it"\nmsgstr ""\n',
        'msgctxt "one"\nmsgid "Notes"\nmsgstr "A"\n\nmsgctxt "other"\nmsgid "Notes"\nmsgstr "B"\n',
        'msgid "Notes"\r\nmsgstr "line\u2028line"\r\n',
    ],
)
def test_a_catalogue_may_hold_what_the_format_allows(text: str, tmp_path: Path) -> None:
    book = book_with(tmp_path, **{"words.en.po": HEAD + text})
    assert problems(book) == []
    assert marks(book) == []


def test_a_catalogue_with_a_rule_that_cannot_count_is_told_as_a_whole(tmp_path: Path) -> None:
    text = 'msgid ""\nmsgstr "Plural-Forms: nplurals=2; plural=(n % 0);\\n"\n\nmsgid "Notes"\nmsgstr "x"\n'
    (problem,) = problems(book_with(tmp_path, **{"words.nb.po": text}))
    assert str(problem.place) == "book/theme/words.nb.po"


@pytest.mark.parametrize("caution", sorted(SAID_WHOLE))
@pytest.mark.parametrize(
    ("name", "said", "sound"),
    [
        ("words.nb.po", "{}", True),
        ("words.nb.po", ".", False),
        ("words.nb.po", "Ok", False),
        (
            "words.nb.po",
            "... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ... ...",
            False,
        ),
        ("words.en.po", "{}", True),
        ("words.en.po", "{} Or not.", False),
        ("words.en-US.po", "Go on, it will be fine. " * 40, False),
    ],
)
def test_a_catalogue_cannot_leave_a_caution_out(
    caution: str, name: str, said: str, sound: bool, tmp_path: Path
) -> None:
    text = f'msgid "{caution}"\nmsgstr "{said.format(caution)}"\n'
    found = problems(book_with(tmp_path, **{name: HEAD + text}))
    assert [each.place.line for each in found] == ([] if sound else [4])


def test_a_caution_in_few_signs_is_whole(tmp_path: Path) -> None:
    """In Chinese, by hand."""
    caution = "Stop for chest pain, dizziness, breathlessness out of proportion, or sharp pain, and get help."
    assert caution in SAID_WHOLE
    said = "如出现胸痛、头晕、异常气喘或剧痛，请立即停止并寻求帮助。"
    text = f'msgid "{caution}"\nmsgstr "{said}"\n\nmsgid "Draft"\nmsgstr "草稿"\n'
    assert problems(book_with(tmp_path, **{"words.zh.po": HEAD + text})) == []


def test_a_phrase_that_nothing_says_is_asked_about_with_the_nearest(tmp_path: Path) -> None:
    text = HEAD + 'msgid "For whon"\nmsgstr "Who it is for"\n\nmsgid "For whom"\nmsgstr "Who"\n'
    book = book_with(tmp_path, **{"words.en.po": text})
    (found,) = marks(book)
    assert (found.mark.severity, found.place.line) == ("query", 4)
    assert "'For whon'" in found.mark.message
    assert "'For whom'" in found.mark.remedy


def test_a_counted_phrase_without_its_plural_is_asked_about(tmp_path: Path) -> None:
    single = 'msgid "%(num)s day a week"\nmsgstr "%(num)s d"\n'
    (found,) = marks(book_with(tmp_path, **{"words.en.po": HEAD + single}))
    assert "msgid_plural" in found.mark.message


def test_the_press_counts_the_phrases_that_nothing_says(tmp_path: Path) -> None:
    plain = press(write_book(tmp_path / "plain"), "plain", tmp_path / "one", AS_DRAFT).tally
    book = book_with(tmp_path, **{"words.en.po": HEAD + 'msgid "For whon"\nmsgstr "Who"\n'})
    assert press(book, "book", tmp_path / "site", AS_DRAFT).tally.query == plain.query + 1


def test_a_phrase_of_an_own_template_or_sheet_may_be_said(tmp_path: Path) -> None:
    words = HEAD + "".join(
        f'msgid "{phrase}"\nmsgstr "x"\n\n' for phrase in ("Of my own", "On my sheet", "In my part", "My block")
    )
    words += 'msgid "%(num)s lamp"\nmsgid_plural "%(num)s lamps"\nmsgstr[0] "%(num)s x"\nmsgstr[1] "%(num)s x"\n'
    files = {
        "words.en.po": words,
        "404.html": "{{ _('Of my own') }}{% include 'mine.html' %}<i data-draft></i>",
        "mine.html": "{{ _('In my part') }}{% trans %}My block{% endtrans %}"
        "{{ ngettext('%(num)s lamp', '%(num)s lamps', 2) }}",
        "paper/title.typ": (shipped("themes") / "noticeboard" / "paper" / "title.typ").read_text("utf-8")
        + '\n#let mine = say("On my sheet")\n',
    }
    book = book_with(tmp_path, **files)
    assert problems(book) == []
    assert marks(book) == []


@pytest.mark.parametrize(
    ("text", "line", "message", "nearest"),
    [
        ("fine\n  {% if page %}", 2, "this is no template", ""),
        ("{{ page.title | capp }}", 1, "this is no template", ""),
        ("\n\n{{ page.title", 3, "this is no template", ""),
        ("x\n{% extends 'bse.html' %}", 2, "there is no template called 'bse.html'", "base.html"),
        ("{% from 'macro.html' import link %}", 1, "there is no template called 'macro.html'", "macros.html"),
    ],
)
def test_a_template_that_cannot_be_read_is_told_with_its_line(
    text: str, line: int, message: str, nearest: str, tmp_path: Path
) -> None:
    book = book_with(tmp_path, **{"404.html": text})
    (problem,) = problems(book)
    assert (problem.place.path, problem.place.line, problem.nearest) == ("book/theme/404.html", line, nearest)
    assert problem.message.startswith(message)
    with pytest.raises(ManuscriptError):
        press(book, "book", tmp_path / "site", AS_DRAFT)


@pytest.mark.parametrize(
    "text",
    [
        "{% for a in b %}" * 25 + "{% endfor %}" * 25,
        "{% if a %}" * 120 + "{% endif %}" * 120,
        "{{ " + "(" * 3000 + "1" + ")" * 3000 + " }}",
        "{{ " + "9" * 5000 + " }}",
        "{% macro a(b, b) %}{% endmacro %}",
        "{{ a(b=1, b=2) }}",
    ],
)
def test_a_template_that_python_refuses_is_told_as_a_whole(text: str, tmp_path: Path) -> None:
    (problem,) = problems(book_with(tmp_path, **{"404.html": text}))
    assert str(problem.place) == "book/theme/404.html"
    assert problem.message.startswith("this is no template: ")


def test_a_part_of_a_template_is_read_too_and_one_that_may_lack_may(tmp_path: Path) -> None:
    files = {"404.html": "{% include 'none.html' ignore missing %}{% include 'mine.html' %}", "mine.html": "{% x %}"}
    (problem,) = problems(book_with(tmp_path, **files))
    assert str(problem.place) == "book/theme/mine.html:1:1"


def test_a_template_that_is_no_text_is_told(tmp_path: Path) -> None:
    book = book_with(tmp_path, **{"404.html": ""})
    (book / "theme" / "404.html").write_bytes(b"caf\xe9")
    assert [each.message for each in problems(book)] == ["this is not UTF-8 text"]


def test_all_is_told_in_one_run(tmp_path: Path) -> None:
    files = {
        "site.yaml": SITE + "colour: red\n",
        "theme/words.en.po": "x",
        "theme/404.html": "{% if %}",
        "theme/words.nb.po": "y",
    }
    found = {each.place.path for each in problems(write_book(tmp_path / "book", files))}
    assert "book/site.yaml" in found
    files["site.yaml"] = SITE
    found = {each.place.path for each in problems(write_book(tmp_path / "sound", files))}
    assert found == {"book/theme/words.en.po", "book/theme/404.html", "book/theme/words.nb.po"}


def test_the_filters_known_are_those_that_templates_get() -> None:
    theme = find_theme("noticeboard", shipped("themes"), shipped("themes"))
    own = theme.environment().filters.keys() - Environment(extensions=["jinja2.ext.i18n"]).filters.keys()
    assert own == set(FILTERS)

"""Themes: a manuscript's own files before the shipped ones, and every fault told with its file."""

from __future__ import annotations

import gc
import struct
import weakref
import zlib
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from threading import Event
from types import SimpleNamespace

import pytest
from plateset.problems import ManuscriptError
from plateset.publishing.documents import documents
from plateset.publishing.theme import ASSETS, Pages, Theme, ThemeError, find_theme
from plateset.shipped import shipped

from tests.publishing.building import SITE, edition_of, write_book

PAGE = {"title": "T", "description": "D", "path": "programs/a/index.html", "kind": "it"}


def themes(folder: Path) -> Path:
    """Two shipped themes."""
    for name in ("plain", "other"):
        (folder / "themes" / name).mkdir(parents=True)
        (folder / "themes" / name / "style.css").write_text(name)
        (folder / "themes" / name / "page.html").write_text(f"{name} {{{{ page.title }}}}")
    return folder / "themes"


def test_an_own_file_stands_before_the_shipped_one_and_the_others_stay(tmp_path: Path) -> None:
    shelf = themes(tmp_path)
    (tmp_path / "theme").mkdir()
    (tmp_path / "theme" / "style.css").write_text("mine")
    theme = find_theme("plain", tmp_path, shelf)
    assert theme.read("style.css") == b"mine"
    assert Pages(theme, {}).render("page.html", PAGE, {}) == "plain T"


def test_without_own_files_the_shipped_ones_are_used(tmp_path: Path) -> None:
    assert find_theme("other", tmp_path, themes(tmp_path)).read("style.css") == b"other"


def test_an_unknown_theme_is_told_with_those_there_are(tmp_path: Path) -> None:
    with pytest.raises(ThemeError, match="there is no theme called 'plane'; there is other, plain"):
        find_theme("plane", tmp_path, themes(tmp_path))


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(ThemeError, match=r"the theme 'plain' has no sheet\.typ"):
        find_theme("plain", tmp_path, themes(tmp_path)).read("sheet.typ")


def test_a_manuscripts_templates_for_paper_stand_before_the_shipped_ones(tmp_path: Path) -> None:
    paper = tmp_path / "book" / "theme" / "paper"
    paper.mkdir(parents=True)
    (paper / "lifts.typ").write_text("#let mine = 1")
    shipped_one = find_theme("noticeboard", tmp_path, shipped("themes")).sheet()
    found = find_theme("noticeboard", tmp_path / "book", shipped("themes")).sheet()
    assert (found.main, found.folder) == (shipped_one.main, shipped_one.folder)
    assert found.own == (("lifts.typ", b"#let mine = 1"), ("words.txt", b"//{}"))
    (paper / "sheet.typ").write_text("")
    assert find_theme("noticeboard", tmp_path / "book", shipped("themes")).sheet().main == b""


def test_a_template_for_paper_that_is_no_text_or_not_there_is_told(tmp_path: Path) -> None:
    paper = tmp_path / "book" / "theme" / "paper"
    paper.mkdir(parents=True)
    (paper / "lifts.typ").write_bytes(b"\xff")
    with pytest.raises(ThemeError, match=r"paper/lifts\.typ is not UTF-8 text"):
        find_theme("noticeboard", tmp_path / "book", shipped("themes")).sheet()
    with pytest.raises(ThemeError, match=r"the theme 'plain' has no paper/sheet\.typ"):
        find_theme("plain", tmp_path, themes(tmp_path)).sheet()


@pytest.mark.parametrize(
    ("template", "fault"),
    [
        ("{{ nothing }}", "page.html, line 1: 'nothing' is undefined"),
        ("ok\n{% if %}", "page.html, line 2: Expected an expression"),
        ("{% include 'gone.html' %}", "gone.html"),
        ("{{ page.title + 1 }}", "page.html"),
        ("{{ 1 // 0 }}", "page.html"),
        ("{% macro m(x) %}{{ m(x) }}{% endmacro %}{{ m(1) }}", "page.html"),
    ],
)
def test_a_fault_of_a_template_is_told_with_its_file(tmp_path: Path, template: str, fault: str) -> None:
    (tmp_path / "page.html").write_text(template)
    with pytest.raises(ThemeError) as caught:
        Pages(Theme("mine", (tmp_path,)), {}).render("page.html", PAGE, {})
    assert fault in str(caught.value)


def test_a_template_that_is_not_text_is_told_with_its_file(tmp_path: Path) -> None:
    (tmp_path / "page.html").write_bytes(b"caf\xe9")
    with pytest.raises(ThemeError, match=r"page\.html"):
        Pages(Theme("mine", (tmp_path,)), {}).render("page.html", PAGE, {})


def test_everything_is_escaped_and_links_are_relative(tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text("{{ words }} {{ link('index.html') }}")
    pages = Pages(Theme("mine", (tmp_path,)), {"site": SimpleNamespace(address=""), "words": "<b>&'\""})
    assert pages.render("page.html", PAGE, {}) == "&lt;b&gt;&amp;&#39;&#34; ../../index.html"


def test_a_manuscript_replaces_one_file_of_the_shipped_theme(tmp_path: Path) -> None:
    changes = {
        "theme/style.css": "body { color: black }\n",
        "theme/404.html": "{% extends 'base.html' %}\n{% block main %}<h1>Lost</h1>{% endblock %}\n",
    }
    files = dict(documents(edition_of(write_book(tmp_path, changes))))
    assert files["assets/style.css"] == b"body { color: black }\n"
    assert b"<h1>Lost</h1>" in files["404.html"]
    for name in set(ASSETS) - {"style.css"}:
        assert files[f"assets/{name}"] == (shipped("themes") / "noticeboard" / name).read_bytes()


def test_the_accent_of_the_site_reaches_its_styles(tmp_path: Path) -> None:
    site = SITE + 'colours: {accent: "#123abc"}\n'
    files = dict(documents(edition_of(write_book(tmp_path, {"site.yaml": site}))))
    assert b"--accent: #123abc;" in files["assets/colours.css"]


@pytest.mark.parametrize(
    ("address", "home", "style"),
    [
        ("", "index.html", "assets/style.css"),
        ("https://lifting.example", "/index.html", "/assets/style.css"),
        ("https://host.example/lifting/", "/lifting/index.html", "/lifting/assets/style.css"),
    ],
)
def test_a_page_that_is_not_found_finds_its_styles_at_any_address(
    tmp_path: Path, address: str, home: str, style: str
) -> None:
    site = SITE + (f"address: {address}\n" if address else "")
    files = dict(documents(edition_of(write_book(tmp_path, {"site.yaml": site}))))
    lost = files["404.html"].decode()
    assert f'<link rel="stylesheet" href="{style}">' in lost
    assert f'<a href="{home}">' in lost
    assert '<a class="skip" href="#main">' in lost
    assert '<link rel="stylesheet" href="../assets/style.css">' in files["programs/index.html"].decode()


def test_a_template_that_changes_is_compiled_anew(tmp_path: Path) -> None:
    theme = find_theme("plain", tmp_path, themes(tmp_path))
    page = tmp_path / "themes" / "plain" / "page.html"
    for words in ("first", "other"):
        page.write_text(f"{words} {{{{ page.title }}}}")
        assert Pages(theme, {}).render("page.html", PAGE, {}) == f"{words} T"
        assert Pages(theme, {}).render("page.html", PAGE, {}) == f"{words} T"


# -- what an author sets of the look ------------------------------------------------------------------------


def a_png(width: int, height: int, more: bytes = b"") -> bytes:
    """A PNG picture as far as its chunks go; what the middle one holds is of no interest here."""
    header = struct.pack(">II", width, height) + b"\x08\x06\0\0\0"
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", more) + chunk(b"IEND", b"")


def chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        ("macros.html", "{% macro session(", r"macros\.html, line 1: "),
        ("home.html", "a\nb\n{{ nothing }}", r"home\.html, line 3: 'nothing' is undefined"),
        ("home.html", "a\n{% include 'none.html' %}", r"home\.html, line 2: none\.html"),
        ("home.html", "\n\n{% include 'home.html' %}", r"home\.html, line 3: "),
        ("home.html", "{% for a in b %}" * 25 + "{% endfor %}" * 25, r"home\.html: too many statically nested blocks"),
    ],
)
def test_a_fault_is_told_with_the_file_and_line_it_is_in(name: str, text: str, fault: str, tmp_path: Path) -> None:
    book = write_book(tmp_path)
    (book / "theme").mkdir()
    edition = edition_of(book)
    (book / "theme" / name).write_text(text, "utf-8")  # after the proof, which would tell some of them
    with pytest.raises(ThemeError, match=fault):
        list(documents(edition))


def with_logo(folder: Path, data: bytes) -> dict[str, bytes]:
    write_book(folder, {"site.yaml": SITE + "logo: mark.png\n"})
    (folder / "theme").mkdir()
    (folder / "theme" / "mark.png").write_bytes(data)
    return dict(documents(edition_of(folder)))


def test_a_logo_stands_beside_the_name_with_its_size(tmp_path: Path) -> None:
    files = with_logo(tmp_path, a_png(120, 60))
    assert files["assets/logo.png"] == a_png(120, 60)
    page = files["programs/lantern/index.html"].decode()
    assert '<img src="../../assets/logo.png" alt="" width="120" height="60"> Tannery Row Lifting</a>' in page


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (b"<svg onload='alert(1)'>", "is not a PNG picture"),
        (b"", "is not a PNG picture"),
        (b"\x89PNG\r\n\x1a\n", "is not a PNG picture"),
        (a_png(10, 10)[:40], "is a PNG picture of which a part is missing or damaged"),
        (a_png(10, 10, b"abc").replace(b"abc", b"abd"), "is a PNG picture of which a part is missing or damaged"),
        (a_png(2001, 10), "is larger than a logo may be"),
        (a_png(0, 10), "is larger than a logo may be"),
        (a_png(10, 10, bytes(200_000)), "is larger than a logo may be"),
    ],
)
def test_what_is_no_logo_is_told(tmp_path: Path, data: bytes, fault: str) -> None:
    with pytest.raises(ManuscriptError) as told:
        with_logo(tmp_path, data)
    (problem,) = told.value.problems
    assert problem.message.startswith(f"theme/mark.png {fault}")
    assert problem.place.path.endswith("site.yaml")
    assert problem.place.excerpt == "logo: mark.png"


def test_a_logo_that_was_damaged_meanwhile_is_told(tmp_path: Path) -> None:
    """What it was before, the proof has seen."""
    with_logo(tmp_path, a_png(10, 10))
    edition = edition_of(tmp_path)
    (tmp_path / "theme" / "mark.png").write_bytes(a_png(10, 10)[:40])
    with pytest.raises(
        ThemeError, match=r"the logo 'mark\.png' of site\.yaml is a PNG picture of which a part is missing"
    ):
        list(documents(edition))


def test_a_logo_that_went_away_is_told(tmp_path: Path) -> None:
    """Where it never was, the proof has said so."""
    with_logo(tmp_path, a_png(10, 10))
    edition = edition_of(tmp_path)
    (tmp_path / "theme" / "mark.png").unlink()
    with pytest.raises(ThemeError, match=r"site\.yaml names the logo 'mark\.png', and there is no such file"):
        list(documents(edition))


@pytest.mark.parametrize(("more", "plain"), [("", False), ("type: book\n", False), ("type: plain\n", True)])
def test_the_type_of_the_site_reaches_its_styles(tmp_path: Path, more: str, plain: bool) -> None:
    files = dict(documents(edition_of(write_book(tmp_path, {"site.yaml": SITE + more}))))
    assert (b"--own-type: system-ui" in files["assets/colours.css"]) == plain
    assert b"var(--own-type, Charter" in files["assets/style.css"]


# -- what a template is made of ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tag", "seen"),
    [
        ("{% include 'part.txt' %}", True),
        ('{%- from "part.txt" import x with context -%}', True),
        ("{%+ import 'part.txt' as part %}", True),
        ("{% include 'part.txt' ignore missing %}", True),
        ("{% include 'gone.txt' if 0 else 'part.txt' %}", True),
        ("{% include ['gone.txt', 'part.txt'] %}", True),
        ("{% include 'part' ~ '.txt' %}", True),
        ("{{ 'part.txt' }}", False),
    ],
)
def test_a_template_counts_as_changed_with_whatever_it_may_take_in(tmp_path: Path, tag: str, seen: bool) -> None:
    """A name that is worked out may be any template's."""
    (tmp_path / "page.html").write_text(tag)
    (tmp_path / "part.txt").write_text("{% macro x() %}{% endmacro %}")
    before = Pages(Theme("mine", (tmp_path,)), {}).digest_of("page.html")
    (tmp_path / "part.txt").write_text("{% macro x() %}y{% endmacro %}")
    assert (Pages(Theme("mine", (tmp_path,)), {}).digest_of("page.html") != before) == seen


def test_once_renders_a_macro_once_for_the_same_values_in_one_folder(tmp_path: Path) -> None:
    """Links are relative, so that another folder has a text of its own; equal values that are others do not count."""
    (tmp_path / "page.html").write_text(
        "{% macro m(thing) %}{{ thing.count() }} {{ link('index.html') }}{% endmacro %}{{ once(m, thing) }}"
    )
    numbers = count(1)

    def thing() -> SimpleNamespace:
        return SimpleNamespace(count=lambda: next(numbers))

    pages, one = Pages(Theme("mine", (tmp_path,)), {"site": SimpleNamespace(address="")}), thing()

    def shown(path: str, what: SimpleNamespace) -> str:
        return pages.render("page.html", PAGE | {"path": path}, {"thing": what})

    assert shown("programs/a/index.html", one) == shown("programs/a/week-1.html", one) == "1 ../../index.html"
    assert shown("programs/index.html", one) == "2 ../index.html"
    assert shown("programs/a/index.html", thing()) == "3 ../../index.html"


def test_once_tells_macros_of_the_same_name_apart(tmp_path: Path) -> None:
    (tmp_path / "other.html").write_text("{% macro m(word) %}other {{ word }}{% endmacro %}{{ once(m, word) }}")
    (tmp_path / "page.html").write_text(
        "{% macro m(word) %}own {{ word }}{% endmacro %}{{ once(m, word) }}, {% include 'other.html' %}"
    )
    pages = Pages(Theme("mine", (tmp_path,)), {"site": SimpleNamespace(address="")})
    assert pages.render("page.html", PAGE, {"word": "word"}) == "own word, other word"


def test_pages_rendered_at_the_same_time_keep_to_themselves(tmp_path: Path) -> None:
    """A preview renders for several requests at once: one page that is done takes nothing from another."""
    (tmp_path / "base.html").write_text("{{ pause() }}{% block main %}{% endblock %}")
    (tmp_path / "page.html").write_text(
        '{% extends "base.html" %}{% block main %}{{ word }} {{ page.title }}{% endblock %}'
    )
    pages = Pages(Theme("mine", (tmp_path,)), {"site": SimpleNamespace(address="")})
    begun, done = Event(), Event()

    def pause() -> str:
        begun.set()
        assert done.wait(60)
        return ""

    with ThreadPoolExecutor() as executor:
        slow = executor.submit(pages.render, "page.html", PAGE, {"pause": pause, "word": "slow"})
        assert begun.wait(60)
        assert pages.render("page.html", PAGE, {"pause": str, "word": "fast"}) == "fast T"
        done.set()
        assert slow.result() == "slow T"


@dataclass
class Shown:
    """What a page shows."""

    word: str


@pytest.mark.parametrize("how", ["with context", "without context"])
def test_a_page_once_rendered_holds_nothing_of_what_it_was_made_from(tmp_path: Path, how: str) -> None:
    (tmp_path / "parts.html").write_text("{% macro twice(it) %}{{ it }}{{ it }}{% endmacro %}")
    template = '{% import "parts.html" as parts HOW %}{% macro own() %}{{ parts.twice(it.word) }}{% endmacro %}'
    shown = "{{ own() }} {{ page.title }}"
    (tmp_path / "page.html").write_text(template.replace("HOW", how) + shown)
    pages = Pages(Theme("mine", (tmp_path,)), {"site": SimpleNamespace(address="")})
    gc.collect()
    gc.disable()
    try:
        for word in ("a", "b"):
            it = Shown(word)
            there = weakref.ref(it)
            assert pages.render("page.html", PAGE, {"it": it}) == f"{word}{word} T"
            del it
            assert there() is None
    finally:
        gc.enable()

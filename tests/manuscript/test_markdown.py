"""The reader of Markdown, and the links it finds."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plateset.manuscript import links
from plateset.manuscript.library import Manuscript
from plateset.manuscript.links import links_of
from plateset.manuscript.load import Document
from plateset.manuscript.markdown import markdown_inspector, markdown_reader, target_of
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.schema import Exercise, Program

from tests.conftest import SOUND

FIGURE = "figure:a-block/weekly sets/upper back/week 1"


@pytest.fixture(scope="module")
def manuscript() -> Manuscript:
    return read_manuscript(SOUND, "book")


@pytest.mark.parametrize("written", [f"({FIGURE})", f"(<{FIGURE}>)", f"( {FIGURE} )"])
@pytest.mark.parametrize("text", ["", "14", "*some*"])
def test_figures_may_hold_spaces(written: str, text: str) -> None:
    tokens = markdown_reader().parseInline(f"now [{text}]{written} sets")[0].children or []
    opening = next(token for token in tokens if token.type == "link_open")
    assert opening.attrs["href"] == FIGURE
    assert tokens[-1].content == " sets"


def test_figure_in_code_stays_code() -> None:
    assert "<a" not in markdown_reader().render(f"`[]({FIGURE})`")
    assert "<a" not in markdown_reader().render(f"\\[]({FIGURE})")


def test_percent_escapes_of_names_are_undone() -> None:
    assert target_of("figure:a/weekly%20sets") == "a/weekly sets"
    assert target_of("https://a.example/b%20c") == "//a.example/b%20c"


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "JaVaScRiPt:alert(1)",
        "&#106;avascript:alert(1)",
        "data:text/html,x",
        "vbscript:x",
        "../x",
    ],
)
@pytest.mark.parametrize("form", ["[x]({})", "[x](<{}>)", "<{}>", "[x][y]\n\n[y]: {}"])
def test_addresses_of_other_kinds_are_no_links(address: str, form: str) -> None:
    assert "href" not in markdown_reader().render(form.format(address))


def test_raw_html_and_pictures_are_not_let_through() -> None:
    shown = markdown_reader().render("<script>x</script> <b>b</b>\n\n<div onclick=x>\n\n![p](https://a.example/p.png)")
    assert "<script" not in shown
    assert "<b>" not in shown
    assert "<div" not in shown
    assert "<img" not in shown


def test_tables_are_read() -> None:
    assert "<td>1</td>" in markdown_reader().render("| a |\n| --- |\n| 1 |\n")


@settings(max_examples=200, deadline=None)
@given(st.text(st.sampled_from("ab []()<>:/`*!|\\\n#-&;\"'figureexercisejavascript"), max_size=80))
def test_no_text_brings_the_reader_down(text: str) -> None:
    shown = markdown_reader().render(text)
    assert "javascript:" not in "".join(part for part in shown.split("href=")[1:])
    markdown_inspector().parse(text)


def test_nested_brackets_are_read_in_good_time() -> None:
    for text in ("[" * 5_000, "[](figure:" * 3_000, "![" * 5_000, "[a](<figure:" * 3_000):
        markdown_reader().parse(text)


def test_links_of_a_program_and_their_places(manuscript: Manuscript) -> None:
    program: Document[Program] = manuscript.programs["steady-start"]
    found = [(link.scheme, link.target, link.text, link.line, link.column) for link in links_of(program)]
    assert found == [
        ("exercise", "back-squat", "back squat", 4, 31),
        ("figure", "steady-start/weekly sets/quads/week 1", "", 6, 17),
    ]


def test_same_link_twice_is_found_in_both_places(sound: Path) -> None:
    path = sound / "exercises" / "plank.md"
    body = "[one](exercise:pull-up) and [two](exercise:pull-up)\n\n- [three *times*](exercise:pull-up)\n"
    path.write_text(path.read_text(encoding="utf-8") + body, encoding="utf-8")
    exercise: Document[Exercise] = read_manuscript(sound, "book").exercises["plank"]
    found = [(link.text, link.line, link.column) for link in links_of(exercise)]
    assert found == [("one", 8, 7), ("two", 8, 35), ("three times", 10, 19)]


def test_an_address_that_is_written_otherwise_is_looked_for_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each search goes to the end of the file: thousands of them took hours."""
    sought: list[str] = []

    def find(lines: tuple[str, ...], address: str, line: int, column: int) -> tuple[int, int] | None:
        sought.append(address)
        return found(lines, address, line, column)

    found = links._find
    monkeypatch.setattr(links, "_find", find)
    text = "[a]\n" * 50 + "[b](https://x.example/b) [b](https://x.example/b)\n\n[a]: https://x.example/&amp;y\n"
    got = links._links(tuple(text.split("\n")), text, 1)
    assert len(got) == 52
    assert sought.count("https://x.example/&y") == 1
    assert [(link.line, link.column) for link in got[-2:]] == [(51, 5), (51, 30)]

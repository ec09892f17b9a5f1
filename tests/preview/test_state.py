"""The last good pages stay, whatever happens to the manuscript."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.preview.making import next_state, unseen_pages
from plateset.preview.panel import problems, proof_panel, status
from plateset.preview.state import State
from plateset.publishing.theme import ThemeError

from tests.publishing.building import LANTERN, write_book

LANTERN_PAGE = "programs/lantern/index.html"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book")


def made(state: State, path: str) -> str:
    assert state.pressed is not None
    return state.pressed.files[path]().decode()


def write(book: Path, old: str, new: str, name: str = "programs/lantern.yaml") -> None:
    text = (book / name).read_text("utf-8")
    assert old in text
    (book / name).write_text(text.replace(old, new), "utf-8")


def test_good_pages_then_a_slip_then_mended(book: Path) -> None:
    first = next_state(State(), book, "book")
    assert (first.edition, first.news, first.is_sound) == (1, 1, True)
    assert "Lantern &amp; oil" in made(first, LANTERN_PAGE)

    write(book, "exercise: squat\n", "exercise: sqat\n")
    slipped = next_state(first, book, "book")
    assert (slipped.edition, slipped.news, slipped.is_sound) == (1, 2, False)
    assert slipped.pressed is first.pressed
    assert "sqat" in problems(slipped)

    write(book, "exercise: sqat\n", "exercise: squat\n")
    write(book, "title: Lantern & oil", "title: Lantern and wick")
    mended = next_state(slipped, book, "book")
    assert (mended.edition, mended.news, mended.is_sound) == (2, 3, True)
    assert "Lantern and wick" in made(mended, LANTERN_PAGE)
    assert problems(mended) == ""
    assert "from before" in proof_panel(slipped, LANTERN_PAGE)
    assert "from before" not in proof_panel(mended, LANTERN_PAGE)


def test_a_manuscript_that_starts_with_a_slip_has_no_pages_yet(book: Path) -> None:
    (book / "site.yaml").unlink()
    state = next_state(State(), book, "book")
    assert state.pressed is None
    assert status(state) == "1 problem to mend. There are no pages yet."
    assert list(unseen_pages(state)) == []
    assert "first pages" in proof_panel(state, "index.html")


def test_a_problem_is_told_with_file_line_and_the_text(book: Path) -> None:
    before = next_state(State(), book, "book")
    write(book, "weeks: 3\n", "weeks: <b>three</b>\n")
    state = next_state(before, book, "book")
    line = LANTERN.splitlines().index("weeks: 3") + 1
    told = problems(state)
    assert f"book/programs/lantern.yaml:{line}:8: " in told
    assert "weeks: &lt;b&gt;three&lt;/b&gt;" in told
    assert "<b>" not in told
    assert status(state) == "1 problem to mend. The pages below are from before."


def test_an_unknown_theme_is_a_problem_and_a_theme_at_fault_is_told_once_its_page_is_made(book: Path) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "404.html").write_text("{{ 1 // 0 }}")
    state = next_state(State(), book, "book")
    with pytest.raises(ThemeError, match=r"404\.html"):
        [make() for make in unseen_pages(state)]
    fault = state.with_fault("the theme is at fault")
    assert status(fault) == "the theme is at fault. The pages below are from before."
    assert not fault.is_sound


def test_no_sheet_is_set_until_it_is_asked_for(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*arguments: object) -> bytes:
        raise AssertionError("a sheet was set")

    for maker in ("typesetting._compile", "takeaways.workbook", "takeaways.bundle", "takeaways.plan_csv"):
        monkeypatch.setattr(f"plateset.publishing.{maker}", never)
    state = next_state(State(), book, "book")
    assert "week-1-a4.pdf" in made(state, LANTERN_PAGE)
    with pytest.raises(AssertionError, match="a sheet was set"):
        made(state, "programs/lantern/week-1-a4.pdf")


def test_pages_that_a_mark_stops_say_draft(book: Path) -> None:
    state = next_state(State(), book, "book")
    assert "data-draft" in made(state, LANTERN_PAGE)
    assert "Not to be published: 2 marks stop it" in proof_panel(state, LANTERN_PAGE)


def test_the_proof_beside_a_program_has_its_volumes_minutes_and_marks(book: Path) -> None:
    state = next_state(State(), book, "book")
    for page in (LANTERN_PAGE, "programs/lantern/week-2.html"):
        panel = proof_panel(state, page)
        assert "Proof of Lantern &amp; oil" in panel
        assert "<th scope=row>quads</th><td>6-8</td><td>7</td><td>4</td>" in panel
        assert "<th scope=row>chest</th><td>10-12</td><td>3*</td><td>2</td>" in panel
        assert "<th scope=col>1-2</th><th scope=col>3, deload</th>" in panel
        assert "Heavy day (mon)" in panel
        assert "promise-missed: chest" in panel
        assert "book/programs/lantern.yaml:" in panel


def test_elsewhere_stands_the_proof_of_the_whole(book: Path) -> None:
    state = next_state(State(), book, "book")
    for page in ("index.html", "programs/index.html", "programs/nothing/index.html", "exercises/squat.html"):
        panel = proof_panel(state, page)
        assert "Proof of the manuscript" in panel
        assert "<th scope=row>Lantern &amp; oil</th>" in panel
        assert "figure-contradicted" in panel


def test_the_proof_is_on_no_page(book: Path) -> None:
    state = next_state(State(), book, "book")
    assert state.pressed is not None
    for path, make in state.pressed.files.items():
        if path.endswith(".html"):
            page = make().decode()
            assert "promise-missed" not in page
            assert "/desk/" not in page

"""The demo in the repository is what its manuscript gives today: pressed again, it is the same byte for byte."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pressed import CONTENT, pressed_demo

COMMITTED = CONTENT.with_name("site_demo")
TEXT_ENDINGS = {".html", ".css", ".js", ".json", ".txt", ".svg", ".xml", ".yaml", ".csv", ".md", ".ics", ""}
BINARY_ENDINGS = (".pdf", ".zip", ".xlsx")
NOT_COMMITTED = {"assets/plotly.min.js"}
"""The chart library's own file: pressed, and left out of the repository as the PDFs are."""


def texts(site: Path) -> dict[str, bytes]:
    """The site's text files; one without an ending is the marker of a pressed folder."""
    found = {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in sorted(site.rglob("*"))
        if path.is_file() and path.suffix in TEXT_ENDINGS
    }
    return {path: data for path, data in found.items() if path not in NOT_COMMITTED}


@pytest.fixture(scope="session")
def pressed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return pressed_demo(tmp_path_factory.getbasetemp())


def test_every_file_is_a_text_or_a_sheet_or_the_chart_library(pressed: Path) -> None:
    others = {path.relative_to(pressed).as_posix() for path in pressed.rglob("*") if path.is_file()}
    assert {path for path in others - set(texts(pressed)) if not path.endswith(BINARY_ENDINGS)} == NOT_COMMITTED


def test_the_repository_holds_the_same_pages_and_no_stale_ones(pressed: Path) -> None:
    assert sorted(texts(COMMITTED)) == sorted(texts(pressed))


def test_the_repository_holds_the_same_bytes(pressed: Path) -> None:
    now, then = texts(pressed), texts(COMMITTED)
    assert then
    assert [path for path in sorted(now) if path in then and now[path] != then[path]] == []


def test_the_chart_library_is_the_one_that_is_installed(pressed: Path) -> None:
    assert (pressed / "assets/plotly.min.js").read_bytes().startswith(b"/**\n* plotly.js")

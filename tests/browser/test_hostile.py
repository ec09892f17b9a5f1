"""A site whose every field is hostile, in a real browser: nothing runs, nothing is asked of anyone else."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.proving import proof
from plateset.publishing.documents import makers
from playwright.sync_api import Dialog

from tests.browser.conftest import Visits
from tests.hostile import hostile_book, together
from tests.publishing.building import edition_of

PAGES = (
    "index.html", "programs/index.html", "programs/lantern/index.html", "programs/lantern/week-1.html",
    "exercises/squat.html", "techniques/superset.html", "explainers/why-the-row.html", "search.html",
)  # fmt: skip
NOT_NEEDED = (".png", ".zip", ".pdf", ".xlsx")


@pytest.fixture(scope="module")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    book = hostile_book(folder / "book", together(6000), together(190))
    edition = edition_of(book, proof(book, "book"), draft=True)
    for path, make in makers(edition):
        if not path.endswith(NOT_NEEDED):
            (folder / "site" / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / "site" / path).write_bytes(make())
    return folder / "site"


@pytest.mark.parametrize("path", PAGES)
def test_nothing_runs_and_nothing_leaves(visit: Visits, hostile_site: Path, path: str) -> None:
    base = hostile_site.as_uri() + "/"
    seen = visit()
    asked: list[str] = []

    def refuse(dialog: Dialog) -> None:
        asked.append(dialog.message)
        dialog.dismiss()

    seen.page.on("dialog", refuse)
    seen.page.goto(base + path, wait_until="load")
    if path == "search.html":
        seen.page.locator("input[type=search]").fill("evil")
        seen.page.wait_for_timeout(300)
    seen.page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true })")
    assert seen.page.evaluate("window.ran") is None
    assert asked == []
    assert seen.troubles == []
    assert seen.outside(base) == []
    assert "evil.example" in seen.page.locator("body").inner_text()

"""The preview in a browser: it refreshes at a save, tells a slip with its line, and the good pages stay."""

from __future__ import annotations

import os
import re
import shutil
import time
from collections.abc import Iterator
from pathlib import Path
from threading import Event, Thread

import pytest
from plateset.preview.server import Board, PreviewServer
from plateset.preview.watching import serve
from playwright.sync_api import FrameLocator, Page, expect

from tests.browser.conftest import Visit, Visits
from tests.browser.test_axe import RULES
from tests.conftest import CONTENT

PROGRAM = "programs/wider-back-block/index.html"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    shutil.copytree(CONTENT, tmp_path / "demo")
    return tmp_path / "demo"


@pytest.fixture
def address(book: Path) -> Iterator[str]:
    """A preview of a copy of the demo at work, and where it is."""
    server, stop = PreviewServer(0, Board()), Event()
    thread = Thread(target=serve, args=(server, book, "demo", stop, lambda words: None))
    thread.start()
    assert server.board.after(0, 60)
    yield server.address
    stop.set()
    thread.join()


@pytest.fixture
def seen(visit: Visits, address: str) -> Visit:
    opened = visit()
    opened.page.goto(f"{address}#{PROGRAM}", wait_until="load")
    expect(framed(opened.page).locator("h1")).to_have_text("Wider back block")
    return opened


def framed(page: Page) -> FrameLocator:
    return page.frame_locator("#page")


def change(book: Path, old: str, new: str) -> None:
    program = book / "programs" / "wider-back-block.yaml"
    text = program.read_text("utf-8")
    assert old in text
    program.write_text(text.replace(old, new, 1), "utf-8")


def test_a_save_refreshes_the_page_a_slip_is_told_and_mending_it_brings_the_pages_back(
    seen: Visit, book: Path, address: str
) -> None:
    page = seen.page
    expect(page.locator("#status")).to_have_text("These are your pages as they stand.")

    change(book, "title: Wider back block", "title: Broader back block")
    expect(framed(page).locator("h1")).to_have_text("Broader back block")

    change(book, "weeks: 6", "weeks: six")
    problems = page.locator("#problems")
    expect(problems).to_contain_text("demo/programs/wider-back-block.yaml:")
    expect(problems).to_contain_text("'six' is not a whole number")
    expect(problems).to_contain_text("| weeks: six")
    expect(page.locator("#status")).to_have_text("1 problem to mend. The pages below are from before.")
    expect(framed(page).locator("h1")).to_have_text("Broader back block")

    change(book, "weeks: six", "weeks: 6")
    change(book, "title: Broader back block", "title: Back, wider")
    expect(framed(page).locator("h1")).to_have_text("Back, wider")
    expect(problems).to_be_hidden()
    assert seen.outside(address) == []
    assert [trouble for trouble in seen.troubles if "ERR_ABORTED" not in trouble] == []


def test_from_save_to_page_is_short(seen: Visit, book: Path) -> None:
    took = []
    for number in range(3):
        before = framed(seen.page).locator("h1").inner_text()
        change(book, f"title: {before}", f"title: Back {number}")
        began = time.monotonic()
        framed(seen.page).get_by_role("heading", level=1, name=f"Back {number}", exact=True).wait_for()
        took.append(time.monotonic() - began)
    print(f"save to page: {', '.join(f'{each:.2f} s' for each in took)}")
    assert min(took) < 2.5  # under a second on a quiet machine; a busy one is given room


def test_the_proof_follows_the_page(seen: Visit) -> None:
    proof = seen.page.locator("#proof")
    expect(proof).to_contain_text("Proof of Wider back block")
    expect(proof).to_contain_text("Weekly sets")
    expect(proof).to_contain_text("Minutes")
    framed(seen.page).get_by_role("navigation", name="Site").get_by_role("link", name="Exercises").click()
    expect(proof).to_contain_text("Proof of the manuscript")
    expect(seen.page).to_have_url(re.compile("#exercises/index.html$"))
    seen.page.get_by_role("button", name="Proof").click()
    expect(proof).to_be_hidden()


def test_the_place_on_the_page_is_kept(seen: Visit, book: Path) -> None:
    frame = next(frame for frame in seen.page.frames if "/pages/" in frame.url)
    frame.evaluate("scrollTo(0, 600)")
    change(book, "title: Wider back block", "title: Broader back block")
    expect(framed(seen.page).locator("h1")).to_have_text("Broader back block")
    frame.wait_for_load_state("load")
    seen.page.wait_for_timeout(200)
    assert abs(frame.evaluate("scrollY") - 600) < 60


def test_a_sheet_is_set_when_it_is_asked_for(seen: Visit, address: str) -> None:
    link = framed(seen.page).get_by_role("link", name="Week 1, A4").first
    target = link.evaluate("link => link.href")
    answer = seen.context.request.get(target)
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF")


@pytest.mark.parametrize("view", [(400, False), (1280, False), (1280, True)], ids=str)
def test_the_desk_is_accessible(visit: Visits, address: str, book: Path, view: tuple[int, bool]) -> None:
    named = os.environ.get("PLATESET_AXE")
    if not named:
        pytest.skip("PLATESET_AXE is not set; it names the axe.min.js of the npm package axe-core")
    width, dark = view
    page = visit(width=width, dark=dark).page
    change(book, "weeks: 6", "weeks: six")
    page.goto(f"{address}#{PROGRAM}", wait_until="load")
    expect(page.locator("#problems")).to_be_visible()
    page.evaluate(Path(named).read_text(encoding="utf-8"))
    found = page.evaluate(
        "rules => axe.run({ exclude: ['iframe'] }, { runOnly: rules, iframes: false })"
        ".then(found => found.violations.map(v => [v.id, v.help, v.nodes.map(n => n.html.slice(0, 120)).slice(0, 3)]))",
        RULES,
    )
    assert found == []

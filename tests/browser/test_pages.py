"""Every kind of page in a real browser: from a sub-path and from a folder, with scripts and without."""

from __future__ import annotations

import gzip
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from tests.browser.conftest import KINDS, Visits


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
@pytest.mark.parametrize("kind", [*KINDS, "404"])
def test_a_page_loads_whole_and_asks_no_one_else(
    visit: Visits, base: str, paths: dict[str, str], kind: str, scripts: bool
) -> None:
    seen = visit(scripts=scripts)
    seen.page.goto(base + paths[kind], wait_until="load")
    assert seen.page.locator("h1").inner_text().strip()
    assert seen.page.locator("main").is_visible()
    assert seen.troubles == []
    assert seen.outside(base) == []
    assert any(url.endswith("assets/style.css") for url in seen.requests)
    assert not [url for url in seen.requests if "plotly" in url]
    assert seen.page.locator("body").evaluate("body => getComputedStyle(body).maxWidth") != "none"


@pytest.mark.parametrize("kind", [*KINDS, "404"])
def test_no_page_of_a_telephones_width_scrolls_sideways(
    visit: Visits, site_root: str, paths: dict[str, str], kind: str
) -> None:
    seen = visit(width=360)
    seen.page.goto(site_root + paths[kind], wait_until="load")
    seen.page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true })")
    scroll, client = seen.page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    assert client == 360
    assert scroll <= client


@pytest.fixture
def site_root(host: str) -> str:
    """The site at the root of its host."""
    return host + "/"


def test_links_lead_from_the_front_to_a_sheet_and_back(visit: Visits, base: str) -> None:
    seen = visit()
    seen.page.goto(base + "index.html")
    seen.page.locator("main table a").first.click()
    assert seen.page.locator("body.page-program").is_visible()
    seen.page.locator("table.glance a").first.click()
    assert seen.page.locator("body.page-week").is_visible()
    assert seen.page.url.split("#")[1].startswith("day-")
    seen.page.get_by_role("link", name="The whole program").click()
    seen.page.locator("header a").first.click()
    assert seen.page.url == base + "index.html"
    assert seen.troubles == []


# -- keyboard -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("kind", KINDS)
def test_the_first_key_reaches_the_text_and_shows_where_it_is(
    visit: Visits, host: str, paths: dict[str, str], kind: str, dark: bool
) -> None:
    seen = visit(dark=dark)
    seen.page.goto(f"{host}/{paths[kind]}")
    skip = seen.page.locator("a.skip")
    box = skip.bounding_box()
    assert box is None or box["y"] + box["height"] <= 0 or box["x"] + box["width"] <= 0 or box["width"] <= 1
    seen.page.keyboard.press("Tab")
    assert skip.evaluate("link => link === document.activeElement")
    box = skip.bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["y"] >= 0
    assert box["width"] > 40
    assert outline_of(seen.page.evaluate(FOCUS)) > 0
    seen.page.keyboard.press("Enter")
    assert seen.page.evaluate("document.activeElement.id") == "main"
    seen.page.keyboard.press("Tab")
    assert outline_of(seen.page.evaluate(FOCUS)) > 0


FOCUS = """() => {
  const style = getComputedStyle(document.activeElement);
  return [document.activeElement.tagName, style.outlineStyle, parseFloat(style.outlineWidth)];
}"""


def outline_of(found: tuple[str, str, float]) -> float:
    """How wide the line around the focused element is; 0 where there is none."""
    tag, style, width = found
    assert tag != "BODY"
    return 0.0 if style == "none" else width


# -- weight and calm ----------------------------------------------------------------------------------------

FIRST_VIEW = 80_000
"""Bytes a program's first view may weigh, packed as hosts pack it; the chart library comes only when asked for."""


def test_the_first_view_of_a_program_is_light(visit: Visits, site: Path, base: str, site_programs: list[str]) -> None:
    for path in site_programs:
        seen = visit()
        seen.page.goto(base + path, wait_until="load")
        names = [unquote(urlsplit(url).path).partition(urlsplit(base).path)[2] for url in seen.requests]
        weights = {name: len(gzip.compress((site / name).read_bytes(), 6)) for name in names if name}
        assert path in weights
        assert sum(weights.values()) <= FIRST_VIEW, weights


SHIFT = """() => new Promise(tell => {
  let sum = 0;
  new PerformanceObserver(list => list.getEntries().forEach(entry => { sum += entry.value; }))
    .observe({ type: "layout-shift", buffered: true });
  setTimeout(() => tell(sum), 500);
})"""


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("kind", ["home", "programs", "program", "week", "exercise", "search"])
def test_nothing_moves_while_a_page_loads(
    visit: Visits, host: str, paths: dict[str, str], kind: str, width: int
) -> None:
    seen = visit(width=width)
    seen.page.clock.set_fixed_time("2026-03-02T18:00:00")
    seen.page.goto(f"{host}/{paths[kind]}", wait_until="load")
    assert seen.page.evaluate(SHIFT) == 0


# -- weeks --------------------------------------------------------------------------------------------------


def test_a_week_that_is_closed_opens_when_a_link_leads_to_it(visit: Visits, base: str, paths: dict[str, str]) -> None:
    seen = visit()
    seen.page.goto(base + paths["program"])
    assert not seen.page.locator("#week-2 table").first.is_visible()
    seen.page.locator("nav.weeks-nav a", has_text="2").first.click()
    seen.page.locator("#week-2 table").first.wait_for(state="visible")


def test_all_weeks_open_and_close_together(visit: Visits, base: str, paths: dict[str, str]) -> None:
    seen = visit()
    seen.page.goto(base + paths["program"])
    weeks = seen.page.locator("#weeks details.week")
    seen.page.get_by_role("button", name="Open every week").click()
    assert seen.page.locator("#weeks details.week[open]").count() == weeks.count() > 1
    seen.page.get_by_role("button", name="Close every week").click()
    assert seen.page.locator("#weeks details.week[open]").count() == 0


def test_without_scripts_every_week_can_be_opened_by_hand(visit: Visits, base: str, paths: dict[str, str]) -> None:
    seen = visit(scripts=False)
    seen.page.goto(base + paths["program"])
    assert not seen.page.get_by_role("button").all()
    seen.page.locator("#week-2 > summary").click()
    assert seen.page.locator("#week-2 table").first.is_visible()

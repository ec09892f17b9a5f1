"""The finder and the search in a real browser: from a host and from a folder, kept in the address, by keyboard."""

from __future__ import annotations

import json
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from plateset.publishing.search_index import words_of
from playwright.sync_api import Page

from tests.browser.conftest import Visits


def shown(page: Page) -> list[str]:
    return [row.inner_text() for row in page.locator("tr[data-level] th a").all() if row.is_visible()]


def query(page: Page) -> dict[str, list[str]]:
    return parse_qs(urlsplit(page.url).query)


# -- finder -------------------------------------------------------------------------------------------------


def test_the_table_is_narrowed_to_what_is_asked_and_the_address_keeps_it(visit: Visits, base: str) -> None:
    seen = visit()
    page = seen.page
    page.goto(base + "programs/index.html")
    all_of_them = shown(page)
    assert page.locator("#finder-count").inner_text() == f"All {len(all_of_them)} programs."
    page.get_by_label("Days a week").select_option("3")
    three = shown(page)
    assert 0 < len(three) < len(all_of_them)
    assert page.locator("#finder-count").inner_text() == f"{len(three)} programs fit."
    page.get_by_label("Level").select_option("advanced")
    assert shown(page) == []
    said = page.locator("#finder-count").inner_text()
    assert said.startswith("No program fits all of this. ")
    assert f"Without “Level”: {len(three)}." in said
    page.get_by_label("Days a week").select_option(index=0)
    advanced = shown(page)
    assert (f"Without “Days a week”: {len(advanced)}." in said) == bool(advanced)
    page.get_by_label("Days a week").select_option("3")
    assert query(page) == {"days": ["3"], "level": ["advanced"]}
    page.get_by_role("button", name="Clear").click()
    page.locator("#finder-count", has_text="All ").wait_for()
    assert shown(page) == all_of_them
    assert query(page) == {}
    assert seen.troubles == []


def test_an_address_that_was_passed_on_finds_the_same(visit: Visits, base: str) -> None:
    first = visit()
    first.page.goto(base + "programs/index.html")
    for piece in ("Dumbbells", "Bench", "Bands", "Mat"):
        first.page.get_by_label(piece, exact=True).check()
    found = shown(first.page)
    assert found == ["Two dumbbells and a floor"]
    second = visit()
    second.page.goto(first.page.url)
    assert shown(second.page) == found
    assert second.page.get_by_label("Bench", exact=True).is_checked()
    assert not second.page.get_by_label("Rack", exact=True).is_checked()


def test_every_condition_is_met_by_what_is_left(visit: Visits, host: str) -> None:
    page = visit().page
    page.goto(f"{host}/programs/index.html?minutes=45&muscle=lats&technique=superset&nonsense=1&level=of-old")
    rows = page.locator("tr[data-level]").all()
    for row in rows:
        fits = (
            int(row.get_attribute("data-minutes") or 0) <= 45
            and "lats" in (row.get_attribute("data-muscles") or "").split("|")
            and "superset" in (row.get_attribute("data-techniques") or "").split("|")
        )
        assert row.is_visible() == fits
    assert any(row.is_visible() for row in rows)


def test_without_scripts_the_lists_stand_for_the_form(visit: Visits, base: str) -> None:
    page = visit(scripts=False).page
    page.goto(base + "programs/index.html?days=3")
    assert page.locator("#finder").is_hidden()
    assert len(shown(page)) == page.locator("tr[data-level]").count()
    page.get_by_role("link", name="Programs by days a week").click()
    assert page.get_by_role("heading", name="3 days a week").is_visible()
    page.locator("main .index a").first.click()
    assert page.locator("body.page-program").is_visible()


# -- search -------------------------------------------------------------------------------------------------


def found(page: Page) -> list[str]:
    return [link.inner_text() for link in page.locator("#search-results a").all()]


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("back squat", "Back squat"),
        ("high-bar", "Back squat"),  # another name
        ("HIGH BAR SQÜAT", "Back squat"),
        ("romanain deadlift", "Romanian deadlift"),  # a slip of two letters
        ("drop sets", "Drop set"),
        ("wider", "Wider back block"),
        ("xylophone", None),
    ],
)
def test_the_search_finds_names_other_names_and_slips(visit: Visits, base: str, words: str, first: str | None) -> None:
    seen = visit()
    page = seen.page
    page.goto(base + "search.html")
    page.get_by_label("Words to look for").press_sequentially(words)
    said = page.locator("#search-count").inner_text()
    if first is None:
        assert found(page) == []
        assert "Nothing has these words" in said
    else:
        assert found(page)[0] == first
        assert "page" in said
    assert query(page) == {"q": [words]}
    assert seen.troubles == []
    assert seen.outside(base) == []


def test_results_are_reached_by_keyboard_and_lead_to_their_pages(visit: Visits, base: str) -> None:
    page = visit().page
    page.goto(base + "search.html?q=goblet")
    assert page.get_by_label("Words to look for").input_value() == "goblet"
    page.get_by_label("Words to look for").press("Enter")
    assert page.evaluate("document.activeElement.textContent") == "Goblet squat"
    page.keyboard.press("Enter")
    page.locator("body.page-exercise").wait_for()
    assert page.locator("h1").inner_text() == "Goblet squat"


def test_words_that_stand_nowhere_together_bring_what_comes_closest(visit: Visits, host: str) -> None:
    page = visit().page
    page.goto(f"{host}/search.html?q=goblet+superset+xylophone")
    assert found(page)
    assert "comes closest" in page.locator("#search-count").inner_text()


def test_the_page_takes_words_apart_as_the_index_does(visit: Visits, site: Path, host: str) -> None:
    """Every name of the site, typed as it stands, finds its own page."""
    script = (site / "assets/search-index.js").read_text(encoding="utf-8")
    index = json.loads(script.removeprefix("window.searchIndex = ").removesuffix(";\n"))
    page = visit().page
    page.goto(f"{host}/search.html")
    field = page.get_by_label("Words to look for")
    for _, title, _, _, also in index["pages"]:
        for name in (title, *filter(None, also.split(", "))):
            assert words_of(name)
            field.fill(name)
            assert title in found(page)[:6], name


def test_without_scripts_the_index_is_there_to_read(visit: Visits, base: str) -> None:
    page = visit(scripts=False).page
    page.goto(base + "search.html")
    assert page.locator("#search").is_hidden()
    entry = page.locator(".back-of-book li", has_text="High-bar squat, see")
    entry.get_by_role("link", name="Back squat").click()
    assert page.locator("h1").inner_text() == "Back squat"


# -- today --------------------------------------------------------------------------------------------------

MONDAY, SUNDAY = "2026-03-02T18:00:00", "2026-03-08T18:00:00"


@pytest.fixture
def dated(site: Path) -> str:
    """A program that trains on Mondays and rests on Sundays."""
    return "programs/wider-back-block/"


def test_todays_session_is_marked_and_reached_in_the_week_that_is_open(visit: Visits, base: str, dated: str) -> None:
    page = visit().page
    page.clock.set_fixed_time(MONDAY)
    page.goto(base + dated + "index.html")
    assert "today" in page.locator('.glance [aria-current="date"]').inner_text()
    page.locator("#week-2 > summary").click()
    page.get_by_role("link", name="Today’s session").click()
    assert urlsplit(page.url).fragment == "week-2-day-1"
    page.goto(base + dated + "week-3.html")
    assert page.locator('.contents [aria-current="date"]').inner_text().startswith("Monday")


def test_a_day_of_rest_has_no_session_to_go_to(visit: Visits, base: str, dated: str) -> None:
    page = visit().page
    page.clock.set_fixed_time(SUNDAY)
    page.goto(base + dated + "index.html")
    assert "Rest" in page.locator('.glance [aria-current="date"]').inner_text()
    assert page.get_by_role("link", name="Today’s session").count() == 0


def test_without_scripts_the_days_of_a_week_are_a_list(visit: Visits, base: str, dated: str) -> None:
    page = visit(scripts=False).page
    page.goto(base + dated + "index.html")
    assert page.get_by_role("link", name="Today’s session").count() == 0
    page.locator("#week-1 .days a").first.click()
    assert urlsplit(page.url).fragment == "week-1-day-1"
    page.locator("#week-1 .turn-week a", has_text="On to week 2").click()
    assert urlsplit(page.url).fragment == "week-2"


# -- substitutes --------------------------------------------------------------------------------------------


def test_a_substitute_says_what_it_changes(visit: Visits, base: str, dated: str) -> None:
    page = visit(scripts=False).page
    page.goto(base + dated + "index.html")
    swaps = page.locator("#week-1 .swaps").first
    assert not swaps.locator("li").first.is_visible()
    swaps.locator("summary").click()
    text = swaps.inner_text()
    assert "Weekly sets" in text.capitalize() or "weekly sets" in text
    assert swaps.locator("li a").first.is_visible()

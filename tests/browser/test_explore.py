"""The chart to explore: fetched from this copy of the site, only when asked for, and nothing is sent anywhere."""

from __future__ import annotations

import pytest
from plateset.publishing.chart import DRAWN_FIRST

from tests.browser.conftest import Visits

VIOLATIONS = "addEventListener('securitypolicyviolation', e => console.error('policy: ' + e.violatedDirective))"


def test_the_chart_comes_when_it_is_asked_for(visit: Visits, base: str, paths: dict[str, str]) -> None:
    seen = visit()
    seen.context.add_init_script(VIOLATIONS)
    seen.page.goto(base + paths["program"], wait_until="load")
    assert not [url for url in seen.requests if "plotly" in url]
    assert seen.page.locator("#explore").is_hidden()
    seen.page.get_by_role("button", name="Explore").click()
    seen.page.locator("#explore svg.main-svg").first.wait_for(state="visible")
    assert [url for url in seen.requests if "plotly" in url] == [base + "assets/plotly.min.js"]
    names = seen.page.locator("#explore .legendtext").all_text_contents()
    rows = seen.page.locator("table.volume tbody th").all_text_contents()
    assert sorted(names) == sorted(rows)
    lines = seen.page.locator("#explore .scatterlayer .trace")
    assert lines.count() == DRAWN_FIRST
    waiting = seen.page.locator("#explore .legendtoggle").nth(names.index("Upper back"))
    waiting.click()
    seen.page.wait_for_function(
        "count => document.querySelectorAll('.scatterlayer .trace').length > count", arg=DRAWN_FIRST
    )
    assert seen.troubles == []
    assert seen.outside(base) == []


def test_there_is_no_button_to_send_it_anywhere(visit: Visits, base: str, paths: dict[str, str]) -> None:
    seen = visit()
    seen.page.goto(base + paths["program"], wait_until="load")
    seen.page.get_by_role("button", name="Explore").click()
    seen.page.locator("#explore svg.main-svg").first.wait_for(state="visible")
    plot = seen.page.locator("#explore")
    plot.hover()
    assert plot.locator(".modebar-btn").count() == 0
    words = plot.inner_html().lower()
    for word in ("upload", "share", "cloud", "edit chart", "<a ", "<form"):
        assert word not in words


def test_it_can_be_asked_for_from_the_keyboard_and_says_it_is_there(
    visit: Visits, base: str, paths: dict[str, str]
) -> None:
    seen = visit()
    seen.page.goto(base + paths["program"], wait_until="load")
    seen.page.get_by_role("button", name="Explore").press("Enter")
    seen.page.locator("#explore svg.main-svg").first.wait_for(state="visible")
    assert seen.page.evaluate("document.activeElement.id") == "explore-words"
    assert "Point at a week" in seen.page.locator("#explore-words").inner_text()


def test_a_copy_without_the_library_says_so(visit: Visits, host: str, paths: dict[str, str]) -> None:
    seen = visit()
    seen.context.route("**/plotly.min.js", lambda route: route.abort())
    seen.page.goto(f"{host}/{paths['program']}", wait_until="load")
    seen.page.get_by_role("button", name="Explore").click()
    words = seen.page.locator("#explore-words", has_text="not in this copy")
    words.wait_for()
    assert seen.page.locator("table.volume").is_visible()


def test_without_scripts_the_drawing_and_the_table_are_there_and_no_button(
    visit: Visits, base: str, paths: dict[str, str]
) -> None:
    seen = visit(scripts=False)
    seen.page.goto(base + paths["program"], wait_until="load")
    assert seen.page.locator("[data-explore]").count() == 1
    assert seen.page.locator("[data-explore]").is_hidden()
    assert seen.page.locator("svg.chart rect.bar").first.is_visible()
    assert seen.page.locator("table.volume").is_visible()


def test_the_drawing_stays_inside_its_frame(visit: Visits, host: str, site_programs: list[str]) -> None:
    seen = visit()
    for path in site_programs:
        seen.page.goto(f"{host}/{path}")
        spilt = seen.page.evaluate(
            """() => {
              return [...document.querySelectorAll("svg.chart :is(text, rect, line)")].filter(part => {
                const frame = part.closest("svg").getBoundingClientRect();
                const box = part.getBoundingClientRect();
                return box.left < frame.left || box.right > frame.right || box.top < frame.top - 1
                  || box.bottom > frame.bottom + 1;
              }).map(part => part.textContent);
            }"""
        )
        assert spilt == [], path


@pytest.mark.parametrize("width", [360, 1280])
def test_no_figure_of_the_drawing_touches_another(
    visit: Visits, host: str, site_programs: list[str], width: int
) -> None:
    seen = visit(width=width)
    for path in site_programs:
        seen.page.goto(f"{host}/{path}")
        touching = seen.page.evaluate(
            """() => [...document.querySelectorAll("svg.chart")].flatMap(chart => {
              const boxes = [...chart.querySelectorAll("text.value")].map(text => text.getBoundingClientRect());
              return boxes.slice(1).filter((box, at) =>
                box.left < boxes[at].right && box.top < boxes[at].bottom && boxes[at].top < box.bottom
              ).map(() => chart.getAttribute("aria-label"));
            })"""
        )
        assert touching == [], path

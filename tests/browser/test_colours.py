"""Light and dark: the page follows the reader's choice, and all text on it can be read."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import KINDS, Visits
from tests.browser.contrast import LEAST, Colour, contrast, luminance

TEXTS = """() => {
  const canvas = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const paint = colour => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const behind = element => {
    for (let node = element; node; node = node.parentElement) {
      const colour = paint(getComputedStyle(node).backgroundColor);
      if (colour[3] === 255) return colour;
    }
    return [255, 255, 255, 255];
  };
  const found = [];
  for (const details of document.querySelectorAll("details")) details.open = true;
  for (const element of document.querySelectorAll("body, body *")) {
    const own = [...element.childNodes].filter(node => node.nodeType === 3).map(node => node.data.trim()).join("");
    const style = getComputedStyle(element);
    if (!own || !element.checkVisibility() || ["SCRIPT", "TITLE", "DESC"].includes(element.tagName.toUpperCase())) {
      continue;
    }
    const ink = element.ownerSVGElement ? style.fill : style.color;
    found.push([own.slice(0, 40), paint(ink), behind(element)]);
  }
  return found;
}"""
"""Every visible text with its colour and the colour behind it, as the browser would paint them."""


def colour(painted: list[float]) -> Colour:
    assert painted[3] == 255
    return (painted[0], painted[1], painted[2])


def texts(page: Page) -> list[tuple[str, Colour, Colour]]:
    found: list[tuple[str, list[float], list[float]]] = page.evaluate(TEXTS)
    return [(words, colour(ink), colour(paper)) for words, ink, paper in found]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("kind", [*KINDS, "404"])
def test_all_text_can_be_read(visit: Visits, host: str, paths: dict[str, str], kind: str, dark: bool) -> None:
    seen = visit(dark=dark)
    seen.page.goto(f"{host}/{paths[kind]}", wait_until="load")
    found = texts(seen.page)
    assert len(found) > 10
    faint = [(words, round(contrast(ink, paper), 2)) for words, ink, paper in found if contrast(ink, paper) < LEAST]
    assert faint == []


@pytest.mark.parametrize("kind", KINDS)
def test_the_page_is_dark_for_those_who_ask(visit: Visits, host: str, paths: dict[str, str], kind: str) -> None:
    papers = {}
    for dark in (False, True):
        seen = visit(dark=dark)
        seen.page.goto(f"{host}/{paths[kind]}", wait_until="load")
        papers[dark] = {luminance(paper) for _, _, paper in texts(seen.page)}
    assert max(papers[True]) < 0.2
    assert min(papers[False]) > 0.5


def test_the_chart_to_explore_can_be_read_in_the_dark(visit: Visits, host: str, paths: dict[str, str]) -> None:
    seen = visit(dark=True)
    seen.page.goto(f"{host}/{paths['program']}", wait_until="load")
    seen.page.get_by_role("button", name="Explore").click()
    seen.page.locator("#explore svg.main-svg").first.wait_for(state="visible")
    found = [text for text in texts(seen.page) if text[0] in ("Week", "Weekly sets")]
    assert found
    assert min(contrast(ink, paper) for _, ink, paper in found) >= LEAST

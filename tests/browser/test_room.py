"""Little room: small screens, large text, and words that no line of a telephone holds."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from plateset.pressing import press
from playwright.sync_api import Page

from tests.browser.conftest import KINDS, Visits
from tests.pressed import CONTENT

COMPOUND = "Donaudampfschifffahrtsgesellschaftskapitänsmützenhalterung"
NAMES = re.compile(r"^(\s*(?:title|name|tagline): )(?=\w)", re.MULTILINE)
"""What an author calls something, in the head of a note, in a program or of the site."""
FIRSTS = re.compile(r"^((?:suits|not for|does not suit|cautions):\n  - \"?)(?=\w)", re.MULTILINE)
HEADINGS = re.compile(r"^( *## )(?=\w)", re.MULTILINE)
NARROW = [(360, 100), (320, 100), (360, 200), (320, 200)]
"""Widths of a screen, and sizes of its text in percent."""


@pytest.fixture(scope="module")
def long_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo with a word of 58 letters in front of every name and title."""
    folder = tmp_path_factory.mktemp("long")
    content = shutil.copytree(CONTENT, folder / "content")
    for file in (*content.glob("*/*.md"), *content.glob("programs/*.yaml"), content / "site.yaml"):
        text = file.read_text(encoding="utf-8")
        for place in (NAMES, FIRSTS, HEADINGS):
            text = place.sub(rf"\1{COMPOUND} ", text)
        file.write_text(text, encoding="utf-8")
    press(content, "content", folder / "site")
    return folder / "site"


def opened(visit: Visits, address: str) -> Page:
    page = visit().page
    page.goto(address, wait_until="load")
    page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true })")
    return page


def each_room(page: Page, *rooms: tuple[int, int]) -> Iterator[tuple[int, int]]:
    """The page on each screen and in each size of text."""
    for width, text in rooms:
        page.set_viewport_size({"width": width, "height": 800})
        page.evaluate("size => { document.documentElement.style.fontSize = size }", "" if text == 100 else f"{text}%")
        yield width, text


def too_wide(page: Page, *rooms: tuple[int, int]) -> list[tuple[int, int]]:
    """Where the page is wider than its screen."""
    wider = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
    return [room for room in each_room(page, *rooms) if page.evaluate(wider)]


@pytest.mark.parametrize("kind", [*KINDS, "404"])
def test_a_page_fits_a_small_screen_and_large_text(visit: Visits, host: str, paths: dict[str, str], kind: str) -> None:
    assert too_wide(opened(visit, f"{host}/{paths[kind]}"), *NARROW) == []


def test_every_program_fits_a_small_screen_and_large_text(visit: Visits, host: str, site_programs: list[str]) -> None:
    wider = {path: too_wide(opened(visit, f"{host}/{path}"), *NARROW) for path in site_programs}
    assert {path: rooms for path, rooms in wider.items() if rooms} == {}


@pytest.mark.parametrize("kind", [*KINDS, "404"])
def test_a_long_word_keeps_to_the_page(visit: Visits, long_site: Path, paths: dict[str, str], kind: str) -> None:
    page = opened(visit, (long_site / paths[kind]).as_uri())
    assert COMPOUND in page.locator("body").inner_text()
    assert too_wide(page, (1280, 100), *NARROW) == []


OVER = """() => [...document.querySelectorAll(
    ".to-do, .sheet header h2, .running, .own fieldset > *, .facts > div > *"
  )]
  .filter(part => part.scrollWidth > part.clientWidth + 1 && part.clientWidth > 0)
  .map(part => part.textContent.trim().slice(0, 40))"""
"""What is wider than the column it stands in."""


@pytest.mark.parametrize("kind", ["week", "program", "exercise"])
@pytest.mark.parametrize("media", ["screen", "print"])
def test_a_long_word_keeps_to_its_column(
    visit: Visits, long_site: Path, paths: dict[str, str], kind: str, media: str
) -> None:
    page = opened(visit, (long_site / paths[kind]).as_uri())
    page.emulate_media(media="print" if media == "print" else "screen")
    over = {room: page.evaluate(OVER) for room in each_room(page, (1280, 100), (690, 100), (360, 100), (320, 100))}
    assert {room: parts for room, parts in over.items() if parts} == {}


BEYOND = """() => { const form = document.querySelector("[data-own-form]").getBoundingClientRect();
  return [...document.querySelectorAll("[data-own-form] input, [data-own-form] select")]
    .filter(field => field.getBoundingClientRect().width > 0)
    .filter(field => field.getBoundingClientRect().right > form.right + 1).map(field => field.name) }"""


def test_the_fields_of_the_form_for_own_numbers_are_whole(
    visit: Visits, long_site: Path, paths: dict[str, str]
) -> None:
    page = opened(visit, (long_site / paths["program"]).as_uri())
    assert page.locator("[data-own-form] input[name=load]").first.is_visible()
    assert [room for room in each_room(page, *NARROW) if page.evaluate(BEYOND)] == []


PARTED = """() => [...document.querySelectorAll(".lifts td, .to-do p, .entry")].flatMap(part => {
  const walker = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
  const found = [];
  for (let text = walker.nextNode(); text; text = walker.nextNode()) {
    if (!text.parentElement.closest(".swaps, .why, .instead"))
      for (const match of text.data.matchAll(/\\d\\s(?:kg|lb|s|min)\\b|\\d-\\d-[\\dX]-\\d/g)) {
        const range = document.createRange();
        range.setStart(text, match.index);
        range.setEnd(text, match.index + match[0].length);
        const lines = [...range.getClientRects()].filter(box => box.width > 0).map(box => Math.round(box.top));
        if (new Set(lines).size > 1) found.push(match[0]);
      }
  }
  return found;
})"""
"""Numbers that stand on another line than their unit, and tempos on two."""


@pytest.mark.parametrize("kind", ["week", "program"])
def test_a_number_and_its_unit_stand_on_one_line(visit: Visits, host: str, paths: dict[str, str], kind: str) -> None:
    page = opened(visit, f"{host}/{paths[kind]}")
    parted = {room: page.evaluate(PARTED) for room in each_room(page, (1280, 100), (800, 100), *NARROW)}
    assert {room: parts for room, parts in parted.items() if parts} == {}

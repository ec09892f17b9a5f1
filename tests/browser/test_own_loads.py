"""A reader's own numbers on the pages: entered, kept, cleared, passed on, printed; nothing leaves the browser."""

from __future__ import annotations

import gzip
import os
import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any
from urllib.parse import urlencode, urlsplit

import pytest
from plateset.manuscript.library import Manuscript
from plateset.manuscript.quantities import Best, BodyweightLoad, FixedLoad, Mass
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.schema import Lifter
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.lift_views import Notes, session_view
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped
from plateset.training.expand import plan_program
from plateset.training.plan import Plan
from plateset.training.reader_gym import UNITS, GymChoice, joined, loading_of
from plateset.training.reader_loads import open_plan
from playwright.sync_api import Locator

from tests.browser.conftest import Visit, Visits
from tests.pressed import CONTENT

PROGRAM = "programs/wider-back-block/index.html"
WEEK = "programs/wider-back-block/week-1.html"
THEME = Path(__file__).parents[2] / "themes" / "noticeboard"


def form(seen: Visit) -> Locator:
    return seen.page.locator("#your-numbers")


def opened(visit: Visits, address: str, **view: Any) -> Visit:
    """The page with the form open."""
    seen = visit(**view)
    seen.page.goto(address, wait_until="load")
    form(seen).locator("> summary").click()
    return seen


def enter(seen: Visit, lift: str, load: str, reps: str) -> None:
    asked = form(seen).locator(f'[data-lift="{lift}"]')
    if not asked.is_visible():
        within = seen.page.locator(f'[data-lift="{lift}"]')
        form(seen).locator("details", has=within).locator("> summary").click()
    asked.get_by_label(re.compile("Load|Added")).fill(load)
    asked.get_by_label("Reps").fill(reps)


def work_out(seen: Visit) -> None:
    form(seen).get_by_role("button", name="Work out my loads").click()


def status(seen: Visit) -> str:
    return form(seen).locator("#own-status").inner_text()


def load_of(seen: Visit, lift: str) -> str:
    """The load of a lift where it first stands on the page."""
    row = seen.page.locator("tr.lift, .sheet-lift").filter(has=seen.page.get_by_role("link", name=lift, exact=True))
    return row.first.locator("[data-own=load]").inner_text()


def troubles(seen: Visit) -> list[str]:
    """What went wrong; a file that has not changed since is no trouble."""
    return [trouble for trouble in seen.troubles if not trouble.startswith("304: ")]


def filled(seen: Visit) -> None:
    """The page for a reader of 70 kg who has given three lifts."""
    form(seen).get_by_label("Bodyweight").fill("70")
    enter(seen, "pull-up", "12,5 kg", "5")
    enter(seen, "bench-press", "60", "8")
    enter(seen, "lat-pulldown", "50", "10")
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")


# -- entering, keeping, clearing -------------------------------------------------------------------


@pytest.mark.parametrize("width", [1280, 360])
def test_a_reader_gets_loads_of_their_own(visit: Visits, base: str, width: int) -> None:
    seen = opened(visit, base + PROGRAM, width=width)
    before = load_of(seen, "Bench press")
    filled(seen)
    assert status(seen).startswith("Done")
    assert load_of(seen, "Bench press") != before
    assert "points to a max of 75 kg" in form(seen).locator("[data-lift=bench-press]").inner_text()
    assert "your own weight counted in" in form(seen).locator("[data-lift=pull-up]").inner_text()
    assert form(seen).get_by_role("link", name="See week 1").get_attribute("href") == "#week-1"
    assert "worked out from your numbers" in seen.page.locator(".own-notice").inner_text()
    assert "take less when in doubt" in seen.page.locator(".own-notice").inner_text()
    assert seen.page.evaluate("document.documentElement.scrollWidth") <= width
    assert troubles(seen) == []
    assert seen.outside(base) == []


def test_they_hold_after_a_reload_and_on_the_sheets_of_the_weeks(visit: Visits, base: str) -> None:
    seen = opened(visit, base + PROGRAM)
    filled(seen)
    mine = load_of(seen, "Bench press")
    seen.page.reload(wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    assert load_of(seen, "Bench press") == mine
    assert form(seen).locator("[data-lift=pull-up] [name=load]").input_value() == "12.5"
    seen.page.goto(base + WEEK, wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    assert load_of(seen, "Bench press") == mine
    seen.page.get_by_role("link", name="Change your numbers").click()
    seen.page.wait_for_url("**/index.html#your-numbers")
    assert form(seen).get_by_label("Bodyweight").is_visible()
    assert troubles(seen) == []
    assert seen.outside(base) == []


def test_cleared_they_leave_the_page_as_it_was(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    weeks = seen.page.locator("#weeks")
    before = weeks.inner_html()
    filled(seen)
    assert weeks.inner_html() != before
    form(seen).get_by_role("button", name="Clear").click()
    assert weeks.inner_html() == before
    assert seen.page.evaluate("window.localStorage.length") == 0
    assert "example lifter again" in status(seen)
    seen.page.reload(wait_until="load")
    assert weeks.inner_html() == before


def test_a_browser_that_keeps_nothing_says_so_and_works(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } })")
    seen.page.goto(f"{host}/{PROGRAM}", wait_until="load")
    form(seen).locator("> summary").click()
    filled(seen)
    assert "keeps nothing" in status(seen)
    assert troubles(seen) == []


@pytest.mark.parametrize(
    "kept", ["nonsense", "[]", '{"lifts": {"bench-press": ["1e9", "5"]}}', '{"lifts": {"__proto__": 3}, "unit": 7}']
)
def test_what_is_kept_and_not_sound_is_no_trouble(visit: Visits, host: str, kept: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    filled(seen)
    seen.page.evaluate("kept => Object.keys(localStorage).forEach(place => localStorage.setItem(place, kept))", kept)
    seen.page.reload(wait_until="load")
    assert seen.page.locator("body.own-loads").count() == 0
    assert troubles(seen) == []


def test_lifts_left_empty_go_by_feel_and_say_what_to_enter(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    filled(seen)
    assert load_of(seen, "Cable crunch") == "by feel"
    hint = seen.page.locator("tr.lift", has_text="Cable crunch").first.get_by_role("link", name="enter a set of it")
    hint.click()
    assert form(seen).get_by_label("Bodyweight").is_visible()
    seen.page.goto(f"{host}/{WEEK}", wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    assert not [said for said in seen.page.locator(".how").all_inner_texts() if said.strip().startswith(".")]


def test_without_scripts_the_example_lifter_stands(visit: Visits, host: str) -> None:
    seen = visit(scripts=False)
    seen.page.goto(f"{host}/{PROGRAM}", wait_until="load")
    assert not form(seen).is_visible()
    assert "example lifter" in seen.page.locator(".lifter").inner_text()
    seen.page.goto(f"{host}/{WEEK}", wait_until="load")
    assert seen.page.locator(".own-load").first.is_visible()
    assert not seen.page.locator(".own-notice").is_visible()


# -- what is amiss ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("body", "done", "said"),
    [
        ("70", ("bench-press", "sixty", "5"), "Enter the load as a number"),
        ("70", ("bench-press", "0", "5"), "Enter the load as a number"),
        ("70", ("bench-press", "60", ""), "a whole number from 1 to 15"),
        ("70", ("bench-press", "60", "16"), "a whole number from 1 to 15"),
        ("70", ("pull-up", "-80", "5"), "more help than you weigh"),
        ("70", ("pull-up", "", "5"), "0 for none"),
        ("", ("pull-up", "5", "5"), "Enter your bodyweight"),
        ("7o", ("bench-press", "60", "5"), "Enter your bodyweight"),
    ],
)
def test_what_is_amiss_is_said_where_it_is(
    visit: Visits, host: str, body: str, done: tuple[str, str, str], said: str
) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_label("Bodyweight").fill(body)
    enter(seen, *done)
    work_out(seen)
    wrong = seen.page.locator("[aria-invalid=true]")
    assert wrong.count() == 1
    assert wrong.evaluate("field => field === document.activeElement")
    told = wrong.evaluate("field => document.getElementById(field.getAttribute('aria-describedby')).textContent")
    assert said in told
    fields = {"bench-press": "Bench press", "pull-up": "Pull-up"}
    assert status(seen) == f"Not yet: look at {fields[done[0]] if body == '70' else 'Bodyweight kg'}."
    assert seen.page.locator("body.own-loads").count() == 0
    form(seen).get_by_label("Bodyweight").fill("70")
    enter(seen, done[0], "10", "5")
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")
    assert wrong.count() == 0


def test_a_lift_is_called_by_its_name_whatever_that_is(visit: Visits, host: str) -> None:
    """In a replacement, a dollar sign would stand for what it replaces."""
    seen = opened(visit, f"{host}/{PROGRAM}")
    legend = form(seen).locator("[data-lift=bench-press] legend")
    legend.evaluate('legend => { legend.textContent = "Cash $& carry $\'"; }')
    form(seen).get_by_label("Bodyweight").fill("70")
    enter(seen, "bench-press", "much", "5")
    work_out(seen)
    assert status(seen) == "Not yet: look at Cash $& carry $'."


def test_a_likely_slip_is_asked_about_once(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_label("Bodyweight").fill("70")
    enter(seen, "bench-press", "600", "5")
    work_out(seen)
    line = form(seen).locator("[data-lift=bench-press] .said")
    line.filter(has_text="over three times the example lifter").wait_for()
    assert status(seen) == "Not yet: look at Bench press."
    assert seen.page.locator("body.own-loads").count() == 0
    assert seen.page.evaluate("window.localStorage.length") == 0
    enter(seen, "bench-press", "605", "5")
    work_out(seen)
    line.filter(has_text="over three times the example lifter").wait_for()
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")
    assert status(seen).startswith("Done")


def test_a_load_that_cannot_be_had_as_meant_is_told(visit: Visits, base: str) -> None:
    """The empty bar of 20 kg is more than any of these sets was meant to be: on the page, on a sheet, on paper."""
    seen = opened(visit, base + PROGRAM)
    enter(seen, "bench-press", "15", "8")
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")
    told = "The lightest there is, and more than meant"
    rows = seen.page.locator("tr.lift").filter(has=seen.page.get_by_role("link", name="Bench press", exact=True))
    assert told in rows.first.inner_text()
    seen.page.goto(base + WEEK, wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    seen.page.emulate_media(media="print")
    assert seen.page.locator(".sheet-lift .own-amiss").first.is_visible()
    assert told in seen.page.locator(".sheet-lift .own-amiss").first.inner_text()
    seen.page.emulate_media(media="screen")
    seen.page.goto(f"{base}{PROGRAM}#your-numbers", wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    enter(seen, "bench-press", "60", "8")
    work_out(seen)
    seen.page.wait_for_function("document.querySelectorAll('.own-amiss').length === 0")


def test_a_max_far_below_the_example_lifters_is_asked_about(visit: Visits, host: str) -> None:
    """'1.000' is one, whatever its writer meant."""
    seen = opened(visit, f"{host}/{PROGRAM}")
    enter(seen, "bench-press", "1.000", "5")
    work_out(seen)
    line = form(seen).locator("[data-lift=bench-press] .said")
    line.filter(has_text="under a tenth of the example lifter").wait_for()
    assert seen.page.locator("body.own-loads").count() == 0
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")


def test_the_same_figures_in_another_unit_are_asked_about(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_label("lb", exact=True).check()
    assert status(seen) == ""
    enter(seen, "bench-press", "135", "5")
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")
    form(seen).get_by_label("kg", exact=True).check()
    assert "stay as they are and count as kg now" in status(seen)
    work_out(seen)
    line = form(seen).locator("[data-lift=bench-press] .said")
    line.filter(has_text="the figures you gave in lb").wait_for()
    enter(seen, "bench-press", "60", "5")
    work_out(seen)
    line.filter(has_text="points to a max of").wait_for()


def test_no_bodyweight_is_asked_for_that_no_set_needs(visit: Visits, host: str) -> None:
    """A lift on the body is then done with the body alone."""
    seen = opened(visit, f"{host}/{PROGRAM}")
    enter(seen, "bench-press", "60", "5")
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")
    assert load_of(seen, "Bench press").endswith("\u00a0kg")
    assert load_of(seen, "Pull-up") == "bodyweight"


def test_what_is_folded_away_opens_where_it_is_amiss(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_text("Where you train").click()
    bar = form(seen).get_by_label(re.compile("Weight of the barbell")).locator("visible=true")
    bar.fill("heavy")
    form(seen).get_by_text("Where you train").click()
    filled_in = form(seen).locator("[data-bar=barbell]").first
    assert not filled_in.is_visible()
    form(seen).get_by_label("Bodyweight").fill("70")
    enter(seen, "bench-press", "60", "5")
    work_out(seen)
    assert filled_in.is_visible()
    assert filled_in.evaluate("field => field === document.activeElement")


def test_an_empty_form_asks_for_a_set(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_label("Bodyweight").fill("70")
    work_out(seen)
    assert status(seen) == "Enter a set of at least one lift."


def test_the_keyboard_alone_will_do(visit: Visits, host: str) -> None:
    seen = visit()
    seen.page.goto(f"{host}/{PROGRAM}", wait_until="load")
    form(seen).locator("> summary").focus()
    seen.page.keyboard.press("Enter")
    form(seen).get_by_label("Bodyweight").focus()
    for word in ("70", "Ash", "5", "8"):
        seen.page.keyboard.type(word)
        seen.page.keyboard.press("Tab")
    seen.page.keyboard.press("Enter")
    seen.page.wait_for_selector("body.own-loads")
    assert "for Ash" in seen.page.locator(".own-notice").inner_text()


# -- units, gyms, links ----------------------------------------------------------------------------


def test_pounds(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_label("lb", exact=True).check()
    form(seen).get_by_label("Bodyweight lb").fill("155")
    enter(seen, "bench-press", "135", "8")
    work_out(seen)
    seen.page.wait_for_selector("body.own-loads")
    assert load_of(seen, "Bench press").endswith("\u00a0lb")
    row = seen.page.locator("tr.lift", has_text="Bench press").first
    assert re.search(r"45|empty bar|35|25|10|5", row.locator(".plates").inner_text())


def test_another_gym_changes_what_can_be_loaded(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_text("Where you train").click()
    form(seen).get_by_label(re.compile("Weight of the barbell")).locator("visible=true").fill("15")
    form(seen).get_by_label("Smallest plate, in pairs").locator("visible=true").select_option("0.5")
    filled(seen)
    plates = seen.page.locator("tr.lift", has_text="Bench press").first.locator(".plates").inner_text()
    mass = Decimal(load_of(seen, "Bench press").split()[0])
    assert 15 + 2 * sum(Decimal(part) for part in plates.removesuffix(" each side").split(" + ")) == mass


def test_a_link_carries_them_and_sends_nothing(visit: Visits, base: str) -> None:
    seen = opened(visit, base + PROGRAM)
    form(seen).get_by_label("Name on printed sheets").fill("Ash")
    filled(seen)
    mine = load_of(seen, "Bench press")
    form(seen).get_by_role("button", name="Copy a link").click()
    link = form(seen).locator("[name=link]").input_value()
    assert link.startswith(base + PROGRAM + "#your-numbers?unit=kg&body=70")
    assert "Ash" not in link
    other = visit()
    other.page.goto(link, wait_until="load")
    other.page.wait_for_selector("body.own-loads")
    assert load_of(other, "Bench press") == mine
    assert form(other).get_by_label("Bodyweight").is_visible()
    assert other.outside(base) == []
    assert troubles(other) == []
    other.page.goto(base + WEEK, wait_until="load")
    other.page.wait_for_selector("body.own-loads")


def test_a_link_does_not_take_the_place_of_numbers_that_are_kept(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    filled(seen)
    mine = load_of(seen, "Bench press")
    seen.page.goto(f"{host}/{WEEK}", wait_until="load")
    seen.page.goto(f"{host}/{PROGRAM}#your-numbers?unit=kg&body=90&set.bench-press=120x3", wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    assert load_of(seen, "Bench press") != mine
    assert "stay as they are" in status(seen)
    seen.page.goto(f"{host}/{WEEK}", wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    assert load_of(seen, "Bench press") == mine


def test_paper_says_whose_loads_they_are(visit: Visits, host: str) -> None:
    seen = opened(visit, f"{host}/{PROGRAM}")
    form(seen).get_by_label("Name on printed sheets").fill("Ash <b> $& {}")
    filled(seen)
    seen.page.goto(f"{host}/{WEEK}", wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    seen.page.emulate_media(media="print")
    notes = [note.inner_text() for note in seen.page.locator(".lifter-note").all()]
    assert notes
    assert all("Loads for Ash <b> $& {}, from their own sets" in note for note in notes)
    assert not any("example lifter" in note for note in notes)
    assert not seen.page.locator(".own-load").first.is_visible()
    assert seen.page.locator("[data-cautions=short]").first.is_visible()
    assert not seen.page.locator(".own-hint").first.is_visible()


# -- the whole page beside one pressed for the same lifter -----------------------------------------


@pytest.fixture(scope="module")
def manuscript() -> Manuscript:
    return read_manuscript(CONTENT, "content")


def a_lifter(slug: str, unit: Unit, manuscript: Manuscript) -> tuple[dict[str, str], Lifter]:
    """Someone who has done a set of every lift of a program, as a link has it and as a manuscript has it."""
    lot = Random(f"{slug} {unit}")
    notes = {name: document.head for name, document in manuscript.exercises.items()}
    plan = plan_program(slug, manuscript.programs[slug].head, manuscript.site.head, notes)
    said, bests = {"unit": unit, "body": "81.5"}, {}
    for lift in open_plan(plan, manuscript.site.head, notes).lifts:
        load, reps = lot.randint(10, 120), lot.randint(1, 12)
        mass = Mass(Decimal(load), unit)
        said[f"set.{lift.exercise}"] = f"{load}x{reps}"
        bests[lift.exercise] = Best(BodyweightLoad(mass) if lift.kind == "bodyweight" else FixedLoad(mass), reps)
    return said, Lifter().model_copy(update={"bodyweight": Mass(Decimal("81.5"), unit), "bests": bests})


def planned_for(slug: str, lifter: Lifter, unit: Unit, manuscript: Manuscript) -> Plan:
    site, program = manuscript.site.head, manuscript.programs[slug].head
    own = joined(site.loading, program.loading)
    loading = loading_of(own, program.unit or site.unit, GymChoice(unit))
    notes = {name: document.head for name, document in manuscript.exercises.items()}
    bare = site.model_copy(update={"loading": loading})
    changed = {"unit": unit, "example_lifter": lifter, "loading": loading}
    return plan_program(slug, program.model_copy(update=changed), bare, notes)


def pressed_tables(plan: Plan, manuscript: Manuscript, macro: str) -> Iterator[str]:
    """Each session as the theme's own macro sets it: what the page would be, had it been pressed for this lifter."""
    notes = Notes(
        {name: document.head for name, document in manuscript.exercises.items()},
        {name: document.head for name, document in manuscript.techniques.items()},
        plan.unit,
    )
    environment = find_theme("noticeboard", CONTENT, shipped("themes")).environment()
    calls = {"table": "m.line_body(line, false, {})", "sheet": "m.sheet_lift(lift)"}
    each = {"table": "", "sheet": "{% for lift in line.lifts %}"}[macro]
    end = "{% endfor %}" if each else ""
    template = environment.from_string(
        '{% import "macros.html" as m with context %}{% for line in session.lines %}'
        + each + "{{ " + calls[macro] + " }}" + end + "{% endfor %}"
    )  # fmt: skip
    for week in plan.weeks:
        for session in week.sessions:
            view = session_view(session, notes, by_weekday=True)
            given = {"link": lambda path: "#", "once": lambda macro, *values: macro(*values)}
            html = template.render(session=view, week=week, site={}, **given)
            yield f"<table>{html}</table>" if macro == "table" else f"<div>{html}</div>"


TEXTS = """([sessions, rows]) => {
  const words = element => element.textContent.replace(/\\s+/g, " ").trim();
  const aside = ".swaps, .why, .own-hint, .own-amiss, .sheet [hidden], .session [hidden]";
  document.querySelectorAll(aside).forEach(part => part.remove());
  return Array.from(document.querySelectorAll(sessions), session =>
    Array.from(session.querySelectorAll(rows), words).filter(Boolean));
}"""
PRESSED_TEXTS = """pages => pages.map(html => {
  const within = new DOMParser().parseFromString(html, "text/html");
  within.querySelectorAll(".swaps, .why").forEach(part => part.remove());
  const words = element => element.textContent.replace(/\\s+/g, " ").trim();
  return Array.from(within.querySelectorAll(ROWS), words).filter(Boolean);
})"""


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize(
    "slug",
    ["first-ten-weeks", "heavier-triples", "lunch-hour-upper-lower", "two-dumbbells-and-a-floor", "wider-back-block"],
)
def test_the_page_reads_as_if_pressed_for_the_reader(
    visit: Visits, host: str, manuscript: Manuscript, slug: str, unit: Unit
) -> None:
    said, lifter = a_lifter(slug, unit, manuscript)
    plan = planned_for(slug, lifter, unit, manuscript)
    seen = visit()
    seen.page.goto(f"{host}/programs/{slug}/index.html#your-numbers?{urlencode(said)}", wait_until="load")
    seen.page.wait_for_selector("body.own-loads")
    expected = list(pressed_tables(plan, manuscript, "table"))
    rows = "tr.lift, tr.notes p"
    mine = seen.page.evaluate(TEXTS, [".session", rows])
    assert mine == seen.page.evaluate(PRESSED_TEXTS.replace("ROWS", repr(rows)), expected)
    sheets = iter(pressed_tables(plan, manuscript, "sheet"))
    rows = ".to-do > *, .entry"
    for week in plan.weeks:
        seen.page.goto(f"{host}/programs/{slug}/week-{week.number}.html", wait_until="load")
        seen.page.wait_for_selector("body.own-loads")
        mine = seen.page.evaluate(TEXTS, [".sheet", rows])
        expected = [next(sheets) for _ in week.sessions]
        assert mine == seen.page.evaluate(PRESSED_TEXTS.replace("ROWS", repr(rows)), expected)


def test_a_first_visit_loads_little_and_nothing_that_was_prepared(
    visit: Visits, host: str, site: Path, site_programs: list[str]
) -> None:
    for path in site_programs:
        seen = visit()
        seen.page.goto(f"{host}/{path}", wait_until="load")
        loaded = [urlsplit(url).path.lstrip("/") for url in seen.requests if not url.startswith("data:")]
        assert not any("prepared" in name or "own-loads" in name for name in loaded)
        assert sum(len(gzip.compress((site / name).read_bytes())) for name in loaded) <= 80_000


# -- no formula, no fault --------------------------------------------------------------------------


def test_the_script_holds_no_formula_of_training() -> None:
    for name in ("own-loads.js", "own-page.js", "own-form.js"):
        code = re.sub(r"^\s*//.*$", "", (THEME / name).read_text(encoding="utf-8"), flags=re.MULTILINE)
        assert set(re.findall(r"Math\.\w+", code)) <= {"Math.max", "Math.min"}
        assert not re.search(r"\d\.\d|parseFloat", code)
        assert not re.search(r"fetch\(|XMLHttpRequest|sendBeacon|WebSocket|eval\(|Function\(", code)
    core = (THEME / "own-loads.js").read_text(encoding="utf-8")
    figures = {int(number) for number in re.findall(r"(?<![\w.])\d+", re.sub(r"//.*", "", core))}
    assert figures <= {0, 1, 2, 3, 4, 5, 10, 28, 65, 100}, "65 is the letter A, 28 the digits of a decimal"


@pytest.mark.parametrize("view", [(360, False), (360, True), (1280, False), (1280, True)], ids=str)
@pytest.mark.parametrize("path", [PROGRAM, WEEK])
def test_no_rule_of_access_is_broken_with_the_form_open(
    visit: Visits, host: str, path: str, view: tuple[int, bool]
) -> None:
    named = os.environ.get("PLATESET_AXE")
    if not named:
        pytest.skip("PLATESET_AXE is not set; it names the axe.min.js of the npm package axe-core")
    width, dark = view
    seen = opened(visit, f"{host}/{PROGRAM}", width=width, dark=dark)
    enter(seen, "bench-press", "no", "")
    work_out(seen)
    if path == WEEK:
        filled(seen)
        seen.page.goto(f"{host}/{WEEK}", wait_until="load")
        seen.page.wait_for_selector("body.own-loads")
    seen.page.evaluate(Path(named).read_text(encoding="utf-8"))
    found = seen.page.evaluate(
        "rules => axe.run(document, { runOnly: rules })"
        ".then(found => found.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 120)).slice(0, 3)]))",
        ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    )
    assert found == []

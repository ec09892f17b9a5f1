"""What leads others to a site: feed, sitemap, robots.txt, structured data and cards, on a site that has an address."""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from plateset.publishing import sitemap
from plateset.publishing.documents import Edition, documents, site_view
from plateset.publishing.program_view import program_view
from plateset.publishing.sitemap import sitemaps
from plateset.publishing.social_card import Card, card_image
from plateset.publishing.structured_data import json_ld
from plateset.publishing.theme import CARD
from plateset.publishing.views import Fact, ProgramView

from tests.publishing.building import LANTERN, SITE, edition_of, write_book

HOME = "https://tannery.example/lifting"
CHANGED = LANTERN.replace(
    "date: 2026-03-02\n",
    "date: 2026-03-02\nedition: 2\nchanges:\n"
    "  - {edition: 1, date: 2026-03-02, text: First.}\n  - {edition: 2, date: 2026-05-04, text: Fewer rows.}\n",
)


@pytest.fixture(scope="module")
def edition_at_home(tmp_path_factory: pytest.TempPathFactory) -> Edition:
    changes = {"site.yaml": SITE + f"address: {HOME}/\n", "programs/lantern.yaml": CHANGED}
    return edition_of(write_book(tmp_path_factory.mktemp("home") / "book", changes))


@pytest.fixture(scope="module")
def whole(edition_at_home: Edition) -> dict[str, bytes]:
    """The files of the small manuscript, hosted somewhere, one program in its second edition."""
    return dict(documents(edition_at_home))


def lantern(edition: Edition) -> ProgramView:
    return program_view(edition.programs["lantern"], edition.manuscript, edition.figure)


# -- feed (RFC 4287) ----------------------------------------------------------------------------------------

ATOM = "{http://www.w3.org/2005/Atom}"


def text_of(element: ElementTree.Element, name: str) -> str:
    found = element.findall(ATOM + name)
    assert len(found) == 1, name
    return found[0].text or ""


def test_the_feed_has_what_every_reader_needs(whole: Mapping[str, bytes]) -> None:
    """Sections 4.1.1 and 4.1.2: id, title and updated once each; an author; unique ids; a link to the feed itself."""
    feed = ElementTree.fromstring(whole["feed.xml"])
    assert feed.tag == f"{ATOM}feed"
    assert text_of(feed, "id") == f"{HOME}/"
    assert text_of(feed, "title") == "Tannery Row Lifting"
    author = feed.find(f"{ATOM}author")
    assert author is not None
    assert text_of(author, "name") == "Osla Brandt"
    links = {link.get("rel"): link.get("href") for link in feed.findall(f"{ATOM}link")}
    assert links == {"self": f"{HOME}/feed.xml", "alternate": f"{HOME}/"}
    entries = feed.findall(f"{ATOM}entry")
    assert len({text_of(entry, "id") for entry in entries}) == len(entries) == 3
    for entry in entries:
        assert text_of(entry, "title")
        assert text_of(entry, "summary")
        assert text_of(entry, "updated") >= text_of(entry, "published")


def test_the_newest_edition_is_the_newest_entry(whole: Mapping[str, bytes]) -> None:
    feed = ElementTree.fromstring(whole["feed.xml"])
    first, *_ = feed.findall(f"{ATOM}entry")
    assert text_of(first, "id") == f"{HOME}/programs/lantern/"
    assert text_of(first, "published") == "2026-03-02T12:00:00Z"
    assert text_of(first, "updated") == text_of(feed, "updated") == "2026-05-04T12:00:00Z"


# -- sitemap and robots.txt ---------------------------------------------------------------------------------

MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


def test_the_sitemap_has_every_page_but_the_one_that_is_not(whole: Mapping[str, bytes]) -> None:
    urls = ElementTree.fromstring(whole["sitemap.xml"]).findall(f"{MAP}url")
    places = {url.findtext(f"{MAP}loc"): url.findtext(f"{MAP}lastmod") for url in urls}
    pages = {path for path in whole if path.endswith(".html") and path != "404.html"}
    assert set(places) == {f"{HOME}/{path.removesuffix('index.html')}" for path in pages}
    assert places[f"{HOME}/programs/lantern/"] == "2026-05-04"
    assert places[f"{HOME}/explainers/why-the-row.html"] == "2026-02-01"
    assert places[f"{HOME}/"] is None


def test_a_sitemap_too_long_for_a_file_is_one_of_sitemaps(
    edition_at_home: Edition, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sitemap, "MOST_ADDRESSES", 2)
    files = dict(sitemaps(site_view(edition_at_home), [("a.html", ""), ("b.html", ""), ("c.html", "")]))
    assert list(files) == ["sitemap-1.xml", "sitemap-2.xml", "sitemap.xml"]
    index = ElementTree.fromstring(files["sitemap.xml"])
    assert index.tag == f"{MAP}sitemapindex"
    assert [each.findtext(f"{MAP}loc") for each in index] == [f"{HOME}/sitemap-1.xml", f"{HOME}/sitemap-2.xml"]
    assert len(ElementTree.fromstring(files["sitemap-1.xml"])) == 2


def test_robots_are_told_where_the_sitemap_is_and_to_leave_a_draft_alone(
    edition_at_home: Edition, whole: Mapping[str, bytes], files: Mapping[str, bytes]
) -> None:
    assert whole["robots.txt"].decode().endswith(f"Disallow:\n\nSitemap: {HOME}/sitemap.xml\n")
    assert b"Sitemap" not in files["robots.txt"]
    draft = dict(documents(replace(edition_at_home, draft=True)))
    assert draft["robots.txt"] == b"User-agent: *\nDisallow: /\n"


def test_without_an_address_nothing_speaks_of_one(files: Mapping[str, bytes]) -> None:
    assert not {"feed.xml", "sitemap.xml"} & set(files)
    assert not [path for path in files if path.startswith("cards/")]
    for path, data in files.items():
        if path.endswith(".html"):
            assert b'rel="canonical"' not in data, path
            assert b"og:" not in data, path
            assert b"BreadcrumbList" not in data, path


# -- the head of a page -------------------------------------------------------------------------------------


def test_every_page_says_where_it_is_and_has_a_card_that_is_there(whole: Mapping[str, bytes]) -> None:
    for path, data in whole.items():
        if path.endswith(".html") and path != "404.html":
            page = data.decode()
            assert f'<link rel="canonical" href="{HOME}/{path.removesuffix("index.html")}">' in page, path
            image = page.partition('property="og:image" content="')[2].partition('"')[0]
            assert image.removeprefix(f"{HOME}/") in whole, path
            assert 'property="og:image:alt" content="' in page, path
    assert b'rel="canonical"' not in whole["404.html"]


# -- structured data (schema.org) ---------------------------------------------------------------------------


def described(page: bytes) -> dict[str, dict[str, Any]]:
    parts = page.decode().split('<script type="application/ld+json">')[1:]
    found = [json.loads(part.partition("</script>")[0]) for part in parts]
    assert all(each["@context"] == "https://schema.org" for each in found)
    return {each["@type"]: each for each in found}


def test_a_program_is_an_exercise_plan(whole: Mapping[str, bytes]) -> None:
    plan = described(whole["programs/lantern/index.html"])["ExercisePlan"]
    assert plan["name"] == "Lantern & oil"
    assert plan["activityDuration"] == "P3W"
    assert plan["activityFrequency"] == "2 sessions a week"
    assert plan["additionalVariable"] == "31–33 minutes a session"
    one = described(whole["programs/tally/index.html"])["ExercisePlan"]
    assert one["additionalVariable"] == "7 minutes a session"
    assert (plan["datePublished"], plan["dateModified"], plan["version"]) == ("2026-03-02", "2026-05-04", "2")
    assert plan["url"] == f"{HOME}/programs/lantern/"
    assert "license" not in plan


def test_an_explainer_is_an_article(whole: Mapping[str, bytes]) -> None:
    article = described(whole["explainers/why-the-row.html"])["Article"]
    assert article["headline"] == "Why the row"
    assert article["image"] == f"{HOME}/cards/explainers/why-the-row.png"
    assert article["author"] == {"@type": "Person", "name": "Osla Brandt"}


def test_breadcrumbs_lead_from_the_front_to_the_page(whole: Mapping[str, bytes]) -> None:
    trail = described(whole["programs/lantern/week-2.html"])["BreadcrumbList"]["itemListElement"]
    assert [(step["position"], step["name"], step["item"]) for step in trail] == [
        (1, "Tannery Row Lifting", f"{HOME}/"),
        (2, "Programs", f"{HOME}/programs/"),
        (3, "Lantern & oil", f"{HOME}/programs/lantern/"),
        (4, "Lantern & oil, week 2", f"{HOME}/programs/lantern/week-2.html"),
    ]
    assert "BreadcrumbList" not in described(whole["index.html"])


def test_without_an_address_a_program_is_still_described(files: Mapping[str, bytes]) -> None:
    plan = described(files["programs/tally/index.html"])["ExercisePlan"]
    assert plan["license"] == {"@type": "CreativeWork", "name": "CC BY 4.0"}
    assert not {"url", "image"} & set(plan)


def test_structured_data_cannot_end_its_script_element() -> None:
    text = json_ld({"name": "</script><!--&"})
    assert not set("<>&") & set(text)
    assert json.loads(text) == {"name": "</script><!--&"}


# -- cards --------------------------------------------------------------------------------------------------


def size_of(png: bytes) -> tuple[int, int]:
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", png[16:24])
    return width, height


def test_a_card_is_of_the_size_that_is_said_and_the_same_each_time(
    edition_at_home: Edition, whole: Mapping[str, bytes]
) -> None:
    cards = {path: data for path, data in whole.items() if path.startswith("cards/")}
    assert {size_of(data) for data in cards.values()} == {(1200, 630)}
    assert {"cards/index.png", "cards/programs/lantern.png", "cards/exercises/squat.png"} <= set(cards)
    again = dict(documents(edition_at_home))
    assert {path: again[path] for path in cards} == cards


@pytest.mark.parametrize("title", ["W" * 200, "One long word after another " * 7, "#set page(width: 1pt)", "训练 <b>"])
def test_any_title_fits_a_card(edition_at_home: Edition, title: str) -> None:
    template = edition_at_home.theme.read(CARD)
    card = Card("Program", title, title, (Fact("Weeks", "52"), Fact("Days a week", "7")))
    assert size_of(card_image(card, site_view(edition_at_home), template)) == (1200, 630)
    assert size_of(card_image(replace(card, figures=()), site_view(edition_at_home), template)) == (1200, 630)


@pytest.mark.parametrize("title", ["W " * 99, "w" * 200, "A name of a site that goes on for quite a while"])
def test_a_card_has_room_for_any_name_of_a_site(edition_at_home: Edition, title: str) -> None:
    template = edition_at_home.theme.read(CARD)
    card = Card("Program", "Lantern", "By lamplight.", (Fact("Weeks", "3"),))
    assert size_of(card_image(card, replace(site_view(edition_at_home), title=title), template)) == (1200, 630)


def test_a_card_is_told_in_words(edition_at_home: Edition) -> None:
    site = site_view(edition_at_home)
    card = Card("Program", "Lantern", "By lamplight.", (Fact("Weeks", "3"),))
    assert card.words(site) == "Lantern. Program. Weeks: 3. Tannery Row Lifting."
    assert Card("", site.title, "A tagline.").words(site) == "Tannery Row Lifting. A tagline."


# -- what changed -------------------------------------------------------------------------------------------


def test_what_an_edition_changed_is_told_newest_first(edition_at_home: Edition, whole: Mapping[str, bytes]) -> None:
    changes = lantern(edition_at_home).changes
    assert [(each.edition, each.date, each.text) for each in changes] == [
        ("2", "4 May 2026", "Fewer rows."),
        ("1", "2 March 2026", "First."),
    ]
    page = whole["programs/lantern/index.html"].decode()
    assert page.index("Fewer rows.") < page.index("First.")


def test_a_theme_of_ones_own_may_set_the_card(tmp_path: Path) -> None:
    card = '#set page(width: 1200pt, height: 630pt)\n#json("data.json").title'
    changes = {"site.yaml": SITE + f"address: {HOME}\n", f"theme/{CARD}": card}
    files = dict(documents(edition_of(write_book(tmp_path, changes))))
    assert size_of(files["cards/index.png"]) == (1200, 630)

"""Programs found by what they ask for: facets, the lists of each, and what the form offers."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from plateset.manuscript.schema import Limits
from plateset.publishing.contents import ON_THE_FRONT_PAGE, Shelves, contents, shelves
from plateset.publishing.documents import Edition
from plateset.publishing.finder import LISTED, facet_lists, finder_values
from plateset.publishing.language import language_of
from plateset.publishing.program_view import program_view
from plateset.publishing.studio import Studio
from plateset.publishing.views import ProgramView

from tests.publishing.building import LANTERN, TALLY, edition_of, write_book
from tests.publishing.paper import a_site


@pytest.fixture(scope="module")
def programs(edition: Edition) -> list[ProgramView]:
    return views_of(edition)


def views_of(edition: Edition) -> list[ProgramView]:
    return [
        program_view(program, edition.manuscript, edition.figure) for _, program in sorted(edition.programs.items())
    ]


def test_a_program_is_found_by_what_it_asks_for(programs: list[ProgramView]) -> None:
    facets = programs[0].facets
    assert (facets.level, facets.days) == ("intermediate", 2)
    assert 0 < facets.least_minutes <= facets.most_minutes
    assert facets.kit == ("barbell", "rack", "dumbbells", "cable")
    assert facets.techniques == (("circuit", "Circuit"), ("drop-set", "Drop set"), ("superset", "Superset"))


def test_muscles_are_those_trained_directly_with_their_most_sets_first(programs: list[ProgramView]) -> None:
    """Biceps: 3 sets of curls and 0.25 of each of 2 rows; glutes are trained by squats alone, and in part."""
    muscles = dict(programs[0].facets.muscles)
    assert str(muscles["quads"]) == "7"
    assert str(muscles["biceps"]) == "3.50"
    assert "glutes" not in muscles
    assert list(muscles.values()) == sorted(muscles.values(), reverse=True)


def test_kit_is_found_by_whatever_the_order_it_is_listed_in(tmp_path: Path) -> None:
    orders = {
        f"programs/tally-{number}.yaml": TALLY.replace("kit: [mat]", f"kit: {kit}")
        for number, kit in enumerate(("[mat, bench]", "[bench, mat]"))
    }
    found = lists(views_of(edition_of(write_book(tmp_path, orders))))["kit"]
    assert [title for title in found if "ench" in title and "arbell" not in title] == ["Bench and mat"]
    assert len(found["Bench and mat"]) == 2


def test_two_muscles_of_one_word_are_two_lists(programs: list[ProgramView]) -> None:
    """Where a language says both by the same word; a program is not listed twice in one."""
    words = b'msgid "quads"\nmsgstr "Thigh"\n\nmsgid "hamstrings"\nmsgstr "Thigh"\n\nmsgid "biceps"\nmsgstr "Thigh"\n'
    head = b'msgid ""\nmsgstr "Content-Type: text/plain; charset=utf-8\\n"\n\n'
    (muscles,) = [each for each in facet_lists(programs, language_of("en", (head + words,))) if each.name == "muscle"]
    thighs = [group for group in muscles.groups if group.title == "Thigh"]
    assert len(thighs) > 1
    assert all(len(set(group.programs)) == len(group.programs) for group in thighs)


def lists(programs: list[ProgramView]) -> dict[str, dict[str, list[tuple[str, str]]]]:
    return {
        facet.name: {group.title: [(each.title, each.beside) for each in group.programs] for group in facet.groups}
        for facet in facet_lists(programs)
    }


def test_every_facet_lists_every_value_some_program_has(programs: list[ProgramView]) -> None:
    found = lists(programs)
    assert list(found) == ["level", "days", "minutes", "kit", "muscle", "technique"]
    assert list(found["level"]) == ["Novice", "Intermediate"]
    assert list(found["days"]) == ["2 days a week"]
    assert [title for title, _ in found["days"]["2 days a week"]] == ["Lantern & oil", "Tally"]
    assert list(found["kit"]) == ["Mat", "Barbell, rack, dumbbells and cable"]
    assert [title for title, _ in found["technique"]["Drop set"]] == ["Lantern & oil"]
    assert found["muscle"]["Quads"][0][1].startswith("Up to 7 sets a week. Intermediate, 2 days a week, ")


def test_under_a_muscle_the_program_with_most_sets_comes_first(tmp_path: Path) -> None:
    more = LANTERN.replace("title: Lantern & oil", "title: More squats").replace("sets: 4", "sets: 6", 1)
    more = more.replace("figure:lantern", "figure:more").replace(
        "weekly sets: {quads: 6-8,", "weekly sets: {quads: 6-9,"
    )
    edition = edition_of(write_book(tmp_path, {"programs/more.yaml": more}))
    found = lists(views_of(edition))
    assert [title for title, _ in found["muscle"]["Quads"]] == ["More squats", "Lantern & oil"]
    assert [title for title, _ in found["level"]["Intermediate"]] == ["Lantern & oil", "More squats"]


def test_the_form_offers_only_what_some_program_has(programs: list[ProgramView]) -> None:
    values = finder_values(programs)
    assert values.levels == (("novice", "Novice"), ("intermediate", "Intermediate"))
    assert values.days == (("2", "2"),)
    assert {value for value, _ in values.kit} == {"barbell", "rack", "dumbbells", "cable", "mat"}
    assert ("drop-set", "Drop set") in values.techniques


@pytest.mark.parametrize(
    ("longest", "offered"),
    [
        ([44, 44, 37, 40, 45], [40]),
        ([44, 45], []),
        ([], []),
        ([20, 31, 47, 62], [20, 35, 50]),
        (list(range(20, 130)), [30, 45, 60, 75, 90, 120]),
    ],
)
def test_minutes_are_offered_that_part_the_programs(
    programs: list[ProgramView], longest: list[int], offered: list[int]
) -> None:
    shelf = [replace(programs[0], facets=replace(programs[0].facets, most_minutes=most)) for most in longest]
    found = [int(value) for value, _ in finder_values(shelf).minutes]
    assert found == offered
    assert all(0 < sum(most <= each for most in longest) < len(longest) for each in found)


def test_a_site_without_programs_has_empty_lists() -> None:
    assert all(not facet.groups for facet in facet_lists([]))
    assert finder_values([]).levels == ()


def many(programs: list[ProgramView], count: int) -> list[ProgramView]:
    return [
        replace(programs[0], slug=f"p-{n:03}", title=f"P {n:03}", iso_date=f"2026-01-{1 + n % 28:02}")
        for n in range(count)
    ]


def test_a_list_shows_the_first_of_very_many_and_leads_to_the_others(programs: list[ProgramView]) -> None:
    shelf = many(programs, LISTED + 7)
    for facet in facet_lists(shelf):
        for group in facet.groups:
            assert [each.title for each in group.programs] == [each.title for each in shelf[:LISTED]]
            assert group.more == 7
    values = {facet.name: {group.value for group in facet.groups} for facet in facet_lists(shelf)}
    offered = finder_values(shelf)
    assert values["level"] <= {value for value, _ in offered.levels}
    assert values["days"] <= {value for value, _ in offered.days}
    assert values["muscle"] <= {value for value, _ in offered.muscles}
    assert values["technique"] <= {value for value, _ in offered.techniques}
    assert all(not group.more for facet in facet_lists(shelf[:LISTED]) for group in facet.groups)


def test_the_front_page_shows_the_latest_of_very_many(programs: list[ProgramView]) -> None:
    def front(count: int) -> tuple[list[str], int]:
        shelf = Shelves(list(many(programs, count)), [], [], [])
        page = next(contents(a_site(), Limits(), shelf))
        return [each.iso_date for each in page.data["programs"]], page.data["all_programs"]

    few, all_few = front(ON_THE_FRONT_PAGE)
    assert few == [each.iso_date for each in many(programs, ON_THE_FRONT_PAGE)]
    assert all_few == ON_THE_FRONT_PAGE
    dates, every = front(60)
    assert every == 60
    assert len(dates) == ON_THE_FRONT_PAGE
    assert dates == sorted(dates, reverse=True)
    assert dates[0] == "2026-01-28"


def test_a_note_shows_the_first_of_very_many_programs_and_leads_to_the_form(
    edition: Edition, programs: list[ProgramView]
) -> None:
    """The page of an exercise or technique is as useful with thousands of programs as with ten."""
    many_more = {each.slug: each for each in many(programs, LISTED + 7)}
    shelf = shelves(replace(edition.manuscript, explainers={}), edition.figure, many_more)
    lift = next(each for each in shelf.exercises if each.slug in programs[0].exercises)
    technique = next(each for each in shelf.techniques if each.slug == programs[0].facets.techniques[0][0])
    for found in (lift.used_in, technique.used_in):
        assert [each.title for each in found.programs] == [f"P {n:03}" for n in range(LISTED)]
        assert found.more == 7
    studio = Studio(a_site(), edition.theme)
    pages = {page.path: page for page in contents(a_site(), Limits(), shelf)}
    for path, query in ((lift.path, ""), (technique.path, f"?technique={technique.slug}")):
        html = studio.page(pages[path]).make().decode()
        assert f'href="../programs/index.html{query}">7 more: ' in html
        assert html.count('">P ') == LISTED

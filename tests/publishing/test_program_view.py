"""A small program from its YAML to what its page and sheets show."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.publishing.documents import Edition
from plateset.publishing.program_view import program_view
from plateset.publishing.views import LiftView, ProgramView

from tests.publishing.building import LANTERN, edition_of, write_book


def view_of(edition: Edition, slug: str) -> ProgramView:
    return program_view(edition.programs[slug], edition.manuscript, edition.figure)


@pytest.fixture(scope="module")
def lantern(edition: Edition) -> ProgramView:
    return view_of(edition, "lantern")


@pytest.fixture(scope="module")
def tally(edition: Edition) -> ProgramView:
    return view_of(edition, "tally")


def lifts(view: ProgramView, week: int, session: int) -> list[LiftView]:
    return [lift for line in view.weeks[week - 1].sessions[session].lines for lift in line.lifts]


def rows(view: ProgramView) -> dict[str, list[tuple[str, str, str]]]:
    return {row.muscle: [(cell.sets, cell.direct, cell.kept) for cell in row.cells] for row in view.volume}


def test_facts(lantern: ProgramView, tally: ProgramView) -> None:
    facts = {fact.label: fact.value for fact in lantern.facts}
    minutes = facts.pop("Minutes a session")
    assert facts == {
        "Level": "Intermediate",
        "Goal": "Strength",
        "Weeks": "3",
        "Days a week": "2",
        "Kit": "barbell, rack, dumbbells and cable",
    }
    days = [int(day.minutes) for day in lantern.glance if day.minutes]
    assert minutes == f"{min(days)}–{max(days)}"
    assert {fact.label: fact.value for fact in tally.facts}["Kit"] == "mat"


def test_the_kit_is_worked_out_or_the_authors_own(tmp_path: Path) -> None:
    bare = LANTERN.replace("sessions:\n", "kit: [cable, dumbbells, bench, rack, barbell]\nsessions:\n", 1)
    view = view_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": bare})), "lantern")
    assert {fact.label: fact.value for fact in view.facts}["Kit"] == "cable, dumbbells, bench, rack and barbell"


def test_the_week_at_a_glance_has_seven_days_or_those_counted(lantern: ProgramView, tally: ProgramView) -> None:
    assert [(day.day, day.title, day.path) for day in lantern.glance] == [
        ("Monday", "Heavy day", "programs/lantern/week-1.html#day-1"),
        ("Tuesday", "", ""),
        ("Wednesday", "", ""),
        ("Thursday", "Light", "programs/lantern/week-1.html#day-4"),
        ("Friday", "", ""),
        ("Saturday", "", ""),
        ("Sunday", "", ""),
    ]
    assert lantern.glance[0].lifts == ("Squat", "Bench press", "Pull-up", "Plank")
    assert [(day.day, day.title) for day in tally.glance] == [("Day 1", "Only"), ("Day 2", ""), ("Day 3", "Only")]


def test_weekly_sets_say_whether_the_promise_is_kept(lantern: ProgramView) -> None:
    found = rows(lantern)
    assert found["quads"] == [("7", "7", "yes"), ("7", "7", "yes"), ("4", "4", "")]
    assert found["chest"] == [("3", "3", "no"), ("3", "3", "no"), ("2", "2", "")]
    assert found["glutes"] == [("3.5", "0", ""), ("3.5", "0", ""), ("2", "0", "")]
    assert found["biceps"][0] == ("3.5", "3", "")
    assert [row.muscle for row in lantern.volume][:3] == ["chest", "quads", "abs"]
    assert {row.muscle: (row.promised, row.days) for row in lantern.volume}["quads"] == ("6–8", "2")
    assert lantern.volume_weeks == (("1", ""), ("2", ""), ("3", "deload"))


@pytest.mark.parametrize(
    ("promise", "kept"), [("7", "yes"), ("7-9", "yes"), ("1-7", "yes"), ("8-9", "no"), ("1-6", "no")]
)
def test_a_promise_is_kept_at_its_very_ends(tmp_path: Path, promise: str, kept: str) -> None:
    text = LANTERN.replace("quads: 6-8", f"quads: {promise}")
    view = view_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": text})), "lantern")
    assert [kept_or_not for _, _, kept_or_not in rows(view)["quads"]] == [kept, kept, ""]


def test_a_promised_muscle_that_is_never_trained_has_a_row(tmp_path: Path) -> None:
    text = LANTERN.replace("quads: 6-8", "neck: 4")
    view = view_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": text})), "lantern")
    assert rows(view)["neck"] == [("0", "0", "no"), ("0", "0", "no"), ("0", "0", "")]
    assert {row.muscle: (row.promised, row.days) for row in view.volume}["neck"] == ("4", "0")


def test_loads_plates_and_efforts_stand_in_their_columns(lantern: ProgramView) -> None:
    squat, bench, pull_up, plank = lifts(lantern, 1, 0)
    assert (squat.sets, squat.reps, squat.load, squat.plates) == ("4", "5", "70 kg", "20 + 5 each side")
    assert (squat.effort, squat.tempo, squat.rest, squat.why) == (
        "70 % of max",
        "3-1-X-0",
        "3 min",
        "It is the main lift.",
    )
    assert (bench.reps, bench.effort, bench.load[-3:]) == ("8–10", "RPE 8", " kg")
    assert (pull_up.load, pull_up.plates) == ("bodyweight", "")
    assert (plank.reps, plank.load) == ("30 s", "bodyweight")
    assert lifts(lantern, 2, 0)[0].load == "72.5 kg"
    assert lifts(lantern, 3, 0)[0].sets == "2"


def test_repetitions_of_one_side_at_a_time_say_so(lantern: ProgramView) -> None:
    row = lifts(lantern, 1, 1)[2]
    assert (row.title, row.reps, row.load, row.each) == ("Dumbbell row", "8–12 each side", "20 kg", "")
    assert [one.reps for one in row.set_views] == ["8–12"] * 2
    assert row.effort == "to failure"


def test_lifts_of_a_group_are_lettered_and_rest_after_the_round(lantern: ProgramView) -> None:
    heavy, light = (session.lines for session in lantern.weeks[0].sessions)
    assert [(line.kind, [lift.letter for lift in line.lifts]) for line in heavy] == [
        ("", [""]),
        ("Superset", ["A1", "A2"]),
        ("", [""]),
    ]
    assert [lift.rest for lift in heavy[1].lifts] == ["30 s", "90 s"]
    assert [lift.rest for lift in light[2].lifts] == ["none", "2 min"]
    assert heavy[1].technique is not None
    assert heavy[1].technique.path == "techniques/superset.html"


def test_letters_go_on_through_a_session(tmp_path: Path) -> None:
    text = LANTERN.replace(
        "      - {exercise: plank, sets: 2, hold: 30 s, rest: 60 s}\n  light",
        "      - circuit:\n          - {exercise: row, sets: 2, reps: 8}\n"
        "          - {exercise: plank, sets: 2, hold: 9 s}\n  light",
    )
    view = view_of(edition_of(write_book(tmp_path, {"programs/lantern.yaml": text})), "lantern")
    assert [lift.letter for lift in lifts(view, 1, 0)] == ["", "A1", "A2", "B1", "B2"]


def test_a_technique_is_told_with_its_loads_and_has_boxes_for_its_pieces(lantern: ProgramView) -> None:
    curl = lifts(lantern, 1, 1)[1]
    assert curl.technique is not None
    assert curl.technique.path == "techniques/drop-set.html"
    assert curl.technique_note == "last set: to failure, then drop to 25 kg, about 6; then drop to 20 kg, about 6"
    assert [one.boxes for one in curl.set_views] == [1, 1, 3]
    assert [piece.load for piece in curl.set_views[-1].pieces] == ["25 kg", "20 kg"]
    assert not curl.uniform
    deload = lifts(lantern, 3, 1)[1]
    assert (deload.technique, deload.technique_note, deload.uniform) == (None, "", True)


@pytest.mark.parametrize(
    ("technique", "note"),
    [
        ("every set: {technique: rest-pause, pauses: 1}", "every set: to failure, then pause 15 s, about "),
        ("last set: {technique: negatives, lowering: 4 s}", "last set: to failure, then 3 negatives, lowering for 4 s"),
        ("last set: {technique: isometric-hold}", "last set: then hold for 10 s"),
        ("last set: {technique: as-many-as-possible}", "last set: as many as form allows"),
    ],
)
def test_every_technique_is_told_in_a_few_words(tmp_path: Path, technique: str, note: str) -> None:
    text = LANTERN.replace("last set: {technique: drop-set, drops: 2, reduce: 20 %}", technique)
    name = technique.split("technique: ")[1].rstrip("}").split(",")[0]
    changes = {
        "programs/lantern.yaml": text,
        f"techniques/{name}.md": f"---\nname: {name}\nsummary: It.\n---\nHow.\n",
        "exercises/curl.md": "---\nname: Cable curl\nmuscles: {direct: [biceps]}\nmovement: elbow flexion\n"
        "implement: cable\n---\nWhy.\n",
    }
    view = view_of(edition_of(write_book(tmp_path, changes)), "lantern")
    assert lifts(view, 1, 1)[1].technique_note.startswith(note)


def test_techniques_and_explainers_to_read_with_it(lantern: ProgramView, tally: ProgramView) -> None:
    assert [link.title for link in lantern.techniques] == ["Circuit", "Drop set", "Superset"]
    assert [(link.title, link.path) for link in lantern.explainers] == [("Why the row", "explainers/why-the-row.html")]
    assert tally.techniques == tally.explainers == ()


def test_the_lifter_and_where_each_max_comes_from(lantern: ProgramView) -> None:
    facts = {fact.label: fact.value for fact in lantern.lifter}
    assert facts["Bodyweight"] == "80 kg"
    assert facts["Squat"] == "100 kg"
    assert facts["Pull-up"].endswith(" kg (from 90 kg for 5)")
    assert "example lifter" in lantern.lifter_note


def test_no_lifter_is_spoken_of_where_there_is_none(tally: ProgramView) -> None:
    assert tally.lifter == ()
    assert tally.lifter_note == ""


def test_prose_of_a_program_has_its_figures_and_links(lantern: ProgramView) -> None:
    assert '<a href="../../exercises/squat.html">squat</a>' in lantern.text
    assert '<span class="figure">7</span> sets' in lantern.text
    assert "<h1" not in lantern.text


def test_byline_edition_and_licence(lantern: ProgramView, tally: ProgramView) -> None:
    assert (lantern.byline, lantern.date, lantern.iso_date, lantern.edition, lantern.licence) == (
        "Osla Brandt",
        "2 March 2026",
        "2026-03-02",
        "1",
        "",
    )
    assert (tally.byline, tally.edition, tally.licence) == ("Another Hand", "3", "CC BY 4.0")

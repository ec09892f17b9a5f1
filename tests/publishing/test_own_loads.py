"""What is prepared for a reader's own numbers: words, files named by what they hold, and what a page asks for."""

from __future__ import annotations

import json
import re
from pathlib import Path

from plateset.publishing.documents import Edition
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.program_view import program_view
from plateset.publishing.reader_script import gym_data, script, words
from plateset.publishing.views import ProgramView
from plateset.training.reader_gym import joined

from tests.publishing.building import LANTERN, TALLY, edition_of, write_book


def prepared(edition: Edition, slug: str) -> tuple[ProgramView, dict[str, bytes]]:
    program = edition.programs[slug]
    view = program_view(program, edition.manuscript, edition.figure)
    return with_own_loads(program, view, edition.manuscript)


def test_loads_are_said_as_they_are_printed() -> None:
    assert words() == {
        "feel": "by feel",
        "lacking": "needs a max",
        "body": "bodyweight",
        "added": "+{}",
        "help": "{} of help",
        "plates": "{} each side",
        "bare": "empty bar",
        "then": "then",
        "point": ".",
        "list": ", ",
        "lighter": "a lighter load",
        "most": "as many as form allows",
        "about": " (about {})",
    }


def test_a_script_is_named_by_what_it_holds() -> None:
    name, text = script({"a": "ü</script>"})
    assert (name, text) == script({"a": "ü</script>"})
    assert name != script({"a": "b"})[0]
    assert re.fullmatch(rb'\(window\.prepared = .*\)\["[0-9a-f]{16}"\] = \{"a":"\\u00fc</script>"\};\n', text)


def test_the_lifts_that_loads_rest_on_are_asked_for(edition: Edition) -> None:
    view, files = prepared(edition, "lantern")
    own = view.own_loads
    assert own is not None
    assert [lift.name for lift in own.main] == ["squat", "bench"]
    assert own.more == ()
    assert own.curve == "Handbook table"
    assert {path for each in own.units for path in each.scripts} | {own.script} == set(files)
    assert [each.bars for each in own.units] == [(("barbell", "barbell", "20"),), (("barbell", "barbell", "45"),)]
    assert all(session.open_as is not None for week in view.weeks for session in week.sessions)


def test_a_drop_is_told_by_its_place(edition: Edition) -> None:
    view, files = prepared(edition, "lantern")
    assert view.own_loads is not None
    data = json.loads(files[view.own_loads.script].partition(b"] = ")[2].rstrip(b";\n"))
    notes = [lift["note"] for lift in data["lifts"] if "note" in lift]
    assert notes[0] == ["last set: to failure, then drop to ", 1, ", about 6; then drop to ", 2, ", about 6"]


def test_where_no_load_depends_on_the_reader_nothing_is_asked(edition: Edition) -> None:
    view, files = prepared(edition, "tally")
    assert view.own_loads is None
    assert files == {}
    assert {session.open_as for week in view.weeks for session in week.sessions} == {None}


def test_programs_in_the_same_gym_have_files_of_the_same_name(tmp_path: Path) -> None:
    twin = LANTERN.replace("title: Lantern & oil", "title: Lamp").replace("(figure:lantern", "(figure:twin")
    edition = edition_of(write_book(tmp_path / "twins", {"programs/twin.yaml": twin, "programs/tally.yaml": TALLY}))
    one, other = prepared(edition, "lantern")[0].own_loads, prepared(edition, "twin")[0].own_loads
    assert one is not None
    assert other is not None
    scripts = [[Path(path).name for unit in each.units for path in unit.scripts] for each in (one, other)]
    assert scripts[0] == scripts[1] != []
    assert Path(one.script).name == Path(other.script).name


def test_every_press_gives_the_same_bytes(edition: Edition) -> None:
    assert prepared(edition, "lantern") == prepared(edition, "lantern")


def test_plates_stand_beside_every_mass_of_a_side(edition: Edition) -> None:
    own = joined(edition.manuscript.site.head.loading, edition.programs["lantern"].plan.program.loading)
    plates = gym_data(own, "kg", "kg", ["barbell"])["plates"]
    assert plates["kinds"] == ["20", "10", "5", "2.5", "1.25"]
    assert dict(zip(plates["sides"], plates["used"], strict=True))["36.25"] == "BBBAB"
    assert plates["smallest"] == "1.25"


def test_pages_hold_the_places_for_them(files: dict[str, bytes]) -> None:
    page, week = files["programs/lantern/index.html"].decode(), files["programs/lantern/week-1.html"].decode()
    for html in (page, week):
        assert len(re.findall(r"data-own-session=\"\d+\"", html)) == (6 if html is page else 2)
        assert 'data-own="load"' in html
        assert "data-own-loads" in html
    assert 'id="your-numbers"' in page
    assert 'id="your-numbers"' not in week
    assert "your-numbers" not in files["programs/tally/index.html"].decode()
    for source in re.findall(r'data-(?:plan|core)="\.\./\.\./([^"]+)"', page):
        assert source in files

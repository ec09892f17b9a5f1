"""What is pressed over an earlier site is, byte for byte, what is pressed afresh; and only what changed is made."""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from plateset.editions import edition
from plateset.pressing import Options, Pressed, RefusedError, press
from plateset.problems import ManuscriptError
from plateset.proving import proof
from plateset.publishing.documents import documents
from plateset.publishing.ledger_file import place_of_ledger
from plateset.publishing.marker import MARKER
from plateset.publishing.takeaways import Desk
from plateset.publishing.user_cache import CACHE

from tests.publishing.building import BOOK, LANTERN, TALLY, write_book

THEME = Path(__file__).parents[1] / "themes" / "noticeboard"
SOUND = {
    "programs/lantern.yaml": LANTERN.replace("chest: 10-12", "chest: 2-4"),
    "explainers/why-the-row.md": BOOK["explainers/why-the-row.md"].replace("[9](", "[7]("),
}


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book", SOUND)


@pytest.fixture
def site(tmp_path: Path, book: Path) -> Path:
    """The book pressed once."""
    press(book, "book", tmp_path / "site")
    return tmp_path / "site"


def contents(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def change(folder: Path, name: str, old: str, new: str) -> None:
    text = (folder / name).read_text("utf-8")
    assert old in text
    (folder / name).write_text(text.replace(old, new, 1), "utf-8")


def again(book: Path, site: Path, **options: object) -> Pressed:
    return press(book, "book", site, Options(**options))  # type: ignore[arg-type]


def afresh(book: Path, site: Path) -> dict[str, bytes]:
    """The site as pressed where nothing was."""
    press(book, "book", site.with_name("afresh"))
    return contents(site.with_name("afresh"))


def test_a_press_is_what_an_edition_gives(book: Path, site: Path) -> None:
    made = dict(documents(edition(proof(book, "book"), book, draft=False)))
    found = contents(site)
    del found[MARKER]
    assert sorted(found) == sorted(made)
    assert [path for path in made if made[path] != found[path]] == []


def test_a_press_without_a_change_reads_no_yaml_and_writes_nothing(
    book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*given: object, **named: object) -> None:
        raise AssertionError("nothing is to be done")

    before = {path: path.stat().st_mtime_ns for path in site.parent.rglob("*")}
    with monkeypatch.context() as patched:
        patched.setattr("yaml.compose", forbidden)
        patched.setattr("plateset.manuscript.load.read_yaml", forbidden)
        patched.setattr(Path, "write_bytes", forbidden)
        patched.setattr(Path, "mkdir", forbidden)
        pressed = again(book, site)
    assert pressed.unchanged
    assert pressed.made == ()
    assert (pressed.programs, pressed.files) == (2, len(contents(site)) - 1)
    assert {path: path.stat().st_mtime_ns for path in site.parent.rglob("*")} == before


def _as_a_link(book: Path, name: str) -> None:
    """What lies in the book, moved out of it and led to."""
    (book / name).rename(book.with_name("elsewhere"))
    (book / name).symlink_to(book.with_name("elsewhere"))


SLIPS: dict[str, Callable[[Path], object]] = {
    "another ending": lambda book: (book / "programs" / "extra.yml").write_text(TALLY, "utf-8"),
    "a name no page can have": lambda book: (book / "programs" / "Spring Block.yaml").write_text(TALLY, "utf-8"),
    "a text among notes": lambda book: (book / "exercises" / "notes.txt").write_text("For myself.", "utf-8"),
    "a folder in the singular": lambda book: (book / "explainer").mkdir(),
    "a folder misspelt": lambda book: (book / "excercises").mkdir(),
    "a folder with a capital": lambda book: (book / "Technique").mkdir(),
    "a program beside the site": lambda book: (book / "extra.yaml").write_text(TALLY, "utf-8"),
    "a folder among notes": lambda book: (book / "exercises" / "legs").mkdir(),
    "a folder named as a note": lambda book: (book / "exercises" / "dir.md").mkdir(),
    "a broken link": lambda book: (book / "exercises" / "zz.md").symlink_to("gone.md"),
    "an empty note": lambda book: (book / "exercises" / "empty.md").touch(),
    "notes elsewhere": lambda book: _as_a_link(book, "exercises"),
    "a theme that is a file": lambda book: (book / "theme").write_text("", "utf-8"),
    "a theme that leads nowhere": lambda book: (book / "theme").symlink_to("gone"),
}
"""What a reading refuses though every file that was there is as it was."""

SLIPS_OF_A_THEME: dict[str, Callable[[Path], object]] = {
    "the theme elsewhere": lambda book: _as_a_link(book, "theme"),
    "a file of it elsewhere": lambda book: _as_a_link(book, "theme/style.css"),
    "a folder in place of a file": lambda book: (book / "theme" / "site.js").mkdir(),
}


@pytest.mark.parametrize("slips", [SLIPS, SLIPS_OF_A_THEME], ids=["of a manuscript", "of a theme"])
def test_a_press_with_nothing_to_make_tells_what_a_proof_tells(
    slips: dict[str, Callable[[Path], object]], book: Path, tmp_path: Path
) -> None:
    if slips is SLIPS_OF_A_THEME:
        write_book(book, {**SOUND, "theme/style.css": "body {}"})
    press(book, "book", tmp_path / "site")
    before = contents(tmp_path / "site")
    for name, slip in slips.items():
        (tmp_path / name).mkdir()
        slipped = Path(shutil.copytree(book, tmp_path / name / "book"))
        slip(slipped)
        with pytest.raises(ManuscriptError) as proved:
            proof(slipped, "book")
        with pytest.raises(ManuscriptError) as told:
            again(slipped, tmp_path / "site")
        assert told.value.problems == proved.value.problems, name
    assert contents(tmp_path / "site") == before
    assert again(book, tmp_path / "site").unchanged


def test_a_program_that_changed_is_made_anew_and_no_other(book: Path, site: Path) -> None:
    change(book, "programs/lantern.yaml", "title: Heavy day", "title: Heavier day")
    pressed = again(book, site)
    made = dict(pressed.made)
    assert made["programs/lantern/week-1.html"] == "the program lantern changed"
    assert made["programs/lantern/week-1-a4.pdf"] == "the program lantern changed"
    assert not any("tally" in path or path.startswith("exercises/") for path in made)
    assert contents(site) == afresh(book, site)


def test_a_change_that_no_sheet_shows_sets_no_sheet(book: Path, site: Path) -> None:
    change(book, "exercises/squat.md", "Why the squat.", "Why the squat, told anew.")
    pressed = again(book, site)
    made = dict(pressed.made)
    assert made["exercises/squat.html"] == "what it shows changed"
    assert not any(path.endswith(".pdf") for path in made)
    assert not any("tally" in path for path in made)
    assert contents(site) == afresh(book, site)


def test_a_press_counts_the_marks_that_a_proof_tells(book: Path, site: Path) -> None:
    def counted(pressed: Pressed) -> tuple[int, int, int]:
        return pressed.tally.stop, pressed.tally.query, pressed.tally.note

    change(book, "site.yaml", "title:", 'colours: {accent: "#ffee88"}\ntitle:')
    for name, old, new in (
        ("site.yaml", "title:", "language: en\ntitle:"),
        ("programs/lantern.yaml", "chest: 2-4", "chest: 10-12"),
        ("exercises/plank.md", NOTE, f"{NOTE}More.\n\n"),
    ):
        change(book, name, old, new)
        proofs = proof(book, "book")
        told = (proofs.count("stop"), proofs.count("query"), proofs.count("note"))
        assert told[1] >= 1
        assert counted(again(book, site, as_draft=True)) == told
        assert counted(again(book, site, as_draft=True)) == told


NOTE = "\n---\n"
"""Where a note's head ends and its prose begins."""


@pytest.mark.parametrize(
    ("note", "old", "new", "made_of_site"),
    [
        ("exercises/squat", NOTE, NOTE + "More to say.\n\n", {"exercises/squat.html", "assets/search-index.js"}),
        ("exercises/squat", NOTE, f"\ncues: [Sit down.]{NOTE}", {"exercises/squat.html"}),
        ("exercises/squat", NOTE, f"\n# seen again{NOTE}", set()),
        ("techniques/drop-set", NOTE, NOTE + "More to say.\n\n", {"techniques/drop-set.html"}),
        ("techniques/drop-set", NOTE, f"\nsuits: [The patient]{NOTE}", {"techniques/drop-set.html"}),
        ("explainers/why-the-row", NOTE, NOTE + "More to say.\n\n", {"explainers/why-the-row.html"}),
        ("explainers/why-the-row", "date: 2026-02-01", "date: 2026-02-02", {"explainers/why-the-row.html"}),
    ],
)
def test_what_a_note_says_on_its_own_page_alone_makes_no_program_anew(  # noqa: PLR0917
    note: str, old: str, new: str, made_of_site: set[str], book: Path, site: Path
) -> None:
    change(book, f"{note}.md", old, new)
    made = dict(again(book, site).made)
    assert not any(path.startswith("programs/") and path.count("/") > 1 for path in made)
    assert note.startswith("techniques/") or not any(path.startswith("programs/") for path in made)
    assert set(made) >= made_of_site
    assert bool(made) == bool(made_of_site)
    assert contents(site) == afresh(book, site)


@pytest.mark.parametrize(
    ("note", "old", "new", "programs"),
    [
        ("exercises/squat", "Set the safeties first.", "Set the safeties.", {"lantern"}),
        ("exercises/plank", "name: Plank", "name: Front plank", {"lantern", "tally"}),
        ("exercises/row", "name: Dumbbell row", "name: One-armed row", {"lantern"}),
        ("techniques/drop-set", "Take weight off and go on.", "Off, and on.", {"lantern"}),
        ("explainers/why-the-row", "A sentence about rows.", "About rows.", {"lantern"}),
    ],
)
def test_what_a_note_shares_makes_the_programs_anew_that_take_it_up(  # noqa: PLR0917
    note: str, old: str, new: str, programs: set[str], book: Path, site: Path
) -> None:
    change(book, f"{note}.md", old, new)
    made = dict(again(book, site).made)
    folder, _, name = note.partition("/")
    whys = {slug: made.get(f"programs/{slug}/index.html", "").partition("; ")[0] for slug in ("lantern", "tally")}
    assert whys == {
        slug: f"the head of the {folder.removesuffix('s')} {name} changed" if slug in programs else "" for slug in whys
    }
    assert contents(site) == afresh(book, site)


def test_a_change_that_no_list_shows_looks_at_no_list(book: Path, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the rest of the site knows of the program is as before, so its pages are not even looked at."""

    def forbidden(*given: object) -> None:
        raise AssertionError("the lists are not to be made")

    change(book, "programs/tally.yaml", "rest: 60 s}", "rest: 60 s, why: It is short.}")
    with monkeypatch.context() as patched:
        patched.setattr("plateset.press_run.site_products", forbidden)
        made = dict(again(book, site).made)
    assert {path.split("/")[1] for path in made} == {"tally"}
    assert contents(site) == afresh(book, site)


def test_a_page_of_the_site_follows_a_figure_that_no_list_shows(book: Path, site: Path) -> None:
    figure = "[](figure:lantern/weekly sets/quads/week 3)"
    change(book, "explainers/why-the-row.md", "The block lasts", f"The block ends on {figure}, and lasts")
    again(book, site)
    change(book, "programs/lantern.yaml", "sets: 50 %", "sets: 75 %")
    made = dict(again(book, site).made)
    assert made["explainers/why-the-row.html"] == "what it shows changed"
    assert not {"programs/index.html", "programs/by-level.html", "exercises/index.html"} & set(made)
    assert contents(site) == afresh(book, site)


def test_a_list_of_an_own_theme_follows_what_that_shows_and_the_shipped_one_does_not(book: Path, site: Path) -> None:
    facet = (THEME / "facet.html").read_text("utf-8").replace("{% block main %}", "{% block main %}{{ mine.all() }}")
    (book / "theme").mkdir()
    (book / "theme" / "facet.html").write_text("{% import 'mine.html' as mine with context %}\n" + facet)
    (book / "theme" / "mine.html").write_text(
        "{% macro all() %}{{ exercises|map(attribute='text')|join }}{% endmacro %}"
    )
    again(book, site)
    change(book, "exercises/plank.md", "Why the plank.", "What the plank is for.")
    assert dict(again(book, site).made)["programs/by-level.html"] == "what it shows changed"
    assert b"What the plank is for." in (site / "programs" / "by-level.html").read_bytes()
    assert contents(site) == afresh(book, site)


def test_the_lists_follow_what_they_show_of_a_program(book: Path, site: Path) -> None:
    change(book, "programs/tally.yaml", "title: Tally", "title: Talley")
    made = dict(again(book, site).made)
    assert made["index.html"] == made["programs/index.html"] == "what it shows changed"
    assert contents(site) == afresh(book, site)


def test_a_list_that_was_harmed_is_made_again_though_nothing_it_shows_has_changed(book: Path, site: Path) -> None:
    (site / "index.html").write_text("harmed")
    change(book, "programs/tally.yaml", "rest: 60 s}", "rest: 60 s, why: It is short.}")
    assert dict(again(book, site).made)["index.html"] == "the file in the site was missing or changed"
    assert contents(site) == afresh(book, site)


def test_an_explainer_that_comes_to_name_a_program_is_told_of_it(book: Path, site: Path) -> None:
    change(book, "explainers/why-the-row.md", "programs: [lantern]", "programs: [lantern, tally]")
    made = dict(again(book, site).made)
    assert made["programs/tally/index.html"] == "other explainers name the program"
    assert "programs/lantern/index.html" not in made
    assert contents(site) == afresh(book, site)


def test_a_program_whose_making_takes_what_is_a_note_s_own_fails_loudly(
    book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def prying(desk: Desk) -> bytes:
        return "".join(desk.manuscript.exercises["plank"].head.cues).encode()

    change(book, "programs/tally.yaml", "title: Tally", "title: Talley")
    monkeypatch.setattr("plateset.publishing.takeaways._plan_json", prying)
    before = contents(site)
    with pytest.raises(AttributeError, match="cues"):
        again(book, site)
    assert contents(site) == before


def test_a_mark_on_a_note_is_placed_where_it_stands_now(book: Path, site: Path) -> None:
    """The prose of the note moves down; no program is studied again, and the press tells what the proof tells."""
    change(book, "exercises/plank.md", "Why the plank.", "It has [](figure:tally/weeks) weeks.")
    again(book, site)
    change(book, "exercises/plank.md", NOTE, f"{NOTE}One line.\n\nAnother.\n\n")
    change(book, "exercises/plank.md", "[](figure:tally/weeks)", "[7](figure:tally/weeks)")
    with pytest.raises(RefusedError) as refused:
        again(book, site)
    (found,) = refused.value.proofs.prose
    line = (book / "exercises/plank.md").read_text("utf-8").splitlines()[found.place.line - 1]
    assert line[found.place.column - 1 :].startswith("figure:tally/weeks")


def test_a_template_that_changed_sets_no_sheet_and_makes_only_its_pages(book: Path, site: Path) -> None:
    template = Path(__file__).parents[1] / "themes" / "noticeboard" / "week.html"
    (book / "theme").mkdir()
    (book / "theme" / "week.html").write_text(template.read_text("utf-8") + "<!-- mine -->\n", "utf-8")
    pressed = again(book, site)
    assert {why for _, why in pressed.made} == {"the template week.html changed"}
    assert {path for path, _ in pressed.made} == {
        "programs/tally/week-1.html",
        *(f"programs/lantern/week-{number}.html" for number in (1, 2, 3)),
    }
    assert contents(site) == afresh(book, site)


@pytest.mark.parametrize("harm", ["lost", "no JSON", "another format", "another site's", "empty"])
def test_a_ledger_that_cannot_be_trusted_costs_time_only(harm: str, book: Path, site: Path) -> None:
    place = place_of_ledger(site)
    first, *lines = place.read_text().splitlines()
    whole = json.loads(first)
    texts = {
        "no JSON": "{",
        "another format": "\n".join([json.dumps(whole | {"format": 0}), *lines]),
        "another site's": "\n".join([json.dumps(whole | {"target": "/elsewhere"}), *lines]),
        "empty": "",
    }
    place.unlink() if harm == "lost" else place.write_text(texts[harm])
    before = contents(site)
    pressed = again(book, site)
    assert {why for _, why in pressed.made} == {"not in the ledger"}
    assert contents(site) == before
    assert again(book, site).unchanged


@pytest.mark.parametrize("harm", ["cut short", "a harmed card", "harmed questions"])
def test_what_is_harmed_further_down_in_a_ledger_is_found_when_it_is_read(harm: str, book: Path, site: Path) -> None:
    place = place_of_ledger(site)
    lines = place.read_text().splitlines()
    harmed = {
        "cut short": lines[:-1],
        "a harmed card": [each.replace('"Lantern', '"Lanterns', 1) for each in lines],
        "harmed questions": [each.replace('"exercise","squat"', '"exercise","plank"', 1) for each in lines],
    }
    assert harmed[harm] != lines
    place.write_text("\n".join(harmed[harm]))
    assert again(book, site).unchanged  # the site is the one that would be pressed, whatever the rest says
    change(book, "exercises/plank.md", NOTE, f"{NOTE}One line.\n\n")
    assert {why for _, why in again(book, site).made} == {"not in the ledger"}
    assert contents(site) == afresh(book, site)


@pytest.mark.parametrize("harm", ['"there"', "{", ""])
def test_a_program_whose_files_were_made_from_who_knows_what_is_made_anew(harm: str, book: Path, site: Path) -> None:
    place = place_of_ledger(site)
    *lines, made_from, card = place.read_text().splitlines()
    assert "the program tally" in made_from
    place.write_text("\n".join([*lines, harm, card]))
    change(book, "programs/lantern.yaml", "title: Heavy day", "title: Heavier day")
    assert not any("tally" in path for path, _ in again(book, site).made)  # it is as it was; nobody asks
    change(book, "programs/tally.yaml", "level: novice", "level: novice\ntext: It is short.")
    reasons = {why for path, why in again(book, site).made if "programs/tally" in path}
    assert reasons == {"not in the ledger"}
    assert contents(site) == afresh(book, site)


@pytest.mark.parametrize("rows", ["[]", "{", '[["index.html", 1, "", 1]]'])
def test_a_ledger_whose_rows_are_harmed_is_none(rows: str, book: Path, site: Path) -> None:
    place = place_of_ledger(site)
    first, _, *lines = place.read_text().splitlines()
    place.write_text("\n".join([first, rows, *lines]))
    (site / "robots.txt").write_text("harmed")
    assert {why for _, why in again(book, site).made} == {"not in the ledger"}
    assert contents(site) == afresh(book, site)
    assert again(book, site).unchanged


@pytest.mark.parametrize("keeps_time", [False, True])
def test_a_file_of_the_site_that_was_harmed_is_made_again(keeps_time: bool, book: Path, site: Path) -> None:
    before = contents(site)
    path = site / "programs" / "lantern" / "week-1.html"
    times = path.stat()
    path.write_bytes(path.read_bytes() + b"!" if keeps_time else path.read_bytes().replace(b"e", b"f", 1))
    if keeps_time:
        os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns))
    pressed = again(book, site)
    assert pressed.made == (("programs/lantern/week-1.html", "the file in the site was missing or changed"),)
    assert contents(site) == before


def test_a_site_that_was_copied_is_taken_over_by_its_hashes(book: Path, site: Path) -> None:
    for path in site.rglob("*"):
        os.utime(path, ns=(1, 1))
    assert again(book, site).unchanged


def test_a_cache_that_cannot_be_written_is_no_reason_to_fail(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("x")
    monkeypatch.setenv(CACHE, str(tmp_path / "file" / "cache"))
    press(book, "book", tmp_path / "site")
    assert not again(book, tmp_path / "site").unchanged


def test_a_press_that_is_refused_leaves_site_and_ledger(book: Path, site: Path) -> None:
    before = contents(site)
    change(book, "programs/lantern.yaml", "chest: 2-4", "chest: 10-12")
    with pytest.raises(RefusedError):
        again(book, site)
    change(book, "programs/lantern.yaml", "chest: 10-12", "chest: 2-4")
    assert contents(site) == before
    assert again(book, site).unchanged


def test_a_program_that_names_a_figure_of_another_follows_it(book: Path, site: Path) -> None:
    change(book, "programs/tally.yaml", "level: novice", "level: novice\ntext: It has [](figure:lantern/weeks) weeks.")
    again(book, site)
    change(book, "programs/lantern.yaml", "weeks: 3\n", "weeks: 4\n")
    made = dict(again(book, site).made)
    assert made["programs/tally/index.html"] == "the program lantern changed"
    assert b'<span class="figure">4</span>' in (site / "programs" / "tally" / "index.html").read_bytes()


@pytest.mark.parametrize(
    ("old", "new"),
    [("exercise: squat", "exercise: sqat"), ("bests: {squat:", "bests: {sqat:"), ("{mon: heavy,", "{mon: havy,")],
)
@pytest.mark.parametrize("jobs", [1, 2])
def test_a_slip_in_a_program_that_others_take_figures_from_is_told_as_by_a_proof(
    old: str, new: str, jobs: int, book: Path, site: Path
) -> None:
    change(book, "programs/tally.yaml", "level: novice", "level: novice\ntext: It has [](figure:lantern/weeks) weeks.")
    for number in range(3):
        program = TALLY.replace("level: novice", "level: novice\ntext: It has [](figure:lantern/weeks) weeks.")
        (book / "programs" / f"tally-{number}.yaml").write_text(program, "utf-8")
    change(book, "programs/lantern.yaml", old, new)
    explainer = book / "explainers" / "why-the-row.md"
    for text in (explainer.read_text("utf-8"), re.sub(r"figure:lantern/[^)]+", "figure:tally/weeks", BOOK[NAMING])):
        explainer.write_text(text.replace("[9](", "[](").replace("[7](", "[]("), "utf-8")
        with pytest.raises(ManuscriptError) as proved:
            proof(book, "book")
        with pytest.raises(ManuscriptError) as pressed:
            again(book, site, jobs=jobs)
        assert pressed.value.problems == proved.value.problems


NAMING = "explainers/why-the-row.md"
"""It takes figures from a program."""


def test_a_note_that_is_taken_away_is_missed_by_those_who_name_it(book: Path, site: Path) -> None:
    change(book, "programs/lantern.yaml", "It gives", "See [the row](exercise:row). It gives")
    change(book, "programs/lantern.yaml", "exercise: row", "exercise: curl")
    change(book, "exercises/squat.md", "substitutes: [row]\n", "")
    change(book, "explainers/why-the-row.md", "[the row](exercise:row)", "the row")
    again(book, site)
    (book / "exercises" / "row.md").unlink()
    with pytest.raises(ManuscriptError):
        again(book, site)


# -- any edits --------------------------------------------------------------------------------------------

ADDED = TALLY.replace("title: Tally", "title: Another tally")


def _replaced(name: str, *words: str) -> Callable[[Path], None]:
    """Puts the next of some texts in place of the one that is there."""

    def edit(folder: Path) -> None:
        path = folder / name
        if not path.is_file():
            return
        text = path.read_text("utf-8")
        for old, new in zip(words, (*words[1:], words[0]), strict=True):
            if old in text:
                path.write_text(text.replace(old, new, 1), "utf-8")
                return

    return edit


def _there_or_not(name: str, text: str) -> Callable[[Path], None]:
    """Adds a file, or takes it away."""

    def edit(folder: Path) -> None:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink() if path.exists() else path.write_text(text, "utf-8")

    return edit


def _renamed(old: str, new: str) -> Callable[[Path], None]:
    def edit(folder: Path) -> None:
        one, other = folder / old, folder / new
        one, other = (one, other) if one.exists() else (other, one)
        if one.exists() and not other.exists():
            one.rename(other)

    return edit


EDITS: dict[str, Callable[[Path], None]] = {
    "a program's title": _replaced("programs/tally.yaml", "title: Tally", "title: Talley"),
    "a program's sets": _replaced("programs/tally.yaml", "sets: 2", "sets: 3"),
    "a program's weeks": _replaced("programs/tally.yaml", "weeks: 1\n", "weeks: 2\n"),
    "a program added or removed": _there_or_not("programs/added.yaml", ADDED),
    "a program renamed": _renamed("programs/tally.yaml", "programs/tallied.yaml"),
    "a figure": _there_or_not(
        "programs/shown.yaml", ADDED.replace("level: novice", "level: novice\ntext: '[](figure:tally/weeks) weeks'")
    ),
    "an exercise's name": _replaced("exercises/plank.md", "name: Plank", "name: Front plank"),
    "an exercise's text": _replaced("exercises/plank.md", "Why the plank.", "What the plank is for."),
    "an exercise's cue": _replaced(
        "exercises/plank.md", "implement: bodyweight\n", "implement: bodyweight\ncues: [Brace.]\n"
    ),
    "an exercise's caution": _replaced(
        "exercises/plank.md", "movement: trunk\n", "movement: trunk\ncautions: [Breathe on.]\n"
    ),
    "an exercise's muscles": _replaced("exercises/plank.md", "[abs]}", "[abs], indirect: [obliques]}"),
    "where an exercise's prose stands": _replaced("exercises/plank.md", f"k{NOTE}", f"k\n# seen{NOTE}"),
    "an exercise added or removed": _there_or_not("exercises/bridge.md", BOOK["exercises/plank.md"]),
    "a technique's summary": _replaced("techniques/superset.md", "Two in turn.", "One after the other."),
    "a technique's text": _replaced("techniques/superset.md", f"{NOTE}How.", f"{NOTE}How, and when."),
    "whom a technique suits": _replaced("techniques/superset.md", "\nsummary:", "\nsuits: [All]\nsummary:"),
    "an explainer's title": _replaced("explainers/on-tally.md", "title: On tally", "title: On the tally"),
    "an explainer's text": _replaced("explainers/on-tally.md", "It lasts", "It takes"),
    "an explainer's date": _replaced("explainers/on-tally.md", "2026-02-02", "2026-02-03"),
    "an explainer added or removed": _there_or_not(
        "explainers/on-tally.md",
        "---\ntitle: On tally\nsummary: Counted.\ndate: 2026-02-02\n"
        "programs: [tally]\n---\nIt lasts [](figure:tally/weeks).\n",
    ),
    "the site's title": _replaced("site.yaml", "title: Tannery Row Lifting", "title: Tannery Row"),
    "the site's address": _replaced(
        "site.yaml", "paper: [a4]\nload", "paper: [a4]\naddress: https://osla.example/x/\nload"
    ),
    "the site's unit": _replaced("site.yaml", "paper: [a4]\n", "paper: [a4]\nunit: lb\n"),
    "a template": _there_or_not("theme/week.html", (THEME / "week.html").read_text("utf-8") + "<!-- -->\n"),
    "the base template": _there_or_not("theme/base.html", (THEME / "base.html").read_text("utf-8") + "<!-- -->\n"),
    "a style": _there_or_not("theme/style.css", "body {}\n"),
    "the sheet": _there_or_not("theme/paper/sheet.typ", "// mine\n" + (THEME / "paper/sheet.typ").read_text("utf-8")),
    "a part of the sheet": _there_or_not(
        "theme/paper/lifts.typ", (THEME / "paper/lifts.typ").read_text("utf-8") + "\n"
    ),
}
SMALL = {name: text for name, text in BOOK.items() if "lantern" not in name and "why-the-row" not in name} | {
    "site.yaml": BOOK["site.yaml"].replace("about: Programs for a [small room](program:lantern).\n", "")
}


@settings(
    max_examples=int(os.environ.get("PLATESET_EDITS", "3")),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(rounds=st.lists(st.sets(st.sampled_from(sorted(EDITS)), min_size=1, max_size=3), min_size=1, max_size=4))
def test_whatever_was_edited_the_site_is_as_if_pressed_afresh(
    rounds: list[set[str]], tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("edits")
    book, site = folder / "book", folder / "site"
    for name, text in SMALL.items():
        (book / name).parent.mkdir(parents=True, exist_ok=True)
        (book / name).write_text(text, "utf-8")
    press(book, "book", site)
    for edits in rounds:
        for name in sorted(edits):
            EDITS[name](book)
        new = folder / "new"
        outcomes = [_outcome(book, place) for place in (site, new)]
        assert outcomes[0] == outcomes[1]
        if outcomes[0] == "pressed":
            assert contents(site) == contents(new)


def _outcome(book: Path, place: Path) -> str:
    """Pressed, or in words what was in the way; where a site is pressed afresh, it has no ledger."""
    if place.name == "new":
        place_of_ledger(place).unlink(missing_ok=True)
    try:
        press(book, "book", place)
    except ManuscriptError as error:
        return repr(error.problems)
    return "pressed"


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("site.yaml", "about: Programs for", "about: Of [](figure:nope/weeks) weeks, for"),
        ("explainers/why-the-row.md", "[7](figure:lantern/", "[](figure:nope/"),
        ("programs/lantern.yaml", "[](figure:lantern/weekly sets/quads/week 1)", "[](figure:nope/weeks)"),
    ],
)
def test_a_figure_of_a_program_that_is_not_there_is_told_by_the_press_as_by_the_proof(
    book: Path, site: Path, name: str, old: str, new: str
) -> None:
    change(book, name, old, new)
    with pytest.raises(ManuscriptError) as pressed:
        again(book, site)
    with pytest.raises(ManuscriptError) as proved:
        proof(book, "book")
    assert [(each.place.line, each.message) for each in pressed.value.problems] == [
        (each.place.line, each.message) for each in proved.value.problems
    ]
    assert "there is no program called 'nope'" in pressed.value.problems[0].message

"""A started file is filled in, stands as it is, and never takes the place of another."""

from __future__ import annotations

import os
import shutil
from datetime import date
from pathlib import Path

import pytest
from plateset.drafting import Drafted, DraftError, Name, draft_files, draft_manuscript, path_of
from plateset.editor_schema import FOLDER, schema_files
from plateset.proving import proof
from plateset.shipped import shipped

from tests.conftest import CONTENT

TODAY = date(2026, 5, 4)
NEW: tuple[Name, ...] = (
    ("program", "spring-block"),
    ("exercise", "nordic-curl"),
    ("explainer", "why-rows"),
)


@pytest.fixture
def started(tmp_path: Path) -> Path:
    draft_manuscript(tmp_path / "mine")
    return tmp_path / "mine"


def inside(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def stops(folder: Path) -> list[str]:
    return [f"{mark.name}: {mark.message}" for mark in proof(folder, "mine").marks]


@pytest.mark.parametrize("name", NEW, ids=lambda name: name[0])
def test_a_new_file_stands_as_it_is(started: Path, name: Name) -> None:
    before = inside(started)
    drafted = draft_files(started, (name,), TODAY)
    assert drafted.asked == (path_of(name),)
    assert stops(started) == []
    assert set(inside(started)) - set(before) == {*drafted.asked, *drafted.besides}
    assert {path: data for path, data in inside(started).items() if path in before} == before


@pytest.mark.parametrize("name", NEW, ids=lambda name: name[0])
def test_a_new_file_guides(started: Path, name: Name) -> None:
    draft_files(started, (name,), TODAY)
    text = (started / path_of(name)).read_text("utf-8")
    kind = name[0]
    assert f"# yaml-language-server: $schema=../{FOLDER}/{kind}.schema.json" in text
    assert name[1].replace("-", " ").capitalize() in text
    assert text.count("#") > 5
    assert ("date" not in text) or (f"date: {TODAY}" in text)
    for token in ("TITLE", "TODAY", "NAME", "LEVELS", "#MUSCLES", "#KITS"):
        assert token not in text


def test_what_a_program_needs_comes_with_it(tmp_path: Path) -> None:
    (tmp_path / "site.yaml").write_text("title: T\nauthor: {name: N}\n")
    drafted = draft_files(tmp_path, (("program", "spring-block"),), TODAY)
    assert "exercises/goblet-squat.md" in drafted.besides
    assert stops(tmp_path) == []
    assert set(schema_files()) < set(drafted.besides)


def test_a_program_can_be_started_in_the_demo_and_in_pounds(tmp_path: Path) -> None:
    shutil.copytree(CONTENT, tmp_path / "demo")
    site = tmp_path / "demo" / "site.yaml"
    site.write_text(site.read_text("utf-8").replace("unit: kg", "unit: lb"), "utf-8")
    draft_files(tmp_path / "demo", NEW, TODAY)
    assert proof(tmp_path / "demo", "demo").programs["spring-block"].marks == ()


def test_a_shipped_exercise_is_copied_with_what_it_leads_to(tmp_path: Path) -> None:
    (tmp_path / "site.yaml").write_text("title: T\nauthor: {name: N}\n")
    drafted = draft_files(tmp_path, (("exercise", "hip-thrust"),), TODAY)
    mine = (tmp_path / "exercises" / "hip-thrust.md").read_text("utf-8")
    theirs = (shipped("content") / "exercises" / "hip-thrust.md").read_text("utf-8")
    assert [line for line in mine.splitlines() if "yaml-language-server" not in line] == theirs.splitlines()
    assert any(path.startswith("techniques/") for path in drafted.besides)
    assert stops(tmp_path) == []


def test_a_technique_is_copied_and_an_unknown_one_refused(started: Path) -> None:
    (started / "techniques" / "cluster.md").unlink()
    draft_files(started, (("technique", "cluster"),), TODAY)
    assert (started / "techniques" / "cluster.md").is_file()
    with pytest.raises(DraftError, match=r"no technique 'clusters'.*nearest: cluster$"):
        draft_files(started, (("technique", "clusters"),), TODAY)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        (("program", "first-program"), "programs/first-program.yaml is there already"),
        (("exercise", "Plank"), "'Plank' cannot be a name"),
        (("exercise", "../plank"), "cannot be a name"),
        (("explainer", ""), "cannot be a name"),
        (("exercise", "x" * 90), "cannot be a name; .* at most 80"),
    ],
)
def test_a_name_that_will_not_do_is_told_and_nothing_is_written(started: Path, name: Name, told: str) -> None:
    before = inside(started)
    with pytest.raises(DraftError, match=told):
        draft_files(started, (("explainer", "sound"), name), TODAY)
    assert inside(started) == before


def test_a_note_that_would_bring_a_problem_is_told_and_nothing_is_written(tmp_path: Path) -> None:
    """A max is taken from a lift that has one of its own; that of the note to be drafted is taken itself."""
    (tmp_path / "site.yaml").write_text("title: T\nauthor: {name: N}\n")
    (tmp_path / "exercises").mkdir()
    own = tmp_path / "exercises" / "own-press.md"
    shared = "max from: {exercise: dumbbell-romanian-deadlift, share: 90 %}"
    own.write_text(
        f"---\nname: Own press\nmuscles: {{direct: [chest]}}\nmovement: fly\nimplement: cable\n{shared}\n---\n"
    )
    before = inside(tmp_path)
    with pytest.raises(DraftError, match=r"there would be a problem at exercises/own-press.md:6:\d+: .*another lift"):
        draft_files(tmp_path, (("exercise", "dumbbell-romanian-deadlift"),), TODAY)
    assert inside(tmp_path) == before


def test_a_fault_that_was_there_is_no_reason_to_refuse(started: Path) -> None:
    program = started / "programs" / "first-program.yaml"
    program.write_text(program.read_text("utf-8").replace("exercise: plank", "exercise: plnak"), "utf-8")
    assert draft_files(started, (("exercise", "plnak"),), TODAY) == Drafted(("exercises/plnak.md",), ())


def test_where_no_manuscript_is_none_is_begun(tmp_path: Path) -> None:
    for folder in (tmp_path, tmp_path / "nowhere"):
        with pytest.raises(DraftError, match="is no manuscript"):
            draft_files(folder, NEW, TODAY)
    assert inside(tmp_path) == {}


def test_a_disk_that_fills_up_leaves_nothing(started: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = inside(started)
    real = Path.open

    def full(path: Path, mode: str = "r", *rest: object, **more: object) -> object:
        if mode == "xb" and path.name == "why-rows.md":
            raise OSError(28, os.strerror(28))
        return real(path, mode, *rest, **more)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", full)
    with pytest.raises(DraftError, match="No space left"):
        draft_files(started, NEW, TODAY)
    assert inside(started) == before


def test_a_file_that_comes_in_between_is_not_touched(started: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def meanwhile(manuscript: Path, texts: object) -> None:
        (manuscript / "explainers").mkdir(exist_ok=True)
        (manuscript / "explainers" / "why-rows.md").write_text("mine")

    monkeypatch.setattr("plateset.drafting._check_stands", meanwhile)
    with pytest.raises(DraftError, match="could not be written"):
        draft_files(started, NEW, TODAY)
    assert (started / "explainers" / "why-rows.md").read_text() == "mine"
    assert not (started / "programs" / "spring-block.yaml").exists()

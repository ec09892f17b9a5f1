"""What is remembered from the press before is what would be made anew, whatever has changed in between."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset import prose_figures, proving
from plateset.preview.making import next_state
from plateset.preview.state import State
from plateset.proof_json import proofs_json
from plateset.publishing import documents
from plateset.remembering import Remembered

from tests.publishing.building import LANTERN, write_book

CHANGES = {
    "nothing": ("site.yaml", "", ""),
    "the site's title": ("site.yaml", "title: Tannery Row Lifting", "title: Tannery Row"),
    "the site's address": ("site.yaml", "paper: [a4]", "paper: [a4]\naddress: https://osla.example/x/"),
    "the site's unit": ("site.yaml", "paper: [a4]", "paper: [a4]\nunit: lb"),
    "the site's plates": ("site.yaml", ", 2.5 kg, 1.25 kg]", "]"),
    "the site's limits": ("site.yaml", "paper: [a4]", "paper: [a4]\nlimits: {past failure lines: 0}"),
    "a caution of the site": ("site.yaml", "Ask at the desk", "Ask at the counter"),
    "a program's sets": ("programs/lantern.yaml", "sets: 4\n", "sets: 5\n"),
    "a program's start": ("programs/lantern.yaml", "level: intermediate", "level: intermediate\nstarts: 2026-03-02"),
    "a program's title": ("programs/tally.yaml", "title: ", "title: New "),
    "a program's weeks": ("programs/tally.yaml", "weeks: ", "weeks: 1"),
    "an exercise's name": ("exercises/squat.md", "name: ", "name: New "),
    "an exercise's text": ("exercises/row.md", "Why the dumbbell", "New: why the dumbbell"),
    "a technique's name": ("techniques/drop-set.md", "name: ", "name: New "),
    "an explainer": ("explainers/why-the-row.md", "title: ", "title: New "),
}


@pytest.fixture(autouse=True)
def forgetful(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is remembered from other tests."""
    forget(monkeypatch)


def forget(monkeypatch: pytest.MonkeyPatch) -> None:
    for module, names in (
        (proving, ("_PLANS", "_PROOFS")),
        (prose_figures, ("_FIGURES",)),
        (documents, ("_VIEWS", "_CALENDARS")),
    ):
        for name in names:
            monkeypatch.setattr(module, name, Remembered[object](200))


def everything(state: State) -> tuple[str, dict[str, bytes]]:
    assert state.pressed is not None
    assert state.is_sound, state
    pages = {path: make() for path, make in state.pressed.files.items() if not path.endswith((".pdf", ".zip", ".xlsx"))}
    return proofs_json(state.pressed.proofs), pages


@pytest.mark.parametrize("change", CHANGES)
def test_what_is_remembered_is_what_would_be_made_anew(
    change: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lantern = LANTERN.replace("It gives", "[](figure:tally/weeks) weeks of tally after. It gives")
    folder = write_book(tmp_path / "book", {"programs/lantern.yaml": lantern})
    before = next_state(State(), folder, "book")
    first = everything(before)
    name, old, new = CHANGES[change]
    text = (folder / name).read_text("utf-8")
    assert old in text
    (folder / name).write_text(text.replace(old, new, 1), "utf-8")
    remembered = everything(next_state(before, folder, "book"))
    forget(monkeypatch)
    assert remembered == everything(next_state(before, folder, "book"))
    assert (remembered != first) == (change != "nothing")


def test_a_program_that_has_not_changed_is_not_worked_out_again(tmp_path: Path) -> None:
    folder = write_book(tmp_path / "book")
    before = next_state(State(), folder, "book")
    program = folder / "programs" / "lantern.yaml"
    program.write_text(program.read_text("utf-8").replace("sets: 4\n", "sets: 5\n"), "utf-8")
    after = next_state(before, folder, "book")
    assert before.pressed is not None
    assert after.pressed is not None
    for slug, same in (("tally", True), ("lantern", False)):
        plans = [state.pressed.proofs.programs[slug].plan for state in (before, after) if state.pressed]
        assert (plans[0] is plans[1]) == same


def test_only_the_latest_are_kept_and_equal_objects_are_not_the_same() -> None:
    made: list[tuple[object, ...]] = []

    def work(*given: object) -> int:
        made.append(given)
        return len(made)

    kept = Remembered[int](2)
    one, other = ["a"], ["a"]
    assert kept.get((one, "x"), lambda: work(one)) == 1
    assert kept.get((one, "x"), lambda: work(one)) == 1
    assert kept.get((other, "x"), lambda: work(other)) == 2
    assert kept.get((one, "".join(["x"])), lambda: work(one)) == 1
    assert kept.get(("third",), work) == 3
    assert kept.get((other, "x"), lambda: work(other)) == 4

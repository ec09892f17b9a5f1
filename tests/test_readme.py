"""The README keeps its word: a person who follows it gets what it says."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    """Fenced blocks of one language, in order."""
    fenced = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    return [text for of, text in fenced if of == language]


# -- the tour -----------------------------------------------------------------------------------------


def commands(block: str) -> list[str]:
    return [line.split("#")[0].strip() for line in block.splitlines() if line.strip()]


def run(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ.get('PATH', '')}"
    environment = os.environ | {"PATH": path, "COLUMNS": "120"}
    return subprocess.run(command, shell=True, cwd=folder, env=environment, capture_output=True, text=True, check=False)


@pytest.fixture(scope="module")
def toured(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder in which the tour's commands were run, each ending well."""
    folder = tmp_path_factory.mktemp("tour")
    tour = commands(blocks("sh")[1])
    assert [line.split()[1] for line in tour] == ["draft", "proof", "press"]
    for command in tour:
        done = run(command, folder)
        assert done.returncode == 0, f"{command}: {done.stdout}{done.stderr}"
    return folder


def test_the_tour_ends_with_a_site_to_open(toured: Path) -> None:
    named = re.search(r"Open `([^`]+)`", README)
    assert named
    assert "<h1>" in (toured / named[1]).read_text(encoding="utf-8")


def test_a_changed_set_count_breaks_the_promise_as_told(toured: Path) -> None:
    program = toured / "my-site" / "programs" / "first-program.yaml"
    before = program.read_text(encoding="utf-8")
    try:
        program.write_text(before.replace("sets: 3", "sets: 5", 1), encoding="utf-8")
        done = run("plateset proof my-site", toured)
    finally:
        program.write_text(before, encoding="utf-8")
    assert done.returncode == 1
    shown = next(block for block in blocks("") if "promise-exceeded" in block)
    assert " ".join(shown.split()) in " ".join(done.stdout.split())


def test_what_a_change_did_is_told_as_shown(toured: Path) -> None:
    program = toured / "my-site" / "programs" / "first-program.yaml"
    before = program.read_text(encoding="utf-8")
    (toured / "earlier.yaml").write_text(before, encoding="utf-8")
    working = re.search(r"`(plateset proof my-site --working .*?)`", README)
    assert working
    try:
        program.write_text(before.replace("sets: 3", "sets: 5", 1), encoding="utf-8")
        parts = run(working[1], toured).stdout
        changed = run("plateset proof my-site --program first-program --against earlier.yaml", toured).stdout
    finally:
        program.write_text(before, encoding="utf-8")
    assert parts.endswith("= 13\n")
    assert next(block for block in blocks("") if "Weekly sets  before" in block) in changed


def test_a_misspelt_exercise_is_told_as_shown(toured: Path) -> None:
    program = toured / "my-site" / "programs" / "first-program.yaml"
    before = program.read_text(encoding="utf-8")
    shown = next(block for block in blocks("") if "gobelt-squat" in block)
    try:
        program.write_text(before.replace("exercise: goblet-squat", "exercise: gobelt-squat", 1), encoding="utf-8")
        done = run("plateset proof my-site", toured)
    finally:
        program.write_text(before, encoding="utf-8")
    assert done.returncode == 3
    assert shown in done.stderr + done.stdout


def test_a_program_and_an_exercise_of_ones_own_are_pressed_and_whole(toured: Path) -> None:
    started, ended = (commands(block) for block in blocks("sh")[3:])
    done = run(started[0], toured)
    assert done.returncode == 0, done.stderr
    line = re.search(r"`(- \{exercise: nordic-curl, .*?\})`", README)
    assert line
    program = toured / "my-site" / "programs" / "spring-block.yaml"
    text = program.read_text(encoding="utf-8")
    assert text.count("    lines:\n") == 2
    program.write_text(text.replace("    lines:\n", f"    lines:\n      {line[1]}\n", 1), encoding="utf-8")
    for command in ended:
        done = run(command, toured)
        assert done.returncode == 0, f"{command}: {done.stdout}{done.stderr}"
    assert "Nordic curl" in (toured / "my-site-pressed" / "programs" / "spring-block" / "index.html").read_text("utf-8")
    assert (toured / "my-site-pressed" / "exercises" / "nordic-curl.html").is_file()


def test_it_is_short() -> None:
    assert len(README.splitlines()) < 110

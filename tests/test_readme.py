"""The README keeps its word: its commands run, its examples are read, and it names every key there is."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from plateset.commands.proof import command as proof
from plateset.manuscript import schema, vocabulary
from plateset.manuscript.files import Kind, Source
from plateset.manuscript.load import MODELS, Document, load
from plateset.manuscript.positions import read_yaml
from plateset.training.figures import _SUBJECTS
from pydantic import BaseModel

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    """Fenced blocks of one language, in order."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


FENCED = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)


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


# -- the format ---------------------------------------------------------------------------------------


def source(kind: Kind, text: str, slug: str = "it") -> Source:
    return Source(kind, slug, "README.md", text, "")


def read_head(kind: Kind, text: str) -> Document[Any]:
    found = load(source(kind, text))
    assert isinstance(found, Document), found
    return found


def test_the_example_of_a_site_is_read() -> None:
    site = read_head("site", blocks("yaml")[0]).head
    assert site.title == "Orchard Barn Strength"
    assert site.limits.recovery == 48 * 3600


def test_the_example_of_a_program_is_read() -> None:
    program = read_head("program", blocks("yaml")[1]).head
    assert program.weeks == 8
    assert set(program.sessions) == {"lower", "upper"} == set(program.schedule.values())


@pytest.mark.parametrize(("place", "kind"), [*enumerate(("exercise", "technique", "explainer"))])
def test_the_examples_of_notes_are_read(place: int, kind: Kind) -> None:
    note = read_head(kind, blocks("markdown")[place])
    assert note.body.strip()


def test_there_is_an_example_of_every_kind_of_file() -> None:
    files = [block for block in blocks("yaml") if not block.startswith("- ")]
    assert len(files) + len(blocks("markdown")) == len(MODELS)


def test_the_examples_of_lines_are_read() -> None:
    (lines,) = [block for block in blocks("yaml") if block.startswith("- ")]
    read = read_head("program", a_program(*lines.splitlines())).head.sessions["a"].lines
    told = [name for line in read for name in line.model_fields_set]
    assert {"back_off", "pyramid", "range_of_motion", "pick_one"} <= set(told)


def inline(pattern: str) -> list[str]:
    return re.findall(pattern, re.sub(FENCED, "", README))


@pytest.mark.parametrize("written", inline(r"`(\{rule: [^`]*\})`"))
def test_the_progressions_named_in_the_text_are_read(written: str) -> None:
    line = f"- {{exercise: a, sets: 3, reps: 8-10, progression: {written}}}"
    assert read_head("program", a_program(line)).head.sessions["a"].lines[0].progression is not None


def a_program(*lines: str) -> str:
    return (
        "title: T\nsummary: S\nlevel: novice\ngoal: fitness\nweeks: 8\ndate: 2026-01-05\nsuits: [a]\nnot for: [b]\n"
        "schedule: {mon: a}\nsessions:\n  a:\n" + "".join(f"    {line}\n" for line in lines)
    )


def technique_rows() -> list[tuple[str, str]]:
    table = README.partition("| technique | settings")[2].partition("\n\n")[0]
    return re.findall(r"^\| ([a-z]+(?:-[a-z]+)*) \| (.*?) \|$", table, re.MULTILINE)


@pytest.mark.parametrize(("name", "settings"), technique_rows())
def test_a_technique_is_read_with_its_settings_which_are_what_is_taken_if_left_out(name: str, settings: str) -> None:
    given = [word for word in re.findall(r"`([^`]*)`", settings) if ":" in word]
    lines = [
        f"- {{exercise: a, sets: 3, reps: 8, last set: {{technique: {name}{more}}}}}"
        for more in ("", "".join(f", {word}" for word in given))
    ]
    program = read_head("program", a_program(*lines)).head
    bare, full = (line.last_set for line in program.sessions["a"].lines)
    assert bare == full
    assert bare.model_fields_set == {"technique"}
    # Told once for all of them, below the table.
    assert full.model_fields_set == set(type(full).model_fields) - {"from_week", "each_counts"}


def test_the_table_of_techniques_has_them_all() -> None:
    models = get_args(get_args(schema.SetTechnique)[0])
    assert {name for name, _ in technique_rows()} == {
        get_args(model.model_fields["technique"].annotation)[0] for model in models
    }


# -- every word there is ------------------------------------------------------------------------------


def entries(model: type[BaseModel] = schema.Entry) -> Iterator[type[BaseModel]]:
    for below in model.__subclasses__():
        if below.__module__ == schema.__name__:
            yield below
            yield from entries(below)


KEYS = sorted(
    (model.__name__, field.alias or name) for model in entries() for name, field in model.model_fields.items()
)


@pytest.mark.parametrize(("model", "key"), KEYS)
def test_every_key_is_named(model: str, key: str) -> None:
    assert re.search(rf"(?<![\w-]){re.escape(key)}:|`{re.escape(key)}`", README), f"{key} of {model}"


def keys_in(data: Any) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield str(key)
            yield from keys_in(value)
    elif isinstance(data, list):
        for value in data:
            yield from keys_in(value)


@pytest.mark.parametrize(
    ("text", "model"), [(blocks("yaml")[0], schema.Site), (blocks("yaml")[1], schema.Program)], ids=["site", "program"]
)
def test_the_keys_of_whole_files_are_in_their_examples_or_told_beside_them(text: str, model: type[BaseModel]) -> None:
    shown = set(read_yaml(text).data)
    told = set(re.findall(r"`([a-z][a-z -]*)(?::[^`]*)?`", README))
    assert {field.alias or name for name, field in model.model_fields.items()} - shown - told == set()


@pytest.mark.parametrize(
    "word", sorted({*vocabulary.MUSCLES, *get_args(vocabulary.Movement), *get_args(vocabulary.Kit)})
)
def test_every_word_of_the_vocabulary_is_named(word: str) -> None:
    assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", re.sub(FENCED, "", README).replace("\n", " "))


@pytest.mark.parametrize("word", sorted({*get_args(vocabulary.CurveName), *get_args(vocabulary.TechniqueName)}))
def test_every_curve_and_technique_is_named(word: str) -> None:
    assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", README)


@pytest.mark.parametrize("name", get_args(vocabulary.MarkName))
def test_every_mark_an_author_may_accept_is_in_the_table(name: str) -> None:
    assert re.search(rf"^\| (?:[a-z, -]*, )?{name}(?:, [a-z, -]*)? \| (?:stop|query|note)", README, re.MULTILINE)


@pytest.mark.parametrize("subject", sorted(_SUBJECTS))
def test_every_figure_is_named(subject: str) -> None:
    assert re.search(rf"`PROGRAM/{re.escape(subject)}[`/]", README)


def test_the_endings_are_told() -> None:
    assert all(f"| {code} when" in README for code in range(5))


@pytest.mark.parametrize("option", [name for param in proof.params for name in param.opts if name.startswith("--")])
def test_every_option_of_the_proof_is_told(option: str) -> None:
    assert re.search(rf"^\| `{option}[` ]", README, re.MULTILINE)

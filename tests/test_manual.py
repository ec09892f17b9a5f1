"""The manual keeps its word: its examples are read, and it names every key, word, mark and figure there is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from click.testing import CliRunner
from plateset.cli import COMMANDS, main
from plateset.commands.manual import CHAPTERS
from plateset.commands.proof import command as proof
from plateset.manual_keys import keys_chapter
from plateset.manuscript import schema, vocabulary
from plateset.manuscript.files import Kind, Source
from plateset.manuscript.load import MODELS, Document, load
from plateset.manuscript.positions import read_yaml
from plateset.publishing.documents import CSP
from plateset.publishing.theme import ASSETS, SHEET
from plateset.theme_files import PAPER
from plateset.training.figures import _SUBJECTS
from pydantic import BaseModel

ROOT = Path(__file__).parents[1]
FOLDER = ROOT / "generator" / "plateset" / "manual"
MANUSCRIPT = (FOLDER / "manuscript.md").read_text(encoding="utf-8")
PROOF = (FOLDER / "proof.md").read_text(encoding="utf-8")
FENCED = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)


def blocks(language: str) -> list[str]:
    """Fenced blocks of one language in the chapter on the format, in order."""
    fenced = re.findall(r"^```(\w*)\n(.*?)^```$", MANUSCRIPT, re.MULTILINE | re.DOTALL)
    return [text for of, text in fenced if of == language]


# -- chapters -----------------------------------------------------------------------------------------


def test_every_chapter_is_there_listed_and_shown() -> None:
    index = (FOLDER / "index.md").read_text(encoding="utf-8")
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert {path.stem for path in FOLDER.glob("*.md")} == {*CHAPTERS, "index"}
    for chapter in CHAPTERS:
        assert f"[{chapter}]({chapter}.md)" in index
        assert f"[{chapter}](generator/plateset/manual/{chapter}.md)" in readme
        shown = CliRunner().invoke(main, ["manual", chapter])
        assert shown.exit_code == 0
        assert shown.stdout == (FOLDER / f"{chapter}.md").read_text(encoding="utf-8")


def test_the_chapter_of_keys_is_that_of_the_models() -> None:
    written = (FOLDER / "keys.md").read_text(encoding="utf-8")
    assert written == keys_chapter(), "run: plateset manual keys > generator/plateset/manual/keys.md"


def test_links_between_chapters_and_within_them_lead_somewhere() -> None:
    for path in FOLDER.glob("*.md"):
        text = path.read_text(encoding="utf-8")
        heads = {
            re.sub(r"[^a-z0-9 -]", "", head.lower()).replace(" ", "-") for head in re.findall("^#+ (.*)$", text, re.M)
        }
        for target in re.findall(r"\]\(([a-z]+\.md|#[^)]*)\)", re.sub(FENCED, "", text)):
            assert target.removeprefix("#") in heads or (FOLDER / target).is_file(), f"{target} in {path.name}"


def test_every_command_is_told() -> None:
    text = "".join(path.read_text(encoding="utf-8") for path in FOLDER.glob("*.md"))
    for name in COMMANDS:
        assert f"plateset {name} " in text


def test_the_policy_named_for_hosts_is_that_of_the_pages() -> None:
    assert f"Content-Security-Policy: {CSP}; frame-ancestors 'none'\n" in (FOLDER / "publishing.md").read_text("utf-8")


def test_every_file_of_the_theme_is_named() -> None:
    told = (FOLDER / "themes.md").read_text(encoding="utf-8")
    folder = ROOT / "themes" / "noticeboard"
    there = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert set(re.findall(r"`((?:paper/)?[a-z0-9-]+\.(?:html|css|js|typ)|words\.en\.po)`", told)) == there
    assert {*ASSETS, f"{PAPER}/{SHEET}"} <= there


# -- the format ---------------------------------------------------------------------------------------


def source(kind: Kind, text: str, slug: str = "it") -> Source:
    return Source(kind, slug, "manuscript.md", text, "")


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
    return re.findall(pattern, re.sub(FENCED, "", MANUSCRIPT))


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
    table = MANUSCRIPT.partition("| technique | settings")[2].partition("\n\n")[0]
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
    assert re.search(rf"(?<![\w-]){re.escape(key)}:|`{re.escape(key)}`", MANUSCRIPT), f"{key} of {model}"


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
    told = set(re.findall(r"`([a-z][a-z -]*)(?::[^`]*)?`", MANUSCRIPT))
    assert {field.alias or name for name, field in model.model_fields.items()} - shown - told == set()


@pytest.mark.parametrize(
    "word", sorted({*vocabulary.MUSCLES, *get_args(vocabulary.Movement), *get_args(vocabulary.Kit)})
)
def test_every_word_of_the_vocabulary_is_named(word: str) -> None:
    assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", re.sub(FENCED, "", MANUSCRIPT).replace("\n", " "))


@pytest.mark.parametrize("word", sorted({*get_args(vocabulary.CurveName), *get_args(vocabulary.TechniqueName)}))
def test_every_curve_and_technique_is_named(word: str) -> None:
    assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", MANUSCRIPT)


@pytest.mark.parametrize("name", get_args(vocabulary.MarkName))
def test_every_mark_an_author_may_accept_is_in_the_table(name: str) -> None:
    assert re.search(rf"^\| (?:[a-z, -]*, )?{name}(?:, [a-z, -]*)? \| (?:stop|query|note)", PROOF, re.MULTILINE)


@pytest.mark.parametrize("subject", sorted(_SUBJECTS))
def test_every_figure_is_named(subject: str) -> None:
    assert re.search(rf"`PROGRAM/{re.escape(subject)}[`/]", MANUSCRIPT)


def test_the_endings_are_told() -> None:
    assert all(f"| {code} when" in PROOF for code in range(5))


@pytest.mark.parametrize("option", [name for param in proof.params for name in param.opts if name.startswith("--")])
def test_every_option_of_the_proof_is_told(option: str) -> None:
    assert re.search(rf"^\| `{option}[` ]", PROOF, re.MULTILINE)

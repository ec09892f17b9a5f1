"""The schemas editors check from, beside an independent validator: they take what the models take, and refuse alike."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError
from plateset.editor_schema import FOLDER, KINDS, editor_schema, schema_files, with_help, write_schemas
from plateset.manuscript.files import FOLDERS, Kind, Source, read_sources
from plateset.manuscript.load import Document, load
from plateset.manuscript.positions import Marked, read_yaml
from plateset.manuscript.read import read_manuscript

from tests.conftest import CONTENT, SOUND, TESTS

ONLY_THE_MODELS = (
    r"there is nothing to load",
    r"these are more than 1,000 steps|these steps lead nowhere",
    r"0 kg is no mass|0 % of a max cannot be trained with|takes no time at all",
    r"runs backwards|\d-\d+ is out of bounds",
    r"outside the scale used for loading|further from failure than anyone can judge",
    r"the load never rises|does not fall from the first set to the last|nothing lies between them",
    r"is given twice|does not name weeks",
    r"'changes' speaks of edition",
    r"is named as direct and as indirect",
    r"is not in the calendar|is far from today",
    r"the key '.*' stands here and on line",
    r"leads to no host",
)
"""What a schema cannot say: sums, order of the numbers in a text, bounds of a quantity with a unit, the calendar, keys
that stand twice, how a host may be called."""


@cache
def validator(kind: Kind) -> Draft202012Validator:
    return Draft202012Validator(editor_schema(kind))


def data_of(source: Source) -> Marked | None:
    """A file's data as it stands, whatever its model thinks of it; None when there is no mapping to look at."""
    text = source.text
    if source.kind not in ("site", "program"):
        text = text.split("---\n")[1] if text.startswith("---\n") and text.count("---\n") > 1 else ""
    marked = read_yaml(text)
    return marked if isinstance(marked.data, dict) else None


def complaints(source: Source, marked: Marked) -> list[ValidationError]:
    return list(validator(source.kind).iter_errors(marked.data))


def lines_of(found: list[ValidationError], marked: Marked) -> set[int]:
    """The lines (of the YAML) an editor would underline, taking each fault at its deepest."""
    lines = set()
    for error in found:
        path = tuple(error.absolute_path)
        lines.add(marked.locate(path)[0])
        if error.validator in ("additionalProperties", "propertyNames"):
            lines |= {place[0] for key, place in marked.keys.items() if key[:-1] == path}
        if error.validator == "propertyNames" and path[:-1]:
            lines.add(marked.locate(path[:-1])[0])
        lines |= lines_of(list(error.context or ()), marked)
    return lines


@pytest.mark.parametrize("kind", KINDS)
def test_a_schema_is_one(kind: Kind) -> None:
    Draft202012Validator.check_schema(editor_schema(kind))
    assert editor_schema(kind)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def told(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, part in {"": schema, **schema.get("$defs", {})}.items():
        for key, property_ in part.get("properties", {}).items():
            yield f"{name}.{key}", property_


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_has_a_description_and_an_example_that_the_schema_takes(kind: Kind) -> None:
    schema = editor_schema(kind)
    keys = dict(told(schema))
    assert keys
    for name, property_ in keys.items():
        assert property_.get("description"), name
        assert property_["examples"] or "Example: " in property_["description"], name
        assert not any(isinstance(value, dict | list) for value in property_["examples"]), name
        whole = {"$defs": schema.get("$defs", {}), "properties": {"it": property_}}
        for value in property_["examples"] + [property_[word] for word in ("default",) if word in property_]:
            assert not list(Draft202012Validator(whole).iter_errors({"it": value})), name


@pytest.mark.parametrize("folder", [CONTENT, SOUND], ids=["demo", "sound"])
def test_what_the_models_take_the_schemas_take(folder: Path) -> None:
    sources, problems = read_sources(folder, "book")
    assert not problems
    for source in sources:
        marked = data_of(source)
        assert marked is not None
        assert [error.message for error in complaints(source, marked)] == [], source.path


def faulty() -> list[Source]:
    kinds: dict[str, Kind] = {"site": "site", **{folder: kind for folder, (kind, _) in FOLDERS.items()}}
    found = [
        Source(kind, path.stem, f"{folder}/{path.name}", path.read_text("utf-8"), "")
        for folder, kind in kinds.items()
        for path in sorted((TESTS / "cases" / folder).iterdir())
    ]
    return [source for source in found if data_of(source) is not None]


@pytest.mark.parametrize("source", faulty(), ids=lambda source: source.path)
def test_what_the_models_refuse_the_schemas_refuse_at_the_same_line(source: Source) -> None:
    marked = data_of(source)
    assert marked is not None
    found = complaints(source, marked)
    result = load(source)
    if isinstance(result, Document):  # only names of other files are wrong, which no schema knows
        assert found == []
        return
    above = 0 if source.kind in ("site", "program") else 1
    underlined = {line + above for line in lines_of(found, marked)}
    for problem in result.problems:
        said = any(re.search(words, problem.message) for words in ONLY_THE_MODELS)
        assert said or problem.place.line in underlined, problem


def test_the_cases_are_many() -> None:
    refused = [source for source in faulty() if not isinstance(load(source), Document)]
    assert len(refused) > 15
    assert {source.kind for source in refused} == set(KINDS)


def test_the_schemas_of_a_manuscript_are_passed_over_when_it_is_read(sound: Path) -> None:
    before = read_manuscript(sound, "book")
    assert write_schemas(sound) == [f"{FOLDER}/{kind}.schema.json" for kind in KINDS]
    assert read_manuscript(sound, "book") == before
    assert {path.name for path in (sound / FOLDER).iterdir()} == {f"{kind}.schema.json" for kind in KINDS}


def test_writing_them_again_replaces_older_ones(sound: Path) -> None:
    write_schemas(sound)
    (sound / FOLDER / "site.schema.json").write_text("{}")
    write_schemas(sound)
    assert {f"{FOLDER}/{path.name}": path.read_bytes() for path in (sound / FOLDER).iterdir()} == schema_files()


@pytest.mark.parametrize("kind", KINDS)
def test_a_file_says_where_its_schema_is(kind: Kind) -> None:
    text = "title: T\n" if kind in ("site", "program") else "---\ntitle: T\n---\nText.\n"
    helped = with_help(kind, text)
    place = re.search(r"^# yaml-language-server: \$schema=(\S+)$", helped, re.MULTILINE)
    assert place
    folder = next((name for name, (of, _) in FOLDERS.items() if of == kind), ".")
    assert Path(folder, place[1]).as_posix().replace(f"{folder}/../", "") == f"{FOLDER}/{kind}.schema.json"
    assert with_help(kind, helped) == helped
    assert helped.replace(place[0] + "\n", "") == text

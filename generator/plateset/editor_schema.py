"""What editors complete and check from: a JSON Schema (draft 2020-12) for every kind of file, from the models."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from plateset.manuscript.desk import GROUP_TECHNIQUES
from plateset.manuscript.files import FOLDERS, Kind
from plateset.manuscript.key_notes import key_note
from plateset.manuscript.load import MODELS
from plateset.manuscript.positions import read_yaml

FOLDER = ".plateset-schemas"
"""Where a manuscript keeps its copies; the leading point keeps the folder from being read as part of it."""

KINDS: tuple[Kind, ...] = get_args(Kind)

_WHAT = {
    "site": "site.yaml of a Plateset manuscript",
    **{kind: f"The head of {folder}/*.md" for folder, (kind, _) in FOLDERS.items()},
    "program": "A program of a Plateset manuscript (programs/*.yaml)",
}


GROUPS = (*GROUP_TECHNIQUES, "pick one")
"""The keys that make a line a group."""


def _given(*keys: str) -> list[dict[str, Any]]:
    return [{"required": [key], "properties": {key: {"not": {"type": "null"}}}} for key in keys]


_APART = (("last set", "every set"), ("back-off", "pyramid"), ("hold", "back-off"), ("hold", "pyramid"))
"""Keys of a line that exclude each other."""

_RULES: Mapping[str, dict[str, Any]] = {
    "LiftLine": {
        "oneOf": _given("reps", "hold"),
        "not": {"anyOf": [{"allOf": _given(*pair)} for pair in _APART]},
    },
    "GroupLine": {"oneOf": _given(*GROUPS)},
    "Acceptance": {"properties": {"mark": {"not": {"enum": ["figure-contradicted", "acceptance-unused"]}}}},
}
"""What the models check of several keys together, as far as a schema can say it."""


class _Editors(GenerateJsonSchema):
    """Pydantic's generator; keys of mappings are checked too, and nothing is named after the code."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """Never: a key is its own title."""
        return False

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """Without the default, which is told as an author would write it."""
        return self.generate_inner(schema["schema"])

    def tagged_union_schema(self, schema: core_schema.TaggedUnionSchema) -> JsonSchemaValue:
        """Told apart as the models do it, so that an editor shows the faults of the one that was meant."""
        choices = {str(tag): self.generate_inner(choice) for tag, choice in schema["choices"].items()}
        if set(choices) == {"line:lift", "line:group"}:
            is_group = {"type": "object", "anyOf": [{"required": [key]} for key in GROUPS]}
            return {"if": is_group, "then": choices["line:group"], "else": choices["line:lift"]}
        word = schema["discriminator"]
        if not isinstance(word, str):
            return {"anyOf": list(choices.values())}
        return {
            "type": "object",
            "properties": {word: {"enum": list(choices)}},
            "required": [word],
            "allOf": [
                {"if": {"properties": {word: {"const": tag}}, "required": [word]}, "then": choice}
                for tag, choice in choices.items()
            ],
        }

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        """A mapping: words an editor can offer as its keys, a pattern for others, and nothing else."""
        keys = self.generate_inner(schema["keys_schema"]) if "keys_schema" in schema else {}
        values = self.generate_inner(schema["values_schema"]) if "values_schema" in schema else {}
        found: JsonSchemaValue = {"type": "object", "propertyNames": keys, "additionalProperties": values}
        if "enum" in keys:
            found["properties"] = dict.fromkeys(keys["enum"], values)
        if "min_length" in schema:
            found["minProperties"] = schema["min_length"]
        return found


def editor_schema(kind: Kind) -> dict[str, Any]:
    """The schema for one kind of file."""
    model = MODELS[kind]
    schema = plain_schema(kind)
    _explain(schema, model)
    for below in models_of(model):
        _explain(schema["$defs"][below.__name__], below)
    schema.pop("title", None)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": _WHAT[kind], **schema}


def plain_schema(kind: Kind) -> dict[str, Any]:
    """The schema for one kind of file without the notes on its keys."""
    return MODELS[kind].model_json_schema(schema_generator=_Editors, mode="validation")


def schema_files() -> dict[str, bytes]:
    """Every schema as (path in the manuscript, bytes)."""
    return {
        f"{FOLDER}/{kind}.schema.json": (json.dumps(editor_schema(kind), ensure_ascii=False, indent=1) + "\n").encode()
        for kind in KINDS
    }


def write_schemas(manuscript: Path) -> list[str]:
    """Put the schemas into ``manuscript``, in place of older ones; returns their paths in it. Raises OSError."""
    files = schema_files()
    (manuscript / FOLDER).mkdir(exist_ok=True)
    for path, data in files.items():
        aside = manuscript / f"{path}.new"
        aside.write_bytes(data)
        os.replace(aside, manuscript / path)
    return list(files)


def with_help(kind: Kind, text: str) -> str:
    """A file's text with the line that tells an editor's language server where the schema is."""
    up = "" if kind == "site" else "../"
    line = f"# yaml-language-server: $schema={up}{FOLDER}/{kind}.schema.json\n"
    if line in text:
        return text
    if kind in ("site", "program"):
        return line + text
    return text.replace("---\n", "---\n" + line, 1)


def models_of(model: type[BaseModel]) -> Iterator[type[BaseModel]]:
    """Every model used by ``model``, directly or by those it uses, each once."""
    found: list[type[BaseModel]] = []
    waiting = [model]
    while waiting:
        for info in waiting.pop().model_fields.values():
            for below in _models_in(info.annotation):
                if below not in found:
                    found.append(below)
                    waiting.append(below)
    yield from found


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models_in(part)]


def _explain(schema: dict[str, Any], model: type[BaseModel]) -> None:
    """Put the notes on its keys, and the rules for keys together, into a model's schema."""
    names = tuple(above.__name__ for above in model.__mro__)
    schema.pop("title", None)
    for key, property_ in schema["properties"].items():
        note = key_note(names, key)
        if note is None:
            continue
        form, example = property_.get("description", ""), _data(note.example)
        nested = isinstance(example, dict | list)
        told = (note.text, form, f"Example: {note.example}" if nested else "")
        examples = [*([] if nested else [example]), *_plain_examples(property_)]
        property_["description"] = " ".join(words for words in told if words)
        property_["examples"] = [each for place, each in enumerate(examples) if each not in examples[:place]]
        if note.default:
            property_["default"] = _data(note.default)
    rules = dict(_RULES.get(model.__name__, {}))
    for key, rule in rules.pop("properties", {}).items():
        schema["properties"][key] |= rule
    schema |= rules


def _plain_examples(schema: dict[str, Any]) -> Iterator[Any]:
    """Examples of the values a key may have by itself; editors offer them, and cannot show nested ones."""
    yield from schema.get("examples", ())
    for part in (*schema.get("anyOf", ()), schema.get("then"), schema.get("else")):
        if part and part.get("type") not in ("object", "array"):
            yield from _plain_examples(part)


def _data(text: str) -> Any:
    return read_yaml(f"it: {text}\n").data["it"]

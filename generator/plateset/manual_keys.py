"""The manual's chapter of keys: every key of every kind of file, from the models and the notes on their keys."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, get_args

from pydantic import BaseModel

from plateset.editor_schema import KINDS, models_of, plain_schema
from plateset.manuscript import vocabulary
from plateset.manuscript.files import FOLDERS, Kind
from plateset.manuscript.key_notes import key_note
from plateset.manuscript.load import MODELS

Schema = dict[str, Any]

_OPENING = """\
# Every key

This chapter is made from the models that read a manuscript; `plateset manual keys` prints it for the version you have.
A key in **bold** must be given. What stands under *left out* is taken when a key is left out.
"""
_TITLES = {"site": "site.yaml"} | {kind: f"{folder}/*{ending}" for folder, (kind, ending) in FOLDERS.items()}


_WORDS: dict[str, tuple[str, ...]] = {
    "muscle": get_args(vocabulary.Muscle),
    "movement": get_args(vocabulary.Movement),
    "piece of kit": get_args(vocabulary.Kit),
    "technique": get_args(vocabulary.TechniqueName),
    "curve": get_args(vocabulary.CurveName),
    "mark": get_args(vocabulary.MarkName),
}
"""Words that many keys take: listed once, at the end."""


def keys_chapter() -> str:
    """The whole chapter as Markdown."""
    shown: set[type[BaseModel]] = set()
    return _OPENING + "".join(part for kind in KINDS for part in _kind(kind, shown)) + "".join(_words())


def _words() -> Iterator[str]:
    yield "\n## Words\n"
    for name, words in _WORDS.items():
        yield f"\n**A {name}** is one of: {', '.join(words)}.\n"


def _kind(kind: Kind, shown: set[type[BaseModel]]) -> Iterator[str]:
    schema = plain_schema(kind)
    yield f"\n## {_TITLES[kind]}\n"
    yield _table(MODELS[kind], schema)
    for model in models_of(MODELS[kind]):
        if model in shown:
            continue
        shown.add(model)
        yield f"\n### {_title(model.__name__)}\n\n{_first_line(model)}\n"
        yield _table(model, schema["$defs"][model.__name__])


def _title(name: str) -> str:
    """'LiftLine' as 'Lift line'."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).capitalize()


def _first_line(model: type[BaseModel]) -> str:
    return (model.__doc__ or "").strip().splitlines()[0].replace("``", "`")


def _table(model: type[BaseModel], schema: Schema) -> str:
    names = tuple(above.__name__ for above in model.__mro__)
    rows = ["", "| key | what it is for | value | left out | example |", "| --- | --- | --- | --- | --- |"]
    for key, property_ in schema["properties"].items():
        note = key_note(names, key)
        name = f"**`{key}`**" if key in schema.get("required", ()) else f"`{key}`"
        text, example, default = (note.text, note.example, note.default) if note else ("", "", "")
        cells = (name, text, _form(property_), _code(default), _code(example))
        rows.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(rows) + "\n"


def _code(yaml: str) -> str:
    return f"`{yaml}`" if yaml else ""


def _form(schema: Schema) -> str:  # noqa: PLR0911 - one answer for each shape a schema can have
    """What a value looks like, in a few words."""
    if "$ref" in schema:
        return f"see [{_title(_name(schema))}](#{_title(_name(schema)).lower().replace(' ', '-')})"
    if "if" in schema:
        return _either(schema)
    if "anyOf" in schema and "description" not in schema:
        return ", or ".join(_form(each) for each in schema["anyOf"] if each != {"type": "null"})
    if "allOf" in schema:
        return "one of: " + ", ".join(_form(choice["then"]) for choice in schema["allOf"])
    words = schema.get("enum", [schema["const"]] if "const" in schema else [])
    known = next((name for name, listed in _WORDS.items() if listed == tuple(words)), "")
    if known:
        return f"a [{known}](#words)"
    if words:
        return (", ".join(f"`{word}`" for word in words)) if len(words) > 1 else f"`{words[0]}`"
    if "description" in schema:
        return _sentence(schema["description"])
    return _shape(schema)


def _name(schema: Schema) -> str:
    return str(schema["$ref"]).rsplit("/", 1)[-1]


def _either(schema: Schema) -> str:
    first, second = _form(schema["then"]), _form(schema["else"])
    if "not" in schema["then"]:  # a mapping from weeks
        return f"{second}; or by week"
    return f"{second}, or {first}"


def _sentence(text: str) -> str:
    """A description as part of a sentence."""
    return text[:1].lower() + text[1:].rstrip(".")


def _shape(schema: Schema) -> str:
    kind = schema.get("type")
    if kind == "array":
        return f"list: {_form(schema['items'])}"
    if kind == "object":
        return f"mapping from {_form(schema['propertyNames'])} to {_form(schema['additionalProperties'])}"
    if kind == "integer":
        return "whole number" + _bounds(schema)
    return {"string": "text", "null": "nothing"}.get(str(kind), str(kind))


def _bounds(schema: Schema) -> str:
    low, high = schema.get("minimum"), schema.get("maximum")
    if low is None:
        return "" if high is None else f", at most {high}"
    return f", {low} or more" if high is None else f", {low} to {high}"

"""Every key has a note, and what a note gives as an example or a default is what the model reads."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from plateset.manuscript import schema
from plateset.manuscript.key_notes import KEY_NOTES, KeyNote, key_note
from plateset.manuscript.positions import read_yaml
from pydantic import BaseModel, ConfigDict, create_model
from pydantic.fields import FieldInfo


def models(model: type[BaseModel] = schema.Entry) -> Iterator[type[BaseModel]]:
    for below in model.__subclasses__():
        if below.__module__ == schema.__name__:
            yield below
            yield from models(below)


def keys() -> list[tuple[type[BaseModel], str, FieldInfo]]:
    return [(model, info.alias or name, info) for model in models() for name, info in model.model_fields.items()]


def note_of(model: type[BaseModel], key: str) -> KeyNote:
    note = key_note(tuple(above.__name__ for above in model.__mro__), key)
    assert note is not None, f"manuscript/key_notes.py has no note on {key!r} of {model.__name__}"
    return note


def read(key: str, info: FieldInfo, written: str) -> Any:
    """The value of one key, read alone."""
    shape: Any = (info.annotation, info)
    one = create_model("One", __config__=ConfigDict(extra="forbid"), it=shape)
    data = {info.alias or "it": read_yaml(f"it: {written}\n").data["it"]}
    return dict(one.model_validate(data))["it"]


EVERY = [pytest.param(*each, id=f"{each[0].__name__}-{each[1]}") for each in keys()]


@pytest.mark.parametrize(("model", "key", "info"), EVERY)
def test_a_key_has_a_note_with_an_example_that_is_read(model: type[BaseModel], key: str, info: FieldInfo) -> None:
    note = note_of(model, key)
    assert note.text.endswith(".")
    assert read(key, info, note.example) is not None


@pytest.mark.parametrize(("model", "key", "info"), EVERY)
def test_a_default_is_told_as_the_model_takes_it(model: type[BaseModel], key: str, info: FieldInfo) -> None:
    note = note_of(model, key)
    if note.default:
        assert read(key, info, note.default) == info.get_default(call_default_factory=True)
    else:
        assert info.is_required() or info.default in (None, "")


def test_there_is_no_note_on_a_key_that_is_gone() -> None:
    there = {(above.__name__, key) for model, key, _ in keys() for above in model.__mro__}
    there |= {("Technique", "technique")}
    assert {(model, key) for model, notes in KEY_NOTES.items() for key in notes} - there == set()

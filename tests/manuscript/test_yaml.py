"""YAML is read as it looks, every part has its place, and no text whatever brings the reader down."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plateset.manuscript.files import Kind, Source
from plateset.manuscript.load import Document, Misread, load
from plateset.manuscript.positions import read_yaml
from plateset.problem_text import problem_text

from tests.conftest import SOUND
from tests.manuscript.reading import problems_in

KINDS: tuple[Kind, ...] = ("site", "program", "exercise", "technique", "explainer")


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("1:30", "1:30"),
        ("12:30:45", "12:30:45"),
        ("3-1-1-0", "3-1-1-0"),
        ("3-0-X-0", "3-0-X-0"),
        ("8-12", "8-12"),
        ("2026-03-02", "2026-03-02"),
        ("on", "on"),
        ("off", "off"),
        ("no", "no"),
        ("yes", "yes"),
        ("y", "y"),
        ("<<", "<<"),
        ("=", "="),
        ("true", True),
        ("False", False),
        ("~", None),
        ("null", None),
        ("", None),
        ("5", 5),
        ("-5", -5),
        ("010", 10),
        ("2.5", 2.5),
        ("1_000", "1_000"),
        ("0x1F", "0x1F"),
        ("75 %", "75 %"),
        ("'5'", "5"),
        ('"on"', "on"),
    ],
)
def test_words_are_read_as_what_they_look_like(written: str, read: object) -> None:
    marked = read_yaml(f"key: {written}\n")
    assert marked.faults == []
    assert marked.data == {"key": read}
    assert type(marked.data["key"]) is type(read)


def test_every_part_has_its_place() -> None:
    text = "title: A\nlines:\n  - {name: one, sets: 3}\n  - name: two\n"
    marked = read_yaml(text)
    assert marked.locate(("title",)) == (1, 8)
    assert marked.locate(("title",), key=True) == (1, 1)
    assert marked.locate(("lines", 0, "sets")) == (3, 23)
    assert marked.locate(("lines", 0, "sets"), key=True) == (3, 17)
    assert marked.locate(("lines", 1, "name")) == (4, 11)
    assert marked.locate(("lines", "invented", 1, "name")) == (4, 11)
    assert marked.locate(("lines", 1, "missing")) == (4, 5)
    assert marked.locate(("nowhere",)) == (1, 1)


def test_place_of_an_entry_of_a_list_that_is_read_as_a_mapping() -> None:
    assert read_yaml("indirect: [lats, quadz]\n").locate(("indirect", "quadz"), key=True) == (1, 18)


@pytest.mark.parametrize("text", ["[" * 100_000, "- " * 100_000, "{a: " * 50_000, "? " * 50_000, "[[" * 20 + "]]" * 20])
def test_nesting_without_end_is_refused(text: str) -> None:
    marked = read_yaml(text)
    assert marked.data is None
    assert len(marked.faults) == 1


def test_aliases_that_multiply_are_refused_at_once() -> None:
    lines = ["a: &a [x, x]"] + [f"{b}: &{b} [*{a}, *{a}]" for a, b in zip("abcdefghij", "bcdefghijk", strict=True)]
    marked = read_yaml("\n".join(lines))
    assert marked.data is None
    assert marked.faults[0].message == "the anchor &a"


@pytest.mark.parametrize(
    "tag", ["!!int four", "!!float x", "!!bool x", "!!map x", "!!python/none x", "!x y", "!!str 5"]
)
def test_tags_are_refused(tag: str) -> None:
    marked = read_yaml(f"key: {tag}\n")
    assert [fault.message.split(" ")[1] for fault in marked.faults] == ["tag"]


def _source(kind: Kind, text: str) -> Source:
    return Source(kind, "any", "book/any", text, hashlib.sha256(text.encode("utf-8", "replace")).hexdigest())


def _load(kind: Kind, text: str) -> Document[Any] | Misread:
    result = load(_source(kind, text))
    if not isinstance(result, Document):
        assert result.problems
        for problem in result.problems:
            assert problem_text(problem)
            assert problem.message
    return result


YAMLISH = st.text(st.sampled_from("ab1 \n\t:-[]{},&*!#|>'\"%@`?~.\\<=\r\u2028\x85\x00é\ufeff"), max_size=80)


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=60), YAMLISH))
def test_no_text_brings_the_reader_down(text: str) -> None:
    marked = read_yaml(text)
    assert marked.data is None or not marked.faults
    for fault in marked.faults:
        assert fault.line >= 1
        assert fault.column >= 1


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(KINDS), st.one_of(st.text(max_size=60), YAMLISH))
def test_no_text_brings_loading_down(kind: Kind, text: str) -> None:
    _load(kind, text)
    _load(kind, f"---\n{text}\n---\n{text}")


SCALARS = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-100, 10_000),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=12),
    st.sampled_from(["bodyweight + 0 kg", "60 kg", "1:30", "week 1", "drop-set", "double", "linear", "8-12", "2 RIR"]),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=8), inner, max_size=3)),
    max_leaves=6,
)
PROGRAM = read_yaml((SOUND / "programs" / "steady-start.yaml").read_text(encoding="utf-8")).data
SPOTS = sorted(
    read_yaml((SOUND / "programs" / "steady-start.yaml").read_text(encoding="utf-8")).values,
    key=str,
)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(SPOTS), VALUES)
def test_no_value_in_any_spot_brings_loading_down(spot: tuple[str | int, ...], value: object) -> None:
    _load("program", json.dumps(_with(PROGRAM, spot, value), ensure_ascii=False))


def _with(data: Any, spot: tuple[str | int, ...], value: object) -> Any:
    """``data`` with ``value`` at ``spot``."""
    if not spot:
        return value
    copy: Any = dict(data) if isinstance(data, dict) else list(data)
    copy[spot[0]] = _with(data[spot[0]], spot[1:], value)
    return copy


@pytest.mark.parametrize("folder", ["programs", "exercises", "explainers"])
def test_no_bytes_bring_a_reading_down(sound: Path, folder: str) -> None:
    path = next((sound / folder).iterdir())
    whole = path.read_bytes()

    @settings(max_examples=40, deadline=None)
    @given(st.one_of(st.binary(max_size=60), st.integers(0, len(whole)).map(lambda cut: whole[:cut])))
    def read(data: bytes) -> None:
        path.write_bytes(data)
        for problem in problems_in(sound):
            assert problem_text(problem)

    read()

"""Whatever a manuscript holds, the proof ends in a result or in placed problems, and both can be told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript import quantities
from plateset.manuscript.positions import Fault, read_yaml
from plateset.publishing.documents import makers

from tests.fuzz.amount import examples
from tests.fuzz.manuscripts import (
    HEADS,
    NOTES,
    PROGRAMS,
    SIGNS,
    SITES,
    as_yaml,
    changed,
    own_theme,
    prose,
    scalars,
    trees,
)
from tests.fuzz.trying import COUNTS, keep_counts, run, tried, written
from tests.publishing.building import BOOK, edition_of

FILES = (
    "site.yaml",
    "programs/lantern.yaml",
    "exercises/squat.md",
    "techniques/superset.md",
    "explainers/why-the-row.md",
)


@pytest.fixture(scope="module", autouse=True)
def _counted() -> Iterator[None]:
    yield
    keep_counts()


@examples(40)
@given(st.sampled_from(FILES), st.binary(max_size=400))
def test_any_bytes(name: str, data: bytes) -> None:
    run({name: data})


@examples(40)
@given(st.sampled_from(FILES), st.data())
def test_bytes_changed_in_a_sound_file(name: str, data: st.DataObject) -> None:
    sound = BOOK[name].encode()
    start = data.draw(st.integers(0, len(sound)))
    end = data.draw(st.integers(start, min(len(sound), start + 30)))
    run({name: sound[:start] + data.draw(st.binary(max_size=12)) + sound[end:]})


@examples(40)
@given(st.sampled_from(FILES), as_yaml(trees))
def test_any_tree(name: str, text: str) -> None:
    run({name: text if name.endswith(".yaml") else f"---\n{text}\n---\nProse.\n"})


@examples(80)
@given(as_yaml(changed(PROGRAMS)))
def test_a_program_with_changes(text: str) -> None:
    run({"programs/changed.yaml": text, **NOTES})


@examples(40)
@given(as_yaml(changed(SITES)))
def test_a_site_with_changes(text: str) -> None:
    run({"site.yaml": text})


@examples(40)
@given(st.sampled_from(sorted(HEADS)), st.data())
def test_a_note_with_changes(folder: str, data: st.DataObject) -> None:
    head = data.draw(as_yaml(changed(HEADS[folder])))
    ends = data.draw(st.sampled_from(["---\n", "--- \n", "----\n", "---", ""]))
    run({f"{folder}/changed.md": f"---\n{head}\n{ends}{data.draw(prose)}"})


@examples(40)
@given(st.sampled_from(["explainers/why-the-row.md", "exercises/squat.md", "techniques/superset.md"]), prose)
def test_any_prose(name: str, text: str) -> None:
    run({name: "---\n" + BOOK[name].split("---\n")[1] + "---\n" + text})


@examples(40)
@given(prose)
def test_any_prose_in_a_program(text: str) -> None:
    indented = "".join(f"  {line}\n" for line in text.split("\n"))
    run({"programs/tally.yaml": BOOK["programs/tally.yaml"] + f"text: |\n{indented}"})


@examples(40)
@given(
    st.sampled_from(["", "programs/", "exercises/", "techniques/", "explainers/", "theme/", "Programs/"]),
    st.text(st.characters(codec="utf-8", exclude_characters="/\x00"), min_size=1, max_size=40).filter(
        lambda name: name not in (".", "..") and len(name.encode()) < 200
    ),
    st.sampled_from(["", ".md", ".yaml", ".MD", ".yml"]),
)
def test_any_name_of_a_file(folder: str, name: str, ending: str) -> None:
    run({f"{folder}{name}{ending}": BOOK["exercises/row.md"]})


@examples(60)
@given(
    st.sampled_from(["words.en.po", "words.nb.po", "404.html", "macros.html", "paper/title.typ", "style.css"]),
    st.lists(st.one_of(own_theme, st.text(max_size=4), st.binary(max_size=3))),
)
def test_any_file_of_an_own_theme(name: str, pieces: list[str | bytes]) -> None:
    run({f"theme/{name}": b"".join(each if isinstance(each, bytes) else each.encode() for each in pieces)})


READERS = (
    quantities.read_mass, quantities.read_seconds, quantities.read_percent, quantities.read_range,
    quantities.read_reps, quantities.read_sets, quantities.read_effort, quantities.read_tempo, quantities.read_load,
    quantities.read_best,
)  # fmt: skip
_PIECES = st.sampled_from(
    [
        "kg",
        "lb",
        "%",
        "RIR",
        "RPE",
        "x",
        "-",
        "–",
        ".",
        ",",
        ":",
        " ",
        "to",
        "min",
        "s",
        "h",
        "bodyweight",
        "+",
        "X",
        "²",
        "٣",
    ]
)


@examples(400)
@given(
    st.sampled_from(READERS),
    st.one_of(scalars, st.lists(st.one_of(_PIECES, st.integers(0, 10**7).map(str)), max_size=9).map("".join)),
)
def test_any_quantity(read: object, value: object) -> None:
    assert callable(read)
    try:
        found = read(value)
    except quantities.QuantityError as error:
        told = (error.message, error.expected)
        assert all(told)
        return
    if isinstance(found, Decimal):
        assert 0 <= found < 10**7
    assert found == read(value)


@examples(300)
@given(
    st.lists(
        st.one_of(
            st.sampled_from([*SIGNS, "a: ", "- ", "{", "}", "? ", "!!", "&a ", "*a", "'", '"', "|\n", ">-\n", "%YAML"]),
            st.text(max_size=5),
        )
    ).map("".join)
)
def test_any_text_as_yaml(text: str) -> None:
    marked = read_yaml(text)
    assert marked.data is None or not marked.faults
    for fault in marked.faults:
        assert isinstance(fault, Fault)
        assert 1 <= fault.line <= text.count("\n") + 2
        assert fault.column >= 1


@examples(15)
@given(as_yaml(changed(PROGRAMS)))
def test_what_has_a_plan_can_be_made(text: str) -> None:
    """Every page and file of a program but those for paper, which take long."""
    with written({"programs/changed.yaml": text, **NOTES}) as folder:
        proofs = tried(folder)
        if isinstance(proofs, list):
            return
        COUNTS["made"] += 1
        edition = edition_of(folder, proofs, draft=True)
        for path, make in makers(replace(edition, weighed=False)):
            if path.startswith("programs/changed") and not path.endswith((".pdf", ".zip", ".png")):
                assert make()

"""A traced manuscript: nothing of a note is come by without its being noted."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import pytest
from plateset.manuscript import schema
from plateset.manuscript.files import Kind, Source
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document, load
from plateset.manuscript.questions import Question
from plateset.manuscript.tracing import OWN, Answers, Trace, Traced, head_digest, shared

EXERCISE = """\
---
name: Plank
muscles: {direct: [abs]}
movement: trunk
implement: bodyweight
cues: [Brace.]
---
Why the plank.
"""


def read(kind: Kind, slug: str, text: str) -> Document[Any]:
    document = load.__wrapped__(Source(kind, slug, f"book/{slug}", text, text))
    assert isinstance(document, Document)
    return document


@pytest.fixture
def plank() -> Document[schema.Exercise]:
    return read("exercise", "plank", EXERCISE)


@pytest.mark.parametrize("field", [each.name for each in fields(Document)])
def test_whatever_is_read_of_a_note_is_noted(field: str, plank: Document[schema.Exercise]) -> None:
    trace = Trace()
    document = Traced("exercise", {"plank": plank}, trace)["plank"]
    assert trace.questions == {("head", "exercise", "plank")}
    found = getattr(document, field)
    assert (("text", "exercise", "plank") in trace.questions) == (field != "head")
    assert found == (shared(plank.head) if field == "head" else getattr(plank, field))


def test_what_stands_in_a_note_is_all_its_text(plank: Document[schema.Exercise]) -> None:
    trace = Trace()
    place = Traced("exercise", {"plank": plank}, trace)["plank"].place(("name",))
    assert (place.line, ("text", "exercise", "plank") in trace.questions) == (2, True)


def test_a_note_that_is_not_there_was_asked_for(plank: Document[schema.Exercise]) -> None:
    trace = Trace()
    assert Traced("exercise", {"plank": plank}, trace).get("bridge") is None
    assert trace.questions == {("head", "exercise", "bridge")}


@pytest.mark.parametrize("model", OWN)
def test_what_is_a_note_s_own_is_among_its_keys(model: type[schema.Entry]) -> None:
    assert OWN[model] < set(model.model_fields)


def test_what_is_shared_lacks_what_is_the_note_s_own_and_has_all_else(plank: Document[schema.Exercise]) -> None:
    part = shared(plank.head)
    assert part is shared(plank.head)
    own = OWN[schema.Exercise]
    for name in set(schema.Exercise.model_fields) - own:
        assert getattr(part, name) == getattr(plank.head, name)
    for name in own:
        with pytest.raises(AttributeError):
            getattr(part, name)
    assert "cues" not in part.model_fields_set
    assert plank.head.cues == ("Brace.",)
    assert "cues" in plank.head.model_fields_set


QUESTIONS: dict[str, Question] = {"head": ("head", "exercise", "plank"), "text": ("text", "exercise", "plank")}


@pytest.mark.parametrize(
    ("old", "new", "changed"),
    [
        ("Why the plank.", "Why.", {"text"}),
        ("cues: [Brace.]", "cues: [Brace, then breathe.]", {"text"}),
        ("cues: [Brace.]\n", "# none\n", {"text"}),
        ("name: Plank", "name: Front plank", {"text", "head"}),
        ("direct: [abs]", "direct: [abs], indirect: [obliques]", {"text", "head"}),
        ("implement: bodyweight", "implement: bodyweight\nbodyweight share: 50 %", {"text", "head"}),
        ("implement: bodyweight", "implement: bodyweight\nbar: barbell", {"text", "head"}),
    ],
)
def test_an_answer_changes_with_what_was_asked_for(
    old: str, new: str, changed: set[str], plank: Document[schema.Exercise]
) -> None:
    assert old in EXERCISE
    other = read("exercise", "plank", EXERCISE.replace(old, new))
    before, after = _answers(plank), _answers(other)
    asked = [before.to(question) for question in QUESTIONS.values()]
    otherwise = after.other_than(asked)
    assert {name for name, question in QUESTIONS.items() if before.to(question) in otherwise} == changed
    assert before.other_than(asked) == set()


def test_a_head_is_told_from_that_of_another_kind_and_from_none(plank: Document[schema.Exercise]) -> None:
    answers = _answers(plank)
    assert answers.to(("head", "exercise", "plank")).text == head_digest(plank)
    assert answers.to(("head", "technique", "plank")).text == ""
    assert answers.to(("head", "exercise", "bridge")).text == ""


def _answers(plank: Document[schema.Exercise]) -> Answers:
    site = read("site", "site", "title: Tannery\nauthor: {name: Osla Brandt}\n")
    manuscript = Manuscript(site, {}, {"plank": plank}, {}, {})
    return Answers({("exercise", "plank"): plank.source.digest}, manuscript)

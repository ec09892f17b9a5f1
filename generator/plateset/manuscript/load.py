"""One source to one model, or the problems in the way, placed in the author's file."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from plateset.manuscript import schema
from plateset.manuscript.files import Kind, Source
from plateset.manuscript.hidden import behind
from plateset.manuscript.positions import MAX_CHARACTERS, Fault, Marked, Path, read_yaml
from plateset.manuscript.salvage import salvaged
from plateset.manuscript.wording import Finding, findings
from plateset.problems import Place, Problem

_END_OF_WORD = re.compile(r"\s*(?:[,}\]]|\s#|:(?:\s|$))")

M = TypeVar("M", bound=schema.Entry)

MODELS: dict[Kind, type[schema.Entry]] = {
    "site": schema.Site,
    "program": schema.Program,
    "exercise": schema.Exercise,
    "technique": schema.TechniqueNote,
    "explainer": schema.Explainer,
}


@dataclass(frozen=True)
class Document(Generic[M]):
    """A source that reads well: the model of its head, its Markdown body, and where everything stands."""

    source: Source
    head: M
    body: str
    body_line: int
    marked: Marked
    head_line: int

    @property
    def slug(self) -> str:
        """The name other files use for it."""
        return self.source.slug

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where the data at ``path`` is written."""
        line, column = self.marked.locate(path, key=key)
        line += self.head_line - 1
        excerpt = self.source.place(line, column).excerpt
        return self.source.place(line, column, _width(excerpt, column))


@dataclass(frozen=True)
class Misread:
    """A source with faults of its own: the problems and, where only its form is at fault, what is written in it.

    The head of ``written`` is empty; the keys and values stand in ``marked`` as the author wrote them. ``salvaged`` is
    what else can be judged of a program: see :mod:`plateset.manuscript.salvage`.
    """

    problems: tuple[Problem, ...]
    written: Document[schema.Entry] | None = None
    salvaged: Document[schema.Program] | None = None


@lru_cache(maxsize=4096)  # the same text reads the same; a preview reads every file at every save
def load(source: Source) -> Document[Any] | Misread:
    """Read the YAML of ``source`` and check it against the model of its kind."""
    head, body, head_line, body_line = _split(source)
    if head is None:
        expected = "a YAML head between two lines of ---, then Markdown"
        return Misread((Problem(source.place(1, 1), "the head does not start or does not end", expected),))
    for what, text in (("YAML", head), ("prose", body)):
        if len(text) > MAX_CHARACTERS:
            message = f"more than {MAX_CHARACTERS:,} characters of {what}"
            return Misread((Problem(Place(source.path), message, "a shorter file"),))
    bare = Document(source, schema.Entry(), body, body_line, read_yaml(head), head_line)
    faults = _not_a_mapping(bare)
    if faults:
        return Misread(tuple(faults))
    result, twice = _modelled(bare), tuple(_from_fault(source, each, head_line) for each in bare.marked.repeated)
    if not twice:
        return result
    if isinstance(result, Misread):
        return replace(result, problems=(*twice, *result.problems))
    return Misread(twice, bare, result if source.kind == "program" else None)


def _not_a_mapping(bare: Document[schema.Entry]) -> list[Problem]:
    if bare.marked.faults:
        return [_from_fault(bare.source, fault, bare.head_line) for fault in bare.marked.faults]
    expected = "keys and values, such as 'title: …'"
    if not bare.marked.values:
        return [Problem(Place(bare.source.path), "nothing but comments stands here", expected)]
    if not isinstance(bare.marked.data, dict):
        return [Problem(bare.place(()), "this is not a mapping", expected)]
    return []


def _modelled(bare: Document[schema.Entry]) -> Document[Any] | Misread:
    model = MODELS[bare.source.kind]
    try:
        head: schema.Entry = model.model_validate(bare.marked.data)
    except ValidationError as error:
        errors = filter(None, (error, behind(error, bare.marked.data, model)))
        problems = tuple(_from_finding(bare, finding) for finding in findings(errors, model))
        return Misread(problems, bare, _salvaged(bare, error) if bare.source.kind == "program" else None)
    return replace(bare, head=head)


def _salvaged(bare: Document[Any], error: ValidationError) -> Document[schema.Program] | None:
    left = salvaged(error, bare.marked.data)
    return left and replace(bare, head=left[1], marked=replace(bare.marked, data=left[0]))


def _split(source: Source) -> tuple[str | None, str, int, int]:
    """Head, body, and the lines they start on. A pure YAML file is all head."""
    if source.kind in ("site", "program"):
        return source.text, "", 1, 1
    lines = source.lines
    fences = [index for index, line in enumerate(lines) if line.rstrip() == "---"][:2]
    if len(fences) < 2 or fences[0] != 0:
        return None, "", 1, 1
    end = fences[1]
    return "\n".join(lines[1:end]) + "\n", "\n".join(lines[end + 1 :]), 2, end + 2


def _from_fault(source: Source, fault: Fault, head_line: int) -> Problem:
    place = source.place(fault.line + head_line - 1, fault.column)
    return Problem(place, fault.message, fault.expected)


def _from_finding(document: Document[schema.Entry], finding: Finding) -> Problem:
    place = document.place(finding.path, key=finding.at_key)
    return Problem(place, finding.message, finding.expected, finding.nearest)


def _width(excerpt: str, column: int) -> int:
    """How many characters to point at: the word, quoted text, number or brackets that start at ``column``."""
    rest = excerpt[column - 1 :].rstrip()
    if rest[:1] in ("'", '"'):
        end = rest.find(rest[0], 1)
        return end + 1 if end > 0 else len(rest)
    if rest[:1] in ("[", "{"):
        return _bracketed(rest)
    end_of_word = _END_OF_WORD.search(rest)
    return max(1, end_of_word.start() if end_of_word else len(rest))


def _bracketed(text: str) -> int:
    """How far the bracket that ``text`` starts with reaches, at most to the end of the line."""
    depth = 0
    for index, character in enumerate(text):
        depth += (character in "[{") - (character in "]}")
        if not depth:
            return index + 1
    return len(text)

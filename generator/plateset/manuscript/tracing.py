"""A manuscript that notes what is asked of it, so that what was made from it can be told apart from what was not.

A dependency that is noted as it is read cannot be forgotten: whoever is handed a traced manuscript comes by nothing of
a note but by asking. An answer is told by a short text: the digest of a file, or of the part of its head that others
may take, or nothing where there is no such file.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

from plateset.digests import digest_of
from plateset.manuscript.files import Kind, Source
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document
from plateset.manuscript.positions import Marked
from plateset.manuscript.questions import Answer, Asked, Question
from plateset.manuscript.schema import Entry, Exercise, Explainer, TechniqueNote
from plateset.remembering import Remembered

M = TypeVar("M", bound=Entry)

OWN: Mapping[type[Entry], frozenset[str]] = {
    Exercise: frozenset({"also_called", "set_up", "cues", "faults", "video"}),
    TechniqueNote: frozenset({"suits", "does_not_suit"}),
    Explainer: frozenset({"date", "programs", "muscles"}),
}
"""What of a head is for the note's own page and the site's lists, and for no program."""

_SHARED: Remembered[Any] = Remembered(4096)


def shared(head: M) -> M:
    """What others may take of a note's head: the same without what is its own, which it then has no attribute for.

    The same object for the same head, so that what is kept by a head stays found.
    """
    return _SHARED.get((head,), lambda: _without(head, OWN.get(type(head), frozenset())))  # type: ignore[no-any-return]


def _without(head: M, own: frozenset[str]) -> M:
    part = head.model_copy()
    for name in own:
        del part.__dict__[name]
    part.model_fields_set.difference_update(own)
    return part


class Trace:
    """The questions asked so far."""

    def __init__(self) -> None:
        self.questions: set[Question] = set()

    def note(self, asked: Asked, kind: Kind, name: str = "") -> None:
        """Note one."""
        self.questions.add((asked, kind, name))


class TracedDocument(Document[M]):
    """A note of which others take what they share of its head; whatever else they read of it counts as all its text."""

    def __init__(self, document: Document[M], trace: Trace) -> None:
        self._untraced, self._trace, self._source = document, trace, document.source

    @property
    def slug(self) -> str:
        """The name it was asked for by."""
        return self._source.slug

    @cached_property
    def head(self) -> M:  # asked for at every turn
        """What others may take of it."""
        self._trace.note("head", self._source.kind, self._source.slug)
        return shared(self._untraced.head)

    @property
    def source(self) -> Source:
        """Its file."""
        return self._whole.source

    @property
    def body(self) -> str:
        """Its prose."""
        return self._whole.body

    @property
    def body_line(self) -> int:
        """The line its prose starts on."""
        return self._whole.body_line

    @property
    def marked(self) -> Marked:
        """Its head as written."""
        return self._whole.marked

    @property
    def head_line(self) -> int:
        """The line its head starts on."""
        return self._whole.head_line

    @property
    def _whole(self) -> Document[M]:
        self._trace.note("text", self._source.kind, self._source.slug)
        return self._untraced


class Traced(Mapping[str, Document[M]]):
    """The documents of one kind, noting which are looked up and what is read of them."""

    def __init__(self, kind: Kind, documents: Mapping[str, Document[M]], trace: Trace) -> None:
        self._kind, self._documents, self._trace = kind, documents, trace
        self._looked_up: dict[str, Document[M]] = {}

    def __getitem__(self, name: str) -> Document[M]:
        found = self._looked_up.get(name)
        if found is None:
            self._trace.note("head", self._kind, name)  # even if nothing is read of it: that it is there was asked
            found = self._looked_up[name] = TracedDocument(self._documents[name], self._trace)
        return found

    def __contains__(self, name: object) -> bool:
        self._trace.note("name", self._kind, str(name))
        return name in self._documents

    def __iter__(self) -> Iterator[str]:
        self._trace.note("names", self._kind)
        return iter(self._documents)

    def __len__(self) -> int:
        self._trace.note("names", self._kind)
        return len(self._documents)


class LookedUp(Traced[M]):
    """Documents that are there to be looked up by name, and not laid out to be gone through."""

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 0


class TracedNames(Set[str]):
    """The names of the files of one kind, noting which are asked for."""

    def __init__(self, kind: Kind, names: Set[str], trace: Trace) -> None:
        self._kind, self._names, self._trace = kind, names, trace

    def __contains__(self, name: object) -> bool:
        self._trace.note("name", self._kind, str(name))
        return name in self._names

    def __iter__(self) -> Iterator[str]:
        self._trace.note("names", self._kind)
        return iter(self._names)

    def __len__(self) -> int:
        self._trace.note("names", self._kind)
        return len(self._names)


class Heads(Mapping[str, M]):
    """The heads of documents, each looked up when it is asked for."""

    def __init__(self, documents: Mapping[str, Document[M]]) -> None:
        self._documents = documents

    def __getitem__(self, name: str) -> M:
        return self._documents[name].head

    def __contains__(self, name: object) -> bool:
        return name in self._documents

    def __iter__(self) -> Iterator[str]:
        return iter(self._documents)

    def __len__(self) -> int:
        return len(self._documents)


@dataclass(frozen=True)
class TracedManuscript(Manuscript):
    """A manuscript whose notes are traced. Its site is handed over whole, which who makes one has to note."""

    trace: Trace
    named: Mapping[str, tuple[str, ...]]
    """The explainers that name a program."""

    def explainers_on(self, program: str) -> tuple[Document[Explainer], ...]:
        """The explainers that name a program; which they are is one question, what is read of each another."""
        self.trace.note("explainers on", "explainer", program)
        return tuple(self.explainers[name] for name in self.named.get(program, ()))


def explainers_by_program(explainers: Mapping[str, Document[Explainer]]) -> dict[str, tuple[str, ...]]:
    """The names of the explainers that name each program, in order."""
    named: dict[str, tuple[str, ...]] = {}
    for slug, document in sorted(explainers.items()):
        for program in dict.fromkeys(document.head.programs):
            named[program] = (*named.get(program, ()), slug)
    return named


class Answers:
    """What a manuscript's files answer today, each by its digest; its notes need to have been read."""

    def __init__(self, digests: Mapping[tuple[str, str], str], manuscript: Manuscript) -> None:
        self._digests = digests
        self._notes: dict[str, Mapping[str, Document[Any]]] = {
            "exercise": manuscript.exercises,
            "technique": manuscript.techniques,
            "explainer": manuscript.explainers,
        }
        self._named = explainers_by_program(manuscript.explainers)
        self._known: dict[Question, Answer] = {}

    def to(self, question: Question) -> Answer:
        """The answer to a question, looked for once."""
        if question not in self._known:
            self._known[question] = Answer(question, self._answer(question))
        return self._known[question]

    def other_than(self, answers: Iterable[Answer]) -> set[Answer]:
        """Those of some answers that are not given any more."""
        return {each for each in answers if self.to(each.question).text != each.text}

    def _answer(self, question: Question) -> str:
        asked, kind, name = question
        if asked == "text":
            return self._digests.get((kind, name), "")
        if asked == "head":
            return head_digest(self._notes[kind][name]) if name in self._notes[kind] else ""
        if asked == "name":
            return "there" if (kind, name) in self._digests else ""
        if asked == "names":
            return digest_of(sorted(known for of, known in self._digests if of == kind))
        return digest_of(self._named.get(name, ()))


def head_digest(document: Document[Any]) -> str:
    """The digest of what others may take of a note's head."""
    part = shared(document.head)
    return digest_of((part, sorted(part.model_fields_set)))

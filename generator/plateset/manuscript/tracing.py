"""A manuscript that notes what is asked of it, so that what was made from it can be told apart from what was not.

A dependency that is noted as it is read cannot be forgotten. An answer is told by a short text: the digest of a file,
or nothing where there is no such file.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from typing import Any, Literal, TypeVar

from plateset.manuscript.files import Kind
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document
from plateset.manuscript.schema import Entry, Explainer

Asked = Literal["text", "name", "names", "explainers on"]
Question = tuple[Asked, str, str]
"""What was asked: a file's text, whether there is a file, which files there are, or which explainers name a program;
of which kind of file; and its name, empty where all are meant."""

M = TypeVar("M", bound=Entry)
V = TypeVar("V")


class Trace:
    """The questions asked so far."""

    def __init__(self) -> None:
        self.questions: set[Question] = set()

    def note(self, asked: Asked, kind: Kind, name: str = "") -> None:
        """Note one."""
        self.questions.add((asked, kind, name))


class Traced(Mapping[str, Document[M]]):
    """The documents of one kind, noting which are looked up."""

    def __init__(self, kind: Kind, documents: Mapping[str, Document[M]], trace: Trace) -> None:
        self._kind, self._documents, self._trace = kind, documents, trace

    @property
    def plain(self) -> Mapping[str, Document[M]]:
        """The same without noting."""
        return self._documents

    def __getitem__(self, name: str) -> Document[M]:
        self._trace.note("text", self._kind, name)
        return self._documents[name]

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
    """A manuscript whose documents are traced."""

    trace: Trace

    def explainers_on(self, program: str) -> tuple[Document[Explainer], ...]:
        """The explainers that name a program; which they are is one question."""
        self.trace.note("explainers on", "explainer", program)
        return self.untraced.explainers_on(program)

    @property
    def untraced(self) -> Manuscript:
        """The same without noting."""
        explainers = self.explainers
        return Manuscript(
            self.site,
            self.programs,
            self.exercises,
            self.techniques,
            explainers.plain if isinstance(explainers, Traced) else explainers,
        )


class Answers:
    """What a manuscript's files answer today, each by its digest; ``explainers`` need to have been read."""

    def __init__(self, digests: Mapping[tuple[str, str], str], explainers: Mapping[str, Document[Any]]) -> None:
        self._digests = digests
        self._explainers = explainers
        self._known: dict[Question, str] = {}

    def to(self, question: Question) -> str:
        """The answer to a question, looked for once."""
        if question not in self._known:
            self._known[question] = self._answer(question)
        return self._known[question]

    def _answer(self, question: Question) -> str:
        asked, kind, name = question
        if asked == "text":
            return self._digests.get((kind, name), "")
        if asked == "name":
            return "there" if (kind, name) in self._digests else ""
        if asked == "names":
            return digest_of(sorted(known for of, known in self._digests if of == kind))
        found = sorted(self._explainers.items())
        return digest_of([(slug, d.head.title, d.head.summary) for slug, d in found if name in d.head.programs])


def digest_of(value: object) -> str:
    """The digest of a value by its written form, which equal values of records, texts and numbers share."""
    return hashlib.sha256(repr(value).encode("utf-8", "surrogatepass")).hexdigest()

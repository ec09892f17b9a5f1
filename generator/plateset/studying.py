"""One program at a time: study it (check it, plan it, prove it); ``program_making.py`` makes its files.

Both are work for a process of its own, which keeps nothing of one program when it goes on to the next. What they share
lies in the bench's ``work`` folder: the notes they are studied with, and between the two the program as studied.
"""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial
from pathlib import Path
from typing import Any

from plateset.manuscript import schema
from plateset.manuscript.checks import check
from plateset.manuscript.desk import Desk, lifts
from plateset.manuscript.files import FOLDERS, Kind, Source, read_source
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document, load
from plateset.manuscript.questions import Question
from plateset.manuscript.tracing import (
    Answers,
    Heads,
    LookedUp,
    Trace,
    Traced,
    TracedManuscript,
    TracedNames,
    explainers_by_program,
)
from plateset.own_theme import own_theme_problems
from plateset.placed_marks import PlacedMark
from plateset.problems import Problem
from plateset.prose_figures import contradicted
from plateset.proving import has_logo, prove_program
from plateset.publishing.bench import PressError
from plateset.publishing.making import Hand
from plateset.publishing.program_view import Program
from plateset.publishing.theme import Theme, find_theme
from plateset.publishing.views import SiteView
from plateset.shipped import shipped
from plateset.training.expand import plan_program
from plateset.training.marks.tally import Tally
from plateset.training.plan import Plan


@dataclass(frozen=True)
class Ground:
    """What every program is studied with: the site and the notes as read, and the name and digest of every file."""

    folder: Path
    shown_as: str
    sources: tuple[Source, ...]
    names: Mapping[Kind, frozenset[str]]
    digests: Mapping[tuple[str, str], str]
    themes: str
    """The digest of every theme, so that a ground is of one theme."""


@dataclass(frozen=True)
class Study:
    """What came of studying a program. ``questions`` are those that were asked so far; its pages may ask more."""

    slug: str
    title: str
    problems: tuple[Problem, ...]
    tally: Tally
    questions: frozenset[Question]


@dataclass(frozen=True)
class Order:
    """A program to make. ``asked`` is what was asked when it was studied."""

    ground: Path
    slug: str
    asked: frozenset[Question]
    site: SiteView
    tools: tuple[str, str]
    hand: Hand


class Shelf:
    """The site and the notes, read once."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        documents: dict[Kind, dict[str, Document[Any]]] = {"site": {}, **{kind: {} for kind, _ in FOLDERS.values()}}
        self.problems: list[Problem] = []
        for source in ground.sources:
            result = load(source)
            if isinstance(result, Document):
                documents[source.kind][source.slug] = result
            else:
                self.problems.extend(result.problems)
        self.site: Document[schema.Site] | None = documents["site"].get("site")
        self._documents = documents

    @cached_property
    def theme(self) -> Theme:
        """The site's theme. Raises :class:`ThemeError`."""
        return find_theme(self.manuscript.site.head.theme, self.ground.folder, shipped("themes"))

    @property
    def has_theme(self) -> bool:
        """Whether the site's theme is there, the logo too, and nothing is wrong with the manuscript's own files."""
        head, folder = self.manuscript.site.head, self.ground.folder
        theme = shipped("themes") / head.theme
        if not theme.is_dir() or any(own_theme_problems(folder, self.ground.shown_as, theme)):
            return False
        return head.logo is None or has_logo(folder, head.logo)

    @property
    def manuscript(self) -> Manuscript:
        """The site and the notes, without programs."""
        assert self.site is not None, "a site that cannot be read stops the press before"
        of = self._documents
        return Manuscript(self.site, {}, of["exercise"], of["technique"], of["explainer"])

    def desk(self) -> Desk:
        """The notes laid out to be checked; the programs are checked one by one."""
        of = self._documents
        head = self.site.head if self.site else None
        return Desk(head, {}, of["exercise"], of["technique"], of["explainer"], self.ground.names, self.site)

    def traced(self, trace: Trace) -> TracedManuscript:
        """The same, noting what is asked of it."""
        plain = self.manuscript
        trace.note("text", "site", "site")
        return TracedManuscript(
            plain.site,
            {},
            Traced("exercise", plain.exercises, trace),
            Traced("technique", plain.techniques, trace),
            Traced("explainer", plain.explainers, trace),
            trace,
            self._explainers_by_program,
        )

    @cached_property
    def answers(self) -> Answers:
        """What the files answer that all of it was read from."""
        return Answers(self.ground.digests, self.manuscript)

    @cached_property
    def _explainers_by_program(self) -> Mapping[str, tuple[str, ...]]:
        return explainers_by_program(self.manuscript.explainers)


@lru_cache(maxsize=1)
def shelf_of(ground: Path) -> Shelf:
    """The shelf of a press, read by each process once."""
    return Shelf(pickle.loads(ground.read_bytes()))


def lay_ground(work: Path, ground: Ground) -> Path:
    """Put down what every program is studied with, for processes to find; its name tells what it holds."""
    data = pickle.dumps(ground)
    place = work / f"{hashlib.sha256(data).hexdigest()[:24]}.ground"
    place.write_bytes(data)
    return place


class Plans(Mapping[str, Plan]):
    """The plans of programs, each worked out when it is asked for; those of ``known`` documents are read already."""

    def __init__(
        self,
        shelf: Shelf,
        trace: Trace,
        known: Mapping[str, Document[schema.Program]] | None = None,
        plans: Mapping[str, Plan] | None = None,
    ) -> None:
        self._shelf = shelf
        self._trace = trace
        self._documents = dict(known or {})
        self._plans = dict(plans or {})
        self._exercises = LookedUp("exercise", shelf.manuscript.exercises, trace)

    def __getitem__(self, slug: str) -> Plan:
        if slug not in self._plans:
            document = self._documents.get(slug) or self._read(slug)
            self._plans[slug] = self.planner(document)(document.head)
        return self._plans[slug]

    def __contains__(self, slug: object) -> bool:
        self._trace.note("name", "program", str(slug))
        return slug in self._shelf.ground.names["program"]

    def __iter__(self) -> Iterator[str]:
        self._trace.note("names", "program")
        return iter(sorted(self._shelf.ground.names["program"]))

    def __len__(self) -> int:
        return len(self._shelf.ground.names["program"])

    def planner(self, document: Document[schema.Program]) -> partial[Plan]:
        """What plans a program, and changed versions of it, with the exercises it names."""
        named = {lift.exercise for _, lift in lifts(document)} | set(document.head.example_lifter.bests)
        heads = {name: self._exercises[name].head for name in sorted(named)}
        return partial(plan_program, document.slug, site=self._shelf.manuscript.site.head, exercises=heads)

    def _read(self, slug: str) -> Document[schema.Program]:
        """Another program, because a text names one of its figures."""
        self._trace.note("text", "program", slug)
        ground = self._shelf.ground
        path = ground.folder / "programs" / f"{slug}.yaml"
        source = read_source(path, f"{ground.shown_as}/programs/{path.name}", "program")
        if isinstance(source, Problem) or source.digest != ground.digests.get(("program", slug)):
            raise PressError(f"programs/{slug}.yaml changed while pressing; nothing was replaced. Press again")
        result = load.__wrapped__(source)
        problems = _problems(result, self._shelf, self._trace) if isinstance(result, Document) else result.problems
        if not isinstance(result, Document) or problems:
            raise ProblemsError(problems)  # it cannot be planned, or not as its author means
        return result


class ProblemsError(Exception):
    """A program that was asked for has problems of its own."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(self.problems)


def study(ground: Path, source: Source) -> Study:
    """Check, plan and prove one program, and put it down for who makes its files."""
    try:
        with AtWork(ground.parent, source.slug) as at_work_on:
            at_work_on.on(f"programs/{source.slug}.yaml")
            return _study(ground, source)
    except ProblemsError as error:
        return Study(source.slug, "", error.problems, Tally(), frozenset())


def _study(ground: Path, source: Source) -> Study:
    shelf, trace = shelf_of(ground), Trace()
    trace.note("text", "program", source.slug)
    document = load.__wrapped__(source)  # not to be remembered: nothing of this program is needed again
    if not isinstance(document, Document):
        raise ProblemsError(document.problems)
    manuscript = shelf.traced(trace)
    problems = _problems(document, shelf, trace)
    if problems:
        raise ProblemsError(problems)
    plans = Plans(shelf, trace, {source.slug: document})
    plan = plans[source.slug]
    marks = contradicted(document, plans, problems)
    if problems:
        raise ProblemsError(problems)
    techniques = Heads(manuscript.techniques)
    proof = prove_program(plan, plans.planner(document), document, manuscript.site.head, techniques)
    program = Program(plan, proof.volume, proof.by_weekday)
    studied_at(ground, source.slug).write_bytes(pickle.dumps(program))
    title = document.head.title
    return Study(source.slug, title, (), tally_of((*proof.marks, *marks)), frozenset(trace.questions))


def studied_at(ground: Path, slug: str) -> Path:
    """Where a program lies once it was studied, until its files are made."""
    return ground.parent / f"{slug}.studied"


def _problems(document: Document[schema.Program], shelf: Shelf, trace: Trace) -> list[Problem]:
    """What is wrong with a program beside the notes; those are checked by themselves."""
    plain, names = shelf.manuscript, shelf.ground.names
    desk = Desk(
        plain.site.head,
        {document.slug: document},
        LookedUp("exercise", plain.exercises, trace),
        LookedUp("technique", plain.techniques, trace),
        LookedUp("explainer", plain.explainers, trace),
        {kind: TracedNames(kind, known, trace) for kind, known in names.items()},
    )
    return list(check(desk))


def tally_of(marks: tuple[PlacedMark, ...]) -> Tally:
    """How many there are of each kind."""
    standing = [each.mark.severity for each in marks if not each.mark.accepted]
    accepted = sum(bool(each.mark.accepted) for each in marks)
    return Tally(standing.count("stop"), standing.count("query"), standing.count("note"), accepted)


class AtWork:
    """Notes what is being made of a program, for the case that the process making it does not live to say so."""

    def __init__(self, work: Path, slug: str) -> None:
        self._place = (work / slug).with_suffix(".doing")
        self._file = self._place.open("wb", buffering=0)

    def on(self, path: str) -> None:
        """What is being made now."""
        self._file.seek(0)
        self._file.write(f"{path}\n".encode())

    def __enter__(self) -> AtWork:
        return self

    def __exit__(self, kind: type[BaseException] | None, *rest: object) -> None:
        """Nothing is being made any more; where it failed, the note stays."""
        self._file.close()
        if kind is None:
            self._place.unlink()


def at_work(work: Path) -> list[str]:
    """What was being made, by every process that did not finish."""
    return sorted(path.read_text("utf-8").partition("\n")[0] for path in work.glob("*.doing"))

"""One run of the press: which programs are as they were, study and make the others, then the rest of the site."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Executor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn, TypeVar

from plateset.chart_library import chart_script
from plateset.digests import digest_of
from plateset.manuscript.checks import check
from plateset.manuscript.files import Source
from plateset.manuscript.load import Document
from plateset.manuscript.questions import Answer, Question
from plateset.manuscript.tracing import Answers, Trace
from plateset.press_terms import Options, Pressed, RefusedError
from plateset.problems import Problem
from plateset.prose_figures import contradicted
from plateset.proving import marks_on_looks, proof
from plateset.publishing.bench import Bench, PressError
from plateset.publishing.cards import card_in, card_record
from plateset.publishing.contents import shelves
from plateset.publishing.ledger import Answered, Filed, FileRecord, Ledger, ProgramRecord, Record
from plateset.publishing.ledger_file import write_ledger
from plateset.publishing.making import Hand, Made
from plateset.publishing.marker import Entry
from plateset.publishing.site_products import site_products
from plateset.publishing.spare import put_by, sweep, take_out
from plateset.publishing.studio import Studio, site_view_of, studio_of
from plateset.publishing.theme import CARD
from plateset.publishing.wholeness import numbers_of_whole
from plateset.stocktaking import Stock, changed_since, tool_digest, typesetter_digest
from plateset.studying import (
    Ground,
    Order,
    Plans,
    ProblemsError,
    Shelf,
    Study,
    at_work,
    lay_ground,
    shelf_of,
    study,
    tally_of,
)
from plateset.thrift import cores, rarely_collected
from plateset.training.figures import figure
from plateset.training.marks.tally import Tally

R = TypeVar("R")

MAKING = "plateset.program_making"
"""Loaded where there is a program to make: a note's edit does not wait for what sets sheets and fills workbooks."""

WORKERS = "plateset.workers"
"""Loaded where there is work for several processes."""

FEW = 3
"""Up to so many programs are made here: starting workers would take longer."""


@dataclass(frozen=True)
class Laid:
    """What a run works with, once the notes read well. ``trace`` notes what the texts of the site ask of programs.

    ``otherwise`` is what was answered at the press before and is not any more.
    """

    ground: Path
    shelf: Shelf
    otherwise: set[Answer]
    plans: Plans
    trace: Trace
    studio: Studio


class PressRun:
    """The way of one manuscript over the bench."""

    def __init__(self, folder: Path, shown_as: str, bench: Bench, options: Options) -> None:
        self.folder, self.shown_as, self.bench, self.options = folder, shown_as, bench, options
        self._made: list[tuple[str, str]] = []
        self._staying: dict[str, int] = {}

    def run(self, stock: Stock, ledger: Ledger | None) -> Pressed:
        """Press what was found in ``stock``; ``ledger`` tells of the site there is."""
        try:
            with rarely_collected():
                return self._run(stock, ledger)
        except ProblemsError:
            self._tell_problems()

    def _run(self, stock: Stock, ledger: Ledger | None) -> Pressed:
        ground = self._lay(stock)
        shelf, trace = shelf_of(ground), Trace()
        plans = Plans(shelf, trace)
        prose = self._prose(shelf, plans)
        language = shelf.theme.language(shelf.manuscript.site.head.language)
        site = site_view_of(shelf.manuscript, partial(figure, plans=plans), language, draft=self.options.as_draft)
        studio = studio_of(shelf.manuscript, shelf.theme, site, tool_digest(), typesetter_digest())
        otherwise = shelf.answers.other_than(ledger.answers) if ledger else set()
        laid = Laid(ground, shelf, otherwise, plans, trace, studio)
        programs = self._programs(stock, ledger.programs if ledger else {}, laid, prose)
        of_site = self._site(stock, ledger.site if ledger else None, laid, prose, programs)
        pressed = self._finish(stock, of_site, programs)
        self._put_by(ledger)
        return pressed

    def _lay(self, stock: Stock) -> Path:
        """The site and the notes put down for the workers, once they read well."""
        notes = tuple(source for source in stock.sources if source.kind != "program")
        if stock.problems or not any(source.kind == "site" for source in notes):
            self._tell_problems()
        themes = digest_of([stock.everything["the manuscript's theme"], stock.everything["the shipped themes"]])
        ground = Ground(self.folder.resolve(), self.shown_as, notes, stock.names, stock.digests, themes)
        place = lay_ground(self.bench.work, ground)
        shelf = shelf_of(place)
        if shelf.problems or list(check(shelf.desk())) or not shelf.has_theme:
            self._tell_problems()
        return place

    def _prose(self, shelf: Shelf, plans: Plans) -> Tally:
        """The marks on the notes, the front page and the looks."""
        manuscript, problems = shelf.manuscript, list[Problem]()
        groups: tuple[Mapping[str, Document[Any]], ...] = (
            {"site": manuscript.site},
            manuscript.exercises,
            manuscript.techniques,
            manuscript.explainers,
        )
        notes = (document for group in groups for _, document in sorted(group.items()))
        on_notes = [mark for note in notes for mark in contradicted(note, plans, problems)]
        tally = tally_of((*marks_on_looks(manuscript.site, self.folder, self.shown_as), *on_notes))
        if problems:
            raise ProblemsError(problems)
        return tally

    def _site(
        self, stock: Stock, before: Record | None, laid: Laid, prose: Tally, programs: Mapping[str, ProgramRecord]
    ) -> Record:
        """The record of the site but its programs, its files on the bench: taken over, or looked at one by one."""
        base = _site_ground(stock, programs)
        if before is not None and before.ground == base and self._is_fresh(before, laid.otherwise):
            self._take_over(before)
            return before
        cards = {slug: card_in(record.card) for slug, record in sorted(programs.items())}
        manuscript, studio = laid.shelf.manuscript, laid.studio
        views = shelves(manuscript, partial(figure, plans=laid.plans), cards, studio.language)
        studio.know(views.programs, digest_of(_cards(programs)))
        hand = self._hand(before)
        files = [
            self._enter(hand.make(product.path, product.parts(), product.make))
            for product in site_products(studio, views, manuscript.site.head, chart_script)
        ]
        return Record(_asked(laid.trace.questions, laid.shelf.answers), prose, base, Filed.of(files))

    def _programs(
        self, stock: Stock, before: Mapping[str, ProgramRecord], laid: Laid, prose: Tally
    ) -> dict[str, ProgramRecord]:
        """Every program's record, its files on the bench: taken over, or made."""
        base = _ground_digest(laid.studio)
        sources = [source for source in stock.sources if source.kind == "program"]
        fresh = {
            source.slug: record
            for source in sources
            if (record := before.get(source.slug)) and record.ground == base and self._is_fresh(record, laid.otherwise)
        }
        stale = [source for source in sources if source.slug not in fresh]
        with self._executor(len(stale)) as executor:
            studies = self._study(stale, laid.ground, executor)
            self._refuse_stopped([prose, *(each.tally for each in studies.values())])
            if self.options.kept is None:
                self.bench.links |= take_out(self.bench.target, self.bench.site, self._staying)
            for record in fresh.values():
                self._take_over(record)
            orders = [
                (
                    f"Setting {each.title}",
                    partial(import_module(MAKING).make, self._order(each, before.get(each.slug), laid)),
                )
                for _, each in sorted(studies.items())
            ]
            records = dict(fresh)
            for made in self._each(executor, orders):
                files = Filed.of([self._enter(each) for each in made.files])
                asked, tally = _asked(made.questions, laid.shelf.answers), studies[made.slug].tally
                records[made.slug] = ProgramRecord(asked, tally, base, files, card_record(made.card))
        return dict(sorted(records.items()))

    def _is_fresh(self, record: Record, otherwise: set[Answer]) -> bool:
        """Whether nothing that was asked is answered otherwise, and every file is still there whole."""
        if not otherwise.isdisjoint(record.answers):
            return False
        whole = numbers_of_whole(self.bench.target, record.files.rows)
        if len(whole) < len(record.files.rows):
            return False
        self._staying |= whole
        return True

    def _study(self, stale: Sequence[Source], ground: Path, executor: Executor | None) -> dict[str, Study]:
        tasks = [(f"Studying {source.slug}", partial(study, ground, source)) for source in stale]
        studies = {each.slug: each for each in self._each(executor, tasks)}
        if any(each.problems for each in studies.values()):
            self._tell_problems()
        return studies

    def _order(self, of: Study, before: ProgramRecord | None, laid: Laid) -> Order:
        because = _changed(before.answers, laid.shelf.answers) if before else ""
        hand, studio = replace(self._hand(before), because=because), laid.studio
        return Order(laid.ground, of.slug, of.questions, studio.site, (studio.tool, studio.typesetter), hand)

    def _each(self, executor: Executor | None, tasks: Sequence[tuple[str, Callable[[], R]]]) -> Iterator[R]:
        """What comes of each task; its words are told before it is done here, or how many are done elsewhere."""
        told, count = self.options.told, len(tasks)
        if executor is None:
            for number, (words, task) in enumerate(tasks, start=1):
                told(f"{words}, {number} of {count}")
                yield task()
            return
        done = import_module(WORKERS).each_done(
            executor, [task for _, task in tasks], partial(at_work, self.bench.work)
        )
        for number, result in enumerate(done, start=1):
            told(f"{tasks[0][0].partition(' ')[0]} programs, {number} of {count} done")
            yield result

    @contextmanager
    def _executor(self, programs: int) -> Iterator[Executor | None]:
        jobs = self.options.jobs or cores()
        if self.options.executor is not None:
            yield self.options.executor
        elif jobs > 1 and programs > FEW:
            with import_module(WORKERS).workers(min(jobs, programs)) as executor:
                yield executor
        else:
            yield None

    def _refuse_stopped(self, tallies: Sequence[Tally]) -> None:
        if any(tally.stop for tally in tallies) and not self.options.as_draft:
            raise RefusedError(proof(self.folder, self.shown_as))

    def _tell_problems(self) -> NoReturn:
        """The whole manuscript is read again, so that every problem is told, in the order an author expects."""
        proof(self.folder, self.shown_as)
        raise PressError(f"{self.shown_as} changed while pressing; nothing was replaced. Press again")

    def _hand(self, before: Record | None) -> Hand:
        known = before.files.records if before else {}
        return Hand(self.bench.site, self.bench.target, known, linked=self.options.kept is None)

    def _enter(self, made: Made) -> FileRecord:
        self.bench.enter(made.record.entry)
        if made.why:
            self.options.told(f"Writing {made.record.entry.path}")
            self._made.append((made.record.entry.path, made.why))
        return made.record

    def _take_over(self, record: Record) -> None:
        self.bench.take_over(map(Entry._make, (row[:3] for row in record.files.rows)), linked=self.options.kept is None)

    def _put_by(self, ledger: Ledger | None) -> None:
        """Keep what the site before shares with this one for the next press."""
        sweep(self.bench.target)
        if ledger and self.bench.links and self.bench.former.exists():
            put_by(self.bench.former, self.bench.target, ledger.paths - self.bench.links)

    def _finish(self, stock: Stock, site: Record, programs: Mapping[str, ProgramRecord]) -> Pressed:
        """Look once more at what the site was made from, then put it in place and keep the ledger."""
        meanwhile = self._changed_meanwhile(stock)
        was_kept = self.bench.finish(self.options.kept)
        target = self.bench.target
        kept = Ledger(stock.everything, site, programs)
        write_ledger(kept, target)
        files = len(self.bench.entries)
        return Pressed(kept.tally, len(programs), files, tuple(sorted(self._made)), kept=was_kept, meanwhile=meanwhile)

    def _changed_meanwhile(self, stock: Stock) -> tuple[str, ...]:
        """The site shows the manuscript as it was at first; of a theme it could show two states, so that stops it."""
        changed = changed_since(stock, self.folder, self.shown_as, draft=self.options.as_draft)
        if any("theme" in name for name in changed if name.startswith("the ")):
            raise PressError("the theme changed while pressing; nothing was replaced. Press again")
        return tuple(changed)


def _ground_digest(studio: Studio) -> str:
    """What every program's files are made from besides the manuscript."""
    pages = [studio.pages.digest_of(name) for name in ("program.html", "week.html")]
    return digest_of((sorted({**studio.common, **studio.on_paper}.items()), pages, studio.theme.digest(CARD)))


def _site_ground(stock: Stock, programs: Mapping[str, ProgramRecord]) -> str:
    """What all of the site but its programs is made from, besides what its texts ask of programs."""
    return digest_of((sorted(stock.beside_programs.items()), _cards(programs)))


def _cards(programs: Mapping[str, ProgramRecord]) -> list[tuple[str, str]]:
    """The digest of each program's card."""
    return [(slug, record.card.digest) for slug, record in sorted(programs.items())]


def _asked(questions: Iterable[Question], answers: Answers) -> Answered:
    return tuple(map(answers.to, sorted(questions)))


def _changed(answered: Answered, answers: Answers) -> str:
    """In words, what has changed of all that was asked for; empty if nothing has."""
    found = sorted(_words(each.question) for each in answers.other_than(answered))
    return "; ".join(dict.fromkeys(found))


def _words(question: Question) -> str:
    asked, kind, name = question
    if kind == "site":
        return "site.yaml changed"
    if asked == "explainers on":
        return "other explainers name the program"
    if asked == "names":
        return f"the names of the {kind}s changed"
    if asked == "head":
        return f"the head of the {kind} {name} changed"
    return f"the {kind} {name} changed" if asked == "text" else f"the {kind} {name} was added or taken away"

"""See what the pages of a studied program will show, and make its files: work for a process of its own.

Loaded where there is a program to make: it brings all that sets sheets and fills workbooks and calendars.
"""

from __future__ import annotations

import pickle
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache, partial
from pathlib import Path

from plateset.digests import digest_of
from plateset.manuscript.questions import Question
from plateset.manuscript.tracing import Trace, TracedManuscript
from plateset.publishing.making import Made
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.program_products import make_program
from plateset.publishing.program_view import Program, card_of, program_view
from plateset.publishing.studio import Studio
from plateset.publishing.takeaways import Desk
from plateset.publishing.views import ProgramCard, SiteView
from plateset.studying import AtWork, Order, Plans, Shelf, shelf_of, studied_at
from plateset.training.figures import figure


@dataclass(frozen=True)
class MadeProgram:
    """The files of a program, its card in the lists, and all that was asked of the manuscript for them."""

    slug: str
    questions: frozenset[Question]
    card: ProgramCard
    files: tuple[Made, ...]


@lru_cache(maxsize=1)
def _studio(ground: Path, site: SiteView, tools: tuple[str, str]) -> Studio:
    return Studio(site, shelf_of(ground).theme, *tools)


def make(order: Order) -> MadeProgram:
    """Make the files of a program that was studied, and tell which they are.

    Raises :class:`ProblemsError` where one of its texts takes a figure from a program that has problems.
    """
    studied = studied_at(order.ground, order.slug)
    shelf, trace = shelf_of(order.ground), Trace()
    trace.questions |= order.asked
    found: list[Made] = []
    with AtWork(order.ground.parent, order.slug) as at_work_on:
        at_work_on.on(f"programs/{order.slug}.yaml")
        desk = _desk(pickle.loads(studied.read_bytes()), order, shelf, shelf.traced(trace))
        asked = frozenset(trace.questions)
        studio = _studio(order.ground, order.site, order.tools)
        for path, made in make_program(desk, studio, order.hand, _study_digest(asked, shelf)):
            if made is None:
                at_work_on.on(path)
            else:
                found.append(made)
    if trace.questions != asked:
        raise AssertionError(f"made with more than its view was: {sorted(trace.questions - asked)}")
    studied.unlink()
    return MadeProgram(order.slug, asked, card_of(desk.view), tuple(found))


def _desk(program: Program, order: Order, shelf: Shelf, manuscript: TracedManuscript) -> Desk:
    """What its pages show, and what its files are made with."""
    language = shelf.theme.language(manuscript.site.head.language)
    plans = Plans(shelf, manuscript.trace, plans={order.slug: program.plan})
    seen = program_view(program, manuscript, partial(figure, plans=plans), language)
    view, scripts = with_own_loads(program, seen, manuscript, language)
    return Desk(program, view, manuscript, order.site, shelf.theme, scripts)


def _study_digest(asked: Iterable[Question], shelf: Shelf) -> str:
    """The digest of what was asked and answered."""
    answers = [shelf.answers.to(question) for question in sorted(asked)]
    return digest_of([(each.question, each.text) for each in answers])

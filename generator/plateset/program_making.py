"""Make the files of a program that was studied: work for a process of its own, as studying it is.

Loaded where there is a program to make: it brings all that sets sheets and fills workbooks and calendars.
"""

from __future__ import annotations

import pickle
from functools import lru_cache
from pathlib import Path

from plateset.manuscript.questions import Question
from plateset.manuscript.tracing import Trace
from plateset.publishing.making import Made
from plateset.publishing.program_products import make_program
from plateset.publishing.program_view import Program
from plateset.publishing.studio import Studio
from plateset.publishing.takeaways import Desk
from plateset.publishing.views import ProgramView, SiteView
from plateset.studying import AtWork, Order, shelf_of


@lru_cache(maxsize=1)
def _studio(ground: Path, site: SiteView, tools: tuple[str, str]) -> Studio:
    return Studio(site, shelf_of(ground).theme, *tools)


def make(order: Order, asked: frozenset[Question]) -> tuple[str, tuple[Made, ...]]:
    """Make the files of a program that was studied, and tell which they are."""
    program: Program
    view: ProgramView
    studied = (order.ground.parent / order.slug).with_suffix(".studied")
    program, view, scripts = pickle.loads(studied.read_bytes())
    shelf, trace = shelf_of(order.ground), Trace()
    studio = _studio(order.ground, order.site, order.tools)
    desk = Desk(program, view, shelf.traced(trace), order.site, shelf.theme, scripts)
    found: list[Made] = []
    with AtWork(order.ground.parent, order.slug) as at_work_on:
        for path, made in make_program(desk, studio, order.hand, order.study):
            if made is None:
                at_work_on.on(path)
            else:
                found.append(made)
    if not trace.questions <= asked:
        raise AssertionError(f"made with more than it was studied with: {sorted(trace.questions - asked)}")
    studied.unlink()
    return order.slug, tuple(found)

"""Figures named in prose, held against the plans: addresses that lead nowhere, and numbers the plan contradicts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plateset.manuscript.links import links_of, place_of
from plateset.manuscript.load import Document
from plateset.placed_marks import PlacedMark
from plateset.problems import Problem
from plateset.remembering import Remembered
from plateset.training.figures import FigureError, figure
from plateset.training.marks.mark import Mark
from plateset.training.plan import Plan

_FIGURES: Remembered[str] = Remembered(5000)


def figure_of(address: str, plans: Mapping[str, Plan]) -> str:
    """The value of a figure. Raises :class:`FigureError`."""
    slug = address.partition("/")[0]
    # Not get(): some plans are worked out when they are asked for.
    plan = plans[slug] if slug in plans else None  # noqa: SIM401
    return _FIGURES.get((plan, address), lambda: figure(address, plans))


def contradicted(document: Document[Any], plans: Mapping[str, Plan], problems: list[Problem]) -> list[PlacedMark]:
    """The figures typed in a document that the plan contradicts; adds addresses that lead nowhere to ``problems``.

    A program without a plan is passed over: that it is not there, or what is wrong with it, is told by the checks.
    """
    found: list[PlacedMark] = []
    for link in links_of(document):
        if link.scheme != "figure" or link.target.partition("/")[0] not in plans:
            continue
        place = place_of(document, link)
        try:
            value = figure_of(link.target, plans)
        except FigureError as error:
            problems.append(Problem(place, error.message, error.expected, error.nearest))
            continue
        if link.text and link.text != value:
            message = f"the text says {link.text!r}, the plan says {value!r} ({link.target})"
            remedy = f"write {value}, or leave the brackets empty"
            mark = Mark("figure-contradicted", "stop", (), message, remedy)
            found.append(PlacedMark(mark, place))
    return found

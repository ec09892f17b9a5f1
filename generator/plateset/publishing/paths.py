"""Where every page and file of a site stands, as paths from the site's root."""

from __future__ import annotations

import posixpath

HOME = "index.html"
PROGRAMS = "programs/index.html"
EXERCISES = "exercises/index.html"
TECHNIQUES = "techniques/index.html"
EXPLAINERS = "explainers/index.html"
NUMBERS = "numbers.html"
NOT_FOUND = "404.html"


def program(slug: str) -> str:
    """A program's page."""
    return f"programs/{slug}/index.html"


def week(slug: str, number: int) -> str:
    """The sheet of one week."""
    return f"programs/{slug}/week-{number}.html"


def week_pdf(slug: str, number: int, paper: str) -> str:
    """The sheet of one week as PDF."""
    return f"programs/{slug}/week-{number}-{paper}.pdf"


def program_pdf(slug: str, paper: str) -> str:
    """All sheets of a program as PDF."""
    return f"programs/{slug}/program-{paper}.pdf"


def workbook(slug: str) -> str:
    """A program's workbook; its name is what a reader's folder of downloads shows."""
    return f"programs/{slug}/{slug}.xlsx"


def exercise(slug: str) -> str:
    """An exercise note's page."""
    return f"exercises/{slug}.html"


def technique(slug: str) -> str:
    """A technique note's page."""
    return f"techniques/{slug}.html"


def explainer(slug: str) -> str:
    """An explainer's page."""
    return f"explainers/{slug}.html"


NAMED = {"exercise": exercise, "technique": technique, "program": program, "explainer": explainer}
"""The page a link scheme of the manuscript leads to."""


def relative(target: str, page: str) -> str:
    """The address of ``target`` as seen from ``page``; both are site paths. Works under any sub-path and from disk."""
    path, mark, anchor = target.partition("#")
    if not path:
        return target
    return posixpath.relpath(path, posixpath.dirname(page) or ".") + mark + anchor

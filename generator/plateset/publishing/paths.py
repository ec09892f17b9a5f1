"""Where every page and file of a site stands, as paths from the site's root."""

from __future__ import annotations

import posixpath

HOME = "index.html"
PROGRAMS = "programs/index.html"
EXERCISES = "exercises/index.html"
TECHNIQUES = "techniques/index.html"
EXPLAINERS = "explainers/index.html"
NUMBERS = "numbers.html"
SEARCH = "search.html"
SEARCH_INDEX = "assets/search-index.js"
FEED = "feed.xml"
SITEMAP = "sitemap.xml"
ROBOTS = "robots.txt"
NOT_FOUND = "404.html"
PLAN_SCHEMA = "programs/plan.schema.json"


def program(slug: str) -> str:
    """A program's page."""
    return f"programs/{slug}/index.html"


def programs_by(facet: str) -> str:
    """The programs under the values of a facet."""
    return f"programs/by-{facet}.html"


def card(page: str) -> str:
    """The social card of a page, given by its own site path."""
    return f"cards/{page.removesuffix('.html').removesuffix('/index')}.png"


def sitemap_part(number: int) -> str:
    """A part of a sitemap too long for one file."""
    return f"sitemap-{number}.xml"


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


def log_pdf(slug: str, paper: str) -> str:
    """The blank log of a program as PDF."""
    return f"programs/{slug}/log-{paper}.pdf"


def progress_pdf(slug: str, paper: str) -> str:
    """The progress record of a program as PDF."""
    return f"programs/{slug}/progress-{paper}.pdf"


def plan_csv(slug: str) -> str:
    """The plan as comma-separated values."""
    return f"programs/{slug}/{slug}.csv"


def plan_json(slug: str) -> str:
    """The plan as JSON."""
    return f"programs/{slug}/{slug}.json"


def prepared(slug: str, name: str) -> str:
    """What was prepared for the script of a program's pages, named by what it holds."""
    return f"programs/{slug}/prepared-{name}.js"


def calendar(slug: str) -> str:
    """The sessions as a calendar."""
    return f"programs/{slug}/{slug}.ics"


def plain_text(slug: str) -> str:
    """The program as plain text to paste."""
    return f"programs/{slug}/{slug}.txt"


def newsletter(slug: str) -> str:
    """The program as Markdown to paste."""
    return f"programs/{slug}/{slug}.md"


def archive(slug: str) -> str:
    """All files of a program in one archive."""
    return f"programs/{slug}/{slug}.zip"


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


def whole(target: str, address: str) -> str:
    """The address of a page on the host ``address``, a folder's page by the folder; empty without a host."""
    return f"{address.rstrip('/')}/{target.removesuffix('index.html')}" if address else ""


def relative(target: str, page: str) -> str:
    """The address of ``target`` as seen from ``page``; both are site paths. Works under any sub-path and from disk."""
    path, mark, anchor = target.partition("#")
    if not path:
        return target
    folder = page.rpartition("/")[0]
    if not path.startswith(f"{folder.partition('/')[0]}/"):  # nothing of the way is shared
        return f"{folder and '../' * (folder.count('/') + 1)}{target}"
    if path.startswith(f"{folder}/"):  # all of it
        return target[len(folder) + 1 :]
    return posixpath.relpath(path, folder) + mark + anchor

"""The feed of what is new: programs and explainers as an Atom document (RFC 4287, 2005)."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime, time
from datetime import date as calendar_date
from xml.etree import ElementTree

from plateset.publishing import paths
from plateset.publishing.views import ExplainerView, ProgramCard, SiteView

ATOM = "http://www.w3.org/2005/Atom"
MOST_ENTRIES = 30


def feed(site: SiteView, programs: Iterable[ProgramCard], explainers: Iterable[ExplainerView]) -> bytes:
    """The newest entries first; ``site`` has an address, which every id begins with.

    A date of the manuscript counts as noon, UTC. A site without entries is as old as Atom.
    """
    entries = sorted(
        [(last_change(program), program) for program in programs] + [(view.iso_date, view) for view in explainers],
        key=lambda pair: (pair[0], pair[1].path),
        reverse=True,
    )[:MOST_ENTRIES]
    home = site.whole(paths.HOME)
    root = ElementTree.Element("feed", {"xmlns": ATOM, "xml:lang": site.language})
    _add(root, "id", home)
    _add(root, "title", site.title)
    if site.tagline:
        _add(root, "subtitle", site.tagline)
    _add(root, "updated", noon(entries[0][0] if entries else "2005-12-01"))
    _add(ElementTree.SubElement(root, "author"), "name", site.author)
    ElementTree.SubElement(
        root, "link", {"rel": "self", "type": "application/atom+xml", "href": site.whole(paths.FEED)}
    )
    ElementTree.SubElement(root, "link", {"rel": "alternate", "type": "text/html", "href": home})
    for day, view in entries:
        _entry(root, day, view, site)
    ElementTree.indent(root)
    document: bytes = ElementTree.tostring(root, encoding="utf-8", xml_declaration=True)
    return document + b"\n"


def _entry(root: ElementTree.Element, day: str, view: ProgramCard | ExplainerView, site: SiteView) -> None:
    entry = ElementTree.SubElement(root, "entry")
    address = site.whole(view.path)
    _add(entry, "id", address)
    _add(entry, "title", view.title)
    _add(entry, "published", noon(view.iso_date))
    _add(entry, "updated", noon(day))
    ElementTree.SubElement(entry, "link", {"rel": "alternate", "type": "text/html", "href": address})
    kind = "program" if isinstance(view, ProgramCard) else "explainer"
    ElementTree.SubElement(entry, "category", {"term": kind})
    if isinstance(view, ProgramCard) and view.byline != site.author:
        _add(ElementTree.SubElement(entry, "author"), "name", view.byline)
    _add(entry, "summary", view.summary)


def last_change(program: ProgramCard) -> str:
    """The day a program was last changed, as far as it tells: its own date or a later one among its changes."""
    return max(program.iso_date, *(change.iso_date for change in program.changes), program.iso_date)


def noon(day: str) -> str:
    """A calendar day as the moment a feed needs (RFC 3339)."""
    return datetime.combine(calendar_date.fromisoformat(day), time(12), UTC).isoformat().replace("+00:00", "Z")


def _add(parent: ElementTree.Element, name: str, text: str) -> None:
    ElementTree.SubElement(parent, name).text = text

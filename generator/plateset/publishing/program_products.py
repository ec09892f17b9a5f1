"""A program's files: what its readers take away, and its pages, which tell the size of each."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from plateset.digests import digest_of
from plateset.publishing import paths
from plateset.publishing.bundle import bundle
from plateset.publishing.contents import program_pages
from plateset.publishing.ledger import Parts
from plateset.publishing.making import Hand, Made
from plateset.publishing.studio import Product, Studio
from plateset.publishing.takeaways import Desk, TakeAway, calendar_view, of_week, offered, takeaways
from plateset.publishing.typesetting import Order
from plateset.publishing.views import CalendarView, ProgramView


@dataclass(frozen=True)
class Offers:
    """A program's view with what it offers to take away, the files it offers, and the scripts its pages may load."""

    view: ProgramView
    files: tuple[TakeAway, ...]
    scripts: Mapping[str, bytes]


def offers_of(desk: Desk, files: tuple[TakeAway, ...], calendar: CalendarView, *, weighed: bool) -> Offers:
    """The view with its offers; sizes are told, and files made for it, if ``weighed``."""
    view = desk.view
    weeks = tuple(replace(week, pdfs=of_week(week.number, files, weighed=weighed)) for week in view.weeks)
    downloads = offered(files, weighed=weighed)
    return Offers(replace(view, downloads=downloads, weeks=weeks, calendar=calendar), files, desk.scripts)


def pages_of(view: ProgramView, studio: Studio, made_from: Parts | None = None) -> Iterator[Product]:
    """A program's pages and its social card."""
    for page in program_pages(view, studio.site, studio.language):
        yield studio.page(page, made_from)
        card = studio.card(page)
        if card is not None:
            yield card


def make_program(desk: Desk, studio: Studio, hand: Hand, study: str) -> Iterator[tuple[str, Made | None]]:
    """Make every file of a program: its path before the work on it, then the path and the file made.

    ``study`` is the digest of all that was asked of the manuscript for the program's view.
    """
    whole = f"the program {desk.view.slug}"
    made: dict[str, Made] = {}
    sized: list[TakeAway] = []
    *files, archive = takeaways(desk)
    for file in files:
        if file.path == paths.PLAN_SCHEMA:  # the same for all programs, so the site makes it
            sized.append(file)
            continue
        yield file.path, None
        order = file.order() if file.order else None
        parts = _parts(order, studio, whole, study)
        made[file.path] = hand.make(file.path, parts, order.set if order else file.make)
        sized.append(replace(file, size=made[file.path].record.entry.size))
        yield file.path, made[file.path]
    yield archive.path, None
    held = {path: each.record.entry.sha256 for path, each in made.items()}
    held_in = {f"{whole} in its files": digest_of(sorted(held.items())), "Plateset or a library": studio.tool}
    done = hand.make(archive.path, held_in, lambda: _archive(files, hand))
    sized.append(replace(archive, size=done.record.entry.size))
    yield archive.path, done
    for path, data in sorted(desk.scripts.items()):
        yield path, None
        yield path, hand.make(path, {"what it holds": hashlib.sha256(data).hexdigest()}, partial(bytes, data))
    view = offers_of(desk, tuple(sized), calendar_view(desk), weighed=True).view
    shown = {whole: study, "the size of a download": digest_of(view.downloads + tuple(w.pdfs for w in view.weeks))}
    for page in pages_of(view, studio, shown):
        yield page.path, None
        yield page.path, hand.make(page.path, page.parts(), page.make)


def _parts(order: Order | None, studio: Studio, whole: str, study: str) -> Mapping[str, str]:
    if order is None:
        return {**studio.common, whole: study}
    return {**studio.on_paper, whole: digest_of((order.data, order.setting.paper, order.setting.stamp))}


def _archive(files: Sequence[TakeAway], hand: Hand) -> bytes:
    """Every file in the folders it has on the site, so that files that name each other still do."""
    there = {file.path: hand.site / file.path for file in files}
    return bundle(
        {
            file.path.removeprefix("programs/"): file.data
            if file.path == paths.PLAN_SCHEMA
            else there[file.path].read_bytes()
            for file in files
        }
    )

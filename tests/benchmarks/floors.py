"""The least the same libraries need for the same files: ready data through bare Jinja, Typst and XlsxWriter, no more.

A program's files are made one after another, as a press makes them: each library finds the processor's memory full of
what the others left there.
"""

from __future__ import annotations

import gc
import json
import sys
import time
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

import typst
from jinja2.runtime import Context
from plateset.editions import edition
from plateset.proving import proof
from plateset.publishing.contents import Page, contents, program_pages, shelves
from plateset.publishing.documents import Edition, makers, site_view
from plateset.publishing.program_view import Program, card_of, program_view
from plateset.publishing.social_card import card_data
from plateset.publishing.studio import Studio, _head
from plateset.publishing.takeaways import Desk, calendar_view, takeaways
from plateset.publishing.theme import CARD, Pages
from plateset.publishing.typesetting import NOWHERE, UNREAD, Template
from plateset.thrift import COLLECTED, typeset_on_one_core

from tests.benchmarks.bare_workbook import Recorded, recorded

Sheet = tuple[dict[str, object], Template]


@dataclass(frozen=True)
class Ready:
    """All that the libraries are given for one program."""

    pages: list[Page]
    sheets: list[Sheet]
    card: bytes
    workbook: Recorded


def main(folder: str, what: str, most: str) -> None:
    """Print seconds of work for the files of a program by library, and for those of the rest of the site.

    ``what`` is ``html`` or ``everything``; the first of at most ``most`` programs is made, but not counted.
    """
    gc.set_threshold(*COLLECTED)
    typeset_on_one_core()
    # Bare Jinja keeps nothing from page to page.
    Pages._once = lambda self, links_as, macro, *given: macro(*given)  # type: ignore[method-assign]
    proofs = proof(Path(folder), folder)
    made = edition(proofs, Path(folder), draft=True, weighed=False)
    studio = Studio(site_view(made), made.theme)
    studio.pages._environment.context_class = Context
    phrases = studio.pages._environment.globals
    phrases["_"] = phrases["gettext"]
    programs = [program for _, program in sorted(made.programs.items())][: int(most)]
    ready = [_ready(program, made, studio, what) for program in programs]
    of_site, cards_of_site = _of_site(made, studio)
    render, typeset, draw = partial(_render, studio=studio), _Typesetter(), _Drawer(made.theme.read(CARD))
    spent: dict[str, float] = defaultdict(float)
    for number, each in enumerate(ready):
        steps: dict[str, Callable[[], None]] = {"pages": partial(render, each.pages)}
        if what != "html":
            steps |= {
                "sheets": partial(typeset, each.sheets),
                "card": partial(draw, [each.card]),
                "workbook": each.workbook.write,
            }
        for name, step in steps.items():
            spent[name] += _timed(step) if number else step() or 0.0
    site = {"site": _timed(partial(render, of_site))}
    if what != "html":
        site["cards of the site"] = _timed(partial(draw, cards_of_site))
    of_one = {name: seconds / (len(ready) - 1) for name, seconds in spent.items()}
    print(json.dumps({"program": of_one, "site": site, "count": sum(1 for _ in makers(made))}))


def _ready(program: Program, made: Edition, studio: Studio, what: str) -> Ready:
    view = program_view(program, made.manuscript, made.figure, studio.language)
    desk = Desk(program, view, made.manuscript, studio.site, made.theme)
    object.__setattr__(view, "calendar", calendar_view(desk))
    pages = list(program_pages(view, studio.site, studio.language))
    if what == "html":
        return Ready(pages, [], b"", Recorded())
    files = takeaways(desk)
    orders = [file.order() for file in files if file.order is not None]
    sheets = [(order.data, order.setting.template) for order in orders]
    workbook = next(file for file in files if file.kind == "XLSX")
    cards = [_card(page, studio) for page in pages if page.card]
    return Ready(pages, sheets, cards[0], recorded(workbook.make))


def _of_site(made: Edition, studio: Studio) -> tuple[list[Page], list[bytes]]:
    views = [program_view(each, made.manuscript, made.figure, studio.language) for each in made.programs.values()]
    shelf = shelves(made.manuscript, made.figure, {view.slug: card_of(view) for view in views}, studio.language)
    pages = list(contents(studio.site, made.manuscript.site.head.limits, shelf, studio.language))
    return pages, [_card(page, studio) for page in pages if page.card]


def _card(page: Page, studio: Studio) -> bytes:
    assert page.card is not None
    return json.dumps(card_data(page.card, studio.site)).encode()


def _timed(work: Callable[[], None]) -> float:
    began = time.process_time()
    work()
    return time.process_time() - began


def _render(pages: list[Page], studio: Studio) -> None:
    with TemporaryDirectory() as folder:
        for number, page in enumerate(pages):
            html = studio.pages.render(page.template, _head(page, studio.site), page.data)
            (Path(folder) / f"{number}.html").write_text(html, "utf-8")


class _Typesetter:
    """Of a program's sheets it knows what it knows of others, not of themselves."""

    def __init__(self) -> None:
        self._compiler = typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False, font_paths=[]))

    def __call__(self, sheets: list[Sheet]) -> None:
        with TemporaryDirectory() as folder:
            for number, (data, template) in enumerate(sheets):
                handed = {"main.typ": template.main, "data.txt": UNREAD + json.dumps(data).encode()}
                files = {**dict(template.own), **handed}
                pdf = self._compiler.compile(files, root=template.folder, format="pdf", pdf_standards="ua-1")  # type: ignore[type-var]
                (Path(folder) / f"{number}.pdf").write_bytes(pdf)  # type: ignore[arg-type]


class _Drawer:
    def __init__(self, template: bytes) -> None:
        self._compiler = typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False))
        self._template = template

    def __call__(self, cards: list[bytes]) -> None:
        with TemporaryDirectory() as folder:
            for number, data in enumerate(cards):
                files = {"main.typ": self._template, "data.json": data}
                image = self._compiler.compile(files, root=NOWHERE, format="png", ppi=72)  # type: ignore[type-var]
                (Path(folder) / f"{number}.png").write_bytes(image)  # type: ignore[arg-type]


if __name__ == "__main__":
    main(*sys.argv[1:])

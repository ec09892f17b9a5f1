"""The least the same libraries need for the same files: ready data through bare Jinja, bare Typst, nothing else."""

from __future__ import annotations

import gc
import json
import sys
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import typst
from plateset.pressing import edition
from plateset.proving import proof
from plateset.publishing.contents import Page, contents, program_pages, shelves
from plateset.publishing.documents import makers, site_view
from plateset.publishing.program_view import card_of, program_view
from plateset.publishing.social_card import card_data
from plateset.publishing.studio import Studio, _head
from plateset.publishing.takeaways import Desk, calendar_view, takeaways
from plateset.publishing.theme import CARD, Pages
from plateset.publishing.typesetting import NOWHERE, UNREAD, Template
from plateset.workers import COLLECTED, typeset_on_one_core

TYPESET = 3
"""Programs whose sheets are timed, after another's."""


def main(folder: str, most: str) -> None:
    """Print seconds a page, a card, and for a program's sheets, from at most ``most`` programs."""
    gc.set_threshold(*COLLECTED)
    typeset_on_one_core()
    # Bare Jinja keeps nothing from page to page.
    Pages._once = lambda self, links_as, macro, *given: macro(*given)  # type: ignore[method-assign]
    proofs = proof(Path(folder), folder)
    made = edition(proofs, Path(folder), draft=True, weighed=False)
    studio = Studio(site_view(made), made.theme)
    phrases = studio.pages._environment.globals
    phrases["_"] = phrases["gettext"]
    programs = [program for _, program in sorted(made.programs.items())][: int(most)]
    views = [program_view(each, made.manuscript, made.figure, studio.language) for each in programs]
    desks = [Desk(p, v, made.manuscript, studio.site, made.theme) for p, v in zip(programs, views, strict=True)]
    pages: list[Page] = []
    for desk in desks:
        view = program_view(desk.program, made.manuscript, made.figure, studio.language)
        object.__setattr__(view, "calendar", calendar_view(desk))
        pages += program_pages(view, studio.site)
    cards = {view.slug: card_of(view) for view in views}
    shelf = shelves(made.manuscript, made.figure, cards, studio.language)
    of_site = list(contents(studio.site, made.manuscript.site.head.limits, shelf, studio.language))
    orders = [[file.order() for file in takeaways(desk) if file.order is not None] for desk in desks[: 1 + TYPESET]]
    sheets = [[(order.data, order.setting.template) for order in of_one] for of_one in orders]
    cards_of_site = [json.dumps(card_data(page.card, studio.site)).encode() for page in of_site if page.card]
    print(json.dumps({
        "page": _timed(lambda: _render(pages, studio)) / len(pages),
        "pages": len(pages) // len(programs),
        "site": _timed(lambda: _render(of_site, studio)),
        "sheets": _typeset(sheets),
        "card": _timed(lambda: _draw(cards_of_site, made.theme.read(CARD))) / len(cards_of_site),
        "cards of the site": len(cards_of_site),
        "count": sum(1 for _ in makers(made)),
    }))  # fmt: skip


def _timed(work: Callable[[], None]) -> float:
    work()
    began = time.process_time()
    work()
    return time.process_time() - began


def _render(pages: list[Page], studio: Studio) -> None:
    with TemporaryDirectory() as folder:
        for number, page in enumerate(pages):
            html = studio.pages.render(page.template, _head(page, studio.site), page.data)
            (Path(folder) / f"{number}.html").write_text(html, "utf-8")


def _draw(cards: list[bytes], template: bytes) -> None:
    compiler = typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False))
    with TemporaryDirectory() as folder:
        for number, data in enumerate(cards):
            files = {"main.typ": template, "data.json": data}
            image = compiler.compile(files, root=NOWHERE, format="png", ppi=72)  # type: ignore[type-var]
            (Path(folder) / f"{number}.png").write_bytes(image)  # type: ignore[arg-type]


def _typeset(programs: list[list[tuple[dict[str, object], Template]]]) -> float:
    """Seconds for the sheets of one program, by a compiler that has set those of the first: of each only what it knows
    of others, not of itself, is known.
    """
    compiler = typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False, font_paths=[]))
    spent = []
    with TemporaryDirectory() as folder:
        for sheets in programs:
            began = time.process_time()
            for number, (data, template) in enumerate(sheets):
                files = {"main.typ": template.main, "data.txt": UNREAD + json.dumps(data).encode()}
                pdf = compiler.compile(files, root=template.folder, format="pdf", pdf_standards="ua-1")  # type: ignore[type-var]
                (Path(folder) / f"{number}.pdf").write_bytes(pdf)  # type: ignore[arg-type]
            spent.append(time.process_time() - began)
    others = spent[1:] or spent
    return sum(others) / len(others)


if __name__ == "__main__":
    main(*sys.argv[1:])

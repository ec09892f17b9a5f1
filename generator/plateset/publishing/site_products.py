"""The files of a site besides those of its programs: pages, assets, and what leads others to it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from functools import cache, partial

from plateset.manuscript.schema import Site
from plateset.publishing import paths
from plateset.publishing.contents import Page, Shelves, contents
from plateset.publishing.feed import feed, last_change
from plateset.publishing.logo import read_logo
from plateset.publishing.making import Make
from plateset.publishing.plan_json import schema_json
from plateset.publishing.search_index import search_script
from plateset.publishing.sitemap import robots, sitemaps
from plateset.publishing.studio import ASSET_PATHS, Product, Studio
from plateset.publishing.theme import ASSETS
from plateset.publishing.views import SiteView


def site_products(studio: Studio, shelf: Shelves, head: Site, chart_script: Make) -> Iterator[Product]:
    """Every file of the site but those of its programs; ``chart_script`` gives the chart library's own file."""
    site = studio.site
    table = tuple(contents(site, head.limits, shelf, studio.language))
    for page in table:
        yield studio.page(page)
    for name in ASSETS:
        yield _cheap(f"assets/{name}", partial(studio.theme.read, name))
    yield _cheap("assets/colours.css", partial(_looks, head, site))
    if head.logo:
        logo, image = read_logo(studio.theme, head.logo)
        yield _cheap(logo.path, partial(bytes, image))
    yield Product(ASSET_PATHS["chart"], chart_script, lambda: {"Plateset or a library": studio.tool})  # large to read
    yield _cheap(paths.SEARCH_INDEX, lambda: search_script(shelf.searched))
    yield _cheap(paths.ROBOTS, partial(robots, site))
    if shelf.programs:
        yield _cheap(paths.PLAN_SCHEMA, schema_json)
    if site.address:
        yield from _for_finders(studio, table, shelf)


PLAIN_TYPE = 'system-ui, "Noto Sans", "Liberation Sans", Arial, sans-serif'
"""Type of the reader's own machine, for a site that asks for plain type; the theme's own is that of a book."""


def _looks(head: Site, site: SiteView) -> bytes:
    """What the author chose of the look, as values that the theme's styles take up."""
    own_type = f"  --own-type: {PLAIN_TYPE};\n" if head.type == "plain" else ""
    return f":root {{\n  --accent: {site.accent};\n{own_type}}}\n".encode()


def _for_finders(studio: Studio, table: tuple[Page, ...], shelf: Shelves) -> Iterator[Product]:
    """What leads others to the site and needs whole addresses."""
    yield _cheap(paths.FEED, partial(feed, studio.site, shelf.programs, shelf.explainers))
    listed = [(page.path, page.changed) for page in table if page.path != paths.NOT_FOUND]
    for program in shelf.programs:
        listed += [(program.path, last_change(program)), *((path, "") for path in program.pages)]
    for path, data in sitemaps(studio.site, listed):
        yield _cheap(path, partial(bytes, data))
    for page in table:
        card = studio.card(page)
        if card is not None:
            yield card


def _cheap(path: str, make: Make) -> Product:
    """A file that costs next to nothing: it is told by its own bytes, made once."""
    once = cache(make)
    return Product(path, once, lambda: {"what it holds": hashlib.sha256(once()).hexdigest()})

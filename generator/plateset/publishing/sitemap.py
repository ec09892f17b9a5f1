"""Where everything is, for those who index the web: a sitemap (sitemaps.org protocol 0.9) and robots.txt (RFC 9309)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from plateset.publishing import paths
from plateset.publishing.views import SiteView

PROTOCOL = "http://www.sitemaps.org/schemas/sitemap/0.9"
MOST_ADDRESSES = 50_000
"""As many as the protocol lets one file hold; a larger site gets a sitemap of sitemaps."""


def sitemaps(site: SiteView, pages: Sequence[tuple[str, str]]) -> Iterator[tuple[str, bytes]]:
    """The sitemap of ``pages``, each a site path and the day it last changed, or no day, as (path, bytes)."""
    if len(pages) <= MOST_ADDRESSES:
        yield paths.SITEMAP, _listing("urlset", "url", site, pages)
        return
    parts = [pages[start : start + MOST_ADDRESSES] for start in range(0, len(pages), MOST_ADDRESSES)]
    for number, part in enumerate(parts, start=1):
        yield paths.sitemap_part(number), _listing("urlset", "url", site, part)
    names = [(paths.sitemap_part(number), "") for number in range(1, len(parts) + 1)]
    yield paths.SITEMAP, _listing("sitemapindex", "sitemap", site, names)


def _listing(root_name: str, entry_name: str, site: SiteView, pages: Sequence[tuple[str, str]]) -> bytes:
    lines = ["<?xml version='1.0' encoding='utf-8'?>", f'<{root_name} xmlns="{PROTOCOL}">']
    for path, day in pages:
        lines += [f"  <{entry_name}>", f"    <loc>{escape(site.whole(path))}</loc>"]
        if day:
            lines.append(f"    <lastmod>{escape(day)}</lastmod>")
        lines.append(f"  </{entry_name}>")
    return "\n".join([*lines, f"</{root_name}>", ""]).encode()


def robots(site: SiteView) -> bytes:
    """Everyone may read everything, but for a draft, which is for no index."""
    if site.draft:
        return b"User-agent: *\nDisallow: /\n"
    where = f"\nSitemap: {site.whole(paths.SITEMAP)}\n" if site.address else ""
    return f"User-agent: *\nDisallow:\n{where}".encode()

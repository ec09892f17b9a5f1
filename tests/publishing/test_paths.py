"""Addresses relative to the page they stand on."""

from __future__ import annotations

import posixpath

import pytest
from plateset.publishing import paths


@pytest.mark.parametrize(
    ("target", "page", "address"),
    [
        ("index.html", "index.html", "index.html"),
        ("index.html", "programs/block/week-1.html", "../../index.html"),
        ("assets/style.css", "404.html", "assets/style.css"),
        ("programs/block/index.html", "programs/block/week-1.html", "index.html"),
        ("programs/block/week-1.html#day-2", "programs/block/index.html", "week-1.html#day-2"),
        ("exercises/row.html", "techniques/cluster.html", "../exercises/row.html"),
        ("programs/index.html", "programs/block/index.html", "../index.html"),
        ("#part", "exercises/row.html", "#part"),
    ],
)
def test_relative(target: str, page: str, address: str) -> None:
    assert paths.relative(target, page) == address


PAGES = [
    paths.HOME,
    paths.NUMBERS,
    paths.PROGRAMS,
    paths.program("a"),
    paths.week("a", 12),
    paths.exercise("b"),
    paths.technique("c"),
    paths.explainer("d"),
]


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("target", [*PAGES, paths.week_pdf("a", 1, "a4"), paths.program_pdf("a", "letter")])
def test_an_address_leads_back_to_its_target_under_any_sub_path(page: str, target: str) -> None:
    address = paths.relative(target, page)
    assert not address.startswith("/")
    assert (
        posixpath.normpath(posixpath.join("/some/where", posixpath.dirname(page), address)) == f"/some/where/{target}"
    )

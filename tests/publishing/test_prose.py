"""Authors' Markdown as HTML: links, figures, and nothing else let through."""

from __future__ import annotations

import re

import pytest
from plateset.publishing.prose import Prose

FIGURES = {"block/weeks": "8", "block/weekly sets/lats/week 1": "12.5", "odd/one": "<1 & 2>"}


def html(text: str, page: str = "explainers/why.html") -> str:
    return str(Prose(page, FIGURES.__getitem__).html(text))


@pytest.mark.parametrize(
    ("page", "address", "href"),
    [
        ("explainers/why.html", "exercise:row", "../exercises/row.html"),
        ("explainers/why.html", "explainer:other", "other.html"),
        ("programs/block/index.html", "technique:drop-set", "../../techniques/drop-set.html"),
        ("programs/block/index.html", "program:block", "index.html"),
        ("index.html", "program:block", "programs/block/index.html"),
        ("exercises/row.html", "program:block", "../programs/block/index.html"),
    ],
)
def test_a_link_that_names_a_thing_leads_there_from_its_page(page: str, address: str, href: str) -> None:
    assert html(f"[it]({address})", page) == f'<p><a href="{href}">it</a></p>\n'


def test_a_link_elsewhere_keeps_its_address_and_tells_no_one_where_it_came_from() -> None:
    expected = '<p><a href="https://rows.example/?a=1&amp;b=2" rel="noopener noreferrer">x</a></p>\n'
    assert html("[x](https://rows.example/?a=1&b=2)") == expected
    assert 'rel="noopener noreferrer"' in html("<https://rows.example/>")


@pytest.mark.parametrize(
    "written",
    [
        "[](figure:block/weeks)",
        "[8](figure:block/weeks)",
        "[9](figure:block/weeks)",
        "[**9** weeks](figure:block/weeks)",
        "[9](<figure:block/weeks>)",
        "<figure:block/weeks>",
        "[<https://nine.example> weeks](figure:block/weeks)",
    ],
)
def test_a_figure_is_filled_in_whatever_was_typed(written: str) -> None:
    assert html(f"It takes {written} weeks.") == '<p>It takes <span class="figure">8</span> weeks.</p>\n'


def test_a_figure_may_have_spaces_in_its_address_and_stand_anywhere() -> None:
    value = '<span class="figure">12.5</span>'
    assert html("# [](figure:block/weekly sets/lats/week 1)") == f"<h2>{value}</h2>\n"
    assert html("- *[](figure:block/weekly sets/lats/week 1)*") == f"<ul>\n<li><em>{value}</em></li>\n</ul>\n"


def test_a_character_that_no_text_may_hold_is_none_by_its_number_either() -> None:
    assert html("a&#12;b&#x2028;c&#xFEFF;d&#x1b;e &#38; f") == "<p>a\ufffdb\ufffdc\ufffdd\ufffde &amp; f</p>\n"


def test_two_figures_in_a_line_do_not_swallow_what_is_between() -> None:
    value = '<span class="figure">8</span>'
    assert html("[](figure:block/weeks) of [7](figure:block/weeks), [x](exercise:x)") == (
        f'<p>{value} of {value}, <a href="../exercises/x.html">x</a></p>\n'
    )


def test_the_value_of_a_figure_is_text() -> None:
    assert html("[](figure:odd/one)") == '<p><span class="figure">&lt;1 &amp; 2&gt;</span></p>\n'


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "a <b onclick=alert(1)>b</b>",
        "<!-- hidden -->",
        "<iframe src='https://x.example'></iframe>",
        "```\n<script>\n```",
        "`<script>`",
        "| a |\n| --- |\n| <img src=x onerror=alert(1)> |",
        "[<u>x</u>](exercise:row)",
        '[x](https://a.example/"onmouseover="alert(1))',
        '[x](exercise:row "<b>")',
    ],
)
def test_no_html_of_the_author_comes_through(text: str) -> None:
    found = html(text)
    for tag in ("<script", "<b", "<!--", "<iframe", "<img", "<u>", '"onmouseover'):
        assert tag not in found


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "JavaScript:alert(1)",
        "&#106;avascript:alert(1)",
        "data:text/html,x",
        "vbscript:x",
        "file:///x",
    ],
)
def test_a_link_of_any_other_scheme_stays_text(address: str) -> None:
    assert "<a" not in html(f"[x]({address})")
    assert "<a" not in html(f"<{address}>")
    assert "<a" not in html(f"[x][1]\n\n[1]: {address}")


def test_a_picture_is_never_loaded() -> None:
    assert "<img" not in html("![alt](https://pictures.example/x.png)")


def test_headings_stand_below_the_title_of_the_page() -> None:
    assert html("# One\n\n## Two\n\n### Three\n\nFour\n====") == (
        "<h2>One</h2>\n<h2>Two</h2>\n<h3>Three</h3>\n<h2>Four</h2>\n"
    )


def test_a_table_has_the_class_the_theme_knows() -> None:
    region = '<div class="scroll" role="region" tabindex="0" aria-label="Table">'
    assert re.fullmatch(region + r"\s*<table>.*</table>\s*</div>\s*", html("| a |\n| --- |\n| 1 |"), re.DOTALL)

"""Accessibility rules checked by axe-core, where it is on the machine: PLATESET_AXE names its axe.min.js."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.browser.conftest import KINDS, Visits


@pytest.fixture
def page_of(host: str, paths: dict[str, str]) -> Callable[[str], str]:
    """The address of the page of a kind."""
    return lambda kind: f"{host}/{paths[kind]}"


RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def axe() -> str:
    named = os.environ.get("PLATESET_AXE")
    if not named:
        pytest.skip("PLATESET_AXE is not set; it names the axe.min.js of the npm package axe-core")
    return Path(named).read_text(encoding="utf-8")


@pytest.mark.parametrize("view", [(360, False), (360, True), (1280, False), (1280, True)], ids=str)
@pytest.mark.parametrize("kind", [*KINDS, "404"])
def test_no_rule_is_broken(
    axe: str, visit: Visits, page_of: Callable[[str], str], kind: str, view: tuple[int, bool]
) -> None:
    width, dark = view
    seen = visit(width=width, dark=dark)
    seen.page.goto(page_of(kind), wait_until="load")
    seen.page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true })")
    seen.page.evaluate(axe)
    found = seen.page.evaluate(
        "rules => axe.run(document, { runOnly: rules })"
        ".then(found => found.violations.map(v => [v.id, v.help, v.nodes.map(n => n.html.slice(0, 120)).slice(0, 3)]))",
        RULES,
    )
    assert found == []

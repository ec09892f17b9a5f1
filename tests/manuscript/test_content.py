"""The demo manuscript reads without a problem."""

from __future__ import annotations

from plateset.manuscript.links import links_of
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.vocabulary import TECHNIQUE_NAMES

from tests.conftest import CONTENT


def test_demo_reads_well() -> None:
    manuscript = read_manuscript(CONTENT, "content")
    assert len(manuscript.exercises) >= 20
    assert set(manuscript.techniques) == set(TECHNIQUE_NAMES)
    assert any(link.scheme == "figure" for program in manuscript.programs.values() for link in links_of(program))


def test_equal_files_read_equal() -> None:
    first, second = (read_manuscript(CONTENT, "content") for _ in range(2))
    assert first == second

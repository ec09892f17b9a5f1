"""DEVELOPERS.md names files; each has to be there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAMED = sorted(set(re.findall(r"`([a-z_./]+/?[a-z_]*\.(?:py|md|css|typ)|[a-z_/]+/)`", TEXT)))


def test_files_are_named_at_all() -> None:
    assert len(NAMED) > 30


@pytest.mark.parametrize("name", NAMED)
def test_a_file_named_for_developers_is_there(name: str) -> None:
    found = [*ROOT.glob(name.rstrip("/")), *ROOT.glob(f"**/{name.rstrip('/')}")]
    assert [path for path in found if ".venv" not in path.parts], name

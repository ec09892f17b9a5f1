"""The demo, pressed once for all tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from plateset.pipeline import press

CONTENT = Path(__file__).parents[1] / "content"


@cache
def pressed_demo(folders: pytest.TempPathFactory) -> Path:
    """The shipped manuscript as a site; pressed at the first call of a test run."""
    target = folders.mktemp("demo") / "site"
    press(CONTENT, "content", target)
    return target

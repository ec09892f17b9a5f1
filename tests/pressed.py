"""The demo, pressed once for all tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from plateset.pressing import press

CONTENT = Path(__file__).parents[1] / "content"


@cache
def pressed_demo(folder: Path) -> Path:
    """The shipped manuscript as a site under the test run's own ``folder``; pressed at the first call."""
    target = folder / "demo" / "site"
    press(CONTENT, "content", target)
    return target

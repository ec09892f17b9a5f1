"""The library that draws charts on pages, as its package holds it; loaded when it is asked for its file."""

from __future__ import annotations

from functools import cache
from importlib import import_module


@cache
def chart_script() -> bytes:
    """The chart library's own file."""
    script: str = import_module("plotly.offline").get_plotlyjs()
    return script.encode()

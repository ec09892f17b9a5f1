"""The library that draws charts on pages, as its package holds it."""

from __future__ import annotations

from functools import cache

import plotly.offline


@cache
def chart_script() -> bytes:
    """The chart library's own file."""
    script: str = plotly.offline.get_plotlyjs()
    return script.encode()

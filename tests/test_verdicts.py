"""What every command says on the terminal."""

from __future__ import annotations

import io

from plateset.verdicts import show_lines
from rich.console import Console
from rich.text import Text


def test_what_would_turn_a_line_round_is_shown_instead() -> None:
    out = io.StringIO()
    show_lines([Text("a\u202eb\u2066c", style="bold"), Text("e\u0301\u200d")], Console(file=out, width=80))
    assert out.getvalue() == "a\ufffdb\ufffdc\ne\u0301\u200d\n"

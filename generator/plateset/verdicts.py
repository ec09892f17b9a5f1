"""What every command may have to say on the terminal: problems, and whether a manuscript may be published."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable

from rich.console import Console
from rich.text import Text

from plateset.problem_text import problem_text
from plateset.problems import ManuscriptError
from plateset.training.marks.tally import Tally

_TURNS_ROUND = re.compile("[\u202a-\u202e\u2066-\u2069]")
"""Unseen characters that would have what comes after them on a line read backwards."""


def show_problems(error: ManuscriptError, screen: Console) -> None:
    """Every problem with its source line, then how many there are."""
    for problem in error.problems:
        screen.print(Text(problem_text(problem)), soft_wrap=True)
        screen.print()
    count = len(error.problems)
    screen.print(f"{counted(count, 'problem')}. Nothing was computed or written.")


def verdict_of(found: Tally, count: int) -> Text:
    """The same of a tally of marks and a number of programs."""
    stops, queries, notes, accepted = found.stop, found.query, found.note, found.accepted
    tally = f"{counted(count, 'program')}; marks: {stops} stop, {queries} query, {notes} note"
    tally += f", {accepted} accepted. " if accepted else ". "
    if stops:
        return Text(tally + "Not to be published until the marks that stop it are mended.", style="bold red")
    return Text(tally + "May be published.", style="bold")


def counted(count: int, noun: str) -> str:
    """'1 set', '2 sets'."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def show_heading(words: str, screen: Console) -> None:
    """A title, underlined."""
    say(Text(words, style="bold"), screen)
    screen.print("-" * min(screen.width, len(words)))


def show_lines(lines: Iterable[Text], screen: Console) -> None:
    """Lines as they are: nothing is cut, however narrow the screen."""
    for line in lines:
        line.plain = _TURNS_ROUND.sub("\ufffd", line.plain)
        screen.print(line, soft_wrap=True)


def say(words: Text, screen: Console, indent: str = "") -> None:
    """A sentence, broken between words only; its later lines are indented."""
    width = max(20, screen.width)
    parts = textwrap.wrap(
        words.plain, width, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    ) or [""]
    first = words[: len(parts[0])]
    show_lines([first, *(Text(part, style=words.style) for part in parts[1:])], screen)

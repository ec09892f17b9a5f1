"""All text for the terminal: problems, proofs, verdicts."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from rich.console import Console
from rich.text import Text

from plateset.comparing import Comparisons
from plateset.comparison_text import change_lines, change_tables
from plateset.manuscript.vocabulary import Unit
from plateset.placed_marks import PlacedMark
from plateset.problem_text import problem_text
from plateset.problems import ManuscriptError
from plateset.proof_tables import VOLUME_KEY, load_table, loads_key, session_table, volume_table
from plateset.proving import Proof, Proofs
from plateset.training.comparison import Comparison
from plateset.training.marks.tally import Tally

SIGNS = {"stop": "stop ", "query": "query", "note": "note "}
_STYLES = {"stop": "bold red", "query": "yellow", "note": "dim"}
_INDENT = " " * 6


def show_problems(error: ManuscriptError, screen: Console) -> None:
    """Every problem with its source line, then how many there are."""
    for problem in error.problems:
        screen.print(Text(problem_text(problem)), soft_wrap=True)
        screen.print()
    count = len(error.problems)
    screen.print(f"{counted(count, 'problem')}. Nothing was computed or written.")


def show_proofs(proofs: Proofs, screen: Console) -> None:
    """The proof of every program, the marks on prose elsewhere, and the verdict."""
    for proof in proofs.programs.values():
        _show_proof(proof, screen)
    if proofs.prose:
        show_heading("Notes and explainers", screen)
        show_marks(proofs.prose, screen)
    say(verdict(proofs), screen)


def show_stops(proofs: Proofs, screen: Console) -> None:
    """The marks that stop it, with their places and remedies; nothing when there are none."""
    every = [*(mark for proof in proofs.programs.values() for mark in proof.marks), *proofs.prose]
    stops = tuple(placed for placed in every if placed.mark.severity == "stop" and not placed.mark.accepted)
    if stops:
        show_marks(stops, screen)


def show_comparisons(proofs: Proofs, found: Comparisons, screen: Console) -> None:
    """What changed since another version, program by program, with the marks that stand now, and the verdict."""
    for slug, proof in proofs.programs.items():
        show_program_heading(proof, screen)
        if slug in found.programs:
            _show_changes(found.programs[slug], (found.units[slug], proof.plan.unit), found.other, screen)
        else:
            say(Text(f"New: {found.other} has no such program.\n"), screen)
        show_marks(proof.marks, screen)
    for slug in found.gone:
        say(Text(f"Gone: {slug} is only in {found.other}."), screen)
    say(verdict(proofs), screen)


def _show_changes(comparison: Comparison, units: tuple[Unit, Unit], other: str, screen: Console) -> None:
    if comparison.is_empty:
        say(Text(f"Nothing has changed since {other}.\n"), screen)
        return
    say(Text(f"Changes since {other}", style="bold"), screen)
    for words in change_lines(comparison):
        say(Text(words), screen, "    ")
    screen.print()
    for lines in change_tables(comparison, units, screen.width):
        show_lines(lines, screen)
        screen.print()


def verdict(proofs: Proofs) -> Text:
    """One line: how many marks there are and whether the manuscript may be published."""
    stops, queries, notes = (proofs.count(severity) for severity in ("stop", "query", "note"))
    accepted = sum(bool(mark.accepted) for mark in proofs.marks)
    return verdict_of(Tally(stops, queries, notes, accepted), len(proofs.programs))


def verdict_of(found: Tally, count: int) -> Text:
    """The same of a tally of marks and a number of programs."""
    stops, queries, notes, accepted = found.stop, found.query, found.note, found.accepted
    tally = f"{counted(count, 'program')}; marks: {stops} stop, {queries} query, {notes} note"
    tally += f", {accepted} accepted. " if accepted else ". "
    if stops:
        return Text(tally + "Not to be published until the marks that stop it are mended.", style="bold red")
    return Text(tally + "May be published.", style="bold")


def show_program_heading(proof: Proof, screen: Console) -> None:
    """The program's title and what kind of program it is."""
    program = proof.plan.program
    show_heading(f"{program.title} ({proof.plan.slug})", screen)
    weeks, days = counted(program.weeks, "week"), counted(len(program.schedule), "day")
    screen.print(f"{program.level}, {weeks}, {days} a week, {proof.plan.unit}\n")


def _show_proof(proof: Proof, screen: Console) -> None:
    show_program_heading(proof, screen)
    show_lines(volume_table(proof, screen.width), screen)
    say(Text(VOLUME_KEY, style="dim"), screen)
    screen.print()
    show_lines(session_table(proof, screen.width), screen)
    screen.print()
    show_lines(load_table(proof, screen.width), screen)
    say(Text(loads_key(proof), style="dim"), screen)
    screen.print()
    show_marks(proof.marks, screen)


def show_marks(marks: tuple[PlacedMark, ...], screen: Console) -> None:
    """Each mark with its place, its reason, and its remedy or the reason it is accepted for."""
    if not marks:
        screen.print("No marks.\n")
    for placed in marks:
        mark = placed.mark
        sign, style = ("ok   ", "dim") if mark.accepted else (SIGNS[mark.severity], _STYLES[mark.severity])
        say(Text.assemble((sign, style), f" {mark.name}: {mark.message}"), screen, _INDENT)
        show_lines([Text(f"{_INDENT}at {placed.place}")], screen)
        say(Text(_INDENT + (f"accepted: {mark.accepted}" if mark.accepted else mark.remedy)), screen, _INDENT)
    if marks:
        screen.print()


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
        screen.print(line, soft_wrap=True)


def say(words: Text, screen: Console, indent: str = "") -> None:
    """A sentence, broken between words only; its later lines are indented."""
    width = max(20, screen.width)
    parts = textwrap.wrap(
        words.plain, width, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    ) or [""]
    first = words[: len(parts[0])]
    show_lines([first, *(Text(part, style=words.style) for part in parts[1:])], screen)

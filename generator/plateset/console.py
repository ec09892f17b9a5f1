"""Proofs for the terminal, and what changed between two."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from plateset.comparing import Comparisons
from plateset.comparison_text import change_lines, change_tables
from plateset.manuscript.vocabulary import Unit
from plateset.placed_marks import PlacedMark
from plateset.proof_tables import VOLUME_KEY, load_table, loads_key, session_table, volume_table
from plateset.proving import Proof, Proofs
from plateset.training.comparison import Comparison
from plateset.training.marks.tally import Tally
from plateset.verdicts import counted, say, show_heading, show_lines, verdict_of

SIGNS = {"stop": "stop ", "query": "query", "note": "note "}
_STYLES = {"stop": "bold red", "query": "yellow", "note": "dim"}
_INDENT = " " * 6


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

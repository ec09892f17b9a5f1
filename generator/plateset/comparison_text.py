"""What changed since another version of a program, as text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from rich.text import Text

from plateset.manuscript.vocabulary import Unit
from plateset.proof_tables import span_words
from plateset.publishing.words import load_text
from plateset.terminal_table import Column, table
from plateset.training.comparison import Change, Comparison, LineChange, LoadChange, MinutesChange
from plateset.training.load_course import Stand

_SIGNS = {"added": "+", "gone": "-", "changed": "*"}


def change_tables(comparison: Comparison, units: tuple[Unit, Unit], width: int) -> Iterator[list[Text]]:
    """The tables of what changed, those with nothing to tell left out. ``units`` are the one before and now."""
    if comparison.promises:
        yield list(_pairs("Promises", comparison.promises, width))
    if comparison.volume:
        cells = [(each.muscle, span_words(*each.before), span_words(*each.after)) for each in comparison.volume]
        yield list(_three("Weekly sets", cells, width))
    if comparison.minutes:
        yield list(_three("Minutes", [_minutes(each) for each in comparison.minutes], width))
    if comparison.loads:
        yield list(_loads(comparison.loads, units, width))


def change_lines(comparison: Comparison) -> Iterator[str]:
    """What changed in the program's own words: a sentence each."""
    for change in comparison.settings:
        yield f"{change.what}: {_from_to(change)}"
    if comparison.prose:
        yield f"words changed: {', '.join(comparison.prose)}"
    for line in comparison.lines:
        yield f"{_SIGNS[line.kind]} {line.session}: {line.exercise}{_line_words(line)}"


def _line_words(line: LineChange) -> str:
    if line.kind != "changed":
        return f" {'is new' if line.kind == 'added' else 'is gone'}"
    return ": " + "; ".join(f"{change.what} {_from_to(change)}" for change in line.changes)


def _from_to(change: Change) -> str:
    return f"{change.before} -> {change.after}"


def _pairs(head: str, changes: tuple[Change, ...], width: int) -> Iterator[Text]:
    return _three(head, [(change.what, change.before, change.after) for change in changes], width)


def _three(head: str, cells: list[tuple[str, str, str]], width: int) -> Iterator[Text]:
    names, before, after = zip(*cells, strict=True)
    return table([Column(head, names), Column("before", before, "right"), Column("now", after, "right")], width)


def _minutes(change: MinutesChange) -> tuple[str, str, str]:
    before, after = (span_words(*each) if each else "none" for each in (change.before, change.after))
    return change.session, before, after


def _loads(changes: tuple[LoadChange, ...], units: tuple[Unit, Unit], width: int) -> Iterator[Text]:
    columns = [
        Column("Loads", tuple(f"{change.session}: {change.exercise}" for change in changes)),
        Column("before", tuple(_course(change.before, units[0]) for change in changes)),
        Column("now", tuple(_course(change.after, units[1]) for change in changes)),
    ]
    return table(columns, width)


def _course(stands: tuple[Stand, Stand], unit: Unit) -> str:
    first, last = (load_text(stand.load, unit) for stand in stands)
    return first if first == last else f"{first} -> {last}"

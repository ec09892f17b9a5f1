"""Checks that what the exercises need is there: bars, kit, and lifts for a max taken from another."""

from __future__ import annotations

from collections.abc import Iterator

from plateset.manuscript.desk import Desk
from plateset.manuscript.schema import Exercise
from plateset.manuscript.vocabulary import KIT, Implement, Kit
from plateset.problems import Problem, nearest_word

USUAL_BARS = ("barbell", "ez-bar")
"""The bars there are where no file gives any."""

_KIT_OF: dict[Implement, Kit] = {
    "barbell": "barbell",
    "dumbbell": "dumbbells",
    "cable": "cable",
    "machine": "machine",
    "band": "bands",
}


def kit_needed(exercise: Exercise) -> tuple[Kit, ...]:
    """Every piece of kit an exercise needs: its implement and what it names besides, in the usual order."""
    needed = set(exercise.needs)
    if exercise.implement == "barbell" and exercise.bar == "ez-bar":
        needed.add("ez-bar")
    elif exercise.implement in _KIT_OF:
        needed.add(_KIT_OF[exercise.implement])
    return tuple(piece for piece in KIT if piece in needed)


def kit_of_programs(desk: Desk) -> Iterator[Problem]:
    """A program that lists its kit lists all its exercises need."""
    for program in desk.judged:
        kit = program.head.kit
        if kit is None:
            continue
        lacking: dict[Kit, list[str]] = {}
        for name, exercise in desk.lifts_of(program).items():
            for piece in kit_needed(exercise):
                if piece not in kit:
                    lacking.setdefault(piece, []).append(name)
        for piece, users in lacking.items():
            message = f"the kit lacks {piece!r}, which is needed for {_listed(users)}"
            expected = f"{piece!r} in the kit, or other exercises"
            yield Problem(program.place(("kit",), key=True), message, expected)


def _listed(names: list[str]) -> str:
    shown = ", ".join(names[:4])
    return f"{shown} and {len(names) - 4} more" if len(names) > 4 else shown


def bars_of_programs(desk: Desk) -> Iterator[Problem]:
    """Each exercise a program uses has its bar: among the program's own bars if it gives any, else the site's.

    A bar that neither has is told of the program if it gives its own, else of the exercise.
    """
    sites = None if desk.site is None else tuple(desk.site.loading.bars or USUAL_BARS)
    for program in desk.judged:
        bars = program.head.loading.bars or sites
        for name, exercise in desk.lifts_of(program).items():
            if exercise.implement != "barbell" or bars is None or exercise.bar in bars:
                continue
            if program.head.loading.bars:
                place = program.place(("loading", "bars"), key=True)
                message = f"there is no bar {exercise.bar!r} here, which is needed for {name}"
                yield Problem(place, message, f"'{exercise.bar}: …' among the bars")
            else:
                place = desk.exercises[name].place(("bar",) if "bar" in exercise.model_fields_set else ("implement",))
                expected = "a bar of 'loading': " + ", ".join(bars)
                nearest = nearest_word(exercise.bar, bars)
                yield Problem(place, f"there is no bar called {exercise.bar!r}", expected, nearest)


def sources_of_maxes(desk: Desk) -> Iterator[Problem]:
    """A max comes only from a lift that has a max of its own, so that it is never a guess upon a guess."""
    for document in desk.exercises.values():
        source = document.head.max_from
        if source is None:
            continue
        place = document.place(("max from", "exercise"))
        expected = "an exercise without 'max from'"
        other = desk.exercises.get(source.exercise)
        if source.exercise == document.slug:
            yield Problem(place, "a lift cannot take its max from itself", "another exercise")
        elif other and other.head.max_from:
            message = f"the max of {source.exercise!r} comes from another lift itself"
            yield Problem(place, message, expected)

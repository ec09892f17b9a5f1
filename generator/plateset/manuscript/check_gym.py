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
    for program in desk.programs.values():
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


def bars_of_exercises(desk: Desk) -> Iterator[Problem]:
    """An exercise's bar is one of the site's or of a program that uses it."""
    if desk.site is None:
        return
    sites = tuple(desk.site.loading.bars or USUAL_BARS)
    everywhere = {bar for program in desk.programs.values() for bar in program.head.loading.bars or sites}
    for document in desk.exercises.values():
        exercise = document.head
        if exercise.implement == "barbell" and exercise.bar not in {*everywhere, *sites}:
            place = document.place(("bar",) if "bar" in exercise.model_fields_set else ("implement",))
            expected = "a bar of 'loading': " + ", ".join(sites)
            nearest = nearest_word(exercise.bar, sites)
            yield Problem(place, f"there is no bar called {exercise.bar!r}", expected, nearest)


def bars_of_programs(desk: Desk) -> Iterator[Problem]:
    """A program that gives its own bars gives all its exercises need."""
    for program in desk.programs.values():
        bars = program.head.loading.bars
        if not bars:
            continue
        for name, exercise in desk.lifts_of(program).items():
            if exercise.implement == "barbell" and exercise.bar not in bars:
                place = program.place(("loading", "bars"), key=True)
                message = f"there is no bar {exercise.bar!r} here, which is needed for {name}"
                yield Problem(place, message, f"'{exercise.bar}: …' among the bars")


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

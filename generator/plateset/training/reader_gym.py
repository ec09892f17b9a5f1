"""The gyms a reader may say theirs is: the program's own, or the usual one of a unit, with other parts in their place.

What is offered is common practice, no source, but for the discs from 25 to 0.5 kg, which are those of the IWF rule
book. Whoever trains elsewhere chooses the nearest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Mass
from plateset.manuscript.vocabulary import Unit
from plateset.training.gym import Gym, gym_of
from plateset.training.rounding import steps_between

UNITS: tuple[Unit, ...] = ("kg", "lb")

PLATES: dict[Unit, dict[str, tuple[str, ...]]] = {
    "kg": {
        "2.5": ("25", "20", "15", "10", "5", "2.5"),
        "1.25": ("25", "20", "15", "10", "5", "2.5", "1.25"),
        "0.5": ("25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5"),
    },
    "lb": {
        "5": ("45", "35", "25", "10", "5"),
        "2.5": ("45", "35", "25", "10", "5", "2.5"),
        "1.25": ("45", "35", "25", "10", "5", "2.5", "1.25"),
    },
}
"""Discs in pairs, as many as wanted, by the smallest of them."""

DUMBBELLS: dict[Unit, dict[str, str]] = {"kg": {"1": "50", "2": "50", "2.5": "50"}, "lb": {"2.5": "120", "5": "120"}}
STACK: dict[Unit, dict[str, str]] = {"kg": {"2.5": "120", "5": "120", "10": "120"}, "lb": {"5": "250", "10": "250"}}
"""The step of a rack or a stack, which is also its first mass, and the last mass."""


@dataclass(frozen=True)
class GymChoice:
    """What a reader says of their gym; an empty word stands for the program's own part, or the usual one."""

    unit: Unit
    plates: str = ""
    dumbbells: str = ""
    stack: str = ""
    bars: tuple[tuple[str, Decimal], ...] = ()


def loading_of(own: schema.Loading, unit: Unit, choice: GymChoice) -> schema.Loading:
    """What can be loaded by a reader's choice. ``own`` is the program's loading and ``unit`` its unit.

    In the other unit the reader's gym is another one, so that the usual parts stand in for the program's own.
    """
    base = own if choice.unit == unit else schema.Loading(rounding=own.rounding)
    parts: dict[str, object] = {}
    if choice.plates:
        parts["plates"] = {Mass(Decimal(plate), choice.unit): None for plate in PLATES[choice.unit][choice.plates]}
    if choice.dumbbells:
        parts["dumbbells"] = _rack(choice.dumbbells, DUMBBELLS[choice.unit], choice.unit)
    if choice.stack:
        parts |= {"stack": _rack(choice.stack, STACK[choice.unit], choice.unit), "add_ons": None}
    if choice.bars:
        parts["bars"] = {name: Mass(mass, choice.unit) for name, mass in choice.bars}
    return base.model_copy(update=parts)


def _rack(step: str, lasts: Mapping[str, str], unit: Unit) -> tuple[Mass, ...]:
    steps = steps_between(Decimal(step), Decimal(lasts[step]), Decimal(step))
    return tuple(Mass(mass, unit) for mass in steps.masses)


def joined(site: schema.Loading, program: schema.Loading) -> schema.Loading:
    """The site's loading with a program's parts in place of its own, still as the author wrote them."""
    given = {name: getattr(program, name) or getattr(site, name) for name in schema.Loading.model_fields}
    if program.stack is not None:
        given["add_ons"] = program.add_ons
    return schema.Loading().model_copy(update=given)


def reader_gym(own: schema.Loading, unit: Unit, choice: GymChoice) -> Gym:
    """The gym of a reader's choice, in the unit they chose."""
    return gym_of(schema.Loading(), loading_of(own, unit, choice), choice.unit)

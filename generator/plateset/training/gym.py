"""The loading of a site or a program turned into steps in one unit; common gym equipment where nothing is said.

Defaults: bar and discs as in the IWF and IPF rule books (20 kg bar; discs 25 to 1.25 kg); pound plates, dumbbells
and stacks are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Mass
from plateset.manuscript.vocabulary import Unit
from plateset.training.rounding import PlatePairs, Steps, steps_between, with_add_ons

_PLATES: dict[Unit, tuple[str, ...]] = {
    "kg": ("25", "20", "15", "10", "5", "2.5", "1.25"),
    "lb": ("45", "35", "25", "10", "5", "2.5"),
}
_BARS: dict[Unit, dict[str, str]] = {
    "kg": {"barbell": "20", "ez-bar": "10"},
    "lb": {"barbell": "45", "ez-bar": "20"},
}
_DUMBBELLS: dict[Unit, tuple[str, str, str]] = {"kg": ("2", "50", "2"), "lb": ("5", "120", "5")}
_STACK: dict[Unit, tuple[str, str, str]] = {"kg": ("5", "120", "5"), "lb": ("10", "250", "10")}


@dataclass(frozen=True)
class Gym:
    """What can be loaded, every mass in ``unit``."""

    unit: Unit
    bars: tuple[tuple[str, Decimal], ...]
    collars: Decimal
    plates: PlatePairs
    dumbbells: Steps
    stack: Steps
    rounding: Literal["nearest", "down"]

    def bar(self, name: str) -> Decimal:
        """The mass of the bar called ``name``; of the plain barbell if there is none of that name."""
        known = dict(self.bars)
        return known.get(name, known.get("barbell", Decimal(_BARS[self.unit]["barbell"])))

    @property
    def smallest_plate(self) -> Decimal:
        """The lightest plate there is; half a unit in a gym without plates."""
        there = [plate for plate, pairs in self.plates if plate > 0 and pairs != 0]
        return min(there, default=Decimal("0.5"))


def gym_of(site: schema.Loading, program: schema.Loading, unit: Unit) -> Gym:
    """The site's loading with a program's parts in place of its own, in the program's unit."""
    bars = program.bars or site.bars
    plates = program.plates or site.plates
    collars = program.collars or site.collars
    return Gym(
        unit=unit,
        bars=tuple(sorted(_bars(bars, unit).items())),
        collars=in_unit(collars, unit) if collars else Decimal(0),
        plates=_plates(plates, unit),
        dumbbells=_rack(program.dumbbells or site.dumbbells, _DUMBBELLS[unit], unit),
        stack=with_add_ons(_rack(program.stack or site.stack, _STACK[unit], unit), _add_ons(site, program, unit)),
        rounding=program.rounding or site.rounding or "nearest",
    )


HUNDREDTH = Decimal("0.01")


def in_unit(mass: Mass, unit: Unit) -> Decimal:
    """A mass as it is; converted, to a hundredth of a unit: what is stamped on the iron is not known any better."""
    return mass.amount if mass.unit == unit else mass.to(unit).quantize(HUNDREDTH, ROUND_HALF_UP)


def _add_ons(site: schema.Loading, program: schema.Loading, unit: Unit) -> tuple[Decimal, ...]:
    # A stack of the program's own comes without the weights that hang on the site's.
    inherited = site.add_ons if program.stack is None else None
    return tuple(in_unit(mass, unit) for mass in program.add_ons or inherited or ())


def _bars(given: dict[str, Mass] | None, unit: Unit) -> dict[str, Decimal]:
    if given:
        return {name: in_unit(mass, unit) for name, mass in given.items()}
    return {name: Decimal(mass) for name, mass in _BARS[unit].items()}


def _plates(given: dict[Mass, int | None] | None, unit: Unit) -> PlatePairs:
    if not given:
        return tuple((Decimal(plate), None) for plate in _PLATES[unit])
    pairs = [(in_unit(mass, unit), count) for mass, count in given.items()]
    return tuple(sorted(pairs, key=lambda pair: pair[0], reverse=True))


def _rack(given: tuple[Mass, ...] | schema.Ladder | None, usual: tuple[str, str, str], unit: Unit) -> Steps:
    if given is None:
        first, last, step = map(Decimal, usual)
        return steps_between(first, last, step)
    if isinstance(given, schema.Ladder):
        own = given.step.unit
        rungs = steps_between(given.first.to(own), given.last.to(own), given.step.amount)
        return Steps(tuple(in_unit(Mass(rung, own), unit) for rung in rungs.masses))
    return Steps(tuple(sorted(in_unit(mass, unit) for mass in given)))

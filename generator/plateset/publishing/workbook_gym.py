"""The sheet of what can be loaded: lists of masses that the reader may change to those of their own gym."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from plateset.manuscript.schema import Exercise
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.words import bar_text, plates_text
from plateset.publishing.workbook_desk import (
    HEAVIEST,
    LONGEST_MESSAGE,
    Asked,
    Desk,
    Formula,
    Sheet,
    Table,
    letters,
    number,
)
from plateset.publishing.workbook_lifts import lifts_and_loads
from plateset.publishing.workbook_words import quoted
from plateset.training.gym import Gym
from plateset.training.plan import Basis, Load, LoadKind, Plan
from plateset.training.rounding import bar_steps, plates_per_side

ROUNDING, SMALLEST_PLATE = "rounding", "smallest_plate"
SPARE_ROWS, FEWEST_ROWS = 40, 100
"""Room in a list for masses the reader adds."""

LISTED_UP_TO: dict[Unit, Decimal] = {"kg": Decimal(500), "lb": Decimal(1100)}
"""Bars are listed as far as the heaviest lifts there have been, and further only where a program goes further."""

_SETTINGS_ROW, _LIST_ROW = 5, 9
HEADS = ("Instead: lightest", "Instead: step", "Instead: heaviest", "Lightest", "Heaviest", "Half a step")
_FIRST_MASS = _LIST_ROW + len(HEADS) + 2


@dataclass(frozen=True)
class LoadingList:
    """The masses of one implement and the name its cells go by; ``bar`` is the empty bar, None for other implements."""

    name: str
    title: str
    masses: tuple[Decimal, ...]
    plates: tuple[str, ...]
    bar: Decimal | None

    def plates_of(self, mass: Decimal) -> str:
        """The plates that make a mass, in words; nothing where they cannot."""
        return self._said.get(number(mass), "")

    @cached_property
    def _said(self) -> dict[str, str]:
        return dict(zip(map(number, self.masses), self.plates, strict=True))

    @property
    def rows(self) -> int:
        """How many rows the list takes on its sheet."""
        return max(FEWEST_ROWS, len(self.masses) + SPARE_ROWS)

    @property
    def slack(self) -> Decimal:
        """Half the first step: what rounding moves a load by at the light end."""
        return (self.masses[1] - self.masses[0]) / 2 if len(self.masses) > 1 else Decimal(0)


@dataclass(frozen=True)
class Loadable:
    """What the program's gym can load: a list for each implement the plan uses, by its key."""

    gym: Gym
    lists: Mapping[str, LoadingList]

    def of(self, kind: LoadKind, note: Exercise) -> LoadingList:
        """The list that a lift's loads come from."""
        return self.lists[_key(kind, note, self.gym)]


def loadable(plan: Plan, gym: Gym, language: Language = ENGLISH) -> Loadable:
    """The lists of a plan: bars first, then dumbbells, then the stack."""
    pairs = list(lifts_and_loads(plan))
    used = {_key(load.kind, lift.note, gym): load.kind for lift, load in pairs if load.kind in TITLES}
    heaviest = max((load.mass for _, load in pairs if load.mass is not None), default=Decimal(0))
    order = sorted(used, key=lambda key: (list(TITLES).index(used[key]), key))
    return Loadable(gym, {key: _list(key, used[key], (gym, heaviest), language) for key in order})


TITLES: dict[LoadKind, str] = {"bar": "Bar", "dumbbell": "Dumbbells, each", "stack": "Cables and machines"}


def _key(kind: LoadKind, note: Exercise, gym: Gym) -> str:
    if kind != "bar":
        return str(kind)
    return f"bar_{note.bar if note.bar in dict(gym.bars) else 'barbell'}".replace("-", "_")


def _list(key: str, kind: LoadKind, of: tuple[Gym, Decimal], language: Language) -> LoadingList:
    """The list of an implement in a gym, as far as the heaviest load of the program."""
    gym, heaviest = of
    if kind != "bar":
        steps = gym.dumbbells if kind == "dumbbell" else gym.stack
        return LoadingList(key, language.say(TITLES[kind]), steps.masses, (), None)
    name = key.removeprefix("bar_").replace("_", "-")
    bar = gym.bar(name)
    limit = max(LISTED_UP_TO[gym.unit], heaviest)
    made: dict[str, tuple[Decimal, tuple[Decimal, ...]]] = {}
    for mass in bar_steps(bar, gym.collars, gym.plates).masses:
        plates = plates_per_side(mass, bar, gym.collars, gym.plates) or ()
        known = made.get(number(mass))
        # Plates converted from the other unit make masses that differ in the last of 28 digits: one and the same here.
        if mass <= limit and (known is None or len(plates) < len(known[1])):
            made[number(mass)] = (mass, plates)
    masses = tuple(mass for mass, _ in made.values())
    said = tuple(_plates(mass, plates, language) for mass, plates in made.values())
    title = language.say("Bar (%(bar)s) with plates") % {"bar": bar_text(name, language)}
    return LoadingList(key, title, masses, said, bar + gym.collars)


def _plates(mass: Decimal, per_side: tuple[Decimal, ...], language: Language) -> str:
    return plates_text(Load("bar", mass, mass, per_side, Basis("fixed")), language)


def write_loadable(desk: Desk, what: Loadable) -> None:
    """The sheet: how to round, the smallest plate, and two columns for every list, one to change and one in use."""
    sheet = desk.sheet(desk.words.sheets.loadable, (26, *(14,) * (2 * len(what.lists))) if what.lists else (26, 14, 14))
    last_column = max(2 * len(what.lists), 6)
    sheet.title(desk.say("What can be loaded"))
    for row, words in enumerate(LISTS, start=1):
        sheet.paragraph(row, desk.say(words), last_column)
    _settings(sheet, what.gym)
    last = _FIRST_MASS
    for place, listed in enumerate(what.lists.values()):
        _write_list(sheet, listed, 1 + 2 * place)
        last = max(last, _FIRST_MASS + len(listed.masses))
    if what.lists:
        for row, words in enumerate(HEADS, start=_LIST_ROW + 1):
            sheet.put(row, 0, desk.say(words), "cell")
    sheet.finish(Table((_LIST_ROW, _LIST_ROW) if what.lists else (0, 0), last_column, (0, 1)), last, landscape=True)


LISTS = (
    "Loads are rounded to the masses listed here: those of the gym this program was written for. In the tinted columns "
    "clear what your gym does not have and write in what it has, in any order.",
    "Or leave the list alone and give a lightest mass, a step and a heaviest mass above it (for a bar the step is "
    "twice your smallest plate): these are then used instead. Plates are named for the listed bar only.",
    "Rounding is to the nearest mass, a tie going down, or always down. Apart from the lightest there is, no load "
    "passes your max unless the program says so. “Smallest plate” is for what is added to the body.",
)


def _settings(sheet: Sheet, gym: Gym) -> None:
    row, say, words = _SETTINGS_ROW, sheet.desk.say, sheet.desk.words.formulas
    ways = {"nearest": words.nearest, "down": words.down}
    sheet.put(row, 0, say("Rounding"), "first")
    sheet.put(row, 1, ways[gym.rounding], "entry")
    either = say("%(one)s or %(other)s") % {"one": words.nearest, "other": words.down}
    sheet.place.data_validation(
        row, 1, row, 1, {"validate": "list", "source": list(ways.values()), "error_message": either[:LONGEST_MESSAGE]}
    )
    sheet.put(row + 1, 0, say("Smallest plate"), "first")
    sheet.put(row + 1, 1, gym.smallest_plate, "entry mass")
    message = say("A number of %(unit)s above 0.") % {"unit": gym.unit}
    sheet.ask(row + 1, 1, Asked(say("Smallest plate"), 0.05, 100, message))
    name = quoted(sheet.desk.words.sheets.loadable)
    sheet.desk.name(ROUNDING, f"{name}!$B${row + 1}")
    sheet.desk.name(SMALLEST_PLATE, f"{name}!$B${row + 2}")


def _write_list(sheet: Sheet, listed: LoadingList, column: int) -> None:
    entry, used, say = letters(column), letters(column + 1), sheet.desk.say
    first, last = _FIRST_MASS + 1, _FIRST_MASS + listed.rows
    sheet.place.merge_range(_LIST_ROW, column, _LIST_ROW, column + 1, "", sheet.desk.style("header"))
    sheet.put(_LIST_ROW, column, listed.title, "header")
    top = _LIST_ROW + 1
    for row in (top, top + 1, top + 2):
        sheet.put(row, column, None, "entry mass")
        sheet.ask(row, column, Asked(say("Your own steps"), 0, HEAVIEST, say("A number above 0, without the unit.")))
    in_use = f"{used}{first}:{used}{last}"
    half = f"IF(COUNT({in_use})>1,({used}{first + 1}-{used}{first})/2,0)"
    known = listed.masses
    sheet.put(top + 3, column, Formula(f"MIN({in_use})", known[0] if known else 0), "load")
    sheet.put(top + 4, column, Formula(f"MAX({in_use})", known[-1] if known else 0), "load")
    sheet.put(top + 5, column, Formula(half, listed.slack), "load")
    sheet.put(_FIRST_MASS - 1, column, say("Listed"), "header")
    sheet.put(_FIRST_MASS - 1, column + 1, say("In use"), "header")
    lightest, step, heaviest = (f"{entry}${top + 1 + offset}" for offset in range(3))
    own = f"AND(COUNT({lightest}:{heaviest})=3,{step}>0)"
    column_of_entries = f"{entry}${first}:{entry}${last}"
    for place in range(listed.rows):
        mass = known[place] if place < len(known) else None
        sheet.put(_FIRST_MASS + place, column, mass, "entry mass")
        stepped = f"ROUND({lightest}+{place}*{step},9)"
        text = f'IF({own},IF({stepped}<={heaviest},{stepped},""),IFERROR(SMALL({column_of_entries},{place + 1}),""))'
        sheet.put(_FIRST_MASS + place, column + 1, Formula(text, "" if mass is None else mass), "mass")
    asked = Asked(say("A mass"), 0, HEAVIEST, say("A number, without the unit."))
    sheet.ask(_FIRST_MASS, column, asked, _FIRST_MASS + listed.rows - 1)
    _name_list(sheet.desk, listed, f"${used}${first}:${used}${last}", entry)


def _name_list(desk: Desk, listed: LoadingList, in_use: str, column: str) -> None:
    top, sheet = _LIST_ROW + 2, quoted(desk.words.sheets.loadable)
    desk.name(f"masses_{listed.name}", f"{sheet}!{in_use}")
    for offset, name in enumerate(("lightest", "heaviest", "half_step"), start=3):
        desk.name(f"{name}_{listed.name}", f"{sheet}!${column}${top + offset}")


def bar_is_ours(listed: LoadingList) -> str:
    """A condition of a formula: the lightest mass in use is the bar whose plates are known."""
    assert listed.bar is not None
    return f"lightest_{listed.name}={number(listed.bar)}"

"""What the page's script is given to put a reader's numbers in: a plan left open, and what gyms can load.

Each is a script of its own that hands its data over under a name, so that it loads from a folder too. Files are named
by what they hold: programs that share a gym share its file. Numbers are decimals as text; the script counts in whole
numbers, never in binary fractions.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import cache, lru_cache, partial
from typing import Any, Generic, TypeVar

from plateset.manuscript import schema
from plateset.manuscript.quantities import Reps
from plateset.manuscript.schema import Exercise
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.lift_views import Notes, runs, sided, technique_note
from plateset.publishing.words import load_text, mass_text, plates_text, reps_text
from plateset.remembering import Remembered
from plateset.training.gym import Gym
from plateset.training.loads import HALF
from plateset.training.marks.mark import plain
from plateset.training.maxes import TENTH
from plateset.training.plan import Basis, Lift, Load, Piece, Plan, PlannedLine, Session
from plateset.training.reader_gym import DUMBBELLS, PLATES, STACK, UNITS, GymChoice, reader_gym
from plateset.training.reader_loads import Drop, Each, LiftToAsk, Makings, OpenLift, OpenLine, OpenPlan, OpenSet
from plateset.training.rounding import PlatePairs, sides
from plateset.training.warm_up import HEAVY, SEVERAL_JOINTS

Data = dict[str, Any]
Item = TypeVar("Item", bound=Hashable)

_MARKED = Decimal(8_765_000)
"""Masses from here on stand for a place in a text while it is taken apart; no gym has them."""


def script(data: object) -> tuple[str, bytes]:
    """Data as a script, and the name it is handed over under, which is made of what it holds."""
    text = json.dumps(data, separators=(",", ":"), ensure_ascii=True)
    name = hashlib.sha256(text.encode()).hexdigest()[:16]
    return name, f'(window.prepared = window.prepared || {{}})["{name}"] = {text};\n'.encode()


# -- plans -----------------------------------------------------------------------------------------


class _Numbered(Generic[Item]):
    """Things that occur again and again, each kept once and named by its number."""

    def __init__(self) -> None:
        self._numbers: dict[Item, int] = {}

    def number(self, item: Item) -> int:
        """The number of ``item``, as before if it has been met."""
        return self._numbers.setdefault(item, len(self._numbers))

    def items(self) -> list[Item]:
        """Every item, in the order of the numbers."""
        return list(self._numbers)


def plan_data(
    plan: Plan, opened: OpenPlan, gym: Gym, exercises: dict[str, Exercise], language: Language = ENGLISH
) -> tuple[Data, list[list[int]]]:
    """A plan left open as data, and for each week the numbers of its sessions in it."""
    loads: _Numbered[Each] = _Numbered()
    lifts: _Numbered[str] = _Numbered()
    sessions: _Numbered[str] = _Numbered()
    met: Remembered[int] = Remembered()

    def lift_number(lift: OpenLift, planned: Lift) -> int:
        return lifts.number(json.dumps(_lift(lift, planned, loads, language)))

    def line_data(line: OpenLine, planned: PlannedLine) -> list[int]:
        pairs = zip(line.lifts, planned.lifts, strict=True)
        return [int(line.pick), *(met.get(pair, partial(lift_number, *pair)) for pair in pairs)]

    def session_number(lines: Sequence[OpenLine], planned: Session) -> int:
        pairs = zip(lines, planned.lines, strict=True)
        return sessions.number(json.dumps([line_data(line, its) for line, its in pairs]))

    numbers = [
        [met.get(pair, partial(session_number, *pair)) for pair in zip(week, its.sessions, strict=True)]
        for week, its in zip(opened.sessions, plan.weeks, strict=True)
    ]
    data = {
        "unit": plan.unit,
        "down": int(gym.rounding == "down"),
        "half": plain(HALF),
        "tenth": plain(TENTH),
        "heavy": plain(HEAVY),
        "curves": _curves(opened.lifts),
        "exercises": {lift.exercise: _exercise(lift, exercises) for lift in opened.lifts},
        "loads": {unit: [_makings(each[place]) for each in loads.items()] for place, unit in enumerate(UNITS)},
        "lifts": [json.loads(text) for text in lifts.items()],
        "sessions": [json.loads(text) for text in sessions.items()],
        "words": words(language),
    }
    return data, numbers


def _curves(lifts: Sequence[LiftToAsk]) -> dict[str, list[str]]:
    return {lift.curve: [plain(percent) for percent in lift.percents] for lift in lifts}


def _exercise(lift: LiftToAsk, exercises: dict[str, Exercise]) -> Data:
    data: Data = {"name": exercises[lift.exercise].name, "kind": lift.kind, "curve": lift.curve}
    if lift.kind == "bar":
        data["bar"] = lift.bar
    if exercises[lift.exercise].movement in SEVERAL_JOINTS:
        data["joints"] = 1
    if lift.share is not None:
        data["from"] = [lift.of, plain(lift.share)]
    return data


def _makings(made: Makings | None) -> list[Any] | None:
    if made is None:
        return None
    percent = None if made.percent is None else plain(made.percent)
    return [percent, made.body, plain(made.plus), plain(made.share), plain(made.scale)]


def _lift(lift: OpenLift, planned: Lift, loads: _Numbered[Each], language: Language) -> Data:
    data: Data = {
        "of": lift.exercise,
        "sets": [_set(each, loads) for each in lift.sets],
        "runs": _heads_of_runs(lift, planned),
    }
    if not lift.capped:
        data["over"] = 1
    if not lift.counts_whole:
        data["part"] = 1
    if lift.steps:
        data["warm"] = [
            [plain(percent), sided(f"{{}}\u00a0×\u00a0{reps}", planned, language)] for percent, reps in lift.steps
        ]
    if lift.own_steps:
        data["own"] = 1
    if any(_is_share_of_max(work.pieces[0].load.basis) for work in planned.sets):
        data["share"] = 1
    note = _note(planned, language)
    if note:
        data["note"] = note
    return data


def _is_share_of_max(basis: Basis) -> bool:
    """Whether the author asked for a share of the max, so that without one there is no load to go by."""
    return basis.rule == "percent" or basis.trouble == "no max"


def _set(each: OpenSet, loads: _Numbered[Each]) -> list[Any]:
    """[load where the max is known, where it is not, pieces, whether its repetitions are counted]."""
    pieces = [None if piece is None else _drop(piece) for piece in each.pieces]
    numbers = [_number(each.known, loads), _number(each.unknown, loads)]
    return [*numbers, pieces, int(each.counted)] if pieces or each.counted else numbers


def _drop(piece: Drop) -> list[Any]:
    return [int(piece.of_first), plain(piece.share)]


def _number(each: Each, loads: _Numbered[Each]) -> int | None:
    return None if each == (None, None) else loads.number(each)


def _heads_of_runs(lift: OpenLift, planned: Lift) -> list[int]:
    """The sets that a line's load is told by: the first of each run of like sets, and any that is loaded otherwise."""
    heads: list[int] = []
    for run in runs(planned):
        for work in run:
            place = work.number - 1
            if work is run[0] or lift.sets[place].known != lift.sets[place - 1].known:
                heads.append(place)
    return heads


def _note(planned: Lift, language: Language) -> list[str | int]:
    """The technique in a few words, taken apart where the load of a drop stands: a number is the piece's place."""
    worked = [work for work in planned.sets if work.technique]
    if not worked or not any(piece.role == "drop" for piece in worked[-1].pieces):
        return []
    notes = Notes({}, {}, "kg", language)
    last = worked[-1]
    marked = replace(last, pieces=tuple(_marked(piece, place) for place, piece in enumerate(last.pieces)))
    sets = tuple(marked if work is last else work for work in planned.sets)
    parts: list[str | int] = [technique_note(replace(planned, sets=sets), notes)]
    for place in range(1, len(marked.pieces)):
        text = str(parts.pop())
        before, found, after = text.partition(notes.load(_load(_MARKED + place)))
        parts += [before, place, after] if found else [text]
    return parts


def _marked(piece: Piece, place: int) -> Piece:
    return replace(piece, load=_load(_MARKED + place)) if piece.role == "drop" else piece


def _load(mass: Decimal) -> Load:
    return Load("plain", mass, None, None, Basis("technique"))


# -- words -----------------------------------------------------------------------------------------


@lru_cache(maxsize=32)
def words(language: Language = ENGLISH) -> Mapping[str, str]:
    """How loads are said, as ``words`` says them, with braces for the figure."""
    feel = Basis("feel")
    body = {sign: load_text(Load("bodyweight", Decimal(sign), None, None, feel), "kg", language) for sign in (-1, 0, 1)}
    most = Reps(1, 1, open=True)
    open_end = reps_text(most, None, None, projected=False, language=language)
    figure = mass_text(Decimal(1), "kg", language)
    return {
        "point": language.point,
        "list": language.list_mark,
        "feel": load_text(Load("feel", None, None, None, feel), "kg", language),
        "lacking": load_text(Load("feel", None, None, None, replace(feel, trouble="no max")), "kg", language),
        "body": body[0],
        "added": body[1].replace(figure, "{}"),
        "help": body[-1].replace(figure, "{}"),
        "plates": plates_text(Load("bar", Decimal(1), None, (Decimal(1),), feel), language).replace("1", "{}"),
        "bare": plates_text(Load("bar", Decimal(1), None, (), feel), language),
        "then": language.say("then"),
        "lighter": language.say("a lighter load"),
        "most": open_end,
        "about": reps_text(most, None, 9, projected=False, language=language).removeprefix(open_end).replace("9", "{}"),
    }


# -- gyms ------------------------------------------------------------------------------------------


def gym_data(own: schema.Loading, unit: Unit, chosen: Unit, bars: Sequence[str]) -> Data:
    """The gym where the reader chooses only the unit: bars by name, collars, plates, dumbbells, stack.

    ``own`` is the program's loading and ``unit`` its unit.
    """
    gym = reader_gym(own, unit, GymChoice(chosen))
    return {
        "bars": {name: plain(gym.bar(name)) for name in sorted(bars)},
        "collars": plain(gym.collars),
        "plates": _plates(gym.plates, gym.smallest_plate),
        "dumbbells": _masses(gym.dumbbells.masses),
        "stack": _masses(gym.stack.masses),
    }


@cache
def parts_script(unit: Unit) -> tuple[str, bytes]:
    """The :func:`script` of :func:`parts_data`, the same for all programs."""
    return script(parts_data(unit))


def parts_data(unit: Unit) -> Data:
    """The parts a reader may choose in a unit, each by the word for it."""
    nothing = schema.Loading()
    gyms: dict[str, dict[str, Gym]] = {
        "plates": {name: reader_gym(nothing, unit, GymChoice(unit, plates=name)) for name in PLATES[unit]},
        "dumbbells": {name: reader_gym(nothing, unit, GymChoice(unit, dumbbells=name)) for name in DUMBBELLS[unit]},
        "stack": {name: reader_gym(nothing, unit, GymChoice(unit, stack=name)) for name in STACK[unit]},
    }
    return {
        "plates": {name: _plates(gym.plates, gym.smallest_plate) for name, gym in gyms["plates"].items()},
        "dumbbells": {name: _masses(gym.dumbbells.masses) for name, gym in gyms["dumbbells"].items()},
        "stack": {name: _masses(gym.stack.masses) for name, gym in gyms["stack"].items()},
    }


@lru_cache(maxsize=32)
def _plates(plates: PlatePairs, smallest: Decimal) -> Mapping[str, Any]:
    """Every mass for one end of a bar, and how many plates of each kind make it: 'A' is none, 'B' one.

    In the order they are found: where two come to the same load once the bar is added, the later one counts.
    """
    hung = list(sides(plates).items())
    kinds = sorted({plate for plate, _ in plates}, reverse=True)
    used = ["".join(chr(ord("A") + there.count(kind)) for kind in kinds).rstrip("A") for _, there in hung]
    return {
        "kinds": _masses(kinds),
        "sides": _masses([mass for mass, _ in hung]),
        "used": used,
        "smallest": plain(smallest),
    }


def _masses(masses: Sequence[Decimal]) -> list[str]:
    return [plain(mass) for mass in masses]

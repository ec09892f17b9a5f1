"""A reader's numbers put in by the page's script, beside what the training floor makes of the same lifter."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

import pytest
from plateset.manuscript.quantities import Best, BodyweightLoad, FixedLoad, Mass
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.schema import Exercise, Lifter, Loading, Program, Site
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.lift_views import Notes, session_view
from plateset.publishing.reader_script import gym_data, parts_data, plan_data
from plateset.publishing.views import LiftView
from plateset.training.expand import plan_program
from plateset.training.plan import Lift
from plateset.training.reader_gym import DUMBBELLS, PLATES, STACK, UNITS, GymChoice, joined, loading_of, reader_gym
from plateset.training.reader_loads import LiftToAsk, open_plan
from playwright.sync_api import Browser, Page

from tests.pressed import CONTENT
from tests.training import building

SCRIPT = Path(__file__).parents[2] / "themes" / "noticeboard" / "own-loads.js"

EXERCISES = """
row: {name: Row, muscles: {direct: [lats]}, movement: horizontal pull, implement: barbell, bar: ez-bar, curve: brzycki}
dip: {name: Dip, muscles: {direct: [chest]}, movement: vertical push, implement: bodyweight,
  max from: {exercise: bench, share: 95 %}}
close-bench: {name: Close bench, muscles: {direct: [triceps]}, movement: horizontal push, implement: barbell,
  curve: epley, max from: {exercise: bench, share: 87.5 %}}
"""

EVERYTHING = """
weeks: 6
unit: {unit}
curve: {curve}
loading: {loading}
deload: {{weeks: [4], sets: 60 %, load: 92.5 %}}
test: {{weeks: [6], load: 85 %}}
warm-up sets: [{{load: 37.5 %, reps: 8}}, {{load: 61 %, reps: 4}}, {{load: 82.5 %, reps: 2}}]
schedule: {{mon: a, thu: b}}
sessions:
  a:
    - {{exercise: squat, role: main, sets: 3, reps: 5, load: {{week 1: 71.25 %, week 3: 77.5 %}}}}
    - {{exercise: bench, sets: 2, reps: 3, effort: 2 RIR, back-off: {{sets: 2, load: 87 %, reps: 6}}}}
    - {{exercise: row, sets: 4, reps: 6, load: 80 %, pyramid: {{direction: ascending, load: 7.5 %, reps: 2}}}}
    - {{exercise: close-bench, sets: 3, reps: 4-6, effort: 3 to 1 RIR, progression: {{rule: double, add: 2.5 kg}}}}
    - pick one:
        - {{exercise: curl, sets: 3, reps: 8-12, effort: 1 RIR, last set: {{technique: drop-set, drops: 3}}}}
        - {{exercise: one-curl, sets: 2, reps: 10, effort: 2 RIR,
            every set: {{technique: drop-set, drops: 2, reduce: 25 %, of: first}}}}
    - {{exercise: pushdown, sets: 2, reps: 10, effort: 1 RIR, last set: {{technique: drop-set, drops: 2}}}}
    - {{exercise: sled, sets: 2, reps: 8, load: 95 %, last set: {{technique: drop-set, drops: 2, reduce: 33 %}}}}
    - {{exercise: pull-up, sets: 3, reps: 5, effort: 2 RIR, last set: {{technique: drop-set, drops: 2}}}}
    - {{exercise: dip, sets: 3, reps: 8, effort: 1 RIR, progression: {{rule: linear, add: 1.25 kg, by: session}}}}
    - {{exercise: plank, sets: 2, hold: 30 s}}
    - {{exercise: squat, sets: 2, reps: 20, effort: 2 RIR}}
    - {{exercise: bench, sets: 1, reps: 5, effort: 2 RIR, range of motion: top half}}
  b:
    - {{exercise: band-pull, sets: 2, reps: 15, load: 12.3 kg, last set: {{technique: drop-set, drops: 1}}}}
    - {{exercise: bench, sets: 2, reps: 2, load: 104 %, above max: allowed,
        progression: {{rule: linear, add: 2.5 lb}}}}
    - {{exercise: bench, sets: 2, reps: 1, load: 101 %}}
    - {{exercise: squat, sets: 2, reps: as many as possible, load: 79 %,
        warm-up sets: [{{load: 50 %, reps: 5}}, {{load: 97 %, reps: 1}}]}}
    - {{exercise: pull-up, sets: 2, reps: as many as possible, load: bodyweight}}
    - {{exercise: pull-up, sets: 2, reps: 8, load: bodyweight - 20 kg, progression: {{rule: linear, add: 5 kg}}}}
    - {{exercise: push-up, sets: 2, reps: 8, load: bodyweight + 7.5 kg, back-off: {{sets: 1, load: 80 %, reps: 9}}}}
    - {{exercise: pull-up, sets: 2, reps: 3, load: 97 kg}}
    - {{exercise: sled, sets: 2, reps: 8, load: bodyweight + 10 kg}}
    - {{exercise: squat, sets: 2, reps: 8, load: 62.5 kg, progression: {{rule: linear, add: 2.5 kg}}}}
    - {{exercise: curl, sets: 2, reps: 8, load: 13 kg, warm-up sets: [{{load: 60 %, reps: 5}}]}}
    - {{exercise: row, sets: 3, reps: 5, load: 92 %, last set: {{technique: rest-pause}}}}
    - {{exercise: pushdown, sets: 2, reps: as many as possible, load: by feel}}
"""

LOADINGS = (
    "{}",
    "{rounding: down, collars: 2.5 kg}",
    "{plates: {20 kg: 2, 10 kg: 1, 5 kg: 3, 1 kg: 1}, dumbbells: [4 kg, 7 kg, 9.5 kg, 22 kg], bars: {ez-bar: 8.4 kg}}",
    "{stack: {from: 10 lb, to: 200 lb, step: 15 lb}, add-ons: [2.5 lb, 5 lb], plates: [45 lb, 10 lb, 2.5 lb]}",
    "{rounding: down, plates: [25 kg, 5 kg, 0.75 kg], bars: {barbell: 45 lb}, dumbbells: {from: 3 kg, to: 30 kg, step: "
    "1.5 kg}}",
)


@dataclass(frozen=True)
class Shelf:
    """A program with all that is prepared for its readers."""

    slug: str
    program: Program
    site: Site
    exercises: Mapping[str, Exercise]

    def prepared(self) -> tuple[dict[str, Any], list[list[int]], tuple[LiftToAsk, ...]]:
        plan = plan_program(self.slug, self.program, self.site, self.exercises)
        opened = open_plan(plan, self.site, self.exercises)
        own = reader_gym(self.own, plan.unit, GymChoice(plan.unit))
        data, numbers = plan_data(plan, opened, own, dict(self.exercises))
        units = {unit: [gym_data(self.own, plan.unit, unit, self.bars), parts_data(unit)] for unit in UNITS}
        return data | {"units": units}, numbers, opened.lifts

    @property
    def own(self) -> Loading:
        return joined(self.site.loading, self.program.loading)

    @property
    def bars(self) -> list[str]:
        return sorted({note.bar for note in self.exercises.values()})

    @property
    def unit(self) -> Unit:
        return self.program.unit or self.site.unit


# -- readers ---------------------------------------------------------------------------------------


def a_reader(lot: Random, shelf: Shelf, lifts: tuple[LiftToAsk, ...]) -> dict[str, Any]:
    """What someone may enter: some of the lifts, in any unit, with any choice of gym."""
    unit = lot.choice([shelf.unit, shelf.unit, *UNITS])
    most = {"bar": 260, "dumbbell": 60, "stack": 140, "bodyweight": 60, "plain": 200, "feel": 50}
    share = lot.choice([0.2, 0.7, 1.0])
    body = lot.choice(["", a_mass(lot, 45, 140)]) if lot.random() < 0.3 else a_mass(lot, 45, 140)
    done = {
        lift.exercise: [
            a_mass(lot, -30 if lift.kind == "bodyweight" else 1, most[lift.kind]),
            str(lot.randint(1, len(lift.percents))),
        ]
        for lift in lifts
        if lot.random() < share and (body or lift.kind != "bodyweight")
    }
    return {
        "unit": unit,
        "body": body,
        "lifts": done,
        "plates": lot.choice(["", *PLATES[unit]]),
        "dumbbells": lot.choice(["", *DUMBBELLS[unit]]),
        "stack": lot.choice(["", *STACK[unit]]),
        "bars": {bar: a_mass(lot, 5, 30) for bar in shelf.bars if lot.random() < 0.3},
    }


def a_mass(lot: Random, least: int, most: int) -> str:
    """A mass as people type it: mostly whole or in halves, sometimes to the hundredth."""
    step = Decimal(lot.choice(["1", "1", "0.5", "2.5", "0.1", "0.01"]))
    number = Decimal(lot.randint(int(least / step), int(most / step))) * step
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def replanned(shelf: Shelf, reader: dict[str, Any]) -> Iterator[list[tuple[LiftView, Lift]]]:
    """Every session of the program for the reader, as the training floor plans it and the site says it."""
    unit: Unit = reader["unit"]
    bars = tuple((name, Decimal(mass)) for name, mass in sorted(reader["bars"].items()))
    if bars:
        gym = reader_gym(shelf.own, shelf.unit, GymChoice(unit))
        bars = tuple(sorted(({name: gym.bar(name) for name in shelf.bars} | dict(bars)).items()))
    choice = GymChoice(unit, reader["plates"], reader["dumbbells"], reader["stack"], bars)
    bests = {
        name: Best(_done(Decimal(load), unit, on_body=shelf.exercises[name].implement == "bodyweight"), int(reps))
        for name, (load, reps) in reader["lifts"].items()
    }
    body = Mass(Decimal(reader["body"]), unit) if reader["body"] else None
    lifter = Lifter().model_copy(update={"bodyweight": body, "bests": bests})
    loading = loading_of(shelf.own, shelf.unit, choice)
    program = shelf.program.model_copy(update={"unit": unit, "example_lifter": lifter, "loading": loading})
    bare = shelf.site.model_copy(update={"loading": Loading()})
    plan = plan_program(shelf.slug, program, bare, shelf.exercises)
    notes = Notes(shelf.exercises, {}, unit)
    for week in plan.weeks:
        for session in week.sessions:
            shown = session_view(session, notes, by_weekday=True)
            yield list(zip([lift for line in shown.lines for lift in line.lifts], session.lifts, strict=True))


def _done(load: Decimal, unit: Unit, *, on_body: bool) -> FixedLoad | BodyweightLoad:
    return BodyweightLoad(Mass(load, unit) if load else None) if on_body else FixedLoad(Mass(load, unit))


# -- both sides ------------------------------------------------------------------------------------


def by_training(shelf: Shelf, reader: dict[str, Any]) -> list[list[dict[str, Any]]]:
    return [[_told(view, lift) for view, lift in session] for session in replanned(shelf, reader)]


def _told(view: LiftView, lift: Lift) -> dict[str, Any]:
    opened = [work.pieces[0].reps is not None and work.pieces[0].reps.open and not work.projected for work in lift.sets]
    drops = any(piece.role == "drop" for work in lift.sets for piece in work.pieces)
    return {
        "load": view.load,
        "plates": view.plates,
        "warm": view.warm_up,
        "note": view.technique_note if drops and not any(opened) else "",
        "boxes": [
            [[each.load, each.plates], *([piece.load, piece.plates] for piece in each.pieces)]
            for each in view.set_views
        ],
        "counts": [work.pieces[0].aim if counted else None for work, counted in zip(lift.sets, opened, strict=True)],
        "amiss": [AMISS.get(work.pieces[0].load.basis.trouble, "") for work in lift.sets],
    }


AMISS = {"below the bar": "light", "not loadable": "light", "beyond the rack": "heavy", "above the max": "above"}


BOTH_SIDES = """([data, readers, sessions]) => readers.map(reader => {
  const [gym, parts] = data.units[reader.unit];
  const found = window.ownLoads.forReader(data, gym, parts, reader);
  return sessions.flat().map(place => found.session(place).map(lift => {
    const {load, plates, warm, boxes, counts, amiss} = lift;
    return {load, plates, warm, boxes, counts, amiss, note: lift.counted.includes(true) ? "" : lift.note};
  }));
})"""


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page()
    opened.add_script_tag(content=SCRIPT.read_text(encoding="utf-8"))
    yield opened
    opened.close()


def compare(page: Page, shelf: Shelf, cases: int) -> int:
    """Put ``cases`` readers in on both sides; returns how many sets were compared."""
    data, numbers, lifts = shelf.prepared()
    lot = Random(f"{shelf.slug}, the same each time")
    readers = [a_reader(lot, shelf, lifts) for _ in range(cases)]
    found = page.evaluate(BOTH_SIDES, [data, readers, numbers])
    sets = 0
    for reader, mine in zip(readers, found, strict=True):
        for session, told in zip(by_training(shelf, reader), mine, strict=True):
            for expected, lift in zip(session, told, strict=True):
                assert lift == expected, json.dumps(reader)
                sets += len(expected["boxes"])
    return sets


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("loading", range(len(LOADINGS)))
def test_a_program_with_everything_in_it(page: Page, loading: int, unit: Unit) -> None:
    curve = ("handbook", "mayhew", "lombardi")[loading % 3]
    text = EVERYTHING.format(unit=unit, curve=curve, loading=LOADINGS[loading])
    notes = building.exercises(EXERCISES)
    shelf = Shelf(f"everything-{loading}-{unit}", building.program(text), building.site(), notes)
    assert compare(page, shelf, 20) > 5_000


def test_every_program_of_the_demo(page: Page) -> None:
    manuscript = read_manuscript(CONTENT, "content")
    notes = {name: document.head for name, document in manuscript.exercises.items()}
    for slug, document in sorted(manuscript.programs.items()):
        assert compare(page, Shelf(slug, document.head, manuscript.site.head, notes), 6) > 1000

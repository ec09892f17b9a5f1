"""A program with everything in it that a program can hold, for the tests of all files made from one.

Every kind of line, set, technique, rule, load and week. What a reader of one file must find is in the plan of it.
"""

from __future__ import annotations

from pathlib import Path

from plateset.publishing.documents import Edition

from tests.publishing.building import edition_of, write_book

SLUG = "everything"

_NOTE = "---\nname: {name}\nmuscles: {{direct: [quads], indirect: [glutes]}}\nmovement: squat\n{more}---\nWhy.\n"
_MORE_NOTES = {
    "front-squat": "implement: barbell\nmax from: {exercise: squat, share: 80 %}\ncurve: brzycki\n",
    "hold-squat": "implement: machine\nmax from: {exercise: leg-press, share: 37.5 %}\n",
    "leg-press": "implement: machine\n",
    "ez-curl": "implement: barbell\nbar: ez-bar\ncurve: lombardi\n",
    "shoulder-press": "implement: dumbbell\n",
    "dip": "implement: bodyweight\nmax from: {exercise: pull-up, share: 110 %}\n",
    "band-pull": "implement: band\n",
    "sled": "implement: other\n",
    "step-up": "implement: other\n",
}
_TECHNIQUES = (
    "rest-pause", "cluster", "partials", "isometric-hold", "negatives", "loose-form", "forced-reps",
    "as-many-as-possible", "giant-set", "pre-exhaustion",
)  # fmt: skip

_PROGRAM = """\
title: Everything
summary: One of each.
level: advanced
goal: strength
weeks: 6
date: 2026-02-02
starts: 2026-02-03
at: 18:30
suits: [Tests]
not for: [Anyone else]
HEAD
schedule: {mon: bars, wed: hands, fri: body, sat: uneven}
weekly sets: {legs: 1-300, quads: 1-200}
example lifter:
  bodyweight: 80 kg
  bests: {squat: 140 kg x 3, bench: 100 kg x 1, ez-curl: 40 kg x 8, shoulder-press: 24 kg x 9, curl: 35 kg x 11,
    leg-press: 180 kg x 6, sled: 90 kg x 2, pull-up: bodyweight + 12.5 kg x 5, row: 30 kg x 7}
progressions: {assistance: {rule: two-for-two, add: 2.5 kg}}
deload: {weeks: [3], sets: 60 %, load: 87.5 %, techniques: on}
test: {weeks: [6], load: 85 %, others: 50 %}
sessions:
  bars:
    - exercise: squat
      sets: 2
      reps: 5
      load: {week 1: 72.5 %, week 2: 76.25 %, week 4: 100 %, week 5: 105 %}
      above max: allowed
    - {exercise: squat, sets: 1, reps: 3, load: {week 1: 81 %, week 5: 100 %}, progression: {rule: linear, add: 2.5 kg}}
    - {exercise: bench, sets: 3, reps: 6-9, effort: 1.5 RIR, progression: {rule: double, add: 1.25 kg, pace: 2},
       last set: {technique: drop-set, drops: 3, reduce: 15 %}}
    - {exercise: bench, sets: 1, reps: 4, load: 62.5 kg, progression: {rule: linear, add: 5 kg},
       every set: {technique: drop-set, drops: 2, reduce: 30 %, of: first, each counts: 0.25}}
    - {exercise: ez-curl, sets: 2, reps: 8-12, effort: 2 RIR, last set: {technique: rest-pause, each counts: 0.5}}
    - {exercise: front-squat, sets: 2, reps: 4, load: 65 %, every set: {technique: cluster, pieces: 2}}
  hands:
    - superset:
        - {exercise: shoulder-press, sets: 2, reps: 8-12, effort: 1 RIR,
           last set: {technique: drop-set, drops: 2, reduce: 20 %}}
        - {exercise: row, sets: 2, reps: 6, effort: RPE 8.5, progression: {rule: linear, add: 1 kg}}
      rest: 2 min
    - {exercise: curl, sets: 2, reps: 10, effort: 1 RIR, every set: {technique: drop-set, drops: 2, reduce: 33 %}}
    - {exercise: leg-press, sets: 2, reps: 10, load: 70 %, last set: {technique: partials},
       warm-up sets: [{load: 50 %, reps: 6}, {load: 75 %, reps: 3}, {load: 98 %, reps: 1}]}
    - {exercise: hold-squat, sets: 1, hold: 20 s, load: 50 %, last set: {technique: isometric-hold}}
    - {exercise: sled, sets: 2, reps: 4, effort: 2 RIR, last set: {technique: drop-set, drops: 2, reduce: 25 %},
       warm-up sets: [{load: 40 %, reps: 4}]}
    - {exercise: sled, sets: 1, reps: 4, load: 99 %, progression: {rule: linear, add: 0.75 kg}}
    - {exercise: step-up, sets: 1, reps: 4, load: bodyweight + 10 kg}
    - {exercise: band-pull, sets: 1, reps: 15, load: 12.3 kg}
    - {exercise: band-pull, sets: 1, reps: 15, effort: 2 RIR}
  body:
    - {exercise: pull-up, sets: 2, reps: 5, effort: 2 RIR, progression: {rule: linear, add: 1.25 kg},
       last set: {technique: drop-set, drops: 2}}
    - {exercise: pull-up, sets: 1, reps: 14, effort: 3 RIR}
    - {exercise: dip, sets: 1, reps: 8, load: 75 %, last set: {technique: negatives}}
    - {exercise: pull-up, sets: 1, reps: as many as possible, load: bodyweight}
    - {exercise: dip, sets: 1, reps: 6, load: bodyweight + 7.5 kg, progression: {rule: linear, add: 2.5 kg}}
    - {exercise: dip, sets: 1, reps: 6, load: bodyweight - 20 kg}
    - {exercise: dip, sets: 1, reps: 6, load: 83 kg}
    - {exercise: plank, sets: 1, hold: 30 s}
    - {exercise: squat, sets: 1, reps: 20, effort: 2 RIR}
  uneven:
    title: Top sets and choices
    lines:
      - {exercise: squat, role: main, sets: 2, reps: 3, effort: 3 to 1 RIR, tempo: 3-1-X-0,
         back-off: {sets: 3, load: 85 %, reps: 6-8, effort: 2 RIR}, progression: {rule: step, add: 2.5 kg}}
      - {exercise: bench, role: main, sets: 3-4, reps: 6, load: 80 %, pyramid: {direction: ascending, load: 10 %},
         warm-up sets: [{load: 60 %, reps: 5}]}
      - {exercise: front-squat, sets: 3, reps: 4, load: 60 %, range of motion: bottom half, warm-up sets: none,
         pyramid: {direction: descending, load: 7.5 %, reps: 3}, last set: {technique: negatives}}
      - pick one:
          - {exercise: leg-press, sets: 3, reps: 8-10, effort: RPE 7 to 9, role: assistance}
          - {exercise: shoulder-press, sets: 2, reps: 10, effort: 1 RIR, back-off: {sets: 1, load: 70 %, reps: 12}}
          - {exercise: pull-up, sets: 2, reps: 5, load: bodyweight + 10 kg, back-off: {sets: 2, load: 50 %, reps: 8}}
        rest: 3 min
        note: Whichever you slept for.
      - giant set:
          - {exercise: dip, sets: 2-3, reps: 6, effort: 2 RIR, last set: {technique: loose-form}}
          - {exercise: curl, sets: 2-3, reps: 10, load: 50 %}
          - {exercise: plank, sets: 2-3, hold: 30 s}
        between: 20 s
        rest: 90 s
      - circuit:
          - {exercise: step-up, sets: 2, reps: 6, load: bodyweight + 10 kg, back-off: {sets: 1, load: 75 %, reps: 9}}
          - {exercise: row, sets: 3, reps: 8, effort: to failure, last set: {technique: forced-reps}}
        rest: 1 min
      - pre-exhaustion:
          - {exercise: curl, sets: 2, reps: 12, load: 23.3 kg,
             progression: {rule: undulating, turns: [{reps: 12}, {reps: 6, load: 26.3 kg, sets: 3}], add: 1 kg}}
          - {exercise: ez-curl, sets: 2, reps: 8, effort: 2 RIR, last set: {technique: as-many-as-possible}}
        rest: 2 min
"""

BEYOND_THE_CURVE = 14
"""Repetitions of its pull-up that no curve reaches with those in reserve."""

KILOGRAMS = "loading: {bars: {barbell: 20 kg, ez-bar: 7.5 kg}, collars: 0.5 kg, add-ons: [1 kg, 2.5 kg]}"
POUNDS = """\
unit: lb
curve: epley
loading:
  bars: {barbell: 45 lb, ez-bar: 8 kg}
  plates: [45 lb, 25 lb, 10 lb, 2.5 lb]
  rounding: down
"""
FEW_PLATES = """\
curve: wathan
loading:
  bars: {barbell: 20 kg, ez-bar: 10 kg}
  plates: {20 kg: 2, 7.5 kg: 1, 2 kg: 3, 1.25 kg: 1}
  dumbbells: [1 kg, 4 kg, 17.5 kg, 30 kg]
"""
HEADS = {"kilograms": KILOGRAMS, "pounds": POUNDS, "few-plates": FEW_PLATES}
"""Three gyms, two units, three curves."""


def everything(folder: Path, head: str = KILOGRAMS) -> Edition:
    """An edition whose program :data:`SLUG` has everything in it; ``head`` holds its unit, curve and loading."""
    changes = {f"programs/{SLUG}.yaml": _PROGRAM.replace("HEAD", head)}
    for name, more in _MORE_NOTES.items():
        changes[f"exercises/{name}.md"] = _NOTE.format(name=name.replace("-", " ").capitalize(), more=more)
    for name in _TECHNIQUES:
        changes[f"techniques/{name}.md"] = f"---\nname: {name.capitalize()}\nsummary: So it goes.\n---\nHow.\n"
    return edition_of(write_book(folder, changes))

"""A program with a line of every kind, for the tests of what readers take away."""

from __future__ import annotations

PROGRAM = """\
title: Every line
summary: One of each kind.
level: advanced
goal: strength
weeks: 4
date: 2026-03-02
suits: [Testers]
not for: [Readers]
cautions: ["Keep the lower back flat."]
schedule: {day 1: long, day 4: short}
starts: 2026-03-04
at: 07:15
example lifter:
  bodyweight: 80 kg
  bests: {squat: 140 kg x 1, bench: 100 kg x 1, curl: 50 kg x 1, row: 40 kg x 1, pull-up: bodyweight + 20 kg x 1}
deload: {weeks: [3], sets: 50 %, load: 90 %}
test: {weeks: [4], load: 85 %, others: 50 %}
accept:
  - {mark: load-jump, because: It is a test.}
  - {mark: sets-jump, because: It is a test.}
sessions:
  long:
    lines:
      - exercise: squat
        role: main
        sets: 1
        reps: 3
        effort: 1 RIR
        back-off: {sets: 3, load: 85 %, reps: 6}
        rest: 3 min
      - exercise: bench
        sets: 4
        reps: 6
        load: 75 %
        pyramid: {direction: ascending, load: 5 %, reps: 2}
        rest: 2 min
      - {exercise: curl, sets: 2-4, reps: 8-12, effort: 2 RIR, rest: 90 s}
      - pick one:
          - {exercise: row, sets: 3, reps: 8-12, effort: 2 RIR}
          - {exercise: pull-up, sets: 3, reps: as many as possible, load: bodyweight - 20 kg}
        rest: 2 min
  short:
    lines:
      - {exercise: curl, sets: 3, reps: 8, effort: 3 to 1 RIR, range of motion: bottom half, rest: 90 s}
      - exercise: bench
        sets: 2
        reps: 8
        load: 70 %
        rest: 2 min
        every set: {technique: cluster, pieces: 2, pause: 20 s}
      - giant set:
          - {exercise: plank, sets: 2, hold: 30 s}
          - {exercise: curl, sets: 2, reps: 10, load: by feel, last set: {technique: rest-pause, pauses: 2}}
          - {exercise: row, sets: 2, reps: 10, load: 20 kg, last set: {technique: drop-set, drops: 2, reduce: 20 %}}
        rest: 2 min
"""

EVERY_LINE = {
    "programs/every-line.yaml": PROGRAM,
    **{
        f"techniques/{name}.md": f"---\nname: {name.capitalize()}\nsummary: A technique.\n---\nHow.\n"
        for name in ("cluster", "giant-set", "rest-pause")
    },
}
"""The program and the notes it needs beside those of the small manuscript."""

"""A small manuscript for the tests of publishing, its proofs and an edition made from it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from plateset.proving import Proofs, proof
from plateset.publishing.documents import Edition, site_view
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.takeaways import Desk
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped
from plateset.training.figures import figure

SITE = """\
title: Tannery Row Lifting
tagline: Written for one cold room
author: {name: Osla Brandt, about: Coaches in an old tannery.}
about: Programs for a [small room](program:lantern).
paper: [a4]
loading:
  bars: {barbell: 20 kg}
  plates: [20 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg]
  dumbbells: {from: 2 kg, to: 40 kg, step: 2 kg}
  stack: {from: 5 kg, to: 100 kg, step: 5 kg}
cautions: [Ask at the desk before you use the platform.]
"""

LANTERN = """\
title: Lantern & oil
summary: Three weeks by lamplight.
text: |
  # Why

  Begin with the [squat](exercise:squat). It gives [](figure:lantern/weekly sets/quads/week 1) sets.
level: intermediate
goal: strength
weeks: 3
date: 2026-03-02
suits: [People with a year of lifting]
not for: [Anyone told not to lift]
cautions: ["Keep the lower back flat, \\"braced\\", in every set."]
schedule: {mon: heavy, thu: light}
weekly sets: {quads: 6-8, chest: 10-12}
example lifter:
  bodyweight: 80 kg
  bests: {squat: 100 kg x 1, bench: 80 kg x 1, curl: 50 kg x 1, pull-up: bodyweight + 10 kg x 5}
deload: {weeks: [3], sets: 50 %, load: 90 %}
sessions:
  heavy:
    title: Heavy day
    within: 90 min
    lines:
      - exercise: squat
        sets: 4
        reps: 5
        load: {week 1: 70 %, week 2: 72.5 %}
        rest: 3 min
        tempo: 3-1-X-0
        why: It is the main lift.
      - superset:
          - {exercise: bench, sets: 3, reps: 8-10, effort: RPE 8}
          - {exercise: pull-up, sets: 3, reps: 5, load: bodyweight}
        between: 30 s
        rest: 90 s
      - {exercise: plank, sets: 2, hold: 30 s, rest: 60 s}
  light:
    - {exercise: squat, sets: 3, reps: 8, load: 60 %, rest: 2 min}
    - exercise: curl
      sets: 3
      reps: 10
      load: 30 kg
      effort: 1 RIR
      rest: 90 s
      last set: {technique: drop-set, drops: 2, reduce: 20 %}
    - circuit:
        - {exercise: row, sets: 2, reps: 8-12, load: 20 kg, effort: to failure}
        - {exercise: plank, sets: 2, hold: 1:15}
      rest: 2 min
"""

TALLY = """\
title: Tally
summary: One week, counted by days.
level: novice
goal: fitness
weeks: 1
date: 2026-01-05
suits: [Anyone]
not for: [Nobody in particular]
kit: [mat]
author: Another Hand
edition: 3
licence: CC BY 4.0
schedule: {day 1: only, day 3: only}
sessions:
  only:
    - {exercise: plank, sets: 2, hold: 30 s, rest: 60 s}
"""

EXPLAINER = """\
---
title: Why the row
summary: A sentence about rows.
date: 2026-02-01
programs: [lantern]
---
See [the row](exercise:row), [drop sets](technique:drop-set), [the block](program:lantern) and
[a page elsewhere](https://rows.example/why?a=1&b=2).

The block lasts [](figure:lantern/weeks) weeks and [9](figure:lantern/direct sets/quads/week 2) is not shown.

| lift | sets |
| --- | --- |
| row | \\<b>2\\</b> |
"""


def _exercise(name: str, more: str) -> str:
    return f"---\nname: {name}\n{more}---\nWhy the {name.lower()}.\n"


BOOK: Mapping[str, str] = {
    "site.yaml": SITE,
    "programs/lantern.yaml": LANTERN,
    "programs/tally.yaml": TALLY,
    "explainers/why-the-row.md": EXPLAINER,
    "exercises/squat.md": _exercise(
        "Squat",
        "muscles: {direct: [quads], indirect: [glutes]}\nmovement: squat\nimplement: barbell\nneeds: [rack]\n"
        "cautions: [Set the safeties first.]\nsubstitutes: [row]\n"
        'video: {address: "https://video.example/squat", at: "1:05"}\n',
    ),
    "exercises/bench.md": _exercise(
        "Bench press",
        "muscles: {direct: [chest], indirect: [triceps]}\nmovement: horizontal push\nimplement: barbell\n",
    ),
    "exercises/curl.md": _exercise(
        "Cable curl", "muscles: {direct: [biceps]}\nmovement: elbow flexion\nimplement: cable\nnot with: [negatives]\n"
    ),
    "exercises/row.md": _exercise(
        "Dumbbell row",
        "muscles: {direct: [lats], indirect: {biceps: 0.25}}\nmovement: horizontal pull\nimplement: dumbbell\n"
        "dumbbells: 1\nsides: one\n",
    ),
    "exercises/pull-up.md": _exercise(
        "Pull-up", "muscles: {direct: [lats]}\nmovement: vertical pull\nimplement: bodyweight\n"
    ),
    "exercises/plank.md": _exercise("Plank", "muscles: {direct: [abs]}\nmovement: trunk\nimplement: bodyweight\n"),
    "techniques/drop-set.md": "---\nname: Drop set\nsummary: Take weight off and go on.\nlevel: intermediate\n"
    "cautions: [Rack it before you change it.]\n---\nHow.\n",
    "techniques/circuit.md": "---\nname: Circuit\nsummary: All in turn.\n"
    "cautions: [Keep the floor clear.]\n---\nHow.\n",
    "techniques/superset.md": "---\nname: Superset\nsummary: Two in turn.\n---\nHow.\n",
}


def write_book(folder: Path, changes: Mapping[str, str] | None = None) -> Path:
    """The manuscript in ``folder``, with the texts of ``changes`` in place of or beside its own."""
    for name, text in (dict(BOOK) | dict(changes or {})).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def edition_of(folder: Path, proofs: Proofs | None = None, *, draft: bool = False) -> Edition:
    """The edition the press would make of the manuscript in ``folder``, with a short chart library."""
    proofs = proofs or proof(folder, "book")
    plans = {slug: proved.plan for slug, proved in proofs.programs.items()}
    return Edition(
        manuscript=proofs.manuscript,
        programs={slug: Program(p.plan, p.volume, p.by_weekday) for slug, p in proofs.programs.items()},
        figure=lambda address: figure(address, plans),
        theme=find_theme(proofs.manuscript.site.head.theme, folder, shipped("themes")),
        chart_script=b"// the chart library\n",
        draft=draft,
    )


def desk_of(edition: Edition, slug: str) -> Desk:
    """What the files of one program are made with."""
    site = site_view(edition)
    view = program_view(edition.programs[slug], edition.manuscript, edition.figure)
    return Desk(edition.programs[slug], view, edition.manuscript, site, edition.theme)

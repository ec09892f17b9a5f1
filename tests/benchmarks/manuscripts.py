"""Manuscripts of any size, the same for the same seed: 8 weeks of 4 sessions of 6 lines a program."""

from __future__ import annotations

import random
import re
import shutil
from pathlib import Path

CONTENT = Path(__file__).parents[2] / "content"
WEEKS, SESSIONS, LINES = 8, 4, 6
SITE = """\
title: Quarry Bank Barbell
author: {name: Tove Example}
address: https://quarry.example/
paper: [a4]
loading:
  bars: {barbell: 20 kg, ez-bar: 10 kg}
  plates: [25 kg, 20 kg, 15 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg]
  dumbbells: {from: 2 kg, to: 60 kg, step: 2 kg}
  stack: {from: 5 kg, to: 120 kg, step: 5 kg}
"""

MAXES = ("back-squat", "bench-press", "deadlift", "overhead-press", "barbell-row")


def write_manuscript(folder: Path, programs: int, seed: int = 20260302) -> Path:
    """A manuscript of so many programs, with the shipped notes."""
    folder.mkdir(parents=True)
    for notes in ("exercises", "techniques"):
        shutil.copytree(CONTENT / notes, folder / notes)
    (folder / "site.yaml").write_text(SITE, "utf-8")
    _write_explainers(folder)
    (folder / "programs").mkdir()
    chance = random.Random(seed)
    lifts = sorted(path.stem for path in (folder / "exercises").glob("*.md") if path.stem not in HELD)
    for number in range(programs):
        (folder / "programs" / f"block-{number:04}.yaml").write_text(_program(number, lifts, chance), "utf-8")
    return folder


def _write_explainers(folder: Path) -> None:
    """One for each that a note leads to, without the programs that the shipped ones are about."""
    (folder / "explainers").mkdir()
    notes = [path.read_text("utf-8") for kind in ("exercises", "techniques") for path in (folder / kind).glob("*.md")]
    for name in sorted({name for note in notes for name in re.findall(r"\(explainer:([a-z0-9-]+)\)", note)}):
        head = f"title: About {name}\nsummary: What a note leads to.\ndate: 2026-03-02\n"
        (folder / "explainers" / f"{name}.md").write_text(f"---\n{head}---\nNothing is said here.\n", "utf-8")


HELD = ("plank", "side-plank", "farmers-carry")
"""Lifts that are held or carried, and counted in seconds."""


def _program(number: int, lifts: list[str], chance: random.Random) -> str:
    days = ("mon", "tue", "thu", "fri")
    names = ("one", "two", "three", "four")
    sessions = "".join(f"  {name}:\n{_session(lifts, chance)}" for name in names)
    bests = ", ".join(f"{name}: {chance.randrange(60, 200, 5)} kg x {chance.randint(1, 5)}" for name in MAXES)
    return f"""\
title: Block {number}
summary: Eight weeks drawn by lot, number {number}.
level: intermediate
goal: strength
weeks: {WEEKS}
date: 2026-03-02
suits: [People with a year of lifting]
not for: [Anyone told by a clinician not to lift]
schedule: {{{", ".join(f"{day}: {name}" for day, name in zip(days, names, strict=True))}}}
example lifter: {{bodyweight: 80 kg, bests: {{{bests}}}}}
deload: {{weeks: [4, 8], sets: 60 %, load: 90 %}}
sessions:
{sessions}"""


def _session(lifts: list[str], chance: random.Random) -> str:
    first = chance.choice(MAXES)
    others = chance.sample([name for name in lifts if name != first], LINES - 1)
    share = chance.randrange(65, 80, 5)
    lines = [
        f"{{exercise: {first}, sets: 4, reps: 5, load: {{week 1: {share} %, week 2: {share + 2} %}}, rest: 3 min}}"
    ]
    for name in others:
        low = chance.randint(6, 10)
        lines.append(
            f"{{exercise: {name}, sets: {chance.randint(2, 4)}, reps: {low}-{low + 2}, "
            f"effort: {chance.randint(1, 3)} RIR, rest: 90 s}}"
        )
    return "".join(f"    - {line}\n" for line in lines)

"""The fixed words a manuscript may use for muscles, movements, kit, levels and days.

Muscle groups are the trade's; the anatomy behind them follows Terminologia Anatomica (FIPAT, 2nd ed. 2019).
"""

from __future__ import annotations

from typing import Literal, get_args

Unit = Literal["kg", "lb"]
Level = Literal["novice", "intermediate", "advanced"]
Goal = Literal["strength", "muscle", "fitness"]

Muscle = Literal[
    "chest", "lats", "upper back", "upper traps", "front delts", "side delts", "rear delts", "biceps",
    "triceps", "forearms", "abs", "obliques", "lower back", "glutes", "abductors", "quads", "hamstrings",
    "adductors", "calves", "hip flexors", "serratus", "rotator cuff", "shins", "neck",
]  # fmt: skip
MUSCLES: tuple[str, ...] = get_args(Muscle)

MuscleGroup = Literal["back", "shoulders", "arms", "legs", "core"]
MUSCLE_GROUPS: dict[str, tuple[Muscle, ...]] = {
    "back": ("lats", "upper back"),
    "shoulders": ("front delts", "side delts", "rear delts"),
    "arms": ("biceps", "triceps", "forearms"),
    "legs": ("quads", "hamstrings", "glutes", "adductors", "abductors", "calves"),
    "core": ("abs", "obliques", "lower back"),
}
"""What a promise for a whole group counts: a set once, however many muscles of the group it trains. Which muscles
belong together is common practice, no source."""

Promised = Literal[Muscle, MuscleGroup]
"""What weekly sets may be promised for."""

Role = Literal["main", "assistance", "pump"]
RangeOfMotion = Literal["full", "bottom half", "middle", "top half"]

Movement = Literal[
    "squat", "hinge", "lunge", "horizontal push", "vertical push", "horizontal pull", "vertical pull",
    "elbow flexion", "elbow extension", "shoulder raise", "fly", "knee extension", "knee flexion",
    "hip abduction", "hip adduction", "calf raise", "trunk", "carry", "shrug", "wrist", "neck",
]  # fmt: skip

Implement = Literal["barbell", "dumbbell", "cable", "machine", "bodyweight", "band", "other"]

Kit = Literal[
    "barbell", "ez-bar", "rack", "bench", "dumbbells", "cable", "machine", "pull-up bar", "dip bars",
    "bands", "box", "mat",
]  # fmt: skip
KIT: tuple[str, ...] = get_args(Kit)

LEVELS: tuple[str, ...] = get_args(Level)

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
"""ISO 8601-1:2019 order: Monday is day 1, Sunday day 7."""

TechniqueName = Literal[
    "superset", "giant-set", "circuit", "pre-exhaustion", "drop-set", "rest-pause", "cluster", "negatives",
    "loose-form", "forced-reps", "partials", "isometric-hold", "as-many-as-possible",
]  # fmt: skip
TECHNIQUE_NAMES: tuple[str, ...] = get_args(TechniqueName)

CurveName = Literal["handbook", "epley", "brzycki", "lander", "lombardi", "mayhew", "oconner", "wathan"]

MarkName = Literal[
    "promise-missed", "promise-exceeded", "sets-jump", "muscle-untrained", "max-missing", "load-by-feel",
    "beyond-curve",
    "beyond-repetitions", "part-range", "below-bar", "not-loadable", "beyond-rack", "above-max", "load-jump",
    "drop-not-lighter",
    "no-working-week", "test-without-lift", "recovery-short",
    "over-time", "past-failure", "technique-ruled-out", "above-level", "caution-missing", "figure-contradicted",
    "acceptance-unused", "accent-faint", "phrase-unused",
]  # fmt: skip
"""The stable names of the proof's marks: an author may accept one by its name."""

"""A load in a few words, as figures in prose and workings say it: for a lift on the body, what is added to it."""

from __future__ import annotations

from decimal import Decimal

from plateset.manuscript.vocabulary import Unit
from plateset.training.marks.mark import plain
from plateset.training.plan import LoadKind


def load_words(kind: LoadKind, mass: Decimal, unit: Unit) -> str:
    """'62.5 kg', or on the body 'bodyweight', '+10 kg' or '20 kg of help'."""
    if kind != "bodyweight":
        return f"{plain(mass)} {unit}"
    if not mass:
        return "bodyweight"
    return f"+{plain(mass)} {unit}" if mass > 0 else f"{plain(-mass)} {unit} of help"

"""How quantities are said on a page: masses, repetitions, times, efforts. One place, so that every page agrees."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from plateset.manuscript.quantities import Effort, Reps, Tempo
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.language import ENGLISH, Language
from plateset.training.marks.mark import plain
from plateset.training.plan import Lift, Load, Piece

GOALS = {"strength": "Strength", "muscle": "Muscle", "fitness": "General fitness"}
GROUPS = {
    "single": "",
    "superset": "Superset",
    "giant-set": "Giant set",
    "circuit": "Circuit",
    "pre-exhaustion": "Pre-exhaustion",
    "pick-one": "Pick one",
}
RANGES_OF_MOTION = {
    "full": "",
    "bottom half": "bottom half only",
    "middle": "middle of the range only",
    "top half": "top half only",
}
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def day_name(day: int, *, by_weekday: bool) -> str:
    """'Monday', or 'Day 1' where the author counts days."""
    return _DAYS[day - 1] if by_weekday else f"Day {day}"


def long_date(day: date, language: Language = ENGLISH) -> str:
    """'2 March 2026'."""
    return language.date(day)


def listed(words: tuple[str, ...] | list[str], language: Language = ENGLISH) -> str:
    """'a', 'a and b', 'a, b and c'."""
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + f" {language.say('and')} {words[-1]}"


def signed_text(change: Decimal, language: Language = ENGLISH) -> str:
    """'+2' or '−1.5', with a true minus sign."""
    sign = "−" if change < 0 else "+"
    return f"{sign}{language.number(abs(change))}"


def range_text(low: int, high: int) -> str:
    """'10–14', or one number where both are the same."""
    return str(low) if low == high else f"{low}–{high}"


def mass_text(mass: Decimal, unit: Unit) -> str:
    """'62.5 kg'."""
    return f"{plain(mass)} {unit}"


def time_text(seconds: int) -> str:
    """'90 s', '2 min', '2 min 30 s'."""
    minutes, rest = divmod(seconds, 60)
    if seconds < 120 and seconds != 60:
        return f"{seconds} s"
    return f"{minutes} min" if not rest else f"{minutes} min {rest} s"


def effort_text(effort: Effort | None) -> str:
    """'2 RIR', '3 to 1 RIR' over the sets, 'RPE 8' or 'to failure', as the author put it."""
    if effort is None:
        return ""
    if effort.written == "failure":
        return "to failure"
    if effort.first is not None:
        return _falling_text(effort, effort.first)
    if effort.written == "RPE":
        return f"RPE {plain(10 - effort.rir)}"
    return f"{plain(effort.rir)} RIR"


def _falling_text(effort: Effort, first: Decimal) -> str:
    if effort.written == "RPE":
        return f"RPE {plain(10 - first)} to {plain(10 - effort.rir)}"
    return f"{plain(first)} to {plain(effort.rir)} RIR"


def tempo_text(tempo: Tempo | None) -> str:
    """'3-1-1-0', with X for a fast lift."""
    if tempo is None:
        return ""
    lift = "X" if tempo.fast else str(tempo.lift)
    return f"{tempo.lower}-{tempo.bottom}-{lift}-{tempo.top}"


def load_text(load: Load, unit: Unit) -> str:
    """'62.5 kg', 'bodyweight', '+10 kg', '20 kg of help' or 'by feel'."""
    if load.kind == "bodyweight":
        if load.mass is None:
            return "by feel"
        if load.mass > 0:
            return f"+{mass_text(load.mass, unit)}"
        return f"{mass_text(-load.mass, unit)} of help" if load.mass < 0 else "bodyweight"
    return "by feel" if load.mass is None else mass_text(load.mass, unit)


def plates_text(load: Load) -> str:
    """'20 + 2.5 each side', 'empty bar', or nothing where there are no plates."""
    if load.per_side is None:
        return ""
    return " + ".join(plain(plate) for plate in load.per_side) + " each side" if load.per_side else "empty bar"


def each_text(lift: Lift) -> str:
    """What the load is counted for, where it is not plain."""
    return "each hand" if lift.note.implement == "dumbbell" and lift.note.dumbbells == 2 else ""


def reps_text(reps: Reps | None, hold: int | None, aim: int | None, *, projected: bool) -> str:
    """'8–12', '9 (8–12)' where 9 is projected, '30 s' for a hold, or 'as many as you can'."""
    if hold is not None:
        return time_text(hold)
    if reps is None:
        return f"about {aim}" if aim else "as many as you can"
    if reps.open:
        return f"as many as you can (about {aim})" if aim and aim > 1 else "as many as you can"
    written = range_text(reps.low, reps.high)
    return f"{aim} ({written})" if projected and aim is not None and reps.low != reps.high else written


_ROLES = {"loose form": "in loose form", "with help": "with help", "short range": "over a short range"}


def piece_text(piece: Piece, unit: Unit) -> str:
    """A later piece of a set in a few words: 'drop to 32 kg, about 6', 'pause 15 s, about 4', 'hold 10 s'."""
    if piece.role == "drop":
        to = "drop to a lighter load" if piece.load.mass is None else f"drop to {load_text(piece.load, unit)}"
        return f"{to}, {_count(piece)}"
    if piece.role == "after a pause":
        return f"pause {time_text(piece.pause_before)}, {_count(piece)} more"
    if piece.role == "hold":
        return f"hold for {time_text(piece.hold or 0)}"
    if piece.role == "negatives":
        return f"{_count(piece)} negatives, lowering for {piece.seconds_per_rep} s"
    return f"{_count(piece)} repetitions {_ROLES[piece.role]}"


def _count(piece: Piece) -> str:
    return reps_text(piece.reps, None, piece.aim, projected=False)

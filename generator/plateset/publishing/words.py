"""How quantities are said on a page: masses, repetitions, times, efforts. One place, so that every page agrees."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from functools import lru_cache

from plateset.manuscript.quantities import Effort, Mass, Reps, Tempo
from plateset.manuscript.vocabulary import Unit
from plateset.publishing.language import ENGLISH, Language
from plateset.training.plan import Lift, Load, Piece
from plateset.training.sentences import Named, Sentence

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


def day_name(day: int, *, by_weekday: bool, language: Language = ENGLISH) -> str:
    """'Monday', or 'Day 1' where the author counts days; begins with a capital in every language."""
    if by_weekday:
        name = language.weekday(day)
        return name[:1].upper() + name[1:]
    return language.say("Day %(number)s") % {"number": day}


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


def mass_text(mass: Decimal, unit: Unit, language: Language = ENGLISH) -> str:
    """'62.5 kg'."""
    return f"{language.number(mass)} {unit}"


def time_text(seconds: int) -> str:
    """'90 s', '2 min', '2 min 30 s'."""
    minutes, rest = divmod(seconds, 60)
    if seconds < 120 and seconds != 60:
        return f"{seconds} s"
    return f"{minutes} min" if not rest else f"{minutes} min {rest} s"


def effort_text(effort: Effort | None, language: Language = ENGLISH) -> str:
    """'2 RIR', '3 to 1 RIR' over the sets, 'RPE 8' or 'to failure', as the author put it."""
    if effort is None:
        return ""
    if effort.written == "failure":
        return language.say("to failure")
    in_rpe = effort.written == "RPE"
    ends = [each for each in (effort.first, effort.rir) if each is not None]
    told = f" {language.say('to')} ".join(language.number(10 - each if in_rpe else each) for each in ends)
    return language.say("RPE %(number)s" if in_rpe else "%(number)s RIR") % {"number": told}


_TOGETHER = re.compile(r"(?<=\d) (?=(?:kg|lb|s|min)\b|%)|(?<=about) (?=\d)")


@lru_cache(maxsize=10_000)  # sets say the same few plans over and over
def kept_together(text: str) -> str:
    """The same words, with a space that no line ends at between a number and its unit: for pages and paper only.

    ``own-page.js`` does so too.
    """
    return _TOGETHER.sub("\u00a0", text)


def tempo_text(tempo: Tempo | None) -> str:
    """'3-1-1-0', with X for a fast lift."""
    if tempo is None:
        return ""
    lift = "X" if tempo.fast else str(tempo.lift)
    return f"{tempo.lower}-{tempo.bottom}-{lift}-{tempo.top}"


def rule_text(told: Iterable[Sentence], language: Language = ENGLISH) -> str:
    """'Add 2.5 kg each week.': what a reader goes by from week to week."""
    return " ".join(_sentence_text(each, language) for each in told)


def _sentence_text(told: Sentence, language: Language) -> str:
    phrase = language.count(told.phrase, told.many, told.count) if told.many else language.say(told.phrase)
    return phrase % {name: _named(value, language) for name, value in told.values}


def _named(value: Named, language: Language) -> str:
    if isinstance(value, Mass):
        return mass_text(value.amount, value.unit, language)
    return language.number(Decimal(value))


def load_text(load: Load, unit: Unit, language: Language = ENGLISH) -> str:
    """'62.5 kg', 'bodyweight', '+10 kg', '20 kg of help', 'by feel', or 'needs a max' for a share of an unknown one."""
    if load.basis.trouble == "no max":
        return language.say("needs a max")
    if load.mass is None:
        return language.say("by feel")
    if load.kind != "bodyweight":
        return mass_text(load.mass, unit, language)
    if load.mass > 0:
        return f"+{mass_text(load.mass, unit, language)}"
    if load.mass < 0:
        return language.say("%(mass)s of help") % {"mass": mass_text(-load.mass, unit, language)}
    return language.say("bodyweight")


def share_text(load: Load, percent: Decimal, language: Language = ENGLISH) -> str:
    """'72 % of max' after a back-off or a deload; on the body those leave a share of what is added alone."""
    kept = load.basis.share * load.basis.scale
    on_body = load.kind == "bodyweight" and kept != 1
    share = percent if on_body else (percent * kept).quantize(Decimal("0.1"))
    said = language.say("%(number)s %% of max") % {"number": language.number(share)}
    if not on_body:
        return said
    of_added = {"share": said, "kept": language.number((100 * kept).quantize(Decimal("0.1")))}
    return language.say("%(share)s, and of what that adds %(kept)s %%") % of_added


_PRINTED = {"ez-bar": "EZ bar"}
"""Names of kit that read otherwise than they are written in a manuscript."""


def kit_text(piece: str, language: Language = ENGLISH) -> str:
    """A piece of kit as it is printed: 'EZ bar' for 'ez-bar'."""
    return language.say(_PRINTED.get(piece, piece))


def bar_text(bar: str, language: Language = ENGLISH) -> str:
    """A bar by its name in a manuscript, as it is printed: 'EZ bar', 'safety squat bar'."""
    return kit_text(bar, language) if bar in _PRINTED else language.say(bar.replace("-", " "))


def plates_text(load: Load, language: Language = ENGLISH) -> str:
    """'20 + 2.5 each side', 'empty bar', or nothing where there are no plates."""
    if load.per_side is None:
        return ""
    if not load.per_side:
        return language.say("empty bar")
    return language.say("%(what)s each side") % {"what": " + ".join(map(language.number, load.per_side))}


def each_text(lift: Lift, language: Language = ENGLISH) -> str:
    """What the load is counted for, where it is not plain."""
    return language.say("each hand") if lift.note.implement == "dumbbell" and lift.note.dumbbells == 2 else ""


def reps_text(
    reps: Reps | None, hold: int | None, aim: int | None, *, projected: bool, language: Language = ENGLISH
) -> str:
    """'8–12', '9 (8–12)' where 9 is projected, '30 s' for a hold, or 'as many as form allows'."""
    if hold is not None:
        return time_text(hold)
    if reps is not None and not reps.open:
        written = range_text(reps.low, reps.high)
        told = projected and aim is not None and (reps.low != reps.high or aim > reps.high)
        return f"{aim} ({written})" if told else written
    about = language.say("about %(number)s") % {"number": aim}
    open_end = language.say("as many as form allows")
    if reps is None:
        return about if aim else open_end
    return f"{open_end} ({about})" if aim and aim > 1 else open_end


_ROLES = {
    "loose form": "%(count)s repetitions in loose form",
    "with help": "%(count)s repetitions with help",
    "short range": "%(count)s repetitions over a short range",
}


def piece_text(piece: Piece, unit: Unit, language: Language = ENGLISH) -> str:
    """A later piece of a set in a few words: 'drop to 32 kg, about 6', 'pause 15 s, about 4', 'hold 10 s'."""
    count = reps_text(piece.reps, None, piece.aim, projected=False, language=language)
    if piece.role == "drop":
        load = language.say("a lighter load") if piece.load.mass is None else load_text(piece.load, unit, language)
        return language.say("drop to %(load)s, %(count)s") % {"load": load, "count": count}
    if piece.role == "after a pause":
        told = {"time": time_text(piece.pause_before), "count": count}
        return language.say("pause %(time)s, %(count)s more") % told
    if piece.role == "hold":
        return language.say("hold for %(time)s") % {"time": time_text(piece.hold or 0)}
    if piece.role == "negatives":
        told = {"count": count, "time": f"{piece.seconds_per_rep} s"}
        return language.say("%(count)s negatives, lowering for %(time)s") % told
    return language.say(_ROLES[piece.role]) % {"count": count}

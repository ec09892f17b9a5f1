"""Quantities as a page says them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from plateset.manuscript.quantities import Effort, Reps, read_effort, read_reps, read_tempo
from plateset.manuscript.schema import Exercise, Linear
from plateset.publishing import words
from plateset.publishing.language import language_of
from plateset.training.plan import Basis, Lift, Load, LoadKind, Piece, PieceRole
from plateset.training.progression import LOADS_PROJECTED, RULES


def a_load(kind: LoadKind, mass: str | None, per_side: tuple[str, ...] | None = None) -> Load:
    amount = None if mass is None else Decimal(mass)
    plates = None if per_side is None else tuple(Decimal(plate) for plate in per_side)
    return Load(kind, amount, amount, plates, Basis("fixed"))


@pytest.mark.parametrize(
    ("day", "by_weekday", "said"),
    [(1, True, "Monday"), (7, True, "Sunday"), (1, False, "Day 1"), (7, False, "Day 7")],
)
def test_a_day(day: int, by_weekday: bool, said: str) -> None:
    assert words.day_name(day, by_weekday=by_weekday) == said


def test_a_number_and_its_unit_stay_on_one_line() -> None:
    assert words.kept_together("75 lb × 8, then 2 min 30 s; 8 or so") == "75~lb × 8, then 2~min 30~s; 8 or so".replace(
        "~", "\u00a0"
    )


@pytest.mark.parametrize(
    ("day", "said"),
    [
        (date(2026, 3, 2), "2 March 2026"),
        (date(2025, 12, 31), "31 December 2025"),
        (date(2024, 1, 1), "1 January 2024"),
    ],
)
def test_a_date(day: date, said: str) -> None:
    assert words.long_date(day) == said


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ([], ""),
        (["a"], "a"),
        (["a", "b"], "a and b"),
        (["a", "b", "c"], "a, b and c"),
        (["a", "b", "c", "d"], "a, b, c and d"),
    ],
)
def test_a_list(given: list[str], said: str) -> None:
    assert words.listed(given) == words.listed(tuple(given)) == said


@pytest.mark.parametrize(("low", "high", "said"), [(8, 12, "8–12"), (5, 5, "5"), (0, 1, "0–1")])
def test_a_range(low: int, high: int, said: str) -> None:
    assert words.range_text(low, high) == said


@pytest.mark.parametrize(
    ("mass", "said"), [("62.50", "62.5 kg"), ("100", "100 kg"), ("1E+2", "100 kg"), ("0.25", "0.25 kg"), ("0", "0 kg")]
)
def test_a_mass(mass: str, said: str) -> None:
    assert words.mass_text(Decimal(mass), "kg") == said
    assert words.mass_text(Decimal(mass), "lb") == said.replace("kg", "lb")


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (0, "0 s"),
        (15, "15 s"),
        (59, "59 s"),
        (60, "1 min"),
        (61, "61 s"),
        (90, "90 s"),
        (119, "119 s"),
        (120, "2 min"),
        (150, "2 min 30 s"),
        (3600, "60 min"),
    ],
)
def test_a_time(seconds: int, said: str) -> None:
    assert words.time_text(seconds) == said


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("2 RIR", "2 RIR"),
        ("1.5 RIR", "1.5 RIR"),
        ("0 RIR", "0 RIR"),
        ("RPE 8", "RPE 8"),
        ("8.5 RPE", "RPE 8.5"),
        ("to failure", "to failure"),
    ],
)
def test_an_effort_is_said_as_it_was_written(written: str, said: str) -> None:
    effort = read_effort(written)
    assert isinstance(effort, Effort)
    assert words.effort_text(effort) == said


def test_no_effort_and_no_tempo_say_nothing() -> None:
    assert words.effort_text(None) == words.tempo_text(None) == ""


@pytest.mark.parametrize("written", ["3-1-1-0", "2-0-X-1", "10-0-10-0"])
def test_a_tempo_is_said_as_it_was_written(written: str) -> None:
    assert words.tempo_text(read_tempo(written)) == written


@pytest.mark.parametrize(
    ("kind", "mass", "said"),
    [
        ("bar", "62.50", "62.5 kg"),
        ("dumbbell", "16", "16 kg"),
        ("bar", None, "by feel"),
        ("feel", None, "by feel"),
        ("bodyweight", "0", "bodyweight"),
        ("bodyweight", "10", "+10 kg"),
        ("bodyweight", "-20", "20 kg of help"),
        ("bodyweight", None, "by feel"),
    ],
)
def test_a_load(kind: LoadKind, mass: str | None, said: str) -> None:
    assert words.load_text(a_load(kind, mass), "kg") == said


@pytest.mark.parametrize(
    ("per_side", "said"),
    [(None, ""), ((), "empty bar"), (("20",), "20 each side"), (("20", "2.50", "1.25"), "20 + 2.5 + 1.25 each side")],
)
def test_plates(per_side: tuple[str, ...] | None, said: str) -> None:
    assert words.plates_text(a_load("bar", "60", per_side)) == said


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"implement": "dumbbell"}, "each hand"),
        ({"implement": "dumbbell", "dumbbells": 1}, ""),
        ({"implement": "barbell"}, ""),
        ({"implement": "cable", "sides": "one"}, ""),
        ({"implement": "dumbbell", "sides": "one"}, "each hand"),
    ],
)
def test_what_a_load_is_counted_for(more: dict[str, object], said: str) -> None:
    head = {"name": "It", "muscles": {"direct": ["quads"]}, "movement": "lunge"} | more
    note = Exercise.model_validate(head)
    lift = Lift("it", note, (0,), (), None, None, None, 0, None, (), False, "", "", "handbook")
    assert words.each_text(lift) == said


@pytest.mark.parametrize(
    ("reps", "hold", "aim", "projected", "said"),
    [
        ("8-12", None, 9, True, "9 (8–12)"),
        ("8-12", None, 9, False, "8–12"),
        (5, None, 5, True, "5"),
        ("8-12", None, None, True, "8–12"),
        ("as many as possible", None, 14, False, "as many as form allows (about 14)"),
        ("as many as possible", None, 1, False, "as many as form allows"),
        ("as many as possible", None, None, False, "as many as form allows"),
        (None, 30, None, False, "30 s"),
        (None, 150, None, False, "2 min 30 s"),
        (None, None, 4, False, "about 4"),
        (None, None, None, False, "as many as form allows"),
    ],
)
def test_repetitions(reps: object, hold: int | None, aim: int | None, projected: bool, said: str) -> None:
    read = None if reps is None else read_reps(reps)
    assert read is None or isinstance(read, Reps)
    assert words.reps_text(read, hold, aim, projected=projected) == said


@pytest.mark.parametrize(
    ("role", "more", "said"),
    [
        ("drop", {"aim": 6}, "drop to 32 kg, about 6"),
        ("after a pause", {"aim": 4, "pause_before": 15}, "pause 15 s, about 4 more"),
        ("hold", {"hold": 10}, "hold for 10 s"),
        ("negatives", {"reps": Reps(3, 3), "seconds_per_rep": 4}, "3 negatives, lowering for 4 s"),
        ("loose form", {"reps": Reps(3, 3)}, "3 repetitions in loose form"),
        ("with help", {"reps": Reps(2, 2)}, "2 repetitions with help"),
        ("short range", {"reps": Reps(5, 5)}, "5 repetitions over a short range"),
    ],
)
def test_a_later_piece_of_a_set(role: PieceRole, more: dict[str, object], said: str) -> None:
    usual: dict[str, object] = {"role": role, "load": a_load("stack", "32"), "reps": None, "aim": None}
    assert words.piece_text(Piece(**(usual | more)), "kg") == said  # type: ignore[arg-type]


PROGRESSIONS = """msgid ""
msgstr "Plural-Forms: nplurals=2; plural=(n != 1);\\n"

msgid "Add %(mass)s each week."
msgid_plural "Add %(mass)s every %(num)s weeks."
msgstr[0] "Legg til %(mass)s hver uke."
msgstr[1] "Hver %(num)s. uke: %(mass)s mer."

msgid "The loads shown are a projection."
msgstr "Lastene er et anslag."
"""


@pytest.mark.parametrize(
    ("rule", "english", "norwegian"),
    [
        ({"rule": "linear", "add": "2.5 kg"}, "Add 2.5 kg each week.", "Legg til 2,5 kg hver uke."),
        ({"rule": "linear", "add": "5 lb", "every": 3}, "Add 5 lb every 3 weeks.", "Hver 3. uke: 5 lb mer."),
    ],
)
def test_a_progression_is_told_in_the_language(rule: dict[str, object], english: str, norwegian: str) -> None:
    told = RULES["linear"].tell(Linear.model_validate(rule))
    assert words.rule_text(told) == english
    assert words.rule_text((*told, LOADS_PROJECTED), language_of("nb", (PROGRESSIONS.encode(),))) == (
        f"{norwegian} Lastene er et anslag."
    )

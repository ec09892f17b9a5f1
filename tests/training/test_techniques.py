"""What each technique makes of a set."""

from __future__ import annotations

from decimal import Decimal
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.manuscript.quantities import Reps
from plateset.manuscript.vocabulary import LEVELS, TechniqueName
from plateset.training.marks.safety import GROUP_LEVELS
from plateset.training.plan import Piece, WorkSet
from plateset.training.techniques import TECHNIQUES

from tests.training.building import last_set, lift_of, plain_or_feel, plan_of


def done(technique: str, line: str = "exercise: squat, sets: 2, reps: 10, load: 60 kg") -> tuple[Piece, ...]:
    return last_set(plan_of(f"{{{line}, last set: {{technique: {technique}}}}}")).pieces


def test_every_technique_is_a_group_or_in_the_table() -> None:
    assert set(TECHNIQUES) | set(GROUP_LEVELS) == set(get_args(TechniqueName))
    assert not set(TECHNIQUES) & set(GROUP_LEVELS)
    assert {technique.level for technique in TECHNIQUES.values()} <= set(LEVELS)


def test_without_a_technique_a_set_is_one_piece() -> None:
    work = last_set(plan_of("{exercise: squat, sets: 2, reps: 10, load: 60 kg}"))
    assert (len(work.pieces), work.technique, work.past_failure) == (1, None, False)


def test_last_set_only() -> None:
    lift = lift_of(plan_of("{exercise: squat, sets: 3, reps: 5, load: 60 kg, last set: {technique: partials}}"))
    assert [work.technique for work in lift.sets] == [None, None, "partials"]


def test_every_set() -> None:
    lift = lift_of(plan_of("{exercise: squat, sets: 2, reps: 5, load: 60 kg, every set: {technique: partials}}"))
    assert [len(work.pieces) for work in lift.sets] == [2, 2]


@pytest.mark.parametrize(
    ("name", "past"),
    [
        ("drop-set", True),
        ("rest-pause", True),
        ("cluster", False),
        ("negatives", True),
        ("loose-form", True),
        ("forced-reps", True),
        ("partials", True),
        ("isometric-hold", False),
        ("as-many-as-possible", False),
    ],
)
def test_which_go_past_failure(name: str, past: bool) -> None:
    line = f"{{exercise: squat, sets: 1, reps: 8, load: 60 kg, last set: {{technique: {name}}}}}"
    work: WorkSet = last_set(plan_of(line))
    assert (work.technique, work.past_failure) == (name, past)


@pytest.mark.parametrize(
    ("setting", "masses"),
    [
        ("drop-set", ["60", "47.5", "37.5"]),
        ("drop-set, drops: 1", ["60", "47.5"]),
        ("drop-set, drops: 3, of: first", ["60", "47.5", "35", "25"]),
        ("drop-set, drops: 1, reduce: 1 %", ["60", "57.5"]),
        ("drop-set, drops: 2, reduce: 60 %", ["60", "25", "20"]),
    ],
)
def test_drops(setting: str, masses: list[str]) -> None:
    pieces = done(setting)
    assert [plain_or_feel(piece.load) for piece in pieces] == masses
    assert [piece.role for piece in pieces] == ["work"] + ["drop"] * (len(masses) - 1)


def test_drops_show_their_plates() -> None:
    assert [piece.load.per_side for piece in done("drop-set")] == [
        (Decimal(20),),
        (Decimal(10), 2.5, 1.25),
        (Decimal(5), 2.5, 1.25),
    ]


def test_drops_end_by_feel_when_nothing_is_lighter() -> None:
    pieces = done("drop-set, drops: 2", "exercise: squat, sets: 1, reps: 10, load: 20 kg")
    assert [plain_or_feel(piece.load) for piece in pieces] == ["20", "by feel", "by feel"]
    assert pieces[1].load.basis.trouble == "not loadable"


def test_drop_repetitions_are_expected_not_asked() -> None:
    assert [(piece.reps, piece.aim) for piece in done("drop-set, drops: 1")] == [(Reps(10, 10), 10), (None, 6)]


def test_rest_pause_keeps_the_load_and_repeats_its_last_share() -> None:
    pieces = done("rest-pause, pauses: 4, pause: 20 s")
    assert [piece.aim for piece in pieces] == [10, 5, 3, 3, 3]
    assert [piece.pause_before for piece in pieces] == [0, 20, 20, 20, 20]
    assert {piece.load for piece in pieces} == {pieces[0].load}


def test_shares_never_fall_below_one_repetition() -> None:
    pieces = done("rest-pause", "exercise: squat, sets: 1, reps: 1, load: 60 kg")
    assert [piece.aim for piece in pieces] == [1, 1, 1]


@given(st.integers(1, 100), st.integers(2, 6))
def test_cluster_shares_out_every_repetition(reps: int, pieces: int) -> None:
    found = done(f"cluster, pieces: {pieces}", f"exercise: squat, sets: 1, reps: {reps}, load: 60 kg")
    sizes = [piece.aim or 0 for piece in found]
    assert sum(sizes) == reps
    assert len(sizes) == min(pieces, reps)
    assert sizes == sorted(sizes, reverse=True)
    assert max(sizes) - min(sizes) <= 1
    assert [piece.reps for piece in found] == [Reps(size, size) for size in sizes]


def test_negatives() -> None:
    added = done("negatives, reps: 4, lowering: 5 s")[1]
    assert (added.role, added.aim, added.seconds_per_rep, added.pause_before) == ("negatives", 4, 5, 0)


@pytest.mark.parametrize(
    ("name", "role", "usual"),
    [("loose-form", "loose form", 3), ("forced-reps", "with help", 2), ("partials", "short range", 5)],
)
def test_more_repetitions_at_the_end(name: str, role: str, usual: int) -> None:
    first, added = done(name)
    assert (added.role, added.aim, added.load) == (role, usual, first.load)
    assert done(f"{name}, reps: 1")[1].aim == 1


def test_hold_at_the_end() -> None:
    first, added = done("isometric-hold, hold: 12 s")
    assert (added.role, added.load, added.hold, added.reps, added.aim) == ("hold", first.load, 12, None, None)


def test_as_many_as_possible_opens_the_last_set() -> None:
    (piece,) = done("as-many-as-possible")
    assert piece.reps == Reps(10, 10, open=True)
    assert piece.aim == 10


def test_techniques_on_a_hold_add_pieces_without_repetitions() -> None:
    pieces = done("drop-set, drops: 1", "exercise: squat, sets: 1, hold: 20 s, load: 60 kg")
    assert [(piece.hold, piece.aim) for piece in pieces] == [(20, None), (None, None)]


def test_a_technique_waits_for_its_week() -> None:
    line = "{exercise: pushdown, sets: 2, reps: 8, load: 20 kg, last set: {technique: rest-pause, from week: 3}}"
    found = plan_of(line, more="weeks: 4")
    assert [last_set(found, week).technique for week in (1, 2, 3, 4)] == [None, None, "rest-pause", "rest-pause"]


@pytest.mark.parametrize(
    ("setting", "role", "reps"),
    [
        ("loose-form, reps: 2", "loose form", 2),
        ("forced-reps, reps: 3", "with help", 3),
        ("partials, reps: 6", "short range", 6),
        ("negatives, reps: 4, lowering: 5 s", "negatives", 4),
    ],
)
def test_repetitions_after_the_set_are_those_the_author_says(setting: str, role: str, reps: int) -> None:
    line = f"{{exercise: curl, sets: 1, reps: 8, load: 10 kg, every set: {{technique: {setting}}}}}"
    first, then = lift_of(plan_of(line)).sets[0].pieces
    assert (then.role, then.load, then.reps, then.aim) == (role, first.load, Reps(reps, reps), reps)


@pytest.mark.parametrize("setting", ["rest-pause, pauses: 2", "cluster, pieces: 3"])
def test_pieces_after_a_pause_say_so(setting: str) -> None:
    line = f"{{exercise: curl, sets: 1, reps: 9, load: 10 kg, every set: {{technique: {setting}}}}}"
    assert [piece.role for piece in lift_of(plan_of(line)).sets[0].pieces] == ["work", "after a pause", "after a pause"]


def test_as_many_as_possible_on_a_set_with_a_goal_and_on_one_without() -> None:
    line = "{exercise: curl, sets: 1, REPS, load: 10 kg, every set: {technique: as-many-as-possible}}"
    (goal,) = lift_of(plan_of(line.replace("REPS", "reps: 8-10"))).sets[0].pieces
    (hold,) = lift_of(plan_of(line.replace("REPS", "hold: 20 s"))).sets[0].pieces
    assert goal.reps == Reps(8, 10, open=True)
    assert hold.reps == Reps(1, 1, open=True)


def test_drops_of_the_first_load_are_shares_of_it() -> None:
    setting = "every set: {technique: drop-set, drops: 2, reduce: 33 %, of: first}"
    line = f"{{exercise: sled, sets: 1, reps: 8, load: 100 kg, {setting}}}"
    loads = [piece.load for piece in lift_of(plan_of(line, more="example lifter: {}")).sets[0].pieces]
    assert [load.exact for load in loads[1:]] == [Decimal("67.00"), Decimal("34.00")]

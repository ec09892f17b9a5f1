"""A plan with the lifter left open, and the gyms a reader may choose."""

from __future__ import annotations

from decimal import Decimal

import pytest
from plateset.manuscript.schema import Loading
from plateset.training.gym import Gym, gym_of
from plateset.training.reader_gym import DUMBBELLS, PLATES, STACK, UNITS, GymChoice, joined, loading_of, reader_gym
from plateset.training.reader_loads import (
    Drop,
    Each,
    LiftToAsk,
    Makings,
    OpenLift,
    OpenLine,
    OpenPlan,
    OpenSet,
    open_plan,
)
from plateset.training.rounding import bar_steps

from tests.training.building import exercises, plan, program, read, site

BORROWED = "close-bench: {name: Close bench, muscles: {direct: [triceps]}, movement: horizontal push, implement: barbell, max from: {exercise: bench, share: 90 %}}"  # fmt: skip # noqa: E501


def opened(*lines: str, more: str = "") -> OpenPlan:
    text = "sessions:\n  a:\n" + "".join(f"    - {line}\n" for line in lines) + more
    notes = exercises(BORROWED)
    return open_plan(plan(text, exercises_more=BORROWED), site(), notes)


def lift(of: OpenPlan, week: int = 1, place: int = 0) -> OpenLift:
    return [each for line in of.sessions[week - 1][0] for each in line.lifts][place]


def asked(of: OpenPlan, name: str) -> LiftToAsk:
    return next(each for each in of.lifts if each.exercise == name)


def test_a_share_of_the_max_with_what_progression_adds() -> None:
    line = "{exercise: squat, sets: 2, reps: 5, load: 75 %, progression: {rule: linear, add: 2.5 kg}}"
    made = lift(opened(line, more="weeks: 3\n"), week=3).sets[0]
    assert made.known[0] == Makings(Decimal(75), 0, Decimal(5))
    assert made.known[1] is not None
    assert made.known[1].plus == Decimal(5) / Decimal("0.45359237")
    assert made.unknown == (None, None)


def test_back_offs_and_deloads_keep_their_shares_apart() -> None:
    line = "{exercise: squat, sets: 1, reps: 3, load: 80 %, back-off: {sets: 1, load: 85 %, reps: 6}}"
    made = lift(opened(line, more="weeks: 2\ndeload: {weeks: [2], load: 90 %}\n"), week=2).sets[-1].known[0]
    assert made == Makings(Decimal(80), 0, Decimal(0), Decimal("0.85"), Decimal("0.9"))


def test_on_the_body_the_bodyweight_comes_off() -> None:
    found = opened("{exercise: pull-up, sets: 1, reps: 5, effort: 2 RIR}")
    assert lift(found).sets[0].known[0] == Makings(Decimal(83), -1, Decimal(0))
    assert lift(found).sets[0].unknown[0] == Makings(None, 0, Decimal(0))


def test_a_mass_for_everyone_asks_for_nothing() -> None:
    found = opened("{exercise: squat, sets: 1, reps: 5, load: 62.5 kg}")
    assert lift(found).sets[0].known == lift(found).sets[0].unknown
    assert not any(each.matters for each in found.lifts)


def test_a_body_under_an_implement_counts() -> None:
    made = lift(opened("{exercise: sled, sets: 1, reps: 5, load: bodyweight + 10 kg}")).sets[0].known[0]
    assert made == Makings(None, 1, Decimal(10))


@pytest.mark.parametrize(("of", "drops"), [("previous", (False, "0.75", "0.75")), ("first", (True, "0.75", "0.50"))])
def test_drops_are_shares_of_the_first_or_of_the_one_before(of: str, drops: tuple[bool, str, str]) -> None:
    technique = f"{{technique: drop-set, drops: 2, reduce: 25 %, of: {of}}}"
    found = opened(f"{{exercise: squat, sets: 2, reps: 8, load: 70 %, last set: {technique}}}")
    of_first, one, two = drops
    assert lift(found).sets[0].pieces == ()
    assert lift(found).sets[1].pieces == (Drop(of_first, Decimal(one)), Drop(of_first, Decimal(two)))


WHOLE = """
schedule: {mon: a, wed: b}
sessions:
  a:
    - superset:
        - {exercise: bench, sets: 1, reps: 5, load: 70 %}
        - {exercise: curl, sets: 2, reps: 8, load: 50 %, last set: {technique: rest-pause, pauses: 1}}
    - pick one:
        - {exercise: close-bench, sets: 1, reps: as many as possible, load: 60 %, range of motion: top half}
        - {exercise: push-up, sets: 1, reps: 10}
  b:
    - {exercise: squat, sets: 1, reps: 5, load: 60 kg, warm-up sets: [{load: 50 %, reps: 4}]}
    - {exercise: ez-curl, sets: 1, reps: 5, effort: 2 RIR}
"""
EZ_CURL = "ez-curl: {name: EZ curl, muscles: {direct: [biceps]}, movement: elbow flexion, implement: barbell, bar: ez-bar, curve: epley}"  # fmt: skip # noqa: E501


def one_set(known: Each, unknown: Each = (None, None), *, counted: bool = False) -> OpenSet:
    return OpenSet(known, unknown, (), counted)


def share_of_max(percent: str) -> Each:
    makings = Makings(Decimal(percent), 0, Decimal(0))
    return makings, makings


def test_every_lift_of_a_plan_is_handed_on_where_it_stands() -> None:
    notes = f"{BORROWED}\n{EZ_CURL}"
    found = open_plan(plan(WHOLE, exercises_more=notes), site(), exercises(notes))
    body: Each = (Makings(None, 0, Decimal(0)), Makings(None, 0, Decimal(0)))
    # 60 kg are 132.28 lb, to a hundredth.
    mass: Each = (Makings(None, 0, Decimal(60)), Makings(None, 0, Decimal("132.28")))
    paused = OpenSet(share_of_max("50"), (None, None), (None,), counted=False)
    monday = (
        OpenLine(
            False,
            (
                OpenLift("bench", (one_set(share_of_max("70")),), True, True, (), False),
                OpenLift("curl", (one_set(share_of_max("50")), paused), True, True, (), False),
            ),
        ),
        OpenLine(
            True,
            (
                OpenLift("close-bench", (one_set(share_of_max("60"), counted=True),), True, False, (), False),
                OpenLift("push-up", (one_set(body, body),), True, True, (), False),
            ),
        ),
    )
    wednesday = (
        OpenLine(False, (OpenLift("squat", (one_set(mass, mass),), True, True, ((Decimal(50), 4),), True),)),
        # Seven to failure by Epley: 1 / (1 + 7 / 30).
        OpenLine(False, (OpenLift("ez-curl", (one_set(share_of_max("81.08")),), True, True, (), False),)),
    )
    assert (found.unit, found.sessions) == ("kg", ((monday, wednesday),))


def test_every_lift_is_asked_about_as_it_is_loaded() -> None:
    notes = f"{BORROWED}\n{EZ_CURL}"
    found = open_plan(plan(WHOLE, exercises_more=notes), site(), exercises(notes)).lifts
    assert [(each.exercise, each.kind, each.bar, each.curve, len(each.percents)) for each in found] == [
        ("bench", "bar", "barbell", "handbook", 15),
        ("curl", "dumbbell", "barbell", "handbook", 15),
        ("close-bench", "bar", "barbell", "handbook", 15),
        ("push-up", "bodyweight", "barbell", "handbook", 15),
        ("squat", "bar", "barbell", "handbook", 15),
        ("ez-curl", "bar", "ez-bar", "epley", 10),
    ]
    # The example lifter has a best for the bench, the curl and the squat; the squat's load is a mass.
    assert [(each.exercise, each.of, each.share, each.main) for each in found if each.matters] == [
        ("bench", "", None, True),
        ("curl", "", None, True),
        ("close-bench", "bench", Decimal(90), False),
        ("ez-curl", "", None, False),
    ]


def test_a_lift_with_a_best_of_its_own_rests_on_that() -> None:
    lifter = "example lifter: {bests: {bench: 100 kg x 1, close-bench: 80 kg x 1}}\n"
    found = opened("{exercise: close-bench, sets: 1, reps: 5, load: 70 %}", more=lifter)
    assert [(each.exercise, each.matters, each.main) for each in found.lifts] == [
        ("close-bench", True, True),
        ("bench", True, False),
    ]


def test_a_mass_asked_of_the_body_is_what_is_moved() -> None:
    more = "weeks: 2\ndeload: {weeks: [2], load: 90 %}\n"
    line = "{exercise: pull-up, sets: 1, reps: 3, load: 100 kg, back-off: {sets: 1, load: 80 %, reps: 6}}"
    made = [each.known[0] for each in lift(opened(line, more=more), week=2).sets]
    assert made == [
        Makings(None, -1, Decimal(100), Decimal(1), Decimal("0.9")),
        Makings(None, -1, Decimal(100), Decimal("0.8"), Decimal("0.9")),
    ]


@pytest.mark.parametrize(
    ("of_program", "of_site", "steps"),
    [
        ("[{load: 50 %, reps: 4}]", "[{load: 60 %, reps: 2}]", [(50, 4)]),
        ("null", "[{load: 60 %, reps: 2}]", [(60, 2)]),
        ("null", "null", [(40, 8), (60, 5), (80, 3)]),
    ],
)
def test_warm_up_steps_are_the_programs_the_sites_or_the_usual(
    of_program: str, of_site: str, steps: list[tuple[int, int]]
) -> None:
    text = f"warm-up sets: {of_program}\nsessions: {{a: [{{exercise: squat, sets: 1, reps: 5, load: 90 %}}]}}"
    home = f"warm-up sets: {of_site}"
    found = lift(open_plan(plan(text, site_more=home), site(home), exercises()))
    assert (found.steps, found.own_steps) == (tuple((Decimal(load), reps) for load, reps in steps), False)


def test_a_lift_taken_from_another_asks_for_both() -> None:
    found = opened("{exercise: close-bench, sets: 1, reps: 5, load: 70 %}")
    assert (asked(found, "close-bench").matters, asked(found, "close-bench").main) == (True, False)
    assert (asked(found, "bench").matters, asked(found, "bench").main) == (True, True)
    assert asked(found, "close-bench").share == Decimal(90)
    assert asked(found, "bench").percents[:2] == (Decimal(100), Decimal(95))


def test_a_cap_and_warm_up_steps_are_handed_on() -> None:
    line = "{exercise: squat, sets: 1, reps: 1, load: 104 %, above max: allowed}"
    found = lift(opened(line, "{exercise: bench, sets: 1, reps: 5, load: 70 %, warm-up sets: none}"))
    assert not found.capped
    assert found.steps == ()
    usual = lift(
        opened("{exercise: squat, sets: 1, reps: 1, load: 90 %}", more="warm-up sets: [{load: 50 %, reps: 4}]\n")
    )
    assert (usual.steps, usual.own_steps, usual.capped) == (((Decimal(50), 4),), False, True)


# -- gyms ------------------------------------------------------------------------------------------

OWN = Loading.model_validate(read("{bars: {barbell: 18 kg}, plates: [10 kg, 3 kg], rounding: down, collars: 2 kg}"))


def test_the_programs_own_gym_stands_where_nothing_is_chosen() -> None:
    assert reader_gym(OWN, "kg", GymChoice("kg")) == gym_of(Loading(), OWN, "kg")


def test_in_the_other_unit_the_usual_gym_stands_but_the_rounding_stays() -> None:
    gym = reader_gym(OWN, "kg", GymChoice("lb"))
    assert gym.bar("barbell") == 45
    assert gym.rounding == "down"


def test_parts_are_chosen_one_by_one() -> None:
    gym = reader_gym(OWN, "kg", GymChoice("kg", plates="1.25", dumbbells="2.5", bars=(("barbell", Decimal(15)),)))
    assert gym.smallest_plate == Decimal("1.25")
    assert gym.dumbbells.masses[:2] == (Decimal("2.5"), Decimal(5))
    assert gym.bar("barbell") == 15
    assert gym.collars == 2


def test_small_discs_and_another_stack_leave_the_rest_as_it_is() -> None:
    own = OWN.model_copy(update={"add_ons": Loading.model_validate(read("add-ons: [1 kg]")).add_ons})
    gym = reader_gym(own, "kg", GymChoice("kg", plates="0.5", stack="10"))
    assert gym.smallest_plate == Decimal("0.5")
    # A stack of their own comes without the weights that hang on the program's.
    assert gym.stack.masses == tuple(Decimal(10) * count for count in range(1, 13))
    assert (gym.bar("barbell"), gym.collars, gym.rounding) == (Decimal(18), Decimal(2), "down")


@pytest.mark.parametrize(
    ("program", "first"),
    [
        ("collars: 2 kg", ["4", "5", "8"]),
        ("add-ons: [2 kg]", ["4", "6", "8"]),
        ("stack: {from: 10 kg, to: 40 kg, step: 10 kg}", ["10", "20", "30"]),
        ("{stack: {from: 10 kg, to: 40 kg, step: 10 kg}, add-ons: [2 kg]}", ["10", "12", "20"]),
    ],
)
def test_weights_hang_on_the_stack_they_were_named_with(program: str, first: list[str]) -> None:
    there = Loading.model_validate(read("{stack: {from: 4 kg, to: 40 kg, step: 4 kg}, add-ons: [1 kg]}"))
    here = Loading.model_validate(read(program))
    found = reader_gym(joined(there, here), "kg", GymChoice("kg")).stack
    assert found == gym_of(there, here, "kg").stack
    assert list(found.masses[:3]) == [Decimal(mass) for mass in first]


@pytest.mark.parametrize("unit", UNITS)
def test_every_choice_can_load_something(unit: str) -> None:
    chosen: list[Gym] = []
    for known in UNITS:
        if known == unit:
            chosen += [reader_gym(Loading(), known, GymChoice(known, plates=each)) for each in PLATES[known]]
            chosen += [reader_gym(Loading(), known, GymChoice(known, dumbbells=each)) for each in DUMBBELLS[known]]
            chosen += [reader_gym(Loading(), known, GymChoice(known, stack=each)) for each in STACK[known]]
    for gym in chosen:
        steps = bar_steps(gym.bar("barbell"), gym.collars, gym.plates).masses
        assert steps[1] - steps[0] == 2 * gym.smallest_plate
        assert gym.dumbbells.masses
        assert gym.stack.masses


def test_a_sites_loading_gives_way_to_the_programs_part_by_part() -> None:
    there = Loading.model_validate(read("{bars: {barbell: 15 kg}, stack: {from: 4 kg, to: 40 kg, step: 4 kg}}"))
    both = joined(there, OWN)
    assert gym_of(Loading(), both, "kg") == gym_of(there, OWN, "kg")
    assert loading_of(both, "kg", GymChoice("kg", stack="10")).add_ons is None
    assert program("sessions: {a: [{exercise: plank, sets: 1, hold: 20 s}]}").loading == Loading()

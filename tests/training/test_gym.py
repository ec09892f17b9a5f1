"""What a gym can load, from site and program."""

from __future__ import annotations

from decimal import Decimal

from plateset.manuscript.schema import Loading
from plateset.training.gym import gym_of

from tests.training.building import gym, read

D = Decimal


def loading(text: str) -> Loading:
    return Loading.model_validate(read(text))


def test_program_parts_replace_the_sites() -> None:
    home = loading("{collars: 5 kg, plates: [20 kg, 10 kg], rounding: down, bars: {barbell: 20 kg}}")
    found = gym_of(home, loading("{plates: [15 kg], rounding: nearest}"), "kg")
    assert found.plates == ((D(15), None),)
    assert (found.collars, found.rounding, found.bar("barbell")) == (D(5), "nearest", D(20))


def test_plates_are_sorted_and_keep_their_pairs() -> None:
    assert gym("plates: {5 kg: 2, 20 kg: 1, 10 kg: 0}").plates == ((D(20), 1), (D(10), 0), (D(5), 2))


def test_smallest_plate_is_one_there_is() -> None:
    assert gym("plates: {5 kg: 2, 1.25 kg: 0}").smallest_plate == 5


def test_masses_are_in_the_programs_unit() -> None:
    found = gym("{unit: lb, plates: [10 kg], dumbbells: [5 kg]}")
    # 22.0462 and 11.0231 lb, to a hundredth.
    assert found.plates[0][0] == D("22.05")
    assert found.dumbbells.masses == (D("11.02"),)


def test_steps_are_counted_in_their_own_unit() -> None:
    # Converted one by one: a hundred small steps do not add up their rounding.
    found = gym("{unit: lb, stack: {from: 5 kg, to: 100 kg, step: 5 kg}}").stack
    assert (len(found.masses), found.masses[0], found.masses[-1]) == (20, D("11.02"), D("220.46"))


def test_unknown_bar_is_the_plain_one() -> None:
    assert gym("bars: {barbell: 20 kg, short: 8 kg}").bar("trap") == 20
    assert gym("bars: {short: 8 kg}").bar("trap") == 20
    assert gym("bars: {barbell: 20 kg, short: 8 kg}").bar("short") == 8


def test_a_bar_the_gym_does_not_name_weighs_what_its_plain_bar_weighs() -> None:
    assert gym("bars: {barbell: 15 kg, short: 8 kg}").bar("trap") == 15


def test_what_is_given_in_the_programs_unit_stays_as_it_is() -> None:
    assert gym("plates: [10 kg, 0.125 kg]").plates == ((D(10), None), (D("0.125"), None))


def test_plates_of_two_units_may_weigh_the_same() -> None:
    # 10 kg are 22.05 lb, to a hundredth: one pair of the one, as many as wanted of the other.
    found = gym("{unit: lb, plates: {10 kg: 1, 22.05 lb: null}}").plates
    assert found == ((D("22.05"), 1), (D("22.05"), None))


def test_loads_are_rounded_to_the_nearest_where_nothing_is_said() -> None:
    assert gym().rounding == "nearest"


def test_rack_as_list_or_steps() -> None:
    assert gym("dumbbells: [12 kg, 4 kg, 8 kg]").dumbbells.masses == (D(4), D(8), D(12))
    assert gym("stack: {from: 5 kg, to: 16 kg, step: 5 kg}").stack.masses == (D(5), D(10), D(15))


def test_add_ons_hang_on_every_pin_once() -> None:
    found = gym("{stack: {from: 5 kg, to: 15 kg, step: 5 kg}, add-ons: [1.25 kg, 2.5 kg]}").stack
    assert found.masses[:5] == (D(5), D("6.25"), D("7.5"), D("8.75"), D(10))
    assert found.masses[-1] == D("18.75")


def test_a_programs_add_ons_replace_the_sites() -> None:
    site, program = (Loading.model_validate(read(text)) for text in ("add-ons: [2.5 kg]", "add-ons: [1 kg]"))
    assert gym_of(site, program, "kg").stack.masses[:3] == (D(5), D(6), D(10))


def test_a_stack_of_the_programs_own_has_no_weights_of_the_sites() -> None:
    site, program = (
        Loading.model_validate(read(text))
        for text in ("add-ons: [2.5 kg]", "stack: {from: 10 lb, to: 50 lb, step: 10 lb}")
    )
    assert gym_of(site, program, "lb").stack.masses == (D(10), D(20), D(30), D(40), D(50))

"""Programs for tests, from the words an author would write: only what a test is about has to be given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plateset.manuscript.positions import read_yaml
from plateset.manuscript.quantities import FixedLoad, LoadSpec, Mass, read_best, read_load
from plateset.manuscript.schema import Exercise, Loading, Program, Site
from plateset.training.expand import plan_program
from plateset.training.gym import Gym, gym_of
from plateset.training.loads import Lifting
from plateset.training.marks.mark import Case, Mark, MarkRule
from plateset.training.maxes import max_from_set
from plateset.training.plan import Lift, Load, Plan, Session, WorkSet
from plateset.training.volume import program_volume

EXERCISES = """
squat: {name: Squat, muscles: {direct: [quads], indirect: [glutes]}, movement: squat, implement: barbell}
bench: {name: Bench, muscles: {direct: [chest], indirect: [triceps]}, movement: horizontal push, implement: barbell}
curl: {name: Curl, muscles: {direct: [biceps]}, movement: elbow flexion, implement: dumbbell}
one-curl: {name: One-hand curl, muscles: {direct: [biceps]}, movement: elbow flexion, implement: dumbbell,
  dumbbells: 1, sides: one}
pushdown: {name: Pushdown, muscles: {direct: [triceps]}, movement: elbow extension, implement: cable}
pull-up: {name: Pull-up, muscles: {direct: [lats], indirect: {biceps: 0.5}}, movement: vertical pull,
  implement: bodyweight}
push-up: {name: Push-up, muscles: {direct: [chest]}, movement: horizontal push, implement: bodyweight,
  bodyweight share: 65 %}
band-pull: {name: Band pull, muscles: {direct: [rear delts]}, movement: fly, implement: band}
sled: {name: Sled, muscles: {direct: [quads]}, movement: carry, implement: other}
plank: {name: Plank, muscles: {direct: [abs]}, movement: trunk, implement: bodyweight}
"""

LIFTER = "{bodyweight: 80 kg, bests: {squat: 100 kg x 1, bench: 100 kg x 1, curl: 20 kg x 1, sled: 60 kg x 1}}"


def read(text: str) -> dict[str, Any]:
    """YAML as authors' files are read; a fault in a test's own text is an error."""
    marked = read_yaml(text)
    assert not marked.faults, marked.faults
    data: dict[str, Any] = marked.data or {}
    return data


def exercises(more: str = "") -> dict[str, Exercise]:
    """The exercises above, with those of ``more`` in place of or beside them."""
    heads = read(EXERCISES) | read(more)
    return {name: Exercise.model_validate(head) for name, head in heads.items()}


def site(more: str = "") -> Site:
    """A site; ``more`` are keys of its file."""
    return Site.model_validate({"title": "A site", "author": {"name": "A coach"}} | read(more))


def program(text: str) -> Program:
    """A program of one week with session ``a`` on Monday and no warm-up sets, unless ``text`` says otherwise."""
    usual: dict[str, Any] = {
        "title": "A program",
        "summary": "For a test.",
        "level": "advanced",
        "goal": "strength",
        "weeks": 1,
        "date": "2026-01-05",
        "suits": ["Tests"],
        "not for": ["Anything else"],
        "schedule": {"mon": "a"},
        "example lifter": read(LIFTER),
        "warm-up sets": "none",
    }
    return Program.model_validate(usual | read(text))


def plan(text: str, *, site_more: str = "", exercises_more: str = "") -> Plan:
    """The program of ``text`` expanded."""
    return plan_program("it", program(text), site(site_more), exercises(exercises_more))


def plan_of(*lines: str, more: str = "", site_more: str = "", exercises_more: str = "") -> Plan:
    """A program whose only session holds ``lines``, each written as a YAML mapping in braces."""
    text = "sessions:\n  a:\n" + "".join(f"    - {line}\n" for line in lines) + more
    return plan(text, site_more=site_more, exercises_more=exercises_more)


def session_of(found: Plan, week: int = 1, place: int = 0) -> Session:
    """A session of a week; the week counts from 1."""
    return found.weeks[week - 1].sessions[place]


def lift_of(found: Plan, week: int = 1, place: int = 0) -> Lift:
    """A lift of the first session of a week."""
    return session_of(found, week).lifts[place]


def load_of(found: Plan, week: int = 1, place: int = 0) -> Load:
    """The load of a lift's first set."""
    return lift_of(found, week, place).sets[0].pieces[0].load


def last_set(found: Plan, week: int = 1, place: int = 0) -> WorkSet:
    """The last set of a lift."""
    return lift_of(found, week, place).sets[-1]


def masses(found: Plan, place: int = 0) -> list[str]:
    """What is lifted in the first set of a lift, week by week, as text."""
    return [plain_or_feel(load_of(found, week.number, place)) for week in found.weeks]


def plain_or_feel(load: Load) -> str:
    """The mass of a load without trailing zeros."""
    return "by feel" if load.mass is None else f"{load.mass.normalize():f}"


def case(found: Plan, site_more: str = "", techniques: Mapping[str, Any] | None = None) -> Case:
    """What the proof looks at, for a plan."""
    home = site(site_more)
    return Case(found, program_volume(found), home.limits, techniques or {}, home.cautions)


def marks_by(rule: MarkRule, found: Plan, site_more: str = "") -> list[Mark]:
    """The marks of one rule."""
    return list(rule(case(found, site_more)))


def gym(text: str = "") -> Gym:
    """A gym with the loading of ``text``; kilograms unless it holds ``unit: lb``."""
    data = read(text)
    unit = data.pop("unit", "kg")
    return gym_of(Loading.model_validate(data), Loading(), unit)


def lifting(name: str, best: str | None = None, *, loading: str = "", bodyweight: str | None = None) -> Lifting:
    """An exercise for a lifter whose one recorded set is ``best``."""
    place = gym(loading)
    body = None if bodyweight is None else _mass(read_load(bodyweight)).to(place.unit)
    known = None
    if best is not None:
        done = read_best(best)
        load = _mass(done.load).to(place.unit)
        known = max_from_set(name, load, done.reps, "handbook")
    return Lifting(exercises()[name], place, known, body, "handbook")


def _mass(load: LoadSpec) -> Mass:
    assert isinstance(load, FixedLoad)
    return load.mass

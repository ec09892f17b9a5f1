"""A program's page with what a reader needs to get loads of their own: what is asked, and the scripts prepared."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import partial

from plateset.manuscript.library import Manuscript
from plateset.manuscript.quantities import Mass
from plateset.manuscript.schema import Exercise, Loading
from plateset.manuscript.vocabulary import Unit
from plateset.publishing import paths
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.program_view import Program
from plateset.publishing.reader_script import gym_data, parts_script, plan_data, script
from plateset.publishing.views import AskedLift, GymParts, OwnLoadsView, ProgramView, SessionView
from plateset.publishing.words import bar_text
from plateset.remembering import Remembered, each_once
from plateset.training.marks.mark import plain
from plateset.training.plan import Plan
from plateset.training.reader_gym import DUMBBELLS, PLATES, STACK, UNITS, GymChoice, joined, reader_gym
from plateset.training.reader_loads import LiftToAsk, OpenLift, OpenPlan, open_plan
from plateset.training.strength import CURVES

Files = dict[str, bytes]

WELL_KNOWN = {"bar", "bodyweight"}
"""How lifts are loaded whose maxes people know."""

DOUBTFUL = 3
"""From how many times the example lifter's max on a slip of the finger is likelier: the reader is asked once."""


def with_own_loads(
    program: Program, view: ProgramView, manuscript: Manuscript, language: Language = ENGLISH
) -> tuple[ProgramView, Files]:
    """The view with what a reader is asked, and the scripts its pages may load; both as before if nothing is asked."""
    plan, site = program.plan, manuscript.site.head
    exercises = _exercises_of(program, manuscript)
    opened = open_plan(plan, site, exercises)
    if not any(lift.matters for lift in opened.lifts):
        return view, {}
    own = joined(site.loading, plan.program.loading)
    used = {lift.exercise for lift in _lifts(opened)}
    done = [lift for lift in opened.lifts if lift.exercise in used]
    data, numbers = plan_data(plan, opened, reader_gym(own, plan.unit, GymChoice(plan.unit)), exercises, language)
    files: Files = {}
    matter = [lift for lift in _best_known_first(opened.lifts) if lift.matters]
    asked = OwnLoadsView(
        unit=plan.unit,
        script=_kept(script(data), files, plan.slug),
        main=tuple(_asked(lift, plan, exercises) for lift in matter if lift.main),
        more=tuple(_asked(lift, plan, exercises) for lift in matter if not lift.main),
        body=_needs_body(opened),
        units=tuple(_parts(program, own, done, files, language)),
        kinds=tuple(sorted({lift.kind for lift in done})),
        curve=CURVES[plan.curve].title,
    )
    met: Remembered[SessionView] = Remembered()

    def numbered(session: SessionView, number: int) -> SessionView:
        return met.get((session, str(number)), partial(replace, session, open_as=number))

    weeks = tuple(
        replace(week, sessions=tuple(map(numbered, week.sessions, here)))
        for week, here in zip(view.weeks, numbers, strict=True)
    )
    return replace(view, own_loads=asked, weeks=weeks), files


def _exercises_of(program: Program, manuscript: Manuscript) -> dict[str, Exercise]:
    """The notes a reader's loads hang on: of what is done, of recorded sets, of lifts that a max is taken from."""
    plan = program.plan
    done = {lift.exercise for week in plan.weeks for session in week.sessions for lift in session.lifts}
    named = done | set(plan.program.example_lifter.bests)
    sources = {note.max_from.exercise for name in named if (note := manuscript.exercises[name].head).max_from}
    return {name: manuscript.exercises[name].head for name in sorted(named | sources)}


def _kept(made: tuple[str, bytes], files: Files, slug: str) -> str:
    name, text = made
    path = paths.prepared(slug, name)
    files[path] = text
    return path


def _best_known_first(lifts: Iterable[LiftToAsk]) -> list[LiftToAsk]:
    """Lifts with a bar and on the body first: those whose maxes people know."""
    return sorted(lifts, key=lambda lift: lift.kind not in WELL_KNOWN)


def _asked(lift: LiftToAsk, plan: Plan, exercises: Mapping[str, Exercise]) -> AskedLift:
    note = exercises[lift.exercise]
    of = "" if lift.share is None else f"{plain(lift.share)} % of {exercises[lift.of].name.lower()}"
    both = note.implement == "dumbbell" and note.dumbbells == 2
    return AskedLift(
        lift.exercise,
        note.name,
        lift.kind == "bodyweight",
        "each hand" if both else "",
        len(lift.percents),
        of,
        lift.kind in WELL_KNOWN,
        tuple(_doubt(lift.exercise, plan)),
    )


def _doubt(exercise: str, plan: Plan) -> Iterable[tuple[Unit, str]]:
    for known in plan.maxes:
        if known.exercise == exercise:
            most = Mass(known.amount * DOUBTFUL, plan.unit)
            yield from ((unit, plain(most.to(unit).quantize(Decimal(1)))) for unit in UNITS)


def _lifts(opened: OpenPlan) -> Iterable[OpenLift]:
    sessions = each_once(session for week in opened.sessions for session in week)
    return (lift for session in sessions for line in session for lift in line.lifts)


def _needs_body(opened: OpenPlan) -> bool:
    """Whether any load depends on what the reader weighs."""
    made = (each[0] for lift in _lifts(opened) for one in lift.sets for each in (one.known, one.unknown))
    asked = (lift.matters and lift.kind == "bodyweight" for lift in opened.lifts)
    return any(asked) or any(makings is not None and makings.body != 0 for makings in made)


def _parts(
    program: Program, own: Loading, done: Sequence[LiftToAsk], files: Files, language: Language
) -> Iterable[GymParts]:
    slug, unit = program.plan.slug, program.plan.unit
    bars = sorted({lift.bar for lift in done if lift.kind == "bar"})
    for chosen in UNITS:
        gym = reader_gym(own, unit, GymChoice(chosen))
        yield GymParts(
            unit=chosen,
            plates=tuple(PLATES[chosen]),
            dumbbells=tuple(DUMBBELLS[chosen]),
            stack=tuple(STACK[chosen]),
            bars=tuple((name, bar_text(name, language), plain(gym.bar(name))) for name in bars),
            scripts=(
                _kept(script(gym_data(own, unit, chosen, bars)), files, slug),
                _kept(parts_script(chosen), files, slug),
            ),
        )

"""A plan with the lifter left open: for every set what its load is made of, so that a reader's numbers can be put in.

Its loads are worked out twice more in each unit, for a lifter of whom every max is known and for one of whom none is.
What they are made of is read off; what is rounded, clamped and taken off in a drop is left to whoever puts numbers in,
by the same steps as ``loads`` and ``techniques``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from functools import partial
from itertools import chain

from plateset.manuscript import schema
from plateset.manuscript.quantities import Best, FixedLoad, Mass
from plateset.manuscript.schema import DropSet, Exercise, LiftLine, Site
from plateset.manuscript.vocabulary import Unit
from plateset.records import record
from plateset.remembering import Remembered, each_once
from plateset.training.expand import Wishes, WishesIn, line_of, wishes_of
from plateset.training.loads import Wish, kind_of
from plateset.training.maxes import curve_of
from plateset.training.plan import Lift, LoadKind, Plan, PlannedLine, Session, WorkSet
from plateset.training.reader_gym import UNITS
from plateset.training.strength import CURVES, percent_of_max
from plateset.training.time import sessions_of
from plateset.training.warm_up import USUAL

PROBE = Decimal(100)
"""The max given to every lift while reading off what loads are made of; it cancels out."""


@record
class Makings:
    """What a load is before rounding: ((max x percent / 100 + body x bodyweight) + plus) x share x scale.

    ``percent`` is None where no max comes into it; ``body`` is 1 where the whole body is moved with an implement, -1
    where only what is added to the body is a load. On the body, share and scale apply only to what is above 0.
    """

    percent: Decimal | None
    body: int
    plus: Decimal
    share: Decimal = Decimal(1)
    scale: Decimal = Decimal(1)


Each = tuple[Makings | None, Makings | None]
"""The makings of one load in kg and in lb; None where the lifter picks it."""


@record
class Drop:
    """A later piece with less on it: a share of the first piece's mass, or of that of the piece before."""

    of_first: bool
    share: Decimal


@record
class OpenSet:
    """One set: its makings where the lift's max is known and where it is not, and the pieces after the first.

    A piece that is no drop keeps the first one's load (None). ``counted`` sets have as many repetitions as possible.
    """

    known: Each
    unknown: Each
    pieces: tuple[Drop | None, ...]
    counted: bool


@record
class OpenLift:
    """A lift of a session: its sets, whether its load stays at or below the max, and its warm-up steps.

    ``own_steps`` is whether its author asked for them; else they come before it only if it is the first heavy lift.
    """

    exercise: str
    sets: tuple[OpenSet, ...]
    capped: bool
    counts_whole: bool
    steps: tuple[tuple[Decimal, int], ...]
    own_steps: bool


@record
class OpenLine:
    """The lifts of a line; of a ``pick`` only one is done."""

    pick: bool
    lifts: tuple[OpenLift, ...]


@record
class LiftToAsk:
    """A lift whose max can be asked for: how it is loaded, and what each number of repetitions is of its max.

    ``percents`` are for 1, 2, 3 ... repetitions to failure; ``share`` of the lift ``of`` is taken where the reader
    gives nothing for it. ``matters`` is whether a load of the plan is a share of its max, ``main`` whether the
    example lifter's loads rest on a set of it.
    """

    exercise: str
    kind: LoadKind
    bar: str
    curve: str
    percents: tuple[Decimal, ...]
    of: str
    share: Decimal | None
    matters: bool
    main: bool


@record
class OpenPlan:
    """A plan for any lifter: sessions week by week, one that weeks share being the same in all, and lifts by name."""

    unit: Unit
    sessions: tuple[tuple[tuple[OpenLine, ...], ...], ...]
    lifts: tuple[LiftToAsk, ...]


def open_plan(plan: Plan, site: Site, exercises: Mapping[str, Exercise]) -> OpenPlan:
    """``plan`` with its lifter left open; ``site`` and ``exercises`` are those it was made with."""
    probe = _probe(plan, site, exercises)
    usual = plan.program.warm_up_sets if plan.program.warm_up_sets is not None else site.warm_up_sets
    steps = USUAL if usual is None else usual
    met: Remembered[OpenLift] = Remembered()
    opened: Remembered[tuple[OpenLine, ...]] = Remembered()

    def open_lift(week: int, session: Session, lift: Lift) -> OpenLift:
        text = line_of(plan.program, session.name, lift.index)
        return _lift(lift, text, probe(week, session, lift), steps)

    def open_line(week: int, session: Session, line: PlannedLine) -> OpenLine:
        lifts = (met.get((lift,), partial(open_lift, week, session, lift)) for lift in line.lifts)
        return OpenLine(line.kind == "pick-one", tuple(lifts))

    def open_session(week: int, session: Session) -> tuple[OpenLine, ...]:
        return tuple(open_line(week, session, line) for line in session.lines)

    sessions = tuple(
        tuple(opened.get((session,), partial(open_session, week.number, session)) for session in week.sessions)
        for week in plan.weeks
    )
    return OpenPlan(plan.unit, sessions, tuple(_to_ask(plan, sessions, exercises)))


def _probe(plan: Plan, site: Site, exercises: Mapping[str, Exercise]) -> WishesIn:
    """What works out loads for lifters who weigh nothing: in kg and in lb all maxes known, then in both none."""
    names = sorted({lift.exercise for session in sessions_of(plan) for lift in session.lifts})
    programs: list[schema.Program] = []
    for known in (names, []):
        for unit in UNITS:
            bests = {name: Best(FixedLoad(Mass(PROBE, unit)), 1) for name in known}
            lifter = schema.Lifter().model_copy(update={"bodyweight": Mass(Decimal(0), unit), "bests": bests})
            programs.append(plan.program.model_copy(update={"unit": unit, "example_lifter": lifter}))
    return wishes_of(programs, site, exercises)


def _lift(lift: Lift, text: LiftLine, probed: Wishes, steps: Sequence[schema.WarmUpSet]) -> OpenLift:
    own = text.warm_up_sets
    shares, (kg, lb, bare_kg, bare_lb) = probed
    on_the_body = lift.note.implement == "bodyweight"
    known = {share: _each(kg[share], lb[share], on_the_body=on_the_body) for share in kg}
    unknown = {share: _each(bare_kg[share], bare_lb[share], on_the_body=on_the_body) for share in bare_kg}
    return OpenLift(
        exercise=lift.exercise,
        sets=tuple(
            OpenSet(known[share], unknown[share], tuple(_pieces(work, text)), _is_counted(work))
            for share, work in zip(shares, lift.sets, strict=True)
        ),
        capped=text.above_max is None,
        counts_whole=lift.range_of_motion == "full",
        steps=tuple((step.load, step.reps) for step in (steps if own is None else own)),
        own_steps=own is not None,
    )


def _is_counted(work: WorkSet) -> bool:
    reps = work.pieces[0].reps
    return reps is not None and reps.open and not work.projected


def _pieces(work: WorkSet, text: LiftLine) -> Iterator[Drop | None]:
    setting = text.every_set or text.last_set
    for number, piece in enumerate(work.pieces[1:], start=1):
        if piece.role != "drop" or not isinstance(setting, DropSet):
            yield None
        elif setting.of == "first":
            yield Drop(True, 1 - setting.reduce / 100 * number)
        else:
            yield Drop(False, 1 - setting.reduce / 100)


def _each(kg: Wish, lb: Wish, *, on_the_body: bool) -> Each:
    return _makings(kg, on_the_body=on_the_body), _makings(lb, on_the_body=on_the_body)


def _makings(wish: Wish, *, on_the_body: bool) -> Makings | None:
    """What a probe's load is made of. The probe weighs nothing, so that its bodyweight is in no mass."""
    exact, basis = wish
    if exact is None:
        return None
    if basis.rule in {"percent", "effort"}:
        return Makings(basis.percent, -1 if on_the_body else 0, basis.added, basis.share, basis.scale)
    if (basis.rule == "bodyweight") == on_the_body:
        return Makings(None, 0, exact)  # all that is asked is there, scaled where it is to be
    whole = exact / (basis.share * basis.scale)
    return Makings(None, -1 if on_the_body else 1, whole, basis.share, basis.scale)


# -- lifts -----------------------------------------------------------------------------------------


def _to_ask(
    plan: Plan, sessions: Sequence[Sequence[Sequence[OpenLine]]], exercises: Mapping[str, Exercise]
) -> Iterator[LiftToAsk]:
    """The lifts of a plan in the order they are first met, and those whose maxes stand in for theirs."""
    lifts = [lift for session in each_once(chain.from_iterable(sessions)) for line in session for lift in line.lifts]
    shares = {lift.exercise for lift in lifts if any(_is_share(work.known) for work in lift.sets)}
    bests = plan.program.example_lifter.bests
    met = dict.fromkeys(lift.exercise for lift in lifts)
    froms = {name: exercises[name].max_from for name in met}
    sources = {name: origin.exercise for name, origin in froms.items() if origin}
    asked = shares | {sources[name] for name in shares if name in sources}
    main = {name if name in bests else sources.get(name) for name in shares}
    for name in dict.fromkeys((*met, *sorted(sources.values()))):
        note = exercises[name]
        curve = curve_of(note, plan.curve)
        yield LiftToAsk(
            exercise=name,
            kind=kind_of(note),
            bar=note.bar,
            curve=curve,
            percents=tuple(percent_of_max(Decimal(reps), curve) for reps in range(1, CURVES[curve].most + 1)),
            of=note.max_from.exercise if note.max_from else "",
            share=note.max_from.share if note.max_from else None,
            matters=name in asked,
            main=name in main and name in bests,
        )


def _is_share(each: Each) -> bool:
    return each[0] is not None and each[0].percent is not None

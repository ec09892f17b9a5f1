"""A plan with the lifter left open: for every set what its load is made of, so that a reader's numbers can be put in.

The plan is made twice more in each unit, for a lifter of whom every max is known and for one of whom none is. What
their loads are made of is read off; what is rounded, clamped and taken off in a drop is left to whoever puts numbers
in, by the same steps as ``loads`` and ``techniques``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Best, FixedLoad, Mass
from plateset.manuscript.schema import DropSet, Exercise, LiftLine, Site
from plateset.manuscript.vocabulary import Unit
from plateset.training.expand import group_parts, plan_program
from plateset.training.loads import kind_of
from plateset.training.maxes import curve_of
from plateset.training.plan import Lift, Load, LoadKind, Plan, WorkSet
from plateset.training.reader_gym import UNITS
from plateset.training.strength import CURVES, percent_of_max
from plateset.training.warm_up import USUAL

PROBE = Decimal(100)
"""The max given to every lift while reading off what loads are made of; it cancels out."""


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class Drop:
    """A later piece with less on it: a share of the first piece's mass, or of that of the piece before."""

    of_first: bool
    share: Decimal


@dataclass(frozen=True)
class OpenSet:
    """One set: its makings where the lift's max is known and where it is not, and the pieces after the first.

    A piece that is no drop keeps the first one's load (None). ``counted`` sets have as many repetitions as possible.
    """

    known: Each
    unknown: Each
    pieces: tuple[Drop | None, ...]
    counted: bool


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class OpenLine:
    """The lifts of a line; of a ``pick`` only one is done."""

    pick: bool
    lifts: tuple[OpenLift, ...]


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class OpenPlan:
    """A plan for any lifter: sessions week by week, and the lifts by name."""

    unit: Unit
    sessions: tuple[tuple[tuple[OpenLine, ...], ...], ...]
    lifts: tuple[LiftToAsk, ...]


_Probes = Mapping[tuple[Unit, bool], Plan]


def open_plan(plan: Plan, site: Site, exercises: Mapping[str, Exercise]) -> OpenPlan:
    """``plan`` with its lifter left open; ``site`` and ``exercises`` are those it was made with."""
    probes = {
        (unit, known): _probe(plan, site, exercises, unit, known=known) for unit in UNITS for known in (True, False)
    }
    usual = plan.program.warm_up_sets if plan.program.warm_up_sets is not None else site.warm_up_sets
    steps = USUAL if usual is None else usual
    sessions = tuple(
        tuple(_session(plan, probes, (week, day), steps) for day in range(len(plan.weeks[week].sessions)))
        for week in range(len(plan.weeks))
    )
    return OpenPlan(plan.unit, sessions, tuple(_to_ask(plan, sessions, exercises)))


def _probe(plan: Plan, site: Site, exercises: Mapping[str, Exercise], unit: Unit, *, known: bool) -> Plan:
    """The plan for a lifter without weight, of whom all maxes are known or none."""
    names = {lift.exercise for week in plan.weeks for session in week.sessions for lift in session.lifts}
    bests = {name: Best(FixedLoad(Mass(PROBE, unit)), 1) for name in sorted(names)} if known else {}
    nobody = schema.Lifter().model_copy(update={"bodyweight": Mass(Decimal(0), unit), "bests": bests})
    program = plan.program.model_copy(update={"unit": unit, "example_lifter": nobody})
    return plan_program(plan.slug, program, site, exercises)


# -- sessions --------------------------------------------------------------------------------------


def _session(
    plan: Plan, probes: _Probes, at: tuple[int, int], steps: Sequence[schema.WarmUpSet]
) -> tuple[OpenLine, ...]:
    week, day = at
    session = plan.weeks[week].sessions[day]
    probed = {key: probe.weeks[week].sessions[day].lines for key, probe in probes.items()}
    return tuple(
        OpenLine(
            line.kind == "pick-one",
            tuple(
                _lift(
                    lift,
                    _text(plan, session.name, lift),
                    {key: lines[place].lifts[part] for key, lines in probed.items()},
                    steps,
                )
                for part, lift in enumerate(line.lifts)
            ),
        )
        for place, line in enumerate(session.lines)
    )


def _text(plan: Plan, session: str, lift: Lift) -> LiftLine:
    """What the author wrote for a lift."""
    text = plan.program.sessions[session].lines[lift.index[0]]
    return text if isinstance(text, LiftLine) else group_parts(text)[1][lift.index[1]]


def _lift(
    lift: Lift, text: LiftLine, probed: Mapping[tuple[Unit, bool], Lift], steps: Sequence[schema.WarmUpSet]
) -> OpenLift:
    own = text.warm_up_sets
    return OpenLift(
        exercise=lift.exercise,
        sets=tuple(
            OpenSet(
                known=_each(probed, place, lift, known=True),
                unknown=_each(probed, place, lift, known=False),
                pieces=tuple(_pieces(work, text)),
                counted=_is_counted(work),
            )
            for place, work in enumerate(lift.sets)
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


def _each(probed: Mapping[tuple[Unit, bool], Lift], place: int, lift: Lift, *, known: bool) -> Each:
    kg, lb = (probed[unit, known].sets[place].pieces[0].load for unit in UNITS)
    on_the_body = lift.note.implement == "bodyweight"
    return _makings(kg, on_the_body=on_the_body), _makings(lb, on_the_body=on_the_body)


def _makings(load: Load, *, on_the_body: bool) -> Makings | None:
    """What a probe's load is made of. The probe weighs nothing, so that its bodyweight is in no mass."""
    basis = load.basis
    if load.exact is None:
        return None
    if basis.rule in {"percent", "effort"}:
        return Makings(basis.percent, -1 if on_the_body else 0, basis.added, basis.share, basis.scale)
    if (basis.rule == "bodyweight") == on_the_body:
        return Makings(None, 0, load.exact)  # all that is asked is there, scaled where it is to be
    whole = load.exact / (basis.share * basis.scale)
    return Makings(None, -1 if on_the_body else 1, whole, basis.share, basis.scale)


# -- lifts -----------------------------------------------------------------------------------------


def _to_ask(
    plan: Plan, sessions: Sequence[Sequence[Sequence[OpenLine]]], exercises: Mapping[str, Exercise]
) -> Iterator[LiftToAsk]:
    """The lifts of a plan in the order they are first met, and those whose maxes stand in for theirs."""
    lifts = [lift for week in sessions for session in week for line in session for lift in line.lifts]
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

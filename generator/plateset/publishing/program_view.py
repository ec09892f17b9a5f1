"""A program's plan, volume and notes as the view its page and sheets are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import partial

from plateset.manuscript.library import Manuscript
from plateset.manuscript.schema import Change
from plateset.manuscript.tracing import Heads
from plateset.publishing import paths
from plateset.publishing.cautions import cautions_for, techniques_of
from plateset.publishing.chart import chart_view, explore_figure
from plateset.publishing.finder import facets_of, kit_of
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.lift_views import Notes, session_view
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.views import (
    CautionView,
    ChangeView,
    Fact,
    Linked,
    ProgramCard,
    ProgramView,
    SessionView,
    SwapView,
    VolumeCell,
    VolumeRow,
    WeekGlance,
    WeekView,
)
from plateset.publishing.words import (
    GOALS,
    bar_text,
    day_name,
    kit_text,
    listed,
    long_date,
    mass_text,
    range_text,
    signed_text,
)
from plateset.remembering import Remembered
from plateset.training.gym import gym_of
from plateset.training.plan import Plan, PlannedLine, Session, Week
from plateset.training.strength import CURVES
from plateset.training.substitution import SetsOfLines, sets_of_lines, volume_change
from plateset.training.time import session_minutes, sessions_of
from plateset.training.volume import MuscleWeek
from plateset.usual_cautions import SHORT, TESTING


@dataclass(frozen=True)
class Program:
    """A program ready to be shown: its plan, its volume, and whether its days are weekdays or numbered."""

    plan: Plan
    volume: Mapping[int, Mapping[str, MuscleWeek]]
    by_weekday: bool


def program_view(program: Program, manuscript: Manuscript, figure: Figure, language: Language = ENGLISH) -> ProgramView:
    """Everything the program's page and sheets show."""
    plan, text = program.plan, program.plan.program
    slug, notes = plan.slug, _notes(plan, manuscript, language)
    said = Prose(paths.program(slug), figure).html(text.text)
    return ProgramView(
        slug=slug,
        title=text.title,
        path=paths.program(slug),
        summary=text.summary,
        text=said,
        words=said.striptags(),
        exercises=tuple(sorted({lift.exercise for session in sessions_of(plan) for lift in session.lifts})),
        pages=tuple(paths.week(slug, week.number) for week in plan.weeks),
        level=text.level.capitalize(),
        goal=GOALS[text.goal],
        facts=_facts(plan, language),
        suits=text.suits,
        not_for=text.not_for,
        cautions=tuple(_said(each, language) for each in cautions_for(plan, manuscript)),
        short_cautions=(*map(language.say, SHORT), *text.cautions),
        lifter=_lifter(plan, manuscript, language),
        lifter_note=_lifter_note(plan, manuscript, language),
        bars=_bars_weighed(plan, manuscript, language),
        glance=_glance(program, language),
        volume=_volume_rows(program, language),
        volume_weeks=tuple((str(week.number), _kind(week).lower()) for week in plan.weeks),
        chart=chart_view(plan, program.volume, language),
        explore=explore_figure(program.plan, program.volume, language),
        weeks=week_views(program, manuscript, language),
        swaps=_swaps(plan, notes, language),
        facets=facets_of(plan, program.volume, notes.techniques, language),
        techniques=tuple(link for link in map(notes.technique, techniques_of(plan)) if link),
        explainers=_explainers(slug, manuscript),
        downloads=(),
        byline=text.author or manuscript.site.head.author.name,
        date=long_date(text.date, language),
        iso_date=text.date.isoformat(),
        edition=str(text.edition),
        changes=_changes(text.changes, language),
        licence=text.licence or "",
        address=paths.whole(paths.program(slug), manuscript.site.head.address or ""),
    )


def _said(caution: CautionView, language: Language) -> CautionView:
    source = language.say(caution.source) if caution.text == TESTING else caution.source
    return replace(caution, text=language.say(caution.text), source=source)


def card_of(view: ProgramView) -> ProgramCard:
    """What the rest of the site knows of a program."""
    return ProgramCard(**{each.name: getattr(view, each.name) for each in fields(ProgramCard)})


def week_views(program: Program, manuscript: Manuscript, language: Language = ENGLISH) -> tuple[WeekView, ...]:
    """The weeks as the program's page and sheets show them; a session that weeks share is one view in all of them."""
    notes = _notes(program.plan, manuscript, language)
    met: Remembered[SessionView] = Remembered()
    return tuple(_week_view(week, program, notes, met) for week in program.plan.weeks)


def _notes(plan: Plan, manuscript: Manuscript, language: Language) -> Notes:
    return Notes(
        Heads(manuscript.exercises),
        Heads(manuscript.techniques),
        plan.unit,
        language,
    )


def _week_view(week: Week, program: Program, notes: Notes, met: Remembered[SessionView]) -> WeekView:
    shown = partial(session_view, notes=notes, by_weekday=program.by_weekday)
    return WeekView(
        number=week.number,
        title=notes.language.say("Week %(number)s") % {"number": week.number},
        kind=notes.language.say(_kind(week)),
        path=paths.week(program.plan.slug, week.number),
        anchor=f"week-{week.number}",
        sessions=tuple(met.get((session,), partial(shown, session)) for session in week.sessions),
    )


def _kind(week: Week) -> str:
    return "Deload" if week.deload else "Test" if week.test else ""


def _changes(changes: tuple[Change, ...], language: Language) -> tuple[ChangeView, ...]:
    """What changed, the newest edition first."""
    order = sorted(changes, key=lambda change: (change.edition, change.date), reverse=True)
    return tuple(
        ChangeView(str(each.edition), long_date(each.date, language), each.date.isoformat(), each.text)
        for each in order
    )


def _swaps(plan: Plan, notes: Notes, language: Language) -> dict[int, dict[str, tuple[SwapView, ...]]]:
    """The substitutes of every lift in every week, each with what it changes if it stands in all week.

    Weeks that are alike share theirs.
    """
    first = _first_alike(plan)
    lines = {(week, name): sets for (week, name), sets in sets_of_lines(plan).items() if first[week] == week}
    lifts = {lift.exercise for session in sessions_of(plan) for lift in session.lifts}
    swaps: dict[int, dict[str, tuple[SwapView, ...]]] = {week: {} for week in first.values()}
    for name in sorted(lifts):
        for week, views in _swaps_of(name, lines, notes, language).items():
            swaps[week][paths.exercise(name)] = views
    return {week: swaps[alike] for week, alike in first.items()}


def _first_alike(plan: Plan) -> dict[int, int]:
    """For each week the first one of the same sessions, by number."""
    met: Remembered[int] = Remembered()
    return {week.number: met.get(week.sessions, partial(int, week.number)) for week in plan.weeks}


def _swaps_of(name: str, lines: SetsOfLines, notes: Notes, language: Language) -> dict[int, tuple[SwapView, ...]]:
    note = notes.exercises[name]
    views: dict[int, tuple[SwapView, ...]] = {}
    with_it = {place: tuple(line for line in its if name in line.exercises) for place, its in lines.items()}
    for other in note.substitutes:
        for week, changes in volume_change(with_it, name, notes.exercises[other]).items():
            signed = tuple((muscle, signed_text(change, language)) for muscle, change in changes.items())
            view = SwapView(notes.exercises[other].name, paths.exercise(other), signed)
            views[week] = (*views.get(week, ()), view)
    alike: dict[tuple[SwapView, ...], tuple[SwapView, ...]] = {}  # weeks that say the same share it
    return {week: alike.setdefault(of_week, of_week) for week, of_week in views.items()}


def _facts(plan: Plan, language: Language) -> tuple[Fact, ...]:
    program = plan.program
    minutes = [session_minutes(session) for session in sessions_of(plan, working=True)]
    return (
        Fact("Level", program.level.capitalize()),
        Fact("Goal", GOALS[program.goal]),
        Fact("Weeks", str(program.weeks)),
        Fact("Days a week", str(len(program.schedule))),
        Fact("Minutes a session", range_text(min(minutes), max(minutes)) if minutes else ""),
        Fact("Kit", listed([kit_text(piece, language) for piece in kit_of(plan)], language) or language.say("none")),
    )


def _lifter(plan: Plan, manuscript: Manuscript, language: Language) -> tuple[Fact, ...]:
    facts = [Fact("Bodyweight", mass_text(plan.bodyweight, plan.unit, language))] if plan.bodyweight else []
    for known in plan.maxes:
        name = manuscript.exercises[known.exercise].head.name
        value = mass_text(known.amount, plan.unit, language)
        if known.share is not None:
            of = {"share": language.number(known.share), "lift": manuscript.exercises[known.of].head.name.lower()}
            value += f" ({language.say('%(share)s %% of %(lift)s') % of})"
        elif known.reps > 1:
            done = {"mass": mass_text(known.from_load, plan.unit, language), "reps": known.reps}
            value += f" ({language.say('from %(mass)s for %(reps)s') % done})"
        facts.append(Fact(name, value))
    return tuple(facts)


def _lifter_note(plan: Plan, manuscript: Manuscript, language: Language) -> str:
    """Whose loads they are, and what the bars weigh that are part of them."""
    return " ".join(part for part in (_whose(plan, language), _bars_weighed(plan, manuscript, language)) if part)


def _bars_weighed(plan: Plan, manuscript: Manuscript, language: Language) -> str:
    gym = gym_of(manuscript.site.head.loading, plan.program.loading, plan.unit)
    lifts = (lift for session in sessions_of(plan) for lift in session.lifts)
    names = {lift.note.bar for lift in lifts if lift.note.implement == "barbell"}
    bars = [f"{bar_text(name, language)} {mass_text(gym.bar(name), plan.unit, language)}" for name in sorted(names)]
    return language.say("Loads count the bar: %(bars)s.") % {"bars": ", ".join(bars)} if bars else ""


def _whose(plan: Plan, language: Language) -> str:
    if not plan.maxes and plan.bodyweight is None:
        return ""
    said = language.say(
        "Loads are those of an example lifter, from sets they have done and the %(curve)s. "
        "Yours differ: write your own beside them."
    )
    return said % {"curve": language.say(CURVES[plan.curve].title).lower()}


def _glance(program: Program, language: Language) -> tuple[WeekGlance, ...]:
    week = program.plan.weeks[0]
    by_day = {session.day: session for session in week.sessions}
    last = 7 if program.by_weekday else max(by_day)
    return tuple(_day(day, by_day.get(day), program, language) for day in range(1, last + 1))


def _day(day: int, session: Session | None, program: Program, language: Language) -> WeekGlance:
    name = day_name(day, by_weekday=program.by_weekday, language=language)
    weekday = str(day) if program.by_weekday else ""
    if session is None:
        return WeekGlance(name, weekday, "", "", "", ())
    path = f"{paths.week(program.plan.slug, 1)}#day-{day}"
    lifts = tuple(name for line in session.lines for name in _names_at_a_glance(line))
    return WeekGlance(name, weekday, session.title, path, str(session_minutes(session)), lifts)


def _names_at_a_glance(line: PlannedLine) -> tuple[str, ...]:
    names = tuple(lift.note.name for lift in line.lifts)
    return (" or ".join(names),) if line.kind == "pick-one" else names


def _volume_rows(program: Program, language: Language) -> tuple[VolumeRow, ...]:
    promised = program.plan.program.weekly_sets
    muscles = sorted({muscle for week in program.volume.values() for muscle in week} | set(promised))
    first = [muscle for muscle in muscles if muscle in promised]
    rest = [muscle for muscle in muscles if muscle not in promised]
    return tuple(_volume_row(muscle, program, language) for muscle in [*first, *rest])


def _volume_row(muscle: str, program: Program, language: Language) -> VolumeRow:
    promised = next((span for name, span in program.plan.program.weekly_sets.items() if name == muscle), None)
    cells = tuple(
        _cell(program.volume[week.number].get(muscle), promised, week, language) for week in program.plan.weeks
    )
    days = max((len(week[muscle].days) for week in program.volume.values() if muscle in week), default=0)
    return VolumeRow(muscle, range_text(*promised) if promised else "", str(days), cells)


def _cell(found: MuscleWeek | None, promised: tuple[int, int] | None, week: Week, language: Language) -> VolumeCell:
    if found is None:
        return VolumeCell("0", "0", "no" if promised and week.working else "")
    # Least and most, where the reader has a choice.
    sets = "–".join(dict.fromkeys(language.number(each) for each in (found.fractional, found.most)))
    if promised is None or not week.working:
        return VolumeCell(sets, language.number(found.direct), "")
    kept = promised[0] <= found.fractional and found.most <= promised[1]
    return VolumeCell(sets, language.number(found.direct), "yes" if kept else "no")


def _explainers(slug: str, manuscript: Manuscript) -> tuple[Linked, ...]:
    return tuple(
        Linked(document.head.title, paths.explainer(document.slug), document.head.summary)
        for document in manuscript.explainers_on(slug)
    )

"""What programs are found by: facets of each, and a list of programs for each value of a facet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from heapq import nsmallest
from typing import Any

from plateset.manuscript.check_gym import kit_needed
from plateset.manuscript.schema import TechniqueNote
from plateset.manuscript.vocabulary import KIT, LEVELS, MUSCLES
from plateset.publishing import paths
from plateset.publishing.cautions import techniques_of
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import FacetGroup, FacetList, Facets, FinderValues, FoundProgram, ProgramCard
from plateset.publishing.words import kit_text, listed, range_text
from plateset.training.plan import Plan
from plateset.training.time import session_minutes, sessions_of
from plateset.training.volume import MuscleWeek

Volume = Mapping[int, Mapping[str, MuscleWeek]]

FIRST = Decimal(0)
"""The rank of a program in a group that has no order of its own."""

MINUTES = (30, 45, 60, 75, 90, 120)
"""Times a reader may have for a session."""


def kit_of(plan: Plan) -> list[str]:
    """The kit a program needs: as the author lists it, or worked out from its exercises."""
    if plan.program.kit is not None:
        return list(plan.program.kit)
    lifts = {lift.exercise: lift.note for session in plan.weeks[0].sessions for lift in session.lifts}
    needed = {piece for note in lifts.values() for piece in kit_needed(note)}
    return [piece for piece in KIT if piece in needed]


def facets_of(plan: Plan, volume: Volume, notes: Mapping[str, TechniqueNote], language: Language = ENGLISH) -> Facets:
    """What ``plan`` is found by. Minutes are those of working weeks."""
    minutes = [session_minutes(session) for session in sessions_of(plan, working=True)]
    return Facets(
        level=plan.program.level,
        days=len(plan.program.schedule),
        least_minutes=min(minutes, default=0),
        most_minutes=max(minutes, default=0),
        kit=tuple(sorted(kit_of(plan), key=KIT.index)),
        muscles=tuple(_most_sets(volume)),
        techniques=tuple((name, notes[name].name) for name in techniques_of(plan) if name in notes),
    )


def _most_sets(volume: Volume) -> list[tuple[str, Decimal]]:
    """The most weekly sets of each muscle that some lift trains directly, most first."""
    most: dict[str, Decimal] = {}
    for week in volume.values():
        for muscle, found in week.items():
            if found.direct and muscle in MUSCLES:
                most[muscle] = max(found.fractional, most.get(muscle, Decimal(0)))
    return sorted(most.items(), key=lambda pair: (-pair[1], pair[0]))


def finder_values(programs: Iterable[ProgramCard], language: Language = ENGLISH) -> FinderValues:
    """The choices of the finder's form."""
    found = [program.facets for program in programs]
    levels = {facets.level for facets in found}
    days = sorted({facets.days for facets in found})
    longest = [facets.most_minutes for facets in found]
    muscles = {muscle for facets in found for muscle, _ in facets.muscles}
    techniques = {technique for facets in found for technique in facets.techniques}
    kit = {piece for facets in found for piece in facets.kit}
    return FinderValues(
        levels=tuple((level, language.say(level.capitalize())) for level in LEVELS if level in levels),
        days=tuple((str(each), str(each)) for each in days),
        minutes=tuple((str(each), str(each)) for each in _minutes(longest)),
        muscles=tuple(sorted(((each, language.say(each)) for each in muscles), key=lambda pair: pair[1])),
        techniques=tuple(sorted(techniques, key=lambda pair: (pair[1], pair[0]))),
        kit=tuple((piece, kit_text(piece, language)) for piece in KIT if piece in kit),
    )


def _minutes(longest: list[int]) -> list[int]:
    """Times that some programs fit into and others do not: else nobody is helped by the choice.

    To five minutes; where that gives more than a reader looks through, the usual times alone.
    """
    bounds = sorted({-(-each // 5) * 5 for each in longest})[:-1]
    usual = [each for each in MINUTES if bounds and bounds[0] <= each <= bounds[-1]]
    return bounds if len(bounds) <= len(MINUTES) else usual


LISTED = 60
"""Programs that a list shows under one value; of more than that a reader finds theirs by the form."""

Value = Hashable
"""What a program has of a facet, such as its level or one of its muscles."""

Valued = Iterable[tuple[Any, Decimal]]
"""Of one program, each value it has of a facet, and the program's rank among those that have it: the lowest first;
equal ranks keep the order of programs."""

Told = tuple[tuple[object, ...], str, str]
"""Of a value, where it stands among the others, what the form calls it, and the title of its list."""


@dataclass(frozen=True)
class Facet:
    """One of the ways programs are found by: its name, the title of its page, and what it makes of a program, of a
    value, and of a program's rank, which is said before its facts.
    """

    name: str
    title: str
    valued: Callable[[ProgramCard], Valued]
    told: Callable[[Any, Language], Told]
    said: Callable[[Decimal, Language], str] = lambda rank, language: ""


Listing = list[tuple[Decimal, ProgramCard]]


def facet_lists(programs: Iterable[ProgramCard], language: Language = ENGLISH) -> tuple[FacetList, ...]:
    """The lists of the finder, in the order a reader asks: how hard, how often, how long, with what, for what."""
    shelf = tuple(programs)
    return tuple(_facet_list(facet, shelf, language) for facet in _FACETS)


def _facet_list(facet: Facet, programs: tuple[ProgramCard, ...], language: Language) -> FacetList:
    listings: defaultdict[Value, Listing] = defaultdict(list)
    for program in programs:
        for value, rank in facet.valued(program):
            listings[value].append((rank, program))
    told = sorted((facet.told(value, language), value) for value in listings)
    groups = tuple(
        FacetGroup(title, f"group-{place}", *_shown(facet, listings[value], language), value=form)
        for place, ((_, form, title), value) in enumerate(told, start=1)
    )
    return FacetList(facet.name, facet.title, paths.programs_by(facet.name), groups)


def _shown(facet: Facet, listing: Listing, language: Language) -> tuple[tuple[FoundProgram, ...], int]:
    """The programs that a list shows, and how many more there are."""
    first = nsmallest(LISTED, listing, key=lambda each: each[0])
    programs = tuple(
        FoundProgram(program.title, program.path, facet.said(rank, language) + _beside(program, language))
        for rank, program in first
    )
    return programs, len(listing) - len(first)


def _beside(program: ProgramCard, language: Language) -> str:
    """'Novice, 3 days a week, 35–50 min'."""
    facets = program.facets
    days = language.count("%(num)s day a week", "%(num)s days a week", facets.days) % {"num": facets.days}
    minutes = f"{range_text(facets.least_minutes, facets.most_minutes)} {language.say('min')}"
    return f"{language.say(program.level)}, {days}, {minutes}"


def _level_told(level: str, language: Language) -> Told:
    return (LEVELS.index(level),), level, language.say(level.capitalize())


def _days_told(days: int, language: Language) -> Told:
    title = language.count("%(num)s day a week", "%(num)s days a week", days) % {"num": days}
    return (days,), str(days), title


def _bound(minutes: int) -> int:
    """The time a reader may have that a session of so many minutes fits into; 0 if it fits into none."""
    return next((bound for bound in MINUTES if minutes <= bound), 0)


def _minutes_told(bound: int, language: Language) -> Told:
    if not bound:
        title = language.say("More than %(num)s minutes") % {"num": MINUTES[-1]}
        return (MINUTES[-1] + 1,), "", title
    return (bound,), str(bound), language.say("%(num)s minutes or less") % {"num": bound}


def _kit_told(kit: tuple[str, ...], language: Language) -> Told:
    title = listed([kit_text(piece, language) for piece in kit], language) or language.say("No kit at all")
    return (len(kit), *map(KIT.index, kit)), "", title[:1].upper() + title[1:]


def _muscle_told(muscle: str, language: Language) -> Told:
    title = language.say(muscle)
    return (title,), muscle, title[:1].upper() + title[1:]


def _sets_said(rank: Decimal, language: Language) -> str:
    said = language.say("Up to %(sets)s sets a week") % {"sets": language.number(-rank)}
    return f"{said}. "


def _technique_told(technique: tuple[str, str], language: Language) -> Told:
    name, title = technique
    return (title, name), name, title


_FACETS = (
    Facet("level", "Programs by level", lambda card: [(card.facets.level, FIRST)], _level_told),
    Facet("days", "Programs by days a week", lambda card: [(card.facets.days, FIRST)], _days_told),
    Facet(
        "minutes",
        "Programs by minutes a session",
        lambda card: [(_bound(card.facets.most_minutes), FIRST)],
        _minutes_told,
    ),
    Facet("kit", "Programs by kit", lambda card: [(card.facets.kit, FIRST)], _kit_told),
    Facet(
        "muscle",
        "Programs by muscle",
        lambda card: [(muscle, -sets) for muscle, sets in card.facets.muscles],
        _muscle_told,
        _sets_said,
    ),
    Facet(
        "technique",
        "Programs by technique",
        lambda card: [(technique, FIRST) for technique in card.facets.techniques],
        _technique_told,
    ),
)

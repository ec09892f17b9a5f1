"""What programs are found by: facets of each, and a list of programs for each value of a facet."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from heapq import nsmallest

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
        kit=tuple(kit_of(plan)),
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

Keyed = Iterable[tuple[tuple[object, ...], Decimal, str, str]]
"""Of one program, for each group it belongs to: the group's sort key, the program's rank within the group (the lowest
first; equal ranks keep the order of programs), what the form calls the group, and the group's title."""

Facet = tuple[str, str, Callable[[ProgramCard, Language], Keyed], Callable[[Decimal, Language], str]]
"""A facet's name, the title of its page, where a program belongs in it, and what is said of a program's rank."""

Listing = list[tuple[Decimal, ProgramCard]]


def facet_lists(programs: Iterable[ProgramCard], language: Language = ENGLISH) -> tuple[FacetList, ...]:
    """The lists of the finder, in the order a reader asks: how hard, how often, how long, with what, for what."""
    shelf = tuple(programs)
    return tuple(_facet_list(facet, shelf, language) for facet in _FACETS)


def _facet_list(facet: Facet, programs: tuple[ProgramCard, ...], language: Language) -> FacetList:
    name, title, keyed, said = facet
    groups: dict[tuple[object, ...], tuple[str, str, Listing]] = {}
    for program in programs:
        for key, rank, value, heading in keyed(program, language):
            groups.setdefault(key, (value, heading, []))[2].append((rank, program))

    def told(rank: Decimal, program: ProgramCard) -> FoundProgram:
        return FoundProgram(program.title, program.path, said(rank, language) + _beside(program, language))

    found = tuple(
        _group(f"group-{place}", *group, told)
        for place, (_, group) in enumerate(sorted(groups.items(), key=lambda pair: pair[0]), start=1)
    )
    return FacetList(name, title, paths.programs_by(name), found)


def _group(
    anchor: str, value: str, heading: str, listing: Listing, told: Callable[[Decimal, ProgramCard], FoundProgram]
) -> FacetGroup:
    first = nsmallest(LISTED, listing, key=lambda each: each[0])
    programs = tuple(told(*each) for each in first)
    return FacetGroup(heading, anchor, programs, len(listing) - len(first), value)


def _beside(program: ProgramCard, language: Language) -> str:
    """'Novice, 3 days a week, 35–50 min'."""
    facets = program.facets
    days = language.count("%(num)s day a week", "%(num)s days a week", facets.days) % {"num": facets.days}
    minutes = f"{range_text(facets.least_minutes, facets.most_minutes)} {language.say('min')}"
    return f"{language.say(program.level)}, {days}, {minutes}"


def _by_level(program: ProgramCard, language: Language) -> Keyed:
    level = program.facets.level
    yield (LEVELS.index(level),), FIRST, level, language.say(level.capitalize())


def _by_days(program: ProgramCard, language: Language) -> Keyed:
    days = program.facets.days
    title = language.count("%(num)s day a week", "%(num)s days a week", days) % {"num": days}
    yield (days,), FIRST, str(days), title


def _by_minutes(program: ProgramCard, language: Language) -> Keyed:
    most = program.facets.most_minutes
    bound = next((minutes for minutes in MINUTES if most <= minutes), None)
    if bound is None:
        title = language.say("More than %(num)s minutes") % {"num": MINUTES[-1]}
        yield (MINUTES[-1] + 1,), FIRST, "", title
    else:
        yield (bound,), FIRST, str(bound), language.say("%(num)s minutes or less") % {"num": bound}


def _by_kit(program: ProgramCard, language: Language) -> Keyed:
    kit = program.facets.kit
    title = listed([kit_text(piece, language) for piece in kit], language) or language.say("No kit at all")
    yield (len(kit), *map(KIT.index, kit)), FIRST, "", title[:1].upper() + title[1:]


def _by_muscle(program: ProgramCard, language: Language) -> Keyed:
    for muscle, sets in program.facets.muscles:
        title = language.say(muscle)
        yield (title,), -sets, muscle, title[:1].upper() + title[1:]


def _by_technique(program: ProgramCard, language: Language) -> Keyed:
    for name, title in program.facets.techniques:
        yield (title, name), FIRST, name, title


def _nothing(rank: Decimal, language: Language) -> str:
    """Programs that stand in their usual order have nothing to say of it."""
    return ""


def _sets(rank: Decimal, language: Language) -> str:
    said = language.say("Up to %(sets)s sets a week") % {"sets": language.number(-rank)}
    return f"{said}. "


_FACETS: tuple[Facet, ...] = (
    ("level", "Programs by level", _by_level, _nothing),
    ("days", "Programs by days a week", _by_days, _nothing),
    ("minutes", "Programs by minutes a session", _by_minutes, _nothing),
    ("kit", "Programs by kit", _by_kit, _nothing),
    ("muscle", "Programs by muscle", _by_muscle, _sets),
    ("technique", "Programs by technique", _by_technique, _nothing),
)

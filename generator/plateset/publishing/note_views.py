"""Exercise notes, technique notes and explainers as views."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from plateset.manuscript import schema
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document
from plateset.publishing import paths
from plateset.publishing.finder import LISTED
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.prose import Figure, Prose
from plateset.publishing.views import (
    ExerciseView,
    ExplainerView,
    Fact,
    Linked,
    MuscleBar,
    ProgramCard,
    SwapView,
    TechniqueView,
    UsedIn,
)
from plateset.publishing.words import listed, long_date, signed_text, tempo_text
from plateset.training.substitution import set_change
from plateset.training.techniques import TECHNIQUES

Programs = Mapping[str, ProgramCard]
"""Every program as the rest of the site knows it, by the name of its file."""

Users = Mapping[str, Sequence[ProgramCard]]
"""The programs that use each exercise, or each technique, by the name of its note; in order of their own."""


def users_of_exercises(programs: Programs) -> Users:
    """The programs by the exercises they use."""
    return _users(programs, lambda card: card.exercises)


def users_of_techniques(programs: Programs) -> Users:
    """The programs by the techniques they use."""
    return _users(programs, lambda card: [name for name, _ in card.facets.techniques])


def _users(programs: Programs, used: Callable[[ProgramCard], Iterable[str]]) -> Users:
    found: dict[str, list[ProgramCard]] = {}
    for _, card in sorted(programs.items()):
        for name in used(card):
            found.setdefault(name, []).append(card)
    return found


def exercise_view(
    document: Document[schema.Exercise],
    manuscript: Manuscript,
    users: Users,
    figure: Figure,
    language: Language = ENGLISH,
) -> ExerciseView:
    """One exercise note."""
    note, path = document.head, paths.exercise(document.slug)
    return ExerciseView(
        slug=document.slug,
        title=note.name,
        path=path,
        names=note.also_called,
        also_called=listed(note.also_called, language),
        facts=_exercise_facts(note, language),
        muscles=_bars(note),
        set_up=note.set_up,
        cues=note.cues,
        faults=tuple(note.faults.items()),
        cautions=note.cautions,
        not_with=tuple(_technique_link(name, manuscript) for name in note.not_with),
        substitutes=tuple(_swap(note, name, manuscript, language) for name in note.substitutes),
        used_in=_used_in(users.get(document.slug, ())),
        video=_video(note, language),
        text=Prose(path, figure).html(document.body),
        movement=note.movement,
        primary=note.muscles.direct[0],
    )


def _swap(note: schema.Exercise, name: str, manuscript: Manuscript, language: Language) -> SwapView:
    """A substitute, and what one set of it counts more or less."""
    other = manuscript.exercises[name].head
    changes = tuple((muscle, signed_text(change, language)) for muscle, change in set_change(note, other).items())
    return SwapView(other.name, paths.exercise(name), changes)


def _exercise_facts(note: schema.Exercise, language: Language) -> tuple[Fact, ...]:
    facts = [Fact("Movement", note.movement), Fact("Implement", note.implement)]
    if note.needs:
        facts.append(Fact("Also needs", listed([language.say(piece) for piece in note.needs], language)))
    if note.sides == "one":
        facts.append(Fact("Sides", language.say("One at a time")))
    if note.tempo:
        facts.append(Fact("Usual tempo", tempo_text(note.tempo)))
    return tuple(facts)


def _bars(note: schema.Exercise) -> tuple[MuscleBar, ...]:
    direct = [MuscleBar(muscle, 100, "direct") for muscle in note.muscles.direct]
    indirect = sorted(note.muscles.indirect.items(), key=lambda pair: (-pair[1], pair[0]))
    return (*direct, *(MuscleBar(muscle, int(share * 100), "indirect") for muscle, share in indirect))


def _technique_link(name: str, manuscript: Manuscript) -> Linked:
    if name in manuscript.techniques:
        return Linked(manuscript.techniques[name].head.name, paths.technique(name))
    return Linked(name.replace("-", " ").capitalize(), "")


def _video(note: schema.Exercise, language: Language) -> Linked | None:
    if note.video is None:
        return None
    minutes, seconds = divmod(note.video.at, 60)
    words = language.say("Video of the %(lift)s") % {"lift": note.name.lower()}
    if note.video.at:
        words += ", " + language.say("from %(time)s") % {"time": f"{minutes}:{seconds:02d}"}
    return Linked(words, note.video.address)


def _used_in(cards: Sequence[ProgramCard]) -> UsedIn:
    """As many as a list shows."""
    return UsedIn(tuple(card.linked for card in cards[:LISTED]), max(0, len(cards) - LISTED))


def technique_view(
    document: Document[schema.TechniqueNote], users: Users, figure: Figure, language: Language = ENGLISH
) -> TechniqueView:
    """One technique note."""
    note, path = document.head, paths.technique(document.slug)
    known = TECHNIQUES.get(document.slug)
    facts = [Fact("From level", note.level)]
    if known:
        facts.append(Fact("Past failure", language.say("yes") if known.past_failure else language.say("no")))
    facts.append(Fact("Counts as", language.say("one set of each exercise, whatever its pieces")))
    return TechniqueView(
        slug=document.slug,
        title=note.name,
        path=path,
        summary=note.summary,
        facts=tuple(facts),
        suits=note.suits,
        does_not_suit=note.does_not_suit,
        cautions=note.cautions,
        used_in=_used_in(users.get(document.slug, ())),
        text=Prose(path, figure).html(document.body),
    )


def explainer_view(
    document: Document[schema.Explainer], programs: Programs, figure: Figure, language: Language = ENGLISH
) -> ExplainerView:
    """One explainer."""
    note, path = document.head, paths.explainer(document.slug)
    return ExplainerView(
        slug=document.slug,
        title=note.title,
        path=path,
        summary=note.summary,
        date=long_date(note.date, language),
        iso_date=note.date.isoformat(),
        text=Prose(path, figure).html(document.body),
        programs=tuple(programs[name].linked for name in note.programs),
    )

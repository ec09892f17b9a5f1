"""The way to a proof, one call a stage: read, plan, prove. Returns values; prints nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

from plateset.manuscript.contrast import LEAST, PAPER, contrast
from plateset.manuscript.library import Manuscript
from plateset.manuscript.links import links_of, place_of
from plateset.manuscript.load import Document
from plateset.manuscript.read import read_manuscript
from plateset.manuscript.schema import Program, Site, TechniqueNote
from plateset.manuscript.tracing import Heads
from plateset.problems import ManuscriptError, Place, Problem, nearest_word
from plateset.remembering import Remembered
from plateset.shipped import shipped
from plateset.training.expand import plan_program
from plateset.training.figures import FigureError, figure
from plateset.training.marks.mark import Case, Mark, Severity
from plateset.training.plan import Plan
from plateset.training.proof import may_be_published, prove
from plateset.training.volume import MuscleWeek, program_volume


@dataclass(frozen=True)
class PlacedMark:
    """A mark with its place in the author's file."""

    mark: Mark
    place: Place


@dataclass(frozen=True)
class Proof:
    """A program's proof: its plan, its volume, its marks."""

    plan: Plan
    volume: Mapping[int, Mapping[str, MuscleWeek]]
    by_weekday: bool
    marks: tuple[PlacedMark, ...]


_PLANS: Remembered[Plan] = Remembered(200)
_PROOFS: Remembered[Proof] = Remembered(200)
_FIGURES: Remembered[str] = Remembered(5000)


@dataclass(frozen=True)
class Proofs:
    """The proof of a manuscript: each program's, and the marks on prose elsewhere and on the looks."""

    manuscript: Manuscript
    programs: Mapping[str, Proof]
    prose: tuple[PlacedMark, ...]

    @property
    def marks(self) -> list[Mark]:
        """Every mark of the manuscript."""
        placed = [*self.prose, *(mark for proof in self.programs.values() for mark in proof.marks)]
        return [each.mark for each in placed]

    def count(self, severity: Severity) -> int:
        """How many marks of one severity stand, those accepted left out."""
        return sum(mark.severity == severity and not mark.accepted for mark in self.marks)

    def only(self, slugs: Sequence[str]) -> Proofs:
        """The proofs of some programs, without the notes."""
        return replace(self, programs={slug: self.programs[slug] for slug in slugs}, prose=())

    @property
    def may_be_published(self) -> bool:
        """Whether no mark stops it."""
        return may_be_published(self.marks)


class ChoiceError(Exception):
    """What is asked about is not there, or not clear; the message says what would do."""


def proof(folder: Path, shown_as: str, wanted: Sequence[str] = ()) -> Proofs:
    """Read a manuscript and prove it, or only the programs that are ``wanted``, without the notes.

    Raises :class:`ManuscriptError` with every problem found, and :class:`ChoiceError` for a program that is not there.
    """
    manuscript = read_manuscript(folder, shown_as)
    _check_wanted(wanted, sorted(manuscript.programs))
    _check_theme(manuscript)
    exercises = {slug: document.head for slug, document in manuscript.exercises.items()}
    planners = {
        slug: partial(plan_program, slug, site=manuscript.site.head, exercises=exercises)
        for slug in sorted(manuscript.programs)
    }
    alike = (manuscript.site, *(document for _, document in sorted(manuscript.exercises.items())))
    plans = {
        slug: _PLANS.get((document, *alike), partial(planners[slug], document.head))
        for slug, document in sorted(manuscript.programs.items())
    }
    prose = _marks_on_prose(manuscript, plans)
    notes = prose.pop("", ())
    programs = {
        slug: _prove(plan, planners[slug], manuscript, prose[slug])
        for slug, plan in plans.items()
        if slug in wanted or not wanted
    }
    return Proofs(manuscript, programs, () if wanted else (*_marks_on_colours(manuscript), *notes))


def _marks_on_colours(manuscript: Manuscript) -> tuple[PlacedMark, ...]:
    """An accent too faint to read: the theme darkens it, and the author should know."""
    accent = manuscript.site.head.colours.accent
    if accent is None or contrast(accent, PAPER) >= LEAST:
        return ()
    message = f"the accent {accent} stands at {contrast(accent, PAPER):.1f}:1 on the paper; text needs {LEAST}:1"
    remedy = "choose a darker accent; as it is, the theme darkens it until it can be read"
    return (
        PlacedMark(Mark("accent-faint", "query", (), message, remedy), manuscript.site.place(("colours", "accent"))),
    )


def figure_of(address: str, plans: Mapping[str, Plan]) -> str:
    """The value of a figure. Raises :class:`FigureError`."""
    slug = address.partition("/")[0]
    # Not get(): some plans are worked out when they are asked for.
    plan = plans[slug] if slug in plans else None  # noqa: SIM401
    return _FIGURES.get((plan, address), lambda: figure(address, plans))


def _check_wanted(wanted: Sequence[str], known: Sequence[str]) -> None:
    for slug in wanted:
        if slug not in known:
            nearest = nearest_word(slug, known)
            hint = f"; nearest: {nearest}" if nearest else ""
            raise ChoiceError(f"there is no program called {slug!r}. Expected: one of {', '.join(known)}{hint}")


def _check_theme(manuscript: Manuscript) -> None:
    """A theme that is not there is the author's slip, found before anything is pressed."""
    known = sorted(path.name for path in shipped("themes").iterdir() if path.is_dir())
    name = manuscript.site.head.theme
    if name not in known:
        place = manuscript.site.place(("theme",))
        expected = f"one of: {', '.join(known)}"
        raise ManuscriptError(
            [Problem(place, f"there is no theme called {name!r}", expected, nearest_word(name, known))]
        )


def _prove(
    plan: Plan, replan: Callable[[Program], Plan], manuscript: Manuscript, prose: tuple[PlacedMark, ...]
) -> Proof:
    document = manuscript.programs[plan.slug]
    notes = tuple(note for _, note in sorted(manuscript.techniques.items()))

    def prove_anew() -> Proof:
        return prove_program(plan, replan, document, manuscript.site.head, Heads(manuscript.techniques))

    found = _PROOFS.get((plan, document, manuscript.site, *notes), prove_anew)
    return replace(found, marks=found.marks + prose)


def prove_program(
    plan: Plan,
    replan: Callable[[Program], Plan],
    document: Document[Program],
    site: Site,
    techniques: Mapping[str, TechniqueNote],
) -> Proof:
    """The proof of one program, without the marks on its prose."""
    volume = program_volume(plan)
    marks = prove(Case(plan, volume, site.limits, techniques, site.cautions, replan))
    placed = tuple(PlacedMark(mark, document.place(mark.path)) for mark in marks)
    return Proof(plan, volume, _by_weekday(document), placed)


def _by_weekday(document: Document[Any]) -> bool:
    keys = [str(path[1]) for path in document.marked.keys if path[:1] == ("schedule",) and len(path) == 2]
    return not any(key.strip().lower().startswith("day") for key in keys)


def _marks_on_prose(manuscript: Manuscript, plans: Mapping[str, Plan]) -> dict[str, tuple[PlacedMark, ...]]:
    """Figures typed in prose that the plan contradicts, by the program they stand in ('' elsewhere).

    Raises :class:`ManuscriptError` for figure addresses that lead nowhere.
    """
    problems: list[Problem] = []
    marks: dict[str, tuple[PlacedMark, ...]] = {}
    groups: tuple[Mapping[str, Document[Any]], ...] = (
        {"site": manuscript.site},
        manuscript.programs,
        manuscript.exercises,
        manuscript.techniques,
        manuscript.explainers,
    )
    for group in groups:
        for slug, document in sorted(group.items()):
            key = slug if group is manuscript.programs else ""
            marks[key] = marks.get(key, ()) + tuple(contradicted(document, plans, problems))
    if problems:
        raise ManuscriptError(problems)
    return marks


def contradicted(document: Document[Any], plans: Mapping[str, Plan], problems: list[Problem]) -> list[PlacedMark]:
    """The figures typed in a document that the plan contradicts; adds addresses that lead nowhere to ``problems``."""
    found: list[PlacedMark] = []
    for link in links_of(document):
        if link.scheme != "figure":
            continue
        place = place_of(document, link)
        try:
            value = figure_of(link.target, plans)
        except FigureError as error:
            problems.append(Problem(place, error.message, error.expected, error.nearest))
            continue
        if link.text and link.text != value:
            message = f"the text says {link.text!r}, the plan says {value!r} ({link.target})"
            remedy = f"write {value}, or leave the brackets empty"
            mark = Mark("figure-contradicted", "stop", (), message, remedy)
            found.append(PlacedMark(mark, place))
    return found

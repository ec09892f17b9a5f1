"""The way to a proof, one call a stage: read, plan, prove. Returns values; prints nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

from plateset.logo_file import fault_of_logo
from plateset.manuscript.contrast import LEAST, PAPER, contrast
from plateset.manuscript.fields import is_counted
from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document
from plateset.manuscript.naming import is_name
from plateset.manuscript.read import Reading, read_folder
from plateset.manuscript.schema import Program, Site, TechniqueNote
from plateset.manuscript.tracing import Heads
from plateset.manuscript.written import PICTURE
from plateset.own_theme import marks_on_words, own_theme_problems
from plateset.placed_marks import PlacedMark
from plateset.problems import ManuscriptError, Problem, nearest_word
from plateset.prose_figures import contradicted
from plateset.remembering import Remembered
from plateset.shipped import shipped
from plateset.theme_files import OWN
from plateset.training.expand import plan_program
from plateset.training.marks.mark import Case, Mark, Severity
from plateset.training.plan import Plan
from plateset.training.proof import may_be_published, prove
from plateset.training.volume import MuscleWeek, program_volume


@dataclass(frozen=True)
class Proof:
    """A program's proof: its plan, its volume, its marks."""

    plan: Plan
    volume: Mapping[int, Mapping[str, MuscleWeek]]
    by_weekday: bool
    marks: tuple[PlacedMark, ...]


_PLANS: Remembered[Plan] = Remembered(200)
_PROOFS: Remembered[Proof] = Remembered(200)


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
    reading = read_folder(folder, shown_as)
    problems = [*reading.problems, *_theme_problems(reading, folder, shown_as), *_logo_problems(reading, folder)]
    plannable = reading.plannable
    planners = _planners(plannable) if plannable else {}
    plans = _plans(plannable, planners) if plannable else {}
    prose = {slug: tuple(marks) for slug, marks in _marks_on_prose(reading, plans, problems).items()}
    if problems:
        raise ManuscriptError(problems)
    manuscript = reading.manuscript
    _check_wanted(wanted, sorted(manuscript.programs))
    notes = prose.pop("", ())
    programs = {
        slug: _prove(plan, planners[slug], manuscript, prose[slug])
        for slug, plan in plans.items()
        if slug in wanted or not wanted
    }
    looks = () if wanted else marks_on_looks(manuscript.site, folder, shown_as)
    return Proofs(manuscript, programs, () if wanted else (*looks, *notes))


def marks_on_looks(site: Document[Site], folder: Path, shown_as: str) -> tuple[PlacedMark, ...]:
    """The marks on how a manuscript in ``folder`` (told as ``shown_as``) looks and speaks."""
    return (*_marks_on_colours(site), *marks_on_words(folder, shown_as, shipped("themes") / site.head.theme))


def _marks_on_colours(site: Document[Site]) -> tuple[PlacedMark, ...]:
    """An accent too faint to read: the theme darkens it, and the author should know."""
    accent = site.head.colours.accent
    if accent is None or contrast(accent, PAPER) >= LEAST:
        return ()
    message = f"the accent {accent} stands at {contrast(accent, PAPER):.1f}:1 on the paper; text needs {LEAST}:1"
    remedy = "choose a darker accent; as it is, the theme darkens it until it can be read"
    return (PlacedMark(Mark("accent-faint", "query", (), message, remedy), site.place(("colours", "accent"))),)


def _check_wanted(wanted: Sequence[str], known: Sequence[str]) -> None:
    for slug in wanted:
        if slug not in known:
            nearest = nearest_word(slug, known)
            hint = f"; nearest: {nearest}" if nearest else ""
            raise ChoiceError(f"there is no program called {slug!r}. Expected: one of {', '.join(known)}{hint}")


def _theme_problems(reading: Reading, folder: Path, shown_as: str) -> Iterator[Problem]:
    """A theme that is not there, or files of one's own for it that change nothing: slips, found before a press."""
    known = sorted(path.name for path in shipped("themes").iterdir() if path.is_dir())
    for site in (document for document in reading.written if document.source.kind == "site"):
        name = site.marked.data.get("theme", known[0])
        if is_name(name) and name not in known:
            message = f"there is no theme called {name!r}"
            expected = f"one of: {', '.join(known)}"
            yield Problem(site.place(("theme",)), message, expected, nearest_word(name, known))
        elif reading.site is not None:
            yield from own_theme_problems(folder, shown_as, shipped("themes") / reading.site.head.theme)


def _logo_problems(reading: Reading, folder: Path) -> Iterator[Problem]:
    """A logo that is not there or cannot be shown, found as early."""
    for site in (document for document in reading.written if document.source.kind == "site"):
        name = site.marked.data.get("logo")
        if not isinstance(name, str) or not PICTURE.fullmatch(name):
            continue
        if not (folder / OWN / name).is_file():
            known = sorted(path.name for path in (folder / OWN).glob("*.png"))
            message = f"there is no picture called {name!r}"
            yield Problem(site.place(("logo",)), message, "the name of a PNG file in theme/", nearest_word(name, known))
        elif fault := _fault_of_logo(folder / OWN / name):
            yield Problem(site.place(("logo",)), f"theme/{name} {fault}", "a whole PNG picture of a logo's size")


def has_logo(folder: Path, name: str) -> bool:
    """Whether the manuscript in ``folder`` has the picture that its site shows, and it can be shown."""
    path = folder / OWN / name
    return path.is_file() and not _fault_of_logo(path)


def _fault_of_logo(path: Path) -> str:
    try:
        return fault_of_logo(path.read_bytes())
    except OSError as error:
        return f"cannot be read: {error.strerror}"


def _planners(manuscript: Manuscript) -> dict[str, partial[Plan]]:
    """What plans each program, and changed versions of it."""
    exercises = {slug: document.head for slug, document in manuscript.exercises.items()}
    return {
        slug: partial(plan_program, slug, site=manuscript.site.head, exercises=exercises)
        for slug in sorted(manuscript.programs)
    }


def _plans(manuscript: Manuscript, planners: Mapping[str, partial[Plan]]) -> dict[str, Plan]:
    alike = (manuscript.site, *(document for _, document in sorted(manuscript.exercises.items())))
    return {
        slug: _PLANS.get((document, *alike), partial(planners[slug], document.head))
        for slug, document in sorted(manuscript.programs.items())
    }


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
    return not any(map(is_counted, keys))


def _marks_on_prose(
    reading: Reading, plans: Mapping[str, Plan], problems: list[Problem]
) -> dict[str, list[PlacedMark]]:
    """Figures typed in prose that the plan contradicts, by the program they stand in ('' elsewhere).

    Adds figure addresses that lead nowhere to ``problems``.
    """
    marks: dict[str, list[PlacedMark]] = {"": []}
    for document in reading.written:
        of = document.slug if document.source.kind == "program" else ""
        marks.setdefault(of, []).extend(contradicted(document, plans, problems))
    return marks

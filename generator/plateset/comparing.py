"""The proof beside another version: another program file, or another manuscript, such as an earlier edition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from plateset.manuscript.library import Manuscript
from plateset.manuscript.load import Document
from plateset.manuscript.read import read_manuscript, read_program
from plateset.manuscript.schema import Program
from plateset.manuscript.vocabulary import Unit
from plateset.problems import nearest_word
from plateset.proving import ChoiceError, Proofs
from plateset.training.comparison import Comparison, Version, compare
from plateset.training.expand import plan_program
from plateset.training.volume import program_volume


@dataclass(frozen=True)
class Comparisons:
    """What changed since another version: each program's changes, and the programs that are in one of them only.

    ``units`` are those the programs were in before.
    """

    other: str
    programs: Mapping[str, Comparison]
    units: Mapping[str, Unit]
    added: tuple[str, ...]
    gone: tuple[str, ...]


def compare_with(proofs: Proofs, other: Path, shown_as: str) -> Comparisons:
    """What changed from ``other``, a program's file or a manuscript's folder, to the programs that were proved.

    A file is read with the manuscript's own exercises and site, and compared with the program of its name, or with
    the only one that was proved. Raises :class:`ChoiceError`, and :class:`ManuscriptError` with all problems of
    ``other``.
    """
    if other.suffix in (".yaml", ".yml") and not other.is_dir():
        slug = _meant(proofs, other)
        document = read_program(other, shown_as, proofs.manuscript)
        before = {slug: _version(slug, document, proofs.manuscript)}
        after = {slug: proofs.programs[slug]}
    else:
        manuscript = read_manuscript(other, shown_as)
        before = {slug: _version(slug, document, manuscript) for slug, document in manuscript.programs.items()}
        after = dict(proofs.programs)
    now = {
        slug: Version(proof.plan, proof.volume, proofs.manuscript.programs[slug].marked.data)
        for slug, proof in after.items()
    }
    gone = sorted(set(before) - set(proofs.manuscript.programs))
    return Comparisons(
        shown_as,
        {slug: compare(before[slug], version) for slug, version in now.items() if slug in before},
        {slug: version.plan.unit for slug, version in before.items()},
        tuple(slug for slug in now if slug not in before),
        tuple(gone),
    )


def compared_only(proofs: Proofs, comparisons: Comparisons) -> Proofs:
    """The proofs of the programs that were compared or are new."""
    return proofs.only([slug for slug in proofs.programs if slug in (*comparisons.programs, *comparisons.added)])


def _meant(proofs: Proofs, other: Path) -> str:
    """The program that a file is another version of."""
    known = list(proofs.programs)
    if len(known) == 1:
        return known[0]
    if other.stem in known:
        return other.stem
    nearest = nearest_word(other.stem, known)
    hint = f" (perhaps {nearest})" if nearest else ""
    raise ChoiceError(
        f"there is no program called {other.stem!r} to compare {other.name} with; name one with --program{hint}"
    )


def _version(slug: str, document: Document[Program], manuscript: Manuscript) -> Version:
    exercises = {name: note.head for name, note in manuscript.exercises.items()}
    plan = plan_program(slug, document.head, manuscript.site.head, exercises)
    return Version(plan, program_volume(plan), document.marked.data)

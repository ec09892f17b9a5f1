"""The manuscript as a whole, once it reads well: what this floor hands on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plateset.manuscript import schema
from plateset.manuscript.load import Document


@dataclass(frozen=True)
class Manuscript:
    """All the author wrote, valid and with its references checked. Keys are file names without ending."""

    site: Document[schema.Site]
    programs: Mapping[str, Document[schema.Program]]
    exercises: Mapping[str, Document[schema.Exercise]]
    techniques: Mapping[str, Document[schema.TechniqueNote]]
    explainers: Mapping[str, Document[schema.Explainer]]

    def explainers_on(self, program: str) -> tuple[Document[schema.Explainer], ...]:
        """The explainers that name a program, in order of their names."""
        return tuple(note for _, note in sorted(self.explainers.items()) if program in note.head.programs)

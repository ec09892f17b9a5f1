"""The papers that sheets are set for."""

from __future__ import annotations

from plateset.manuscript.library import Manuscript
from plateset.publishing.language import usual_paper
from plateset.publishing.typesetting import Paper

PAPER_NAMES = {"a4": "A4", "letter": "US Letter"}


def papers_of(manuscript: Manuscript) -> tuple[Paper, ...]:
    """The paper sheets are set for: the author's choice, else that of the language's country."""
    head = manuscript.site.head
    return head.paper if "paper" in head.model_fields_set else (usual_paper(head.language),)

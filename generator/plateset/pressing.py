"""The way to a site, one call a stage: prove, typeset, press. Returns values; prints nothing."""

from __future__ import annotations

from pathlib import Path

import plotly.offline

from plateset.proving import Proofs, proof
from plateset.publishing.documents import Edition, documents
from plateset.publishing.press import check_target, write_site
from plateset.publishing.program_view import Program
from plateset.publishing.site_archive import check_archive, write_archive
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped
from plateset.training.figures import figure


class RefusedError(Exception):
    """The proof stops the press; carries the proofs."""

    def __init__(self, proofs: Proofs) -> None:
        super().__init__("the proof stops this manuscript")
        self.proofs = proofs


def press(
    folder: Path, shown_as: str, target: Path, *, as_draft: bool = False, archive: Path | None = None
) -> tuple[Proofs, int]:
    """Prove a manuscript and press it to ``target``; returns the proofs and the number of files written.

    With ``archive``, the site is also written there as one ZIP file.

    Raises :class:`ManuscriptError`, :class:`RefusedError` (unless ``as_draft``), and the errors of themes, sheets and
    the press; nothing is written then.
    """
    check_target(target, folder)
    if archive is not None:
        check_archive(archive, target)
    proofs = proof(folder, shown_as)
    if not proofs.may_be_published and not as_draft:
        raise RefusedError(proofs)
    plans = {slug: proved.plan for slug, proved in proofs.programs.items()}
    edition = Edition(
        manuscript=proofs.manuscript,
        programs={slug: Program(p.plan, p.volume, p.by_weekday) for slug, p in proofs.programs.items()},
        figure=lambda address: figure(address, plans),
        theme=find_theme(proofs.manuscript.site.head.theme, folder, shipped("themes")),
        chart_script=plotly.offline.get_plotlyjs().encode(),
        draft=as_draft,
    )
    count = write_site(documents(edition), target)
    if archive is not None:
        write_archive(target, archive)
    return proofs, count

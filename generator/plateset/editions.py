"""A proved manuscript as all that a site is made from."""

from __future__ import annotations

from pathlib import Path

from plateset.chart_library import chart_script
from plateset.prose_figures import figure_of
from plateset.proving import Proofs
from plateset.publishing.documents import Edition
from plateset.publishing.program_view import Program
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped


def edition(proofs: Proofs, folder: Path, *, draft: bool, weighed: bool = True) -> Edition:
    """What the site of a proved manuscript is made from; see :class:`Edition` for ``weighed``."""
    plans = {slug: proved.plan for slug, proved in proofs.programs.items()}
    return Edition(
        manuscript=proofs.manuscript,
        programs={slug: Program(p.plan, p.volume, p.by_weekday) for slug, p in proofs.programs.items()},
        figure=lambda address: figure_of(address, plans),
        theme=find_theme(proofs.manuscript.site.head.theme, folder, shipped("themes")),
        chart_script=chart_script(),
        draft=draft,
        weighed=weighed,
    )

"""The way to a site, one call a stage: prove, typeset, press. Returns values; prints nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import plotly.offline

from plateset.proving import Proofs, figure_of, proof
from plateset.publishing.documents import Edition, documents
from plateset.publishing.press import check_target, write_site
from plateset.publishing.program_view import Program
from plateset.publishing.site_archive import check_archive, write_archive
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped


class RefusedError(Exception):
    """The proof stops the press; carries the proofs."""

    def __init__(self, proofs: Proofs) -> None:
        super().__init__("the proof stops this manuscript")
        self.proofs = proofs


Told = Callable[[str], None]


def press(  # noqa: PLR0913 - what, where to, and how
    folder: Path,
    shown_as: str,
    target: Path,
    *,
    as_draft: bool = False,
    archive: Path | None = None,
    told: Told = lambda words: None,
) -> tuple[Proofs, int]:
    """Prove a manuscript and press it to ``target``; returns the proofs and the number of files written.

    With ``archive``, the site is also written there as one ZIP file. ``told`` is told of every step in a few words.

    Raises :class:`ManuscriptError`, :class:`RefusedError` (unless ``as_draft``), and the errors of themes, sheets and
    the press; nothing is written then.
    """
    check_target(target, folder)
    if archive is not None:
        check_archive(archive, target)
    told(f"Proving {shown_as}")
    proofs = proof(folder, shown_as)
    if not proofs.may_be_published and not as_draft:
        raise RefusedError(proofs)
    made = replace(edition(proofs, folder, draft=as_draft), told=told)
    count = write_site(_telling(documents(made), told), target)
    if archive is not None:
        told(f"Writing {archive}")
        write_archive(target, archive)
    return proofs, count


def _telling(files: Iterable[tuple[str, bytes]], told: Told) -> Iterator[tuple[str, bytes]]:
    for path, data in files:
        told(f"Writing {path}")
        yield path, data


def edition(proofs: Proofs, folder: Path, *, draft: bool, weighed: bool = True) -> Edition:
    """What the site of a proved manuscript is made from; see :class:`Edition` for ``weighed``."""
    plans = {slug: proved.plan for slug, proved in proofs.programs.items()}
    return Edition(
        manuscript=proofs.manuscript,
        programs={slug: Program(p.plan, p.volume, p.by_weekday) for slug, p in proofs.programs.items()},
        figure=lambda address: figure_of(address, plans),
        theme=find_theme(proofs.manuscript.site.head.theme, folder, shipped("themes")),
        chart_script=_chart_script(),
        draft=draft,
        weighed=weighed,
    )


@cache
def _chart_script() -> bytes:
    script: str = plotly.offline.get_plotlyjs()
    return script.encode()

"""The way to a site, one call a stage: take stock, study, make, exchange. Returns values; prints nothing."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import plotly.offline

from plateset.press_run import Pressed, PressRun, RefusedError, Settings
from plateset.prose_figures import figure_of
from plateset.proving import Proofs
from plateset.publishing.bench import bench
from plateset.publishing.documents import Edition
from plateset.publishing.ledger import holds_all, read_ledger
from plateset.publishing.press import check_kept, check_target
from plateset.publishing.program_view import Program
from plateset.publishing.site_archive import check_archive, write_archive
from plateset.publishing.theme import find_theme
from plateset.shipped import shipped
from plateset.stocktaking import take_stock

__all__ = ["Options", "Pressed", "RefusedError", "edition", "press"]


@dataclass(frozen=True)
class Options:
    """How to press. ``kept`` is where the site before goes, ``archive`` the file that holds the site too.

    ``jobs`` is how many processes work at once, as many as there are cores without it; an ``executor`` is used instead
    of processes of our own. It has to share the disk with us. ``told`` is told of every step in a few words.
    """

    as_draft: bool = False
    archive: Path | None = None
    kept: Path | None = None
    jobs: int | None = None
    executor: Executor | None = None
    told: Callable[[str], None] = lambda words: None


def press(folder: Path, shown_as: str, target: Path, options: Options | None = None) -> Pressed:
    """Prove a manuscript and press it to ``target``, making anew only what has changed since the press before.

    Raises :class:`ManuscriptError`, :class:`RefusedError` (unless ``as_draft``), and the errors of themes, sheets,
    workers and the press; nothing is written then.
    """
    chosen = options or Options()
    check_target(target, folder)
    if chosen.archive is not None:
        check_archive(chosen.archive, target)
    if chosen.kept is not None:
        check_kept(chosen.kept)
    chosen.told(f"Proving {shown_as}")
    stock = take_stock(folder, shown_as, draft=chosen.as_draft)
    ledger = read_ledger(target)
    if ledger is not None and ledger.stock == stock.everything and holds_all(target, ledger):
        _clear_up(target)
        pressed = Pressed(ledger.tally, len(ledger.programs), ledger.count, unchanged=True)
    else:
        with bench(target) as made:
            settings = Settings(chosen.as_draft, chosen.kept, chosen.jobs, chosen.executor, chosen.told, _chart_script)
            pressed = PressRun(folder, shown_as, made, settings).run(stock, ledger)
    if chosen.archive is not None:
        chosen.told(f"Writing {chosen.archive}")
        write_archive(target, chosen.archive)
    return pressed


def _clear_up(target: Path) -> None:
    """What a press that was killed has left beside the site is taken away even if there is nothing to press."""
    if Path(target.resolve()).with_name(f".{target.resolve().name}.pressing").exists():
        with bench(target):
            pass


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

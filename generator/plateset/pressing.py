"""The way to a site, one call a stage: take stock, study, make, exchange. Returns values; prints nothing."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

from plateset.press_terms import Options, Pressed, RefusedError
from plateset.publishing.bench import bench
from plateset.publishing.ledger import holds_all, read_ledger
from plateset.publishing.press import check_kept, check_target
from plateset.publishing.site_archive import check_archive, write_archive
from plateset.stocktaking import take_stock

__all__ = ["Options", "Pressed", "RefusedError", "press"]


RUN = "plateset.press_run"
"""Loaded where there is something to press: it brings all that reads a manuscript and makes a site."""


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
            pressed = import_module(RUN).PressRun(folder, shown_as, made, chosen).run(stock, ledger)
    if chosen.archive is not None:
        chosen.told(f"Writing {chosen.archive}")
        write_archive(target, chosen.archive)
    return pressed


def _clear_up(target: Path) -> None:
    """What a press that was killed has left beside the site is taken away even if there is nothing to press."""
    if Path(target.resolve()).with_name(f".{target.resolve().name}.pressing").exists():
        with bench(target):
            pass

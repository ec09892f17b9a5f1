"""The way to a site, one call a stage: take stock, study, make, exchange. Returns values; prints nothing."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

from plateset.press_terms import Options, Pressed, RefusedError
from plateset.publishing.bench import bench
from plateset.publishing.ledger_file import read_ledger, read_summary
from plateset.publishing.press import check_kept, check_target
from plateset.publishing.site_archive import check_archive, write_archive
from plateset.publishing.wholeness import holds_all, looks_whole
from plateset.stocktaking import Stock, take_stock

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
        check_archive(chosen.archive, target, folder)
    if chosen.kept is not None:
        check_kept(chosen.kept, target, folder)
    chosen.told(f"Proving {shown_as}")
    stock = take_stock(folder, shown_as, draft=chosen.as_draft)
    pressed = _standing(target, stock)
    if pressed is not None:
        _clear_up(target)
    else:
        ledger = read_ledger(target)
        with bench(target) as made:
            pressed = import_module(RUN).PressRun(folder, shown_as, made, chosen).run(stock, ledger)
    if chosen.archive is not None:
        chosen.told(f"Writing {chosen.archive}")
        write_archive(target, chosen.archive)
    return pressed


def _standing(target: Path, stock: Stock) -> Pressed | None:
    """The site there is, if it is what would be pressed now, whole.

    What could not be read is in no digest: an entry that a reading refuses is a problem of the stock and nothing else.
    """
    if stock.problems:
        return None
    summary = read_summary(target)
    if summary is None or summary.stock != stock.everything:
        return None
    if not looks_whole(target, summary):
        ledger = read_ledger(target)
        if ledger is None or not holds_all(target, ledger):
            return None
    return Pressed(summary.tally, summary.programs, len(summary.rows), unchanged=True)


def _clear_up(target: Path) -> None:
    """What a press that was killed has left beside the site is taken away even if there is nothing to press."""
    if Path(target.resolve()).with_name(f".{target.resolve().name}.pressing").exists():
        with bench(target):
            pass

"""One press in a process of its own, as the benchmarks time it: ``html`` is pages and texts alone."""

from __future__ import annotations

import gc
import multiprocessing
import sys
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from plateset.pressing import Options, press
from plateset.publishing import program_products
from plateset.publishing.studio import Studio
from plateset.publishing.takeaways import Desk, TakeAway, takeaways
from plateset.workers import COLLECTED, typeset_on_one_core


def without_paper(desk: Desk) -> tuple[TakeAway, ...]:
    """The texts a reader takes away; nothing that is typeset, no workbook."""
    return tuple(file for file in takeaways(desk) if file.order is None and file.kind != "XLSX")


def main(what: str, folder: str, target: str, jobs: str) -> None:
    """Press ``folder`` to ``target``, with garbage looked for as rarely as the command does."""
    gc.set_threshold(*COLLECTED)
    if jobs == "1":
        typeset_on_one_core()
    if what == "html":
        program_products.takeaways = without_paper  # type: ignore[attr-defined]
        Studio.card = lambda self, page: None  # type: ignore[method-assign]  # a card is typeset too
        # Forked, so that the workers know of it; nothing has been typeset in this process.
        with ProcessPoolExecutor(int(jobs), multiprocessing.get_context("fork")) as executor:
            chosen = Options(as_draft=True, jobs=int(jobs), executor=executor if int(jobs) > 1 else None)
            press(Path(folder), folder, Path(target), chosen)
    else:
        press(Path(folder), folder, Path(target), Options(as_draft=True, jobs=int(jobs)))


if __name__ == "__main__":
    main(*sys.argv[1:])

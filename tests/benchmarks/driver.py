"""One press in a process of its own, as the benchmarks time it: ``html`` is pages and texts alone.

It loads what the command loads, and when it does: what makes a program's files is loaded first only to leave some out.
"""

from __future__ import annotations

import gc
import multiprocessing
import sys
from concurrent.futures import ProcessPoolExecutor
from importlib import import_module
from pathlib import Path
from typing import Any

from plateset.pressing import Options, press
from plateset.thrift import COLLECTED, end_at_once, typeset_on_one_core


def leave_out_paper() -> None:
    """Make no file that is typeset, and no workbook: a card is typeset too."""
    products: Any = import_module("plateset.publishing.program_products")
    studio: Any = import_module("plateset.publishing.studio")
    takeaways = products.takeaways
    products.takeaways = lambda desk: tuple(
        file for file in takeaways(desk) if file.order is None and file.kind != "XLSX"
    )
    studio.Studio.card = lambda self, page: None


def main(what: str, folder: str, target: str, jobs: str) -> None:
    """Press ``folder`` to ``target``, with garbage looked for as rarely as the command does."""
    gc.set_threshold(*COLLECTED)
    end_at_once()
    if jobs == "1":
        typeset_on_one_core()
    if what == "html":
        leave_out_paper()
        # Forked, so that the workers know of it; nothing has been typeset in this process.
        with ProcessPoolExecutor(int(jobs), multiprocessing.get_context("fork")) as executor:
            chosen = Options(as_draft=True, jobs=int(jobs), executor=executor if int(jobs) > 1 else None)
            press(Path(folder), folder, Path(target), chosen)
    else:
        press(Path(folder), folder, Path(target), Options(as_draft=True, jobs=int(jobs)))


if __name__ == "__main__":
    main(*sys.argv[1:])

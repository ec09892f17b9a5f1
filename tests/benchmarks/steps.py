"""What one more program costs, step by step: everything its readers get, one program after another in one process.

Seconds of work; of each step the least that a program took, the first left out, as it also fills what others find.
"""

from __future__ import annotations

import json
import resource
import sys
import time
from collections import defaultdict
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from plateset.editions import edition
from plateset.proving import Proofs, proof
from plateset.publishing.documents import Edition, site_view
from plateset.publishing.own_loads import with_own_loads
from plateset.publishing.program_products import offers_of, pages_of
from plateset.publishing.program_view import Program, program_view
from plateset.publishing.studio import Studio
from plateset.publishing.takeaways import Desk, TakeAway, calendar_view, takeaways
from plateset.thrift import rarely_collected, typeset_on_one_core

R = TypeVar("R")


class Watch:
    """Seconds of work by the step they were spent on."""

    def __init__(self) -> None:
        self.spent: dict[str, float] = defaultdict(float)

    def time(self, step: str, work: Callable[[], R]) -> R:
        """What comes of ``work``, its time noted."""
        began = time.process_time()
        made = work()
        self.spent[step] += time.process_time() - began
        return made


def main(folder: str) -> None:
    """Print the steps of a program with their seconds, their sum, and the most memory held in MB."""
    watch = Watch()
    typeset_on_one_core()
    with rarely_collected():
        proofs = watch.time("prove", lambda: proof(Path(folder), folder))
        spent = [_everything(each, proofs, Path(folder)) for each in sorted(proofs.programs)]
    steps = {step: min(one[step] for one in spent[1:]) for step in spent[0]}
    steps = {"prove": watch.spent["prove"] / len(spent), **steps}
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"steps": steps, "sum": sum(steps.values()), "MB": memory}))


def _everything(slug: str, proofs: Proofs, folder: Path) -> dict[str, float]:
    made = edition(proofs, folder, draft=True, weighed=False)
    studio, watch = Studio(site_view(made), made.theme), Watch()
    desk = _desk(made.programs[slug], made, studio, watch)
    files = takeaways(desk)
    for file in files:
        watch.time(_step(file), file.bytes_of)
    view = offers_of(desk, files, calendar_view(desk), weighed=True).view
    for product in pages_of(view, studio):
        watch.time("pages", product.make)
    return dict(watch.spent)


def _desk(program: Program, made: Edition, studio: Studio, watch: Watch) -> Desk:
    notes = made.manuscript
    view = watch.time("view", lambda: program_view(program, notes, made.figure, studio.language))
    view, scripts = watch.time("own loads", lambda: with_own_loads(program, view, notes, studio.language))
    return Desk(program, view, notes, studio.site, made.theme, scripts)


def _step(file: TakeAway) -> str:
    if file.week is not None:
        return "sheets of weeks"
    return file.title.partition(",")[0].lower() if file.order else file.kind


if __name__ == "__main__":
    main(*sys.argv[1:])

"""From a folder to the next state of the preview: read, prove, lay out. Pages are rendered when they are looked at."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from plateset.editions import edition
from plateset.preview.state import Pressed, State
from plateset.problems import ManuscriptError
from plateset.proving import proof
from plateset.publishing.documents import Make, makers
from plateset.publishing.social_card import CardError
from plateset.publishing.theme import ThemeError
from plateset.publishing.typesetting import SheetError

FAULTS = (ThemeError, SheetError, CardError, OSError)
"""What can be in the way besides the manuscript's own problems."""


def next_state(state: State, folder: Path, shown_as: str) -> State:
    """The state after a change in ``folder``. Sheets are not set here; that takes seconds and happens on request."""
    try:
        proofs = proof(folder, shown_as)
        made = edition(proofs, folder, draft=not proofs.may_be_published, weighed=False)
        return state.with_pages(Pressed(proofs, dict(makers(made))))
    except ManuscriptError as error:
        return state.with_problems(tuple(error.problems))
    except FAULTS as error:
        return state.with_fault(words_of(error))


def words_of(error: Exception) -> str:
    """A fault in a sentence."""
    return str(error) or type(error).__name__


def unseen_pages(state: State) -> Iterator[Make]:
    """What makes each page, for a look at those nobody has opened: a theme may be at fault in any of them."""
    if state.pressed is not None:
        yield from (make for path, make in state.pressed.files.items() if path.endswith(".html"))

"""What a technique makes of a set: a table of named techniques, each adding concrete pieces with one signature.

A technique takes its settings and the set's first piece, and returns the pieces of the whole set. The expected
repetitions of later pieces are common practice, no source, where no study is named. To add one: a model in
``manuscript/schema.py``, a function here, a row in the table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

from plateset.manuscript import schema
from plateset.manuscript.quantities import Reps
from plateset.training.loads import Lifting, lighter
from plateset.training.plan import Piece

DROP_SHARE = Decimal("0.55")
"""A drop yields about 50-60 % of the first piece's repetitions (common practice, no source; Enes et al. 2022,
RQES 94(4):982-989 prescribed 6 after 10)."""

PAUSE_SHARES = (Decimal("0.45"), Decimal("0.3"))
"""Rest-pause after a set of 8 with short pauses: about 3-4, then 2-3 repetitions (common practice, no source)."""


@dataclass(frozen=True)
class Technique:
    """How a technique expands a set; whether it goes past failure; from which level; and its name in a title."""

    title: str
    past_failure: bool
    level: str
    expand: Callable[[schema.SetTechnique, Piece, Lifting], tuple[Piece, ...]]


def _share(count: int | None, share: Decimal) -> int | None:
    if count is None:
        return None
    return max(1, int((count * share).quantize(Decimal(1), ROUND_HALF_UP)))


def _drop_set(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    assert isinstance(setting, schema.DropSet)
    pieces = [first]
    keep = 1 - setting.reduce / 100
    for drop in range(1, setting.drops + 1):
        before = pieces[-1].load
        if setting.of == "first" and first.load.mass is not None:
            wish = first.load.mass * (1 - setting.reduce / 100 * drop)
        else:
            wish = (before.mass or Decimal(0)) * keep
        aim = _share(first.aim, DROP_SHARE)
        pieces.append(Piece("drop", lighter(lifting, before, wish), None, aim))
    return tuple(pieces)


def _rest_pause(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    assert isinstance(setting, schema.RestPause)
    shares = [PAUSE_SHARES[min(index, len(PAUSE_SHARES) - 1)] for index in range(setting.pauses)]
    later = (
        Piece("after a pause", first.load, None, _share(first.aim, share), pause_before=setting.pause)
        for share in shares
    )
    return (first, *later)


def _cluster(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    """The repetitions are kept and shared out, the larger pieces first (Tufano et al. 2017, JSCR 31(3):848-867)."""
    assert isinstance(setting, schema.Cluster)
    total = first.aim or setting.pieces
    count = min(setting.pieces, total)
    sizes = [total // count + (1 if index < total % count else 0) for index in range(count)]
    head = replace(first, reps=Reps(sizes[0], sizes[0]), aim=sizes[0])
    later = (
        Piece("after a pause", first.load, Reps(size, size), size, pause_before=setting.pause) for size in sizes[1:]
    )
    return (head, *later)


def _negatives(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    assert isinstance(setting, schema.Negatives)
    reps = Reps(setting.reps, setting.reps)
    return first, Piece("negatives", first.load, reps, setting.reps, seconds_per_rep=setting.lowering)


def _more(role: str) -> Callable[[schema.SetTechnique, Piece, Lifting], tuple[Piece, ...]]:
    def expand(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
        assert isinstance(setting, schema.LooseForm | schema.ForcedReps | schema.Partials)
        reps = Reps(setting.reps, setting.reps)
        return first, Piece(role, first.load, reps, setting.reps)  # type: ignore[arg-type]

    return expand


def _hold(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    assert isinstance(setting, schema.IsometricHold)
    return first, Piece("hold", first.load, None, None, hold=setting.hold)


def _open(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    reps = replace(first.reps, open=True) if first.reps else Reps(1, 1, open=True)
    return (replace(first, reps=reps),)


TECHNIQUES: dict[str, Technique] = {
    "drop-set": Technique("Drop set", True, "intermediate", _drop_set),
    "rest-pause": Technique("Rest-pause", True, "intermediate", _rest_pause),
    "cluster": Technique("Cluster set", False, "intermediate", _cluster),
    "negatives": Technique("Negatives", True, "advanced", _negatives),
    "loose-form": Technique("Loose-form reps", True, "advanced", _more("loose form")),
    "forced-reps": Technique("Forced reps", True, "advanced", _more("with help")),
    "partials": Technique("Partials", True, "intermediate", _more("short range")),
    "isometric-hold": Technique("Isometric hold", False, "intermediate", _hold),
    "as-many-as-possible": Technique("As many as possible", False, "novice", _open),
}


def counted(setting: schema.SetTechnique, pieces: tuple[Piece, ...]) -> Decimal:
    """How many sets it is in weekly sets: one, and for each later piece what the author counts it with.

    Studies count a drop set as one set or add up its load-volume (Angleri et al. 2017, EJAP 117(2):359-369); none
    gives a share for each drop, so that one set is taken unless the author says otherwise.
    """
    share = setting.each_counts if isinstance(setting, schema.DropSet | schema.RestPause) else None
    return Decimal(1) if share is None else 1 + share * (len(pieces) - 1)


def pieces_of(setting: schema.SetTechnique, first: Piece, lifting: Lifting) -> tuple[Piece, ...]:
    """The pieces of a set under a technique."""
    return TECHNIQUES[setting.technique].expand(setting, first, lifting)

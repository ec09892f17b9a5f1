"""How many repetitions a share of the maximum allows, and the maximum from a set done.

A curve gives the share of the one-repetition maximum (1RM) that can be lifted for a number of repetitions to
failure; the 1RM is the load divided by that share. One repetition is the load itself for every curve, also where
the printed formula says otherwise at one repetition (Epley, Lander, Mayhew, O'Conner, Wathan).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from itertools import pairwise

HANDBOOK_ROWS: tuple[tuple[int, int], ...] = (
    (1, 100), (2, 95), (3, 93), (4, 90), (5, 87), (6, 85), (7, 83), (8, 80), (9, 77), (10, 75), (11, 70),
    (12, 67), (15, 65),
)  # fmt: skip
"""Repetitions and percent of 1RM, as printed in Haff & Triplett (2016), table 17.7; rows 11, 12 and 15 from memory.

The same association's training load chart gives 70 % for 12 repetitions; the textbook's 67 % is taken because only
the textbook goes on to 15.
"""


@dataclass(frozen=True)
class Curve:
    """A published relation of repetitions to failure and the share of 1RM.

    ``share`` takes repetitions (1 or more) and returns a fraction of 1RM; ``most`` is the largest number of
    repetitions its source supports, beyond which the proof says so instead of printing a load.
    """

    title: str
    formula: str
    share: Callable[[float], float]
    most: int
    source: str


def _handbook(reps: float) -> float:
    for (r0, p0), (r1, p1) in pairwise(HANDBOOK_ROWS):
        if reps <= r1:
            return (p0 + (p1 - p0) * (reps - r0) / (r1 - r0)) / 100
    raise ValueError(f"the table ends at {HANDBOOK_ROWS[-1][0]} repetitions, not {reps}")


CURVES: dict[str, Curve] = {
    "handbook": Curve(
        "Handbook table",
        "100, 95, 93, 90, 87, 85, 83, 80, 77, 75, 70, 67 % for 1 to 12 repetitions, 65 % for 15; between rows on a "
        "straight line",
        _handbook,
        15,
        "Haff G.G., Triplett N.T. (eds) (2016). Essentials of Strength Training and Conditioning, 4th ed., "
        "table 17.7. Human Kinetics. Rows for 11, 12 and 15 not checked against the book.",
    ),
    "epley": Curve(
        "Epley",
        "1RM = load × (1 + reps ÷ 30)",
        lambda r: 1 / (1 + r / 30),
        10,
        "Epley B. (1985). Poundage chart. Body Enterprises. Coefficient not checked against it; 1/30 is taken, not "
        "0.0333 or 0.033 as some later texts print.",
    ),
    "brzycki": Curve(
        "Brzycki",
        "1RM = load ÷ (1.0278 − 0.0278 × reps)",
        lambda r: 1.0278 - 0.0278 * r,
        10,
        "Brzycki M. (1993). Strength testing: predicting a one-rep max from reps-to-fatigue. JOPERD 64(1):88-90.",
    ),
    "lander": Curve(
        "Lander",
        "1RM = 100 × load ÷ (101.3 − 2.67123 × reps)",
        lambda r: (101.3 - 2.67123 * r) / 100,
        10,
        "Lander J. (1985). Maximums based on reps. NSCA Journal 6(6):60-61. Coefficients not checked against it.",
    ),
    "lombardi": Curve(
        "Lombardi",
        "1RM = load × reps^0.10",
        lambda r: r**-0.10,
        10,
        "Lombardi V.P. (1989). Beginning Weight Training. W.C. Brown, p. 201. Coefficients not checked against it.",
    ),
    "mayhew": Curve(
        "Mayhew and others",
        "1RM = 100 × load ÷ (52.2 + 41.9 × e^(−0.055 × reps))",
        lambda r: (52.2 + 41.9 * math.exp(-0.055 * r)) / 100,
        15,
        "Mayhew J.L. et al. (1992). Relative muscular endurance performance as a predictor of bench press strength. "
        "Journal of Applied Sport Science Research 6(4):200-206. Coefficients not checked against it.",
    ),
    "oconner": Curve(
        "O'Conner and others",
        "1RM = load × (1 + 0.025 × reps)",
        lambda r: 1 / (1 + 0.025 * r),
        10,
        "O'Conner B., Simmons J., O'Shea P. (1989). Weight Training Today. West Publishing. Coefficients not "
        "checked against it.",
    ),
    "wathan": Curve(
        "Wathan",
        "1RM = 100 × load ÷ (48.8 + 53.8 × e^(−0.075 × reps))",
        lambda r: (48.8 + 53.8 * math.exp(-0.075 * r)) / 100,
        15,
        "Wathen D. (1994). Load assignment. In: Baechle T.R. (ed.) Essentials of Strength Training and Conditioning, "
        "pp. 435-446. Human Kinetics. Coefficients not checked against it.",
    ),
}
"""Every curve by the name a manuscript uses. To add one, add it here and to ``CurveName``."""


def share_of_max(reps: float, curve: str) -> float:
    """The fraction of 1RM that allows ``reps`` repetitions to failure.

    Raises ValueError below one repetition and beyond the curve's range.
    """
    chosen = CURVES[curve]
    if not 1 <= reps <= chosen.most:
        raise ValueError(f"{chosen.title} holds for 1 to {chosen.most} repetitions, not {reps}")
    return 1.0 if reps == 1 else chosen.share(reps)


def estimate_max(load: float, reps: float, curve: str) -> float:
    """1RM in the unit of ``load`` from a set of ``reps`` repetitions to failure. Errors as :func:`share_of_max`."""
    return load / share_of_max(reps, curve)


@lru_cache(maxsize=4096)
def percent_of_max(reps_to_failure: Decimal, curve: str) -> Decimal:
    """:func:`share_of_max` in percent, to a hundredth, so that loads are worked out in exact decimals."""
    share = share_of_max(float(reps_to_failure), curve)
    return (Decimal(repr(share)) * 100).quantize(Decimal("0.01"), ROUND_HALF_UP)


@lru_cache(maxsize=4096)
def reps_at_percent(percent: Decimal, curve: str) -> int | None:
    """The most whole repetitions to failure the curve allows at ``percent`` of 1RM; None beyond its range."""
    if percent < percent_of_max(Decimal(CURVES[curve].most), curve):
        return None
    fitting = [reps for reps in range(1, CURVES[curve].most + 1) if percent_of_max(Decimal(reps), curve) >= percent]
    return max(fitting, default=0)

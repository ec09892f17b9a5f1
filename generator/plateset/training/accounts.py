"""Every computation in words, with its formula, limits and source: the text of 'How the numbers are made'.

Figures in it are taken from the constants that compute, so that the page cannot say something else.
"""

from __future__ import annotations

from dataclasses import dataclass

from plateset.training.marks.mark import plain
from plateset.training.strength import CURVES
from plateset.training.techniques import DROP_SHARE, PAUSE_SHARES
from plateset.training.time import CHANGE_OVER, SECONDS_PER_REP, WARM_UP, WARM_UP_REST
from plateset.training.volume import HARD_RESERVE
from plateset.training.warm_up import HEAVY, USUAL


@dataclass(frozen=True)
class Account:
    """One computation as a reader is told of it."""

    title: str
    words: str
    formula: str
    valid: str
    source: str


_CURVE_ACCOUNTS = tuple(
    Account(
        f"Estimating a max: {curve.title}",
        "From a set taken to failure, the load that could be lifted once. One repetition is the load itself.",
        curve.formula,
        f"1 to {curve.most} repetitions to failure; beyond that no load is printed.",
        curve.source,
    )
    for curve in CURVES.values()
)

ACCOUNTS: tuple[Account, ...] = (
    *_CURVE_ACCOUNTS,
    Account(
        "Loading by effort",
        "A set of n repetitions with r in reserve is loaded as n + r repetitions to failure. A range is loaded for "
        "its lower end. Where the reserve is to fall over the sets, the load is the first set's. People misjudge what "
        "they have in reserve by about one repetition, more when far from failure.",
        "load = max × share(n + r)",
        "0 to 6 repetitions in reserve, within the range of the curve.",
        "Common practice; scale: Zourdos M.C. et al. (2016). JSCR 30(1):267-275. Accuracy: Halperin I. et al. (2022). "
        "Sports Medicine 52(2):377-390.",
    ),
    Account(
        "RPE and repetitions in reserve",
        "A rating of perceived exertion for a set is read as repetitions in reserve.",
        "RIR = 10 − RPE",
        "RPE 6 to 10; half points lie between two whole ones.",
        "Helms E.R. et al. (2016). Strength and Conditioning Journal 38(4):42-49.",
    ),
    Account(
        "Rounding",
        "A load is rounded to what the gym can load: the bar with pairs of plates, the dumbbells on the rack, the pins "
        "of the stack with the weights hung on it. The nearest is taken, a tie goes down, and it never passes the "
        "max. Plates are the fewest that "
        "make the load, heaviest first.",
        "bar + collars + 2 × plates on one side",
        "The equipment named by the site or the program.",
        "Common practice, no source; bars and discs: IWF Technical and Competition Rules; IPF Technical Rules Book.",
    ),
    Account(
        "Pounds and kilograms",
        "Masses are converted exactly and only then rounded to what can be loaded.",
        "1 lb = 0.45359237 kg",
        "Always.",
        "International yard and pound agreement, 1 July 1959.",
    ),
    Account(
        "Weekly sets",
        "A set counts 1 for every muscle the exercise trains directly and its share (usually 0.5) for those it trains "
        "indirectly. A set with a technique is one set, however many pieces it has, unless the author counts them. "
        "For a "
        "muscle group a set counts once. Where the reader may choose, the figure is a range. Warm-up sets do not "
        "count.",
        "weekly sets = direct sets + Σ share × indirect sets",
        "An estimate: methods of counting differ.",
        "Pelland J.C. et al. (2024). SportRxiv preprint. Mannarino P. et al. (2021). JSCR 35(10):2677-2681.",
    ),
    Account(
        "Hard sets",
        f"Sets known to end within {plain(HARD_RESERVE)} repetitions of failure: by the effort asked, else by what the "
        "curve allows with the load.",
        "repetitions possible − repetitions asked",
        "Sets whose load or effort is known; others are not counted as hard.",
        "Common practice, no source; scale: Zourdos M.C. et al. (2016). JSCR 30(1):267-275.",
    ),
    Account(
        "Back-off sets and pyramids",
        "A back-off set keeps a share of the top set's load before rounding, a pyramid takes a share off from set to "
        "set and adds repetitions. On the body only what is added is shared out.",
        "load = load of the heaviest set × share",
        "What fatigue takes from set to set is not worked out: in one study five hard sets of the bench press gave 33 "
        "repetitions with 2 min of rest and 27 with 1 min, where the table for fresh lifters allows 45.",
        "Common practice, no source; study: Speretta G.F.F. et al. (2012). International Journal of Exercise Science: "
        "Conference Proceedings 1(1):68.",
    ),
    Account(
        "Warm-up sets",
        "Before the first lift of a session over several joints that is loaded with "
        f"{plain(HEAVY)} % of the max or more: "
        f"{', '.join(f'{plain(step.load)} % for {step.reps}' for step in USUAL)} of its load and repetitions, unless "
        "the author says otherwise.",
        "load = working load × share, rounded",
        "A start: cold days and old joints want more.",
        "Common practice, no source.",
    ),
    Account(
        "Load-volume",
        "Load times repetitions, added up. Dumbbells count both hands, bodyweight lifts the part of the body that is "
        "moved.",
        "Σ load × repetitions",
        "Compares weeks of the same lifts; says little across different lifts.",
        "Haff G.G., Triplett N.T. (eds) (2016). Essentials of Strength Training and Conditioning, 4th ed., ch. 17.",
    ),
    Account(
        "Minutes",
        f"Repetitions at their tempo ({SECONDS_PER_REP} s each where none is given), rests, pauses within sets, "
        f"{CHANGE_OVER} s to change to the next exercise unless its note says otherwise, {WARM_UP // 60} min of "
        f"general warm-up, and {WARM_UP_REST} s after each warm-up set. In a group the rest comes once a round.",
        "warm-up + Σ (sets × set time + rests) + change-overs",
        "A guide: a busy gym takes longer.",
        "Common practice, no source; saving by supersets: Burke R. et al. (2024). SportRxiv preprint 419.",
    ),
    Account(
        "Expected repetitions in techniques",
        "After the first piece of a drop set about "
        f"{plain(DROP_SHARE * 100)} % of its repetitions; after short pauses about "
        f"{' and then '.join(plain(share * 100) + ' %' for share in PAUSE_SHARES)}. They are there to plan the sheet, "
        "not as a target.",
        "expected = repetitions of the first piece × share",
        "One set; nothing is promised across sets, where fatigue differs from person to person.",
        "Common practice, no source; a prescribed example: Enes A. et al. (2022). RQES 94(4):982-989.",
    ),
    Account(
        "Progression and deloads",
        "Deload and test weeks do not count as a step; in a deload, the load before rounding is scaled down and then "
        "rounded. "
        "Repetitions shown under double progression, and loads under the two-for-two rule (two repetitions over the "
        "goal "
        "in the last set of two sessions running), are a projection at the pace the author states; what you do decides "
        "when you add load.",
        "load in week w = load in week 1 + steps × addition",
        "Rises of more than 10 % a step are marked to the author.",
        "ACSM (2009). Medicine & Science in Sports & Exercise 41(3):687-708. Two-for-two: Haff G.G., Triplett N.T. "
        "(eds) "
        "(2016), ch. 17. Deloads: Rogerson D. et al. (2024). "
        "Sports Medicine - Open 10:26.",
    ),
)

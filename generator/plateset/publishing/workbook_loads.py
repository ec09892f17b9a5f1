"""The load of a set as a live formula over the reader's maxima and what their gym can load.

One function for each rule a load can come from; a rule without one stops the press. The formulas repeat what
``training`` does when it rounds and hold no curve: the share of the max is a number that ``training`` prepared.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from decimal import Decimal
from typing import assert_never

from plateset.manuscript.schema import DropSet, Exercise, LiftLine, WarmUpSet
from plateset.publishing.workbook_desk import Cell, Formula, number
from plateset.publishing.workbook_gym import ROUNDING, SMALLEST_PLATE, Loadable, LoadingList, bar_is_ours
from plateset.publishing.workbook_lifts import BODYWEIGHT, YourLifts, leans_on_body
from plateset.publishing.workbook_words import FormulaWords, in_formula
from plateset.training.plan import Basis, Load, Piece, Trouble
from plateset.training.rounding import Steps, to_step

LOAD, WORD, MAX, PERCENT, ADDED, STAYS, EXACT, PLACE, NEAREST = "D", "I", "M", "N", "O", "P", "Q", "R", "S"
"""The columns of a week's sheet that a load and the word beside it are worked out in."""

LISTED = ("bar", "dumbbell", "stack")
"""Kinds of load that come from a list of masses."""

PLAIN_STEP = Decimal("0.5")
"""What has no list is rounded to half a unit, as in training."""


ENGLISH_WORDS = FormulaWords()


def _trouble(trouble: Trouble, words: FormulaWords) -> str:
    """What is amiss with the example lifter's load; empty if nothing is."""
    match trouble:
        case "below the bar" | "not loadable":
            return words.too_light
        case "beyond the rack":
            return words.too_heavy
        case "above the max":
            return words.above_max
    return ""


@dataclass(frozen=True)
class Spot:
    """Where a piece stands: its row, that of its set's first piece and that of the piece before (rows as printed)."""

    row: int
    first: int
    before: int

    def at(self, column: str) -> str:
        """The address of a cell of the piece's own row."""
        return f"{column}{self.row}"


@dataclass(frozen=True)
class Source:
    """What the loads of one lift come from: the reader's maxima, the gym, the exercise and its line in the program.

    ``warm_up`` is what the program warms up with where the line says nothing.
    """

    lifts: YourLifts
    what: Loadable
    note: Exercise
    line: LiftLine
    warm_up: tuple[WarmUpSet, ...] = ()
    words: FormulaWords = ENGLISH_WORDS

    @property
    def feel(self) -> LoadCells:
        """The cells of a load that is left to feel."""
        return LoadCells(self.words.by_feel)

    @property
    def capped(self) -> bool:
        """Whether rounding may not pass the max."""
        return self.line.above_max is None


@dataclass(frozen=True)
class LoadCells:
    """The cells of a piece: its load, a word on how it is loaded, and the working behind it."""

    load: Cell
    word: Cell = None
    max: Cell = None
    percent: Decimal | None = None
    added: Decimal | None = None
    stays: Decimal | None = None
    exact: Cell = None
    place: Cell = None
    nearest: Cell = None


def load_cells(pieces: tuple[Piece, ...], place: int, spot: Spot, source: Source) -> LoadCells:
    """The cells of one of the ``pieces`` of a set; ``place`` counts from 0. Raises TypeError for a rule not known."""
    load = pieces[place].load
    if place and load == pieces[0].load:
        return _as_before(load, spot, source)
    match load.basis.rule:
        case "percent" | "effort":
            return _from_max(load, spot, source)
        case "fixed" | "bodyweight":
            return _given(load, spot, source)
        case "feel":
            return source.feel
        case "technique":
            return _dropped(pieces, place, spot, source)
        case "warm-up":
            raise TypeError(f"{source.line.exercise}: a warm-up set among the pieces of a working set")
        case _ as unknown:
            assert_never(unknown)


def _as_before(load: Load, spot: Spot, source: Source) -> LoadCells:
    """The same load taken up again."""
    return source.feel if load.mass is None else LoadCells(Formula(f"{LOAD}{spot.first}", load.mass))


def again(cells: LoadCells, row: int) -> LoadCells:
    """The same load in another set: what stands in the row it was worked out in."""
    if not isinstance(cells.load, Formula):
        return cells
    word = Formula(f"{WORD}{row}", cells.word.value) if isinstance(cells.word, Formula) else cells.word
    return LoadCells(Formula(f"{LOAD}{row}", cells.load.value), word)


def stays_of(basis: Basis) -> Decimal:
    """What is kept of the heaviest set's load by a back-off set, a step of a pyramid, a deload week, or several."""
    return basis.share * basis.scale


def _from_max(load: Load, spot: Spot, source: Source) -> LoadCells:
    basis = load.basis
    assert basis.max is not None
    assert basis.percent is not None
    assert load.exact is not None
    share, known = f"{spot.at(MAX)}*{spot.at(PERCENT)}/100", f"ISNUMBER({spot.at(MAX)})"
    added, stays = spot.at(ADDED), f"{spot.at(STAYS)}/100"
    if load.kind == "bodyweight":
        known = f"AND({known},ISNUMBER({BODYWEIGHT}))"
        on_top = f"{share}-{BODYWEIGHT}+{added}"
        worked = f"ROUND(({on_top})*IF({on_top}>0,{stays},1),9)"
        # Without a max an effort on the body means the body alone, and what the progression adds.
        otherwise = f"ROUND({added}*{stays},9)" if basis.rule == "effort" else '""'
    else:
        worked, otherwise = f"ROUND(({share}+{added})*{stays},9)", '""'
    exact = Formula(f"IF({known},{worked},{otherwise})", load.exact)
    return _rounded(load, spot, source, exact)


def _given(load: Load, spot: Spot, source: Source) -> LoadCells:
    """A load that is the same for everyone, or the same above or below the reader's bodyweight; it is still rounded."""
    assert load.exact is not None
    if not leans_on_body(load):
        return _rounded(load, spot, source, load.exact)
    basis, body = load.basis, source.lifts.bodyweight or Decimal(0)
    scaled = load.kind == "plain" or load.exact > 0
    unscaled = (load.exact / stays_of(basis) if scaled else load.exact) - basis.added
    if load.kind == "plain":
        return _rounded(load, spot, source, _with_body(load, unscaled - body, f"+{BODYWEIGHT}"))
    return _rounded(load, spot, source, _with_body(load, unscaled + body, f"-{BODYWEIGHT}"))


def _with_body(load: Load, mass: Decimal, body: str) -> Formula:
    assert load.exact is not None
    total, stays = f"({number(mass)}{body}+{number(load.basis.added)})", number(stays_of(load.basis))
    kept = f"IF({total}>0,{stays},1)" if load.kind == "bodyweight" else stays
    return Formula(f'IF(ISNUMBER({BODYWEIGHT}),ROUND({total}*{kept},9),"")', load.exact)


def _rounded(load: Load, spot: Spot, source: Source, exact: Formula | Decimal) -> LoadCells:
    basis = load.basis
    from_max = basis.rule in ("percent", "effort")
    capped = source.capped and basis.max is not None and load.kind != "bodyweight"
    needed = basis.max if from_max or capped else None
    listed = source.what.of(load.kind, source.note) if load.kind in LISTED else None
    if listed:
        text, word = _to_list(listed, spot, source, capped=capped), _word(load, listed, spot, source)
    elif load.kind == "bodyweight":
        text, word = _to_plate(spot, source), None
    else:
        text = _to_half(spot, source, capped=capped)
        word = _above(spot, load, ('""', ""), source) if capped else None
    return LoadCells(
        load=Formula(f"IF(ISNUMBER({spot.at(EXACT)}),{text},{in_formula(source.words.by_feel)})", _mass(load, source)),
        word=word,
        max=Formula(source.lifts.max_cell(needed.exercise), needed.amount) if needed else None,
        percent=basis.percent if from_max else None,
        added=basis.added if from_max else None,
        stays=stays_of(basis) * 100 if from_max else None,
        exact=exact,
        place=_place(load, listed, spot) if listed else None,
    )


def _mass(load: Load, source: Source) -> Decimal | str:
    return source.words.by_feel if load.mass is None else load.mass


def _place(load: Load, listed: LoadingList, spot: Spot) -> Formula:
    """How many masses of the list are not above the wish."""
    assert load.exact is not None
    counted = f'COUNTIF(masses_{listed.name},"<="&{spot.at(EXACT)})'
    return Formula(f'IF(ISNUMBER({spot.at(EXACT)}),{counted},"")', bisect_right(listed.masses, load.exact))


def _nearest(listed: LoadingList, spot: Spot) -> tuple[str, str, str]:
    """The mass below the wish, the one above it, and whether the lower is at least as near."""
    below = f"INDEX(masses_{listed.name},{spot.at(PLACE)})"
    above = f"INDEX(masses_{listed.name},{spot.at(PLACE)}+1)"
    return below, above, f"ROUND({below}+{above}-2*{spot.at(EXACT)},9)>=0"


def _to_list(listed: LoadingList, spot: Spot, source: Source, *, capped: bool) -> str:
    exact, place = spot.at(EXACT), spot.at(PLACE)
    below, above, low_is_nearer = _nearest(listed, spot)
    limit = f",AND(ISNUMBER({spot.at(MAX)}),{exact}<={spot.at(MAX)},{above}>{spot.at(MAX)})" if capped else ""
    down = f"OR({_rounds_down(source)}{limit},{low_is_nearer})"
    lightest, heaviest = f"lightest_{listed.name}", f"heaviest_{listed.name}"
    return f"IF({place}=0,{lightest},IF({exact}>={heaviest},{heaviest},IF({down},{below},{above})))"


def _to_step(wish: str, step: str) -> tuple[str, str]:
    """The multiple of a step nearest to a wish (a tie goes down), and the largest not above it."""
    return f"-INT(ROUND(0.5-{wish}/{step},9))*{step}", f"INT(ROUND({wish}/{step},9))*{step}"


def _rounds_down(source: Source) -> str:
    return f"{ROUNDING}={in_formula(source.words.down)}"


def _to_plate(spot: Spot, source: Source) -> str:
    near, down = _to_step(spot.at(EXACT), SMALLEST_PLATE)
    return f"IF({_rounds_down(source)},{down},{near})"


def _to_half(spot: Spot, source: Source, *, capped: bool) -> str:
    exact, limit = spot.at(EXACT), spot.at(MAX)
    near, down = _to_step(exact, number(PLAIN_STEP))
    picked = f"IF({_rounds_down(source)},{down},{near})"
    if not capped:
        return picked
    highest = _to_step(limit, number(PLAIN_STEP))[1]
    return f"IF(AND(ISNUMBER({limit}),{exact}<={limit}),MIN({picked},{highest}),{picked})"


def _word(load: Load, listed: LoadingList, spot: Spot, source: Source) -> Formula:
    """What is amiss with a load, or else its plates."""
    exact, slack = spot.at(EXACT), f"half_step_{listed.name}"
    plates, known = _plates(load, listed, spot, source)
    above = _above(spot, load, (plates, known), source).text if source.capped and load.basis.max else plates
    heavy = f"IF(ROUND({exact}-heaviest_{listed.name},9)>{slack},{in_formula(source.words.too_heavy)},{above})"
    short = f"ROUND(lightest_{listed.name}-{exact},9)>IF({_rounds_down(source)},0,{slack})"
    text = f'IF(ISNUMBER({exact}),IF({short},{in_formula(source.words.too_light)},{heavy}),"")'
    return Formula(text, _trouble(load.basis.trouble, source.words) or known)


def _above(spot: Spot, load: Load, otherwise: tuple[str, str], source: Source) -> Formula:
    """A warning of a load above the max; ``otherwise`` is what stands there else, and for the example lifter."""
    exact, limit, warning = spot.at(EXACT), spot.at(MAX), in_formula(source.words.above_max)
    text = f"IF(AND(ISNUMBER({exact}),ISNUMBER({limit}),N({exact})>N({limit})),{warning},{otherwise[0]})"
    return Formula(text, _trouble(load.basis.trouble, source.words) or otherwise[1])


def _plates(load: Load, listed: LoadingList, spot: Spot, source: Source) -> tuple[str, str]:
    """The plates of a bar, or a word on the dumbbells: as a formula, and for the example lifter."""
    if listed.bar is None:
        in_both = source.note.implement == "dumbbell" and source.note.dumbbells == 2
        word = source.words.each_hand if in_both else ""
        return in_formula(word), word
    found = f'IFERROR(INDEX(plates_{listed.name},MATCH({spot.at(LOAD)},plated_{listed.name},0)),"")'
    known = "" if load.mass is None else listed.plates_of(load.mass)
    return f'IF({bar_is_ours(listed)},{found},"")', known


def _dropped(pieces: tuple[Piece, ...], place: int, spot: Spot, source: Source) -> LoadCells:
    """A drop: strictly lighter than the piece before, nearest to its share of that piece or of the first."""
    load, before = pieces[place].load, f"{LOAD}{spot.before}"
    if load.kind == "bodyweight":
        feel = in_formula(source.words.by_feel)
        return LoadCells(Formula(f"IF(ISNUMBER({before}),IF({before}>0,0,{feel}),{feel})", _mass(load, source)))
    if load.kind == "feel":
        return source.feel
    of, keep = _share_kept(source.line, place, spot)
    known = "" if load.exact is None else load.exact
    exact = Formula(f'IF(ISNUMBER({before}),ROUND({of}*{number(keep)},9),"")', known)
    mass_before = pieces[place - 1].load.mass
    if load.kind in LISTED:
        listed = source.what.of(load.kind, source.note)
        text, place_cell = _below(listed, spot, before, source), _place_below(load, listed, spot, mass_before)
        word: Cell = Formula(*_plates(load, listed, spot, source)) if listed.bar is not None else None
    else:
        text, place_cell, word = _half_below(spot, before, source), None, None
    return LoadCells(
        load=Formula(f"IF(ISNUMBER({spot.at(EXACT)}),{text},{in_formula(source.words.by_feel)})", _mass(load, source)),
        word=word,
        exact=exact,
        place=place_cell,
    )


def _share_kept(line: LiftLine, place: int, spot: Spot) -> tuple[str, Decimal]:
    """The load a drop is a share of, and that share."""
    setting = line.every_set or line.last_set
    if not isinstance(setting, DropSet):
        raise TypeError(f"{line.exercise}: a lighter piece, and no drop set asks for it")
    if setting.of == "first":
        return f"{LOAD}{spot.first}", 1 - setting.reduce / 100 * place
    return f"{LOAD}{spot.before}", 1 - setting.reduce / 100


def _place_below(load: Load, listed: LoadingList, spot: Spot, before: Decimal | None) -> Formula:
    """How many masses of the list are not above the wish and lighter than the piece before."""
    counted = f'COUNTIF(masses_{listed.name},"<="&{spot.at(EXACT)})'
    lighter = f'COUNTIF(masses_{listed.name},"<"&{LOAD}{spot.before})'
    text = f'IF(ISNUMBER({spot.at(EXACT)}),MIN({counted},{lighter}),"")'
    if load.exact is None or before is None:
        return Formula(text, "")
    return Formula(text, min(bisect_right(listed.masses, load.exact), bisect_left(listed.masses, before)))


def _below(listed: LoadingList, spot: Spot, before: str, source: Source) -> str:
    below, above, low_is_nearer = _nearest(listed, spot)
    lightest = f"lightest_{listed.name}"
    none_higher = f'{spot.at(PLACE)}=COUNTIF(masses_{listed.name},"<"&{before})'
    picked = f"IF({none_higher},{below},IF({low_is_nearer},{below},{above}))"
    feel = in_formula(source.words.by_feel)
    return f"IF({lightest}>={before},{feel},IF({spot.at(PLACE)}=0,{lightest},{picked}))"


def _half_below(spot: Spot, before: str, source: Source) -> str:
    step = number(PLAIN_STEP)
    near, _ = _to_step(spot.at(EXACT), step)
    feel = in_formula(source.words.by_feel)
    return f"IF({before}<={step},{feel},MAX({step},MIN({near},{before}-{step})))"


# -- warm-up sets ----------------------------------------------------------------------------------


@dataclass(frozen=True)
class WarmUpSpot:
    """Where a warm-up set stands: its row, that of the lift's first warm-up set, and of its first working set."""

    row: int
    top: int
    work: int


@dataclass(frozen=True)
class WarmUpStep:
    """A step of a warm-up: its share of the first working load, in percent, and what the example lifter puts on.

    ``found`` is None where the example lifter leaves the step out.
    """

    percent: Decimal
    work: Load
    found: Load | None


def warm_up_cells(step: WarmUpStep, place: WarmUpSpot, source: Source) -> LoadCells:
    """The cells of a warm-up set: a share of the first working load, strictly lighter, heavier than the step before."""
    work, spot = step.work, Spot(place.row, place.row, place.row - 1)
    if work.exact is None or work.kind == "bodyweight":
        raise TypeError(f"{source.line.exercise}: a warm-up for a load without a mass")
    wish = work.exact * step.percent / 100
    known = work.basis.max if source.capped else None
    listed = source.what.of(work.kind, source.note) if work.kind in LISTED else None
    capped = known is not None
    text = _to_list(listed, spot, source, capped=capped) if listed else _to_half(spot, source, capped=capped)
    found = step.found or Load(work.kind, None, wish, None, Basis("warm-up", step.percent))
    exact = f'IF(ISNUMBER({EXACT}{place.work}),ROUND({EXACT}{place.work}*{spot.at(PERCENT)}/100,9),"")'
    return LoadCells(
        load=Formula(
            _if_it_warms_up(place, source), source.words.left_out if step.found is None else _mass(step.found, source)
        ),
        word=Formula(*_plates(found, listed, spot, source)) if listed else None,
        max=Formula(source.lifts.max_cell(known.exercise), known.amount) if known else None,
        percent=step.percent,
        exact=Formula(exact, wish),
        place=_place(found, listed, spot) if listed else None,
        nearest=Formula(
            f'IF(ISNUMBER({spot.at(EXACT)}),{text},"")',
            _nearest_to(wish, listed, source, known.amount if known else None),
        ),
    )


def _if_it_warms_up(place: WarmUpSpot, source: Source) -> str:
    near, before = f"{NEAREST}{place.row}", f"{LOAD}{place.top}:{LOAD}{place.row - 1}"
    no_heavier = f",{near}<=MAX({before})" if place.row > place.top else ""
    useless = f"OR({near}>={LOAD}{place.work}{no_heavier})"
    left_out, feel = in_formula(source.words.left_out), in_formula(source.words.by_feel)
    return f"IF(ISNUMBER({near}),IF({useless},{left_out},{near}),{feel})"


def _nearest_to(wish: Decimal, listed: LoadingList | None, source: Source, most: Decimal | None) -> Decimal:
    """What a wish is rounded to for the example lifter, as in training."""
    down = source.what.gym.rounding == "down"
    cap = None if most is None or wish > most else most
    if listed is None:
        near = to_step(wish, PLAIN_STEP, down=down)
        return near if cap is None else min(near, to_step(cap, PLAIN_STEP, down=True))
    picked = Steps(listed.masses).pick(wish, down=down, cap=cap)
    return listed.masses[0] if picked is None or wish < listed.masses[0] else picked

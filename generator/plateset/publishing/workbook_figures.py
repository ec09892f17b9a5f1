"""The sheets of figures in the workbook: weekly sets with their chart, and the numbers behind the loads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from plateset.publishing.chart import charted_muscles
from plateset.publishing.program_view import Program
from plateset.publishing.views import ProgramView
from plateset.publishing.workbook_desk import Cell, Desk, Sheet, Table
from plateset.publishing.workbook_gym import Loadable, LoadingList
from plateset.publishing.workbook_lifts import reps_name, shares_name
from plateset.training.strength import CURVES, percent_of_max
from plateset.training.volume import UNTRAINED

CHART_ROWS = 18
WEEKS_UPRIGHT = 12
"""Up to so many weeks the sheet stands upright, on one page."""
_FIRST_WEEK = 3
_LINES = (
    ("#000000", "solid", "circle"),
    ("#000000", "dash", "square"),
    ("#555555", "solid", "triangle"),
    ("#555555", "round_dot", "diamond"),
    ("#888888", "long_dash", "x"),
)
"""Colour, dash and marker: told apart without colour."""


def write_weekly_sets(desk: Desk, program: Program, view: ProgramView) -> None:
    """Muscles by weeks: fractional sets with what is promised, a chart of them, and direct sets below."""
    weeks, say = len(program.plan.weeks), desk.say
    sheet = desk.sheet(desk.words.sheets.weekly_sets, (20, 12, 8, *(10,) * weeks), charted=True)
    last = _FIRST_WEEK + weeks - 1
    sheet.title(say("Weekly sets"))
    sheet.paragraph(1, say(FRACTIONAL), max(last, 9))
    named = [say("Week %(number)s") % {"number": week.number} for week in program.plan.weeks]
    head = (say("Muscle"), say("Promised"), say("to"), *named)
    sheet.put_row(_HEADER, head, "header")
    muscles = [row.muscle for row in view.volume]
    _write_fractional(sheet, program, view)
    row = _HEADER + 1 + len(muscles)
    _draw(sheet, program, muscles, row + 1)
    row = row + 1 + (CHART_ROWS if muscles else 0) + 1
    row = sheet.paragraph(row, say("Direct sets alone, the least where you may choose."), max(last, 9))
    row = sheet.put_row(row, (head[0], "", "", *named), "header")
    for muscle in muscles:
        found = [program.volume[week.number].get(muscle) for week in program.plan.weeks]
        sets: list[Cell] = [each.direct if each else 0 for each in found]
        row = sheet.put_row(row, (_muscle(muscle, desk), None, None, *sets), "cell")
    wide = weeks > WEEKS_UPRIGHT
    sheet.finish(Table((0, _HEADER), max(last, 9), (_HEADER + 1, 1)), row - 1, landscape=wide, on_one_page=not wide)


_HEADER = 2
FRACTIONAL = (
    "Weekly sets of each muscle: a set counts 1 for a muscle trained directly and its share, usually a half, for one "
    "trained indirectly. Where you may choose (a pick, sets if you like) the least and the most are shown; the chart "
    "is of the least. A star stands where a working week is outside what is promised."
)


def _muscle(muscle: str, desk: Desk) -> str:
    said = desk.say(muscle)
    return said[:1].upper() + said[1:]


def _write_fractional(sheet: Sheet, program: Program, view: ProgramView) -> None:
    promised: Mapping[str, tuple[int, int]] = {str(m): span for m, span in program.plan.program.weekly_sets.items()}
    for row, shown in enumerate(view.volume, start=_HEADER + 1):
        span = promised.get(shown.muscle, (None, None))
        sheet.put_row(row, (_muscle(shown.muscle, sheet.desk), *span), "cell")
        for column, week in enumerate(program.plan.weeks):
            found = program.volume[week.number].get(shown.muscle, UNTRAINED)
            most = sheet.desk.words.language.number(found.most) if found.most > found.fractional else ""
            style = sheet.desk.sets_style(most, outside=shown.cells[column].kept == "no")
            sheet.put(row, _FIRST_WEEK + column, found.fractional, style)


def _draw(sheet: Sheet, program: Program, muscles: list[str], row: int) -> None:
    """Lines over the weeks; bars where there is one week only."""
    if not muscles:
        return
    weeks, say, name = len(program.plan.weeks), sheet.desk.say, sheet.desk.words.sheets.weekly_sets
    chart = sheet.desk.book.add_chart({"type": "line" if weeks > 1 else "column"})
    last = _FIRST_WEEK + weeks - 1
    for muscle, (colour, dash, marker) in zip(charted_muscles(program.plan, program.volume), _LINES, strict=False):
        place = _HEADER + 1 + muscles.index(muscle)
        series = {
            "name": [name, place, 0],
            "categories": [name, _HEADER, _FIRST_WEEK, _HEADER, last],
            "values": [name, place, _FIRST_WEEK, place, last],
            "line": {"color": colour, "dash_type": dash, "width": 1.75},
            "marker": {"type": marker, "size": 6, "border": {"color": colour}, "fill": {"color": "#FFFFFF"}},
        }
        chart.add_series(series)
    chart.set_title({"name": say("Weekly sets of each muscle"), "overlay": False, "name_font": {"size": 12}})
    chart.set_y_axis(
        {"min": 0, "name": say("Sets a week"), "major_gridlines": {"visible": True, "line": {"color": "#CCCCCC"}}}
    )
    chart.set_legend({"position": "right"})
    chart.set_size({"width": 760, "height": 340})
    described = say("Weekly sets of each muscle; the table above holds every figure.")
    options = {"object_position": 1, "description": described}
    sheet.place.insert_chart(row, 0, chart, options)


def write_numbers(desk: Desk, curves: Sequence[str], what: Loadable) -> None:
    """The shares of the max that each number of repetitions allows, and the plates of every mass of a bar."""
    sheet = desk.sheet(desk.words.sheets.numbers, (15,) * 16)
    sheet.title(desk.say("Numbers"))
    row = 1
    for words in (*map(desk.say, WORKING), *(_curve_words(curve, desk) for curve in curves)):
        row = sheet.paragraph(row, words, _WORDS_TO)
    header, column, last = row + 2, 0, row + 2
    for curve in curves:
        last = max(last, _write_curve(sheet, curve, header, column))
        column += 3
    for listed in (each for each in what.lists.values() if each.bar is not None):
        last = max(last, _write_plates(sheet, listed, header, column))
        column += 4
    sheet.finish(Table((0, 0), max(column - 1, _WORDS_TO)), last, landscape=False)


_WORDS_TO = 8


def _curve_words(curve: str, desk: Desk) -> str:
    told = CURVES[curve]
    return f"{desk.say(told.title)}: {told.formula}. {told.source}"


WORKING = (
    "Your max = your load × 100 ÷ the share of its repetitions, to a tenth. A load = max × share, plus what the "
    "progression has added, times what stays of it in a back-off set, a step of a pyramid or a deload week, rounded to "
    "what can be loaded. A set with repetitions in reserve has the share of its repetitions and those in reserve "
    "together; where the reserve falls over the sets, that of the first.",
    "A warm-up set is a share of the first set’s exact load, rounded in the same way.",
    "A drop is the nearest mass to its share of the load before that is lighter than that load.",
)


def _write_curve(sheet: Sheet, curve: str, header: int, column: int) -> int:
    told, say = CURVES[curve], sheet.desk.say
    sheet.put(header - 1, column, say(told.title), "label")
    sheet.put(header, column, say("Repetitions"), "header")
    sheet.put(header, column + 1, say("Share (%)"), "header")
    last = header + told.most
    for reps in range(1, told.most + 1):
        sheet.put(header + reps, column, reps, "cell")
        sheet.put(header + reps, column + 1, percent_of_max(Decimal(reps), curve), "cell")
    sheet.desk.name(reps_name(curve), sheet.address(header + 1, column, last))
    sheet.desk.name(shares_name(curve), sheet.address(header + 1, column + 1, last))
    return last


def _write_plates(sheet: Sheet, listed: LoadingList, header: int, column: int) -> int:
    sheet.put(header - 1, column, listed.title, "label")
    sheet.put(header, column, sheet.desk.say("Mass"), "header")
    sheet.put(header, column + 1, sheet.desk.say("Plates"), "header")
    for row, (mass, plates) in enumerate(zip(listed.masses, listed.plates, strict=True), start=header + 1):
        sheet.put(row, column, mass, "mass")
        sheet.put(row, column + 1, plates)
    last = header + len(listed.masses)
    sheet.desk.name(f"plated_{listed.name}", sheet.address(header + 1, column, last))
    sheet.desk.name(f"plates_{listed.name}", sheet.address(header + 1, column + 1, last))
    return last

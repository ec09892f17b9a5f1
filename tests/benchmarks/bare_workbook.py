"""A workbook as what its library was asked for, to ask the same of it again with everything ready."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any
from unittest.mock import patch

from plateset.publishing import workbook_desk
from xlsxwriter import Workbook
from xlsxwriter.chart import Chart
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

ASKED: dict[type, tuple[str, ...]] = {
    Workbook: ("set_properties", "add_format", "add_worksheet", "add_chart", "define_name"),
    Worksheet: (
        "write_blank", "write_string", "write_number", "write_formula", "write_url", "merge_range", "set_row",
        "set_column", "data_validation", "freeze_panes", "repeat_rows", "print_area", "set_paper", "fit_to_pages",
        "set_margins", "set_landscape", "hide_gridlines", "protect", "insert_chart",
    ),
    Chart: ("add_series", "set_title", "set_x_axis", "set_y_axis", "set_legend", "set_size"),
}  # fmt: skip
"""What a workbook here asks of its library."""


@dataclass(frozen=True)
class Call:
    """Something asked of a thing (the workbook is number 0); what came of it got the number ``made``."""

    of: int
    name: str
    given: tuple[Any, ...]
    named: dict[str, Any]
    made: int


@dataclass
class Recorded:
    """A workbook as the calls that make it."""

    calls: list[Call] = field(default_factory=list)

    def write(self) -> None:
        """Make the workbook once more, by the library alone."""
        made = BytesIO()
        things: dict[int, Any] = {0: Workbook(made, {"in_memory": True, "strings_to_formulas": False})}
        for call in self.calls:
            given = [things[each.number] if isinstance(each, Thing) else each for each in call.given]
            things[call.made] = getattr(things[call.of], call.name)(*given, **call.named)
        things[0].close()


@dataclass(frozen=True)
class Thing:
    """A sheet, a format or a chart of the recorded workbook."""

    number: int


def recorded(make: Callable[[], bytes]) -> Recorded:
    """What ``make`` asks of the library to write its workbook."""
    found = _Recorder()
    with found.listening():
        make()
    first = next(place for place, call in enumerate(found.calls) if call.name == "set_properties")
    return Recorded(found.calls[first:])  # before that the library was asked by the workbook itself, as it was made


class _Recorder:
    def __init__(self) -> None:
        self.calls: list[Call] = []
        self._known: list[Any] = []  # kept, so that no other thing gets the identity of one that is gone
        self._numbers: dict[int, int] = {}
        self._inside = False

    @contextmanager
    def listening(self) -> Iterator[None]:
        """Every cell goes through the library, as no others would be heard of."""
        with ExitStack() as stack:
            stack.enter_context(patch.object(workbook_desk, "Sheet", workbook_desk.ChartedSheet))
            for kind, names in ASKED.items():
                for name in names:
                    stack.enter_context(patch.object(kind, name, self._heard(name, getattr(kind, name))))
            yield

    def _heard(self, name: str, method: Callable[..., Any]) -> Callable[..., Any]:
        def call(of: Any, *given: Any, **named: Any) -> Any:
            if self._inside:  # what the library asks of itself
                return method(of, *given, **named)
            self._inside = True
            try:
                made = method(of, *given, **named)
            finally:
                self._inside = False
            things = tuple(Thing(self._number(each)) if isinstance(each, Format | Chart) else each for each in given)
            named.pop("worksheet_class", None)
            self.calls.append(Call(self._number(of), name, things, named, self._number(made)))
            return made

        return call

    def _number(self, thing: Any) -> int:
        if id(thing) not in self._numbers:
            self._numbers[id(thing)] = len(self._known)
            self._known.append(thing)
        return self._numbers[id(thing)]

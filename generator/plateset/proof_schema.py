"""The shape of a proof as JSON, key by key, and its JSON Schema made from the same declarations.

``proof_json.py`` fills these shapes and the type checker holds it to them, so that the schema cannot say something
else. Figures that a reader sees are text ("13.5"), so that they stay exact; counts of whole things are numbers.
"""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

from pydantic import Field, TypeAdapter
from typing_extensions import TypedDict

DIALECT = "https://json-schema.org/draft/2020-12/schema"

Figure = Annotated[str, Field(pattern=r"^-?\d+(\.\d+)?$", description="An exact decimal number as text.")]
Line = Annotated[int, Field(ge=0, description="Counted from 1; 0 where the file as a whole is meant.")]
Column = Annotated[int, Field(ge=0, description="Counted from 1 in characters; 0 where the file as a whole is meant.")]
Week = Annotated[int, Field(ge=1, le=52, description="Counted from 1.")]
Day = Annotated[int, Field(ge=1, le=7, description="1 is Monday, or the first day of a program that counts days.")]
Minutes = Annotated[int, Field(ge=0)]
ByMuscle = Annotated[dict[str, Figure], Field(description="By muscle, those trained in the week.")]
Span = Annotated[list[int], Field(min_length=2, max_length=2, description="The least and the most.")]
FigureSpan = Annotated[list[Figure], Field(min_length=2, max_length=2, description="The least and the most.")]
_LOAD = "As on the pages: '62.5 kg', '+10 kg', 'bodyweight', 'by feel', or 'needs a max'."
Load = Annotated[str, Field(description=_LOAD)]


class ProblemShape(TypedDict):
    """One thing to be mended before anything can be computed."""

    file: str
    line: Line
    column: Column
    message: str
    expected: Annotated[str, Field(description="What would do; may be empty.")]
    nearest: Annotated[str, Field(description="The nearest valid word; may be empty.")]


class SetChangeShape(TypedDict):
    """Sets to add to a line or to take from it."""

    session: str
    days: Annotated[list[Day], Field(description="The days the session is done on: the change counts on each.")]
    line: Annotated[int, Field(ge=1, description="The place of the line in the session, from 1.")]
    part: Annotated[int | None, Field(description="The place within a group, from 1; null for a single line.")]
    exercise: str
    sets: Annotated[int, Field(description="Sets to add in every week; negative: to take out.")]


class MarkShape(TypedDict):
    """One finding of the proof."""

    name: str
    severity: Literal["stop", "query", "note"]
    file: str
    line: Line
    column: Column
    reason: str
    remedy: str
    accepted: Annotated[str, Field(description="The author's reason for letting it stand; empty if there is none.")]
    changes: Annotated[
        list[SetChangeShape],
        Field(description="The remedy as data, where a change in sets was planned and proved to keep every promise."),
    ]


SessionShape = TypedDict(
    "SessionShape",
    {
        "session": str,
        "day": Day,
        "minutes": Minutes,
        "limit": Annotated[int | None, Field(description="The minutes of its 'within'; null without one.")],
        "past failure": Annotated[int, Field(ge=0, description="Lines that go past failure.")],
    },
)
WeekShape = TypedDict(
    "WeekShape",
    {
        "week": Week,
        "deload": bool,
        "test": bool,
        "weekly sets": Annotated[
            dict[str, Figure], Field(description="Fractional, by muscle; the least a reader does.")
        ],
        "weekly sets at most": Annotated[
            dict[str, Figure], Field(description="The same of a reader who does all that is left to choice.")
        ],
        "direct sets": ByMuscle,
        "hard sets": Annotated[
            dict[str, Figure], Field(description="Fractional sets known to end within four repetitions of failure.")
        ],
        "most in a session": ByMuscle,
        "repetitions": ByMuscle,
        "load-volume": ByMuscle,
        "mean load": Annotated[
            dict[str, Figure | None],
            Field(description="Load-volume by repetitions whose load is known; null without any."),
        ],
        "mean percent of max": Annotated[
            dict[str, Figure | None], Field(description="Over repetitions whose max is known; null where none is.")
        ],
        "days": Annotated[dict[str, int], Field(description="Days a week, by muscle.")],
        "hours between": Annotated[
            dict[str, int | None],
            Field(description="From one day to the next, the shortest; null with one day a week."),
        ],
        "sessions": list[SessionShape],
    },
)


class StandShape(TypedDict):
    """Where a line stands in one week."""

    week: Week
    sets: Annotated[int, Field(ge=1)]
    optional: Annotated[int, Field(ge=0, description="How many of the sets are left to the reader.")]
    reps: Annotated[str, Field(description="'8-12', '30 s' for a hold, 'open' for as many as possible.")]
    load: Load


class LineShape(TypedDict):
    """A line's course through the working weeks."""

    exercise: str
    first: Annotated[StandShape, Field(description="In the first working week; the load of the heaviest set.")]
    last: Annotated[StandShape, Field(description="In the last working week.")]


class SessionLoadsShape(TypedDict):
    """A session's lines, on the days it is done in the same way."""

    session: str
    days: list[Day]
    lines: list[LineShape]


class ProgramShape(TypedDict):
    """A program's proof."""

    title: str
    unit: Literal["kg", "lb"]
    promised: Annotated[dict[str, Span], Field(description="Weekly sets promised, by muscle.")]
    weeks: list[WeekShape]
    loads: list[SessionLoadsShape]
    marks: list[MarkShape]


class ChangeShape(TypedDict):
    """What was and is now otherwise, in the author's words."""

    what: str
    before: str
    after: str


class VolumeChangeShape(TypedDict):
    """A muscle's weekly sets over the working weeks."""

    muscle: str
    before: FigureSpan
    after: FigureSpan


class MinutesChangeShape(TypedDict):
    """A session's minutes over the working weeks; null where there was or is no such session."""

    session: str
    before: Span | None
    after: Span | None


class LineChangeShape(TypedDict):
    """A line that is new, gone, or prescribes something else; changes are empty but for the last."""

    session: str
    exercise: str
    kind: Literal["added", "gone", "changed"]
    changes: list[ChangeShape]


class LoadCourseShape(TypedDict):
    """A line's first and last working week."""

    first: StandShape
    last: StandShape


class LoadChangeShape(TypedDict):
    """A line whose load is other than it was."""

    session: str
    exercise: str
    before: LoadCourseShape
    after: LoadCourseShape


ComparisonShape = TypedDict(
    "ComparisonShape",
    {
        "settings": list[ChangeShape],
        "promises": list[ChangeShape],
        "weekly sets": list[VolumeChangeShape],
        "minutes": list[MinutesChangeShape],
        "lines": list[LineChangeShape],
        "loads": list[LoadChangeShape],
        "words changed": Annotated[list[str], Field(description="Keys whose prose is other than it was.")],
    },
)


class AgainstShape(TypedDict):
    """What changed since another version."""

    other: Annotated[str, Field(description="The file or folder compared with, as it was named.")]
    programs: Annotated[dict[str, ComparisonShape], Field(description="What changed, by program.")]
    added: Annotated[list[str], Field(description="Programs that OTHER does not have.")]
    gone: Annotated[list[str], Field(description="Programs that only OTHER has.")]


ProofShape = TypedDict(
    "ProofShape",
    {
        "may be published": bool,
        "problems": Annotated[list[ProblemShape], Field(description="What kept the manuscript from being read.")],
        "programs": dict[str, ProgramShape],
        "marks on notes": list[MarkShape],
        "against": Annotated[AgainstShape | None, Field(description="With --against; null without.")],
    },
)


def schema_json() -> str:
    """The JSON Schema (2020-12) of a proof: every key is always there, and there are no others."""
    schema = TypeAdapter(ProofShape).json_schema()
    titled = {"$schema": DIALECT, **_closed(schema), "title": "A proof as plateset proof --json prints it"}
    return json.dumps(titled, ensure_ascii=False, indent=2)


def _closed(schema: Any) -> Any:
    """The schema with no further keys allowed in any object whose keys are declared."""
    if isinstance(schema, list):
        return [_closed(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    found = {key: _closed(value) for key, value in schema.items()}
    declared = isinstance(schema.get("properties"), dict) and schema.get("type") == "object"
    return found | {"additionalProperties": False} if declared else found

"""The authors' format as frozen models: what a file may hold, with no behaviour beyond checking itself.

Keys are the trade's words; where a key has spaces or is a Python keyword, the alias is the key.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag, model_validator

from plateset.manuscript import fields as f
from plateset.manuscript.vocabulary import (
    CurveName,
    Goal,
    Implement,
    Kit,
    Level,
    MarkName,
    Movement,
    Muscle,
    Promised,
    RangeOfMotion,
    Role,
    TechniqueName,
    Unit,
)
from plateset.manuscript.written import BareListSchema, ListSchema, OrWordSchema


class Entry(BaseModel):
    """Base of every model: frozen, and any key that is not declared is an error."""

    model_config = ConfigDict(frozen=True, extra="forbid")


# -- site ------------------------------------------------------------------------------------------


class Author(Entry):
    """Who writes."""

    name: f.Title
    about: f.Text = ""


class Ladder(Entry):
    """Loads in equal steps, such as a stack's pins."""

    first: f.Mass = Field(alias="from")
    last: f.Mass = Field(alias="to")
    step: f.Mass

    @model_validator(mode="after")
    def _climbs(self) -> Ladder:
        first, last, step = (mass.to("kg") for mass in (self.first, self.last, self.step))
        if not 0 < first <= last or not step > 0:
            raise f.refuse("these steps lead nowhere", "'from' above 0, 'to' at least 'from', 'step' above 0")
        if (last - first) / step > 1000:
            raise f.refuse("these are more than 1,000 steps", "a larger step or a shorter ladder")
        return self


def _shape_of_rack(value: object) -> str:
    return "rack:list" if isinstance(value, list) else "rack:steps"


Rack = Annotated[
    Annotated[tuple[f.RealMass, ...], Field(min_length=1), Tag("rack:list")] | Annotated[Ladder, Tag("rack:steps")],
    Discriminator(_shape_of_rack),
]


class Loading(Entry):
    """What can be loaded. Every part may be left out; a program's parts replace the site's."""

    bars: dict[f.Slug, f.Mass] | None = Field(None, min_length=1)
    collars: f.Mass | None = None
    plates: f.Plates | None = None
    dumbbells: Rack | None = None
    stack: Rack | None = None
    add_ons: tuple[f.RealMass, ...] | None = Field(None, alias="add-ons", min_length=1, max_length=5)
    rounding: Literal["nearest", "down"] | None = None


class Limits(Entry):
    """Thresholds of the proof's marks."""

    load_jump: f.Percent = Field(Decimal(10), alias="load jump")
    sets_jump: f.Percent = Field(Decimal(40), alias="sets jump")
    recovery: f.Seconds = 48 * 3600
    past_failure_lines: f.Whole = Field(2, alias="past failure lines", ge=0)


class WarmUpSet(Entry):
    """A lighter set before the first heavy line: a share of its load, for so many repetitions."""

    load: f.ShareLeft
    reps: f.Whole = Field(ge=1, le=20)


def _none_as_empty(value: object) -> object:
    return [] if value == "none" else value


WarmUpSets = Annotated[
    tuple[WarmUpSet, ...], Field(max_length=8), BeforeValidator(_none_as_empty), OrWordSchema("none")
]
"""The warm-up sets of a line, lightest first; the word ``none`` for none."""


class Colours(Entry):
    """Colours of the look an author may set."""

    accent: f.Colour | None = None


class Site(Entry):
    """``site.yaml``."""

    title: f.Title
    tagline: f.Text = ""
    about: f.Text = ""
    author: Author
    address: f.SiteAddress | None = None
    language: Annotated[str, Field(strict=True, pattern=r"^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$")] = "en"
    unit: Unit = "kg"
    paper: Annotated[tuple[Literal["a4", "letter"], ...], AfterValidator(f.each_once)] = Field(
        ("a4",), min_length=1, json_schema_extra={"uniqueItems": True}
    )
    curve: CurveName = "handbook"
    loading: Loading = Loading()
    warm_up_sets: WarmUpSets | None = Field(None, alias="warm-up sets")
    cautions: tuple[f.Text, ...] = ()
    limits: Limits = Limits.model_validate({})
    theme: f.Slug = "noticeboard"
    colours: Colours = Colours()
    type: Literal["book", "plain"] = "book"
    logo: f.PictureName | None = None


# -- notes -----------------------------------------------------------------------------------------


class Muscles(Entry):
    """Muscles of an exercise: direct ones count whole, indirect ones their share of a set."""

    direct: tuple[Muscle, ...] = Field(min_length=1)
    indirect: Annotated[dict[Muscle, f.ShareOfSet], BeforeValidator(f.equal_shares), ListSchema()] = {}

    @model_validator(mode="after")
    def _each_once(self) -> Muscles:
        both = set(self.direct) & set(self.indirect)
        if both:
            raise f.refuse(f"{min(both)!r} is named as direct and as indirect", "each muscle in one list only")
        return self


class Video(Entry):
    """A video elsewhere, linked and never embedded; ``at`` is the second to start from."""

    address: f.WebAddress
    at: f.Seconds = 0


class MaxFrom(Entry):
    """Where a lift's max comes from when the lifter has none for it: a share of another lift's."""

    exercise: f.Slug
    share: f.ShareOfLift


class Exercise(Entry):
    """The head of ``exercises/*.md``."""

    name: f.Title
    also_called: tuple[f.Title, ...] = Field((), alias="also called")
    muscles: Muscles
    movement: Movement
    implement: Implement
    bar: f.Slug = "barbell"
    dumbbells: Literal[1, 2] = 2
    needs: tuple[Kit, ...] = ()
    sides: Literal["one", "two"] = "two"
    bodyweight_share: f.Share = Field(Decimal(100), alias="bodyweight share")
    max_from: MaxFrom | None = Field(None, alias="max from")
    curve: CurveName | None = None
    tempo: f.TempoField | None = None
    change_over: f.Rest | None = Field(None, alias="change-over")
    set_up: tuple[f.Text, ...] = Field((), alias="set-up")
    cues: tuple[f.Text, ...] = ()
    faults: dict[f.Text, f.Text] = {}
    cautions: tuple[f.Text, ...] = ()
    warn_of: tuple[f.Text, ...] = Field((), alias="warn of")
    not_with: tuple[TechniqueName, ...] = Field((), alias="not with")
    substitutes: tuple[f.Slug, ...] = ()
    video: Video | None = None


class TechniqueNote(Entry):
    """The head of ``techniques/*.md``."""

    name: f.Title
    summary: f.Text
    level: Level = "novice"
    suits: tuple[f.Text, ...] = ()
    does_not_suit: tuple[f.Text, ...] = Field((), alias="does not suit")
    cautions: tuple[f.Text, ...] = ()


class Explainer(Entry):
    """The head of ``explainers/*.md``."""

    title: f.Title
    summary: f.Text
    date: f.CalendarDate
    programs: tuple[f.Slug, ...] = ()
    muscles: tuple[Muscle, ...] = ()


# -- program ---------------------------------------------------------------------------------------


class Linear(Entry):
    """Add the same mass every so many weeks, or every so many sessions."""

    rule: Literal["linear"]
    add: f.Mass
    every: f.Whole = Field(1, ge=1, le=12)
    by: Literal["week", "session"] = "week"


class Double(Entry):
    """Add repetitions up to the top of the range, then load; ``pace`` is the repetitions gained a week."""

    rule: Literal["double"]
    add: f.Mass
    pace: f.Whole = Field(1, ge=1, le=10)


class TwoForTwo(Entry):
    """Add load once the last set has gone two repetitions over its goal in two sessions running.

    ``pace`` is the repetitions gained from session to session, for the projection.
    """

    rule: Literal["two-for-two"]
    add: f.Mass
    pace: f.Whole = Field(1, ge=1, le=2)


class StepLoading(Entry):
    """Climb for some weeks, go back some steps, and climb again from there."""

    rule: Literal["step"]
    add: f.Mass
    climb: f.Whole = Field(3, ge=2, le=12)
    back: f.Whole = Field(1, ge=1, le=11)

    @model_validator(mode="after")
    def _gets_somewhere(self) -> StepLoading:
        if self.back >= self.climb - 1:
            raise f.refuse("going back this far, the load never rises", "'back' at least two less than 'climb'")
        return self


class Turn(Entry):
    """What one turn of an undulating line asks for; what it leaves out is the line's own."""

    sets: f.SetsField | None = None
    reps: f.RepsField | None = None
    load: f.LoadField | None = None
    effort: f.EffortField | None = None


class Undulating(Entry):
    """The session's turns go round: heavy, light, middle; a mass may be added every so many weeks besides."""

    rule: Literal["undulating"]
    turns: tuple[Turn, ...] = Field(min_length=2, max_length=7)
    add: f.Mass | None = None
    every: f.Whole = Field(1, ge=1, le=12)


Progression = Annotated[
    Linear | Double | TwoForTwo | StepLoading | Undulating,
    Field(discriminator="rule"),
]


def _shape_of_progression(value: object) -> str:
    return "progression:none" if value == "none" else "progression:rule"


LineProgression = Annotated[
    Annotated[Literal["none"], Tag("progression:none")] | Annotated[Progression, Tag("progression:rule")],
    Discriminator(_shape_of_progression),
]
"""A line's own rule, or ``none`` where its role would bring one."""


class BackOff(Entry):
    """Lighter sets after the top ones: a share of their load."""

    sets: f.Whole = Field(ge=1, le=10)
    load: f.ShareLeft
    reps: f.RepsField
    effort: f.EffortField | None = None


class Pyramid(Entry):
    """From set to set a share of the heaviest set's load off and repetitions on, up to it or down from it."""

    direction: Literal["ascending", "descending"]
    load: f.Step = Decimal(5)
    reps: f.Whole = Field(2, ge=0, le=10)


class Technique(Entry):
    """What every technique on a set may say: the week from which it is used."""

    from_week: Annotated[int, Field(strict=True, ge=1, le=52, alias="from week")] = 1


class DropSet(Technique):
    """Take weight off and go on."""

    technique: Literal["drop-set"]
    drops: f.Whole = Field(2, ge=1, le=5)
    reduce: f.Reduction = Decimal(20)
    of: Literal["previous", "first"] = "previous"
    each_counts: f.ShareOfSet | None = Field(None, alias="each counts")


class RestPause(Technique):
    """Short pauses, same load."""

    technique: Literal["rest-pause"]
    pauses: f.Whole = Field(2, ge=1, le=5)
    pause: f.Pause = 15
    each_counts: f.ShareOfSet | None = Field(None, alias="each counts")


class Cluster(Technique):
    """The set's repetitions shared out over pieces with short pauses."""

    technique: Literal["cluster"]
    pieces: f.Whole = Field(3, ge=2, le=6)
    pause: f.Pause = 20


class Negatives(Technique):
    """Lowering only, after failure."""

    technique: Literal["negatives"]
    reps: f.Whole = Field(3, ge=1, le=10)
    lowering: f.Pause = 3


class LooseForm(Technique):
    """A little swing to finish a set."""

    technique: Literal["loose-form"]
    reps: f.Whole = Field(3, ge=1, le=10)


class ForcedReps(Technique):
    """Repetitions with a partner's help."""

    technique: Literal["forced-reps"]
    reps: f.Whole = Field(2, ge=1, le=4)


class Partials(Technique):
    """Short-range repetitions after the last full one."""

    technique: Literal["partials"]
    reps: f.Whole = Field(5, ge=1, le=20)


class IsometricHold(Technique):
    """Holding still at the end of a set."""

    technique: Literal["isometric-hold"]
    hold: f.Hold = 10


class AsManyAsPossible(Technique):
    """The set goes on as long as form holds."""

    technique: Literal["as-many-as-possible"]


SetTechnique = Annotated[
    DropSet | RestPause | Cluster | Negatives | LooseForm | ForcedReps | Partials | IsometricHold
    | AsManyAsPossible,
    Field(discriminator="technique"),
]  # fmt: skip


class LiftLine(Entry):
    """One exercise with its prescription."""

    exercise: f.Slug
    role: Role | None = None
    sets: f.ByWeek[f.SetsField]
    reps: f.ByWeek[f.RepsField] | None = None
    hold: f.ByWeek[f.Hold] | None = None
    load: f.ByWeek[f.LoadField] | None = None
    above_max: Literal["allowed"] | None = Field(None, alias="above max")
    effort: f.ByWeek[f.EffortField] | None = None
    rest: f.Rest | None = None
    tempo: f.TempoField | None = None
    range_of_motion: RangeOfMotion = Field("full", alias="range of motion")
    warm_up_sets: WarmUpSets | None = Field(None, alias="warm-up sets")
    back_off: BackOff | None = Field(None, alias="back-off")
    pyramid: Pyramid | None = None
    progression: LineProgression | None = None
    last_set: SetTechnique | None = Field(None, alias="last set")
    every_set: SetTechnique | None = Field(None, alias="every set")
    note: f.Text = ""
    why: f.Text = ""

    @model_validator(mode="after")
    def _one_target(self) -> LiftLine:
        if (self.reps is None) == (self.hold is None):
            raise f.refuse("a line needs repetitions or a time to hold, one of the two", "'reps' or 'hold'")
        if self.last_set and self.every_set:
            raise f.refuse("a technique is given twice", "'last set' or 'every set', not both")
        if self.back_off and self.pyramid:
            raise f.refuse("back-off sets and a pyramid exclude each other", "'back-off' or 'pyramid', not both")
        if (self.back_off or self.pyramid) and self.reps is None:
            raise f.refuse("sets that are held have no back-offs and no pyramid", "'reps'")
        return self


class GroupLine(Entry):
    """Several exercises done in turn, or one picked of several: exactly one of the five kinds is given."""

    superset: tuple[LiftLine, ...] | None = Field(None, min_length=2, max_length=6)
    giant_set: tuple[LiftLine, ...] | None = Field(None, alias="giant set", min_length=3, max_length=8)
    circuit: tuple[LiftLine, ...] | None = Field(None, min_length=2, max_length=12)
    pre_exhaustion: tuple[LiftLine, ...] | None = Field(None, alias="pre-exhaustion", min_length=2, max_length=3)
    pick_one: tuple[LiftLine, ...] | None = Field(None, alias="pick one", min_length=2, max_length=8)
    rest: f.Rest | None = None
    between: f.Rest = 0
    note: f.Text = ""
    why: f.Text = ""

    @model_validator(mode="after")
    def _one_kind(self) -> GroupLine:
        given = [self.superset, self.giant_set, self.circuit, self.pre_exhaustion, self.pick_one]
        if sum(lines is not None for lines in given) != 1:
            raise f.refuse("this line is neither an exercise nor a group", LINE_KEYS)
        rested = [line.exercise for lines in given for line in lines or () if line.rest is not None]
        if rested:
            message = f"{', '.join(rested)}: a rest inside a group has no meaning"
            raise f.refuse(message, "'rest' of the group (after the round) or 'between' (from one to the next)")
        if self.pick_one is not None and self.between:
            raise f.refuse("only one of these is done: nothing lies between them", "'rest' alone")
        return self


GROUPS = ("superset", "giant set", "circuit", "pre-exhaustion", "pick one")
"""The keys of groups."""

LINE_KEYS = "'exercise', 'superset', 'giant set', 'circuit', 'pre-exhaustion' or 'pick one', one of them"


def _kind_of_line(value: Any) -> str:
    if not isinstance(value, dict):
        return "line:lift"
    # Under a misspelt key too, a list of lines is a group: its keys are then those to choose from.
    lines = "exercise" not in value and any(isinstance(each, list) for key, each in value.items() if key not in _LISTS)
    return "line:group" if lines or not value.keys().isdisjoint(GROUPS) else "line:lift"


_LISTS = ("warm-up sets",)
"""What a lift may give a list for."""


Line = Annotated[
    Annotated[LiftLine, Tag("line:lift")] | Annotated[GroupLine, Tag("line:group")],
    Discriminator(_kind_of_line),
]


def _list_as_session(value: object) -> object:
    return {"lines": value} if isinstance(value, list) else value


class SessionText(Entry):
    """A session as written."""

    title: f.Title | None = None
    within: f.SessionTime | None = None
    note: f.Text = ""
    lines: tuple[Line, ...] = Field(min_length=1, max_length=40)


SessionField = Annotated[SessionText, BeforeValidator(_list_as_session), BareListSchema("lines")]


class Lifter(Entry):
    """The lifter whose loads are printed when the reader has given none."""

    bodyweight: f.RealMass | None = None
    bests: dict[f.Slug, f.BestField] = {}


class Deload(Entry):
    """Lighter weeks: shares of the sets and of the load that stay."""

    weeks: tuple[Annotated[int, Field(strict=True, ge=1, le=52)], ...] = Field(min_length=1)
    sets: f.Share = Decimal(60)
    load: f.Share = Decimal(90)
    techniques: Literal["on", "off"] = "off"


class TestWeeks(Entry):
    """Weeks that test the main lifts: one open set of each, and a share of the sets of all other lines."""

    weeks: tuple[Annotated[int, Field(strict=True, ge=1, le=52)], ...] = Field(min_length=1)
    load: f.Share = Decimal(85)
    others: f.Share = Decimal(50)


class RoleProgressions(Entry):
    """The progression of every line of a role that has none of its own."""

    main: Progression | None = None
    assistance: Progression | None = None
    pump: Progression | None = None


class Acceptance(Entry):
    """A mark the author has looked at and lets stand; ``about`` narrows it to marks whose reason names those words."""

    mark: MarkName
    about: f.Title | None = None
    because: f.Text

    @model_validator(mode="after")
    def _can_stand(self) -> Acceptance:
        if self.mark in ("figure-contradicted", "acceptance-unused", "accent-faint", "phrase-unused"):
            raise f.refuse(f"{self.mark} cannot be accepted", "the fault itself mended")
        return self


class Change(Entry):
    """What an edition changed, for readers who hold an earlier one."""

    edition: f.Edition
    date: f.CalendarDate
    text: f.Text


class Program(Entry):
    """``programs/*.yaml``."""

    title: f.Title
    summary: f.Text
    text: f.Text = ""
    level: Level
    goal: Goal
    weeks: Annotated[int, Field(strict=True, ge=1, le=52)]
    unit: Unit | None = None
    author: f.Title | None = None
    date: f.CalendarDate
    edition: f.Edition = 1
    changes: tuple[Change, ...] = ()
    licence: f.Title | None = None
    suits: tuple[f.Text, ...] = Field(min_length=1)
    not_for: tuple[f.Text, ...] = Field(alias="not for", min_length=1)
    cautions: tuple[f.Text, ...] = ()
    kit: tuple[Kit, ...] | None = None
    loading: Loading = Loading()
    curve: CurveName | None = None
    schedule: dict[f.Day, f.Slug] = Field(min_length=1)
    starts: f.CalendarDate | None = None
    at: f.TimeOfDay | None = None
    weekly_sets: dict[Promised, f.SetsRange] = Field({}, alias="weekly sets")
    example_lifter: Lifter = Field(Lifter(), alias="example lifter")
    progressions: RoleProgressions = RoleProgressions()
    warm_up_sets: WarmUpSets | None = Field(None, alias="warm-up sets")
    deload: Deload | None = None
    test: TestWeeks | None = None
    accept: tuple[Acceptance, ...] = ()
    sessions: dict[f.Slug, SessionField] = Field(min_length=1)

    @model_validator(mode="after")
    def _changes_of_editions_there_are(self) -> Program:
        beyond = [change.edition for change in self.changes if change.edition > self.edition]
        if beyond:
            message = f"'changes' speaks of edition {max(beyond)}, and this is edition {self.edition}"
            raise f.refuse(message, "'edition' raised, or the entry taken out")
        return self

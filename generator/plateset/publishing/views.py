"""What a page or a sheet shows: plain, ready-to-print values. Templates place them and compute nothing.

Every number is already a string in the site's style; a link is relative to the page it stands on only after the
template's ``link`` function has been applied to the site path given here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property
from typing import Literal

from markupsafe import Markup

from plateset.records import record


def _quick_repr(self: object) -> str:
    """As a record's own, without the care for records within themselves: lists are told by those of all their rows."""
    return f"{type(self).__name__}({vars(self)!r})"


@record
class Linked:
    """Words that lead to another page; ``path`` is a site path such as ``exercises/back-squat.html``."""

    title: str
    path: str
    summary: str = ""

    __repr__ = _quick_repr


@record
class Fact:
    """A label and its value, such as 'Days a week' and '4'."""

    label: str
    value: str


@record
class PieceView:
    """A stretch of a set: 'then', '24 kg', '6 reps'."""

    role: str
    load: str
    plates: str
    reps: str
    pause: str


@record
class SetView:
    """One set as the reader does it; ``boxes`` is how many blanks the sheet gives it (one for each piece)."""

    number: int
    load: str
    plates: str
    reps: str
    pieces: tuple[PieceView, ...]
    boxes: int
    optional: bool = False
    how: str = ""
    """What tells it from the other sets where the lift as a whole does not say: '1 RIR', 'to failure'."""


@record
class LiftView:
    """One exercise of a line in one week, in the columns of a table."""

    title: str
    path: str
    letter: str
    """A1, A2 … within a group; empty for a single lift."""
    sets: str
    reps: str
    scheme: str
    """Sets and repetitions together: '3 × 8–12', or '1 × 3 + 3 × 6' where the sets part."""
    load: str
    plates: str
    each: str
    """'each hand', 'each side' … what the load or the repetitions are counted for."""
    effort: str
    tempo: str
    rest: str
    technique: Linked | None
    technique_note: str
    """The technique in a few words with its loads: 'last set: then 32 kg, 6 reps; then 24 kg, 5 reps'."""
    warm_up: str
    """The lighter sets before the first: '40 kg × 8, 60 kg × 5'; empty for none."""
    rule: str
    remark: str
    why: str
    set_views: tuple[SetView, ...]
    uniform: bool
    """True when every set has the same load and repetitions and no technique."""
    substitutes: tuple[Linked, ...]


@record
class LineView:
    """A line: a single lift or a group with its kind, shown with a rule down its side."""

    kind: str
    """'' for a single lift, else 'Superset', 'Giant set', 'Circuit', 'Pre-exhaustion', 'Pick one'."""
    technique: Linked | None
    rest: str
    """How long, and when: '90 s after each round'."""
    remark: str
    why: str
    lifts: tuple[LiftView, ...]


@record
class SessionView:
    """A session of one week."""

    anchor: str
    day: str
    title: str
    minutes: str
    remark: str
    lines: tuple[LineView, ...]
    open_as: int | None = None
    """Its number among the sessions that a reader's numbers can be put in."""


@record
class WeekView:
    """A week: its title ('Week 3'), 'Deload' or empty, and its sessions."""

    number: int
    title: str
    kind: str
    path: str
    anchor: str
    sessions: tuple[SessionView, ...]
    pdfs: tuple[DownloadView, ...] = ()


@record
class DownloadView:
    """A file to take away: 'Week 3, A4', 'PDF', '58 kB' and its site path; ``summary`` says what it is good for."""

    title: str
    kind: str
    size: str
    path: str
    summary: str = ""


@record
class DownloadGroup:
    """Files of one use: 'On paper', 'In a calendar'."""

    title: str
    items: tuple[DownloadView, ...]


@record
class CalendarView:
    """What the page's script makes a calendar file from; ``start`` and ``at`` are what its fields begin with.

    ``data`` is JSON fit to stand in a script element (see ``calendar_file.undated``), ``file`` the name to save under.
    """

    data: str
    file: str
    start: str
    at: str


@record
class AskedLift:
    """A lift that a reader may give a set of; ``most`` is the most repetitions a max can be worked out from."""

    name: str
    title: str
    on_body: bool
    each: str
    most: int
    otherwise: str
    """What is taken where the reader gives nothing: '55 % of overhead press', or empty."""
    well_known: bool = True
    """Whether people know what they lift in it, so that it is asked for at once; else it waits folded away."""
    doubt: tuple[tuple[str, str], ...] = ()
    """In each unit the max from which on the reader is asked whether it is right; empty where there is no measure."""


@record
class GymParts:
    """What a reader may choose in a unit, by the masses that name it, and what its script loads for it."""

    unit: str
    plates: tuple[str, ...]
    dumbbells: tuple[str, ...]
    stack: tuple[str, ...]
    bars: tuple[tuple[str, str, str], ...]
    """Each bar's name, the word for it, and what it weighs if the reader says nothing."""
    """Each bar of the program and what it weighs unless the reader says otherwise: ('barbell', '20')."""
    scripts: tuple[str, ...]
    """Site paths of what was prepared: the gym, then the parts."""


@record
class OwnLoadsView:
    """What a reader is asked for to get loads of their own; ``script`` is the site path of the plan left open."""

    unit: str
    script: str
    main: tuple[AskedLift, ...]
    more: tuple[AskedLift, ...]
    body: bool
    units: tuple[GymParts, ...]
    kinds: tuple[str, ...]
    """How its lifts are loaded: 'bar', 'dumbbell', 'stack' …"""
    curve: str


@record
class VolumeCell:
    """A muscle's weekly sets in one week; ``kept`` is '' where nothing was promised, else 'yes' or 'no'."""

    sets: str
    direct: str
    kept: Literal["", "yes", "no"]


@record
class VolumeRow:
    """A muscle over the weeks; ``promised`` is '10–14' or empty."""

    muscle: str
    promised: str
    days: str
    cells: tuple[VolumeCell, ...]


@record
class Bar:
    """A week of a drawing, in the drawing's own coordinates; ``words`` is its figure, ``said`` if it is written."""

    x: str
    y: str
    height: str
    middle: str
    week: str
    """The week's number; empty where the axis has no room for it."""
    words: str
    said: bool
    deload: bool
    more: tuple[str, str] | None
    """What the reader may add by choice, as (y, height) above the bar; None without a choice."""


@record
class ChartPanel:
    """The weekly sets of one muscle as bars; ``band`` is the promised range as (y, height), ``edges`` its two lines."""

    muscle: str
    promised: str
    description: str
    bars: tuple[Bar, ...]
    band: tuple[str, str] | None
    edges: tuple[str, ...]


@record
class ChartView:
    """Small drawings of weekly sets on one scale: everything already in the drawings' own coordinates."""

    width: int
    height: int
    left: str
    right: str
    base: str
    thickness: str
    panels: tuple[ChartPanel, ...]


@record
class WeekGlance:
    """One day of the week at a glance: 'Monday', the session's title and anchor, or rest.

    ``weekday`` is 1 for Monday to 7, empty where the author counts days.
    """

    day: str
    weekday: str
    title: str
    path: str
    minutes: str
    lifts: tuple[str, ...]


@record
class SwapView:
    """A substitute for a lift, and what it changes in a week: (muscle, '−3') for each muscle that does not stay."""

    title: str
    path: str
    changes: tuple[tuple[str, str], ...]


@record
class ChangeView:
    """What an edition changed."""

    edition: str
    date: str
    iso_date: str
    text: str


@record
class Facets:
    """What a program is found by. ``muscles`` are those trained directly, with their most weekly sets, most first."""

    level: str = "novice"
    days: int = 0
    least_minutes: int = 0
    most_minutes: int = 0
    kit: tuple[str, ...] = ()
    muscles: tuple[tuple[str, Decimal], ...] = ()
    techniques: tuple[tuple[str, str], ...] = ()
    """(name of the note's file, name)"""

    @property
    def row(self) -> tuple[tuple[str, str], ...]:
        """What the finder's script reads of a program's row, each by its name; things of which there may be several are
        joined by bars.
        """
        return (
            ("level", self.level),
            ("days", str(self.days)),
            ("minutes", str(self.most_minutes)),
            ("kit", "|".join(self.kit)),
            ("muscles", "|".join([muscle for muscle, _ in self.muscles])),
            ("techniques", "|".join([technique for technique, _ in self.techniques])),
        )


Choices = tuple[tuple[str, str], ...]
"""Values a reader may choose from, each with its title."""


@record
class FinderValues:
    """What the finder's form offers: only values that some program has."""

    levels: Choices
    days: Choices
    minutes: Choices
    muscles: Choices
    techniques: Choices
    kit: Choices


@record
class FoundProgram:
    """A program in a list of the finder, and what is said beside it."""

    title: str
    path: str
    beside: str

    __repr__ = _quick_repr


@record
class FacetGroup:
    """The programs that share one value of a facet, such as 'Novice'."""

    title: str
    anchor: str
    programs: tuple[FoundProgram, ...]
    more: int = 0
    """How many there are besides, where there are very many."""
    value: str = ""
    """What the finder's form calls it; empty where it has no such choice."""


@record
class FacetList:
    """A page of the finder: the programs under the values of one facet."""

    name: str
    title: str
    path: str
    groups: tuple[FacetGroup, ...]


@record
class CautionView:
    """A caution; ``source`` says in words what it is about, ``scope`` whether that is every program, this one, or a
    part of it: an exercise, a technique, a test.
    """

    text: str
    source: str
    scope: Literal["every program", "this program", "part"] = "part"


@dataclass(frozen=True, kw_only=True)
class ProgramCard:
    """A program as the rest of the site knows it: what lists, the index, the feed and the sitemap show of it."""

    slug: str
    title: str
    path: str
    summary: str
    level: str
    goal: str
    facts: tuple[Fact, ...]
    """Level, goal, weeks, days a week, minutes, kit: what the first screen shows."""
    suits: tuple[str, ...]
    byline: str
    date: str
    iso_date: str
    edition: str
    changes: tuple[ChangeView, ...] = ()
    facets: Facets = field(default_factory=Facets)
    words: str = ""
    """The words of its text, to be searched."""
    exercises: tuple[str, ...] = ()
    """The exercises it uses, by the names of their notes, in order."""
    pages: tuple[str, ...] = ()
    """The paths of its weeks."""

    @cached_property
    def linked(self) -> Linked:
        """The words that lead to it, with its summary."""
        return Linked(self.title, self.path, self.summary)

    def fact(self, label: str) -> str:
        """What the first screen says under ``label``; nothing if it has no such fact."""
        return next((fact.value for fact in self.facts if fact.label == label), "")


@dataclass(frozen=True, kw_only=True)
class ProgramView(ProgramCard):
    """A program page and its sheets."""

    text: Markup
    not_for: tuple[str, ...]
    cautions: tuple[CautionView, ...]
    short_cautions: tuple[str, ...]
    """The usual cautions in a line each, for the foot of a sheet."""
    lifter: tuple[Fact, ...]
    lifter_note: str
    bars: str = ""
    """What the bars weigh that loads count; nothing where no lift has one."""
    glance: tuple[WeekGlance, ...]
    volume: tuple[VolumeRow, ...]
    volume_weeks: tuple[tuple[str, str], ...]
    """Week number and '' or 'deload'."""
    chart: ChartView | None
    explore: str
    """JSON of the figure the chart library draws when asked."""
    weeks: tuple[WeekView, ...]
    techniques: tuple[Linked, ...]
    explainers: tuple[Linked, ...]
    downloads: tuple[DownloadGroup, ...]
    licence: str
    swaps: Mapping[int, Mapping[str, tuple[SwapView, ...]]] = field(default_factory=dict)
    """Substitutes by week and by the path of a lift's page."""
    address: str = ""
    """The page's whole address; empty where the site does not say where it is hosted."""
    calendar: CalendarView | None = None
    own_loads: OwnLoadsView | None = None
    """None where no load depends on the reader."""


@record
class IndexEntry:
    """A name in the index and the page it leads to; ``own`` is whether it is the page's own title."""

    name: str
    kind: str
    title: str
    path: str
    own: bool


@record
class IndexLetter:
    """The names under one letter."""

    letter: str
    entries: tuple[IndexEntry, ...]


@record
class MuscleBar:
    """A muscle of an exercise and its share of a set, for a labelled bar (0 to 100)."""

    muscle: str
    share: int
    kind: str


@record
class UsedIn:
    """The programs that use something: the first of them, and how many more there are."""

    programs: tuple[Linked, ...]
    more: int


@record
class ExerciseView:
    """An exercise note page."""

    slug: str
    title: str
    path: str
    names: tuple[str, ...]
    """What else it is called."""
    also_called: str
    facts: tuple[Fact, ...]
    muscles: tuple[MuscleBar, ...]
    set_up: tuple[str, ...]
    cues: tuple[str, ...]
    faults: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    not_with: tuple[Linked, ...]
    substitutes: tuple[SwapView, ...]
    """Each with what one set of it counts more or less."""
    used_in: UsedIn
    video: Linked | None
    text: Markup
    movement: str
    primary: str


@record
class TechniqueView:
    """A technique note page."""

    slug: str
    title: str
    path: str
    summary: str
    facts: tuple[Fact, ...]
    suits: tuple[str, ...]
    does_not_suit: tuple[str, ...]
    cautions: tuple[str, ...]
    used_in: UsedIn
    text: Markup


@record
class ExplainerView:
    """An explainer page."""

    slug: str
    title: str
    path: str
    summary: str
    date: str
    iso_date: str
    text: Markup
    programs: tuple[Linked, ...]


@record
class FormulaView:
    """One computation on 'How the numbers are made': words, formula, validity, source."""

    title: str
    words: str
    formula: str
    valid: str
    source: str


@record
class LogoView:
    """A picture beside the site's name, and its size in pixels."""

    path: str
    width: int
    height: int


@record
class SiteView:
    """What every page of the site shares."""

    title: str
    tagline: str
    about: Markup
    author: str
    author_about: str
    language: str
    address: str
    accent: str
    version: str
    draft: bool
    papers: tuple[str, ...]
    navigation: tuple[Linked, ...] = ()
    cautions: tuple[str, ...] = field(default=())
    logo: LogoView | None = None

    def whole(self, path: str) -> str:
        """The whole address of a page or file; empty on a site without an address."""
        return f"{self.address.rstrip('/')}/{path.removesuffix('index.html')}" if self.address else ""

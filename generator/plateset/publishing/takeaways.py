"""What a reader takes away from a program: its files for paper, spreadsheet, calendar and pasting, and all in one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, time
from functools import cache, cached_property, partial

from plateset.manuscript.library import Manuscript
from plateset.publishing import paths
from plateset.publishing.blank_log import blank_weeks
from plateset.publishing.bundle import bundle
from plateset.publishing.calendar_file import calendar, undated
from plateset.publishing.diary import Diary, diary
from plateset.publishing.language import Language
from plateset.publishing.newsletter import newsletter
from plateset.publishing.papers import PAPER_NAMES, papers_of
from plateset.publishing.plain_text import plain_text
from plateset.publishing.plan_json import plan_json, schema_json
from plateset.publishing.program_view import Program
from plateset.publishing.sheets import log_order, program_order, progress_order, week_order
from plateset.publishing.tables_csv import plan_csv
from plateset.publishing.theme import Theme
from plateset.publishing.typesetting import Order, Paper, Setting
from plateset.publishing.views import CalendarView, DownloadGroup, DownloadView, ProgramView, SiteView, WeekView
from plateset.publishing.words import long_date
from plateset.publishing.workbook import Shown, workbook

ON_PAPER = "On paper"
AS_DATA = "In a spreadsheet, or in a program of your own"
IN_A_CALENDAR = "In a calendar"
TO_PASTE = "To paste"
ALL = "All of it"


@dataclass(frozen=True)
class TakeAway:
    """A file, and how the program's page offers it; ``week`` is set for the sheet of one week.

    ``make`` makes it, once, when its bytes are asked for.
    """

    path: str
    make: Callable[[], bytes]
    group: str
    title: str
    kind: str
    summary: str = ""
    week: int | None = None
    order: Callable[[], Order] | None = None
    """What the typesetter is given, where it is set on paper."""
    size: int | None = None
    """Its size in bytes, where that is known without making it."""

    @cached_property
    def data(self) -> bytes:
        """The file itself."""
        return self.make()

    @property
    def weight(self) -> int:
        """Its size in bytes, for which it is made if that is not known."""
        return len(self.data) if self.size is None else self.size

    def bytes_of(self) -> bytes:
        """The file itself, for those who want something to call."""
        return self.data

    def offer(self, *, weighed: bool) -> DownloadView:
        """The file as a page names it; with its size, for which it is made, if ``weighed``."""
        size = size_text(self.weight) if weighed else ""
        return DownloadView(self.title, self.kind, size, self.path, self.summary)


@dataclass(frozen=True)
class Desk:
    """What the files of a program are made with: its view, the site's, the theme that sets the sheets, and the scripts
    that its pages may load.
    """

    program: Program
    view: ProgramView
    manuscript: Manuscript
    site: SiteView
    theme: Theme
    scripts: Mapping[str, bytes] = field(default_factory=dict)

    @cached_property
    def diary(self) -> Diary:
        """The program's sessions, for its calendars."""
        by_weekday = self.program.by_weekday
        return diary(self.program.plan, self.view, self.site, self.language, by_weekday=by_weekday)

    @cached_property
    def language(self) -> Language:
        """The site's language in the words of the theme."""
        return self.theme.language(self.site.language)

    @property
    def papers(self) -> tuple[Paper, ...]:
        """The papers the site prints on."""
        return papers_of(self.manuscript)

    def setting(self, paper: Paper) -> Setting:
        """How sheets are set on ``paper``; they say they were made at noon of the program's own date."""
        stamp = datetime.combine(self.program.plan.program.date, time(12), UTC)
        return Setting(paper, self.theme.sheet(self.language), stamp, self.theme.fonts)


def size_text(octets: int) -> str:
    """'58 kB', or '1.4 MB'."""
    return f"{octets / 1e6:.1f} MB" if octets >= 999_500 else f"{max(1, round(octets / 1000))} kB"


def takeaways(desk: Desk) -> tuple[TakeAway, ...]:
    """Every file of a program, in the order its page offers them; the last one holds all the others."""
    files = (*_sheets(desk), *_data(desk), *_calendar(desk), *_texts(desk))
    return (*files, _archive(desk.view.slug, files))


def offered(files: Sequence[TakeAway], *, weighed: bool) -> tuple[DownloadGroup, ...]:
    """What the program's page offers by use; the sheet of a week is offered beside the week."""
    groups = dict.fromkeys(file.group for file in files)
    whole = [file for file in files if file.week is None]
    return tuple(
        DownloadGroup(group, tuple(file.offer(weighed=weighed) for file in whole if file.group == group))
        for group in groups
    )


def of_week(number: int, files: Sequence[TakeAway], *, weighed: bool) -> tuple[DownloadView, ...]:
    """What is offered beside a week."""
    return tuple(file.offer(weighed=weighed) for file in files if file.week == number)


def calendar_view(desk: Desk) -> CalendarView:
    """What the page's script makes a calendar from, on the reader's own dates."""
    program, slug = desk.program.plan.program, desk.view.slug
    return CalendarView(
        data=undated(desk.diary),
        file=paths.calendar(slug).rpartition("/")[2],
        start=program.starts.isoformat() if program.starts else "",
        at=program.at.strftime("%H:%M") if program.at else "",
    )


def _sheets(desk: Desk) -> Iterator[TakeAway]:
    view, site = desk.view, desk.site
    blank = cache(partial(blank_weeks, desk.program, desk.manuscript, desk.language))
    for paper in desk.papers:
        name, setting = PAPER_NAMES[paper], desk.setting(paper)
        whole = partial(program_order, view, site, setting, desk.language)
        yield _sheet(paths.program_pdf(view.slug, paper), whole, f"All weeks, {name}")
        log = partial(_log, desk, blank, setting)
        yield _sheet(paths.log_pdf(view.slug, paper), log, f"Blank log, {name}", LOG)
        progress = partial(progress_order, view, desk.program.plan.unit, site, setting, desk.language)
        yield _sheet(paths.progress_pdf(view.slug, paper), progress, f"Progress record, {name}", PROGRESS)
        for week in view.weeks:
            one = partial(week_order, view, week, site, setting, desk.language)
            yield _sheet(paths.week_pdf(view.slug, week.number, paper), one, f"{week.title}, {name}", week=week.number)


def _sheet(path: str, order: Callable[[], Order], title: str, summary: str = "", week: int | None = None) -> TakeAway:
    return TakeAway(path, lambda: order().set(), ON_PAPER, title, "PDF", summary, week, order)


def _log(desk: Desk, blank: Callable[[], tuple[WeekView, ...]], setting: Setting) -> Order:
    return log_order(desk.view, blank(), desk.site, setting, desk.language)


LOG = "All weeks with the loads left for you to write."
PROGRESS = "A row a week: body weight, tape measures, best sets, how it felt."


def _data(desk: Desk) -> Iterator[TakeAway]:
    program, slug = desk.program, desk.view.slug
    book = partial(workbook, program, Shown(desk.view, desk.site, desk.manuscript, desk.papers[0]), desk.language)
    yield TakeAway(paths.workbook(slug), book, AS_DATA, "Workbook", "XLSX", WORKBOOK)
    table = partial(plan_csv, program.plan, by_weekday=program.by_weekday)
    yield TakeAway(
        paths.plan_csv(slug), table, AS_DATA, "The plan as a table", "CSV", "A row for each set, warm-up sets "
        "marked as such. A text that could be taken for a formula begins with an apostrophe."
    )  # fmt: skip
    yield TakeAway(paths.plan_json(slug), partial(_plan_json, desk), AS_DATA, "The plan as data", "JSON")
    yield TakeAway(paths.PLAN_SCHEMA, schema_json, AS_DATA, "What that data holds", "JSON Schema")


def _plan_json(desk: Desk) -> bytes:
    return plan_json(desk.program, desk.view, desk.site, desk.diary)


WORKBOOK = "Enter your own sets and the loads of every week follow; with room to log."


def _calendar(desk: Desk) -> Iterator[TakeAway]:
    program = desk.program.plan.program
    if program.starts is None:
        return
    data = partial(calendar, desk.diary, program.starts, program.at)
    first = desk.diary.dates(program.starts)[0]
    yield TakeAway(
        paths.calendar(desk.view.slug), data, IN_A_CALENDAR, f"All sessions from {long_date(first)}", "iCalendar"
    )


def _texts(desk: Desk) -> Iterator[TakeAway]:
    text = partial(plain_text, desk.view, desk.site, desk.language)
    yield TakeAway(
        paths.plain_text(desk.view.slug), text, TO_PASTE, "For the description of a video", "plain text", TEXT
    )
    letter = partial(newsletter, desk.view, desk.site, desk.language)
    yield TakeAway(paths.newsletter(desk.view.slug), letter, TO_PASTE, "For a newsletter", "Markdown")


TEXT = "Within 5,000 characters; what does not fit is left out by whole weeks."


def _archive(slug: str, files: Sequence[TakeAway]) -> TakeAway:
    """Everything in the folders it has on the site, so that files that name each other still do."""

    def whole() -> bytes:
        return bundle({file.path.removeprefix("programs/"): file.data for file in files})

    return TakeAway(paths.archive(slug), whole, ALL, "Every file above and every week's sheet", "ZIP")

"""What is pasted: plain text within its limit, and Markdown that shows nothing but what the author wrote."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from plateset.publishing.documents import Edition
from plateset.publishing.newsletter import escaped, newsletter
from plateset.publishing.plain_text import LIMIT, plain_text
from plateset.publishing.views import ProgramView
from plateset.usual_cautions import SHORT

from tests.publishing.building import desk_of
from tests.publishing.paper import a_program, a_site, lift, session, single, work_sets

ADDRESS = "https://gym.example/programs/made-up/"


@pytest.fixture(scope="module")
def lantern(edition: Edition) -> ProgramView:
    return replace(desk_of(edition, "lantern").view, address=ADDRESS)


def text_of(view: ProgramView, **site: object) -> str:
    return plain_text(view, a_site(**site)).decode()


def many_weeks(weeks: int, summary: str = "Short.") -> ProgramView:
    days = [session(day, f"Session on {day}", *(single(lift(f"Lift {n}")) for n in range(6))) for day in ("Mon", "Wed")]
    view = replace(a_program(*days, weeks=weeks), address=ADDRESS, summary=summary)
    return replace(view, short_cautions=(*SHORT, "Mind the step."))


# -- plain text ---------------------------------------------------------------------------------------


def test_the_pages_address_comes_first(lantern: ProgramView) -> None:
    assert text_of(lantern).startswith(ADDRESS + "\n\nLantern & oil\n")
    assert text_of(replace(lantern, address="")).startswith("Lantern & oil\n")


def test_every_lift_load_and_count_of_every_week_is_told(lantern: ProgramView) -> None:
    text = text_of(lantern)
    assert "Left out" not in text
    for week in lantern.weeks:
        part = text.partition(f"{week.title.upper()}")[2].partition("\n\n")[0]
        for each in (one for day in week.sessions for line in day.lines for one in line.lifts):
            asked = f"{each.title}: {each.sets} × {each.reps}, {each.load}"
            assert any(asked in line for line in part.splitlines()), asked
    for words in (*SHORT, "Keep the lower back flat", "People with a year of lifting", "Anyone told not to lift"):
        assert words in text


def test_sets_that_differ_are_told_one_after_the_other() -> None:
    ramp = (*work_sets(2, "60 kg", "8"), *work_sets(1, "80 kg", "3"))
    view = a_program(session("Mon", "M", single(lift("Squat", "60–80 kg", "3–8", set_views=ramp))), weeks=1)
    assert "Squat: 2 × 8 at 60 kg, then 1 × 3 at 80 kg, 2 RIR; rest 2 min" in text_of(view)


def test_a_technique_is_told_with_its_loads(lantern: ProgramView) -> None:
    note = next(
        each.technique_note
        for day in lantern.weeks[0].sessions
        for line in day.lines
        for each in line.lifts
        if each.technique
    )
    assert f"Drop set: {note}" in text_of(lantern)


def test_whole_weeks_are_left_out_from_the_end_and_named() -> None:
    text = text_of(many_weeks(16))
    told = [int(number) for number in re.findall(r"^WEEK (\d+)", text, re.MULTILINE)]
    assert told == list(range(1, len(told) + 1))
    assert 1 < len(told) < 16
    assert text.endswith(
        f"Left out here for want of room: weeks {told[-1] + 1}–16. The page of the program has all of it.\n"
    )
    assert text.count("Lift 5: 3 × 8–12, 60 kg") == 2 * len(told)
    one_more = text_of(many_weeks(len(told) + 1))
    assert len(one_more.encode()) <= LIMIT


def test_what_is_too_long_is_left_out_whole_and_named_while_cautions_stay() -> None:
    text = text_of(many_weeks(1, summary="word " * 2000))
    assert "word" not in text
    assert "Left out here for want of room: the summary." in text
    assert all(caution in text for caution in (*SHORT, "Mind the step."))
    long = replace(many_weeks(1), short_cautions=(*SHORT, "x" * 6000))
    assert "the cautions of this program" in text_of(long)
    assert all(caution in text_of(long) for caution in SHORT)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.integers(1, 52),
    st.text(max_size=200).filter(str.strip),
    st.integers(0, 6000),
    st.lists(st.text(max_size=900), max_size=6),
)
def test_it_is_never_longer_than_its_limit(weeks: int, title: str, length: int, cautions: list[str]) -> None:
    view = replace(many_weeks(weeks), title=title, summary="力" * length, short_cautions=(*SHORT, *cautions))
    data = plain_text(view, a_site())
    assert len(data) <= LIMIT
    assert all(caution in data.decode() for caution in SHORT)


def test_it_has_no_angle_brackets_and_no_breaks_but_its_own(lantern: ProgramView) -> None:
    text = text_of(replace(lantern, title="<b>a\r\nb</b>\u2028c\x07"))
    assert "‹b›a b‹/b› c" in text
    assert not set(text) & set("<>\r\u2028\x07")


def test_a_draft_says_so_in_both(lantern: ProgramView) -> None:
    assert "Draft: not checked" in text_of(lantern, draft=True)
    assert "Draft: not checked" in newsletter(lantern, a_site(draft=True)).decode()
    assert "Draft" not in text_of(lantern) + newsletter(lantern, a_site()).decode()


# -- Markdown -----------------------------------------------------------------------------------------


class Shown(HTMLParser):
    """The words and the tags of a rendered text."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.blocks: list[str] = []
        self.links: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.links += [value or "" for name, value in attrs if name == "href"]
        if tag in ("p", "li", "h1", "h2", "h3"):
            self.blocks.append("")

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.blocks[-1] += data


def shown(markdown: str) -> Shown:
    return Shown(MarkdownIt("commonmark").enable(["table", "strikethrough"]).render(markdown))


def test_it_shows_every_week_and_lift_as_headings_and_lists(lantern: ProgramView) -> None:
    page = shown(newsletter(lantern, a_site()).decode())
    assert page.links == [ADDRESS]
    assert page.tags.count("h1") == 1
    assert page.tags.count("h3") == sum(len(week.sessions) for week in lantern.weeks)
    assert set(page.tags) <= {"h1", "h2", "h3", "p", "ul", "li", "a"}
    assert page.blocks[0] == "Lantern & oil"
    for words in ("Week 3, deload", "Monday: Heavy day"):
        assert words in page.blocks
    assert any(block.startswith("Squat: 4 × 5, 70 kg, 70 % of max; rest 3 min") for block in page.blocks)
    for caution in lantern.short_cautions:
        assert caution in page.blocks


@settings(max_examples=300)
@given(st.text(alphabet=st.sampled_from("ab 1.)(-+*_`#>~|[]<>!&;:=\\/@$\"'{}^%\n\t\u00e9力"), min_size=1, max_size=40))
def test_a_text_shows_as_itself_wherever_it_stands(text: str) -> None:
    flat = " ".join(text.split())
    if not flat:
        return
    for before in ("", "# ", "- "):
        page = shown(before + escaped(text) + "\n")
        assert "".join(page.blocks).strip() == flat
        assert set(page.tags) <= {"p", "h1", "ul", "li"}
        assert len([tag for tag in page.tags if tag in ("ul", "h1")]) == (1 if before else 0)


def test_honest_words_stay_readable() -> None:
    assert escaped("Squat: 4 × 5, 70 kg (80 %); rest 3 min.") == "Squat: 4 × 5, 70 kg (80 %); rest 3 min."
    assert escaped("2. Then") == "2\\. Then"
    assert escaped("+5 kg") == "\\+5 kg"

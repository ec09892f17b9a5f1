"""Whatever letters an author uses: a sheet and a card can be set, and show as much of them as the fonts can."""

from __future__ import annotations

import contextlib
import io
from dataclasses import replace

import pdfplumber
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from plateset.publishing import typesetting
from plateset.publishing.sheets import program_sheets
from plateset.publishing.social_card import Card, card_image
from plateset.publishing.theme import CARD
from plateset.publishing.typesetting import NO_GLYPH, PanicError, printable
from plateset.shipped import shipped
from typst import TypstError

from tests.publishing.paper import PROGRAM, a_site, set_on

TEMPLATE = (shipped("themes") / "noticeboard" / CARD).read_bytes()
CURIOUS = st.sampled_from("\t\u202e\u030d\u028d\u20e3\ufe0f1#a\u00e9\u0301\u200d\u05d0\u05b0\u0627\u064b\u0915\u093f")


def said_on_paper(text: str) -> str:
    with pdfplumber.open(io.BytesIO(program_sheets(replace(PROGRAM, summary=text), a_site(), set_on("a4")))) as pdf:
        return str(pdf.pages[0].extract_text())


@pytest.mark.parametrize(
    "text",
    [
        "1\ufe0f\u20e3 warm up",
        "#\ufe0f\u20e3",
        "F\u20d7 a\u20e0 a\u20dd",
        "\u05d1\u05bc\u05b0\u05e8\u05b5\u05d0\u05e9\u05c1\u05b4\u0596\u05d9\u05ea",
        "\u0413\u0434\u2ded\u0487\u044c",
        "x\ufe20y\ufe21",
        "\u030dleading",
        "\u202e\t\u030d\u028d",
    ],
    ids=ascii,
)
def test_marks_that_no_font_sets_on_their_letter_stop_no_sheet(text: str) -> None:
    assert "Warm up well" in said_on_paper(f"Warm up well: {text}")
    assert card_image(Card("Program", text, text), a_site(), TEMPLATE)


def test_what_the_fonts_have_stays_as_it_was() -> None:
    for text in ("Gr\u00fc\u00dfe", "e\u0301", "\u0434\u0430", "\u0915\u093f", "tab\tbed"):
        assert NO_GLYPH not in printable(text), ascii(text)
    assert printable("tab\tbed") == "tab bed"
    assert printable("1\ufe0f\u20e3 set") in (f"{NO_GLYPH} set", "1 set")
    assert "Gr\u00fc\u00dfe aus dem Stall" in said_on_paper("Gr\u00fc\u00dfe aus dem Stall")


def test_a_panic_of_the_typesetter_is_an_error_that_can_be_told() -> None:
    """The text is one that its library gives up on; it is not handed over like this."""
    with contextlib.suppress(PanicError, TypstError):
        typesetting._compile(typesetting._PROBE, typesetting._written("\u202e\t\u030d\u028d"), ())
    assert typesetting._compile(typesetting._PROBE, typesetting._written("afterwards"), ())


def test_a_panic_is_told_by_its_name_since_it_is_no_exception() -> None:
    panic = type("PanicException", (BaseException,), {})
    with pytest.raises(PanicError, match="gave up: out of bounds"), typesetting.refusing():
        raise panic("out of bounds")
    with pytest.raises(KeyboardInterrupt), typesetting.refusing():
        raise KeyboardInterrupt


@given(st.text(st.one_of(st.characters(exclude_categories=["Cs"]), CURIOUS), min_size=1, max_size=30))
@example("\u25a1\u20e3")
def test_any_text_can_be_set(text: str) -> None:
    assert program_sheets(replace(PROGRAM, title=text[:20], summary=text), a_site(), set_on("a4"))
    assert card_image(Card("Program", text, text), a_site(), TEMPLATE)

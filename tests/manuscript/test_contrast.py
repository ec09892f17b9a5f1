"""Contrast of an accent, against the examples and the bounds of the WCAG 2.2 (W3C, 2023)."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from plateset.manuscript.contrast import PAPER, contrast
from plateset.proving import proof
from plateset.shipped import shipped


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),  # the greatest there is, by the definition of contrast ratio
        ("#ffffff", "#ffffff", 1.0),
        ("#777777", "#ffffff", 4.48),  # worked out by hand from the definition: just short of 4.5
        ("#767676", "#ffffff", 4.54),
    ],
)
def test_contrast_is_that_of_the_definition(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(one, other) == contrast(other, one)


def test_the_paper_is_that_of_the_theme() -> None:
    style = (shipped("themes") / "noticeboard" / "style.css").read_text(encoding="utf-8")
    assert f"--paper: {PAPER};" in style


def test_a_faint_accent_is_marked_where_it_stands(sound: Path, write: Callable[[str, str], Path]) -> None:
    site = (sound / "site.yaml").read_text(encoding="utf-8")
    before = {mark.name for mark in proof(sound, "book").marks}
    assert "accent-faint" not in before
    write("site.yaml", site + '\ncolours: {accent: "#e0b400"}\n')
    (placed,) = [each for each in proof(sound, "book").prose if each.mark.name == "accent-faint"]
    assert placed.place.path == "book/site.yaml"
    assert "#e0b400 stands at 1." in placed.mark.message
    assert not placed.mark.stops


def test_an_accent_that_can_be_read_is_not_marked(sound: Path, write: Callable[[str, str], Path]) -> None:
    site = (sound / "site.yaml").read_text(encoding="utf-8")
    write("site.yaml", site + '\ncolours: {accent: "#47284f"}\n')
    assert not [each for each in proof(sound, "book").prose if each.mark.name == "accent-faint"]

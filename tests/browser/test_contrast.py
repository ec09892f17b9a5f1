"""The formula the pages are measured with, against pairs that are known."""

from __future__ import annotations

import pytest

from tests.browser.contrast import Colour, contrast

WHITE = (255.0, 255.0, 255.0)


@pytest.mark.parametrize(
    ("colour", "ratio"),
    [((0x76, 0x76, 0x76), 4.54), ((0x77, 0x77, 0x77), 4.48), ((0, 0, 0), 21.0), ((255, 255, 255), 1.0)],
)
def test_known_pairs(colour: Colour, ratio: float) -> None:
    """#767676 is the lightest grey that will do on white, #777777 the first that will not."""
    assert contrast(colour, WHITE) == pytest.approx(ratio, abs=0.005)
    assert contrast(WHITE, colour) == contrast(colour, WHITE)

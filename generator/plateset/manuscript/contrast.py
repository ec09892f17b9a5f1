"""Whether a colour of the author's can be read on the theme's paper, as the WCAG 2.2 (W3C, 2023) measure it."""

from __future__ import annotations

PAPER = "#fcfaf5"
"""The theme's paper by day. At night the theme lightens the accent until it can be read, whatever it is."""

LEAST = 4.5
"""Success criterion 1.4.3, level AA, for text of any size."""


def luminance(colour: str) -> float:
    """Relative luminance of a colour such as ``#1a2b3c``, 0 to 1."""
    red, green, blue = (_linear(int(colour[start : start + 2], 16) / 255) for start in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21, whichever colour is the text."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)

"""Contrast of two colours, as the Web Content Accessibility Guidelines 2.2 (W3C, 2023) define it."""

from __future__ import annotations

Colour = tuple[float, float, float]
"""Red, green and blue of the sRGB space, 0 to 255."""

LEAST = 4.5
"""Success criterion 1.4.3, level AA, for text of any size."""


def luminance(colour: Colour) -> float:
    """Relative luminance."""
    red, green, blue = (_linear(channel / 255) for channel in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio, 1 to 21, whichever colour is the text."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)

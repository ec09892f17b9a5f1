"""How much is tried: a little and always the same by default; as much as ``PLATESET_FUZZ`` says, and new, if set."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

LONG = int(os.environ.get("PLATESET_FUZZ", "0"))
"""Examples of each test in a long run; 0 for the short one."""


def examples(few: int) -> settings:
    """``few`` examples, the same ones every time, or those of a long run."""
    return settings(
        max_examples=LONG or few,
        derandomize=not LONG,
        deadline=None,
        database=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
    )

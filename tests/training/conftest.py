"""Settings of the property tests: the same examples every time, and few enough to be quick."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("plateset", derandomize=True, deadline=None, max_examples=40, database=None)
settings.load_profile("plateset")

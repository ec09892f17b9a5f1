"""Where things are kept from press to press (XDG Base Directory Specification: relative paths do not count)."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.publishing.user_cache import CACHE, cache_folder


@pytest.mark.parametrize(
    ("shared", "kept"), [("", "~/.cache"), ("rel", "~/.cache"), ("/var/tmp/mine", "/var/tmp/mine")]
)
def test_it_lies_in_the_users_cache(shared: str, kept: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(CACHE, raising=False)
    monkeypatch.setenv("XDG_CACHE_HOME", shared)
    assert cache_folder() == Path(kept).expanduser() / "plateset"


def test_another_place_may_be_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(CACHE, "elsewhere")
    assert cache_folder() == Path("elsewhere")

"""What tests of every floor share: a small sound manuscript, and folders to lay faults over it."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from plateset.publishing.user_cache import CACHE

# No test is to fail by the clock: a machine may have other work.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

TESTS = Path(__file__).parent
SOUND = TESTS / "manuscript" / "sound"
CONTENT = TESTS.parent / "content"


@pytest.fixture(scope="session", autouse=True)
def _cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Ledgers of the tests are kept with the tests."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv(CACHE, str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture
def sound(tmp_path: Path) -> Path:
    """A copy of the sound manuscript, to change at will."""
    folder = tmp_path / "book"
    shutil.copytree(SOUND, folder)
    return folder


@pytest.fixture
def write(sound: Path) -> Callable[[str, str], Path]:
    """Write a file of the sound manuscript's copy."""

    def write_file(name: str, text: str) -> Path:
        path = sound / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return write_file
